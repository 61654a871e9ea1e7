"""What cannot be bored, and advice on dowels."""

from collections.abc import Iterator
from itertools import chain

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.exact import Fraction
from joinery_templates.joints.along_line import not_in_order, steps_between
from joinery_templates.joints.checks import first_found, first_told
from joinery_templates.joints.dowels import boards
from joinery_templates.joints.dowels.boards import Dowelled, Parameters
from joinery_templates.joints.parameter import parameter_of
from joinery_templates.wood.board import EDGES

THIN = Fraction(18)
"""3/4 in, as such boards are sold where millimetres are used."""


def impossible(joint: Dowelled) -> Iterator[Finding]:
    """What cannot be bored, or disagrees; what makes no row is told before what it comes to."""
    return first_found(_on_told(joint), chain(_on_holes(joint), _on_depths(joint)))


def _on_told(joint: Dowelled) -> Iterator[Finding]:
    given = joint.given
    for name, forms in boards.FORMS_WITH.items():
        is_told = getattr(given, name) != parameter_of(Parameters, name).default
        if is_told and given.form not in forms:
            quoted = " or ".join(f'"{form}"' for form in forms)
            yield mistake(
                "not-in-this-form",
                f'"{name}" says nothing where form = "{given.form}".',
                f"Leave it out, or give form = {quoted}.",
                name,
            )
    if joint.line_told is None:
        yield mistake(
            "seam-unknown",
            "How long the seam is has not been told.",
            "Give seam, or the length of both boards.",
            "seam",
        )
    row = [name for name in ("dowels", "pitch", "end_distance") if getattr(given, name) is not None]
    if given.positions is not None and row:
        yield mistake(
            "does-not-add-up",
            f"Positions are listed, and {row[0]} is given beside them.",
            f"Leave {' and '.join(row)} out, or the positions.",
            row[0],
        )
    elif given.pitch is not None and given.end_distance is not None:
        yield mistake(
            "does-not-add-up",
            "Both a pitch and an end distance are given, and the line decides one of them.",
            "Leave one of the two out.",
            "end_distance",
        )
    yield from not_in_order(joint, given.positions or (), "row's start")


def _on_holes(joint: Dowelled) -> Iterator[Finding]:
    """Holes wider than a board, that meet, or that break out."""
    text, diameter, radius = joint.text, joint.diameter, joint.diameter / 2
    low, high = map(text, joint.band)
    first = first_told(joint.given, "positions", "pitch", "end_distance", "dowels", "diameter")
    nearest = min(steps_between(joint.positions), default=None)
    if diameter >= joint.thick:
        yield mistake(
            "hole-too-wide",
            f"A hole of {text(diameter)} leaves nothing of a board {text(joint.thick)} thick.",
            f"Give a diameter of {low} to {high}: a third to a half of the thickness.",
            "diameter",
        )
    if nearest is not None and nearest <= diameter:
        yield mistake(
            "holes-meet",
            f"Two dowels stand {text(nearest)} apart from middle to middle, and a hole is "
            f"{text(diameter)} wide.",
            "Give fewer or thinner dowels, or a wider pitch.",
            first,
        )
    wood, number, edge = min(_to_edges(joint))
    if wood <= radius:
        hole = f"The middle of hole {number}, {text(diameter)} wide, would stand {text(abs(wood))}"
        yield mistake(
            "hole-breaks-out",
            f"{hole} from the {edge}, and the bit would break out there."
            if wood > 0
            else f"{hole} past the {edge}.",
            f"Give fewer dowels, or places at least {text(diameter)} in from there: then half as "
            "much wood is left beside the hole as a dowel is thick.",
            first,
        )


def _to_edges(joint: Dowelled) -> Iterator[tuple[Fraction, int, str]]:
    """From the row's outer holes to where its boards end: how far, which hole, and what is there.

    The second board may be narrower than the first one's line is long.
    """
    places, names = joint.positions, [board.name for board in joint.boards]
    start, end = (
        f'{edge} of "{names[0]}"' if limit.endswith(edge) else limit
        for edge, limit in zip(EDGES, joint.limits, strict=True)
    )
    yield places[0], 1, start
    yield joint.line - places[-1], len(places), end
    if joint.into[1][0] == 2:
        yield joint.boards[1].width - places[-1], len(places), f'{EDGES[1]} of "{names[1]}"'


def _on_depths(joint: Dowelled) -> Iterator[Finding]:
    text, spare = joint.text, joint.spare
    names = ("depth", "second_depth")
    for board, depth, room, name in zip(
        joint.boards, joint.depths, joint.rooms, names, strict=True
    ):
        place = name if getattr(joint.given, name) is not None else "depth"
        if room is not None and depth >= room:
            yield mistake(
                "hole-too-deep",
                f'Holes {text(depth)} deep go right through board "{board.name}", which is '
                f"{text(room)} there.",
                f"Give less than {text(room)}.",
                place,
            )
        if depth <= spare:
            yield mistake(
                "hole-too-shallow",
                f'Holes {text(depth)} deep in board "{board.name}" hold no dowel: it is '
                f"{text(spare)} shorter than both holes together.",
                "Give deeper holes.",
                place,
            )


def advise(joint: Dowelled) -> Iterator[Finding]:
    """What is unwise though it can be bored."""
    text, thick, diameter = joint.text, joint.thick, joint.diameter
    if thick < THIN:
        yield advice(
            "stock-thin",
            f"Wood {text(thick)} thick is thin for dowels: little is left beside the holes.",
            boards.THIN_STOCK,
            "Bore a trial hole in waste, or take another joint.",
        )
    low, high = joint.band
    if not low <= diameter <= high:
        thin = diameter < low
        yield advice(
            f"dowel-{'thin' if thin else 'thick'}",
            f"A dowel of {text(diameter)} in wood {text(thick)} thick "
            f"{'holds little' if thin else 'leaves thin walls beside it'}.",
            boards.BAND,
            f"Take {text(low)} to {text(high)}.",
            "diameter",
        )
    yield from _on_row(joint)
    room, depth = joint.rooms[1], joint.depths[1]
    if room is not None and depth > room * boards.MOST_OF_A_BOARD:
        yield advice(
            "floor-thin",
            f"Holes {text(depth)} deep leave {text(room - depth)} of the second board, and the "
            "bit's point may come through.",
            OURS,
            f"Bore at most {text(room * boards.MOST_OF_A_BOARD)} deep there.",
            "second_depth" if joint.given.second_depth is not None else "depth",
        )


def _on_row(joint: Dowelled) -> Iterator[Finding]:
    text, diameter, places = joint.text, joint.diameter, joint.positions
    line, steps = joint.line, steps_between(places)
    farthest = boards.FARTHEST[joint.units]
    nearest, why = boards.DIAMETERS_APART * diameter, f"{OURS}: twice a dowel's diameter"
    if joint.given.form == boards.EDGE:
        nearest, why = boards.NEAREST[joint.units], boards.APART
    told = first_told(joint.given, "positions", "pitch", "dowels", "end_distance")
    if not steps:
        if line >= 4 * diameter:
            yield advice(
                "one-dowel",
                "One dowel alone lets the boards turn on it.",
                COMMON,
                "Give two.",
                "dowels",
            )
    elif max(steps) > farthest:
        yield advice(
            "dowels-far",
            f"Dowels {text(max(steps))} apart leave the boards between them to the glue alone.",
            boards.APART,
            f"Stand them at most {text(farthest)} apart.",
            told,
        )
    elif min(steps) < nearest and len(places) > 2:
        yield advice(
            "dowels-close",
            f"Dowels {text(min(steps))} apart weaken the boards more than they hold.",
            why,
            f"Stand them at least {text(nearest)} apart.",
            told,
        )
    wood = min(places[0], line - places[-1]) - diameter / 2
    if wood < diameter / 2:
        yield advice(
            "dowel-near-edge",
            f"Only {text(wood)} of wood is left between a hole and the edge; it may split.",
            f"{OURS}: at least half of a dowel's diameter",
            "Move the outermost dowels further in.",
            told,
        )
