"""Spliced lines of an answer: whether each is spliced where it may be, and what that costs."""
from collections import Counter
from fractions import Fraction
from itertools import chain, product

from pool import at, demand


def make(pool, answer, wanted):
    """Money of all splices and charges; their pieces join what is wanted."""
    made, money = Counter(dict(answer["short_groups"])), 0
    for way in answer["configurations"]:
        group, times = at(pool["groups"], way["group"]), way["times"]
        demand(len(way["lines"]) == len(group["lines"]), "a group of other lines")
        stands = [stand(line, pool["mark"], pieces)
                  for line, pieces in zip(group["lines"], way["lines"])]
        keep_apart(group, stands)
        each = sum(group["splice_cost"] + slot["charge"] for _, slot in chain(*stands))
        money += times * each
        made[way["group"]] += times
        for length in chain(*way["lines"]):
            wanted[length, group["class"]] += times
    for i, group in enumerate(pool["groups"]):
        demand(made[i] == group["count"], f"{group['name']}: its count")
    return money


def stand(line, mark, pieces):
    """Centre and slot of each splice of one line made of these pieces."""
    m, stands = len(pieces) - 1, []
    demand(line["least_splices"] <= m <= line["most_splices"], "a line of so many pieces")
    if m == 0:
        demand(pieces == [line["whole"]] and line["whole"] > 0, "a whole line that is not whole")
        return []
    metal = (line["length"] - m * line["gap"]) // mark * mark
    fit = all(p % mark == 0 and p >= max(1, line["least_piece"]) for p in pieces)
    demand(fit and sum(pieces) == metal, "pieces of a line")
    for j in range(1, m + 1):
        gaps = Fraction((line["length"] - metal) * (2 * j - 1), 2 * m)
        centre = sum(pieces[:j]) + gaps
        slots = [slot for slot in line["slots"] if slot["lo"] <= centre <= slot["hi"]]
        demand(slots, "a splice in no slot")
        stands.append((centre, min(slots, key=lambda slot: slot["charge"])))
    demand(len({slot["zone"] for _, slot in stands}) == m, "two splices in a zone")
    near = any(c[0] - a[0] <= line["three_over"] for a, c in zip(stands, stands[2:]))
    demand(not near, "three splices too near")
    return stands


def keep_apart(group, stands):
    """The two lines of a group keep their splices apart."""
    for (a, one), (b, other) in product(*stands) if len(stands) == 2 else ():
        demand(abs(a - b) >= group["apart"], "splices of two lines too near")
        exclusive = group["zones_exclusive"]
        demand(not exclusive or one["zone"] != other["zone"], "splices of two lines in a zone")
