"""The buy list, spares and joints left whole: counts, feet, weights, money and tax of each line."""
from fractions import Fraction

from plan_file import HALF_CENT, near, same_or_none
from plan_parts import weigh
from pool import credit, demand


def judge(plan):
    quotes = [line["quote"] for line in plan["buy"]]
    demand(len(set(quotes)) == len(quotes), "two lines of one quote")
    for line in plan["buy"]:
        one(plan, line)
    pipes = [row["pipe"] for row in plan["spares"]]
    demand(len(set(pipes)) == len(pipes), "two lines of spares for a pipe")
    for row in plan["spares"]:
        spare(plan, row)
    uncut(plan)


def one(plan, line):
    name = f"quote {line['quote']}"
    cut = sum(joint["quote"] == line["quote"] for joint in plan["joints"])
    whole = sum(u["joints"] for u in plan["uncut"] if u["quote"] == line["quote"])
    demand(line["joints"] == cut + whole, f"{name}: joints")
    billed = line["billed"]["ticks"]
    demand(billed == line["joint"]["ticks"] * line["joints"], f"{name}: length billed")
    weight = weigh(plan, line["pipe"], billed)
    near(line["weight"], weight, Fraction("0.0501"), f"{name}: weight")
    each = line["each"]
    own = None if each is None else each * line["joints"]
    same_or_none(line["money"], own, HALF_CENT, f"{name}: money")
    demand((line["tax"] is None) == (line["money"] is None), f"{name}: tax without money")
    if line["tax"] is None:
        return
    # One supplier has one rate of tax.
    alike = (b for b in plan["buy"] if b["supplier"] == line["supplier"])
    first = next((b for b in alike if b["tax"] is not None and (b["money"] or 0) > 0), line)
    apart = HALF_CENT * (first["money"] + line["money"])
    own = line["tax"] * first["money"], first["tax"] * line["money"]
    demand(line["tax"] >= 0, f"{name}: tax under 0")
    near(*own, apart, f"{name}: another rate of tax")


def spare(plan, row):
    name = f"spares of quote {row['quote']}"
    line = next((b for b in plan["buy"] if b["quote"] == row["quote"]), None)
    if line is None:
        return
    demand(line["pipe"] == row["pipe"], f"{name}: another pipe")
    own = None if line["each"] is None else line["each"] * row["joints"]
    same_or_none(row["money"], own, HALF_CENT, f"{name}: money")


def uncut(plan):
    """Joints left whole are credited by their usable length."""
    for outcome, pool, answer in plan.pools():
        whole = [p for p in answer["patterns"] if not p["cuts"]]
        own = sum(p["times"] * credit(pool, pool["stocks"][p["stock"]]["usable"]) for p in whole)
        said = sum(u["credit"] for u in plan["uncut"]
                   if plan.quote_pipe(u["quote"]) == outcome["pipe"])
        apart = HALF_CENT * max(1, len(plan["uncut"]))
        near(said, Fraction(own, 100_000), apart, "credit of joints left whole")
