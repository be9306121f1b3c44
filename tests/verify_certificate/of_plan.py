"""The joints of a plan.json: a proof says something of them where they are those of the answers."""
from collections import Counter

from pool import demand


def cover(plan, problem, answers):
    """The plan's joints and money are those of the answers."""
    joints = Counter()
    for joint in plan["joints"]:
        pieces = sorted(piece["saw_length"]["ticks"] for piece in joint["pieces"])
        joints[joint["pipe"], joint["length"]["ticks"], *pieces] += 1
    for outcome, pool, answer in zip(plan["outcomes"], problem["pools"], answers, strict=True):
        demand(outcome["cost_millicents"] == answer["cost"], f"{pool['name']}: the plan's money")
        demand(outcome["bound_millicents"] == answer["bound"], f"{pool['name']}: the plan's bound")
        for pattern in answer["patterns"]:
            cuts = sorted(length(pool, cut) for cut in pattern["cuts"])
            stock = pool["stocks"][pattern["stock"]]
            if cuts:
                joints[outcome["pipe"], stock["length"], *cuts] -= pattern["times"]
    demand(not any(joints.values()), "joints of the plan and patterns of the answer")


def length(pool, cut):
    return (cut.get("piece") or pool["items"][cut["item"]])["length"]
