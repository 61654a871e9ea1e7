"""Legs and the rails between them from above: which faces are marked, and which legs are alike."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from joinery_templates.drawings.arrangement import Junction
from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, box, ring
from joinery_templates.drawings.lettering import (
    ASCENT,
    DESCENT,
    Lettering,
    Paragraph,
    shortened,
    text_corners,
    wrapped,
)
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.plan import GAP, NAME_PITCH, PLACES, ROW, TOWARDS, Sketched
from joinery_templates.wood.board import EDGES, Face, Hand

WIDE, HIGH = Fraction(66), Fraction(54)
LEG = Fraction(10)
"""A leg's wider side."""
AWAY = 2 * GAP
"""From the legs to corners' names."""
MARK = Fraction(1)
"""Half the size of the marks on its faces."""
ENTERED = {0: EDGES, 2: (Face.OUTSIDE, Face.INSIDE)}
"""By the axis along which a rail comes: the face of the leg at its start, and at its end."""


def leg_plan(junctions: Sequence[Junction], room: Fraction, lettering: Lettering) -> Sketched:
    """The legs from above, and what comes to them, in words for all legs that are alike.

    Args:
        junctions: of rails, first, and legs; several at one letter.
        room: width that the sketch may have.
        lettering: how wide words run.
    """
    del room  # it is narrow enough for any column
    strokes = [*_strokes(junctions)]
    ground, texts = Ground(lettering, strokes), list[Text]()
    for text in _texts(junctions, lettering):
        # A rail's name without room is left to the words beside.
        texts += ground.placed((text,)) if text.stays else (text,)
        ground.write(texts[-1:])
    heights = [corner[1] for text in texts for corner in text_corners(text, lettering)]
    heights += [end[1] for stroke in strokes for end in (stroke.start, stroke.end)]
    low, top = min(heights), max(heights)
    drawn = Figure(WIDE, top - low, tuple(strokes), tuple(texts))
    told = Paragraph(
        "Seen from above, not to proportion. On each leg a ring marks the outside face, and a V "
        "the reference edge.",
        BODY,
        bold=True,
        after=Fraction(1),
    )
    lines = (Paragraph(words, BODY, after=Fraction(1)) for words in _told(junctions))
    return drawn.moved(Fraction(0), -low), (told, *lines)


def face_entered(one: Junction) -> Face:
    """The face of a leg that a rail comes to."""
    axis, is_from_far = one.placement.reversed().runs
    return ENTERED[axis][is_from_far]


def _told(junctions: Sequence[Junction]) -> Iterator[str]:
    """Legs of one hand, and what comes to them."""
    for hand in (Hand.RIGHT, Hand.LEFT):
        here = [one for one in junctions if one.second.hand is hand]
        if not here:
            continue
        corners = dict.fromkeys(one.first.corner for one in here)
        legs = ", and ".join(f"{corner.told}, {PLACES[corner.like]}" for corner in corners)
        rails = dict.fromkeys(
            f"{one.first.board.called}, {one.first.place.words}, on the {face_entered(one)}"
            for one in here
        )
        names = " and ".join(dict.fromkeys(one.second.board.called for one in here))
        yield f"{legs}: {names}, {here[0].second.place.words}; takes {'; '.join(rails)}."


def _spot(letter: str, x: Fraction, y: Fraction) -> Point:
    """A point so far into the piece from the outer corner of a leg."""
    return (WIDE - x if letter in "CD" else x), (HIGH - y if letter in "BC" else y)


def _sides(one: Junction) -> tuple[Fraction, Fraction]:
    """How wide a leg is drawn, from left to right and from front to back."""
    board = one.second.board
    scale = LEG / max(board.width, board.thickness)
    return board.width * scale, board.thickness * scale


def _strokes(junctions: Sequence[Junction]) -> Iterator[Stroke]:
    legs = {one.letter: one for one in junctions}
    for letter, one in legs.items():
        across, deep = _sides(one)
        yield from box(
            Role.FRAME, *_spot(letter, *2 * (Fraction(0),)), *_spot(letter, across, deep)
        )
        yield from ring(Role.FRAME, _spot(letter, across / 2, 2 * MARK), MARK)
        tip = _spot(letter, across - MARK, deep / 2)
        for up in (MARK, -MARK):
            yield Stroke(Role.FRAME, _spot(letter, across - 3 * MARK, deep / 2 + up), tip)
    for one in {(one.letter, one.first_at_side): one for one in junctions}.values():
        across, deep = _sides(one)
        scale = across / one.second.board.width
        back = one.placement.reversed().point((Fraction(0),) * 3)
        start = (one.second.board.width - back[0] if one.first_at_side else back[2]) * scale
        for at in (start, start + one.first.board.thickness * scale):
            if one.first_at_side:
                ends = _spot(one.letter, at, deep), _spot(one.letter, at, HIGH / 2)
            else:
                ends = _spot(one.letter, across, at), _spot(one.letter, WIDE / 2, at)
            yield Stroke(Role.FRAME, *ends)


def _texts(junctions: Sequence[Junction], lettering: Lettering) -> Iterator[Text]:
    low = Fraction(0)
    for letter, corner in {one.letter: one.first.corner for one in junctions[::-1]}.items():
        x, align = (WIDE, Align.RIGHT) if letter in "CD" else (Fraction(0), Align.LEFT)
        name, room = corner.told, WIDE / 2 - GAP
        rows = wrapped(name, room, HEADING, lettering, bold=True)
        for number, words in enumerate(rows):
            below = len(rows) - 1 - number if letter in "BC" else number
            away = AWAY + below * NAME_PITCH * HEADING
            y = HIGH + away if letter in "BC" else -away - HEADING
            low = min(low, y)
            yield Text(words, (x, y), HEADING, align, bold=True)
    yield Text(TOWARDS, (WIDE / 2, low - ROW), BODY, Align.CENTRE)
    within = LEG + GAP
    for at_side in (False, True):
        for letters in ("AD", "BC") if not at_side else ("AB", "CD"):
            here = [
                one.first.board.called
                for one in junctions
                if one.letter in letters and one.first_at_side is at_side
            ]
            room = (HIGH - 2 * within) if at_side else WIDE - 2 * within - 2 * ROW
            names = [shortened(name, room, BODY, lettering) for name in dict.fromkeys(here)]
            for number, words in enumerate(names[:2]):
                foot = within + number * ROW
                if at_side:
                    x = foot + BODY * ASCENT if letters == "AB" else WIDE - foot - BODY * DESCENT
                    yield Text(words, (x, HIGH / 2), BODY, Align.CENTRE, 90, stays=True)
                else:
                    y = foot + BODY * DESCENT if letters == "AD" else HIGH - foot - BODY * ASCENT
                    yield Text(words, (WIDE / 2, y), BODY, Align.CENTRE, stays=True)
