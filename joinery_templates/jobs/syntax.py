"""Mistakes of a text that is no TOML, told to a person who never heard of TOML."""

import re
import tomllib

from joinery_templates.errors import Finding, mistake
from joinery_templates.jobs.excess import excess
from joinery_templates.joints.reading import clipped

MOST_MISTAKES = 20
MOST_READ = 200_000
"""Each mistake after the first means reading the text again: so many letters altogether."""
_LONGEST_LINE = 1000
"""Of a longer line this much is looked at for what people write."""
_AT_LINE = re.compile(r"(?P<why>.*) \(at line (?P<line>\d+), column \d+\)", re.DOTALL)
_NAMED = re.compile(r"\s*(?P<name>[\w.\"'-]+)\s*(?P<sign>[=:])\s*(?P<value>[^#]*?)\s*(?:#.*)?")
_COMMA = re.compile(r"-?\d+,\d+")
_TYPOGRAPHIC = "“”„«»‘’‚"
_NO_STATEMENT = ("Expected '='", "Invalid statement", "Invalid initial character")
_REASONS = (
    (
        "Cannot (overwrite|declare|redefine|mutate)|Duplicate",
        "This name stands here for the second time.",
        "Leave one of the two out.",
    ),
    (
        r"Unescaped '\\'",
        "A backslash in double quotes means something else.",
        "Write it twice, or use single quotes around the text.",
    ),
    (
        "Escaped character|Invalid hex",
        r"A \u… in double quotes stands for no character.",
        "Type the character itself.",
    ),
    ("Unclosed", "A bracket is opened here or before, and not closed.", "Close it."),
    (
        ".*end of a table declaration",
        "This header has no bracket at its end, or its name needs quotes.",
        'Write for example [boards.side] or [boards."back board"].',
    ),
)
"""How tomllib's reason begins, and what to say to the person."""


def syntax_mistakes(text: str) -> tuple[Finding, ...]:
    """What keeps a text from being read, line by line, as far as that can be told.

    After a line that is wrong by itself the rest is looked at without it; after a
    bracket left open, what follows would be guesswork.
    """
    lines = text.replace("\r\n", "\n").split("\n")
    found: list[Finding] = []
    most = max(1, min(MOST_MISTAKES, MOST_READ // len(text)))
    while len(found) < most:
        why = _complaint("\n".join(lines))
        if why is None:
            break
        match = _AT_LINE.fullmatch(why)
        number = int(match["line"]) if match else len(lines)
        line, before = lines[number - 1], "\n".join(lines[: number - 1])
        found.append(_finding(match["why"] if match else why, line, number))
        if _leaves_open(line) or _complaint(line) is None or _complaint(before):
            break
        lines[number - 1] = ""
    nothing_found = mistake(
        "job-not-toml", "This is no job file.", "Begin with joinery-templates new."
    )
    return tuple(found) or (nothing_found,)


def _complaint(text: str) -> str | None:
    """Why tomllib does not read a text; None where it does, or is not to try."""
    if excess(text) is None:
        try:
            tomllib.loads(text)
        except tomllib.TOMLDecodeError as error:
            return str(error)
    return None


def _leaves_open(line: str) -> bool:
    return any(line.count(opening) > line.count(closing) for opening, closing in ("[]", "{}"))


def _finding(why: str, line: str, number: int) -> Finding:
    message, remedy = _by_reason(why) or _by_line(line[:_LONGEST_LINE]) or _otherwise(why)
    return mistake("job-not-toml", message, remedy, f"line {number}")


def _by_reason(why: str) -> tuple[str, str] | None:
    """Words for reasons that say all."""
    for start, message, remedy in _REASONS:
        if re.match(start, why):
            return message, remedy
    control = re.match(r"(?:Illegal|Found invalid) character '(\\x[0-9a-f]{2}|\\r)'", why)
    if control:
        return f"There is a control character here ({control[1]}).", "Type this line again."
    return None


def _by_line(line: str) -> tuple[str, str] | None:
    """Words for what people write, from the line itself."""
    if any(sign in line for sign in _TYPOGRAPHIC):
        return "These are curly quotes, as in books.", 'Use straight quotes: "…".'
    named = _NAMED.fullmatch(line)
    if line.count("{") > line.count("}"):
        return "The braces are not closed on their line.", "Write it on one line."
    if named is None:
        return None
    name, value = named["name"], named["value"]
    if named["sign"] == ":":
        return "A colon stands between a name and its value.", f"Write {name} = …"
    return _by_value(name, value)


def _by_value(name: str, value: str) -> tuple[str, str] | None:
    """Words for a value that cannot stand as it does."""
    if not value:
        return f"{clipped(name)} has no value.", "Write one after the =, or leave the line out."
    if _COMMA.match(value):
        point = value.replace(",", ".", 1)
        bare = re.fullmatch(r"-?\d+\.\d+", point)
        return (
            f"{clipped(value)} has a decimal comma.",
            f"Write a point: {clipped(name)} = {point if bare else _quoted(point)}",
        )
    if value[0] not in "\"'[{" and '"' not in value.strip('"'):
        return (
            f"{clipped(value)} needs quotes: only plain numbers go without.",
            f"Write {clipped(name)} = {_quoted(value)}",
        )
    return None


def _otherwise(why: str) -> tuple[str, str]:
    if why.startswith(_NO_STATEMENT):
        return (
            "This line is not understood.",
            "A line is a name, a = and a value; a remark starts with #.",
        )
    if "'\\n'" in why or why.startswith(("Unterminated", "Expected '\"", "Expected \"'")):
        return "A text is opened with a quote and not closed.", "Put the same quote at its end."
    plain = re.sub(r" \(at .*\)$", "", why).rstrip(".")
    return (
        f"This cannot be read: {plain}.",
        'Look for a missing quote or bracket; a length with a unit needs quotes, as "19 mm".',
    )


def _quoted(value: str) -> str:
    quote = "'" if '"' in value else '"'
    return f"{quote}{clipped(value)}{quote}"
