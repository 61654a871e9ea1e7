"""What no job file holds, refused before it is parsed.

Python's reader of TOML takes minutes over a name of a hundred thousand parts, and fails
on brackets nested a few hundred deep or a whole number of 4,300 digits, without a line.
"""

import re

from joinery_templates.errors import Finding, mistake
from joinery_templates.jobs.lines import BARE_KEY, TEXT

DEEPEST = 6
"""Parts of a name with points between, and brackets in brackets; a job needs four."""
_LONGEST_NUMBER = 4000

_PART = f"(?:{BARE_KEY}|{TEXT})"
_POINT = r"[ \t]*+\.[ \t]*+"
_PIECES = re.compile(
    rf"(?P<number>(?<!\.)[-+]?[0-9][0-9_]{{{_LONGEST_NUMBER},}}+)"
    rf"|(?P<name>(?:{_PART}{_POINT}){{{DEEPEST}}}{_PART})"
    rf"|(?P<statement>^[ \t]*+(?:{_PART}{_POINT}){{0,{DEEPEST - 1}}}{_PART}[ \t]*+=)"
    rf"|#[^\n]*+|{TEXT}|{BARE_KEY}|(?P<opening>[\[{{])|(?P<closing>[\]}}])",
    re.DOTALL | re.MULTILINE,
)
"""What a text is made of. Up to its first mistake, Python's reader takes it apart alike."""
_WORDS = {
    "number": ("A number is far too long.", "Check the number."),
    "name": (
        f"A name has more than {DEEPEST} parts with points between.",
        "Write it shorter, such as boards.side.width.",
    ),
    "opening": ("Brackets are nested far too deep.", "Take some away."),
}


def excess(text: str) -> Finding | None:
    """The first of these in a text, with its line; None where there is none."""
    depth = 0
    for piece in _PIECES.finditer(text):
        sort = piece.lastgroup
        if sort == "opening":
            depth += 1
        elif sort == "closing":
            depth = max(depth - 1, 0)
        elif sort == "statement":
            depth = 0  # what was left open before is a mistake of its own
        if sort in {"number", "name"} or depth > DEEPEST:
            message, remedy = _WORDS[str(sort)]
            line = text.count("\n", 0, piece.start()) + 1
            return mistake("job-not-toml", message, remedy, f"line {line}")
    return None
