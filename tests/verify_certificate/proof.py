"""The page that matters: what an answer costs, and why no answer costs less than its bound.

A proof is a tree. A split says: at most so many joints of some stocks, or more; every answer lies
in one leaf. A leaf has duals pi >= 0, what a piece of each item is worth in 1/dual_scale of money.
With r the least of (cost - credit of the drop - pi of the pieces) over the non-empty patterns of a
stock, an answer costs sum pi n + sum r x or more, n pieces of each item and x joints of each stock;
the bound is the least of it. Sets of stocks (counts.py) and lines (splice_bound.py) add to it.
"""
from collections import Counter
from functools import lru_cache
from math import inf
from counts import halves, multipliers, of_stock, walk
from pool import all_pieces, at, credit, demand, money_step, room, up, wanted_items

def cost(pool, answer, uncut=()):
    """Money of an answer that cuts just what is wanted; joints of stocks `uncut` may stay whole."""
    cut, taken, money = Counter(), Counter(), 0
    for joint in answer["patterns"]:
        stock, times, filled = at(pool["stocks"], joint["stock"]), joint["times"], 0
        for name in joint["cuts"]:
            piece = name.get("piece") or at(pool["items"], name["item"])
            demand(stock["serves"] >> piece["class"] & 1, "a piece its stock may not serve")
            filled += piece["length"] + pool["kerf"]
            cut[name.get("item", (piece["length"], piece["class"]))] += times
        demand(filled > 0 or joint["stock"] in uncut, "a joint from which nothing is cut")
        demand(filled - pool["kerf"] <= stock["usable"], "an overfull joint")
        money += times * (stock["cost"] - credit(pool, max(0, stock["usable"] - filled)))
        taken[joint["stock"]] += times
    demand(all(taken[i] <= s["limit"] for i, s in enumerate(pool["stocks"])), "too many of a stock")
    wanted = wanted_items(pool, answer)
    if pool["groups"]:
        from splices import make
        money += make(pool, answer, wanted)
    demand(cut == wanted, "pieces cut are not the pieces wanted")
    return money

@lru_cache(maxsize=8)
def best_worth(loads, room):
    """By weight (length + kerf of each piece) the most that pieces together so heavy are worth."""
    best = {0: 0}
    for weight, worth, count in sorted(loads, reverse=True):
        for _ in range(min(count, room // weight) if worth else 0):
            for w, v in [(w, v) for w, v in best.items() if w + weight <= room]:
                best[w + weight] = max(v + worth, best.get(w + weight, 0))
    # A worthless piece only makes the drop shorter, but the lightest may be all that is cut.
    best.setdefault(min((w for w, _, n in loads if n > 0 and w <= room), default=0), 0)
    return best

def leaf(pool, duals, counts):
    """The bound of a leaf, where each counted set lies in its interval; inf: no answer is there."""
    items, pi, scale, kerf = pool["items"], duals["item_duals"], duals["dual_scale"], pool["kerf"]
    demand(scale >= 1 and len(pi) == len(items) and min(pi, default=0) >= 0, "duals out of order")
    loads = [(i["class"], i["length"] + kerf, worth, i["count"]) for i, worth in zip(items, pi)]
    total, paid = multipliers(duals, counts)
    total += sum(worth * count for _, _, worth, count in loads)
    if pool["groups"]:
        from splice_bound import least_money, piece_loads
        total += least_money(pool, duals, paid)
        loads += piece_loads(pool, duals)
    for i, s in enumerate(pool["stocks"]):
        served = tuple(load[1:] for load in loads if s["serves"] >> load[0] & 1)
        u, (lo, hi) = s["usable"], of_stock(counts, i, s["limit"])
        r = min((scale * (s["cost"] - credit(pool, max(0, u - w))) - v - paid["joints", i]
                for w, v in best_worth(served, room(pool)).items() if 0 < w <= u + kerf), default=0)
        total += inf if lo > hi else r * (lo if r > 0 else min(hi, all_pieces(pool)))
    return total if total == inf else up(total, scale * money_step(pool)) // scale

def bound(pool, nodes):
    """The least bound over the leaves of the tree."""
    return min(leaf(pool, node["leaf"], counts) for node, counts in walk(nodes, {}, halves))
