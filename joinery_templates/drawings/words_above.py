"""A drawing that is as long as the board, with what is done with it above."""

from collections.abc import Sequence
from fractions import Fraction

from joinery_templates.drawings.figure import Figure, joined
from joinery_templates.drawings.lettering import Paragraph, column
from joinery_templates.drawings.setup import DrawingSetup

MARGIN = Fraction(5)
"""Paper round the drawing."""
WORDS_ROOM = Fraction(130)
"""The words stand at the reference edge's end and are not spread over several sheets."""


def with_words_above(
    drawn: Figure, words: Sequence[Paragraph], narrowest: Fraction, setup: DrawingSetup
) -> Figure:
    """The drawing with words above, on paper that is trimmed away.

    Args:
        drawn: it stands `MARGIN` off the lower left corner of its paper; its box is as wide as
            what is drawn, and as high as its paper.
        words: its name and what to do.
        narrowest: the words need this much, however narrow the board.
        setup: how patterns are drawn.
    """
    total = max(drawn.width, narrowest)
    long = max(setup.sheet)
    # Where a seam will cut the drawing, half a sheet has room for them.
    room = total if total + 2 * MARGIN <= long else long / 2 - 2 * MARGIN
    above = column(words, min(total, WORDS_ROOM, room), setup.lettering)
    above = above.as_part("what to do").moved(MARGIN, drawn.height + 3)
    size = (total + 2 * MARGIN, drawn.height + 3 + above.height)
    return joined(*size, (drawn, above))
