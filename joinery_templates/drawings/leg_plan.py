"""Legs and the rails between them from above: which faces are marked, and which legs are alike."""

from collections.abc import Iterator, Sequence

from joinery_templates.drawings.arrangement import Junction
from joinery_templates.drawings.figure import Role, Stroke, Text, box, ring
from joinery_templates.drawings.from_above import GAP, PLACES, ROW, SIDES, FromAbove
from joinery_templates.drawings.lettering import Lettering, Paragraph, shortened
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.plan import Sketched
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Corner
from joinery_templates.wood.board import BROAD, EDGES, Face, Hand

WIDE, HIGH = Fraction(66), Fraction(54)
LEG = Fraction(10)
"""A leg's wider side."""
AWAY = 2 * GAP
"""From the legs to corners' names."""
MARK = Fraction(1)
"""Half the size of the marks on its faces."""
ENTERED = {0: EDGES, 2: BROAD}
"""By the axis along which a rail comes: the face of the leg at its start, and at its end."""


def leg_plan(junctions: Sequence[Junction], room: Fraction, lettering: Lettering) -> Sketched:
    """The legs from above, and what comes to them, in words for all legs that are alike.

    Args:
        junctions: of rails, first, and legs; several at one letter.
        room: width that the sketch may have.
        lettering: how wide words run.
    """
    paper = FromAbove(min(WIDE, room), HIGH, lettering)
    names = {one.letter: one.first.corner.told for one in junctions[::-1]}
    corners = paper.corner_names(names, AWAY)
    told = Paragraph(
        "Seen from above, not to proportion. On each leg a ring marks the outside face, and a V "
        "the reference edge.",
        BODY,
        bold=True,
        after=Fraction(1),
    )
    lines = (Paragraph(words, BODY, after=Fraction(1)) for words in _told(junctions))
    return paper.figure(_strokes(junctions, paper), corners, _rail_names(junctions, paper)), (
        told,
        *lines,
    )


def face_entered(one: Junction) -> Face:
    """The face of a leg that a rail comes to."""
    axis, is_from_far = one.other_in(1).runs
    return ENTERED[axis][is_from_far]


def _told(junctions: Sequence[Junction]) -> Iterator[str]:
    """Legs of one hand, and what comes to them."""
    for hand in (Hand.RIGHT, Hand.LEFT):
        at_leg: dict[Corner, list[str]] = {}
        for one in junctions:
            if one.second.hand is hand:
                leg = f"{one.second.board.called}, {one.second.place.words}"
                rail = f"{one.first.board.called}, {one.first.place.words}"
                taken = at_leg.setdefault(one.first.corner, [leg])
                taken.append(f"{rail}, on the {face_entered(one)}")
        alike: dict[tuple[str, ...], list[str]] = {}
        for corner, told in at_leg.items():
            alike.setdefault((*told,), []).append(f"{corner.told}, {PLACES[corner.like]}")
        for (leg, *rails), corners in alike.items():
            yield f"{', and '.join(corners)}: {leg}; takes {'; '.join(rails)}."


def _sides(one: Junction) -> tuple[Fraction, Fraction]:
    """How wide a leg is drawn, from left to right and from front to back."""
    board = one.second.board
    scale = LEG / max(board.width, board.thickness)
    return board.width * scale, board.thickness * scale


def _strokes(junctions: Sequence[Junction], paper: FromAbove) -> Iterator[Stroke]:
    spot = paper.point
    for letter, one in {one.letter: one for one in junctions}.items():
        across, deep = _sides(one)
        yield from box(Role.FRAME, *spot(letter, ZERO, ZERO), *spot(letter, across, deep))
        yield from ring(Role.FRAME, spot(letter, across / 2, 2 * MARK), MARK)
        tip = spot(letter, across - MARK, deep / 2)
        for up in (MARK, -MARK):
            yield Stroke(Role.FRAME, spot(letter, across - 3 * MARK, deep / 2 + up), tip)
    for one, lines in _lines_seen(junctions):
        across, deep = _sides(one)
        scale = across / one.second.board.width
        for at in (line * scale for line in lines):
            ends = (
                ((at, deep), (at, HIGH / 2))
                if one.first_at_side
                else ((across, at), (paper.across / 2, at))
            )
            yield Stroke(Role.FRAME, *(spot(one.letter, *end) for end in ends))


def _lines_seen(junctions: Sequence[Junction]) -> Iterator[tuple[Junction, list[Fraction]]]:
    """How far into its leg each rail's two faces stand, where no rail above it covers them."""
    covered: dict[tuple[str, bool], list[tuple[Fraction, Fraction]]] = {}
    for one in sorted(junctions, key=_from_top):
        near = _set_in(one)
        far = near + one.first.board.thickness
        above = covered.setdefault((one.letter, one.first_at_side), [])
        yield one, [at for at in (near, far) if not any(low < at < high for low, high in above)]
        above.append((near, far))


def _from_top(one: Junction) -> tuple[bool, Fraction]:
    """How far below the leg's top a rail's upper edge is; one that nobody tells counts as low."""
    along = one.second.place.along
    return along is None, along or ZERO


def _set_in(one: Junction) -> Fraction:
    """How far a rail's outside face stands in from the leg's."""
    back = one.other_in(1).shift
    return one.second.board.width - back[0] if one.first_at_side else back[2]


def _rail_names(
    junctions: Sequence[Junction], paper: FromAbove
) -> Iterator[Iterator[tuple[Text, ...]]]:
    """The names of the rails of each side; one without room is left to the words beside."""
    within = LEG + GAP
    for at_side, sides in SIDES.items():
        room = HIGH - 2 * within if at_side else paper.across - 2 * within - 2 * ROW
        for far, letters in enumerate(sides):
            rails = dict.fromkeys(
                one.first.board.called
                for one in junctions
                if one.letter in letters and one.first_at_side is at_side
            )
            names = [shortened(name, room, BODY, paper.lettering) for name in rails][:2]
            yield paper.board_name(names, at_side, far, within)
