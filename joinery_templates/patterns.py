"""What a job prints: from its joints to patterns, to what is read, and to the first page's top."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec.structs import replace

from joinery_templates.drawings.bench import PICTURE, Bench, bench_page
from joinery_templates.drawings.board_patterns import views
from joinery_templates.drawings.direction import isolated, with_names_isolated_in
from joinery_templates.drawings.figure import Block, Figure, Pattern
from joinery_templates.drawings.frame_plan import frame_plan, lies_flat
from joinery_templates.drawings.labels import section
from joinery_templates.drawings.leg_plan import leg_plan
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.look import HEADING
from joinery_templates.drawings.plan import Meeting, Sketched, corner_plan
from joinery_templates.drawings.rod import rod_pattern
from joinery_templates.drawings.settings import settings_cards
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.strip import set_out_alike, strip, strip_heading
from joinery_templates.drawings.walk import walk_patterns
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.jobs.rods import rods
from joinery_templates.jobs.standing import Standing, by_board, pieces
from joinery_templates.joint import Joint, Task
from joinery_templates.joints.tool_fit import tool_table
from joinery_templates.lengths import Units, length_text
from joinery_templates.pictures.picture import Pictures

if TYPE_CHECKING:
    from joinery_templates.choices import Choice

SETTING_OUT = "Setting out"
"""What strips and cards belong to, as patterns belong to their corner."""
RODS = "Rods"
CHOICES = "Layouts to choose from"
TO_CHOOSE = (
    "Lay each layout against the end of the board and look at it from where the piece will be "
    "seen. Do not cut to this page: draw the templates of the layout that you choose."
)
"""What the first page says of them."""

MOST_TOLD = 4
"""Of more pieces of one board no more are told one by one."""


A_HAIR = {Units.MM: "0.2 mm", Units.INCH: "1/128 in"}
"""How far off a board may be and still fit its templates: our judgement."""


def printable(job: Job) -> Job:
    """The job with names and notes that run from right to left set apart from other words."""
    joints = with_names_isolated_in(job.joints, job.names)
    return replace(job, title=isolated(job.title), notes=isolated(job.notes), joints=joints)


def patterns(job: Job, sheet: tuple[Fraction, Fraction], lettering: Lettering) -> Iterator[Pattern]:
    """Everything that is printed full size, joint by joint.

    Args:
        job: what to draw.
        sheet: width and height that one sheet offers.
        lettering: how wide words run.
    """
    common = DrawingSetup(
        lettering,
        job.units,
        sheet,
        job.sheets.thickness,
        kerf=job.tools.drawn_kerf,
        piece=job.title,
        both=job.both,
    )
    for rod in rods(job):
        yield rod_pattern(rod, RODS, common)
    also = on_the_same_board(job.joints)
    for number, one in enumerate(job.joints):
        setup = replace(common, seams=one.seams)
        yield from setting_patterns(one, setup)
        for placed in one.placed:
            there = also.get((placed.board.name, number, placed.corner.name), "")
            yield from views(one.views, placed, replace(setup, also=there))


def on_the_same_board(joints: Sequence[JointJob]) -> Mapping[tuple[str, int, str], str]:
    """What else stands on the piece that a board is at a joint's corner, where there are several.

    Args:
        joints: of the job.

    Returns:
        By the board's name, the joint's number and the corner's name: the other corners' names.
    """
    found = {}
    for name, standings in by_board(joints).items():
        each = pieces(standings) if are_told(standings) else []
        for piece in each if len(each) > 1 else []:
            for one in piece:
                corner = one.placed.corner.name
                others = {other.placed.corner.name: None for other in piece}
                others.pop(corner)  # several joints stand at one corner of a leg
                found[name, one.number, corner] = ", ".join(others)
    return found


def are_told(standings: Sequence[Standing]) -> bool:
    """Whether the job's corners say on which piece of a board each stands."""
    return bool(standings) and all(one.placed.corner.like and one.is_square for one in standings)


def setting_patterns(one: JointJob, setup: DrawingSetup) -> Iterator[Pattern]:
    """The setting-out strip and the cards of tool settings."""
    row = one.joint.main_row
    if row:
        alike = set_out_alike(one.joint, row)
        placed = [at for at in one.placed if at.member in alike]
        yield strip(SETTING_OUT, row, placed, one.name, setup)
        yield from walk_patterns(row, strip_heading(placed, one.name), SETTING_OUT, setup)
    yield from settings_cards(SETTING_OUT, f"Tool settings, {one.name}", one.joint, setup)


def choices(
    job: Job, made: Sequence["Choice"], sheet: tuple[Fraction, Fraction], lettering: Lettering
) -> Iterator[Pattern]:
    """Layouts of one joint, one below the other, each with its letter and figures."""
    from joinery_templates.choices import figures_of
    from joinery_templates.drawings.choice import choice_pattern

    setup = DrawingSetup(lettering, job.units, sheet, job.sheets.thickness)
    told = figures_of([choice.one.joint for choice in made], job.units)
    for choice, figures in zip(made, told, strict=True):
        advice = [f"advice: {finding.message}" for finding in choice.one.joint.findings]
        words = [choice.words, *figures, *advice]
        yield choice_pattern(choice.letter, choice.one.joint, words, CHOICES, setup)


def pictures(job: Job, lettering: Lettering) -> tuple[Pictures, ...]:
    """The pictures of each joint, as it stands at the first of its corners."""
    return tuple(Pictures(one.joint, one.corners[0].mirrored, lettering) for one in job.joints)


def bench_pages(
    job: Job, drawn: Sequence[Pictures], width: Fraction, lettering: Lettering
) -> Iterator[tuple[str, tuple[Block, ...]]]:
    """What is read of each joint: its title and blocks.

    Args:
        job: what to tell of.
        drawn: the pictures of its joints.
        width: of a column.
        lettering: how wide words run.
    """
    met = Counter(name for one in job.joints for name in board_names(one))
    for one, shown in zip(job.joints, drawn, strict=True):
        boards = " and ".join(member.part.board.called for member in one.joint.members)
        shared = any(met[name] > 1 for name in board_names(one))
        bench = Bench(
            f"{one.name} · {boards}",
            dry_first(one.joint) if shared else one.joint,
            [_with_names(finding.told(), job) for finding in one.joint.findings],
            tool_table(one.joint, job.tools, job.units),
            job.tell,
            shown.of_steps(PICTURE, Fraction(26)),
            one is job.joints[0],
        )
        yield f"Bench page: {one.name}", tuple(bench_page(bench, width, lettering))


DRY_FIRST = (
    "A board here has other joints too. Cut all of this job's joints and try the whole piece dry "
    "before you glue any of them."
)


def board_names(one: JointJob) -> set[str]:
    """The boards of a joint, each once."""
    return {member.part.board.name for member in one.joint.members}


def dry_first(joint: Joint) -> Joint:
    """The same, with a word before its glue where other joints wait for the same board."""
    steps = (
        replace(step, words=f"{DRY_FIRST} {step.words}") if step.task is Task.GLUE else step
        for step in joint.steps
    )
    return replace(joint, steps=tuple(steps))


def _with_names(words: str, job: Job) -> str:
    """Advice with boards named as the pages name them, where a message quotes them."""
    for board in job.boards:
        words = words.replace(f'"{board.name}"', board.called)
    return words


def opening_words(job: Job) -> Iterator[str]:
    """The first page's notes, and all boards."""
    if job.notes:
        yield job.notes
    standings, made = by_board(job.joints), Counter[str]()
    for one in job.joints:
        for loose in one.joint.loose:
            part = loose.member.part
            across, long = section(part.board, job.units), length_text(part.reach, job.units)
            made[f"{part.board.called} {across} × {long}"] += loose.made * len(one.corners)
    boards = [
        f"{board.called} {section(board, job.units)}"
        + (f" × {length_text(board.length, job.units)}" if board.length else "")
        + _pieces_told(standings[board.name])
        for board in job.boards
        if board.name in standings
    ]
    boards += [f"{piece}, {count} in all" for piece, count in made.items()]
    yield (
        f"Boards: {'; '.join(boards)}. Measure them again before you cut: {A_HAIR[job.units]} more "
        f"or less is still good, a shaving or two.{_at_mitres(job)} Plane a thicker or wider board "
        "to its figure. If one is thinner or narrower, put what you have measured into the job and "
        "print again. Names in capitals are boards; their ends are right-hand and left-hand with "
        "the outside face towards you and the reference edge down."
    )


def _at_mitres(job: Job) -> str:
    """What holds where nothing is planed flush afterwards."""
    if not any(one.joint.is_mitred for one in job.joints):
        return ""
    return (
        " Not so at a mitre, where nothing is planed off later: plane its boards to one thickness, "
        "set every gauge that is told as the thickness by the board itself, and shoot opposite "
        "boards to one length, the finished one."
    )


def _pieces_told(standings: Sequence[Standing]) -> str:
    """How many pieces of a board the corners ask for, and which, where the job tells corners."""
    if not are_told(standings):
        return ""
    found = [dict.fromkeys(one.placed.corner for one in ones) for ones in pieces(standings)]
    which = " and ".join(
        "–".join(one.letter for one in corners)
        if all(one.letter for one in corners)
        else ", ".join(one.name for one in corners)
        for corners in found[:MOST_TOLD]
    )
    count = f"{len(found)} pieces" if len(found) > 1 else "1 piece"
    return f", {count} ({which}{' and so on' if len(found) > MOST_TOLD else ''})"


def joint_pictures(
    job: Job, drawn: Sequence[Pictures], width: Fraction, lettering: Lettering
) -> Iterator[Figure]:
    """What each joint looks like, under its name where there are several."""
    for one, shown in zip(job.joints, drawn, strict=True):
        if len(job.joints) > 1:
            name = Paragraph(one.name, HEADING, bold=True, after=Fraction(1))
            yield column((name,), width, lettering)
        yield from shown.rows(width)


def plans(job: Job, width: Fraction, lettering: Lettering) -> Iterator[Sketched]:
    """Which corner is where, of joints at the corners of a four-sided piece or a flat frame.

    Joints at other corners of the same piece stand in one plan, and all that come to legs.
    """
    at_legs = [meeting for one in job.joints if one.joint.at_leg for meeting in _meetings(one)]
    if at_legs:
        yield leg_plan(at_legs, width, lettering)
    for draw in (corner_plan, frame_plan):
        corners: list[Meeting] = []
        for one in job.joints:
            here = list(_meetings(one)) if _plan_of(one.joint) is draw else []
            if {meeting.letter for meeting in here} & {known.letter for known in corners}:
                yield draw(corners, width, lettering)
                corners = []
            corners += here
        if corners:
            yield draw(corners, width, lettering)


def _plan_of(joint: Joint) -> Callable[[Sequence[Meeting], Fraction, Lettering], Sketched] | None:
    """What draws the piece that a joint stands in, where that is known."""
    if joint.at_corner:
        return corner_plan
    return frame_plan if lies_flat(joint.placement) and not joint.at_leg else None


def _meetings(one: JointJob) -> Iterator[Meeting]:
    """Where a joint stands, as far as that is told."""
    for corner in one.corners:
        if corner.like:
            first, second = one.joint.placed(corner)[:2]
            yield Meeting(first, second, one.joint.placement, one.first_at_side)
