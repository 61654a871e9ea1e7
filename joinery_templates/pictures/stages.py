"""What each step of the order of work is shown by: its pieces, cut as far as it leaves them."""

from collections.abc import Sequence
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.joint import Joint, Member, Task
from joinery_templates.wood.cut import Cut, Stage, Surface

OF_TASK = {
    Task.SAW_DOWN: (0,),
    Task.SAW_FIRST: (0,),
    Task.CLEAR_FIRST: (0,),
    Task.CUT_SECOND: (1,),
}
"""The pieces that steps work on which do not say it; all boards in any other task."""
LEAVES = frozenset({Task.SAW_FIRST, Task.CLEAR_FIRST, Task.CUT_SECOND, Task.REBATE, Task.MITRE})
"""Work in which wood leaves a board for good."""


CHOPPED_FIRST = Stage(0, "chop")


class WorkedPiece(Struct, frozen=True):
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
        pieces: as far as they are worked.
        is_apart: whether what comes off is shown off.
        is_behind: whether it is looked at from the side that a joint's pose looks away from.
    """

    pieces: tuple[WorkedPiece, ...]
    is_apart: bool = False
    is_behind: bool = False


def finished(joint: Joint, is_apart: bool = False) -> View:
    """All pieces with all that is cut from them."""
    return View(tuple(_whole(one) for one in joint.all_members), is_apart)


def with_waste(joint: Joint) -> View:
    """The boards apart with their waste still in; where keys are let in, only that of the keys."""
    cut = [one for one in joint.members if one.part.cuts]
    if not joint.let_in:
        return View(tuple(WorkedPiece(one, (), one.part.cuts) for one in cut), is_apart=True)
    return View(tuple(_split(one, one.part.cuts, 1) for one in cut))


def views(joint: Joint) -> list[View | None]:
    """For each step what shows its work as it leaves it; None where that is nothing new."""
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

    @cached_property
    def marking(self) -> tuple[list[int], ...]:
        """For each board the first steps that mark its waste, stage by stage.

        What is cut when the boards are joined is marked then.
        """
        return tuple(
            [self._marking(board, gone) for gone in steps]
            for board, steps in enumerate(self.leaving)
        )

    def _marking(self, board: int, gone: int) -> int:
        joined = max(
            (n for n, task in enumerate(self.tasks[:gone]) if task is Task.JOIN), default=0
        )
        laid = (n for n in range(joined, gone) if self.tasks[n] is Task.LAY_ON)
        return next((n for n in laid if board in self._pieces(n)), len(self.tasks))

    def view(self, number: int) -> View | None:
        """What shows a step."""
        task, joint = self.tasks[number], self.joint
        if task in (Task.FIT, Task.GLUE):
            if all(step < number for steps in self.leaving for step in steps):
                return finished(joint, is_apart=task is Task.FIT)
            # Something is bored or cut only when the joint has been tried.
            shown = tuple(self._worked(one, number) for one in range(len(joint.members)))
            return View(shown, is_apart=task is Task.FIT)
        if task in (Task.PREPARE, Task.SCRIBE, Task.FINISH) or not joint.steps[number].is_shown:
            return None
        leaves = task in LEAVES and not self._only_saws(number)
        if leaves and not any(number in steps for steps in self.leaving):
            return None  # what takes several steps is shown when the last of them is done
        boards = range(len(joint.members))
        pieces = self._pieces(number)
        if not pieces:
            return None  # what is made is no piece of a picture, such as a wedge
        shown = tuple(
            self._worked(one, number) if one in boards else _whole(joint.all_members[one])
            for one in pieces
        )
        with_loose = any(one not in boards for one in pieces)
        is_apart = len(shown) > 1 and with_loose == bool(joint.let_in)
        return View(shown, is_apart or self._still_apart(number)) if shown else None

    def _still_apart(self, number: int) -> bool:
        """Whether the boards are joined only later, and can be shown apart till then."""
        return bool(self.joint.pose.also) and Task.JOIN in self.tasks[number + 1 :]

    def _pieces(self, number: int) -> Sequence[int]:
        """Those that a step works on."""
        step = self.joint.steps[number]
        if step.pieces:
            return step.pieces
        if step.task is Task.LAY_ON:
            return self._next(number)
        if step.task is Task.MAKE_KEYS:
            return range(len(self.joint.members), len(self.joint.all_members))
        return OF_TASK.get(step.task, range(len(self.joint.members)))

    def _leaving(self, board: int) -> list[int]:
        """The last steps that take wood from it; earlier ones prepare for the first of them."""
        own = [
            number
            for number, task in enumerate(self.tasks)
            if task in LEAVES and board in self._pieces(number) and not self._only_saws(number)
        ]
        cuts = _in_order(self.joint.members[board])
        count = len({cut.stage for cut in cuts if not cut.is_groove})
        return own[-count:] if count else []

    def _only_saws(self, number: int) -> bool:
        """Whether what is sawn is cleared later."""
        is_cleared = Task.CLEAR_FIRST in self.tasks[number:]
        return self.tasks[number] is Task.SAW_FIRST and is_cleared

    def _next(self, number: int) -> list[int]:
        """The boards that are cut next after a step."""
        after = [min((n for n in steps if n > number), default=None) for steps in self.leaving]
        soonest = min((n for n in after if n is not None), default=None)
        return [board for board, n in enumerate(after) if n is not None and n == soonest]

    def _worked(self, board: int, number: int) -> WorkedPiece:
        """A board after a step; what is still to go is shown on it where it is marked."""
        member = self.joint.members[board]
        leaving, marking = self.leaving[board], self.marking[board]
        left = sum(step > number for step in leaving)
        is_begun = left < len(leaving)
        # Shown in two parts only while one is there without the other.
        cuts = _in_order(member) if is_begun and left else member.part.cuts
        unmarked = sum(min(steps) > number for steps in zip(leaving, marking, strict=True))
        worked = _split(member, self._ploughed(cuts, number), left, unmarked)
        if all(step > number for step in marking):
            gauged = any(
                task is Task.GAUGE and board in self._pieces(n)
                for n, task in enumerate(self.tasks[: number + 1])
            )
            taken = worked.taken if is_begun else ()
            return WorkedPiece(member, taken, has_guide=gauged and bool(member.part.cuts))
        if self.tasks[number] is not Task.LAY_ON:
            # Its ring is on the template; without that a hole is a prick until it is bored.
            unbored = tuple(cut for cut in worked.waste if cut.bore is None)
            worked = replace(worked, waste=unbored)
        if self.tasks[number] is Task.SAW_DOWN or self._only_saws(number):
            return _sawn(worked, is_off=self._only_saws(number))
        return worked

    def _ploughed(self, cuts: tuple[Cut, ...], number: int) -> tuple[Cut, ...]:
        """Cuts without the grooves that are ploughed after a step."""
        grooves = [cut for cut in cuts if cut.is_groove]
        later = self.tasks[number + 1 :].count(Task.PLOUGH)
        unploughed = grooves[max(0, len(grooves) - later) :]
        return tuple(cut for cut in cuts if cut not in unploughed)


def _sawn(worked: WorkedPiece, is_off: bool) -> WorkedPiece:
    """A board when the saw has done its part.

    Args:
        worked: the board with its waste.
        is_off: whether that at its edges is sawn off, too.
    """
    now = min(cut.stage.number for cut in worked.waste)
    waste = tuple(cut for cut in worked.waste if cut.stage.number == now or is_off)
    off = tuple(cut for cut in waste if is_off and cut.stage.number == now and _is_at_edge(cut))
    left = tuple(cut for cut in waste if cut not in off)
    return WorkedPiece(worked.member, (*worked.taken, *off), left, is_sawn=True)


def _whole(member: Member) -> WorkedPiece:
    return WorkedPiece(member, member.part.cuts)


def _in_order(member: Member) -> tuple[Cut, ...]:
    """A board's cuts; what no saw reaches of a housing is chopped before the rest."""
    sawn = member.part.sawn
    if sawn is None:
        return member.part.cuts
    return tuple(
        part
        for cut in member.part.cuts
        for part in (
            Cut((*cut.half_spaces, sawn.turned()), CHOPPED_FIRST),
            replace(cut, half_spaces=(*cut.half_spaces, sawn)),
        )
    )


def _split(member: Member, cuts: Sequence[Cut], left: int, unmarked: int = 0) -> WorkedPiece:
    """A piece with waste still to go.

    Args:
        member: the piece.
        cuts: of it, as far as they are shown.
        left: how many stages of the waste are still to go.
        unmarked: how many of them, the last ones, are not marked yet and so look like wood.
    """
    numbers = sorted({cut.stage.number for cut in cuts if not cut.is_groove})
    later = numbers[max(0, len(numbers) - left) :]
    marked = later[: len(later) - unmarked]
    taken = tuple(cut for cut in cuts if cut.is_groove or cut.stage.number not in later)
    waste = (cut for cut in cuts if not cut.is_groove and cut.stage.number in marked)
    return WorkedPiece(member, taken, tuple(waste))


def _is_at_edge(cut: Cut) -> bool:
    """Whether it is sawn on one side alone: the other is the board's edge."""
    return sum(one.surface is Surface.SIDE for one in cut.half_spaces) < 2
