"""Halvings and bridles: worked cases, handbooks' rules, solids, pages, what is refused."""

from math import cos, radians, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.drawings.figure import Role
from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import Joint, Task
from joinery_templates.joints.halvings import bridle, halving
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.tenons import mortise_and_tenon
from joinery_templates.joints.tool_fit import with_tool_advice
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board, Face
from tests.drawings.test_handedness_of_dovetail_halving import as_seen, faces_of
from tests.joints import told_crossing
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.strategies import lengths
from tests.joints.test_waste_told import drawn
from tests.joints.worked import codes_of, face, refused, request_of, sizes, with_lengths
from tests.pdf.page_reading import KNIFE, SAW
from tests.pdf.wrap_reading import unmatched
from tests.strategies import SOLID_PROPERTY

KINDS = (halving.KIND, bridle.KIND)


def request(
    kind: Kind,
    rail: tuple[str, str] = ("50 mm", "20 mm"),
    stile: tuple[str, str] = ("60 mm", "20 mm"),
    **raw: object,
) -> Request:
    return request_of(kind, rail, stile, names=("bar", "post"), **raw)


def built(kind: Kind, **raw: object) -> Joint:
    return kind.build(request(kind, **raw))


def lines(joint: Joint, member: int, which: Face) -> list[tuple[tuple[float, float], ...]]:
    """The lines on a face, from the reference edge or the outside face and from y = 0."""
    return [
        tuple(tuple(map(float, end)) for end in (line.start, line.end))
        for line in face(joint, member, which).lines
    ]


# Worked by hand, and by handbooks


def test_of_two_boards_of_20_mm_half_is_left_of_each():
    """Noyes 1910, nos. 14 to 17: half the thickness of each; 1/16 in over at the end."""
    joint = built(halving.KIND)
    assert sizes(joint)["rail, thickness left at the joint"] == 10
    assert sizes(joint)["stile, thickness left at the joint"] == 10
    assert [setting.length for setting in joint.lengths] == [10, Fraction("61.5"), Fraction("51.5")]
    inches = built(
        halving.KIND, rail=("2 in", "3/4 in"), stile=("2 in", "3/4 in"), units=Units.INCH
    )
    assert [one.length / INCH for one in inches.lengths] == [
        Fraction(3, 8),
        *[2 + Fraction(1, 16)] * 2,
    ]


@pytest.mark.parametrize("form", ["corner", "tee", "cross"])
@pytest.mark.parametrize("gauge", ["10 mm", "9.7 mm", "10.4 mm", "4 mm"])
def test_an_error_of_the_gauge_cancels_for_both_are_gauged_from_the_outside_face(form, gauge):
    """Noyes 1910, p. 155: what the one gets thicker the other gets thinner."""
    joint = built(halving.KIND, form=form, depth=gauge)
    left = [sizes(joint)[f"{role}, thickness left at the joint"] for role in ("rail", "stile")]
    assert sum(left) == 20
    mated = mate(joint)
    assert max(mated.overlap, abs(mated.missing)) < CLOSE_MM3


def test_unequal_boards_come_flush_outside_and_meet_in_the_middle_of_the_thinner():
    joint = built(halving.KIND, stile=("60 mm", "30 mm"))
    assert sizes(joint)["rail, thickness left at the joint"] == 10
    assert sizes(joint)["stile, thickness left at the joint"] == 20


def test_a_cross_is_notched_by_half_the_mates_width_from_the_middle_of_the_length():
    """Noyes 1910, p. 156: of 300 and 60 the lines are at 150 - 30 and 150 + 30."""
    one = with_lengths(request(halving.KIND, form="cross"), 300, 400)
    joint = halving.KIND.build(one)
    assert [[mark.position for mark in row.marks] for row in joint.rows] == [[120, 180], [175, 225]]
    parts = [member.part for member in joint.members]
    assert [(part.along, part.start, part.reach) for part in parts] == [(120, 0, 60), (175, 0, 50)]
    # At 60 degrees the middle of the slanting notch is there too.
    slanting = halving.KIND.build(
        with_lengths(request(halving.KIND, form="cross", angle=60), 300, 400)
    )
    ys = [y for line in lines(slanting, 0, Face.INSIDE) for _, y in line]
    assert (max(ys) + min(ys)) / 2 + float(slanting.members[0].part.along) == pytest.approx(150)
    told = halving.KIND.build(
        with_lengths(request(halving.KIND, form="cross", at="30 mm"), 300, 400)
    )
    assert [member.part.along for member in told.members] == [120, 30]


def test_a_bridles_lines_are_those_of_a_through_mortise_and_tenon_by_thirds():
    """Selden, lesson XXXII: gauged alike, and the opposite parts removed. 21 is 7, 7 and 7."""
    sizes_ = {"rail": ("50 mm", "21 mm"), "stile": ("60 mm", "21 mm")}
    joint = built(bridle.KIND, **sizes_, overhang="3 mm")
    tenoned = built(
        mortise_and_tenon.KIND,
        **sizes_,
        through=True,
        shoulder="0 mm",
        shoulder_far="0 mm",
        tenon_thickness="7 mm",
        proud="3 mm",
    )
    for which in Face:
        assert sorted(lines(joint, 0, which)) == sorted(lines(tenoned, 0, which))
    # The mortise's sides run on to the stile's end, 3 past the rail; its wood there goes too.
    slot = [((7, 0), (7, 53)), ((7, 53), (14, 53)), ((14, 0), (14, 53))]
    mortise = {7, 14}
    for which in (Face.REFERENCE_EDGE, Face.FAR_EDGE):
        assert unmatched(lines(joint, 1, which), slot) == []
        assert {z for line in lines(tenoned, 1, which) for z, _ in line} == mortise


CHISELS = {
    "none named, in half millimetres": ((), "6.5 mm"),
    "the nearest": ((6, 8), "6 mm"),
    "none from a quarter to two fifths": ((4, 9), "6.5 mm"),
}


@pytest.mark.parametrize(("owned", "wanted"), CHISELS.values(), ids=CHISELS)
def test_the_tongue_is_a_third_of_the_thinner_board_or_a_chisel(owned, wanted):
    tools = Tools(chisels=tuple(map(Fraction, owned)))
    joint = built(bridle.KIND, stile=("60 mm", "25 mm"), tools=tools)
    assert sizes(joint)["thickness of the tongue"] == Fraction(wanted.removesuffix(" mm"))
    assert ("your chisels" in joint.rules[0]) == (wanted == "6 mm")


def test_in_a_tee_the_stile_keeps_the_tongue_and_the_rails_end_is_slotted():
    corner, tee = (built(bridle.KIND, form=form, overhang="3 mm") for form in ("corner", "tee"))
    assert told_crossing.slot_and_tongue(corner)[0] == "stile"
    assert told_crossing.slot_and_tongue(tee)[0] == "rail"
    walls = [((0, y), (60, y)) for y in (0, 50)]
    for which in (Face.OUTSIDE, Face.INSIDE):
        assert unmatched(lines(tee, 1, which), walls) == []


SINE, COSINE = sin(radians(60)), cos(radians(60))
BACK = COSINE / SINE
"""How far a line at 60 degrees comes back for each mm across a board."""


def test_a_corner_of_60_degrees_by_hand():
    """Its far edges meet 1.5 past a square end, the shoulder is the mate's width / sin further."""
    joint = built(halving.KIND, angle=60, overhang="1.5 mm")
    for member, (own, other), which in ((0, (50, 60), Face.INSIDE), (1, (60, 50), Face.OUTSIDE)):
        near = 1.5 + own * BACK + other / SINE
        far = near - own * BACK
        assert unmatched(lines(joint, member, which), [((0, near), (own, far))]) == []
        open_to = (10, 20) if member == 0 else (0, 10)
        for edge, y in ((Face.REFERENCE_EDGE, near), (Face.FAR_EDGE, far)):
            wanted = [((10, 0), (10, y)), ((open_to[0], y), (open_to[1], y))]
            assert unmatched(lines(joint, member, edge), wanted) == []
    # 1.5 + 28.8675 + 69.2820 along the rail's reference edge, and 28.8675 less along the other.
    ((start, end),) = lines(joint, 0, Face.INSIDE)
    assert sorted((start[1], end[1])) == pytest.approx([70.78203, 99.64954], abs=1e-5)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_a_mitre_runs_from_the_inner_corner_to_the_outer_one(kind):
    """Of unequal boards too: 60 across and 50 across, both 2 past the other."""
    joint = built(kind, mitred=True, overhang="2 mm")
    for member, (own, other) in enumerate(((50, 60), (60, 50))):
        mitre = ((0, other + 2), (own, 2))
        assert unmatched(lines(joint, member, Face.OUTSIDE), [mitre]) == []
    # Equal boards at any angle: the mitre halves it (Noyes 1910, p. 167).
    equal = built(kind, stile=("50 mm", "20 mm"), mitred=True, angle=70)
    for member in (0, 1):
        (((x0, y0), (x1, y1)),) = lines(equal, member, Face.OUTSIDE)
        assert abs((y1 - y0) / (x1 - x0)) == pytest.approx(1 / tan(radians(35)))


# Solids


@st.composite
def crossings(draw: st.DrawFn) -> tuple[Kind, Request]:
    """Both kinds in every form, of any two widths and thicknesses, at angles from 30 to 150."""
    kind = draw(st.sampled_from(KINDS))
    forms = next(one.choices for one in kind.parameters if one.name == "form")
    form = draw(st.sampled_from(forms))
    thick = draw(lengths(8, 40)), draw(lengths(8, 40))
    raw = {
        "form": form,
        "angle": draw(st.one_of(st.just(Fraction(90)), st.integers(30, 150).map(Fraction))),
        "mitred": form == "corner" and draw(st.booleans()),
        "overhang": None if form == "cross" else draw(lengths(0, 6)),
    }
    share = min(thick) * draw(st.integers(2, 8)) / 10
    if kind is halving.KIND:
        raw |= {"depth": share, "shows": draw(st.sampled_from(["outside", "inside"]))}
    else:
        raw |= {"tongue": share}
    boards = (
        Board("bar", draw(lengths(15, 90)), thick[0]),
        Board("post", draw(lengths(15, 90)), thick[1]),
    )
    given_ = kind.parameter_class(**raw)
    return kind, Request(boards, given_, draw(st.sampled_from(list(Units))), Tools())


@SOLID_PROPERTY
@given(crossings())
def test_the_boards_fill_the_crossing_flush_outside_and_come_apart_one_way_only(crossing):
    kind, one = crossing
    joint = kind.build(one)
    mated = mate(joint)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3
    assert mated.first.bounding_box()[2] == mated.second.bounding_box()[2] == 0
    away = tuple(map(float, joint.pose.apart))
    for far in (0.01, 1, 200):
        moved = mated.first.translate(tuple(far * one for one in away))
        assert (moved ^ mated.second).volume() < CLOSE_MM3
    back = mated.first.translate(tuple(-one for one in away))
    assert (back ^ mated.second).volume() > 1


# On the page


JOB = """
title = "Handed"
[paper]
size = "A3"
[boards.bar]
width = 40
thickness = 20
[boards.post]
width = 60
thickness = 20
length = 700
[[joints]]
kind = "{kind}"
corners = [{{ name = "Left", like = "A" }}, {{ name = "Right", like = "B" }}]
views = ["faces"]
rail = "bar"
stile = "post"
"""


def told(text: str) -> list[str]:
    """The codes of all findings."""
    try:
        return [one.code for one in read_job(text).findings]
    except InputError as error:
        return [one.code for one in error.findings]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@pytest.mark.parametrize("corner", ["Left", "Right"])
def test_a_slanting_rails_notch_leans_towards_its_far_edge_on_both_stiles(kind, corner):
    """At 60 degrees, up and away from the rail: 60 / tan 60 is 34.641; 40 / sin 60 is 46.188.

    The rail comes in from the right at the left stile, whose reference edge is on the right;
    at the right stile all is its mirror image. The dashed line is where the far edge meets
    that edge.
    """
    job = JOB.format(kind=kind.name) + 'form = "tee"\nangle = 60\n'
    stile = faces_of(job, corner)["stile", "outside face"]
    near, far = (60, 0) if corner == "Left" else (0, 60)
    rise, wide = 60 * BACK, 40 / SINE
    walls = [((near, y), (far, y + rise)) for y in (0, -wide)]
    assert unmatched(as_seen(stile, "stile", SAW), walls) == []
    words = " ".join(one.text for one in stile.words)
    assert f"{corner.lower()} of the rail" in words
    assert "label names, solid where it is cut" not in words
    assert "▲ top end" in words


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
@pytest.mark.parametrize("corner", ["Left", "Right"])
def test_a_mitre_starts_at_the_reference_edge_of_either_hand(kind, corner):
    """A left-hand end has that edge on the left, seen with the end at the top."""
    found = faces_of(JOB.format(kind=kind.name) + "mitred = true\noverhang = 2\n", corner)
    for role, (own, other) in (("rail", (40, 60)), ("stile", (60, 40))):
        is_left = (role == "rail") == (corner == "Left")
        near, far = (0, own) if is_left else (own, 0)
        mitre = [((near, other + 2), (far, 2))]
        drawn = as_seen(found[role, "outside face"], "rail", KNIFE)
        assert unmatched(drawn, mitre) == []


def test_what_is_said_of_a_mitres_waste_stands_before_its_line():
    """The end is at the top, and all above the mitre goes."""
    boards = {"rail": ("22 mm", "16 mm"), "stile": ("45 mm", "15 mm")}
    joint = built(bridle.KIND, **boards, mitred=True, angle=80)
    pattern = drawn(joint, joint.members[0], Face.OUTSIDE)
    (mitre,) = (stroke for stroke in pattern.strokes if stroke.role is Role.KNIFE)
    (x0, y0), (x1, y1) = mitre.start, mitre.end
    told = [text for layer in pattern.layers for text in layer.texts if text.opaque]
    assert told
    assert all(one.at[1] > y0 + (one.at[0] - x0) * (y1 - y0) / (x1 - x0) for one in told)


@pytest.mark.parametrize(
    ("at", "wanted"),
    # The corner takes 41.5 of the stile, of which a third, 6.67, is a sound wall.
    [
        ("41.5", ["joints-meet"]),
        ("48.1", ["wall-thin"]),
        ("48.2", []),
        ("660.1", ["out-at-end"]),
    ],
)
def test_joints_along_one_stile_are_checked_against_each_other(at, wanted):
    corners = '[{ name = "Top left", like = "A" }, { name = "Top right", like = "B" }]'
    text = JOB.format(kind="halving")
    tee = text[text.index("[[joints]]") :].replace('"Left"', '"Middle left"')
    tee += f'name = "Middle"\nform = "tee"\nat = {at}\n'
    whole = text[: text.index("corners")] + f"corners = {corners}\n"
    whole += 'rail = "bar"\nstile = "post"\n' + tee
    assert told(whole) == wanted


# Refused and advised


REFUSED = {
    "the whole board": (halving, {"depth": "20 mm"}, ("no-room", "depth")),
    "more than the thinner": (
        halving,
        {"depth": "15 mm", "stile": ("60 mm", "12 mm")},
        ("no-room", "depth"),
    ),
    "no cheeks": (bridle, {"tongue": "20 mm"}, ("no-room", "tongue")),
    "a mitred tee": (halving, {"form": "tee", "mitred": True}, ("not-together", "mitred")),
    "a mitred bridle tee": (bridle, {"form": "tee", "mitred": True}, ("not-together", "mitred")),
    "a corner's place": (bridle, {"at": "100 mm"}, ("not-together", "at")),
    "a tee's rail": (
        halving,
        {"form": "tee", "rail_at": "100 mm"},
        ("not-together", "rail_at"),
    ),
    "a cross stands over": (
        halving,
        {"form": "cross", "overhang": "1 mm"},
        ("not-together", "overhang"),
    ),
}


@pytest.mark.parametrize(("kind", "raw", "expected"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(kind, raw, expected):
    (finding,) = refused(request(kind.KIND, **raw), kind.KIND.build)
    assert (finding.code, finding.place) == expected
    assert finding.remedy


@pytest.mark.parametrize("angle", ["29.9°", "150.1°"])
@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.name)
def test_an_angle_too_sharp_is_refused_with_its_limits(kind, angle):
    with pytest.raises(InputError) as caught:
        request(kind, angle=angle)
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == ("out-of-limits", "angle")
    assert "from 30° to 150°" in finding.remedy


def test_boards_too_short_are_told_together():
    one = with_lengths(request(halving.KIND), 61, 51)
    assert [found.code for found in refused(one, halving.KIND.build)] == ["board-too-short"] * 2


ADVISED = {
    "usual": (halving, {}, []),
    "a third": (halving, {"depth": "6.7 mm"}, []),
    "less": (halving, {"depth": "6.6 mm"}, ["lap-thin"]),
    "less of the other": (halving, {"depth": "13.4 mm"}, ["lap-thin"]),
    "boards too unlike": (halving, {"rail": ("50 mm", "6 mm")}, []),
    "thick and thin": (halving, {"rail": ("50 mm", "40 mm"), "shows": "outside"}, ["lap-thin"]),
    "45 degrees": (halving, {"angle": 45}, []),
    "sharper": (halving, {"angle": "44.9°"}, ["angle-sharp"]),
    "blunter": (bridle, {"angle": "135.1°"}, ["angle-sharp"]),
    "5 in wide": (bridle, {"rail": ("127 mm", "20 mm")}, []),
    "wider": (bridle, {"rail": ("127.1 mm", "20 mm")}, ["boards-wide"]),
    "a quarter": (bridle, {"tongue": "5 mm"}, []),
    "thinner": (bridle, {"tongue": "4.9 mm"}, ["tongue-thin"]),
    "two fifths": (bridle, {"tongue": "8 mm"}, []),
    "thicker": (bridle, {"tongue": "8.1 mm"}, ["tongue-thick"]),
}


@pytest.mark.parametrize(("kind", "raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(kind, raw, codes):
    assert codes_of(kind.KIND.build(request(kind.KIND, **raw)).findings) == codes


def test_slots_and_notches_are_held_against_chisels_and_saw():
    """A slot of 7 between two saw cuts; a notch as wide as its mate, whatever the angle."""
    tee = built(bridle.KIND, form="tee", tongue="7 mm", angle=60)
    spaces = [(one.what, one.narrowest, one.task, one.sawn) for one in tee.clearings]
    assert spaces == [
        ("rail, slot", 7, Task.SAW_FIRST, True),
        ("stile, notch", 50, Task.CUT_SECOND, True),
    ]
    tools = Tools(chisels=(Fraction(8),), kerf=Fraction(4))
    found = with_tool_advice(tee, tools, Units.MM).findings
    assert [one.code for one in found] == ["no-chisel-fits", "space-below-two-cuts"]
