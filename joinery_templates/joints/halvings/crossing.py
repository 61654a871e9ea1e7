r"""Two boards of a frame that lie in each other, outside faces flush, at any angle.

From outside, at a corner of 60 degrees; the reference edges face into the frame::

                      far edge      end, y = 0
        outer corner  ___________ /
                    /           /|       Where the boards cross, the thickness is parted in
          stile   /  crossing /  |       layers, each kept by one board; at a mitred corner
                /___________/    |       the line from the inner to the outer corner parts the
              / inner corner     |       outermost one.
            /      |    rail     |
          /        |             |

`x` of the one board is how far a point lies from its reference edge; with the angle a the two
tell each other's y: ``y = (W' - x' - x cos a) / sin a``, from where the mate's far edge meets
the board's reference edge. That is the squared line of a board that runs through; an end is
square, and lies so far before it that the whole crossing and the overhang are on the board.
"""

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Any, ClassVar

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates import joint
from joinery_templates.exact import ONE, ZERO, Fraction
from joinery_templates.joints.layout import RailAndStile
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import choice_parameter, distance_parameter
from joinery_templates.joints.words import past_far_edge
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import (
    AT_ONCE,
    BoardEnd,
    Cut,
    HalfSpace,
    Part,
    Stage,
    Stretch,
    Surface,
    at_least,
    at_most,
)
from joinery_templates.wood.leaning import SQUARE, sine_and_cosine
from joinery_templates.wood.placement import Placement

RAILS, STILES = 0, 1
"""Which board keeps a layer, by its number."""
CORNER, TEE, CROSS = "corner", "tee", "cross"
LEAST_ANGLE, MOST_ANGLE = 30, 150
BESIDE_RAIL = ("left of the rail", "right of the rail")
FAR_EDGE_AT = ("far edge on the left", "far edge on the right")
"""How two that are mirror images are told apart: the other board's reference edge is down."""


def place_parameter(board: str, mate: str, rule: str) -> Any:
    """Where along a board the joint is."""
    return distance_parameter(
        f"From the {board}'s end beyond the {mate} to the {mate}'s far edge, along the {board}'s "
        f"reference edge; the {board}'s other joints are then checked against it.",
        rule,
    )


def overhang_parameter(rule: str) -> Any:
    """What is left over at the ends."""
    words = "How far an end stands past the other board, at the least, to be cleaned off."
    return distance_parameter(words, rule, high=50)


class CrossingParameters(Table):
    """What the parameters of every crossing say; some each kind declares in its own words."""

    form: str = choice_parameter("How the boards cross.", CORNER, TEE)
    angle: Fraction = parameter(
        Quantity.ANGLE,
        "Angle between the reference edges of rail and stile.",
        default=SQUARE,
        rule="90, square",
        low=LEAST_ANGLE,
        high=MOST_ANGLE,
    )
    mitred: bool = parameter(
        Quantity.FLAG,
        "Whether the outside face of a corner shows a mitre.",
        default=False,
        rule="false",
    )
    at: Fraction | None
    overhang: Fraction | None


class Layer(Struct, frozen=True):
    """A layer of the crossing.

    Attributes:
        kept_by: the board whose wood it is, `RAILS` or `STILES`; None where a mitre parts it.
        low: from how far behind the outside face.
        high: to how far; None to the inside face.
    """

    kept_by: int | None
    low: Fraction = ZERO
    high: Fraction | None = None

    @property
    def face(self) -> str:
        """The face that it is open to; none in the middle."""
        return "" if self.low and self.high else "inside" if self.low else "outside"

    def holds(self, floor: Surface) -> Iterator[HalfSpace]:
        """What bounds it behind and before, where it does not reach a face."""
        if self.low:
            yield at_least(2, self.low, floor)
        if self.high is not None:
            yield at_most(2, self.high, floor)


class Crossing(RailAndStile, frozen=True, dict=True):
    """A rail and a stile, and what is taken of both; 0 is the rail and 1 the stile."""

    waste: ClassVar[str]
    """What an end loses on a face, in a word."""
    usual_overhang: ClassVar[Mapping[Units, Fraction]]
    """How far an end stands past the other board where nothing is told."""
    given: CrossingParameters

    @property
    def layers(self) -> tuple[Layer, ...]:
        """From the outside face to the inside face."""
        raise NotImplementedError

    @property
    def overhang(self) -> Fraction:
        """How far an end stands past the other board."""
        given = self.given.overhang
        return self.usual_overhang[self.units] if given is None else given

    def is_end(self, number: int) -> bool:
        """Whether the board ends in the joint."""
        return self.given.form == CORNER or (self.given.form == TEE and number == RAILS)

    def drawn_off(self, pose: joint.Pose) -> joint.Pose:
        """With the ways along the grain: a board that ends here can be drawn off the other."""
        x, y, z = self.placement.along
        ways = {RAILS: (ZERO, ONE, ZERO), STILES: (-x, -y, -z)}
        return replace(pose, also=tuple(way for one, way in ways.items() if self.is_end(one)))

    @property
    def is_square(self) -> bool:
        """Whether the boards meet at a right angle."""
        return self.given.angle == SQUARE

    @cached_property
    def turn(self) -> tuple[Fraction, Fraction]:
        """Sine and cosine of the angle."""
        return sine_and_cosine(self.given.angle)

    @property
    def lean(self) -> Fraction:
        """How far a line along the mate is off square, for each mm across a board."""
        sine, cosine = self.turn
        return cosine / sine

    def lost(self, number: int) -> tuple[Layer, ...]:
        """The layers that a board loses at the crossing."""
        return tuple(layer for layer in self.layers if layer.kept_by != number)

    def is_slotted(self, number: int) -> bool:
        """Whether an end has a slot: it loses a layer in the middle."""
        return self.is_end(number) and any(not layer.face for layer in self.lost(number))

    def start(self, number: int) -> Fraction:
        """From a board's y = 0 to where the mate's far edge meets its reference edge."""
        if not self.is_end(number):
            return ZERO
        return self.overhang + max(self.lean * self.boards[number].width, ZERO)

    def y(self, number: int, x: Fraction, from_mate: Fraction) -> Fraction:
        """Where on a board a line along the mate is.

        Args:
            number: of the board.
            x: from its reference edge.
            from_mate: of the line, from the mate's reference edge.
        """
        along = (self.boards[1 - number].width - from_mate) / self.turn[0]
        return self.start(number) + along - x * self.lean

    def ys(self, number: int) -> list[Fraction]:
        """Where the mate's edges cross those of a board."""
        own, mate = (self.boards[one].width for one in (number, 1 - number))
        return [self.y(number, x, from_mate) for x in (ZERO, own) for from_mate in (ZERO, mate)]

    def shoulders(self, number: int) -> tuple[Fraction, Fraction]:
        """From an end to the mate's reference edge, along the board's reference and far edge."""
        own = self.boards[number].width
        return self.y(number, ZERO, ZERO), self.y(number, own, ZERO)

    def past(self, number: int, from_mate: Fraction, surface: Surface) -> HalfSpace:
        """What lies beyond a line along the mate, seen from its reference edge, on a board."""
        sine, cosine = self.turn
        limit = self.boards[1 - number].width + sine * self.start(number) - from_mate
        return HalfSpace((cosine, sine, ZERO), limit, surface)

    def mitre(self, number: int) -> HalfSpace:
        """What lies on the mate's side of the line from the inner to the outer corner."""
        sine, cosine = self.turn
        own, mate = (self.boards[one].width for one in (number, 1 - number))
        normal = (1 / own + cosine / mate, sine / mate, ZERO)
        return HalfSpace(normal, 1 + sine * self.start(number) / mate, Surface.SAWN_SHOULDER)

    def mitre_lean(self, number: int) -> Fraction:
        """How far that line is off square, for each mm across a board."""
        own, mate = (self.boards[one].width for one in (number, 1 - number))
        return (self.y(number, ZERO, ZERO) - self.y(number, own, mate)) / own

    def cuts(self, number: int) -> Iterator[Cut]:
        """What leaves a board, layer by layer; a mitre last."""
        lost = sorted(self.lost(number), key=lambda layer: layer.kept_by is None)
        is_staged = len(lost) > 1 and lost[-1].kept_by is None
        for layer in lost:
            if layer.kept_by is None:
                stage = Stage(2, "mitre") if is_staged else AT_ONCE
                yield Cut((self.mitre(number), *layer.holds(Surface.SIDE)), stage)
            elif self.is_end(number):
                # A slot's bottom is chopped; what is open to a face is sawn off.
                flat = Surface.SAWN_SHOULDER if layer.face else Surface.SHOULDER
                stage = Stage(1, self.waste if layer.face else "slot") if is_staged else AT_ONCE
                yield Cut((self.past(number, ZERO, flat), *layer.holds(Surface.SIDE)), stage)
            else:
                near = self.past(number, ZERO, Surface.SIDE)
                far = self.past(number, self.boards[1 - number].width, Surface.SIDE).turned()
                yield Cut((near, far, *layer.holds(Surface.SHOULDER)))

    def part(self, number: int) -> Part:
        """A board's end, or the stretch where the mate crosses it."""
        board, cuts, ys = self.boards[number], tuple(self.cuts(number)), self.ys(number)
        if self.is_end(number):
            return BoardEnd(board, cuts, max(ys), gauged=self.is_square)
        mate = self.mate(number)
        at = "" if self.is_square else f" at the {self.role(number)}'s reference edge"
        return Stretch(
            board=board,
            cuts=cuts,
            start=min(ys),
            reach=max(ys),
            line=f"{mate}'s far edge{at}",
            up=past_far_edge(mate),
            hands=BESIDE_RAIL if self.given.form == TEE else FAR_EDGE_AT,
            along=self.along(number),
            is_upright=number == STILES and self.runs_across,
        )

    def along(self, number: int) -> Fraction | None:
        """From a board's end to the squared line, where that is told."""
        return self.given.at if number == STILES else None

    @property
    def parts(self) -> tuple[Part, Part]:
        """Both boards, the rail first."""
        return self.part(RAILS), self.part(STILES)

    def drawn(self, number: int, part: Part) -> tuple[Face, ...]:
        """All faces that carry lines, for a slot's bottom is seen on the edges alone."""
        return tuple(Face) if self.is_slotted(number) else ()

    @property
    def placement(self) -> Placement:
        """The stile on the rail, outside faces level."""
        (sine, cosine), rail, stile = self.turn, self.rail.width, self.stile.width
        ahead = self.start(STILES)
        rows = ((-cosine, -sine, ZERO), (-sine, cosine, ZERO), (ZERO, ZERO, ONE))
        y = self.start(RAILS) - cosine * ahead + (stile - rail * cosine) / sine
        return Placement(rows, (rail + sine * ahead, y, ZERO))

    def rows(self) -> Iterator[joint.SettingOut]:
        """Along each board that runs through, where its length and the place on it are told."""
        for number, role in enumerate(self.roles):
            board, along, mate = self.boards[number], self.along(number), self.mate(number)
            if not self.is_end(number) and board.length is not None and along is not None:
                found = joint.starts_and_ends("notch", along, along + self.y(number, ZERO, ZERO))
                yield joint.SettingOut(
                    "along the reference edge",
                    role.words,
                    board.length,
                    tuple(mark for mark in found if ZERO < mark.position < board.length),
                    start=past_far_edge(mate),
                    along_end=False,
                )

    def mate(self, number: int) -> str:
        """The other board, in a word."""
        return self.role(1 - number)

    def sizes(self) -> Iterator[joint.Size]:
        """From each end to its shoulder, and where and how far the mate runs across a board."""
        for number, role in enumerate(self.roles):
            along, (near, far) = self.along(number), self.shoulders(number)
            if not self.is_end(number):
                mate = f"the {self.mate(number)}"
                if along:
                    yield joint.Size(f"{role.words}'s end to {mate}'s far edge", along)
                yield joint.Size(f"{mate}, along the {role.words}'s edges", near)
            elif self.is_square:
                yield joint.Size(f"{role.words}'s end to its shoulder", near)
            else:
                yield joint.Size(
                    f"{role.words}'s end to its shoulder, along its reference edge", near
                )
                yield joint.Size(f"{role.words}'s end to its shoulder, along its far edge", far)

    def lengths(self) -> Iterator[joint.LengthSetting]:
        """From each end to a shoulder that is square."""
        for number, role in enumerate(self.roles):
            if self.is_end(number) and self.is_square:
                near, _ = self.shoulders(number)
                # Gauged round, a shoulder would score the face where nothing is cut.
                yield joint.LengthSetting(
                    "rule", f"{role.words}'s shoulder line, from its end", near
                )

    def slopes(self) -> Iterator[joint.SlopeSetting]:
        """Lines that are not square across a board."""
        if not self.is_square:
            yield joint.SlopeSetting(
                "shoulders and notches, off square, stock on an edge", abs(self.lean)
            )
        if self.given.mitred:
            for number, role in enumerate(self.roles):
                lean = self.mitre_lean(number)
                if lean:
                    run = self.text(abs(lean) * self.boards[number].width)
                    use = f"mitre, off square across the {role.words}, stock on an edge"
                    if abs(lean) != 1:
                        use += f": {run} along it over its width"
                    yield joint.SlopeSetting(use, abs(lean))

    def clearings(self) -> Iterator[joint.Clearing]:
        """The spaces between two walls that boards have which run through."""
        for number, role in enumerate(self.roles):
            if not self.is_end(number):
                wide = self.boards[1 - number].width
                task = joint.Task.SAW_FIRST if number == RAILS else joint.Task.CUT_SECOND
                yield joint.Clearing(f"{role.words}, notch", wide, wide, "", task)
