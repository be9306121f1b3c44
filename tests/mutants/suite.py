"""The crate's tests, one process each: how long one takes, which mutants it meets, whether it notices one."""

import os
import re
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path


# Programs about files alone: minutes of kills that meet none of the rooms more than others do.
LEFT_OUT = {"kill"}


@dataclass
class Test:
    program: str
    name: str
    seconds: float = 0.0
    # Not known to an earlier run in this folder: such tests go first.
    new: bool = False
    met: set = field(default_factory=set)


class Suite:
    def __init__(self, folder, programs, workers, slow):
        self.folder, self.programs, self.workers, self.slow = Path(folder), programs, workers, slow
        self.left_out = []
        # Seconds of the last run of each worker.
        self.took = {}
        # Tests write into folders and files of fixed names: one process of a program at a time.
        self.turn = {program: threading.Lock() for program in programs}

    def names(self):
        for program, path in sorted(self.programs.items()):
            if program in LEFT_OUT:
                continue
            listed = subprocess.run([path, "--list", "--format=terse"], cwd=self.folder, capture_output=True, text=True)
            for name in re.findall(r"^(.*): test$", listed.stdout, re.MULTILINE):
                yield Test(program, name)

    def run(self, program, names, limit, **env):
        """Whether the tests pass; None: they run longer than the limit."""
        with self.turn[program]:
            return self.run_now(program, names, limit, env)

    def run_now(self, program, names, limit, env):
        command = [self.programs[program], "--exact", "--test-threads=1", *names]
        own = self.folder / "scratch" / program
        own.mkdir(parents=True, exist_ok=True)
        whole = os.environ | env | {"TMPDIR": str(own)}
        process = subprocess.Popen(
            command, cwd=self.folder, env=whole, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            start_new_session=True,
        )  # fmt: skip
        began = time.monotonic()
        try:
            return process.wait(timeout=limit) == 0
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, 9)
            process.wait()
            return None
        finally:
            self.took[threading.get_ident()] = time.monotonic() - began

    def met(self, test):
        return self.folder / "met" / f"{test.program}-{test.name.replace('::', '-')}"

    def measure(self, test):
        met = self.met(test)
        met.parent.mkdir(exist_ok=True)
        met.unlink(missing_ok=True)
        passed = self.run(test.program, [test.name], self.slow, MUTANTS_MET=str(met))
        test.seconds = self.took.get(threading.get_ident(), 0.0)
        print(f"  {test.seconds:6.2f} s {test.program} {test.name}", file=sys.stderr, flush=True)
        if passed and met.exists():
            test.met = {int(n) for n in met.read_text().split()}
        return passed

    def recall(self, test, known):
        """What an earlier run measured of this test, if it did."""
        seconds, met = known.get(f"{test.program} {test.name}"), self.met(test)
        if seconds is None:
            test.new = True
            return self.measure(test)
        test.seconds = seconds
        test.met = {int(n) for n in met.read_text().split()} if met.exists() else set()
        return True

    def survey(self, names, known):
        """Runs every test once that is not known yet, no mutant awake."""
        tests = list(names)
        with ThreadPoolExecutor(self.workers) as pool:
            passed = list(pool.map(lambda t: self.recall(t, known), tests))
        self.left_out = [f"{t.program} {t.name}" for t, p in zip(tests, passed) if not p]
        return [t for t, p in zip(tests, passed) if p]

    def verdict(self, number, tests, budget, tried):
        """caught, timed out or survived, how, and the tests it was tried by; the quickest tests go first."""
        met = [t for t in tests if number in t.met]
        reached = sorted((t for t in met if name_of(t) not in tried), key=lambda t: (not t.new, t.seconds))
        if not met:
            return ["survived", "no test meets it", []]
        spent = 0.0
        for group in groups(reached):
            if spent > budget:
                return ["survived", f"by {len(tried)} of {len(met)} tests", sorted(tried)]
            usual = sum(t.seconds for t in group)
            passed = self.run(group[0].program, [t.name for t in group], 20 + 10 * usual, MUTANT=str(number))
            spent += usual
            if passed is None:
                return ["timed out", names_of(group), []]
            if not passed:
                return ["caught", names_of(group), []]
            tried |= {name_of(t) for t in group}
        return ["survived", f"by all {len(met)} tests that meet it", sorted(tried)]


def name_of(test):
    return f"{test.program} {test.name}"


def names_of(group):
    return name_of(group[0]) + (f" + {len(group) - 1}" if len(group) > 1 else "")


def groups(tests):
    """Tests in order, those of one program together up to a second."""
    group = []
    for test in tests:
        if group and (group[0].program != test.program or sum(t.seconds for t in group) > 1 or len(group) > 20):
            yield group
            group = []
        group.append(test)
    if group:
        yield group
