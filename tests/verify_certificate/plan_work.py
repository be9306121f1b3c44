"""Gates as they are complete, the split over saws, and advice for kits."""
from fractions import Fraction
from itertools import pairwise

from plan_splices import placed
from pool import demand


def judge(plan):
    done(plan)
    sittings(plan)
    kits(plan)


def done(plan):
    last = {}
    for joint in plan["joints"]:
        for piece in joint["pieces"]:
            key = plan["parts"][piece["part"]]["gate"], piece["copy"]
            if key[0] is not None:
                last[key] = max(last.get(key, 0), joint["number"])
    for row in plan["done"]:
        own = last.pop((row["gate"], row["copy"]), None)
        demand(row["after_joint"] == own, f"{row['mark']}: complete after another joint")
        demand(row["mark"] == plan.copy_mark(row["gate"], row["copy"]), f"{row['mark']}: its mark")
    demand(not last, "a gate that is never complete")
    ends = [row["after_joint"] for row in plan["done"]]
    demand(ends == sorted(ends), "gates out of order")


def sittings(plan):
    saws = [row["saw"] for row in plan["sittings"]]
    demand(len(set(saws)) == len(saws) and min(saws, default=1) >= 1, "a saw twice")
    joints = [joint for row in plan["sittings"] for joint in row["joints"]]
    demand(sorted(joints) == list(range(1, len(plan["joints"]) + 1)), "joints at the saws")
    minutes = [row["minutes"] for row in plan["sittings"]]
    demand(min(minutes, default=0) >= 0, "minutes under 0")
    own = plan["minutes"]["joints"] + plan["minutes"]["cuts"]
    apart = Fraction("0.05") * len(minutes) + Fraction("0.11")
    demand(abs(sum(minutes) - own) <= apart, "minutes at the saws")


def kits(plan):
    own = [g for g, gate in enumerate(plan["gates"])
           if gate["kit"] and gate["count"] > 0 and not plan.gate_left_out(g)]
    demand([kit["gate"] for kit in plan["kits"]] == own, "advice for each kit")
    local = {}
    for kit in plan["kits"]:
        for option in kit["options"]:
            name = f"{plan['gates'][kit['gate']]['mark']} of {option['joint']['print']}"
            refused = option["refused"] is not None
            demand(option["joints_per_gate"] == len(option["cuts"]), f"{name}: joints")
            empty = not option["cuts"] and not option["lines"]
            demand(refused == empty, f"{name}: refused, and cut")
            for line in option["lines"]:
                long = plan.ticks(plan["parts"][line["part"]]["long_point"])
                placed(plan, line, round(long))
            if not refused:
                pieces(plan, kit, option, name)
            for cut in option["cuts"]:
                marks(option["joint"]["ticks"], cut, local, name)


def pieces(plan, kit, option, name):
    """Each piece of both horizontals once."""
    wanted = []
    for index, part in enumerate(plan["parts"]):
        if part["gate"] != kit["gate"] or part["ours"]:
            continue
        line = next((line for line in option["lines"] if line["part"] == index), None)
        if line is None:
            wanted.append((index, 0, part["mark"], part["saw_length"]["ticks"]))
        for number, piece in enumerate(line["pieces"] if line else (), 1):
            wanted.append((index, number, f"{part['mark']}/{number}", piece["ticks"]))
    cut = [(p["part"], p["piece"] or 0, p["mark"], p["saw_length"]["ticks"])
           for joint in option["cuts"] for p in joint["pieces"]]
    demand(sorted(cut) == sorted(wanted), f"{name}: pieces")


def marks(joint, cut, local, name):
    """Running marks of one trim and one kerf, the same on all local joints."""
    pieces = cut["pieces"]
    demand(pieces, f"{name}: an empty joint")
    starts, ends = ([piece[at]["ticks"] for piece in pieces] for at in ("start", "end"))
    gaps = [b["start"]["ticks"] - a["end"]["ticks"] for a, b in pairwise(pieces)]
    for piece, start, end in zip(pieces, starts, ends):
        demand(end == start + piece["saw_length"]["ticks"], f"{name}: {piece['mark']} ends")
    trim = local.setdefault("trim", starts[0])
    demand(starts[0] == trim >= 0, f"{name}: its first mark")
    for gap in gaps:
        demand(local.setdefault("kerf", gap) == gap >= 0, f"{name}: its kerf")
    rest, floor = joint - ends[-1], cut["floor"]["ticks"]
    demand(rest >= trim and 0 <= floor <= rest, f"{name}: its floor piece")
    if floor > 0:
        demand(local.setdefault("kerf", rest - floor) == rest - floor, f"{name}: its floor piece")
    else:
        demand(rest <= local.get("kerf", rest), f"{name}: its floor piece")
