"""Charges over sets of stocks, of one pool or several: what each counts, and its money."""
from functools import reduce
from math import gcd, inf, lcm

from pool import all_pieces, credit, demand, money_step, up


def over(charge):
    """The stocks that a charge is over, as (pool, stock)."""
    return [(of["pool"], of["stock"]) for of in charge["over"]]


def stock(problem, key):
    return problem["pools"][key[0]]["stocks"][key[1]]


def price(s):
    return s["cost"] if s.get("price") is None else s["price"]


def kind(charge):
    """Name and numbers: fixed, lift, minimum or range."""
    (name, k), = charge["kind"].items()
    return name, k


def free(k):
    """Where a fixed charge falls away."""
    return k.get("free_over", inf)


def weight(problem, charge, key):
    """What a joint adds to what the charge counts: its price, or one."""
    name, k = kind(charge)
    prices = name == "minimum" or name == "fixed" and free(k) < inf
    return price(stock(problem, key)) if prices else 1


def uncut(name, k):
    """May joints be bought and left whole for the charge's sake?"""
    return {"fixed": free(k) < inf, "lift": k.get("part_fee", 0) > 0,
            "minimum": k.get("least", 0) > 0, "range": k.get("least", 0) > 1}[name]


def uncut_stocks(problem, pool):
    """The stocks of a pool of which joints may stay whole."""
    charges = [c for c in problem.get("charges", []) if uncut(*kind(c))]
    return {s for c in charges for p, s in over(c) if p == pool}


def money(name, k, w):
    """Money of a charge that counts w; inf: no answer may count so much."""
    if w == 0:
        return 0
    if name == "fixed":
        return k["amount"] if w < free(k) else 0
    if name == "minimum":
        return max(0, k["least"] - w)
    if name == "lift":
        return up(w, k["lift"]) // k["lift"] * k["fee"] + (k["part_fee"] if w % k["lift"] else 0)
    return 0 if k["least"] <= w <= k.get("most", inf) else inf


def most_joints(problem, key):
    """Joints of a stock in some answer of least cost, uncut ones too. Those that stay uncut for
    free freight alone cost no more than the freight they save."""
    s, pool = stock(problem, key), problem["pools"][key[0]]
    want, reach, saved, lifts, spare = [0], [0], 0, [], False
    for name, k in (kind(c) for c in problem.get("charges", []) if key in over(c)):
        spare |= uncut(name, k)
        if name == "lift":
            lifts.append(k["lift"])
        elif name == "range":
            want.append(k["least"])
        elif name == "minimum":
            want.append(k["least"] // price(s) + 1)
        elif free(k) < inf:
            reach.append(free(k) // price(s) + 1)
            saved += k["amount"]
    each, most = s["cost"] - credit(pool, s["usable"]), max(want + reach)
    if each > 0:
        most = min(most, max(want) + saved // each + 1)
    return min(s["limit"], all_pieces(pool) + (most + lcm(*lifts) if spare else 0))


def whole_step(problem):
    """What every cost of the whole is a multiple of."""
    steps = [money_step(pool) for pool in problem["pools"]]
    for charge in problem.get("charges", []):
        name, k = kind(charge)
        fields = ["amount", "fee", "part_fee"] + ["least"] * (name == "minimum")
        steps += [k[field] for field in fields if field in k]
        for key in over(charge):
            s = stock(problem, key)
            steps.append(credit(problem["pools"][key[0]], s["usable"]))
            steps += [price(s)] * (name == "minimum")
    return max(1, reduce(gcd, steps))


def whole_cost(problem, answers, answer):
    """Money of all pools with their charges, which are what the answer says."""
    demand(len(answer["charges"]) == len(problem["charges"]), "money of each charge")
    taken = [((p, joint["stock"]), joint["times"])
             for p, pool in enumerate(answers) for joint in pool["patterns"]]
    for charge, said in zip(problem["charges"], answer["charges"]):
        keys = over(charge)
        w = sum(times * weight(problem, charge, key) for key, times in taken if key in keys)
        demand(money(*kind(charge), w) == said, f"{charge['name']}: its money")
    return sum(a["cost"] for a in answers) + sum(answer["charges"])
