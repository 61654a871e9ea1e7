"""What is written on a pattern: which board, corner, end and face, which edge, which way up."""

from collections.abc import Sequence
from operator import ne

from msgspec.structs import replace

from joinery_templates.drawings.face_view import seen_mirrored
from joinery_templates.drawings.figure import Align, Figure, Text, downwards, joined
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.lettering import (
    BOUND,
    LINE_PITCH,
    Lettering,
    Paragraph,
    column,
    largest_cap,
    wrapped,
)
from joinery_templates.drawings.look import BODY, NAMES
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.waste_words import waste_in_label
from joinery_templates.exact import Fraction, ceil
from joinery_templates.joint import Placed
from joinery_templates.lengths import Units, told_text
from joinery_templates.wood.board import Board, Face

Ways = tuple[str, str, str]
GRAIN = "grain ↕"
GAP = Fraction(2)
BESIDE_COPY = Fraction(6)
"""Kept free beside each of several copies: a seam between two, with its overlap, cuts neither."""
SLIM = Fraction(40)
"""On a face narrower than this a label runs along the board, or stands beside the face."""
STEP, LONGER = Fraction(5), Fraction(5, 4)
"""A label that runs along the board grows in steps until the face has room for its rows, and to no
more than so many times the height of an upright one."""
CUT = Fraction(120)
"""A face that will be cut gets several labels if it is wider than this, and none wider."""


def heading(placed: Placed) -> str:
    """What must be readable at arm's length: the corner and the board; of a leg for which rail."""
    name = f"{placed.corner.name} · {placed.board.called}"
    if placed.place.on_leg:
        name += f" for {' and '.join(mate.part.board.called for mate in placed.mates)}"
    return name


def named_together(names: Sequence[str]) -> str:
    """Names of corners in a row, such as ``Corners A, B``."""
    letters = [name.removeprefix("Corner ") for name in names]
    if len(names) > 1 and all(map(ne, names, letters)):
        return f"Corners {', '.join(letters)}"
    return ", ".join(names)


def job_words(room: Fraction, setup: DrawingSetup) -> str:
    """The piece, where it has room beside it, and the fingerprint of what is drawn."""
    both = f"{setup.piece} · {JOB}"
    return both if setup.piece and setup.lettering.width(both, BODY) <= room else JOB


def _held_together(name: str, room: Fraction, lettering: Lettering) -> str:
    """A name that is not broken where a line has room for it."""
    return name.replace(" ", BOUND) if lettering.width(name, BODY) <= room else name


def face_label(
    placed: Placed,
    face: Face,
    width: Fraction,
    setup: DrawingSetup,
    more: str = "",
    small: bool = False,
    cut: bool = False,
) -> Figure:
    """A label as wide as the face, to stand below it; its height follows from the words.

    On a slim face it runs along the board, unless that takes much more. On a face that will be
    cut it is repeated an even number of times, so that every sheet has one and a seam in the
    middle cuts none.

    Args:
        placed: the piece.
        face: the face it is for, seen by someone who looks at it.
        width: room from side to side.
        setup: how patterns are drawn.
        more: what else must be told.
        small: as little paper as will do.
        cut: whether the pattern will be spread over several sheets.
    """
    if not cut or width <= CUT:
        upright = _label(placed, face, width, setup, more, small)
        along = _along(placed, face, upright, setup, more, small) if width < SLIM else None
        return along or upright
    parts = max(ceil(width / max(setup.sheet)), len(setup.seams) + 1)
    count = 2 * ceil(Fraction(parts, 2))
    each = width / count
    room = min(each - 2 * BESIDE_COPY, CUT)
    one = _label(placed, face, room, setup, more, small, tight=True)
    one = replace(one.moved((each - room) / 2, Fraction(0)), width=each)
    copies = (
        one.moved(number * one.width, Fraction(0)).as_part(f"{face} {number}")
        for number in range(count)
    )
    return joined(width, one.height, copies)


def _along(
    placed: Placed, face: Face, upright: Figure, setup: DrawingSetup, more: str, small: bool
) -> Figure | None:
    """A label turned by a quarter; None where it would be much longer than an upright one."""
    for steps in range(1, int(upright.height * LONGER / STEP) + 1):
        label = _label(placed, face, steps * STEP, setup, more, small, turned=True)
        if label.height <= upright.width:
            aside = (upright.width - label.height) / 2
            return replace(label.turned().moved(aside, Fraction(0)), width=upright.width)
    return None


def turned_words(words: str) -> str:
    """Words with an arrow that points the same way on the paper when they run up it."""
    for arrow, turned in (("▲ ", "{} ►"), ("◄ ", "▲ {}")):
        if words.startswith(arrow):
            return turned.format(words.removeprefix(arrow))
    return f"▼ {words.removesuffix(' ►')}" if words.endswith(" ►") else words.replace("↕", "↔")


def _label(
    placed: Placed,
    face: Face,
    width: Fraction,
    setup: DrawingSetup,
    more: str,
    small: bool,
    tight: bool = False,
    turned: bool = False,
) -> Figure:
    room, lettering = width - 2 * GAP, setup.lettering
    name = heading(placed)
    which = which_face(placed, face)
    waste = waste_in_label(placed.member.part, face, setup.saying)
    also = _also(setup)
    told = (
        [" · ".join(filter(None, (which, section(placed.board, setup.units), also, JOB)))]
        if small
        else _facts(placed, which, room, setup)
    )
    cap = min(name_cap(name, room, lettering), setup.largest)
    rows = [
        Paragraph(name, cap, bold=True),
        *(Paragraph(words, BODY) for words in (*told, more, waste) if words),
    ]
    figure = column([replace(row, align=Align.CENTRE) for row in rows], room, lettering)
    told_ways = ways(placed, face)
    if turned:  # what points along the board comes last
        one, middle, other = map(turned_words, told_ways)
        told_ways = (other, middle, one) if one.endswith("►") else (one, middle, other)
    figure = _above(figure, told_ways, tight or small, setup)
    return replace(figure.moved(GAP, Fraction(0)), width=width, height=figure.height + GAP)


def name_cap(name: str, room: Fraction, lettering: Lettering) -> Fraction:
    """As large as a name can be on one line; else on two, and small only where that must be."""
    sizes = {largest_cap(name, room, NAMES, lettering, lines) for lines in (1, 2)} - {BODY}
    return min(sizes, default=BODY)


def _facts(placed: Placed, which: str, room: Fraction, setup: DrawingSetup) -> list[str]:
    """The face, the board's size and what it meets, each with more where that takes no line more.

    More is the other corner of the same board, and the piece.
    """

    def lines(words: str) -> int:
        return len(wrapped(words, room, BODY, setup.lettering))

    also = _also(setup)
    board = _board_words(placed, setup.units)
    if also and lines(f"{which} · {also}") == lines(which):
        which, also = f"{which} · {also}", ""
    named = _held_together(setup.piece, room, setup.lettering)
    ways = [" · ".join(filter(None, (board, also, piece, JOB))) for piece in (named, "")]
    return [which, ways[lines(ways[0]) != lines(ways[1])]]


def _also(setup: DrawingSetup) -> str:
    """The other corner of the same board, so that no two boards of a name are mixed up."""
    return f"same board as {setup.also}" if setup.also else ""


def ways(placed: Placed, face: Face) -> Ways:
    """Which way round the pattern lies: what stands at its left, in its middle, at its right."""
    if placed.is_loose:
        return "", GRAIN, "▲ end of the stock"
    up = "" if face is Face.END_GRAIN else f"▲ {placed.up_end}"
    grain = GRAIN if up else ""
    reference = placed.member.reference
    named = f"reference edge = {reference}" if reference else "reference edge"
    on_left = not seen_mirrored(face, placed.hand)
    return (f"◄ {named}", grain, up) if on_left else (up, grain, f"{named} ►")


def _above(figure: Figure, ways: Ways, tight: bool, setup: DrawingSetup) -> Figure:
    """A figure with words for both edges below it, in as few rows as they have room in.

    Where paper is tight the middle gets no row of its own.
    """
    room, lettering = figure.width, setup.lettering
    if one := _row(ways, room, lettering):
        return downwards((figure, one))
    left, middle, right = ways
    two = _row((left, "", right), room, lettering)
    apart = [(left, Align.LEFT), ("" if tight else middle, Align.CENTRE), (right, Align.RIGHT)]
    told = (Paragraph(words, BODY, True, at) for words, at in (apart[1:2] if two else apart))
    above = column(told, room, lettering)
    return downwards((figure, above, two) if two else (figure, above))


def _row(ways: Ways, room: Fraction, lettering: Lettering) -> Figure | None:
    """Words on one row; None where they have no room on it."""
    left, middle, right = (lettering.width(words, BODY, True) for words in ways)
    if left + middle + right + 2 * GAP * (len([*filter(None, ways)]) - 1) > room:
        return None
    height = BODY * LINE_PITCH
    places = Fraction(0), (left + room - right) / 2, room
    texts = (
        Text(words, (x, height - BODY), BODY, align, bold=True)
        for words, x, align in zip(ways, places, Align, strict=True)
        if words
    )
    return Figure(room, height, texts=tuple(texts))


def which_face(placed: Placed, face: Face) -> str:
    """The board's part in the joint, the face, and which end or side of the piece it is."""
    if placed.is_loose:  # it has no face of its own
        return f"{placed.member.role}, make {placed.made}"
    part = placed.member.part
    return " · ".join((placed.member.role, part.called(face), placed.place.words))


def _board_words(placed: Placed, units: Units) -> str:
    """The board's width and thickness, to be checked against the board, and what it meets."""
    words = [f"{'stock' if placed.is_loose else 'board'} {section(placed.board, units)}"]
    for mate in placed.mates:
        there = Placed(mate, placed.corner).place.words
        words.append(f"meets {mate.part.board.called}, {there}")
    return " · ".join(words)


def section(board: Board, units: Units) -> str:
    """A board's width and thickness, or the diameter of a round one."""
    if board.is_round:
        return f"{told_text(board.width, units)} round"
    return f"{told_text(board.width, units)} × {told_text(board.thickness, units)}"
