"""The plan on the first page: as long and as wide as the boards, with the corners that are cut."""

import re
from functools import cache
from math import hypot
from pathlib import Path

import pytest

from joinery_templates.drawings.figure import Align, Figure, Role
from joinery_templates.exact import Fraction
from joinery_templates.jobs.order_of_work import orders_of_work
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.rods import rods
from joinery_templates.patterns import arrangements, plans
from joinery_templates.pdf.fonts import DejaVu

SAMPLES = Path(__file__).parents[2] / "sample_jobs"

LEANING = """
title = "Sign frame"
units = "mm"
boards.head = { width = 50, thickness = 24, length = 500 }
boards.upright = { width = 45, thickness = 24, length = 700 }
[[joints]]
kind = "bridle"
corners = [{ name = "Left", like = "A" }, { name = "Right", like = "B" }]
rail = "head"
stile = "upright"
angle = 80
"""
CROSSED = """
units = "mm"
boards.long = { width = 46, thickness = 32, length = 420 }
boards.short = { width = 38, thickness = 28, length = 360 }
[[joints]]
kind = "halving"
form = "cross"
corners = [{ name = "Crossing", like = "A" }]
rail = "short"
stile = "long"
angle = 72
"""
SETTLE = """
units = "mm"
boards.post = { width = 60, thickness = 40, length = 900 }
boards."top rail" = { width = 90, thickness = 30, length = 860 }
boards."seat rail" = { width = 70, thickness = 30, length = 860 }
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B"]
rail = "top rail"
stile = "post"
tenon_length = 30
at = 30
[[joints]]
kind = "mortise-and-tenon"
corners = ["D", "C"]
rail = "seat rail"
stile = "post"
tenon_length = 30
at = 400
"""

ONE_CORNER = """
units = "mm"
boards.rail = { width = 50, thickness = 20, length = 400 }
boards.stile = { width = 50, thickness = 20, length = 500 }
[[joints]]
kind = "bridle"
corners = ["A"]
rail = "rail"
stile = "stile"
"""


def plan(job: str) -> Figure:
    ((figure, _),) = plans_of(job)
    return figure


def text_of(job: str) -> str:
    if job == "tee":
        return re.sub("corners = .*", 'corners = ["A"]', text_of("easel_frame"))
    if job == "one corner":
        return ONE_CORNER
    written = {"muntin": MUNTIN, "leaning frame": LEANING, "case": CASE, "crossed": CROSSED}
    written |= {"settle": SETTLE, "horns": SETTLE.replace("at = ", "horn = ")}
    written["trestle"] = TRESTLE + HEAD
    return written[job] if job in written else (SAMPLES / f"{job}.toml").read_text("utf-8")


@cache
def plans_of(job: str, room: int = 175):
    read = read_job(text_of(job))
    return tuple(plans(read, tuple(arrangements(read)), Fraction(room), DejaVu()))


def extents(figure: Figure) -> tuple[float, float]:
    """How wide and high the piece is drawn, thin proud ends among it."""
    ends = [end for s in figure.strokes if s.role is Role.FRAME for end in (s.start, s.end)]
    across, up = zip(*ends, strict=True)
    return float(max(across) - min(across)), float(max(up) - min(up))


def test_a_narrow_piece_is_drawn_larger_until_its_boards_names_stand_in_it_in_full():
    """A case 320 long and 180 wide is 34 high as a rule, and 19 wide: too narrow for its names."""
    figure = plan("case")
    words = [text.words for text in figure.texts]
    assert (words.count("SHORT"), words.count("LONG")) == (2, 2)
    across, up = extents(figure)
    assert across / up == pytest.approx(180 / 320, rel=0.03)


def leaning(figure: Figure) -> set[float]:
    """How steeply lines of the plan run that are neither level nor upright."""
    return {
        round(abs(float((s.end[1] - s.start[1]) / (s.end[0] - s.start[0]))), 3)
        for s in figure.strokes
        if s.start[0] != s.end[0] and s.start[1] != s.end[1]
    }


@pytest.mark.parametrize(
    ("job", "front", "side"),
    [
        ("tea_box", 7, 10),
        ("jewel_box", 220, 150),
        ("blanket_chest", 42, 20),
        ("pencil_tray", 11, 6),
    ],
)
def test_the_piece_is_as_much_longer_than_wide_as_its_boards(job, front, side):
    """From the job files: the length of the boards in front and at the sides."""
    across, up = extents(plan(job))
    assert across / up == pytest.approx(front / side, rel=0.03)


def test_a_mitre_is_drawn_as_a_mitre_and_a_through_dovetail_shows_no_slant():
    """Boards of one thickness meet at 45 degrees at the jewel box's upper edges."""
    assert 1.0 in leaning(plan("jewel_box"))
    assert leaning(plan("tea_box")) == set()


def test_below_the_half_pin_the_tails_are_dashed():
    """Seen from above the pins' board hides that the tails run through to the outside."""
    assert any(s.role is Role.GUIDE for s in plan("tea_box").strokes)


@pytest.mark.parametrize("job", ["planter", "canted_tray", "seed_tray"])
def test_a_plan_of_leaning_sides_has_its_outlines_and_no_line_beside_a_line(job):
    """Whoever looks from above sees four boards, their corners closed, and no second outline."""
    strokes = plan(job).strokes
    assert {s.role for s in strokes} == {Role.FRAME}
    for one in strokes:
        middle = [float(a + b) / 2 for a, b in zip(one.start, one.end, strict=True)]
        assert min(away(middle, other) for other in strokes if other is not one) > 0.3
        for end in (one.start, one.end):
            assert min(away(end, other) for other in strokes if other is not one) < 0.2


def test_where_leaning_boards_of_one_thickness_meet_in_a_mitre_it_runs_at_45_degrees():
    assert leaning(plan("planter")) == {1.0}


def away(point, stroke) -> float:
    """How far a point is from a stroke."""
    (x, y), (x1, y1), (x2, y2) = (map(float, one) for one in (point, stroke.start, stroke.end))
    along, up = x2 - x1, y2 - y1
    share = ((x - x1) * along + (y - y1) * up) / (along**2 + up**2)
    share = max(0.0, min(1.0, share))
    return hypot(x - x1 - share * along, y - y1 - share * up)


def lines_at(figure: Figure, axis: int, extent: float) -> set[float]:
    """Where lines square to an axis stand on it, in the wood's mm from the lowest."""
    lines = [s for s in figure.strokes if s.role is not Role.DIMENSION]
    ends = [end[axis] for s in lines for end in (s.start, s.end)]
    low, scale = min(ends), extent / float(max(ends) - min(ends))
    square = (s.start[axis] for s in lines if s.start[axis] == s.end[axis])
    return {round(float(at - low) * scale, 2) for at in square}


def test_a_door_frame_has_its_shoulders_its_edges_and_its_horns_where_they_are():
    """By hand: stiles 66 wide, 280 between them; rails 66 wide, 20 from the stiles' ends."""
    door = plan("cabinet_door")
    assert lines_at(door, 0, 412) == {0, 66, 346, 412}
    assert lines_at(door, 1, 740) == {0, 20, 86, 654, 720, 740}


def test_of_a_mitred_frame_the_mitres_run_from_corner_to_corner():
    """Picture frame: 14 in by 18 in, 2 in wide; its keys stand square across the mitres."""
    figure = plan("picture_frame")
    assert lines_at(figure, 0, 14) == {0, 2, 12, 14}
    assert lines_at(figure, 1, 18) == {0, 2, 16, 18}
    assert 1.0 in leaning(figure)


def test_legs_of_which_nobody_says_where_they_end_are_broken_off():
    """The crossbar, 560 long, stands 0.5 out of both legs, which are 54 wide; no line ends them."""
    figure = plan("easel_frame")
    assert {0.5, 54.5, 505.5, 559.5} <= lines_at(figure, 0, 560)
    tops = {max(s.start[1], s.end[1]) for s in figure.strokes}
    assert not [s for s in figure.strokes if s.start[1] == s.end[1] == max(tops)]


@pytest.mark.parametrize(
    ("job", "room", "corners"),
    [
        ("cabinet_door", 175, ["Top left", "Top right", "Bottom left", "Bottom right"]),
        ("cabinet_door", 55, ["Top left", "Top right", "Bottom left", "Bottom right"]),
        ("picture_frame", 175, ["B", "C", "A", "D"]),
        ("workshop_drawer", 175, ["Back left", "Back right", "", ""]),
        ("tea_box", 175, ["B", "C", "A", "D"]),
    ],
)
def test_each_corner_is_named_where_it_is_and_no_name_is_cut(job, room, corners):
    """From the upper left, row by row; as the job files' own notes have them."""
    ((figure, _),) = plans_of(job, room)
    sketch = [end for s in figure.strokes for end in (s.start, s.end)]
    middle = [(min(at) + max(at)) / 2 for at in zip(*sketch, strict=True)]
    bold = [t for t in figure.texts if t.bold and t.cap > 3]
    found = ["", "", "", ""]
    for text in sorted(bold, key=lambda t: -t.at[1]):
        place = 2 * (text.at[1] < middle[1]) + (text.at[0] > middle[0])
        found[place] = f"{found[place]} {text.words}".strip()
    assert found == corners
    assert not any("…" in text.words for text in figure.texts)


@pytest.mark.parametrize("job", ["cabinet_door", "picture_frame", "tea_box"])
def test_all_four_boards_of_a_plan_are_named_on_it(job):
    read = read_job((SAMPLES / f"{job}.toml").read_text("utf-8"))
    words = [text.words for text in plan(job).texts]
    for member in read.joints[0].joint.members:
        assert words.count(member.part.board.called) == 2


@pytest.mark.parametrize(
    ("job", "told"),
    [
        # 10 by 7 with 1/64 proud at each end, of 1/2 in boards.
        (
            "tea_box",
            "outside 6 31/32 in wide and 9 31/32 in from near to far, "
            "inside 5 31/32 in wide and 8 31/32 in from near to far",
        ),
        # Its front is no part of the job: 510 less 0.4 proud at each side, between sides of 20.
        (
            "workshop_drawer",
            "outside 509.2 mm wide and 419.6 mm from near to far, open on the near side, "
            "inside 469.2 mm wide",
        ),
        # Sides of 900 and 19.5 thick with tails 0.5 proud of the top, of 760 with pins 0.5 proud.
        (
            "wide_carcase",
            "outside 759 mm wide and 899.5 mm from near to far, open on the far side, "
            "inside 720 mm wide",
        ),
        ("cabinet_door", "outside 412 mm wide and 700 mm high, inside 280 mm wide and 568 mm high"),
        ("picture_frame", "outside 14 in wide and 18 in high, inside 10 in wide and 14 in high"),
        # Rails of 60 at both ends, one of 40 whose far edge is 200 from the top.
        (
            "face_frame",
            "outside 500 mm wide and 700 mm high, inside 410 mm wide and 580 mm high. "
            "Openings from the top: 140 mm and 400 mm high",
        ),
        # Sides of 20 that stand on the floor, 500 between them.
        ("bookcase", "outside 540 mm wide and 780 mm high, inside 500 mm wide"),
        ("handrail", "outside 1584 mm long"),  # 900 twice, less the scarf of 18 times 12
        ("canted_tray", ""),  # its sides lean
        ("leaning frame", ""),  # so do its stiles: at the top it is wider than at the feet
        # A level board of 360; one of 420 by 46 leans 18 degrees from upright, and is as high as
        # 420 cos 18 and 46 sin 18: 399.44 and 14.21.
        ("crossed", "outside 360 mm wide and 413.7 mm high"),
        # Posts of 60 by 900 run on past both rails. These are 860 less two tenons of 30. The top
        # one goes down to 30 + 90 from the top, the seat's up to 400 + 70 from the floor.
        ("settle", "outside 920 mm wide and 900 mm high, inside 800 mm wide and 310 mm high"),
        # As horns they come off at the rails' far edges.
        ("horns", "outside 920 mm wide and 470 mm high, inside 800 mm wide and 310 mm high"),
        # A head of 600 on legs of 70, each 50 from its end; the feet are not level with a board.
        ("trestle", "outside 600 mm wide, inside 360 mm wide"),
        # Rails of 20 3/8 in and stiles of 32 3/8 in, each end 3/16 in over. The rails are 2 1/4 in
        # wide; the lower one, of 1 1/2 in, has its far edge 24 in from the top, less 3/16 in.
        (
            "mirror_frame",
            "outside 20 in wide and 32 in high, inside 15 in wide and 27 1/2 in high. "
            "Openings from the top: 21 9/16 in and 4 7/16 in high",
        ),
    ],
)
def test_the_finished_size_is_told_where_it_is_known(job, told):
    ((_, words),) = plans_of(job)
    sizes = [one.words for one in words if one.words.startswith("Finished")]
    assert sizes == ([f"Finished size: {told}."] if told else [])


DRAWERS = """
units = "mm"
boards.side = { width = 90, thickness = 10, length = 300 }
boards.front = { width = 90, thickness = 20, length = 240 }
boards.back = { width = 90, thickness = 10, length = 240 }
boards."thick back" = { width = 90, thickness = 12, length = 240 }
[[joints]]
kind = "lapped-dovetail"
name = "Fronts"
corners = [
    { name = "Upper front left", like = "A" }, { name = "Upper front right", like = "D" },
    { name = "Lower front left", like = "A" }, { name = "Lower front right", like = "D" },
]
tail_board = "side"
pin_board = "front"
"""
BACKS = """
[[joints]]
kind = "through-dovetail"
tail_board = "side"
pin_board = "back"
corners = [
"""
UPPER = '{ name = "Upper back left", like = "B" }, { name = "Upper back right", like = "C" },'
LOWER = '{ name = "Lower back left", like = "B" }, { name = "Lower back right", like = "C" },'
DOORS = """
units = "mm"
boards.rail = { width = 50, thickness = 20, length = 300 }
boards.stile = { width = 50, thickness = 20, length = 400 }
[[joints]]
kind = "bridle"
corners = [
    { name = "Left door's top left", like = "A" }, { name = "Left door's top right", like = "B" },
    { name = "Right door's top left", like = "A" }, { name = "Right door's top right", like = "B" },
]
rail = "rail"
stile = "stile"
"""


def named_in(job: str) -> list[list[str]]:
    """The corners that each plan tells of, in its lines below."""
    read = read_job(job)
    drawn = plans(read, tuple(arrangements(read)), Fraction(175), DejaVu())
    ends = re.compile(r", (?:near|far|top) (?:left|right): |: [A-Z]")
    lines = [[line.words for line in words if " meets " in line.words] for _, words in drawn]
    return [[ends.split(line)[0] for line in each] for each in lines]


def test_each_of_two_drawers_has_its_own_back_in_its_plan():
    backs = BACKS + UPPER + "]" + BACKS.replace('"back"', '"thick back"') + LOWER + "]"
    assert named_in(DRAWERS + backs) == [
        [f"{which} {where}" for where in ("front left", "front right", "back left", "back right")]
        for which in ("Upper", "Lower")
    ]


@pytest.mark.parametrize(
    ("job", "rows"),
    [
        (
            DRAWERS + BACKS + UPPER + LOWER + "]",
            [
                "Upper front left, Lower front left",
                "Upper front right, Lower front right",
                "Upper back left, Lower back left",
                "Upper back right, Lower back right",
            ],
        ),
        (
            DOORS,
            [
                "Left door's top left, Right door's top left",
                "Left door's top right, Right door's top right",
            ],
        ),
    ],
)
def test_what_is_alike_has_one_plan_which_says_so_and_tells_the_corners_of_all(job, rows):
    assert named_in(job) == [rows]
    read = read_job(job)
    ((sketch, (told, *_)),) = plans(read, tuple(arrangements(read)), Fraction(175), DejaVu())
    assert told.words.startswith("One plan for 2 that are alike:")
    drawn = " ".join(text.words for text in sketch.texts)
    assert "Lower" not in drawn
    assert "Right door" not in drawn


def test_two_corners_of_one_piece_that_no_board_links_stand_in_one_plan():
    chest = text_of("tea_box")
    assert named_in(re.sub("corners = .*", 'corners = ["A", "C"]', chest)) == [["A", "C"]]


def test_a_plan_that_a_carcase_s_top_is_not_in_says_so():
    """The top stands on the sides, of 700: it comes on top of what the shelf's plan shows."""
    top = 'kind = "dowel"\nform = "corner"\nfirst_board = "side"\nsecond_board = "top"'
    shelf = 'kind = "housing"\nshelf = "shelf"\nside = "side"\ndepth = 6\nat = 300'
    text = 'units = "mm"\n'
    for board, long in (("side", 700), ("top", 440), ("shelf", 412)):
        text += f"boards.{board} = {{ width = 200, thickness = 20, length = {long} }}\n"
    for joint, ends in ((top, "Over"), (shelf, "Shelf")):
        at = ", ".join(f'{{ name = "{ends} {one}", like = "{one}" }}' for one in "AB")
        text += f"[[joints]]\ncorners = [{at}]\n{joint}\n"
    read = read_job(text)
    told = plans(read, tuple(arrangements(read)), Fraction(175), DejaVu())
    words = [one.words for _, paragraphs in told for one in paragraphs]
    sizes = [one for one in words if one.startswith("Finished size, without")]
    assert sizes == [
        "Finished size, without TOP: outside 440 mm wide and 700 mm high, inside 400 mm wide."
    ]


@pytest.mark.parametrize(
    ("job", "told"),
    [
        # Sides of 12 and a front of 19, all 4 deep; the bottom runs on below the back.
        # So 2 (12 - 4) less than 539.4, and 19 - 4 less than 485.
        ("kitchen_drawer", "523.4 mm wide and 470 mm from near to far"),
        ("panelled_frame", "276 mm wide and 484 mm high"),  # 262 + 2 * 7, 470 + 2 * 7: its notes
    ],
)
def test_the_room_in_the_grooves_is_told_for_what_is_in_no_list(job, told):
    ((_, words),) = plans_of(job)
    (sizes,) = (one.words for one in words if one.words.startswith("Finished"))
    assert f". Room in the groove or rebate: {told}; make" in sizes


@pytest.mark.parametrize(
    ("job", "told"),
    [
        ("handrail", "down"),  # all in one line, which has no inside
        ("picture_frame", "outwards"),
        ("cabinet_door", "inwards"),
        # Below the top rail is the inside for that one alone.
        ("garden_gate", "inwards; MIDDLE's down"),
        ("garden_trellis", "inwards; SLANTING RAIL's down"),
        # What comes to no corner, and has no board beside it that runs the same way.
        ("easel_frame", "inwards; CROSSBAR's down"),
        ("muntin", "inwards; MUNTIN's to the right"),
        ("tee", "thus: CROSSBAR's down; LEG's to the right"),
        # What meets at a corner has an inside there, though no board lies across from it.
        ("one corner", "inwards"),
    ],
)
def test_a_frames_plan_says_which_way_all_reference_edges_look(job, told):
    ((_, words),) = plans_of(job)
    (seen,) = (one.words for one in words if one.words.startswith("Seen from"))
    assert f"reference edges {told}." in seen


FIGURE = re.compile(r"((?:\d[\d./]* )+)(mm|in)")


def in_mm(words: str) -> float:
    numbers, unit = FIGURE.match(words).groups()
    return float(sum(map(Fraction, numbers.split()))) * (25.4 if unit == "in" else 1)


@pytest.mark.parametrize(
    ("job", "count"),
    [
        ("face_frame", 4),
        ("garden_trellis", 4),
        ("bookcase", 6),
        ("cabinet_door", 6),
        ("garden_gate", 8),
        ("picture_frame", 2),
        ("plate_rack", 1),
        ("handrail", 1),
    ],
)
def test_every_figure_of_a_plan_is_what_its_line_measures(job, count):
    """All to one scale: overall from tick to tick, and from a board's end to each tick."""
    figure = plan(job)
    ticks = [
        [(a + b) / 2 for a, b in zip(s.start, s.end, strict=True)]
        for s in figure.strokes
        if s.role is Role.DIMENSION and abs(sum(s.end) - sum(s.start)) == 2
    ]
    wood = [s for s in figure.strokes if s.role is Role.FRAME]
    edges = {round(float(y), 3) for s in wood for _, y in (s.start, s.end)}
    scales, lanes = [], set()
    for text in figure.texts:
        if FIGURE.fullmatch(text.words) and text.align is Align.CENTRE:
            axis = 1 if text.turn else 0
            lane = {at[1 - axis] for at in ticks if abs(at[1 - axis] - text.at[1 - axis]) < 2}
            lanes |= {(1 - axis, at) for at in lane}
            ends = [at[axis] for at in ticks if at[1 - axis] in lane]
            scales.append(float(max(ends) - min(ends)) / in_mm(text.words))
    middle = max(text.at[0] for text in figure.texts) / 2
    for is_right in (False, True):
        beside = [t for t in figure.texts if (t.at[0] > middle) == is_right and not t.turn]
        said = " ".join(t.words for t in sorted(beside, key=lambda t: -t.at[1]))
        found = re.findall(rf"({FIGURE.pattern}) from the (top|bottom) end", said)
        for end in ("top", "bottom"):
            far = sorted(in_mm(words) for words, *_, of in found if of == end)
            heights = sorted(
                (
                    y
                    for x, y in ticks
                    if (x > middle) == is_right
                    and (0, x) not in lanes
                    and far
                    and not any(axis == 1 and at == y for axis, at in lanes)
                ),
                reverse=end == "top",
            )
            heights = heights[: len(far) + 1]
            assert {round(float(y), 3) for y in heights[1:]} <= edges, "a tick is where wood is"
            scales += [
                float(abs(y - heights[0])) / at for y, at in zip(heights[1:], far, strict=True)
            ]
    assert len(scales) == count
    assert scales == pytest.approx([scales[0]] * count, rel=1e-6)


@pytest.mark.parametrize("job", ["crossed", "settle"])
def test_the_lines_of_the_finished_size_reach_as_far_as_the_wood(job):
    figure = plan(job)
    wood = [at for s in figure.strokes if s.role is Role.FRAME for at in (s.start, s.end)]
    lines = [s for s in figure.strokes if s.role is Role.DIMENSION]
    for axis in range(2):
        ticks = [
            s.start[axis]
            for s in lines
            if s.start[axis] == s.end[axis] and abs(s.start[1 - axis] - s.end[1 - axis]) == 2
        ]
        reach = [float(at[axis]) for at in wood]
        assert [float(min(ticks)), float(max(ticks))] == pytest.approx([min(reach), max(reach)])


def test_a_slanting_rail_stands_in_the_plan_of_its_frame():
    """30 degrees down to the right, from 200 on the left stile's inner edge."""
    figure = plan("garden_trellis")
    assert round(3**-0.5, 3) in leaning(figure)
    lines = [s for s in figure.strokes if s.role is Role.DIMENSION and s.start[0] == s.end[0]]
    beside = (
        min(lines, key=lambda s: s.start[0]),
        max((s for s in lines if s.start[1] - s.end[1] > 2), key=lambda s: s.start[0]),
    )
    # Where the figures end, the rail's upper edge leaves the stiles.
    ends = {round(float(line.end[1]), 3) for line in beside}
    edges = ({round(float(s.start[1]), 3), round(float(s.end[1]), 3)} for s in figure.strokes)
    assert ends in edges


def test_a_carcase_is_seen_from_the_front_with_its_shelves():
    """Sides of 20, 500 between them; 18 thick shelves 30 and 390 below the top of 780, 6 let in."""
    figure = plan("bookcase")
    assert lines_at(figure, 0, 540) == {0, 14, 20, 520, 526, 540}
    assert lines_at(figure, 1, 780) == {0, 372, 390, 732, 750, 780}


@pytest.mark.parametrize("job", ["handrail", "face_frame", "stool", "tea_box"])
def test_a_plan_is_no_wider_than_the_narrowest_page(job):
    ((figure, _),) = plans_of(job, 55)
    assert 0 < figure.width <= 55


@pytest.mark.parametrize(
    ("job", "line"),
    [
        ("garden_trellis", "SLANTING RAIL's far edge at the stile's reference edge"),
        ("face_frame", "DRAWER RAIL's far edge"),
        ("bookcase", "upper face of the board that meets it there"),  # a top, or a shelf
        ("picture_frame", ""),
    ],
)
def test_a_frames_plan_says_that_places_count_from_ends_as_sawn_and_to_which_line(job, line):
    """The trellis' stiles end 1.5 past the rails until they are cleaned off; a side is whole."""
    ((_, (words, *_)),) = plans_of(job)
    counts = words.words.partition(" Places along a board are measured ")[2]
    whole = f"from its end as sawn, before anything is cleaned off, to the {line}."
    assert counts == (whole if line else "")


def test_a_place_is_told_from_a_boards_end_by_the_name_that_its_own_pages_give_it():
    """Outside faces to the front, a top rail's reference edge down, a bottom rail's up."""
    ((figure, _),) = plans_of("muntin")
    words = " ".join(text.words for text in figure.texts)
    assert sorted(re.findall(r"180 mm from the (.*? end)((?: \(.*?\))?)", words)) == [
        ("left end", ""),
        ("left end", " (its right-hand end)"),
    ]


CASE = """
units = "mm"
boards.long = { width = 110, thickness = 15, length = 320 }
boards.short = { width = 110, thickness = 15, length = 180 }
[[joints]]
kind = "full-blind-dovetail"
corners = ["A", "B", "C", "D"]
tail_board = "long"
pin_board = "short"
"""
MUNTIN = """
boards.stile = { width = 60, thickness = 21, length = 700 }
boards.rail = { width = 60, thickness = 21, length = 460 }
boards.muntin = { width = 50, thickness = 21, length = 640 }
[[joints]]
kind = "mortise-and-tenon"
name = "Corners"
corners = [
  { name = "Top left", like = "A" }, { name = "Top right", like = "B" },
  { name = "Bottom right", like = "C" }, { name = "Bottom left", like = "D" },
]
rail = "rail"
stile = "stile"
tenon_length = 40
at = 0
[[joints]]
kind = "mortise-and-tenon"
name = "Muntin"
corners = [{ name = "Above", like = "A" }, { name = "Below", like = "D" }]
rail = "muntin"
stile = "rail"
front = "muntin"
tenon_length = 30
at = 180
"""
"""A frame with an upright in its middle: the rails that it comes to are its stiles."""


@pytest.mark.parametrize(
    "job",
    [
        "cabinet_door",
        "face_frame",
        "garden_gate",
        "garden_trellis",
        "mirror_frame",
        "panelled_frame",
        "muntin",
    ],
)
def test_top_and_bottom_on_the_templates_of_a_frame_are_those_of_its_plan(job):
    """A template's arrow points where y falls; only of an upright stile that is up or down."""
    (frame,) = arrangements(read_job(text_of(job)))
    assert frame.junctions
    for junction in frame.junctions:
        part, (right, up) = junction.second.member.part, frame.lie(junction, 1).along
        words = junction.second.up_end
        if not part.folds:
            way = {(0, -1): "top end", (0, 1): "bottom end"}.get((right, up))
            assert words == (way or part.up)
    if job == "muntin":
        assert len(frame.junctions) == 6
        assert "top" not in words


HEAD = """
[[joints]]
kind = "mortise-and-tenon"
name = "Legs to head"
corners = [{ name = "Left", like = "A" }, { name = "Right", like = "B" }]
rail = "leg"
stile = "head"
front = "leg"
at = 50
"""
TIE = """
[[joints]]
{kind}
name = "Tie"
corners = [{{ name = "Tie left", like = "{left}" }}, {{ name = "Tie right", like = "{right}" }}]
at = 200
"""
TRESTLE = """
units = "mm"
boards.leg = { width = 70, thickness = 40, length = 720 }
boards.head = { width = 90, thickness = 40, length = 600 }
boards.tie = { width = 60, thickness = 30, length = 500 }
"""
HALVED = 'kind = "halving"\nform = "tee"\nrail = "tie"\nstile = "leg"'
DOWELLED = 'kind = "dowel"\nform = "frame"\nfirst_board = "tie"\nsecond_board = "leg"'
PAST = "end past the rail's far edge"


@pytest.mark.parametrize("kind", [HALVED, HALVED.replace("halving", "bridle"), DOWELLED])
@pytest.mark.parametrize(
    ("letters", "end"), [("DC", "bottom end"), ("AB", "top end"), ("AC", PAST)]
)
@pytest.mark.parametrize("leg_first", [True, False])
def test_one_end_of_a_leg_has_one_name_on_all_pages(kind, letters, end, leg_first):
    """A tie lettered D, C stands with its far edge 200 above the floor; A, B 200 below the top."""
    tie = TIE.format(kind=kind, left=letters[0], right=letters[1])
    job = read_job(TRESTLE + (HEAD + tie if leg_first else tie + HEAD))
    (number,) = (n for n, one in enumerate(job.joints) if one.name == "Tie")
    own = end.replace("rail", "first board") if kind == DOWELLED else end
    words = " ".join(step.words for step in [*orders_of_work(job)][number])
    assert re.findall(r"200 mm from the ((?:\w+ )?end(?: past the .*? far edge)?)", words) == [own]
    placed = [job.joints[number].joint.placed(one)[1] for one in job.joints[number].corners]
    names = {"A": "top end", "B": "top end", "C": "bottom end", "D": "bottom end"}
    assert [one.up_end for one in placed] == [names[letter] for letter in letters]
    starts = {rod.start for rod in rods(job) if rod.board.name == "leg"}
    assert end == PAST or starts == {end}
    ((figure, told),) = plans(job, tuple(arrangements(job)), Fraction(175), DejaVu())
    drawn = " ".join(text.words for text in figure.texts)
    known = sorted(names[letter] for letter in letters)
    assert sorted(re.findall(r"200 mm from the (\w+ end)", drawn)) == known
    # The legs stand, as front says, and the head lies on them.
    assert sorted(re.findall(r"50 mm from the (\w+ end)", drawn)) == ["left end", "right end"]
    heads = [line.words.partition(":")[0] for line in told if "HEAD (" in line.words]
    assert heads == ["Left, top left", "Right, top right"]
