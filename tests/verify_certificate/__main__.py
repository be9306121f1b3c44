"""Recomputes what a plan.json (its "nest") or `nest --json` claims, by the standard library alone:
what the answer costs, and that no answer costs less than its bound.

Usage: python3 tests/verify_certificate FILE. A line a pool; exit code 1: not proved, 2: unreadable.
Read proof.py first. Other pages are used only where the problem has what they are about:
  pool.py, counts.py     what all pages share; what a proof's tree splits
  splices.py             spliced lines of an answer
  splice_bound.py, ties.py, alone.py   spliced lines in a bound
  charges.py, charge_bound.py   charges over several pools
  aims.py                another aim than money
  plan_file.py           the rest of a plan.json: what its readers trust beside the proof
"""
import json
import sys
from fractions import Fraction
from math import inf

from pool import demand, sound
from proof import bound, cost


def read(name):
    """The document; "no limit" is infinite, and a number with a point is exact too."""
    def endless(thing):
        for key in ("limit", "most", "free_over"):
            if key in thing and thing[key] is None:
                thing[key] = inf
        return thing
    with open(name, encoding="utf-8") as file:
        return json.load(file, object_hook=endless, parse_float=Fraction)


def holds(name, answer, own_cost, own_bound):
    """Prints what is verified of an answer; an answer that claims no bound needs none."""
    silent = answer["status"] in ("short", "none_found")
    if not silent or "charges" not in answer:
        demand(own_cost() == answer["cost"], "its cost is not what it says")
    if silent:
        print(name, "claims no bound")
        return
    found, claimed = own_bound(), answer["bound"]
    demand(found < inf and claimed <= found, f"a bound of {claimed}; its proof gives {found}")
    demand(claimed <= answer["cost"], "a bound over the cost")
    demand(answer["status"] != "proved" or claimed == answer["cost"], "proved, with a gap")
    print("verified", name, answer["status"], "cost", answer["cost"],
          "bound claimed", claimed, "found", found)


def one(problem, p, answer):
    """Verifies one pool by itself."""
    pool, uncut = problem["pools"][p], ()
    sound(pool)
    demand(pool["groups"] or not answer["configurations"], "splices of no group")
    made = answer["patterns"] + answer["configurations"]
    demand(all(thing["times"] >= 0 for thing in made), "something made less than never")
    short = bool(answer["short"] or answer["short_groups"])
    silent = answer["status"] in ("short", "none_found")
    demand(silent == short, "a plan, or pieces missing")
    if problem.get("charges"):
        from charges import uncut_stocks
        uncut = uncut_stocks(problem, p)
    holds(pool["name"], answer, lambda: cost(pool, answer, uncut),
          lambda: bound(pool, answer["proof"]))


def together(problem, answers, whole):
    """Verifies all pools with their charges."""
    from charge_bound import whole_bound
    from charges import whole_cost
    holds("all pools with charges", whole, lambda: whole_cost(problem, answers, whole),
          lambda: whole_bound(problem, whole))


def main():
    try:
        document = read(sys.argv[1])
        nest = document if "problem" in document else document["nest"]
        problem, answers, whole = nest["problem"], nest["answers"], nest.get("whole")
    except (LookupError, OSError, ValueError, TypeError) as error:
        print("cannot read:", error)
        return 2
    name = "file"
    try:
        if problem.get("aim", "money") != "money":
            from aims import weighed
            problem = weighed(problem)
        demand(len(problem["pools"]) == len(answers), "an answer for each pool")
        for p, answer in enumerate(answers):
            name = problem["pools"][p]["name"]
            one(problem, p, answer)
        name = "all pools with charges"
        demand(bool(problem.get("charges")) == (whole is not None), "charges, and no whole")
        if whole is not None:
            together(problem, answers, whole)
        name = "plan"
        if "joints" in document:
            from plan_file import judge
            judge(document, problem, answers, whole)
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError) as error:
        print("REFUSED", name, error)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
