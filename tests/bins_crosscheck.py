"""Variable-sized bins as published, solved by `longpoint nest` and, live, by HiGHS over an arc-flow model made here
(J. M. Valerio de Carvalho, Exact solution of bin-packing problems using column generation and branch-and-bound,
Annals of Operations Research 86, 1999): a flow of items from 0 to each bin's end, loss arcs between. Costs must be
equal, bounds no higher.

The classes and their recipes, as M. Haouari and M. Serairi restate them (Heuristics for the variable sized bin-packing
problem, Computers & Operations Research 36, 2009): Monaci's, bins 100, 120, 150, or 60, 80, 100, 120, 150, at their
size's cost, items even over 1, 20 or 50 to 100; their own, bins 70, 100 .. 250, items even over 1 to 250, cost the
size, or concave 10 sqrt(size), or convex size^1.5 / 10, rounded up. The instances here are drawn anew by these
recipes (seeded), for the authors' files come without a licence to pass them on; --files runs the authors' own
files where one has them: number of items and of bins, then size and cost of each bin, then the items.

Usage: bins_crosscheck.py LONGPOINT [INSTANCES] [FIRST SEED]
       bins_crosscheck.py LONGPOINT --files FILE...
"""
import json, math, os, random, subprocess, sys, tempfile
from collections import Counter
from milp_crosscheck import Model, highs

MONACI = [((100, 120, 150), (lo, 100)) for lo in (1, 20, 50)] + [((60, 80, 100, 120, 150), (lo, 100)) for lo in (1, 20, 50)]
FINE = 1000  # the engine counts money in thousandths
COSTS = {"linear": lambda w: w, "concave": lambda w: math.ceil(10 * math.sqrt(w) - 1e-9),
         "convex": lambda w: math.ceil(w ** 1.5 / 10 - 1e-9)}

def drawn(seed):
    """Name, bins (size, cost), items."""
    r, (kind, size) = random.Random(seed), divmod(seed, 9)
    count = (25, 50)[kind % 2]
    if size < 6:
        bins, (lo, hi) = MONACI[size]
        return f"{len(bins)} bins, {count} items from {lo}", [(w, w) for w in bins], [r.randint(lo, hi) for _ in range(count)]
    cost = list(COSTS)[size - 6]
    return f"7 bins, {cost}, {count} items", [(w, COSTS[cost](w)) for w in range(70, 251, 30)], [r.randint(1, 250) for _ in range(count)]

def read(path):
    with open(path) as f: numbers = [int(w) for w in f.read().split()]
    n, k = numbers[:2]
    # A heading is of two numbers, or of four (class and number of the instance).
    at = len(numbers) - n - 2 * k
    bins = list(zip(numbers[at:at + 2 * k:2], numbers[at + 1:at + 2 * k:2]))
    return os.path.basename(path), bins, numbers[at + 2 * k:]

def arc_flow(bins, items):
    counts, longest = sorted(Counter(items).items(), reverse=True), max(w for w, _ in bins)
    m, into, out = Model(), {}, {}
    def arc(a, b, cost=0, most=10 ** 4):
        v = m.var(0, most, cost)
        out.setdefault(a, {})[v] = 1
        into.setdefault(b, {})[v] = 1
        return v
    # Items longest first: from where a longer one, or this one again, may have ended.
    ends, cut = {0}, {w: {} for w, _ in counts}
    for w, count in counts:
        for start in sorted(ends):
            for n in range(count):
                a = start + n * w
                if a + w > longest: break
                ends.add(a + w)
                cut[w].setdefault(a, None)
    for w, count in counts:
        cut[w] = {arc(a, a + w, 0, count): 1 for a in cut[w]}
        m.row(count, count, cut[w])
    points = sorted(ends | {w for w, _ in bins})
    for a, b in zip(points[1:], points[2:]): arc(a, b)
    for w, cost in bins: arc(w, "end", cost)
    for p in points[1:]:
        m.row(0, 0, into.get(p, {}) | {v: -1 for v in out.get(p, {})})
    return m

def problem(bins, items):
    stocks = [{"name": f"bin {w}", "usable": w, "length": w, "cost": cost * FINE} for w, cost in bins]
    things = [{"length": w, "count": n} for w, n in sorted(Counter(items).items())]
    return {"pools": [{"name": "bins", "mark": 1, "kerf": 0, "credit": {"keep": 0, "foot": 1, "per_foot": 0},
                       "stocks": stocks, "items": things}]}

def ours(binary, p):
    with tempfile.NamedTemporaryFile("w", suffix=".json", delete=False) as f: json.dump(p, f)
    run = subprocess.run([binary, "nest", f.name, "--json"], capture_output=True, text=True)
    os.unlink(f.name)
    assert run.returncode == 0, run.stderr
    return json.loads(run.stdout)["answers"][0]

def main():
    binary, *rest = sys.argv[1:]
    if rest[:1] == ["--files"]: todo = (read(path) for path in rest[1:])
    else:
        count, first = (int(n) for n in rest + ["18", "0"][len(rest):])
        todo = (drawn(seed) for seed in range(first, first + count))
    done = equal = proved = bad = 0
    for name, bins, items in todo:
        best, whole = highs(arc_flow(bins, items)), ours(binary, problem(bins, items))
        done, equal = done + 1, equal + (whole["cost"] == best * FINE)
        proved += whole["status"] in ("proved", "proved_by_search")
        right = whole["bound"] <= best * FINE <= whole["cost"]
        bad += not right
        if whole["cost"] != best * FINE or not right:
            print(f"{done}: {name}: least {best}, ours {whole['cost'] / FINE}, bound {whole['bound'] / FINE}, {whole['status']}")
    print(f"{done} instances: {equal} at the least cost, {proved} proved, {bad} wrong")
    return 0 if done == equal else 1

if __name__ == "__main__": sys.exit(main())
