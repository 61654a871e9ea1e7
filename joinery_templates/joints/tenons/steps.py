"""The order of work of a mortise and tenon: mortises first, and tenons fitted to them.

So the trade goes about it (common practice, no source).
"""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.layout import PEEL, PRINT_AGAIN, dashed_line, fold_over
from joinery_templates.joints.tenons.cuts import LINE
from joinery_templates.joints.tenons.proportions import A_LITTLE
from joinery_templates.joints.tenons.tenon import Tenon


def steps(tenon: Tenon) -> Iterator[Step]:
    """All steps, with the layout's own figures."""
    yield from _preparing(tenon)
    if tenon.channel_depth:
        yield _ploughing(tenon)
    if tenon.given.drawbore:
        yield _boring_stile(tenon)
    yield from _mortising(tenon)
    yield from _sawing_cheeks(tenon)
    yield _sawing_shoulders(tenon)
    if tenon.given.wedges:
        yield from _wedging(tenon)
    yield _fitting(tenon)
    if tenon.given.drawbore:
        yield from _pegging(tenon)
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
    at = "" if tenon.along is None else f", {text(tenon.along)} from the stile's end"
    yield Step(
        Task.GAUGE,
        "Square the rail's lines",
        "Clamp both stiles together, ends level and reference edges up. For each rail square two "
        f"pencil lines across these edges: one where the {LINE} comes{at}, and a second "
        f"{text(tenon.across_stile)} beyond the first, where the rail's reference edge comes.",
    )
    faces = []
    if given.through:
        faces.append(
            "Square the line on to the far edge as well, over the faces, and lay that edge's "
            "template on it."
        )
    if given.drawbore:
        faces.append("So too that for the outside face, where the holes are.")
    yield Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(1)}",
        "Trim the template along its outer lines and lay it on the stile's reference edge, between "
        f"the arrises, its {dashed_line(_is_line_cut(tenon))} on the line of the {LINE}, ▲ "
        "towards the nearer end. Glue it, or tape it and prick it through at the small crosses."
        f"{''.join(f' {words}' for words in faces)}",
    )


def _is_line_cut(tenon: Tenon) -> bool:
    """Whether a wall of the joint stands on the line of the rail's far edge."""
    has_socket = tenon.is_haunch_square and not tenon.haunch_lies_in_groove
    return not tenon.shoulders[1] or has_socket


def _ploughing(tenon: Tenon) -> Step:
    given, text, back = tenon.given, tenon.text, tenon.given.set_back
    deep, (low, high) = text(tenon.channel_depth), tenon.channel
    if given.groove:
        stile = f", but from {text(low + back)} to {text(high + back)} in the stile" if back else ""
        return Step(
            Task.PLOUGH,
            "Plough the groove",
            f"Along the reference edges of rails and stiles, {deep} deep, from {text(low)} to "
            f"{text(high)} from the outside face{stile}. Plough before you chop: the mortise's "
            "gauge lines then run in the groove's floor.",
        )
    return Step(
        Task.PLOUGH,
        "Plane the rebate",
        f"Along the reference edges of rails and stiles, {deep} in from the edge, down to "
        f"{text(low + back)} from the stile's outside face. Gauge both lines first, and plane "
        "before you saw shoulders: the inside one is then longer by as much.",
    )


def _boring_stile(tenon: Tenon) -> Step:
    drawbore, text = tenon.given.drawbore, tenon.text
    assert drawbore
    deep = "right through, on to waste wood clamped behind"
    if drawbore.depth:
        deep = f"{text(drawbore.depth)} deep"
    return Step(
        Task.CUT_SECOND,
        "Bore the stile",
        f"Bore while it is whole: from the outside face, square to it, bit of {text(tenon.peg)} "
        f"on the cross, {text(tenon.from_shoulder)} from the reference edge, {deep}.",
    )


def _mortising(tenon: Tenon) -> Iterator[Step]:
    given, text = tenon.given, tenon.text
    edges = "both edges" if given.through else "the reference edge"
    more = ""
    if given.twins > 1:
        more = " Gauge the mortises beside it likewise, from the same face."
    yield Step(
        Task.GAUGE,
        "Set the mortise gauge",
        f"Set both points to the chisel itself, {text(tenon.mortise_width)}, then the stock so "
        f"that the nearer point stands {text(tenon.mortise_from)} from it. With the stock on the "
        f"stile's outside face, gauge the sides of the mortise on {edges}: the points must run in "
        f"the printed lines. Knife its ends across.{more} Leave the gauge set.",
    )
    little = A_LITTLE[tenon.units]
    left = f" and {text(little)} inside the end lines" if tenon.width > 4 * little else ""
    how = (
        f"Keep between the gauged lines{left}; hold the chisel upright, its cutting edge across "
        "the grain and its sides in line with the gauged lines. Chop in small steps from one end "
        "to the other, lever out the chips, and go down in layers."
    )
    if given.through:
        words = (
            f"Clamp the stile over the bench's leg. {how} Half way down turn it over and "
            "chop from the other edge till both meet, so that neither edge breaks out. Then chop "
            "the ends to the middle of their lines, from both edges inwards."
        )
    else:
        below = ""
        if tenon.extra:
            below = f", {text(tenon.extra)} more than the tenon goes in"
        words = (
            "Clamp the stile over the bench's leg, reference edge up. Mark "
            f"{text(tenon.depth)} on the chisel with tape{below}. {how} When the depth is reached, "
            "chop the ends to the middle of their lines."
        )
    ends = " Chop the ends at the rail's slant: a bevel set to its shoulder shows it."
    words += ends if not tenon.is_square else ""
    words += " Try the sides with a square on the reference edge; pare bumps, but make it no wider."
    yield Step(Task.CUT_SECOND, "Chop the mortise", words + _haunch_socket(tenon))
    if given.wedges:
        where = "far edge" if given.through else "floor"
        yield Step(
            Task.CUT_SECOND,
            "Pare the flare",
            f"At both ends of the mortise pare its wall aslant: by {text(tenon.flare)} at the "
            f"{where}, to nothing {text(tenon.flare_from)} below the reference edge. Its sides "
            "stay as they are.",
        )


def _haunch_socket(tenon: Tenon) -> str:
    if not tenon.given.haunch or tenon.haunch_lies_in_groove:
        return ""
    deep = tenon.text(tenon.haunch_length)
    if tenon.is_haunch_square:
        return f" Then chop for the haunch, {deep} deep, up to the line of the {LINE}."
    return (
        f" Then chop for the haunch: {deep} deep beside the mortise, rising to nothing at the line "
        f"of the {LINE}."
    )


def _sawing_cheeks(tenon: Tenon) -> Iterator[Step]:
    given, text, (low, high) = tenon.given, tenon.text, tenon.cheeks[0]
    gauge = "With the mortise gauge still set and its stock on the outside face, gauge"
    if given.fit or given.set_back:
        stock = f"its stock to {text(low)}; with the stock" if low else "one point to the arris;"
        gauge = (
            f"Set the mortise gauge to {text(high - low)} and {stock} on the outside face, gauge"
        )
    if not low:
        gauge = f"With a gauge set to {text(high)}, its stock on the outside face, gauge"
    yield Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(0)}",
        f"{fold_over()} {gauge} the cheeks on the end grain and down both edges to the shoulder: "
        "there they must fall on the printed lines.",
    )
    around = f"{text(tenon.length)} from the end, against a square all round: both faces and both "
    around += "edges"
    if not tenon.is_square:
        around = "by the printed lines: against a bevel on both faces, and square across both edges"
    if given.rebate:
        around = (
            f"{text(tenon.length)} from the end, against a square on the outside face and across "
            f"both edges; on the inside face {text(tenon.length - tenon.channel_depth)} from the "
            "end, for the longer shoulder that fills the stile's rebate"
        )
    yield Step(
        Task.GAUGE,
        "Knife the shoulder",
        f"Knife the shoulder, {around}. On the faces pare a small groove to it from the waste, for "
        "the saw.",
    )
    many = " Saw down between the tenons likewise, and chop the piece out from both edges."
    yield Step(
        Task.SAW_FIRST,
        "Saw the cheeks",
        "Clamp the rail upright. Saw beside the cheek lines, on the waste side: aslant from the "
        "near edge, turn the rail, aslant from the other edge, then level down to the shoulder. "
        "Then lay it flat and saw off the cheeks across the faces, in the groove beside the knifed "
        f"shoulder and no deeper.{many if given.twins > 1 else ''}",
    )
    if tenon.has_detail:
        yield Step(
            Task.LAY_ON,
            "Lay on the tenon",
            "Trim its template and lay it on the outside cheek, end to end and edge to edge, the "
            "paper folded up where it meets the shoulder. Prick it through at the small crosses.",
        )


def _sawing_shoulders(tenon: Tenon) -> Step:
    text, given = tenon.text, tenon.given
    edges = zip(("reference", "far"), tenon.shoulders, strict=True)
    told = [f"{text(inset)} from the {edge} edge" for edge, inset in edges if inset]
    sides, them = ("sides", "them") if len(told) > 1 else ("side", "it")
    words = []
    if told:
        words.append(
            f"Gauge the tenon's {sides} on its cheeks, {' and '.join(told)}; saw down beside "
            f"{them}, on the waste side, and across beside the shoulder."
        )
    if given.haunch:
        form = (
            f"Leave the haunch standing: {text(tenon.haunch_length)} from the shoulder"
            if tenon.is_haunch_square
            else f"Leave the haunch standing: {text(tenon.haunch_length)} long beside the tenon, "
            "running out to nothing at the far edge"
        )
        words.append(f"{form}.")
    if tenon.gaps:
        words.append("Saw down beside the tenons and chop the wood between them out, both faces.")
    words.append("Chamfer the tenon's end a little.")
    return Step(Task.SAW_FIRST, "Saw the shoulders", " ".join(words))


def _wedging(tenon: Tenon) -> Iterator[Step]:
    text = tenon.text
    yield Step(
        Task.SAW_FIRST,
        "Saw the kerfs",
        f"Two in each tenon, in the middle of {text(tenon.from_side)} from each side, from its end "
        f"{text(tenon.kerf_depth)} down and no deeper.",
    )
    stock = tenon.wedge_stock
    yield Step(
        Task.MAKE_KEYS,
        "Make the wedges",
        f"Of dry straight-grained hardwood, {text(stock.thickness)} wide and grain along: "
        f"{text(stock.width)} thick where the template's line ends, {text(tenon.kerf_depth)} from "
        "the thin end. Leave them longer there, to be driven.",
    )


def _fitting(tenon: Tenon) -> Step:
    back = tenon.given.set_back
    level = "The outside faces must come flush"
    if back:
        level = f"The rail's outside face must lie {tenon.text(back)} behind the stile's"
    return Step(
        Task.FIT,
        "Fit the tenon to the mortise",
        f"{PEEL} The tenon goes in by hand with pressure and stays when you lift the stile. Where "
        f"a cheek shines, pare it across the grain; leave the mortise. {level}: take from "
        "the cheek that keeps them apart. Where a shoulder stays open, pare what holds it off.",
    )


def _pegging(tenon: Tenon) -> Iterator[Step]:
    text = tenon.text
    yield Step(
        Task.SAW_FIRST,
        "Bore the tenon",
        "With the shoulders shut, press the bit's point through the stile's hole on the cheek, and "
        f"take the joint apart: the template's cross must stand {text(tenon.offset)} nearer to the "
        "shoulder than this mark. Bore there, square to the cheek, on waste wood; never towards "
        "the tenon's end, or the peg drives the shoulder open.",
    )
    yield Step(
        Task.MAKE_KEYS,
        "Make the pegs",
        f"Split them from dry straight-grained hardwood, {text(tenon.peg)} thick, and do not saw "
        "them: a peg whose grain runs out breaks in the bend. Taper a third of their length, so "
        "that the point goes through all holes.",
    )


def _gluing(tenon: Tenon) -> Step:
    given = tenon.given
    hold = "clamp along the rail till all shoulders are shut"
    if given.drawbore:
        hold += ", drive the pegs till they are tight and do not turn, and take the clamp off"
    if given.wedges and given.through:
        hold += ", glue the wedges and drive both by turns, a little each, till they are tight"
    elif given.wedges:
        hold = (
            "start the wedges in their kerfs, and clamp along the rail till the mortise's floor "
            "has driven them home and all shoulders are shut"
        )
    last = " When it is hard, saw off the horn and plane the end flush." if given.horn else ""
    if given.through or given.drawbore:
        last += " Saw off what stands out and plane it flush when the glue is hard."
    flush = "" if given.set_back else " Plane the outside faces flush."
    return Step(
        Task.GLUE,
        "Glue",
        f"Brush glue on the mortise's sides and thinly on the cheeks, {hold}, measure both "
        f"diagonals, and sight across the frame for twist.{last}{flush}",
    )
