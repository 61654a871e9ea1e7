"""The cutting list: every board and loose piece of a job, how many, and which."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from msgspec.structs import replace

from joinery_templates.drawings.cutting_list import Entry
from joinery_templates.exact import ZERO, Fraction, ceil
from joinery_templates.jobs.angles import at_angle, in_row
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.open_rings import in_four_sides
from joinery_templates.jobs.standing import Standing, by_board, known_pieces, pieces
from joinery_templates.lengths import INCH, Units, told_text
from joinery_templates.wood.board import Board, Hand

MOST_TOLD = 4
"""Of more pieces of one board no more are told one by one."""
SPARE = {Units.MM: Fraction(5), Units.INCH: INCH / 4}
"""For each end that is sawn and planed to its line (our judgement)."""
STOCK_STEP = {Units.MM: Fraction(1), Units.INCH: INCH / 8}
"""Stock is told in these."""
AS_THE_SEAM, IN_SHORT_LENGTHS = "as wide as the seam is long", "or short lengths side by side"
"""Of what runs along a seam, its grain across it."""
_IN_ORDER = "ADBC"
"""Corners from left to right, and from near to far or from top to bottom."""


def cutting_list(job: Job, lengths: dict[str, Fraction]) -> Iterator[Entry]:
    """A line for each board, then for each sort of loose piece.

    Args:
        job: what is made.
        lengths: of boards whose length the job does not give, where it follows from the others.
    """
    lengths = lengths | {board.name: board.length for board in job.boards if board.length}
    yield from _boards(job, lengths)
    yield from _of_own_wood(job, lengths)


def _boards(job: Job, lengths: Mapping[str, Fraction]) -> Iterator[Entry]:
    side_by_side: Counter[str] = Counter()
    for one in job.joints:
        there = {member.part.board.name: member.pieces for member in one.joint.members}
        side_by_side |= Counter({name: each * len(one.corners) for name, each in there.items()})
    standings = by_board(job.joints)
    four = in_four_sides(standings)
    for board in job.boards:
        if board.name in standings:
            ones = standings[board.name]
            found = known_pieces(ones)
            if board.name in four and all(one.placed.corner.like for one in ones):
                found = pieces(ones)
            length = lengths.get(board.name)
            count = board.pieces or len(found) or side_by_side[board.name]
            which = "; ".join(_which(found))
            entry = _entry(job, board, count, length, which)
            longer = _longer(ones, SPARE[job.units])
            if length and longer:
                stock = _stock(length + longer, job.units)
                entry = replace(entry, length=f"{entry.length} outside", stock=stock)
            yield entry


def _of_own_wood(job: Job, lengths: Mapping[str, Fraction]) -> Iterator[Entry]:
    found: dict[tuple[Board, Fraction, bool], list[tuple[int, str]]] = {}
    for one in job.joints:
        seam = min((lengths[name] for name in one.joint.boards if name in lengths), default=ZERO)
        for member, each, runs_on in one.joint.of_own_wood:
            board = replace(member.part.board, width=seam) if runs_on else member.part.board
            alike = found.setdefault((board, member.part.reach, runs_on), [])
            alike.append((each * one.joints_made, one.name))
    sorts = Counter(board.called for board, *_ in found)
    for (board, long, runs_on), alike in found.items():
        count = sum(made for made, _ in alike)
        if runs_on:
            words = IN_SHORT_LENGTHS if board.width else f"{AS_THE_SEAM}, {IN_SHORT_LENGTHS}"
            yield _entry(job, board, count, long, words)
            continue
        spare = SPARE[job.units]
        stock = _stock(count * (long + spare) + spare, job.units)
        names = dict.fromkeys(name for _, name in alike)
        which = "; ".join(names) if sorts[board.called] > 1 else ""
        yield replace(_entry(job, board, count, long, which), stock=f"{stock} for all")


def prints(job: Job) -> str:
    """How often templates are printed where one corner stands for several, as in a ring."""
    often: dict[int, list[str]] = {}
    for ones in by_board(job.joints).values():
        board = ones[0].board
        ends = Counter(one.placed.hand for one in ones if one.is_end)
        for times in {_times(one, ends[one.placed.hand]) for one in ones if one.is_end}:
            if times > 1:
                often.setdefault(times, []).append(board.called)
    told = (f"those of {' and '.join(names)} {times} times" for times, names in often.items())
    if not often:
        return ""
    return f"A template that is glued on serves one corner: print {' and '.join(told)}."


def _times(one: Standing, count: int) -> int:
    """For how many ends of its board one of so many stands that are drawn alike."""
    joint, every = one.one.joint, (one.board.pieces or 0) // count
    are_counted = all(member.part.board.pieces for member in joint.members)
    if not are_counted or not (at_angle(joint) or in_row(joint)):
        return every
    # A row has two ends more that no other board meets.
    return min(every, one.one.joints_made // len(one.one.corners))


def _longer(standings: Sequence[Standing], spare: Fraction) -> Fraction:
    """What a board's wood needs at both ends, where these are not square."""
    ends: dict[Hand, Fraction] = {}
    for one in standings:
        longer = one.part.left_longer
        if longer is not None:
            hand = one.placed.hand
            ends[hand] = max(ends.get(hand, longer), longer)
    return sum((longer + spare for longer in ends.values()), Fraction(0))


def _stock(length: Fraction, units: Units) -> str:
    step = STOCK_STEP[units]
    return told_text(ceil(length / step) * step, units)


def _entry(job: Job, board: Board, count: int, length: Fraction | None, which: str = "") -> Entry:
    long, wide, thick = (
        told_text(size, job.units) if size else ""
        for size in (length, board.width, board.thickness)
    )
    if board.is_round:
        wide, thick = "", f"{thick} round"
    return Entry(board.called, str(count or ""), long, "", wide, thick, which)


def _which(found: Sequence[Sequence[Standing]]) -> Iterator[str]:
    """Each piece by the corners at its ends, with what is let in between."""
    for standings in found[:MOST_TOLD]:
        in_order = sorted(standings, key=lambda one: (_IN_ORDER.index(one.at[-1]), one.along))
        names = [*dict.fromkeys(one.placed.corner.told for one in in_order)]
        ends = {one.at[-1]: one.placed.corner.told for one in reversed(in_order)}
        if len(ends) == 1:
            yield ", ".join(names)
            continue
        told = " to ".join(reversed(ends.values()))
        between = ", ".join(name for name in names if name not in ends.values())
        yield f"{told} ({between})" if between else told
    if len(found) > MOST_TOLD:
        yield "and so on"
