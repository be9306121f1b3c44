"""What a line costs at least by itself, however many splices it has.

Left out are the rule of three splices and all that ties it to another line: that can only make
it cheaper, so the sum over the lines of a group bounds the group. Metal in front of a splice, in
marks, is carried from splice to splice as spans of one cost; a piece is read as "at most so long"
for each worth it can have, since a shorter one is never worth more.
"""
from fractions import Fraction
from math import ceil, floor, inf


def least_alone(line, mark, longest, worth, scale, splice):
    """Least splices + charges + worth of pieces; inf: the line has no way."""
    best = worth(line["whole"]) if line["least_splices"] == 0 and line["whole"] <= longest else inf
    ends = own_ends(line["slots"])
    for m in range(max(1, line["least_splices"]), line["most_splices"] + 1):
        best = min(best, m * splice + carried(line, ends, m, mark, longest, worth, scale))
    return best


def own_ends(slots):
    """For each slot, whether its two ends belong to another that holds them cheaper, or as cheap
    and earlier."""
    def lost(k, centre):
        holding = [(slots[i]["charge"], i) for i in range(max(0, k - 3), min(len(slots), k + 4))
                   if slots[i]["lo"] <= centre <= slots[i]["hi"]]
        return int(min(holding) < (slots[k]["charge"], k))
    return [(lost(k, slot["lo"]), lost(k, slot["hi"])) for k, slot in enumerate(slots)]


def lengths(least, longest, mark, worth):
    """(longest piece in marks, worth), rising."""
    out, start = [], least
    while start <= longest:
        after = [r for r in worth.rises if r > start * mark]
        rise = ceil(Fraction(after[0], mark)) if after else inf
        out.append((min(rise - 1, longest), worth(start * mark)))
        start = rise
    return out


def carried(line, ends, m, mark, longest, worth, scale):
    """Least charges + worth of pieces with m splices."""
    metal = (line["length"] - m * line["gap"]) // mark
    least, longest = max(1, ceil(Fraction(line["least_piece"], mark))), longest // mark
    slack, steps = line["length"] - metal * mark, lengths(least, longest, mark, worth)
    levels = [(0, 0, None, 0)]
    for j in range(1, m + 1):
        shift, reached = (2 * j - 1) * slack, []
        for slot, (first, last) in zip(line["slots"], ends):
            # Marks of metal that put the centre, shift / 2m behind them, inside the slot.
            lo = -((shift - 2 * m * slot["lo"] - first) // (2 * m * mark))
            hi = (2 * m * slot["hi"] - last - shift) // (2 * m * mark)
            lo = max(lo, metal - (m + 1 - j) * longest)
            hi = min(hi, metal - (m + 1 - j) * least)
            spans = arrivals(levels, lo, hi, slot["zone"], least, longest, steps)
            money = slot["charge"] * scale
            reached += [(a, b, slot["zone"], c + money) for a, b, c in cheapest(spans, lo, hi)]
        levels = reached
    spans = arrivals(levels, metal, metal, None, least, longest, steps) if metal > 0 else []
    return min((cost for _, _, cost in spans), default=inf)


def arrivals(levels, lo, hi, zone, least, longest, steps):
    """(from, to, cost): spans of a slot that these levels reach."""
    out = []
    for a, b, before, cost in levels if lo <= hi else ():
        barred = zone is not None and before == zone
        if barred or a + least > hi or b + longest < lo:
            continue
        for length, worth in steps:
            if b + length >= lo:
                out.append((max(lo, a + least), min(hi, b + length), cost + worth))
            if b + length >= hi:
                break
    return out


def cheapest(spans, lo, hi):
    """Of overlapping spans the cheapest at each position."""
    free = [(lo, hi)]
    for start, end, cost in sorted(spans, key=lambda span: span[2]):
        left = []
        for a, b in free:
            first, last = max(a, start), min(b, end)
            if first > last:
                left.append((a, b))
                continue
            yield first, last, cost
            left += [gap for gap in ((a, first - 1), (last + 1, b)) if gap[0] <= gap[1]]
        free = left
        if not free:
            break
