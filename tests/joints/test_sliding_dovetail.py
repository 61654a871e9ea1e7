"""The sliding dovetail: worked figures, what is refused and advised, and solids that slide."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction, square_root
from joinery_templates.joint import Joint
from joinery_templates.joints.housings.sliding_dovetail import KIND
from joinery_templates.joints.housings.tail import BOTH, LOWER, UPPER, Parameters
from joinery_templates.joints.kind import Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, read_length
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.faces import is_waste, lay_out
from tests.joints.solids import CLOSE_MM3, SHY_MM, mate, with_fault
from tests.joints.strategies import GAPS, NO_FIT, PRESSED, SLOPES, ZERO, lengths
from tests.strategies import PROPERTY, SOLID_PROPERTY

Segments = set[frozenset[tuple[Fraction, Fraction]]]


def request(
    width: str = "100 mm",
    thicknesses: tuple[str, str] = ("18 mm", "20 mm"),
    units: Units = Units.MM,
    side_width: str = "",
    **raw: object,
) -> Request:
    shelf, side = (read_length(thickness, units) for thickness in thicknesses)
    across = read_length(width, units)
    boards = (
        Board("shelf", across, shelf),
        Board("upright", read_length(side_width, units) if side_width else across, side),
    )
    return Request(boards, read_parameters(Parameters, raw, units), units, Tools())


# Slope 1:6 over 6: the sides lean 1. Shoulders of 2, so that 1 is left beside the wide end.
WORKED = {"slope": "1:6", "depth": "6 mm", "shoulder": "2 mm"}


def segments(joint: Joint, number: int, face: Face) -> Segments:
    end = joint.members[number].part
    return {frozenset((line.start, line.end)) for line in lay_out(end, face, end.reach + 10).lines}


def lines(*ends: tuple[object, object, object, object]) -> Segments:
    return {
        frozenset(((Fraction(str(a)), Fraction(str(b))), (Fraction(str(c)), Fraction(str(d)))))
        for a, b, c, d in ends
    }


def lengths_of(joint: Joint) -> dict[str, Fraction]:
    return {setting.use: setting.length for setting in joint.lengths}


def sizes_of(joint: Joint) -> dict[str, Fraction]:
    return {size.name: size.length for size in joint.sizes}


# Worked by hand


def test_a_stopped_and_tapered_housing_by_hand():
    """100 wide, stop 15, taper 1:50: from the back to the stop it comes in by 85 / 50 = 1.7."""
    joint = KIND.build(request(stop="15 mm", taper=50, **WORKED))
    assert segments(joint, 1, Face.INSIDE) == lines(
        (15, 2, 100, 2),
        (15, "14.3", 100, 16),
        (15, 2, 15, "14.3"),
    )
    # On the back edge z = 20 is the inside face, z = 14 the housing's bottom.
    assert segments(joint, 1, Face.FAR_EDGE) == lines(
        (20, 2, 14, 1), (20, 16, 14, 17), (14, 1, 14, 17)
    )
    assert segments(joint, 1, Face.REFERENCE_EDGE) == segments(joint, 1, Face.OUTSIDE) == set()


def test_the_tail_of_that_housing_by_hand():
    """It starts at 16, where the taper has come in by 84 / 50 = 1.68."""
    joint = KIND.build(request(stop="15 mm", taper=50, **WORKED))
    assert segments(joint, 0, Face.END_GRAIN) == lines(
        (16, 1, 100, 1),
        (16, "15.32", 100, 17),
        (16, 0, 16, 18),  # the front corner is sawn out first, right through
    )
    across = lines((16, 0, 16, 6), (0, 6, 16, 6), (16, 6, 100, 6))
    assert segments(joint, 0, Face.OUTSIDE) == segments(joint, 0, Face.INSIDE) == across
    assert segments(joint, 0, Face.FAR_EDGE) == lines(
        (1, 0, 2, 6), (17, 0, 16, 6), (0, 6, 2, 6), (16, 6, 18, 6)
    )
    assert segments(joint, 0, Face.REFERENCE_EDGE) == lines((0, 6, 18, 6))


def test_a_through_housing_shows_its_section_on_both_edges():
    """At the front it has come in by 100 / 50 = 2."""
    joint = KIND.build(request(taper=50, **WORKED))
    assert segments(joint, 1, Face.INSIDE) == lines((0, 2, 100, 2), (0, 14, 100, 16))
    assert segments(joint, 1, Face.REFERENCE_EDGE) == lines(
        (20, 2, 14, 1), (20, 14, 14, 15), (14, 1, 14, 15)
    )


@pytest.mark.parametrize(
    ("sides", "housing", "end_grain"),
    [
        # The unsloped side is flush: its wall stands at the shelf's face, 0 or 18.
        (UPPER, lines((0, 4, 100, 2), (0, 18, 100, 18)), lines((0, 3, 100, 1))),
        (LOWER, lines((0, 0, 100, 0), (0, 14, 100, 16)), lines((0, 15, 100, 17))),
    ],
)
def test_one_side_alone_slopes_and_carries_the_taper(sides, housing, end_grain):
    joint = KIND.build(request(sides=sides, taper=50, **WORKED))
    assert segments(joint, 1, Face.INSIDE) == housing
    assert segments(joint, 0, Face.END_GRAIN) == end_grain
    plain = Face.INSIDE if sides == UPPER else Face.OUTSIDE
    assert segments(joint, 0, plain) == set()


def test_a_gap_is_taken_off_the_tail_square_to_each_side():
    """Slope 3:4 leans 5/4 of a gap along the end, since 3² + 4² = 5²; here as 1:4/3."""
    joint = KIND.build(
        request(
            slope="3:8", depth="8 mm", thicknesses=("30 mm", "20 mm"), shoulder="4 mm", fit="0.1 mm"
        )
    )
    # 3:8 leans 3; the gap is 0.1 * sqrt(73) / 8 across the end.
    gap = Fraction(1, 10) * square_root(Fraction(73)) / 8
    (low, high) = sorted({y for line in segments(joint, 0, Face.END_GRAIN) for _, y in line})
    assert abs(low - 1 - gap) < Fraction(1, 10**12)
    assert abs(high - 29 + gap) < Fraction(1, 10**12)
    assert segments(joint, 1, Face.INSIDE) == lines((0, 4, 100, 4), (0, 26, 100, 26))


def test_settings_and_sizes_by_hand():
    joint = KIND.build(request(stop="15 mm", taper=50, **WORKED))
    lower = "lower side of the tail on the end grain, from the lower face"
    assert lengths_of(joint) == {
        "depth of the housing and length of the tail": 6,
        "upper side of the tail on the end grain, from the upper face": 1,
        f"{lower}, at the shelf's back edge": 1,
        f"{lower}, where the tail begins": Fraction("2.68"),
        "mouth of the housing, at the shelf's back edge": 14,
        "mouth of the housing, where the housing begins": Fraction("12.3"),
        "stop of the housing, from the front edge": 15,
        "where the tail begins, from the front edge": 16,
    }
    assert sizes_of(joint) == {
        "tail at its end (wide), at the shelf's back edge": 16,
        "tail at its end (wide), where the tail begins": Fraction("14.32"),
        "tail at the shoulders (narrow), at the shelf's back edge": 14,
        "tail at the shoulders (narrow), where the tail begins": Fraction("12.32"),
        "shoulder at the upper face": 2,
        "shoulder at the lower face, at the shelf's back edge": 2,
        "shoulder at the lower face, where the tail begins": Fraction("3.68"),
    }
    assert [[mark.position for mark in row.marks] for row in joint.rows] == [
        [2, 16],
        [2, Fraction("14.3")],
    ]


@pytest.mark.parametrize(
    ("more", "tail", "housing"),
    [
        ({"stop": "15 mm"}, "where the tail begins", "where the housing begins"),
        ({}, "at the front edge", "at the front edge"),
    ],
)
def test_every_figure_at_the_front_says_where_that_is(more, tail, housing):
    """A stopped tail begins further in than its housing; both are told from the front edge."""
    joint = KIND.build(request(taper=50, **more, **WORKED))
    told = [*lengths_of(joint), *sizes_of(joint), *(row.title for row in joint.rows)]
    at_front = [words for words in told if words.endswith((f", {tail}", f", {housing}"))]
    assert len(at_front) == 6
    for words in at_front:
        of_housing = "housing" in words.partition(",")[0] or "down the side" in words
        assert words.endswith(f", {housing if of_housing else tail}")
    if more:
        assert lengths_of(joint)["where the tail begins, from the front edge"] == 16
        assert lengths_of(joint)["stop of the housing, from the front edge"] == 15


def test_the_templates_names_of_edges_and_faces_are_told_once_and_then_left():
    steps = KIND.build(request(stop="15 mm", taper=50, **WORKED)).steps
    first, rest = steps[0].words, " ".join(step.words for step in steps[1:])
    assert "front edge is called the reference edge and the back edge the far edge" in first
    for words in ("reference edge", "far edge", "outside face"):
        assert words in first
        assert words not in rest


def test_the_words_for_fitting_say_how_far_a_shaving_lets_it_go():
    """At 1 in 100 a tenth of a millimetre is 10 mm of the way."""
    joint = KIND.build(request("250 mm", stop="15 mm", taper=100, **WORKED))
    told = {step.heading: step.words for step in joint.steps}
    assert "0.1 mm off the tail's lower side lets it go 10 mm further" in told["Fit"]
    assert "at the upper face 2 mm deep;" in told["Saw the shoulders"]
    assert (
        "at the lower face 2 mm deep at the shelf's back edge and 4.34 mm where the tail begins, "
        "16 mm from the front edge" in told["Saw the shoulders"]
    )


@pytest.mark.parametrize(
    ("thickness", "units", "depth", "shoulder"),
    [
        # A third, rounded down to halves of a mm or sixteenths of an inch; the slope is 1:7.
        ("20 mm", Units.MM, Fraction("6.5"), 2),  # 6.67; leans 0.93, and 1 more
        ("18 mm", Units.MM, 6, 2),  # 0.86 and 1
        ("19 mm", Units.MM, 6, 2),  # 6.33
        ("1 mm", Units.MM, Fraction(1, 3), 1),  # no half fits; 0.05 and 1
        ("3/4 in", Units.INCH, INCH / 4, INCH / 16),  # 0.907 mm and 1: 1.2 sixteenths
    ],
)
def test_depth_and_shoulder_by_rule(thickness, units, depth, shoulder):
    joint = KIND.build(request(thicknesses=("18 mm", thickness), units=units))
    assert lengths_of(joint)["depth of the housing and length of the tail"] == depth
    assert sizes_of(joint)["shoulder at the upper face"] == shoulder
    assert [rule.partition(":")[0] for rule in joint.rules] == ["Depth of the housing", "Shoulder"]


# Refused and advised

REFUSED = {
    "shelf wider than the side": ({"side_width": "99 mm"}, ("widths-differ", "")),
    "deeper than half": ({"depth": "10.1 mm"}, ("housing-too-deep", "depth")),
    "tail wider than the shelf": ({"shoulder": "0.9 mm"}, ("shoulder-too-narrow", "shoulder")),
    "no tail between the shoulders": ({"shoulder": "9 mm"}, ("no-room", "shoulder")),
    "tapered to nothing": ({"taper": 20, "shoulder": "6.6 mm"}, ("no-room", "shoulder")),
    "taper too steep": ({"taper": "19.9"}, ("taper-too-steep", "taper")),
    "stopped past the back": ({"stop": "99 mm"}, ("no-room", "stop")),
    "pressed past the face": ({"shoulder": "1 mm", "fit": "-1 mm"}, ("no-room", "fit")),
}


@pytest.mark.parametrize(("raw", "expected"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused_with_its_code_and_place(raw, expected):
    with pytest.raises(InputError) as caught:
        KIND.build(request(**(WORKED | raw)))
    (finding,) = caught.value.findings
    assert (finding.code, finding.place) == expected
    assert finding.message
    assert finding.remedy


def test_everything_wrong_with_the_boards_is_told_at_once():
    wide = Board("shelf", Fraction(120), Fraction(18), Fraction(6))
    narrow = Board("upright", Fraction(100), Fraction(20), Fraction(18))
    with pytest.raises(InputError) as caught:
        KIND.build(replace(request(**WORKED), boards=(wide, narrow)))
    assert [finding.code for finding in caught.value.findings] == [
        "widths-differ",
        "board-too-short",
        "board-too-short",
    ]


ADVISED = {
    "none": ({}, []),
    "tail flush with the faces": ({"shoulder": "1 mm"}, []),
    "half of the side": ({"depth": "10 mm"}, ["housing-deep"]),
    "a third": ({"depth": "6.6 mm"}, []),
    "steep": ({"slope": "1:3.9"}, ["slope-steep"]),
    "flat": ({"slope": "1:10.1"}, ["slope-flat"]),
    "thin shoulder": ({"slope": "1:8", "shoulder": "0.9 mm"}, ["shoulder-narrow"]),
    "thin tail": ({"shoulder": "6.8 mm"}, ["tail-weak"]),
    "near the edge": ({"stop": "4.9 mm"}, ["stop-near-edge"]),
    "room for a back": ({"side_width": "120 mm"}, []),
    "open behind": ({"side_width": "120.1 mm"}, ["housing-open"]),
    "far enough": ({"stop": "5 mm"}, []),
    "long and parallel": ({"width": "150.1 mm", "taper": 0}, ["long-and-parallel"]),
    "long, not told how": ({"width": "150.1 mm"}, []),
    "long and tapered": ({"width": "250 mm", "taper": 100}, []),
    "loose": ({"fit": "0.21 mm"}, ["fit-loose"]),
    "easy": ({"fit": "0.2 mm"}, []),
}


@pytest.mark.parametrize(("raw", "codes"), ADVISED.values(), ids=ADVISED)
def test_advice_is_given_where_it_is_due_and_only_there(raw, codes):
    findings = KIND.build(request(**(WORKED | raw))).findings
    assert [finding.code for finding in findings] == codes
    assert all(finding.source and finding.remedy for finding in findings)


# Solids


@st.composite
def sliding_dovetails(draw: st.DrawFn, fits: st.SearchStrategy[Fraction] = NO_FIT) -> Request:
    """Sliding dovetails that can be cut; the shelf is as thick as tail and shoulders come to."""
    width, side_thickness = draw(lengths(40, 400)), draw(lengths(10, 30))
    depth = side_thickness * draw(st.integers(20, 50)) / 100
    slope, sides = draw(SLOPES), draw(st.sampled_from([BOTH, UPPER, LOWER]))
    taper = draw(st.just(ZERO) | st.integers(20, 300).map(Fraction))
    shoulder = slope * depth + draw(lengths(1, 3))
    comes_in = width / taper if taper else ZERO
    shelf_thickness = draw(lengths(3, 20)) + comes_in + shoulder * (1 + (sides == BOTH))
    given_ = Parameters(
        sides=sides,
        slope=slope,
        depth=depth,
        shoulder=shoulder,
        stop=draw(st.just(ZERO) | lengths(5, 25)),
        stop_clearance=draw(lengths(0, 3)),
        taper=taper,
        fit=draw(fits),
    )
    shelf = Board("shelf", width, shelf_thickness)
    side = Board("upright", width + draw(st.just(ZERO) | lengths(1, 30)), side_thickness)
    return Request((shelf, side), given_, draw(st.sampled_from(list(Units))), Tools())


def tail_length(request_: Request) -> Fraction:
    stop, clearance = request_.given.stop, request_.given.stop_clearance
    return request_.boards[0].width - (stop + clearance if stop else ZERO)


def sloped(request_: Request) -> int:
    return 2 if request_.given.sides == BOTH else 1


def gap_volume(request_: Request, shy: Fraction = ZERO) -> float:
    """What a gap takes over the sloping sides: its share across the end, by depth and length.

    With both sides sloped only the lower is tapered.
    """
    given_ = request_.given
    across = [1 + given_.slope**2] * sloped(request_)
    across[-1] += (1 / given_.taper) ** 2 if given_.taper else ZERO
    # What lies behind the housing is looked at too, so its floor is no face of a region.
    area = (given_.depth - shy) * (tail_length(request_) - 2 * shy)
    return float(sum(square_root(one) for one in across) * area * abs(given_.fit))


@SOLID_PROPERTY
@given(sliding_dovetails())
def test_tail_and_shoulders_fill_the_housing_and_do_not_overlap(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


@PROPERTY
@given(
    st.builds(
        Parameters,
        sides=st.sampled_from([BOTH, UPPER, LOWER]),
        slope=st.integers(2, 60).map(lambda run: Fraction(1, run)),
        depth=st.none() | lengths(1, 20),
        shoulder=st.none() | lengths(1, 10),
        stop=st.just(ZERO) | lengths(0, 100),
        stop_clearance=lengths(0, 20),
        taper=st.just(ZERO) | st.integers(1, 1000).map(Fraction),
        fit=PRESSED | GAPS | st.sampled_from([ZERO, Fraction(-1), Fraction(1)]),
    ),
    st.tuples(lengths(5, 300), lengths(2, 40), lengths(5, 300), lengths(2, 40)),
    st.sampled_from(list(Units)),
)
def test_whatever_is_given_builds_soundly_or_is_refused_kindly(given_, sizes, units):
    width, thickness, side_width, side_thickness = sizes
    boards = (Board("shelf", width, thickness), Board("upright", side_width, side_thickness))
    try:
        joint = KIND.build(Request(boards, given_, units, Tools()))
    except InputError as error:
        assert all(f.message and f.remedy for f in error.findings)  # noqa: PT017
        return
    assert all(one.length > 0 for one in (*joint.sizes, *joint.lengths))
    for row in joint.rows:
        positions = [mark.position for mark in row.marks]
        assert positions == sorted(positions)
        assert positions
    shown = lay_out(joint.members[1].part, Face.FAR_EDGE, joint.members[1].part.reach + 10)
    assert len(shown.waste) == 1
    assert lay_out(joint.members[0].part, Face.END_GRAIN, Fraction(50)).waste


@SOLID_PROPERTY
@given(sliding_dovetails(fits=GAPS))
def test_a_gap_is_missing_at_the_sloping_sides_and_nowhere_else(request_):
    mated = mate(KIND.build(request_))
    assert mated.overlap < CLOSE_MM3
    assert mated.missing == pytest.approx(gap_volume(request_, SHY_MM), rel=1e-5)


@SOLID_PROPERTY
@given(sliding_dovetails(fits=PRESSED))
def test_a_negative_fit_overlaps_at_the_sloping_sides_and_nowhere_else(request_):
    mated = mate(KIND.build(request_))
    assert abs(mated.missing) < CLOSE_MM3
    assert mated.clash == pytest.approx(gap_volume(request_), rel=1e-5)


@SOLID_PROPERTY
@given(sliding_dovetails())
def test_the_shelf_slides_in_from_the_back(request_):
    mated = mate(KIND.build(request_))
    for back in (0.5, 5, 50):
        assert (mated.first.translate((back, 0, 0)) ^ mated.second).volume() < CLOSE_MM3


@SOLID_PROPERTY
@given(sliding_dovetails())
def test_a_taper_stops_the_shelf_at_its_place_and_a_parallel_tail_runs_on_to_the_stop(request_):
    """Half a millimetre too far forward the tapered side is 0.5 / N too thick all along."""
    given_ = request_.given.but(stop_clearance=Fraction(1))
    request_ = replace(request_, given=given_)
    mated = mate(KIND.build(request_))
    overlap = (mated.first.translate((-0.5, 0, 0)) ^ mated.second).volume()
    if not given_.taper:
        assert overlap < CLOSE_MM3
        return
    # Through, the front half millimetre stands before the side.
    along = tail_length(request_) - (ZERO if given_.stop else Fraction(1, 2))
    wedge = Fraction(1, 2) / given_.taper * along * given_.depth
    assert overlap == pytest.approx(float(wedge), rel=1e-4)


@SOLID_PROPERTY
@given(sliding_dovetails())
def test_it_cannot_be_pulled_out_of_the_side(request_):
    """Pulled by 1, each sloping side holds with its slope's share over what is still inside."""
    mated = mate(KIND.build(request_))
    held = (mated.first.translate((0, 1, 0)) ^ mated.second).volume()
    given_ = request_.given
    wanted = sloped(request_) * given_.slope * (given_.depth - 1) * tail_length(request_)
    assert held == pytest.approx(float(wanted), rel=1e-4)


@SOLID_PROPERTY
@given(sliding_dovetails())
def test_a_stopped_housing_shows_nothing_at_the_front_and_the_shelf_covers_its_shoulder(request_):
    joint = KIND.build(request_)
    shelf, side = (member.part for member in joint.members)
    shown = lay_out(side, Face.REFERENCE_EDGE, side.reach + 10)
    assert bool(shown.lines) == bool(shown.waste) == (not request_.given.stop)
    if request_.given.stop:
        half = shelf.board.thickness / 2
        assert is_waste(shelf, request_.given.stop, shelf.reach / 2, half)
        assert not is_waste(shelf, ZERO, shelf.reach + Fraction(1, 1000), half)
        assert not is_waste(side, request_.given.stop / 2, half, side.board.thickness)


@pytest.mark.parametrize(("member", "axis"), [(0, 2), (1, 1), (1, 2)])
def test_the_check_of_solids_sees_a_wall_out_of_place(member, axis):
    joint = KIND.build(request(stop="15 mm", taper=50, **WORKED))
    faulty = mate(with_fault(joint, member, Fraction("0.01"), 1 - member, axis))
    assert max(faulty.clash, faulty.missing) > 1


def test_a_shelf_narrower_than_the_side_leaves_the_housing_open_behind_it():
    """The taper runs on: 10 behind the shelf the mouth is 10 / 50 = 0.2 wider."""
    joint = KIND.build(request(side_width="110 mm", taper=50, **WORKED))
    assert segments(joint, 1, Face.INSIDE) == lines((0, 2, 110, 2), (0, 14, 110, "16.2"))
    assert sizes_of(joint)["tail at the shoulders (narrow), at the shelf's back edge"] == 14
