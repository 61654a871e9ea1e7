"""What is written on a pattern: which board, corner, end and face, which edge, which way up."""

from fractions import Fraction
from math import ceil

from msgspec.structs import replace

from joinery_templates.drawings.face_view import seen_mirrored
from joinery_templates.drawings.figure import Align, Figure, joined
from joinery_templates.drawings.lettering import Paragraph, column, largest_cap
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.joint import Placed
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Face

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


def heading(placed: Placed) -> str:
    """What must be readable at arm's length: the corner and the board."""
    return f"{placed.corner.name} · {placed.board.name}"


def face_label(
    placed: Placed,
    face: Face,
    width: Fraction,
    setup: DrawingSetup,
    edge_words: str = "",
    small: bool = False,
    cut: bool = False,
) -> Figure:
    """A label as wide as the face, to stand below it; its height follows from the words.

    On a wide face, or one that will be cut, it is repeated an even number of times, so
    that every sheet has one and a seam in the middle cuts none.

    Args:
        placed: the piece.
        face: the face it is for, seen by someone who looks at it.
        width: room from side to side.
        setup: how patterns are drawn.
        edge_words: words on another edge, where more than the reference edge must be told.
        small: as little paper as will do.
        cut: whether the pattern will be spread over several sheets.
    """
    if width <= WIDE and not (cut and width > CUT):
        return _label(placed, face, width, setup, edge_words, small)
    count = 2 * ceil(width / REPEAT)
    room = width / count - 2 * BESIDE_COPY
    one = _label(placed, face, room, setup, edge_words, small)
    one = replace(one.moved(BESIDE_COPY, Fraction(0)), width=width / count)
    copies = (
        one.moved(number * one.width, Fraction(0)).as_part(f"{face} {number}")
        for number in range(count)
    )
    return joined(width, one.height, copies)


def _label(
    placed: Placed,
    face: Face,
    width: Fraction,
    setup: DrawingSetup,
    edge_words: str,
    small: bool,
) -> Figure:
    room, lettering = width - 2 * GAP, setup.lettering
    caps = SMALL_NAME_CAPS if small else NAME_CAPS
    name = heading(placed)
    cap = TINY_CAP if small else SMALL_CAP
    lines = [which_face(placed, face), *([] if small else [_board_words(placed, setup.units)])]
    rows = [
        Paragraph(name, largest_cap(name, room, caps, lettering, bold=True, lines=2), bold=True),
        *(Paragraph(words, cap) for words in (*lines, edge_words) if words),
    ]
    rows = [replace(row, align=Align.CENTRE) for row in rows]
    if not placed.is_loose:
        on_left = not seen_mirrored(face, placed.hand)
        reference = placed.member.reference
        named = f"reference edge = {reference}" if reference else "reference edge"
        edge = f"◄ {named}" if on_left else f"{named} ►"
        edge_cap = largest_cap(edge, room, (SMALL_CAP, TINY_CAP), lettering, bold=True)
        rows.append(Paragraph(edge, edge_cap, True, Align.LEFT if on_left else Align.RIGHT))
    figure = column(rows, room, lettering)
    return replace(figure.moved(GAP, Fraction(0)), width=width, height=figure.height + GAP)


def which_face(placed: Placed, face: Face) -> str:
    """The board's part in the joint, the face, and which end or side of the piece it is."""
    words = [placed.member.role, str(face)]
    if not placed.is_loose:
        words.append(placed.place.words)
        words += [] if face is Face.END_GRAIN else [f"▲ {placed.member.part.up}"]
    return " · ".join(words)


def _board_words(placed: Placed, units: Units) -> str:
    """The board's width and thickness, to be checked against the board, and what it meets."""
    words = [f"{'stock' if placed.is_loose else 'board'} {section(placed.board, units)}"]
    for mate in placed.mates:
        there = Placed(mate, placed.corner).place.words
        words.append(f"meets {mate.part.board.name}, {there}")
    return " · ".join(words)


def section(board: Board, units: Units) -> str:
    """A board's width and thickness."""
    return f"{length_text(board.width, units)} × {length_text(board.thickness, units)}"
