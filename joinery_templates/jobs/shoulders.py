"""What is left between the shoulders of a rail that slants, where the job tells both its ends."""

from collections.abc import Mapping, Sequence

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.links import Link, links
from joinery_templates.jobs.standing import Standing


def between_shoulders(
    one: JointJob, on_boards: Mapping[str, Sequence[Standing]]
) -> tuple[Fraction, Fraction] | None:
    """How far its shoulders are apart along its reference edge and along its far edge.

    Args:
        one: a joint.
        on_boards: what stands on each board.

    Returns:
        None where the boards meet square, where nobody told the rail's length, where corners do
        not tell what is at its other end, or where rails of the joint differ.
    """
    if one.joint.at_corner or not 0 < abs(one.joint.placement.rows[1][1]) < 1:
        return None
    found = set()
    for each in links(on_boards).values():
        ends = [link for link in each if link.at.is_end]
        if any(link.at.one is one and not link.at.member for link in ends):
            found.add(_left(ends))
    return found.pop() if len(found) == 1 else None


def _left(ends: Sequence[Link]) -> tuple[Fraction, Fraction] | None:
    """Of one rail, by the joints at its ends; where it goes on in line, no shoulder ends it."""
    rail = ends[0].at.board
    is_held = all(abs(link.at.one.joint.placement.rows[1][1]) < 1 for link in ends)
    if rail.length is None or len(ends) != 2 or not is_held:
        return None
    near, far = (rail.length - sum(link.runs_in_at(x) for link in ends) for x in (ZERO, rail.width))
    return (near, far) if min(near, far) > 0 else None
