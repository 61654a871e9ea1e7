"""The setting-out strip: every mark of a row, to be laid along the line that it belongs to."""

from collections.abc import Sequence
from fractions import Fraction

from joinery_templates.drawings.figure import (
    Align,
    Figure,
    Pattern,
    Role,
    Text,
    box,
    cross,
    joined,
    line,
)
from joinery_templates.drawings.labels import SMALL_CAP, TINY_CAP
from joinery_templates.drawings.lettering import Paragraph, column, wrapped
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.joint import Member, SettingOut
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import end_at, laid_out

MARGIN = Fraction(5)
TICK = Fraction(7)
"""How long a setting-out mark is, from the strip's edge inwards."""
NARROWEST = Fraction(70)
"""A strip's words need this much, however narrow the board."""
WORDS_ROOM = Fraction(130)
"""The words stand at the reference edge's end and are not spread over several sheets."""

_UNIT_WORDS = {Units.MM: "millimetres", Units.INCH: "inches"}


def strip(group: str, row: SettingOut, member: Member, setup: DrawingSetup) -> Pattern:
    """A strip to lay along the line of a row.

    The marks stand on both long edges, so that the strip serves the board's other
    end when it is turned end for end.

    Args:
        group: what the strip belongs to.
        row: the marks.
        member: the piece that they are set out on.
        setup: how patterns are drawn.
    """
    lettering, width = setup.lettering, row.width * row.stretch
    marks = [mark.position * row.stretch for mark in row.marks]
    waste = _waste_along_end(member, row.stretch) if row.along_end else []
    figures = [length_text(mark, setup.units).replace(f" {setup.units}", "") for mark in marks]
    # Figures of neighbouring marks stand on two levels, or a thin pin's two would collide.
    level = max((lettering.width(words, TINY_CAP) for words in figures), default=Fraction(0)) + 2
    title = f"{member.part.board.name}, {row.title}"
    name = wrapped(title, width - 2, TINY_CAP, lettering, bold=True)
    band = Fraction(4) * (len(name) + 1)
    high = MARGIN + 2 * TICK + 2 * level + band
    strokes = [*box(Role.OUTLINE, MARGIN, MARGIN, MARGIN + width, high)]
    texts = []
    for number, (position, words) in enumerate(zip(marks, figures, strict=True)):
        x = MARGIN + position
        strokes.append(line(Role.MARK, x, MARGIN, x, MARGIN + TICK))
        strokes.append(line(Role.MARK, x, high - TICK, x, high))
        at = (x + TINY_CAP / 2, MARGIN + TICK + 1 + level * (number % 2))
        texts.append(Text(words, at, TINY_CAP, Align.LEFT, 90))
    for low, end in waste:
        arm = min(Fraction(2), (end - low) * 2 / 5)
        for v in (MARGIN + TICK / 2, high - TICK / 2):
            strokes.extend(cross(Role.CROSS, (MARGIN + (low + end) / 2, v), arm))
    below = high - TICK - band
    for number, words in enumerate((*reversed(name), f"◄ {row.start}")):
        at = (MARGIN + 1, below + 1 + 4 * number)
        texts.append(Text(words, at, TINY_CAP, bold=True))
    drawn = Figure(width, high, tuple(strokes), tuple(texts))
    return _with_words(group, row, member, drawn, bool(waste), setup)


def _with_words(
    group: str, row: SettingOut, member: Member, drawn: Figure, crossed: bool, setup: DrawingSetup
) -> Pattern:
    """The strip with what to do with it above, on paper that is trimmed away."""
    total = max(drawn.width, NARROWEST)
    lay = "lay a long edge along the end of the board, knife the marks. "
    lay += "Turn the strip end for end for the board's other end."
    if not row.along_end:
        lay = f"lay a long edge along {row.title}, knife the marks."
    name = f"strip for {member.part.board.name}"
    words = column(
        (
            Paragraph(f"Setting-out {name}", SMALL_CAP, bold=True),
            Paragraph(
                f"Figures in {_UNIT_WORDS[setup.units]} from the {row.start}"
                f"{'; crosses stand in the waste' if crossed else ''}. Trim along the outline, "
                f"{lay}",
                TINY_CAP,
            ),
        ),
        min(total, WORDS_ROOM),
        setup.lettering,
    ).moved(MARGIN, drawn.height + 3)
    size = (total + 2 * MARGIN, drawn.height + 3 + words.height)
    return Pattern(name, group, (joined(*size, (drawn, words)),))


def _waste_along_end(member: Member, stretch: Fraction) -> Sequence[tuple[Fraction, Fraction]]:
    """Where the waste stands along a board's end, on the first broad face that shows any."""
    for face in (Face.OUTSIDE, Face.INSIDE):
        at_end = [
            [x for x, y in shape.corners if y == end_at(member.part, face, x)]
            for shape in laid_out(member.part, face).waste
        ]
        if any(at_end):
            return [(min(xs) * stretch, max(xs) * stretch) for xs in at_end if xs]
    return []
