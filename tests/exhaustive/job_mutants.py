"""Job files with something wrong in them: a mutant of a sample or a starter, checked and drawn."""

import os
import random
import re
from collections.abc import Callable
from pathlib import Path
from unittest import mock

from joinery_templates.jobs.starter import starter
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.parameter import Quantity
from tests.cli.command_line import SAMPLES, run
from tests.exhaustive.watched import CLOCK, Played, told_wrongly
from tests.jobs.bad_values import NO_COUNT, NO_LENGTH, NO_SLOPE, NO_WORDS

Chance = random.Random

TEXTS = [
    *(path.read_text(encoding="utf-8") for path in SAMPLES),
    *(starter(kind) for kind in kinds().values()),
]
LINE = re.compile(r"^(# )?([a-z_]+) = *(.*?)( +#.*)?$", re.MULTILINE)
"""A statement, also one that a starter leaves out behind a #."""
LISTED_CORNERS = re.compile(r"^corners = \[.*\]", re.MULTILINE)
NUMBER = re.compile(r"(?<![\w.])\d+(\.\d+)?(?![\w.])")


def _known_values() -> dict[str, list[str]]:
    known: dict[str, list[str]] = {}
    for text in TEXTS:
        for _, name, value, _ in LINE.findall(text):
            known.setdefault(name, []).append(value or "1")
    return known


KNOWN = _known_values()
"""Every name in the samples and starters, with values that stand there."""
LENGTHS = (
    "0", "-0.0", "1", "0.5", "0.001", "1e-30", "-3", "3000", "500", "12.7", "99999", "1e9", "1e30",
    '"1/64 in"', '"3/4 in"', '"5 1/2 in"', '"0 mm"', '"0.0000001 mm"', '"1/3 mm"', '"3 m"',
    '"1/999999937 mm"', "0.333333333333333333333333333333333333333",
)  # fmt: skip
SLOPES = ('"1:8"', '"1:2"', '"1:40"', '"10 deg"', '"14.0362 deg"', '"7:8"')
LISTS = (
    "[]", "[[]]", "[1, 1, 1]", "[20, 60]", "[10, 20, 30, 40, 50]", f"[{'3, ' * 300}]",
    f"[{', '.join(map(str, range(1, 300)))}]", "[0.1, 1e9]",
)  # fmt: skip
TABLES = (
    "{}", "{ left = 1 }", "{ from_edge = 9, width = 6, depth = 4 }", '{ name = "x", like = "A" }',
    "{ from_edge = 0, width = 0, depth = 0 }", '["A", "A"]', '["wrap", "faces", "end-grain"]',
    '["A", "B", "C", "D", { name = "E", like = "A" }]', "{ diameter = 8, slope = 9 }",
)  # fmt: skip
FITTING: dict[Quantity, tuple[str, ...]] = {
    Quantity.LENGTH: ("0.5", "1", "2", "3", "5", "8", "13", "30", '"1/8 in"', *LENGTHS),
    Quantity.COUNT: ("1", "2", "3", "4", "5", "8", "20", "60", "200", "0"),
    Quantity.SLOPE: SLOPES,
    Quantity.TAPER: ('"1:100"', "0", '"1:10"', '"1:1000"', '"1:64"'),
    Quantity.NUMBER: ("0", "0.5", "1", "2", "3", "10", "1e9", "1e-9", '"1/3"'),
    Quantity.ANGLE: ("5", "12", "30", "45", "60", "80", "90", "108", "135", "179", "1", "0.001"),
    Quantity.FLAG: ("true", "false"),
    Quantity.LENGTHS: LISTS,
    Quantity.TABLE: TABLES,
}
"""By what a parameter takes: values of which many can be used."""
WORDS = (
    '"木の箱"', '"תיבה"', '"صندوق خشبي"', '"🪵🪵"', '"e\\u0301\\u0301\\u0301"', '"ﷺ"', '"\\u00ad"',
    f'"{"W" * 60}"', f'"{"i " * 30}"', f'"{"x" * 4000}"', f'"{"木" * 4000}"', f'"{"ﷺ" * 60}"',
    f'"{"a b " * 1000}"', '"\\n\\n\\n"', '"-"', '"/etc/passwd"', '"%s%n"', '"{0}"', '"$HOME"',
    '"<b>"', '"(\\\\"', '"&amp;"',
)  # fmt: skip
HUGE = (
    "1e999999999999999", "1e-999999999999999", f"1{'0' * 39}", f"0.{'0' * 37}1",
    "0x7fffffffffffffff", f'"1/{"9" * 40} mm"', f'"{"9" * 40} mm"', '"1e400 mm"', f'"1:{"9" * 12}"',
)  # fmt: skip
NAMES = (
    "a", '""', "boards", "joints", "kind", "title", '"\\u202e"', '"a b"', "'1'", "1", "a.b",
    "a.a.a", "boards.side.width", "joints.kind", "__class__", '"\\u001b[2J"', "n" * 3000,
    "a." * 300 + "a", '"木"', "width", "thickness", "paper.size", "paper.margin.left",
)  # fmt: skip
SIGNS = "\u202e\u200b\ufeff\0\x1b\x7f\u2028é木א🪵ﷺ'\"\\#=[]{}.,\n\r\t-+:% 0\ue000\u0301"
NO_VALUES = (
    HUGE, NO_LENGTH, NO_WORDS, NO_SLOPE, NO_COUNT, WORDS, TABLES, LISTS, LENGTHS, SLOPES,
    *(tuple(values) for values in KNOWN.values()),
)  # fmt: skip
OF_ONE_JOB = {"kind", "front", *(role.key for kind in kinds().values() for role in kind.roles)}
"""Names whose values mean nothing in another job."""
PARAMETERS = [each for kind in kinds().values() for each in kind.parameters]


def fitting_value(name: str, chance: Chance) -> str:
    """A value that could stand behind the name."""
    pools = [tuple(KNOWN.get(name, ["1"]))]
    for each in PARAMETERS:
        if each.name == name:
            pools.append(FITTING.get(each.quantity) or tuple(f'"{one}"' for one in each.choices))
    if name in ("title", "notes", "name"):
        pools.append(WORDS)
    return chance.choice(chance.choice(pools))


def any_value(chance: Chance) -> str:
    return chance.choice(chance.choice(NO_VALUES))


def characters(text: str, chance: Chance) -> str:
    for _ in range(chance.choice((1, 1, 2, 9))):
        at, many = chance.randrange(len(text) + 1), chance.choice((1, 1, 1, 5))
        new = chance.choice(("", chance.choice(SIGNS), text[at : at + 2] * 2))
        text = text[:at] + new + text[at + chance.choice((0, many)) :]
    return text


def lines(text: str, chance: Chance) -> str:
    rows = text.splitlines() or [""]
    one, other = chance.randrange(len(rows)), chance.randrange(len(rows))
    match chance.randrange(6):
        case 0:
            del rows[one]
        case 1:
            rows.insert(other, rows[one])
        case 2:
            rows[one], rows[other] = rows[other], rows[one]
        case 3:
            rows = rows[:one]
        case 4:
            rows[one] = rows[one] + rows[other]
        case _:
            rows.insert(one, chance.choice(chance.choice(TEXTS).splitlines()))
    return "\n".join(rows) + "\n"


def _replaced(text: str, chance: Chance, new: Callable[[re.Match[str]], str]) -> str:
    found = list(LINE.finditer(text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.start()] + new(one) + text[one.end() :]


def values(text: str, chance: Chance) -> str:
    def new(one: re.Match[str]) -> str:
        return one[0] if one[2] in OF_ONE_JOB else f"{one[2]} = {fitting_value(one[2], chance)}"

    return _replaced(text, chance, new)


def odd_values(text: str, chance: Chance) -> str:
    return _replaced(text, chance, lambda one: f"{one[2]} = {any_value(chance)}")


def numbers(text: str, chance: Chance) -> str:
    """A number that is somewhat, or far, from what it was."""
    found = [one for one in NUMBER.finditer(text) if one[0] not in ("0", "1")]
    if not found:
        return text
    one = chance.choice(found)
    by = chance.choice((0.5, 0.9, 1.1, 2, 3, 10, 0.1, 0, -1, chance.uniform(0.2, 3)))
    new = round(float(one[0]) * by, chance.choice((0, 1, 3, 12)))
    return f"{text[: one.start()]}{new}{text[one.end() :]}"


def names(text: str, chance: Chance) -> str:
    new = chance.choice([*KNOWN, *NAMES])
    if chance.random() < 0.5:
        return _replaced(text, chance, lambda one: f"{new} = {one[3]}")
    return _replaced(text, chance, lambda one: f"{one[0]}\n{new} = {fitting_value(new, chance)}")


def tables(text: str, chance: Chance) -> str:
    parts = re.split(r"(?m)^(?=\[)", text)
    one, other = chance.randrange(len(parts)), chance.randrange(len(parts))
    match chance.randrange(6):
        case 0:
            del parts[one]
        case 1:
            parts.insert(other, parts[one])
        case 2:
            parts[one], parts[other] = parts[other], parts[one]
        case 3:
            foreign = re.split(r"(?m)^(?=\[)", chance.choice(TEXTS))
            parts.insert(one, chance.choice(foreign))
        case 4:
            header = f"[{chance.choice(NAMES)}]"
            parts[one] = re.sub(r"^\[.*\]", lambda _: header, parts[one])
        case _:
            parts += [parts[-1]] * chance.choice((1, 2, 5))
    return "".join(parts)


def kind(text: str, chance: Chance) -> str:
    return re.sub(r'(?m)^kind = ".*"', f'kind = "{chance.choice(list(kinds()))}"', text, count=1)


def sheets(text: str, chance: Chance) -> str:
    """Other words of the job itself, where the text does not say them yet."""
    one = chance.choice(
        ('units = "in"', 'figures = "in"', "paper.one_per_page = true", 'paper.size = "A3"',
         'paper.size = "roll 610 mm"', 'paper.size = "60 x 90 mm"', "paper.margin = 0",
         "paper.overlap = 3", 'paper.size = "3000 x 60 mm"', "tools.kerf = 0.6",
         "tools.chisels = [3, 6]", "tools.kerf_shown = true",
         'paper.margin = { left = 40 }', 'tools.gauge = "1/64 in"', "paper.thickness = 0.3")
    )  # fmt: skip
    table, point, words = one.rpartition(".")
    name = words.partition(" ")[0]
    text = re.sub(rf"(?m)^(?={name} =)", "# ", text)
    if point and f"[{table}]" in text:
        return text.replace(f"[{table}]", f"[{table}]\n{words}", 1)
    return f"{one}\n{text}"


GENTLE = [*([numbers] * 6), *([values] * 6), sheets]
ROUGH = [characters, lines, odd_values, odd_values, names, tables, kind]


def mutant(chance: Chance) -> bytes:
    """The text of a job file that once was one of ours."""
    text = chance.choice(TEXTS)
    if chance.random() < 0.7:  # a set of templates for one corner is drawn sooner than for four
        text = LISTED_CORNERS.sub('corners = ["A"]', text)
    changes = chance.choice(([GENTLE], [GENTLE], [GENTLE], [GENTLE, GENTLE, ROUGH], [ROUGH]))
    for _ in range(chance.choice((1, 1, 2, 2, 3, 6))):
        text = chance.choice(chance.choice(changes))(text, chance)
    content = text.encode("utf-8", "surrogatepass")
    if chance.random() < 0.01:
        at = chance.randrange(len(content) + 1)
        content = content[:at] + bytes([chance.randrange(256)]) + content[at:]
    return content


def played(chance: Chance, folder: Path) -> Played:
    content = mutant(chance)
    (folder / "given").write_bytes(content)
    return content.decode(errors="backslashreplace"), faults_of(content, chance.random() < 0.2)


def faults_of(content: bytes, as_json: bool = False) -> list[str]:
    """What is wrong with how the program answers to a job file."""
    with mock.patch.dict(os.environ, {"JOINERY_TEMPLATES_TRACEBACK": "1"}):
        checked = run("check", "-", *(["--json"] if as_json else []), given=content)
        faults = told_wrongly(checked.code, checked.messages)
        if checked.code == 2:
            if not checked.messages.startswith(("ERROR: ", "ADVICE: ")) or checked.output:
                faults.append(f"refused so: {checked.messages[:300]}")
            return faults
        CLOCK.start_anew()
        drawn = run("draw", "-", "-o", "-", given=content)
    faults += told_wrongly(drawn.code, drawn.messages)
    if drawn.code == 0 and not drawn.output.startswith(b"%PDF-"):
        faults.append("no PDF was written")
    if drawn.code == 1 or checked.code == 1:
        faults.append(f"the machine is said to have failed: {drawn.messages[-300:]}")
    return faults
