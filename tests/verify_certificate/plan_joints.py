"""Each joint: number, source, running marks, what is left; kept drops once; counts and waste."""
from fractions import Fraction

from plan_file import HALF_CENT, near, same_or_none
from pool import credit, demand

TRIMS = "near_trim", "far_trim", "hold_back"


def judge(plan):
    for number, joint in enumerate(plan["joints"], 1):
        demand(joint["number"] == number, f"joint {number}: its number")
        running(plan, joint)
        remainder(plan, joint)
        keeping(plan, joint)
    sources(plan)
    kept(plan)
    counts(plan)


def running(plan, joint):
    at = joint["near_trim"]["ticks"]
    for piece in joint["pieces"]:
        start, end = piece["start"]["ticks"], piece["end"]["ticks"]
        demand(start == at, f"joint {joint['number']}: {piece['mark']} starts elsewhere")
        demand(end == start + piece["saw_length"]["ticks"], f"{piece['mark']} ends elsewhere")
        at = end + plan.kerf


def remainder(plan, joint):
    name, pieces = f"joint {joint['number']}", joint["pieces"]
    near_trim, far_trim, hold = (joint[t]["ticks"] for t in TRIMS)
    demand(pieces and min(near_trim, far_trim, hold) >= 0, f"{name}: empty, or a trim under 0")
    filled = sum(p["saw_length"]["ticks"] for p in pieces) + plan.kerf * (len(pieces) - 1)
    leftover = joint["length"]["ticks"] - near_trim - far_trim - hold - filled
    rest = leftover + far_trim + hold
    last = min(max(rest, 0), plan.kerf)
    own = [leftover, last, max(0, leftover - plan.kerf), rest - last]
    said = [joint[f]["ticks"] for f in ("leftover", "last_cut", "drop", "floor")]
    demand(leftover >= 0 and said == own, f"{name}: {said} is left, not {own}")


def keeping(plan, joint):
    name, (pool, _) = f"joint {joint['number']}", plan.pool(joint["pipe"])
    keep, drop = joint["drop"]["ticks"] >= pool["credit"]["keep"], joint["drop"]["ticks"]
    demand(joint["kept"] == keep == (joint["keep_tag"] is not None), f"{name}: kept or not")
    own = Fraction(credit(pool, drop), 100_000) if keep else 0
    near(joint["credit"], own, HALF_CENT, f"{name}: its credit")


def sources(plan):
    """A quote or a tag; one quote is one joint; trims are the saw's, or none on a clean end."""
    saw = next(([j[t]["ticks"] for t in TRIMS] for j in plan["joints"]
                if j["source"] == "bought"), None)
    quotes = {}
    for joint in plan["joints"]:
        name, quote = f"joint {joint['number']}", joint["quote"]
        bought = joint["source"] == "bought"
        demand(bought == (quote is not None) == (joint["rack_tag"] is None), f"{name}: its source")
        for trim, own in zip(TRIMS, saw or ()):
            ticks = joint[trim]["ticks"]
            demand(ticks == own or (ticks == 0 and not bought), f"{name}: {trim}")
        if bought:
            own = joint["pipe"], joint["length"]["ticks"]
            demand(quotes.setdefault(quote, own) == own, f"{name}: another joint of its quote")
            line = next((b for b in plan["buy"] if b["quote"] == quote), None)
            demand(line and line["pipe"] == own[0] and line["joint"]["ticks"] >= own[1],
                   f"{name}: its quote is not so on the buy list")


def kept(plan):
    joints = [joint for joint in plan["joints"] if joint["kept"]]
    demand(len(joints) == len(plan["kept"]), "the list of kept drops")
    tags = [row["tag"] for row in plan["kept"]]
    rack = {joint["rack_tag"] for joint in plan["joints"]}
    demand(len(set(tags)) == len(tags) and not rack.intersection(tags), "a tag twice")
    for row, joint in zip(plan["kept"], joints):
        tag = row["tag"]
        said = row["joint"], tag, row["pipe"], row["credited"]["ticks"], row["floor"]["ticks"]
        own = (joint["number"], joint["keep_tag"], joint["pipe"], joint["drop"]["ticks"],
               joint["floor"]["ticks"])
        demand(said == own, f"{tag}: not its joint's drop")
        # Cents are dealt out so that the list adds up.
        near(row["credit"], joint["credit"], Fraction("0.0101"), f"{tag}: its credit")


def counts(plan):
    bought = racked = 0
    for outcome in plan["outcomes"]:
        pipe, joints = outcome["pipe"], [j for j in plan["joints"] if j["pipe"] == outcome["pipe"]]
        whole = sum(u["joints"] for u in plan["uncut"] if plan.quote_pipe(u["quote"]) == pipe)
        own = sum(j["source"] == "bought" for j in joints) + whole
        rack = sum(j["source"] == "rack" for j in joints)
        demand((outcome["bought"], outcome["from_rack"]) == (own, rack), f"pipe {pipe}: counts")
        bought, racked = bought + own, racked + rack
        waste(plan, outcome["waste"], joints)
    totals, splices = plan["totals"], sum(len(line["splices"]) for line in plan["spliced"])
    said = [totals[f] for f in ("joints", "splices", "kept", "bought", "from_rack")]
    own = [len(plan["joints"]), splices, len(plan["kept"]), bought, racked]
    demand(said == own, f"totals {said}, {own} counted")
    waste(plan, totals["waste"], plan["joints"])


def waste(plan, said, joints):
    """Taken, in parts, all-in, lost for good, kept; lost is summed cut by cut."""
    taken = sum(j["length"]["ticks"] for j in joints)
    in_parts = sum(p["saw_length"]["ticks"] for j in joints for p in j["pieces"])
    cuts = sum(plan.kerf * (len(j["pieces"]) - 1) + j["last_cut"]["ticks"]
               + j["near_trim"]["ticks"] for j in joints)
    kept = sum(j["floor"]["ticks"] for j in joints if j["kept"])
    lost = cuts + sum(j["floor"]["ticks"] for j in joints if not j["kept"])
    own = {"taken": taken, "in_parts": in_parts, "all_in": taken - in_parts, "lost": lost,
           "kept": kept}
    for name, ticks in own.items():
        demand(said[name]["ticks"] == ticks, f"waste: {name}")
    for name in ("all_in", "lost", "kept"):
        share = Fraction(100 * own[name], taken) if taken else None
        same_or_none(said[name + "_percent"], share, Fraction("0.0051"), f"waste: {name} per cent")
