"""The bench page: the order of work for one joint with its own figures, and the cautions."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Figure, joined
from joinery_templates.drawings.lettering import Lettering, Paragraph, column

HEADING_CAP = Fraction(5)
SECTION_CAP = Fraction(3)
CAP = Fraction(23, 10)
TABLE_CAP = Fraction(21, 10)

PRINTING_CHECK = (
    "Lay a steel rule on both rulers of each page when the sheets have lain for an hour. Use spray "
    "adhesive or double-sided tape: paper that gets wet grows by 2 to 3 % across its grain. When a "
    "pattern is glued on, lay the rule on it again: from edge to edge it must be as wide as the "
    "board. The cut is the middle of the printed line. Cut one trial corner in waste wood first."
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
    """What a bench page says of one joint.

    Attributes:
        heading: the joint and its boards.
        settings: tool settings, each a name and a figure.
        sizes: widths, each a name and a figure.
        tools: spaces with the chisel that clears each, and what the saw leaves.
        steps: the order of work, each a heading and what to do.
        rules: what the program decided, with the rule.
        advice: findings in words.
    """

    heading: str
    settings: Sequence[tuple[str, str]]
    sizes: Sequence[tuple[str, str]]
    tools: Sequence[tuple[str, str]]
    steps: Sequence[tuple[str, str]]
    rules: Sequence[str]
    advice: Sequence[str]


SHARES = (Fraction(1), Fraction(23, 25), Fraction(21, 25))
"""Lettering is made this much smaller where the whole then fits on one page."""


def bench_page(
    bench: Bench, width: Fraction, height: Fraction, lettering: Lettering
) -> tuple[Figure, ...]:
    """The blocks of a bench page in the largest lettering at which they fit.

    On paper too small for any they stay large and run over several pages.

    Args:
        bench: what to say.
        width: of a column.
        height: of all columns of one page together.
        lettering: how wide words run.
    """
    for share in SHARES:
        large = bench_blocks(bench, width / share, lettering)
        blocks = tuple(block.smaller(share) for block in large)
        if sum((block.height for block in blocks), Fraction(0)) <= height:
            return blocks
    return tuple(bench_blocks(bench, width, lettering))


def bench_blocks(bench: Bench, width: Fraction, lettering: Lettering) -> Iterator[Figure]:
    """The blocks of the page from top to bottom, each at most `width` mm wide."""
    gap = Fraction(3, 2)

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
    yield from _table((*bench.settings, *bench.sizes), width, lettering)
    if bench.tools:
        yield section("Chisels and saw")
        yield from _table(bench.tools, width, lettering)
    yield from listed("Think again before cutting", bench.advice)
    yield section("Printing check")
    yield words(Paragraph(PRINTING_CHECK, CAP, after=gap))
    yield section("Order of work")
    for number, (heading, step) in enumerate(bench.steps, start=1):
        yield _step(number, heading, step, width, lettering)
    yield from listed("Worked out for you", bench.rules)
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


def _step(number: int, heading: str, words: str, width: Fraction, lettering: Lettering) -> Figure:
    indent = Fraction(7)
    text = column(
        (Paragraph(heading, CAP, bold=True), Paragraph(words, CAP, after=Fraction(1))),
        width - indent,
        lettering,
    )
    label = column((Paragraph(str(number), SECTION_CAP, bold=True),), indent, lettering)
    return joined(
        width,
        text.height,
        (label.moved(Fraction(0), text.height - label.height), text.moved(indent, Fraction(0))),
    )
