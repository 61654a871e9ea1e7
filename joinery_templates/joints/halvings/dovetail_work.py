"""Advice on a dovetailed halving, and the order of work with the layout's own figures."""

from collections.abc import Iterator

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.exact import Fraction
from joinery_templates.joint import Step, Task
from joinery_templates.joints.checks import loose_fit, unusual_slope
from joinery_templates.joints.halvings.dovetail_shape import (
    BOTH,
    FAR_EDGE,
    HALVINGS,
    NECK,
    REFERENCE_EDGE,
    DovetailHalving,
)
from joinery_templates.joints.rail_length import rail_length
from joinery_templates.joints.sources import JOYCE
from joinery_templates.joints.words import (
    BESIDE,
    GAUGED_HOLD,
    PEEL,
    PLACE_CHOSEN,
    beside,
    dashed_line,
    measure_again,
    slope_text,
)

THIRD = Fraction(1, 3)


def advise(halving: DovetailHalving) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    given, shown = halving.given, f"A slope of {slope_text(halving.slope)}"
    yield from unusual_slope(
        halving.slope,
        f"{shown} leaves weak short grain at the corners of the dovetail.",
        f"{shown} holds little.",
        JOYCE,
        "1:5 to 1:8 is usual.",
    )
    if halving.neck < halving.rail.width * NECK:
        yield advice(
            "neck-narrow",
            f"The neck, {halving.text(halving.neck)}, is less than half as wide as the rail and "
            "may break.",
            OURS,
            "Give a flatter slope, one sloped side, or a dovetail that stops short.",
            "slope",
        )
    yield from _on_thickness(halving)
    yield from _on_stopping(halving)
    yield from loose_fit(halving, given.fit, "at each sloping side is more than glue fills well")


def _on_thickness(halving: DovetailHalving) -> Iterator[Finding]:
    told = halving.given.lap is not None
    for code, what, left, board, remedy in (
        ("lap-thin", "The dovetail", halving.lap, halving.rail, "thicker"),
        ("stile-thin", "The stile at the socket", halving.kept, halving.stile, "thinner"),
    ):
        if left < board.thickness * THIRD:
            yield advice(
                code,
                f'{what} is only {halving.text(left)} thick, less than a third of "{board.name}".',
                f"{HALVINGS}: half of each; the third is our judgement",
                f"Give a {remedy} lap." if told else "Take boards nearer in thickness.",
                "lap" if told else "",
            )
    if not halving.outside and halving.socket_depth < halving.thinner.thickness * THIRD:
        yield advice(
            "socket-shallow",
            f"Only {halving.text(halving.socket_depth)} of the dovetail's thickness lies in the "
            "stile: the rest stands past its inside face, and holds nothing.",
            f"{HALVINGS}: half of each; the third of the thinner board is our judgement",
            "Give a thicker lap.",
            "lap",
        )


def _on_stopping(halving: DovetailHalving) -> Iterator[Finding]:
    if not halving.stopped:
        return
    left = halving.stile.width - halving.reach
    if left < halving.socket_depth / 2:
        yield advice(
            "stile-edge-thin",
            f"Past the socket's end only {halving.text(left)} of the stile is left, and it may "
            "break out when you chop.",
            OURS,
            "Stop sooner, or let the dovetail run right across.",
            "lap_length",
        )
    # What holds is the dovetail's own length, however wide the stile is.
    if halving.reach < min(halving.stile.width / 2, halving.rail.width):
        yield advice(
            "lap-short",
            f"A dovetail {halving.text(halving.reach)} long reaches over less than half of the "
            "stile, is shorter than the rail is wide, and holds little.",
            OURS,
            "Let it reach further.",
            "lap_length",
        )


def rules_of(halving: DovetailHalving) -> Iterator[str]:
    """What was decided by a rule."""
    if halving.given.lap is None:
        share = "half of the rail's thickness"
        if halving.lap < halving.rail.thickness / 2:
            share = "two thirds of the stile's thickness, since half of the rail's is more"
        elif halving.lap > halving.rail.thickness / 2:
            share = "all of the rail behind the middle of the stile's thickness"
        yield f"Lap: {share}, {halving.text(halving.lap)} ({HALVINGS})."
    if halving.stopped and halving.given.lap_length is None:
        yield (
            f"Length of the dovetail: {halving.text(halving.reach)}, so that the neck keeps half "
            f"of the rail ({OURS})."
        )
    if halving.given.shoulder is None:
        yield (
            f"Shoulder beside the dovetail: {halving.text(halving.shoulder)}, so that the "
            f"dovetail's end is as wide as the rail ({COMMON})."
        )


def order_of_work(halving: DovetailHalving) -> Iterator[Step]:
    """The rail first, and its dovetail laid on the stile (common practice, no source)."""
    yield from _marking(halving)
    yield from _cutting_rail(halving)
    yield from _cutting_stile(halving)


def _marking(halving: DovetailHalving) -> Iterator[Step]:
    given = halving.given
    depth = halving.text(halving.gauged)
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"{rail_length(halving, 'dovetail', halving.reach)} On both boards mark the outside face, "
        "the reference edge and the joint's name. "
        f"{measure_again(f'{halving.named(0)} and {halving.named(1)}')}",
    )
    yield Step(
        Task.GAUGE,
        "Place the rail",
        f"Square a pencil line across the {_faces(halving)[0]} face and both edges of "
        f"{halving.named(1)} where the {halving.line} comes{PLACE_CHOSEN}; clamp the two of a pair "
        "together, outside faces outwards and top ends level, and square it over both. The rail "
        f"comes in at the stile's {given.enters}. Left and right are as seen from outside with the "
        "rail's reference edge down.",
        (1,),
    )
    edges = f"the {given.enters}" if halving.stopped else "both edges"
    yield Step(
        Task.SCRIBE,
        "Gauge both from the outside face",
        f"Set one gauge to {depth} and leave it. With its stock on the outside face each time, "
        f"scribe the end grain and both edges of {halving.named(0)}, no further than "
        f"{halving.text(halving.reach)} from the end, and {edges} of {halving.named(1)} from the "
        f"pencil line on towards the rail's {halving.other_edge}, over the width of "
        f"{halving.named(0)}, {halving.text(halving.rail.width)}. If the setting is a hair out, "
        "one gets thicker by what the other gets thinner, and the outside faces stay flush."
        f"{halving.stands_inside}",
    )


def _cutting_rail(halving: DovetailHalving) -> Iterator[Step]:
    shown, hidden = _faces(halving)
    sloped, sides = halving.given.sides, "both sides"
    down = " and down both edges"
    if sloped != BOTH:
        straight = FAR_EDGE if sloped == REFERENCE_EDGE else REFERENCE_EDGE
        sides = f"the side at the {sloped} (at the {straight} it stays straight)"
        down = (
            f", down the {sloped}, and down the {straight} to the gauged line and no further, for "
            "beyond it the line would stay in sight"
        )
    yield Step(
        Task.LAY_ON,
        f"Lay on {halving.named(0)}",
        f"{halving.laid_on()} {GAUGED_HOLD} Knife the shoulder, {halving.text(halving.reach)} "
        f"from the end, on the {hidden} face{down}. On the {shown} face knife it beside the "
        "dovetail only, and never across its neck.",
    )
    yield Step(
        Task.SAW_FIRST,
        "Saw the lap",
        f"The waste is on the {hidden} face. Saw from the end down to the shoulder, "
        f"{beside('the gauged line')}; then saw across the {hidden} face, {beside('the shoulder')},"
        " down to the gauged lines on both edges. Pare the flat true, to the middle of the lines.",
    )
    yield Step(
        Task.SAW_FIRST,
        "Saw the dovetail",
        f"On the {shown} face saw {sides} at {slope_text(halving.slope)} from the end to the "
        f"shoulder, {BESIDE}; then saw in from the edge, {beside('the shoulder')}. The neck stays "
        f"{halving.text(halving.neck)} wide. Pare the sides square to the face, to the middle of "
        "the lines.",
    )


def _cutting_stile(halving: DovetailHalving) -> Iterator[Step]:
    given = halving.given
    shown, _ = _faces(halving)
    # A sloping wall of the socket leans away from the line, and does not stand on it.
    line = dashed_line(not halving.sloped[given.enters == FAR_EDGE])
    edges = f"the {given.enters}" if halving.stopped else "both edges"
    yield Step(
        Task.LAY_ON,
        f"Lay on {halving.named(1)}",
        "Trim the templates along their outer lines. Put each on the face that it names, between "
        f"the arrises, the {line} on your pencil line; ▲ points to where the rail's "
        f"{halving.other_edge} comes, the other arrow to the edge or face that it names. Glue or "
        "tape them, but prick through the one on the "
        f"{given.enters} and peel it off: a shoulder comes there. Then lay the dovetail itself, "
        f"its own {shown} face up, on the {shown} face of the stile, its shoulder tight against "
        f"the stile's {given.enters} and the {halving.line} on the line. Hold it there and knife "
        "round it, through the paper. From here on only the knifed line counts: "
        f"square it down {edges} too, as far as the gauged line.",
        (0, 1),
    )
    if halving.stopped:
        saw = (
            f"Saw {beside('the knifed line')}, with the saw held at a slant, from the edge down to "
            "the gauged line, and no further than the socket's end; chop there across its end, "
            "then from the edge inwards"
        )
    else:
        saw = (
            f"Saw {beside('the knifed line')}, down to the gauged line on both edges, with a few "
            "more cuts between; chop out from both edges to the middle"
        )
    yield Step(
        Task.CUT_SECOND,
        "Saw and chop the socket",
        f"{saw}. Pare the sides to the middle of the knifed line. Pare the floor level, or finish "
        f"it with a router plane set to {halving.text(halving.socket_depth)}.",
    )
    proud = given.end_proud
    end = f", and the dovetail's end, which stands {halving.text(proud)} proud" if proud else ""
    yield Step(
        Task.GLUE,
        "Fit and glue",
        f"{PEEL} Press the dovetail in square to the {shown} face; it cannot be pushed in along "
        "the rail. Ease it only where the wood is rubbed shiny. Glue the floor and all shoulders, "
        "clamp across the faces, and check that rail and stile are square. "
        f"Plane the outside faces flush when the glue is hard{end}.",
    )


def _faces(halving: DovetailHalving) -> tuple[str, str]:
    """The face on which the dovetail shows, and the one from which the rail's waste goes."""
    return ("outside", "inside") if halving.outside else ("inside", "outside")
