"""Spliced lines are the answer's; each splice stands where its pieces put it, in its window."""
from collections import Counter
from fractions import Fraction

from plan_file import FINE, near
from pool import demand


def judge(plan):
    lines = Counter()
    for line in plan["spliced"]:
        pieces = [piece["ticks"] for piece in line["pieces"]]
        lines[plan["parts"][line["part"]]["pipe"], *pieces] += 1
    for outcome, _, answer in plan.pools():
        for made in answer["configurations"]:
            for pieces in made["lines"]:
                if len(pieces) > 1:
                    lines[outcome["pipe"], *pieces] -= made["times"]
    demand(not any(lines.values()), "spliced lines of the plan and of the answer")
    for line in plan["spliced"]:
        mark = plan.part_mark(plan["parts"][line["part"]], line["copy"])
        demand(line["mark"] == mark, f"{line['mark']} is {mark}")
        holds = [fits(plan, line, own) for own in candidates(plan, line)]
        demand(None in holds, holds[0] if holds else f"{mark}: no line of the problem")


def candidates(plan, line):
    """Lines of the problem made of these pieces: of a group of its gate's mark, else of any."""
    part = plan["parts"][line["part"]]
    gate = plan.gate(part)
    pool, answer = plan.pool(part["pipe"])
    pieces = [piece["ticks"] for piece in line["pieces"]]
    found = [(pool["groups"][made["group"]]["name"], own) for made in answer["configurations"]
             for own, cut in zip(pool["groups"][made["group"]]["lines"], made["lines"])
             if cut == pieces]
    named = [own for name, own in found if gate and name == gate["mark"]]
    return named or [own for _, own in found]


def fits(plan, line, own):
    """None, or what does not hold of the line as one of the problem's."""
    try:
        placed(plan, line, own["length"], own)
    except ValueError as error:
        return error
    return None


def placed(plan, line, long, own=None):
    """Gap, centres and places of a line, `long` ticks from long point to long point."""
    m, pieces = len(line["splices"]), [piece["ticks"] for piece in line["pieces"]]
    demand(m + 1 == len(pieces) and m >= 1, f"{line['mark']}: {len(pieces)} pieces")
    slack = long - sum(pieces)
    # Advice for a kit knows its line to the nearest tick of a printed figure.
    near(plan.ticks(line["gap"]), Fraction(slack, m), 1, f"{line['mark']}: its gap")
    for j, splice in enumerate(line["splices"], 1):
        name = f"{line['mark']}/{j}+{j + 1}"
        centre = sum(pieces[:j]) + Fraction((2 * j - 1) * slack, 2 * m)
        demand(splice["name"] == name, f"{name}: its name")
        near(plan.ticks(splice["from_long_point"]), centre, 1, f"{name}: its place")
        lo, hi = (end["ticks"] for end in splice["window"])
        demand(lo <= centre <= hi, f"{name}: out of its window")
        demand(own is None or any(slot_holds(slot, splice, own) for slot in own["slots"]),
               f"{name}: its window is in no slot of its class")
        bay(plan, line, splice, name)


def slot_holds(slot, splice, own):
    lo, hi = (end["ticks"] for end in splice["window"])
    charged = any(other["charge"] > 0 for other in own["slots"])
    paid = slot["charge"] == 0 if splice["class"] == "plain" else slot["charge"] > 0 or not charged
    return slot["zone"] == splice["bay"] and slot["lo"] <= lo and hi <= slot["hi"] and paid


def bay(plan, line, splice, name):
    """Distances to the bay lines of a horizontal; a brace is measured along itself."""
    part, x = plan["parts"][line["part"]], splice["from_latch_face"]
    demand((x is None) == (part["role"] == "sway brace"), f"{name}: from the latch face")
    frame = plan.gate(part) and plan.gate(part)["frame"]
    if x is None or frame is None:
        return
    number, lines = splice["bay"], frame["bay_lines"]
    demand(1 <= number < len(lines), f"{name}: bay {number}")
    before, after = x["value"] - lines[number - 1]["value"], lines[number]["value"] - x["value"]
    near(plan.ticks(splice["from_bay_line_before"]), before * plan.unit, FINE, f"{name}: its bay")
    near(plan.ticks(splice["to_bay_line_after"]), after * plan.unit, FINE, f"{name}: its bay")
