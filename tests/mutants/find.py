"""Every mutant of a source file: a small change of one expression or statement that still reads as Rust.

A mutant is a span of the text, what stands there instead, and what kind of change it is. Left out are tests,
attributes, `const` items and `const fn` (the switch is asked at run time), and what only asserts.
"""

from dataclasses import dataclass

from tokens import File

SWAPS = {
    "<": ("<=", ">="),
    ">": (">=", "<="),
    "<=": ("<", ">"),
    ">=": (">", "<"),
    "==": ("!=",),
    "!=": ("==",),
    "+": ("-",),
    "-": ("+",),
    "*": ("+",),
    "/": ("*",),
    "&&": ("||",),
    "||": ("&&",),
}
CALLS = {
    "min": "max", "max": "min", "any": "all", "all": "any", "first": "last", "last": "first",
    "floor": "ceil", "ceil": "floor", "down_to": "up_to", "up_to": "down_to",
    "floor_mark": "nearest_mark", "nearest_mark": "floor_mark", "is_some": "is_none", "is_none": "is_some",
}  # fmt: skip
KIND = {3: "comparison", 8: "arithmetic", 9: "arithmetic", 2: "and/or", 1: "and/or"}
NOT_A_STATEMENT = {
    "let", "return", "use", "pub", "fn", "mod", "if", "while", "for", "match", "loop", "const", "static", "break",
    "continue", "struct", "enum", "impl", "type", "assert", "assert_eq", "debug_assert", "debug_assert_eq", "else",
}  # fmt: skip
EMPTY = {
    "bool": ("true", "false"), "i64": ("0", "1"), "u32": ("0", "1"), "usize": ("0", "1"), "u64": ("0", "1"),
    "f64": ("0.0",), "String": ("String::new()",), "Length": ("Length::ZERO",), "Money": ("Money::ZERO",),
    "Option": ("None",), "Vec": ("Vec::new()",),
}  # fmt: skip


@dataclass(frozen=True)
class Mutant:
    start: int
    end: int
    new: str
    kind: str
    # The new text stands before the span and the span is kept: a body that returns at once.
    before: bool = False
    # The span is a statement.
    statement: bool = False


def left_out(file):
    """Spans in which nothing is changed."""
    spans = []
    for at, token in enumerate(file.tokens):
        text = token.text
        if text == "#" and file.text(at + 1) == "[":
            end = file.partner[at + 1]
            spans.append((token.start, file.tokens[end].end))
            inside = file.source[token.start : file.tokens[end].end]
            if inside == "#[cfg(test)]":
                here = end + 1
                while file.text(here) not in ("{", ";"):
                    here += 1
                last = file.partner.get(here, here)
                spans.append((token.start, file.tokens[last].end))
        elif text in ("const", "static") and token.kind == "word":
            here = at + 1
            is_fn = file.text(here) == "fn"
            while file.text(here) != ("{" if is_fn else ";") and file.text(here):
                here = file.partner[here] + 1 if not is_fn and file.text(here) in ("(", "[", "{") else here + 1
            if file.text(here):
                spans.append((token.start, file.tokens[file.partner.get(here, here)].end))
        elif text == ";" and token.kind == "sign":
            opened = enclosing(file, at)
            if opened is not None and file.text(opened) == "[":
                spans.append((token.start, file.tokens[file.partner[opened]].end))
        elif text in ("assert", "assert_eq", "debug_assert", "debug_assert_eq", "macro_rules"):
            here = at + 1
            while file.text(here) not in ("(", "{"):
                here += 1
            spans.append((token.start, file.tokens[file.partner[here]].end))
    return spans


def enclosing(file, at):
    here = at - 1
    while here >= 0:
        text = file.text(here)
        if file.tokens[here].kind == "sign" and text in (")", "]", "}"):
            here = file.partner[here] - 1
            continue
        if file.tokens[here].kind == "sign" and text in ("(", "[", "{"):
            return here
        here -= 1
    return None


def binary(file, at):
    rank = file.rank(at)
    text = file.text(at)
    if rank is None or text not in SWAPS:
        return
    first, behind = file.left(at, rank), file.right(at, rank)
    if first >= at or behind <= at + 1 or file.text(at + 1) in ("if", "match", "|"):
        return
    words = {file.text(i) for i in range(first, behind)}
    if words & {"let", "dyn", "impl", "where"} or file.text(first - 1) in ("let", ":"):
        return
    start, end = file.span(first, behind)
    token = file.tokens[at]
    for new in SWAPS[text]:
        source = file.source
        yield Mutant(start, end, source[start : token.start] + new + source[token.end : end], KIND[rank])


def call(file, at):
    if file.text(at) != "." or file.text(at + 1) not in CALLS or file.text(at + 2) != "(":
        return
    first = file.chain(at)
    if first is None:
        return
    start, end = file.tokens[first].start, file.tokens[file.partner[at + 2]].end
    name = file.tokens[at + 1]
    new = file.source[start : name.start] + CALLS[name.text] + file.source[name.end : end]
    yield Mutant(start, end, new, "other call")


def condition(file, at):
    if file.text(at) != "if" or file.text(at + 1) == "let":
        return
    here = at + 1
    while file.text(here) not in ("{", "=>", ""):
        here = file.partner[here] + 1 if file.text(here) in ("(", "[") else here + 1
    if any(file.text(i) == "let" for i in range(at, here)) or here == at + 1:
        return
    start, end = file.span(at + 1, here)
    yield Mutant(start, end, f"!({file.source[start:end]})", "condition negated")


def negation(file, at):
    token = file.tokens[at]
    if token.text != "!" or file.source[token.end].isspace() or file.source[token.start - 1].isalnum():
        return
    here = at + 1
    while True:
        text = file.text(here)
        if file.tokens[here].kind == "sign" and text in ("(", "["):
            here = file.partner[here] + 1
        elif file.tokens[here].kind in ("word", "number") and text not in ENDS_OPERAND:
            here += 1
        elif text in (".", "::", "?", "*", "&") and not file.spaced(here):
            here += 1
        elif text == "!" and file.text(here + 1) == "(":
            here += 1
        else:
            break
    if here == at + 1:
        return
    start, end = file.span(at, here)
    yield Mutant(start, end, file.source[start + 1 : end], "negation dropped")


ENDS_OPERAND = {"as", "if", "else", "match"}


def number(file, at):
    token = file.tokens[at]
    if token.kind != "number" or not token.text.isdigit() or file.text(at - 1) == ".":
        return
    before, after = file.text(at - 1), file.text(at + 1)
    if after in ("=>", "..=") or before in ("..=", "|") or (after in ("|", ",", ")") and pattern(file, at)):
        return
    yield Mutant(token.start, token.end, str(int(token.text) + 1), "constant")


def pattern(file, at):
    """Whether what encloses this is a pattern: `Some(1) =>`, `[_, 0] =>`, `matches!(x, 1 | 2)`."""
    opened = enclosing(file, at)
    if opened is None:
        return False
    behind = file.partner[opened] + 1
    if file.text(behind) in ("=>", "|", "if") or file.text(opened - 2) == "matches":
        return True
    return file.text(behind) in (")", ",") and file.text(opened) in ("(", "[") and pattern(file, behind)


def statement(file, at):
    if file.text(at - 1) not in (";", "{", "}") or file.tokens[at].kind != "word":
        return
    if file.text(at) in NOT_A_STATEMENT:
        return
    here = at
    while here < len(file.tokens):
        text = file.text(here)
        if file.tokens[here].kind == "sign" and text in ("(", "[", "{"):
            here = file.partner[here] + 1
            continue
        if text in (")", "]", "}", "=>", ",", ":"):
            return
        if text == ";":
            break
        here += 1
    inside = {file.text(i) for i in range(at, here)}
    if not inside & {"(", "=", "+=", "-=", "*="}:
        return
    start, end = file.span(at, here + 1)
    yield Mutant(start, end, "{}", "statement dropped", statement=True)
    for i in range(at, here):
        token = file.tokens[i]
        if token.text in ("+=", "-="):
            other = "-=" if token.text == "+=" else "+="
            new = file.source[start : token.start] + other + file.source[token.end : end]
            yield Mutant(start, end, new, "arithmetic", statement=True)


def body(file, at):
    if file.text(at) != "fn" or file.text(at - 1) == "const":
        return
    here = at + 2
    while file.text(here) != "(":
        here += 1
    here = file.partner[here] + 1
    result = []
    if file.text(here) == "->":
        here += 1
        while file.text(here) not in ("{", ";", "where", ""):
            result.append(file.text(here))
            here += 1
    while file.text(here) not in ("{", ";", ""):
        here += 1
    if file.text(here) != "{" or file.text(here + 1) == "}":
        return
    first = file.tokens[here].end
    for value in [""] if not result else EMPTY.get(result[0], ()):
        if result and result[0] != "Option" and result[0] != "Vec" and len(result) > 1:
            continue
        yield Mutant(first, first, f"return {value};", "body emptied", before=True)


WAYS = (binary, call, condition, negation, number, statement, body)


def mutants(source):
    """All mutants of a file, by place."""
    file = File(source)
    spans = left_out(file)
    found = []
    for at in range(len(file.tokens)):
        for way in WAYS:
            found.extend(way(file, at))
    clear = [m for m in found if not any(a < max(m.end, m.start + 1) and m.start < b for a, b in spans)]
    return sorted(clear, key=lambda m: (m.start, -m.end, m.kind, m.new))
