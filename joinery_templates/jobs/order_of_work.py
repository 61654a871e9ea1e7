"""The order of work of a job: each joint's steps, with what follows from the joints beside it.

What one joint has said already is not said again: a later step names the step that it is like.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain, count

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.drawings.figure import FIRST_PLACE
from joinery_templates.drawings.own_rows import strips
from joinery_templates.jobs.closing import closing_order
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.jobs.rods import rods
from joinery_templates.jobs.standing import Standing, by_board
from joinery_templates.joint import FACES, WRAP, Joint, Step, Task
from joinery_templates.joints.words import TAPED_FIRST, THEN_FACES, listed
from joinery_templates.wood.board import Face

CUT_ALL_FIRST = (
    "A board here has other joints too. Cut all of this job's joints{} before you glue, and "
    "read how each is glued."
)
OPEN_END = (
    "If a board that is not in this job comes to the open end, cut its joints too{} before you "
    "glue."
)
IN_TURNS = "Glue {}, and {} last: the other way round they do not go together."
FROM_ROD = "Where the rod for {} has a mark, take it from the rod; measure only what it lacks."
CROSSED = (
    "First cut all mortises, notches, housings and holes in {}: their templates want the whole "
    "face and edge."
)
DONE = "Done in step {}{}."
HARD = ": let that glue harden first, for the sockets are marked and cut across the closed joint"
TRY_DRY = " and try the whole piece dry"
EITHER_TEMPLATE = (
    "Lay on either the folded template or the flat ones, not both. Flat ones: first "
    f"{TAPED_FIRST}; {THEN_FACES}. The folded one goes on like this."
)
LONG = 60
"""Less is said again: to name a step would not be shorter."""


class _Said(Struct, frozen=True):
    """What the steps so far say themselves, by step, and by sentence the last that says it."""

    in_step: dict[str, list[str]]
    last: dict[str, str]


def orders_of_work(job: Job) -> Iterator[tuple[Step, ...]]:
    """The steps of each joint, in order."""
    seams = _seams_closed(job.joints)
    met = Counter(
        name for at, one in enumerate(job.joints) if at not in seams for name in {*one.joint.boards}
    )
    on_rods = {rod.board.name for rod in rods(job)}
    standings = by_board(job.joints)
    turns = closing_order(standings)
    framed = (one for one in job.joints if _is_framed(one, standings))
    crossed_in_frames = [*dict.fromkeys(chain(*(_crossed(one, standings) for one in framed)))]
    said = _Said({}, {})
    places = _places(job.joints)
    for at, one in enumerate(job.joints):
        waits = any(met[name] > 1 for name in one.joint.boards)
        let_in = (placed.board for placed in one.placed if placed.place.end is None)
        rod = next((board.called for board in let_in if board.name in on_rods), None)
        first = {step.task: step for step in reversed(one.joint.steps)}
        laid_on, on_strips = _laid_on(one.joint)
        seam = seams.get(at)
        done = {} if seam is None else _of_seam(one.joint, job.joints[seam].joint, places[seam])
        steps = []
        for step, (here, sign) in zip(one.joint.steps, places[at], strict=True):
            words = done.get(step, step.words)
            if step.task is Task.GLUE and waits:
                dry = "" if " dry first" in words else TRY_DRY
                in_turns = [_in_turns(job, turns[at])] if at in turns else []
                words = " ".join((CUT_ALL_FIRST.format(dry), *in_turns, words))
            is_open = one.joint.at_corner and one.request.around.is_closed is False
            if step.task is Task.GLUE and is_open:
                dry = "" if waits or " dry first" in words else TRY_DRY
                words = f"{OPEN_END.format(dry)} {words}"
            if rod and step is first.get(Task.GAUGE):
                words = f"{FROM_ROD.format(rod)} {words}"
            if step is first.get(Task.LAY_ON) and _has_both(one):
                words = f"{EITHER_TEMPLATE} {words}"
            if step.task is Task.PLOUGH:
                is_framed = _is_framed(one, standings)
                if crossed := crossed_in_frames if is_framed else _crossed(one, standings):
                    words = f"{CROSSED.format(listed(crossed))} {words}"
            if step is laid_on:
                words += on_strips
            steps.append(replace(step, words=_once(words, step.task, here, said), sign=sign))
        yield tuple(steps)


def _places(joints: Iterable[JointJob]) -> list[list[tuple[str, str]]]:
    """Where each step of each joint is found, in words, and the sign in them for its sheet."""
    signs = map(chr, count(ord(FIRST_PLACE)))
    return [
        [
            (f"{number} of {one.name}, sheet {(sign := next(signs))}", sign)
            for number, _ in enumerate(one.joint.steps, start=1)
        ]
        for one in joints
    ]


def _seams_closed(joints: Iterable[JointJob]) -> Mapping[int, int]:
    """By the number of a joint with keys across a seam, the one that closes that seam."""
    closed, keyed = dict[tuple[str, ...], int](), dict[int, tuple[str, ...]]()
    for number, one in enumerate(joints):
        placement = one.joint.placement
        if placement.runs[0] == 1 and placement.shift[0]:  # edge to edge, and not end to end
            if one.joint.let_in:
                keyed[number] = one.joint.boards
            else:
                closed[one.joint.boards] = number
    return {number: closed[boards] for number, boards in keyed.items() if boards in closed}


def _of_seam(keyed: Joint, seam: Joint, places: Sequence[tuple[str, str]]) -> Mapping[Step, str]:
    """What of a seam with keys in it is done already: its edges are shot, and it is glued."""
    found = {
        step.task: place
        for step, (place, _) in zip(seam.steps, places, strict=True)
        if step.task in (Task.PREPARE, Task.GLUE)
    }
    *_, shot = (step for step in keyed.steps if step.task is Task.PREPARE)
    join = next(step for step in keyed.steps if step.task is Task.JOIN)
    return {
        shot: DONE.format(found[Task.PREPARE], ""),
        join: DONE.format(found[Task.GLUE], HARD),
    }


def _in_turns(job: Job, turns: Sequence[Sequence[int]]) -> str:
    """Which joints are glued at which turn."""
    first, *later = (listed([job.joints[number].name for number in turn]) for turn in turns)
    return IN_TURNS.format(", then ".join((f"{first} first", *later[:-1])), later[-1])


def _laid_on(joint: Joint) -> tuple[Step | None, str]:
    """Where templates are laid on, if strips follow from their lines, and what is said of these.

    Of a main row's strip the joint's own steps say when it is laid on.
    """
    rows = () if joint.main_row else strips(joint)
    if not rows:
        return None, ""
    which, give = ("strips", "give") if len(rows) > 1 else ("strip", "gives")
    words = (
        f"On further pieces the setting-out {which} {give} the marks along the board without a "
        "template."
    )
    if all(row.face is Face.END_GRAIN for row in rows):
        words = f"Laid across the edge, the setting-out {which} must show the same lines."
    lays = Task.LAY_ON, Task.MITRE
    step = next((step for step in joint.steps if step.task in lays), joint.steps[0])
    return step, f" {words}"


def _crossed(one: JointJob, standings: Mapping[str, Sequence[Standing]]) -> list[str]:
    """The boards with a groove or rebate into which other joints let something, as shelves or bars.

    What a joint along a board says of its own rebate, as a housing does, is not said again.
    """
    if not (one.joint.at_corner or _is_framed(one, standings)):
        return []
    boards = (member.part.board for member in one.joint.members)
    return [
        board.called
        for board in boards
        if any(other.one is not one and not other.is_end for other in standings[board.name])
    ]


def _is_framed(one: JointJob, standings: Mapping[str, Sequence[Standing]]) -> bool:
    """Whether a groove or rebate runs along all boards of a joint, away from ends."""
    return not one.joint.at_corner and all(
        standing.channels()
        for name in one.joint.boards
        for standing in standings[name]
        if standing.one is one
    )


def _has_both(one: JointJob) -> bool:
    """Whether a template that is folded over an end and flat ones of its faces are printed."""
    folds = any(member.part.folds and not member.faces for member in one.joint.members)
    return folds and {WRAP, FACES} <= set(one.views)


def _once(words: str, task: Task, here: str, said: _Said) -> str:
    """Words without what an earlier step says, and that step named instead.

    Only one is named: the one that says most of them.

    Args:
        words: of a step.
        task: which it is; what is prepared is told sentence by sentence.
        here: the step.
        said: what the steps before it say; added to.
    """
    parts = re.split(r"(?<=\.) (?=[A-Z])", words) if task is Task.PREPARE else [words]

    def shared(step: str) -> int:
        return sum(len(part) for part in parts if part in said.in_step[step])

    like = max((said.last[part] for part in parts if part in said.last), key=shared, default="")
    if like and shared(like) >= max(LONG, len(words) / 2):
        parts = [part for part in parts if part not in said.in_step[like]]
        words = " ".join((f"As in step {like}.", *parts))
    said.in_step[here] = parts
    said.last.update(dict.fromkeys(parts, here))
    return words
