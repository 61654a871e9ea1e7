"""The bench page: the order of work for one joint with its own figures, and the cautions."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, joined
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.settings import setting_rows, size_rows
from joinery_templates.joint import Joint, Step
from joinery_templates.lengths import Units

HEADING_CAP = Fraction(5)
SECTION_CAP = Fraction(3)
CAP = Fraction(23, 10)
TABLE_CAP = Fraction(21, 10)

PRINTING_CHECK = (
    "Lay a steel rule on both rulers of each page when the sheets have lain for an hour. Use spray "
    "adhesive or double-sided tape: paper that gets wet grows by 2 to 3 % across its grain. When a "
    "pattern is glued on, lay the rule on it again: from edge to edge it must be as wide as the "
    "board. The middle of every line is the finished edge. Cut one trial corner in waste wood "
    "first: it takes that corner's templates, so print their sheet again."
)
CAUTIONS = (
    "Chisels and knives cut: clamp the work, keep both hands behind the edge, keep edges sharp.",
    "Saws: start with light strokes, keep fingers clear of the line, put a cracked blade away.",
    "Wear eye protection when chopping; keep wood dust out of your lungs, by extraction or a mask.",
    "Follow the glue's own label: air the room for solvents and sprays, keep it off skin and eyes.",
    "Young learners work under supervision. Use machines only by their manuals and guards.",
    "These templates are for furniture and boxes, not for structural design: there local codes and "
    "licensed practice decide.",
)


class Bench(Struct, frozen=True):
    """What a bench page tells of.

    Attributes:
        heading: the joint and its boards.
        joint: what is cut.
        tools: spaces with the chisel that clears each, and what the saw leaves.
        units: of figures.
    """

    heading: str
    joint: Joint
    tools: Sequence[tuple[str, str]]
    units: Units


SHARES = (Fraction(1), Fraction(23, 25), Fraction(21, 25))
"""Lettering is made this much smaller where the whole then fits on one page."""


def bench_page(
    bench: Bench, width: Fraction, height: Fraction, lettering: Lettering
) -> tuple[Figure, ...]:
    """The blocks of a bench page in the largest lettering at which they fit.

    On paper too small for any they stay large and run over several pages.

    Args:
        bench: what to tell of.
        width: of a column.
        height: of all columns of one page together.
        lettering: how wide words run.
    """
    for share in SHARES:
        large = _blocks(bench, width / share, lettering)
        blocks = tuple(block.smaller(share) for block in large)
        if sum((block.height for block in blocks), Fraction(0)) <= height:
            return blocks
    return tuple(_blocks(bench, width, lettering))


def _blocks(bench: Bench, width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    """The blocks of the page from top to bottom, each at most `width` mm wide."""
    joint, units, gap = bench.joint, bench.units, Fraction(3, 2)

    def words(*paragraphs: Paragraph) -> Figure:
        return column(paragraphs, width, lettering)

    def section(heading: str) -> Figure:
        figure = words(Paragraph(heading, SECTION_CAP, bold=True))
        return replace(figure, height=figure.height + gap)

    def listed(heading: str, lines: Sequence[str]) -> Iterator[Figure]:
        if lines:
            yield section(heading)
        for line in lines:
            yield words(Paragraph(f"· {line}", TABLE_CAP))

    yield words(Paragraph(bench.heading, HEADING_CAP, bold=True, after=gap))
    yield section("Tool settings")
    yield from _table((*setting_rows(joint, units), *size_rows(joint, units)), width, lettering)
    if bench.tools:
        yield section("Chisels and saw")
        yield from _table(bench.tools, width, lettering)
    yield from listed("Think again before cutting", [finding.told() for finding in joint.findings])
    yield section("Printing check")
    yield words(Paragraph(PRINTING_CHECK, CAP, after=gap))
    yield section("Order of work")
    for number, step in enumerate(joint.steps, start=1):
        yield _step(number, step, width, lettering)
    yield from listed("Worked out for you", joint.rules)
    yield from listed("Cautions", CAUTIONS)


def _table(
    rows: Sequence[tuple[str, str]], width: Fraction, lettering: Lettering
) -> Iterator[Figure]:
    """Names on the left, figures in a column of their own."""
    figures = width * 2 / 5
    for name, figure in rows:
        left = column((Paragraph(name, TABLE_CAP),), width - figures - 2, lettering)
        right = column((Paragraph(figure, TABLE_CAP, bold=True),), figures, lettering)
        height = max(left.height, right.height)
        yield joined(
            width,
            height,
            (
                left.moved(Fraction(0), height - left.height),
                right.moved(width - figures, height - right.height),
            ),
        )


def _step(number: int, step: Step, width: Fraction, lettering: Lettering) -> Figure:
    indent = Fraction(7)
    text = column(
        (Paragraph(step.heading, CAP, bold=True), Paragraph(step.words, CAP, after=Fraction(1))),
        width - indent,
        lettering,
    )
    label = column((Paragraph(str(number), SECTION_CAP, bold=True),), indent, lettering)
    return joined(
        width,
        text.height,
        (label.moved(Fraction(0), text.height - label.height), text.moved(indent, Fraction(0))),
    )
