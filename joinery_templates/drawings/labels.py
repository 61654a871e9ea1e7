"""What is written on a pattern: which board, corner, end and face, which edge, which way up."""

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from joinery_templates.drawings.figure import Align, Figure, joined
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.wood.board import Face, Hand

NAME_CAP = Fraction(5)
WIDE = Fraction(170)
"""On a wider face the label is repeated, so that every sheet of a taped pattern has one."""
REPEAT = Fraction(250)
"""A wide face gets two labels for each stretch as long as this."""
SMALL_CAP = Fraction(5, 2)
TINY_CAP = Fraction(2)
GAP = Fraction(2)


@dataclass(frozen=True, slots=True)
class Place:
    """Where a pattern belongs.

    Attributes:
        corner: the corner's name.
        board: the board's name.
        role: the board's part in the joint.
        hand: which end of the board.
    """

    corner: str
    board: str
    role: str
    hand: Hand

    @property
    def heading(self) -> str:
        """What must be readable at arm's length."""
        return f"{self.corner} · {self.board}"


def face_label(
    place: Place,
    face: Face,
    reference_on_left: bool,
    width: Fraction,
    lettering: Lettering,
    edge_words: str = "",
) -> Figure:
    """A label as wide as the face, to stand below it; its height follows from the words.

    On a wide face it is repeated an even number of times, so that a seam in the
    middle does not cut it.

    Args:
        place: where the pattern belongs.
        face: the face it is for.
        reference_on_left: on which side of the label the reference edge is.
        width: room from side to side.
        lettering: how wide words run.
        edge_words: words instead of those on the reference edge, where that edge does
            not lie to the left or right.
    """
    if width > WIDE:
        count = 2 * ceil(width / REPEAT)
        edge_words = edge_words or (
            "◄ reference edge this way" if reference_on_left else "reference edge this way ►"
        )
        one = face_label(place, face, reference_on_left, width / count, lettering, edge_words)
        parts = (one.moved(number * one.width, Fraction(0)) for number in range(count))
        return joined(width, one.height, parts)
    edge, align = ("◄ reference edge", Align.LEFT)
    if not reference_on_left:
        edge, align = ("reference edge ►", Align.RIGHT)
    if edge_words:
        edge, align = edge_words, Align.CENTRE
    details = f"{place.role} · {face} · {place.hand}"
    if face is not Face.END_GRAIN:
        details += " · ▲ end of the board"
    rows = column(
        (
            Paragraph(place.heading, NAME_CAP, True, Align.CENTRE, one_line=True),
            Paragraph(details, SMALL_CAP, align=Align.CENTRE),
            Paragraph(edge, SMALL_CAP, True, align, one_line=True),
        ),
        width - 2 * GAP,
        lettering,
    )
    return replace(rows.moved(GAP, Fraction(0)), width=width, height=rows.height + GAP)
