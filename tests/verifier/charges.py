"""The bound of a problem with charges: a tree over what each charge counts; in a leaf a line under every charge moves
its slope into the costs of its joints, and each pool is proved by itself at the moved costs."""
import json
from functools import reduce
from math import gcd

from verifier.answer import credit, demand
from verifier.leaf import all_pieces, proved, step
from verifier.splicing import ceil

def at(o): return o["pool"], o["stock"]

def stock(problem, key): return problem["pools"][key[0]]["stocks"][key[1]]

def price(s): return s["cost"] if s.get("price") is None else s["price"]

def kind(charge): (name, k), = charge["kind"].items(); return name, k

def priced(name, k): return name == "minimum" or name == "fixed" and k.get("free_over") is not None

def weight(problem, charge, key): return price(stock(problem, key)) if priced(*kind(charge)) else 1

def uncut(name, k):
    return {"fixed": k.get("free_over") is not None, "lift": k.get("part_fee", 0) > 0,
            "minimum": k.get("least", 0) > 0, "range": k.get("least", 0) > 1}[name]

def corners(name, k, lo, hi):  # (w, money): at any slope b the least of money - b w over [lo, hi] is at one
    out, a = [(0, 0)] if lo <= 0 <= hi else [], max(lo, 1)
    def piece(x, y, f): out.extend((w, f(w)) for w in (x, y) if x <= y)
    if name == "fixed":
        free = k["free_over"] if k.get("free_over") is not None else hi + 1
        piece(a, min(hi, free - 1), lambda w: k["amount"]); piece(max(a, free), hi, lambda w: 0)
    elif name == "minimum":
        piece(a, min(hi, k["least"]), lambda w: k["least"] - w); piece(max(a, k["least"]), hi, lambda w: 0)
    elif name == "range":
        piece(max(a, k["least"]), hi if k.get("most") is None else min(hi, k["most"]), lambda w: 0)
    elif a <= hi:
        q = k["lift"]
        f = lambda w: ceil(w, q) * k["fee"] + (k["part_fee"] if w % q else 0)
        piece(a, hi, f); piece(ceil(a, q) * q, hi // q * q, f)
    return out

def most(problem, key):  # joints of a stock in some answer of least cost, uncut ones too
    s, pool, want, lifts, spare = stock(problem, key), problem["pools"][key[0]], 0, 1, False
    for c in problem.get("charges", []):
        if key not in map(at, c["over"]): continue
        name, k = kind(c)
        spare |= uncut(name, k)
        if name == "lift": lifts = lifts // gcd(lifts, k["lift"]) * k["lift"]
        elif name == "range": want = max(want, k["least"])
        else:
            money = k["least"] if name == "minimum" else k.get("free_over")
            if money is not None: want = max(want, money // price(s) + 1)
    n = all_pieces(pool) + (want + lifts if spare else 0)
    return n if s["limit"] is None else min(n, s["limit"])

def tight(problem, joints, spans):  # charges bound joints, joints bound charges; None: nothing lies here
    joints, spans = dict(joints), list(spans)
    for i, c in enumerate(problem["charges"]):
        name, k = kind(c)
        lo, hi = spans[i]
        if name == "range":
            hi = hi if k.get("most") is None else min(hi, k["most"])
            hi = 0 if hi < k["least"] else hi
        spans[i] = lo, hi
        for key in map(at, c["over"]):
            joints[key] = joints[key][0], min(joints[key][1], hi // weight(problem, c, key))
    for i, c in enumerate(problem["charges"]):
        low, high = (sum(joints[o][e] * weight(problem, c, o) for o in map(at, c["over"])) for e in (0, 1))
        spans[i] = max(spans[i][0], low), min(spans[i][1], high)
    return (joints, spans) if all(a <= b for a, b in [*joints.values(), *spans]) else None

def moved(problem, p, joints, slopes, grain):  # the pool at moved costs, and the money beside it
    pool, beside, stocks = json.loads(json.dumps(problem["pools"][p])), 0, []
    pool["credit"]["per_foot"] *= grain
    for g in pool["groups"]:
        g["splice_cost"] *= grain
        for l in g["lines"]:
            for slot in l["slots"]: slot["charge"] *= grain
    for i, s in enumerate(pool["stocks"]):
        s["cost"] *= grain
        if (p, i) not in joints: stocks.append(s); continue
        for c, b in zip(problem["charges"], slopes):
            if (p, i) in map(at, c["over"]): s["cost"] += b * weight(problem, c, (p, i))
        (least, top), owned = joints[p, i], credit(pool, s["usable"])
        def put(cost, n):
            endless = s["limit"] is None and n >= all_pieces(pool)
            stocks.append(s | {"cost": cost, "limit": None if endless else n})
        anyway = top if s["cost"] < owned else least
        beside += (s["cost"] - owned) * anyway
        if s["cost"] < owned or anyway > 0: put(owned, anyway)
        if s["cost"] >= owned: put(s["cost"], top - least)
    return pool | {"stocks": stocks}, beside

def unit(problem):  # what every cost of the whole is a multiple of
    unit = [step(pool) for pool in problem["pools"]]
    for c in problem.get("charges", []):
        name, k = kind(c)
        unit += [k[f] for f in ("amount", "fee", "part_fee") if f in k] + ([k["least"]] if name == "minimum" else [])
        for key in map(at, c["over"]):
            unit.append(credit(problem["pools"][key[0]], stock(problem, key)["usable"]))
            if name == "minimum": unit.append(price(stock(problem, key)))
    return max(1, reduce(gcd, unit))

def whole(problem, answer):  # least bound over the leaves of the charges' tree
    charges, grain = problem["charges"], answer["grain"]
    assert grain >= 1, "a grain under 1"
    start = {key: (0, most(problem, key)) for c in charges for key in map(at, c["over"])}
    found, met, todo = [], set(), [(0, (start, [(0, 2 ** 63 - 1)] * len(charges)))]
    while todo:
        n, place = todo.pop()
        assert n not in met and 0 <= n < len(answer["nodes"]), "nodes that are no tree"
        met.add(n)
        place = place and tight(problem, *place)
        node = answer["nodes"][n]
        curves = place and [corners(*kind(c), *s) for c, s in zip(charges, place[1])]
        if node == "nothing": assert not place or [] in curves, "a node that is not empty"; continue
        (what, f), = node.items()
        if what == "leaf":
            assert len(f["slopes"]) == len(charges) and len(f["proofs"]) == len(problem["pools"]), "a leaf"
            if not place or [] in curves: continue
            total = sum(min(grain * m - b * w for w, m in c) for c, b in zip(curves, f["slopes"]))
            for p, proof in enumerate(f["proofs"]):
                pool, beside = moved(problem, p, place[0], f["slopes"], grain)
                own = proved(pool, answer["proofs"][proof])
                if own is None: break
                total += own + beside
            else: found.append(total)
            continue
        for side, child in ((0, f["under"]), (1, f["over"])):
            joints, spans = (dict(place[0]), list(place[1])) if place else (start, [(0, 0)] * len(charges))
            held, key = (spans, f["charge"]) if what == "charge" else (joints, at(f["of"]))
            lo, hi = held[key]
            held[key] = (max(lo, f["most"] + 1), hi) if side else (lo, min(hi, f["most"]))
            todo.append((child, place and (joints, spans)))
    assert len(met) == len(answer["nodes"]), "a node of no split"
    return ceil(min(found), grain * unit(problem)) * unit(problem)

def charged(problem, answers, answer):  # money of the whole; every charge as said
    total = sum(a["cost"] for a in answers)
    demand(len(answer["charges"]) == len(problem["charges"]), "money of each charge")
    for c, said in zip(problem["charges"], answer["charges"]):
        taken = {key: sum(p["times"] for p in answers[key[0]]["patterns"] if p["stock"] == key[1])
                 for key in map(at, c["over"])}
        w = sum(n * weight(problem, c, key) for key, n in taken.items())
        money = dict(corners(*kind(c), w, w))
        demand(money.get(w) == said, f"{c['name']}: its money")
        total += said
    return total
