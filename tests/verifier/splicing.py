"""q_g: the cheapest configuration of a group at given worths of pieces, exactly, over every position on the saw mark.

For each choice of slots the positions are whole numbers tied by differences (closed by shortest paths); the worth of
a piece never falls with its length, so the least lengths of the closed system bound it from below, and where its
least solution is worth more the search splits a piece's length at the next rise.
"""

def ceil(a, b): return -(-a // b)

def close(d):  # shortest paths; d[x][y]: x - y at most; None: no solution
    n = range(len(d))
    for v in n:
        for x in n:
            if d[x][v] is None: continue
            for y in n:
                if d[v][y] is not None and (d[x][y] is None or d[x][v] + d[v][y] < d[x][y]):
                    d[x][y] = d[x][v] + d[v][y]
    return d if all(d[x][x] >= 0 for x in n) else None

def tie(d, x, y, at_most):
    if d[x][y] is None or at_most < d[x][y]: d[x][y] = at_most

class Line:  # with m splices, in marks of metal before each; centres exact, times 2m
    def __init__(self, line, m, mark, longest):
        self.l, self.m, self.mark, self.longest = line, m, mark, longest // mark
        self.metal = (line["length"] - m * line["gap"]) // mark
        self.slack = line["length"] - self.metal * mark
        self.least = max(1, ceil(line["least_piece"], mark))
    def span(self, j, i):  # an end that another slot holds cheaper, or as cheap and earlier, is that one's
        slots, t, g = self.l["slots"], 2 * self.m, (2 * j - 1) * self.slack
        s = slots[i]
        lost = lambda end: any((o["charge"], n) < (s["charge"], i)
                               for n, o in enumerate(slots) if o["lo"] <= end <= o["hi"])
        lo, hi = t * s["lo"] - g + lost(s["lo"]), t * s["hi"] - g - lost(s["hi"])
        return ceil(lo, t * self.mark), hi // (t * self.mark)
    def choices(self, taken=(), lo=0, hi=0):
        j = len(taken) + 1
        if j > self.m: yield taken; return
        for i in range(taken[-1] + 1 if taken else 0, len(self.l["slots"])):
            s, left = self.l["slots"][i], self.m + 1 - j
            if any(self.l["slots"][t]["zone"] == s["zone"] for t in taken): continue
            a, b = self.span(j, i)
            a = max(a, lo + self.least, self.metal - left * self.longest)
            b = min(b, hi + self.longest, self.metal - left * self.least)
            if a <= b: yield from self.choices(taken + (i,), a, b)

def system(lines):  # ties within each line and its pieces (from, to or None at the line's end, metal)
    n = 1 + sum(len(s) for _, s in lines)
    d, spans, before = [[0 if x == y else None for y in range(n)] for x in range(n)], [], 0
    for line, slots in lines:
        for j, s in enumerate(slots, 1):
            me, (lo, hi) = before + j, line.span(j, s)
            tie(d, me, 0, hi); tie(d, 0, me, -lo)
            spans.append((me - 1 if j > 1 else 0, me, line.metal))
            if j > 2:
                over = line.l["three_over"] * line.m - 2 * line.slack
                tie(d, me - 2, me, -(over // (line.m * line.mark) + 1))
        spans.append((before + line.m, None, line.metal))
        for f, t, metal in spans[-len(slots) - 1:]:
            bound(d, f, t, metal, line.longest, True); bound(d, f, t, metal, line.least, False)
        before += len(slots)
    return d, spans

def bound(d, f, t, metal, marks, at_most):
    if t is None: tie(d, 0, f, marks - metal) if at_most else tie(d, f, 0, metal - marks)
    else: tie(d, t, f, marks) if at_most else tie(d, f, t, -marks)

def lower(d, spans, mark, w, best):  # least worth of the pieces over the system's solutions
    d = close([r[:] for r in d])
    if d is None: return best
    least = [(metal - d[f][0] if t is None else -d[f][t]) * mark for f, t, metal in spans]
    laid = [((metal if t is None else -d[0][t]) + d[0][f]) * mark for f, t, metal in spans]
    lo, up = sum(map(w.of, least)), sum(map(w.of, laid))
    if best is not None and lo >= best: return best
    best = up if best is None else min(best, up)
    if up == lo: return best
    i = max(range(len(spans)), key=lambda i: w.of(laid[i]) - w.of(least[i]))
    (f, t, metal), marks = spans[i], ceil(w.rise(least[i]), mark)
    for at_most, n in ((True, marks - 1), (False, marks)):
        e = [r[:] for r in d]; bound(e, f, t, metal, n, at_most); best = lower(e, spans, mark, w, best)
    return best

def ways(line, mark, longest, w, scale, splice):
    for m in range(line["least_splices"], line["most_splices"] + 1):
        if m == 0:
            if line["whole"] <= longest: yield w.of(line["whole"]), w.of(line["whole"]), None, ()
            continue
        chain = Line(line, m, mark, longest)
        for slots in chain.choices() if chain.metal > 0 else ():
            fixed = m * splice + scale * sum(line["slots"][s]["charge"] for s in slots)
            worth = lower(*system([(chain, slots)]), mark, w, None)
            if worth is not None: yield fixed + worth, fixed, chain, slots

def orders(g, a, b, pairs, d, spans, mark, w, best):
    d = close([r[:] for r in d])
    if d is None: return best
    if not pairs: return lower(d, spans, mark, w, best)
    i, j = pairs[0]
    x, y = (i, a, i), (j, b, a.m + j)
    for (ja, p, u), (jb, q, v) in ((x, y), (y, x)):  # q's splice behind p's
        need = 2 * p.m * q.m * g["apart"] - (2 * jb - 1) * q.slack * p.m + (2 * ja - 1) * p.slack * q.m
        e = [r[:] for r in d]; tie(e, u, v, -ceil(need, 2 * p.m * q.m * mark))
        best = orders(g, a, b, pairs[1:], e, spans, mark, w, best)
    return best

def cheapest(g, mark, longest, w, scale, splice):
    found = [sorted(ways(l, mark, longest, w, scale, splice), key=lambda t: t[0]) for l in g["lines"]]
    if len(found) == 1: return found[0][0][0] if found[0] else None
    best = None
    for va, fa, a, sa in found[0]:
        for vb, fb, b, sb in found[1]:
            if best is not None and va + vb >= best: break
            if a is None or b is None: best = va + vb; continue
            zones = {a.l["slots"][s]["zone"] for s in sa} & {b.l["slots"][s]["zone"] for s in sb}
            if zones and g["zones_exclusive"]: continue
            pairs = [(i, j) for i in range(1, a.m + 1) for j in range(1, b.m + 1)]
            start = None if best is None else best - fa - fb
            worth = orders(g, a, b, pairs, *system([(a, sa), (b, sb)]), mark, w, start)
            if worth is not None: best = worth + fa + fb
    return best
