"""Gates and parts: lengths that add up, counts, weights; every piece of every part cut once."""
from collections import Counter
from fractions import Fraction
from itertools import pairwise

from plan_file import FINE, near
from pool import demand


def judge(plan):
    for gate in plan["gates"]:
        leaf(plan, gate)
    marks = [part["mark"] for part in plan["parts"]]
    demand(len(set(marks)) == len(marks), "two parts of one mark")
    for row in plan["left_out"]:
        demand(row["reason"].strip(), f"{row['mark']} is left out without a reason")
    for part in plan["parts"]:
        one(plan, part)
    pieces(plan)


def leaf(plan, gate):
    """Opening, overlap and tail are the leaf; bay lines ascend in it; rollers pass the opening."""
    mark, opening = gate["mark"], gate["opening"]["ticks"]
    given = sum(gate[name]["ticks"] for name in ("opening", "latch_overlap", "roller_overlap"))
    near(plan.ticks(gate["leaf"]), given + plan.ticks(gate["tail"]), 2, f"{mark}: its leaf")
    frame, bending = gate["frame"], gate["bending"]
    if frame is None:
        return
    lines = [line["value"] for line in frame["bay_lines"]]
    demand(all(a < b for a, b in pairwise(lines)), f"{mark}: bay lines")
    demand(0 <= lines[0] and lines[-1] <= gate["leaf"]["value"], f"{mark}: bay lines")
    demand(len(frame["lean_deg"]) == len(lines) - 1, f"{mark}: leans")
    closed, open_ = (plan.ticks(frame["roller_front_" + at]) for at in ("closed", "open"))
    near(closed - open_, opening, FINE, f"{mark}: its front roller")
    spacing = plan.ticks(frame["roller_spacing"])
    for front, pushes in ((closed, "rollers_closed"), (open_, "rollers_open")):
        for push in bending[pushes] if bending else ():
            own = front if push["roller"] == "front" else front + spacing
            near(plan.ticks(push["from_latch_face"]), own, FINE, f"{mark}: a roller's push")


def one(plan, part):
    mark, gate = part["mark"], plan.gate(part)
    demand(part["count"] == part["per_gate"] * (gate["count"] if gate else 1), f"{mark}: count")
    horizontal = part["role"] in ("top horizontal", "bottom horizontal")
    demand(part["ours"] != bool(gate and gate["kit"] and horizontal), f"{mark}: whose it is")
    if gate:
        out = plan.gate_left_out(part["gate"])
    else:
        out = any(left["mark"] == mark for left in plan["left_out"])
    demand(part["left_out"] == out, f"{mark}: left out or not")
    for marked, exact in (("saw_length", "long_point"), ("throat", "throat_exact")):
        ticks = part[marked]["ticks"]
        demand(ticks % plan.mark == 0, f"{mark}: {marked} off the mark")
        half = Fraction(plan.mark, 2) + FINE
        near(ticks, plan.ticks(part[exact]), half, f"{mark}: {marked}")
    weight = weigh(plan, part["pipe"], part["saw_length"]["ticks"])
    near(part["weight_each"], weight, Fraction("0.0002"), f"{mark}: weight")


def weigh(plan, pipe, ticks):
    """lb/ft = 10.69 (OD - t) t in inches, kg/m = 0.02466 (OD - t) t in mm."""
    pipe = plan["pipes"][pipe]
    scale = {"in": 8128, "mm": 320}
    od, wall = (Fraction(pipe[n]) * scale[pipe[n + "_unit"]] / plan.unit for n in ("od", "wall"))
    factor, long = (Fraction("0.02466"), 1000) if plan.metric else (Fraction("10.69"), 12)
    return factor * (od - wall) * wall * ticks / plan.unit / long


def exists(plan, key):
    """Whether there is such a part of such a copy of its gate, cut by this shop."""
    index, copy, serial = key
    part = plan["parts"][index]
    gate = plan.gate(part)
    copies = range(1, gate["count"] + 1) if gate else (0,)
    ours = part["ours"] and not part["left_out"]
    return ours and copy in copies and 1 <= serial <= part["per_gate"]


def pieces(plan):
    lines, cut = {}, Counter()
    for line in plan["spliced"]:
        key = line["part"], line["copy"], line["serial"]
        demand(key not in lines and exists(plan, key), f"{line['mark']}: a line twice, or of none")
        lines[key] = line
    for joint in plan["joints"]:
        for piece in joint["pieces"]:
            key = piece["part"], piece["copy"], piece["serial"]
            cut[*key, piece["piece"] or 0] += 1
            demand(exists(plan, key), f"{piece['mark']}: no such piece")
            named(plan, piece, lines.get(key))
            own = plan["parts"][piece["part"]]["pipe"]
            demand(joint["pipe"] == own, f"{piece['mark']}: another pipe")
    demand(all(n == 1 for n in cut.values()), "a piece cut twice")
    ours = [part["count"] for part in plan["parts"] if part["ours"] and not part["left_out"]]
    more = sum(len(line["pieces"]) - 1 for line in lines.values())
    demand(len(cut) == sum(ours) + more, "pieces that are not cut")


def named(plan, piece, line):
    """A piece has the mark and length of its part, or of its line's piece of that number."""
    part, number = plan["parts"][piece["part"]], piece["piece"]
    mark, length = plan.part_mark(part, piece["copy"]), part["saw_length"]["ticks"]
    demand((line is None) == (number is None), f"{mark}: a piece of a line, or not")
    if line is None:
        demand(piece["throat"]["ticks"] == part["throat"]["ticks"], f"{mark}: throat")
    else:
        demand(1 <= number <= len(line["pieces"]), f"{mark}: piece {number}")
        mark, length = f"{mark}/{number}", line["pieces"][number - 1]["ticks"]
    demand(piece["mark"] == mark, f"{piece['mark']} is {mark}")
    demand(piece["saw_length"]["ticks"] == length, f"{mark}: saw length")
