"""What each figure that a joint tells must be, measured on the wood: a rule for each phrase.

A rule gives all that its phrase may say; most give one value. Values are mm, bevels are rises
for each mm along. Places that a phrase names are looked for on the wood as well.
"""

import math
import re
from collections.abc import Callable, Iterable
from functools import cache
from itertools import pairwise

import numpy as np
from manifold3d import Manifold
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.wood.cut import Part, Surface
from tests.joints.probes import (
    HAIR,
    PAST,
    ZERO,
    Wood,
    board_of,
    inner,
    joined,
    left_of,
    lengths,
    upright,
    wood_of,
)
from tests.joints.solids import around, board_solid, convex

ONE = Fraction(1)
SAME = 1e-6
"""In mm: roots in the wood are rational, and near enough."""
Values = Iterable[Fraction | float]
Rule = Callable[..., Values]
RULES: list[tuple[str, Rule]] = []
ACROSS = "(?:, square to the edges)?"
LEVEL = "(?:, edges planed level)?"
SPACES_END = "at the (tail board's end|tails' ends)"


def rule(*phrases: str) -> Callable[[Rule], Rule]:
    """What measures the figures of these phrases; their groups are handed on as words."""

    def kept(measure: Rule) -> Rule:
        RULES.extend((phrase, measure) for phrase in phrases)
        return measure

    return kept


def measured(joint: Joint, phrase: str) -> Values | None:
    """What a phrase may say; None where no rule knows it, or more than one does."""
    found = [
        (measure, match)
        for words, measure in RULES
        if (match := re.fullmatch(words, phrase)) is not None
    ]
    if len(found) != 1:
        return None
    ((measure, match),) = found
    return measure(joint, *match.groups())


def same(one: Iterable[Fraction | float], other: Iterable[Fraction | float]) -> Values:
    """What both of them say."""
    return [a for a in one if any(abs(a - b) < SAME for b in other)]


# Corners


@rule(r"gauge, (.+ board)'s baseline, from its end", r"router, depth of cut, (.+ board)")
def _baseline(joint, role):
    wood = board_of(joint, role)
    # On both faces alike.
    return same([wood.baseline], [max(wood.depths(ZERO))])


@rule(r"gauge, (.+ board)'s baseline, square to its end")
def _baseline_square(joint, role):
    wood = board_of(joint, role)
    return same([wood.baseline / wood.stretch], [max(wood.depths(ZERO)) / wood.stretch])


@rule(r"gauge, (.+ board)'s baseline on the (outside|inside) face, square to its end")
def _baseline_by_face(joint, role, face):
    """From the arris that the gauge's stock meets, which is the end's farthest one."""
    wood = board_of(joint, role)
    z = wood.thickness if face == "inside" else ZERO
    tip = min(wood.end(ZERO, ZERO), wood.end(ZERO, wood.thickness))
    behind = wood.end(ZERO, z) - tip
    depths = wood.baseline, max(wood.depths(z))
    return same(*([(behind + depth) / wood.stretch] for depth in depths))


@rule(r"gauge, (.+ board)'s baseline, on its inside face only")
def _baseline_inside(joint, role):
    wood = board_of(joint, role)
    return [] if any(wood.depths(ZERO)) else [wood.baseline]


@rule(
    r"gauge, (tail board)'s baseline; the same for the lap line, from the (pin board)'s inside face"
)
def _baseline_and_lap(joint, tails, pins):
    return same(_baseline(joint, tails), _lap_line(joint, pins))


@rule(r"gauge, lap line, from the (pin board)'s inside face")
def _lap_line(joint, role):
    wood = board_of(joint, role)
    return [wood.thickness - lap for lap in _lap(joint, role)]


@rule(
    r"lap, on the (.+ board)'s outside",
    r"gauge, (tail board)'s lap, from its outside face",
)
def _lap(joint, role):
    """What is left outside of a space, where the pieces beside it end."""
    wood = board_of(joint, role)
    spaces = wood.spaces(wood.pieces_end, wood.thickness)
    low, high = (inner(spaces, wood.width) or spaces)[0]  # a single tail has none but at the edges
    return [wood.through((low + high) / 2, wood.pieces_end)[0][0]]


@rule(r"lap, on the outside of both boards")
def _both_laps(joint):
    return same(_lap(joint, "tail board"), _lap(joint, "pin board"))


@rule(r"gauge, (tail board)'s end rebate, from its end")
def _rebate(joint, role):
    return [board_of(joint, role).pieces_end]


@rule(r"gauge, both boards' end rebate, from the end and from the outside face")
def _both_rebates(joint):
    return same(same(_rebate(joint, "tail board"), _rebate(joint, "pin board")), _both_laps(joint))


@rule(
    r"dividers, one tail and one pin, stepped off(?: along the tail board's(?: slanting)? end)?"
    r" from the (tail|socket)'s line at the reference edge"
)
def _step(joint, line):
    """Of tails that no outside face shows the pins are set out first."""
    wood = board_of(joint, "tail board")
    assert any(wood.depths(ZERO)) == (line == "tail")
    spans = tails(wood, wood.pieces_end)
    starts = [low for low, _ in spans]
    pieces = wood.pieces(wood.pieces_end, wood.thickness)
    lines = [at for span in pieces for at in span if 0 < at < wood.width]
    # The first line is the end of a half tail, where one stands there.
    first = min(at for at in lines if any(at in span for span in spans) or pieces[0][0] == 0)
    (step,) = equal([b - a for a, b in pairwise(starts)])
    assert first + step in lines
    return [step * wood.stretch]


def tails(wood: Wood, depth: Fraction, z: Fraction | None = None) -> list[tuple]:
    """The whole tails of a line across the board, from the reference edge on."""
    return inner(wood.pieces(depth, wood.thickness if z is None else z), wood.width)


def equal(values: list) -> list:
    """One value, where all are alike."""
    return values[:1] if values and max(values) - min(values) < SAME else []


@rule(rf"tail at the end \(wide\){ACROSS}")
def _tail(joint):
    wood = board_of(joint, "tail board")
    return equal(lengths(tails(wood, wood.pieces_end)))


@rule(rf"tail at the baseline \(narrow\){ACROSS}")
def _tail_at_baseline(joint):
    wood = board_of(joint, "tail board")
    return equal(lengths(tails(wood, wood.baseline)))


@rule(rf"(narrowest|widest) tail at the (end|baseline) \((?:wide|narrow)\){ACROSS}")
def _odd_tails(joint, which, line):
    wood = board_of(joint, "tail board")
    widths = lengths(tails(wood, wood.pieces_end if line == "end" else wood.baseline))
    return [min(widths) if which == "narrowest" else max(widths)]


@rule(
    rf"space for a half pin at (each|the reference|the far) edge, {SPACES_END}{ACROSS}{LEVEL}"
    r"(, from the mitre)?"
)
def _half_pin(joint, edge, where, since):
    """From a mitred or levelled edge where there is one."""
    if edge == "each":
        return same(*(_half_pin(joint, one, where, since) for one in ("reference", "far")))
    edge = edge.removeprefix("the ")
    wood = with_spaces_at(joint, where)
    assert bool(since) == bool(mitre(joint, edge))
    pieces = tails(wood, wood.pieces_end, ZERO if wood.leans_back else None)
    if edge == "reference":
        return [pieces[0][0] - mitre(joint, edge) - planed_off(joint, edge)]
    return [wood.width - pieces[-1][1] - mitre(joint, edge) - planed_off(joint, edge)]


@rule(rf"half tail at (each|the reference|the far) edge, at the end{ACROSS}{LEVEL}")
def _half_tail(joint, edge):
    wood = board_of(joint, "tail board")
    pieces = wood.pieces(wood.pieces_end, wood.thickness)
    near, far = lengths([pieces[0], pieces[-1]])
    return equal([near, far]) if edge == "each" else [near if "reference" in edge else far]


def mitre(joint: Joint, edge: str) -> Fraction:
    """How far in from an edge the mitre takes all of the pin board's inside face; else 0."""
    wood = board_of(joint, "pin board")
    spans = wood.spaces(wood.baseline, wood.thickness)
    near, far = spans[0], spans[-1]
    if edge == "reference":
        return near[1] if near[0] == 0 else ZERO
    return far[1] - far[0] if far[1] == wood.width else ZERO


@rule(r"mitred edge", r"gauge, both boards' mitred strip, from the edge")
def _mitre(joint):
    return equal([one for edge in ("reference", "far") if (one := mitre(joint, edge))])


def with_spaces_at(joint: Joint, where: str) -> Wood:
    """The tail board, whose tails end at its own end or, behind a lap, short of it."""
    wood = board_of(joint, "tail board")
    assert (where == "tails' ends") == (wood.pieces_end > 0)
    return wood


@rule(rf"space for a pin {SPACES_END}{ACROSS}")
def _pin_space(joint, where):
    wood = with_spaces_at(joint, where)
    pieces = tails(wood, wood.pieces_end)
    return [min(b[0] - a[1] for a, b in pairwise(pieces))]


def pins(joint: Joint, z: Fraction) -> list[Fraction]:
    """Widths of the whole pins along their ends, at a depth from the outside face."""
    wood = board_of(joint, "pin board")
    spaces = inner(wood.spaces(wood.pieces_end, z), wood.width)
    return [b[0] - a[1] for a, b in pairwise(spaces)]


@rule(r"pin on the pin board's outside face \(narrow\)")
def _pin_outside(joint):
    return [min(pins(joint, ZERO))]


@rule(r"pin at the lap(?: line)? \(narrow\)")
def _pin_at_lap(joint):
    return [min(pins(joint, *_lap(joint, "pin board")))]


@rule(r"pin on the pin board's inside face \(wide\)")
def _pin_inside(joint):
    return [max(pins(joint, board_of(joint, "pin board").thickness))]


@rule(r"sides of the pins, stock on the inside face")
def _sides_of_pins(joint):
    """A whole socket narrows by both its sides from the lap to the inside face."""
    (lap,), wood = _lap(joint, "pin board"), board_of(joint, "pin board")
    wide, narrow = (
        lengths(inner(wood.spaces(wood.pieces_end, z), wood.width)) for z in (lap, wood.thickness)
    )
    rise = wood.thickness - lap
    return equal([(a - b) / 2 / rise for a, b in zip(wide, narrow, strict=True)])


@rule(r"finger(?:, square to the edges)?")
def _finger(joint):
    wood = board_of(joint, "first board")
    spans = [*wood.pieces(ZERO, ZERO), *wood.spaces(ZERO, ZERO)]
    return equal(lengths(inner(spans, wood.width)))


@rule(r"finger of the second board, if cut to its template")
def _second_finger(joint):
    wood = board_of(joint, "second board")
    return equal(lengths(inner(wood.pieces(ZERO, ZERO), wood.width)))


@rule(r"inner space in the second board, if cut to its template")
def _second_space(joint):
    wood = board_of(joint, "second board")
    return equal(lengths(inner(wood.spaces(ZERO, ZERO), wood.width)))


@rule(rf"finger or space at each edge{ACROSS}{LEVEL}")
def _edge_finger(joint):
    wood = board_of(joint, "first board")
    bounds = [low for low, _ in wood.spaces(ZERO, ZERO) if low > 0]
    bounds += [high for _, high in wood.spaces(ZERO, ZERO) if high < wood.width]
    near, far = min(bounds), wood.width - max(bounds)
    return same(
        [near - planed_off(joint, "reference")],
        [far - planed_off(joint, "far")],
    )


@rule(
    r"dividers, one finger, stepped off(?: along the .+ end)? from the (first mark|reference edge)"
)
def _finger_step(joint, start):
    """From the edge where the finger there is as wide as the others."""
    wood = board_of(joint, "first board")
    at_edge = [high - low for low, high in wood.pieces(ZERO, ZERO) if low <= ZERO]
    at_edge += [high - low for low, high in wood.spaces(ZERO, ZERO) if low <= ZERO]
    is_like = any(abs(wide - finger) < SAME for wide in at_edge for finger in _finger(joint))
    assert (start == "reference edge") <= is_like
    stretch = board_of(joint, "first board").stretch
    return [finger * stretch for finger in _finger(joint)]


@rule(r"(.+ board|both boards)'s? end, out of square over its width")
def _run_out(joint, role):
    if role == "both boards":
        return same(*(_run_out(joint, member.role) for member in joint.members))
    wood = board_of(joint, role)
    return [abs(wood.end(wood.width, ZERO) - wood.end(ZERO, ZERO))]


@rule(r"(.+ board|both boards)'s? mitre, from arris to arris")
def mitre_width(joint, role):
    """Two lines along the mitre: how far they lie apart."""
    if role == "both boards":
        return same(*(mitre_width(joint, member.role) for member in joint.members))
    wood = board_of(joint, role)
    back = float(wood.leans_back * wood.thickness) / wood.stretch
    return [math.hypot(back, wood.thickness)]


# Leaning boards


def heights(joint: Joint, x_of: Callable[[Wood], Fraction]) -> list[list[float]]:
    """For both boards how high both arrises of an edge lie, outside and inside."""
    ups = upright(joint)
    found = []
    for number, member in enumerate(joint.members):
        wood = wood_of(member)
        corners = [(x_of(wood), ZERO, z) for z in (ZERO, wood.thickness)]
        placed = [joint.placement.point(at) if number else at for at in corners]
        up = ups[0]
        found.append([sum(float(a) * u for a, u in zip(at, up, strict=True)) for at in placed])
    return found


def planed_off(joint: Joint, edge: str) -> float:
    """What an edge loses on the first board's outside face when all edges are planed level."""
    rise = upright(joint)[0][0]
    if edge == "reference":
        (mine, *_), *_ = arrises = heights(joint, lambda wood: ZERO)
        return (max(map(max, arrises)) - mine) / rise
    (mine, *_), *_ = arrises = heights(joint, lambda wood: wood.width)
    return (mine - min(map(min, arrises))) / rise


@rule(r"(reference|far) edge, planed off the .+ board's outside face")
def _planed_off(joint, edge):
    return [planed_off(joint, edge)]


BEFORE = rf"at the (reference|far) edge{ACROSS}, before that edge is planed"


@rule(
    rf"(space for a half pin), at the tail board's end, {BEFORE}",
    rf"(half tail), at the end, {BEFORE}",
)
@rule(rf"(finger or space) {BEFORE}")
def _before_planing(joint, piece, edge):
    """As the end shows it while the edge is square to the face."""
    wood = wood_of(joint.members[0])
    depth, z = (wood.pieces_end, ZERO if wood.leans_back else wood.thickness)
    if piece == "finger or space":
        depth = z = ZERO
    pieces = wood.pieces(depth, z)
    lines = sorted({at for piece in pieces for at in piece if 0 < at < wood.width})
    return [lines[0] if edge == "reference" else wood.width - lines[-1]]


@rule(r"height, edges planed level")
def _height(joint):
    low, high = (heights(joint, lambda wood, x=x: x and wood.width) for x in (ZERO, ONE))
    return [min(map(min, high)) - max(map(max, low))]


@rule(r"(.+ board), outside along the (reference|far) edge, both ends alike, edges planed level")
def _outside(joint, role, edge):
    """Its length is measured at the other edge."""
    wood = board_of(joint, role)
    near = planed_off(joint, "reference")
    ends = [wood.end(Fraction(x), ZERO) for x in (near, wood.width - planed_off(joint, "far"))]
    assert (ends[0] > ends[1]) == (edge == "reference")
    return [wood.member.part.board.length - 2 * abs(ends[0] - ends[1])]


def named_boards(joint: Joint, words: str) -> list[int]:
    """Which boards are meant."""
    if words == "both boards":
        return [0, 1]
    return [number for number, member in enumerate(joint.members) if member.role == words]


@rule(
    r"(.+): end, across the faces; longer at the (reference|far) edge: "
    r"stock on the (reference|far) edge"
)
def _end_across(joint, words, edge, stock):
    assert stock != edge
    slopes = [wood_of(joint.members[number]).runs_out for number in named_boards(joint, words)]
    longer_at_reference = [slope > 0 for slope in slopes]
    return equal(slopes_of(slopes)) if longer_at_reference.count(edge == "reference") else []


@rule(
    r"(.+): end, through the thickness; longer on the (outside|inside) face: stock on the "
    r"(outside|inside) face, square to the line of the end"
)
def _end_through(joint, words, face, stock):
    assert stock != face
    woods = [wood_of(joint.members[number]) for number in named_boards(joint, words)]
    slopes = [wood.leans_back / wood.stretch for wood in woods]
    return equal(slopes_of(slopes)) if all((s > 0) == (face == "outside") for s in slopes) else []


def slopes_of(values: Iterable) -> list:
    return [abs(value) for value in values]


@rule(
    r"(.+): edges, to lie level: stock on the (outside|inside) face at the reference edge, on the "
    r"(outside|inside) face at the far edge"
)
def _edges(joint, words, low, high):
    """Of the lower edge goes what hangs down, of the upper one what stands up."""
    numbers = named_boards(joint, words)
    ups = [upright(joint)[number] for number in numbers]
    for number in numbers:
        outside, inside = heights(joint, lambda wood: ZERO)[number]
        if low != ("outside" if outside < inside else "inside"):
            return []
        outside, inside = heights(joint, lambda wood: wood.width)[number]
        if high != ("outside" if outside > inside else "inside"):
            return []
    return equal([abs(up[2] / up[0]) for up in ups])


@rule(
    r"every corner inside, (opened|closed) from square to (\d+(?:\.\d+)?)°: stock on an inside face"
)
def _corner_inside(joint, turned, told_deg):
    """From a square to how the grain of both boards, which lies level, runs together."""
    plan = math.degrees(math.acos(float(joint.placement.rows[1][1])))
    if abs(plan - float(told_deg)) > 0.005 or (turned == "opened") != (plan > 90):
        return []
    return [abs(math.tan(math.radians(plan - 90)))]


def side_points(wood: Wood, number: int, side: int) -> list[tuple[Fraction, Fraction]]:
    """Where a tail's side (0 nearer the reference edge) begins and ends, on the outside face."""
    z = wood.thickness if wood.pieces_end else ZERO
    depths = (wood.pieces_end, wood.baseline)
    xs = [tails(wood, depth, z)[number][side] for depth in depths]
    return [
        (x, wood.end(ZERO, z) + wood.runs_out * x + depth)
        for x, depth in zip(xs, depths, strict=True)
    ]


@rule(
    r"sides of the tails, stock on the end; of the pins, stock on a face",
    r"sides of the tails, from a line along the grain",
)
def _sides(joint):
    wood = board_of(joint, "tail board")
    found = []
    for side in (0, 1):
        (x, y), (x1, y1) = side_points(wood, 0, side)
        found.append(abs((x1 - x) / (y1 - y)))
    return equal(found)


@rule(
    r"tails' sides that face the (reference|far) edge, stock on the slanting end; "
    r"blade leaning to the (reference|far) edge"
)
def _sides_from_end(joint, side, towards):
    """How a side leans from a square laid on the line of the end, followed from there inwards."""
    wood = board_of(joint, "tail board")
    (x, y), (x1, y1) = side_points(wood, 0, 0 if side == "reference" else 1)
    across, along = x - x1, y - y1
    to_far = across + wood.runs_out * along
    out = wood.runs_out * across - along
    lean = to_far / out
    return [abs(lean)] if (lean < 0) == (towards == "far") else []


@rule(
    r"tails' sides over the end grain, stock on the outside arris; "
    r"blade leaning to the (reference|far) edge"
)
def _over_the_end(joint, towards):
    """From a square to the line of the end on the outside face, in the plane of the end."""
    wood = board_of(joint, "tail board")
    (x, y), (x1, y1) = (
        (x, wood.end(x, z)) for z in (ZERO, wood.thickness) for x in [tails(wood, ZERO, z)[0][1]]
    )
    step = (float(x1 - x), float(y1 - y), float(wood.thickness))
    along = (step[0] + float(wood.runs_out) * step[1]) / wood.stretch
    up = math.sqrt(sum(one * one for one in step) - along * along)
    return [abs(along / up)] if (along > 0) == (towards == "far") else []


# Grooves


def groove_of(joint: Joint, number: int, name: str) -> Fraction:
    """The middle of a groove or rebate on a board's inside face."""
    wood = wood_of(joint.members[number], grooves=True)
    spans = groove_spans(wood)
    edged = [s for s in spans if s[0] == 0 or s[1] == wood.width]
    (one,) = edged if name == "rebate" else [s for s in spans if s not in edged]
    return (one[0] + one[1]) / 2


def groove_spans(wood: Wood) -> list:
    return wood.spaces(wood.member.part.reach + PAST / 2, wood.thickness)


@rule(r"(groove), from the reference edge")
def _groove_start(joint, name):
    wood = wood_of(joint.members[0], grooves=True)
    middle = groove_of(joint, 0, name)
    return [low for low, high in groove_spans(wood) if low < middle < high]


@rule(r"(groove), how wide", r"(rebate), from the (?:reference|far) edge")
def _groove_width(joint, name):
    wood = wood_of(joint.members[0], grooves=True)
    middle = groove_of(joint, 0, name)
    return [high - low for low, high in groove_spans(wood) if low < middle < high]


@rule(r"(groove|rebate), how deep")
def _groove_depth(joint, name):
    found = []
    for number, member in enumerate(joint.members):
        wood = wood_of(member, grooves=True)
        found += lengths(wood.through(groove_of(joint, number, name), member.part.reach + 5))
    return equal(found)


@rule(r"(groove|rebate) stops, from the (.+ board)'s end")
def _groove_stop(joint, name, role):
    number = [member.role for member in joint.members].index(role)
    wood = wood_of(joint.members[number], grooves=True)
    start = (groove_of(joint, number, name), ZERO, wood.thickness)
    return [wood.gone(start, (ZERO, ONE, ZERO), Fraction(PAST))[0][0]]


# Keys


def seam(joint: Joint) -> tuple[tuple, tuple]:
    """A point of the line that keys lie across in the first board's frame, and the way along it."""
    board = joint.members[0].part.board
    return {
        "butt-dovetail-key": ((ZERO, ZERO, ZERO), (ONE, ZERO, ZERO)),
        "mitre-dovetail-key": ((ZERO, ZERO, ZERO), (ONE, ONE, ZERO)),
        "dovetail-key": ((board.width, Fraction(-100), ZERO), (ZERO, ONE, ZERO)),
    }[joint.kind]


def mouths(joint: Joint) -> list[tuple[float, float]]:
    """The sockets along that line, in mm; at a mitre a hair inside of the board."""
    wood = wood_of(joint.members[0])
    start, way = seam(joint)
    size = math.hypot(*way)
    if joint.kind == "mitre-dovetail-key":
        start = (ZERO, Fraction(1, 10**9), ZERO)
    spans = wood.gone(start, way, Fraction(1000))
    return [(float(low) * size, float(high) * size) for low, high in spans]


def into(joint: Joint) -> tuple[tuple, tuple, float]:
    """From the middle of the first socket's mouth square into the first board, and mm a step."""
    start, way = seam(joint)
    size = math.hypot(*way)
    low, high = mouths(joint)[0]
    at = Fraction((low + high) / 2 / size)
    middle = tuple(a + at * w for a, w in zip(start, way, strict=True))
    if joint.kind == "dovetail-key":
        return middle, (-ONE, ZERO, ZERO), 1.0
    return middle, (-way[1], way[0], ZERO), size


@rule(r"rule, tips of the sockets, from (?:the joint line|the seam|the mitre)")
def _tips(joint):
    middle, way, size = into(joint)
    return [float(wood_of(joint.members[0]).gone(middle, way, Fraction(1000))[0][1]) * size]


@rule(r"router or gauge, depth of the sockets")
def _socket_depth(joint):
    (x, y, _), way, _ = into(joint)
    wood = wood_of(joint.members[0])
    return lengths(wood.through(x + way[0], y + way[1]))


@rule(r"key, from tip to tip")
def _key_length(joint):
    key = wood_of(joint.loose[0].member)
    return [key.gone((key.width / 2, ZERO, ZERO), (ZERO, ONE, ZERO), Fraction(1000))[0][0]]


def key_width(joint: Joint, share: Fraction) -> Fraction:
    key = wood_of(joint.loose[0].member)
    ((low, high),) = key.pieces(share * next(iter(_key_length(joint))), ZERO)
    return high - low


@rule(r"key, at its ends")
def _key_ends(joint):
    return equal([key_width(joint, ZERO), key_width(joint, 1 - HAIR)])


@rule(r"key, at its waist")
def _key_waist(joint):
    return [key_width(joint, Fraction(1, 2))]


@rule(r"key, thickness of its stock")
def _key_stock(joint):
    return [joint.loose[0].member.part.board.thickness]


@rule(r"socket, from tip to tip")
def _socket_length(joint):
    return [2 * tip for tip in _tips(joint)]


@rule(r"socket, at its waist")
def _socket_waist(joint):
    low, high = mouths(joint)[0]
    return [high - low]


def key_middles(joint: Joint) -> tuple[list, Fraction | float]:
    """Along the line, and its length; of a seam only one socket is drawn, and the rest a row."""
    if joint.kind == "dovetail-key":
        (row,) = joint.rows
        return [mark.position for mark in row.marks], row.width
    _, way = seam(joint)
    length = joint.members[0].part.board.width * math.hypot(*way)
    return [(low + high) / 2 for low, high in mouths(joint)], length


@rule(r"(?:dividers, )?from one key's middle to the next")
def _pitch(joint):
    return equal([b - a for a, b in pairwise(key_middles(joint)[0])])


@rule(r"from the (?:reference edge|start of the seam|outer corner) to the (?:first )?key's middle")
def _first_key(joint):
    return key_middles(joint)[0][:1]


@rule(r"from the (?:last )?key's middle to the (?:far edge|end of the seam|inner corner)")
def _last_key(joint):
    places, length = key_middles(joint)
    return [length - places[-1]]


@rule(r"sides of the keys, stock on the key's end")
def _key_sides(joint):
    half = next(iter(_key_length(joint))) / 2
    return [(key_width(joint, ZERO) - key_width(joint, Fraction(1, 2))) / 2 / half]


# The halving


@cache
def halving(joint: Joint) -> tuple[Wood, Fraction, Fraction]:
    """The rail, a depth within its dovetail, and how far that reaches."""
    rail = board_of(joint, "rail")
    # Where the wood comes to the end, as near to the middle as may be.
    left = (x for x in rail.across if left_of(rail.through(x, ONE), rail.thickness))
    middle = min(left, key=lambda x: abs(x - rail.width / 2))
    spans = rail.through(middle, ONE)
    z = next(low for low, high in left_of(spans, rail.thickness))
    z = (z + next(high for low, high in left_of(spans, rail.thickness))) / 2
    return rail, z, rail.depth(middle, ZERO if spans[0][0] == 0 else rail.thickness)


def socket(joint: Joint) -> list:
    """What is gone through the stile in the middle of the socket, near where the rail comes in."""
    stile = board_of(joint, "stile")
    return stile.through(*place_on_stile(joint))


def place_on_stile(joint: Joint) -> tuple[Fraction, Fraction]:
    rail = board_of(joint, "rail")
    _, _, reach = halving(joint)
    x, y, _ = joint.placement.reversed().point((rail.width / 2, reach - 1, ZERO))
    return x, y


@rule(r"gauge, flat of the lap and floor of the socket, both from the outside face")
def _flat(joint):
    rail, _, _ = halving(joint)
    stile = board_of(joint, "stile")
    flats = [
        [at for span in spans for at in span if 0 < at < thick]
        for spans, thick in (
            (rail.through(rail.width / 2, ONE), rail.thickness),
            (socket(joint), stile.thickness),
        )
    ]
    return same(*flats)


@rule(r"rule, rail's shoulder, from its end")
def _rail_shoulder(joint):
    return [halving(joint)[2]]


@rule(r"dovetail at its end \(wide\)")
def _wide(joint):
    rail, z, _ = halving(joint)
    return lengths(rail.pieces(ZERO, z))


@rule(r"dovetail at the shoulder \(neck\)")
def _neck(joint):
    rail, z, reach = halving(joint)
    return lengths(rail.pieces(reach, z))


@rule(r"shoulder beside the dovetail")
def _rail_beside(joint):
    rail, z, reach = halving(joint)
    return equal(lengths(rail.spaces(reach, z)))


@rule(r"thickness of the dovetail")
def _lap_thickness(joint):
    rail, _, _ = halving(joint)
    return lengths(left_of(rail.through(rail.width / 2, ONE), rail.thickness))


@rule(r"gauge, end of the socket, from the stile's (reference|far) edge")
def _socket_end(joint, edge):
    stile = board_of(joint, "stile")
    x, y = place_on_stile(joint)
    ((low, high),) = stile.gone((ZERO, y, socket_z(joint)), (ONE, ZERO, ZERO), stile.width)
    assert low < x < high
    return [high] if edge == "reference" and not low else [stile.width - low]


def socket_z(joint: Joint) -> Fraction:
    ((low, high),) = socket(joint)
    return ZERO if low == 0 else high


@rule(r"left of the stile past the socket's end")
def _past_socket(joint):
    stile = board_of(joint, "stile")
    start = (ZERO, place_on_stile(joint)[1], socket_z(joint))
    spans = stile.gone(start, (ONE, ZERO, ZERO), stile.width)
    return lengths(left_of(spans, stile.width))


@rule(r"socket where the rail comes in, with the fit")
def _socket_mouth(joint):
    stile = board_of(joint, "stile")
    _, _, reach = halving(joint)
    x, _, _ = joint.placement.reversed().point((ZERO, reach, ZERO))
    start = (x, -stile.width - 100, socket_z(joint))
    return lengths(stile.gone(start, (ZERO, ONE, ZERO), Fraction(1000)))


@rule(r"thickness left of the stile")
def _stile_left(joint):
    return lengths(left_of(socket(joint), board_of(joint, "stile").thickness))


@rule(r"sides of the dovetail, stock on the rail's end")
def _dovetail_sides(joint):
    rail, z, reach = halving(joint)
    (wide,), (neck,) = rail.pieces(ZERO, z), rail.pieces(reach, z)
    leans = [abs(a - b) / reach for a, b in zip(wide, neck, strict=True)]
    return equal([lean for lean in leans if lean])


# Housings


def trench(joint: Joint, x: Fraction | None = None) -> list:
    """What is gone through the side in the middle of a housing, near the back unless told."""
    side = board_of(joint, "side")
    x = side.width - 1 if x is None else x
    return side.through(x, board_of(joint, "shelf").thickness / 2)


@rule(r"gauge, depth of the housing, from the inside face")
def housing_depth(joint):
    ((low, high),) = trench(joint)
    return [high - low] if high == board_of(joint, "side").thickness else []


@rule(r"thickness of the side left behind the housing")
def _side_left(joint):
    return lengths(left_of(trench(joint), board_of(joint, "side").thickness))


@rule(
    r"gauge, lower side of the tongue on the end grain, from the upper face",
    r"tongue on the shelf's end",
)
def tongue(joint):
    shelf = board_of(joint, "shelf")
    ((low, high),) = left_of(shelf.through(shelf.width - 1, ONE), shelf.thickness)
    assert low == 0
    return [high]


@rule(r"shelf's corner cut back, from the front edge")
def _cut_back(joint):
    return [shelf_places(joint)["where the tail begins"]]


@rule(r"gauge, shelf's corner cut back, from the front edge")
def _corner_gauge(joint):
    return _cut_back(joint)


@rule(r"gauge, tongue's shoulder, from the shelf's end")
def _tongue_shoulder(joint):
    shelf = board_of(joint, "shelf")
    return [shelf.depth(shelf.width - 1, shelf.thickness)]


@rule(r"how far each end of the shelf is let in")
def let_in(joint):
    """How far the shelf's end lies behind the side's inside face."""
    inside_face = (ZERO, ZERO, board_of(joint, "side").thickness)
    return [joint.placement.point(inside_face)[1]]


def walls(joint: Joint) -> list:
    """The square walls of a housing along the side: at its mouth, its bottom and both edges."""
    side = board_of(joint, "side")
    ((bottom, mouth),) = trench(joint)
    corners = [(x, z) for x in (ZERO, side.width) for z in (bottom, mouth)]
    found = {
        (low - 50, high - 50)
        for x, z in corners
        for low, high in side.gone((x, Fraction(-50), z), (ZERO, ONE, ZERO), Fraction(200))
    }
    return list(found)


@rule(r"dividers, width of the housing")
def _housing_width(joint):
    return lengths(walls(joint)) if len(walls(joint)) == 1 else []


# The sliding dovetail


def shelf_places(joint: Joint) -> dict[str, Fraction]:
    """How far from the front edge the places are that phrases name."""
    shelf, side = board_of(joint, "shelf"), board_of(joint, "side")
    back = shelf.width
    front = shelf.gone((ZERO, ZERO, shelf.thickness / 2), (ONE, ZERO, ZERO), back)
    face = (ZERO, shelf.thickness / 2, side.thickness)
    (housing,) = side.gone(face, (ONE, ZERO, ZERO), side.width)
    return {
        "at the shelf's back edge": back,
        "where the tail begins": front[0][1] if front else ZERO,
        "where the housing begins": housing[0],
        "at the front edge": ZERO,
        "": back,
    }


def beside_tail(joint: Joint, face: str, x: Fraction, y: Fraction) -> list[Fraction]:
    """How much of the shelf is gone at a face, at a place of the tail."""
    shelf = board_of(joint, "shelf")
    spans = shelf.through(behind(shelf, x), y)
    at_face = [s for s in spans if (s[0] == 0 if face == "upper" else s[1] == shelf.thickness)]
    return lengths(at_face)


def shoulders(joint: Joint) -> Fraction:
    """From the shelf's end to the shoulders."""
    shelf = board_of(joint, "shelf")
    return max(shelf.depths(ZERO) + shelf.depths(shelf.thickness))


@rule(r"gauge, depth of the housing and length of the tail")
def _length_of_tail(joint):
    return same([shoulders(joint)], housing_depth(joint))


WHERE = (
    r"(?:, (at the shelf's back edge|where the tail begins|where the housing begins|"
    r"at the front edge))?"
)


@rule(
    r"(?:gauge|dividers), (upper|lower) side of the tail on the end grain, from the \1 face" + WHERE
)
def _side_on_end(joint, face, where):
    return beside_tail(joint, face, shelf_places(joint)[where or ""], ZERO)


@rule(r"shoulder at the (upper|lower) face" + WHERE)
def _tail_shoulder(joint, face, where):
    return beside_tail(joint, face, shelf_places(joint)[where or ""], shoulders(joint))


@rule(r"tail at its end \(wide\)" + WHERE, r"tail at the shoulders (\(narrow\))" + WHERE)
def _tail_thickness(joint, *words):
    where, narrow = words[-1], len(words) > 1
    shelf = board_of(joint, "shelf")
    y = shoulders(joint) if narrow else ZERO
    x = shelf_places(joint)[where or ""]
    return lengths(left_of(shelf.through(behind(shelf, x), y), shelf.thickness))


def behind(shelf: Wood, x: Fraction) -> Fraction:
    """A hair behind a place: where the tail begins, all before it is gone."""
    return x + HAIR if x < shelf.width else x


@rule(r"dividers, mouth of the housing" + WHERE)
def _mouth(joint, where):
    side = board_of(joint, "side")
    start = (shelf_places(joint)[where or ""], Fraction(-5), side.thickness)
    return lengths(side.gone(start, (ZERO, ONE, ZERO), Fraction(100)))


@rule(r"gauge, stop of the (housing), from the front edge")
@rule(r"gauge, where the (tail) begins, from the front edge")
def _begins(joint, what):
    return [shelf_places(joint)[f"where the {what} begins"]]


@rule(r"sides of the tail, stock on the shelf's end; of the housing, stock on the inside face")
def _housing_sides(joint):
    back = shelf_places(joint)[""]
    found = []
    for face in ("upper", "lower"):
        wide, narrow = (
            beside_tail(joint, face, back, y) or [ZERO] for y in (ZERO, shoulders(joint))
        )
        if narrow != [ZERO]:
            found.append((narrow[0] - wide[0]) / shoulders(joint))
    return equal(found)


# The mortise and tenon

KERF = ONE
"""Wider gaps of a tenon are no saw cuts."""


@cache
def tenon(joint: Joint) -> tuple[Wood, tuple, tuple]:
    """The rail, and where its first tenon is at the end: across the rail, and through it."""
    rail = board_of(joint, "rail")
    left = {x: left_of(rail.through(x, ONE), rail.thickness) for x in rail.across}
    thick = next(spans for spans in left.values() if spans)[0]
    wide, *others = tenons_across(joint, sum(thick) / 2)
    for low, high in others:
        if low - wide[1] > KERF:
            break
        wide = (wide[0], high)
    return rail, wide, thick


def tenons_across(joint: Joint, z: Fraction) -> list:
    """What is left near the end across the rail, when it is ploughed too."""
    rail = board_of(joint, "rail")
    ploughed = Wood(rail.member, grooves=True)
    return left_of(joined([*rail.spaces(ONE, z), *ploughed.spaces(ONE, z)]), rail.width)


def in_mortise(joint: Joint) -> tuple[Fraction, Fraction]:
    """Where on the stile's edge the middle of the tenon goes in: along it, and through it."""
    rail, wide, thick = tenon(joint)
    x, z = sum(wide) / 2, sum(thick) / 2
    _, y, z = joint.placement.reversed().point((x, rail.depth(x - KERF, ZERO), z))
    return y, z


@cache
def mortise(joint: Joint) -> tuple[tuple, tuple, Fraction]:
    """Where on the stile's reference edge it is: along that edge, and through it; how deep.

    A haunch is let in beside it at the edge, and a flare begins below: what both leave is it.
    """
    rail, stile = board_of(joint, "rail"), board_of(joint, "stile")
    y, z = in_mortise(joint)
    found = []
    for x in (ONE, rail.baseline / 2):
        ((low, high),) = [
            span
            for span in stile.gone((x, Fraction(-500), z), (ZERO, ONE, ZERO), Fraction(1500))
            if span[0] < y + 500 < span[1]
        ]
        found.append((low - 500, high - 500))
    across = next(span for span in stile.through(ZERO, y) if span[0] < z < span[1])
    ((edge, depth),) = stile.gone((ZERO, y, z), (ONE, ZERO, ZERO), stile.width)
    assert edge == 0
    return (max(found[0][0], found[1][0]), min(found[0][1], found[1][1])), across, depth


@rule(r"mortise gauge, between its points")
def _mortise_gauge(joint):
    return lengths([mortise(joint)[1]])


@rule(r"gauge, nearer cheek of the mortise, from the stile's outside face")
def _mortise_from(joint):
    return [mortise(joint)[1][0]]


@rule(r"gauge, nearer cheek of mortise (\d), from the stile's outside face")
def _next_mortise_from(joint, number):
    y, _ = in_mortise(joint)
    return [board_of(joint, "stile").through(ZERO, y)[int(number) - 1][0]]


@rule(r"left between mortises side by side")
def _between_mortises(joint):
    y, _ = in_mortise(joint)
    return equal(lengths(inner_left(board_of(joint, "stile").through(ZERO, y))))


def inner_left(spans: list) -> list:
    """What lies between the first and the last of spans."""
    return left_of(spans, spans[-1][1])[1:]


@rule(r"between tenons, across the rail")
def _between_tenons(joint):
    rail, _, thick = tenon(joint)
    return equal(lengths(inner(rail.spaces(ONE, sum(thick) / 2), rail.width)))


@rule(r"gauge, nearer cheek of the tenon, from the rail's outside face")
def _cheek_from(joint):
    return [tenon(joint)[2][0]]


@rule(r"gauge, nearer cheek of mortise and tenon, from the outside face of both")
def _both_from(joint):
    return same(_mortise_from(joint), _cheek_from(joint))


def tenons_through(joint: Joint) -> list:
    """What is left near the end, through the rail, where its first tenon is."""
    rail, wide, _ = tenon(joint)
    return left_of(rail.through(sum(wide) / 2, ONE), rail.thickness)


def tenon_beside(joint: Joint, number: int) -> tuple:
    """Where the so manyeth of the tenons side by side is, through the rail."""
    return tenons_through(joint)[number - 1]


@rule(r"gauge, nearer cheek of tenon (\d), from the rail's outside face")
def _next_cheek_from(joint, number):
    return [tenon_beside(joint, int(number))[0]]


@rule(r"gauge, nearer cheek of mortise and tenon (\d), from the outside face of both")
def _next_both_from(joint, number):
    return same(_next_mortise_from(joint, number), _next_cheek_from(joint, number))


def gap(joint: Joint, number: int) -> tuple:
    """Between tenons one above another, where the first and where the last stands."""
    rail = board_of(joint, "rail")
    found = {
        inner(rail.spaces(ONE, sum(sides) / 2), rail.width)[number - 1]
        for sides in tenons_through(joint)
    }
    (sides,) = found
    return sides


@rule(r"gauge, gap between tenons, its (nearer|farther) side, from the rail's reference edge")
def _gap_side(joint, side):
    return [gap(joint, 1)[side == "farther"]]


@rule(r"gauge, tenon's edge, from the rail's (reference|far) edge")
def tenon_side(joint, edge):
    rail, (low, _), thick = tenon(joint)
    if edge == "reference":
        return [low]
    return [rail.width - tenons_across(joint, sum(thick) / 2)[-1][1]]


@rule(r"rule, haunch's end, from the shoulder")
def haunch(joint):
    """Just beside the tenon, where a sloped one is as long as a square one."""
    rail, _, thick = tenon(joint)
    far = rail.pieces(ONE, sum(thick) / 2)[-1][1] + HAIR
    square = -joint.placement.rows[1][0]
    return [(rail.depth(far, ZERO) - rail.depth(far, sum(thick) / 2)) * square]


@rule(r"sloped haunch, from the shoulder, stock on the far edge")
def _haunch_slope(joint):
    rail, _, thick = tenon(joint)
    far = rail.pieces(ONE, sum(thick) / 2)[-1][1] + HAIR
    ends = [rail.depth(x, ZERO) - rail.depth(x, sum(thick) / 2) for x in (far, rail.width - HAIR)]
    assert abs(ends[1]) < SAME
    return [(ends[0] - ends[1]) / (rail.width - far)]


@rule(r"rule, rail's shoulder, from its end, along the far edge")
def _far_shoulder(joint):
    rail = board_of(joint, "rail")
    return same([rail.depth(rail.width, ZERO)], [rail.depth(rail.width, rail.thickness)])


@rule(r"rail's shoulder, off square, stock on an edge")
def _shoulder_slope(joint):
    rail = board_of(joint, "rail")
    return [abs(rail.depth(rail.width, ZERO) - rail.depth(ZERO, ZERO)) / rail.width]


@rule(r"rule, rail's inside shoulder, from its end")
def _inside_shoulder(joint):
    rail = board_of(joint, "rail")
    return equal(list(rail.depths(rail.thickness)))


@rule(r"rule, depth of the mortise( along its slant)?, marked on the chisel")
def down_the_mortise(joint, slant):
    """From the edge to its floor, along the rail."""
    into = -joint.placement.rows[1][0]
    assert (into < 1) == bool(slant)
    return [mortise(joint)[2] / into]


@rule(r"rule, horn: from the stile's end to the rail's (reference|far) edge")
def horn(joint, edge):
    """The stile's end is where its place says that it is."""
    rail = board_of(joint, "rail")
    x = ZERO if edge == "reference" else rail.width
    along = joint.placement.reversed().point((x, rail.depth(x, ZERO), ZERO))[1]
    return [board_of(joint, "stile").member.part.along + along]


@rule(r"thickness of the tenon")
def _tenon_thickness(joint):
    rail, wide, _ = tenon(joint)
    spans = left_of(rail.through(wide[0] + HAIR, ONE), rail.thickness)
    return equal(lengths(spans))


@rule(r"width of the tenon, length of the mortise")
def _tenon_width(joint):
    rise = joint.placement.rows[1][0]
    (low, high), _, _ = mortise(joint)
    return same(lengths([tenon(joint)[1]]), [-(high - low) * rise])


@rule(r"left of the stile under the mortise's floor")
def _below_mortise(joint):
    return [board_of(joint, "stile").width - mortise(joint)[2]]


@rule(r"left between mortise and inside face")
def _beside_mortise(joint):
    y, _ = in_mortise(joint)
    stile = board_of(joint, "stile")
    return [stile.thickness - stile.through(ZERO, y)[-1][1]]


def channels(joint: Joint, role: str) -> tuple[tuple, Fraction]:
    """What a groove or rebate takes of a board's reference edge: through it, and into it."""
    wood = Wood(board_of(joint, role).member, grooves=True)
    (across,) = wood.through(HAIR, wood.baseline)
    ((edge, deep),) = wood.gone(
        (ZERO, wood.baseline, sum(across) / 2), (ONE, ZERO, ZERO), wood.width
    )
    assert edge == 0
    return across, deep


@rule(r"edge groove, from the rail's outside face")
def edge_groove_from(joint):
    return [channels(joint, "rail")[0][0]]


@rule(r"edge groove, how wide")
def edge_groove_width(joint):
    return equal([a[1] - a[0] for a, _ in (channels(joint, role) for role in ("rail", "stile"))])


@rule(r"edge groove, how deep", r"edge rebate, how far in from the edge")
def edge_depth(joint):
    return equal([channels(joint, role)[1] for role in ("rail", "stile")])


@rule(r"edge rebate, how deep")
def _edge_rebate(joint):
    across, _ = channels(joint, "rail")
    assert across[1] == board_of(joint, "rail").thickness
    return lengths([across])


SHORT_OF_FLOOR = 2
"""Our judgement: a wedge that met its kerf's floor first would not be tight at the mouth."""


def kerfs(joint: Joint) -> list:
    """The saw cuts in the first tenon."""
    rail, _, thick = tenon(joint)
    spaces = inner(rail.spaces(ONE, sum(thick) / 2), rail.width)
    return [space for space in spaces if space[1] - space[0] <= KERF][:2]


@rule(r"gauge, kerfs, from the tenon's edges")
def kerf_places(joint):
    _, (low, high), _ = tenon(joint)
    one, other = (sum(kerf) / 2 for kerf in kerfs(joint))
    return equal([one - low, high - other])


@rule(r"gauge, kerfs' floor, from the tenon's end")
def kerf_depth(joint):
    rail, _, thick = tenon(joint)
    return equal([rail.depth(sum(kerf) / 2, sum(thick) / 2) for kerf in kerfs(joint)])


@rule(r"rule, flare, past each end of the mortise where it is longest")
def flare(joint):
    return flare_at(joint, mortise(joint)[2])


def flare_at(joint: Joint, deep: Fraction) -> list:
    """How far both ends of the mortise are pared back so deep in the stile."""
    (low, high), _, _ = mortise(joint)
    y, z = in_mortise(joint)
    start = (deep - HAIR, Fraction(-500), z)
    spans = board_of(joint, "stile").gone(start, (ZERO, ONE, ZERO), Fraction(1500))
    ((wide_low, wide_high),) = [span for span in spans if span[0] < y + 500 < span[1]]
    return equal([low + 500 - wide_low, wide_high - 500 - high])


def wedge(joint: Joint) -> Wood:
    (member,) = [one.member for one in joint.details if one.board is None]
    return Wood(member)


def held_from_floor(joint: Joint) -> tuple[list, list]:
    """From a kerf's floor to where the mortise holds the tenon last; what has opened there."""
    shoulder, depth = board_of(joint, "rail").baseline, mortise(joint)[2]
    last = min(depth, shoulder)
    (kerf,), (opens,) = lengths(kerfs(joint)[:1]), flare_at(joint, last)
    return [last - (shoulder - deep) for deep in kerf_depth(joint)], [kerf + opens]


def wedge_held(joint):
    """Where it is as thick as what has opened there; its thin end is then short of the floor."""
    (to_floor,), (full,) = held_from_floor(joint)
    ((thin, along),) = wedge(joint).gone((full, ZERO, ZERO), (ZERO, ONE, ZERO), Fraction(500))
    assert thin == 0
    assert abs(to_floor - along - SHORT_OF_FLOOR) < SAME
    return [along]


@rule(r"wedge, how thick it is where (?:it fills the mortise|the tenon ends)")
def wedge_end(joint):
    return held_from_floor(joint)[1]


def holes(joint: Joint, role: str) -> list[tuple[list, float]]:
    """Each hole that is bored through a board: its middle, and its diameter, from its flats."""
    found = []
    for cut in board_of(joint, role).member.part.cuts:
        flats = [one for one in cut.half_spaces if one.surface is Surface.HOLE]
        if flats:
            normals = np.array([[float(part) for part in one.normal[:2]] for one in flats])
            limits = np.array([float(one.limit) for one in flats])
            # All flats are as far from the middle.
            (x, y, radius), *_ = np.linalg.lstsq(np.c_[normals, np.ones(len(flats))], limits)
            found.append(([float(x), float(y)], 2 * float(radius)))
    return found


@rule(r"bit, holes for the pegs")
def peg(joint):
    return equal([round(wide, 9) for role in ("rail", "stile") for _, wide in holes(joint, role)])


@rule(r"gauge, holes of the stile, from its reference edge")
def hole_in_stile(joint):
    return equal([round(x, 9) for (x, _), _ in holes(joint, "stile")])


@rule(r"gauge, holes of the tenon, from its shoulder")
def hole_in_tenon(joint):
    shoulder = board_of(joint, "rail").baseline
    return equal([round(float(shoulder) - y, 9) for (_, y), _ in holes(joint, "rail")])


def nearer(joint: Joint) -> list:
    """By how much the tenon's holes are nearer to the shoulder than the stile's before them."""
    found = []
    for ((x, y), _), ((across, along), _) in zip(
        holes(joint, "rail"), holes(joint, "stile"), strict=True
    ):
        there = joint.placement.point((Fraction(across), Fraction(along), ZERO))
        assert abs(x - there[0]) < SAME
        found.append(round(y - float(there[1]), 9))
    return equal(found)


# Dowels


Box = list[tuple[float, float]]
"""The least and the greatest x, y and z."""


def box_of(solid: Manifold) -> Box:
    low, high = np.reshape(solid.bounding_box(), (2, 3))
    return list(zip(map(float, low), map(float, high), strict=True))


def bores(joint: Joint, number: int) -> tuple[list[Box], int]:
    """The holes of a board as a geometry kernel has them, and the axis that they run along."""
    return bored(joint.members[number].part)


@cache
def bored(part: Part) -> tuple[list[Box], int]:
    whole = board_solid(replace(part, cuts=()))
    holes = [box_of(convex(cut.half_spaces, around(part)) ^ whole) for cut in part.cuts]
    faces = box_of(whole)
    open_at = [
        {axis for axis in range(3) if {*np.round(box[axis], 9)} & {*np.round(faces[axis], 9)}}
        for box in holes
    ]
    (axis,) = set.intersection(*open_at)
    return holes, axis


def middles(joint: Joint, number: int, axis: int) -> list[float]:
    return [sum(box[axis]) / 2 for box in bores(joint, number)[0]]


def dowel_middles(joint: Joint) -> list[Fraction | float]:
    """From the row's start; of a seam a row's own marks, which its whole pattern must bear out."""
    if bores(joint, 0)[1] == 1:
        return middles(joint, 0, 0)
    marks = [mark.position for mark in joint.rows[0].marks]
    shown = [marks[0] + y for y in middles(joint, 0, 1)]
    assert np.allclose(shown, [float(mark) for mark in marks[: len(shown)]], atol=SAME)
    return marks


@rule(r"gauge, line of the holes, from the outside face")
def _line_of_holes(joint):
    return equal(middles(joint, 0, 2))


@rule(r"bit, holes for the dowels")
def _bit(joint):
    sizes = []
    for number in (0, 1):
        holes, along = bores(joint, number)
        sizes += [high - low for box in holes for low, high in (box[:along] + box[along + 1 :])]
    return equal(sizes)


@rule(r"depth stop, (first|second) board's holes")
def _depth_stop(joint, which):
    holes, along = bores(joint, ("first", "second").index(which))
    return equal([box[along][1] - box[along][0] for box in holes])


@rule(r"dowel, (diameter|length)")
def _dowel(joint, what):
    (across, along, through) = box_of(board_solid(joint.loose[0].member.part))
    assert np.allclose(across, through, atol=SAME)
    return [along[1] - along[0] if what == "length" else across[1] - across[0]]


@rule(r"(?:dividers, )?from one dowel's middle to the next")
def _between_dowels(joint):
    return equal([b - a for a, b in pairwise(dowel_middles(joint))])


@rule(r"from the (?:.+) to the (?:first )?dowel's middle")
def _to_first_dowel(joint):
    return [dowel_middles(joint)[0]]


@rule(r"from the (?:last )?dowel's middle to the (?:(?:first board's )?far edge|(end of the seam))")
def _from_last_dowel(joint, seam):
    is_seam = bores(joint, 0)[1] == 0
    assert is_seam == bool(seam)
    line = joint.rows[0].width if is_seam else joint.members[0].part.board.width
    return [line - dowel_middles(joint)[-1]]
