"""What a tree counts: joints of a set of stocks or splices of a set of groups, each in an interval.

A leaf may pay mu for each counted: sum mu w is taken where it is least for w in the interval, and a
joint (a splice) of the set costs mu less. A single stock needs none: its interval is in the sum.
"""
from collections import Counter
from math import inf

from pool import demand


def counted(what):
    """A set as (what is counted, its members)."""
    (kind, members), = what.items()
    demand(members and members == sorted(set(members)), "a counted set out of order")
    return kind, tuple(members)


def of_stock(counts, stock, limit):
    """Fewest and most joints of one stock."""
    lo, hi = counts.get(("joints", (stock,)), (0, inf))
    return lo, min(hi, limit)


def parted(split, key, counts):
    """The two sides of a split with their intervals: at most so many, or more."""
    lo, hi = counts.get(key, (0, inf))
    most = split["most"]
    return [(split["under"], counts | {key: (lo, min(hi, most))}),
            (split["over"], counts | {key: (max(lo, most + 1), hi)})]


def halves(node, counts):
    """What lies under a node of a pool's tree; a leaf has nothing under it."""
    if "leaf" in node:
        return []
    return parted(node["split"], counted(node["split"]["counted"]), counts)


def walk(nodes, root, under):
    """Each leaf with its place; under(node, place) gives what is below a node, with places."""
    met, todo = set(), [(0, root)]
    while todo:
        n, place = todo.pop()
        demand(n not in met and 0 <= n < len(nodes), "nodes that are no tree")
        met.add(n)
        below = under(nodes[n], place)
        todo += below
        if not below:
            yield nodes[n], place
    demand(len(met) == len(nodes), "a node under no split")


def multipliers(duals, counts):
    """Sum of mu w, and what each stock and group is paid for each joint or splice."""
    total, paid = 0, Counter()
    for m in duals.get("multipliers", []):
        kind, members = key = counted(m["counted"])
        lo, hi = counts.get(key, (0, inf))
        demand(m["value"] >= 0 or hi < inf, "a multiplier of what nothing bounds")
        total += m["value"] * (lo if m["value"] >= 0 else hi)
        paid.update({(kind, i): m["value"] for i in members})
    return total, paid
