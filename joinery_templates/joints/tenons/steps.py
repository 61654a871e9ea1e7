"""The order of work of a mortise and tenon: mortises first, and tenons fitted to them.

So the trade goes about it (common practice, no source).
"""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.rail_length import rail_length
from joinery_templates.joints.tenons import rail_steps, stile_steps
from joinery_templates.joints.tenons.cuts import LINE
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.upright import MARKS_OF_LEGS, TOP
from joinery_templates.joints.words import PEEL, PLACE_CHOSEN, dashed_line, listed, measure_again


def order_of_work(tenon: Tenon) -> Iterator[Step]:
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
    if tenon.ends_mitred:
        yield rail_steps.mitring(tenon)
    if given.wedges:
        yield from rail_steps.wedging(tenon)
    yield _fitting(tenon)
    if given.drawbore:
        yield from rail_steps.pegging(tenon)
    yield _gluing(tenon)


def _preparing(tenon: Tenon) -> Iterator[Step]:
    given, text, name = tenon.given, tenon.text, tenon.role(1)
    around = tenon.request.around
    horn = ""
    if given.horn:
        piece, at = "frame", "each end that a rail meets"
        if tenon.upright.is_leg:
            piece, at = "piece", "its top"
        horn = (
            f" Leave the {name} longer than the {piece} is high: {text(given.horn)} for the horn, "
            f"at {at}."
        )
    marks = MARKS_OF_LEGS if tenon.upright.is_leg else f"{MARKS_OF_FRAME}{_towards(tenon)}."
    length = rail_length(tenon, "tenon", tenon.length, tenon.is_square)
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"{marks} {length}{horn} {measure_again(f'{tenon.named(0)} and {tenon.named(1)}')}",
    )
    end = f"{tenon.upright.end} that this edge faces"
    clamped = (
        "Clamp both stiles together, outside faces outwards, ends level and reference edges up."
    )
    if around.alone:
        clamped = f"This joint is on {around.alone} alone: lay it with its reference edge up."
    if tenon.upright.is_leg:
        end = tenon.upright.end
        clamped = (
            f"Clamp all legs side by side, their top ends level and {tenon.upright.entered}s up."
        )
    place = PLACE_CHOSEN
    if tenon.along is not None:
        place = f", {text(tenon.along)} from the {end}"
    elif around.at_ends:
        place = ", level with the end that this edge faces"
    lines = (
        f"For each rail of this joint square two pencil lines across: one where the {LINE} "
        f"comes{place}, and a second {text(tenon.across_stile)} beyond the first, where the rail's "
        "reference edge comes. The mortise lies between them."
    )
    if tenon.along == 0:
        lines = (
            f"The {LINE} comes level with the {end}: square a pencil line across "
            f"{text(tenon.across_stile)} from there, where its reference edge comes. The mortise "
            "lies between the two."
        )
    start = "end" if tenon.along == 0 else "first line"
    yield Step(
        Task.GAUGE,
        f"Square the rail's lines on the {name}s",
        f"{clamped} {lines} Without templates "
        f"knife the mortise's ends by the setting-out strip, its arrow at the {start}.",
        (1,),
        is_shown=False,
    )


MARKS_OF_FRAME = (
    "Mark the outside face and the reference edge of all pieces, and the joint's name: the "
    "reference edges face into the frame"
)


def _towards(tenon: Tenon) -> str:
    """Where the reference edge of a rail between others looks."""
    if tenon.given.at is None and not tenon.given.middle:
        return ""
    return f"; that of {tenon.named(0)} away from the {tenon.upright.end} that it is measured from"


def _laying_on(tenon: Tenon) -> Step:
    given = tenon.given
    has_socket = given.haunch is not None and not tenon.haunch_lies_in_groove
    line = dashed_line(has_socket or not tenon.shoulders[1])
    upright = tenon.upright
    past = f"the {TOP}" if upright.is_leg else "the end that it names"
    where = f"the line of the {LINE}, ▲ towards {past}"
    if tenon.along == 0:
        where = f"the arris of the {upright.end}, ▲ towards it; fold what stands past it over"
    faces = [
        *([f"the {upright.gauged}"] if given.drawbore else []),
        *([f"the {upright.beyond}"] if given.through else []),
    ]
    more = ""
    if faces:
        these = "its template" if len(faces) == 1 else "their templates"
        more = f" Carry that line on to {' and '.join(faces)}, and lay {these} on likewise."
    return Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(1)}",
        f"Trim the template along its outer lines and lay it on the {upright.face}, between the "
        f"arrises, the {line} on {where}. Glue it, or "
        f"tape it and prick it through at the small rings.{more}",
    )


def _ploughing(tenon: Tenon) -> Step:
    given, text, back = tenon.given, tenon.text, tenon.given.set_back
    upright, name = tenon.upright, tenon.role(1)
    along, fence = "Along the reference edges of rails and stiles", "outside face of every piece"
    if upright.is_leg:
        along = f"Along the rails' reference edges and the {upright.name}s' {upright.entered}s"
        fence = f"rails' outside faces and the legs' {upright.gauged}s"
    peel = f"When the mortises are cut, peel the paper off the {name}s. "
    deep, (low, high) = text(tenon.channel_depth), tenon.channel
    if given.groove:
        stile = f"; in the {name} from {text(low + back)} to {text(high + back)}" if back else ""
        return Step(
            Task.PLOUGH,
            "Plough the groove",
            f"{peel}{along}, {deep} deep, from {text(low)} to "
            f"{text(high)} from the outside face{stile}. Keep the plane's fence on the "
            f"{fence}, and let it run right through, over the mortises{tenon.request.around.stop}. "
            f"Make the panel {text(2 * tenon.channel_depth)} larger than the space, less a hair "
            "along its grain, and across it less as much as it may swell."
            f"{_at_far_edges(tenon)}",
        )
    return Step(
        Task.PLOUGH,
        "Plane the rebate",
        f"{peel}{along}, {deep} in from the edge, down to {text(low + back)} from the "
        f"{name}'s {upright.gauged}. Plane it before you saw any shoulder: "
        f"the inside one is longer by as much.{_at_far_edges(tenon)}",
    )


BOTH_EDGES = " {} stands on either side of {}: work the far edge there likewise."
FAR_EDGE = (
    " {} stands at the far edge of {} alone: work the far edge there likewise. At the reference "
    "edge, which is worked as its templates show, nothing stands."
)


def _at_far_edges(tenon: Tenon) -> str:
    """Which rails of the job are grooved or rebated there too."""
    found: dict[str, list[str]] = {}
    for rail, is_between in tenon.request.around.panelled:
        found.setdefault(BOTH_EDGES if is_between else FAR_EDGE, []).append(rail)
    panel = "A panel" if tenon.given.groove else "A panel or glass"
    return "".join(words.format(panel, listed(rails)) for words, rails in found.items())


def _fitting(tenon: Tenon) -> Step:
    back = tenon.given.set_back
    name, face = tenon.role(1), tenon.upright.gauged
    level = "The outside faces must come flush"
    if tenon.upright.is_leg:
        level = f"The rail's outside face must come flush with the {name}'s {face}"
    if back:
        level = f"The rail's outside face must lie {tenon.text(back)} behind the {name}'s {face}"
    return Step(
        Task.FIT,
        "Fit the tenon to the mortise",
        f"{PEEL} Chamfer the tenon's end a little. The tenon goes in by hand with pressure and "
        f"stays when you lift the {name}. Where a cheek shines, pare it across the grain; leave "
        f"the mortise. {level}: if the rail stands too far out, pare the tenon's inside cheek, if "
        "too far back, its outside cheek. Where a shoulder stays open, pare what holds it off.",
    )


def _gluing(tenon: Tenon) -> Step:
    given = tenon.given
    hold = "clamp along the rail till all shoulders are shut"
    if given.through:
        what = "tenons and wedges" if given.wedges else "the tenons"
        hold = (
            f"clamp along the rail till all shoulders are shut, over blocks notched clear of {what}"
        )
    elif given.wedges:
        hold = (
            "start the wedges in their kerfs, and clamp along the rail till the mortise's floor "
            "has driven them home and all shoulders are shut"
        )
    if given.drawbore:
        hold += "; drive the pegs till they are tight, and take the clamp off"
    if given.wedges and given.through:
        hold += (
            "; last of all glue the wedges and drive both in turn, a little each, till they are "
            "tight"
        )
    last = " When it is hard, saw off every horn and plane the ends flush." if given.horn else ""
    if given.through or given.drawbore:
        last += " Saw off what stands out, and plane it flush."
    flush = "" if given.set_back else " Plane the outside faces flush."
    clear = panel = with_panel = ""
    if given.groove:
        panel = " slide the panel in dry, with no glue in its groove, so that it can move,"
        with_panel = ", the panel too"
    frame, first = "frame", f"all rails into one stile,{panel} and put the other on"
    if tenon.upright.is_leg:
        flush, frame = "", "piece"
        clear = " Clear out at once what glue runs into a mortise that is still open."
        first = (
            f"legs A and B with all rails between them first, flat on the bench,{panel} and D and "
            "C likewise; when these are hard, the other rails in one go"
        )
    return Step(
        Task.GLUE,
        "Glue",
        f"Put the whole {frame} together dry first{with_panel}, and measure both diagonals. Glue "
        f"{first}: brush glue on the mortises' cheeks and thinly on the tenons', {hold}.{clear} "
        f"Measure both diagonals again, and sight across the {frame} for twist.{last}{flush}",
    )
