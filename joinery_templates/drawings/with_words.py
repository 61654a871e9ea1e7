"""A drawing that is as long as the board, with what is done with it above or beside."""

from collections.abc import Sequence

from joinery_templates.drawings.figure import Figure, joined
from joinery_templates.drawings.lettering import Paragraph, column
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.exact import Fraction

MARGIN = Fraction(5)
"""Paper round the drawing."""
WIDEST = Fraction(170)
"""Words are not spread wider, nor over several sheets."""
NARROWEST = Fraction(60)
"""Beside a drawing they need this much."""
ABOVE = Fraction(3)
"""Between a drawing and the words above it."""


def with_words(drawn: Figure, words: Sequence[Paragraph], setup: DrawingSetup) -> Figure:
    """The drawing with words above it or, where that is less high, beside it, to be trimmed away.

    Args:
        drawn: it stands `MARGIN` off the lower left corner of its paper; its box is as wide as
            what is drawn, and as high as its paper.
        words: its name and what to do.
        setup: how patterns are drawn.
    """

    def told(width: Fraction) -> Figure:
        return column(words, min(width, WIDEST), setup.lettering).as_part("what to do")

    short, long = sorted(setup.sheet)
    wide = max(drawn.width, min(WIDEST, short - 2 * MARGIN))
    # Where a seam will cut the drawing, half a sheet has room for them.
    above = told(wide if wide + 2 * MARGIN <= long else long / 2 - 2 * MARGIN)
    height = drawn.height + ABOVE + above.height
    room = short - drawn.width - 3 * MARGIN
    if room >= NARROWEST:
        beside = told(room)
        high = max(drawn.height, beside.height + 2 * MARGIN)
        if high < height:
            at = drawn.width + 2 * MARGIN, high - MARGIN - beside.height
            return joined(at[0] + beside.width + MARGIN, high, (drawn, beside.moved(*at)))
    above = above.moved(MARGIN, drawn.height + ABOVE)
    return joined(wide + 2 * MARGIN, height, (drawn, above))
