"""The stopped mortise and tenon: worked cases, handbooks' rules, solids, pages, what is refused."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.drawings.sketch import sketched
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Joint
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tenons.mortise_and_tenon import KIND, Parameters
from joinery_templates.joints.tool_fit import tool_table, with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, read_length
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.faces import is_waste, lay_out
from tests.drawings.test_handedness_of_dovetail_halving import as_seen, faces_of
from tests.joints.solids import CLOSE_MM3, SHY_MM, mate, with_fault
from tests.joints.strategies import GAPS, NO_FIT, PRESSED, ZERO, lengths
from tests.joints.worked import codes_of, refused, request_of, sizes, with_lengths
from tests.pdf.page_reading import KNIFE, SAW
from tests.pdf.wrap_reading import unmatched
from tests.strategies import SOLID_PROPERTY


def request(
    rail: tuple[str, str] = ("60 mm", "21 mm"),
    stile: tuple[str, str] = ("64 mm", "24 mm"),
    **raw: object,
) -> Request:
    return request_of(KIND, rail, stile, names=("bar", "post"), **raw)


def settings(joint: Joint) -> list[Fraction]:
    return [setting.length for setting in joint.lengths]


# Worked by hand, and by handbooks


def test_what_the_rules_give_by_hand():
    """A third of 21 is 7 and stands in its middle; 64 x 3/4 is 48, less 2; 60 / 6 is 10."""
    joint = KIND.build(request())
    assert sizes(joint) == {
        "thickness of the tenon": 7,
        "width of the tenon, length of the mortise": 40,
        "left of the stile under the mortise's floor": 16,
        "left between mortise and inside face": 10,
    }
    assert settings(joint) == [7, 7, 46, 10, 10, 48]
    assert [
        (row.role, row.start, [(mark.position, mark.what) for mark in row.marks])
        for row in joint.rows
    ] == [
        ("rail", "reference edge", [(10, "tenon starts"), (50, "tenon ends")]),
        ("rail", "outside face", [(7, "tenon starts"), (14, "tenon ends")]),
        (
            "stile",
            "rail's far edge",
            [(10, "space for the tenon starts"), (50, "space for the tenon ends")],
        ),
    ]
    assert len(joint.rules) == 3
    assert joint.findings == ()


def test_the_end_is_divided_in_three_parts_and_the_mortise_deeper_than_the_tenon_is_long():
    """Noyes 1910, p. 160: 30 mm gives 10, 10 and 10."""
    joint = KIND.build(request(rail=("60 mm", "30 mm"), stile=("64 mm", "30 mm")))
    assert settings(joint)[:2] == [10, 10]
    assert sizes(joint)["left between mortise and inside face"] == 10
    floor = sizes(joint)["left of the stile under the mortise's floor"]
    assert 64 - floor > joint.members[0].part.reach


def test_a_corner_rail_divided_as_a_handbook_does():
    """Joyce 1970: of 75 a third, 25, less a bare 1.5: the tenon is 48.5."""
    joint = KIND.build(request(rail=("75 mm", "21 mm"), shoulder="1.5 mm", shoulder_far="25 mm"))
    assert sizes(joint)["width of the tenon, length of the mortise"] == Fraction("48.5")


def test_a_leg_of_two_inches_is_mortised_one_and_a_half_deep():
    """Zerbe, Carpentry for Boys, 1914, ch. V: three quarters."""
    joint = KIND.build(request(("3 in", "3/4 in"), ("2 in", "2 in"), units=Units.INCH))
    assert joint.members[0].part.reach == INCH * 23 / 16
    assert settings(joint)[-1] == INCH * 3 / 2


CHISELS = {
    "none named, in half millimetres": ("20 mm", (), "6.5 mm"),
    "nearer below": ("20 mm", ("6 mm", "8 mm"), "6 mm"),
    "nearer above": ("22 mm", ("6 mm", "8 mm"), "8 mm"),
    "as near, the narrower": ("21 mm", ("8 mm", "6 mm"), "6 mm"),
    "none from a quarter to two fifths": ("20 mm", ("4.9 mm", "8.1 mm"), "6.5 mm"),
    "just two fifths": ("20 mm", ("3 mm", "8 mm"), "8 mm"),
}


@pytest.mark.parametrize(("thick", "owned", "wanted"), CHISELS.values(), ids=CHISELS)
def test_the_mortise_takes_the_chisel_nearest_to_a_third(thick, owned, wanted):
    chisels = tuple(read_length(one, Units.MM) for one in owned)
    joint = KIND.build(request(rail=("60 mm", thick), tools=Tools(chisels=chisels)))
    assert settings(joint)[0] == read_length(wanted, Units.MM)
    assert ("your chisels" in joint.rules[0]) == (wanted in owned)


def test_the_fit_is_taken_off_both_cheeks_of_the_tenon_and_the_mortise_stays():
    joint = KIND.build(request(fit="0.1 mm"))
    assert settings(joint)[:3] == [7, 7, Fraction("7.1")]
    assert sizes(joint)["thickness of the tenon"] == Fraction("6.8")
    rail, stile = (member.part for member in joint.members)
    at_cheek = Fraction("7.05")
    assert is_waste(rail, Fraction(30), Fraction(20), at_cheek)
    assert is_waste(stile, Fraction(20), Fraction(30), at_cheek)


def lines(joint: Joint, member: int, face: Face) -> set[frozenset[object]]:
    end = joint.members[member].part
    return {frozenset((line.start, line.end)) for line in lay_out(end, face, end.reach + 20).lines}


def as_set(*segments: object) -> set[frozenset[object]]:
    return {frozenset(segment) for segment in segments}  # type: ignore[call-overload]


def test_every_face_of_both_boards_by_hand():
    """Shoulders of 4 and 14, cheeks at 7 and 14 of 21, 46 long: whole on edges and end, too."""
    joint = KIND.build(request(shoulder="4 mm", shoulder_far="14 mm"))
    edge = as_set(
        *(((a, 46), (b, 46)) for a, b in ((0, 7), (7, 14), (14, 21))),
        *(((z, 0), (z, 46)) for z in (7, 14)),
    )
    rail = {face: lines(joint, 0, face) for face in Face}
    assert rail == {
        Face.OUTSIDE: as_set(((0, 46), (60, 46))),
        Face.INSIDE: as_set(((0, 46), (60, 46))),
        Face.END_GRAIN: as_set(
            *(((x, 7), (x, 14)) for x in (4, 46)),
            *(((0, z), (60, z)) for z in (7, 14)),
        ),
        Face.REFERENCE_EDGE: edge,
        Face.FAR_EDGE: edge,
    }
    stile = {face: lines(joint, 1, face) for face in Face}
    assert stile.pop(Face.REFERENCE_EDGE) == as_set(
        *(((7, y), (14, y)) for y in (14, 56)), *(((z, 14), (z, 56)) for z in (7, 14))
    )
    assert set(map(len, stile.values())) == {0}


def test_without_a_shoulder_at_an_edge_the_tenon_is_seen_on_it():
    joint = KIND.build(request(shoulder="0 mm"))
    on_edge = lines(joint, 0, Face.REFERENCE_EDGE)
    cheeks = as_set(((7, 0), (7, 46)), ((14, 0), (14, 46)))
    assert on_edge == cheeks | as_set(((0, 46), (7, 46)), ((14, 46), (21, 46)))
    assert joint.rows[0].marks[0].what == "tenon ends"
    assert "tenon's edge, from the rail's reference edge" not in [s.use for s in joint.lengths]


# Tools


def test_a_mortise_asks_for_a_chisel_and_for_no_saw():
    tools = Tools(chisels=(Fraction(6), Fraction(7)), kerf=Fraction(5))
    joint = with_tool_advice(KIND.build(request(tools=tools)), tools, Units.MM)
    assert tool_table(joint, tools, Units.MM)[1] == (
        ("stile, mortise, 7 mm at the narrowest", "chisel of 7 mm"),
        ("chosen from those that the job names", "6 mm, 7 mm"),
    )
    assert tool_table(joint, Tools(kerf=tools.kerf), Units.MM)[1] == (
        ("stile, mortise, 7 mm at the narrowest", "chisel of 7 mm at most"),
    )
    assert joint.findings == ()


# Solids


@st.composite
def tenons(draw: st.DrawFn, fits: st.SearchStrategy[Fraction] = NO_FIT) -> Request:
    """Mortises and tenons that can be cut, rail and stile of any two thicknesses."""
    near, wide, far = draw(lengths(0, 20)), draw(lengths(10, 60)), draw(lengths(0, 20))
    thick, cheek = draw(lengths(3, 15)), draw(lengths(2, 12))
    length, extra, left = draw(lengths(10, 60)), draw(lengths(0, 5)), draw(lengths(1, 30))
    given_ = Parameters(
        tenon_thickness=thick,
        tenon_length=length,
        shoulder=near,
        shoulder_far=far,
        extra_depth=extra,
        fit=draw(fits),
    )
    rail = Board("bar", near + wide + far, thick + 2 * cheek)
    stile = Board("post", length + extra + left, thick + cheek + draw(lengths(1, 12)))
    return Request((rail, stile), given_, draw(st.sampled_from(list(Units))), Tools())


def tenon_width(one: Request) -> Fraction:
    return one.boards[0].width - one.given.shoulder - one.given.shoulder_far


@SOLID_PROPERTY
@given(tenons())
def test_the_boards_fill_the_joint_and_only_the_extra_depth_is_left_empty(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
    given_ = request_.given
    bored = float(tenon_width(request_) * given_.tenon_thickness)
    whole = request_.boards[1]
    around = 10  # of the stile is in the solid before and behind the rail
    box = float((request_.boards[0].width + 2 * around) * whole.width * whole.thickness)
    depth = given_.tenon_length + given_.extra_depth
    assert mated.second.volume() == pytest.approx(box - bored * float(depth), rel=1e-9)


@SOLID_PROPERTY
@given(tenons(fits=GAPS))
def test_a_clearance_is_missing_at_both_cheeks_and_nowhere_else(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    fit, given_ = request_.given.fit, request_.given
    shy = sum(not one for one in (given_.shoulder, given_.shoulder_far)) * SHY_MM
    area = (tenon_width(request_) - shy) * (given_.tenon_length - 2 * SHY_MM)
    # The two regions do not meet in the shoulder: each keeps off its own faces.
    assert mated.missing == pytest.approx(float(2 * fit * area), rel=1e-4)


@SOLID_PROPERTY
@given(tenons(fits=PRESSED))
def test_a_negative_fit_overlaps_at_both_cheeks_and_nowhere_else(request_):
    mated = mate(KIND.build(request_))
    assert abs(mated.missing) < CLOSE_MM3
    area = tenon_width(request_) * request_.given.tenon_length
    assert mated.overlap == pytest.approx(float(-2 * request_.given.fit * area), rel=1e-4)


@SOLID_PROPERTY
@given(tenons())
def test_outside_faces_are_one_plane_and_the_rail_goes_in_along_its_length_alone(request_):
    mated = mate(KIND.build(request_))
    assert mated.first.bounding_box()[2] == mated.second.bounding_box()[2] == 0
    for out in (0.01, 1, 200):
        assert (mated.first.translate((0, out, 0)) ^ mated.second).volume() < CLOSE_MM3
    for way in ((1, 0, 0), (-1, 0, 0), (0, 0, 1), (0, 0, -1), (0, -1, 0)):
        assert (mated.first.translate(way) ^ mated.second).volume() > 1


@pytest.mark.parametrize("member", [0, 1])
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_the_check_of_solids_sees_a_cut_out_of_place(member, axis):
    joint = KIND.build(request())
    number = 2 if member == 0 and axis == 0 else 0  # beside the tenon; cheek; mortise
    # The mortise is deeper than it must be: only less depth is a fault, and more than the extra.
    for distance in (Fraction("-2.2"), *(() if (member, axis) == (1, 0) else (Fraction("0.2"),))):
        faulty = mate(with_fault(joint, member, distance, number, axis))
        assert max(faulty.overlap, faulty.missing) > 10


# On the page


JOB = """
title = "Handed"
[paper]
size = "A3"
[boards.bar]
width = 60
thickness = 20
[boards.post]
width = 64
thickness = 26
[[joints]]
kind = "mortise-and-tenon"
corners = [{ name = "Left", like = "A" }, { name = "Right", like = "B" }]
views = ["faces"]
rail = "bar"
stile = "post"
tenon_thickness = 6
tenon_length = 40
shoulder = 5
shoulder_far = 15
"""
"""The nearer cheek is 7 from the outside face; the mortise is 15 to 55 from the rail's far edge."""


@pytest.mark.parametrize(("corner", "low"), [("Left", 7), ("Right", 13)])
def test_the_mortise_is_on_the_stiles_inner_edge_and_its_mirror_image_at_the_other_end(corner, low):
    """The left stile's edge looks right: who faces it has the outside face on the left.

    Its end is above for both, and the line of the rail's far edge nearer to it.
    """
    found = faces_of(JOB, corner)
    assert [face for role, face in found if role == "stile"] == ["reference edge"]
    mortise = [((low, -y), (low + 6, -y)) for y in (15, 55)]
    mortise += [((z, -15), (z, -55)) for z in (low, low + 6)]
    edge = found["stile", "reference edge"]
    assert unmatched(as_seen(edge, "stile", KNIFE), mortise) == []
    assert as_seen(edge, "stile", SAW) == [], "a mortise is chopped"
    told = " ".join(words.text for words in edge.words)
    assert f"towards its {'right' if corner == 'Left' else 'left'}-hand end" in told
    assert "dashed line: rail's far edge" in told
    assert ("◄ outside face on the left" in told) == (corner == "Left")


@pytest.mark.parametrize(("corner", "left", "right"), [("Left", 5, 45), ("Right", 15, 55)])
def test_the_tenon_on_the_end_grain_is_nearer_to_the_reference_edge(corner, left, right):
    grain = faces_of(JOB, corner)["rail", "end grain"]
    sides = {
        round(start[0], 3)
        for start, end in as_seen(grain, "rail", SAW)
        if abs(start[0] - end[0]) < 0.001
    }
    assert sides == {left, right}


def test_the_mortise_is_seen_in_the_sketch_of_its_edge():
    """60 along, 10 before it and 15 past: 85, in 40 rows of 2.125; 24 in 23 columns of 1.04.

    Of the rows 19 have their middle in the mortise, 10 to 50, and of the columns 6, in 7 to 14.
    """
    drawn = sketched(KIND.build(request()).members[1].part, Face.REFERENCE_EDGE)
    rows = [row for row in drawn if "." in row]
    assert {row.count(".") for row in rows} == {6}
    assert len(rows) == 19
    assert len({row.index(".") for row in rows}) == 1


# Refused and advised


REFUSED = {
    "the whole rail": ({"tenon_thickness": "21 mm"}, ("tenon-too-thick", "tenon_thickness")),
    "the whole stile": ({"stile": ("64 mm", "13 mm")}, ("tenon-too-thick", "tenon_thickness")),
    "no tenon left": ({"tenon_thickness": "1 mm", "fit": "0.5 mm"}, ("no-room", "fit")),
    "no shoulder left": ({"tenon_thickness": "20 mm", "fit": "-0.5 mm"}, ("no-room", "fit")),
    "shoulders meet": ({"shoulder": "50 mm"}, ("no-room", "shoulder")),
    "far shoulder": ({"shoulder_far": "50 mm"}, ("no-room", "shoulder_far")),
    "right through": ({"tenon_length": "62 mm"}, ("mortise-through", "tenon_length")),
    "through by the extra depth": (
        {"stile": ("20 mm", "24 mm"), "extra_depth": "20 mm"},
        ("mortise-through", "extra_depth"),
    ),
}


@pytest.mark.parametrize(("raw", "expected"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(raw, expected):
    (finding,) = refused(request(**raw), KIND.build)
    assert (finding.code, finding.place) == expected
    assert finding.remedy


@pytest.mark.parametrize(
    ("raw", "told"),
    [
        ({"tenon_thickness": "21 mm"}, "tenon_thickness"),
        ({"shoulder_outside": 0, "shoulder_inside": 0}, "shoulder_outside and shoulder_inside"),
        (
            {"tenon_thickness": "21 mm", "shoulder_outside": 0, "shoulder_inside": 0},
            "tenon_thickness, shoulder_outside and shoulder_inside",
        ),
    ],
)
def test_a_slat_let_in_whole_is_refused_with_a_remedy_that_works(raw, told):
    """A slat 21 thick, 2 behind the face of a stile of 30: a third of it is 7."""
    stile = {"stile": ("64 mm", "30 mm"), "set_back": "2 mm"}
    (finding,) = refused(request(**stile, **raw), KIND.build)
    assert 'No shoulder is left on either face of "bar", 21 mm thick' in finding.message
    assert finding.remedy.startswith(f"Leave {told} out, and the tenon is about a third as thick.")
    assert "scribe its mortise round the slat" in finding.remedy
    assert finding.place == told.replace(",", "").split()[0]
    assert sizes(KIND.build(request(**stile)))["thickness of the tenon"] == 7


def test_the_stiles_place_is_told_from_the_end_towards_which_y_falls():
    """The horn lies before the line of the rail's far edge, 20 mm long; 0 is told, none is not."""
    for given_, along in (("20 mm", 20), ("0 mm", 0), (None, None)):
        horn = {} if given_ is None else {"horn": given_}
        part = KIND.build(request(**horn)).members[1].part
        assert [part.place(hand).along for hand in Hand] == [along, along]
    rail_on_stile = KIND.build(request()).placement.reversed()
    far, reference = (rail_on_stile.point((Fraction(x), ZERO, ZERO))[1] for x in (60, 0))
    assert (far, reference) == (0, 60)


def test_boards_too_short_are_told_together_and_the_horn_counts():
    plain = request(horn="20 mm")
    for stile, codes in ((80, ["board-too-short"] * 2), (81, ["board-too-short"])):
        told = refused(with_lengths(plain, 46, stile), KIND.build)
        assert [finding.code for finding in told] == codes


SIX = Tools(chisels=(Fraction(6), Fraction(12)))
ADVISED = {
    "a quarter": ({"rail": ("60 mm", "24 mm"), "tenon_thickness": "6 mm"}, []),
    "thinner": ({"rail": ("60 mm", "24 mm"), "tenon_thickness": "5.9 mm"}, ["tenon-thin"]),
    "two fifths": ({"rail": ("60 mm", "20 mm"), "tenon_thickness": "8 mm"}, []),
    "thicker": ({"rail": ("60 mm", "20 mm"), "tenon_thickness": "8.1 mm"}, ["tenon-thick"]),
    "wall of half": ({"stile": ("64 mm", "17.5 mm")}, []),
    "wall thinner": (
        {"stile": ("64 mm", "17.4 mm"), "tenon_thickness": "7 mm"},
        ["mortise-wall-thin"],
    ),
    "a thinner tenon is proposed": ({"stile": ("64 mm", "17.4 mm")}, []),
    "down to a quarter": ({"stile": ("64 mm", "15.7 mm")}, ["mortise-wall-thin"]),
    "one's own chisel": ({"tenon_thickness": "6 mm", "tools": SIX}, []),
    "between chisels": ({"tenon_thickness": "7 mm", "tools": SIX}, ["mortise-between-chisels"]),
    "five inches wide": ({"rail": ("5 in", "21 mm")}, []),
    # Cassell: up to the whole of a rail 5 in wide; a wider one has two.
    "wider": ({"rail": ("5.1 in", "21 mm")}, ["rail-wide"]),
    "wider, its edge held by a haunch": (
        {"rail": ("7.5 in", "21 mm"), "haunch": "square"},
        [],
    ),
    "too wide for a haunch": (
        {"rail": ("7.6 in", "21 mm"), "haunch": "square"},
        ["rail-wide"],
    ),
    "tenon of five inches": (
        {"rail": ("137 mm", "21 mm"), "shoulder": "5 mm", "shoulder_far": "5 mm"},
        ["rail-wide"],
    ),
    "tenon over five inches": (
        {"rail": ("137 mm", "21 mm"), "shoulder": "4.9 mm", "shoulder_far": "5 mm"},
        ["rail-wide", "tenon-wide"],
    ),
    "seven eighths": ({"tenon_length": "54 mm"}, []),
    "deeper": ({"tenon_length": "54.1 mm"}, ["mortise-deep"]),
    "half way": ({"tenon_length": "32 mm"}, []),
    "short": ({"tenon_length": "31.9 mm"}, ["tenon-short"]),
    "no deeper": ({"extra_depth": "0 mm"}, ["no-extra-depth"]),
    "horn": ({"horn": "5 mm"}, []),
    "short horn": ({"horn": "4.9 mm"}, ["end-splits"]),
    "at the stile's end": ({"at": "0 mm"}, []),
    "too near to it": ({"at": "0 mm", "shoulder_far": "14.9 mm"}, ["end-splits"]),
    "little at the end": ({"horn": "20 mm", "shoulder_far": "6.9 mm"}, ["end-weak"]),
    "by rule, a sixth of the rail less than the mortise is wide": (
        {"rail": ("60 mm", "42 mm"), "stile": ("64 mm", "42 mm"), "horn": "20 mm"},
        [],
    ),
    "little, far from the end": ({"shoulder_far": "6.9 mm"}, []),
    "flush inside": ({"rail": ("60 mm", "18 mm"), "set_back": "6 mm"}, []),
    "out inside": ({"rail": ("60 mm", "18 mm"), "set_back": "6.1 mm"}, ["rail-stands-out"]),
    "easy": ({"fit": "0.2 mm"}, []),
    "loose": ({"fit": "0.21 mm"}, ["fit-loose"]),
}


@pytest.mark.parametrize(("raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(raw, codes):
    findings = KIND.build(request(**raw)).findings
    assert codes_of(findings) == codes
    # What the boards are to blame for has no place among the parameters.
    on_boards = {"rail-wide"} if "tenon_thickness" in raw else {"rail-wide", "mortise-wall-thin"}
    placeless = {finding.code for finding in findings if not finding.place}
    assert placeless == on_boards & set(codes)


@pytest.mark.parametrize(("horn", "far"), [({}, 10), ({"horn": "20 mm"}, 14)])
def test_what_closes_a_mortise_when_its_horn_is_off_is_as_wide_as_it_by_rule(horn, far):
    """A third of 42 is 14; a sixth of 60 is 10, and stays so at the reference edge."""
    joint = KIND.build(request(rail=("60 mm", "42 mm"), stile=("64 mm", "50 mm"), **horn))
    (row,) = (row for row in joint.rows if (row.role, row.start) == ("rail", "reference edge"))
    assert [mark.position for mark in row.marks] == [10, 60 - far]


SPLAT = {"rail": ("4 in", "1/2 in"), "stile": ("3 1/2 in", "1 1/4 in"), "tenon_length": "3/4 in"}
SLAT = {"rail": ("60 mm", "16 mm"), "stile": ("90 mm", "32 mm"), "tenon_length": "15 mm"}
BAR = {"rail": ("20 mm", "24 mm"), "stile": ("50 mm", "24 mm"), "tenon_length": "20 mm"}
MUNTIN = {
    "rail": ("4 in", "1 3/8 in"),
    "stile": ("4 1/2 in", "1 3/8 in"),
    "tenon_length": "1 1/2 in",
    "groove": "7/16 in",
}
LEG = {"rail": ("3 in", "1 3/4 in"), "stile": ("3 1/2 in", "1 3/4 in"), "tenon_length": "1 1/2 in"}


@pytest.mark.parametrize(
    ("raw", "front", "is_told"),
    [
        # Less than half way in, all of them, and as they are made.
        (SPLAT | {"at": "8 in"}, True, False),
        (SLAT | {"at": "173 mm"}, True, False),
        (BAR | {"at": "330 mm"}, False, False),
        (MUNTIN | {"middle": True}, True, False),
        (MUNTIN | {"at": "8 in"}, True, False),
        # What holds a frame, or stands on its foot, is held by its tenon.
        (SPLAT | {"at": "8 in"}, False, True),
        (SPLAT | {"at": "0 in"}, True, True),
        (SLAT | {"rail": ("60 mm", "17 mm"), "at": "173 mm"}, True, True),
        (BAR | {"rail": ("25 mm", "24 mm"), "at": "330 mm"}, False, True),
        (BAR, False, True),
        (
            BAR
            | {"stile": ("60 mm", "60 mm"), "tenon_length": "18 mm", "at": "330 mm"}
            | {"on": "inside"},
            False,
            True,
        ),
        (MUNTIN, True, True),
        (MUNTIN | {"middle": True}, False, True),
        (LEG | {"at": "2 in"}, True, True),
        (LEG | {"middle": True}, True, True),
    ],
)
def test_a_short_tenon_is_told_of_what_holds_the_frame_and_not_of_what_fills_it(
    raw, front, is_told
):
    boards = with_lengths(request(**raw), 700, 900)
    joint = KIND.build(replace(boards, first_in_front=front))
    assert ("tenon-short" in {one.code for one in joint.findings}) == is_told


def test_a_mortise_as_deep_as_a_handbook_takes_it_is_not_spoken_against():
    """Fairham, Woodwork Joints: seven eighths of 64 are 56."""
    joint = KIND.build(request(tenon_length="54 mm"))
    assert settings(joint)[-1] == 56
    assert joint.findings == ()


def test_the_mortise_comes_first_and_the_tenon_is_fitted_to_it():
    headings = [step.heading for step in KIND.build(request()).steps]
    order = [
        "Chop the mortise",
        "Saw the cheeks",
        "Saw the shoulders",
        "Fit the tenon to the mortise",
    ]
    assert [heading for heading in headings if heading in order] == order


def test_the_steps_tell_the_horn_the_shoulders_and_the_fit_where_there_are_any():
    plain = " ".join(step.words for step in KIND.build(request(shoulder="0 mm")).steps)
    assert "horn" not in plain
    assert "10 mm from the rail's far edge" in plain
    assert "from the reference edge" not in plain
    told = " ".join(step.words for step in KIND.build(request(horn="20 mm", fit="0.1 mm")).steps)
    assert "saw off every horn" in told
    assert "Set the mortise gauge to 6.8 mm and its stock to 7.1 mm" in told
    assert ZERO not in settings(KIND.build(request(horn="0 mm")))


def test_what_is_left_of_a_rail_between_its_shoulders_is_told_where_its_length_is():
    """The cabinet door's, by its note: 280 between the stiles. Of the frame the plan tells."""
    job = read_job((Path(__file__).parents[2] / "sample_jobs/cabinet_door.toml").read_text("utf-8"))
    first, *_ = job.joints[0].joint.steps
    assert (
        "The rail is 376 mm long, ends square: with a tenon 48 mm long at each, 280 mm are left "
        "between its shoulders."
    ) in first.words
    assert not any(size.name.startswith("frame") for size in job.joints[0].joint.sizes)
