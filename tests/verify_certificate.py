"""Re-verifies the lower bounds of a plan.json (its "nest": problem and answers), standard library only.

A proof is a tree whose nodes split a count of joints or of splices. For any duals pi >= 0 of a leaf, in
units of 1/dual_scale money, and multipliers mu of the counted sets,
  bound = sum pi_i n_i + sum min mu w + sum_s min n r_s + sum_g N_g q_g, rounded up to what all costs share,
  r_s = least (cost - credit - pi of the pieces - mu) over non-empty patterns of stock s,
  q_g = least (splices - mu + charges + pi of the pieces) over the configurations of group g,
w and n over their intervals in the leaf.
Prints one line per pool; exit code 1 when a claimed bound is not proved, 2 when nothing can be read.
Usage: verify_certificate.py FILE
"""
import json, sys
from functools import reduce
from math import gcd

def ceil(a, b): return -(-a // b)

class Worth:  # of a piece: the sum of the rows at or under its length, of its class
    def __init__(self, rows, cls):
        self.rows = sorted((l, d) for l, c, d in rows if c == cls)
    def of(self, length): return sum(d for l, d in self.rows if l <= length)
    def rise(self, length):
        return min((l for l, d in self.rows if l > length and d > 0), default=None)

def credit(pool, drop):
    c = pool["credit"]
    return c["per_foot"] * (drop // c["foot"]) if drop >= c["keep"] else 0

def pieces(g): return g["count"] * sum(l["most_splices"] + 1 for l in g["lines"])

def loads(pool, duals, worth, serves):  # (length + kerf, worth, how many there may be)
    k, out = pool["kerf"], []
    for it, dual in zip(pool["items"], duals["item_duals"]):
        if serves >> it["class"] & 1: out.append((it["length"] + k, dual, it["count"]))
    for cls, w in worth.items():
        if not serves >> cls & 1: continue
        groups = [g for g in pool["groups"] if g["class"] == cls]
        lines, most = [l for g in groups for l in g["lines"]], sum(map(pieces, groups))
        least = max(1, min(l["least_piece"] for l in lines))
        def shortest(a):
            marked = ceil(max(a, least), pool["mark"]) * pool["mark"]
            return min([marked] + [l["whole"] for l in lines if l["whole"] >= a])
        for a in sorted({shortest(a) for a in [1] + [l for l, _ in w.rows]}):
            out.append((a + k, w.of(a), most))
    return out

def table(loads, capacity):  # best worth by exact weight of what is cut
    best = {0: 0}
    for weight, worth, most in sorted(loads, reverse=True):
        if worth <= 0: continue
        n, bundle = min(most, capacity // weight), 1
        while n > 0:
            t = min(bundle, n)
            for w, v in list(best.items()):
                x = w + t * weight
                if x <= capacity and v + t * worth > best.get(x, -1): best[x] = v + t * worth
            n, bundle = n - t, bundle * 2
    return best

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

def step(pool):  # what every cost is a multiple of
    reach = max((s["usable"] - pool["kerf"] - 1 for s in pool["stocks"] if s["limit"] != 0), default=0)
    reached = reach >= max(pool["credit"]["keep"], pool["credit"]["foot"])
    money = [s["cost"] for s in pool["stocks"]] + [g["splice_cost"] for g in pool["groups"]]
    money += [s["charge"] for g in pool["groups"] for l in g["lines"] for s in l["slots"]]
    return max(1, reduce(gcd, money, pool["credit"]["per_foot"] if reached else 0))

def leaf(pool, duals, counts):  # bound inside the counts' intervals; None: no answer lies there
    scale, groups = duals["dual_scale"], pool["groups"]
    assert scale >= 1 and len(duals["item_duals"]) == len(pool["items"]), "duals do not fit the items"
    assert all(d >= 0 for d in duals["item_duals"] + [d for _, _, d in duals["length_duals"]]), "a dual < 0"
    worth = {g["class"]: Worth(duals["length_duals"], g["class"]) for g in groups}
    total = sum(i["count"] * d for i, d in zip(pool["items"], duals["item_duals"]))
    paid = {("joints", i): 0 for i in range(len(pool["stocks"]))}
    paid |= {("splices", i): 0 for i in range(len(groups))}
    for m in duals.get("multipliers", []):
        kind, members = key = counted(m["counted"])
        lo, hi = counts.get(key, (0, None))
        assert m["value"] >= 0 or hi is not None, "a multiplier of nothing bounded"
        total += m["value"] * (lo if m["value"] >= 0 else hi)
        for i in members: paid[kind, i] += m["value"]
    there = [s for s in pool["stocks"] if s["limit"] != 0]
    most = sum(i["count"] for i in pool["items"]) + sum(map(pieces, groups))
    tables = {}
    for i, s in enumerate(pool["stocks"]):
        if s["limit"] == 0: continue
        u, key = s["usable"], s["serves"]
        if key not in tables:
            longest = max(t["usable"] for t in there if t["serves"] == key)
            tables[key] = table(loads(pool, duals, worth, key), longest + pool["kerf"])
        least = min((scale * (s["cost"] - credit(pool, max(0, u - w))) - v
                     for w, v in tables[key].items() if 0 < w <= u + pool["kerf"]), default=0)
        lo, hi = counts.get(("joints", (i,)), (0, None))
        n = min(x for x in (most, s["limit"], hi) if x is not None)
        if hi is not None and hi < lo or s["limit"] is not None and s["limit"] < lo: return None
        r = least - paid["joints", i]
        total += r * (n if r < 0 else lo)
    for i, g in enumerate(groups):
        if g["count"] == 0: continue
        longest = max([s["usable"] for s in there if s["serves"] >> g["class"] & 1], default=0)
        splice = scale * g["splice_cost"] - paid["splices", i]
        q = cheapest(g, pool["mark"], longest, worth[g["class"]], scale, splice)
        if q is None: return None
        total += g["count"] * q
    return ceil(total, scale * step(pool)) * step(pool)

def counted(c):
    (kind, members), = c.items()
    assert members and members == sorted(set(members)), "a counted set out of order"
    return kind, tuple(members)

def proved(pool, nodes):  # least bound over the leaves of a tree that meets every node once
    found, met, todo = [], set(), [(0, {})]
    while todo:
        at, counts = todo.pop()
        assert at not in met and 0 <= at < len(nodes), "nodes that are no tree"
        met.add(at)
        if "leaf" in nodes[at]:
            found.append(leaf(pool, nodes[at]["leaf"], counts))
            continue
        s = nodes[at]["split"]
        key = counted(s["counted"])
        lo, hi = counts.get(key, (0, None))
        under = s["most"] if hi is None else min(hi, s["most"])
        todo.append((s["under"], counts | {key: (lo, under)}))
        todo.append((s["over"], counts | {key: (max(lo, s["most"] + 1), hi)}))
    assert len(met) == len(nodes), "a node of no split"
    return min(b for b in found if b is not None)

def main():
    try:
        with open(sys.argv[1], encoding="utf-8") as f: data = json.load(f)
        while "problem" not in data: data = data.get("nest") or data["plan"]
        pairs = list(zip(data["problem"]["pools"], data["answers"], strict=True))
    except (IndexError, OSError, ValueError, KeyError, TypeError) as e: print("cannot read:", e); return 2
    good = True
    for pool, ans in pairs:
        if ans["status"] in ("short", "stopped"): print(pool["name"], "claims no bound"); continue
        try: own = proved(pool, ans["proof"])
        except (AssertionError, KeyError, ValueError) as e: print("REFUSED", pool["name"], e); good = False; continue
        holds = ans["bound"] <= own and ans["bound"] <= ans["cost"]
        holds &= ans["status"] != "proved" or ans["bound"] == ans["cost"]
        good &= holds
        print("verified" if holds else "REFUSED", pool["name"], ans["status"], "cost", ans["cost"],
              "bound claimed", ans["bound"], "found", own)
    return 0 if good else 1

if __name__ == "__main__": sys.exit(main())
