"""The cutting list by hand: every board and loose piece, how many, how long, and which they are."""

import math
import re
from pathlib import Path

import pytest
from msgspec.structs import astuple

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs.cutting_list import cutting_list, prints
from joinery_templates.jobs.reader import read_job
from joinery_templates.jobs.ring import ring_of
from joinery_templates.jobs.rods import rods
from joinery_templates.patterns import arrangements, on_the_same_board

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
TONGUE = """
units = "mm"
boards.first = { width = 90, thickness = 20, length = 700 }
boards.next = { width = 90, thickness = 20, length = 700 }
[[joints]]
kind = "tongue-and-groove"
first_board = "first"
second_board = "next"
"""
CARCASE = """
units = "mm"
boards.side = { width = 250, thickness = 20, length = 700 }
boards.top = { width = 250, thickness = 20, length = 600 }
boards.shelf = { width = 250, thickness = 18, length = 572 }
"""
AT_TOP = """
[[joints]]
corners = [{ name = "Top left", like = "A" }, { name = "Top right", like = "D" }]
"""
AT_SHELF = """
[[joints]]
corners = [{ name = "Shelf left", like = "A" }, { name = "Shelf right", like = "B" }]
at = 300
"""
CORNERS = {
    "dovetails": 'kind = "through-dovetail"\ntail_board = "side"\npin_board = "top"\n',
    "pins on the sides": (
        'kind = "through-dovetail"\ntail_board = "top"\npin_board = "side"\nfront = "top"\n'
    ),
    "dowels": 'kind = "dowel"\nform = "corner"\nfirst_board = "side"\nsecond_board = "top"\n',
    "splined mitres": 'kind = "splined-mitre"\nfirst_board = "side"\nsecond_board = "top"\n',
}
SHELVES = {
    "housed": 'kind = "housing"\nshelf = "shelf"\nside = "side"\n',
    "slid in": 'kind = "sliding-dovetail"\nshelf = "shelf"\nside = "side"\n',
    "dowelled": 'kind = "dowel"\nform = "tee"\nfirst_board = "shelf"\nsecond_board = "side"\n',
}
STRETCHED = """
units = "mm"
boards.leg = { width = 60, thickness = 50, length = 430 }
boards.rail = { width = 70, thickness = 30, length = 320 }
boards.shelf = { width = 60, thickness = 18, length = 900 }
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B", "C", "D"]
rail = "rail"
stile = "leg"
on = "inside"
at = 70
"""


def listed(text: str) -> list[tuple[str, ...]]:
    """Name, pieces, length, stock, width, thickness, which."""
    job = read_job(text)
    follows = {name: long for one in arrangements(job) for name, long in one.follows.items()}
    return [astuple(one) for one in cutting_list(job, follows)]


def of_sample(name: str) -> list[tuple[str, ...]]:
    return listed((SAMPLES / f"{name}.toml").read_text("utf-8"))


@pytest.mark.parametrize(
    ("job", "rows"),
    [
        (
            "tea_box",
            [("SIDE", "2", "A to B; D to C"), ("END", "2", "A to D; B to C")],
        ),
        (
            "workshop_drawer",
            [("SIDE", "2", "Back left; Back right"), ("BACK", "1", "Back left to Back right")],
        ),
        (
            "garden_trellis",
            [
                ("RAIL", "2", "Top left to Top right; Bottom left to Bottom right"),
                ("STILE", "2", "Top left to Bottom left (Left); Top right to Bottom right (Right)"),
                ("SLANTING RAIL", "1", "Left to Right"),
            ],
        ),
        (
            "bookcase",
            [
                ("TOP", "1", "Upper left to Upper right"),
                ("SIDE", "2", "Upper left, Lower left; Upper right, Lower right"),
                ("SHELF", "1", "Lower left to Lower right"),
            ],
        ),
        # One corner stands for several there: the job says how many boards.
        ("six_sided_box", [("TAILS", "3", ""), ("PINS", "3", "")]),
        ("lantern", [("SIDE", "8", "")]),
    ],
)
def test_it_says_how_many_of_each_board_there_are_and_which(job, rows):
    assert [(name, pieces, which) for name, pieces, *_, which in of_sample(job)] == rows


@pytest.mark.parametrize(
    ("job", "told"),
    [
        # Six corners, of which the pages show an odd one and an even one, and eight of one sort.
        ("six_sided_box", "print those of TAILS and PINS 3 times."),
        ("lantern", "print those of SIDE 8 times."),
        ("tea_box", ""),
        ("bench_top", ""),
    ],
)
def test_it_says_how_often_templates_are_printed_where_a_corner_stands_for_several(job, told):
    text = (SAMPLES / f"{job}.toml").read_text("utf-8")
    one = "A template that is glued on serves one corner: " if told else ""
    assert prints(read_job(text)) == one + told


@pytest.mark.parametrize(
    ("job", "change", "across"),
    [
        # Of a regular figure with n sides: a side / tan(180 / n).
        ("lantern", ("", ""), 75 / math.tan(math.pi / 8)),
        ("six_sided_box", ("", ""), 110 * 3**0.5),
        ("lantern", ("pieces = 8", "pieces = 6"), None),  # whose corners are of 120 degrees
        ("six_sided_box", ('"110 mm"\npieces = 3\n\n[b', '"90 mm"\npieces = 3\n\n[b'), None),
        ("six_sided_box", ("plan = 120", 'plan = 120\ntails_proud = "0.5 mm"'), None),
        ("tea_box", ("", ""), None),
    ],
)
def test_a_ring_of_equal_sides_is_so_wide_across_its_flats(job, change, across):
    text = (SAMPLES / f"{job}.toml").read_text("utf-8")
    assert change[0] in text
    ring = ring_of(read_job(text.replace(*change)))
    told = ring and ring.across_the_flats
    assert (told and float(told)) == (across and pytest.approx(across))
    noted = re.search(r"(\d+) mm across the flats", text)
    assert not (told and noted) or float(noted[1]) == pytest.approx(told, abs=0.5)


@pytest.mark.parametrize(
    ("job", "row"),
    [
        # 2 at each of four corners and at both ends of the drawer rail; two holes of 25, less 3.
        ("face_frame", ("DOWEL", "12", "47 mm", "629 mm for all", "", "8 mm round", "")),
        # 3 at each of four corners, twice as long as they are high; of stock 12 times 28 and 5 to
        # saw each off, and 5 for the first end.
        ("keepsake_box", ("FEATHER", "12", "28 mm", "401 mm for all", "14 mm", "1.5 mm", "")),
        # Five along the seam; the patterns show one. Of stock 5 times 3 1/4, and 1/4 more.
        ("bench_top", ("KEY", "5", "3 in", "16 1/2 in for all", "1 3/8 in", "13/16 in", "")),
        # Two at both ends of the one rail, as high as the mortise, 10 longer than the kerf.
        ("garden_gate", ("WEDGE", "4", "70 mm", "305 mm for all", "10.8 mm", "12 mm", "")),
    ],
)
def test_it_has_all_that_is_made_of_wood_of_its_own(job, row):
    assert of_sample(job)[-1] == row


def test_keys_of_two_sizes_are_told_apart_by_their_joints():
    """Two across one butt and two at each of four mitres."""
    text = """
title = "Keys"
boards.plank = { width = 140, thickness = 22, length = 900 }
boards.other = { width = 140, thickness = 22, length = 700 }
boards.post = { width = 70, thickness = 20, length = 800 }
boards.head = { width = 70, thickness = 20, length = 600 }
[[joints]]
kind = "butt-dovetail-key"
name = "Butt"
first_board = "plank"
second_board = "other"
keys = 2
[[joints]]
kind = "mitre-dovetail-key"
name = "Mitres"
corners = ["A", "B", "C", "D"]
first_board = "post"
second_board = "head"
keys = 2
"""
    keys = [row for row in listed(text) if row[0] == "KEY"]
    assert [(row[1], row[-1]) for row in keys] == [("2", "Butt"), ("8", "Mitres")]


@pytest.mark.parametrize(
    ("job", "rows"),
    [
        # Longer inside by 9 tan 30 = 5.20 at each end, and 5 to saw and plane: 130.39.
        ("six_sided_box", {"TAILS": ("110 mm outside", "131 mm")}),
        # By 12 tan 1.11 = 0.23, square to ends that slant, so along the grain 0.23 / cos 7.92.
        ("seed_tray", {"SHORT": ("240 mm outside", "251 mm")}),
        # Mitres across the face end at the squared line: only what is sawn off is more.
        ("picture_frame", {"UPRIGHT": ("18 in outside", "18 1/2 in")}),
        # Squared to length before their mitres, which are longest outside; and square ends.
        ("planter", {"END": ("6 in", ""), "SIDE": ("16 in", "")}),
        ("tea_box", {"SIDE": ("10 in", ""), "END": ("7 in", "")}),
    ],
)
def test_wood_for_ends_that_are_not_square_is_longer_than_the_board(job, rows):
    """Lengths outside by hand."""
    told = {name: (long, stock) for name, _, long, stock, *_ in of_sample(job)}
    assert {name: told[name] for name in rows} == rows


def test_a_length_that_nobody_gave_follows_from_the_frame():
    """510 / cos 30 between the shoulders, and 71.94 and 53.46 past them, as the joints say."""
    text = (SAMPLES / "garden_trellis.toml").read_text("utf-8")
    lines = (line for line in text.splitlines() if not line.startswith("length = 714"))
    row = next(row for row in listed("\n".join(lines)) if row[0] == "SLANTING RAIL")
    long = Fraction(row[2].removesuffix(" mm"))
    assert float(long) == pytest.approx(510 / 3**0.5 * 2 + 71.94 + 53.46, abs=0.06)


def test_boards_side_by_side_and_the_tongues_between_them_are_counted():
    """Five boards have four seams, of 700; a tongue goes 7 into both, its grain across."""
    told = f'{TONGUE}form = "loose"\ntongue_length = 7\nboard_count = 5\n'
    counts = [("FIRST", "1", "700 mm", "90 mm"), ("NEXT", "4", "700 mm", "90 mm")]
    rows = [*counts, ("TONGUE", "4", "14 mm", "700 mm")]
    assert [(name, count, long, wide) for name, count, long, _, wide, *_ in listed(told)] == rows
    (one,) = read_job(told).joints
    assert {at.member.role for at in one.placed} == {"first board", "second board"}
    assert any("Each of the 4 seams has one." in step.words for step in one.joint.steps)
    unknown = told.replace(", length = 700", "")
    (_, _, _, _, wide, _, which) = listed(unknown)[-1]
    assert (wide, which.partition(",")[0]) == ("", "as wide as the seam is long")


def test_of_boards_that_nobody_counted_none_is_told():
    assert [row[1] for row in listed(TONGUE)] == ["", ""]


def counted(text: str) -> set[tuple[str, str, str]]:
    return {(name, count, which) for name, count, *_, which in listed(text)}


@pytest.mark.parametrize("shelf", SHELVES)
@pytest.mark.parametrize("corner", CORNERS)
def test_what_stands_at_the_corners_of_a_board_and_between_them_is_on_one_piece(corner, shelf):
    text = CARCASE + AT_TOP + CORNERS[corner] + AT_SHELF + SHELVES[shelf]
    left, right = ("Top left", "Shelf left"), ("Top right", "Shelf right")
    boards = {row for row in counted(text) if row[0] not in {"DOWEL", "SPLINE"}}
    assert boards == {
        ("SIDE", "2", f"{', '.join(left)}; {', '.join(right)}"),
        ("TOP", "1", "Top left to Top right"),
        ("SHELF", "1", "Shelf left to Shelf right"),
    }
    job = read_job(text)
    found = [one for one in rods(job) if one.board.name == "side"]
    # A slope that narrows lies on the one side as on the other in a mirror: each has its rod.
    assert sum((rod.pieces for rod in found), ()) == (", ".join(left), ", ".join(right))
    assert {rod.start for rod in found} == {"top end"}
    assert on_the_same_board(job.joints) == {
        ("side", at, names[at]): names[1 - at] for names in (left, right) for at in (0, 1)
    }


def test_near_the_top_the_joints_of_one_side_meet_and_not_those_of_two():
    text = CARCASE + AT_TOP + CORNERS["dowels"] + AT_SHELF.replace("300", "3")
    with pytest.raises(InputError, match=r"\(Shelf left\) and joint 1 .*\(Top left\) run into"):
        read_job(text + SHELVES["dowelled"])


def test_sides_that_the_plan_has_in_front_and_at_the_back_are_two_as_well():
    """Of such a carcase the near side is the left one: its right-hand end, at D, is its top."""
    at_top = AT_TOP.replace('"Top left", like = "A"', '"Top right", like = "C"')
    at_top = at_top.replace('"Top right", like = "D"', '"Top left", like = "D"')
    corners = 'kind = "through-dovetail"\ntail_board = "top"\npin_board = "side"\n'
    text = CARCASE + at_top + corners + AT_SHELF + SHELVES["housed"]
    assert ("SIDE", "2", "Top right, Shelf right; Top left, Shelf left") in counted(text)


def test_where_all_four_boards_have_one_name_a_shelf_stands_between_those_at_the_sides():
    corners = 'kind = "through-dovetail"\ntail_board = "side"\npin_board = "side"\n'
    four = '[[joints]]\ncorners = ["A", "B", "C", "D"]\n'
    which = "A to B (Shelf left); A to D; B to C; D to C (Shelf right)"
    text = CARCASE + four + corners + AT_SHELF + SHELVES["housed"]
    assert ("SIDE", "4", which) in counted(text)


def test_a_rail_between_legs_that_takes_a_shelf_is_no_other_rail():
    assert {
        ("LEG", "4", "A; B; C; D"),
        ("RAIL", "2", "A to B (Shelf left); D to C (Shelf right)"),
        ("SHELF", "1", "Shelf left to Shelf right"),
    } <= counted(
        STRETCHED + AT_SHELF.replace("300", "100") + SHELVES["dowelled"].replace('"side"', '"rail"')
    )


ROW = """
units = "mm"
boards.apron = {{ width = 160, thickness = 20, length = 640, pieces = {pieces} }}
[[joints]]
first_board = "apron"
second_board = "apron"
{kind}
"""
BUTT = 'kind = "butt-dovetail-key"\nkeys = 2'
MITRE = 'kind = "splined-mitre"\nform = "feathers"\nfeathers = 3'


@pytest.mark.parametrize(
    ("pieces", "kind", "made", "times"),
    [
        # n boards in a row have n - 1 joints, each with its two keys.
        (2, BUTT, 2, 0),
        (3, BUTT, 4, 2),
        (4, BUTT, 6, 3),
        (4, 'kind = "dovetail-key"\nkeys = 2', 6, 0),
        (5, 'kind = "tongue-and-groove"\nform = "loose"', 4, 0),
        (5, 'kind = "dowel"\nform = "edge"\ndowels = 4', 16, 0),
        # Four sides close a box with four corners, eight close two boxes; two make one corner.
        (4, MITRE, 12, 4),
        (8, MITRE, 24, 8),
        (2, MITRE, 3, 0),
        # At four corners that are named, no more are wanted than these have.
        (4, f'{MITRE}\ncorners = ["A", "B", "C", "D"]', 12, 0),
    ],
)
def test_loose_pieces_are_made_for_every_joint_of_a_row_or_ring(pieces, kind, made, times):
    job = read_job(ROW.format(pieces=pieces, kind=kind))
    assert [row[1] for row in listed(job.source)] == [f"{pieces}", f"{made}"]
    assert {at.made for at in job.joints[0].placed if at.is_loose} <= {made}
    assert prints(job).endswith(f"print those of APRON {times} times." if times else "")
    assert bool(prints(job)) == bool(times)


@pytest.mark.parametrize(
    ("pieces", "corners", "made"),
    [
        # Two tops of two boards each: the long one's right-hand end meets the other's left-hand.
        ((2, 2), "", 4),
        # One board between two others, which has two joints.
        ((2, 1), 'corners = [{ name = "L", like = "A" }, { name = "R", like = "B" }]', 4),
        ((1, 1), "", 2),
        ((None, 1), "", 2),
    ],
)
def test_of_two_boards_in_a_row_the_rarer_says_how_often_they_meet(pieces, corners, made):
    told = [f", pieces = {count}" if count else "" for count in pieces]
    rows = listed(f"""
units = "mm"
boards.long = {{ width = 90, thickness = 20, length = 700{told[0]} }}
boards.short = {{ width = 90, thickness = 20, length = 500{told[1]} }}
[[joints]]
first_board = "long"
second_board = "short"
{BUTT}
{corners}
""")
    assert rows[-1][1] == f"{made}"


def test_where_one_board_alone_is_counted_its_templates_are_printed_for_each():
    text = IN_TURN.format(counted=", pieces = 2")
    assert prints(read_job(text)).endswith("print those of TALL 2 times.")


IN_TURN = """
boards.tall = {{ width = 90, thickness = 10, length = 140{counted} }}
boards.low = {{ width = 90, thickness = 10, length = 140 }}
[[joints]]
kind = "angled-dovetail"
tail_board = "tall"
pin_board = "low"
"""


KEYSTONE = """
units = "mm"
boards.side = {{ width = 84, thickness = 10, length = 203.1 }}
boards.front = {{ width = 84, thickness = 14, length = 300 }}
boards.back = {{ width = 84, thickness = 10, length = 229.5 }}
[[joints]]
kind = "angled-dovetail"
corners = [{fronts}]
tail_board = "side"
pin_board = "front"
plan = 80
[[joints]]
kind = "angled-dovetail"
corners = [{backs}]
tail_board = "side"
pin_board = "back"
plan = {plan}
"""


@pytest.mark.parametrize(
    ("count", "plan", "made"),
    [
        # Two corners of 80 and two of 100 degrees come round: a drawer that narrows to the back.
        (1, 100, {"side": ("2", "F1A to B1B; F1D to B1C"), "front": ("1", "F1A to F1D")}),
        (2, 100, {"side": ("4", "F1A to B1B; F1D to B1C; F2A to B2B; F2D to B2C")}),
        # These do not: the ends are those of rings of more sides, as far as anyone can tell.
        (1, 120, {"side": ("", ""), "front": ("", "")}),
    ],
)
def test_pieces_of_a_drawer_that_is_not_square_are_counted_by_its_corners(count, plan, made):
    def corners(row: str, letters: str) -> str:
        ones = [(number, one) for number in range(1, count + 1) for one in letters]
        return ", ".join(f'{{ name = "{row}{n}{one}", like = "{one}" }}' for n, one in ones)

    text = KEYSTONE.format(fronts=corners("F", "AD"), backs=corners("B", "BC"), plan=plan)
    listed = {one.board.lower(): one for one in cutting_list(read_job(text), {})}
    assert {name: (listed[name].pieces, listed[name].which) for name in made} == made
