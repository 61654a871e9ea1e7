"""What joints do to each other in a leg, which rails come to by two faces that meet.

Two mortises may run into each other there, as long as their tenons do not: they are mitred, or
one of them is short. All is worked out from the wood, in the frame of the leg.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import product

from msgspec import Struct

from joinery_templates.errors import OURS, Finding, Level, advice, mistake
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.jobs.standing import (
    ALONG,
    BREAKS,
    THIN,
    Span,
    Standing,
    Told,
    Waste,
    gap,
    gaps,
    overlap,
    stuff,
    thin_wall,
)
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.solid import Solid


class InLeg(Struct, frozen=True):
    """What a joint does in a leg.

    Attributes:
        at: the joint there.
        wastes: the pieces of wood that it takes of the leg.
        tenons: what stands in the leg.
    """

    at: Standing
    wastes: Sequence[Waste]
    tenons: Sequence[Solid]

    @property
    def taken(self) -> list[Solid]:
        """The wood that it takes of the leg."""
        return [one.solid for one in self.wastes]

    @property
    def holes(self) -> list[Solid]:
        """What is bored of it."""
        return [one.solid for one in self.wastes if one.is_bored]

    @property
    def is_bored(self) -> bool:
        """Whether it takes nothing but holes, for dowels."""
        return all(one.is_bored for one in self.wastes)

    @property
    def is_mitred(self) -> bool:
        """Whether the end of its tenon slants through the rail's thickness."""
        sides = (side.normal for cut in self.at.mate.cuts for side in cut.half_spaces)
        return any(along and through for _, along, through in sides)

    @property
    def may_be_mitred(self) -> bool:
        """Whether it is one square tenon in a mortise that stops in the leg."""
        axis, _ = self.at.enters
        spans = [tenon.extents[2 - axis] for tenon in self.tenons]
        is_one = all(gap(*each) < 0 for each in product(spans, repeat=2))
        return is_one and self.at.is_square and self.depths(self.taken)[1] < self._deep

    @property
    def _deep(self) -> Fraction:
        """How deep the leg's wood is where the rail comes in."""
        axis, _ = self.at.enters
        return (self.at.board.width, ZERO, self.at.board.thickness)[axis]

    def depths(self, solids: Iterable[Solid]) -> Span:
        """From where to where some solids reach, from the face that its rail comes to."""
        axis, is_from_far = self.at.enters
        lows, highs = zip(*(solid.extents[axis] for solid in solids), strict=True)
        low, high = min(lows), max(highs)
        return (self._deep - high, self._deep - low) if is_from_far else (low, high)

    def meets(self, other: "InLeg") -> bool:
        """Whether both take the same wood."""
        return any(
            overlap(one.solid, met) and met.within(one.sides)
            for one, met in product(self.wastes, other.taken)
        )

    def takes(self, solids: Iterable[Solid]) -> bool:
        """Whether wood of its tenons stands in some solids."""
        near = [one for one in solids if any(overlap(one, tenon) for tenon in self.tenons)]
        return bool(self.at.in_mate(near))


def met_in_leg(ones: Iterable[Standing], units: Units) -> Iterator[Told]:
    """What is told of joints that stand at one leg.

    Args:
        ones: each joint once.
        units: that figures are told in.
    """
    here = [*ones]
    near: list[InLeg] = []
    for at in here if len(here) > 1 else ():
        if not at.is_measured:
            finding = advice(
                "place-on-leg",
                f'Where {at.told} is on "{at.board.name}" is not told, so nobody knows what it '
                "meets in there.",
                OURS,
                "Give at: from the leg's top end to the rail's far edge.",
            )
            yield Told(at, at, finding)
    for at in sorted((each for each in here if each.is_measured), key=lambda each: each.span):
        ground, thin = stuff(at.board, *at.span), at.board.thickness * THIN
        one = InLeg(at, at.waste(ground), at.in_mate([ground]))
        near = [other for other in near if at.span[0] - other.at.span[1] < thin]
        for other in near:
            first, later = sorted((one, other), key=lambda each: each.at.number)
            if met := _between(later, first, units):
                yield Told(later.at, first.at, met)
                if met.level is Level.ERROR:
                    break
        else:
            near.append(one)


def no_leg(standings: Sequence[Standing]) -> Iterator[Told]:
    """A board that is a leg to one joint and none to another: they could not be held together."""
    by_leg = next((one for one in standings if one.on_leg), None)
    other = next((one for one in standings if not one.on_leg), None)
    if by_leg and other:
        finding = mistake(
            "leg-and-no-leg",
            f'"{other.board.name}" is a leg in {by_leg.told} and none in {other.told}.',
            'Say in each which face of the leg the rail comes to, on = "reference-edge" or '
            '"inside", as tenons and dowels in a frame can; a board that is no leg needs another '
            "name.",
        )
        yield Told(other, by_leg, finding)


def _between(one: InLeg, other: InLeg, units: Units) -> Finding | None:
    leg = f'"{one.at.board.name}"'
    if other.takes(one.tenons):
        return mistake(
            "tenons-meet",
            f"In {leg} the tenons of {other.at.told} and of {one.at.told} run into each other.",
            _remedy(one, other, units),
        )
    is_bored = one.is_bored or other.is_bored
    if is_bored and one.meets(other):
        return mistake(
            "holes-meet",
            f"In {leg} the holes of {other.at.told} and those of {one.at.told} run into each other."
            if one.is_bored and other.is_bored
            else f"In {leg} holes and a mortise meet, of {other.at.told} and {one.at.told}.",
            f"{_shorter(one, other, units)}move dowels along the rail, so that they pass by.",
        )
    for bored, met in ((one, other), (other, one)):
        if met.takes(bored.holes):
            return mistake(
                "peg-in-tenon",
                f"In {leg} a peg of {bored.at.told} runs into the tenon of {met.at.told}.",
                "Bring the peg nearer to its shoulder, or bore it less deep.",
            )
    apart = {tuple(gaps(*pair)) for pair in product(one.taken, other.taken)}
    # Two that are apart both ways lie askew, and leave no wall.
    for axis, distance in sorted(each[0] for each in apart if len(each) == 1):
        # Dowels are bored, and need less than what is chopped.
        thin = BREAKS[units] if is_bored else thin_wall(axis, one.at.board, units)
        if distance < thin:
            return advice(
                "wall-thin",
                f"Between {one.at.told} and {other.at.told}, only "
                f"{length_text(distance, units)} of {leg} is left.",
                f"{OURS}: at least {length_text(thin, units)}",
                _apart(axis, is_bored),
            )
    return None


def _apart(axis: int, is_bored: bool) -> str:
    """How more wood is left between two."""
    if is_bored:
        return "Bore one less deep, or move its dowels."
    if axis == ALONG:
        return "Move one of them."
    return "Make one tenon a little shorter, or so long that the mortises meet."


def _shorter(one: InLeg, other: InLeg, units: Units) -> str:
    """Which holes may be so much less deep that they stop before the other joint, if any may."""
    found = [
        f"those of joint {a.at.number + 1} {length_text(deep, units)} deep"
        for a, b in ((one, other), (other, one))
        if a.is_bored and (deep := _short_enough(a, b, units)) > 0
    ]
    return f"Bore {' or '.join(found)} at most; or " if found else "To be clear of each other, "


def _remedy(one: InLeg, other: InLeg, units: Units) -> str:
    both = ((other, one), (one, other))
    mitred = " and ".join(
        f"that of joint {a.at.number + 1} {length_text(a.depths(b.taken)[1], units)}"
        for a, b in both
    )
    if one.is_mitred and other.is_mitred:
        return (
            f"They are mitred, so make {mitred} long at most, or set the rails nearer to the "
            "outside faces of the leg (set_back)."
        )
    short = " or ".join(
        f"that of joint {a.at.number + 1} to {length_text(length, units)}"
        for a, b in both
        if (length := _short_enough(a, b, units)) > 0
    )
    ways = [f"shorten one tenon, {short}"] if short else []
    if one.may_be_mitred and other.may_be_mitred:
        ways.append(f'mitre both, tenon_end = "mitred", {mitred} long at most')
    words = "; or ".join((*ways, "move one of them"))
    return f"{words[0].upper()}{words[1:]}."


def _short_enough(one: InLeg, other: InLeg, units: Units) -> Fraction:
    """How long a tenon, or deep a hole, leaves a wall before the other joint; 0 where none does."""
    spare = one.depths(one.taken)[1] - one.depths(one.tenons)[1] if one.tenons else ZERO
    room = one.depths(other.taken)[0] - spare - BREAKS[units]
    return at_most_as_a_gauge_is_set(room, units) if room > 0 else ZERO
