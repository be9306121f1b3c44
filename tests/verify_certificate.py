"""Re-verifies the answers and the lower bounds of a plan.json (its "nest"), standard library only; what the answer
itself costs is added up too, and a plan.json's joints and money must be the answer's. The parts are in verifier/.

A proof is a tree whose nodes split a count of joints or of splices. For any duals pi >= 0 of a leaf, in
units of 1/dual_scale money, and multipliers mu of the counted sets,
  bound = sum pi_i n_i + sum min mu w + sum_s min n r_s + sum_g N_g q_g, rounded up to what all costs share,
  r_s = least (cost - credit - pi of the pieces - mu) over non-empty patterns of stock s,
  q_g = least (splices - mu + charges + pi of the pieces) over the configurations of group g,
w and n over their intervals in the leaf.
Where the aim is joints, splices or waste, all that is of the problem in which one of them weighs more than the
money of any plan: cost = weight x count + money.
Prints one line per pool; exit code 1 when a claimed bound is not proved, 2 when nothing can be read.
Usage: verify_certificate.py FILE
"""
import json, sys
from collections import Counter

from verifier.aim import weighed
from verifier.answer import cost, demand
from verifier.charges import at, charged, kind, uncut, whole
from verifier.leaf import proved

def of_plan(plan, problem, answers):  # the joints and the money of a plan.json are those of its nest answer
    joints = Counter()
    for j in plan["joints"]:
        joints[j["pipe"], j["length"]["ticks"], tuple(sorted(p["saw_length"]["ticks"] for p in j["pieces"]))] += 1
    for outcome, pool, answer in zip(plan["outcomes"], problem["pools"], answers, strict=True):
        demand(outcome["cost_millicents"] == answer["cost"], f"{pool['name']}: the plan's money")
        demand(outcome["bound_millicents"] == answer["bound"], f"{pool['name']}: the plan's bound")
        for p in answer["patterns"]:
            cuts = [pool["items"][c["item"]]["length"] if "item" in c else c["piece"]["length"] for c in p["cuts"]]
            if cuts: joints[outcome["pipe"], pool["stocks"][p["stock"]]["length"], tuple(sorted(cuts))] -= p["times"]
    demand(not any(joints.values()), "joints of the plan and patterns of the answer")

def claims(problem, answers, together):  # name, answer, its cost, its bound
    charges = problem.get("charges", [])
    for p, (pool, answer) in enumerate(zip(problem["pools"], answers, strict=True)):
        over = [(key, *kind(c)) for c in charges for key in map(at, c["over"]) if key[0] == p]
        whole_joints = {key[1] for key, name, k in over if uncut(name, k)}
        yield pool["name"], answer, lambda: cost(pool, answer, whole_joints), lambda: proved(pool, answer["proof"])
    demand(bool(charges) == (together is not None), "charges and an answer for the whole")
    if charges:
        yield "all pools with charges", together, lambda: charged(problem, answers, together), \
            lambda: whole(problem, together)

def holds(name, answer, money, bound):
    if name == "all pools with charges" and answer["status"] in ("short", "stopped"): print(name, "claims nothing"); return
    demand(money() == answer["cost"], "its cost is not what it says")
    if answer["status"] in ("short", "stopped"): print(name, "claims no bound"); return
    own = bound()
    demand(own is not None and answer["bound"] <= own, f"a bound of {answer['bound']}; its proof gives {own}")
    demand(answer["bound"] <= answer["cost"], "a bound over the cost")
    demand(answer["status"] != "proved" or answer["bound"] == answer["cost"], "proved, with a gap")
    print("verified", name, answer["status"], "cost", answer["cost"], "bound claimed", answer["bound"], "found", own)

def main():
    try:
        with open(sys.argv[1], encoding="utf-8") as f: data = json.load(f)
        plan = data if "joints" in data else None
        if "problem" not in data: data = data["nest"]
        problem, answers = data["problem"], data["answers"]
    except (LookupError, OSError, ValueError, TypeError) as e: print("cannot read:", e); return 2
    name = "file"
    try:
        problem = weighed(problem)
        for name, *claim in claims(problem, answers, data.get("whole")): holds(name, *claim)
        if plan: name = "plan"; of_plan(plan, problem, answers)
    except (AssertionError, LookupError, TypeError, ValueError) as e: print("REFUSED", name, e); return 1
    return 0

if __name__ == "__main__": sys.exit(main())
