"""The joints of a plan.json are the patterns of the answers, its money and status the answers'."""
from collections import Counter
from fractions import Fraction

from plan_file import HALF_CENT, same_or_none
from pool import demand


def judge(plan):
    joints(plan)
    for outcome, pool, answer in plan.pools():
        name = pool["name"]
        demand(outcome["cost_millicents"] == answer["cost"], f"{name}: the plan's money")
        demand(outcome["bound_millicents"] == answer["bound"], f"{name}: the plan's bound")
        own = answer["status"], answer["stop"]
        demand((outcome["status"], outcome["stop"]) == own, f"{name}: the plan's status")
        demand(answer["status"] != "short" or plan["left_out"], f"{name}: short, none left out")
        taken = sum(pool["stocks"][p["stock"]]["cost"] * p["times"] for p in answer["patterns"])
        demand(outcome["pipe_money_millicents"] == taken, f"{name}: money of its joints")
        for figure in ("cost", "bound"):
            own = Fraction(answer[figure], 100_000) if outcome["priced"] else None
            same_or_none(outcome[figure], own, HALF_CENT, f"{name}: {figure} in print")


def joints(plan):
    """As many joints of a length, with its trims, cut into the same pieces; as many left whole."""
    joints, whole = Counter(), Counter()
    for joint in plan["joints"]:
        pieces = sorted(piece["saw_length"]["ticks"] for piece in joint["pieces"])
        long = joint["length"]["ticks"]
        trims = sum(joint[t]["ticks"] for t in ("near_trim", "far_trim", "hold_back"))
        joints[joint["pipe"], long, long - trims, *pieces] += 1
    for row in plan["uncut"]:
        demand(plan.quote_pipe(row["quote"]) is not None, "left whole, not on the buy list")
        whole[plan.quote_pipe(row["quote"])] += row["joints"]
    for outcome, pool, answer in plan.pools():
        for pattern in answer["patterns"]:
            cuts = sorted(cut_length(pool, cut) for cut in pattern["cuts"])
            stock = pool["stocks"][pattern["stock"]]
            if cuts:
                of = outcome["pipe"], stock["length"], stock["usable"]
                joints[*of, *cuts] -= pattern["times"]
            else:
                whole[outcome["pipe"]] -= pattern["times"]
    demand(not any(joints.values()), "joints of the plan and patterns of the answer")
    demand(not any(whole.values()), "joints left whole")


def cut_length(pool, cut):
    return (cut.get("piece") or pool["items"][cut["item"]])["length"]
