"""Where a groove stops in a stile or leg that goes on past its outermost rail.

Run out through that end it would show there; and a haunch fills it no farther than the rail's
edge. So it stops in the rail's mortise, or at the rail's far edge where a haunch lies in it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.standing import (
    ALONG,
    SHAVING,
    Span,
    Standing,
    is_groove,
    known_pieces,
    stuff,
)
from joinery_templates.joints.gauge import at_least_as_a_gauge_is_set, at_most_as_a_gauge_is_set
from joinery_templates.joints.words import listed
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Hand
from joinery_templates.wood.cut import HalfSpace, Surface, at_least, at_most
from joinery_templates.wood.solid import remaining

STOPPED = (
    "; but {} goes on past the outermost rail: stop its groove there, {}, and chop out what the "
    "plane leaves"
)


class Stop(Struct, frozen=True):
    """A groove's stop in a stile or leg.

    Attributes:
        at: where the rail comes to it.
        along: between which places, from the end that the rail's place is measured from.
        backwards: whether the groove goes away from that end, as at a leg's foot.
    """

    at: Standing
    along: Span
    backwards: bool = False

    @property
    def from_end(self) -> Span:
        """The same from the end that the groove does not reach."""
        length = self.at.board.length
        if not self.backwards or length is None:
            return self.along
        low, high = self.along
        return length - high, length - low

    @property
    def is_at_haunch(self) -> bool:
        """Whether it must stop at one place, where a haunch in it ends."""
        return self.along[0] == self.along[1]

    @property
    def half_space(self) -> HalfSpace:
        """What bounds the groove there, in the joint's frame."""
        place = sum(self.along, ZERO) / 2 - self.at.along
        bounds = at_most if self.backwards else at_least
        return bounds(ALONG, place, Surface.GROOVE)

    def told(self, units: Units) -> str:
        """At which rail it stops, and where."""
        rail = self.at.mate.board.called
        if self.is_at_haunch:
            place = length_text(self.from_end[0], units)
            return f"at the edge of {rail} ({place} from the end there), where its haunch ends"
        return f"in the mortise of {rail} ({between(self.from_end, units)} from the end there)"


def between(span: Span, units: Units) -> str:
    """Two places in words, as a gauge is set and no farther apart."""
    low, high = (
        at_least_as_a_gauge_is_set(span[0], units),
        at_most_as_a_gauge_is_set(span[1], units),
    )
    return f"between {length_text(low, units)} and {length_text(high, units)}"


def stops(on_boards: Mapping[str, Sequence[Standing]]) -> Iterator[Stop]:
    """Every stop in every piece whose joints the job tells.

    Args:
        on_boards: all that stands on each board.
    """
    for standings in on_boards.values():
        alone = len({one.number for one in standings}) == 1
        for piece in known_pieces(standings) or ([[*standings]] if alone else []):
            for first in {one.enters: one for one in piece if one.on_leg}.values():
                yield from _in_leg([one for one in piece if one.enters == first.enters])
            yield from _in_stile([one for one in piece if not one.on_leg])


def _in_stile(piece: Sequence[Standing]) -> Iterator[Stop]:
    """At each end the rail that is measured from it and comes nearest."""
    for hand in Hand:
        here = [one for one in piece if one.placed.hand is hand]
        if here and all(map(_is_inside, here)):
            yield from _stop(min(here, key=lambda one: one.along))


def _in_leg(rails: Sequence[Standing]) -> Iterator[Stop]:
    """All are measured from the top; a single rail says nothing of the foot."""
    length = rails[0].board.length
    if not all(one.is_measured and one.is_square for one in rails):
        return
    if all(map(_is_inside, rails)) and (
        len(rails) > 1 or length is None or rails[0].along * 2 < length
    ):
        yield from _stop(min(rails, key=lambda one: one.along))
    if len(rails) > 1 and length is not None:
        lowest = max(rails, key=_far_side)
        if length - _far_side(lowest) > SHAVING:
            yield from _stop(lowest, backwards=True)


def _is_inside(one: Standing) -> bool:
    """Whether the piece goes on past a rail, at the end that its place is measured from."""
    if one.is_end or not one.is_measured or not one.is_square:
        return False
    return not one.placed.place.has_horn and one.along > SHAVING


def _far_side(one: Standing) -> Fraction:
    """How far a rail goes from that end."""
    return one.along + one.mate.board.width


def _stop(one: Standing, *, backwards: bool = False) -> Iterator[Stop]:
    """At an outermost rail; one without a groove closes the space, and the groove goes on to it."""
    for channel in filter(is_groove, one.channels()):
        if span := hidden(one, channel, backwards=backwards):
            yield Stop(one, span, backwards)


def hidden(one: Standing, channel: frozenset[HalfSpace], *, backwards: bool = False) -> Span | None:
    """Between which places a groove in a piece may stop, so that a rail there hides its end.

    Args:
        one: where the rail comes to the piece, square.
        channel: what bounds the groove.
        backwards: whether it goes away from the end that the rail's place is measured from.

    Returns:
        Places from that end; None where the groove does not come into a mortise.
    """
    ground = stuff(one.board, one.along, _far_side(one))
    groove = ground.within(channel)
    mortises = [waste for waste in one.waste(ground) if not waste.is_bored]
    spans = [
        both.extents[ALONG] for each in mortises if groove and (both := each.solid.within(channel))
    ]
    if groove is None or not spans:
        return None
    if haunch := remaining(one.in_mate([groove]), [each.sides for each in mortises]):
        along = [end for solid in haunch for end in solid.extents[ALONG]]
        end = max(along) if backwards else min(along)
        return end, end
    # The panel's corner goes in so far past the rail's edge.
    low, high = groove.extents[one.enters[0]]
    deep = high - low
    if backwards:
        start, end = min(spans)
        start = max(start, one.along + deep)
    else:
        start, end = max(spans)
        end = min(end, _far_side(one) - deep)
    return (start, end) if start < end else None


def with_stops(joints: Sequence[JointJob | None], stopped: Iterable[Stop]) -> list[JointJob | None]:
    """The joints, a groove drawn stopped where it stops at every corner of its joint.

    Args:
        joints: in the file's order.
        stopped: every stop.
    """
    found: dict[int, list[Stop]] = {}
    for stop in stopped:
        found.setdefault(stop.at.number, []).append(stop)
    return [
        _drawn(one, found[number])
        if one and len({*_corners(found.get(number, ()))}) == len(one.corners)
        else one
        for number, one in enumerate(joints)
    ]


def _corners(stopped: Iterable[Stop]) -> Iterator[int]:
    return (stop.at.index for stop in stopped)


def _drawn(one: JointJob, stopped: Sequence[Stop]) -> JointJob:
    bounds = {stop.half_space for stop in stopped}
    if len(bounds) > 1:
        return one
    rail, upright, *others = one.joint.members
    cuts = tuple(
        replace(cut, half_spaces=(*cut.half_spaces, *bounds)) if cut.is_groove else cut
        for cut in upright.part.cuts
    )
    upright = replace(upright, part=replace(upright.part, cuts=cuts))
    return replace(one, joint=replace(one.joint, members=(rail, upright, *others)))


def told_stops(one: JointJob, stopped: Iterable[Stop], units: Units) -> str:
    """What the order of work says of the grooves' stops; empty where they run right through.

    Args:
        one: the joint.
        stopped: every stop.
        units: that figures are told in.
    """
    piece, enters = one.joint.members[1].part.board, one.joint.placement.reversed().runs
    places = dict.fromkeys(
        stop.told(units)
        for stop in sorted(stopped, key=lambda stop: stop.at.key)
        if stop.at.board.name == piece.name and stop.at.enters == enters
    )
    return STOPPED.format(piece.called, listed([*places])) if places else ""
