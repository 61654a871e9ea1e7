"""A ring of equal boards seen from above: which board's end stands in which corner.

It lies on its reference edges, one side near the reader; its corners go round against the clock,
as a board's right-hand end comes after its left-hand one, seen from outside.
"""

from collections.abc import Iterator, Sequence
from itertools import count

from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, distinct
from joinery_templates.drawings.from_above import GAP
from joinery_templates.drawings.lettering import (
    LINE_PITCH,
    Lettering,
    Paragraph,
    fitted,
    wrapped,
)
from joinery_templates.drawings.look import BODY
from joinery_templates.drawings.placing import Ground
from joinery_templates.drawings.plan import Sketched, meeting
from joinery_templates.exact import ZERO, Fraction, tangent
from joinery_templates.joint import Placed
from joinery_templates.wood.board import Hand
from joinery_templates.wood.faces import section_lines

HIGHEST = Fraction(48)
"""What the ring is drawn high at the most."""
GRID = 10**9
"""Directions are kept to so many parts of a millimetre, or they would grow with each turn."""
INWARDS = (Fraction(3), Fraction(5), Fraction(8))
"""How far inside of its board a name stands, in mm: the nearest where it is clear."""

Corner = tuple[Placed, Placed]
"""The boards that meet there: with its right-hand end, and with its left-hand end."""


def ring_plan(
    corners: Sequence[Corner],
    count: int,
    side: Fraction,
    size: str,
    room: Fraction,
    lettering: Lettering,
) -> Sketched:
    """The ring from above, and a line for each corner that is told.

    Args:
        corners: those that follow each other round and round.
        count: how many sides there are.
        side: the length of each outside, in mm.
        size: how large it is when finished, in words.
        room: width that the sketch may have.
        lettering: how wide words run.
    """
    told = (f"Seen from above as it lies on its reference edges, outside faces out. {size}").strip()
    *before, last = (meeting(one.corner.told, one, other) for one, other in corners)
    words = Paragraph(told, BODY, bold=True, after=Fraction(1)), *before
    sketch = _Ring(corners, count, side).figure(room, lettering)
    return sketch, (*words, replace(last, after=2 * GAP))


class _Ring:
    """Where everything of a ring stands on the paper."""

    def __init__(self, corners: Sequence[Corner], count: int, side: Fraction) -> None:
        self._corners, self._count = corners, count
        half = tangent(Fraction(180, count))
        self._turn = (1 - half**2) / (1 + half**2), 2 * half / (1 + half**2)
        ways, points = [(Fraction(1), ZERO)], [(ZERO, ZERO)]
        for _ in range(count - 1):
            (x, y), (across, up), (cosine, sine) = points[-1], ways[-1], self._turn
            points.append((x + side * across, y + side * up))
            turned = across * cosine - up * sine, across * sine + up * cosine
            ways.append((_kept(turned[0]), _kept(turned[1])))
        high = max(y for _, y in points)
        self._scale = min(Fraction(1), HIGHEST / high)
        self._ways, self._points = ways, points
        self._middle = side / 2 * self._scale, high / 2 * self._scale

    def at(self, number: int, hand: Hand, along: Fraction, through: Fraction) -> Point:
        """A place of a side, so far from its corner of that hand, and behind its outside face."""
        across, up = self._ways[number]
        back = hand is Hand.RIGHT
        x, y = self._points[(number + back) % self._count]
        way = -along if back else along
        return (
            (x + way * across - through * up) * self._scale,
            (y + way * up + through * across) * self._scale,
        )

    def figure(self, room: Fraction, lettering: Lettering) -> Figure:
        """The sketch, its boards named inside and its corners outside, where they have room."""
        strokes, low = distinct(self._strokes()), -GAP - 2 * BODY
        said = [Text("towards you", (self._middle[0], low), BODY, Align.CENTRE)]
        ground = Ground(lettering, strokes, said)
        for number, both in enumerate(self._corners):
            said += ground.placed_together(self._corner_name(number, both, room, lettering))
        for number in range(self._count):
            said += ground.placed_together((text,) for text in self._board_name(number, lettering))
        return fitted(strokes, tuple(said), lettering)

    def _strokes(self) -> Iterator[Stroke]:
        for number in range(self._count):
            ends = {
                Hand.LEFT: self._corners[number % len(self._corners)][1],
                Hand.RIGHT: self._corners[(number + 1) % len(self._corners)][0],
            }
            for hand, placed in ends.items():
                part = placed.member.part
                first = part.left_longer or ZERO
                for edge in section_lines(part, part.board.width, part.reach):
                    points = (
                        self.at(number, hand, along - first, through)
                        for through, along in (edge.start, edge.end)
                    )
                    yield Stroke(Role.FRAME, *points)
            for through in (ZERO, ends[Hand.LEFT].board.thickness):
                left, right = (
                    self.at(number, hand, part.reach - (part.left_longer or ZERO), through)
                    for hand, part in ((hand, one.member.part) for hand, one in ends.items())
                )
                yield Stroke(Role.FRAME, left, right)

    def _corner_name(
        self, number: int, both: Corner, room: Fraction, lettering: Lettering
    ) -> Iterator[tuple[Text, ...]]:
        """Beside its corner, away from the ring: in one row, or in more on narrow paper."""
        (x, y), (middle, high) = self.at(number, Hand.LEFT, ZERO, ZERO), self._middle
        name, is_left, is_low = both[0].corner.told, x < middle, y < high
        start, align = (x - GAP, Align.RIGHT) if is_left else (x + GAP, Align.LEFT)
        foot = y - BODY / 2 + (-GAP if is_low else GAP)
        wide = max(room / 2 - abs(start - middle), BODY)
        for rows in ((name,), wrapped(name, wide, BODY, lettering, bold=True)):
            # The row next to the ring stands where a single one would; no word is broken.
            above = 0 if is_low else len(rows) - 1
            fits = all(lettering.width(row, BODY, bold=True) <= wide for row in rows)
            if fits and " ".join(rows) == name:
                places = ((start, foot + (above - n) * BODY * LINE_PITCH) for n in count())
                yield tuple(
                    Text(row, at, BODY, align, bold=True)
                    for row, at in zip(rows, places, strict=False)
                )

    def _board_name(self, number: int, lettering: Lettering) -> Iterator[Text]:
        """Inside of its board, level whichever way that runs."""
        board = self._corners[number % len(self._corners)][1].board
        (x, y), (x1, y1) = (self.at(number, hand, ZERO, board.thickness) for hand in Hand)
        across, up = self._ways[number]
        wide = lettering.width(board.called, BODY) / 2
        for gap in INWARDS:
            # As far in as the words reach towards the board.
            inwards = gap + wide * abs(up) + BODY / 2 * abs(across)
            middle = (x + x1) / 2 - inwards * up, (y + y1) / 2 + inwards * across
            yield Text(board.called, (middle[0], middle[1] - BODY / 2), BODY, Align.CENTRE)


def _kept(size: Fraction) -> Fraction:
    return Fraction(round(size * GRID), GRID)
