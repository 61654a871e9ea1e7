"""What is refused and advised at any crossing of two boards, and its order of work."""

from collections.abc import Iterator, Sequence

from joinery_templates.errors import OURS, Finding, advice
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Step, Task
from joinery_templates.joints.checks import only_with, too_short
from joinery_templates.joints.halvings.crossing import CORNER, CROSS, RAILS, STILES, TEE, Crossing
from joinery_templates.joints.sources import CASSELL
from joinery_templates.joints.words import (
    GAUGED_HOLD,
    PEEL,
    PLACED_ALIKE,
    beside,
    dashed_line,
    measure_again,
)
from joinery_templates.lengths import INCH, Units, decimal_text

MOST_OFF_SQUARE = 45
"""Beyond this the corners of both boards are long thin points (our judgement)."""
WIDEST = 5 * INCH
"""Wider boards work against each other across the grain, as tenons do (our judgement)."""


def impossible(crossing: Crossing) -> Iterator[Finding]:
    """What does not go together, and boards too short."""
    given = crossing.given
    if given.mitred and given.form != CORNER:
        yield only_with("mitred", CORNER, "Only a corner can be mitred.")
    if given.at is not None and given.form == CORNER:
        message = "A corner is at the stile's end, and needs no place along it."
        yield only_with("at", TEE, message)
    if given.overhang is not None and given.form == CROSS:
        message = "Boards that cross have no end in the joint that could stand over."
        yield only_with("overhang", CORNER, message)
    one, other = (max(crossing.ys(n)) for n in (RAILS, STILES))
    yield from too_short(crossing, (one, other))


def advise(crossing: Crossing) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    angle = crossing.given.angle
    if abs(angle - 90) > MOST_OFF_SQUARE:
        yield advice(
            "angle-sharp",
            f"At {decimal_text(angle, 1)}° the boards end in long thin points, which break.",
            OURS,
            "Take an angle from 45° to 135°.",
            "angle",
        )
    wide = max(crossing.boards, key=lambda board: board.width)
    if wide.width > WIDEST:
        yield advice(
            "boards-wide",
            f'"{wide.name}" is {crossing.text(wide.width)} wide. Glued across the grain, boards '
            "so wide work against each other, and the joint may open.",
            f"{OURS}; {CASSELL} has no single tenon on a rail over 5 in wide",
            "Take narrower boards.",
        )


def scribed(crossing: Crossing) -> str:
    """Where a gauge runs on both boards."""
    ends = [number for number in (RAILS, STILES) if crossing.is_end(number)]
    if len(ends) == 2:
        return f"the end grain and both edges of both boards {_how_far(crossing)}"
    many = len(crossing.lost(STILES)) > 1
    notch = f"where the {'notches are' if many else 'notch is'} to be"
    if not ends:
        return f"both edges {notch}, on both boards"
    return (
        f"the end grain and both edges of {crossing.named(RAILS)} as far as the shoulder, and "
        f"both edges of {crossing.named(STILES)} {notch}"
    )


def _how_far(crossing: Crossing) -> str:
    """How far down the edges gauge lines run: past what they bound, they would stay in sight."""
    if not crossing.given.mitred:
        return "as far as the shoulder"
    keeper = crossing.layers[1].kept_by
    assert keeper is not None
    _, far = _mitre_ends(crossing, keeper)
    return (
        "as far as the shoulder; but on the far edge of "
        f"{crossing.named(keeper)} {_gauged(crossing, ['outside face'])} as far as the mitre, "
        f"{far} from the end"
    )


def order_of_work(crossing: Crossing, gauging: str, fitting: str) -> Iterator[Step]:
    """Lines, the rail, the stile with the rail laid on it, glue (common practice, no source).

    Args:
        crossing: the joint.
        gauging: how gauges are set, and run.
        fitting: how the boards go together.
    """
    yield _prepare(crossing)
    yield _place(crossing)
    yield Step(Task.SCRIBE, "Gauge both from the outside face", gauging)
    for number in (RAILS, STILES):
        yield _lay_on(crossing, number)
        yield from _cut(crossing, number)
    yield _fit(fitting)
    yield _glue(crossing)


def _prepare(crossing: Crossing) -> Step:
    first, second = crossing.named(RAILS), crossing.named(STILES)
    inner = {
        CORNER: "At a corner the reference edges face inwards.",
        TEE: "Left and right are as seen from outside, with the rail's reference edge down.",
        CROSS: "Left and right are as seen from outside, with the other board's reference edge "
        "down.",
    }[crossing.given.form]
    lengths = " ".join(
        _length(crossing, number) for number in (RAILS, STILES) if crossing.is_end(number)
    )
    return Step(
        Task.PREPARE,
        "Prepare",
        "Mark the outside face and the reference edge of all pieces, and the joint's name. "
        f"{inner} {f'{lengths} ' if lengths else ''}{measure_again(f'{first} and {second}')}",
    )


def _length(crossing: Crossing, number: int) -> str:
    """How long a board is made that ends in the joint, and what is left between its shoulders."""
    board, text = crossing.named(number), crossing.text
    length, shoulders = crossing.boards[number].length, crossing.shoulders(number)
    near, far = map(text, shoulders)
    more = near if near == far else f"{near} along its reference edge, {far} along its far edge,"
    clean = ""
    if crossing.overhang:
        least = "" if crossing.is_square else "at least "
        is_kept = any(layer.kept_by == number for layer in crossing.layers)
        goes = "is cleaned off last" if is_kept else "goes with the mitre"
        clean = f"; {least}{text(crossing.overhang)} of it {goes}"
    slanting = crossing.given.form == TEE and not crossing.is_square
    # Where it slants, the other end's shoulders need not be this one's, edge for edge.
    at = f"at {'each' if crossing.is_square else 'the'} end with this joint"
    if length is None:
        between = "it is to be between its shoulders"
        if number == RAILS and crossing.is_square:
            between = f"the space between the {crossing.role(STILES)}s"
        words = f"Make {board} as long as {between} and {more} more {at}, sawn off square{clean}."
        if slanting:
            step = Fraction(100) if crossing.units is Units.MM else 10 * INCH
            words += (
                f" Between its shoulders it is {text(step / crossing.turn[0])} long for each "
                f"{text(step)} between the stiles, measured square to them."
            )
        return words
    words = (
        f"T{board[1:]} is {text(length)} long, sawn off square: of that {more} lies beyond the "
        f"shoulder {at}{clean}."
    )
    both = [length - 2 * one for one in shoulders]
    if slanting and crossing.request.around.between_shoulders:
        words += f" {_between(*map(text, crossing.request.around.between_shoulders))}"
    elif slanting and min(both) > 0:
        # At the other end of parallel stiles the shoulders change edges.
        low, high = map(text, both)
        words += (
            f" Where the stiles are parallel, so are its shoulders, with "
            f"{text(length - sum(shoulders))} between them along either edge; only where they are "
            f"not, and it meets the other one too at {decimal_text(crossing.given.angle, 2)}°, "
            f"{low} are left along its reference edge and {high} along its far edge."
        )
    elif crossing.is_square and min(both) > 0:
        words += (
            f" With such a joint at its other end too, {text(both[0])} are left between the "
            "shoulders."
        )
    return words


def _between(near: str, far: str) -> str:
    """What is left between the shoulders of a rail along its edges, by what the job tells."""
    if near == far:
        return f"The stiles are parallel, and so are its shoulders: {near} are left between them."
    return (
        f"Between its shoulders {near} are left along its reference edge and {far} along its far "
        "edge."
    )


def _place(crossing: Crossing) -> Step:
    """Where the mate comes on each board, in pencil: the gauge then knows how far to run."""
    told = []
    for number in (RAILS, STILES):
        board, mate = crossing.named(number), crossing.mate(number)
        near, far = map(crossing.text, crossing.shoulders(number))
        along = crossing.along(number)
        faces = f"the {' and the '.join(f'{one.face} face' for one in crossing.lost(number))}"
        if not crossing.is_end(number) and along:
            told.append(
                f"On the reference edge of {board} measure {crossing.text(along)} from the "
                f"{crossing.up_end(number)}: there the {mate}'s far edge comes. Square a pencil "
                f"line from there across {faces} and both edges."
            )
        elif not crossing.is_end(number):
            meets = "comes" if crossing.is_square else "meets the reference edge"
            told.append(
                f"Square a pencil line across {faces} and both edges of {board}, where the "
                f"{mate}'s far edge {meets}{PLACED_ALIKE}."
            )
        elif crossing.is_square:
            told.append(
                f"Square a pencil line round {board}, {near} from its end, for the shoulder."
            )
        else:
            told.append(
                f"Square pencil lines across the edges of {board} for the shoulder: {near} from "
                f"its end on the reference edge, {far} on the far edge."
            )
    return Step(Task.GAUGE, "Square the lines", " ".join(told))


def _lay_on(crossing: Crossing, number: int) -> Step:
    tool = "a square" if crossing.is_square else "the bevel"
    board, mate = crossing.named(number), crossing.named(1 - number)
    heading = f"Lay on {board}"
    if crossing.is_end(number):
        laid = crossing.laid_on()
        if crossing.is_slotted(number):
            laid = (
                "Trim the templates along their outer lines and lay each on the face that it "
                "names, flush with the end and the arrises; glue or tape them."
            )
            if crossing.given.mitred:
                laid += (
                    " Begin with the end grain, prick it through and peel it off: its tab lies on "
                    "the outside face, where the mitre's template comes."
                )
        words = " ".join((laid, GAUGED_HOLD, *_knifed(crossing, number, tool)))
        return Step(Task.LAY_ON, heading, words)
    words = (
        "Trim the templates along their outer lines. Lay each on the face that it names, with the "
        f"▲ towards the end that it names, which lies past the {crossing.mate(number)}'s far edge, "
        f"between the arrises, and the {dashed_line(is_cut=True)} on your pencil line. Glue or "
        "tape them."
    )
    if number == STILES:
        words += (
            f" Then lay {mate} itself across it, {_where_it_lies(crossing)}: where board and line "
            "differ, the board is right."
        )
    words += (
        f" Knife both lines against {tool}, and square them down both edges, "
        f"{_to_gauged(crossing, [f'{layer.face} face' for layer in crossing.lost(number)])}."
    )
    return Step(Task.LAY_ON, heading, words, (RAILS, STILES) if number == STILES else ())


def _where_it_lies(crossing: Crossing) -> str:
    """How the mate is laid on a stile to mark it: a lap's shoulder comes against the edge."""
    is_lapped = len(_faces(crossing, RAILS)) == 1 and not crossing.is_slotted(RAILS)
    if crossing.given.form != TEE or not is_lapped:
        return "where it belongs"
    return (
        f"its shoulder drawn up to the {crossing.role(STILES)}'s reference edge, the paper peeled "
        "off there, and its far edge on the line"
    )


def _knifed(crossing: Crossing, number: int, tool: str) -> Iterator[str]:
    """What is knifed of an end: shoulder, bottom of the slot, mitre."""
    if faces := _faces(crossing, number):
        yield (
            f"Knife the shoulder across the {' and the '.join(faces)} against {tool}, and square "
            f"it down both edges, {_to_gauged(crossing, faces)}."
        )
    if crossing.is_slotted(number):
        yield "Knife the bottom of the slot across both edges."
    if crossing.given.mitred:
        near, far = _mitre_ends(crossing, number)
        yield (
            f"Knife the mitre on the outside face: at the reference edge {near} from the end, at "
            f"the far edge {far}. Square it down both edges, "
            f"{_to_gauged(crossing, ['outside face'])}."
        )


def _mitre_ends(crossing: Crossing, number: int) -> tuple[str, str]:
    """How far from a board's end its mitre is, at the reference edge and at the far edge."""
    own, mate = (crossing.boards[one].width for one in (number, 1 - number))
    near, far = (crossing.text(crossing.y(number, *at)) for at in ((ZERO, ZERO), (own, mate)))
    return near, far


def _gauged(crossing: Crossing, faces: Sequence[str]) -> str:
    """The gauged lines that waste on so many faces is sawn down to."""
    if len(faces) > 1:
        return "both gauged lines"
    return f"the gauged line{f' nearer to the {faces[0]}' if len(crossing.layers) > 2 else ''}"


def _to_gauged(crossing: Crossing, faces: Sequence[str]) -> str:
    """How far lines from such faces run down the edges: beyond, they would show."""
    return f"to {_gauged(crossing, faces)} and no further"


def _faces(crossing: Crossing, number: int) -> list[str]:
    """The faces from which an end loses wood up to its shoulder."""
    return [
        f"{layer.face} face"
        for layer in crossing.lost(number)
        if layer.face and layer.kept_by is not None
    ]


def _cut(crossing: Crossing, number: int) -> Iterator[Step]:
    task = Task.SAW_FIRST if number == RAILS else Task.CUT_SECOND
    board, faces = crossing.named(number), _faces(crossing, number)
    if not crossing.is_end(number):
        yield Step(task, f"Cut {board}", _notching(crossing, number))
        return
    if faces:
        yield Step(
            task,
            f"Saw the {crossing.waste}{'s' if len(faces) > 1 else ''} of {board}",
            f"The waste is on the {' and the '.join(faces)}. {_clamp(crossing)} and saw "
            f"down from the end {beside(_gauged(crossing, faces))}: aslant from one edge, turn the "
            "board, aslant from the other, then level down to the shoulder. Lay it flat and saw "
            f"across {beside('the knifed shoulder')}, down to the gauged lines and no deeper. Pare "
            "the flat true, to the middle of the lines.",
        )
    if crossing.is_slotted(number):
        held = "" if crossing.is_square else ", the chisel held aslant from the one to the other"
        yield Step(
            task,
            f"Saw and chop the slot of {board}",
            f"{_clamp(crossing)} and saw down from the end, {beside('both gauged lines')}: "
            "aslant from one edge, turn the board, aslant from the other, then level down to the "
            "bottom of the slot. Chop it out there half way from each edge, "
            f"{beside('the knifed lines')}{held}, and pare the bottom to their middle.",
        )
    if crossing.given.mitred:
        yield Step(
            task,
            f"Saw the mitre of {board}",
            f"{_mitring(crossing, number)}. Pare to the middle of the line.",
        )


def _clamp(crossing: Crossing) -> str:
    """How a board stands in the vice, so that a level cut ends at the shoulder on both edges."""
    if crossing.is_square:
        return "Clamp the board upright"
    return "Clamp the board leaning, so that its slanting shoulder lies level,"


def _mitring(crossing: Crossing, number: int) -> str:
    """How a mitre is sawn, and how deep: right through where nothing is left behind it."""
    _, behind, *_ = crossing.layers
    saw = f"Saw {beside('the knifed mitre of the outside face')},"
    if crossing.is_slotted(number):
        assert behind.high is not None
        thick = crossing.text(behind.high - behind.low)
        return (
            f"Put a slip of waste {thick} thick into the slot, to stop the saw. {saw} through the "
            "outside cheek alone"
        )
    if behind.kept_by != number:
        return f"{saw} right through what is left there"
    line = _gauged(crossing, ["outside face"])
    return (
        f"{saw} down to {line} and no deeper; then down from the end {beside(line)}, as far as "
        "the mitre"
    )


def _notching(crossing: Crossing, number: int) -> str:
    lost = crossing.lost(number)
    thick = crossing.boards[number].thickness
    faces = " and the ".join(f"{layer.face} face" for layer in lost)
    depths = dict.fromkeys(
        crossing.text(thick - layer.low if layer.low else layer.high or thick) for layer in lost
    )
    many, each = ("notches", " each") if len(lost) > 1 else ("notch", "")
    return (
        f"The {many} {'are' if each else 'is'} in the {faces}. Saw{each} "
        f"{beside('both knifed lines')}, down to the gauged line on both edges, with a few more "
        "cuts between; chop out from both edges to the middle. Pare the floor level, or finish it "
        f"with a router plane, set to {' and '.join(depths)}; pare the sides to the middle of the "
        "lines."
    )


def _fit(fitting: str) -> Step:
    return Step(
        Task.FIT,
        "Fit",
        f"{PEEL} {fitting} Ease it only where the wood is rubbed shiny. The outside faces must "
        "come flush, and the shoulders shut.",
    )


def _glue(crossing: Crossing) -> Step:
    check = "that the boards are square"
    if not crossing.is_square:
        check = (
            "with the bevel that the reference edges stand at "
            f"{decimal_text(crossing.given.angle, 2)}° to each other"
        )
    clean = ""
    if any(crossing.start(number) for number in (RAILS, STILES)):
        clean = "saw off what stands past the other board, and "
    return Step(
        Task.GLUE,
        "Glue",
        "Brush glue on all flats that meet and clamp between two blocks, across the faces and so "
        f"that the shoulders stay shut. Check {check}, and sight across for twist. When it is "
        f"hard, {clean}plane the outside faces flush.",
    )
