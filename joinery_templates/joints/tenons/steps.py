"""The order of work of a mortise and tenon: mortises first, and tenons fitted to them.

So the trade goes about it (common practice, no source).
"""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.layout import PEEL, PRINT_AGAIN, dashed_line
from joinery_templates.joints.tenons import rail_steps, stile_steps
from joinery_templates.joints.tenons.cuts import LINE
from joinery_templates.joints.tenons.tenon import Tenon


def steps(tenon: Tenon) -> Iterator[Step]:
    """All steps, with the layout's own figures."""
    given = tenon.given
    yield from _preparing(tenon)
    yield _laying_on(tenon)
    if given.drawbore:
        yield stile_steps.boring(tenon)
    yield from stile_steps.mortising(tenon)
    if tenon.channel_depth:
        yield _ploughing(tenon)
    yield from rail_steps.tenoning(tenon)
    if given.wedges:
        yield from rail_steps.wedging(tenon)
    yield _fitting(tenon)
    if given.drawbore:
        yield from rail_steps.pegging(tenon)
    yield _gluing(tenon)


def _preparing(tenon: Tenon) -> Iterator[Step]:
    given, text = tenon.given, tenon.text
    horn = ""
    if given.horn:
        horn = (
            f" Leave the stile longer than the frame is high: {text(given.horn)} for the horn, at "
            "each end that a rail meets."
        )
    where = "" if tenon.is_square else ", measured along its far edge,"
    yield Step(
        Task.PREPARE,
        "Prepare",
        "Mark the outside face and the reference edge of all pieces, and the joint's name: the "
        f"reference edges face into the frame. Make {tenon.named(0)} as long as the space between "
        f"the stiles{where} and {text(tenon.length)} more for the tenon at each of its ends, ends "
        f"square.{horn} Measure width and thickness of {tenon.named(0)} and {tenon.named(1)} "
        f"again: if they are not {PRINT_AGAIN}.",
    )
    at = "" if tenon.along is None else f", {text(tenon.along)} from the stile's end that it faces"
    yield Step(
        Task.GAUGE,
        "Square the rail's lines on the stiles",
        "Clamp both stiles together, ends level and reference edges up. For each rail square two "
        f"pencil lines across these edges: one where the {LINE} comes{at}, and a second "
        f"{text(tenon.across_stile)} beyond the first, where the rail's reference edge comes. The "
        "mortise lies between them. On further stiles the setting-out strip, its arrow at the "
        "first line, gives the mortise's ends.",
        (1,),
    )


def _laying_on(tenon: Tenon) -> Step:
    given = tenon.given
    has_socket = given.haunch is not None and not tenon.haunch_lies_in_groove
    line = dashed_line(has_socket or not tenon.shoulders[1])
    faces = [
        *(["the outside face"] if given.drawbore else []),
        *(["the far edge"] if given.through else []),
    ]
    more = ""
    if faces:
        these = "its template" if len(faces) == 1 else "their templates"
        more = f" Carry that line on to {' and '.join(faces)}, and lay {these} on likewise."
    return Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(1)}",
        "Trim the template along its outer lines and lay it on the stile's reference edge, between "
        f"the arrises, its {line} on the line of the {LINE}, ▲ towards the end past it. Glue it, "
        f"or tape it and prick it through at the small rings.{more}",
    )


def _ploughing(tenon: Tenon) -> Step:
    given, text, back = tenon.given, tenon.text, tenon.given.set_back
    deep, (low, high) = text(tenon.channel_depth), tenon.channel
    if given.groove:
        stile = f"; in the stile from {text(low + back)} to {text(high + back)}" if back else ""
        return Step(
            Task.PLOUGH,
            "Plough the groove",
            f"Along the reference edges of rails and stiles, {deep} deep, from {text(low)} to "
            f"{text(high)} from the outside face{stile}. Keep the plane's fence on the "
            "outside face of every piece, and let it run right through, over the mortises.",
        )
    return Step(
        Task.PLOUGH,
        "Plane the rebate",
        f"Along the reference edges of rails and stiles, {deep} in from the edge, down to "
        f"{text(low + back)} from the stile's outside face. Plane it before you saw any shoulder: "
        "the inside one is longer by as much.",
    )


def _fitting(tenon: Tenon) -> Step:
    back = tenon.given.set_back
    level = "The outside faces must come flush"
    if back:
        level = f"The rail's outside face must lie {tenon.text(back)} behind the stile's"
    return Step(
        Task.FIT,
        "Fit the tenon to the mortise",
        f"{PEEL} Chamfer the tenon's end a little. The tenon goes in by hand with pressure and "
        "stays when you lift the stile. Where a cheek shines, pare it across the grain; leave the "
        f"mortise. {level}: take from the cheek that keeps them apart. Where a shoulder stays "
        "open, pare what holds it off.",
    )


def _gluing(tenon: Tenon) -> Step:
    given = tenon.given
    hold = "clamp along the rail till all shoulders are shut"
    if given.wedges and not given.through:
        hold = (
            "start the wedges in their kerfs, and clamp along the rail till the mortise's floor "
            "has driven them home and all shoulders are shut"
        )
    if given.drawbore:
        hold += "; drive the pegs till they are tight, and take the clamp off"
    if given.wedges and given.through:
        hold += "; glue the wedges and drive both by turns, a little each, till they are tight"
    last = " When it is hard, saw off every horn and plane the ends flush." if given.horn else ""
    if given.through or given.drawbore:
        last += " Saw off what stands out, and plane it flush."
    flush = "" if given.set_back else " Plane the outside faces flush."
    panel = ""
    if given.groove:
        panel = (
            "A panel goes in dry, with no glue in its groove, so that it can move: first the rails "
            "into one stile, then the panel, then the other stile. "
        )
    return Step(
        Task.GLUE,
        "Glue",
        f"Put the whole frame together dry first, and measure both diagonals. {panel}Glue all "
        "rails into one stile and put the other on: brush glue on the mortises' cheeks and thinly "
        f"on the tenons', {hold}. Measure both diagonals again, and sight across the frame for "
        f"twist.{last}{flush}",
    )
