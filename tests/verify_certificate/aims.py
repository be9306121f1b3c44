"""Aims other than money: one of what the aim counts weighs more than the money of any plan."""
from copy import deepcopy
from functools import reduce
from math import gcd

from charges import kind, most_joints, over, price, whole_step
from pool import all_pieces, credit, demand


def weighed(problem):
    """The problem with its aim as money; cost = weight x count + money."""
    aim, step = problem.get("aim", "money"), whole_step(problem)
    if aim == "money":
        return problem
    weight = (most_money(problem) // step + 1) * step
    lengths = [s["length"] for pool in problem["pools"] for s in pool["stocks"]]
    unit = max(1, reduce(gcd, lengths, 0))
    problem = deepcopy(problem)
    for pool in problem["pools"]:
        for s in pool["stocks"]:
            s["price"] = price(s)
            s["cost"] += weight * {"joints": 1, "waste": s["length"] // unit}.get(aim, 0)
        for group in pool["groups"]:
            group["splice_cost"] += weight * (aim == "splices")
    return problem


def most_money(problem):
    """No plan costs more: a joint for each piece, each splice at its dearest, every charge."""
    money = 0
    for p, pool in enumerate(problem["pools"]):
        pays = any(s["cost"] < credit(pool, s["usable"]) for s in pool["stocks"])
        demand(not pays, "a drop pays more than its joint")
        pieces = all_pieces(pool)
        money += pieces * max((s["cost"] for s in pool["stocks"]), default=0)
        for i, s in enumerate(pool["stocks"]):
            money += s["cost"] * max(0, most_joints(problem, (p, i)) - pieces)
        for group in pool["groups"]:
            for line in group["lines"]:
                dearest = max((slot["charge"] for slot in line["slots"]), default=0)
                each = group["splice_cost"] + dearest
                money += group["count"] * line["most_splices"] * each
    for charge in problem.get("charges", []):
        name, k = kind(charge)
        if name == "lift":
            joints = sum(most_joints(problem, key) for key in over(charge))
            money += joints * k["fee"] + k["part_fee"]
        elif name != "range":
            money += k["amount"] if name == "fixed" else k["least"]
    return money
