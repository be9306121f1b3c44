"""What a nest answer costs, from its problem alone; ValueError says what is wrong with it."""
from collections import Counter
from fractions import Fraction
from itertools import chain, product

def demand(holds, what):
    if not holds: raise ValueError(what)

def at(things, index):
    demand(0 <= index < len(things), "an index past its list")
    return things[index]

def credit(pool, drop):
    c = pool["credit"]
    return c["per_foot"] * (drop // c["foot"]) if drop >= c["keep"] else 0

def line_stands(line, mark, pieces):  # (centre, zone) of each splice, and their charges
    m, stands, charges = len(pieces) - 1, [], 0
    demand(line["least_splices"] <= m <= line["most_splices"], "a line of so many pieces")
    if m == 0: demand(pieces == [line["whole"]], "a whole line that is not whole"); return stands, charges
    metal = (line["length"] - m * line["gap"]) // mark * mark
    least = max(1, line["least_piece"])
    demand(sum(pieces) == metal and all(p % mark == 0 and p >= least for p in pieces), "pieces of a line")
    gap = Fraction(line["length"] - metal, m)  # as made
    for j in range(1, m + 1):
        centre = sum(pieces[:j]) + gap * (2 * j - 1) / 2
        slots = [s for s in line["slots"] if s["lo"] <= centre <= s["hi"]]
        demand(slots, "a splice in no slot")
        slot = min(slots, key=lambda s: s["charge"])
        demand(all(zone != slot["zone"] for _, zone in stands), "two splices in a zone")
        stands.append((centre, slot["zone"])); charges += slot["charge"]
    near = [c[0] - a[0] for a, c in zip(stands, stands[2:])]
    demand(all(n > line["three_over"] for n in near), "three splices too near")
    return stands, charges

def splicing(group, mark, lines):  # money of one configuration
    demand(len(lines) == len(group["lines"]), "lines of a configuration")
    made = [line_stands(l, mark, pieces) for l, pieces in zip(group["lines"], lines)]
    for (a, y), (b, z) in product(made[0][0], made[1][0] if len(made) > 1 else []):
        demand(abs(a - b) >= group["apart"], "splices of two lines too near")
        demand(not group["zones_exclusive"] or y != z, "splices of two lines in a zone")
    return sum(charges + len(stands) * group["splice_cost"] for stands, charges in made)

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
        demand(stock["limit"] is None or taken[s] <= stock["limit"], f"{stock['name']}: more than there are")
    return money
