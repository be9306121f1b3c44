"""Where the splices of lines may stand together, and the least that their pieces are worth so.

Positions are counted in marks of pipe from the line's start. They are tied by differences: d[x][y]
is the most of x - y, with 0 the start of both lines; ties are kept closed by shortest ways.
"""
from fractions import Fraction
from itertools import pairwise, product
from math import ceil, floor, inf

from pool import up


def tied(d, x, y, most):
    """The ties with x - y <= most too; None: they have no solution."""
    if d is None or d[y][x] + most < 0:
        return None
    return [[min(v, row[x] + most + d[y][j]) for j, v in enumerate(row)] for row in d]


def system(lines, mark, longest, apart=0):
    """Ties of lines spliced in these slots; pieces as (from, to); splices that keep apart."""
    n = 1 + sum(len(slots) + 1 for _, slots in lines)
    d = [[0 if x == y else inf for y in range(n)] for x in range(n)]
    pieces, shifts, end = [], [], 0
    for line, slots in lines:
        start, end = end, end + len(slots) + 1
        ties, shift = line_ties(line, slots, mark, start)
        marks = [0, *range(start + 1, end + 1)]
        for a, b in pairwise(marks):
            ties.append((b, a, longest // mark))
            ties.append((a, b, -max(1, ceil(Fraction(line["least_piece"], mark)))))
            pieces.append((a, b))
        for tie in ties:
            d = tied(d, *tie)
        shifts.append(shift)
    either = []
    if len(shifts) == 2:
        for (x, a), (y, b) in product(shifts[0].items(), shifts[1].items()):
            either.append([(x, y, floor((b - a - apart) / mark)),
                           (y, x, floor((a - b - apart) / mark))])
    return d, pieces, either


def line_ties(line, slots, mark, start):
    """Ties of the splices of one line, numbered from start + 1; by how much a centre is further."""
    m, end = len(slots), start + len(slots) + 1
    metal = (line["length"] - m * line["gap"]) // mark
    slack = line["length"] - metal * mark
    ties, shift = [(end, 0, metal), (0, end, -metal)], {}
    for j, i in enumerate(slots, 1):
        slot, x = line["slots"][i], start + j
        shift[x] = Fraction(slack * (2 * j - 1), 2 * m)
        hi = slot["hi"] - lost(line, i, slot["hi"], m) - shift[x]
        lo = slot["lo"] + lost(line, i, slot["lo"], m) - shift[x]
        ties += [(x, 0, floor(hi / mark)), (0, x, -ceil(lo / mark))]
        if j > 2:
            over = Fraction(line["three_over"] - Fraction(2 * slack, m), mark)
            ties.append((x - 2, x, -floor(over) - 1))
    return ties, shift


def lost(line, i, centre, m):
    """What a slot gives up where another holds its end cheaper, or as cheap and earlier: the next
    centre further in, which is 1/2m away."""
    own = (line["slots"][i]["charge"], i)
    others = [(s["charge"], k) for k, s in enumerate(line["slots"]) if s["lo"] <= centre <= s["hi"]]
    return Fraction(int(min(others, default=own) < own), 2 * m)


def least_worth(d, pieces, either, mark, worth, best):
    """Least worth of the pieces under these ties, or best where that is less."""
    if d is None:
        return best
    low = [worth(-d[a][b] * mark) for a, b in pieces]
    if sum(low) >= best:
        return best
    if either:
        for tie in either[0]:
            best = least_worth(tied(d, *tie), pieces, either[1:], mark, worth, best)
        return best
    # Each splice as near the start as it may stand.
    laid = [worth((d[0][a] - d[0][b]) * mark) for a, b in pieces]
    best = min(best, sum(laid))
    if best == sum(low):
        return best
    _, (a, b) = max((long - short, piece) for short, long, piece in zip(low, laid, pieces))
    rise = up(worth.next_rise(-d[a][b] * mark), mark) // mark
    for tie in (b, a, rise - 1), (a, b, -rise):
        best = least_worth(tied(d, *tie), pieces, [], mark, worth, best)
    return best
