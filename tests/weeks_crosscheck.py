"""Seeded small weeks as a shop keeps them (CSV and TOML files), planned by `longpoint plan` and, live, by two
general-purpose solvers over a model made here from the same files by this script's own arithmetic: lengths, trims,
prices by foot, metre, joint, cwt and tonne, breaks, lifts, freight by the longest joint, free over an amount, least
orders, tax, what is to be had, remnants, credit, days to delivery. Landed money must be equal to 1/1000 cent, and
the ledger must be the order lines added up, each rounded once.

Weeks of plain parts are rebuilt whole; of weeks with gates the cut lengths are taken from plan.json, the rest not.

Usage: weeks_crosscheck.py LONGPOINT [WEEKS] [FIRST SEED]
"""
import csv, datetime, json, os, random, subprocess, sys, tempfile, tomllib
from decimal import Decimal as D, ROUND_HALF_UP, ROUND_FLOOR, ROUND_CEILING
from milp_crosscheck import BIG, MANY, Model, cp_sat, highs, patterns

INCH, MM = 8128, 320
FOOT = 12 * INCH
ORDERED = datetime.date(2026, 3, 2)

# The weeks: rows of text, as typed.

def week(r, gates):
    metric = r.random() < 0.3
    pipes = [("H", "60.3 mm", "3.6 mm") if metric else ("H", "2.375", "0.154")]
    if gates or r.random() < 0.4: pipes.append(("V", "48.3 mm", "3.2 mm") if metric else ("V", "1.900", "0.145"))
    suppliers = ["Ada", "Bob"][:1 + (r.random() < 0.8)]
    return {"shop.toml": shop(r, metric, pipes, gates), "parts.csv": parts(r, metric, pipes, 1 if gates else 4),
            "stock.csv": stock(r, metric, pipes, suppliers), "suppliers.csv": terms(r, metric, suppliers),
            "rack.csv": rack(r, metric, pipes)} | ({"orders.csv": orders(r)} if gates else {})

def length(r, metric, lo, hi):
    """Between so many feet, sometimes off the saw's marks."""
    inches = r.randrange(lo * 12 * 8, hi * 12 * 8) / 8
    return f"{round(inches * 25.4)} mm" if metric else f"{inches + r.choice([0, 0, 0.03])} in"

def shop(r, metric, pipes, gates):
    out = [f'units = "{"metric" if metric else "inch"}"']
    for name, od, wall in pipes: out += ["[[pipe]]", f'name = "{name}"', f'od = "{od}"', f'wall = "{wall}"']
    if gates: out += ["[gate]", 'horizontal = "H"', 'end_post = "H"', 'vertical = "V"', 'diagonal = "V"']
    out += ["[saw]", f'kerf = "{r.choice(["2.5 mm", "3 mm"] if metric else ["0.1 in", "1/8 in"])}"']
    if r.random() < 0.3: out.append(f'hold_back = "{r.choice(["50 mm"] if metric else ["2 in"])}"')
    out += ["[money]", f"credit_rate = {r.choice(['0', '0.5', '0.50', '0.8'])}",
            f'keep_length = "{r.choice(["600 mm", "900 mm"] if metric else ["30 in", "36 in"])}"',
            "[buying]", f'order_date = "{ORDERED}"', "shop_days = 1", "[splice]", "cost = 40"]
    return "\n".join(out) + "\n"

def table(head, rows): return "\n".join([head] + [",".join(str(c) for c in row) for row in rows]) + "\n"

def parts(r, metric, pipes, most):
    rows = [(f"P{n}", r.choice(pipes)[0], length(r, metric, 3, 12), 1 + r.randrange(4)) for n in range(1 + r.randrange(most))]
    return table("mark,pipe,length,count", rows)

def stock(r, metric, pipes, suppliers):
    rows = []
    for pipe, _, _ in pipes:
        for supplier in suppliers:
            for joint in r.sample(["6 m", "7.5 m", "12 m"] if metric else ["21 ft", "24 ft", "32 ft"], 1 + r.randrange(2)):
                per, lo, hi = r.choice([("foot", 260, 360), ("joint", 6200, 9900), ("cwt", 8200, 9900)] if not metric else
                                       [("metre", 800, 1150), ("joint", 6200, 9900), ("tonne", 150000, 190000)])
                if joint in ("12 m", "32 ft") and per == "joint": lo, hi = 2 * lo, 2 * hi
                cents = r.randrange(lo, hi)
                lift = (2 + r.randrange(3), r.randrange(9), r.choice(["", "4.5"])) if r.random() < 0.4 else ("", "", "")
                have = 2 + r.randrange(6) if r.random() < 0.3 else ""
                lead = r.choice(["", 1, 4, 9])
                row = [pipe, supplier, joint, r.choice(["", "", "5.95 m" if metric else "20'-11\""]) if joint in ("6 m", "21 ft") else ""]
                rows.append(row + [D(cents) / 100, per, "", have, *lift, lead, r.choice(["", "2026-02-20", "2026-04-01"]),
                                   r.choice(["", "", "no"])])
                if r.random() < 0.4:
                    rows.append(row[:3] + ["", D(cents * (90 + r.randrange(9))) / 10000 if per != "joint" else D(cents - r.randrange(1, 500)) / 100,
                                           per, 2 + r.randrange(4), "", "", "", "", "", "", ""])
    return table("pipe,supplier,length,planning,price,per,from,available,lift,lift_fee,part_lift_fee,lead_days,valid_until,taxable", rows)

def terms(r, metric, suppliers):
    rows = []
    for s in suppliers:
        first, free = r.randrange(20, 90), r.choice(["", 150 + r.randrange(400)])
        least, tax, lead = r.choice(["", 100 + r.randrange(300)]), r.choice(["", "8.25", "19 %"]), r.choice(["", 3])
        if r.random() < 0.6:
            rows.append((s, first, "7.5 m" if metric else "24 ft", free, least, tax, lead))
            rows.append((s, first + r.randrange(80), "", "", "", "", ""))
        elif r.random() < 0.7: rows.append((s, first, "", free, least, tax, lead))
        else: rows.append((s, "", "", "", least, tax, lead))
    return table("supplier,freight,up_to,free_over,minimum,tax,lead_days", rows)

def rack(r, metric, pipes):
    rows = [(f"R{n}", r.choice(pipes)[0], length(r, metric, 4, 15), 1 + r.randrange(2), r.choice(["yes", "no"]), r.choice(["", "no"]))
            for n in range(r.randrange(3))]
    return table("tag,pipe,length,count,near_trim,far_trim", rows)

def orders(r):
    rows = [(f"G{n}", 1, r.choice(["5'", "6'", "7'-3\"", "8'"]), r.choice(["3'", "4'", "4'-6\""]), f"2026-03-{4 + r.randrange(10):02}")
            for n in range(1 + r.randrange(2))]
    return table("mark,count,opening,height,due", rows)

# The files read again.

def ticks(text, rounding=ROUND_FLOOR):
    text = text.strip()
    feet = D(0)
    if "'" in text:
        feet, text = text.split("'")
        feet, text = D(feet) * 12, (text.strip("-").rstrip('"') or "0") + " in"
    number, unit = text.split()
    number = D(number.split("/")[0]) / D(number.split("/")[1]) if "/" in number else D(number)
    per = {"in": D(INCH), "ft": D(FOOT), "mm": D(MM), "m": D(1000 * MM)}[unit]
    return int((feet * INCH + number * per).to_integral_value(rounding))

def millicents(money): return int((money * 100_000).to_integral_value(ROUND_HALF_UP))
def cents(money): return money.quantize(D("0.01"), ROUND_HALF_UP)
def up(x, unit): return -(-x // unit) * unit

def joint_price(row, nominal, pipe):
    """Of one joint; by weight: theoretical weight to two decimals (10.69 (OD - t) t lb/ft; 0.0246615 (OD - t) t kg/m)."""
    price, feet, metres = D(row["price"]), D(nominal) / FOOT, D(nominal) / (1000 * MM)
    od, wall = pipe
    if row["per"] == "joint": return price
    if row["per"] == "foot": return price * feet
    if row["per"] == "metre": return price * metres
    if row["per"] == "cwt": return price * cents(D("10.69") * (od - wall) * wall / D("25.4") ** 2) * feet / 100
    return price * cents(D("0.0246615") * (od - wall) * wall) * metres / 1000

class Week:
    def __init__(self, folder):
        rows = lambda name: list(csv.DictReader(open(f"{folder}/{name}"))) if os.path.exists(f"{folder}/{name}") else []
        shop = tomllib.load(open(f"{folder}/shop.toml", "rb"))
        inch = shop["units"] == "inch"
        self.mark = INCH // 16 if inch else MM
        # Trims are the shop's standard: 1/4 in, 6 mm.
        self.trim, grid = (INCH // 4, INCH // 64) if inch else (6 * MM, MM // 4)
        self.kerf = up(ticks(shop["saw"]["kerf"], ROUND_CEILING), grid)
        self.hold = ticks(shop["saw"].get("hold_back", "0 in"))
        self.keep, self.rate = ticks(shop["money"]["keep_length"]), D(str(shop["money"]["credit_rate"]))
        mm = lambda text: D(text.removesuffix(" mm")) * (1 if "mm" in text else D("25.4"))
        self.pipes = {p["name"]: (mm(p["od"]), mm(p["wall"])) for p in shop["pipe"]}
        self.due = {g["mark"]: datetime.date.fromisoformat(g["due"]) - datetime.timedelta(shop["buying"]["shop_days"])
                    for g in rows("orders.csv")}
        self.suppliers = {}
        for row in rows("suppliers.csv"):
            s = self.suppliers.setdefault(row["supplier"], {"steps": []} | {k: None for k in ("free_over", "minimum", "tax", "lead_days")})
            if row["freight"]: s["steps"].append((ticks(row["up_to"]) if row["up_to"] else None, D(row["freight"])))
            for k in ("free_over", "minimum", "tax", "lead_days"): s[k] = s[k] or row[k] or None
        for s in self.suppliers.values(): s["tax"] = D((s["tax"] or "0").rstrip(" %")) / 100
        self.quotes, self.offers = [], {}
        for row in rows("stock.csv"): self.quote(row)
        self.rack = {p: [] for p in self.pipes}
        for row in rows("rack.csv"):
            near, far = (0 if row[k] == "no" else self.trim for k in ("near_trim", "far_trim"))
            usable = ticks(row["length"]) - near - far - self.hold
            if usable > 0: self.rack[row["pipe"]].append((usable, int(row["count"])))
        self.things = {p: {} for p in self.pipes}
        for row in rows("parts.csv"):
            # Cut lengths to the nearest mark, half up; the tick first.
            at = (2 * ticks(row["length"], ROUND_HALF_UP) + self.mark) // (2 * self.mark) * self.mark
            self.thing(row["pipe"], at, None, int(row["count"]))

    def thing(self, pipe, at, deadline, count):
        things = self.things[pipe]
        things[at, deadline] = things.get((at, deadline), 0) + count

    def quote(self, row):
        nominal = ticks(row["length"])
        price = joint_price(row, nominal, self.pipes[row["pipe"]])
        offer = self.offers.setdefault((row["pipe"], row["supplier"], nominal), dict(row) | {"tiers": []})
        tax = D(0) if offer["taxable"] == "no" else self.suppliers[row["supplier"]]["tax"]
        if not offer["tiers"]:
            lead = row["lead_days"] or self.suppliers[row["supplier"]]["lead_days"]
            offer["arrives"] = ORDERED + datetime.timedelta(int(lead)) if lead else None
            offer["usable"] = (ticks(row["planning"]) if row["planning"] else nominal) - 2 * self.trim - self.hold
        offer["tiers"].append((int(row["from"] or 1), millicents(price * (1 + tax)), millicents(price)))
        self.quotes.append({"price": price, "tax": tax, "key": (row["pipe"], row["supplier"], nominal), "from": int(row["from"] or 1)})

    def gates(self, plan):
        """Cut lengths of gates: the one thing taken from the plan."""
        for p in plan["parts"]:
            if p["gate"] is not None and p["ours"]:
                self.thing(plan["pipes"][p["pipe"]]["name"], p["saw_length"]["ticks"], self.due[plan["gates"][p["gate"]]["mark"]], p["count"])

    def per_foot(self, pipe):
        least = min((q["price"] * (1 + q["tax"]) * FOOT / q["key"][2] for q in self.quotes if q["key"][0] == pipe), default=D(0))
        return int((least * self.rate * 100_000).to_integral_value(ROUND_FLOOR))

    def credit(self, pipe, x): return self.per_foot(pipe) * (x // FOOT) if x >= self.keep else 0

def model(w):
    m, counted, size = Model(), {}, 0
    for pipe in w.pipes:
        things = sorted(w.things[pipe].items(), key=lambda t: (t[0][0], t[0][1] or ORDERED))
        if not things: continue
        cut = [{} for _ in things]
        def cuts(usable, arrives, most):
            """Variables of every pattern of this stock."""
            nonlocal size
            fit = [t for t, ((_, due), _) in enumerate(things) if not (due and arrives and arrives > due)]
            own = [(things[t][0][0], things[t][1]) for t in fit]
            mine = {}
            for pattern in patterns({"usable": usable}, own, w.kerf):
                size += 1
                weight = sum(n * (l + w.kerf) for n, (l, _) in zip(pattern, own))
                x = m.var(0, most, -w.credit(pipe, max(0, usable - weight)))
                mine[x] = 1
                for t, n in zip(fit, pattern):
                    if n: cut[t][x] = n
            return mine
        for key, o in w.offers.items():
            if key[0] != pipe: continue
            most = int(o["available"] or MANY)
            mine = cuts(o["usable"], o["arrives"], most)
            mine[m.var(0, most, -w.credit(pipe, o["usable"]))] = 1  # left whole
            tiers, money = {}, {}
            chosen = []
            for t, (least, cost, price) in enumerate(o["tiers"]):
                last = o["tiers"][t + 1][0] - 1 if t + 1 < len(o["tiers"]) else most
                n, z = m.var(0, most, cost), m.var(0, 1)
                m.row(-BIG, 0, {z: least, n: -1})
                m.row(-BIG, 0, {n: 1, z: -min(last, most)})
                tiers[n], money[n] = 1, price
                chosen.append(z)
            m.row(0, 1, {z: 1 for z in chosen})
            m.row(0, 0, mine | {n: -1 for n in tiers})
            counted[key] = (tiers, money)
        for usable, count in w.rack[pipe]:
            mine = cuts(usable, None, count)
            for x in mine: m.vars[x] = (m.vars[x][0], m.vars[x][1], m.vars[x][2] + w.credit(pipe, usable))
            if mine: m.row(0, count, mine)
        for t, (_, count) in enumerate(things): m.row(count, count, cut[t])
    charges(w, m, counted)
    return m, size

def charges(w, m, counted):
    for name, s in w.suppliers.items():
        own = [key for key in counted if key[1] == name]
        if not own: continue
        money = {n: p for key in own for n, p in counted[key][1].items()}
        def touched(keys, amount=0):
            any_ = m.var(0, 1, amount)
            m.row(-BIG, 0, {n: 1 for key in keys for n in counted[key][0]} | {any_: -1000})
            return any_
        before, beyond = D(0), 0
        for step, (up_to, amount) in enumerate(s["steps"]):
            far = [key for key in own if step == 0 or key[2] > beyond]
            add = millicents(amount - before)
            if far and add and step == 0 and s["free_over"]:
                any_, paid, free = touched(far), m.var(0, 1, add), m.var(0, 1)
                m.row(0, BIG ** 2, money | {free: -millicents(D(s["free_over"]))})
                m.row(0, BIG, {paid: 1, any_: -1, free: 1})
            elif far and add: touched(far, add)
            before, beyond = amount, up_to or beyond
        if s["minimum"]:
            m.row(0, BIG ** 2, money | {touched(own): -millicents(D(s["minimum"])), m.var(0, BIG ** 2, 1): 1})
    for key, (tiers, _) in counted.items():
        o = w.offers[key]
        fee, part = millicents(D(o["lift_fee"] or 0)), millicents(D(o["part_lift_fee"] or 0))
        if o["lift"] and (fee or part):
            q = int(o["lift"])
            lifts, over, broken = m.var(0, 1000, fee), m.var(0, q - 1), m.var(0, 1, part)
            m.row(0, 0, tiers | {lifts: -q, over: 1})
            m.row(-BIG, 0, {over: 1, broken: 1 - q})

# The plan's own lines added up.

def ledger_faults(w, plan):
    l, money = plan["ledger"], lambda x: D(str(x))
    lines = [(b["joints"], w.quotes[b["quote"]]) for b in plan["buy"]]
    bought = {}
    for n, q in lines: bought[q["key"]] = bought.get(q["key"], 0) + n
    want = {"pipe": sum(cents(q["price"] * n) for n, q in lines), "tax": sum(cents(q["price"] * q["tax"] * n) for n, q in lines)}
    kinds = {"freight": "freight", "lifts": "lift", "minimum": "minimum"}
    for k, kind in kinds.items(): want[k] = sum(money(f["money"]) for f in plan["fees"] if f["kind"] == kind)
    want["total"] = sum(money(l[k]) for k in l if k not in ("kept", "total")) - money(l["kept"])
    out = [f"{k} {l[k]}, added up {v}" for k, v in want.items() if money(l[k]) != v]
    out += [f"{n} joints of {q['key']} at the price from {q['from']} on" for n, q in lines
            if max(t for t, _, _ in w.offers[q["key"]]["tiers"] if t <= bought[q["key"]]) != q["from"]]
    exact = cost(plan)
    if abs(money(l["total"]) - D(exact) / 100_000) > D("0.05"): out.append(f"total {l['total']}, exact {exact}")
    return out

def cost(plan):
    whole = plan["nest"].get("whole")
    return whole["cost"] if whole else sum(o["cost_millicents"] for o in plan["outcomes"])

def status(plan):
    whole = plan["nest"].get("whole")
    return {whole["status"]} if whole else {o["status"] for o in plan["outcomes"]}

def main():
    binary, wanted = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 40
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    done = proved = bad = none = silent = gates = refused = 0
    while done < wanted:
        files, with_gates = week(random.Random(seed), seed % 4 == 0), seed % 4 == 0
        with tempfile.TemporaryDirectory() as folder:
            for name, text in files.items():
                with open(f"{folder}/{name}", "w") as f: f.write(text)
            run = subprocess.run([binary, "plan", folder, "--json"], capture_output=True, text=True)
            w = Week(folder)
        seed += 1
        faults = []
        if run.returncode == 0:
            plan = json.loads(run.stdout)
            if with_gates: w.gates(plan)
        elif run.returncode == 2 and with_gates:
            # A gate's parts are the plan's: one that wants a splice or an earlier joint is no week of this kind.
            refused += 1
            continue
        elif run.returncode != 2 or "does not reach" not in run.stderr and "run out" not in run.stderr:
            faults.append(f"exit code {run.returncode}: {run.stderr}")
        m, size = model(w)
        if size > 3000: continue
        best, second = highs(m), cp_sat(m)
        if best is None and run.returncode == 2: none += 1; continue
        done, gates = done + 1, gates + with_gates
        silent += second == "no answer in time"
        if second not in (best, "no answer in time"): faults.append(f"HiGHS {best}, CP-SAT {second}")
        if run.returncode == 0:
            proved += status(plan) <= {"proved", "proved_by_search"}
            faults += ledger_faults(w, plan)
            if cost(plan) != best: faults.append(f"best {best}, ours {cost(plan)} {status(plan)}")
        elif best is not None: faults.append(f"refused, but to be had for {best}")
        bad += bool(faults)
        if faults: print(f"seed {seed - 1}: " + "; ".join(faults))
    print(f"{done} weeks, {gates} with gates: {done - bad} equal, {proved} proved; "
          f"{none} that stock does not reach for and {refused} with gates refused left out; CP-SAT silent on {silent}")
    return 1 if bad else 0

if __name__ == "__main__": sys.exit(main())
