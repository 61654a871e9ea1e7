"""What each figure and each side in the order of work must be, measured on the wood.

In a pattern ``N`` is a figure and a group is a word. What a rule gives are the values that the
figures may have, in their order; a rule of sides alone asserts.
"""

import math
import re
from collections.abc import Callable
from fractions import Fraction

from joinery_templates.joint import Joint
from tests.joints import told_figures as told
from tests.joints.probes import ZERO, Wood, board_of, upright, wood_of

Rule = Callable[..., list]
RULES: list[tuple[re.Pattern[str], Rule]] = []
FIGURE = r"≈?(?P<n{}>\d+(?:\.\d+)?)"
STATED = re.compile(r"(?<![\d.])\d+(?:\.\d+)?(?= mm|°)|(?<=\b1:)\d+(?:\.\d+)?")
"""Lengths, angles and ratios, wherever they stand."""
BOARD = r"the ([a-z]+ board)(?: \(\w+\))?"
EDGE, FACE = "(reference|far) edge", "(outside|inside) face"
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
    found, proved = [], set()
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
    (use,) = (s.use for s in joint.slopes if s.use.startswith("sides of"))
    return [1 / slope for slope in phrase(joint, use)]


@sentence(r"\b1:N")
def _slope(joint):
    return [sides_of(joint)]


@sentence(r"\bN tails?(?: and a half tail at each edge)? at")
def _tails(joint):
    wood = board_of(joint, "tail board")
    return [[len(told.tails(wood, wood.pieces_end))]]


@sentence(r"keeps N fingers")
def _fingers(joint):
    return [[len(board_of(joint, "first board").pieces(ZERO, ZERO))]]


@sentence(r"Make N and number them")
def _keys(joint):
    return [[len(told.key_middles(joint)[0])]]


# Corners


@sentence(rf"Set a gauge to N mm for {BOARD} and another to N mm for {BOARD}")
def _both_baselines(joint, one, other):
    return [baseline(joint, one), baseline(joint, other)]


@sentence(rf"lines at N mm from the end of {BOARD} and at N mm from that of {BOARD}, square to")
def _slanting_baselines(joint, *roles):
    return [phrase(joint, f"gauge, {role}'s baseline, square to its end") for role in roles]


@sentence(r"(tails|pins|first board's fingers|second board's fingers) stand N mm proud")
def _proud(joint, what):
    """How far a tip of the end lies past the other board's outside face."""
    number = 1 if what in ("pins", "second board's fingers") else 0
    return [[past_the_other(joint, number)]]


def past_the_other(joint: Joint, number: int) -> float:
    wood = wood_of(joint.members[number])
    onto = joint.placement if number else joint.placement.reversed()
    return -float(onto.point((ZERO, wood.end(ZERO, ZERO), ZERO))[2])


@sentence(r"It stops N mm short of the outside of the tail board", r"shorter [a-z ]+ by twice N mm")
def _short(joint):
    return [[-past_the_other(joint, 1)]]


@sentence(r"N mm and from the inside face of the (pin board) scribe the lap line")
def _lap_line(joint, role):
    return [phrase(joint, f"gauge, lap line, from the {role}'s inside face")]


@sentence(r"a lap of N mm is left")
def _lap(joint):
    return [phrase(joint, "lap, on the pin board's outside")]


@sentence(
    r"Set another(?: gauge)? to N mm and scribe the baseline(?: of the pin board)? on (?:the|its)"
)
def _pin_baseline(joint):
    return [phrase(joint, "gauge, pin board's baseline, on its inside face only")]


@sentence(r"Set a gauge to N mm\. From the end of the (tail board) scribe its baseline")
def _tail_baseline(joint, role):
    words = f"gauge, {role}'s baseline; the same for the lap line, from the pin board's inside face"
    return [phrase(joint, words)]


@sentence(r"gauge N mm for the rebate and N mm for the baseline, both on the inside face only")
def _rebate_and_baseline(joint):
    wood = board_of(joint, "tail board")
    assert not any(wood.depths(ZERO))
    return [[wood.pieces_end], [wood.baseline]]


@sentence(r"From the outside face gauge N mm on the end")
def _tail_lap(joint):
    return [phrase(joint, "lap, on the tail board's outside")]


@sentence(r"Set a gauge to N mm: on both boards scribe the rebate")
def _rebates(joint):
    return [phrase(joint, "gauge, both boards' rebate, from the end and from the outside face")]


@sentence(r"inside of both ends, N mm from the end and down to N mm from the outside face")
def _rebates_of_both(joint):
    return _rebates(joint) * 2


@sentence(r"on the inside faces only: N mm on the (tail board), N mm on the (pin board)")
def _inside_baselines(joint, *roles):
    return [phrase(joint, f"gauge, {role}'s baseline, on its inside face only") for role in roles]


@sentence(r"Beside both edges, N mm in")
def _both_mitres(joint):
    return [told.same([told.mitre(joint, "reference")], [told.mitre(joint, "far")])]


@sentence(rf"not within N mm of the {EDGE}")
def _mitre(joint, edge):
    return [[told.mitre(joint, edge)]]


@sentence(rf"At the {EDGE} of the (?:tail|pin) board saw along the grain beside the mitred strip")
def _mitred_edge(joint, edge):
    assert told.mitre(joint, edge) > 0
    return []


@sentence(r"on both edges of the (tail|pin) board")
def _waste_at_both_edges(joint, which):
    wood = board_of(joint, f"{which} board")
    spaces = wood.spaces(wood.baseline / 2, ZERO)
    assert spaces[0][0] == 0
    assert spaces[-1][1] == wood.width
    return []


@sentence(r"Saw off the half-(pin|tail) waste")
def _half_waste(joint, which):
    """Beside a half pin the tail board is sawn off, beside a half tail the pin board."""
    wood = board_of(joint, "tail board" if which == "pin" else "pin board")
    assert wood.spaces(wood.baseline, wood.thickness)[0][0] == 0
    return []


# Ends that are not square


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


@sentence(
    r"Measure a board's length (on the outside face[^.;]*)\.",
    rf"Measure the length of {BOARD} (on [^;]*); that of {BOARD} (on [^.]*)\.",
)
def _where_measured(joint, *words):
    """Along the longest arris of the outside face; the inside face may be longer still."""
    roles = words[0::2] if len(words) > 1 else [member.role for member in joint.members]
    places = words[1::2] if len(words) > 1 else words * 2
    for role, place in zip(roles, places, strict=True):
        wood = board_of(joint, role)
        edge = re.search(r"along its arris at the (\w+) edge", place)
        assert bool(edge) == bool(wood.runs_out)
        if edge:
            assert edge[1] == longer_edge(wood)
        tip = min(wood.end(ZERO, ZERO), wood.end(wood.width, ZERO))
        behind = min(wood.end(x, wood.thickness) for x in (ZERO, wood.width))
        assert ("for the inside face is longer still" in place) == (behind < tip)
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


@sentence(r"inside with a bevel set to N°")
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


@sentence(r"(?:They stand|It stands) N mm proud")
def _key_proud(joint):
    (loose,) = joint.loose
    return [[-loose.placements[0].point((ZERO, ZERO, ZERO))[2]]]


# The halving


def rail_edge_on_stile(joint: Joint, edge: str) -> Fraction:
    """Where an edge of the rail comes on the stile, along it."""
    rail, _, reach = told.halving(joint)
    x = ZERO if edge == "reference" else rail.width
    return joint.placement.reversed().point((x, reach, ZERO))[1]


def edge_of_entry(joint: Joint) -> str:
    """The edge of the stile beside which the rail's shoulder stands."""
    rail, _, reach = told.halving(joint)
    x, _, _ = joint.placement.reversed().point((rail.width / 2, reach + 1, ZERO))
    return "reference" if x < 0 else "far"


def face_with_dovetail(joint: Joint) -> str:
    rail, z, _ = told.halving(joint)
    return "outside" if z < rail.thickness / 2 else "inside"


@sentence(r"space between the stiles and N mm more for the dovetail at each of its ends")
def _rail_longer(joint):
    """How far the end lies behind the edge of the stile that the rail comes in from."""
    stile = board_of(joint, "stile")
    x = ZERO if edge_of_entry(joint) == "reference" else stile.width
    return [[joint.placement.point((x, ZERO, ZERO))[1]]]


@sentence(r"Set one gauge to N mm and leave it")
def _one_gauge(joint):
    return [phrase(joint, "gauge, flat of the lap and floor of the socket, both from outside")]


@sentence(rf"Knife the shoulder, N mm from the end, on the {FACE}")
def _rail_shoulder(joint, face):
    assert face != face_with_dovetail(joint)
    return [phrase(joint, "gauge, rail's shoulder, from its end")]


@sentence(r"The neck is N mm wide")
def _neck(joint):
    return [phrase(joint, "dovetail at the shoulder (neck)")]


@sentence(r"hand router set to N mm")
def _router(joint):
    if joint.kind == "sliding-dovetail":
        return [_deep(joint)]
    ((low, high),) = told.socket(joint)
    return [[high - low]]


@sentence(r"the dovetail's end, which stands N mm proud")
def _end_proud(joint):
    stile = board_of(joint, "stile")
    x = stile.width if edge_of_entry(joint) == "reference" else ZERO
    return [[joint.placement.point((x, ZERO, ZERO))[1]]]


@sentence(rf"rail comes in at the stile's {EDGE}", rf"tight against the stile's {EDGE}")
def _entry(joint, edge):
    assert edge == edge_of_entry(joint)
    return []


@sentence(
    rf"where the rail's {EDGE} is to come",
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
    rf"lay the dovetail itself on the {FACE}",
    rf"in square to the {FACE}",
)
def _dovetail_side(joint, face):
    assert face == face_with_dovetail(joint)
    return []


@sentence(rf"The waste is on the {FACE}", rf"saw across at the shoulder on the {FACE}")
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


@sentence(r"shoulder, and (both edges|the (?:reference|far) edge) of the stile")
def _scribed(joint, edges):
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


@sentence(r"space between the sides and N mm more for its two tails")
def _shelf_longer(joint):
    """At each end the shelf reaches past the side's inside face, and it has two ends."""
    side = board_of(joint, "side")
    return [[2 * joint.placement.point((ZERO, ZERO, side.thickness))[1]]]


@sentence(r"line just stays, down to N mm")
def _saw_depth(joint):
    return [_deep(joint)]


@sentence(
    r"Gauge [^a-z]+ mm from the end on (both faces|the upper face|the lower face)",
    r"Saw along the baseline on (both faces|the upper face|the lower face)",
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


@sentence(r"The wall at the shelf's (upper|lower) face is square")
def _square_wall(joint, face):
    assert not told.beside_tail(joint, face, told.shelf_places(joint)[""], told.shoulders(joint))
    return []


@sentence(r"So too the one for the (front and the back edge|back edge): it shows the section")
def _sections(joint, edges):
    assert (edges == "back edge") == bool(told.shelf_places(joint)["where the housing begins"])
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
    return [[1 / taper], [0.1], [0.1 / taper]]


@sentence(r"a space about N mm long")
def _habit(joint):
    return [[30]]


@sentence(r"Slide the shelf in dry until N mm remain")
def _remain(joint):
    long = told.shelf_places(joint)[""] - _start(joint)
    return [[min(50, long / 2)]]
