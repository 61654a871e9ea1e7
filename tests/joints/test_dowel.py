"""Dowels: the bands of the books, random rows as solids, bad input, and both hole patterns."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.dowels.dowel import KIND
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.hole import FLATS
from tests.cli.command_line import run
from tests.joints.solids import CLOSE_MM3, mate
from tests.joints.told_figures import bores, middles
from tests.joints.worked import codes_of, request_of, sizes
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import FOLD, GUIDE, SAW, THIN, Line, Placement

FORMS = ("frame", "edge", "corner", "tee")
NEAR = 0.001
"""In mm: what two hole patterns may differ by on the paper."""
HOLE_IN_LEGEND = "hole that is bored"
"""No other job's legend has it: see `tests/sheets/test_legend.py`."""
DOT = 0.5
"""A shorter line of this pen is the dot of a prick point, in mm."""


def joint(first=("60 mm", "20 mm"), second=("60 mm", "20 mm"), units=Units.MM, **raw) -> Joint:
    tools = raw.pop("tools", None)
    return KIND.build(request_of(KIND, first, second, units, tools, **raw))


# The bands of the books


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("thick", [10, 12, 15, 18, 20, 25, 30, 40, 60])
def test_a_dowel_is_between_a_third_and_a_half_of_the_thickness(thick, units):
    """Two modern books, read in part: about a third, about half."""
    made = joint(("150 mm", f"{thick} mm"), ("150 mm", f"{thick} mm"), units)
    assert Fraction(thick, 3) <= sizes(made)["dowel, diameter"] <= Fraction(thick, 2)


@pytest.mark.parametrize(
    ("form", "line"),
    [("edge", 200), ("edge", 450), ("edge", 2400), ("tee", 200), ("tee", 260), ("tee", 600)],
)
def test_dowels_stand_3_to_12_inches_apart(form, line):
    """Workshop Compendium."""
    wide, seam = ("150", f"{line} mm") if form == "edge" else (line, None)
    made = joint((f"{wide} mm", "20 mm"), (f"{wide} mm", "20 mm"), form=form, seam=seam)
    assert 3 * INCH <= sizes(made)["from one dowel's middle to the next"] <= 12 * INCH
    marks = made.rows[0].marks
    assert marks[0].position + marks[-1].position == line


def test_an_edge_is_bored_in_its_middle_and_an_inch_deep_and_a_dowel_is_an_eighth_shorter():
    """Noyes 1910, p. 175: the middle gauged from the outside faces, all holes equal, say 1 in.

    Workshop Compendium: 1/8 in shorter than the united depths, so 1 7/8 in.
    """
    plank = ("6 in", "3/4 in")
    made = joint(plank, plank, Units.INCH, form="edge", seam="30 in")
    for number in (0, 1):
        holes, along = bores(made, number)
        assert along == 0
        (depth,) = {round(high - low, 9) for (low, high), _, _ in holes}
        assert depth == 25.4
        assert middles(made, number, 2) == pytest.approx([float(INCH * 3 / 8)] * len(holes))
    assert sizes(made)["dowel, length"] == INCH * Fraction(15, 8)


def test_the_bits_that_are_owned_decide_where_one_serves():
    owned = Tools(bits=(Fraction(6), Fraction(9), Fraction(12)))
    for thick, size, rule in (("20 mm", 9, True), ("28 mm", 12, True), ("42 mm", 16, False)):
        made = joint(("90 mm", thick), ("90 mm", thick), tools=owned)
        assert sizes(made)["dowel, diameter"] == size
        (told,) = (words for words in made.rules if words.startswith("Diameter"))
        assert ("one of your bits" in told) == rule


IN_INCHES = {"form": "edge", "seam": "28 in", "units": Units.INCH}


@pytest.mark.parametrize(
    ("code", "raw"),
    [
        # Cabinet Making: under 3/4 in, which is sold as 18 mm.
        ("stock-thin", {"first": ("60 mm", "17.5 mm")}),
        ("dowel-thin", {"diameter": "6.5 mm"}),
        ("dowel-thick", {"diameter": "10.5 mm"}),
        ("one-dowel", {"dowels": 1}),
        ("dowels-far", {"form": "edge", "seam": "700 mm", "dowels": 2, "pitch": "306 mm"}),
        ("dowels-close", {"form": "edge", "seam": "700 mm", "dowels": 3, "pitch": "74.9 mm"}),
        ("dowels-close", {**IN_INCHES, "dowels": 3, "pitch": "2 15/16 in"}),
        ("dowels-far", {**IN_INCHES, "dowels": 2, "pitch": "12 1/16 in"}),
        (
            "dowels-close",
            {"first": ("115 mm", "24 mm"), "diameter": "10 mm", "dowels": 3} | {"pitch": "19.9 mm"},
        ),
        ("dowel-near-edge", {"end_distance": "7.9 mm", "dowels": 2}),
        ("floor-thin", {"form": "tee", "second_depth": "15.1 mm"}),
    ],
)
def test_what_is_unwise_is_advised_against(code, raw):
    made = joint(**raw)
    assert codes_of(made.findings) == [code]


@pytest.mark.parametrize(
    "raw",
    [
        {"first": ("60 mm", "18 mm")},
        {"diameter": "7 mm"},
        {"diameter": "10 mm"},
        {"form": "edge", "seam": "700 mm", "dowels": 2, "pitch": "304.8 mm"},
        {"form": "edge", "seam": "700 mm", "dowels": 2, "pitch": "305 mm"},
        {"form": "edge", "seam": "700 mm", "dowels": 3, "pitch": "75 mm"},
        {**IN_INCHES, "dowels": 3, "pitch": "3 in"},
        {**IN_INCHES, "dowels": 2, "pitch": "12 in"},
        # A table's rail of 115: its three stand 38.5 apart, 28.5 of wood between them.
        {"first": ("115 mm", "24 mm"), "diameter": "10 mm", "dowels": 3},
        {"first": ("115 mm", "24 mm"), "diameter": "10 mm", "dowels": 3, "pitch": "20 mm"},
        # A carcase of 18, 380 deep: five stand 76 apart.
        {"form": "corner", "first": ("380 mm", "18 mm"), "second": ("380 mm", "18 mm")}
        | {"dowels": 5, "diameter": "8 mm"},
        {"end_distance": "8 mm", "dowels": 2},
        {"form": "tee", "second_depth": "15 mm"},
    ],
)
def test_what_is_just_within_the_books_is_not(raw):
    assert joint(**raw).findings == ()


# Solids


@settings(derandomize=True, deadline=None, max_examples=8)
@given(data=st.data())
def test_random_rows_are_full_of_wood_and_claim_none_twice(data):
    thick = data.draw(st.integers(40, 120)) / Fraction(4)
    other = thick + data.draw(st.integers(-8, 12)) / Fraction(4)
    wide = data.draw(st.integers(45, 160))
    form = data.draw(st.sampled_from(FORMS))
    raw = {"seam": "420 mm", "drawn": "whole row"} if form == "edge" else {}
    if data.draw(st.booleans()):
        raw |= {"depth": "21.5 mm", "spare": "1.5 mm"}
    made = joint((f"{wide} mm", f"{thick} mm"), ("170 mm", f"{other} mm"), form=form, **raw)
    mated = mate(made)
    assert mated.overlap < CLOSE_MM3
    assert abs(mated.missing) < CLOSE_MM3


# Bad input


@pytest.mark.parametrize(
    ("place", "code", "said", "raw"),
    [
        ("diameter", "hole-too-wide", "20 mm", {"diameter": "20 mm"}),
        ("second_depth", "hole-too-deep", "60 mm", {"second_depth": "60 mm"}),
        ("depth", "hole-too-deep", "60 mm", {"form": "edge", "seam": "1 m", "depth": "60 mm"}),
        ("second_depth", "hole-too-deep", "20 mm", {"form": "tee", "second_depth": "20 mm"}),
        ("depth", "hole-too-shallow", "3 mm", {"depth": "3 mm", "second_depth": "20 mm"}),
        ("pitch", "holes-meet", "8 mm", {"dowels": 3, "pitch": "8 mm"}),
        ("positions", "holes-meet", "7 mm", {"positions": ["20 mm", "27 mm"]}),
        ("end_distance", "hole-breaks-out", "4 mm", {"end_distance": "4 mm", "dowels": 2}),
        ("positions", "hole-breaks-out", "past", {"positions": ["20 mm", "62 mm"]}),
        ("positions", "not-in-order", "40 mm", {"positions": ["40 mm", "20 mm"]}),
        ("dowels", "does-not-add-up", "dowels", {"positions": ["20 mm"], "dowels": 2}),
        ("end_distance", "does-not-add-up", "pitch", {"pitch": "30 mm", "end_distance": "9 mm"}),
        ("seam", "seam-unknown", "seam", {"form": "edge"}),
        ("seam", "not-in-this-form", '"edge"', {"seam": "700 mm"}),
        ("at", "not-in-this-form", '"frame" or "tee"', {"form": "corner", "at": "9 mm"}),
    ],
)
def test_what_cannot_be_bored_is_refused_with_place_value_and_remedy(place, code, said, raw):
    with pytest.raises(InputError) as caught:
        joint(**raw)
    (finding,) = caught.value.findings
    assert (finding.place, finding.code) == (place, code)
    assert said in f"{finding.message} {finding.remedy}"
    assert finding.remedy


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        # Of 8 in a rail of 60: 8 from an edge it has 4 beside it.
        ({"positions": ["3.5 mm", "40 mm"]}, "hole 1, 8 mm wide, would stand 3.5 mm from the ref"),
        (
            {"positions": ["20 mm", "40 mm", "58 mm"]},
            'hole 3, 8 mm wide, would stand 2 mm from the far edge of "bar", and the bit',
        ),
        ({"positions": ["20 mm", "62 mm"]}, 'stand 2 mm past the far edge of "bar".'),
        # A side of 60 is narrower than what comes to it.
        (
            {"first": ("90 mm", "20 mm"), "form": "tee", "positions": ["20 mm", "57 mm"]},
            'hole 2, 8 mm wide, would stand 3 mm from the far edge of "post", and the bit',
        ),
        (
            {"form": "edge", "seam": "700 mm", "positions": ["20 mm", "697 mm"]},
            "hole 2, 8 mm wide, would stand 3 mm from the end of the seam, and the bit would",
        ),
    ],
)
def test_a_hole_that_breaks_out_is_named_with_its_place(raw, said):
    with pytest.raises(InputError) as caught:
        joint(diameter="8 mm", **raw)
    (finding,) = caught.value.findings
    assert finding.code == "hole-breaks-out"
    assert said in finding.message
    assert "places at least 8 mm in from there: then half as much wood is left" in finding.remedy


# The two patterns on the paper, by a reader that shares no code with the writer

JOB = """
title = "Frame"
[boards.rail]
width = 62
thickness = 22
[boards.stile]
width = 58
thickness = 19
[[joints]]
kind = "dowel"
corners = ["A", "B", "C", "D"]
first_board = "rail"
second_board = "stile"
form = "{form}"
positions = [11.5, 27, 50.25]
diameter = 8
second_depth = 11
"""


def upright(placement: Placement) -> Placement:
    """As it is read: a pattern may be turned to save paper."""
    if max(placement.words, key=lambda words: words.size_pt).turn == 0:
        return placement
    turned = [
        replace(line, start=(y, -x), end=(y1, -x1))
        for line in placement.lines
        for (x, y), (x1, y1) in [ends(line)]
    ]
    return replace(placement, lines=turned)


def holes_on(placement: Placement) -> list[tuple[float, float]]:
    """Middles of the circles, rings of short strokes; in each the dot of a prick point."""
    rings: list[list[tuple[float, float]]] = []
    for line in placement.drawn_with(SAW):
        if line.length > 1:
            continue
        near = next((r for r in rings if min(_apart(line.start, at) for at in r) < 1e-3), None)
        if near is None:
            rings.append(near := [])
        near += [line.start, line.end]
    found = []
    for ring in (ring for ring in rings if len(ring) == 2 * FLATS):
        xs, ys = zip(*ring, strict=True)
        assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((8, 8), abs=NEAR)
        found.append(((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2))
        dots = [line for line in placement.drawn_with(THIN) if line.length < DOT]
        dotted = [tuple((a + b) / 2 for a, b in zip(*ends(dot), strict=True)) for dot in dots]
        assert min(_apart(found[-1], middle) for middle in dotted) < NEAR
    return found


def ends(line: Line) -> tuple[tuple[float, float], tuple[float, float]]:
    return line.start, line.end


def _apart(one, other) -> float:
    return max(abs(a - b) for a, b in zip(one, other, strict=True))


def side(placement: Placement, words: str, left: str) -> tuple[float, int]:
    """The board's edge on the paper that words point to, and the way from there across it."""
    said = " ".join(one.text for one in placement.words)
    is_left = left in said
    assert is_left or words in said
    uprights = [
        line.start[0]
        for line in placement.drawn_with(THIN)
        if line.length > 20 and abs(line.start[0] - line.end[0]) < NEAR
    ]
    return (min(uprights), 1) if is_left else (max(uprights), -1)


def level(placement: Placement, pen) -> float:
    (at,) = {round(line.start[1], 4) for line in placement.drawn_with(pen) if line.length > 10}
    return at


@pytest.mark.parametrize("form", ["frame", "corner"])
def test_both_hole_patterns_are_mirror_images_at_every_corner(form):
    """On the rail from the reference edge and the outside face; on the stile to the same place.

    In a frame the thinner stile decides the middle, 9.5 mm; the row runs from the rail's
    reference edge, 62 mm from its far edge. At a corner the rail's own middle, 11 mm, is
    measured from the other board's end.
    """
    middle = 9.5 if form == "frame" else 11.0
    pages = pages_from(JOB.format(form=form))
    legend = " ".join(
        words.text for page in pages[:3] for one in page.placements for words in one.words
    )
    assert HOLE_IN_LEGEND in legend
    placed = [upright(one) for page in pages for one in page.placements[1:] if one.words]
    on_rail, on_stile = [], []
    for one in placed:
        said = " ".join(words.text for words in one.words)
        holes = holes_on(one)
        if not holes:
            continue
        if "end grain" in said:
            edge, way = side(one, "reference edge ►", "◄ reference edge")
            fold = level(one, FOLD)
            on_rail.append(sorted((way * (x - edge), y - fold) for x, y in holes))
        elif form == "frame":
            edge, way = side(one, "outside face on the right", "outside face on the left")
            line = level(one, GUIDE)
            on_stile.append(sorted((62 - (line - y), way * (x - edge)) for x, y in holes))
        else:
            edge, way = side(one, "reference edge ►", "◄ reference edge")
            top = max(line.start[1] for line in one.drawn_with(THIN))
            on_stile.append(sorted((way * (x - edge), top - y) for x, y in holes))
    assert len(on_rail) == len(on_stile) == 4
    wanted = [(11.5, middle), (27, middle), (50.25, middle)]
    for found in (*on_rail, *on_stile):
        for hole, place in zip(found, wanted, strict=True):
            assert hole == pytest.approx(place, abs=NEAR)


def test_check_tells_the_middles(tmp_path):
    path = tmp_path / "frame.toml"
    path.write_text(JOB.format(form="frame"), encoding="utf-8")
    told = run("check", str(path)).text
    for words in ("11.5 mm", "27 mm", "50.25 mm"):
        assert re.search(rf"{re.escape(words)} .*middle of hole", told)
