"""Pages of a leaning tray: which way its ends slant on each face, its strip and its bevels."""

import math

import pytest
from msgspec.structs import replace

from joinery_templates.drawings.figure import Role
from joinery_templates.drawings.settings import settings_cards
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.strip import MARGIN
from joinery_templates.drawings.trimming import RIM
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import SlopeSetting
from joinery_templates.patterns import patterns
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.board import Face
from joinery_templates.wood.faces import lay_out
from tests.measure.drawn_and_measured import drawn, measured

JOB = """
title = "Tray"
[boards.long]
width = 80
thickness = 10
[boards.short]
width = 80
thickness = 10
[[joints]]
kind = "canted-dovetail"
corners = ["A", "B"]
views = ["faces"]
tail_board = "long"
pin_board = "short"
lean = 20
tails = 2
"""
SHEET = (Fraction(180), Fraction(250))
RISE = 80 * math.sin(math.radians(20))
"""How much longer the board is at the far edge: tan(end) = sin(lean), over the width."""


@pytest.fixture(scope="module")
def tray():
    return read_job(JOB)


def faces_of(job):
    """By corner, board and face: the strokes of that pattern."""
    found = {}
    for pattern in patterns(job, SHEET, DejaVu()):
        board, _, face = pattern.title.partition(" ")
        found[pattern.group, board.lower(), face] = pattern.layers[0].strokes
    return found


def sides_of(strokes):
    """The heights at which the board's left and right side end."""
    upright = [
        stroke
        for stroke in strokes
        if stroke.role is Role.OUTLINE and stroke.start[0] == stroke.end[0]
    ]
    left, right = sorted(upright, key=lambda stroke: stroke.start[0])
    return tuple(float(max(s.start[1], s.end[1])) for s in (left, right))


@pytest.mark.parametrize(
    ("corner", "board", "face", "reference_on_left"),
    [
        ("Corner A", "long", "outside face", False),
        ("Corner A", "long", "inside face", True),
        ("Corner A", "short", "outside face", True),
        ("Corner A", "short", "inside face", False),
        ("Corner B", "long", "outside face", True),
        ("Corner B", "short", "outside face", False),
    ],
)
def test_a_board_leaning_outwards_is_longer_at_its_far_edge(
    tray, corner, board, face, reference_on_left
):
    """At A the long board's right-hand end is met: its reference edge lies on the right."""
    left, right = sides_of(faces_of(tray)[corner, board, face])
    longer_at_far = right - left if reference_on_left else left - right
    assert longer_at_far == pytest.approx(RISE, abs=1e-6)


def test_ends_of_opposite_hand_are_mirror_images(tray):
    faces = faces_of(tray)
    width = 2 * RIM + 80
    for face in ("outside face", "inside face", "reference edge"):
        one, other = faces["Corner A", "long", face], faces["Corner B", "long", face]
        across = width if "edge" not in face else 2 * RIM + 10
        lines = [s for s in one if s.role in (Role.SAW, Role.KNIFE, Role.OUTLINE, Role.GUIDE)]
        turned = {
            (s.role, frozenset(((across - s.start[0], s.start[1]), (across - s.end[0], s.end[1]))))
            for s in lines
        }
        assert turned == {
            (s.role, frozenset((s.start, s.end)))
            for s in other
            if s.role in (Role.SAW, Role.KNIFE, Role.OUTLINE, Role.GUIDE)
        }


def test_the_dashed_line_is_the_slanting_baseline_and_ends_at_the_edges(tray):
    """10 mm of board meet at cos(angle) = -sin(lean) squared; square to the end."""
    strokes = faces_of(tray)["Corner A", "short", "outside face"]
    (guide,) = (s for s in strokes if s.role is Role.GUIDE)
    (trim,) = (s for s in strokes if s.role is Role.TRIM and s.start[1] != s.end[1])
    ends = sorted(float(end[0]) for end in (guide.start, guide.end))
    assert ends == [float(RIM), float(RIM) + 80]
    down = float((trim.end[1] - trim.start[1]) / (trim.end[0] - trim.start[0]))
    assert down == pytest.approx(math.sin(math.radians(20)), abs=1e-9)
    along = float(trim.start[1]) + down * (float(guide.start[0]) - float(trim.start[0]))
    apart = (along - float(guide.start[1])) * math.cos(math.atan(down))
    angle = math.acos(-(math.sin(math.radians(20)) ** 2))
    assert apart == pytest.approx(10 / math.sin(angle), abs=1e-6)


def test_the_end_grain_is_drawn_as_long_as_the_slanting_end(tray):
    end = tray.joints[0].joint.members[0].part
    layout = lay_out(end, Face.END_GRAIN, end.reach)
    corners = {tuple(map(float, corner)) for corner in layout.outline.corners}
    at_arris = sorted(x for x, z in corners if z == 0)
    assert at_arris[1] - at_arris[0] == pytest.approx(math.hypot(80, RISE), abs=1e-6)
    # The end is oblique through the thickness: wider than the board is thick.
    angle = math.acos(-(math.sin(math.radians(20)) ** 2))
    assert float(layout.height) == pytest.approx(10 / math.sin(angle), abs=1e-6)


def test_the_strip_lies_along_the_slanting_end(tray):
    (one,) = tray.joints
    strip = next(p for p in patterns(tray, SHEET, DejaVu()) if "strip" in p.title)
    marks = {s.start[0] for s in strip.layers[0].strokes if s.role is Role.MARK}
    end = one.joint.members[0].part
    layout = lay_out(end, Face.OUTSIDE, end.reach + 1)
    slope, at_reference = RISE / 80, float(min(y for x, y in layout.outline.corners if x == 0))
    on_the_end = [
        float(x) * math.hypot(1, slope)
        for shape in layout.waste
        for x, y in shape.corners
        if abs(float(y) - (at_reference - float(x) * slope)) < 1e-6 and 0 < x < 80
    ]
    drawn = sorted(float(x - MARGIN) for x in marks)
    assert drawn == pytest.approx(sorted(on_the_end), abs=1e-6)


@pytest.mark.parametrize("slope", [Fraction(1, 10), Fraction(1), Fraction(4)])
def test_a_bevel_is_drawn_as_it_leans_and_stays_on_its_card(tray, slope):
    joint = replace(tray.joints[0].joint, lengths=(), slopes=(SlopeSetting("w", slope),))
    (card,) = settings_cards("x", "t", joint, DrawingSetup(DejaVu(), tray.units, SHEET))
    (figure,) = card.layers
    leaning = [s for s in figure.strokes if s.role is Role.SETTING]
    assert len(leaning) == 2
    trimmed = {x for s in figure.strokes if s.role is Role.TRIM for x in (s.start[0], s.end[0])}
    left, right = sorted(trimmed)
    for stroke in leaning:
        run, rise = stroke.end[0] - stroke.start[0], stroke.end[1] - stroke.start[1]
        assert abs(run / rise) == slope
        assert rise > 5
        assert all(left < x < right for x in (stroke.start[0], stroke.end[0]))


@pytest.mark.parametrize(
    ("asked", "drawn"),
    [
        ('["wrap"]', ["outside face", "inside face", "end grain"]),
        ('["end-grain"]', ["end grain"]),
        ('["wrap", "end-grain"]', ["outside face", "inside face", "end grain"]),
        (
            '["faces"]',
            ["outside face", "inside face", "end grain", "reference edge", "far edge"],
        ),
    ],
)
def test_each_view_draws_its_faces_once(asked, drawn):
    """On a slanted end the broad faces and the end grain stand for the wrap."""
    job = read_job(JOB.replace('["faces"]', asked))
    faces = [
        face for corner, board, face in faces_of(job) if (corner, board) == ("Corner A", "long")
    ]
    assert faces == drawn


STEEP = """
title = "Many-sided box"
[boards.one]
width = 90
thickness = 12
[boards.other]
width = 90
thickness = 12
[[joints]]
corners = ["A", "B"]
views = ["faces"]
plan = {plan}
"""
ANGLED = STEEP + 'kind = "angled-dovetail"\ntail_board = "one"\npin_board = "other"\n'
CANTED = (
    STEEP
    + 'kind = "canted-box-joint"\nfirst_board = "one"\nsecond_board = "other"\nlean = {lean}\n'
)


@pytest.mark.parametrize(
    ("text", "lean", "plan"),
    [
        *((ANGLED, 0, plan) for plan in (30, 150)),
        (CANTED, 8, 135),
        (CANTED, -8, 45),
    ],
)
def test_the_trim_line_of_a_steep_end_stands_whole_on_the_page(text, lean, plan):
    """On an edge it rises by t = (sin² lean - cos² lean cos plan) / (cos lean sin plan).

    The board is 12 mm thick and the line is carried 5 mm past both of its faces, so it
    runs 22 mm across and 22 t up: at each of two corners once on each edge of the one board
    whose waste reaches its edges.
    """
    a, b = math.radians(lean), math.radians(plan)
    rise = abs((math.sin(a) ** 2 - math.cos(a) ** 2 * math.cos(b)) / (math.cos(a) * math.sin(b)))
    found = measured(drawn(text.format(lean=lean, plan=plan)))
    assert found.report.as_drawn
    runs = [
        sorted((abs(line.x1 - line.x0), abs(line.y1 - line.y0)))
        for page in found.pages
        for line in page.segments
    ]
    whole = pytest.approx(sorted((22, 22 * rise)), abs=0.001)
    assert sum(run == whole for run in runs) == 4
