"""What is left between the shoulders of a rail that slants, where the job tells both its ends.

Its joint at one end does not know the stile at the other: it tells what follows where that is
parallel, and where it is a mirror image.
"""

from collections.abc import Mapping, Sequence

from joinery_templates.exact import ZERO
from joinery_templates.jobs.job import JointJob
from joinery_templates.jobs.links import Link
from joinery_templates.jobs.standing import Piece
from joinery_templates.lengths import Units, length_text


def between_shoulders(one: JointJob, linked: Mapping[Piece, Sequence[Link]], units: Units) -> str:
    """What the order of work says of it; empty where corners do not tell, or rails differ.

    Args:
        one: a joint of rails.
        linked: the joints between two pieces, by each of them.
        units: that figures are told in.
    """
    found = set()
    for links in linked.values():
        ends = [link for link in links if link.at.is_end]
        for at in (link.at for link in ends if link.at.one is one and not link.at.member):
            left = [
                (at.board.length or ZERO) - sum(link.runs_in_at(x) for link in ends)
                for x in (ZERO, at.board.width)
            ]
            is_known = at.board.length is not None and len(ends) == 2 and min(left) > 0
            found.add(tuple(length_text(each, units) for each in left) if is_known else None)
    told = found.pop() if len(found) == 1 else None
    if told is None:
        return ""
    near, far = told
    if near == far:
        return f"The stiles are parallel, and so are its shoulders: {near} are left between them."
    return (
        f"Between its shoulders {near} are left along its reference edge and {far} along its far "
        "edge."
    )
