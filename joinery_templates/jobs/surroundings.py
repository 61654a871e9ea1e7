"""What the other joints of a job tell of one, for its own steps to say."""

from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.panels import is_at_end
from joinery_templates.jobs.shoulders import between_shoulders
from joinery_templates.jobs.standing import Standing, corner_names, known_pieces
from joinery_templates.jobs.stopped_grooves import Stop, told_stops
from joinery_templates.joints.catalogue import known_kind
from joinery_templates.joints.kind import Surroundings
from joinery_templates.lengths import Units


def with_own_words(
    one: JointJob,
    on_boards: Mapping[str, Sequence[Standing]],
    panelled: Sequence[tuple[Standing, bool]],
    stopped: Sequence[Stop],
    units: Units,
) -> JointJob:
    """A joint whose order of work is as it is among the others.

    Args:
        one: the joint.
        on_boards: what stands on each board.
        panelled: see `at_far_edges`.
        stopped: every groove's stop.
        units: that figures are told in.
    """
    first, second = (_is_between(one, member, on_boards) for member in (0, 1))
    rails = sorted(panelled, key=lambda each: each[0].number)
    around = Surroundings(
        first_is_between=first,
        is_closed=None if first is None or second is None else first and second,
        alone=_alone(one, on_boards),
        at_ends=_are_at_ends(one, on_boards),
        panelled=tuple(dict.fromkeys((rail.board.called, both) for rail, both in rails)),
        between_shoulders=between_shoulders(one, on_boards),
        stop=told_stops(one, stopped, units),
    )
    if around == Surroundings():
        return one
    request = replace(one.request, around=around)
    told = known_kind(one.joint.kind).build(request)
    return replace(one, request=request, joint=replace(one.joint, steps=told.steps))


def _is_between(
    one: JointJob, member: int, on_boards: Mapping[str, Sequence[Standing]]
) -> bool | None:
    """Whether one of a joint's boards is joined at both ends; None if unknown, or not always so."""
    alike = on_boards[one.joint.boards[member]]
    ends = {standing.at for standing in alike}
    found = {
        standing.other_end in ends
        for standing in alike
        if standing.one is one and standing.member == member and standing.placed.corner.like
    }
    return found.pop() if len(found) == 1 else None


def _on_pieces(
    one: JointJob, on_boards: Mapping[str, Sequence[Standing]]
) -> Iterator[tuple[list[Standing], list[Standing]]]:
    """Of each known piece that has a joint's second board, that joint there, and all there is."""
    for piece in known_pieces(on_boards[one.joint.boards[1]]):
        if here := [standing for standing in piece if standing.one is one and standing.member]:
            yield here, piece


def _are_at_ends(one: JointJob, on_boards: Mapping[str, Sequence[Standing]]) -> bool:
    """Whether all rails of a joint close a frame, though nobody told where they come."""
    found = [
        is_at_end(rail, piece) for rails, piece in _on_pieces(one, on_boards) for rail in rails
    ]
    return bool(found) and all(found)


def _alone(one: JointJob, on_boards: Mapping[str, Sequence[Standing]]) -> str:
    """The one piece that has a joint's second board, with its corners, if it is known to be one."""
    having = [here for here, _ in _on_pieces(one, on_boards)]
    if len(having) != 1:
        return ""
    return f"{having[0][0].board.called} ({', '.join(corner_names(having[0]))})"
