"""Prices, fees, ledger, total, gate costs and references: each the sum of what it is made of."""
from fractions import Fraction

from plan_file import CENT, HALF_CENT, near
from plan_patterns import cut_length
from pool import credit, demand

SAME = CENT / 20


def judge(plan):
    priced(plan)
    charges = sum(plan.whole["charges"]) if plan.whole else 0
    fees = [fee["money"] for fee in plan["fees"]]
    near(sum(fees), Fraction(charges, 100_000), rounded(len(fees)), "fees")
    demand(all(fee >= 0 for fee in fees), "a fee under 0")
    if plan["ledger"] is not None:
        ledger(plan, plan["ledger"])
        gate_costs(plan)
    references(plan)


def rounded(n):
    """What so many figures, each rounded to the cent, may be off together."""
    return HALF_CENT * max(1, n)


def priced(plan):
    """Where every pipe has money the week has; a priced pipe has money on every line."""
    everything = all(outcome["priced"] for outcome in plan["outcomes"])
    known = plan["ledger"] is not None, plan["totals"]["money"] is not None
    demand(known == (everything, everything), "money, and a price is missing")
    demand(everything or not plan["gate_costs"], "gate costs, and a price is missing")
    for outcome in plan["outcomes"]:
        lines = [b for b in plan["buy"] if b["pipe"] == outcome["pipe"]]
        known = all(b["money"] is not None for b in lines)
        demand(known or not outcome["priced"], "a priced pipe with a line without money")


def ledger(plan, said):
    def fees(kind):
        return sum(fee["money"] for fee in plan["fees"] if fee["kind"] == kind)
    # Not every line need have money: `priced` has told.
    bought, tax = (sum(b[f] for b in plan["buy"] if b[f] is not None) for f in ("money", "tax"))
    stocks = Fraction(sum(o["pipe_money_millicents"] for o in plan["outcomes"]), 100_000)
    credits = [row["credit"] for row in plan["kept"] + plan["uncut"]]
    splices, all_welds = welds(plan)
    own = {
        "pipe": (bought, SAME),
        "tax": (tax, SAME),
        "freight": (fees("freight"), SAME),
        "lifts": (fees("lift"), SAME),
        "minimum": (fees("minimum"), SAME),
        "rack": (stocks - bought - tax, rounded(2 * len(plan["buy"]) + 1)),
        "splices": (splices, HALF_CENT),
        "classes": (all_welds - splices, 2 * HALF_CENT),
        "kept": (sum(credits), rounded(1 + len(plan["uncut"]))),
    }
    for name, (figure, apart) in own.items():
        near(said[name], figure, apart, f"ledger: {name}")
    total = sum(said[name] for name in own) - 2 * said["kept"]
    near(said["total"], total, SAME, "ledger: total")
    near(plan["totals"]["money"], said["total"], SAME, "the plan's money")


def welds(plan):
    """Money of splices alone and with their places' charges: answers' costs less their joints'."""
    splices = together = 0
    for _, pool, answer in plan.pools():
        together += answer["cost"]
        for pattern in answer["patterns"]:
            stock = pool["stocks"][pattern["stock"]]
            filled = sum(cut_length(pool, cut) + pool["kerf"] for cut in pattern["cuts"])
            drop = max(0, stock["usable"] - filled)
            together -= (stock["cost"] - credit(pool, drop)) * pattern["times"]
        for made in answer["configurations"]:
            each = pool["groups"][made["group"]]["splice_cost"] * made["times"]
            splices += each * sum(len(line) - 1 for line in made["lines"])
    return Fraction(splices, 100_000), Fraction(together, 100_000)


def gate_costs(plan):
    rows = plan["gate_costs"]
    total, welded = plan["totals"]["money"], plan["ledger"]["splices"] + plan["ledger"]["classes"]
    near(sum(row["money"] for row in rows), total, SAME, "gate costs: their sum")
    near(sum(row["splices"] for row in rows), welded, SAME, "gate costs: splices")
    own = [g for g, gate in enumerate(plan["gates"])
           if gate["count"] > 0 and not plan.gate_left_out(g)]
    demand([row["gate"] for row in rows if row["gate"] is not None] == own, "gate costs: rows")
    for row in rows:
        name = f"costs of {row['mark']}"
        near(row["money"], row["pipe"] + row["splices"] + row["shared"], SAME, name)
        each = Fraction(row["money"]) / row["count"]
        near(row["each"], each, HALF_CENT, f"{name}: each")
        if row["gate"] is not None:
            gate = plan["gates"][row["gate"]]
            demand((row["mark"], row["count"]) == (gate["mark"], gate["count"]), name)
            long = (1000 if plan.metric else 12) * plan.unit
            per = each * long / gate["opening"]["ticks"]
            near(row["per_opening"], per, HALF_CENT, f"{name}: by the opening")


def references(plan):
    """No other way of working beats the bound; none that failed has a price."""
    known = all(answer["status"] not in ("short", "none_found") for answer in plan.answers)
    bounds = [plan.whole] if plan.whole else plan.answers
    bound, total = Fraction(sum(b["bound"] for b in bounds), 100_000), plan["totals"]["money"]
    for row in plan["references"]:
        name, money = row["name"], row["money"]
        demand(row["failed"] is None or money is None, f"{name}: failed, and has a price")
        if money is None or total is None or not known:
            continue
        demand(money >= bound - HALF_CENT, f"{name}: cheaper than the bound")
        cents = rounded(2 * len(plan["buy"]) + len(plan["fees"]) + 4)
        dearer = name.startswith("longest first") and total > money + cents
        demand(not dearer, f"{name}: cheaper than the plan")
