"""Which face and which edge a step names, where no figure stands beside it.

Written down by hand where a custom decides it, as which edge a template is laid flush with; held
against the wood where the wood does. In a pattern ``<outside>`` stands for either face,
``<reference>`` for either edge and ``<upper>`` for either side of a shelf: the one that is named
must be the one that is told.
"""

import re

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from tests.joints.probes import HAIR, ZERO, Wood, board_of, wood_of
from tests.joints.told_figures import mitre
from tests.joints.told_steps import EDGE, FACE, sentence, tapering, way

ARRIS = "(outside|inside) arris"
PAIRS = ("outside", "inside"), ("reference", "far"), ("upper", "lower")
OTHER = {one: other for pair in PAIRS for one, other in (pair, pair[::-1])}
NAMED_OF = "face|edge|side|arris|cheek|line|wall|left|of |and |one"
SIDE = re.compile(rf"\b({'|'.join(OTHER)})\b(?= (?:{NAMED_OF})|s? edges| \(back\))")
"""A side that is named in a step."""


def by_hand(*patterns: str) -> None:
    """Sides that such sentences must name."""
    for pattern in patterns:
        named = tuple(re.findall(r"<(\w+)>", pattern))
        either = re.sub(r"<(\w+)>", lambda one: f"({one[1]}|{OTHER[one[1]]})", pattern)

        def holds(_joint: Joint, *told: str, _named: tuple[str, ...] = named) -> list:
            assert told == _named
            return []

        sentence(either)(holds)


# What is marked on all boards: from the outside face and the reference edge all is measured.
by_hand(
    r"[Mm]ark (?:the )?<outside> face and (?:the )?<reference> edge",
    r"[Mm]ark the <outside> face, the <reference> edge and the joint's name",
    r"Mark the <outside> face, from which the keys are let in, and the <reference> edge",
    r"name or number on both its boards, on the <inside> face, clear of",  # outside is planed
    r"the front edge is called the <reference> edge and the back edge the <far> edge",
    r"shelf's <upper> face (?:is its|the) <outside> face,? (?:and )?its <lower> face the <inside>",
    r"all boards, the <upper> face of the shelf",
    r"the reference edge, which is the <lower> one",
    r"that of the first board is its <lower> one",
    r"A at the <lower> left",
    r"plane the <lower> and the <upper> edges level all round",
    r"its <outside> face, which looks to the front or the back of the piece, and its <reference>",
    r"it is to the right of the <outside> face, on the others to the left",
    r"Opposite the <reference> edge is the leg's <far> edge",
    r"The <outside> faces of all rails look out, and their <reference> edges down",
    r"(?:measure|Measure) (?:a board's length|the length of [a-zA-Z() ]+?) on the <outside> face",
    r"; that of [a-zA-Z() ]+? on the <outside> face",
    r"Knife the line across the <outside> face with",
    r"On the <outside> face the line runs out into a corner",
    r"(?:with|seen from outside,? with) the (?:rail|stile|other board)'s <reference> edge down",
)
# Where frames face: rails and stiles have the reference edge towards the panel, ledges at the
# front; but the frame of mitred keys has it outside.
by_hand(
    r"(?:At a corner the|The|: the) <reference> edges face in",
    r"The <reference> edge of the second board faces into the frame",
    r"The <reference> edges are at the front",
    r"The frame lies flat, <outside> faces up; the <reference> edges are its outer edges",
)
# Faces that come flush are the marked ones: from these everything is gauged, fenced and planed.
by_hand(
    r"(?:[Tt]he|[Pp]lane the|their|,|and) <outside> faces (?:must come|stay|up and) flush",
    r"[Pp]lane the <outside> faces flush",
    r"(?:Gauge both|everything is gauged) from the <outside> face",
    r"stock on the (?:stile's )?<outside> face(?: each time|, gauge)",
    r"with it on the <outside> face, gauge",
    r"(?:whose fence runs|the fence) on the <outside> face",
    r"(?:between them|second board), <outside> faces up",
    r"outside faces up and <reference> edges in one line",
    r"touch all over, and <outside> faces and <reference> edges run through",
    r"together, <outside> faces outwards",
    r"behind the stile's <outside> face: if the rail stands too far out",
)
# Templates: tabs hang on the outside face, and all lie flush with the reference edge.
by_hand(
    r"its <reference> edge flush with the board's",
    r"on the <inside> face, its <reference> edge flush",
    r"tab to the <outside> face",
    r"the tab lies on the <outside> face and the <reference> edges are flush",
    r"lay on those of the <outside> and the <inside> face, each with",
    r"slanting end of the <outside> face's template",
    r"its end flush with the board's end and its <outside> face on that of the board",
    r"along the fold of its <outside> face and",
    r"flush with the end and the <reference> edge",
    r"towards the top end, <reference> edges flush",
)
# Boards side by side: the first one's far edge comes to the second one's reference edge.
by_hand(
    r"Bring the <reference> edges (?:level, both on|to) the same side",
    r"the <far> edge of the first board against the <reference> edge of the second board",
    r"the first board's <far> edge and the second board's <reference> edge until",
    r"Lay its template on the <reference> edge",
    r"Lay its template on the <inside> face",
    r"lay it on the <far> edge, the dashed line",
    r"on the line of the first board's <far> edge",
    r"across the <reference> edge of the second board where the <far> edge of the first board",
    r"where the <outside> face of the first board comes, .* across the <inside> face of the second",
    r"gauge along the <reference> edge of the second board, the stock on its <outside> face",
    r"there the (?:rail|stile)'s <far> edge comes",
    r"where the rail's <far> edge meets the <reference> edge",
    r"which lies past the (?:rail|stile)'s <far> edge",
    r"drawn up to the stile's <reference> edge, the paper peeled off there, and its <far> edge on",
    r"knifed mitre of the <outside> face",
)
# The mortise and its tenon: the stile is entered at its reference edge, the haunch lies at the far
# edge of the rail, that is next to the stile's end; a peg goes in from outside.
by_hand(
    r"lay it on the stile's <reference> edge",
    r"Carry that line on to the <far> edge",
    r"Carry that line on to the <outside> face",
    r"from the <outside> face and square to it, with the bit",
    r"chop from the <reference> edge till both meet",
    r"Try the cheeks with a square on the <reference> edge",
    r"stand it on the <reference> edge beside it",
    r"cheeks on <reference> edge and <far> edge",
    r"to nothing \S+ mm below the <reference> edge",
    r"Along the <reference> edges of rails and stiles",
    r"At the <far> edge knife it lightly: the haunch stays",
    r"(?:up to|nothing at) the line of the rail's <far> edge",
    r"its stock on the <far> edge: .* and nothing at the rail's <far> edge",
    r"gauged line, and nothing at the rail's <far> edge",
)
# A spline's groove is seen at the reference edge first; feathers come in from the outer corner.
by_hand(
    r"Draw the groove on the <reference> edge from its pricks",
    r"along the outer corner, from the <reference> edge",
    r"across both <outside> faces",
    r"on both <outside> faces with a bevel .*, its stock on the other board's <outside> face",
    r"The slot nearest to the <reference> edge falls towards that edge on the first board",
)
by_hand(
    r"Peel the paper off the <inside> faces first",
    r"Ease the <lower> arrises of each key",  # that go in first
)


def is_open(wood: Wood, face: str) -> bool:
    """Whether a joint's spaces come out on a face, in its middle."""
    z = ZERO if face == "outside" else wood.thickness
    return any(wood.depths(z)[6:-6])


@sentence(
    rf"Peel the paper(?:, if any,)? off (?:its|the) {FACE}(?: of the \w+ board(?: \(\w+\))?)?\. "
    r"(?:Clamp|Lay)"
)
def _peeled(joint, face):
    """It is laid on the end of the second board, which stands on its inside."""
    assert (face == "inside") == (way(joint, 1, (0, 1, 0))[2] > 0)
    return []


@sentence(r"clamp it across the (outside|inside) of the tail board")
def _driven(joint, face):
    """Pressed towards the second board, which stands on its inside."""
    assert (face == "outside") == (way(joint, 1, (0, 1, 0))[2] > 0)
    return []


@sentence(
    rf"(?:baseline|baselines) (?:of the pin board )?(?:from the end )?on (?:its|the) {FACE}s? only",
    rf"scribe from its end the baseline of the pin board(?: \(\w+\))? on its {FACE} only",
    rf"from the {FACE}(?: of the pin board)?(?:, scribe the lap line| to that line)",
    rf"from the {ARRIS} down to the lap line and the baseline",
    rf"on the waste side, square to the {FACE} and at the slope on it",
    rf"scribe the rebate from the end on the {FACE}, from",
    rf"widest at the {FACE}: its stock",
    rf"knife the pins' sides on the {FACE} of the pin board now",
)
def _seen_at(joint, face):
    """What a lap hides outside is open, and so marked and sawn, on the other face."""
    assert is_open(board_of(joint, "pin board"), face)
    return []


@sentence(
    rf"on its {FACE} a line would stay in sight",
    rf"othing is marked on the {FACE}s?",
    rf"pins down, its {FACE} level with the end, so that its lap hangs out",
    rf"scribe the rebate from the end on the [a-z]+ face, from the {FACE} on the end grain",
)
def _hidden_at(joint, face):
    assert not is_open(board_of(joint, "pin board"), face)
    return []


@sentence(
    rf"scribe the mitred strip on the {FACE}, from the end to the baseline",
    rf"It must meet the baseline on the {FACE}",
    rf"aslant: from the end on the (?:outside|inside) face to the baseline on the {FACE}",
    rf"cribe lightly from the end: right across the {FACE}s and",
)
def _mitre_inside(joint, face):
    """Shut, the boards stand at their inside faces, and the mitre runs to the corner there."""
    assert (face == "inside") == (way(joint, 1, (0, 1, 0))[2] > 0)
    return []


@sentence(
    rf"mitre square, from the {ARRIS} of the end inwards",
    rf"aslant: from the end on the {FACE}",
    rf"but on the {FACE}s not within",
)
def _mitre_outside(joint, face):
    assert (face == "outside") == (way(joint, 1, (0, 1, 0))[2] > 0)
    return []


@sentence(
    rf"Across the {EDGE} knife a mitre",
    rf"not within \S+ mm of the {EDGE}",
)
def _at_the_mitre(joint, edge):
    assert mitre(joint, edge)
    return []


@sentence(rf"right across the inside faces and the {EDGE} of the tail board")
def _not_at_the_mitre(joint, edge):
    assert not mitre(joint, edge)
    return []


@sentence(
    rf"From the {ARRIS} of the end knife the mitre",
    rf"The {FACE} has no line",
    rf"The {ARRIS} stays: saw from there to the line",
)
def _keeps_arris(joint, face):
    """There the board stays as long as it was squared."""
    woods = list(map(wood_of, joint.members))
    ends = [wood.end(ZERO, ZERO if face == "outside" else wood.thickness) for wood in woods]
    assert ends == [0, 0]
    return []


@sentence(
    rf"Prick through the rings of the mitre, on the {FACE} alone",
    rf"saw from there to the line on the {FACE}",
)
def _loses_arris(joint, face):
    for wood in map(wood_of, joint.members):
        assert wood.end(ZERO, ZERO if face == "outside" else wood.thickness) > 0
    return []


# The shelf


@sentence(r"off the tongue's (upper|lower) side")
def _off_the_tongue(joint, side):
    """Off the side that was sawn: the other one is the shelf's face, laid to the squared line."""
    shelf = board_of(joint, "shelf")
    z = ZERO if side == "upper" else shelf.thickness
    assert shelf.depth(shelf.width - 1, z) > 0
    return []


@sentence(r"Plane the (upper|lower) side to the middle of its line")
def _straight_side(joint, side):
    assert not tapering(joint, side)
    assert tapering(joint, OTHER[side])
    return []


# The mortise and tenon


def shouldered(joint: Joint) -> list[str]:
    """The faces on which the rail has a shoulder right across, so that something is sawn off."""
    rail = board_of(joint, "rail")
    sides = ("outside", ZERO), ("inside", rail.thickness)
    return [face for face, z in sides if all(rail.depths(z))]


@sentence(rf"Saw across the {FACE}, in the groove", rf"On the {FACE} pare a small groove to it")
def _one_shoulder(joint, face):
    assert shouldered(joint) == [face]
    return []


@sentence(r"Saw across the (outside|inside) and the (outside|inside) face, in the groove")
def _both_shoulders(joint, *faces):
    assert shouldered(joint) == [*faces]
    return []


@sentence(r"Lay on the tenon's (outside|inside) cheek: .* cheek towards the rail's (\w+) face: its")
def _cheek(joint, cheek, face):
    """A cheek comes to light where its shoulder is sawn off."""
    assert cheek == face
    assert cheek in shouldered(joint)
    return []


@sentence(rf"Clamp the stile over a bench leg, {EDGE} up")
def _chopped_first(joint, edge):
    """From where the rail comes in; what goes right through is begun at the other edge."""
    stile = board_of(joint, "stile")
    x, start, far = stile.width - HAIR, Fraction(-500), Fraction(1000)
    is_through = any(
        stile.gone((x, start, stile.thickness * part / 9), (ZERO, Fraction(1), ZERO), far)
        for part in range(1, 9)
    )
    assert edge == ("far" if is_through else "reference")
    return []


@sentence(r"the (outside|inside) one is longer by as much")
def _longer_shoulder(joint, face):
    """It goes on to the bottom of the rebate, nearer to the rail's end."""
    rail = board_of(joint, "rail")
    outside, inside = (rail.depth(rail.width / 2, z) for z in (ZERO, rail.thickness))
    assert (face == "inside") == (inside < outside)
    return []


# Halvings


@sentence(
    rf"On the reference edge of the (rail|stile)(?: \(\w+\))? measure .*?\. Square a pencil line "
    rf"from there across the {FACE}(?: and the {FACE})? and both edges",
    rf"Square a pencil line across the {FACE}(?: and the {FACE})? and both edges of the stile, w",
)
def _notched(joint, *words):
    """The faces of which the other board takes wood."""
    role = words[0] if words[0] in ("rail", "stile") else "stile"
    wood = board_of(joint, role)
    taken = [
        face
        for face, z in (("outside", HAIR), ("inside", wood.thickness - HAIR))
        if wood.gone((wood.width / 2, Fraction(-500), z), (ZERO, Fraction(1), ZERO), Fraction(1000))
    ]
    assert [word for word in words if word in ("outside", "inside")] == taken
    return []
