"""A ring of equal boards that stand upright, such as a box with six sides: how large it is."""

from collections.abc import Iterator
from itertools import pairwise

from msgspec import Struct

from joinery_templates.exact import ZERO, Fraction, tangent
from joinery_templates.jobs.angles import plan_of, rings_closed
from joinery_templates.jobs.job import Job
from joinery_templates.joint import Placed
from joinery_templates.wood.board import Hand

NO_MORE = Fraction(1, 10**6)
"""By no more may ends be from the arris in which their faces meet: angles are not exact."""
FEWEST = 5
"""A piece of four sides is no ring."""


class Ring(Struct, frozen=True):
    """A ring of equal sides.

    Attributes:
        corners: those that the job tells, which follow each other round and round; the boards at
            each, first that which has its right-hand end there.
        count: of its sides, and of its corners.
        side: the length of each, outside.
    """

    corners: tuple[tuple[Placed, Placed], ...]
    count: int
    side: Fraction

    @property
    def across_the_flats(self) -> Fraction | None:
        """From side to side outside; None where a corner faces each side."""
        return None if self.count % 2 else self.side / tangent(Fraction(180, self.count))


def ring_of(job: Job) -> Ring | None:
    """The ring that a job's boards make, if its corners close it.

    Where an end stands proud, a length is not from corner to corner, and None is told too.
    """
    lengths = {board.length for board in job.boards}
    count = sum(board.pieces or 0 for board in job.boards)
    length = lengths.pop()
    if lengths or not length or count < FEWEST:
        return None
    for joint in (one.joint for one in job.joints):
        here, there = (member.part.left_longer or ZERO for member in joint.members)
        _, along, through = joint.placement.point((ZERO, there, ZERO))
        is_upright = joint.placement.rows[0][0] == 1
        if not is_upright or rings_closed(count, plan_of(joint)) != 1:
            return None
        if max(abs(along - here), abs(through)) > NO_MORE:
            return None
    corners = tuple(_corners(job))
    boards = [tuple(one.board.name for one in both) for both in corners]
    follow = all(ends[1] == after[0] for ends, after in pairwise((*boards, boards[0])))
    return Ring(corners, count, length) if follow and count % len(corners) == 0 else None


def _corners(job: Job) -> Iterator[tuple[Placed, Placed]]:
    for one in job.joints:
        for corner in one.corners:
            first, second = one.joint.placed(corner)[:2]
            yield (first, second) if first.hand is Hand.RIGHT else (second, first)
