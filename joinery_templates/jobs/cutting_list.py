"""The cutting list: every board and loose piece of a job, how many, and which."""

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from joinery_templates.drawings.cutting_list import Entry
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.standing import Standing, are_told, by_board, pieces
from joinery_templates.lengths import told_text
from joinery_templates.wood.board import Board

MOST_TOLD = 4
"""Of more pieces of one board no more are told one by one."""
_IN_ORDER = "ADBC"
"""Corners from left to right, and from near to far or from top to bottom."""


def cutting_list(job: Job, lengths: dict[str, Fraction]) -> Iterator[Entry]:
    """A line for each board, then for each sort of loose piece.

    Args:
        job: what is made.
        lengths: of boards whose length the job does not give, where it follows from the others.
    """
    loose: Counter[tuple[Board, Fraction, bool]] = Counter()
    for one in job.joints:
        for member, count, runs_on in one.joint.of_own_wood:
            loose[member.part.board, member.part.reach, runs_on] += count * len(one.corners)
    standings = by_board(job.joints)
    for board in job.boards:
        if board.name in standings:
            ones = standings[board.name]
            found = pieces(ones) if are_told(ones) else []
            length = board.length or lengths.get(board.name)
            yield _entry(job, board, len(found), length, "; ".join(_which(found)))
    for (board, long, runs_on), made in loose.items():
        yield _entry(job, board, made, long, "as long as the seam" if runs_on else "")


def _entry(job: Job, board: Board, count: int, length: Fraction | None, which: str) -> Entry:
    long, wide, thick = (
        told_text(size, job.units) if size else ""
        for size in (length, board.width, board.thickness)
    )
    return Entry(
        board.called, str(count or ""), long, wide, "round" if board.is_round else thick, which
    )


def _which(found: Sequence[Sequence[Standing]]) -> Iterator[str]:
    """Each piece by the corners at its ends, with what is let in between."""
    for standings in found[:MOST_TOLD]:
        in_order = sorted(
            standings, key=lambda one: (_IN_ORDER.index(one.placed.corner.like), one.along)
        )
        names = [*dict.fromkeys(one.placed.corner.told for one in in_order)]
        ends = {one.placed.corner.like: one.placed.corner.told for one in reversed(in_order)}
        if len(ends) == 1:
            yield ", ".join(names)
            continue
        told = " to ".join(reversed(ends.values()))
        between = ", ".join(name for name in names if name not in ends.values())
        yield f"{told} ({between})" if between else told
    if len(found) > MOST_TOLD:
        yield "and so on"
