"""The order of work with dowels (common practice where no source is named)."""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.dowels.boards import CORNER, EDGE, FRAME, TEE, Dowelled
from joinery_templates.joints.upright import MARKS_OF_LEGS
from joinery_templates.joints.words import PEEL, PLACED_ALIKE, dashed_line, measure_again

TRUE = "The gauged line must run through the middle of every hole."


def order_of_work(joint: Dowelled) -> Iterator[Step]:
    """The steps, in order."""
    text, first, second = joint.text, joint.named(0), joint.named(1)
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"{_marks(joint)} {_meet(joint)} {measure_again()}",
    )
    yield Step(Task.GAUGE, "Gauge the middle", " ".join(_gauge(joint)))
    yield Step(
        Task.LAY_ON,
        f"Lay on {first}",
        f"{_lay_on_first(joint)} {TRUE} Glue the template, or tape it, and press a bradawl "
        "deep into the middle of every hole.",
    )
    yield Step(
        Task.LAY_ON,
        f"Lay on {second}",
        f"{_lay_on_second(joint)} {TRUE} Glue the template, or tape it, and prick the "
        "middles in the same way. Check both rows of pricks with the setting-out strip: mark must "
        "meet prick.",
        (1,),
    )
    yield Step(
        Task.CLEAR_FIRST,
        f"Bore {first}",
        "Clamp the board so that the holes point straight up or level. Bore with a brad-point bit "
        f"of {text(joint.diameter)}, its point in the prick, and a depth stop or tape "
        f"{text(joint.depths[0])} behind its cutting edges, the point not counted. Keep it square "
        "both ways: sight it against a square that stands beside it, from in front and from the "
        "side. Clear the chips often. Countersink every mouth a little, so that no burr keeps the "
        "boards apart and spare glue has room.",
    )
    yield Step(
        Task.CUT_SECOND,
        f"Bore {second}",
        f"In the same way, {text(joint.depths[1])} deep.{_caution(joint)}",
    )
    yield Step(
        Task.MAKE_KEYS,
        "Cut the dowels",
        "Try a dowel in a trial hole: it goes in by hand and stays. For each joint cut "
        f"{_count(joint)} {text(joint.dowel)} long, {text(joint.spare)} less than both holes "
        "together. Chamfer both ends, and saw or plane a groove along each, or trapped air and "
        "glue split the board.",
    )
    yield Step(
        Task.FIT,
        "Try it dry",
        f"{PEEL} Put the dowels in dry and press the boards together; the outside faces must come "
        "flush. Where a hole is out of place, glue a dowel into it, cut that off level, and gauge, "
        "prick and bore anew.",
    )
    faces = " and on both edges" if joint.given.form == EDGE else ""
    order = ""
    if joint.given.form == FRAME:
        order = (
            " Glue two legs to the rails between them, and when that holds, the two frames to the "
            "other rails."
            if joint.upright.is_leg
            else " Glue all rails to one stile, and then the other stile to all of them at once, a "
            "clamp over each rail."
        )
    yield Step(
        Task.GLUE,
        "Glue",
        f"Brush glue on the walls of the holes in {second}: on a dowel it would be wiped off at "
        f"the mouth. Drive the dowels in till they stand {text(joint.standing)} out. Brush glue in "
        f"the holes of {first}{faces}, close the joint and clamp square across it, a block on each "
        f"side.{order} Check that it is flat, and measure both diagonals.",
    )


def _marks(joint: Dowelled) -> str:
    if joint.upright.is_leg:
        return MARKS_OF_LEGS
    return (
        f"Mark the outside face and the reference edge of {joint.named(0)} and of "
        f"{joint.named(1)}: everything is gauged from the outside faces."
    )


def _meet(joint: Dowelled) -> str:
    first, second = joint.named(0), joint.named(1)
    if joint.given.form == EDGE:
        return (
            "Shoot the two meeting edges until they close without light between them: the far edge "
            f"of {first} against the reference edge of {second}, outside faces up."
        )
    length = f"Make {first} just as long as the space that it fills"
    if long := joint.boards[0].length:
        length += f", {joint.text(long)}"
    length += ", its ends square both ways"
    if joint.upright.is_leg:
        return f"{length}."
    if joint.given.form == FRAME:
        edges = "The reference edges face into the frame"
        if joint.given.at:
            edges = (
                f"The reference edge of {second} faces into the frame; that of {first} is its "
                "lower one"
            )
        return f"{edges}. {length}."
    return f"The reference edges are at the front. {length}."


def _gauge(joint: Dowelled) -> Iterator[str]:
    text, first, second = joint.text, joint.named(0), joint.named(1)
    where = "far edge" if joint.given.form == EDGE else "end"
    half = text(joint.thick / 2)
    yield (
        f"Set a gauge to {half}, half the thickness. With its stock on the outside face gauge "
        f"along the {where} of {first}."
    )
    if joint.given.form in (FRAME, EDGE):
        along, leg = "reference edge", ""
        if joint.upright.is_leg:
            along, leg = joint.upright.entered, f", the stock on its {joint.upright.gauged}"
        yield (
            f"With the same setting gauge along the {along} of {second}{leg}: if the gauge is "
            "a hair out, it is out alike in both, and does no harm."
        )
    elif joint.given.form == TEE:
        at = joint.given.at
        second_line = f"{half} further" if at is None else text(at + joint.thick / 2)
        yield (
            f"Square a pencil line where the outside face of {first} comes{_place(joint)} across "
            f"the inside face of {second}, and a second line {second_line} from the "
            f"{joint.up_end(1)}: the middle of the holes."
        )
    else:
        yield (
            f"With the same setting and its stock on the end of {second} gauge across that one's "
            "inside face."
        )
    if joint.given.form == FRAME:
        line = f"square a pencil line across the {joint.upright.entered} of {second}"
        if joint.given.at == 0:
            yield (
                f"The far edge of {first} comes level with the end: {line} {text(joint.line)} from "
                f"there, where the reference edge of {first} comes."
            )
        else:
            yield (
                f"S{line[1:]} where the far edge of {first} comes{_place(joint)}. Its "
                f"reference edge comes {text(joint.line)} further on: square a line there too."
            )
    if joint.given.form == EDGE:
        yield (
            "Lay the setting-out strip along the seam, its arrow as ▲ on the first board's "
            "template, and square a pencil line across both edges at every hole's middle."
        )


def _place(joint: Dowelled) -> str:
    at = joint.given.at
    if at is None:
        return PLACED_ALIKE
    if not at:
        return f", level with the {'top end' if joint.upright.is_leg else 'end'}"
    return f", {joint.text(at)} from the {joint.up_end(1)}"


def _lay_on_first(joint: Dowelled) -> str:
    if joint.given.form == EDGE:
        return (
            f"Trim the template and lay it on the far edge, the {dashed_line(is_cut=False)} on the "
            f"line of {_which(joint)}, ▲ towards the start of the seam."
        )
    return (
        "Trim the template, fold its tab square, and lay it on the end so that the tab lies on the "
        "outside face and the reference edges are flush."
    )


def _lay_on_second(joint: Dowelled) -> str:
    line = dashed_line(is_cut=False)
    if joint.given.form == EDGE:
        return (
            f"Lay its template on the reference edge, the {line} on the line of {_which(joint)}, "
            "▲ towards the end of the seam."
        )
    if joint.upright.is_leg:
        return (
            f"Lay its template on the {joint.upright.entered}, the {line} on the line of the "
            f"{joint.role(0)}'s far edge, ▲ towards the top end."
        )
    if joint.given.form == FRAME and joint.given.at == 0:
        return "Lay its template on the reference edge, flush with the end, ▲ towards it."
    if joint.given.form == FRAME:
        return (
            f"Lay its template on the reference edge, the {line} on the line of the "
            f"{joint.role(0)}'s far edge, ▲ towards the end that it names."
        )
    if joint.given.form == TEE:
        return (
            f"Lay its template on the inside face, the {line} on the squared line, ▲ towards the "
            f"{joint.up_end(1)}, reference edges flush."
        )
    return "Lay its template on the inside face, flush with the end and the reference edge."


def _caution(joint: Dowelled) -> str:
    room = joint.rooms[1]
    if joint.given.form not in (CORNER, TEE) or room is None:
        return ""
    left = joint.text(room - joint.depths[1])
    return f" Only {left} of wood is left below: try the stop in waste first."


def _which(joint: Dowelled) -> str:
    """The holes whose line a seam's templates are laid on."""
    return "hole 1" if len(joint.shown) == len(joint.positions) else "each hole in turn"


def _count(joint: Dowelled) -> str:
    count = len(joint.positions)
    return f"{count} dowels, each" if count > 1 else "1 dowel"
