"""How much the tests notice: small changes of the code, one at a time, and whether any test fails.

Usage: python3 tests/mutants [--seed N] [--share measure=40,…] [--only by-hand|sample] [--folder DIR] [--again]
--again: judges what survived the last run in the same folder once more, by tests added or changed since and by those
that its budget left out; nothing but the tests' programs is built.

The crate is copied to a folder (never changed itself), a drawn sample and the list `by_hand.json` are built into
it behind a switch, every test is run once to learn which mutants it meets, and each mutant is then run against
those tests, the quickest first. Survivors are printed; those in `equivalent.json` change nothing that anyone can
see, each with its reason. Read tokens.py, find.py, tree.py, suite.py in this order.
"""

import argparse
import json
import random
import re
import sys
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from find import Mutant, mutants
from suite import Suite
from tree import Tree

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
# Folders of a room; the sheets are the views alone, not the drawing.
ROOMS = {
    "measure": ["src/measure/**/*.rs"],
    "cope": ["src/cope/**/*.rs"],
    "splice": ["src/splice/**/*.rs"],
    "check": ["src/check/**/*.rs"],
    "plan": ["src/plan/**/*.rs"],
    "sheets": ["src/report/*.rs", "src/report/document/*.rs"],
}
SHARE = {"measure": 45, "cope": 30, "splice": 55, "check": 110, "plan": 70, "sheets": 70}
NOT_CODE = ("tests.rs", "_tests.rs", "check/rule.rs")
TEST_ONLY = re.compile(r"#\[cfg\(test\)\]\s*(?:pub(?:\([^)]*\))? )?mod (\w+);")


def test_only(path):
    """Whether a file is a module that tests alone build."""
    file = ROOT / path
    above = [file.parent / "mod.rs", file.parent.with_suffix(".rs")]
    named = [TEST_ONLY.findall(a.read_text()) for a in above if a.exists()]
    return any(file.stem in names for names in named)


def sample(seed, share):
    """(room, path, mutant), drawn room by room."""
    for room, patterns in ROOMS.items():
        paths = sorted({p.relative_to(ROOT).as_posix() for g in patterns for p in ROOT.glob(g)})
        every = []
        for path in (p for p in paths if not p.endswith(NOT_CODE)):
            source = (ROOT / path).read_bytes().decode("latin-1")
            every.extend((room, path, mutant) for mutant in mutants(source))
        dice = random.Random(f"{seed} {room}")
        yield from dice.sample(every, min(share.get(room, 0), len(every)))


def fit(drawn):
    """Numbers and mutants; what only tests build is left out after the draw."""
    return {number: row for number, row in enumerate(drawn) if not test_only(row[1])}


def by_hand():
    for row in json.loads((HERE / "by_hand.json").read_text()):
        source = (ROOT / row["file"]).read_bytes().decode("latin-1")
        old, new = (row[k].encode().decode("latin-1") for k in ("old", "new"))
        around = row.get("in", row["old"]).encode().decode("latin-1")
        if source.count(around) != 1 or around.count(old) != 1:
            print(f"by_hand.json is behind the code: {row['means']}: not once in {row['file']}", file=sys.stderr)
            continue
        start = source.index(around) + around.index(old)
        statement = old.rstrip().endswith(";")
        yield "by hand", row["file"], Mutant(start, start + len(old), new, row["means"], statement=statement)


def settle(tree, chosen, count):
    """Takes out what does not compile; returns what was taken out."""
    out = set(tree.write(chosen, count))
    while True:
        for number in out:
            chosen.pop(number, None)
        tree.write(chosen, count)
        faulty = tree.faulty()
        if faulty is None:
            return out
        print(f"  {len(faulty)} do not compile", file=sys.stderr)
        out |= faulty


def said(path, mutant):
    source = (ROOT / path).read_bytes().decode("latin-1")
    line = source.count("\n", 0, mutant.start) + 1
    old = "" if mutant.before else source[mutant.start : mutant.end]
    texts = [" ".join(t.encode("latin-1").decode().split())[:110] for t in (old, mutant.new)]
    return f"{path}:{line}: {mutant.kind}: {texts[0]} -> {texts[1]}"


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--seed", default="1")
    parser.add_argument("--share", default="", help="mutants drawn a room: measure=40,check=100")
    parser.add_argument("--only", choices=("by-hand", "sample"))
    parser.add_argument("--folder", default="/tmp/longpoint-mutants")
    parser.add_argument("--again", action="store_true")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--slow", type=float, default=15, help="tests of more seconds are left out")
    parser.add_argument("--budget", type=float, default=60, help="seconds of tests a mutant")
    return parser.parse_args()


def main():
    asked = arguments()
    share = SHARE | {room: int(n) for room, n in (s.split("=") for s in asked.share.split(",") if s)}
    drawn = [] if asked.only == "by-hand" else list(sample(asked.seed, share))
    drawn += [] if asked.only == "sample" else list(by_hand())
    rooms = {number: room for number, (room, _, _) in fit(drawn).items()}
    chosen = {number: (path, mutant) for number, (_, path, mutant) in fit(drawn).items()}
    words = {number: said(path, mutant) for number, (path, mutant) in chosen.items()}
    tree = Tree(ROOT, asked.folder)
    known = Known(tree.folder / "known.json", asked.again)
    if asked.again:
        tree.copy_tests()
        out = {n for n in chosen if known.verdicts.get(words[n], [""])[0] == "unviable"}
    else:
        tree.copy()
        out = settle(tree, chosen, len(drawn))
        for number in out:
            known.verdicts[words[number]] = ["unviable", "does not compile"]
    suite = Suite(asked.folder, tree.build(), asked.workers, asked.slow)
    tests = suite.survey(suite.names(), known.tests)
    print(f"{len(tests)} tests, {len(suite.left_out)} left out (failing, or over {asked.slow} s)", flush=True)
    for name in suite.left_out:
        print(f"  left out: {name}", flush=True)

    equivalent = {row["mutant"]: row["why"] for row in json.loads((HERE / "equivalent.json").read_text())}

    def judged(number):
        before = known.verdicts.get(words[number], ["", "", []])
        if before[0] not in ("", "survived") or unnumbered(words[number]) in equivalent:
            known.verdicts.setdefault(words[number], ["survived", "not tried", []])
            return
        found = suite.verdict(number, tests, asked.budget, set(before[2]))
        known.verdicts[words[number]] = found
        known.write([])
        print(f"  {found[0]}: {words[number]} [{found[1]}]", file=sys.stderr, flush=True)

    with ThreadPoolExecutor(asked.workers) as pool:
        list(pool.map(judged, sorted(set(chosen) - out, key=lambda n: (rooms[n] != "by hand", n))))
    known.write(tests)
    table = Counter()
    for number in sorted(rooms):
        verdict, how = known.verdicts[words[number]][:2]
        why = equivalent.get(unnumbered(words[number]))
        if verdict == "survived" and why:
            verdict, how = "equivalent", why
        table[(rooms[number], verdict)] += 1
        print(f"{verdict}: {words[number]} [{how}]")
    report(table, sorted(set(rooms.values())))


class Known:
    """What earlier runs in this folder found: seconds of each test, a verdict for each mutant and what it was tried by."""

    def __init__(self, path, again):
        self.path = path
        held = json.loads(path.read_text()) if again and path.exists() else {}
        self.tests = held.get("tests", {})
        self.verdicts = held.get("verdicts", {})

    def write(self, tests):
        self.tests |= {f"{t.program} {t.name}": t.seconds for t in tests}
        self.path.write_text(json.dumps({"tests": self.tests, "verdicts": self.verdicts}, indent=1))


def unnumbered(words):
    """A mutant's words without its line number, which moves."""
    path, _, rest = words.split(":", 2)
    return path + ":" + rest


def report(table, rooms):
    columns = ("caught", "timed out", "survived", "equivalent", "unviable")
    print(f"\n{'room':<10}" + "".join(f"{c:>12}" for c in columns) + f"{'noticed':>10}")
    for room in [*rooms, "all"]:
        counts = [sum(n for (r, v), n in table.items() if v == c and room in (r, "all")) for c in columns]
        noticed, viable = counts[0] + counts[1], counts[0] + counts[1] + counts[2]
        share = f"{100 * noticed / viable:.1f} %" if viable else "-"
        print(f"{room:<10}" + "".join(f"{c:>12}" for c in counts) + f"{share:>10}")


if __name__ == "__main__":
    main()
