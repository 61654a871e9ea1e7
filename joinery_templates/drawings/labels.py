"""What is written on a pattern: which board, corner, end and face, which edge, which way up."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Figure, joined
from joinery_templates.drawings.lettering import Lettering, Paragraph, column, largest_cap
from joinery_templates.wood.board import Face, Hand

NAME_CAPS = (Fraction(5), Fraction(4), Fraction(16, 5), Fraction(13, 5))
"""The heading takes the largest of these at which it needs no more than two lines."""
SMALL_NAME_CAPS = NAME_CAPS[2:]
SMALL_CAP = Fraction(5, 2)
TINY_CAP = Fraction(2)
GAP = Fraction(2)
BESIDE_COPY = Fraction(6)
"""Kept free beside each of several copies: a seam between two, with its overlap, cuts neither."""
WIDE = Fraction(170)
"""On a wider face the label is repeated, so that every sheet of a taped pattern has one."""
CUT = Fraction(120)
"""A face that will be cut gets several labels if it is wider than this."""
REPEAT = Fraction(250)
"""A wide face gets two labels for each stretch as long as this."""


class Place(Struct, frozen=True):
    """Where a pattern belongs.

    Attributes:
        corner: the corner's name.
        board: the board's name.
        role: the board's part in the joint.
        hand: which end of the board.
        sizes: the board's width and thickness in words, to be checked against the board.
        mate: the board that it meets there, and its end, in words.
        where: which end or side of the piece, in words; the hand where it is empty.
        up: what the upper side of the drawing points to.
        reference: what the reference edge is on the piece, in words, where that is told.
        is_loose: whether it is cut from wood of its own: it has no end and no edge to tell.
    """

    corner: str
    board: str
    role: str
    hand: Hand
    sizes: str = ""
    mate: str = ""
    where: str = ""
    up: str = "end"
    reference: str = ""
    is_loose: bool = False

    @property
    def heading(self) -> str:
        """What must be readable at arm's length."""
        return f"{self.corner} · {self.board}"

    @property
    def place(self) -> str:
        """Which end or side of the piece."""
        return self.where or str(self.hand)


def face_label(
    place: Place,
    face: Face,
    reference_on_left: bool,
    width: Fraction,
    lettering: Lettering,
    edge_words: str = "",
    small: bool = False,
    cut: bool = False,
) -> Figure:
    """A label as wide as the face, to stand below it; its height follows from the words.

    On a wide face, or one that will be cut, it is repeated an even number of times, so
    that every sheet has one and a seam in the middle cuts none.

    Args:
        place: where the pattern belongs.
        face: the face it is for.
        reference_on_left: on which side of the label the reference edge is.
        width: room from side to side.
        lettering: how wide words run.
        edge_words: words on another edge, where more than the reference edge must be told.
        small: as little paper as will do.
        cut: whether the pattern will be spread over several sheets.
    """
    if width > WIDE or (cut and width > CUT):
        count = 2 * ceil(width / REPEAT)
        one = _label(
            place,
            face,
            reference_on_left,
            width / count - 2 * BESIDE_COPY,
            lettering,
            edge_words,
            small,
        )
        one = replace(one.moved(BESIDE_COPY, Fraction(0)), width=width / count)
        copies = (
            _named(one.moved(number * one.width, Fraction(0)), f"{face} {number}")
            for number in range(count)
        )
        return joined(width, one.height, copies)
    return _label(place, face, reference_on_left, width, lettering, edge_words, small)


def _named(label: Figure, part: str) -> Figure:
    """The label with its words told to belong together."""
    return replace(label, texts=tuple(replace(text, part=part) for text in label.texts))


def _label(
    place: Place,
    face: Face,
    reference_on_left: bool,
    width: Fraction,
    lettering: Lettering,
    edge_words: str,
    small: bool,
) -> Figure:
    room = width - 2 * GAP
    caps = SMALL_NAME_CAPS if small else NAME_CAPS
    heading_cap = largest_cap(place.heading, room, caps, lettering, bold=True, lines=2)
    align = Align.LEFT if reference_on_left else Align.RIGHT
    named = f"reference edge = {place.reference}" if place.reference else "reference edge"
    edge = f"◄ {named}" if reference_on_left else f"{named} ►"
    edge_cap = largest_cap(edge, room, (SMALL_CAP, TINY_CAP), lettering, bold=True)
    cap = TINY_CAP if small else SMALL_CAP
    rows = [Paragraph(place.heading, heading_cap, bold=True, align=Align.CENTRE)]
    rows += [Paragraph(words, cap, align=Align.CENTRE) for words in _details(place, face, small)]
    if edge_words:
        rows.append(Paragraph(edge_words, cap, align=Align.CENTRE))
    if not place.is_loose:
        rows.append(Paragraph(edge, edge_cap, bold=True, align=align))
    figure = column(rows, room, lettering)
    return replace(figure.moved(GAP, Fraction(0)), width=width, height=figure.height + GAP)


def which_face(place: Place, face: Face) -> str:
    """The board's part in the joint, the face, and which end or side of the piece it is."""
    words = [place.role, str(face)]
    if not place.is_loose:
        words.append(place.place)
        words += [] if face is Face.END_GRAIN else [f"▲ {place.up}"]
    return " · ".join(words)


def _details(place: Place, face: Face, small: bool) -> Iterator[str]:
    yield which_face(place, face)
    further = [words for words in (place.sizes, place.mate) if words]
    if further and not small:
        yield " · ".join(further)
