"""The bound of all pools with their charges: a tree over joints and over what each charge counts.

In a leaf each charge lies over a line: money(w) >= least of (money - slope w) + slope w. The slopes
go into the cost of the joints, and every pool is then proved by itself at costs so moved. Money is
counted in 1/grain. Joints may be bought and left whole there: where a joint costs less than its
whole length is credited, as many as there may be are bought anyway, each at that credit.
"""
from copy import deepcopy
from math import inf

from charges import free, kind, money, most_joints, over, weight, whole_step
from counts import parted, walk
from pool import all_pieces, credit, demand, up
from proof import bound

MANY = 2 ** 63 - 1


def whole_bound(problem, answer):
    """The least bound over the leaves of the charges' tree; inf: no answer at all."""
    charges, grain = problem["charges"], answer["grain"]
    demand(grain >= 1, "a grain under 1")
    root = {i: (0, MANY) for i in range(len(charges))}
    root |= {key: (0, most_joints(problem, key)) for c in charges for key in over(c)}
    found = []
    for node, place in walk(answer["nodes"], root, lambda *at: below(problem, *at)):
        place = place and tight(problem, place)
        lines = place and [corners(*kind(c), *place[i]) for i, c in enumerate(charges)]
        empty = not place or [] in lines
        demand(node != "nothing" or empty, "a node that is not empty")
        if node != "nothing":
            found.append(inf if empty else leaf(problem, answer, node["leaf"], place, lines))
    least = min(found, default=inf)
    return least if least == inf else up(least, grain * whole_step(problem)) // grain


def below(problem, node, place):
    """The sides of a split of a charge's count or of joints; place None: nothing lies there."""
    if node == "nothing" or "leaf" in node:
        return []
    (what, split), = node.items()
    place = place and tight(problem, place)
    if not place:
        return [(split["under"], None), (split["over"], None)]
    key = split["charge"] if what == "charge" else (split["of"]["pool"], split["of"]["stock"])
    demand(key in place, "a split of what no charge is over")
    return parted(split, key, place)


def tight(problem, place):
    """Charges bound joints, joints bound charges; None: nothing lies here."""
    place = dict(place)
    for i, charge in enumerate(problem["charges"]):
        (name, k), (lo, hi) = kind(charge), place[i]
        if name == "range":
            top = min(hi, k.get("most", inf))
            place[i] = lo, top if top >= k["least"] else 0
        for key in over(charge):
            fewest, most = place[key]
            place[key] = fewest, min(most, place[i][1] // weight(problem, charge, key))
    for i, charge in enumerate(problem["charges"]):
        counts = [(place[key], weight(problem, charge, key)) for key in over(charge)]
        low, high = (sum(joints[end] * w for joints, w in counts) for end in (0, 1))
        place[i] = max(place[i][0], low), min(place[i][1], high)
    return place if all(lo <= hi for lo, hi in place.values()) else None


def corners(name, k, lo, hi):
    """(w, money): at any slope b the least of money - b w over [lo, hi] is at one of them."""
    lift, turns = k.get("lift", 1), (free(k), free(k) - 1, k.get("least", 0), k.get("most", inf))
    places = {lo, hi, 0, 1, up(max(lo, 1), lift), hi // lift * lift, *turns}
    return [(w, money(name, k, w)) for w in places if lo <= w <= hi and money(name, k, w) < inf]


def leaf(problem, answer, node, place, lines):
    """The bound of a leaf, in 1/grain of money."""
    slopes, grain = node["slopes"], answer["grain"]
    demand(len(slopes) == len(problem["charges"]), "slopes of a leaf")
    demand(len(node["proofs"]) == len(problem["pools"]), "proofs of a leaf")
    total = sum(min(grain * m - slope * w for w, m in line) for line, slope in zip(lines, slopes))
    for p, proof in enumerate(node["proofs"]):
        pool, beside = moved(problem, p, place, slopes, grain)
        total += bound(pool, answer["proofs"][proof]) + beside
    return total


def in_grains(pool, grain):
    """The pool with its money in 1/grain."""
    pool = deepcopy(pool)
    pool["credit"]["per_foot"] *= grain
    for s in pool["stocks"]:
        s["cost"] *= grain
    for group in pool["groups"]:
        group["splice_cost"] *= grain
        for slot in (slot for line in group["lines"] for slot in line["slots"]):
            slot["charge"] *= grain
    return pool


def moved(problem, p, place, slopes, grain):
    """The pool at moved costs, and the money beside it."""
    pool, beside, stocks = in_grains(problem["pools"][p], grain), 0, []
    for i, s in enumerate(pool["stocks"]):
        if (p, i) not in place:
            stocks.append(s)
            continue
        paying = [(c, b) for c, b in zip(problem["charges"], slopes) if (p, i) in over(c)]
        cost = s["cost"] + sum(b * weight(problem, c, (p, i)) for c, b in paying)
        (least, top), owned = place[p, i], credit(pool, s["usable"])
        anyway = top if cost < owned else least
        beside += (cost - owned) * anyway
        if cost < owned or anyway > 0:
            stocks.append(limited(pool, s, owned, anyway))
        if cost >= owned:
            # Those bought anyway are cut first.
            others = min(top - least, max(0, all_pieces(pool) - least))
            stocks.append(limited(pool, s, cost, others))
    return pool | {"stocks": stocks}, beside


def limited(pool, s, cost, most):
    """A stock at that cost, so many of it: no limit where there was none and none is felt."""
    endless = s["limit"] == inf and most >= all_pieces(pool)
    return s | {"cost": cost, "limit": inf if endless else most}
