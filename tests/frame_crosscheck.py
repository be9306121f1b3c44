"""Computes our gates again with a general-purpose frame library and compares live.

    cargo run -q --example frame_dump | PYTHONPATH=target/frame-library python3 tests/frame_crosscheck.py

The library is PyNiteFEA from the Python registry (frame elements in space; every node is kept in
its plane here). The gate is built anew from its plain dimensions, with nodes at the rollers and
supports there; nothing of our numbering, band or superposition is used. Every force and rise must
agree to 1e-8 of the largest of its kind.
"""

import json
import math
import sys

from Pynite import FEModel3D

TOLERANCE = 1e-8
COMBO = "Combo 1"


def tube(od, wall):
    bore = od - 2 * wall
    return math.pi / 4 * (od**2 - bore**2), math.pi / 64 * (od**4 - bore**4)


class Gate:
    def __init__(self, case):
        self.case, self.model = case, case["model"]
        self.fe = FEModel3D()
        self.fe.add_material("steel", self.model["elasticity"], 11.2e6, 0.3, 0.0)
        self.members = {}
        self.rollers = [case["front"], case["front"] + self.model["spacing"]]
        self.landings()
        self.horizontals()
        self.web()
        self.supports()
        if self.model["nose_load"]:
            self.fe.add_node_load(self.node("top", 0.0), "FY", -self.model["nose_load"])
        self.fe.analyze_linear(sparse=False)

    def node(self, line, x):
        name = f"{line}@{x:.6f}"
        if name not in self.fe.nodes:
            self.fe.add_node(name, x, 0.0 if line == "bottom" else self.model["height"], 0.0)
            self.fe.def_support(name, support_DZ=True, support_RX=True, support_RY=True)
        return name

    def member(self, name, start, end, tube_size, load, pinned=False):
        section = f"{tube_size[0]}x{tube_size[1]}"
        if section not in self.fe.sections:
            area, inertia = tube(*tube_size)
            self.fe.add_section(section, area, inertia, inertia, 2 * inertia)
        self.fe.add_member(name, start, end, "steel", section)
        if pinned:
            self.fe.def_releases(name, Rzi=True, Rzj=True)
        self.fe.add_member_dist_load(name, "FY", -load, -load)

    def landings(self):
        lines, ecc = self.model["lines"], self.model["landing"]
        self.diagonals = []
        for near, far in zip(lines, lines[1:]):
            low, high = (near + ecc, far - ecc)
            ends = ("bottom", "top") if self.model["head_to_tail"] else ("top", "bottom")
            self.diagonals.append(((ends[0], low), (ends[1], high)))

    def horizontals(self):
        m = self.model
        q = m["load_factor"] * (tube(*m["horizontal"])[0] * m["unit_weight"] + m["fabric"] * m["height"] / 2)
        for line in ("bottom", "top"):
            places = m["lines"] + self.rollers
            places += [x for ends in self.diagonals for (on, x) in ends if on == line]
            places = sorted({round(x, 9) for x in places})
            names = []
            for k, (a, b) in enumerate(zip(places, places[1:])):
                if b - a < 1e-6:
                    continue
                names.append((f"{line}{k}", a, b))
                self.member(f"{line}{k}", self.node(line, a), self.node(line, b), m["horizontal"], q)
            self.members[line] = names

    def web(self):
        m = self.model
        last = len(m["lines"]) - 1
        for k, x in enumerate(m["lines"]):
            size = m["posts"][0] if k == 0 else m["posts"][1] if k == last else m["vertical"]
            self.upright(f"upright{k}", self.node("bottom", x), self.node("top", x), size)
        for k, (start, end) in enumerate(self.diagonals):
            self.upright(f"diagonal{k}", self.node(*start), self.node(*end), m["diagonal"])

    def upright(self, name, start, end, size):
        load = self.model["load_factor"] * tube(*size)[0] * self.model["unit_weight"]
        self.member(name, start, end, size, load, self.model["pinned"])

    def supports(self):
        first = True
        for lift in self.case["ours"]["lifts"]:
            name = self.node(lift["line"], lift["x"])
            self.fe.def_support(
                name, support_DX=first, support_DY=True, support_DZ=True, support_RX=True, support_RY=True
            )
            first = False

    def rise(self, line, x):
        for name, a, b in self.members[line]:
            if a - 1e-6 <= x <= b + 1e-6:
                return self.fe.members[name].deflection("dy", x - a, COMBO)
        raise KeyError(x)

    def inner(self, line, x, side):
        found = [(n, a, b) for (n, a, b) in self.members[line] if a - 1e-6 <= x <= b + 1e-6]
        name, a, b = found[0] if side == "left" else found[-1]
        member, at = self.fe.members[name], min(max(x - a, 0.0), b - a)
        return [-member.axial(at, COMBO), member.shear("Fy", at, COMBO), -member.moment("Mz", at, COMBO)]


def compare(case):
    gate, ours, worst = Gate(case), case["ours"], {}

    def look(kind, mine, theirs, what):
        worst.setdefault(kind, []).append((mine, theirs, what))

    for lift in ours["lifts"]:
        theirs = gate.fe.nodes[gate.node(lift["line"], lift["x"])].RxnFY[COMBO]
        look("force", lift["force"], theirs, f"lift at {lift['x']}")
    for line, rows in zip(("bottom", "top"), ours["horizontals"]):
        for row in rows:
            where = f"{line} x {row['x']:.3f}"
            look("rise", row["rise"], gate.rise(line, row["x"]), where)
            for side in ("left", "right"):
                theirs = gate.inner(line, row["x"], side)
                for k, kind in enumerate(("force", "force", "moment")):
                    look(kind, row[side][k], theirs[k], f"{where} {side} {'NVM'[k]}")
    for kind, at in (("upright", 0.0), ("diagonal", 0.5)):
        for k, mine in enumerate(ours[kind + "s"]):
            member = gate.fe.members[f"{kind}{k}"]
            theirs = -member.axial(at * member.L(), COMBO)
            look("force", mine[0], theirs, f"{kind} {k} N")
            look("moment", mine[2], -member.moment("Mz", at * member.L(), COMBO), f"{kind} {k} M")

    count, off = 0, 0.0
    for kind, pairs in worst.items():
        scale = max(abs(theirs) for (_, theirs, _) in pairs)
        for mine, theirs, what in pairs:
            count += 1
            error = abs(mine - theirs) / scale
            off = max(off, error)
            if not error <= TOLERANCE:
                raise SystemExit(f"{case['name']} front {case['front']}: {what}: ours {mine}, library {theirs}")
    return count, off


def main():
    total, worst = 0, 0.0
    cases = json.load(sys.stdin)
    for case in cases:
        count, off = compare(case)
        total, worst = total + count, max(worst, off)
        print(f"{case['name']:28} front {case['front']:8.3f}  {count:4} values, worst {off:.1e}")
    if len(cases) < 40 or total < 4000:
        raise SystemExit(f"too little compared: {len(cases)} places, {total} values")
    print(f"{len(cases)} places of the rollers, {total} values agree; worst {worst:.1e} of the largest of its kind")


if __name__ == "__main__":
    main()
