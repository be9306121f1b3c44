"""Rust text cut into tokens, enough of it to find where an expression begins and ends.

It leans on the source being formatted by rustfmt: a binary operator has white space on both sides, a unary
operator has none behind it, and a generic `<` has none before it.
"""

import re
from dataclasses import dataclass

PIECE = re.compile(
    r"""(?P<blank>\s+|//[^\n]*)
      | (?P<text>b?"(?:\\.|[^"\\])*"|b?r(?P<fence>\#*)".*?"(?P=fence)|b?'(?:\\.[^']*|[\x80-\xff]+|[^'\\])')
      | (?P<life>'[A-Za-z_]\w*)
      | (?P<number>\d[\d_]*(?:\.\d[\d_]*)?(?:e-?\d+)?(?:_?[iuf]\d+|usize|isize)?)
      | (?P<word>[A-Za-z_]\w*)
      | (?P<sign>\.\.=|\.\.|::|->|=>|==|!=|<=|>=|&&|\|\||\+=|-=|\*=|/=|.)""",
    re.VERBOSE | re.DOTALL,
)
OPEN, CLOSE = "([{", ")]}"
# Rank of a binary operator: the higher binds tighter.
RANK = {"*": 9, "/": 9, "%": 9, "+": 8, "-": 8, "&": 6, "^": 5, "|": 4}
RANK |= dict.fromkeys(("==", "!=", "<", ">", "<=", ">="), 3) | {"&&": 2, "||": 1}
ENDS = {",", ";", "=>", "=", "+=", "-=", "*=", "/=", "..", "..=", ":", "->", "#"}
ENDS |= {"if", "while", "match", "return", "in", "else", "let", "break", "move", "for", "where"}


@dataclass(frozen=True)
class Token:
    kind: str
    text: str
    start: int
    end: int


def tokens(source):
    """Every token but blanks and comments (a block comment is not used in this code)."""
    found = []
    for piece in PIECE.finditer(source):
        kind = piece.lastgroup if piece.lastgroup != "fence" else "text"
        if kind != "blank":
            found.append(Token(kind, piece.group(), piece.start(), piece.end()))
    return found


class File:
    """A source file's tokens, with the partner of every bracket."""

    def __init__(self, source):
        self.source = source
        self.tokens = tokens(source)
        self.partner = {}
        stack = []
        for at, token in enumerate(self.tokens):
            if token.kind != "sign":
                continue
            if token.text in OPEN:
                stack.append(at)
            elif token.text in CLOSE:
                self.partner[at] = stack.pop()
                self.partner[self.partner[at]] = at

    def text(self, at):
        return self.tokens[at].text if 0 <= at < len(self.tokens) else ""

    def spaced(self, at):
        """White space on both sides: a binary operator."""
        token = self.tokens[at]
        before, after = self.source[token.start - 1], self.source[token.end : token.end + 1]
        return before.isspace() and after.isspace()

    def rank(self, at):
        """Rank of the binary operator here; None: it is none."""
        token = self.tokens[at]
        if token.kind != "sign" or token.text not in RANK or not self.spaced(at):
            return None
        if token.text == "||" and self.text(at - 1) in ("(", ",", "=", "=>", "{", "move"):
            return None
        return RANK[token.text]

    def left(self, at, rank):
        """First token of the operand left of an operator."""
        here = at - 1
        while here >= 0:
            token, text = self.tokens[here], self.text(here)
            if token.kind == "sign" and text in ")]":
                here = self.partner[here] - 1
                continue
            if token.kind == "sign" and text in "{}([" or text in ENDS:
                break
            if token.kind == "sign" and text == "|" and not self.spaced(here):
                break
            if token.kind == "sign" and text == "||" and self.rank(here) is None:
                break
            other = self.rank(here)
            if other is not None and other < rank:
                break
            here -= 1
        return here + 1

    def right(self, at, rank):
        """Token behind the last one of the operand right of an operator."""
        here = at + 1
        while here < len(self.tokens):
            token, text = self.tokens[here], self.text(here)
            if token.kind == "sign" and text in "([" or text == "{" and self.is_record(at, here):
                here = self.partner[here] + 1
                continue
            if token.kind == "sign" and text in "{)]}" or text in ENDS:
                break
            other = self.rank(here)
            if other is not None and other <= rank:
                break
            here += 1
        return here

    def is_record(self, at, here):
        """Whether the brace opens a struct's value: never so in the head of an `if`, `while` or `match`."""
        name = self.text(here - 1)
        camel = name[:1].isupper() and any(c.islower() for c in name)
        return camel and self.text(self.left(at, 0) - 1) not in ("if", "while", "match", "in")

    def chain(self, at):
        """First token of the chain of calls that the `.` here belongs to."""
        here = at - 1
        while here >= 0:
            token, text = self.tokens[here], self.text(here)
            if token.kind == "sign" and text in ")]":
                here = self.partner[here] - 1
                if self.tokens[here].kind == "word" or self.text(here) in (")", "]", "?", "!", ">"):
                    continue
                return here + 1
            if text == "?":
                here -= 1
                continue
            if token.kind in ("word", "number", "text"):
                if self.text(here - 1) in (".", "::"):
                    here -= 2
                    continue
                return here
            return None
        return None

    def span(self, first, behind):
        return self.tokens[first].start, self.tokens[behind - 1].end
