"""Spliced lines in a bound: what a way of splicing costs at least, and what its pieces are worth.

A leaf gives each class rows of (length, dual): a piece is worth the duals of the rows it reaches.
  q_g = least (splices - mu + charges + worth of the pieces) over the ways of splicing group g
is what a group pays or more: sum N_g q_g comes into the bound, and what pieces are worth into r.
"""
from bisect import bisect_right
from itertools import accumulate, combinations, product
from math import comb, inf, prod

from pool import demand, most_pieces, up
from ties import least_worth, system


class Worth:
    """Of a piece of one class, by its length: it rises at some lengths and is level between."""

    def __init__(self, duals, cls):
        rows = sorted((length, dual) for length, c, dual in duals["length_duals"] if c == cls)
        demand(all(dual >= 0 for _, dual in rows), "a dual under 0")
        self.rises = [length for length, dual in rows if dual]
        self.sums = [0, *accumulate(dual for _, dual in rows if dual)]

    def __call__(self, length):
        return self.sums[bisect_right(self.rises, length)]

    def next_rise(self, length):
        return self.rises[bisect_right(self.rises, length)]


def piece_loads(pool, duals):
    """(class, length + kerf, worth, count): for each worth the shortest piece that has it."""
    loads = set()
    for cls in {group["class"] for group in pool["groups"]}:
        groups = [g for g in pool["groups"] if g["class"] == cls]
        lines = [line for g in groups for line in g["lines"]]
        worth, count = Worth(duals, cls), sum(map(most_pieces, groups))
        least = max(1, min(line["least_piece"] for line in lines))
        for rise in [1, *worth.rises]:
            wholes = [line["whole"] for line in lines if line["whole"] >= rise]
            length = min([up(max(rise, least), pool["mark"]), *wholes])
            loads.add((cls, length + pool["kerf"], worth(length), count))
    return sorted(loads)


def least_money(pool, duals, paid):
    """Sum of N_g q_g; inf: a group has no way at all."""
    total = 0
    for i, group in enumerate(pool["groups"]):
        if group["count"] > 0:
            splice = duals["dual_scale"] * group["splice_cost"] - paid["splices", i]
            total += group["count"] * cheapest(pool, group, duals, splice)
    return total


def cheapest(pool, group, duals, splice):
    """q_g: ways of each line by themselves, then two lines together, the cheapest first."""
    serving = [s for s in pool["stocks"] if s["limit"] != 0 and s["serves"] >> group["class"] & 1]
    longest = max((s["usable"] for s in serving), default=0)
    worth, best = Worth(duals, group["class"]), inf
    mark, scale = pool["mark"], duals["dual_scale"]
    if is_loose(group):
        from alone import least_alone
        money = scale, splice
        return sum(least_alone(line, mark, longest, worth, *money) for line in group["lines"])
    ways = [sorted(line_ways(line, mark, longest, worth, scale, splice)) for line in group["lines"]]
    for picked in product(*ways):
        if sum(alone for alone, _, _ in picked) >= best:
            continue
        lines = [(line, slots) for line, (_, _, slots) in zip(group["lines"], picked) if slots]
        zones = [{line["slots"][i]["zone"] for i in slots} for line, slots in lines]
        if group["zones_exclusive"] and len(zones) == 2 and zones[0] & zones[1]:
            continue
        beside = sum(money for _, money, _ in picked)
        ties, pieces, either = system(lines, mark, longest, group["apart"])
        best = beside + least_worth(ties, pieces, either, mark, worth, best - beside)
    return best


def is_loose(group):
    """More ways of choosing slots than are gone through: its lines are bounded each by itself."""
    def choices(line):
        counts = range(line["least_splices"], line["most_splices"] + 1)
        return sum(comb(len(line["slots"]), m) for m in counts)
    each = [choices(line) for line in group["lines"]]
    return max(each) > 10_000 or prod(each) > 25_000_000


def line_ways(line, mark, longest, worth, scale, splice):
    """(least money, money beside the pieces' worth, slots) for each choice of slots, one a zone."""
    if line["least_splices"] == 0 and line["whole"] <= longest:
        yield worth(line["whole"]), worth(line["whole"]), ()
    for m in range(max(1, line["least_splices"]), line["most_splices"] + 1):
        for slots in combinations(range(len(line["slots"])), m):
            taken = [line["slots"][i] for i in slots]
            if len({slot["zone"] for slot in taken}) < m:
                continue
            beside = m * splice + scale * sum(slot["charge"] for slot in taken)
            ties, pieces, either = system([(line, slots)], mark, longest)
            alone = beside + least_worth(ties, pieces, either, mark, worth, inf)
            if alone < inf:
                yield alone, beside, slots
