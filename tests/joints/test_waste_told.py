"""What the patterns tell of waste is what the wood says: how deep, whether through, and when.

The wood is walked through in small steps from points of each piece of waste, past the engine
that lays out the faces.
"""

import itertools
import re
from collections.abc import Iterator
from functools import cache

import numpy as np
import pytest
from msgspec import Struct

from joinery_templates.drawings.board_patterns import single_face
from joinery_templates.drawings.figure import Pattern, Role
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.wrap import wrap
from joinery_templates.exact import Fraction
from joinery_templates.joint import Corner, Joint, Member, Placed
from joinery_templates.joints.catalogue import kinds
from joinery_templates.lengths import Units
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import Cut, Part, Stage
from joinery_templates.wood.faces import laid_out
from joinery_templates.wood.polygons import Waste
from tests.joints.varied import changed, varied

every_kind = pytest.mark.parametrize("kind", kinds())
HAIR, CRACK = 1e-9, 0.01
"""Rounding, and what is no wood between two pieces of waste."""
NEAR = 0.06
"""Of a depth at a corner of the waste, as nearly as it is looked at."""
SLIVER = 0.1
"""Of how far waste is open along a broad face: what slopes out along the other one."""
SHEET = (Fraction(600), Fraction(900))


class Seen(Struct, frozen=True):
    """A piece of waste on a face, and how deep it is at many of its points."""

    piece: Waste
    cut: Cut
    depths: tuple[float, ...]
    through: bool


Planes = tuple[np.ndarray, np.ndarray]


def planes(cut: Cut) -> Planes:
    """Normals and limits of what bounds it."""
    normals = np.array([[float(part) for part in side.normal] for side in cut.half_spaces])
    return normals, np.array([float(side.limit) for side in cut.half_spaces])


def is_gone(cut: Cut, points: np.ndarray) -> bool:
    """Whether all points lie in waste."""
    normals, limits = planes(cut)
    return bool((points @ normals.T <= limits + HAIR).all())


def walked(cuts: list[Planes], point: list[float], axis: int, way: int, most: float) -> float:
    """How far the wood is gone from a point on: through one piece of waste after another."""
    stretches = []
    for normals, limits in cuts:
        rise, room = way * normals[:, axis], limits + HAIR - normals @ point
        if (room[rise == 0] >= 0).all():
            start = (room[rise < 0] / rise[rise < 0]).max(initial=0.0)
            stretches.append((start, (room[rise > 0] / rise[rise > 0]).min(initial=most)))
    far = 0.0
    for start, end in sorted(stretches):
        if start <= far + CRACK:
            far = max(far, float(end))
    return far


def ways_through(part: Part, face: Face) -> list[tuple[int, int]]:
    """Axis and sign, towards each face that must open where waste goes right through."""
    return {
        Face.OUTSIDE: [(2, 1)],
        Face.INSIDE: [(2, -1)],
        Face.END_GRAIN: [(2, -1), (2, 1)],
        Face.REFERENCE_EDGE: [(0, 1)],
        Face.FAR_EDGE: [(0, -1)],
    }[face]


def points_of(part: Part, face: Face, piece: Waste) -> Iterator[list[float]]:
    """A hair inside each corner and mid-side, and on the way to the middle, in the board's frame.

    Mid-sides, for what narrows as it goes down may be deepest there.
    """
    # Of a round hole's rim some corners are enough.
    rim = piece.corners[:: 8 if piece.mouth else 1]
    corners = np.array([[float(x), float(y)] for x, y in rim])
    corners = np.concatenate([corners, (corners + np.roll(corners, 1, axis=0)) / 2])
    width, thick = float(part.board.width), float(part.board.thickness)
    for corner, share in itertools.product(corners, (0.00005, 0.5, 1)):
        first, second = corner + share * (corners.mean(axis=0) - corner)
        yield {
            Face.OUTSIDE: [first, second, 0.0],
            Face.INSIDE: [first, second, thick],
            Face.END_GRAIN: [first, 0.0, second],
            Face.REFERENCE_EDGE: [0.0, second, first],
            Face.FAR_EDGE: [width, second, first],
        }[face]


@cache
def seen_on(part: Part, face: Face) -> list[Seen]:
    """Square ends and stretches; each piece of waste that is no groove with its cut."""
    cuts = [cut for cut in part.cuts if not cut.is_groove]
    found = []
    for piece in laid_out(part, face).waste:
        if piece.is_groove:
            continue
        points = list(points_of(part, face, piece))
        (cut,) = [one for one in cuts if is_gone(one, np.array(points))]
        earlier = [one for one in cuts if one.stage.number < cut.stage.number]
        alone = [planes(cut)]
        together = alone if face is Face.END_GRAIN else alone + list(map(planes, earlier))
        axis, way = {Face.END_GRAIN: (1, 1)}.get(face) or ways_through(part, face)[0]
        extents = (float(part.board.width), float(part.reach), float(part.board.thickness))
        # What comes out behind in a corner alone slopes out to nothing there, as a mitre does.
        under = 2 * NEAR if face is Face.END_GRAIN else 0.0
        inside = [[x, y + under, z] for number, (x, y, z) in enumerate(points) if number % 3]
        through = all(
            any(
                walked(together, point, to, sign, room) >= room - NEAR
                for point in inside
                for room in [extents[to] - point[to] if sign > 0 else point[to]]
            )
            for to, sign in ways_through(part, face)
        )
        if face is Face.END_GRAIN:
            # What opens one broad face by a sliver slopes out: it would be sawn off with the wood.
            thick = float(part.board.thickness)
            less, more = sorted(
                max(walked(alone, [x, HAIR, z], 1, 1, 300.0) for x, _, _ in points)
                for z in (HAIR, thick - HAIR)
            )
            through &= less >= SLIVER * more
            # Or it runs as far along the board as anybody looks.
            through |= all(walked(alone, one, 1, 1, 300.0) == 300 for one in points)
        depths = tuple(walked(alone, point, axis, way, extents[axis]) for point in points)
        found.append(Seen(piece, cut, depths, through))
    return found


def parts_of(joint: Joint) -> Iterator[Member]:
    return (one for one in joint.all_members if one.part.slant is None)


def untrue(joint: Joint) -> list[str]:
    """Pieces whose depth, or whose going right through, is not that of the wood."""
    found = []
    for member in parts_of(joint):
        for face in member.part.faces:
            for seen in seen_on(member.part, face):
                told, is_true = seen.piece.depth, seen.through
                if told is not None:
                    low, high = map(float, told)
                    # What goes through near its end alone may be told either way.
                    is_true = (
                        (not seen.through or seen.piece.depth[0] == 0)
                        and abs(min(seen.depths) - low) < NEAR
                        and abs(max(seen.depths) - high) < NEAR
                    )
                if not is_true:
                    found.append(f"{member.role} {face}: {told and tuple(map(float, told))}")
    return found


@every_kind
def test_waste_is_as_deep_as_it_says_and_goes_through_where_it_says_so(kind):
    assert [fault for joint in varied(kind) for fault in untrue(joint)] == []


# What is drawn and said

DEEP = re.compile(r"(?:≈?(?P<low>[\d.]+) to )?≈?(?P<high>[\d.]+) mm deep")


@cache
def drawn(joint: Joint, member: Member, face: Face) -> Pattern:
    mates = () if member.role.startswith("key") else joint.members
    placed = Placed(member, Corner("X", mirrored=False), mates)
    return single_face(placed, face, DrawingSetup(DejaVu(), Units.MM, SHEET))


def said_on(pattern: Pattern) -> set[str]:
    """All that is said in one or more rows, in the waste or in the label for what is too small."""
    texts = (text for layer in pattern.layers for text in layer.texts)
    paragraphs = {re.sub(ON_END, "", text.paragraph or text.words) for text in texts}
    paragraphs = {re.sub(DEEPENS, r"\1 to \2 mm deep", one) for one in paragraphs}
    found = set()
    # What is alike deep: "1st: rebate and 2nd: spaces, each 7 mm deep".
    plain = (
        re.sub(WHICH, "", one).replace(" and ", ", ").replace(", each ", ", ") for one in paragraphs
    )
    for words in (words for one in plain for words in one.split("; ")):
        *stages, depth = re.split(r", (?=\d\w\w: )|, (?=≈?[\d.]+ )", words)
        found |= {f"{stage}, {depth}" for stage in stages if stage != "hatched waste"} or {depth}
        found |= set() if len(stages) > 1 else {words.removeprefix("hatched waste, ")}
    return found


DEEPENS = r"([\d.]+) mm deep at the end, ([\d.]+) mm (?:at the baseline|further in)"
ON_END = r"^on the end grain(?:, (?=.*:)|: (?!.*:))"
"""No second colon in a row of words."""
WHICH = r" \((twice|\d+ times|at (?:both (?:edges|faces)|the [a-z ]+))\)(?=:)"
"""Which pieces of a stage are meant, or how many, where one of them has no room for its number."""
SIDES = {"edges": (Face.REFERENCE_EDGE, Face.FAR_EDGE), "faces": (Face.OUTSIDE, Face.INSIDE)}


def which_said(pattern: Pattern) -> Iterator[tuple[int, str, str]]:
    """The number of a stage, which of its pieces are meant, and what is said of them."""
    for words in {text.paragraph or text.words for layer in pattern.layers for text in layer.texts}:
        for row in words.split("; "):
            for match in re.finditer(rf"(\d)(?:st|nd|rd|th){WHICH}", row):
                yield int(match[1]), match[2], row


def are_meant(number: int, which: str, row: str, pieces: list[Seen], member: Member) -> bool:
    """Whether pieces of a stage, as deep as a row says, lie where it says, or are as many."""
    alike = [one for one in pieces if one.cut.stage.number == number]
    alike = [one for one in alike if not DEEP.search(row) or is_said(one, False, row)]
    if not which.startswith("at "):
        return len(alike) == (2 if which == "twice" else int(which.removesuffix(" times")))
    sides = SIDES.get(which.removeprefix("at both "), (which.removeprefix("at the "),))
    board = member.part.board
    spans = [one.piece.extent for one in alike]
    at_side = {
        Face.REFERENCE_EDGE: any(low[0] == 0 for low, _ in spans),
        Face.FAR_EDGE: any(high[0] == board.width for _, high in spans),
        Face.OUTSIDE: any(low[1] == 0 for low, _ in spans),
        Face.INSIDE: any(high[1] == board.thickness for _, high in spans),
    }
    return all(at_side[Face(side)] for side in sides)


def in_order(stage: Stage) -> str:
    """A stage as it is written in its waste."""
    return f"{('1st', '2nd', '3rd', '4th')[stage.number - 1]}: {stage.name}"


def is_said(seen: Seen, staged: bool, words: str) -> bool:
    """Whether words tell the depth of a piece, and the stage in which it leaves."""
    match, stage = DEEP.search(words), seen.cut.stage
    if match is None:
        return False
    high = float(match["high"])
    low = float(match["low"] or high)
    is_depth = abs(min(seen.depths) - low) < NEAR and abs(max(seen.depths) - high) < NEAR
    return is_depth and words.startswith(in_order(stage) if staged else "")


def is_hole_said(seen: Seen, told: set[str]) -> bool:
    """Whether its diameter and depth are told somewhere; a hole is not hatched."""
    (left, _), (right, _) = seen.piece.extent
    ends = {f"{depth:g} deep" for depth in np.round(seen.depths, 3)}
    (end,) = {"right through"} if seen.through else ends
    return any(words.endswith(f"{float(right - left):g} mm, {end}") for words in told)


def grooves_of(part: Part, face: Face) -> set[str]:
    """What may be said beside the grooves of a face, each walked into from its middle."""
    found = set()
    for piece in (one for one in laid_out(part, face).waste if one.is_groove):
        middle = list(points_of(part, face, piece))[2]
        axis, way = {Face.END_GRAIN: (1, 1)}.get(face) or ways_through(part, face)[0]
        cuts = [cut for cut in part.cuts if cut.is_groove]
        (cut,) = [one for one in cuts if is_gone(one, np.array([middle]))]
        deep = walked([planes(cut)], middle, axis, way, float(part.board.thickness))
        found |= {f"{name}, {round(deep, 1):g} mm deep" for name in ("groove", "rebate")}
    return found


def as_depth(words: str, member: Member) -> str:
    """Where waste stops before the other edge, told as how deep it goes from this one."""
    match = re.search(
        r"(narrows till it )?stops ≈?([\d.]+) mm before the (?:reference|far) edge", words
    )
    if match:
        deep = f"{float(member.part.board.width) - float(match[2]):g} mm deep"
        deep = f"0 to {deep}" if match[1] else deep
    return words.replace(match[0], deep) if match else words


def missaid(joint: Joint) -> list[str]:
    """Words that are true of no waste that stops, waste of which none are said, wrong hatching."""
    found = []
    for member in parts_of(joint):
        for face in member.part.faces:
            if not laid_out(member.part, face).lines:
                continue
            # Of holes their own test tells: they are not hatched, and said beside.
            pieces = [one for one in seen_on(member.part, face) if not one.piece.mouth]
            pattern = drawn(joint, member, face)
            where, roles = f"{member.role} {face}", {s.role for s in pattern.strokes}
            rows = (words.removeprefix("dashed along the edge: ") for words in said_on(pattern))
            told = {as_depth(words, member) for words in rows}
            found += [
                f"{where}: {row}: not {which}"
                for number, which, row in which_said(pattern)
                if not are_meant(number, which, row, pieces, member)
            ]
            bored = [one for one in pieces if one.piece.mouth]
            found += [f"{where}: hole" for one in bored if not is_hole_said(one, told)]
            pieces = [one for one in pieces if one not in bored]
            stopped = [one for one in pieces if one.piece.depth or not one.through]
            staged = len({one.stage for one in member.part.cuts if not one.is_groove}) > 1
            ploughed = {words for words in told if words.startswith(("groove, ", "rebate, "))}
            found += [f"{where}: {words}" for words in ploughed - grooves_of(member.part, face)]
            said = {words for words in told if DEEP.fullmatch(words.split(", ")[-1])} - ploughed
            found += [
                f"{where}: {words}"
                for words in said
                if not any(is_said(one, staged, words) for one in stopped)
            ]
            found += [
                f"{where}: nothing says {one.cut.stage} {min(one.depths)}-{max(one.depths)}"
                for one in stopped
                if not any(is_said(one, staged, words) for words in said)
            ]
            for role, some in (
                (Role.OPEN_HATCH, stopped),
                (Role.HATCH, len(stopped) < len(pieces)),
            ):
                if (role in roles) != bool(some):
                    found.append(f"{where}: {role}")
    return found


def edge_points(part: Part, face: Face) -> np.ndarray:
    """A grid of points a hair below an edge, as far as anybody looks."""
    x = HAIR if face is Face.REFERENCE_EDGE else float(part.board.width) - HAIR
    reach, thick = float(part.reach), float(part.board.thickness)
    ys = np.linspace(float(part.shown_from(part.reach)), reach, 201)
    zs = np.linspace(0, thick, 22)[:-1] + thick / 44
    return np.array([[x, y, z] for y in ys for z in zs])


@every_kind
def test_waste_that_an_edge_shows_as_going_through_takes_half_as_much_of_the_other_at_least(kind):
    """Sawn straight down where it slopes out, as a mitre does, it would take what must stay."""
    edges = (Face.REFERENCE_EDGE, Face.FAR_EDGE)
    for joint in varied(kind):
        for member in parts_of(joint):
            for face in set(edges) & set(member.part.faces):
                for seen in (one for one in seen_on(member.part, face) if not one.piece.depth):
                    normals, limits = planes(seen.cut)
                    here, there = (
                        np.count_nonzero(
                            (edge_points(member.part, edge) @ normals.T <= limits + HAIR).all(1)
                        )
                        for edge in (face, *(one for one in edges if one is not face))
                    )
                    # What opens it only with what has left before it goes straight through.
                    assert not there or there >= 0.45 * here, (member.role, face, seen.cut.stage)


@every_kind
def test_patterns_say_how_deep_all_waste_is_that_stops_and_hatch_it_so(kind):
    """Of the example and its variations each other one."""
    assert [fault for joint in varied(kind)[::2] for fault in missaid(joint)] == []


@pytest.mark.parametrize("stop", [12, 60])
def test_a_splines_groove_says_on_the_edge_where_it_stops_and_not_how_long_it_is(stop):
    """On boards 90 mm wide it runs from the reference edge to 78 mm, or to 30 mm: not so deep."""
    kind = kinds()["splined-mitre"]
    joint = kind.build(changed(kind, {"stop": stop}, (0, 0)))
    (said,) = (
        words
        for words in said_on(drawn(joint, joint.members[0], Face.REFERENCE_EDGE))
        if "groove" in words
    )
    assert said == f"2nd: groove, stops {stop} mm before the far edge"


def test_what_is_open_in_a_mitre_or_a_rebate_by_more_than_a_groove_is_as_deep_as_it_is():
    """A strip 6 mm wide, mitred behind the rebate of a secret mitre 130 mm wide."""
    joint = varied("full-blind-dovetail")[0]
    said = said_on(drawn(joint, joint.members[0], Face.FAR_EDGE))
    assert "3rd: mitre, last, 6 mm deep" in said


@every_kind
def test_a_wrap_says_of_its_faces_what_they_say_by_themselves(kind):
    for joint in varied(kind)[::2]:
        for member in joint.members:
            part = member.part
            if part.folds and part.cuts and not member.faces:
                placed = Placed(member, Corner("X", mirrored=False), joint.members)
                told = said_on(wrap(placed, DrawingSetup(DejaVu(), Units.MM, SHEET)))
                for face in (Face.OUTSIDE, Face.INSIDE, Face.END_GRAIN):
                    if laid_out(part, face).lines:
                        alone = said_on(drawn(joint, member, face))
                        deep = {words for words in alone if DEEP.search(words)}
                        assert deep <= told, (member.role, face, deep - told)


# When it leaves

STEPS = {
    "end rebate": "Rebate (?:the end|both ends)",
    "corner": "Saw out the front corner",
    "shoulder": "Knife the shoulder across",
    "mitre": "Cut the mitre|Saw the mitres|Saw the mitre of the {role}",
    "mitre, last": "Mitre the edges and the laps|Saw the mitre of the {role}",
    "cheek": "Saw the shoulders|Saw the cheeks? of the {role}",
    "slot": "Saw and chop the slot",
    "side": "Shape the tail",
    "edge": "Saw the tenon's edge",
    "kerf": "Saw the kerfs",
    "groove": "Cut the grooves",
    "slots": "Saw the slots",
    "bore the tenon": "Bore the tenon",
    "bore the stile": "Bore the stile",
    "haunch": "Chop for the haunch",
    "pare": "Pare the flare",
    "lap": "Saw the lap",
    "dovetail": "Saw the dovetail",
}
CHOPPED = {
    "tail board": "Saw the tails|Saw and chop the tails",
    "pin board": "Saw and chop the (?:pins|sockets)",
    "first board": "Chop the sockets",
    "second board": "Chop the sockets",
    "stile": "Chop the mortise",
}


def order_of(joint: Joint, member: Member) -> list[int]:
    """The steps in which the stages of a member come, by their numbers."""
    stages = sorted(
        {cut.stage for cut in member.part.cuts if not cut.is_groove}, key=lambda one: one.number
    )
    if len(stages) == 1:
        return []
    assert [one.number for one in stages] == list(range(1, len(stages) + 1))
    told = [f"{step.heading}: {step.words}" for step in joint.steps]
    found = []
    for stage in stages:
        words = STEPS.get(stage.name) or CHOPPED[member.role]
        (number, *_) = (
            n for n, step in enumerate(told) if re.search(words.format(role=member.role), step)
        )
        found.append(number)
    return found


@every_kind
def test_stages_come_in_the_order_of_the_steps(kind):
    staged = 0
    for joint in varied(kind):
        for member in joint.all_members:
            order = order_of(joint, member)
            assert order == sorted(set(order)), (member.role, order)
            staged += bool(order)
    assert bool(staged) == (kind in STAGED)


STAGED = {
    "bridle",
    "double-lapped-dovetail",
    "dovetail-halving",
    "drawbored-mortise-and-tenon",
    "full-blind-dovetail",
    "halving",
    "haunched-mortise-and-tenon",
    "housing",
    "mitre-dovetail-key",
    "mitred-shoulder-dovetail",
    "mortise-and-tenon",
    "sliding-dovetail",
    "splined-mitre",
    "wedged-mortise-and-tenon",
}


def test_what_stays_until_the_mitres_is_no_waste_of_the_rebate():
    """In a secret mitre: the lap of both boards, over the whole width of their ends."""
    for joint in varied("full-blind-dovetail"):
        lap = next(one.length for one in joint.sizes if one.name.startswith("lap"))
        for member in joint.members:
            waste = laid_out(member.part, Face.END_GRAIN).waste
            by_stage = {piece.stage.name: piece.extent for piece in waste}
            width, thick = member.part.board.width, member.part.board.thickness
            assert by_stage == {
                "end rebate": ((0, lap), (width, thick)),
                "mitre, last": ((0, 0), (width, lap)),
            }
