"""A drawing that is as long as the board, with what is done with it above or beside."""

from collections.abc import Sequence
from fractions import Fraction

from joinery_templates.drawings.figure import Figure, joined
from joinery_templates.drawings.lettering import Paragraph, column
from joinery_templates.drawings.setup import DrawingSetup

MARGIN = Fraction(5)
"""Paper round the drawing."""
WORDS_ROOM = Fraction(170)
"""The words stand at the reference edge's end and are not spread over several sheets."""
BESIDE_ROOM = Fraction(60)
"""Beside a drawing they need this much."""


def with_words(
    drawn: Figure, words: Sequence[Paragraph], narrowest: Fraction, setup: DrawingSetup
) -> Figure:
    """The drawing with words above or, where that makes it less high, beside, to be trimmed away.

    Args:
        drawn: it stands `MARGIN` off the lower left corner of its paper; its box is as wide as
            what is drawn, and as high as its paper.
        words: its name and what to do.
        narrowest: the words need this much, however narrow the board.
        setup: how patterns are drawn.
    """
    total = max(drawn.width, narrowest)
    short, long = sorted(setup.sheet)
    # Where a seam will cut the drawing, half a sheet has room for them.
    room = total if total + 2 * MARGIN <= long else long / 2 - 2 * MARGIN
    if total + 2 * MARGIN <= short: room = total = max(total, min(short - 2*MARGIN, 170))
    above = _told(words, min(total, WORDS_ROOM, room), setup)
    size = (total + 2 * MARGIN, drawn.height + 3 + above.height)
    room = short - drawn.width - 3 * MARGIN
    if room >= BESIDE_ROOM:
        beside = _told(words, min(room, WORDS_ROOM), setup)
        high = max(drawn.height, beside.height + 2 * MARGIN)
        if high < size[1]:
            left, low = drawn.width + 2 * MARGIN, high - MARGIN - beside.height
            size = (left + beside.width + MARGIN, high)
            return joined(*size, (drawn, beside.moved(left, low)))
    return joined(*size, (drawn, above.moved(MARGIN, drawn.height + 3)))


def _told(words: Sequence[Paragraph], width: Fraction, setup: DrawingSetup) -> Figure:
    return column(words, width, setup.lettering).as_part("what to do")
