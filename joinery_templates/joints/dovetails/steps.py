"""Steps of work that several dovetails share, with the layout's own figures.

All are common practice, no source, where nothing else stands beside them.
"""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.corners import closing
from joinery_templates.joints.corners import steps as corners
from joinery_templates.joints.corners.layout import degrees
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.words import BESIDE, SQUARED_UP, beside, slope_text


def saw_tails(corner: DovetailCorner) -> Step:
    """Down the sides of the tails, and off with the waste beside them."""
    slope = slope_text(corner.slope)
    down = "square across the end grain, at the slope down the face"
    if corner.pair.is_slanted:
        slope += " from the grain"
        down = "down the face and along the line on the end grain"
        if corner.pair.end_slope(0):
            slope += "; from the slanting end a tail's two sides differ, and each has its own bevel"
        if corner.pair.end_slope(1):
            down += ", which does not run square across the end"
    return Step(
        Task.SAW_FIRST,
        "Saw the tails",
        f"{count_words(corner)} at {slope}. Saw {BESIDE}: {down}, to the baseline and no further. "
        f"Then {corners.knife_baseline(corner, 0)}.{_saw_off_half_pins(corner)}",
    )


def _saw_off_half_pins(corner: DovetailCorner) -> str:
    """Where the edge is open; beside a strip that stays they are chopped."""
    edges, pare = corner.open_edges(0), ""
    if not _is_chopped(corner):
        pare = " Pare both shoulders to its middle, and test with a square."
        if corner.pair.is_slanted:
            pare = f" {_pare_slanting(corner, 0)}"
    off = f" Last, saw off the half-pin waste at {edges}, {beside('the baseline')}.{pare}"
    stays = "".join(
        f" {strip[0].upper()}{strip[1:]} stays{until}: saw the line beside it straight through, "
        "square to the faces, from the end to the baseline, on the side of the half pin."
        for strip, until in _strips(corner)
    )
    return (off if edges else "") + stays


def _strips(corner: DovetailCorner) -> Iterator[tuple[str, str]]:
    """What of the tail board stays beside a half pin, and until when."""
    if any(corner.mitres):
        yield "the mitred strip", " for now"
    if any(corner.stopped_at(0)):
        yield "what runs on past the pin board", ""


def chop_between_tails(corner: DovetailCorner) -> Iterator[Step]:
    """The spaces that have wood on both sides, where there are any."""
    if not _is_chopped(corner):
        return
    between = ["between the tails"] if corner.spaces_between(0) else []
    places = " and ".join((*between, *(f"beside {strip}" for strip, _ in _strips(corner))))
    words = (
        f"Clamp the board down and chop out the waste {places}, half way from "
        f"each face, a little at a time, {beside('the knifed baseline')}. Last, pare "
        "to the middle of the line, and test with a square."
    )
    if corner.pair.is_slanted:
        words = _chop_slanting(corner, 0)
    heading = f"Chop {'between the tails' if between else 'beside the tail'}"
    yield Step(Task.CLEAR_FIRST, heading, words)


def _is_chopped(corner: DovetailCorner) -> bool:
    """Whether a space of the tail board has wood on both sides; others are sawn off."""
    return bool(corner.spaces_between(0)) or any(_strips(corner))


def mark_from_tails(corner: DovetailCorner) -> Step:
    """The pin board's template, and the tails themselves laid on it."""
    return corners.mark_from_first(corner, "tail", ", only to compare")


def saw_and_chop_pins(corner: DovetailCorner) -> Step:
    """Sockets right through; what is open at an edge is sawn off."""
    saw = f"Saw {beside('the knifed line')}: at the slope on the end grain, straight down the grain"
    chopped = sockets(corner)
    chop = "Pare all to the middle of the line."
    if chopped:
        chop = (
            f"Chop the {chopped} half way from each face, and pare all to the middle of the line."
        )
    if corner.pair.is_slanted:
        saw = (
            f"On both faces the lines run along the grain: saw {beside('the knifed line')}, at the "
            "slope on the end grain,"
        )
        chop = _chop_slanting(corner, 1) if chopped else _pare_slanting(corner, 1)
    return Step(
        Task.CUT_SECOND,
        f"Saw {'and chop ' if chopped else ''}the pins",
        f"{saw} to the baseline and no further. Then {corners.knife_baseline(corner, 1)}."
        f"{_saw_off_half_tails(corner)} {chop}",
    )


def sockets(corner: DovetailCorner) -> str:
    """What of the pin board is chopped, in words: without a lap an open half socket is not."""
    whole = corner.spaces_between(1)
    half = sum(corner.spaces_at_edges(1) if corner.lap else corner.stopped_at(1))
    if not whole and not half:
        return ""
    return f"{'' if whole else 'half '}socket{'s' if whole + half > 1 else ''}"


def _saw_off_half_tails(corner: DovetailCorner) -> str:
    """Where the edge is open; beside wood that runs on they are chopped like the others."""
    edges = corner.open_edges(1)
    off = f" Saw off the half-tail waste at {edges}, {beside('the baseline')}."
    stays = " The line along the tail board's edge is square across the end: saw it straight down."
    return (off if edges else "") + (stays if any(corner.stopped_at(1)) else "")


def saw_and_chop_sockets(corner: DovetailCorner, line: str = "the knifed line") -> Step:
    """Sockets that stop at the pin board's lap."""
    return Step(
        Task.CUT_SECOND,
        f"Saw and chop the {sockets(corner)}",
        f"Saw {beside(line)}, at the slope on the end grain, the saw held at a slant: from the "
        "inside arris down to the lap line and the baseline at once, and no further, so that the "
        "lap stays whole. The saw reaches half of each side; the chisel does the rest. Lay the "
        "board down with its inside face up, chop across the grain at the baseline, a thin slice "
        "at a time, and split each slice off from the end, down to the lap line. Clear the far "
        "corners with a narrow chisel, and pare to the middle of the lines last."
        + _waste_at_edges(corner, 1, "half-tail"),
    )


def _waste_at_edges(corner: DovetailCorner, number: int, what: str) -> str:
    """Where one side of a space is open to an edge, or to a strip that is mitred later."""
    edges = "both edges" if any(corner.mitres) else corner.open_edges(number)
    strip = ", up to the scribed line of the mitred strip, which stays for now"
    told = f" The {what} waste at {edges} is taken out in the same way" if edges else ""
    if not corner.spaces_between(number):
        told = f" Here the only waste is the {what} waste"
    return f"{told}{strip if any(corner.mitres) else ''}." if told else ""


def mark_from_pins(corner: DovetailCorner, how: str) -> Step:
    """Where a lap covers the tails they cannot be knifed round: pins come first."""
    return Step(
        Task.LAY_ON,
        f"Mark {corner.named(0)} from the pins",
        "Peel the paper, if any, off its inside face. "
        f"Lay {corner.named(0)} flat, inside face up. Stand {corner.named(1)} of the "
        f"same corner upright on it, pins down, {how}. {corners.brought_together(corner)} "
        "Hold it there and knife along both sides of every pin. "
        + (
            "The outer side of a half pin is the scribed line of the mitred strip. From here on "
            "only knifed and scribed lines count."
            if any(corner.mitres)
            else "From here on only the knifed lines count."
        ),
    )


def saw_and_chop_hidden_spaces(corner: DovetailCorner) -> Step:
    """Spaces for the pins that stop at the tail board's lap."""
    return Step(
        Task.SAW_FIRST,
        "Saw and chop the tails",
        f"{count_words(corner)} at {slope_text(corner.slope)}. Saw {beside('the knifed line')}, "
        "square to the inside face and at the slope on it, the saw held at a slant: down to the "
        "lap and the baseline at once, and no further. Chop at the baseline, a thin slice at a "
        "time, split each slice off down to the lap, clear the far corners with a narrow chisel, "
        "and pare to the middle of the lines last." + _waste_at_edges(corner, 0, "half-pin"),
    )


def fit_and_glue(corner: DovetailCorner) -> Step:
    """Trying, gluing, and what is planed flush."""
    caul = "a straight batten as a caul"
    if not corner.pair.lap(0):
        caul = (
            "a batten as a caul, notched over the pins' ends, so that it presses on the tails alone"
        )
        if corner.lap:
            caul += " and stops short of the lap"
    mitres = both = ""
    if any(corner.mitres):
        mitres = "Size the mitres with thin glue, let it draw in, and glue them thinly too. "
    if mitres and not any(corner.pair.past):
        both = f", and across that of {corner.named(1)}, so that the mitre closes"
    return Step(
        Task.GLUE,
        "Fit and glue",
        f"{corners.TRY} {closing.both_ends_at_once(corner)} {mitres}Brush glue on the sides of "
        "tails and pins and drive the joint home; where it stays open, clamp it across the outside "
        f"of {corner.named(0)}, over {caul}{both}. "
        "Before it sets test each corner with a square, and check that "
        f"{SQUARED_UP[corner.request.around.is_closed]}."
        + corner.flush_words(("tails", "pins and the lap" if corner.pair.lap(1) else "pins")),
    )


def count_words(corner: DovetailCorner) -> str:
    """How many tails there are."""
    whole = len(corner.spacing.whole_tails)
    parts = (
        f"{whole} tail{'' if whole == 1 else 's'}" if whole else "",
        "" if corner.spacing.half_pins else "a half tail at each edge",
    )
    return " and ".join(filter(None, parts))


def through_steps(corner: DovetailCorner) -> Iterator[Step]:
    """The order of work right through, tails first (common practice, no source)."""
    yield from corners.set_out(corner)
    yield saw_tails(corner)
    yield from chop_between_tails(corner)
    yield mark_from_tails(corner)
    yield saw_and_chop_pins(corner)
    if not corner.pair.is_slanted:
        yield fit_and_glue(corner)
        return
    yield from closing.join_tails(corner, corner.flush_words(("tails", "pins")))
    yield from corners.level_the_edges(corner)


def _chop_slanting(corner: DovetailCorner, number: int) -> str:
    """How the chisel is held where the shoulder may be off square through the thickness."""
    return (
        f"Chop half way from each face{_held(corner, number)}. Pare to the middle of the baseline."
    )


def _pare_slanting(corner: DovetailCorner, number: int) -> str:
    """The same where all waste is sawn off."""
    return f"Pare to the middle of the baseline{_held(corner, number)}."


def _held(corner: DovetailCorner, number: int) -> str:
    bevel = corner.pair.end_bevel(number)
    if not bevel:
        return ", the chisel upright, and test with a square"
    leaning = corners.chop_leaning(corner, number)
    return f": {leaning}, as steep as a bevel set to {degrees(bevel)} shows"
