"""The bound of one pool: at each leaf of its tree what the duals there give, r_s by one knapsack over exact weights."""
from functools import reduce
from math import gcd

from verifier.answer import credit
from verifier.splicing import ceil, cheapest

class Worth:  # of a piece: the sum of the rows at or under its length, of its class
    def __init__(self, rows, cls):
        self.rows = sorted((l, d) for l, c, d in rows if c == cls)
    def of(self, length): return sum(d for l, d in self.rows if l <= length)
    def rise(self, length):
        return min((l for l, d in self.rows if l > length and d > 0), default=None)

def all_pieces(pool): return sum(i["count"] for i in pool["items"]) + sum(map(pieces, pool["groups"]))

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
    most, tables = all_pieces(pool), {}
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
    return min((b for b in found if b is not None), default=None)
