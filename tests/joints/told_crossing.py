"""Halvings and bridles: what their figures and sides must be, measured on the wood.

Two places of the crossing are probed, one on either side of the line on which a mitre would run.
"""

import math
from itertools import pairwise

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint, SettingOut
from tests.joints.probes import HAIR, ZERO, Span, Wood, board_of, inner, left_of, lengths
from tests.joints.told_figures import equal, rule, same
from tests.joints.told_steps import EDGE, FACE, sentence

FAR = Fraction(500)
"""Farther before a squared line than any crossing reaches."""
QUARTER, HALF = Fraction(1, 4), Fraction(1, 2)
ROLE = r"(rail|stile)"
LENGTH_OF = rf"(?:Make t|T)he {ROLE} (?:as long as|is) (?:(?!Make|The (?:rail|stile) is).)*"
"""All that is told of one board's length."""
FACES = rf"the {FACE}(?: and the {FACE})?"


def mate_of(role: str) -> str:
    return "stile" if role == "rail" else "rail"


def on_board(joint: Joint, role: str, own: Fraction, mate: Fraction) -> tuple[Fraction, Fraction]:
    """Where on a board it is so far from its own reference edge, and so far from its mate's."""
    to_mate = joint.placement.reversed() if role == "rail" else joint.placement
    start, stop = (to_mate.point((own, y, ZERO))[0] for y in (ZERO, Fraction(1)))
    return own, (mate - start) / (stop - start)


def probed(joint: Joint, role: str) -> list[list[Span]]:
    """What is gone of a board from face to face, on the rail's side of a mitre and the stile's."""
    rail, stile = (board_of(joint, one) for one in ("rail", "stile"))
    places = ((3 * QUARTER, QUARTER), (QUARTER, 3 * QUARTER))
    found = []
    for of_rail, of_stile in places:
        widths = of_rail * rail.width, of_stile * stile.width
        own, mate = widths if role == "rail" else widths[::-1]
        found.append(board_of(joint, role).through(*on_board(joint, role, own, mate)))
    return found


def middles(joint: Joint, role: str, is_gone: bool) -> list[Span]:
    """What is gone of a board, or left, and reaches neither face: a slot, or a tongue."""
    thick = board_of(joint, role).thickness
    spans = probed(joint, role)
    if not is_gone:
        spans = [left_of(one, thick) for one in spans]
    return [one for some in spans for one in inner(some, thick)][:1]


def slot_and_tongue(joint: Joint) -> tuple[str, Span]:
    """The slotted board, and from where to where its slot is; the tongue fills it."""
    (slotted,) = (role for role in ("rail", "stile") if middles(joint, role, is_gone=True))
    (slot,) = middles(joint, slotted, is_gone=True)
    assert middles(joint, mate_of(slotted), is_gone=False) == [slot]
    return slotted, slot


def lost_depths(joint: Joint, role: str) -> list[Fraction]:
    """Depths at which all of the crossing is gone of a board: in the middle of each such layer."""
    board = board_of(joint, role)
    one, other = probed(joint, role)
    bounds = sorted({ZERO, board.thickness, *(at for span in one + other for at in span)})
    middle = [(a + b) / 2 for a, b in pairwise(bounds)]
    return [z for z in middle if all(any(a < z < b for a, b in spans) for spans in (one, other))]


def runs(board: Wood, x: Fraction, z: Fraction) -> Span:
    """From where to where a board is gone along a line."""
    ((low, high),) = board.gone((x, -FAR, z), (ZERO, Fraction(1), ZERO), 2 * FAR)
    return low - FAR, high - FAR


def shoulder(joint: Joint, role: str, edge: str) -> list[Fraction]:
    board = board_of(joint, role)
    x = ZERO if edge == "reference" else board.width
    # Where a mitre alone is cut, it begins at the shoulder on the reference edge.
    depths = lost_depths(joint, role) or ([HAIR] if edge == "reference" else [])
    return equal([runs(board, x, z)[1] for z in depths])


@rule(rf"rule, {ROLE}'s shoulder line, from its end", rf"{ROLE}'s end to its shoulder")
def _square_shoulder(joint, role):
    return shoulder(joint, role, "reference")


@rule(rf"{ROLE}'s end to its shoulder, along its (reference|far) edge")
def _slanting_shoulder(joint, role, edge):
    return shoulder(joint, role, edge)


@rule(r"gauge, both boards, from the outside face")
def _flats(joint):
    found = []
    for role in ("rail", "stile"):
        thick = board_of(joint, role).thickness
        found.append([at for one in probed(joint, role) for s in one for at in s if 0 < at < thick])
    return same(*found)


@rule(rf"{ROLE}, thickness left at the joint")
def _left(joint, role):
    thick = board_of(joint, role).thickness
    left = [sum(lengths(left_of(spans, thick))) for spans in probed(joint, role)]
    return [min(one for one in left if one)]


@rule(r"thickness of the tongue", r"mortise gauge, its points, for tongue and slot")
def _tongue(joint):
    return lengths([slot_and_tongue(joint)[1]])


@rule(r"gauge, nearer side of tongue and slot, from the outside face of both")
def _nearer_side(joint):
    return [slot_and_tongue(joint)[1][0]]


@rule(rf"{ROLE}, (outside|inside) of the slot")
def _beside_slot(joint, role, face):
    slotted, (low, high) = slot_and_tongue(joint)
    assert slotted == role
    return [low if face == "outside" else board_of(joint, role).thickness - high]


@rule(rf"{ROLE}'s end to the {ROLE}'s far edge")
def from_end(joint, role, mate):
    """The board's end is where its place says that it is."""
    far = board_of(joint, mate).width
    return [board_of(joint, role).member.part.along + on_board(joint, role, ZERO, far)[1]]


@rule(rf"the {ROLE}, along the {ROLE}'s edges")
def _along_edges(joint, mate, role):
    board = board_of(joint, role)
    depths = lost_depths(joint, role)
    return equal(lengths([runs(board, x, z) for x in (ZERO, board.width) for z in depths]))


@rule(r"shoulders and notches, off square, stock on an edge")
def _off_square(joint):
    woods = {role: board_of(joint, role) for role in ("rail", "stile")}
    found = [
        [runs(board, x, z)[1] for x in (ZERO, board.width)] + [board.width]
        for role, board in woods.items()
        for z in lost_depths(joint, role)
    ]
    return equal([abs(near - far) / width for near, far, width in found])


@rule(
    rf"mitre, off square across the {ROLE}, stock on an edge(?:: ≈?([\d.]+) mm along it over its "
    "width)?"
)
def _mitre(joint, role, run):
    board = board_of(joint, role)
    near, far = (runs(board, x, HAIR)[1] for x in (ZERO, board.width))
    assert abs(float(run or board.width) - (near - far)) <= 0.005
    return [(near - far) / board.width]


# Marks


def through_the_end(joint: Joint, row: SettingOut) -> list[Span]:
    """Slot or tongue; of a mitred board where its outside is gone too."""
    spans = middles(joint, row.role, is_gone=any("slot" in mark.what for mark in row.marks))
    assert row.start == "outside face"
    if any("slot" in mark.what for mark in row.marks):
        return spans
    return left_of(spans, row.width)


def along_the_edge(joint: Joint, row: SettingOut) -> list[Span]:
    """Of the whole board's reference edge, from its end on."""
    board = board_of(joint, row.role)
    start = (ZERO, -board.member.part.along, lost_depths(joint, row.role)[0])
    return board.gone(start, (ZERO, Fraction(1), ZERO), row.width)


# The order of work


def overhang(joint: Joint, role: str) -> Fraction:
    """From the end to the mate's far edge, where that is least."""
    board, far = board_of(joint, role), board_of(joint, mate_of(role)).width
    return min(on_board(joint, role, x, far)[1] for x in (ZERO, board.width))


@sentence(
    rf"Make the {ROLE} as long as (?:it is to be between its shoulders|the space between the "
    r"stiles) and N mm more at each end with this joint",
    rf"The {ROLE} is N mm long, sawn off square: of that N mm lies beyond the shoulder "
    "at each end with this joint",
)
def _longer(joint, role):
    told = board_of(joint, role).member.part.board.length
    return [*([[told]] if told else []), shoulder(joint, role, "reference")]


@sentence(
    rf"Make the {ROLE} as long as it is to be between its shoulders and N mm along its reference "
    r"edge, N mm along its far edge, more at the end with this joint",
    rf"The {ROLE} is N mm long, sawn off square: of that N mm along its reference edge, N mm "
    r"along its far edge, lies beyond the shoulder at the end with this joint",
)
def _longer_aslant(joint, role):
    return [*_longer(joint, role), shoulder(joint, role, "far")]


@sentence(
    rf"{LENGTH_OF}; (?:at least )?N mm of it (is cleaned off last|goes with the mitre)",
)
def _cleaned_off(joint, role, how):
    """Last goes what is still there when the joint's own waste is gone."""
    board = board_of(joint, role)
    left = [x for x in board.across if left_of(board.through(x, HAIR), board.thickness)]
    assert (how == "is cleaned off last") == bool(left)
    return [[overhang(joint, role)]]


@sentence(rf"{LENGTH_OF} N mm are left between the shoulders")
def _between(joint, role):
    ((near,),) = (shoulder(joint, role, "reference"),)
    assert not joint.placement.rows[1][1]
    return [[board_of(joint, role).member.part.board.length - 2 * near]]


@sentence(
    rf"{LENGTH_OF} Where the stiles are parallel, so are its shoulders, with N mm between them "
    r"along either edge; only where they are not, and it meets the other one too at N°, N mm are "
    r"left along its reference edge and N mm along its far edge"
)
def _between_aslant(joint, role):
    """A mirror image has its edges where this end has them; across a parallel stile they change."""
    length = board_of(joint, role).member.part.board.length
    (near,), (far,) = (shoulder(joint, role, edge) for edge in ("reference", "far"))
    angle = math.degrees(math.acos(-joint.placement.rows[0][0]))
    return [[length - near - far], [angle], [length - 2 * near], [length - 2 * far]]


@sentence(r"Between its shoulders it is N mm long for each N mm between the stiles")
def _for_each(joint):
    """Along its grain the rail goes so far across the stile for each mm."""
    across = abs(joint.placement.rows[1][0])
    return [[100 / across], [100]]


@sentence(
    rf"On the {EDGE} of the {ROLE} measure N mm from the end past the {ROLE}'s far edge: there",
)
def _line(joint, edge, role, mate):
    assert edge == "reference"
    assert on_board(joint, role, ZERO, board_of(joint, mate).width)[1] == 0
    assert on_board(joint, role, ZERO, ZERO)[1] > 0
    return [from_end(joint, role, mate)]


@sentence(
    rf"lay the {ROLE} itself across it, its shoulder drawn up to the {ROLE}'s {EDGE}, the paper "
    rf"peeled off there, and its {EDGE} on the line"
)
def _mate_laid_on(joint, laid, under, edge, own_edge):
    """The shoulder runs along that edge; the squared line is at y = 0."""
    wide = {"reference": ZERO, "far": board_of(joint, under).width}
    own = {"reference": ZERO, "far": board_of(joint, laid).width}
    at_edge = on_board(joint, laid, own[own_edge], wide[edge])[1]
    assert shoulder(joint, laid, own_edge) == [at_edge]
    assert on_board(joint, under, wide[edge], own[own_edge])[1] == 0
    return []


@sentence(
    rf"the outside faces stay flush\. Inside, the {ROLE} is the thicker and stands N mm past the "
    rf"{ROLE}\."
)
def _past_inside(joint, thick, thin):
    """Both inside faces, in the rail's frame."""
    rail, stile = (board_of(joint, role) for role in ("rail", "stile"))
    assert joint.placement.point((ZERO, ZERO, ZERO))[2] == 0
    inside = {
        "rail": rail.thickness,
        "stile": joint.placement.point((ZERO, ZERO, stile.thickness))[2],
    }
    assert inside[thick] > inside[thin]
    return [[inside[thick] - inside[thin]]]


@sentence(rf"▲ towards the end that it names, which lies past the {ROLE}'s far edge")
def _points(joint, mate):
    """Up on the template is where y is less."""
    near, far = (
        on_board(joint, mate_of(mate), ZERO, x)[1] for x in (ZERO, board_of(joint, mate).width)
    )
    assert far < near
    return []


@sentence(r"Set a gauge to N mm and leave it so")
def _gauge(joint):
    return [_flats(joint)]


@sentence(r"points of a mortise gauge N mm apart.*the nearer one N mm from the stock")
def _mortise_gauge(joint):
    _, (low, high) = slot_and_tongue(joint)
    return [[high - low], [low]]


def lost_faces(joint: Joint, role: str) -> set[str]:
    """The faces on which all of the crossing is gone."""
    thick = board_of(joint, role).thickness
    ends = [(spans[0][0] == 0, spans[-1][1] == thick) for spans in probed(joint, role)]
    both = zip(*ends, strict=True)
    return {face for face, gone in zip(("outside", "inside"), both, strict=True) if all(gone)}


@sentence(rf"round the {ROLE}, N mm from its end, for the shoulder")
def _square_line(joint, role):
    return [shoulder(joint, role, "reference")]


@sentence(
    rf"edges of the {ROLE} for the shoulder: N mm from its end on the {EDGE}, N mm on the {EDGE}"
)
def _slanting_line(joint, role, *edges):
    return [shoulder(joint, role, edge) for edge in edges]


@sentence(rf"Lay on the {ROLE}: .*Knife the shoulder across {FACES} against (a square|the bevel)")
def _knifed(joint, role, one, other, tool):
    assert {one, other} - {None} == lost_faces(joint, role)
    assert (tool == "a square") == (joint.placement.rows[1][1] == 0)
    return []


def is_line_of(joint: Joint, faces: set[str], lines: str, nearer: str | None) -> bool:
    """Whether waste on such faces ends at such lines: of two, both, or the one that is named."""
    if not any(middles(joint, role, is_gone=True) for role in ("rail", "stile")):
        return (lines, nearer) == ("the gauged line", None)
    both = ("both gauged lines", None)
    return (lines, nearer) == (both if len(faces) > 1 else ("the gauged line", *faces))


LINES = rf"(both gauged lines|the gauged line)(?: nearer to the {FACE})?"


@sentence(
    rf"Lay on the {ROLE}: .*Knife (?:the shoulder|both lines) (?:(?!Knife).)*down both edges, to "
    rf"{LINES} and no further",
    rf"Saw the (?:lap|cheek|cheeks) of the {ROLE}: .*down from the end beside {LINES}, on",
)
def _to_the_gauge(joint, role, lines, nearer):
    assert is_line_of(joint, lost_faces(joint, role), lines, nearer)
    return []


@sentence(
    rf"Lay on the {ROLE}: .*Knife the mitre on the {FACE}: at the {EDGE} N mm from the end, at the "
    rf"{EDGE} N mm\. Square it down both edges, to {LINES} and no further",
)
def _mitre_line(joint, role, face, near, far, lines, nearer):
    assert (face, near, far) == ("outside", "reference", "far")
    assert is_line_of(joint, {"outside"}, lines, nearer)
    board = board_of(joint, role)
    return [[runs(board, x, HAIR)[1]] for x in (ZERO, board.width)]


@sentence(
    rf"both edges of both boards as far as the shoulder; but on the {EDGE} of the {ROLE}"
    rf"(?: \([^)]*\))? {LINES} as far as the mitre, N mm from the end"
)
def _gauged_to_the_mitre(joint, edge, role, lines, nearer):
    """On its far edge that line bounds the mitre's waste alone; all others run to the shoulder."""
    assert edge == "far"
    assert is_line_of(joint, {"outside"}, lines, nearer)
    board = board_of(joint, role)
    mitre = runs(board, board.width, HAIR)[1]
    assert mitre < shoulder(joint, role, "reference")[0]
    return [[mitre]]


@sentence(rf"Saw the mitre of the {ROLE}: .*down to {LINES} and no deeper.* beside {LINES}, on the")
def _mitre_flat(joint, role, lines, nearer, again, nearer_again):
    assert is_line_of(joint, {"outside"}, lines, nearer)
    assert (lines, nearer) == (again, nearer_again)
    return []


@sentence(
    rf"Saw the mitre of the {ROLE}: .*slip of waste N mm thick.*through the outside cheek alone"
)
def _mitre_of_slotted(joint, role):
    """Sawn right through, the cheek behind the slot would go too."""
    slotted, (low, high) = slot_and_tongue(joint)
    assert slotted == role
    assert high < board_of(joint, role).thickness
    return [[high - low]]


@sentence(rf"Begin with the end grain.*: its tab lies on the {FACE}, where the mitre's template")
def _tab(joint, face):
    """On the outside face some is gone on one side of the mitre, and all is left on the other."""
    (slotted, _), (one, other) = slot_and_tongue(joint), probed(joint, "stile")
    assert (slotted, face) == ("stile", "outside")
    assert (one[0][0] == 0) != (other[0][0] == 0)
    return []


@sentence(rf"What is between the lines stays on the {ROLE} and goes from the {ROLE}")
def _stays_on(joint, tongued, slotted):
    assert slot_and_tongue(joint)[0] == slotted != tongued
    return []


@sentence(r"Clamp the board (upright|leaning)")
def _clamped(joint, how):
    """Where the shoulder is square, it lies level in an upright board."""
    assert (how == "upright") == (joint.placement.rows[1][1] == 0)
    return []


@sentence(rf"Lay on the {ROLE}: .*Knife the bottom of the slot")
def _bottom(joint, role):
    assert slot_and_tongue(joint)[0] == role
    return []


@sentence(
    rf"Saw the (?:lap|cheek|cheeks) of the {ROLE}: The waste is on {FACES}\.",
    rf"Cut the {ROLE}: The (?:notch is|notches are) in {FACES}\.",
)
def _lost(joint, role, *faces):
    assert set(faces) - {None} == lost_faces(joint, role)
    return []


@sentence(rf"Cut the {ROLE}: .*router plane, set to N mm;")
def _router(joint, role):
    one, other = probed(joint, role)
    assert one == other
    return [equal(lengths(one))]


@sentence(rf"Cut the {ROLE}: .*router plane, set to N mm and N mm;")
def _router_twice(joint, role):
    (one, other), _ = probed(joint, role)
    return [lengths([one]), lengths([other])]


@sentence(rf"Saw the mitre of the {ROLE}: .*(right through what is left|no deeper)")
def _mitre_depth(joint, role, how):
    """Right through where what goes beyond the mitre is more than what stays before it."""
    own, mates = probed(joint, role)[:: 1 if role == "rail" else -1]
    (_, kept), *_ = left_of(own, board_of(joint, role).thickness)
    (_, gone), *_ = mates
    assert (how == "right through what is left") == (gone > kept)
    return []


@sentence(r"the reference edges stand at N° to each other")
def _angle(joint):
    """Between the boards' grain; both run away from the corner of their reference edges."""
    return [[math.degrees(math.acos(float(joint.placement.rows[1][1])))]]


@sentence(rf"from the {FACE}, square to that face")
def _laid_in(joint, face):
    """Under the rail the stile is left at the other face."""
    thick = board_of(joint, "stile").thickness
    (left,) = left_of(probed(joint, "stile")[0], thick)
    assert (face == "outside") == (left[1] == thick)
    return []


@sentence(rf"the slot of the {ROLE} goes over the tongue of the {ROLE}")
def _goes_over(joint, slotted, tongued):
    assert slot_and_tongue(joint)[0] == slotted != tongued
    return []
