"""Square fingers of two boards that pass each other at a corner, square or not.

The fingers' sides run along the grain of both boards, so they are level where the boards
stand in the piece; they are spaced over what is left of the width when the edges are
planed level. The second board has a finger where the first has a space.
"""

from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import pairwise

from msgspec.structs import replace

from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joint import At, Clearing, LengthSetting, Pose, SettingOut, Size, Task
from joinery_templates.joints.box_joints.fingers import FINGER, Division, Parameters
from joinery_templates.joints.corners.interlocked import (
    INSIDE,
    OUTSIDE,
    InterlockedCorner,
    Piece,
)
from joinery_templates.joints.corners.pair import Sides


class FingerCorner(InterlockedCorner, frozen=True, dict=True):
    """The fingers on two boards, and all that follows from them.

    Attributes:
        divisions: across the first board, over what its level edges leave of the width.
        decided: what was decided by a rule, in words.
    """

    given: Parameters
    divisions: tuple[Division, ...]
    decided: tuple[str, ...]

    @property
    def pose(self) -> Pose:
        """Nothing wedges fingers: the first board too can be drawn off along its grain."""
        return replace(super().pose, also=((ZERO, ONE, ZERO),))

    @property
    def finger(self) -> Fraction:
        """Width of the fingers that do not stand at an edge, if there are any."""
        return self.divisions[1 if len(self.divisions) > 2 else 0].width

    @cached_property
    def sides(self) -> Sides:
        """For each finger of the first board its sawn sides; none at the board's edges."""
        side, shift, end = self.pair.side, self.pair.shared[0], self.divisions[-1].high
        return tuple(
            (
                side(division.low + shift, ZERO, lower=True) if division.low else None,
                side(division.high + shift, ZERO, lower=False) if division.high < end else None,
            )
            for division in self.divisions
            if division.finger
        )

    def rules(self) -> Iterable[str]:
        """How many fingers there are, and how wide."""
        return self.decided

    def pieces(self, number: int) -> Iterator[Piece]:
        """A board's own fingers; they and its spaces lie between two sides in turn."""
        pairs = self.walls if number else self.sides
        flat = [side for pair in pairs for side in pair if side]
        between = tuple(pairwise((None, *flat, None)))
        # A space comes first where the board has one at its reference edge.
        own = between[self.spaces_at_edges(number)[0] :: 2]
        return ((f"finger {told}", At.PIECE, both) for told, both in enumerate(own, 1))

    def rows(self) -> Iterator[SettingOut]:
        """Along the end of both boards, on both faces where they differ."""
        for number, board in enumerate(self.boards):
            yield self.row(number, OUTSIDE, main=not number)
            if self.pair.is_slanted:
                yield self.row(number, INSIDE, z=board.thickness)

    def sizes(self) -> Iterator[Size]:
        """Widths of fingers and spaces, by board where they differ; how far the ends run out."""
        edge, across = self.divisions[0].width, self.square_across
        level = self.edges_level or self.from_edge(0) or self.from_edge(1)
        inner, fit = len(self.divisions) > 2, self.given.fit
        if inner:
            yield Size(f"finger{across}", self.finger)
        if not inner or level or edge != self.finger:
            yield Size(f"finger or space at each edge{across}{level}", edge)
        if fit and inner and not self.pair.is_slanted:
            of_template = "second board, if cut to its template"
            yield Size(f"finger of the {of_template}", self.finger - 2 * fit)
            yield Size(f"inner space in the {of_template}", self.finger + 2 * fit)
        yield from self.planed_level("finger or space", (edge, edge))
        yield from self.run_outs()

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges, and dividers along the end."""
        yield from self.gauges()
        yield from self.inset_gauges()
        if len(self.divisions) > 2:
            inset = self.pair.past_the_other(0)[0]
            odd = self.edges_level or inset or self.divisions[0].width != self.finger
            start = "first mark" if odd else "reference edge"
            yield self.dividers("one finger", self.finger, start)

    def clearings(self) -> Iterator[Clearing]:
        """The spaces that have wood on both sides; one at an edge is sawn off."""
        for number, role in enumerate(self.roles):
            gap, (near, far) = (2 * self.given.fit if number else ZERO), self.stopped_at(number)
            inner = {p.width + gap for p in self.divisions[1:-1] if p.finger is bool(number)}
            if near or far:
                inner.add(self.divisions[0].width + gap / 2)
            task = Task.CUT_SECOND if number else Task.CLEAR_FIRST
            for width in sorted(inner):
                yield Clearing(f"{role.words}, space for a finger", width, width, FINGER, task)
