"""An aim other than money, as money: what it counts weighs more than the money of any plan."""
import json
from functools import reduce
from math import gcd

from verifier.answer import credit
from verifier.charges import at, kind, most, price, unit
from verifier.leaf import all_pieces

def weighed(problem):  # an aim other than money, as money: what it counts weighs more than any plan's money
    aim, money, charges = problem.get("aim", "money"), 0, problem.get("charges", [])
    if aim == "money": return problem
    for p, pool in enumerate(problem["pools"]):
        money += all_pieces(pool) * max((s["cost"] for s in pool["stocks"]), default=0)
        for g in pool["groups"]:
            for l in g["lines"]:
                dearest = g["splice_cost"] + max((s["charge"] for s in l["slots"]), default=0)
                money += g["count"] * l["most_splices"] * dearest
        for i, s in enumerate(pool["stocks"]):
            assert s["cost"] >= credit(pool, s["usable"]), "a drop pays more than its joint"
            money += max(0, most(problem, (p, i)) - all_pieces(pool)) * s["cost"]
    for c in charges:
        name, k = kind(c)
        if name == "lift": money += sum(most(problem, at(o)) for o in c["over"]) * k["fee"] + k["part_fee"]
        elif name != "range": money += k["amount"] if name == "fixed" else k["least"]
    weight = (money // unit(problem) + 1) * unit(problem)
    each = max(1, reduce(gcd, (s["length"] for q in problem["pools"] for s in q["stocks"]), 0))
    problem = json.loads(json.dumps(problem))
    for pool in problem["pools"]:
        for s in pool["stocks"]:
            s["price"] = price(s)
            s["cost"] += weight * {"joints": 1, "waste": s["length"] // each, "splices": 0}[aim]
        for g in pool["groups"]: g["splice_cost"] += weight * (aim == "splices")
    return problem
