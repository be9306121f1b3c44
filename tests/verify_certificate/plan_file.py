"""A plan.json around a certificate: the figures that its readers trust must agree with each other
and with the answer inside. The orders are not at hand here; what only they tell is not judged.

Each page demands what its title says: plan_patterns.py, plan_parts.py, plan_joints.py,
plan_splices.py, plan_buying.py, plan_money.py, plan_work.py.
"""
import re
from fractions import Fraction

from pool import demand

MOST = 2 ** 40
CENT = Fraction(1, 100)
HALF_CENT = Fraction("0.0051")
# A millionth of an inch or 1/10,000 mm, once or a few times rounded; in ticks of 1/320 mm.
FINE = Fraction("0.1")


class Plan:
    """The document, its problem and its answers, and the plain questions every page asks."""

    def __init__(self, document, problem, answers, whole):
        self.document, self.whole = document, whole
        self.problem, self.answers = problem, answers
        demand(document["format"] == "longpoint plan" and document["version"] == 1, "its form")
        demand(document["units"] in ("in", "mm"), "its units")
        self.metric = document["units"] == "mm"
        self.unit = 320 if self.metric else 8128
        self.mark, self.kerf = document["saw_mark"]["ticks"], document["kerf"]["ticks"]
        pools = problem["pools"]
        demand(self.mark >= 1, "a mark under 1")
        demand(all((p["mark"], p["kerf"]) == (self.mark, self.kerf) for p in pools), "its kerf")

    def __getitem__(self, name):
        return self.document[name]

    def pools(self):
        """Each pipe's outcome with its pool and answer."""
        return zip(self["outcomes"], self.problem["pools"], self.answers, strict=True)

    def pool(self, pipe):
        return next((pool, answer) for o, pool, answer in self.pools() if o["pipe"] == pipe)

    def ticks(self, geometric):
        return geometric["value"] * self.unit

    def gate(self, part):
        """The gate order of a part, None of a plain part."""
        return None if part["gate"] is None else self["gates"][part["gate"]]

    def copy_mark(self, gate, copy):
        gate = self["gates"][gate]
        return gate["mark"] + (f".{copy}" if gate["count"] > 1 else "")

    def part_mark(self, part, copy):
        if part["gate"] is None:
            return part["mark"]
        own = self.gate(part)["mark"]
        return self.copy_mark(part["gate"], copy) + part["mark"].removeprefix(own)

    def gate_left_out(self, gate):
        return any(left["gate"] == gate for left in self["left_out"])

    def quote_pipe(self, quote):
        return next((line["pipe"] for line in self["buy"] if line["quote"] == quote), None)


def near(a, b, apart, what):
    demand(a is not None and b is not None and abs(a - b) <= apart, what)


def same_or_none(said, own, apart, what):
    """Both are figures that agree, or there is neither."""
    demand((said is None) == (own is None), what)
    demand(said is None or abs(said - own) <= apart, what)


def judge(document, problem, answers, whole):
    """Refuses a plan.json that does not hold together."""
    import plan_buying
    import plan_joints
    import plan_money
    import plan_parts
    import plan_patterns
    import plan_splices
    import plan_work
    plan = Plan(document, problem, answers, whole)
    lengths(plan, {k: v for k, v in document.items() if k != "nest"})
    indices(plan)
    for page in (plan_patterns, plan_parts, plan_joints, plan_splices, plan_buying, plan_money,
                 plan_work):
        page.judge(plan)


def lengths(plan, thing, field=None):
    """Ticks, value and print of every length say one thing."""
    if isinstance(thing, list):
        for inner in thing:
            lengths(plan, inner)
    elif isinstance(thing, dict) and "value" in thing and "print" in thing:
        length(plan, thing, field)
    elif isinstance(thing, dict):
        for name, inner in thing.items():
            lengths(plan, inner, name)


def length(plan, thing, field):
    value, wide = plan.ticks(thing), Fraction(max(plan.mark, 160), 2) + 1
    ticks = thing.get("ticks", value)
    if "ticks" in thing:
        demand(isinstance(ticks, int) and abs(ticks) <= MOST, f"{thing}: ticks")
    demand(abs(ticks - value) <= Fraction("0.02"), f"{thing}: value")
    more = ticks - printed(plan, thing["print"])
    if field in ("drop", "floor", "credited") and "ticks" in thing:
        # What is left of a joint is rounded down, to the saw mark at most.
        demand(-1 < more < max(plan.mark, 127), f"{thing}: print")
    else:
        demand(abs(more) <= wide, f"{thing}: print")


def printed(plan, text):
    """Ticks of -12'-3 5/16" or of millimetres."""
    sign, text = (-1, text[1:]) if text.startswith("-") else (1, text)
    pattern = r"(\d+(?:\.\d+)?)" if plan.metric else r"(\d+)'-(\d+)(?: (\d+)/(\d+))?\""
    found = re.fullmatch(pattern, text, re.ASCII)
    demand(found, f"{text}: no length")
    if plan.metric:
        return sign * Fraction(found[1]) * plan.unit
    inches = 12 * int(found[1]) + int(found[2]) + Fraction(int(found[3] or 0), int(found[4] or 1))
    return sign * inches * plan.unit


def indices(plan):
    """Every index points at something; pools, answers and outcomes are of the same pipes."""
    def known(index, what, of):
        demand(isinstance(index, int) and 0 <= index < len(plan[of]), f"{what} {index}")
    for part in plan["parts"]:
        known(part["pipe"], "pipe", "pipes")
        if part["gate"] is not None:
            known(part["gate"], "gate", "gates")
    options = [option for kit in plan["kits"] for option in kit["options"]]
    pieces = [piece for joint in plan["joints"] for piece in joint["pieces"]]
    pieces += [piece for option in options for cut in option["cuts"] for piece in cut["pieces"]]
    for piece in pieces + plan["spliced"] + [line for o in options for line in o["lines"]]:
        known(piece["part"], "part", "parts")
    for row in plan["kits"] + plan["done"]:
        known(row["gate"], "gate", "gates")
    for row in plan["gate_costs"]:
        if row["gate"] is not None:
            known(row["gate"], "gate", "gates")
    for row in plan["buy"] + plan["spares"] + plan["kept"] + plan["outcomes"] + plan["joints"]:
        known(row["pipe"], "pipe", "pipes")
    pipes = [outcome["pipe"] for outcome, _, _ in plan.pools()]
    demand(len(set(pipes)) == len(pipes), "an outcome twice")
    demand(all(joint["pipe"] in pipes for joint in plan["joints"]), "a joint without an outcome")
    for outcome, pool, _ in plan.pools():
        pipe = plan["pipes"][outcome["pipe"]]
        named = pool["name"].startswith(pipe["title"])
        grade = pool["name"].removeprefix(pipe["title"]).lstrip()
        demand(named and grade == pipe["grade"], f"{pool['name']}: another pipe's outcome")
