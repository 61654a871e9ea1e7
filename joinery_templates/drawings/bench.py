"""The bench page: what is set on tools, what to take care of, and the order of work."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    Block,
    Columns,
    Figure,
    Role,
    Section,
    Stroke,
    Together,
    aired,
    beside,
    box,
    headed,
    joined,
)
from joinery_templates.drawings.lettering import DESCENT, Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING, TITLE
from joinery_templates.drawings.settings import ToolSetting, size_rows, tool_settings
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Step
from joinery_templates.lengths import Tell, as_told

PAD = Fraction(2)
"""Between a box and what stands in it, and between two boxes."""
NARROWEST_BOX = Fraction(40)
"""Settings stand side by side as far as each has so much room."""
PICTURE = Fraction(36)
"""Width of the picture beside a step."""
TWO_COLUMNS = Fraction(150)
"""On a wider page the tables stand in two columns."""
INDENT = Fraction(8)
"""Where a step's words begin that has no picture."""


class Bench(Struct, frozen=True):
    """What a bench page tells of.

    Attributes:
        heading: the joint and its boards.
        joint: what is cut.
        advice: what to think over before cutting.
        tools: a heading, and below it spaces with the chisel that clears each, and what the saw
            leaves.
        tell: how figures are said.
        pictures: one for each step, no wider than `PICTURE`; None where a step has none.
    """

    heading: str
    joint: Joint
    advice: Sequence[str]
    tools: tuple[str, Sequence[tuple[str, str]]]
    tell: Tell
    pictures: Sequence[Figure | None] = ()


def bench_page(bench: Bench, width: Fraction, lettering: Lettering) -> Iterator[Block]:
    """The blocks of the page from top to bottom, each at most `width` mm wide."""
    joint, tell = bench.joint, bench.tell

    def told(heading: str, words: Sequence[str]) -> Figure:
        lines = (Paragraph(as_told(line), BODY, after=Fraction(1)) for line in words)
        return column((Paragraph(heading, HEADING, bold=True), *lines), width - 2 * PAD, lettering)

    blocks = _settings(tuple(tool_settings(joint, tell)), width, lettering)
    if bench.advice:
        blocks.append(_framed(told("Think again before cutting", bench.advice), width))
    pictures = [*bench.pictures, *(None for _ in joint.steps)]
    indent = PICTURE + PAD + INDENT if any(bench.pictures) else INDENT
    for number, (step, picture) in enumerate(zip(joint.steps, pictures, strict=False), start=1):
        blocks.append(_step(number, step, picture, indent, width, lettering))
    title = column((Paragraph(bench.heading, TITLE, bold=True),), width, lettering)
    first = len(blocks) - len(joint.steps) + 1  # a heading and settings alone tell nothing to do
    yield Together((*headed(title, blocks[:first]),))
    yield from blocks[first:]
    count, room = (2, (width - PAD) / 2) if width > TWO_COLUMNS else (1, width)
    tools = _table(*bench.tools, room, lettering)
    sizes = _table("Sizes to check against", size_rows(joint, tell), room, lettering)
    yield Columns((tools, sizes), PAD, count)


def _settings(
    settings: Sequence[ToolSetting], width: Fraction, lettering: Lettering
) -> list[Figure]:
    """A box for each, in the order in which they are set: as many in a row as need least paper."""
    most = max(1, int((width + PAD) // (NARROWEST_BOX + PAD)))
    most = min(most, max(2, len(settings)))  # a single one as wide as half a page
    ways = (
        [*_rows_of_boxes(settings, count, width, lettering)]
        for count in range(most, min(2, most) - 1, -1)
    )
    return min(ways, key=lambda rows: sum(row.height for row in rows))


def _rows_of_boxes(
    settings: Sequence[ToolSetting], count: int, width: Fraction, lettering: Lettering
) -> Iterator[Figure]:
    room = (width - (count - 1) * PAD) / count
    told = [
        column(
            (
                Paragraph(one.tool, BODY),
                Paragraph(one.figure, HEADING, bold=True),
                Paragraph(one.other, BODY, after=Fraction(1)),
                Paragraph(one.use, BODY),
            ),
            room - 2 * PAD,
            lettering,
        )
        for one in settings
    ]
    for start in range(0, len(told), count):
        row = told[start : start + count]
        high = max(figure.height for figure in row)
        yield beside((_framed(aired(figure, high - figure.height), room) for figure in row), PAD)


def _framed(figure: Figure, width: Fraction) -> Figure:
    """A figure in a frame so wide, with air below it for what follows."""
    height = figure.height + 2 * PAD
    inside = figure.moved(PAD, PAD / 2)
    bottom, _, top, _ = box(Role.FRAME, 0, 0, width, height)
    # In a stretch for each row of words: a box that is higher than a page is cut between two.
    feet = (text.at[1] - text.cap * DESCENT for text in inside.texts)
    stops = sorted({Fraction(0), *feet, height})
    sides = (
        Stroke(Role.FRAME, (x, low), (x, high))
        for x in (Fraction(0), width)
        for low, high in pairwise(stops)
    )
    framed = joined(width, height, (Figure(width, height, (bottom, top, *sides)), inside))
    return aired(framed, PAD)


def _step(
    number: int,
    step: Step,
    picture: Figure | None,
    indent: Fraction,
    width: Fraction,
    lettering: Lettering,
) -> Figure:
    """A step's number, heading and words, beside its picture."""
    heading = Paragraph(step.heading, HEADING, bold=True)
    body = Paragraph(as_told(step.words), BODY)
    words = column((heading, body), width - indent - INDENT, lettering)
    label = column((Paragraph(str(number), HEADING, bold=True),), INDENT, lettering)
    label = label.as_part(step.sign)
    left = replace(picture or Figure(Fraction(0), Fraction(0)), width=indent - INDENT)
    return beside((left, label, words), air=PAD)


def _table(
    heading: str, rows: Sequence[tuple[str, str]], width: Fraction, lettering: Lettering
) -> Section:
    """Names and figures under their heading."""
    right_hand = width / 3

    def row(name: str, figure: str) -> Figure:
        left = column((Paragraph(as_told(name), BODY),), width - right_hand - 2, lettering)
        right = column((Paragraph(as_told(figure), BODY),), right_hand, lettering)
        return beside((left, right), Fraction(2))

    above, again = (
        column((Paragraph(words, HEADING, bold=True),), width, lettering)
        for words in (heading, f"{heading}, continued")
    )
    figures = [row(*told) for told in rows]
    figures[-1:] = (aired(last, PAD / 2) for last in figures[-1:])
    return Section(tuple(figures), above, again)
