"""Seeded small cutting problems with splices, remnants, credit and charges, solved by `longpoint nest` and, live, by
two general-purpose solvers (HiGHS and CP-SAT) over a model made here: every pattern of every stock, every
configuration of every group, listed outright. The money must be equal on each; under an aim other than money, what
the aim counts, and then the money.

Usage: milp_crosscheck.py LONGPOINT [PROBLEMS] [FIRST SEED] [--aims]   (every aim, not money alone)
"""
import itertools, json, os, random, subprocess, sys, tempfile
import highspy
from ortools.sat.python import cp_model

def credit(pool, x):
    c = pool["credit"]
    return c["per_foot"] * (x // c["foot"]) if x >= c["keep"] else 0

# The problems.
AIMS = ["money"] if "--aims" not in sys.argv else ["money"] * 3 + ["joints", "waste", "splices"]

def line(r, mark):
    length, slots, at, zone = 44 + r.randrange(40), [], 6 + r.randrange(8), 0
    while at < length - 6 and len(slots) < 4:
        hi = at + r.randrange(3) * mark
        slots.append({"lo": at, "hi": hi, "zone": zone, "charge": r.randrange(3)})
        at, zone = hi + 1 + r.randrange(9), zone + r.randrange(2)
    return {"length": length, "whole": -(-length // mark) * mark, "gap": r.randrange(3), "least_splices": r.randrange(2),
            "most_splices": 1 + r.randrange(2), "least_piece": 6 + r.randrange(8), "three_over": r.randrange(30),
            "slots": slots}

def pool(r, name):
    mark, per_foot = 1 + r.randrange(2), r.randrange(3)
    c = {"keep": 8 + r.randrange(16), "foot": 10, "per_foot": per_foot}
    stocks = []
    for s in range(2 + r.randrange(2)):
        usable = 44 + r.randrange(34)
        stocks.append({"name": f"sale {s}", "usable": usable, "length": usable,
                       "cost": usable // 10 * per_foot + 1 + usable // 2 + r.randrange(14)})
    for s in range(r.randrange(2)):
        usable = 20 + r.randrange(30)
        stocks.append({"name": f"rack {s}", "usable": usable, "length": usable, "limit": 1,
                       "cost": credit({"credit": c}, usable)})
    lengths = r.sample(range(9, 34), 1 + r.randrange(3))
    groups = [{"name": f"group {g}", "count": 1, "lines": [line(r, mark) for _ in range(1 + r.randrange(2))],
               "apart": r.randrange(8), "zones_exclusive": r.random() < 0.5, "splice_cost": r.randrange(6)}
              for g in range(r.randrange(3))]
    return {"name": name, "mark": mark, "kerf": r.randrange(3), "credit": c, "stocks": stocks, "groups": groups,
            "items": [{"length": l, "count": 1 + r.randrange(3)} for l in sorted(lengths)]}

def charge(r, pools, name):
    sale = [(p, s) for p, q in enumerate(pools) for s, t in enumerate(q["stocks"]) if "limit" not in t]
    over = sorted(r.sample(sale, 1 + r.randrange(len(sale))))
    kind = r.choice([{"fixed": {"amount": r.randrange(30)}},
                     {"fixed": {"amount": r.randrange(40), "free_over": 40 + r.randrange(160)}},
                     {"lift": {"lift": 2 + r.randrange(3), "fee": r.randrange(12), "part_fee": r.randrange(8)}},
                     {"minimum": {"least": 40 + r.randrange(160)}}, {"range": {"least": r.randrange(4), "most": 5 + r.randrange(4)}}])
    return {"name": name, "over": [{"pool": p, "stock": s} for p, s in over], "kind": kind}

def problem(r):
    pools = [pool(r, f"pool {p}") for p in range(1 + r.randrange(2))]
    charges = [charge(r, pools, f"charge {c}") for c in range(1 + r.randrange(3))]
    return {"aim": r.choice(AIMS), "pools": pools, "charges": charges}

# Every configuration and pattern.

def ways(l, mark):  # (pieces, charges, [(centre, zone)], splices), centres times 2m
    for m in range(l["least_splices"], l["most_splices"] + 1):
        if m == 0: yield (l["whole"],), 0, [], 0; continue
        metal = (l["length"] - m * l["gap"]) // mark * mark
        least = max(l["least_piece"], 1)
        for cuts in itertools.combinations(range(mark, metal, mark), m):
            pieces = [b - a for a, b in zip((0,) + cuts, cuts + (metal,))]
            if min(pieces) < least: continue
            stands, money = [], 0
            for j, cut in enumerate(cuts, 1):
                centre = 2 * m * cut + (2 * j - 1) * (l["length"] - metal)
                held = [s for s in l["slots"] if 2 * m * s["lo"] <= centre <= 2 * m * s["hi"]]
                if not held: break
                slot = min(held, key=lambda s: s["charge"])
                if any(slot["zone"] == z for _, z in stands): break
                stands.append((centre, slot["zone"])); money += slot["charge"]
            else:
                if all(c[0] - a[0] > 2 * m * l["three_over"] for a, _, c in zip(stands, stands[1:], stands[2:])):
                    yield tuple(pieces), money, stands, m

def configurations(g, mark):  # pieces, sorted -> least money
    out = {}
    lines = [list(ways(l, mark)) for l in g["lines"]]
    for combo in itertools.product(*lines):
        if len(combo) == 2:
            (_, _, a, m), (_, _, b, n) = combo
            if any(g["zones_exclusive"] and za == zb or abs(ca * n - cb * m) < 2 * m * n * g["apart"]
                   for ca, za in a for cb, zb in b): continue
        pieces = tuple(sorted(p for w in combo for p in w[0]))
        money = sum(w[1] + w[3] * g["splice_cost"] for w in combo)
        out[pieces] = min(money, out.get(pieces, money))
    return out

def patterns(stock, things, kerf):  # every non-empty multiset that fits: counts per thing, weight
    def grow(i, room, taken):
        if i == len(things):
            if any(taken): yield taken
            return
        length, most = things[i]
        for n in range(most + 1):
            if n * (length + kerf) > room: break
            yield from grow(i + 1, room - n * (length + kerf), taken + (n,))
    yield from grow(0, stock["usable"] + kerf, ())

# The model: variables (least, most, cost), rows (least, most, {variable: factor}).

class Model:
    def __init__(self): self.vars, self.rows = [], []
    def var(self, lo, hi, cost=0): self.vars.append((lo, hi, cost)); return len(self.vars) - 1
    def row(self, lo, hi, terms): self.rows.append((lo, hi, dict(terms)))

MANY, BIG = 20, 10 ** 6
OVER = 10 ** 5  # more than all the money of so small a problem: one of what an aim counts

def model(p):
    m, aim = Model(), p["aim"]
    taken = {}
    def costs(pool, s, drop): return s["cost"] - credit(pool, drop) + OVER * {"joints": 1, "waste": s["length"]}.get(aim, 0)
    may = set()
    for c in p["charges"]:
        (name, k), = c["kind"].items()
        if name == "fixed" and "free_over" in k or name == "lift" and k["part_fee"] or \
                name == "minimum" and k["least"] or name == "range" and k["least"] > 1:
            may |= {(o["pool"], o["stock"]) for o in c["over"]}
    size = 0
    for q, pool in enumerate(p["pools"]):
        chosen, lengths = [], {}
        for g in pool["groups"]:
            configs = configurations(g, pool["mark"])
            if aim == "splices":
                configs = {c: money + OVER * (len(c) - len(g["lines"])) for c, money in configs.items()}
            ys = {pieces: m.var(0, g["count"], money) for pieces, money in configs.items()}
            m.row(g["count"], g["count"], {y: 1 for y in ys.values()})
            chosen.append(ys)
            for pieces in ys:
                for l in pieces: lengths[l] = max(lengths.get(l, 0), 0)
        for l in lengths:
            lengths[l] = sum(max((pieces.count(l) for pieces in ys), default=0) for ys in chosen)
        things = [(i["length"], i["count"]) for i in pool["items"]] + sorted(lengths.items())
        cut = [{} for _ in things]
        for s, stock in enumerate(pool["stocks"]):
            mine = {}
            for pattern in patterns(stock, things, pool["kerf"]):
                size += 1
                if size > 900: return None, None
                weight = sum(n * (l + pool["kerf"]) for n, (l, _) in zip(pattern, things))
                x = m.var(0, stock.get("limit") or MANY, costs(pool, stock, max(0, stock["usable"] - weight)))
                mine[x] = 1
                for t, n in enumerate(pattern):
                    if n: cut[t][x] = n
            if (q, s) in may: mine[m.var(0, MANY, costs(pool, stock, stock["usable"]))] = 1
            if "limit" in stock: m.row(0, stock["limit"], mine)
            taken[q, s] = mine
        for t, (l, count) in enumerate(things):
            if t < len(pool["items"]): m.row(count, count, cut[t]); continue
            for ys in chosen:
                for pieces, y in ys.items():
                    if pieces.count(l): cut[t][y] = -pieces.count(l)
            m.row(0, 0, cut[t])
    for c in p["charges"]:
        (name, k), = c["kind"].items()
        keys = [(o["pool"], o["stock"]) for o in c["over"]]
        n = {x: 1 for key in keys for x in taken[key]}
        money = {x: p["pools"][key[0]]["stocks"][key[1]]["cost"] for key in keys for x in taken[key]}
        any_ = m.var(0, 1)
        m.row(-BIG, 0, n | {any_: -1000})
        if name == "fixed":
            paid = m.var(0, 1, k["amount"])
            if "free_over" in k:
                free = m.var(0, 1)
                m.row(0, BIG, money | {free: -k["free_over"]})
                m.row(0, BIG, {paid: 1, any_: -1, free: 1})
            else: m.row(0, BIG, {paid: 1, any_: -1})
        elif name == "lift":
            lifts, over, part = m.var(0, 1000, k["fee"]), m.var(0, k["lift"] - 1), m.var(0, 1, k["part_fee"])
            m.row(0, 0, n | {lifts: -k["lift"], over: 1})
            m.row(-BIG, 0, {over: 1, part: 1 - k["lift"]})
        elif name == "minimum":
            m.row(0, BIG, money | {any_: -k["least"], m.var(0, BIG, 1): 1})
        else:
            m.row(0, BIG, n | {any_: -k["least"]})
            m.row(-BIG, 0, n | {any_: -k["most"]})
    return m, size

def highs(m):
    h = highspy.Highs()
    h.silent()
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.5)
    for v, (lo, hi, cost) in enumerate(m.vars):
        h.addVar(lo, hi); h.changeColCost(v, cost); h.changeColIntegrality(v, highspy.HighsVarType.kInteger)
    for lo, hi, terms in m.rows:
        h.addRow(lo, hi, len(terms), list(terms), list(map(float, terms.values())))
    h.run()
    status = h.getModelStatus()
    if status == highspy.HighsModelStatus.kOptimal: return round(h.getInfo().objective_function_value)
    assert status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible), status

def cp_sat(m):
    c = cp_model.CpModel()
    xs = [c.new_int_var(lo, hi, "") for lo, hi, _ in m.vars]
    for lo, hi, terms in m.rows: c.add_linear_constraint(sum(f * xs[v] for v, f in terms.items()), lo, hi)
    c.minimize(sum(cost * xs[v] for v, (_, _, cost) in enumerate(m.vars)))
    s = cp_model.CpSolver()
    # One release was seen to call a dear plan optimal with presolve on.
    s.parameters.cp_model_presolve, s.parameters.num_workers, s.parameters.max_time_in_seconds = False, 2, 10
    status = s.solve(c)
    if status == cp_model.OPTIMAL: return round(s.objective_value)
    return None if status == cp_model.INFEASIBLE else "no answer in time"

def ours(binary, p):
    with tempfile.NamedTemporaryFile("w", suffix=".json", delete=False) as f: json.dump(p, f)
    run = subprocess.run([binary, "nest", f.name, "--json"], capture_output=True, text=True)
    os.unlink(f.name)
    assert run.returncode in (0, 3), run.stderr
    answer = json.loads(run.stdout)
    by = answer.get("weighing", {"weight": OVER, "unit": 1})
    def figures(n): return n // by["weight"] * by["unit"] * OVER + n % by["weight"]
    return answer["whole"] | {name: figures(answer["whole"][name]) for name in ("cost", "bound")}

def main():
    binary, *numbers = [a for a in sys.argv[1:] if a != "--aims"]
    wanted, seed = (int(n) for n in numbers + ["44", "1"][len(numbers):])
    done = proved = bad = none = silent = 0
    while done < wanted:
        p, seed = problem(random.Random(seed)), seed + 1
        m, size = model(p)
        if m is None: continue
        best, second = highs(m), cp_sat(m)
        if best is None: none += 1; continue
        whole, done = ours(binary, p), done + 1
        silent += second == "no answer in time"
        proved += whole["status"] == "proved"
        agree = second in (best, "no answer in time") and whole["status"] in ("proved", "within") \
            and whole["bound"] <= best == whole["cost"]
        bad += not agree
        if not agree: print(f"seed {seed - 1} {p['aim']}: HiGHS {best}, CP-SAT {second}, ours {whole['cost']} bound {whole['bound']} {whole['status']}")
    print(f"{done} problems: {done - bad} equal, {proved} proved; {none} without a plan left out; CP-SAT silent on {silent}")
    return 1 if bad else 0

if __name__ == "__main__": sys.exit(main())
