"""What every page says of a pool: credit of a drop, pieces it may hold, what its costs share."""
from collections import Counter
from functools import reduce
from math import gcd


def demand(holds, what):
    """Refuses the file where something does not hold."""
    if not holds:
        raise ValueError(what)


def at(things, index):
    """The thing of that index; Python's own would count one below 0 from the end."""
    demand(0 <= index < len(things), "an index past its list")
    return things[index]


def up(n, grain):
    """Rounded up to a multiple."""
    return -(-n // grain) * grain


def credit(pool, drop):
    """What is paid for a drop: so much a whole foot, from the keep length on."""
    c = pool["credit"]
    return c["per_foot"] * (drop // c["foot"]) if drop >= c["keep"] else 0


def sound(pool):
    """Nothing here is negative: the other pages lean on it (a longer drop is paid no less)."""
    numbers = [pool["kerf"], *pool["credit"].values(), *(s["usable"] for s in pool["stocks"])]
    demand(pool["mark"] > 0 and pool["credit"]["foot"] > 0, "a mark or a foot of no length")
    demand(min(numbers) >= 0, "a length or a credit under 0")
    demand(all(i["length"] > 0 and i["count"] >= 0 for i in pool["items"]), "items of no length")


def room(pool):
    """Weight (length + kerf of each piece) that the longest stock holds."""
    return max((s["usable"] for s in pool["stocks"]), default=0) + pool["kerf"]


def wanted_items(pool, answer):
    """How many of each item the answer says it cuts."""
    wanted = Counter({i: item["count"] for i, item in enumerate(pool["items"])})
    wanted.subtract(dict(answer["short"]))
    return wanted


def most_pieces(group):
    """Pieces of all groups alike, spliced as often as they may be."""
    return group["count"] * sum(line["most_splices"] + 1 for line in group["lines"])


def all_pieces(pool):
    """Most pieces of an answer, so most joints from which something is cut."""
    return sum(i["count"] for i in pool["items"]) + sum(map(most_pieces, pool["groups"]))


def money_step(pool):
    """What every cost is a multiple of; the credit counts where a drop can reach it."""
    longest = max((s["usable"] for s in pool["stocks"] if s["limit"] != 0), default=0)
    credited = longest - pool["kerf"] - 1 >= max(pool["credit"]["keep"], pool["credit"]["foot"])
    money = [pool["credit"]["per_foot"]] if credited else []
    money += [s["cost"] for s in pool["stocks"]]
    for group in [g for g in pool["groups"] if g["count"] > 0]:
        money.append(group["splice_cost"])
        money += [slot["charge"] for line in group["lines"] for slot in line["slots"]]
    return max(1, reduce(gcd, money, 0))
