"""What each figure and each side in the order of work must be, measured on the wood.

In a pattern ``N`` is a figure and a group is a word. What a rule gives are the values that the
figures may have, in their order; a rule of sides alone asserts.
"""

import math
import re
from collections.abc import Callable
from functools import cache

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, Member
from joinery_templates.wood.cut import Surface
from joinery_templates.wood.faces import is_waste
from tests.joints import told_figures as told
from tests.joints.probes import (
    HAIR,
    ZERO,
    Wood,
    board_of,
    inner,
    joined,
    left_of,
    upright,
    wood_of,
)

Rule = Callable[..., list]
RULES: list[tuple[re.Pattern[str], Rule]] = []
FIGURE = r"≈?(?P<n{}>\d+(?:\.\d+)?)"
STATED = re.compile(r"(?<![\d.])\d+(?:\.\d+)?(?= mm|°)|(?<=\b1:)\d+(?:\.\d+)?")
"""Lengths, angles and ratios, wherever they stand."""
BOARD = r"the ([a-z]+ board)(?: \(\w+\))?"
PIECE = r"the ([a-z]+)(?: \(\w+\))?"
EDGE, FACE = "(reference|far) edge", "(outside|inside) face"
WHICH_EDGES = r"(both edges|the reference edge|the far edge)"
SQUARE_OR_NOT = (
    r"off square by N° (across the faces|through the thickness), longer (?:at|on) the "
    r"(reference|far|outside|inside) (?:edge|face)"
    r"(?:, and by N° through the thickness, longer on the (outside|inside) face)?"
)


def sentence(*patterns: str) -> Callable[[Rule], Rule]:
    """What measures the figures of sentences like these."""

    def kept(measure: Rule) -> Rule:
        for pattern in patterns:
            parts = re.split(r"\bN", pattern)
            numbered = [parts[0], *(FIGURE.format(n) + p for n, p in enumerate(parts[1:]))]
            RULES.append((re.compile("".join(numbered)), measure))
        return measure

    return kept


def faults(joint: Joint, words: str) -> list[str]:
    """Figures that are not those of the wood, and figures that no rule knows."""
    found, proved = re.findall(r"[{}].*", words), set()
    for pattern, measure in RULES:
        for match in pattern.finditer(words):
            numbers = {name: match[name] for name in match.groupdict() if match[name]}
            places = {pattern.groupindex[name] for name in match.groupdict()}
            groups = [g for n, g in enumerate(match.groups(), start=1) if n not in places]
            try:
                expected = measure(joint, *groups)
            except AssertionError:
                found.append(f"{match[0]!r}: not so")
                continue
            assert len(expected) == len(numbers), match[0]
            for (name, number), values in zip(numbers.items(), expected, strict=True):
                proved.add(match.start(name))
                if not any(abs(float(number) - float(value)) <= 0.005 + 1e-9 for value in values):
                    found.append(f"{match[0]!r}: should be {[float(value) for value in values]}")
    unproved = [one for one in STATED.finditer(words) if one.start() not in proved]
    return found + [
        f"unknown {words[max(0, one.start() - 30) : one.end() + 9]!r}" for one in unproved
    ]


def phrase(joint: Joint, words: str) -> list:
    """What a phrase of the settings or sizes may say."""
    values = told.measured(joint, words)
    assert values is not None, words
    return list(values)


def baseline(joint: Joint, role: str) -> list:
    return [board_of(joint, role).baseline]


# Slopes and counts


def sides_of(joint: Joint) -> list:
    (use,) = (s.use for s in joint.slopes if s.use.startswith(("sides of", "slots,")))
    return [1 / slope for slope in phrase(joint, use)]


@sentence(r"\b1:N")
def _slope(joint):
    return [sides_of(joint)]


@sentence(r"(?<![\d.])N tails?(?: and a half tail at each edge)? at")
def _tails(joint):
    wood = board_of(joint, "tail board")
    return [[len(told.tails(wood, wood.pieces_end))]]


@sentence(r"keeps N fingers")
def _fingers(joint):
    return [[len(board_of(joint, "first board").pieces(ZERO, ZERO))]]


@sentence(r"Make N for each (seam|joint line|mitre), off an end")
def _keys(joint, line):
    assert any(f"from the {line}" in setting.use for setting in joint.lengths)
    return [[len(told.key_middles(joint)[0])]]


# Corners


@sentence(
    rf"Set a gauge to N mm for {BOARD} and {BOARD} alike",
    rf"Set a gauge to N mm for {BOARD} and another to N mm for {BOARD}",
)
def _both_baselines(joint, *roles):
    """Square to the line of the end; told once where both are alike."""
    found = [
        [square for wood in (board_of(joint, role),) for square in [wood.baseline / wood.stretch]]
        for role in roles
    ]
    return found if len(told.same(*found)) == 0 else found[:1]


@sentence(
    rf"Set a gauge to N mm for the {FACE} of {BOARD}(?: and {BOARD})?, and another to N mm for the "
    rf"{FACE}\."
)
def _baselines_by_face(joint, near, role, other, over):
    found = [
        [
            phrase(joint, f"gauge, {one}'s baseline on the {face} face, square to its end")
            for face in (near, over)
        ]
        for one in filter(None, (role, other))
    ]
    return [told.same(both[0], both[-1]) for both in zip(*found, strict=True)]


@sentence(rf"the stock touches the arris of the {FACE} alone, on the {FACE} too")
def _held_off(joint, longer, shorter):
    assert {longer, shorter} == {"outside", "inside"}
    for wood in map(wood_of, joint.members):
        near, far = wood.end(ZERO, ZERO), wood.end(ZERO, wood.thickness)
        assert (near > far) == (longer == "inside")
    return []


@sentence(r"Keep the knife flat against the (?:tail|finger)'s side, which is not square to the f")
def _leaning_side(joint):
    """A tail's width below and above, half way between its end and its baseline, is not one."""
    part = joint.members[0].part
    high = part.board.thickness
    rows = [
        [
            is_waste(part, Fraction(x, 10), part.reach / 2, z)
            for x in range(int(part.board.width * 10))
        ]
        for z in (Fraction(1, 100), high - Fraction(1, 100))
    ]
    assert rows[0] != rows[1]
    return []


@sentence(r"saw slots across the corners afterwards, no deeper than N mm under the corner")
def _slots(joint):
    """Two thirds of the narrower mitre, in halves of a millimetre, and never more."""
    widths = [width for one in joint.members for width in told.mitre_width(joint, one.role)]
    return [[math.floor(min(widths) * 2 / 3 * 2) / 2]]


PROUD = r"(tails|pins and the lap|pins|first board's fingers|second board's fingers)"


@sentence(rf"[Tt]he {PROUD}(?: and the {PROUD})? stand N mm proud")
def _proud(joint, *what):
    """How far a tip of the end lies past the other board's outside face."""
    numbers = [1 if one.startswith(("pins", "second")) else 0 for one in what if one]
    return [told.equal([past_the_other(joint, number) for number in numbers])]


def past_the_other(joint: Joint, number: int) -> float:
    wood = wood_of(joint.members[number])
    onto = joint.placement if number else joint.placement.reversed()
    return -float(onto.point((ZERO, wood.end(ZERO, ZERO), ZERO))[2])


@sentence(
    r"It stops N mm short of the outside of the tail board",
    r"shorter [a-z ]+ outside by twice N mm",
)
def _short(joint):
    return [[-past_the_other(joint, 1)]]


@sentence(r"N mm and from the inside face of the (pin board) scribe the lap line")
def _lap_line(joint, role):
    return [phrase(joint, f"gauge, lap line, from the {role}'s inside face")]


@sentence(r"a lap of N mm is left")
def _lap(joint):
    return [phrase(joint, "lap, on the pin board's outside")]


@sentence(
    r"Set another to N mm and from its end scribe the baseline on its inside face only",
    r"Set another gauge to N mm and scribe from its end the baseline of the pin board",
)
def _pin_baseline(joint):
    return [phrase(joint, "gauge, pin board's baseline, on its inside face only")]


@sentence(
    r"(?:With the same|Still with that) setting, (?:scribe )?from its end (?:scribe )?the baseline"
)
def _same_setting(joint):
    """As the lap line from the pin board's inside face."""
    assert told.same(_pin_baseline(joint)[0], _lap_line(joint, "pin board")[0])
    return []


@sentence(r"Set a gauge to N mm\. From the end of the (tail board) scribe its baseline")
def _tail_baseline(joint, role):
    words = f"gauge, {role}'s baseline; the same for the lap line, from the pin board's inside face"
    return [phrase(joint, words)]


@sentence(r"gauge N mm for the rebate and N mm for the baseline, both on the inside face only")
def _rebate_and_baseline(joint):
    wood = board_of(joint, "tail board")
    assert not any(wood.depths(ZERO))
    return [[wood.pieces_end], [wood.baseline]]


@sentence(rf"Square the baseline over {WHICH_EDGES} too, from the inside face to that line")
def _over_the_edges(joint, edges):
    """Just before the baseline on the inside face the waste is open at both."""
    wood = board_of(joint, "tail board")
    spaces = wood.spaces(wood.baseline * Fraction(9, 10), wood.thickness)
    assert (spaces[0][0], spaces[-1][1]) == (ZERO, wood.width)
    assert edges == "both edges"
    return []


@sentence(r"From the outside face gauge N mm on the end")
def _tail_lap(joint):
    return [phrase(joint, "lap, on the tail board's outside")]


@sentence(r"Set a gauge to N mm: on both boards scribe the rebate")
def _rebates(joint):
    return [phrase(joint, "gauge, both boards' end rebate, from the end and from the outside face")]


@sentence(r"inside of both boards' ends, N mm from the end and down to N mm from the outside face")
def _rebates_of_both(joint):
    return _rebates(joint) * 2


@sentence(r"call it N mm deep on the end grain and, on the inside face, N mm\.")
def _rebate_seen(joint):
    """From the end, and from the inside face down to the lap."""
    (lap,) = _rebates(joint)
    return [lap, told.same(*(_below_lap(joint, role) for role in ("tail board", "pin board")))]


@sentence(r"on the inside face, N mm on the (tail board) \(\w+\), N mm on the (pin board)")
def _rebates_seen(joint, one, other):
    return [_below_lap(joint, one), _below_lap(joint, other)]


@sentence(r"its blade stands out less than the step is high, N mm")
def _step_of_pins(joint):
    return [_below_lap(joint, "pin board")]


def _below_lap(joint, role):
    (lap,) = _rebates(joint)
    return [board_of(joint, role).thickness - one for one in lap]


@sentence(r"try step and lap with the gauge at N mm")
def _tried(joint):
    return _rebates(joint)


@sentence(
    r"At both edges of both boards a strip N mm wide is mitred",
    r"Saw the mitre across each strip of both boards, beside the line, on the waste side, N mm in "
    r"and no further",
    r"another gauge to N mm: from (both edges|the reference edge|the far edge) of both boards "
    r"scribe the mitred strip",
)
def _strips_from(joint, which="both edges"):
    """As deep from an edge as the strip beside it is wide, which is all that is sawn there."""
    strips = {f"the {edge} edge": told.mitre(joint, edge) for edge in ("reference", "far")}
    mitred = {edge: wide for edge, wide in strips.items() if wide}
    assert which == ("both edges" if len(mitred) == 2 else next(iter(mitred)))
    return [told.equal([*mitred.values()])]


@sentence(r"It must meet the baseline on the inside face")
def _mitre_meets_baseline(joint):
    """At 45 degrees it comes through as much farther from the end as the board is thick."""
    for wood in (board_of(joint, role) for role in ("tail board", "pin board")):
        starts = {"reference": HAIR, "far": wood.width - HAIR}
        for x in (x for edge, x in starts.items() if told.mitre(joint, edge)):
            outside, inside = (wood.depth(x, z) for z in (ZERO, wood.thickness))
            assert inside == outside + wood.thickness == wood.baseline
    return []


@sentence(
    rf"on the strip's side, the saw held at a slant, from the baseline on the {FACE} to the foot "
    r"of the step at the lap"
)
def _strip_freed_at_a_slant(joint, face):
    """Beside it stands a half pin; of the strip there goes what is above the slant, and no more."""
    wood, (lap,) = board_of(joint, "pin board"), told._both_laps(joint)
    strip = told.mitre(joint, "reference")
    assert wood.through(strip + HAIR, lap + HAIR) == []
    assert face == "inside"
    for y in (lap + HAIR, (lap + wood.baseline) / 2, wood.baseline - HAIR):
        assert wood.through(strip - HAIR, y) == [(y, wood.thickness)]
    return []


@sentence(rf"not within N mm of the {EDGE}")
def _mitre(joint, edge):
    return [[told.mitre(joint, edge)]]


@sentence(rf"At the {EDGE} of the (?:tail|pin) board(?: \(\w+\))? saw (?:along|the mitre)")
def _mitred_edge(joint, edge):
    assert told.mitre(joint, edge) > 0
    return []


def beside_the_strip(joint: Joint, role: str) -> list[list]:
    """From face to face half way to the baseline, a hair off the strip: what is gone there."""
    wood = board_of(joint, role)
    strips = {edge: told.mitre(joint, edge) for edge in ("reference", "far")}
    places = {"reference": strips["reference"] + HAIR, "far": wood.width - strips["far"] - HAIR}
    return [wood.through(places[edge], wood.baseline / 2) for edge, wide in strips.items() if wide]


@sentence(r"saw the line beside it straight through, square to the faces, from the end to the base")
def _strip_freed_straight(joint):
    """Waste from face to face beside the strip: nothing is cut that should stay."""
    wood = board_of(joint, "tail board")
    found = beside_the_strip(joint, "tail board")
    assert found
    assert all(spans == [(ZERO, wood.thickness)] for spans in found)
    return []


@sentence(
    rf"edges? of {BOARD} saw along the grain beside the mitred strip, on the strip's side of its "
    r"line, aslant: from the end on the outside face to the base"
)
def _strip_freed_aslant(joint, role):
    """Beside it stands a pin, which must not be sawn into."""
    found = beside_the_strip(joint, role)
    assert found
    assert all(spans == [] for spans in found)
    return []


AT_ARRIS = "at the arris of the end"


@sentence(
    rf"On the outside face it starts (N mm from the end|{AT_ARRIS})\.",
    rf"On the outside face of {BOARD} it starts (N mm from the end|{AT_ARRIS}); on that of "
    rf"{BOARD} (N mm from the end|{AT_ARRIS})\.",
)
def _mitre_starts(joint, *words):
    """How far from the end the outside face is gone, in the middle of the strip."""
    roles = words[::2] if len(words) > 1 else ("tail board", "pin board")
    places = words[1::2] if len(words) > 1 else words * 2
    told_each = []
    for role, place in zip(roles, places, strict=True):
        wood = board_of(joint, role)
        strips = {edge: told.mitre(joint, edge) for edge in ("reference", "far")}
        middles = {"reference": strips["reference"] / 2, "far": wood.width - strips["far"] / 2}
        (deep,) = {wood.depth(middles[edge], ZERO) for edge, wide in strips.items() if wide}
        assert (place == AT_ARRIS) == (deep == 0)
        told_each.append(deep)
    assert len(words) > 1 or told_each[0] == told_each[1]
    return [[deep] for deep in told_each[: 2 if len(words) > 1 else 1] if deep]


@sentence(r"and on both edges of the ([a-z]+ board)")
def _waste_at_both_edges(joint, role):
    assert open_edges(joint, role) == ["reference", "far"]
    return []


@sentence(
    rf"Saw (?:and chop )?{BOARD}: .*[Ss]aw off the spaces? at {WHICH_EDGES} beside the baseline, "
    r"on the waste side \(knife it there first\)"
)
def _spaces_off(joint, role, which):
    edges = open_edges(joint, role)
    assert which == ("both edges" if len(edges) > 1 else f"the {edges[0]} edge")
    return []


def open_edges(joint: Joint, role: str) -> list[str]:
    """Edges from which waste right through the board is open, and is no mitre's."""
    wood = board_of(joint, role)
    spaces = wood.spaces(wood.baseline * Fraction(9, 10), ZERO)
    waste = {"reference": spaces[0][0] == 0, "far": spaces[-1][1] == wood.width}
    mitred = [edge for edge in waste if "tail" in role and told.mitre(joint, edge)]
    return [edge for edge, is_open in waste.items() if is_open and edge not in mitred]


@sentence(
    rf"saw off the half-(pin) waste at {WHICH_EDGES}, beside the baseline",
    rf"Saw off the half-(tail) waste at {WHICH_EDGES}, beside the baseline",
    rf"right across the inside faces(?: and {WHICH_EDGES} of {BOARD})?, but on the outside faces",
)
def _open_at(joint, *words):
    """Beside a half pin the tail board is sawn off, beside a half tail the pin board."""
    named = next((one for one in words if one and "edge" in one), "")
    role = "pin board" if words[0] == "tail" else "tail board"
    edges = open_edges(joint, role)
    assert named == (
        "both edges" if len(edges) > 1 else "".join(f"the {one} edge" for one in edges)
    )
    return []


def chopped(joint: Joint, role: str) -> int:
    """Spaces that are chopped: with wood on both sides, or down to a lap."""
    wood, behind = board_of(joint, role), board_of(joint, role).pieces_end
    spaces = wood.spaces(behind + (wood.baseline - behind) * Fraction(9, 10), wood.thickness)
    is_lapped = not any(wood.depths(ZERO)[6:-6])
    return len(spaces if is_lapped else inner(spaces, wood.width))


@sentence(r"([Cc]hop|[Rr]out) the (half )?(sockets?)\b")
def _sockets(joint, how, half, many):
    if joint.members[1].role != "pin board":
        return []
    tail_board = board_of(joint, "tail board")
    assert bool(half) == (not told.tails(tail_board, tail_board.pieces_end))
    assert (many == "sockets") == (chopped(joint, "pin board") > 1)
    return []


@sentence(r"Saw the (pin)s: ", r"Saw the ((?:first|second) board)(?: \(\w+\))?: ")
def _nothing_to_chop(joint, which):
    assert not chopped(joint, "pin board" if which == "pin" else which)
    return []


@sentence(r"[Cc]lear the (spaces?) with a chisel, half way")
def _spaces_cleared(joint, many):
    counts = [chopped(joint, role) for role in ("first board", "second board")]
    assert (many == "spaces") == (next(filter(None, counts)) > 1)
    return []


@sentence(
    r"the waste (between the tails|beside the mitred)",
    r"(Chop beside the tail|Pare both shoulders)",
)
def _between_tails(joint, what):
    wood = board_of(joint, "tail board")
    pieces = wood.pieces(wood.baseline / 2, wood.thickness)
    assert (what == "between the tails") == (len(pieces) > 1)
    return []


@sentence(r"Here the only waste is the half-(pin|tail) waste")
def _half_alone(joint, which):
    """One tail between two half pins, or one pin between two half tails."""
    wood = board_of(joint, "tail board")
    pieces = wood.pieces(wood.pieces_end + HAIR, wood.thickness)
    assert len(pieces) == (2 if which == "tail" else 1)
    return []


@sentence(
    r"the (tail|pin)s: .*?knife the baseline across the waste, on both faces"
    rf"(?: and {WHICH_EDGES})?\."
)
def _baseline_across(joint, of, edges):
    return _open_at(joint, "tail" if of == "pin" else "pin", edges)


@sentence(r"[Mm]itred strips? stays? for now")
def _strips(joint):
    assert told.mitre(joint, "reference") or told.mitre(joint, "far")
    return []


# How one board is marked from the other


def way(joint: Joint, number: int, direction: tuple[int, int, int]) -> tuple[float, ...]:
    """A direction of one board, in the other one's frame."""
    onto = joint.placement if number else joint.placement.reversed()
    start, end = onto.point((ZERO, ZERO, ZERO)), onto.point(tuple(map(Fraction, direction)))
    return tuple(float(b - a) for a, b in zip(start, end, strict=True))


@sentence(
    rf"Clamp {BOARD} in the vice, (its end up|leaning so far that its end lies level), "
    rf"its {FACE} away from you\. Lay {BOARD} of the same corner on that end, {FACE} "
    r"down, the (tail|finger)s pointing away from you"
)
def _laid_on(joint, clamped, end, away, laid, down, piece):
    """On the second board's end, as the first lies on it in the joint, before it slides home."""
    assert [laid, clamped] == [member.role for member in joint.members]
    second = board_of(joint, clamped)
    assert ("level" in end) == bool(second.runs_out or second.leans_back)
    assert (piece == "tail") == laid.startswith("tail")
    assert (down == "inside") == (way(joint, 1, (0, 1, 0))[2] > 0)
    assert (away == "outside") == (way(joint, 0, (0, -1, 0))[2] < 0)
    return []


@sentence(r"Bring the reference edges (level, both on|to) the same side\. Slide [a-zA-Z() ]+ until")
def _same_side(joint, level):
    """At the inside corner, where the baseline meets the arris."""
    first, second = (wood_of(member) for member in joint.members)
    inside = second.thickness
    corner = joint.placement.point((ZERO, second.end(ZERO, inside), inside))
    assert way(joint, 1, (1, 0, 0))[0] > 0
    if level == "to":
        assert any(abs(up[2]) > 1e-6 for up in upright(joint))
        return []
    # Along the second board's grain, till it comes to the first board's inside face.
    grain = way(joint, 1, (0, 1, 0))
    share = (float(first.thickness) - float(corner[2])) / grain[2]
    assert abs(float(corner[0]) + share * grain[0]) < 1e-6
    return []


@sentence(
    rf"At {BOARD}'s inside arris {BOARD}'s reference edge then lies "
    rf"(flush with|N mm (?:past|short of)) {BOARD}'s, at its outside arris "
    rf"(flush with|N mm (?:past|short of)) it(?:, measured square to {BOARD}'s)?\."
)
def _edges_on_the_end(joint, clamped, laid, at_arris, again, outside, measured):
    """The second board's arrises, followed along its grain to the inside face that lies on them.

    How far they come apart is told across the first board's own width.
    """
    assert clamped == again
    assert measured == (laid if "mm" in at_arris + outside else None)
    first, second = board_of(joint, laid), board_of(joint, clamped)
    expected = []
    for words, depth in ((at_arris, second.thickness), (outside, ZERO)):
        start, grain = joint.placement.point((ZERO, ZERO, depth)), way(joint, 1, (0, 1, 0))
        share = (float(first.thickness) - float(start[2])) / grain[2]
        x = float(start[0]) + share * grain[0]
        if words == "flush with":
            assert abs(x) < 0.05
        else:
            assert ("past" in words) == (x > 0)
            expected.append([abs(x)])
    return expected


@sentence(
    rf"Slide {BOARD} until (?:its \w+ stand over the printed lines and )?"
    r"its baseline, at the bottom of its spaces, lies exactly over the (inside|outside) arris of "
    rf"{BOARD}"
)
def _over_the_arris(joint, laid, arris, clamped):
    """What slides along the second board's grain keeps its distance from that board's faces."""
    first, second = board_of(joint, laid), board_of(joint, clamped)
    inside = first.thickness
    at = joint.placement.reversed().point((ZERO, first.end(ZERO, inside) + first.baseline, inside))
    assert abs(at[2] - (second.thickness if arris == "inside" else ZERO)) < 1e-6
    return []


@sentence(
    r"the (?:tail|finger)s' ends then (come flush with|reach|stand N mm past) its "
    r"(outside face|inside face|lap line)\. (?:Hold|At)"
)
def _ends_then(joint, how, where):
    first = wood_of(joint.members[0])
    inside = first.thickness
    tip = (ZERO, first.end(ZERO, inside) + first.pieces_end, inside)
    depth = joint.placement.reversed().point(tip)[2]
    if where == "lap line":
        assert abs(depth - phrase(joint, "lap, on the pin board's outside")[0]) < 1e-6
        return []
    face = ZERO if where == "outside face" else wood_of(joint.members[1]).thickness
    if how == "come flush with":
        assert abs(depth - face) < 1e-6
        return []
    return [[face - depth]]


@sentence(
    r"template and the sizes of [a-zA-Z() ]+ leave N mm (more|less) at each side, for the fit"
)
def _fit(joint, which):
    """The walls of the second board's spaces stand so far off the first board's sides."""
    assert (which == "more") == (joint.allowance > 0)
    return [[abs(joint.allowance)]]


@sentence(
    rf"Lay {BOARD} flat, {FACE} up\. Stand {BOARD} of the same corner upright on it, pins down, "
    r"its (outside face level with the end, so that its lap hangs out over|lap hanging down into) "
    r"the rebate"
)
def _pins_on(joint, laid, up, stood, how):
    """The pin board's outside face comes at the tail board's end, its lap where the rebate is."""
    tails, pins = board_of(joint, laid), board_of(joint, stood)
    assert (up == "inside") == (way(joint, 1, (0, -1, 0))[2] < 0)
    assert joint.placement.point((ZERO, ZERO, ZERO))[1] == tails.end(ZERO, ZERO)
    laps = {0: "lap, on the pin board's outside", 1: "lap, on the outside of both boards"}
    assert told.same([tails.pieces_end], phrase(joint, laps["down" in how]))
    # It hangs down where it is longer than the pins.
    assert (pins.pieces_end > 0) == ("down" in how)
    return []


@sentence(
    r"over (a straight batten as a caul|a batten as a caul, notched over the pins' ends)",
    r"over (straight battens as cauls|battens as cauls, notched to clear the other board's proud "
    r"ends)",
)
def _caul(joint, which):
    if "batten " in which:  # the pins come up there where spaces for them go right through
        comes_up = any(board_of(joint, "tail board").depths(ZERO))
    else:
        comes_up = any(past_the_other(joint, number) > 0 for number in (0, 1))
    assert ("notched" in which) == comes_up
    return []


@sentence(
    rf"clamp it across the outside of {BOARD}, over [^.]*?"
    rf"(?:, and across that of {BOARD}, so that the mitre closes)?\. Before"
)
def _pressed(joint, role, mitred=None):
    """What is pressed on goes home through its own thickness: so its sides are square to its face.

    The other one's sides slope there: pressed on its face it would not move.
    """
    slopes = {
        member.role: any(
            side.normal[0] and side.normal[2]
            for cut in member.part.cuts
            for side in cut.half_spaces
            if side.surface is Surface.SIDE
        )
        for member in joint.members
    }
    assert not slopes.pop(role)
    assert all(slopes.values())
    assert mitred in (None, *slopes)
    return []


@sentence(rf"Lay the board down with its {FACE} up, chop across the grain")
def _chopped_from(joint, face):
    """Sockets that stop at a lap are open on one face of the pin board alone."""
    pins = board_of(joint, "pin board")
    is_open = {"outside": any(pins.depths(ZERO)), "inside": any(pins.depths(pins.thickness))}
    assert [name for name, seen in is_open.items() if seen] == [face]
    return []


@sentence(rf"Put {BOARD} on: where it is joined at both ends, first one on both boards")
def _both_ends(joint, role):
    """It comes off square to its length, so the joint at its other end, its mirror image, too."""
    assert joint.members[0].role == role
    assert joint.pose.apart[1] == 0
    return []


# Ends that are not square


@sentence(
    rf"from the {FACE} the cut runs towards {BOARD}'s end, from the {FACE} away from it",
    rf"leaning to leave the {FACE} (longer)",
)
def _leaning_cut(joint, face, *words):
    """Below the one face the end is nearer to the tip than on it, and so is what is parallel."""
    other = words[-1]
    assert face != other
    for member in joint.members:
        wood = wood_of(member)
        outside, inside = (wood.end(ZERO, depth) for depth in (ZERO, wood.thickness))
        runs_out_below = "outside" if inside < outside else "inside"
        assert (face == runs_out_below) == (other != "longer")
    return []


@sentence(
    rf"The ends of {BOARD} and {BOARD} are {SQUARE_OR_NOT}",
    rf"The end of {BOARD} is {SQUARE_OR_NOT}; that of",
    rf"that of {BOARD} is {SQUARE_OR_NOT}\.",
)
def _ends(joint, *words):
    *roles, first_way, longer, second_face = words
    faces = {"through the thickness": longer, "across the faces": second_face}[first_way]
    edge = longer if first_way == "across the faces" else None
    expected = []
    for role in roles:
        wood = board_of(joint, role)
        assert bool(edge) == bool(wood.runs_out)
        assert bool(faces) == bool(wood.leans_back)
        if edge:
            assert edge == longer_edge(wood)
        if faces:
            assert faces == longer_face(wood)
        found = [wood.runs_out] if edge else []
        found += [wood.leans_back / wood.stretch] if faces else []
        expected.append([[math.degrees(math.atan(abs(rise)))] for rise in found])
    assert all(told.same(one[0], expected[0][0]) for one in expected)
    return expected[0]


def longer_edge(wood: Wood) -> str:
    """The edge at which the board's end lies farther out."""
    far, near = wood.end(wood.width, ZERO), wood.end(ZERO, ZERO)
    return "reference" if near < far else "far"


def longer_face(wood: Wood) -> str:
    """The face on which it does."""
    inside, outside = wood.end(ZERO, wood.thickness), wood.end(ZERO, ZERO)
    return "outside" if outside < inside else "inside"


LENGTH_AT = (
    r"(on the outside face(?: along its arris at the \w+ edge)?(?: \([^;)]* N mm, [^;)]*\))?)"
)


@sentence(
    rf"Measure a board's length {LENGTH_AT}\.",
    rf"Measure the length of {BOARD} {LENGTH_AT}; that of {BOARD} {LENGTH_AT}\.",
)
def _where_measured(joint, *words):
    """Along the longest arris of the outside face; the inside face may be longer still."""
    roles = words[0::2] if len(words) > 1 else [member.role for member in joint.members]
    places = words[1::2] if len(words) > 1 else words
    expected = []
    for role, place in zip(roles, places, strict=False):
        wood = board_of(joint, role)
        edge = re.search(r"along its arris at the (\w+) edge", place)
        assert bool(edge) == bool(wood.runs_out)
        if edge:
            assert edge[1] == longer_edge(wood)
        tip = min(wood.end(ZERO, ZERO), wood.end(wood.width, ZERO))
        behind = min(wood.end(x, wood.thickness) for x in (ZERO, wood.width))
        assert ("the inside face goes on for another" in place) == (behind < tip)
        expected += [[tip - behind]] if behind < tip else []
    return expected


@sentence(r"cut the boards square to their finished length, measured on the (outside|inside) face")
def _squared(joint, face):
    """Nothing of a board lies farther out than its arris outside."""
    assert face == "outside"
    for wood in map(wood_of, joint.members):
        tips = [wood.end(x, z) for x in (ZERO, wood.width) for z in (ZERO, wood.thickness)]
        assert min(tips) == min(tips[0], tips[2]) == 0
    return []


@sentence(r"On the outside face the line runs out into a corner of the end")
def _into_the_corner(joint):
    ends = [
        (wood.end(ZERO, ZERO), wood.end(wood.width, ZERO)) for wood in map(wood_of, joint.members)
    ]
    assert any(one != other and min(one, other) == 0 for one, other in ends)
    return []


@sentence(
    rf"At the {EDGE}(?: of {BOARD})? plane down the (outside|inside) arris, at the {EDGE} the "
    r"(outside|inside) one\."
)
def _arrises_off(joint, edge, role, low, other, high):
    assert (edge, other) == ("reference", "far")
    words = role or "both boards"
    edges = f"{words}: edges, to lie level: stock on the {low} face at the reference edge, on the "
    assert phrase(joint, f"{edges}{high} face at the far edge")
    return []


@sentence(
    r"Carry each knifed line to the baseline, down (both faces|the (?:in|out)side face), with "
    r"(a bevel set to N°, its stock on the end, so that its blade leans to the (reference|far) "
    r"edge and runs along the grain|a square)\."
)
def _carried_down(joint, faces, tool, edge=None):
    """Along the grain, as the first board's sides run on the second; not on a lap.

    A square to an end that runs back towards the far edge points to the reference edge.
    """
    second = wood_of(joint.members[1])
    has_lap = not any(second.depths(ZERO))
    assert faces == ("the inside face" if has_lap else "both faces")
    assert (tool == "a square") == (not second.runs_out)
    assert edge in (None, "far" if second.runs_out > 0 else "reference")
    return [[math.degrees(math.atan(abs(second.runs_out)))]] if second.runs_out else []


TOOL = r"(a bevel set to N°|a square)"
TOOLS = rf"{TOOL}(?: on the ([a-z]+ board) and {TOOL} on the ([a-z]+ board))?"


def bevels_of(joint: Joint, rises: list, told_tools: tuple) -> list:
    """Both boards' tools: a bevel where there is a slope, told once where both are alike."""
    first, _, second, _ = told_tools
    roles = [member.role for member in joint.members]
    assert told_tools[1::2] in ((None, None), tuple(roles))
    found = [math.degrees(math.atan(abs(rise))) for rise in rises]
    for tool, angle in zip((first, second or first), found, strict=True):
        assert (tool == "a square") == (angle < 1e-6)
    assert second or abs(found[0] - found[1]) < 1e-6
    return [[angle] for angle in found[: 2 if second else 1] if angle >= 1e-6]


@sentence(rf"Knife the line across the outside face with {TOOLS}, saw")
def _line_of_end(joint, *words):
    return bevels_of(joint, [wood_of(member).runs_out for member in joint.members], words)


@sentence(rf"the stock on the outside face, with {TOOLS}\.")
def _end_tested(joint, *words):
    """Square to the line of the end."""
    woods = [wood_of(member) for member in joint.members]
    return bevels_of(joint, [wood.leans_back / wood.stretch for wood in woods], words)


@sentence(rf"test them against the faces with {TOOLS}\.")
def _edges_tested(joint, *words):
    return bevels_of(joint, [up[2] / up[0] for up in upright(joint)], words)


@sentence(
    rf"the cut runs towards {BOARD}'s end, [a-z ]+, as steep as a bevel set to N° shows",
)
def _shoulder_tested(joint, role):
    wood = board_of(joint, role)
    assert wood.leans_back
    return [[math.degrees(math.atan(abs(wood.leans_back / wood.stretch)))]]


@sentence(r"the chisel upright, and test with a square")
def _upright(joint):
    assert not all(wood_of(member).leans_back for member in joint.members)
    return []


@sentence(r"bevelled as the (boards|[a-z]+ board) leans?, N°(?: and N°)? off square")
def _blocks(joint, who):
    leans = [math.degrees(math.atan(abs(up[2] / up[0]))) for up in upright(joint)]
    named = [
        lean
        for lean, member in zip(leans, joint.members, strict=True)
        if who in ("boards", member.role)
    ]
    return [[lean] for lean in dict.fromkeys(round(lean, 6) for lean in named)]


@sentence(r"inside with the bevel(?:, held level,)? at N°")
def _plan(joint):
    """Between the boards' grain, which lies level, on the side where both run away."""
    row = joint.placement.rows[1]
    return [[math.degrees(math.acos(float(row[1])))]]


# Grooves


@sentence(r"inside faces, from N mm to N mm from the reference edge, N mm deep")
def _groove(joint):
    (low,), (wide,) = (
        phrase(joint, f"groove, {w}") for w in ("from the reference edge", "how wide")
    )
    return [[low], [low + wide], phrase(joint, "groove, how deep")]


@sentence(rf"inside faces, N mm from the {EDGE}, N mm deep")
def _rebate(joint, edge):
    wood = wood_of(joint.members[0], grooves=True)
    at_edge = told.groove_of(joint, 0, "rebate") > wood.width / 2
    assert edge == ("far" if at_edge else "reference")
    return [
        phrase(joint, f"rebate, from the {edge} edge"),
        phrase(joint, "rebate, how deep"),
    ]


@sentence(r"On the (tail|pin) board it is stopped N mm from the end")
def _groove_stop(joint, which):
    role = f"{which} board"
    (name,) = (
        size.name.split()[0]
        for size in joint.sizes
        if size.name.endswith(f"stops, from the {role}'s end")
    )
    return [phrase(joint, f"{name} stops, from the {role}'s end")]


# Keys


@sentence(r"hardwood to N mm × N mm")
def _stock(joint):
    return [phrase(joint, "key, at its ends"), phrase(joint, "key, thickness of its stock")]


@sentence(r"at the line across, N mm from the end")
def _cut_off(joint):
    return [phrase(joint, "key, from tip to tip")]


@sentence(r"Take out the waste N mm deep")
def _socket_depth(joint):
    return [phrase(joint, "router or gauge, depth of the sockets")]


@sentence(r"Pack [a-zA-Z ]+ up by N mm")
def _packed(joint):
    """What lacks below where the outside faces are flush."""
    thin, thick = sorted(wood_of(member).thickness for member in joint.members)
    assert joint.placement.point((ZERO, ZERO, ZERO))[2] == 0
    return [[thick - thin]]


@sentence(r"Check: N mm from (the joint line|the seam|the mitre) to a socket's tip")
def _tip_checked(joint, line):
    return [phrase(joint, f"rule, tips of the sockets, from {line}")]


@sentence(
    r"line across the inside face, N mm from the end",
    r"line across the inside face, N mm on [^,]* and N mm on [^,]* from the end",
)
def _mitre_from_end(joint):
    """As far as all is gone there; outside nothing is."""
    found = []
    for wood in map(wood_of, joint.members):
        outside, inside = (
            told.equal([wood.end(x, z) for x in (ZERO, wood.width)]) for z in (ZERO, wood.thickness)
        )
        assert outside == [0]
        found.append(inside)
    return found if len(told.same(*found)) == 0 else found[:1]


@sentence(r"; that of the rail [^.]*(away from|towards) the stile's end that it is measured from")
def _rail_between_others(joint, which):
    """The stile's y grows from that end."""
    assert joint.members[1].part.along is not None
    far, near = (rail_edge_on_stile(joint, edge) for edge in ("far", "reference"))
    assert (which == "away from") == (near > far)
    return []


@sentence(r"each outer corner comes, N mm apart on the [a-z ]+ and N mm apart on the")
def _outer_corners(joint):
    """The mitre and its line begin at one point of the outer edge, at either end of a board."""
    for member in joint.members:
        ((low, high),) = wood_of(member).gone((HAIR, -HAIR, ZERO), (ZERO, Fraction(1), ZERO), 9)
        assert abs(high - low) < 3 * HAIR, (low, high)
    return [[member.part.board.length] for member in joint.members]


@sentence(r"[Tt]he keys? stands? N mm proud of (the face|both faces)")
def _key_proud(joint, faces):
    (loose,) = joint.loose
    proud = -loose.placements[0].point((ZERO, ZERO, ZERO))[2]
    assert (faces == "both faces") == (_past_inside(joint) > 0)
    return [[proud]]


@sentence(r"until it stands N mm out of the inside face")
def _key_past_inside(joint):
    return [[_past_inside(joint)]]


def _past_inside(joint: Joint) -> Fraction:
    """How far a key stands out of the inside face; below 0 where it ends within the wood."""
    (loose,) = joint.loose
    thick = loose.member.part.board.thickness
    _, _, end = loose.placements[0].point((ZERO, ZERO, thick))
    return end - board_of(joint, joint.members[0].role).thickness


# The halving


def rail_edge_on_stile(joint: Joint, edge: str) -> Fraction:
    """Where an edge of the rail comes on the stile, along it."""
    rail = told.wood_of(joint.members[0])
    x = ZERO if edge == "reference" else rail.width
    bored = joint.kind == "dowel"  # a rail that loses no more than holes ends at the stile
    reach = ZERO if bored else max(rail.depth(x, z) for z in (ZERO, rail.thickness))
    return joint.placement.reversed().point((x, reach, ZERO))[1]


def edge_of_entry(joint: Joint) -> str:
    """The edge of the stile beside which the rail's shoulder stands."""
    rail, _, reach = told.halving(joint)
    x, _, _ = joint.placement.reversed().point((rail.width / 2, reach + 1, ZERO))
    return "reference" if x < 0 else "far"


def face_with_dovetail(joint: Joint) -> str:
    rail, z, _ = told.halving(joint)
    return "outside" if z < rail.thickness / 2 else "inside"


LET_IN = "(?:dovetail|tenon)"


@sentence(rf"space between the stiles and N mm more for the {LET_IN} at each of its ends")
def _rail_longer(joint):
    """How far the end lies behind the edge of the stile that the rail comes in from."""
    return [[_to_shoulder(joint)]]


def _to_shoulder(joint: Joint) -> Fraction:
    stile = board_of(joint, "stile")
    x = ZERO if edge_of_entry(joint) == "reference" else stile.width
    return joint.placement.point((x, ZERO, ZERO))[1]


AT_FAR_EDGE = "(,? along its far edge)?"


def _length_and_let_in(joint: Joint, where: str | None) -> tuple[Fraction, Fraction]:
    """The rail's length and how far it is let in, which slants only where the far edge is named."""
    assert (where is None) == (joint.placement.rows[1][1] == 0)
    return joint.members[0].part.board.length, _to_shoulder(joint)


@sentence(rf"with a {LET_IN} N mm long at each, N mm are left between its shoulders{AT_FAR_EDGE}\.")
def _between_shoulders(joint, where):
    long, let_in = _length_and_let_in(joint, where)
    return [[let_in], [long - 2 * let_in]]


@sentence(rf"N mm are left from the shoulder of its {LET_IN} to its other end{AT_FAR_EDGE}\.")
def _past_one_shoulder(joint, where):
    long, let_in = _length_and_let_in(joint, where)
    return [[long - let_in]]


@sentence(rf"Where that has such a {LET_IN} too, N mm are left between its shoulders")
def _with_another_end_let_in(joint):
    return [[joint.members[0].part.board.length - 2 * _to_shoulder(joint)]]


@sentence(r"rail(?: \(\w+\))? is N mm long, ends square")
def _rail_long(joint):
    return [[joint.members[0].part.board.length]]


@sentence(rf"to be from the shoulder of its {LET_IN} to its other end{AT_FAR_EDGE}, and N mm more")
def _longer_at_one_end(joint, where):
    return [[_length_and_let_in(joint, where)[1]]]


@sentence(r"Set one gauge to N mm and leave it")
def _one_gauge(joint):
    return [
        phrase(joint, "gauge, flat of the lap and floor of the socket, both from the outside face")
    ]


@sentence(rf"Knife the shoulder, N mm from the end, on the {FACE}([^.]*)\. On the \w+ face knife")
def _rail_shoulder(joint, face, down):
    """Down an edge it stops at the gauged line where wood runs on past the shoulder behind that."""
    assert face != face_with_dovetail(joint)
    rail, _, reach = told.halving(joint)
    for edge, x in (("reference", HAIR), ("far", rail.width - HAIR)):
        is_whole = rail.through(x, reach - HAIR) == [(ZERO, rail.thickness)]
        assert (f"the {edge} edge to the gauged line and no further" in down) != is_whole
        assert is_whole == ("both edges" in down or f"down the {edge} edge," in down)
    return [phrase(joint, "rule, rail's shoulder, from its end")]


@sentence(r"The neck stays N mm wide")
def _neck(joint):
    return [phrase(joint, "dovetail at the shoulder (neck)")]


@sentence(r"router plane set to N mm")
def _router(joint):
    if any(member.role == "side" for member in joint.members):
        return [told.housing_depth(joint)]
    ((low, high),) = told.socket(joint)
    return [[high - low]]


@sentence(r"the dovetail's end, which stands N mm proud")
def _end_proud(joint):
    stile = board_of(joint, "stile")
    x = stile.width if edge_of_entry(joint) == "reference" else ZERO
    return [[joint.placement.point((x, ZERO, ZERO))[1]]]


@sentence(
    rf"rail comes in at the stile's {EDGE}",
    rf"tight against the stile's {EDGE}",
    rf"prick through the one on the {EDGE} and peel it off: a shoulder comes there",
)
def _entry(joint, edge):
    assert edge == edge_of_entry(joint)
    return []


@sentence(
    rf"where the rail's {EDGE} comes, at a place that you choose; clamp",
    rf"stile's (?:reference|far) edge and the rail's {EDGE} on",
)
def _on_line(joint, edge):
    assert rail_edge_on_stile(joint, edge) == 0
    return []


@sentence(rf"▲ points to where the rail's {EDGE} comes")
def _up(joint, edge):
    """Up on the template is where y is less."""
    assert rail_edge_on_stile(joint, edge) < 0
    return []


@sentence(
    rf"Square a pencil line across the {FACE}",
    rf"On the {FACE} saw",
    rf"lay the dovetail itself, its own {FACE} up",
    rf"on the {FACE} of the stile, its shoulder",
    rf"in square to the {FACE}",
)
def _dovetail_side(joint, face):
    assert face == face_with_dovetail(joint)
    return []


@sentence(
    rf"Saw the lap: The waste is on the {FACE}",
    rf"saw across the {FACE}, beside the shoulder",
)
def _waste_side(joint, face):
    assert face != face_with_dovetail(joint)
    return []


@sentence(rf"saw (both sides|the side at the {EDGE} \(at the {EDGE} it stays straight\))")
def _sloping_sides(joint, which, sloping, straight):
    rail, z, reach = told.halving(joint)
    (wide,), (neck,) = rail.pieces(ZERO, z), rail.pieces(reach, z)
    leans = {"reference": wide[0] != neck[0], "far": wide[1] != neck[1]}
    if which == "both sides":
        assert all(leans.values())
    else:
        assert leans[sloping]
        assert not leans[straight]
    return []


@sentence(rf"no further than N mm from the end, and {WHICH_EDGES} of {PIECE} from the pencil")
def _scribed_so_far(joint, edges, piece):
    assert piece == "stile"
    _socket_edges(joint, edges)
    return [phrase(joint, "rule, rail's shoulder, from its end")]


@sentence(rf"over the width of {PIECE}, N mm\.")
def _over_the_width(joint, piece):
    return [[board_of(joint, piece).width]]


@sentence(rf"from the pencil line on towards the rail's {EDGE}")
def _on_towards(joint, edge):
    assert rail_edge_on_stile(joint, edge) != 0
    return []


@sentence(rf"On the {FACE} knife it beside the dovetail only")
def _beside_the_neck(joint, face):
    assert face == face_with_dovetail(joint)
    return []


@sentence(rf"square it down {WHICH_EDGES} too")
def _socket_edges(joint, edges):
    stile = board_of(joint, "stile")
    start = (ZERO, told.place_on_stile(joint)[1], told.socket_z(joint))
    ((low, high),) = stile.gone(start, (Fraction(1), ZERO, ZERO), stile.width)
    reached = {"reference": low == 0, "far": high == stile.width}
    assert (edges == "both edges") == all(reached.values())
    assert all(edges == "both edges" or (e in edges) == is_so for e, is_so in reached.items())
    return []


# The sliding dovetail


def _deep(joint: Joint) -> list:
    return phrase(joint, "gauge, depth of the housing and length of the tail")


@sentence(r"space between the sides and N mm more at each end")
def _shelf_longer(joint):
    """At each end the shelf reaches past the side's inside face."""
    return [told.let_in(joint)]


@sentence(r"on the waste side, down to N mm")
def _saw_depth(joint):
    return [_deep(joint)]


@sentence(
    r"Gauge [^a-z]+ mm from the end on (both faces|the upper face|the lower face)",
    r"[Tt]hen saw on (both faces|the upper face|the lower face) beside the baseline",
)
def _gauged_faces(joint, faces):
    back, deep = told.shelf_places(joint)[""], told.shoulders(joint)
    shown = [face for face in ("upper", "lower") if told.beside_tail(joint, face, back, deep)]
    assert faces == ("both faces" if len(shown) == 2 else f"the {shown[0]} face")
    return []


@sentence(r"Gauge N mm from the end")
def _gauged(joint):
    return [_deep(joint)]


@sentence(
    r"at the (upper|lower) face N mm deep(?! at the shelf's back)",
    r"at the (upper|lower) face N mm deep at the shelf's back edge and N mm "
    r"(where the tail begins|at the front edge)",
)
def _shoulder_depth(joint, face, front=None):
    back = phrase(joint, f"shoulder at the {face} face, at the shelf's back edge")
    if front is None:
        at_front = told.beside_tail(joint, face, _start(joint), told.shoulders(joint))
        return [told.same(back, at_front)]
    return [back, phrase(joint, f"shoulder at the {face} face, {front}")]


def _start(joint: Joint) -> Fraction:
    return told.shelf_places(joint)["where the tail begins"]


@sentence(
    r"where the tail begins, N mm from the front edge", r"front corner: N mm from the front edge"
)
def _tail_begins(joint):
    return [[_start(joint)]]


@sentence(r"The housing stops N mm from the front edge")
def _housing_stops(joint):
    return [[told.shelf_places(joint)["where the housing begins"]]]


@sentence(
    r"(Both walls|It) leans? outwards below, as the back edge's template shows: there the housing "
    r"is N mm wide at its mouth and N mm at its floor"
)
def _lean_outwards(joint, which):
    """At the back edge, where the whole section lies open."""
    back, deep = told.shelf_places(joint)[""], told.shoulders(joint)
    sloping = [face for face in ("upper", "lower") if told.beside_tail(joint, face, back, deep)]
    assert len(sloping) == (2 if which == "Both walls" else 1)
    side = board_of(joint, "side")
    start, way = Fraction(-50), (ZERO, Fraction(1), ZERO)
    at = (side.width - HAIR, start)
    mouth, floor = (
        told.lengths(side.gone((*at, z), way, Fraction(200)))
        for z in (side.thickness - HAIR, side.thickness - told.housing_depth(joint)[0] + HAIR)
    )
    assert mouth[0] < floor[0]
    return [mouth, floor]


@sentence(r"its slope hangs over the line (towards the waste|away from it)")
def _block(joint, way):
    """What goes outwards below the surface goes inwards, over the housing, above it."""
    side, (deep, *_) = board_of(joint, "side"), told.housing_depth(joint)
    at = (side.width - HAIR, Fraction(-50))
    mouth, floor = (
        side.gone((*at, side.thickness - z), (ZERO, Fraction(1), ZERO), Fraction(200))
        for z in (HAIR, deep - HAIR)
    )
    is_outwards = told.lengths(mouth)[0] < told.lengths(floor)[0]
    assert (way == "towards the waste") == is_outwards
    return []


@sentence(r"put glue into the front N mm of the housing only")
def _glued_front(joint):
    return _remain(joint)


@sentence(r"Only the wall at the shelf's (upper|lower) face tapers")
def _tapering_wall(joint, face):
    other = {"upper": "lower", "lower": "upper"}[face]
    assert tapering(joint, face)
    assert not tapering(joint, other)
    return []


@sentence(r"The wall at the shelf's (upper|lower) face is square")
def _square_wall(joint, face):
    assert not told.beside_tail(joint, face, told.shelf_places(joint)[""], told.shoulders(joint))
    return []


def is_open_in_front(joint: Joint) -> bool:
    """Whether a housing comes out at the front edge."""
    side = board_of(joint, "side")
    start = (HAIR, Fraction(-500), side.thickness - HAIR)
    return bool(side.gone(start, (ZERO, Fraction(1), ZERO), Fraction(1000)))


@sentence(r"Do the same with (?:the one|those) for ([a-z() ]+): (?:it shows|they show)")
def _sections(joint, edges):
    """A template for each edge at which the housing comes out."""
    both = ("both edges", "the reference and the far edge")
    assert edges in (both if is_open_in_front(joint) else ("the far (back) edge",))
    return []


def tapering(joint: Joint, face: str) -> Fraction:
    """How far a side of the tail comes in from the back to the front, for each mm."""
    places = told.shelf_places(joint)
    back, front = (
        (told.beside_tail(joint, face, x, told.shoulders(joint)) or [ZERO])[0]
        for x in (places[""], _start(joint))
    )
    return (front - back) / (places[""] - _start(joint))


@sentence(r"Plane the (upper|lower) side, which is tapered")
def _tapered(joint, face):
    assert tapering(joint, face) > 0
    return []


@sentence(r"at 1 in N, N mm off the tail's (upper|lower) side lets it go N mm further")
def _further(joint, face):
    """A tenth of a millimetre is a shaving."""
    taper = tapering(joint, face)
    assert taper
    return [[1 / taper], [0.1], [0.1 / taper]]


@sentence(r"a space about N mm long")
def _habit(joint):
    return [[30]]


@sentence(r"Slide the shelf in dry until N mm remain")
def _remain(joint):
    long = told.shelf_places(joint)[""] - _start(joint)
    return [[min(50, long / 2)]]


# The through housing


@sentence(
    r"Gauge the depth, N mm, on (both edges|the back edge)",
    r"down to the gauged line on (both edges|the back edge), N mm",
)
def _gauged_depth(joint, edges):
    """Alike at both edges, or in front not at all."""
    side = board_of(joint, "side")
    front, back = (told.trench(joint, x) for x in (ZERO, side.width))
    assert back == told.trench(joint)
    assert front == (back if edges == "both edges" else [])
    return [told.housing_depth(joint)]


@sentence(r"each inside face, stopping N mm from the front edge")
def _line_stops(joint):
    return _housing_stops(joint)


@sentence(r"N mm from the front edge and N mm from the end")
def _corner(joint):
    return [*_tail_begins(joint), [told.let_in(joint)[0]]]


@sentence(r"Knife the shoulder across the (lower|upper) face, N mm from the end")
def _shoulder_of_tongue(joint, face):
    shelf = board_of(joint, "shelf")
    x, z = shelf.width - 1, shelf.thickness if face == "lower" else ZERO
    assert shelf.depth(x, z) > 0
    return [[shelf.depth(x, z)]]


@sentence(r"and saw beside it, on the waste side, N mm deep")
def _deep_as_the_shoulder(joint):
    return [[board_of(joint, "shelf").thickness - told.tongue(joint)[0]]]


@sentence(r"a tongue N mm thick is left")
def _tongue_left(joint):
    return [told.tongue(joint)]


def gap(joint: Joint, face: str) -> Fraction:
    """How far a wall of the housing stands off the shelf; less than 0 where it presses."""
    ((low, high),) = told.walls(joint)
    to_side = joint.placement.reversed()
    upper, lower = (
        to_side.point((ZERO, ZERO, z))[1] for z in (ZERO, board_of(joint, "shelf").thickness)
    )
    return upper - low if face == "upper" else high - lower


@sentence(r"its (upper|lower) face on the squared line")
def _on_squared_line(joint, face):
    """The line is y = 0, and the wall stands on it."""
    ((low, _),) = told.walls(joint)
    assert low == gap(joint, face) == 0
    return []


@sentence(
    r"Chisel out the middle from (?:the )?(both edges|back edge|stop)"
    r"(?:, so that neither breaks away| towards the (back edge|stop)), and bring"
)
def _cleared_from(joint, first, then=None):
    """A chisel must not break wood out at an edge that it comes out at: from each open one inwards.

    The stop has wood behind it.
    """
    is_through = is_open_in_front(joint)
    assert (first, then) == (("both edges", None) if is_through else ("back edge", "stop"))
    return []


@sentence(
    r"the line of the shelf's (upper|lower) face",
    r"its (upper|lower) face on the squared line",
)
def _line_of_face(joint, face):
    z = ZERO if face == "upper" else board_of(joint, "shelf").thickness
    assert joint.placement.reversed().point((ZERO, ZERO, z))[1] == 0
    return []


@sentence(
    rf"the {FACE}'s template with",
    rf"across each {FACE}",
    rf"together, {FACE}s out,",
    rf"(?:both edges|back edge) with the stock on the {FACE}",
    rf"the {FACE} and the top of the side",
    rf"Lay one side down, {FACE} up",
    rf"Stand the shelf's end on the {FACE}",
    rf"by hand, square to the {FACE}",
)
def _face_with_housing(joint, face):
    ((low, high),) = told.trench(joint)
    assert (face == "inside") == (high == board_of(joint, "side").thickness)
    assert (face == "outside") == (low == 0)
    return []


@sentence(r"what carries the shelf is the (upper|lower) wall")
def _carries(joint, wall):
    """The top end is where y falls, on the template and on the wood."""
    assert board_of(joint, "side").member.part.up == "top end"
    assert wall == "lower"
    return []


@sentence(
    r"Its (upper|lower) face must come to the (upper|lower) line"
    r"(?: but for N mm (of gap|that presses))?;"
)
def _to_the_line(joint, face, line, which=None):
    found = gap(joint, face)
    assert line == face
    assert {"of gap": found > 0, "that presses": found < 0, None: found == 0}[which]
    return [[abs(found)]] if found else []


@sentence(r"a shaving off its (upper|lower) face")
def _shaving(joint, face):
    """Off the face that is not laid to the squared line."""
    other = {"upper": "lower", "lower": "upper"}[face]
    assert gap(joint, other) == 0
    ((low, _),) = told.walls(joint)
    assert (face == "lower") == (low == 0)
    return []


# The setting-out strip


@sentence(
    r"laid along the (?:end|joint line) on the ((?:out|in)side face): mark must meet (?:line|prick)"
)
def _strip_on(joint, face):
    """The row that is drawn as a strip runs along that face."""
    assert joint.main_row.title.startswith(face)
    return []


# The squared line


@sentence(r"\bdashed line that the label names( \(solid where it is cut\))? on (?:the|your) ")
def _dashed(joint, solid=None):
    """Whether a wall of the joint stands on it, on any face."""
    assert bool(solid) == wall_on_line(joint.members[1])
    return []


@cache
def wall_on_line(member: Member) -> bool:
    """Whether wood turns to waste, or waste to wood, just at y = 0 on a face of the board."""
    wood, way = wood_of(member), (ZERO, Fraction(1), ZERO)
    shares = [Fraction(number, 40) for number in range(41)]
    places = [(wood.width * share, z) for share in shares for z in (ZERO, wood.thickness)]
    places += [(x, wood.thickness * share) for share in shares for x in (ZERO, wood.width)]
    return any(
        1 in span for x, z in places for span in wood.gone((x, Fraction(-1), z), way, Fraction(2))
    )


@sentence(r"line of the (shelf's upper face) across their (?:front )?edges, N mm from the top end")
def _from_top(joint, line):
    """The line is at y = 0, and the top end is where y falls."""
    stretch = board_of(joint, "side").member.part
    assert (stretch.line, stretch.up) == (f"the {line}", "top end")
    return [[stretch.along]]


# The mortise and tenon


@sentence(
    r"the (reference|far) edges face into the frame",
    r"both stiles together, outside faces outwards, ends level and (reference|far) edges up",
)
def _into_frame(joint, edge):
    """The rail comes in at that edge of the stile, and its own is farther from the stile's end.

    Stiles are mirror images: with edges and tops the same way their outside faces look apart.
    """
    assert edge == edge_of_entry(joint)
    other = {"reference": "far", "far": "reference"}[edge]
    assert rail_edge_on_stile(joint, edge) > rail_edge_on_stile(joint, other)
    return []


@sentence(
    r"Leave the (?:stile longer than the frame|leg longer than the piece) is high: N mm for t",
    r"comes, N mm from the stile's end",
)
def _horn(joint):
    return [told.horn(joint, "far")]


@sentence(
    rf"where the rail's {EDGE} comes[^.]*?, and a second N mm beyond the first, "
    rf"where the rail's {EDGE}"
)
def _two_lines(joint, near, far):
    """The stile's end is where y falls."""
    return [[rail_edge_on_stile(joint, far) - rail_edge_on_stile(joint, near)]]


@sentence(
    rf"[Tt]he (?:rail's )?{EDGE}(?: of the [a-z ]+(?: \(\w+\))?)? comes level with the "
    rf"(?:leg's top |stile's )?end[^.]*: square a pencil line across(?: the (?:reference "
    rf"edge|inside face) of [a-zA-Z() ]+)? N mm from there, where (?:its|the) {EDGE}"
)
def _from_the_end(joint, near, far):
    assert not joint.members[1].part.along
    return _two_lines(joint, near, far)


@sentence(
    r"if the rail stands too far (out|back), pare the tenon's (outside|inside) cheek, if too far "
    r"(out|back), its (outside|inside) cheek"
)
def _cheeks_to_pare(joint, *told):
    """What stands too far out must go inwards, and the cheek on that side is then in the way."""
    cheeks = {"out": "inside", "back": "outside"}
    assert cheeks == {told[0]: told[1], told[2]: told[3]}
    return []


@sentence(
    rf"lay it on the stile's {EDGE}",
    r"(reference|far) edges? up\.",
    rf"cheeks with a square on the {EDGE}",
)
def _edge_with_mortise(joint, edge):
    _, _, depth = told.mortise(joint)
    assert depth == board_of(joint, "stile").width or (edge, depth > 0) == ("reference", True)
    return []


@sentence(rf"on the line of the rail's {EDGE}")
def _line_of_edge(joint, edge):
    assert rail_edge_on_stile(joint, edge) == 0
    return []


@sentence(rf"on the line of the (?:rail's|other's) {EDGE}, ▲ towards the end that it names")
def _towards(joint, edge):
    """Up is where y falls; from the line on, the rail lies on the other side."""
    other = {"reference": "far", "far": "reference"}[edge]
    assert rail_edge_on_stile(joint, edge) < rail_edge_on_stile(joint, other)
    return []


@sentence(
    rf"points to the chisel itself, N mm, then the stock so that the nearer point stands N mm "
    rf"from the stock\. With the stock on the stile's {FACE}"
)
def _mortise_gauge(joint, face):
    _, across, _ = told.mortise(joint)
    return [[across[1] - across[0]], [from_face(joint, "stile", across, face)]]


def from_face(joint: Joint, role: str, span: tuple, face: str) -> Fraction:
    """How far it is to the nearer side of what is told, from a face."""
    return span[0] if face == "outside" else board_of(joint, role).thickness - span[1]


@sentence(
    rf"mortise gauge to N mm and its stock to N mm; with the stock on the {FACE}, gauge the cheeks"
)
def _tenon_gauge(joint, face):
    _, _, thick = told.tenon(joint)
    return [[thick[1] - thick[0]], [from_face(joint, "rail", thick, face)]]


@sentence(rf"mortise gauge's stock to N mm, and with it on the {FACE}, gauge the cheeks")
def _stock_moved(joint, face):
    (_, across, _), (_, _, thick) = told.mortise(joint), told.tenon(joint)
    assert across[1] - across[0] == thick[1] - thick[0]
    return [[from_face(joint, "rail", thick, face)]]


@sentence(rf"gauge still set and its stock on the {FACE}, gauge the cheeks")
def _still_set(joint, face):
    (_, across, _), (_, _, thick) = told.mortise(joint), told.tenon(joint)
    assert across == thick
    assert face == "outside"
    return []


@sentence(r"Clamp the rail (upright|leaning)")
def _rail_clamped(joint, how):
    """Where the shoulder is square, it lies level in an upright rail."""
    rail = board_of(joint, "rail")
    assert (how == "upright") == (rail.depth(ZERO, ZERO) == rail.depth(rail.width, ZERO))
    return []


@sentence(r"Mark N mm on the chisel with tape(, which is N mm deep)?[,.]")
def _chisel(joint, slant):
    deep = [[told.mortise(joint)[2]]] if slant else []
    return [told.down_the_mortise(joint, slant), *deep]


@sentence(r", N mm more than the tenon is long")
def _deeper(joint):
    _, _, depth = told.mortise(joint)
    rail = board_of(joint, "rail")
    return [[depth - max(rail.baseline, *rail.depths(ZERO))]]


@sentence(r"and N mm inside the end lines")
def _inside_ends(joint):
    """Our habit, and it leaves more to chop than it keeps."""
    (low, high), _, _ = told.mortise(joint)
    assert high - low > 2 * 2 * 2
    return [[2]]


AT_EDGES = (
    r"both edges(?: \(on (these|the reference edge|the far edge) only beside the tenons?"
    r"(?: and between them)?: (?:it has|they have) no shoulder there\))?"
)


def _edges_without_shoulder(rail):
    """Those edges of which something goes on to the rail's end."""
    woods = rail, wood_of(rail.member, grooves=True)
    bare = [
        f"the {name} edge"
        for name, x in (("reference", HAIR), ("far", rail.width - HAIR))
        if left_of(joined([gone for one in woods for gone in one.through(x, HAIR)]), rail.thickness)
    ]
    return "these" if len(bare) > 1 else "".join(bare) or None


@sentence(rf"Knife the shoulder, N mm from the end, against a square all round: both .*?{AT_EDGES}")
def _all_round(joint, edges):
    """From both faces all of the rail is gone to one depth."""
    rail = board_of(joint, "rail")
    assert edges == _edges_without_shoulder(rail)
    return [told.equal([*rail.depths(ZERO), *rail.depths(rail.thickness)])]


@sentence(
    rf"tenon's edges? on its cheeks, N mm from the rail's {EDGE}",
    rf"edge and N mm from the rail's {EDGE}\. (?:Saw|Knife|Mark)",
)
def _tenon_side(joint, edge):
    return [told.tenon_side(joint, edge)]


@sentence(r"tenon's (edges?) on its cheeks, [^.]*\. Saw down beside (it|them)")
def _how_many_edges(joint, edges, them):
    """Each space beside a tenon has a side there, and one between two has two; grooves aside."""
    rail, _, thick = told.tenon(joint)
    spaces = [s for s in rail.spaces(Fraction(1), sum(thick) / 2) if s not in told.kerfs(joint)]
    count = sum(1 if low == 0 or high == rail.width else 2 for low, high in spaces)
    assert (edges, them) == (("edge", "it") if count == 1 else ("edges", "them"))
    return []


@sentence(r"(?:The|Plane the) (outside|inside) faces (?:must come )?flush")
def _flush(joint, face):
    rail, stile = (
        ZERO if face == "outside" else board_of(joint, role).thickness for role in ("rail", "stile")
    )
    assert joint.placement.point((ZERO, ZERO, stile))[2] == rail
    return []


# Dowels


@sentence(
    rf"Set a gauge to N mm, half the thickness\. With its stock on the {FACE} gauge along the "
    r"(far edge|end) of"
)
def _gauge_of_holes(joint, face, where):
    _, along = told.bores(joint, 0)
    assert (face, where) == ("outside", "far edge" if along == 0 else "end")
    return [phrase(joint, "gauge, line of the holes, from the outside face")]


@sentence(rf"gauge along the {EDGE} of the second board: if the gauge")
def _same_gauge(joint, edge):
    holes, along = told.bores(joint, 1)
    assert (along, edge, holes[0][0][0]) == (0, "reference", 0)
    assert told.same(told.middles(joint, 0, 2), told.middles(joint, 1, 2))
    return []


@sentence(r"the first board just as long as the space that it fills, N mm")
def _first_board_long(joint):
    return [[joint.members[0].part.board.length]]


@sentence(r"its stock on the (end) of the second board gauge across that one's (inside|outside)")
def _gauge_from_end(joint, end, face):
    holes, along = told.bores(joint, 1)
    second = joint.members[1].part
    assert (along, face, holes[0][2][1]) == (2, "inside", second.board.thickness)
    assert second.folds
    assert told.same(told.middles(joint, 0, 2), told.middles(joint, 1, 1))
    return []


@sentence(r"across the inside face of the second board, and a second line N mm further")
def _second_line(joint):
    return [told.middles(joint, 1, 1)]


@sentence(r"and a second line N mm from the top end")
def _second_line_from_end(joint):
    along = joint.members[1].part.along
    return [[along + middle for middle in told.middles(joint, 1, 1)]]


@sentence(r"comes, N mm from the top end[, .]")
def _line_from_end(joint):
    return [[joint.members[1].part.along]]


@sentence(r"comes, N mm from the end past the first board's far edge\.")
def _line_from_end_past_far_edge(joint):
    far, reference = (rail_edge_on_stile(joint, edge) for edge in ("far", "reference"))
    assert far == 0 < reference
    return [[joint.members[1].part.along]]


@sentence(r"\. Its reference edge comes N mm further on")
def _both_edges(joint):
    return [[rail_edge_on_stile(joint, "reference") - rail_edge_on_stile(joint, "far")]]


@sentence(r"brad-point bit of N mm, its point in the prick, and a depth stop or tape N mm behind")
def _bore_first(joint):
    stop = phrase(joint, "depth stop, first board's holes")
    return [phrase(joint, "bit, holes for the dowels"), stop]


@sentence(r"N mm larger than the space(?:,| (between two boards that have it))")
def _held_in_two(joint, where):
    """What lies in the grooves or rebates of two boards is larger by both their depths."""
    names = ["groove", "rebate"] if where else ["edge groove"]
    found = (told.measured(joint, f"{name}, how deep") for name in names)
    return [[2 * deep for depths in found for deep in depths or ()]]


@sentence(r"where one of the two has none, N mm larger")
def _held_in_one(joint):
    ((both, *_),) = _held_in_two(joint, "between two boards")
    return [[both / 2]]


@sentence(r"In the same way, N mm deep\.")
def _bore_second(joint):
    return [phrase(joint, "depth stop, second board's holes")]


@sentence(r"Only N mm of wood is left below")
def _left_below(joint):
    (depth,) = phrase(joint, "depth stop, second board's holes")
    return [[joint.members[1].part.board.thickness - depth]]


@sentence(
    r"For each joint cut (\d+) dowels?,?(?: each)? N mm long, N mm less than both holes together"
)
def _cut_dowels(joint, count):
    assert int(count) == len(told.dowel_middles(joint))
    (long,) = phrase(joint, "dowel, length")
    both = sum(sum(phrase(joint, f"depth stop, {o} board's holes")) for o in ("first", "second"))
    return [[long], [both - long]]


@sentence(r"Drive the dowels in till they stand N mm out")
def _stand_out(joint):
    """As the dowels are placed: beyond the plane where the boards meet."""
    at, along = joint.loose[0].placements[0], told.bores(joint, 0)[1]
    rows = [at.point((ZERO, y, ZERO))[along] for y in (ZERO, joint.loose[0].member.part.reach)]
    meet = joint.members[0].part.board.width if along == 0 else ZERO
    first = [meet - row if along == 0 else row - meet for row in rows]
    return [[max(first)]]


def ploughed_off(joint: Joint, face: str) -> list:
    """What groove or rebate has taken of a cheek, in from the reference edge."""
    rail = joint.members[0]
    wood = wood_of(rail)
    across = (left_of(wood.through(x, HAIR), wood.thickness) for x in wood.across)
    kept = next(filter(None, across))
    low, high = kept[0][0], kept[-1][1]
    z = low + HAIR if face == "outside" else high - HAIR
    return Wood(rail, grooves=True).gone((ZERO, HAIR, z), (1, ZERO, ZERO), wood.width)


@sentence(
    r"the tenon's (outside|inside) cheek: .*its edges in line with the rail's; at the reference "
    r"edge it stands N mm past the cheek, for there the (groove|rebate) has"
)
def _past_the_cheek(joint, face, what):
    (gone,) = ploughed_off(joint, face)
    assert gone[0] == 0
    assert (what == "groove") == bool(left_of([gone], joint.members[0].part.board.width))
    return [[gone[1]]]


@sentence(r"the tenon's (outside|inside) cheek: .*its edges in line with the rail's\. Press")
def _as_wide_as_the_rail(joint, face):
    assert not ploughed_off(joint, face)
    return []


@sentence(rf"rails and stiles, N mm deep, from N mm to N mm from the {FACE}")
def _edge_groove(joint, face):
    assert face == "outside"
    (low, high), deep = told.channels(joint, "rail")
    assert deep == told.channels(joint, "stile")[1]
    return [[deep], [low], [high]]


@sentence(r"Keep the plane's fence on the (outside|inside) face")
def _fence(joint, face):
    """From there the groove is told, and so both boards' grooves meet, however thick they are."""
    assert face == "outside"
    return []


@sentence(r"; in the stile from N mm to N mm\.")
def _groove_in_stile(joint):
    return [[at] for at in told.channels(joint, "stile")[0]]


@sentence(rf"rails and stiles, N mm in from the edge, down to N mm from the stile's {FACE}")
def _edge_rebate(joint, face):
    (low, _), deep = told.channels(joint, "stile")
    assert (face, deep) == ("outside", told.channels(joint, "rail")[1])
    return [[deep], [low]]


@sentence(r"bit of N mm on the ring, N mm from the reference edge, N mm deep")
def _bored_so_deep(joint):
    (x, y), _ = told.holes(joint, "stile")[0]
    ((face, deep),) = board_of(joint, "stile").through(Fraction(x), Fraction(y))
    assert face == 0
    return [told.peg(joint), told.hole_in_stile(joint), [deep]]


@sentence(r"bit of N mm on the ring, N mm from the reference edge, right through")
def _bored_through(joint):
    _, _, deep = _bored_so_deep(joint)
    assert deep == [board_of(joint, "stile").thickness]
    return [told.peg(joint), told.hole_in_stile(joint)]


@sentence(
    r"Pare both ends of the mortise aslant: by N mm at the (far edge|floor), and to nothing N mm"
)
def _flare(joint, where):
    """It begins just below the depth that is told, and grows evenly from there."""
    _, _, depth = told.mortise(joint)
    stile, z = board_of(joint, "stile"), told.in_mortise(joint)[1]
    assert (where == "far edge") == (depth == stile.width)
    along = (ZERO, Fraction(1), ZERO)
    wide = [
        told.lengths(stile.gone((x, Fraction(-500), z), along, Fraction(1500)))[0]
        for x in (Fraction(1), depth - 1, depth)
    ]
    grows = wide[2] - wide[1]
    return [told.flare(joint), [depth - (wide[2] - wide[0]) / grows]]


@sentence(
    r"as the rail does: (towards|away from) the stile's end that the rail's far edge faces, "
    r"(at its floor|on the far edge) N mm (nearer to it|farther off)"
)
def _runs_aslant(joint, way, where, there):
    """Its ends, in the deeper half, where no haunch and no flare is: as much again before it."""
    _, _, depth = told.mortise(joint)
    stile, z = board_of(joint, "stile"), told.in_mortise(joint)[1]
    assert (where == "on the far edge") == (depth == stile.width)
    assert rail_edge_on_stile(joint, "far") < rail_edge_on_stile(joint, "reference")
    half, floor = (
        max(
            stile.gone((x, Fraction(-500), z), (ZERO, Fraction(1), ZERO), Fraction(1500)),
            key=lambda span: span[1] - span[0],
        )
        for x in (depth / 2, depth)
    )
    runs = [2 * (floor[end] - half[end]) for end in (0, 1)]
    assert abs(runs[0] - runs[1]) < 1e-9
    assert (way, there) == (
        ("towards", "nearer to it") if runs[0] < 0 else ("away from", "farther off")
    )
    return [[abs(runs[0])]]


@sentence(r"same gauged lines, N mm deep (?:up to the line|beside the mortise)")
def _haunch_socket(joint):
    """Just before the mortise, where a sloped one is deepest."""
    stile, ((low, _), _, _) = board_of(joint, "stile"), told.mortise(joint)
    _, z = told.in_mortise(joint)
    edge, deep = stile.gone((ZERO, low - HAIR, z), (Fraction(1), ZERO, ZERO), stile.width)[0]
    assert edge == 0
    return [[deep]]


@sentence(
    rf"Knife the shoulder, N mm from the end, against a square on the {FACE} and "
    rf"{AT_EDGES}(?:, and on the {FACE} only)?"
)
def _one_face(joint, face, edges, other):
    """On the other one the tenon is bare: the rail's own face goes on to its end, but beside it."""
    rail = board_of(joint, "rail")
    cut, bare = (ZERO, rail.thickness)[:: 1 if face == "outside" else -1]
    assert ZERO in rail.depths(bare)
    beside = {"outside": "inside", "inside": "outside"}[face] if any(rail.depths(bare)) else None
    assert other == beside
    assert edges == _edges_without_shoulder(rail)
    return [told.equal([*rail.depths(cut)])]


@sentence(
    rf"on the {FACE} only N mm in from the reference edge(?:,| and) N mm in from the far edge"
    r"( and between the tenons)?"
)
def _beside_bare_tenon(joint, face, between):
    """On that face waste is seen there, and is as long as the tenon."""
    rail = board_of(joint, "rail")
    spaces = rail.spaces(rail.baseline - HAIR, HAIR if face == "outside" else rail.thickness - HAIR)
    assert (between is not None) == (len(spaces) == 3)
    return [[spaces[0][1]], [rail.width - spaces[-1][0]]]


@sentence(rf"on the {FACE} only N mm in from the (reference|far) edge\.")
def _beside_bare_tenon_at_one_edge(joint, face, edge):
    rail = board_of(joint, "rail")
    z = HAIR if face == "outside" else rail.thickness - HAIR
    ((low, high),) = rail.spaces(rail.baseline - HAIR, z)
    assert (low == 0, high == rail.width) == (edge == "reference", edge == "far")
    return [[high - low]]


@sentence(r"Gauge those of tenon (\d) likewise, N mm and N mm from the same face")
def _cheeks_beside(joint, number):
    low, high = told.tenon_beside(joint, int(number))
    return [[low], [high]]


@sentence(
    r"Between the tenons gauge N mm and N mm from the rail's reference edge, on "
    r"(both|the two outer) cheeks"
)
def _between_tenons(joint, cheeks):
    assert (cheeks == "both") == (len(told.tenons_through(joint)) == 1)
    return [[side] for side in told.gap(joint, 1)]


@sentence(rf"With a gauge set to N mm and its stock on the {FACE}, gauge the cheeks")
def _bare_face(joint, face):
    _, _, (low, high) = told.tenon(joint)
    assert (face, low) == ("outside", 0)
    return [[high]]


@sentence(
    rf"N mm from the end on the {FACE} and across both edges; on the {FACE} only N mm, for there"
)
def _two_shoulders(joint, short, long):
    rail = board_of(joint, "rail")
    assert (short, long) == ("outside", "inside")
    return [told.equal([*rail.depths(z)]) for z in (ZERO, rail.thickness)]


@sentence(r"far edge: N mm from the shoulder, as it is printed")
def _haunch_leaning(joint):
    return [told.haunch(joint)]


@sentence(r"far edge: N mm from the shoulder, N mm from the tenon's end")
def _haunch_knifed(joint):
    rail = board_of(joint, "rail")
    return [told.haunch(joint), [rail.baseline - one for one in told.haunch(joint)]]


@sentence(
    r"the haunch on both cheeks, [^:]*: N mm from the shoulder at the gauged line, and (nothing)",
    r"half from each cheek, to N mm from the (shoulder)",
)
def _haunch(joint, runs_out):
    rail, _, thick = told.tenon(joint)
    out = rail.depth(rail.width - HAIR, ZERO) - rail.depth(rail.width - HAIR, sum(thick) / 2)
    assert runs_out == "shoulder" or abs(out) < 3 * HAIR
    return [told.haunch(joint)]


@sentence(r"At the (reference|far) edge saw down .*?, (then across beside the knifed|as far as)")
def _to_shoulder_or_haunch(joint, edge, how):
    """Just inside that edge all is gone as far as the shoulder, or the haunch is left."""
    rail, (low, high), thick = told.tenon(joint)
    x = low - HAIR if edge == "reference" else high + HAIR
    left = rail.depth(x, ZERO) - rail.depth(x, sum(thick) / 2)
    assert how.startswith("as far as") == (left > HAIR) == (edge == "far")
    return []


@sentence(r"the middle of each N mm from an edge of it: N mm down from its end")
def _kerfs(joint):
    return [told.kerf_places(joint), told.kerf_depth(joint)]


@sentence(
    r"hardwood N mm thick, the grain .* they grow to N mm, N mm from it, where they fill the "
    r"mortise at the (far edge), and go on to N mm",
    r"hardwood N mm thick, the grain .* they grow to N mm, N mm from it, where the (tenon ends), "
    r"and stop at N mm: the mortise's floor drives them",
)
def _wedges(joint, where):
    made, (_, across, depth) = told.wedge(joint), told.mortise(joint)
    (held,) = told.wedge_held(joint)
    assert made.thickness == across[1] - across[0]
    assert (where == "far edge") == (depth == board_of(joint, "stile").width)
    far = (made.width - HAIR, ZERO, ZERO)
    (long,) = told.lengths(made.gone(far, (ZERO, Fraction(1), ZERO), Fraction(500)))
    # Enough is left to be driven; what a floor drives ends there when it is home.
    past = told.held_from_floor(joint)[0][0] - held
    if where == "tenon ends":
        floor = board_of(joint, "rail").baseline - told.kerf_depth(joint)[0]
        assert abs(long + past - (depth - floor)) < 1e-6
    return [[made.thickness], told.wedge_end(joint), [held], [long]]


@sentence(r"squarely across the whole stock at the line N mm from the end: that is the end for")
def _sawn_across(joint):
    """Where the slope ends: what is drawn beyond it is the next one's."""
    made = told.wedge(joint)
    far = (made.width - HAIR, ZERO, ZERO)
    return [told.lengths(made.gone(far, (ZERO, Fraction(1), ZERO), Fraction(500)))]


@sentence(r"the thin end stays N mm short of the kerf's floor")
def _short_of_floor(joint):
    (to_floor,), _ = told.held_from_floor(joint)
    return [[to_floor - held for held in told.wedge_held(joint)]]


@sentence(r"a saw that cuts N mm: where yours")
def _saw(joint):
    return [told.lengths(told.kerfs(joint)[:1])]


@sentence(rf"The rail's {FACE} must lie N mm behind the stile's")
def _behind(joint, face):
    assert face == "outside"
    return [[-joint.placement.point((ZERO, ZERO, ZERO))[2]]]


@sentence(r"the prick of the template must stand N mm nearer to the shoulder")
def _offset(joint):
    return [told.nearer(joint)]


@sentence(r"N mm from the shoulder to the middle of the hole")
def _hole_on_cheek(joint):
    return [told.hole_in_tenon(joint)]


@sentence(r"Split (one peg|\d pegs) for each tenon .* N mm thick and N mm long, and do not saw")
def _pegs(joint, count):
    """As many as holes; each goes through, its taper beside, or to the hole's floor."""
    many = len(told.holes(joint, "rail"))
    assert count == ("one peg" if many == 1 else f"{many} pegs")
    (x, y), _ = told.holes(joint, "stile")[0]
    stile = board_of(joint, "stile")
    ((_, deep),) = stile.through(Fraction(x), Fraction(y))
    long = deep + 10 if deep < stile.thickness else deep * 3 / 2 + 10
    return [told.peg(joint), [math.ceil(long * 2) / 2]]


@sentence(r"taper no more than the last N mm, to N mm at the tip")
def _point_of_peg(joint):
    """The tip passes the tenon's hole; where it ends, the whole peg is past the mortise."""
    (wide,), (off,) = (list(found)[:1] for found in (told.peg(joint), told.nearer(joint)))
    (x, y), _ = told.holes(joint, "stile")[0]
    ((_, deep),) = board_of(joint, "stile").through(Fraction(x), Fraction(y))
    assert deep - Fraction(wide) / 2 > told.mortise(joint)[1][1]
    return [[wide / 2], [wide - 2 * off]]


@sentence(r"space between the stiles, measured along its far edge, and N mm more")
def _leaning_rail_longer(joint):
    rail = board_of(joint, "rail")
    return [[rail.depth(rail.width, ZERO)]]


@sentence(r"N mm more than the tenon goes in")
def _deeper_than_it_goes_in(joint):
    """Of the tenon's end that corner is deepest which is farthest along the stile's depth."""
    rail, (low, high), thick = told.tenon(joint)
    deepest = max(joint.placement.reversed().point((x, ZERO, thick[0]))[0] for x in (low, high))
    assert rail.width >= high
    return [[told.mortise(joint)[2] - deepest]]
