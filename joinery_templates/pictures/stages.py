"""What each step of the order of work is shown by: which pieces, and how far they are cut."""

from collections.abc import Sequence
from functools import cached_property

from msgspec import Struct

from joinery_templates.joint import Joint, Member, Task
from joinery_templates.wood.cut import Cut, Surface


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
    if not joint.let_in:
        return View((Stage(cut[0], (), cut[0].part.cuts),))
    last = max(one.stage.number for one in cut[0].part.cuts)
    return View(tuple(_split(one, one.part.cuts, last - 1) for one in cut))


def views(joint: Joint) -> list[View | None]:
    """For each step what shows how things are when it is done; None where that is nothing new."""
    work = _Work(joint)
    shown: list[View | None] = []
    for number in range(len(joint.steps)):
        view = work.view(number)
        shown.append(None if view in shown else view)
    return shown


class _Work(Struct, frozen=True, dict=True):
    """A joint's order of work, and when the stages of each board's waste leave in it."""

    joint: Joint

    @cached_property
    def tasks(self) -> list[Task]:
        """Of all steps."""
        return [step.task for step in self.joint.steps]

    @cached_property
    def leaving(self) -> tuple[list[int], ...]:
        """For each board the steps at which its waste leaves, stage by stage."""
        return tuple(self._leaving(number) for number in range(len(self.joint.members)))

    def view(self, number: int) -> View | None:
        """What shows a step."""
        task, joint, stages = self.tasks[number], self.joint, list[Stage]()
        if task in (Task.FIT, Task.GLUE):
            return finished(joint, is_apart=task is Task.FIT)
        if task is Task.MAKE_KEYS:
            stages += (_whole(one.member) for one in joint.loose)
        elif task in (Task.CUT_ENDS, Task.JOIN):
            boards = (self._stage(one, number) for one in range(len(joint.members)))
            stages += (Stage(one.member, one.taken) for one in boards)
        elif task is Task.GAUGE and task not in self.tasks[:number]:
            stages += (Stage(one, has_guide=bool(one.part.cuts)) for one in joint.members)
        elif task is Task.LAY_ON:
            stages += (self._stage(one, number, is_marked=True) for one in self._next(number))
        elif task is Task.PLOUGH and task not in self.tasks[number + 1 :]:
            return finished(joint, is_apart=Task.GLUE in self.tasks[number:])
        elif task is Task.SAW_FIRST and Task.CLEAR_FIRST in self.tasks[number:]:
            stages += (self._sawn(number),)
        else:
            cut = (one for one, steps in enumerate(self.leaving) if number in steps)
            stages += (self._stage(one, number) for one in cut)
        together = len(stages) > 1 and not joint.let_in
        return View(tuple(stages), is_apart=together) if stages else None

    def _leaving(self, board: int) -> list[int]:
        tasks = self.tasks
        own = [n for n, task in enumerate(tasks) if board in self._cut_by(n, task)]
        count = len({cut.stage for cut in self.joint.members[board].part.cuts if not cut.is_groove})
        if len(own) < count:
            own = [n for n, task in enumerate(tasks) if task in (Task.REBATE, Task.JOIN)] + own
        return own[-count:] if count else []

    def _cut_by(self, number: int, task: Task) -> Sequence[int]:
        """Which boards are cut in a step, rebates aside."""
        both = range(len(self.joint.members))
        if task is Task.SAW_FIRST:
            return () if Task.CLEAR_FIRST in self.tasks[number:] else (0,)
        if task is Task.CLEAR_FIRST:
            return (0,)
        if task is Task.CUT_SECOND:
            return both if self.joint.let_in else both[1:]
        if task is Task.MITRE and self.tasks.count(task) == 1:
            return both
        if task is Task.MITRE:
            return self._cut_by(number - 1, self.tasks[number - 1])
        return ()

    def _next(self, number: int) -> list[int]:
        """The boards that are cut next after a step."""
        after = [min((n for n in steps if n > number), default=None) for steps in self.leaving]
        soonest = min((n for n in after if n is not None), default=None)
        return [board for board, n in enumerate(after) if n is not None and n == soonest]

    def _stage(self, board: int, number: int, is_marked: bool = False) -> Stage:
        """A board after a step; what is still to go is shown on it where it is marked or begun."""
        gone = sum(step <= number for step in self.leaving[board])
        stage = _split(self.joint.members[board], self._cuts(board, number), gone)
        return stage if gone or is_marked else Stage(stage.member)

    def _sawn(self, number: int) -> Stage:
        """The first board when the saw has done its part: at its edges waste has come off."""
        stage = self._stage(0, number, is_marked=True)
        now = min(cut.stage.number for cut in stage.waste)
        off = tuple(cut for cut in stage.waste if cut.stage.number == now and _is_at_edge(cut))
        waste = tuple(cut for cut in stage.waste if cut not in off)
        return Stage(stage.member, (*stage.taken, *off), waste, is_sawn=True)

    def _cuts(self, board: int, number: int) -> tuple[Cut, ...]:
        """A board's cuts; a groove is none before it is ploughed."""
        ploughs_later = Task.PLOUGH in self.tasks[number + 1 :]
        cuts = self.joint.members[board].part.cuts
        return tuple(cut for cut in cuts if not (ploughs_later and cut.is_groove))


def _whole(member: Member) -> Stage:
    return Stage(member, member.part.cuts)


def _split(member: Member, cuts: Sequence[Cut], gone: int) -> Stage:
    """A piece of which so many stages of the waste are gone."""
    numbers = sorted({cut.stage.number for cut in cuts if not cut.is_groove})
    left = set(numbers[gone:])
    taken = tuple(cut for cut in cuts if cut.is_groove or cut.stage.number not in left)
    return Stage(member, taken, tuple(cut for cut in cuts if cut not in taken))


def _is_at_edge(cut: Cut) -> bool:
    """Whether it is sawn on one side alone: the other is the board's edge."""
    return sum(one.surface is Surface.SIDE for one in cut.half_spaces) < 2
