"""Steps of work that corners share, the square ones and those that lean.

All are common practice, no source; the bevels are computed from the solids.
"""

from collections.abc import Callable, Iterator

from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joint import Step, Task
from joinery_templates.joints.corners.interlocked import InterlockedCorner
from joinery_templates.joints.corners.layout import (
    CornerLayout,
    degrees,
    longer_edge,
    longer_face,
)
from joinery_templates.joints.words import (
    BESIDE,
    CARRIED_ON,
    FACE_ON_ARRIS,
    FALLS_IN,
    PEEL,
    measure_again,
)
from joinery_templates.wood.board import EDGES, Face
from joinery_templates.wood.cut import Surface

_LAY_ON_FACES = (
    "Trim the templates along their outer lines. First lay on the template of the end grain, and "
    "tape its tab to the outside face{askew}; prick through its rings, take it off, and rule the "
    "lines on the wood from prick to prick. {then}"
)
SEEN = Fraction(1, 20)
"""Edges that are less apart than so many mm look flush."""
STAYS = "on the inside face, clear of the joint, where no plane takes it off"
TRY = (
    f"{PEEL} Try each corner once, part of the way, and ease it only where the wood is rubbed "
    "shiny."
)


def set_out(corner: InterlockedCorner) -> Iterator[Step]:
    """All that is done before the first board is sawn, where both are cut right through."""
    yield prepare(corner)
    if corner.pair.is_slanted:
        yield _cut_ends(corner)
    yield _scribe_baselines(corner)
    yield lay_on(corner, 0, setting_out_strip())


def prepare(corner: CornerLayout) -> Step:
    """Square ends, or flat boards with square edges; marked faces, and sizes measured again."""
    is_shaped = corner.pair.is_slanted or corner.pair.mitred
    if is_shaped:
        is_cut_later = corner.pair.is_slanted and not corner.pair.mitred
        size = "width and thickness" if is_cut_later else "size"
        words = (
            f"Plane the boards to {size}, edges square to the faces. Mark the outside face and "
            "the reference edge, which is the lower one, of every board"
        )
    else:
        words = (
            "Plane the ends of the boards square. Mark the outside face and the reference edge of "
            "every board"
        )
    again = measure_again(
        f"{corner.named(0)} and {corner.named(1)}", is_shaped or any(corner.pair.insets)
    )
    words = f"{words}, and each corner's name or number on both its boards, {STAYS}. {again}"
    return Step(Task.PREPARE, "Prepare", words)


def _cut_ends(corner: CornerLayout) -> Step:
    """Ends that are not square, before anything is set out on them."""
    slanting = any(corner.pair.end_slope(number) for number in (0, 1))
    fits = (
        " The slanting end of the outside face's template must fit on it."
        if slanting
        else " The end grain's template must cover it from arris to arris."
    )
    longer = {longer_face(bevel) for bevel in map(corner.pair.end_bevel, (0, 1)) if bevel}
    leaning = f", leaning to leave the {longer.pop()} longer" if len(longer) == 1 else ""
    return Step(
        Task.CUT_ENDS,
        "Cut the ends",
        f"{ends_words(corner)} {length_words(corner)} Knife the line across the outside face with "
        f"{bevels(corner, corner.pair.end_slope)}, saw {BESIDE}{leaning}, and "
        "plane the end to the middle of it. Test it square to that line, the stock on the outside "
        f"face, with {bevels(corner, corner.pair.end_bevel)}.{fits}",
    )


def bevels(corner: CornerLayout, slope: Callable[[int], Fraction]) -> str:
    """What both boards are marked or tested with: a bevel for each slope, or a square."""
    one, other = (bevel_or_square(slope(number)) for number in (0, 1))
    first, second = (role.words for role in corner.roles)
    return one if one == other else f"{one} on the {first} and {other} on the {second}"


def bevel_or_square(slope: Fraction) -> str:
    """The tool for a line or an end that slopes, or does not."""
    return f"a bevel set to {degrees(slope)}" if slope else "a square"


def length_words(corner: CornerLayout) -> str:
    """At which arris the length of either board is measured."""
    first, second = _arris(corner, 0), _arris(corner, 1)
    if first == second:
        return f"Measure a board's length {first}."
    return f"Measure the length of {corner.named(0)} {first}; that of {corner.named(1)} {second}."


def _arris(corner: CornerLayout, number: int) -> str:
    """Outside, where the piece is measured too; on a slanting end at the longer edge."""
    place, slope = "on the outside face", corner.pair.end_slope(number)
    if slope:
        place = f"on the outside face along its arris at the {longer_edge(slope)}"
    if corner.pair.end_bevel(number) < 0:
        further = corner.pair.end(number, ()).left_longer
        assert further is not None
        by_list = ", as the list of boards has it" if corner.boards[number].length else ""
        return (
            f"{place} (leave the wood longer{by_list}: at each end the inside face goes on for "
            f"another {corner.text(further)}, and the saw wants some too)"
        )
    return place


def ends_words(corner: CornerLayout) -> str:
    """How both boards' ends are off square."""
    first, second = _end_words(corner, 0), _end_words(corner, 1)
    if first == second:
        return f"The ends of {corner.named(0)} and {corner.named(1)} are {first}."
    return f"The end of {corner.named(0)} is {first}; that of {corner.named(1)} is {second}."


def _end_words(corner: CornerLayout, number: int) -> str:
    slope, through = corner.pair.end_slope(number), corner.pair.end_bevel(number)
    parts = []
    if slope:
        parts.append(f"{degrees(slope)} across the faces, longer at the {longer_edge(slope)}")
    if through:
        longer = longer_face(through)
        parts.append(f"{degrees(through)} through the thickness, longer on the {longer}")
    return f"off square by {', and by '.join(parts)}" if parts else "square"


def _scribe_baselines(corner: InterlockedCorner) -> Step:
    """Baselines on both faces of both boards."""
    if corner.pair.is_slanted:
        how = (
            f"{_set_gauges_by_face(corner)} Where waste reaches an edge of the board, join both "
            "lines across it."
        )
    else:
        edges = "".join(
            f", and on {edges} of {corner.named(number)}"
            for number in (0, 1)
            if (edges := corner.open_edges(number))
        )
        how = f"{set_both_gauges(corner)} Scribe lightly from the end on both faces{edges}."
    return Step(Task.GAUGE, "Baselines", f"{stop_short(corner)}{how} {FALLS_IN}")


def _set_gauges_by_face(corner: CornerLayout) -> str:
    """The gauges, and how they are held: where an end leans, its longer face holds them off."""
    bevel = corner.pair.end_bevel(0)
    if not bevel:
        return (
            f"{set_both_gauges(corner)} Scribe both faces, the stock flat along the slanting end: "
            "the gauge then measures square to it."
        )
    longer, shorter = longer_face(bevel), longer_face(-bevel)
    alike: dict[tuple[str, str], list[str]] = {}
    for number in (0, 1):
        figures = corner.pair.gauge(number), corner.pair.gauge_over(number)
        near, over = map(corner.text, figures)
        alike.setdefault((near, over), []).append(corner.named(number))
    settings = " ".join(
        f"Set a gauge to {near} for the {longer} of {' and '.join(names)}, and another to {over} "
        f"for the {shorter}."
        for (near, over), names in alike.items()
    )
    return (
        f"{settings} Scribe both faces, the beam flat on the face and square to the line of the "
        f"end: the stock touches the arris of the {longer} alone, on the {shorter} too."
    )


def set_both_gauges(corner: CornerLayout) -> str:
    """The gauge for both boards' baselines, told once where one setting serves both."""
    one, other = (corner.text(corner.pair.gauge(number)) for number in (0, 1))
    if one == other:
        return f"Set a gauge to {one} for {corner.named(0)} and {corner.named(1)} alike."
    return (
        f"Set a gauge to {one} for {corner.named(0)} and another to {other} for {corner.named(1)}."
    )


def knife_baseline(corner: InterlockedCorner, number: int) -> str:
    """Wherever waste is seen: at an open edge it is sawn off beside that line."""
    edges = corner.open_edges(number)
    return f"knife the baseline across the waste, on both faces{f' and {edges}' if edges else ''}"


def stop_short(corner: CornerLayout) -> str:
    """Where a scribed line must not run right across: a wider board's faces stay in sight."""
    if not any(corner.pair.insets):
        return ""
    narrow, wide = _narrow_and_wide(corner)
    come = _by_edge(corner, "from its")
    edges = "edges come" if len(come) > 1 else "edge comes"
    is_lapped = corner.pair.lap(corner.pair.wider)
    over = "across the end grain and, on the inside face, " if is_lapped else ""
    return (
        f"First tick in pencil where the baseline of {wide} will come, and gauge on that board, "
        f"{over}from the end to the tick alone, where {narrow}'s "
        f"{edges}, {' and '.join(come)}: go no further with any line, the baseline too, for past "
        "that it would stay in sight. "
    )


def brought_together(corner: InterlockedCorner, sawn: bool = False) -> str:
    """How boards are brought together across their width, to mark one from the other.

    Args:
        corner: the corner.
        sawn: whether the first board's spaces are cut already.
    """
    (near, far), same = corner.pair.insets, "both reference edges on the same side"
    narrow, wide = _narrow_and_wide(corner)
    if not near and not far:
        return "Bring the reference edges level, both on the same side."
    ends = "reference" if not near else "far"
    words = f"Bring the {ends} edges level, {same}."
    if near and far:
        line = f"a line gauged {corner.text(near)} in from that of {wide}"
        if sawn and corner.stopped_at(0)[0]:
            line = "the sawn side of the space there"
        words = f"Bring the reference edge of {narrow} level with {line}, {same}."
    on = " and ".join(_by_edge(corner, "at the"))
    return f"{words} {wide.capitalize()} then runs on past {narrow}, {on}."


def _by_edge(corner: CornerLayout, where: str) -> list[str]:
    """How far the narrower board stands in at each edge at which it does."""
    insets = zip(corner.pair.insets, EDGES, strict=True)
    return [f"{corner.text(inset)} {where} {edge}" for inset, edge in insets if inset]


def _narrow_and_wide(corner: CornerLayout) -> tuple[str, str]:
    wider = corner.pair.wider
    return f"the {corner.role(1 - wider)}", f"the {corner.role(wider)}"


def mark_from_first(corner: InterlockedCorner, piece: str, compared: str) -> Step:
    """The second board's template; then the first is laid on its end, and marked round.

    Args:
        corner: the corner.
        piece: what is marked round, a tail or a finger.
        compared: what the template is for, in words that follow "in the same way".
    """
    first, second = (f"the {role.words}" for role in corner.roles)
    templates = f"template{'s' if corner.pair.is_slanted else ''} of {corner.named(1)}"
    past = corner.pair.past[0]
    ends = "come flush with its outside face"
    if corner.pair.lap(1):
        ends = "reach its lap line"
    elif past:
        ends = f"stand {corner.text(past)} past its outside face"
    slope = corner.pair.end_slope(1)
    is_square = not slope and not corner.pair.end_bevel(1)
    along = ""
    if slope:
        along = (
            f", its stock on the end, so that its blade leans to the {longer_edge(-slope)} and "
            "runs along the grain"
        )
    level = "its end up" if is_square else "leaning so far that its end lies level"
    together, until, edges = brought_together(corner, sawn=True), "", ""
    if not corner.pair.is_upright:  # where both lean, they meet nowhere until the joint is closed
        together = "Bring the reference edges to the same side."
        until = f"its {piece}s stand over the printed lines and "
        edges = _edges_on_the_end(corner)
    return Step(
        Task.LAY_ON,
        f"Mark {corner.named(1)} from the {piece}s",
        f"Put the {templates} on in the same way{compared}. Peel the paper off the inside face of "
        f"{corner.named(0)}. "
        f"Clamp {second} in the vice, {level}, its outside face away from you. Lay {first} "
        f"of the same corner on that end, inside face down, the {piece}s pointing away from you, "
        f"and prop up the rest of it. {together} Slide {first} until "
        f"{until}its baseline, at the bottom of its spaces, lies exactly over the inside arris of "
        f"{second}: the {piece}s' ends then {ends}.{edges} Hold it there and knife along both "
        f"sides of every {piece}, and through the paper, if any.{_leaning_sides(corner, piece)} "
        "Carry each knifed line to the "
        f"baseline, down {'the inside face' if corner.pair.lap(1) else 'both faces'}, with "
        f"{bevel_or_square(slope)}{along}. From here on only these lines count."
        f"{_beside_the_fit(corner)}",
        (0, 1),
    )


def _leaning_sides(corner: InterlockedCorner, piece: str) -> str:
    """How the knife is held where what is marked round is wider above than below, or narrower.

    A mitre is no side of it: that runs right across the board.
    """
    sides = (side for cut in corner.parts[0].cuts for side in cut.half_spaces)
    slopes = (side.normal for side in sides if side.surface is Surface.SIDE)
    if not any(across and through for across, _, through in slopes):
        return ""
    return f" Keep the knife flat against the {piece}'s side, which is not square to the face."


def _beside_the_fit(corner: CornerLayout) -> str:
    """Template and sizes of the second board have the fit, and the knifed lines have not."""
    fit = corner.allowance
    if not fit:
        return ""
    return (
        f" The template and the sizes of the {corner.role(1)} leave {corner.text(abs(fit))} "
        f"{'more' if fit > 0 else 'less'} at each side, for the fit: do not work to them now."
    )


def _edges_on_the_end(corner: CornerLayout) -> str:
    """Where the reference edges of leaning boards come, the first laid on the second one's end."""
    places = []
    for depth in (corner.boards[1].thickness, ZERO):
        at = corner.pair.reference_edge_at(depth)
        stands = f"{corner.text(abs(at))} {'past' if at > 0 else 'short of'}"
        places.append(stands if abs(at) >= SEEN else "flush with")
    first, second = (role.words for role in corner.roles)
    measured = "" if {*places} == {"flush with"} else f", measured square to the {first}'s"
    return (
        f" At the {second}'s inside arris the {first}'s reference edge then lies {places[0]} the "
        f"{second}'s, at its outside arris {places[1]} it{measured}."
    )


def chop_leaning(corner: CornerLayout, number: int) -> str:
    """How a chisel cuts a shoulder that is off square through the thickness."""
    bevel = corner.pair.end_bevel(number)
    return (
        f"from the {longer_face(-bevel)} the cut runs towards the {corner.role(number)}'s end, "
        f"from the {longer_face(bevel)} away from it"
    )


def lay_on(corner: CornerLayout, number: int, more: str) -> Step:
    """A board's templates: single faces where the end slants, else a wrap.

    Args:
        corner: the corner.
        number: of the board.
        more: what comes of it, such as the check by `setting_out_strip`.
    """
    words = corner.laid_on()
    if corner.pair.is_slanted:
        askew = ", square to the line of the end and not along the board's edges"
        words = _LAY_ON_FACES.format(
            askew=askew if corner.pair.end_slope(number) else "",
            then=FACE_ON_ARRIS if corner.has_faces else CARRIED_ON,
        )
    return Step(Task.LAY_ON, f"Lay on {corner.named(number)}", f"{words} {more}")


def setting_out_strip(face: Face = Face.OUTSIDE) -> str:
    """What the strip is for, on the board that is set out first.

    Args:
        face: that the main row runs along.
    """
    return (
        f"Check it with the setting-out strip, laid along the end on the {face}: mark must meet "
        "line. Without templates, knife the marks, and draw the rest with your tools, set by the "
        "joint's tool settings."
    )


def level_the_edges(corner: CornerLayout) -> Iterator[Step]:
    """Lower and upper edges, where the boards lean."""
    if not corner.pair.is_upright:
        yield Step(
            Task.FINISH,
            "Level the edges",
            "When the glue is hard, plane the lower and the upper edges level all round, and test "
            f"them against the faces with {bevels(corner, corner.edge_bevel)}. "
            f"{' '.join(corner.arrises_off())}",
        )
