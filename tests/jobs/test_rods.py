"""Rods and pieces, by hand: what stands where along a board, and how many boards a job asks for."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.drawings.figure import Role
from joinery_templates.drawings.rod import KEPT, Band, Rod, rod_pattern
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.strip import bare_figure
from joinery_templates.exact import Fraction
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.rods import rods
from joinery_templates.lengths import INCH, Units
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.sheets.tiling import Scissors
from joinery_templates.wood.board import EDGES, Board, Face
from tests.pdf.drawn_jobs import pages_from, sample_text
from tests.sheets.page_checks import shown
from tests.strategies import PROPERTY

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
BOOKCASE = """
title = "Bookcase"
units = "mm"
{rods}
boards.side = {{ width = 250, thickness = 20, length = 2400 }}
boards.shelf = {{ width = 250, thickness = 18, length = 612 }}
boards.top = {{ width = 250, thickness = 18, length = 640 }}
[[joints]]
kind = "housing"
name = "Lower shelf"
corners = [{{ name = "Lower left", like = "A" }}, {{ name = "Lower right", like = "B" }}]
shelf = "shelf"
side = "side"
depth = 6
at = 2200
[[joints]]
kind = "housing"
name = "Upper shelf"
corners = [{{ name = "Upper left", like = "A" }}, {{ name = "Upper right", like = "B" }}]
shelf = "shelf"
side = "side"
depth = 6
at = 340
[[joints]]
kind = "through-dovetail"
name = "Top"
corners = [{{ name = "Top left", like = "D" }}, {{ name = "Top right", like = "C" }}]
tail_board = "top"
pin_board = "side"
"""


def sample(name: str) -> Job:
    return read_job((SAMPLES / f"{name}.toml").read_text(encoding="utf-8"))


def told(rod: Rod) -> list[tuple[int, int, str, str]]:
    return [(int(band.low), int(band.high), band.joint, band.words) for band in rod.bands]


def test_a_bookcase_side_has_its_shelves_from_the_top_and_the_top_itself():
    # A left side's right-hand end is its top (see the top's corners, clockwise from D).
    (rod,) = rods(read_job(BOOKCASE.format(rods="")))
    assert rod.board.name == "side"
    assert rod.start == "top end"
    assert rod.pieces == (
        "Lower left, Upper left, Top left",
        "Lower right, Upper right, Top right",
    )
    assert told(rod) == [
        (0, 18, "Top", "outside face, right through"),
        (340, 358, "Upper shelf", "inside face, 6 mm deep"),
        (2200, 2218, "Lower shelf", "inside face, 6 mm deep"),
    ]
    assert rod.marks == (18, 340, 358, 2200, 2218)


def test_a_stile_has_both_rails_and_both_edges_of_each():
    # 740 long: a horn of 20, a rail of 66, and in it a mortise of 66 - 20 - 6 at either end.
    (rod,) = rods(sample("cabinet_door"))
    assert rod.pieces == ("Top left, Bottom left", "Top right, Bottom right")
    # Of both: the left one's right-hand end, for its reference edge looks inwards.
    assert rod.start == "top end"
    mortise = "reference edge, 50 mm deep"
    assert told(rod) == [
        (20, 86, "Door frame", "RAIL, far edge to reference edge"),
        (40, 80, "Door frame", mortise),
        (654, 720, "Door frame", "RAIL, reference edge to far edge"),
        (660, 700, "Door frame", mortise),
    ]
    assert [at for at in next(rods(sample("face_frame"))).marks if at % 20 == 0] == [
        *(60, 200, 240, 640)  # rails of 60 at both ends of 700, one of 40 at 200
    ]


def test_a_legs_marks_stand_at_the_rods_edge_and_in_the_columns_of_their_own_faces():
    """The stool's rails come to both faces, from 18 to 54; its stretchers to the inside one."""
    (rod,) = rods(sample("stool"))
    setup = DrawingSetup(DejaVu(), Units.MM, (Fraction(297), Fraction(420)))
    (figure,) = rod_pattern(rod, "", setup).layers
    (along,) = {one.start[1] for one in figure.strokes if one.role is Role.DIMENSION}
    names = {one.words: one.at[1] for one in figure.texts if one.words in rod.sides}
    assert names["reference edge"] < along < names["inside face"]
    crossed: dict[float, set[str]] = {}
    at_edge = set()
    for one in figure.strokes:
        if one.role is Role.MARK:
            at, (low, high) = float(one.start[0] - 7), sorted((one.start[1], one.end[1]))
            crossed.setdefault(at, set()).update(
                name for name, y in names.items() if low < y < high
            )
            at_edge |= {at} if low == 7 else set()
    assert crossed.pop(18) == crossed.pop(54) == crossed.pop(60) == set(names)
    assert crossed == {at: {"inside face"} for at in (300, 305.5, 326.5, 332)}
    assert at_edge == {18, 54, 60, *crossed}
    for end in (54, 326.5):  # on every sheet that shows marks each column says whose it is
        near = {one.words for one in figure.texts if end < one.at[0] - 7 < end + 30}
        assert set(names) <= near


BORED = """
title = "Table"
units = "mm"
rods = "full"
boards.leg = {{ width = 60, thickness = 60, length = 700 }}
boards.rail = {{ width = 80, thickness = 30 }}
[[joints]]
kind = "drawbored-mortise-and-tenon"
name = "Rail"
corners = ["A", "B", "C", "D"]
rail = "rail"
stile = "leg"
on = "{on}"
at = 0
shoulder = 10
shoulder_far = 20
drawbore = {{ peg = 8{depth} }}
"""


@pytest.mark.parametrize("deep", ["right through", "50 mm deep"])
@pytest.mark.parametrize(
    ("on", "face"), [("inside", "far edge"), ("reference-edge", "outside face")]
)
def test_a_legs_hole_is_told_of_the_face_that_it_is_bored_from(on, face, deep):
    """Below the top a shoulder of 20 and half of the 50 that are left of 80: 45.

    To a rail on the inside face its outside lies on the leg's far edge.
    """
    depth = "" if deep == "right through" else ", depth = 50"
    job = read_job(BORED.format(on=on, depth=depth))
    found = next(rods(job))
    holes = [(band.low, band.words, band.side) for band in found.bands if "hole" in band.words]
    assert holes == [(45, f"{face}, hole of 8 mm, {deep}", Face(face))]
    (bore,) = (step for step in job.joints[0].joint.steps if step.heading == "Bore the leg")
    assert f"from the {face} and square to it" in bore.words


ASLANT = """
title = "Trellis"
units = "mm"
boards.stile = { width = 45, thickness = 22, length = 900 }
boards.rail = { width = 32, thickness = 20 }
[[joints]]
kind = "halving"
name = "Brace"
corners = [{ name = "Left", like = "A" }]
rail = "rail"
stile = "stile"
form = "tee"
angle = 60
at = 200
"""


def test_a_notch_that_runs_aslant_is_told_on_each_edge_and_marked_on_that_edge_alone():
    # 32 / sin 60 = 36.950 long, and on the far edge 45 / tan 60 = 25.981 nearer to the end.
    (rod,) = rods(read_job(ASLANT))
    deep = "outside face, 10 mm deep"
    assert [(float(one.low), float(one.high), one.words, one.side) for one in rod.bands] == [
        (
            pytest.approx(174.019, abs=5e-4),
            pytest.approx(210.970, abs=5e-4),
            f"on the far edge · {deep}",
            Face.FAR_EDGE,
        ),
        (
            200,
            pytest.approx(236.950, abs=5e-4),
            f"on the reference edge · {deep}",
            Face.REFERENCE_EDGE,
        ),
    ]


DOOR = """
title = "Door"
units = "mm"
boards.stile = { width = 90, thickness = 32, length = 1240 }
boards.rail = { width = 120, thickness = 32, length = 528 }
boards.muntin = { width = 70, thickness = 32, length = 470 }
[[joints]]
kind = "haunched-mortise-and-tenon"
name = "Rail"
horn = 20
corners = [{ name = "Right", like = "C" }, { name = "Left", like = "D" }]
rail = "rail"
stile = "stile"
haunch.form = "square"
groove = { width = 10, depth = 10 }
[[joints]]
kind = "mortise-and-tenon"
name = "Foot"
corners = [{ name = "Lower end", like = "D" }]
rail = "muntin"
stile = "rail"
front = "muntin"
at = 200
tenon_length = 50
"""


def test_a_mortise_in_one_edge_has_no_marks_in_the_other_edges_column():
    """The haunch at the rail's ends asks for the columns; the mortise is in its reference edge."""
    rod = next(rod for rod in rods(read_job(DOOR)) if rod.board.name == "rail")
    assert rod.sides == EDGES
    foot = [(band.words, band.side) for band in rod.bands if band.joint == "Foot"]
    assert foot == [
        ("MUNTIN, far edge to reference edge", Face.REFERENCE_EDGE),
        ("reference edge, 52 mm deep", Face.REFERENCE_EDGE),
    ]
    assert {band.side for band in rod.bands if band.joint == "Rail"} == {None, *EDGES}


SHELF = """
title = "Shelves"
units = "mm"
boards.side = { width = 200, thickness = 22, length = 700 }
boards.tie = { width = 200, thickness = 19 }
[[joints]]
kind = "sliding-dovetail"
corners = [{ name = "Left", like = "A" }]
shelf = "tie"
side = "side"
slope = "1:7"
depth = 8
stop = 12
taper = "1:80"
at = 340
"""


def test_how_far_a_housing_runs_across_a_board_is_not_told_as_its_depth():
    """Stopped 12 mm before the other edge of 200; 8 mm deep, as the inside face shows."""
    (rod,) = rods(read_job(SHELF))
    said = {band.words for band in rod.bands}
    assert said >= {"inside face, 8 mm deep", "far edge, runs 188 mm in"}


def ticks(rod: Rod) -> tuple[list[float], list[float]]:
    """The marks along the lower and along the upper long edge of a rod, as it is drawn."""
    setup = DrawingSetup(DejaVu(), Units.MM, (Fraction(190), Fraction(270)))
    (figure,) = rod_pattern(rod, "", setup).layers
    outline = [stroke.start for stroke in figure.strokes if stroke.role is Role.OUTLINE]
    left, low, high = min(x for x, _ in outline), min(y for _, y in outline), max(outline)[1]
    (read,) = {text.at[1] for text in figure.texts if text.words.startswith("◄")}
    assert read > (low + high) / 2
    drawn = {
        edge: sorted(
            float(stroke.start[0] - left)
            for stroke in figure.strokes
            if stroke.role is Role.MARK and edge in (stroke.start[1], stroke.end[1])
        )
        for edge in (low, high)
    }
    return drawn[low], drawn[high]


def test_pieces_with_one_rod_are_clamped_level_at_the_end_that_its_marks_count_from():
    """All is measured from the arrow: pieces of unlike length would differ at the other end."""
    setup = DrawingSetup(DejaVu(), Units.MM, (Fraction(190), Fraction(2000)))
    side = next(rod for rod in rods(read_job(BOOKCASE.format(rods=""))) if len(rod.pieces) > 1)
    (figure,) = rod_pattern(side, "", setup).layers
    said = " ".join(" ".join(text.words for text in figure.texts).split())
    assert "clamp them together, the ends at the arrow level, and mark all at once" in said


def test_rods_of_both_stiles_lie_on_the_outside_face_as_the_slanting_rail_runs():
    """Rods held upright, arrow up: a long edge that was above is at the right, as on the trellis.

    The rail goes down from left to right at 60 degrees, and 45 / tan 60 is 25.981.
    """
    left, right = (rod for rod in rods(sample("garden_trellis")) if rod.board.name == "stile")
    assert (left.pieces, right.pieces) == (
        ("Top left, Bottom left, Left",),
        ("Top right, Bottom right, Right",),
    )
    for rod, inner in ((left, [200, 236.950]), (right, [494.45, 531.400])):
        at_left, at_right = ([at for at in some if 100 < at < 800] for some in ticks(rod))
        assert [b - a for a, b in zip(at_left, at_right, strict=True)] == pytest.approx(
            [25.981] * 2, abs=5e-4
        )
        # The reference edges face inwards.
        assert (at_right if rod is left else at_left) == pytest.approx(inner, abs=5e-4)
        assert rod.at_words == ("reference edge" if rod is left else "far edge")


def test_a_stile_of_mitred_bridles_is_told_which_third_of_its_edges_goes_where():
    """A mitre in front, 2 1/2 in over 2 1/4 in, overhanging 3/16 in; the tongue 3/8 in of 9/8."""
    first, *_ = rods(sample("mirror_frame"))
    ahead, slot = 3 / 16, 2.25 + 3 / 16
    told_of = {
        (round(float(one.low / INCH), 4), round(float(one.high / INCH), 4), one.side): one.words
        for one in first.bands
        if one.high < 26 * INCH and one.stops is not None
    }
    assert told_of == {
        (0, ahead, Face.FAR_EDGE): "on the far edge · outside face, 3/8 in deep",
        (0, slot, Face.REFERENCE_EDGE): "on the reference edge · outside face, 3/8 in deep",
        (0, slot, None): "3/8 in to 3/4 in from the outside face",
        (24, 25.5, None): "outside face, 3/8 in deep and inside face, 3/8 in deep",
    }


@pytest.mark.parametrize("name", ["mirror_frame", "garden_trellis"])
def test_a_long_edge_has_its_own_figures_and_waste_and_is_named(name):
    for rod in rods(sample(name)):
        setup = DrawingSetup(DejaVu(), Units.MM, (Fraction(190), Fraction(270)))
        (figure,) = rod_pattern(rod, "", setup).layers
        (middle,) = {one.at[1] for one in figure.texts if one.words.startswith("◄")}
        named = set()
        for is_low in (True, False):
            here = [one.words for one in figure.texts if (one.at[1] < middle) == is_low]
            (side,) = {one for one in here if one in EDGES}
            named.add(side)
            own = [one for one in rod.bands if one.side in (None, side)]
            wanted = {at for one in own for at in (one.low, one.high) if 0 < at < rod.length}
            figures = {one for one in here if re.fullmatch(r"[\d.]+", one)}
            assert figures == {bare_figure(at, Units.MM) for at in wanted}
            taken = [(one.low, one.high) for one in own if one.stops is not None]
            hatching = [
                (one.start[0] + one.end[0]) / 2 - 7
                for one in figure.strokes
                if one.role is Role.OPEN_HATCH and (one.start[1] < middle) == is_low
            ]
            assert all(any(low < x < high for low, high in taken) for x in hatching)
            assert all(any(low < x < high for x in hatching) for low, high in taken)
        assert named == set(EDGES)
        assert rod.at_words in here


def test_rods_are_drawn_of_every_board_where_they_are_asked_for_and_of_none_where_not():
    drawn = list(rods(read_job(BOOKCASE.format(rods='rods = "broken"'))))
    names = [rod.board.name for rod in drawn]
    seen = "outside face, right through"  # of the tails' waste more shows there than on the edges
    assert told(drawn[-1]) == [(0, 20, "Top", seen), (620, 640, "Top", seen)]
    assert names == ["shelf", "shelf", "side", "top"]
    assert not list(rods(read_job(BOOKCASE.format(rods='rods = "none"'))))
    assert not list(rods(sample("tea_box"))), "nothing is let in there"


@PROPERTY
@given(st.lists(st.tuples(st.integers(0, 2000), st.integers(0, 60)), min_size=1, max_size=6))
def test_a_broken_rod_keeps_true_what_is_near_a_mark_and_leaves_out_only_what_is_empty(places):
    bands = tuple(
        Band(Fraction(at), Fraction(at + long), "a joint", "a face", True) for at, long in places
    )
    board = Board("side", Fraction(250), Fraction(20), Fraction(2100))
    rod = Rod(board, ("A",), "top end", bands, broken=True)
    assert rod.drawn_at(Fraction(0)) == 0
    for band in bands:
        assert rod.drawn_at(band.high) - rod.drawn_at(band.low) == band.high - band.low
        for near in (band.low - KEPT, band.high + KEPT):
            at = max(Fraction(0), min(near, rod.length))
            mark = band.low if near < band.low else band.high
            others = [one for one in rod.marks if min(at, mark) < one < max(at, mark)]
            if not others:
                assert abs(rod.drawn_at(at) - rod.drawn_at(mark)) == abs(at - mark)
    left_out = sum(high - low for low, high in rod.breaks)
    assert rod.drawn_at(rod.length) == rod.length - left_out + 4 * len(rod.breaks)
    for low, high in rod.breaks:
        assert not any(low <= mark <= high for mark in rod.marks)


@pytest.mark.parametrize("length", [235, 245, 480, 1319])
def test_a_rod_loses_no_words_however_its_seams_part_it(length):
    """On sheets of 170 by 230; what is drawn 240 to 260 long is parted near its middle."""
    sheet, long = (Fraction(170), Fraction(230)), Fraction(length)
    spans = ((20, 20), (45, 88), (long - 88, long - 45), (long - 20, long - 20))
    bands = tuple(Band(*map(Fraction, span), "Frame", "reference edge", True) for span in spans)
    pieces = ("the one beside the window of the shed", "Top right, Bottom right")
    board = Board("stile", Fraction(60), Fraction(20), long)
    rod = Rod(board, pieces, "top end", bands, broken=True)
    pattern = rod_pattern(rod, "Rods", DrawingSetup(DejaVu(), Units.MM, sheet))
    tiled = Scissors(sheet, Fraction(12), DejaVu()).cut(pattern)
    assert tiled.seams
    assert tiled.lost == ()


@pytest.mark.parametrize("name", ["garden_gate", "stool", "jewel_box"])
def test_what_is_said_of_marks_stands_on_a_sheet_that_has_one_of_them(name):
    """On Letter, where seams of short rods stand off the middle: each note's figures are there."""
    text = re.sub(r"(?m)^rods = .*", "", sample_text(name))
    text = 'rods = "broken"\n' + re.sub(r"(?m)^size = .*", 'size = "Letter"', text)
    noted = 0
    for placement in (one for page in pages_from(text) for one in page.placements):
        words = [one.text for one in placement.words if shown(one)]
        for said in words:
            if marks := re.search(r"\b(\d+) to (\d+) ·", said):
                assert set(marks.groups()) & set(words), said
                noted += 1
    assert noted


def test_what_stands_on_a_rod_is_listed_from_its_start():
    """Words that stand below each other are read downwards: 0 to 60, then its holes, then more."""
    spans = ((45, 45), (15, 15), (0, 60), (230, 230), (200, 240), (210, 210))
    bands = tuple(Band(*map(Fraction, span), "Frame", "reference edge", None) for span in spans)
    board = Board("stile", Fraction(60), Fraction(20), Fraction(700))
    rod = Rod(board, ("Top left",), "top end", bands)
    sheet = Fraction(800), Fraction(1000)
    pattern = rod_pattern(rod, "Rods", DrawingSetup(DejaVu(), Units.MM, sheet))
    texts = [text for layer in pattern.layers for text in layer.texts]
    listed = [text for text in texts if text.words.startswith("Frame")]
    for part, wanted in ((True, ["0 to 60", "15", "45"]), (False, ["200 to 240", "210", "230"])):
        some = (text for text in listed if (text.at[0] < 100) == part)
        downwards = sorted(some, key=lambda text: -text.at[1])
        assert [text.words.split(" · ")[1] for text in downwards] == wanted


@pytest.mark.parametrize(("length", "seam"), [(235, 87), (270, 120), (277, 157)])
def test_the_arrow_stays_at_the_rods_own_end_where_a_seam_cuts_the_words_beside_it(length, seam):
    """A wide notch draws the seam near the start, on sheets of 170 by 230."""
    sheet, long = (Fraction(170), Fraction(230)), Fraction(length)
    notch = Band(long * 45 / 100, long * 95 / 100, "Frame", "reference edge", True)
    start = "right-hand end (Beside the old shed) and left-hand end (Beside the window of the shed)"
    rod = Rod(Board("stile", Fraction(60), Fraction(20), long), ("A",), start, (notch,))
    pattern = rod_pattern(rod, "Rods", DrawingSetup(DejaVu(), Units.MM, sheet))
    tiled = Scissors(sheet, Fraction(12), DejaVu()).cut(pattern)
    assert [one.at for one in tiled.seams] == [seam]
    shown = [*(layer.texts for layer in tiled.pattern.layers), *tiled.own]
    named = [one for texts in shown for one in texts if one.paragraph == f"◄ {start}"]
    assert " ".join(one.words for one in sorted(named, key=lambda one: -one.at[1])) == f"◄ {start}"
    assert {one.at[0] for one in named} == {8}, "the rod begins at 7"


@pytest.mark.parametrize(
    ("pieces", "told"),
    [
        (("Corner A", "Corner B", "Corner C"), "LEG · Corners A, B, C"),
        (("Corner A, Corner B", "Corner C, Corner D"), "LEG · Corner A, Corner B and Corner C, "),
        (("Top left", "Top right"), "LEG · Top left and Top right"),
        (("Corner A",), "LEG · Corner A"),
    ],
)
def test_a_comma_tells_two_pieces_apart_only_where_each_is_a_corner_with_a_letter(pieces, told):
    """Else it stands between two corners of one piece."""
    board = Board("leg", Fraction(40), Fraction(40), Fraction(400))
    rod = Rod(board, pieces, "top end", (Band(Fraction(9), Fraction(20), "Rail", "face", True),))
    sheet = (Fraction(190), Fraction(270))
    assert rod_pattern(rod, "Rods", DrawingSetup(DejaVu(), Units.MM, sheet)).title.startswith(told)
