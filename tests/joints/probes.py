"""Straight probes through the wood: what of a line a joint takes away, exactly.

A probe meets a half-space up to one place of its way, or from one place on. So what the waste
takes of it follows from the half-spaces alone, and neither from the layout's own figures nor
from its faces. Waste is taken with its boundary: on a baseline all that goes before it is gone.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import pairwise

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Member
from joinery_templates.wood.cut import Surface, Vector, dot

Span = tuple[Fraction, Fraction]
ZERO = Fraction(0)
HAIR = Fraction(1, 10**9)
"""In mm: just past a boundary, which belongs to the waste."""
PAST = 30
"""How far past the joint probes go along a board."""


@dataclass(eq=False)
class Wood:
    """A board with the joint's waste, or with that of its grooves alone."""

    member: Member
    grooves: bool = False

    @property
    def width(self) -> Fraction:
        return self.member.part.board.width

    @property
    def thickness(self) -> Fraction:
        return self.member.part.board.thickness

    @property
    def across(self) -> Iterator[Fraction]:
        """Places across the board, close enough to miss no tail, pin or finger."""
        return (self.width * number / 29 for number in range(1, 29))

    def gone(self, start: Vector, way: Vector, far: Fraction) -> list[Span]:
        """What of the way from a point is waste, as shares of `way` from 0 to `far`."""
        found: list[Span] = []
        for cut in self.member.part.cuts:
            if any(one.surface is Surface.GROOVE for one in cut.half_spaces) != self.grooves:
                continue
            low, high = ZERO, far
            for one in cut.half_spaces:
                rise, room = dot(one.normal, way), one.limit - dot(one.normal, start)
                if rise > 0:
                    high = min(high, room / rise)
                elif rise < 0:
                    low = max(low, room / rise)
                elif room < 0:
                    high = low - 1
                if low > high:
                    break
            if low < high or (low == high and 0 < low < far):
                found.append((low, high))
        return joined(found)

    def end(self, x: Fraction, z: Fraction) -> Fraction:
        """The y at which the board ends: where it was cut off, or where a mitre leaves it."""
        part = self.member.part
        first = part.cuts[0].half_spaces if part.cuts else ()
        is_mitre = len(first) == 1 and first[0].normal[2]
        plane = part.slant.end if part.slant else first[0] if is_mitre else None
        if plane is None:
            return ZERO
        return (plane.limit - plane.normal[0] * x - plane.normal[2] * z) / plane.normal[1]

    @cached_property
    def runs_out(self) -> Fraction:
        """How much farther back the end lies for each mm from the reference edge."""
        return (self.end(self.width, ZERO) - self.end(ZERO, ZERO)) / self.width

    @cached_property
    def leans_back(self) -> Fraction:
        """How much farther back the end lies for each mm from the outside face."""
        return (self.end(ZERO, self.thickness) - self.end(ZERO, ZERO)) / self.thickness

    @property
    def stretch(self) -> float:
        """How long the line of the end is for each mm across the board."""
        return math.hypot(1, self.runs_out)

    def depth(self, x: Fraction, z: Fraction) -> Fraction:
        """How far the waste that begins at the end goes along the board."""
        start = (x, self.end(x, z), z)
        spans = self.gone(start, (ZERO, Fraction(1), ZERO), self.member.part.reach + PAST)
        return spans[0][1] if spans and spans[0][0] == 0 else ZERO

    @cache  # noqa: B019 - woods are few, and kept
    def depths(self, z: Fraction) -> tuple[Fraction, ...]:
        """How far it goes at places across the board."""
        return tuple(self.depth(x, z) for x in self.across)

    @cached_property
    def baseline(self) -> Fraction:
        """From the end to the baseline on the inside face, along the board."""
        return max(self.depths(self.thickness))

    @cached_property
    def pieces_end(self) -> Fraction:
        """From the board's end to where its tails, pins or fingers end; just behind a rebate."""
        rebate = min(self.depths(self.thickness)[6:-6])
        return rebate + HAIR if rebate else ZERO

    def spaces(self, depth: Fraction, z: Fraction) -> list[Span]:
        """What is gone of a line across the board, that far behind the end."""
        start = (ZERO, self.end(ZERO, z) + depth, z)
        return self.gone(start, (Fraction(1), self.runs_out, ZERO), self.width)

    def pieces(self, depth: Fraction, z: Fraction) -> list[Span]:
        """What is left of it."""
        return left_of(self.spaces(depth, z), self.width)

    def through(self, x: Fraction, y: Fraction) -> list[Span]:
        """What is gone from the outside face to the inside face."""
        return self.gone((x, y, ZERO), (ZERO, ZERO, Fraction(1)), self.thickness)


def joined(spans: Sequence[Span]) -> list[Span]:
    """Spans in order, those that touch as one."""
    found: list[Span] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def left_of(spans: Sequence[Span], far: Fraction) -> list[Span]:
    """What lies between spans, from 0 on."""
    bounds = [(ZERO, ZERO), *spans, (far, far)]
    return [(a, b) for (_, a), (b, _) in pairwise(bounds) if a < b]


def inner(spans: Sequence[Span], far: Fraction) -> list[Span]:
    """Those that reach neither edge."""
    return [(low, high) for low, high in spans if low > 0 and high < far]


def lengths(spans: Sequence[Span]) -> list[Fraction]:
    return [high - low for low, high in spans]


wood_of = cache(Wood)
"""The wood of a member; what was measured on it once is known."""


def board_of(joint: Joint, role: str) -> Wood:
    """The board that is called so."""
    return wood_of(next(one for one in joint.all_members if one.role == role))


def upright(joint: Joint) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The direction straight up in the frames of both boards: square to the grain of both."""
    rows = joint.placement.rows
    first = _crossed((0.0, 1.0, 0.0), tuple(float(row[1]) for row in rows))
    size = math.copysign(math.hypot(*first), first[0])
    up = tuple(part / size for part in first)
    back = joint.placement.reversed().rows
    return up, tuple(sum(float(r) * u for r, u in zip(row, up, strict=True)) for row in back)


def _crossed(one: Sequence[float], other: Sequence[float]) -> tuple[float, ...]:
    a, b, c = one
    p, q, r = other
    return (b * r - c * q, c * p - a * r, a * q - b * p)
