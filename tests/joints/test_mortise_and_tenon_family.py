"""Haunched, wedged, draw-bored and other tenons: handbooks, solids, a whole door, refusals."""

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from manifold3d import Manifold
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Joint, Task
from joinery_templates.joints.catalogue import known_kind
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tool_fit import with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, as_told
from joinery_templates.wood.board import Face
from joinery_templates.wood.cut import at_least, at_most
from joinery_templates.wood.faces import lay_out
from tests.drawings.test_handedness_of_dovetail_halving import as_seen, faces_of
from tests.joints.solids import CLOSE_MM3, around, board_solid, convex, mate, with_fault
from tests.joints.strategies import lengths
from tests.joints.test_mortise_and_tenon import JOB
from tests.joints.told_steps import faults
from tests.joints.worked import codes_of, corners_like, refused, request_of, sizes, with_lengths
from tests.pdf.page_reading import KNIFE, SAW
from tests.strategies import SOLID_PROPERTY

KIND = known_kind("mortise-and-tenon")
BARS = ("75 mm", "21 mm"), ("64 mm", "24 mm")


def build(
    rail: tuple[str, str] = BARS[0],
    stile: tuple[str, str] = BARS[1],
    units: Units = Units.MM,
    kind: str = KIND.name,
    **raw: object,
) -> Joint:
    """A joint from what a person writes; nothing else is told of it."""
    return known_kind(kind).build(request_of(known_kind(kind), rail, stile, units, **raw))


def settings(joint: Joint) -> dict[str, Fraction]:
    return {setting.use: setting.length for setting in joint.lengths}


def marks(joint: Joint, title: str) -> list[Fraction]:
    (row,) = [row for row in joint.rows if row.title == title]
    return [mark.position for mark in row.marks]


# Handbooks


def test_a_groove_is_as_wide_as_the_tenon_is_thick_and_as_deep():
    """Noyes 1910, p. 164: ordinarily a third of the frame; of 21 that is 7, and 7 deep."""
    found = sizes(build(groove={}, haunch={}))
    assert found["thickness of the tenon"] == 7
    assert found["edge groove, from the rail's outside face"] == 7
    assert found["edge groove, how wide"] == found["edge groove, how deep"] == 7
    # It has made the tenon's side at the reference edge: nothing is left to saw there.
    joint = build(groove={}, haunch={})
    assert "tenon's edge, from the rail's reference edge" not in settings(joint)
    assert "Saw the tenon's edge" in [step.heading for step in joint.steps]


@pytest.mark.parametrize(
    ("divide", "tenon"), [("half-less-groove", "30.5"), ("half-of-the-rest", "34")]
)
def test_half_of_the_rail_less_the_groove_in_both_readings(divide, tenon):
    """Noyes 1910, p. 164: one half the width of the rail, minus the groove: 75/2 - 7, 68/2."""
    joint = build(groove=7, haunch={"divide": divide})
    assert sizes(joint)["width of the tenon, length of the mortise"] == Fraction(tenon)
    near, far = marks(joint, "end grain, across the width")
    assert (near, far) == (7, 7 + Fraction(tenon))


def test_two_thirds_of_the_rail_less_a_bare_shoulder():
    """Joyce 1970: a third, 25 of 75, for the haunch; the tenon 50 less 1.5, a bare 1/16 in."""
    joint = build(haunch="square")
    assert marks(joint, "end grain, across the width") == [Fraction("1.5"), 50]
    assert settings(joint)["tenon's edge, from the rail's far edge"] == 25
    assert sizes(joint)["width of the tenon, length of the mortise"] == Fraction("48.5")


def test_a_haunch_fills_its_groove_and_is_no_longer_than_a_handbook_has_it():
    """Fairham 1920, fig. 131: as deep as the groove. Building Construction: 1/2 to 1 in."""
    assert settings(build(groove=9, haunch="square"))["haunch's end, from the shoulder"] == 9
    for long, codes in (("1 in", []), ("1.01 in", ["haunch-long"])):
        assert codes_of(build(haunch={"length": long}).findings) == codes


def test_a_mortise_in_the_middle_of_its_piece_and_a_tenon_left_longer_for_trimming():
    """Ross 1901, figs. 65 to 68: of 6 in lines at 2 1/4 and 3 3/4; the tenon 1/8 in longer."""
    raw = {"middle": True, "through": True, "shoulder": 0, "shoulder_far": 0}
    boards = ("1 1/2 in", "3/4 in"), ("1 1/2 in", "3/4 in")
    request = request_of(KIND, *boards, Units.INCH, **raw)
    joint = KIND.build(with_lengths(request, 12 * INCH, 6 * INCH))
    part = joint.members[1].part
    ends = {
        y
        for line in lay_out(part, Face.REFERENCE_EDGE, part.reach).lines
        for _, y in (line.start, line.end)
    }
    assert {part.along + y for y in ends} == {INCH * 9 / 4, INCH * 15 / 4}
    assert joint.members[0].part.reach - part.board.width == INCH / 8


def test_a_table_legs_mortise_and_an_apron_set_back():
    """Zerbe 1914, ch. V: legs 2 in square, aprons 7 x 1 in, shouldered by 1/4 in.

    The mortise is from 1/2 to 1 in across the leg, and from 1/2 to 7 in along it.
    """
    joint = build(
        ("7 in", "1 in"),
        ("2 in", "2 in"),
        Units.INCH,
        shoulder_outside="1/4 in",
        set_back="1/4 in",
        tenon_thickness="1/2 in",
        shoulder=0,
        shoulder_far="1/2 in",
    )
    low, high = set(), set()
    part = joint.members[1].part
    for line in lay_out(part, Face.REFERENCE_EDGE, part.reach).lines:
        low |= {line.start[0], line.end[0]}
        high |= {line.start[1], line.end[1]}
    assert low == {INCH / 2, INCH}
    assert high == {INCH / 2, 7 * INCH}


def test_a_wide_rail_has_a_pair_of_tenons():
    """Cassell 1907: one tenon up to 5 in, above it two."""
    wide = ("9 in", "1 in"), ("4 in", "1 in")
    assert codes_of(build(*wide, Units.INCH).findings) == ["rail-wide"]
    pair = build(*wide, Units.INCH, count=2)
    assert pair.findings == ()
    assert len(marks(pair, "end grain, across the width")) == 4


def test_a_wedged_mortise_is_longer_on_the_side_where_the_wedges_go_in():
    """Building Construction: slightly dovetail-shaped; how much is ours: 3 mm at each end."""
    part = build(kind="wedged-mortise-and-tenon").members[1].part
    wide = {
        face: max(a - b for a in ys for b in ys)
        for face in (Face.REFERENCE_EDGE, Face.FAR_EDGE)
        for ys in [
            [y for line in lay_out(part, face, part.reach).lines for _, y in (line.start, line.end)]
        ]
    }
    assert wide[Face.FAR_EDGE] - wide[Face.REFERENCE_EDGE] == 6


def test_a_haunchs_socket_and_the_mortise_have_a_line_between_them():
    """They are chopped to different depths: 25 from the rail's far edge, across the edge."""
    part = build(haunch={"length": 12}).members[1].part
    lines = lay_out(part, Face.REFERENCE_EDGE, part.reach + 10).lines
    across = {(line.start[1], line.end[1]) for line in lines if line.start[1] == line.end[1]}
    assert across == {(y, y) for y in (0, 25, Fraction("73.5"))}


# Solids

OPTIONS: dict[str, list[dict[str, object]]] = {
    "stopped or through": [{}, {"through": True}],
    "haunch": [{}, {"haunch": "square"}, {"haunch": "sloped"}, {"haunch": {"length": 5}}],
    "panel": [{}, {"groove": 6}, {"groove": {"depth": 7, "width": 5}}, {"rebate": 8}],
    "across the thickness": [
        {},
        {"shoulder_inside": 0},
        {"shoulder_outside": 0, "set_back": 5},
        {"twins": 2},
        {"shoulder_outside": 5, "set_back": 1},
    ],
    "across the width": [{}, {"count": 2}, {"shoulder": 0}],
    "held": [{}, {"wedges": {}}, {"drawbore": {}}, {"drawbore": {"pegs": 2, "peg": 5}}],
    "angle": [{}, {"angle": 72}, {"angle": 110}],
}
"""Each of these may stand with each of the others; what the trade does not do is refused."""


@st.composite
def combined(draw: st.DrawFn) -> Request:
    """Random boards with random options, as far as they go together."""
    raw: dict[str, object] = {}
    for choices in OPTIONS.values():
        raw |= draw(st.sampled_from(choices))
    rail = f"{float(draw(lengths(60, 120)))} mm", f"{float(draw(lengths(18, 40)))} mm"
    stile = f"{float(draw(lengths(55, 90)))} mm", f"{float(draw(lengths(40, 45)))} mm"
    return request_of(KIND, rail, stile, **raw)


TOGETHER = {
    "not-with-twins",
    "not-with-angle",
    "groove-in-tenon",
    "groove-beside-tenon",
    "rebate-in-mortise",
    "haunch-too-long",
    "peg-at-edge",
    "peg-outside-tenon",
    "no-room",
}


def built_or_refused(request: Request) -> Joint | set[str]:
    """The joint, or the codes that it is refused for."""
    try:
        return KIND.build(request)
    except InputError as error:
        return {finding.code for finding in error.findings}


@SOLID_PROPERTY
@given(st.lists(combined(), min_size=6, max_size=6))
def test_options_that_are_not_refused_together_fill_the_joint_and_overlap_nowhere(requests):
    for joint in map(built_or_refused, requests):
        if isinstance(joint, set):
            assert joint <= TOGETHER
            continue
        mated = mate(joint)
        assert mated.overlap < CLOSE_MM3
        assert abs(mated.missing) < CLOSE_MM3


FAULTS: dict[str, tuple[dict[str, object], int, int, int]] = {
    # What is told, and of which board which cut is moved along which axis.
    "the haunch's end": ({"haunch": "square"}, 0, 3, 1),
    "the haunch's socket": ({"haunch": "square"}, 1, 1, 0),
    "a sloped haunch": ({"haunch": "sloped"}, 0, 3, 1),
    "the groove's floor": ({"haunch": "square", "groove": 7}, 1, 1, 0),
    "the longer shoulder": ({"rebate": 8}, 0, 1, 1),
    "between twins": ({"twins": 2}, 0, 2, 2),
    "between a pair": ({"count": 2}, 0, 4, 0),
    "the second mortise": ({"count": 2}, 1, 1, 1),
    "the far end of a slanting mortise": ({"angle": 75}, 1, 0, 1),
    "a bare face's cheek": ({"shoulder_inside": 0}, 0, 0, 2),
    "a flare's side": ({"through": True, "wedges": {}}, 1, 1, 2),
}


@pytest.mark.parametrize(("raw", "member", "number", "axis"), FAULTS.values(), ids=FAULTS)
def test_the_check_of_solids_sees_each_cut_out_of_place(raw, member, number, axis):
    joint = build(**raw)
    assert mate(joint).overlap < CLOSE_MM3
    for distance in (Fraction("-0.3"), Fraction("0.3")):
        faulty = mate(with_fault(joint, member, distance, number, axis))
        if max(faulty.overlap, faulty.missing) > 1:
            return
    pytest.fail("moved either way, it made no fault")


FILLERS: dict[str, tuple[dict[str, object], int]] = {
    # What is told, and from which place across the rail on it fills what runs along the stile.
    "a haunch": ({"haunch": "square", "groove": 7, "shoulder_far": 25}, 50),
    "a longer shoulder": ({"rebate": 8}, 8),
}


@pytest.mark.parametrize(("raw", "start"), FILLERS.values(), ids=FILLERS)
def test_a_haunch_fills_the_stiles_groove_and_a_longer_shoulder_its_rebate(raw, start):
    """The check of solids lets grooves be empty."""
    joint = build(**raw)
    rail, stile = (member.part for member in joint.members)
    (groove,) = (cut for cut in stile.cuts if cut.is_groove)
    in_stile = map(joint.placement.half_space, (*groove.half_spaces, at_least(0, Fraction(0))))
    ends = at_least(0, Fraction(start)), at_most(0, Fraction(75)), at_most(2, Fraction(21))
    space = convex((*in_stile, *ends), around(rail))
    assert space.volume() > 1000
    assert (space - board_solid(rail)).volume() < CLOSE_MM3


# A whole door

SAMPLES = Path(__file__).parents[2] / "sample_jobs"


def whole_board(joint: Joint, number: int, long: int) -> Manifold:
    """A board with the joint at both ends, in the frame of the one from which y runs."""
    part = joint.members[number].part
    along = float(part.place(joint.members[number].hand).along or 0)
    width, thick = float(part.board.width), float(part.board.thickness)
    cut = Manifold.cube((width, 5000, thick)).translate((0, -2500, 0))
    blank = board_solid(part)
    low, _, _, _, high, _ = blank.bounding_box()
    piece = Manifold.cube((width, high - low, thick)).translate((0, low, 0))
    gone = (piece - blank).translate((0, along, 0))
    board = (cut ^ Manifold.cube((width, long, thick))) - gone
    board -= gone.mirror((0, 1, 0)).translate((0, long, 0))
    for groove in (one for one in part.cuts if one.is_groove):
        board -= convex(groove.half_spaces, cut)
    return board


def stood(solid: Manifold, across: tuple[int, ...], along: tuple[int, ...], at: tuple[float, ...]):
    """A board stood so that its x and its y run in these directions of the door seen from outside.

    Right, up and away from who looks are the door's own directions; z runs away for all boards.
    """
    rows = [[across[n], along[n], (0, 0, 1)[n], at[n]] for n in range(3)]
    return solid.transform(rows)


DOORS = {
    # Width and height without horns; the space between mortise and tenon below each, in mm³.
    "cabinet_door": (412, 700, 0),
    # The groove is 7 x 7 all round an opening of 262 x 470.
    "panelled_frame": (390, 620, 7 * (276 * 484 - 262 * 470)),
}


@pytest.mark.parametrize("name", DOORS)
def test_four_rails_and_stiles_cut_at_both_ends_alike_make_a_door(name):
    """Both rails are one board, turned in the door's plane, and so are both stiles."""
    wide, high, grooves = DOORS[name]
    job = read_job((SAMPLES / f"{name}.toml").read_text("utf-8"))
    joint = job.joints[0].joint
    rail, stile = (member.part.board for member in joint.members)
    horn, long = float(joint.members[1].part.along), float(joint.members[0].part.reach)
    bar, post = whole_board(joint, 0, rail.length), whole_board(joint, 1, stile.length)
    left = stood(post, (-1, 0, 0), (0, -1, 0), (float(stile.width), high + horn, 0))
    right = stood(post, (1, 0, 0), (0, 1, 0), (wide - float(stile.width), -horn, 0))
    start = float(stile.width) - long
    upper = stood(bar, (0, 1, 0), (1, 0, 0), (start, high - float(rail.width), 0))
    lower = stood(bar, (0, -1, 0), (-1, 0, 0), (wide - start, float(rail.width), 0))
    boards = [left, right, upper, lower]
    shared = [a ^ b for n, a in enumerate(boards) for b in boards[:n]]
    assert sum(one.volume() for one in shared) < 100 * CLOSE_MM3
    door = Manifold.cube((wide, high, float(rail.thickness)))
    found = sum((one ^ door).volume() for one in boards)
    opening = (wide - 2 * stile.width) * (high - 2 * rail.width)
    tenon = sizes(joint)
    below = tenon["thickness of the tenon"] * tenon["width of the tenon, length of the mortise"] * 2
    wood = (wide * high - opening) * rail.thickness - 4 * below - grooves
    assert found == pytest.approx(float(wood), rel=1e-9)
    # Stood with its reference edge up, the same rail runs into the stiles.
    turned = stood(bar, (0, -1, 0), (-1, 0, 0), (wide - start, high, 0))
    assert (turned ^ left).volume() > 100


# On the page

PEGGED = (
    JOB.replace("mortise-and-tenon", "drawbored-mortise-and-tenon")
    + "drawbore = { peg = 6, offset = 1.5, from_shoulder = 12 }\n"
)


def middle(lines: list[tuple[tuple[float, float], tuple[float, float]]]) -> tuple[float, float]:
    """Of a circle that is read as many short lines, all as long."""
    ends = [end for line in lines if math.dist(*line) < 0.5 for end in line]
    assert len(ends) == 2 * 48
    return tuple(sum(axis) / len(ends) for axis in zip(*ends, strict=True))


@pytest.mark.parametrize(
    ("corner", "in_stile", "in_tenon"),
    # The tenon's middle is 25 from the rail's reference edge, 35 from its far edge, on the line.
    # Seen from outside the left stile's inner edge is on the right, 12 from it the hole; the
    # rail's reference edge is down, so on a left-hand end turned up it is on the left.
    [("Left", (52, -35), (25, 29.5)), ("Right", (12, -35), (35, 29.5))],
)
def test_the_pegs_holes_are_on_the_stiles_face_and_nearer_to_the_shoulder_on_the_cheek(
    corner, in_stile, in_tenon
):
    found = faces_of(PEGGED, corner)
    hole = as_seen(found["stile", "outside face"], "stile", SAW)
    assert middle(hole) == pytest.approx(in_stile, abs=0.002)
    told = " ".join(words.text for words in found["stile", "outside face"].words)
    assert "bore the stile, 6 mm, right through" in told
    cheek = found["rail", "tenon's outside cheek"]
    hole = as_seen(cheek, "rail", SAW)
    # From the tenon's end 40 - 12 are 28, and 1.5 more: so much nearer to the shoulder.
    assert middle(hole) == pytest.approx(in_tenon, abs=0.002)
    told = " ".join(words.text for words in cheek.words)
    assert "bore the tenon" in told
    assert "10.5 mm from the shoulder to the middle" in told  # of 40, less 29.5


@pytest.mark.parametrize(
    ("groove", "begins"),
    [
        # A tenon of 7 mm, from 7 to 14 in 21: a groove as wide has taken its edge, 7 mm deep.
        ({"depth": 7}, 7),
        # One of 4 mm beside it takes its edge; one of 3 mm in its middle leaves the cheek whole.
        ({"depth": 5, "width": 4, "from_outside": 7}, 5),
        ({"depth": 5, "width": 3, "from_outside": 9}, 0),
    ],
)
def test_a_cheek_whose_edge_is_ploughed_off_says_so_and_its_paper_shows_it(groove, begins):
    joint = build(groove=groove, haunch="square", tenon_thickness=7)
    (cheek,) = (one.member.part for one in joint.details if "cheek" in one.member.part.name)
    ploughed = [line for line in lay_out(cheek, Face.OUTSIDE, cheek.reach).lines if line.start[0]]
    across = {float(line.start[0]) for line in ploughed if line.start[0] == line.end[0]}
    assert (float(begins) in across) == bool(begins)
    (step,) = (one for one in joint.steps if one.heading == "Lay on the tenon's outside cheek")
    told = (
        f"its edges in line with the rail's; at the reference edge it stands {begins} mm past the "
        "cheek, for there the groove has taken the wood. Press"
    )
    assert (told in step.words) == bool(begins)
    assert ("its edges in line with the rail's. Press" in step.words) == (not begins)


@pytest.mark.parametrize("more", [{"groove": 7}, {"rebate": {"width": 7}}])
def test_before_groove_or_rebate_is_planed_the_stiles_are_bare_of_paper(more):
    """All that was cut by it is cut: the mortise. The rail's paper comes on only after that."""
    steps = build(**more).steps
    headings = [one.heading.partition(" (")[0] for one in steps]
    (at,) = (n for n, one in enumerate(steps) if one.task is Task.PLOUGH)
    told = "When the mortises are cut, peel the paper off the stiles. Along"
    assert steps[at].words.startswith(told)
    assert headings.index("Lay on the stile") < headings.index("Chop the mortise") < at
    assert at < headings.index("Lay on the rail")


def test_a_bare_outside_cheek_is_the_rails_own_face_and_has_no_template_of_its_own():
    """Nothing stands up there at the shoulder: the haunch and the hole are on the folded one."""
    bare = PEGGED + 'shoulder_outside = 0\nset_back = 8\nhaunch = "square"\n'
    joint = read_job(bare).joints[0].joint
    steps = {step.heading: as_told(step.words) for step in joint.steps}
    assert "Lay on the tenon's outside cheek" not in steps
    told = "Prick the middle of every hole through, also where you glue"
    assert told in steps["Lay on the rail (BAR)"]
    assert "10.5 mm from the shoulder to the middle" in steps["Lay on the rail (BAR)"]
    found = faces_of(bare, "Left")
    assert not {name for _, name in found if "cheek" in name}
    # As on the cheek before: 40 - 12 + 1.5 from the end, 5 + 40 / 2 from the reference edge.
    hole = as_seen(found["rail", "outside face"], "rail", SAW)
    assert middle([line for line in hole if math.dist(*line) < 0.5]) == pytest.approx((25, 29.5))
    # 15 in from the far edge the tenon ends, and the haunch's end is as far from the shoulder as
    # the tenon is thick, 6: 34 from the tenon's end.
    end = (45, 34), (60, 34)
    knifed = map(sorted, as_seen(found["rail", "outside face"], "rail", KNIFE))
    assert any(max(map(math.dist, line, end)) < 0.01 for line in knifed)


def test_a_mitred_tenons_bare_inside_cheek_has_none_either():
    legs = ("60 mm", "20 mm"), ("64 mm", "64 mm")
    for bare, names in (({}, ["tenon's inside cheek"]), ({"shoulder_inside": 0}, [])):
        joint = build(*legs, on="inside", tenon_end="mitred", set_back=8, **bare)
        assert [one.name for one in joint.details] == names
        headings = [step.heading for step in joint.steps]
        assert ("Lay on the tenon's inside cheek" in headings) == bool(names)


# Refused and advised

PEG = {"peg": "8 mm"}
REFUSED: dict[str, tuple[dict[str, object], str, str]] = {
    "extra depth of a through mortise": (
        {"through": True, "extra_depth": 2},
        "not-with-through",
        "extra_depth",
    ),
    "a stopped tenon that stands out": ({"proud": 2}, "not-with-stopped", "proud"),
    "groove and rebate": ({"groove": 6, "rebate": 6}, "groove-in-rebate", "groove"),
    "groove between twins": ({"groove": 6, "twins": 2}, "not-with-twins", "groove"),
    "wedges in a rail that leans": ({"wedges": 3, "angle": 80}, "not-with-angle", "wedges"),
    "two places": ({"horn": 20, "at": 30}, "two-places", "at"),
    "the middle of no length": ({"middle": True}, "length-needed", "middle"),
    "a gap beside one tenon": ({"gap": 9}, "gap-alone", "gap"),
    "wider than the rail": ({"shoulder": "75 mm"}, "no-room", "shoulder"),
    "gaps as wide as the rail": ({"count": 2, "gap": "60 mm"}, "no-room", "gap"),
    "parts that are more than the rail": (
        {"tenon_thickness": 9, "shoulder_outside": 7, "shoulder_inside": 7},
        "shoulders-differ",
        "tenon_thickness",
    ),
    "bare outside and flush": ({"shoulder_outside": 0}, "tenon-too-thick", "shoulder_outside"),
    "out of the stile's inside": ({"set_back": "12 mm"}, "tenon-too-thick", "set_back"),
    "no way out of the stile": (
        {"through": True, "tenon_length": "50 mm"},
        "tenon-too-short",
        "tenon_length",
    ),
    "a haunch longer than the tenon": (
        {"haunch": {"length": "50 mm"}},
        "haunch-too-long",
        "haunch.length",
    ),
    "a haunch at no shoulder": ({"haunch": "square", "shoulder_far": 0}, "no-room", "shoulder_far"),
    "a groove in the tenon": ({"groove": 7, "shoulder": 6}, "groove-in-tenon", "shoulder"),
    "a groove beside it": (
        {"groove": {"depth": 7, "from_outside": 3}},
        "groove-beside-tenon",
        "groove",
    ),
    "a groove as deep as the tenon": ({"groove": 47}, "groove-too-deep", "groove"),
    "a rebate down into the mortise": (
        {"rebate": {"width": 9, "depth": 11}},
        "rebate-in-mortise",
        "rebate.depth",
    ),
    "kerfs down to the shoulder": (
        {"through": True, "wedges": {"depth": 67}},
        "kerf-too-deep",
        "wedges.depth",
    ),
    "kerfs that end before the mortise's mouth": (
        {"through": True, "proud": 3, "wedges": {"depth": 3}},
        "kerf-too-shallow",
        "wedges.depth",
    ),
    "kerfs side by side": (
        {"through": True, "wedges": {"from_side": 25}},
        "kerfs-meet",
        "wedges.from_side",
    ),
    "flares of a pair": (
        {"through": True, "count": 2, "gap": 5, "wedges": 3},
        "flares-meet",
        "wedges.flare",
    ),
    "a peg behind the tenon": (
        {"drawbore": {**PEG, "from_shoulder": 43}},
        "peg-outside-tenon",
        "drawbore.from_shoulder",
    ),
    "a peg that by its rule stands behind the tenon": (
        {"drawbore": {"peg": 26}},
        "peg-outside-tenon",
        "drawbore.peg",
    ),
    "pegs wider than the tenon": (
        {"drawbore": {"peg": 17, "pegs": 3}},
        "peg-outside-tenon",
        "drawbore.peg",
    ),
    "a peg before the stile": (
        {"drawbore": {**PEG, "from_shoulder": 5}},
        "peg-at-edge",
        "drawbore.from_shoulder",
    ),
    "an offset of half a peg": (
        {"drawbore": {**PEG, "offset": 4}},
        "offset-too-large",
        "drawbore.offset",
    ),
    "a hole that does not reach the mortise's far side": (
        {"drawbore": {**PEG, "depth": 10}},
        "bore-depth",
        "drawbore.depth",
    ),
}


@pytest.mark.parametrize(("raw", "code", "place"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_place_and_a_remedy(raw, code, place):
    (finding,) = refused(request_of(KIND, *BARS, **raw), KIND.build)
    assert (finding.code, finding.place) == (code, place)
    assert finding.remedy


def test_a_mistake_in_a_joints_own_table_is_told_at_its_line():
    text = PEGGED.replace("from_shoulder = 12", "from_shoulder = 43")
    with pytest.raises(InputError) as caught:
        read_job(text)
    (finding,) = caught.value.findings
    assert f"line {text[: text.index('drawbore =')].count(chr(10)) + 1}" in finding.place


ADVISED: dict[str, tuple[dict[str, object], list[str]]] = {
    "through and wedged, haunched, pegged": (
        {"through": True, "wedges": {}, "haunch": "square", "drawbore": {}, "shoulder": 4},
        [],
    ),
    "wedges that nobody sees": ({"wedges": {}}, ["wedges-hidden"]),
    "a flare past the rail": ({"through": True, "wedges": {}, "shoulder": 2}, ["flare-shows"]),
    "a flare that nobody told, with a haunch's bare shoulder": (
        {"through": True, "wedges": {}, "haunch": "square"},
        [],
    ),
    "a flare of 12 where no shoulder is told": ({"through": True, "wedges": 12}, []),
    "a groove that nothing fills": ({"groove": 7}, ["groove-shows"]),
    "a sloped haunch in a groove": ({"groove": 7, "haunch": "sloped"}, ["groove-shows"]),
    "a square one": ({"groove": 7, "haunch": "square"}, []),
    "a bare face and a half": (
        {
            "shoulder_outside": 0,
            "set_back": 8,
            "tenon_thickness": "10.5 mm",
            "stile": ("64 mm", "30 mm"),
        },
        [],
    ),
    "a bare face, thicker": (
        {"shoulder_outside": 0, "set_back": 8, "tenon_thickness": 13, "stile": ("64 mm", "30 mm")},
        ["tenon-thick"],
    ),
    "a quarter of a peg": ({"drawbore": {**PEG, "offset": 2}}, []),
    "more": ({"drawbore": {**PEG, "offset": "2.1 mm"}}, ["offset-large"]),
    "a peg's width of wood behind": ({"drawbore": {**PEG, "from_shoulder": 34}}, []),
    "less": ({"drawbore": {**PEG, "from_shoulder": "34.1 mm"}}, ["peg-splits"]),
    "as much of a stopped hole past its mortise, 7 to 14, as the peg is thick": (
        {"drawbore": {**PEG, "depth": 22}},
        [],
    ),
    "a hair less": ({"drawbore": {**PEG, "depth": "21.9 mm"}}, ["peg-point"]),
    "a third of the tenon's width": (
        {"drawbore": {"peg": 17, "from_shoulder": 20}, "shoulder": 12, "shoulder_far": 12},
        [],
    ),
    "a little more": (
        {"drawbore": {"peg": "17.1 mm", "from_shoulder": 20}, "shoulder": 12, "shoulder_far": 12},
        ["peg-thick"],
    ),
    "leaning by 30 degrees": ({"angle": 60}, []),
    "by 31": ({"angle": 59}, ["shoulder-slants"]),
}


@pytest.mark.parametrize(("raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(raw, codes):
    assert codes_of(build(**raw).findings) == codes


def test_the_least_that_is_told_of_a_pegs_place_is_the_least_that_passes():
    """Half a peg of 9, and the 1.5 by which the tenon's hole is nearer, behind a groove of 12."""
    boards = ("180 mm", "42 mm"), ("100 mm", "42 mm")
    peg = {"peg": 9, "offset": "1.5 mm"}
    at_least = {**peg, "from_shoulder": 18}
    (finding,) = refused(request_of(KIND, *boards, groove=12, drawbore=at_least), KIND.build)
    assert finding.remedy == "Give more than 18 mm as from_shoulder: 25.5 mm is usual."
    assert build(*boards, groove=12, drawbore={**peg, "from_shoulder": "18.1 mm"})


def test_both_pairs_of_twins_have_settings_for_all_that_is_gauged():
    """A rail of 140 by 60, 4 behind: tenons of 12 with 12 between them, in fifths of 60.

    93 of its width are left between shoulders of 23.5: tenons and gap of 31 each.
    """
    found = settings(build(("140 mm", "60 mm"), ("90 mm", "70 mm"), twins=2, count=2, set_back=4))
    gauged = {use: float(at) for use, at in found.items() if "cheek of" in use or "gap" in use}
    assert gauged == {
        "nearer cheek of the mortise, from the stile's outside face": 16,
        "nearer cheek of the tenon, from the rail's outside face": 12,
        "nearer cheek of mortise 2, from the stile's outside face": 40,
        "nearer cheek of tenon 2, from the rail's outside face": 36,
        "gap between tenons, its nearer side, from the rail's reference edge": 54.5,
        "gap between tenons, its farther side, from the rail's reference edge": 85.5,
    }


def test_the_pegs_are_held_against_the_bits_that_are_owned():
    for bits, codes in (((6, 8), []), ((6, 10), ["no-such-bit"]), ((), [])):
        tools = Tools(bits=tuple(map(Fraction, bits)))
        joint = build(drawbore={"peg": "8 mm"}, tools=tools)
        assert codes_of(with_tool_advice(joint, tools, Units.MM).findings) == codes
    owned = Tools(bits=(Fraction(4), Fraction(6)))
    assert settings(build(drawbore={}, tools=owned))["holes for the pegs"] == 6


@pytest.mark.parametrize(
    ("angle", "through", "words"),
    [
        # Of a rail 60 wide, 10 of it shoulder at either edge, the tenon's end 46 from the shoulder:
        # it lies 46 cos 30 + 50 sin 30 deep at its reference edge, and the mortise 2 more: 66.837.
        (60, False, "towards {}, at its floor 38.6 mm nearer to it"),
        # 46 cos 30 - 10 sin 30 + 2 = 36.837, which times tan 30 is 21.268.
        (120, False, "away from {}, at its floor 21.3 mm farther off"),
        (60, True, "towards {}, on the far edge 46.2 mm nearer to it"),  # 80 tan 30
    ],
)
def test_a_slanting_mortise_is_chopped_along_a_bevel_the_way_that_it_runs(angle, through, words):
    length = {} if through else {"tenon_length": "46 mm"}
    joint = build(
        ("60 mm", "30 mm"),
        ("80 mm", "32 mm"),
        angle=angle,
        through=through,
        shoulder="10 mm",
        shoulder_far="10 mm",
        **length,
    )
    (chop,) = (as_told(step.words) for step in joint.steps if step.heading == "Chop the mortise")
    assert words.format("the stile's end that the rail's far edge faces") in chop
    assert "upright" not in chop
    if angle == 60 and not through:  # 66.837 / cos 30
        assert "Mark 77.2 mm on the chisel with tape, which is 66.8 mm deep, 2 mm more" in chop
    # In the stile's frame the wood of its end walls: from the line at the edge, and 10 mm deeper.
    part = joint.members[1].part
    walls = [s for cut in part.cuts for s in cut.half_spaces if s.normal[0] and s.normal[1]]
    runs = {-side.normal[0] / side.normal[1] for side in walls}
    assert [run < 0 for run in runs] == ["towards" in chop]


def test_of_a_rail_that_leans_the_far_edge_is_told_between_the_shoulders():
    """Of 704, between upright stiles 530 apart: 530 / cos 30 = 612, and 46 at each end."""
    request = request_of(
        KIND, ("60 mm", "30 mm"), ("80 mm", "32 mm"), angle=60, tenon_length="46 mm"
    )
    told = KIND.build(with_lengths(request, 704, 900)).steps[0].words
    assert "tenon 46 mm long at each, 612 mm are left between its shoulders along its far" in told


def test_a_haunched_tenon_with_wedges_stands_in_as_far_as_its_mortise_flares():
    """Of a stile 64 wide a twentieth is 3.2, and 3 is the most: 1.5 would be too little."""
    joint = build(through=True, haunch="square", wedges={})
    # A third of 75 has the haunch.
    assert sizes(joint)["width of the tenon, length of the mortise"] == 75 - 25 - 3


FROM_ONE_END = "658 mm are left from the shoulder of its tenon to its other end"
BETWEEN = "Where that has such a tenon too, 612 mm are left between its shoulders."
AT_EACH = "with a tenon 46 mm long at each, 612 mm are left between its shoulders."


@pytest.mark.parametrize(
    ("letters", "more", "words"),
    [
        ("", {}, AT_EACH),
        ("AB", {}, AT_EACH),
        ("DCBA", {}, AT_EACH),
        ("A", {}, f"{FROM_ONE_END}. {BETWEEN}"),
        ("AC", {}, f"{FROM_ONE_END}. {BETWEEN}"),
        ("A", {"angle": 60}, f"{FROM_ONE_END}, along its far edge. {BETWEEN}"),
        # An upright runs from A to D: at A and B there are two of them.
        ("AD", {"front": True}, AT_EACH),
        ("AB", {"front": True}, f"{FROM_ONE_END}. {BETWEEN}"),
        # Between legs a rail runs from A to B on the inside faces, on the edges from A to D.
        ("AB", {"on": "inside"}, AT_EACH),
        ("AD", {"on": "inside"}, f"{FROM_ONE_END}. {BETWEEN}"),
        ("AD", {"on": "reference-edge"}, AT_EACH),
        ("AB", {"on": "reference-edge"}, f"{FROM_ONE_END}. {BETWEEN}"),
    ],
)
def test_no_tenon_is_told_at_an_end_where_the_job_shows_none(letters, more, words):
    """Of a rail of 704 with a tenon of 46: 658 to its other end, 612 where that has one too."""
    told = {"tenon_length": "46 mm", **more}
    front = bool(told.pop("front", False))
    plain = request_of(KIND, ("60 mm", "30 mm"), ("80 mm", "80 mm"), names=("rail", "leg"), **told)
    asked = replace(plain, corners=corners_like(letters), first_in_front=front)
    first, *_ = KIND.build(with_lengths(asked, 704, 900)).steps
    assert f"ends square: {words} " in first.words
    if "on" in more:
        return  # what is measured below is a stile's
    assert faults(KIND.build(with_lengths(asked, 704, 900)), first.words) == []
    unknown, *_ = KIND.build(asked).steps
    assert faults(KIND.build(asked), unknown.words) == []
    assert ("at each of its ends" in unknown.words) == (words == AT_EACH)


def test_a_trestles_leg_has_a_tenon_at_its_top_alone():
    """Of 29 in, by hand: 26 5/16 from the foot to the shoulder of a tenon of 2 11/16."""
    job = read_job(TRESTLE.format(corners='{ name = "L", like = "A" }, { name = "R", like = "B" }'))
    words = job.joints[0].joint.steps[0].words
    assert "26 5/16 in are left from the shoulder of its tenon to its other end" in words
    assert "at each" not in words
    job = read_job(TRESTLE.format(corners='"A", "D"'))
    assert "with a tenon 2 11/16 in long at each, 23 5/8 in" in job.joints[0].joint.steps[0].words


TRESTLE = """\
units = "in"
[boards.leg]
width = "3 in"
thickness = "1 3/4 in"
length = "29 in"
[boards.head]
width = "3 1/2 in"
thickness = "1 3/4 in"
length = "24 in"
[[joints]]
kind = "mortise-and-tenon"
corners = [{corners}]
rail = "leg"
stile = "head"
front = "leg"
at = "2 in"
tenon_length = "2 11/16 in"
"""


@pytest.mark.parametrize(
    ("twins", "each"), [(1, "each tenon"), (2, "each row of tenons side by side")]
)
def test_one_peg_goes_through_all_tenons_side_by_side(twins, each):
    """Of two twins one hole is bored through both: one peg, and not two."""
    joint = build(("125 mm", "64 mm"), ("90 mm", "90 mm"), twins=twins, drawbore="9 mm")
    (made,) = (step.words for step in joint.steps if step.heading == "Make the pegs")
    assert f"Split one peg for {each} from dry" in made
    holes = (cut.bore.centre[:2] for cut in joint.members[0].part.cuts if cut.bore)
    assert len({*holes}) == 1  # on one line, where the peg goes


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        ({}, "both faces and both edges."),
        (
            {"shoulder": 0},
            "both edges (on the reference edge only beside the tenon: it has no shoulder there).",
        ),
        (
            {"shoulder_far": 0, "shoulder_outside": 0, "set_back": 2},
            "on the inside face and both edges (on the far edge only beside the tenon: it has no "
            "shoulder there), and on the outside face only",
        ),
        (
            {"shoulder": 0, "shoulder_far": 0, "twins": 2},
            "both edges (on these only beside the tenons and between them: they have no shoulder "
            "there).",
        ),
        # The groove has taken what is before its shoulder: there is nothing to knife.
        ({"groove": 7}, "both faces and both edges."),
    ],
)
def test_no_shoulder_is_knifed_across_the_tenon_at_an_edge_that_has_none(raw, words):
    joint = build(**raw)
    (knifed,) = (step.words for step in joint.steps if step.heading == "Shoulder and cheeks")
    assert words in knifed
    assert faults(joint, as_told(knifed)) == []
