"""What each step of the order of work is shown by: which pieces, and how far they are cut."""

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.joint import Joint, Member, Task
from joinery_templates.wood.cut import Cut, Surface

_BOARD_OF = {Task.SAW_FIRST: 0, Task.CLEAR_FIRST: 0, Task.CUT_SECOND: 1}
"""The board that is cut."""


class Stage(Struct, frozen=True):
    """A piece, and how far it is cut.

    Attributes:
        member: the piece.
        taken: what is gone.
        waste: what is still to go, shown with its lines and hatched.
        has_guide: whether the line that is carried across is shown.
        is_sawn: whether the sides of the waste are sawn.
    """

    member: Member
    taken: tuple[Cut, ...] = ()
    waste: tuple[Cut, ...] = ()
    has_guide: bool = False
    is_sawn: bool = False


class View(Struct, frozen=True):
    """What a picture shows.

    Attributes:
        stages: of the pieces.
        is_apart: whether what comes off is shown off.
    """

    stages: tuple[Stage, ...]
    is_apart: bool = False


def finished(joint: Joint, is_apart: bool = False) -> View:
    """All pieces with all that is cut from them."""
    return View(tuple(_whole(one) for one in joint.all_members), is_apart)


def with_waste(joint: Joint) -> View:
    """The board that is set out first with its waste still in; both that keys are let into."""
    cut = [one for one in joint.members if one.part.cuts]
    return View(tuple(_marked(one, ()) for one in (cut if joint.loose else cut[:1])))


def views(joint: Joint) -> list[View | None]:
    """For each step what shows how things are when it is done; None where that is nothing new."""
    tasks = [step.task for step in joint.steps]
    shown: list[View | None] = []
    for number in range(len(tasks)):
        view = _view(joint, tasks[:number], tasks[number], tasks[number + 1 :])
        shown.append(None if view in shown else view)
    return shown


def _view(joint: Joint, done: Sequence[Task], task: Task, later: Sequence[Task]) -> View | None:
    members = joint.members
    if task in (Task.FIT, Task.GLUE):
        return finished(joint, is_apart=task is Task.FIT)
    if task is Task.MITRE and task not in (*done, *later):
        return finished(joint, is_apart=True)
    stages: list[Stage | None] = []
    if task is Task.MAKE_KEYS:
        stages += (_whole(one.member) for one in joint.loose)
    elif task in (Task.CUT_ENDS, Task.JOIN):
        stages += (Stage(one, _ends(one)) for one in members)
    elif task is Task.GAUGE and task not in done:
        stages += (Stage(one, _ends(one), has_guide=bool(one.part.cuts)) for one in members)
    else:
        board = _board_of(task, done, later)
        if board is not None:
            # Keys are let into both boards at once.
            about = members if joint.loose else (members[board],)
            stages += (_stage(one, board, done, task, later) for one in about)
    known = tuple(stage for stage in stages if stage)
    return View(known, is_apart=len(known) > 1 and not joint.loose) if known else None


def _board_of(task: Task, done: Sequence[Task], later: Sequence[Task]) -> int | None:
    """Which board a step is about: that of the sawing which it is, prepares or follows."""
    order = {
        Task.LAY_ON: later,
        Task.REBATE: later,
        Task.MITRE: done[::-1],
        Task.PLOUGH: done[::-1],
    }.get(task, (task,))
    return next((_BOARD_OF[one] for one in order if one in _BOARD_OF), None)


def _stage(
    member: Member, board: int, done: Sequence[Task], task: Task, later: Sequence[Task]
) -> Stage | None:
    cuts = member.part.cuts
    if Task.PLOUGH in later:
        cuts = tuple(cut for cut in cuts if not _is_groove(cut))
    rebates = tuple(cut for cut in cuts if _is_rebate(cut))
    if task is Task.LAY_ON:
        return _marked(member, rebates if Task.REBATE in done else ())
    if task is Task.REBATE:
        return _marked(member, rebates) if rebates else None
    mitred = [
        _board_of(one, (*done, task, *later[:number]), ())
        for number, one in enumerate(later)
        if one is Task.MITRE
    ]
    if mitred and [*done, task, *later].count(Task.MITRE) == 1 and any(map(_is_mitre, cuts)):
        return None  # it is cut on both boards at once, so none is whole before
    mitres = tuple(cut for cut in cuts if _is_mitre(cut) and board in mitred)
    cuts = tuple(cut for cut in cuts if cut not in mitres)
    if task is Task.SAW_FIRST and Task.CLEAR_FIRST in later:
        sawn = _sawn(member, cuts)
        return replace(sawn, waste=(*sawn.waste, *mitres))
    if any(_BOARD_OF.get(one) == board for one in later):
        return None
    return Stage(member, cuts, mitres)


def _whole(member: Member) -> Stage:
    return Stage(member, member.part.cuts)


def _marked(member: Member, gone: tuple[Cut, ...]) -> Stage:
    """A piece with its waste still in, but for some; what is only its end is waste if all is."""
    cuts, taken = member.part.cuts, (*_ends(member), *gone)
    waste = tuple(cut for cut in cuts if cut not in taken)
    return Stage(member, taken, waste) if waste else Stage(member, (), cuts)


def _ends(member: Member) -> tuple[Cut, ...]:
    """What only makes a board's end: it is bounded by one flat."""
    return tuple(cut for cut in member.part.cuts if len(cut.half_spaces) == 1)


def _sawn(member: Member, cuts: tuple[Cut, ...]) -> Stage:
    """A board when the saw has done its part: what stands at its edges has come off with it."""
    gone = tuple(cut for cut in cuts if _is_at_edge(cut))
    waste = tuple(cut for cut in cuts if cut not in gone)
    return Stage(member, gone, waste, is_sawn=True)


def _is_at_edge(cut: Cut) -> bool:
    """Whether it is sawn on one side alone: the other is the board's edge."""
    return sum(one.surface is Surface.SIDE for one in cut.half_spaces) < 2


def _is_groove(cut: Cut) -> bool:
    return any(one.surface is Surface.GROOVE for one in cut.half_spaces)


def _is_rebate(cut: Cut) -> bool:
    """Whether it lies right along the end: nothing of it is sawn along the grain."""
    return all(one.surface is Surface.SHOULDER for one in cut.half_spaces)


def _is_mitre(cut: Cut) -> bool:
    """Whether it has a flat right across the board that leans through its thickness."""
    return any(
        one.surface is Surface.SIDE and not one.normal[0] and one.normal[1] and one.normal[2]
        for one in cut.half_spaces
    )
