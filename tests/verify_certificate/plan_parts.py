"""Gates and parts: lengths that add up, counts, weights; every piece of every part cut once."""
from collections import Counter
from fractions import Fraction
from itertools import pairwise

from plan_file import CENT, FINE, near
from pool import demand


def judge(plan):
    for index, gate in enumerate(plan["gates"]):
        leaf(plan, gate)
        bays(plan, gate)
        weight(plan, index, gate)
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


def bays(plan, gate):
    """Bays go from line to line; the rear rollers stand a spacing behind the front ones."""
    frame, mark = gate["frame"], gate["mark"]
    if frame is None:
        return
    lines = list(pairwise(plan.ticks(line) for line in frame["bay_lines"]))
    demand(len(lines) == len(frame["bays"]), f"{mark}: its bays")
    for number, (bay, (start, end)) in enumerate(zip(frame["bays"], lines), 1):
        demand(bay["bay"] == number, f"{mark}: a bay's number")
        demand(bay["lean_deg"] == frame["lean_deg"][number - 1], f"{mark}: a bay's lean")
        for name, own in (("from", start), ("to", end), ("width", end - start)):
            near(plan.ticks(bay[name]), own, FINE, f"{mark}: bay {number}, {name}")
    for at in ("closed", "open"):
        rear, front = (plan.ticks(frame[f"roller_{r}_{at}"]) for r in ("rear", "front"))
        near(rear, front + plan.ticks(frame["roller_spacing"]), FINE, f"{mark}: rear roller")


def weight(plan, index, gate):
    """The pipe of a gate weighs what its parts weigh; the total is all that is known."""
    said, mark = gate["weight"], gate["mark"]
    if said is None:
        return
    parts = [part for part in plan["parts"] if part["gate"] == index]
    own = sum(part["weight_each"] * part["per_gate"] for part in parts)
    near(said["pipe"], own, CENT, f"{mark}: its pipe's weight")
    more = sum(said[name] or 0 for name in ("fabric", "hardware", "zinc"))
    near(said["total"], said["pipe"] + more, CENT, f"{mark}: its weight")


def set_back(plan, part):
    """Long point and throat are the axis less the setbacks; a cutback is their difference."""
    for setback, length in (("setback_least", "long_point"), ("setback_largest", "throat_exact")):
        ends = sum(plan.ticks(end[setback]) for end in part["ends"] if end[setback])
        near(plan.ticks(part["axis"]) - ends, plan.ticks(part[length]), FINE, part["mark"])
    for end in part["ends"]:
        least, largest, cutback = (
            plan.ticks(end[n]) if end[n] else 0
            for n in ("setback_least", "setback_largest", "cutback"))
        near(largest - least, cutback, FINE, f"{part['mark']}: cutback")


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
    set_back(plan, part)
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
