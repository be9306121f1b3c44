"""Re-verifies the answers and the lower bounds of a plan.json (its "nest"), standard library only; what the answer
itself costs is answer_cost.py beside this page, and a plan.json's joints and money must be the answer's.

A proof is a tree whose nodes split a count of joints or of splices. For any duals pi >= 0 of a leaf, in
units of 1/dual_scale money, and multipliers mu of the counted sets,
  bound = sum pi_i n_i + sum min mu w + sum_s min n r_s + sum_g N_g q_g, rounded up to what all costs share,
  r_s = least (cost - credit - pi of the pieces - mu) over non-empty patterns of stock s,
  q_g = least (splices - mu + charges + pi of the pieces) over the configurations of group g,
w and n over their intervals in the leaf.
Where the aim is joints, splices or waste, all that is of the problem in which one of them weighs more than the
money of any plan: cost = weight x count + money.
Prints one line per pool; exit code 1 when a claimed bound is not proved, 2 when nothing can be read.
Usage: verify_certificate.py FILE
"""
import json, sys
from collections import Counter
from functools import reduce
from math import gcd

from answer_cost import cost, credit, demand

def ceil(a, b): return -(-a // b)

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

# A problem with charges: a tree over what each charge counts; in a leaf a line under every charge moves its
# slope into the costs of its joints, and each pool is proved by itself at the moved costs.

def at(o): return o["pool"], o["stock"]

def stock(problem, key): return problem["pools"][key[0]]["stocks"][key[1]]

def price(s): return s["cost"] if s.get("price") is None else s["price"]

def kind(charge): (name, k), = charge["kind"].items(); return name, k

def priced(name, k): return name == "minimum" or name == "fixed" and k.get("free_over") is not None

def weight(problem, charge, key): return price(stock(problem, key)) if priced(*kind(charge)) else 1

def uncut(name, k):
    return {"fixed": k.get("free_over") is not None, "lift": k.get("part_fee", 0) > 0,
            "minimum": k.get("least", 0) > 0, "range": k.get("least", 0) > 1}[name]

def corners(name, k, lo, hi):  # (w, money): at any slope b the least of money - b w over [lo, hi] is at one
    out, a = [(0, 0)] if lo <= 0 <= hi else [], max(lo, 1)
    def piece(x, y, f): out.extend((w, f(w)) for w in (x, y) if x <= y)
    if name == "fixed":
        free = k["free_over"] if k.get("free_over") is not None else hi + 1
        piece(a, min(hi, free - 1), lambda w: k["amount"]); piece(max(a, free), hi, lambda w: 0)
    elif name == "minimum":
        piece(a, min(hi, k["least"]), lambda w: k["least"] - w); piece(max(a, k["least"]), hi, lambda w: 0)
    elif name == "range":
        piece(max(a, k["least"]), hi if k.get("most") is None else min(hi, k["most"]), lambda w: 0)
    elif a <= hi:
        q = k["lift"]
        f = lambda w: ceil(w, q) * k["fee"] + (k["part_fee"] if w % q else 0)
        piece(a, hi, f); piece(ceil(a, q) * q, hi // q * q, f)
    return out

def most(problem, key):  # joints of a stock in some answer of least cost, uncut ones too
    s, pool, want, lifts, spare = stock(problem, key), problem["pools"][key[0]], 0, 1, False
    for c in problem.get("charges", []):
        if key not in map(at, c["over"]): continue
        name, k = kind(c)
        spare |= uncut(name, k)
        if name == "lift": lifts = lifts // gcd(lifts, k["lift"]) * k["lift"]
        elif name == "range": want = max(want, k["least"])
        else:
            money = k["least"] if name == "minimum" else k.get("free_over")
            if money is not None: want = max(want, money // price(s) + 1)
    n = all_pieces(pool) + (want + lifts if spare else 0)
    return n if s["limit"] is None else min(n, s["limit"])

def tight(problem, joints, spans):  # charges bound joints, joints bound charges; None: nothing lies here
    joints, spans = dict(joints), list(spans)
    for i, c in enumerate(problem["charges"]):
        name, k = kind(c)
        lo, hi = spans[i]
        if name == "range":
            hi = hi if k.get("most") is None else min(hi, k["most"])
            hi = 0 if hi < k["least"] else hi
        spans[i] = lo, hi
        for key in map(at, c["over"]):
            joints[key] = joints[key][0], min(joints[key][1], hi // weight(problem, c, key))
    for i, c in enumerate(problem["charges"]):
        low, high = (sum(joints[o][e] * weight(problem, c, o) for o in map(at, c["over"])) for e in (0, 1))
        spans[i] = max(spans[i][0], low), min(spans[i][1], high)
    return (joints, spans) if all(a <= b for a, b in [*joints.values(), *spans]) else None

def moved(problem, p, joints, slopes, grain):  # the pool at moved costs, and the money beside it
    pool, beside, stocks = json.loads(json.dumps(problem["pools"][p])), 0, []
    pool["credit"]["per_foot"] *= grain
    for g in pool["groups"]:
        g["splice_cost"] *= grain
        for l in g["lines"]:
            for slot in l["slots"]: slot["charge"] *= grain
    for i, s in enumerate(pool["stocks"]):
        s["cost"] *= grain
        if (p, i) not in joints: stocks.append(s); continue
        for c, b in zip(problem["charges"], slopes):
            if (p, i) in map(at, c["over"]): s["cost"] += b * weight(problem, c, (p, i))
        (least, top), owned = joints[p, i], credit(pool, s["usable"])
        def put(cost, n):
            endless = s["limit"] is None and n >= all_pieces(pool)
            stocks.append(s | {"cost": cost, "limit": None if endless else n})
        anyway = top if s["cost"] < owned else least
        beside += (s["cost"] - owned) * anyway
        if s["cost"] < owned or anyway > 0: put(owned, anyway)
        if s["cost"] >= owned: put(s["cost"], top - least)
    return pool | {"stocks": stocks}, beside

def unit(problem):  # what every cost of the whole is a multiple of
    unit = [step(pool) for pool in problem["pools"]]
    for c in problem.get("charges", []):
        name, k = kind(c)
        unit += [k[f] for f in ("amount", "fee", "part_fee") if f in k] + ([k["least"]] if name == "minimum" else [])
        for key in map(at, c["over"]):
            unit.append(credit(problem["pools"][key[0]], stock(problem, key)["usable"]))
            if name == "minimum": unit.append(price(stock(problem, key)))
    return max(1, reduce(gcd, unit))

def weighed(problem):  # an aim other than money, as money: what it counts weighs more than any plan's money
    aim, money, charges = problem.get("aim", "money"), 0, problem.get("charges", [])
    if aim == "money": return problem
    for p, pool in enumerate(problem["pools"]):
        money += all_pieces(pool) * max((s["cost"] for s in pool["stocks"]), default=0)
        for g in pool["groups"]:
            for l in g["lines"]:
                dearest = g["splice_cost"] + max((s["charge"] for s in l["slots"]), default=0)
                money += g["count"] * l["most_splices"] * dearest
        for i, s in enumerate(pool["stocks"]):
            assert s["cost"] >= credit(pool, s["usable"]), "a drop pays more than its joint"
            money += max(0, most(problem, (p, i)) - all_pieces(pool)) * s["cost"]
    for c in charges:
        name, k = kind(c)
        if name == "lift": money += sum(most(problem, at(o)) for o in c["over"]) * k["fee"] + k["part_fee"]
        elif name != "range": money += k["amount"] if name == "fixed" else k["least"]
    weight = (money // unit(problem) + 1) * unit(problem)
    each = max(1, reduce(gcd, (s["length"] for q in problem["pools"] for s in q["stocks"]), 0))
    problem = json.loads(json.dumps(problem))
    for pool in problem["pools"]:
        for s in pool["stocks"]:
            s["price"] = price(s)
            s["cost"] += weight * {"joints": 1, "waste": s["length"] // each, "splices": 0}[aim]
        for g in pool["groups"]: g["splice_cost"] += weight * (aim == "splices")
    return problem

def whole(problem, answer):  # least bound over the leaves of the charges' tree
    charges, grain = problem["charges"], answer["grain"]
    assert grain >= 1, "a grain under 1"
    start = {key: (0, most(problem, key)) for c in charges for key in map(at, c["over"])}
    found, met, todo = [], set(), [(0, (start, [(0, 2 ** 63 - 1)] * len(charges)))]
    while todo:
        n, place = todo.pop()
        assert n not in met and 0 <= n < len(answer["nodes"]), "nodes that are no tree"
        met.add(n)
        place = place and tight(problem, *place)
        node = answer["nodes"][n]
        curves = place and [corners(*kind(c), *s) for c, s in zip(charges, place[1])]
        if node == "nothing": assert not place or [] in curves, "a node that is not empty"; continue
        (what, f), = node.items()
        if what == "leaf":
            assert len(f["slopes"]) == len(charges) and len(f["proofs"]) == len(problem["pools"]), "a leaf"
            if not place or [] in curves: continue
            total = sum(min(grain * m - b * w for w, m in c) for c, b in zip(curves, f["slopes"]))
            for p, proof in enumerate(f["proofs"]):
                pool, beside = moved(problem, p, place[0], f["slopes"], grain)
                own = proved(pool, answer["proofs"][proof])
                if own is None: break
                total += own + beside
            else: found.append(total)
            continue
        for side, child in ((0, f["under"]), (1, f["over"])):
            joints, spans = (dict(place[0]), list(place[1])) if place else (start, [(0, 0)] * len(charges))
            held, key = (spans, f["charge"]) if what == "charge" else (joints, at(f["of"]))
            lo, hi = held[key]
            held[key] = (max(lo, f["most"] + 1), hi) if side else (lo, min(hi, f["most"]))
            todo.append((child, place and (joints, spans)))
    assert len(met) == len(answer["nodes"]), "a node of no split"
    return ceil(min(found), grain * unit(problem)) * unit(problem)

def charged(problem, answers, answer):  # money of the whole; every charge as said
    total = sum(a["cost"] for a in answers)
    demand(len(answer["charges"]) == len(problem["charges"]), "money of each charge")
    for c, said in zip(problem["charges"], answer["charges"]):
        taken = {key: sum(p["times"] for p in answers[key[0]]["patterns"] if p["stock"] == key[1])
                 for key in map(at, c["over"])}
        w = sum(n * weight(problem, c, key) for key, n in taken.items())
        money = dict(corners(*kind(c), w, w))
        demand(money.get(w) == said, f"{c['name']}: its money")
        total += said
    return total

def of_plan(plan, problem, answers):  # the joints and the money of a plan.json are those of its nest answer
    joints = Counter()
    for j in plan["joints"]:
        joints[j["pipe"], j["length"]["ticks"], tuple(sorted(p["saw_length"]["ticks"] for p in j["pieces"]))] += 1
    for outcome, pool, answer in zip(plan["outcomes"], problem["pools"], answers, strict=True):
        demand(outcome["cost_millicents"] == answer["cost"], f"{pool['name']}: the plan's money")
        demand(outcome["bound_millicents"] == answer["bound"], f"{pool['name']}: the plan's bound")
        for p in answer["patterns"]:
            cuts = [pool["items"][c["item"]]["length"] if "item" in c else c["piece"]["length"] for c in p["cuts"]]
            if cuts: joints[outcome["pipe"], pool["stocks"][p["stock"]]["length"], tuple(sorted(cuts))] -= p["times"]
    demand(not any(joints.values()), "joints of the plan and patterns of the answer")

def claims(problem, answers, together):  # name, answer, its cost, its bound
    charges = problem.get("charges", [])
    for p, (pool, answer) in enumerate(zip(problem["pools"], answers, strict=True)):
        over = [(key, *kind(c)) for c in charges for key in map(at, c["over"]) if key[0] == p]
        whole_joints = {key[1] for key, name, k in over if uncut(name, k)}
        yield pool["name"], answer, lambda: cost(pool, answer, whole_joints), lambda: proved(pool, answer["proof"])
    demand(bool(charges) == (together is not None), "charges and an answer for the whole")
    if charges:
        yield "all pools with charges", together, lambda: charged(problem, answers, together), \
            lambda: whole(problem, together)

def holds(name, answer, money, bound):
    if name == "all pools with charges" and answer["status"] in ("short", "stopped"): print(name, "claims nothing"); return
    demand(money() == answer["cost"], "its cost is not what it says")
    if answer["status"] in ("short", "stopped"): print(name, "claims no bound"); return
    own = bound()
    demand(own is not None and answer["bound"] <= own, f"a bound of {answer['bound']}; its proof gives {own}")
    demand(answer["bound"] <= answer["cost"], "a bound over the cost")
    demand(answer["status"] != "proved" or answer["bound"] == answer["cost"], "proved, with a gap")
    print("verified", name, answer["status"], "cost", answer["cost"], "bound claimed", answer["bound"], "found", own)

def main():
    try:
        with open(sys.argv[1], encoding="utf-8") as f: data = json.load(f)
        plan = data if "joints" in data else None
        if "problem" not in data: data = data["nest"]
        problem, answers = data["problem"], data["answers"]
    except (LookupError, OSError, ValueError, TypeError) as e: print("cannot read:", e); return 2
    name = "file"
    try:
        problem = weighed(problem)
        for name, *claim in claims(problem, answers, data.get("whole")): holds(name, *claim)
        if plan: name = "plan"; of_plan(plan, problem, answers)
    except (AssertionError, LookupError, TypeError, ValueError) as e: print("REFUSED", name, e); return 1
    return 0

if __name__ == "__main__": sys.exit(main())
