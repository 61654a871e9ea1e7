"""What a job prints: from its joints to patterns, to what is read, and to the first page's top."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import TYPE_CHECKING

from msgspec.structs import replace

from joinery_templates.drawings.arrangement import (
    BY_EDGES,
    BY_FACES,
    Arrangement,
    Junction,
    alike,
    hang_together,
    seen_axis,
)
from joinery_templates.drawings.bench import PICTURE, Bench, bench_page
from joinery_templates.drawings.board_patterns import views
from joinery_templates.drawings.cutting_list import cutting_list as drawn_list
from joinery_templates.drawings.direction import isolated, with_names_isolated_in
from joinery_templates.drawings.figure import Block, Figure, Pattern, aired, headed
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.own_rows import set_out_by, strips
from joinery_templates.drawings.plan import Sketched, corner_plan, meeting
from joinery_templates.drawings.rod import rod_pattern
from joinery_templates.drawings.settings import settings_cards
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.strip import strip, strip_heading
from joinery_templates.drawings.walk import walk_patterns
from joinery_templates.exact import Fraction
from joinery_templates.jobs.cutting_list import cutting_list, prints
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.jobs.order_of_work import orders_of_work
from joinery_templates.jobs.ring import ring_of
from joinery_templates.jobs.rods import rods
from joinery_templates.jobs.standing import by_board, corner_names, known_pieces, on_pieces
from joinery_templates.joint import Joint, Member
from joinery_templates.joints.tool_fit import RULE, tool_table
from joinery_templates.lengths import Units
from joinery_templates.pictures.picture import OF_SEVERAL, Pictures

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

A_HAIR = {Units.MM: "0.2 mm", Units.INCH: "1/128 in"}
"""How far off a board may be and still fit its templates: our judgement."""
PAPER = (
    "Let the sheets lie flat for an hour, and check them again. Hold the paper with spray adhesive "
    "that comes off again or with double-sided tape, tried on a scrap of the same wood; wet glue "
    "makes it grow by 2 to 3 % across its grain. A template that goes right across a board must "
    "reach from edge to edge, as true as the rulers: else print it again. Cut a trial joint in "
    "waste wood first. That uses up its templates: print their sheet again."
)
"""An hour's rest: our judgement. Growth of wet paper: from memory."""
TAKE_CARE = (
    "Clamp the work, keep both hands behind the edge, cut away from hand and body, and keep edges "
    "sharp.",
    "Start a saw with light strokes, fingers clear of the line. Never use a cracked blade.",
    "Wear eye protection when you chop. Keep wood dust out of your lungs: use extraction or a "
    "mask.",
    "Glues and sprays: follow the label, air the room, keep them off skin and eyes; use spray "
    "adhesive well away from flames and sparks. What stands out of doors needs a glue that stands "
    "the wet.",
    "Young learners work under supervision. Use machines only by their manuals and with their "
    "guards.",
    "These templates are for furniture and boxes, not for structural design: for that, keep to the "
    "local code and ask an engineer licensed there.",
)


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
        kerf=job.tools.kerf if job.tools.kerf_shown else None,
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
    for board, standings in by_board(joints).items():
        each = known_pieces(standings)
        for piece in each if len(each) > 1 else []:
            for one in piece:
                corner = one.placed.corner.name
                others = (name for name in corner_names(piece) if name != corner)
                found[board, one.number, corner] = ", ".join(others)
    return found


def setting_patterns(one: JointJob, setup: DrawingSetup) -> Iterator[Pattern]:
    """The setting-out strips and the cards of tool settings."""
    for row in strips(one.joint):
        alike = set_out_by(one.joint, row)
        placed = [at for at in one.placed if at.member in alike]
        yield strip(SETTING_OUT, row, placed, one.name, setup)
        yield from walk_patterns(row, strip_heading(placed, one.name), SETTING_OUT, setup)
    yield from settings_cards(SETTING_OUT, f"Tool settings, {one.name}", one.joint, setup)


def choices(
    job: Job, made: Sequence["Choice"], sheet: tuple[Fraction, Fraction], lettering: Lettering
) -> Iterator[Pattern]:
    """Layouts of one joint, one below the other, each with its letter and figures."""
    from joinery_templates.choices import differing_figures
    from joinery_templates.drawings.choice import choice_pattern

    setup = DrawingSetup(lettering, job.units, sheet, job.sheets.thickness)
    told = differing_figures([choice.one.joint for choice in made], job.units)
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
    """What is read of each joint: its name and blocks.

    Args:
        job: what to tell of.
        drawn: the pictures of its joints.
        width: of a column.
        lettering: how wide words run.
    """
    for one, steps, shown in zip(job.joints, orders_of_work(job), drawn, strict=True):
        boards = " and ".join(map(_called, one.joint.members))
        bench = Bench(
            f"{one.name} · {boards}",
            replace(one.joint, steps=steps),
            # At the bench no name of a job file says where advice belongs.
            [_with_names(replace(found, place="").told(), job) for found in one.joint.findings],
            _tools(one.joint, job),
            job.tell,
            shown.of_steps(PICTURE, Fraction(26)),
        )
        yield one.name, tuple(bench_page(bench, width, lettering))


def _called(member: Member) -> str:
    """A board's name, and what the steps call it where the name does not tell that."""
    also = f" ({member.also_called})" if member.also_called else ""
    return f"{member.part.board.called}{also}"


def _tools(joint: Joint, job: Job) -> tuple[str, Sequence[tuple[str, str]]]:
    """Which chisel clears what, and by what rule where sides are sawn."""
    heading, rows = tool_table(joint, job.tools, job.units)
    is_sawn = any(clearing.sawn for clearing in joint.clearings)
    return heading, (*rows, (RULE, "")) if is_sawn else rows


def _with_names(words: str, job: Job) -> str:
    """Advice with boards named as the pages name them, where a message quotes them."""
    for board in job.boards:
        words = words.replace(f'"{board.name}"', board.called)
    return words


def boards(
    job: Job, flat: Sequence[Arrangement], width: Fraction, lettering: Lettering
) -> Iterator[Figure]:
    """The cutting list, and when a board still fits its templates."""
    follows = {name: long for one in flat for name, long in one.follows.items()}
    entries = tuple(cutting_list(job, follows))
    yield drawn_list(entries, width, lettering)
    times = prints(job)
    told = (Paragraph(times, BODY, bold=True),) if times else ()
    if met := (*(() if ring_of(job) else _met_in_no_plan(job)), *told):
        yield aired(column(met, width, lettering), Fraction(1))
    words = (
        f"Measure every board again before you cut. {A_HAIR[job.units]} more or less in width or "
        f"thickness is still good, a shaving or two.{_at_mitres(job)} Plane a thicker or wider "
        "board to its figure. "
        "If one is thinner or narrower, put what you have measured into the job and print again."
        f"{_in_grooves(job)}"
    )
    yield column((Paragraph(words, BODY, after=Fraction(1)),), width, lettering)


def _in_grooves(job: Job) -> str:
    """What is made besides, where boards are ploughed for it."""
    parts = (member.part for one in job.joints for member in one.joint.members)
    if not any(cut.is_groove for part in parts for cut in part.cuts):
        return ""
    return " What lies in a groove or rebate, a bottom, back or panel, is not in this list."


def _met_in_no_plan(job: Job) -> Iterator[Paragraph]:
    """Which ends meet at corners that no sketch of the piece shows, as those of a ring."""
    shown = {(one.name, junction.first.corner.name) for one, junction in _junctions(job)}
    for one in job.joints:
        for corner in one.corners:
            first, second = one.joint.placed(corner)[:2]
            if first.place.end and second.place.end and (one.name, corner.name) not in shown:
                yield meeting(corner.told, first, second)


def _at_mitres(job: Job) -> str:
    """What holds where a mitre is to close."""
    mitred = [one.joint for one in job.joints if one.joint.is_mitred]
    if not mitred:
        return ""
    gauged = any(member.part.guide for joint in mitred for member in joint.members)
    gauge = (
        ", set the baseline's gauge as much under or over its figure as they then are under or "
        "over the list"
    )
    return (
        " Not so at a mitre: plane boards of one thickness exactly alike"
        f"{gauge if gauged else ''}, and shoot boards of one length exactly alike."
    )


def joint_pictures(
    job: Job, drawn: Sequence[Pictures], width: Fraction, lettering: Lettering
) -> Iterator[Figure]:
    """What each joint looks like, under its name where there are several."""
    if len(job.joints) == 1:
        yield from drawn[0].rows(width)
        return
    for one, shown in zip(job.joints, drawn, strict=True):
        name = Paragraph(one.name, HEADING, bold=True, after=Fraction(1))
        yield from headed(column((name,), width, lettering), shown.rows(width, OF_SEVERAL))


def arrangements(job: Job) -> Iterator[Arrangement]:
    """The frames and carcases whose boards lie in one plane."""
    for axis in (BY_FACES, BY_EDGES):
        flat = [
            junction
            for one, junction in _junctions(job)
            if seen_axis(junction.placement, one.joint.at_corner) == axis and not one.joint.at_leg
        ]
        for group in hang_together(flat):
            yield Arrangement(group, axis)


def plans(
    job: Job, flat: Sequence[Arrangement], width: Fraction, lettering: Lettering
) -> Iterator[Sketched]:
    """Which corner is where: of legs, of four-sided pieces, and of what lies in one plane."""
    if ring := ring_of(job):
        from joinery_templates.drawings.ring_plan import ring_plan

        across = ring.across_the_flats
        size = f"Finished size: {job.tell(across)} outside, across the flats." if across else ""
        yield ring_plan(ring.corners, ring.count, ring.side, size, width, lettering)
        return
    at_legs = [junction for one, junction in _junctions(job) if one.joint.at_leg]
    if at_legs:
        from joinery_templates.drawings.leg_plan import leg_plan

        yield leg_plan(at_legs, width, lettering)
    boxes = _boxes(junction for one, junction in _junctions(job) if one.joint.at_corner)
    for each in alike(boxes):
        yield corner_plan(each, width, job.tell, lettering)
    for each in alike(arrangement.junctions for arrangement in flat):
        from joinery_templates.drawings.frame_plan import frame_plan

        shown = next(one for one in flat if one.junctions is each[0])
        without = _met_at_corners(shown, chain.from_iterable(boxes))
        yield frame_plan(shown, each, width, job.tell, lettering, without)


def _boxes(corners: Iterable[Junction]) -> list[list[Junction]]:
    """Corners of one four-sided piece together, as the boards do that run from one to the next.

    Where no board does, as between A and C alone, those of the same boards stand in one.
    """
    boxes: list[list[Junction]] = []
    for group in hang_together(corners):
        letters, names = _letters_and_boards(group)
        for box in boxes:
            taken, known = _letters_and_boards(box)
            if letters.isdisjoint(taken) and not names.isdisjoint(known):
                break
        else:
            boxes.append(box := [])
        for one in group:
            if one.letter in {other.letter for other in box}:
                boxes.append(box := [])
            box.append(one)
    return boxes


def _letters_and_boards(corners: Sequence[Junction]) -> tuple[set[str], set[str]]:
    boards = {at.board.name for one in corners for at in one.both}
    return {one.letter for one in corners}, boards


def _met_at_corners(arrangement: Arrangement, corners: Iterable[Junction]) -> list[str]:
    """The boards that meet those of a carcase at corners, which its plan does not show."""
    own = {one.board.name for junction in arrangement.junctions for one in junction.both}
    meeting = [[one.board for one in corner.both] for corner in corners]
    met = [boards for boards in meeting if any(board.name in own for board in boards)]
    called = {board.called: None for boards in met for board in boards if board.name not in own}
    return [*called]


def _junctions(job: Job) -> Iterator[tuple[JointJob, Junction]]:
    """Where each joint stands, and on which pieces, as far as that is told."""
    on = {at: piece for at, (piece, _) in on_pieces(by_board(job.joints)).items()}
    for number, one in enumerate(job.joints):
        for index, corner in enumerate(one.corners):
            both = on.get((number, index, 0)), on.get((number, index, 1))
            if corner.like and (one.joint.at_corner or one.joint.at_leg or all(both)):
                first, second = one.joint.placed(corner)[:2]
                placement, at_side = one.joint.placement, one.first_at_side
                yield one, Junction(first, second, placement, at_side, both)
