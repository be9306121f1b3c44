"""Recomputes what a plan.json (its "nest") or `nest --json` claims, by the standard library alone: what the answer
costs, and that no answer costs less than its bound. A line a pool; exit code 1: not proved, 2: nothing to read.
Usage: verify_certificate.py FILE

A proof is a tree: a node splits a count of joints or splices, a leaf has duals pi >= 0 in 1/dual_scale of the money and
multipliers mu of counted sets. By weak duality no answer in the leaf costs less than
  sum pi_i n_i + sum min mu w + sum_s min n r_s + sum_g N_g q_g, rounded up to what all costs share, where
  r_s = least (cost - credit - pi of the pieces - mu) over the non-empty patterns of stock s,
  q_g = least (splices - mu + charges + pi of the pieces) over the configurations of group g.
Charges are a tree over what each counts: in a leaf a line under every charge moves its slope into the joints' costs.
An aim is money: what it counts weighs more than the money of any plan.
"""
import json, sys
from bisect import bisect_right
from collections import Counter
from fractions import Fraction
from functools import reduce
from itertools import accumulate, chain, combinations, pairwise, product
from math import ceil, floor, gcd, inf, lcm

def demand(holds, what):
    if not holds: raise ValueError(what)
def at(things, index):
    demand(0 <= index < len(things), "an index past its list")
    return things[index]
def up(n, grain): return -(-n // grain) * grain
def credit(pool, drop):
    c = pool["credit"]
    return c["per_foot"] * (drop // c["foot"]) if drop >= c["keep"] else 0

def splicing(group, mark, lines):  # money of one configuration
    demand(len(lines) == len(group["lines"]), "lines of a configuration")
    made, money = [], 0  # of each line the centre and the zone of each splice
    for line, pieces in zip(group["lines"], lines):
        m, stands = len(pieces) - 1, []
        made.append(stands)
        demand(line["least_splices"] <= m <= line["most_splices"], "a line of so many pieces")
        if m == 0: demand(pieces == [line["whole"]], "a whole line that is not whole"); continue
        metal = (line["length"] - m * line["gap"]) // mark * mark
        fit = all(p % mark == 0 and p >= max(1, line["least_piece"]) for p in pieces)
        demand(fit and sum(pieces) == metal, "pieces of a line")
        for j in range(1, m + 1):
            centre = sum(pieces[:j]) + Fraction((line["length"] - metal) * (2 * j - 1), 2 * m)
            slots = [s for s in line["slots"] if s["lo"] <= centre <= s["hi"]]
            demand(slots, "a splice in no slot")
            slot = min(slots, key=lambda s: s["charge"])
            demand(all(zone != slot["zone"] for _, zone in stands), "two splices in a zone")
            stands.append((centre, slot["zone"])); money += slot["charge"] + group["splice_cost"]
        demand(all(c[0] - a[0] > line["three_over"] for a, c in zip(stands, stands[2:])), "three splices too near")
    for (a, y), (b, z) in product(made[0], made[1] if len(made) > 1 else []):
        demand(abs(a - b) >= group["apart"], "splices of two lines too near")
        demand(not group["zones_exclusive"] or y != z, "splices of two lines in a zone")
    return money
def cost(pool, answer, uncut):  # uncut: stocks whose joints may stay whole
    cut, made, taken, money = Counter(), Counter(), Counter(), 0
    for c in answer["configurations"]:
        group = at(pool["groups"], c["group"])
        money += c["times"] * splicing(group, pool["mark"], c["lines"])
        made[c["group"]] += c["times"]
        for piece in chain(*c["lines"]): cut["piece", piece, group["class"]] -= c["times"]
    for p in answer["patterns"]:
        stock, filled = at(pool["stocks"], p["stock"]), 0
        for (kind, what), in map(dict.items, p["cuts"]):
            thing = at(pool["items"], what) if kind == "item" else what
            demand(stock["serves"] >> thing["class"] & 1 and thing["length"] > 0, "a piece its stock may not serve")
            cut[("item", what) if kind == "item" else ("piece", what["length"], what["class"])] += p["times"]
            filled += thing["length"] + pool["kerf"]
        demand(p["cuts"] or p["stock"] in uncut, "a joint from which nothing is cut")
        demand(filled - pool["kerf"] <= stock["usable"], "an overfull joint")
        money += p["times"] * (stock["cost"] - credit(pool, max(0, stock["usable"] - filled)))
        taken[p["stock"]] += p["times"]
    for i, n in answer["short"]: cut["item", i] += n
    for g, n in answer["short_groups"]: made[g] += n
    demand((answer["status"] == "short") == bool(answer["short"] or answer["short_groups"]), "short or not")
    for i, item in enumerate(pool["items"]): demand(cut.pop(("item", i), 0) == item["count"], f"item {i}: its count")
    demand(not any(cut.values()), "pieces cut and pieces wanted")
    for g, group in enumerate(pool["groups"]): demand(made[g] == group["count"], f"{group['name']}: its count")
    for s, stock in enumerate(pool["stocks"]):
        demand(taken[s] <= stock["limit"], f"{stock['name']}: more than there are")
    return money

# ---- q_g: positions of splices, in marks of metal, are tied by differences; d[x][y] is the most of x - y.

class Worth:  # of a piece: the sum of the duals at or under its length
    def __init__(self, rows):
        rows = sorted((l, d) for l, d in rows if d)
        self.rises, self.sums = [l for l, _ in rows], [0, *accumulate(d for _, d in rows)]
    def __call__(self, length): return self.sums[bisect_right(self.rises, length)]
    def rise(self, length): return self.rises[bisect_right(self.rises, length)]
def tied(d, x, y, most):  # with x - y <= most too; None: no solution
    if d is None or d[y][x] + most < 0: return None
    return [[min(v, row[x] + most + d[y][j]) for j, v in enumerate(row)] for row in d]

def system(lines, mark, longest, apart=0):  # ties of lines and their slots, pieces (from, to), splices kept apart
    n = 1 + sum(len(slots) + 1 for _, slots in lines)
    d, pieces, shifts, end = [[0 if x == y else inf for y in range(n)] for x in range(n)], [], [], 0
    for line, slots in lines:
        m, start = len(slots), end
        metal = (line["length"] - m * line["gap"]) // mark
        slack, end = line["length"] - metal * mark, start + m + 1
        ties, shift = [(end, 0, metal), (0, end, -metal)], {}
        for j, i in enumerate(slots, 1):
            s, x, shift[start + j] = line["slots"][i], start + j, Fraction(slack * (2 * j - 1), 2 * m)
            # An end that another slot holds cheaper, or as cheap and earlier, is that one's; centres count in 1/2m.
            lost = lambda c: Fraction(any((o["charge"], k) < (s["charge"], i) and o["lo"] <= c <= o["hi"]
                                          for k, o in enumerate(line["slots"])), 2 * m)
            ties += [(x, 0, floor((s["hi"] - lost(s["hi"]) - shift[x]) / mark)),
                     (0, x, -ceil((s["lo"] + lost(s["lo"]) - shift[x]) / mark))]
            if j > 2: ties.append((x - 2, x, -floor((line["three_over"] - Fraction(2 * slack, m)) / mark) - 1))
        for f, t in pairwise([0, *range(start + 1, end + 1)]):
            ties += [(t, f, longest // mark), (f, t, -max(1, ceil(Fraction(line["least_piece"], mark))))]
            pieces.append((f, t))
        for tie in ties: d = tied(d, *tie)
        shifts.append(shift)
    either = [[(x, y, floor((b - a - apart) / mark)), (y, x, floor((a - b - apart) / mark))]
              for (x, a), (y, b) in product(*(s.items() for s in shifts))] if len(shifts) == 2 else []
    return d, pieces, either

def least(d, pieces, either, mark, worth, best):  # least worth of the pieces, or best where that is less
    if d is None: return best
    low = [worth(-d[f][t] * mark) for f, t in pieces]
    if sum(low) >= best: return best
    if either:
        for tie in either[0]: best = least(tied(d, *tie), pieces, either[1:], mark, worth, best)
        return best
    laid = [worth((d[0][f] - d[0][t]) * mark) for f, t in pieces]  # each as near the start as it may stand
    best = min(best, sum(laid))
    if best == sum(low): return best
    _, (f, t) = max((b - a, piece) for a, b, piece in zip(low, laid, pieces))
    rise = up(worth.rise(-d[f][t] * mark), mark) // mark
    for tie in (t, f, rise - 1), (f, t, -rise): best = least(tied(d, *tie), pieces, [], mark, worth, best)
    return best

def cheapest(group, mark, longest, worth, scale, splice):  # q_g; inf: no configuration
    def choices(line):  # slots of its splices, one a zone
        for m in range(line["least_splices"], line["most_splices"] + 1):
            for slots in combinations(range(len(line["slots"])), m):
                taken = [line["slots"][i] for i in slots]
                zones, beside = {s["zone"] for s in taken}, m * splice + scale * sum(s["charge"] for s in taken)
                if m == 0: beside = worth(line["whole"]) if line["whole"] <= longest else inf
                alone = beside + least(*system([(line, slots)] if m else [], mark, longest), mark, worth, inf)
                if len(zones) == m and alone < inf: yield alone, beside, zones, slots
    best = inf
    for pick in product(*(sorted(choices(l), key=lambda c: c[0]) for l in group["lines"])):
        alone, beside = (sum(c[i] for c in pick) for i in (0, 1))
        if alone >= best or group["zones_exclusive"] and len(pick) == 2 and pick[0][2] & pick[1][2]: continue
        lines = [(l, c[3]) for l, c in zip(group["lines"], pick) if c[3]]
        best = beside + least(*system(lines, mark, longest, group["apart"]), mark, worth, best - beside)
    return best

# ---- The bound of one pool: r_s by one knapsack over exact weights.

def most_pieces(g): return g["count"] * sum(l["most_splices"] + 1 for l in g["lines"])
def all_pieces(pool): return sum(i["count"] for i in pool["items"]) + sum(map(most_pieces, pool["groups"]))
def loads(pool, duals, worth, serves):  # (length + kerf, worth, how many there may be)
    for it, dual in zip(pool["items"], duals["item_duals"]):
        if serves >> it["class"] & 1: yield it["length"] + pool["kerf"], dual, it["count"]
    for cls, w in worth.items():
        if not serves >> cls & 1: continue
        groups = [g for g in pool["groups"] if g["class"] == cls]
        lines = [l for g in groups for l in g["lines"]]
        shortest = max(1, min(l["least_piece"] for l in lines))
        for a in {min([up(max(a, shortest), pool["mark"])] + [l["whole"] for l in lines if l["whole"] >= a])
                  for a in [1, *w.rises]}:
            yield a + pool["kerf"], w(a), sum(map(most_pieces, groups))
def table(loads, capacity):  # best worth by exact weight of what is cut
    best, loads = {0: 0}, sorted((l for l in loads if l[2] > 0 and l[0] <= capacity), reverse=True)
    for weight, worth, most in loads:
        if worth <= 0: continue
        n, bundle = min(most, capacity // weight), 1
        while n > 0:
            t = min(bundle, n)
            longer = {w + t * weight: v + t * worth for w, v in best.items() if w + t * weight <= capacity}
            best |= {w: v for w, v in longer.items() if v > best.get(w, -1)}
            n, bundle = n - t, bundle * 2
    # A piece worth nothing only makes the drop shorter; but the lightest may be all that is cut.
    if loads: best.setdefault(loads[-1][0], 0)
    return best
def step(pool):  # what every cost is a multiple of
    reach = max((s["usable"] - pool["kerf"] - 1 for s in pool["stocks"] if s["limit"] != 0), default=0)
    reached = reach >= max(pool["credit"]["keep"], pool["credit"]["foot"])
    money = [s["cost"] for s in pool["stocks"]] + [g["splice_cost"] for g in pool["groups"]]
    money += [s["charge"] for g in pool["groups"] for l in g["lines"] for s in l["slots"]]
    return max(1, reduce(gcd, money, pool["credit"]["per_foot"] if reached else 0))
def counted(c):
    (kind, members), = c.items()
    demand(members and members == sorted(set(members)), "a counted set out of order")
    return kind, tuple(members)

def leaf(pool, duals, counts):  # bound inside the counts' intervals; inf: no answer lies there
    scale, groups = duals["dual_scale"], pool["groups"]
    demand(scale >= 1 and len(duals["item_duals"]) == len(pool["items"]), "duals do not fit the items")
    demand(all(d >= 0 for d in duals["item_duals"] + [d for _, _, d in duals["length_duals"]]), "a dual < 0")
    worth = {g["class"]: Worth([(l, d) for l, c, d in duals["length_duals"] if c == g["class"]]) for g in groups}
    total, paid = sum(i["count"] * d for i, d in zip(pool["items"], duals["item_duals"])), Counter()
    for m in duals.get("multipliers", []):
        kind, members = key = counted(m["counted"])
        lo, hi = counts.get(key, (0, inf))
        demand(m["value"] >= 0 or hi < inf, "a multiplier of nothing bounded")
        total += m["value"] * (lo if m["value"] >= 0 else hi)
        for i in members: paid[kind, i] += m["value"]
    there, tables = [(i, s) for i, s in enumerate(pool["stocks"]) if s["limit"] != 0], {}
    room = max([s["usable"] for _, s in there], default=0) + pool["kerf"]
    for i, s in there:
        u, serves = s["usable"], s["serves"]
        if serves not in tables: tables[serves] = table(loads(pool, duals, worth, serves), room)
        r = min((scale * (s["cost"] - credit(pool, max(0, u - w))) - v
                 for w, v in tables[serves].items() if 0 < w <= u + pool["kerf"]), default=0) - paid["joints", i]
        lo, hi = counts.get(("joints", (i,)), (0, inf))
        if min(hi, s["limit"]) < lo: return inf
        total += r * (min(all_pieces(pool), s["limit"], hi) if r < 0 else lo)
    for i, g in enumerate(groups):
        if g["count"] == 0: continue
        longest = max([s["usable"] for _, s in there if s["serves"] >> g["class"] & 1], default=0)
        q = cheapest(g, pool["mark"], longest, worth[g["class"]], scale, scale * g["splice_cost"] - paid["splices", i])
        if q == inf: return inf
        total += g["count"] * q
    return up(total, scale * step(pool)) // scale

def walk(nodes, root, visit):  # visit(node, place) gives the places under it; every node is met once
    met, todo = set(), [(0, root)]
    while todo:
        n, place = todo.pop()
        demand(n not in met and 0 <= n < len(nodes), "nodes that are no tree")
        met.add(n); todo += visit(nodes[n], place)
    demand(len(met) == len(nodes), "a node of no split")

def halves(split, place, key, of):  # at most so many, or more
    (lo, hi), most = of, split["most"]
    return [(split["under"], place | {key: (lo, min(hi, most))}),
            (split["over"], place | {key: (max(lo, most + 1), hi)})]
def proved(pool, nodes):  # least bound over the leaves of the tree
    found = []
    def visit(node, counts):
        if "leaf" in node: found.append(leaf(pool, node["leaf"], counts)); return []
        s = node["split"]
        key = counted(s["counted"])
        return halves(s, counts, key, counts.get(key, (0, inf)))
    walk(nodes, {}, visit)
    return min(found)

# ---- Charges over several pools.

def over(charge): return [(o["pool"], o["stock"]) for o in charge["over"]]
def stock(problem, key): return problem["pools"][key[0]]["stocks"][key[1]]
def price(s): return s["cost"] if s.get("price") is None else s["price"]
def kind(charge): (name, k), = charge["kind"].items(); return name, k
def free(k): return k.get("free_over", inf)
def weight(problem, charge, key):  # what a joint adds to what the charge counts: its price, or one
    name, k = kind(charge)
    return price(stock(problem, key)) if name == "minimum" or name == "fixed" and free(k) < inf else 1
def uncut(name, k):  # may a joint be bought whole for the charge's sake
    return {"fixed": free(k) < inf, "lift": k.get("part_fee", 0) > 0,
            "minimum": k.get("least", 0) > 0, "range": k.get("least", 0) > 1}[name]
def money(name, k, w):  # of a charge that counts w; inf: no answer may
    if w == 0: return 0
    if name == "fixed": return k["amount"] if w < free(k) else 0
    if name == "minimum": return max(0, k["least"] - w)
    if name == "lift": return up(w, k["lift"]) // k["lift"] * k["fee"] + (k["part_fee"] if w % k["lift"] else 0)
    return 0 if k["least"] <= w <= k.get("most", inf) else inf
def corners(name, k, lo, hi):  # (w, money): at any slope b the least of money - b w over [lo, hi] is at one
    q, turns = k.get("lift", 1), (free(k), free(k) - 1, k.get("least", 0), k.get("most", inf))
    w = {lo, hi, 0, 1, up(max(lo, 1), q), hi // q * q, *turns}
    return [(x, money(name, k, x)) for x in w if lo <= x <= hi and money(name, k, x) < inf]
def most(problem, key):  # joints of a stock in some answer of least cost, uncut ones too
    s, pool, want, lifts, spare = stock(problem, key), problem["pools"][key[0]], [0], [], False
    for name, k in (kind(c) for c in problem.get("charges", []) if key in over(c)):
        spare |= uncut(name, k)
        if name == "lift": lifts.append(k["lift"])
        elif name == "range": want.append(k["least"])
        elif name == "minimum" or free(k) < inf: want.append(k.get("least", free(k)) // price(s) + 1)
    return min(s["limit"], all_pieces(pool) + (max(want) + lcm(*lifts) if spare else 0))
def tight(problem, place):  # charges bound joints, joints bound charges; None: nothing lies here
    place = dict(place)
    for i, c in enumerate(problem["charges"]):
        (name, k), (lo, hi) = kind(c), place[i]
        top = min(hi, k.get("most", inf))
        if name == "range": place[i] = lo, top if top >= k["least"] else 0
        for key in over(c): place[key] = place[key][0], min(place[key][1], place[i][1] // weight(problem, c, key))
    for i, c in enumerate(problem["charges"]):
        low, high = (sum(place[o][e] * weight(problem, c, o) for o in over(c)) for e in (0, 1))
        place[i] = max(place[i][0], low), min(place[i][1], high)
    return place if all(lo <= hi for lo, hi in place.values()) else None
def moved(problem, p, place, slopes, grain):  # the pool at moved costs, and the money beside it
    money = ("per_foot", "splice_cost", "charge", "cost")
    scaled = lambda o: {k: v * grain if k in money else v for k, v in o.items()}
    pool, beside, stocks = json.loads(json.dumps(problem["pools"][p]), object_hook=scaled), 0, []
    for i, s in enumerate(pool["stocks"]):
        if (p, i) not in place: stocks.append(s); continue
        paying = [(c, b) for c, b in zip(problem["charges"], slopes) if (p, i) in over(c)]
        cost = s["cost"] + sum(b * weight(problem, c, (p, i)) for c, b in paying)
        (least, top), owned = place[p, i], credit(pool, s["usable"])
        anyway = top if cost < owned else least  # joints that cost what their drop pays, whatever is cut from them
        beside += (cost - owned) * anyway
        others = min(top - least, max(0, all_pieces(pool) - least))  # those bought anyway are cut first
        for each, n, wanted in (owned, anyway, cost < owned or anyway > 0), (cost, others, cost >= owned):
            endless = s["limit"] == inf and n >= all_pieces(pool)
            if wanted: stocks.append(s | {"cost": each, "limit": inf if endless else n})
    return pool | {"stocks": stocks}, beside
def unit(problem):  # what every cost of the whole is a multiple of
    unit = [step(pool) for pool in problem["pools"]]
    for name, k, keys in ((*kind(c), over(c)) for c in problem.get("charges", [])):
        unit += [k[f] for f in ("amount", "fee", "part_fee", *["least"] * (name == "minimum")) if f in k]
        unit += [credit(problem["pools"][key[0]], stock(problem, key)["usable"]) for key in keys]
        unit += [price(stock(problem, key)) for key in keys if name == "minimum"]
    return max(1, reduce(gcd, unit))

def whole(problem, answer):  # least bound over the leaves of the charges' tree
    charges, grain, found = problem["charges"], answer["grain"], []
    demand(grain >= 1, "a grain under 1")
    def visit(node, place):  # the interval of each joint (pool, stock) and of what each charge (its number) counts
        place = place and tight(problem, place)
        curves = place and [corners(*kind(c), *place[i]) for i, c in enumerate(charges)]
        empty = not place or [] in curves
        if node == "nothing": demand(empty, "a node that is not empty"); return []
        (what, f), = node.items()
        if what != "leaf":
            if not place: return [(f["under"], None), (f["over"], None)]
            key = f["charge"] if what == "charge" else (f["of"]["pool"], f["of"]["stock"])
            return halves(f, place, key, place[key])
        demand(len(f["slopes"]) == len(charges) and len(f["proofs"]) == len(problem["pools"]), "a leaf")
        if empty: return []
        total = sum(min(grain * m - b * w for w, m in c) for c, b in zip(curves, f["slopes"]))
        for p, proof in enumerate(f["proofs"]):
            pool, beside = moved(problem, p, place, f["slopes"], grain)
            total += proved(pool, answer["proofs"][proof]) + beside
        found.append(total); return []
    root = {i: (0, 2 ** 63 - 1) for i in range(len(charges))}
    walk(answer["nodes"], root | {key: (0, most(problem, key)) for c in charges for key in over(c)}, visit)
    return up(min(found), grain * unit(problem)) // grain
def charged(problem, answers, answer):  # money of the whole; every charge as said
    demand(len(answer["charges"]) == len(problem["charges"]), "money of each charge")
    for c, said in zip(problem["charges"], answer["charges"]):
        taken = [((p, x["stock"]), x["times"]) for p, a in enumerate(answers) for x in a["patterns"]]
        w = sum(n * weight(problem, c, key) for key, n in taken if key in over(c))
        demand(money(*kind(c), w) == said, f"{c['name']}: its money")
    return sum(a["cost"] for a in answers) + sum(answer["charges"])

def weighed(problem):  # the problem with its aim as money
    aim, money = problem.get("aim", "money"), 0
    if aim == "money": return problem
    for p, pool in enumerate(problem["pools"]):
        demand(all(s["cost"] >= credit(pool, s["usable"]) for s in pool["stocks"]), "a drop pays more than its joint")
        money += all_pieces(pool) * max((s["cost"] for s in pool["stocks"]), default=0)
        money += sum(s["cost"] * max(0, most(problem, (p, i)) - all_pieces(pool)) for i, s in enumerate(pool["stocks"]))
        for g, l in ((g, l) for g in pool["groups"] for l in g["lines"]):
            dearest = max((s["charge"] for s in l["slots"]), default=0)
            money += g["count"] * l["most_splices"] * (g["splice_cost"] + dearest)
    for name, k, keys in ((*kind(c), over(c)) for c in problem.get("charges", [])):
        if name == "lift": money += sum(most(problem, key) for key in keys) * k["fee"] + k["part_fee"]
        elif name != "range": money += k["amount"] if name == "fixed" else k["least"]
    heavy = (money // unit(problem) + 1) * unit(problem)
    each = max(1, reduce(gcd, (s["length"] for q in problem["pools"] for s in q["stocks"]), 0))
    problem = json.loads(json.dumps(problem))
    for pool in problem["pools"]:
        for s in pool["stocks"]:
            s["price"], of = price(s), {"joints": 1, "waste": s["length"] // each}
            s["cost"] += heavy * of.get(aim, 0)
        for g in pool["groups"]: g["splice_cost"] += heavy * (aim == "splices")
    return problem
def of_plan(plan, problem, answers):  # the joints and the money of a plan.json are those of its nest answer
    joints = Counter((j["pipe"], j["length"]["ticks"], *sorted(p["saw_length"]["ticks"] for p in j["pieces"]))
                     for j in plan["joints"])
    for outcome, pool, answer in zip(plan["outcomes"], problem["pools"], answers, strict=True):
        demand(outcome["cost_millicents"] == answer["cost"], f"{pool['name']}: the plan's money")
        demand(outcome["bound_millicents"] == answer["bound"], f"{pool['name']}: the plan's bound")
        for p in answer["patterns"]:
            cuts = [pool["items"][c["item"]]["length"] if "item" in c else c["piece"]["length"] for c in p["cuts"]]
            if cuts: joints[outcome["pipe"], pool["stocks"][p["stock"]]["length"], *sorted(cuts)] -= p["times"]
    demand(not any(joints.values()), "joints of the plan and patterns of the answer")

def holds(name, answer, cost, bound):
    silent = answer["status"] in ("short", "stopped")
    demand(silent and "charges" in answer or cost() == answer["cost"], "its cost is not what it says")
    if silent: print(name, "claims no bound"); return
    own = bound()
    demand(own < inf and answer["bound"] <= own, f"a bound of {answer['bound']}; its proof gives {own}")
    demand(answer["bound"] <= answer["cost"], "a bound over the cost")
    demand(answer["status"] != "proved" or answer["bound"] == answer["cost"], "proved, with a gap")
    print("verified", name, answer["status"], "cost", answer["cost"], "bound claimed", answer["bound"], "found", own)

def main():
    name = "file"
    try:
        endless = lambda o: {k: inf if v is None and k in ("limit", "most", "free_over") else v for k, v in o.items()}
        with open(sys.argv[1], encoding="utf-8") as f: plan = json.load(f, object_hook=endless)
        data = plan if "problem" in plan else plan["nest"]
        problem, answers, together = data["problem"], data["answers"], data.get("whole")
    except (LookupError, OSError, ValueError, TypeError) as e: print("cannot read:", e); return 2
    try:
        problem, charges = weighed(problem), problem.get("charges", [])
        for p, (pool, answer) in enumerate(zip(problem["pools"], answers, strict=True)):
            name, stays = pool["name"], {s for c in charges if uncut(*kind(c)) for q, s in over(c) if q == p}
            holds(name, answer, lambda: cost(pool, answer, stays), lambda: proved(pool, answer["proof"]))
        name = "all pools with charges"
        demand(bool(charges) == (together is not None), "charges and an answer for the whole")
        if charges: holds(name, together, lambda: charged(problem, answers, together), lambda: whole(problem, together))
        name = "plan"
        if "joints" in plan: of_plan(plan, problem, answers)
    except (LookupError, TypeError, ValueError) as e: print("REFUSED", name, e); return 1
    return 0

if __name__ == "__main__": sys.exit(main())
