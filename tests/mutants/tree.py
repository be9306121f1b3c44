"""A copy of the crate in which every chosen mutant sleeps behind a switch: an environment variable wakes one.

So one build serves them all. `(if on(7) { a <= b } else { a < b })` stands for `a < b`; what does not compile is
found from the compiler's messages and taken out again. Text is handled as bytes (latin-1), as rustc counts.
"""

import json
import os
import shutil
import subprocess
from pathlib import Path

SWITCH = '''//! Which mutant is awake, and which were met.
use std::io::Write;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, Ordering};

static AWAKE: OnceLock<u32> = OnceLock::new();
static MET: [AtomicBool; %d] = [const { AtomicBool::new(false) }; %d];

pub fn on(n: u32) -> bool {
    if !MET[n as usize].swap(true, Ordering::Relaxed)
        && let Ok(path) = std::env::var("MUTANTS_MET")
        && let Ok(mut file) = std::fs::OpenOptions::new().append(true).create(true).open(path)
    {
        let _ = file.write_all(format!("{n}\\n").as_bytes());
    }
    let awake = AWAKE.get_or_init(|| {
        let named = std::env::var("MUTANT").ok().and_then(|n| n.parse().ok());
        named.unwrap_or(u32::MAX)
    });
    *awake == n
}
'''
# The parser may stumble a little behind what misled it.
NEAR = 300
COPIED = ("src", "tests", "data", "benches", "Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md")


def crossing(a, b):
    return a.start < b.start < a.end < b.end or b.start < a.start < b.end < a.end


class Writer:
    """One file with its mutants, and where in the new text each one stands."""

    def __init__(self, source, mutants):
        self.source, self.out, self.length = source, [], 0
        self.new_text, self.whole = {}, {}
        kept = []
        for number, mutant in sorted(mutants.items(), key=lambda m: (m[1].start, -m[1].end, m[0])):
            if not any(crossing(mutant, other) for _, other in kept):
                kept.append((number, mutant))
        self.kept = kept
        self.span(0, len(source), kept)

    def put(self, text):
        self.out.append(text)
        self.length += len(text)

    def span(self, start, end, mutants):
        at, index = start, 0
        while index < len(mutants):
            _, first = mutants[index]
            same = [m for m in mutants[index:] if (m[1].start, m[1].end) == (first.start, first.end)]
            inside = [m for m in mutants[index:] if m not in same and m[1].start < first.end]
            self.put(self.source[at : first.start])
            self.site(first, same, inside)
            at = first.end
            index += len(same) + len(inside)
        self.put(self.source[at:end])

    def site(self, first, same, inside):
        began = self.length
        for mutant in (m for m in same if m[1].before):
            self.choice(mutant, "if crate::mutant_switch::on(%d) { ", " }")
        other = [m for m in same if not m[1].before]
        if other:
            self.put("" if first.statement else "(")
            for mutant in other:
                self.choice(mutant, "if crate::mutant_switch::on(%d) { ", " } else ")
            self.put("{ ")
            self.span(first.start, first.end, inside)
            self.put(" }" if first.statement else " })")
        else:
            self.span(first.start, first.end, inside)
        for number, _ in same:
            self.whole[number] = (began, self.length)

    def choice(self, mutant, head, tail):
        number, what = mutant
        began = self.length
        self.put(head % number)
        self.put(what.new)
        self.put(tail)
        self.new_text[number] = (began, self.length)


class Tree:
    def __init__(self, root, folder):
        self.root, self.folder = Path(root), Path(folder)
        self.files = {}
        self.env = os.environ | {"CARGO_PROFILE_DEV_OPT_LEVEL": "1", "CARGO_PROFILE_DEV_DEBUG": "none"}
        self.env.pop("CARGO_TARGET_DIR", None)

    def copy(self):
        """The crate as it stands, beside it the dependencies that are built already."""
        self.folder.mkdir(parents=True, exist_ok=True)
        for name in COPIED:
            here, there = self.root / name, self.folder / name
            if here.is_dir():
                shutil.rmtree(there, ignore_errors=True)
                shutil.copytree(here, there)
            else:
                shutil.copy2(here, there)
        if not (self.folder / "target").exists() and (self.root / "target").exists():
            shutil.copytree(self.root / "target", self.folder / "target", symlinks=True)

    def copy_tests(self):
        """The tests as they stand, in the copy that is there."""
        shutil.rmtree(self.folder / "tests", ignore_errors=True)
        shutil.copytree(self.root / "tests", self.folder / "tests")

    def write(self, chosen, count):
        """Writes every file that has mutants; `chosen`: number → (path, mutant)."""
        by_path = {}
        for number, (path, mutant) in chosen.items():
            by_path.setdefault(path, {})[number] = mutant
        lost = set()
        for path in set(self.files) | set(by_path):
            source = (self.root / path).read_bytes().decode("latin-1")
            writer = Writer(source, by_path.get(path, {}))
            lost |= set(by_path.get(path, {})) - {number for number, _ in writer.kept}
            if path not in self.files or "".join(self.files[path].out) != "".join(writer.out):
                (self.folder / path).write_bytes("".join(writer.out).encode("latin-1"))
            self.files[path] = writer
        lib = (self.root / "src/lib.rs").read_text()
        (self.folder / "src/lib.rs").write_text("#![allow(warnings)]\n" + lib + "mod mutant_switch;\n")
        (self.folder / "src/mutant_switch.rs").write_text(SWITCH % (count, count))
        return lost

    def faulty(self):
        """Mutants that the compiler refuses in this build; None: it takes them all."""
        command = ["cargo", "check", "-j1", "--lib", "--message-format=json"]
        run = subprocess.run(command, cwd=self.folder, env=self.env, capture_output=True, text=True)
        if run.returncode == 0:
            return None
        found, stray = set(), []
        for line in run.stdout.splitlines():
            message = json.loads(line).get("message")
            if not isinstance(message, dict) or message.get("level") != "error" or not message.get("spans"):
                continue
            hit = set().union(*(self.at(span) for span in message["spans"]))
            found |= hit
            if not hit:
                stray.append(message.get("rendered", ""))
        if not found:
            raise SystemExit("the copy does not build:\n" + "\n".join(stray[:5] or [run.stderr[-3000:]]))
        return found

    def at(self, span):
        writer = self.files.get(span["file_name"])
        if writer is None:
            return set()
        lo, hi = span["byte_start"], max(span["byte_end"], span["byte_start"] + 1)
        hit = {n for n, (a, b) in writer.new_text.items() if a < hi and lo < b}
        if hit:
            return hit
        around = {n: b - a for n, (a, b) in writer.whole.items() if a < hi and lo < b}
        if around:
            return {n for n, size in around.items() if size == min(around.values())}
        near = {n for n, (a, b) in writer.whole.items() if a - NEAR < hi and lo < b + NEAR}
        return near

    def build(self):
        """Paths of the test programs."""
        command = ["cargo", "test", "-j2", "--no-run", "--message-format=json"]
        run = subprocess.run(command, cwd=self.folder, env=self.env, capture_output=True, text=True)
        if run.returncode != 0:
            raise SystemExit(run.stdout[-4000:] + run.stderr[-4000:])
        made = [json.loads(line) for line in run.stdout.splitlines()]
        return {
            ("lib" if "lib" in m["target"]["kind"] else m["target"]["name"]): m["executable"]
            for m in made
            if m.get("executable") and m["profile"]["test"] and m["target"]["kind"] != ["bin"]
        }
