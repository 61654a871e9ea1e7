"""The order of work for a sliding dovetail, with the layout's own figures."""

from collections.abc import Iterator

from joinery_templates.exact import Fraction
from joinery_templates.joint import Step, Task
from joinery_templates.joints.housings.boards import SAWN_FROM
from joinery_templates.joints.housings.tail import FACES, SlidingTail
from joinery_templates.joints.words import (
    BESIDE,
    FALLS_IN,
    PEEL,
    beside,
    dashed_line,
    measure_again,
    slope_text,
)
from joinery_templates.lengths import INCH, Units, decimal_text

CALLED = "; the shelf's upper face is its outside face, its lower face the inside face"
"""On the templates."""
BACK = "at the shelf's back edge"
SHAVING = {Units.MM: Fraction(1, 10), Units.INCH: INCH / 256}
GLUED = {Units.MM: Fraction(50), Units.INCH: 2 * INCH}
"""The last of the way, over which alone glue is spread."""


def order_of_work(tail: SlidingTail) -> Iterator[Step]:
    """Housing first, then the tail is fitted to it (common practice, no source)."""
    yield from _housing_steps(tail)
    yield from _tail_steps(tail)


def _housing_steps(tail: SlidingTail) -> Iterator[Step]:
    yield Step(
        Task.PREPARE,
        "Prepare",
        f"{tail.marking(CALLED)} for the tail, ends square. {measure_again(with_width=False)}",
    )
    yield Step(
        Task.GAUGE,
        "Square the line",
        f"{tail.squaring('edges', 'edges')}, then across {tail.inside_faces}.",
        (1,),
    )
    edges = "the far (back) edge" if tail.given.stop else "the reference and the far edge"
    yield Step(
        Task.LAY_ON,
        f"Lay on {tail.named(1)}",
        f"Lay the inside face's template with the {dashed_line(0 not in tail.sloping)} on the "
        f"squared line, ▲ towards the {tail.up_end(1)}, flush with the front edge; glue it, or "
        f"tape it and prick it through at the small rings. Do the same with the one for {edges}: "
        "it shows the section.",
    )
    if tail.given.stop:
        yield Step(
            Task.CUT_SECOND,
            "Chop the stop",
            f"The housing stops {tail.text(tail.given.stop)} from the front edge. Behind that, "
            f"bore and chop a space about {tail.text(SAWN_FROM[tail.units])} long to the full "
            "depth and width: the saw's toe runs out into it.",
        )
    taper = ""
    if tail.tapered is not None:
        taper = (
            f" Only the wall at the shelf's {tail.shelf_faces[tail.tapered]} tapers; the other "
            "runs parallel to the squared line: set the block anew for each."
        )
    square = "".join(
        f" The wall at the shelf's {face} is square: saw it against a square block."
        for number, face in enumerate(tail.shelf_faces)
        if number not in tail.sloping
    )
    walls, lean = "each wall", "Both walls lean outwards below"
    if len(tail.sloping) == 1:
        walls, lean = "the sloping wall", "It leans outwards below"
    back = tail.side.width
    mouth, floor = (tail.text(tail.housing_width(back, y)) for y in (tail.depth, Fraction(0)))
    yield Step(
        Task.SAW_DOWN,
        "Saw the walls",
        f"Plane the edge of a wooden block to the slope of {slope_text(tail.slope)}. For {walls} "
        "clamp it along the line, on the wood that stays, so that its slope hangs over the line "
        "towards the waste. Hold the saw flat against it and saw "
        f"{BESIDE}, down to {tail.text(tail.depth)}. {lean}, as the back edge's template shows: "
        f"there the housing is {mouth} wide at its mouth and {floor} at its floor.{taper}{square}",
        (1,),
    )
    yield Step(
        Task.CUT_SECOND,
        "Clear the housing",
        "Chisel out the middle, then both sides under the slope, and bring the bottom level with "
        f"a router plane set to {tail.text(tail.depth)}; a shaving deeper does no harm, for the "
        "shoulders must close first. Try the walls with the bevel.",
    )


def _tail_steps(tail: SlidingTail) -> Iterator[Step]:
    notch = ""
    if tail.start:
        notch = (
            f" Saw out the front corner: {tail.text(tail.start)} from the front edge, down to the "
            "baseline; knife the baseline round the front edge first, for it shows."
        )
    faces = "both faces"
    if len(tail.sloping) == 1:
        faces = f"the {tail.shelf_faces[tail.sloping[0]]}"
    # The last of the way: 50 mm, or half of a short tail.
    glued = min(GLUED[tail.units], (tail.shelf.width - tail.start) / 2)
    yield Step(
        Task.LAY_ON,
        f"Lay on {tail.named(0)}",
        f"Gauge {tail.text(tail.depth)} from the end on {faces}. {FALLS_IN} {tail.laid_on()}",
    )
    yield Step(
        Task.SAW_FIRST,
        "Saw the shoulders",
        f"Knife the baseline.{notch} Then saw on {faces} {beside('the baseline')}, against a "
        f"square block, {_shoulder_depths(tail)}.",
    )
    yield Step(
        Task.SAW_FIRST,
        "Shape the tail",
        f"{_shaping(tail)} Pare most of the waste away first; the arris at the end must be sharp "
        "and the corner at the shoulder clean.",
    )
    yield Step(Task.FIT, "Fit", _fitting(tail))
    yield Step(
        Task.GLUE,
        "Glue",
        f"Slide the shelf in dry until {tail.text(glued)} remain, brush glue into the "
        "part of the housing that is still empty and on the back of the tail as far as it still "
        "shows, and push it home; glued all along it would seize half way. A solid shelf in a "
        "solid side swells and shrinks alike. Where one is plywood, or its grain runs the other "
        f"way, put glue into the front {tail.text(glued)} of the housing only, and none on the "
        "tail, so that the rest can move.",
    )


def _shoulder_depths(tail: SlidingTail) -> str:
    """How deep the saw goes at each sloping side; with a taper not evenly."""
    begins = "at the front edge"
    if tail.start:
        begins = f"where the tail begins, {tail.text(tail.start)} from the front edge"
    told = []
    for number in tail.sloping:
        back, front = (
            tail.text(tail.inset(number, x, tail.depth)) for x in (tail.shelf.width, tail.start)
        )
        ends = f" {BACK} and {front} {begins}" if number == tail.tapered else ""
        told.append(f"at the {tail.shelf_faces[number]} {back} deep{ends}")
    return "; ".join(told)


def _shaping(tail: SlidingTail) -> str:
    """Which side is planed first, to which line, and which is left for fitting."""
    tool = f"a shoulder plane against a block of {slope_text(tail.slope)}, or with a dovetail plane"
    if len(tail.sloping) == 1:
        return (
            f"Plane the sloping side with {tool}, down to the near side of its line on the end "
            "grain: the line itself is left for the fit."
        )
    if tail.taper:
        return (
            f"Plane the upper side to the middle of its line on the end grain, with {tool}. Plane "
            "the lower side, which is tapered, only down to the near side of its line: it is "
            "fitted last."
        )
    return (
        f"Plane both sides with {tool}, down to the near side of their lines on the end grain: the "
        "lines themselves are left for the fit."
    )


def _fitting(tail: SlidingTail) -> str:
    shaving, taper = SHAVING[tail.units], tail.taper
    start = f"{PEEL} Enter the shelf from the back and push it forward by hand. "
    if tail.tapered is None:
        return (
            f"{start}It must slide with pressure and stay straight. Where it binds and shines, "
            "take a shaving: from here on the housing decides."
        )
    return (
        f"{start}It runs freely and tightens only at the end: at 1 in {decimal_text(taper, 2)}, "
        f"{tail.text(shaving)} off the tail's {FACES[tail.tapered]} side lets it go "
        f"{tail.text(shaving * taper)} further. Take even shavings from that side, over "
        "its whole length, until the front edges are flush just when it is tight."
    )
