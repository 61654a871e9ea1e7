"""Words on the patterns and the plan name the edges, faces and corners that are there."""

import re
from functools import cache
from itertools import cycle
from pathlib import Path

import pytest
from msgspec.structs import replace

from joinery_templates.drawings.board_patterns import views
from joinery_templates.drawings.figure import Pattern, Role, Text
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.drawings.plan import Junction, corner_plan
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.drawings.wrap import wrap
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joint import VIEWS, Corner, Joint, Member, Placed
from joinery_templates.joints.catalogue import kinds
from joinery_templates.lengths import Units, teller
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.wood.board import Board, Face, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, Surface, at_least, at_most
from joinery_templates.wood.placement import end_to_end
from tests.joints.varied import varied
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import PageRead

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
PAPER = Fraction(1, 10)
LARGE = DrawingSetup(DejaVu(), Units.MM, (Fraction(2000), Fraction(2000)), PAPER)
every_kind_of_a_hand = pytest.mark.parametrize(
    ("kind", "hand"), list(zip(kinds(), cycle(Hand), strict=False))
)
"""One hand of each kind: the other one's patterns are made by the same exchange for all kinds."""


def words_of(pattern: Pattern) -> list[Text]:
    return [text for layer in pattern.layers for text in layer.texts]


@cache
def patterns(member: Member, hand: Hand, wanted: tuple[str, ...] = VIEWS) -> list[Pattern]:
    """Every view of a member, as drawn for one hand, or those wanted."""
    mates = () if member.role.startswith("key") else (member,)
    placed = Placed(member, Corner("Corner", member.hand is not hand), mates)
    assert placed.hand is hand
    return list(views(wanted, placed, LARGE))


# Edges. You look at the outside face of a left-hand end, its end at the top: the reference edge
# is on the left (that is what left-hand means). Whoever walks round to the inside, or looks at the
# other end of the board, has it on the right.


def reference_on_left(face: Face, hand: Hand) -> bool:
    return (hand is Hand.LEFT) != (face is Face.INSIDE)


def misnamed(pattern: Pattern, face: Face, hand: Hand) -> list[str]:
    """Words that put the reference or the far edge on the wrong side of the paper."""
    on_left = reference_on_left(face, hand)
    found = []
    for text in words_of(pattern):
        pointed = re.fullmatch(r"([◄▲▼] )?reference edge(?: = [a-z ]+)?( ►)?", text.words)
        beside = re.search(r"✂ (?:trim(?: at the|:) )?(reference|far) edge", text.words)
        if pointed and text.paragraph in ("", text.words):  # no row of longer words
            assert bool(pointed[1]) != bool(pointed[2])
            assert pointing(text) in (0, 180)
            found += [] if (pointing(text) == 180) == on_left else [text.words]
        if beside:
            left, right = board_sides(pattern)
            is_left = text.at[0] <= left
            assert is_left or text.at[0] >= right
            is_reference = beside[1] == "reference"
            found += [] if is_reference == (is_left == on_left) else [f"{text.words} {text.at}"]
    return found


def pointing(text: Text) -> int:
    """Where the arrow of words points on the paper, in degrees anticlockwise from the right."""
    (arrow,) = re.findall("[►▲◄▼]", text.words)
    return ("►▲◄▼".index(arrow) * 90 + text.turn) % 360


def board_sides(pattern: Pattern) -> tuple[Fraction, Fraction]:
    """The board's edges on the paper."""
    upright = [
        stroke.start[0]
        for stroke in pattern.strokes
        if stroke.role is Role.OUTLINE and stroke.start[0] == stroke.end[0]
    ]
    return min(upright), max(upright)


def face_shown(pattern: Pattern) -> Face:
    """A wrap lies like the outside face that it shows below."""
    return next((face for face in Face if pattern.title.endswith(str(face))), Face.OUTSIDE)


@every_kind_of_a_hand
def test_the_reference_edge_is_where_every_pattern_says(kind, hand):
    told = 0
    for member in varied(kind)[0].all_members:
        for pattern in patterns(member, hand):
            face = face_shown(pattern)
            if face in (Face.REFERENCE_EDGE, Face.FAR_EDGE):
                continue
            assert misnamed(pattern, face, hand) == []
            assert misnamed(pattern, face, hand.other) != [] or member.role.startswith("key")
            told += 1
    assert told


def test_a_wrap_names_both_edges_on_both_sides_of_its_fold():
    (member, _) = varied("through-dovetail")[0].members
    texts = words_of(patterns(member, Hand.LEFT)[0])
    cut_here = [text.words.split()[-2] for text in texts if text.words.startswith("✂")]
    assert sorted(cut_here) == ["far", "far", "reference", "reference"]


@pytest.mark.parametrize("thickness", [6, 12, 40])
def test_a_wrap_keeps_what_is_trimmed_clear_of_what_is_folded(thickness):
    """Two letters' width between the words along an edge and those at its folds."""
    member = varied("through-dovetail")[0].members[0]
    board = replace(member.part.board, thickness=Fraction(thickness))
    end = BoardEnd(board, (Cut((at_most(0, Fraction(10)),)),), Fraction(12))
    (folded,) = patterns(replace(member, part=end), Hand.LEFT, ("wrap",))
    boxes = {text: text_corners(text, DejaVu()) for text in words_of(folded)}
    folds = [box for text, box in boxes.items() if text.words == "fold"]
    trims = [box for text, box in boxes.items() if text.words.startswith("✂")]
    assert len(folds) == len(trims) == 4
    for (right, low), (left, high) in trims:  # turned: the foot of the letters is on the right
        for (x, y), (x1, y1) in folds:
            if x < right and left < x1:
                assert max(low, y) - min(high, y1) >= 3.6


@pytest.mark.parametrize("kind", ["butt-dovetail-key", "dovetail-key", "mitre-dovetail-key"])
def test_the_end_of_a_keys_stock_is_told_on_the_paper_that_is_kept(kind):
    """Within the lines that its template is cut along, less than 12 mm from that end."""
    keys = [one for one in varied(kind)[0].all_members if one.role.startswith("key")]
    assert keys
    for pattern in (one for key in keys for one in patterns(key, Hand.LEFT)):
        left, right = board_sides(pattern)
        end = max(y for one in pattern.strokes for _, y in (one.start, one.end))
        assert any(
            left < text.at[0] < right and end - 12 < text.at[1] < end
            for text in words_of(pattern)
            if text.words.startswith("▲")
        )


@pytest.mark.parametrize("hand", Hand)
def test_on_a_slim_board_the_label_runs_along_it_and_its_arrows_point_as_ever(hand):
    member = varied("through-dovetail")[0].members[0]
    board = replace(member.part.board, width=Fraction(32))
    end = BoardEnd(board, (Cut((at_most(0, Fraction(10)),)),), Fraction(12))
    (slim,) = patterns(replace(member, part=end), hand, ("wrap",))
    assert misnamed(slim, Face.OUTSIDE, hand) == []
    assert misnamed(slim, Face.OUTSIDE, hand.other) != []
    bold = [one for one in words_of(slim) if one.bold]
    assert {one.turn for one in bold} == {90, 270}
    ends = {(one.turn, pointing(one)) for one in bold if "this end up" in one.words}
    assert ends == {(90, 90), (270, 270)}  # towards the end from both faces


@every_kind_of_a_hand
def test_a_wrap_names_both_folds_on_both_sides(kind, hand):
    for member in varied(kind)[0].members:
        for pattern in patterns(member, hand):
            if not pattern.title.endswith("template"):
                continue  # of an end that leans the faces come one by one
            folds = sorted({s.start[1] for s in pattern.strokes if s.role is Role.FOLD})
            said = [text.at[1] for text in words_of(pattern) if text.words == "fold"]
            assert len(folds) == 2
            assert len(said) == 4
            assert all(min(abs(at - fold) for fold in folds) < 4.1 for at in said)


@every_kind_of_a_hand
def test_on_an_edge_the_outside_face_is_on_the_side_that_is_told(kind, hand):
    """Right of the reference edge of a left-hand end, left of its far edge."""
    for member in varied(kind)[0].members:
        for pattern in patterns(member, hand):
            face = face_shown(pattern)
            if face not in (Face.REFERENCE_EDGE, Face.FAR_EDGE):
                continue
            said = (t for t in words_of(pattern) if t.bold)  # the name on the edge is in rows
            (told,) = (t.words for t in said if "outside face on" in t.words)
            on_right = (face is Face.REFERENCE_EDGE) == (hand is Hand.LEFT)
            wanted = "outside face on the right ►" if on_right else "◄ outside face on the left"
            assert told == wanted
            # On the edge itself the words may run up the paper, and their arrow with them.
            for text in (t for t in words_of(pattern) if t.stays and "outside" in t.words):
                (arrow,) = re.findall("[▲►▼◄](?= outside)|(?<=outside )►", text.words)
                quarter = "►▲◄▼".index(arrow) + text.turn // 90
                assert quarter % 4 == (0 if on_right else 2)


# The squared line


def stretches(kind: str) -> list[Joint]:
    return [joint for joint in varied(kind) if not joint.members[1].part.guide[0]]


BOTH_WAYS = ("sliding-dovetail", "dovetail-halving", "mortise-and-tenon")


@pytest.mark.parametrize("kind", [*BOTH_WAYS, "housing", "dovetail-key"])
def test_where_a_wall_stands_on_the_dashed_line_the_words_say_that_it_is_solid_there(kind):
    found = []
    for joint in stretches(kind):
        cut = set()
        for pattern in patterns(joint.members[1], Hand.RIGHT):
            (dashed,) = {s.start[1] for s in pattern.strokes if s.role is Role.GUIDE}
            solid = any(
                stroke.role in (Role.SAW, Role.KNIFE) and stroke.start[1] == stroke.end[1] == dashed
                for stroke in pattern.strokes
            )
            said = " ".join(text.words for text in words_of(pattern))
            assert "dashed line" in said
            assert ("dashed line, solid where it is cut:" in said) == solid
            cut.add(solid)
        told = " ".join(step.words for step in joint.steps)
        if "dashed line" in told and "keys" not in told:
            assert ("label names (solid where it is cut)" in told) == (True in cut)
        found.append(True in cut)
    assert (True in found) == (kind != "dovetail-key")
    assert (False in found) == (kind != "housing")


# The label of a wrap


def end_of_board(width: int) -> BoardEnd:
    board = Board("side", Fraction(width), Fraction(18))
    half = at_least(0, Fraction(width, 2)), at_most(1, Fraction(20), Surface.SHOULDER)
    return BoardEnd(board, (Cut(half),), Fraction(20))


def wrapped(width: int, sheet: tuple[Fraction, Fraction]) -> tuple[Pattern, str]:
    end = end_of_board(width)
    mate = Member(
        "pin board", BoardEnd(Board("end", Fraction(9), Fraction(8)), (), end.reach), Hand.RIGHT
    )
    placed = Placed(Member("tail board", end, Hand.LEFT), Corner("Corner A", False), (mate,))
    pattern = wrap(placed, DrawingSetup(DejaVu(), Units.MM, sheet, PAPER))
    return pattern, " ".join(text.words for text in words_of(pattern))


@pytest.mark.parametrize(("width", "copies"), [(150, 2), (110, 1)])
def test_a_wrap_takes_the_smaller_label_only_where_that_saves_it_from_being_cut(width, copies):
    """First its name is smaller, then a row goes; where no sheet takes that, it has all again.

    A row is 1.7 times as high as its capitals, 5 or 3.5 mm, and there are two labels. Cut, a
    wide board has it twice, so that every sheet shows one.
    """
    hair = Fraction(1, 1000)
    whole, words = wrapped(width, (Fraction(2000), Fraction(2000)))
    just = (whole.width, whole.height)
    assert wrapped(width, just)[0] == wrapped(width, just[::-1])[0] == whole
    assert words.count(f"board {width} mm × 18 mm · meets END, right-hand end") == 2
    lower, words = wrapped(width, (whole.width, whole.height - hair))
    assert whole.height - lower.height == 2 * Fraction("1.7") * (5 - Fraction("3.5"))
    assert words.count(f"board {width} mm × 18 mm · meets END, right-hand end") == 2
    small, words = wrapped(width, (whole.width, lower.height - hair))
    assert small.height < lower.height
    assert words.count("Corner A · SIDE") == 2
    assert "18 mm · meets" not in words
    assert wrapped(width, (small.width, small.height))[0] == small
    cut, words = wrapped(width, (small.width, small.height - hair))
    assert words.count("Corner A · SIDE") == words.count(f"board {width} mm × 18 mm") == 2 * copies
    assert (cut == whole) == (copies == 1)


def test_a_small_wrap_tells_its_boards_other_corner_where_that_takes_no_more_paper():
    """The stool's stretchers, 32 wide: two of a name, whose labels have no room for all."""
    job = read_job((SAMPLES / "stool.toml").read_text(encoding="utf-8"))
    placed = job.joints[2].joint.placed(job.joints[2].corners[0])[0]
    setup = DrawingSetup(DejaVu(), Units.MM, (Fraction(180), Fraction(250)), PAPER)
    alone, told = (wrap(placed, replace(setup, also=also)) for also in ("", "Corner B"))
    assert (told.width, told.height) == (alone.width, alone.height)
    words = " ".join(text.words for text in words_of(told))
    assert words.count("same board as Corner B") == 1
    assert "meets" not in words


# The plan on the first page


JOB = """
title = "Four corners"
[boards.long]
width = 84
thickness = 12
[boards.short]
width = 84
thickness = 12
[[joints]]
kind = "box-joint"
corners = ["A", "B", "C", "D"]
first_board = "long"
second_board = "short"
fingers = 7
"""
PLACES = {"near": -1, "far": 1, "left": -1, "right": 1}
BOARD_AT = {"left": (-1, 0), "right": (1, 0), "near": (0, -1), "far": (0, 1)}
"""Which way the outside face of the board at each side looks, seen from above."""


def end_at(side: str, corner: tuple[int, int]) -> str:
    """Which end of the board at a side stands in a corner, for who faces its outside.

    Facing the way (a, b), one has (b, -a) on the right hand; reference edges are down.
    """
    out = BOARD_AT[side]
    facing = (-out[0], -out[1])
    right = (facing[1], -facing[0])
    return "right-hand end" if right[0] * corner[0] + right[1] * corner[1] > 0 else "left-hand end"


def plan_lines(page: PageRead) -> list[tuple[str, ...]]:
    words = " ".join(one.text for one in page.words)
    return re.findall(
        r"([A-D]), (near|far) (left|right): (\w+) \(([\w-]+ end)\) meets (\w+) \(([\w-]+ end)\)",
        words,
    )


@pytest.mark.parametrize("front", ["", "long"])
def test_the_plan_names_for_every_corner_the_ends_that_meet_there(front):
    first = pages_from(JOB + (f'front = "{front}"\n' if front else ""))[0]
    sides = ("SHORT", "LONG") if front else ("LONG", "SHORT")
    lines = plan_lines(first)
    assert [letter for letter, *_ in lines] == ["A", "B", "C", "D"]
    for _, depth, side, one, one_end, other, other_end in lines:
        corner = (PLACES[side], PLACES[depth])
        assert (one, other) == sides
        assert (one_end, other_end) == (end_at(side, corner), end_at(depth, corner))


def test_the_corners_go_clockwise_from_the_front_left_in_words_and_in_the_sketch():
    first = pages_from(JOB)[0]
    places = [(PLACES[side], PLACES[depth]) for _, depth, side, *_ in plan_lines(first)]
    assert places == [(-1, -1), (-1, 1), (1, 1), (1, -1)]
    letters = {w.text: w.box for w in first.words if w.text in ("A", "B", "C", "D")}
    middle = [
        sum((box[axis] + box[axis + 2]) / 2 for box in letters.values()) / 4 for axis in (0, 1)
    ]
    assert places == [
        tuple(1 if (letters[x][a] + letters[x][a + 2]) / 2 > middle[a] else -1 for a in (0, 1))
        for x in "ABCD"
    ]
    # Boards are named along the sides that they are at, and "towards you" stands below.
    (below,) = (w.at for w in first.words if w.text == "towards you")
    assert below[1] < min(box[1] for box in letters.values()) + 5
    top = letters["B"][3]
    named = [w for w in first.words if re.match("LONG|SHORT", w.text) and below[1] < w.at[1] < top]
    left, right = letters["A"][0], letters["C"][2]
    assert sorted(
        (
            w.text.removesuffix(", the other"),
            w.turn,
            (w.at[w.turn == 0] > middle[w.turn == 0]) if w.turn == 0 else w.at[0] > middle[0],
        )
        for w in named
        if left < w.at[0] < right
    ) == [("LONG", 90, False), ("LONG", 90, True), ("SHORT", 0, False), ("SHORT", 0, True)]


@pytest.mark.parametrize("letter", ["A", "B", "C", "D"])
def test_of_one_corner_the_sketch_names_the_two_boards_that_meet_there(letter):
    corner = Corner(f"Corner {letter}", False, letter, letter)
    side, end = (
        Placed(
            Member(name, BoardEnd(Board(name, Fraction(9), Fraction(8)), (), PAPER), hand), corner
        )
        for name, hand in (("side", Hand.LEFT), ("end", Hand.RIGHT))
    )
    junction = Junction(side, end, end_to_end(Fraction(0)), True, (0, 1))
    plan, _ = corner_plan([[junction]], Fraction(200), teller(Units.MM), DejaVu())
    frame = [stroke for stroke in plan.strokes if stroke.role is Role.FRAME]
    outer = [[p[a] for s in frame for p in (s.start, s.end)] for a in (0, 1)]
    middle = [(min(at) + max(at)) / 2 for at in outer]
    right, high = letter in "CD", letter in "BC"
    sides, ends = ([t for t in plan.texts if t.words == name] for name in ("SIDE", "END"))
    assert [text.at[0] > middle[0] for text in sides] == [right]
    assert [text.at[1] > middle[1] for text in ends] == [high]


@pytest.mark.parametrize("front", ["", "long"])
def test_every_pattern_says_the_end_that_the_plan_has_in_its_corner(front):
    pages = pages_from(JOB + (f'front = "{front}"\n' if front else ""))
    planned = {
        (letter, board): end
        for letter, _, _, one, one_end, other, other_end in plan_lines(pages[0])
        for board, end in ((one, one_end), (other, other_end))
    }
    seen = set()
    for page in pages[1:]:
        for placement in page.placements[1:]:
            words = " ".join(one.text for one in placement.words)
            for letter, board, end in re.findall(
                r"Corner ([A-D]) · (\w+) \w+ board · \w+ (?:face|grain) · ([\w-]+ end)", words
            ):
                assert planned[letter, board] == end
                seen.add((letter, board))
            for letter, board, end in re.findall(
                r"Corner ([A-D]) · \w+ (?:(?!Corner).)*?meets (\w+), ([\w-]+ end)", words
            ):
                assert planned[letter, board] == end
    assert seen == planned.keys()


def test_no_line_that_the_paper_is_cut_along_runs_through_a_slim_face_s_name():
    """Of the gate's wedge and of edges, whose names are turned."""
    seen = 0
    for kind in ("wedged-mortise-and-tenon", "through-dovetail"):
        joint = varied(kind)[0]
        for member in joint.all_members:
            for pattern in patterns(member, member.hand):
                cut = [one for one in pattern.strokes if one.role is Role.TRIM]
                level = {one.start[1] for one in cut if one.start[1] == one.end[1]}
                for text in words_of(pattern):
                    if text.turn == 90 and text.paragraph and text.stays:
                        seen += 1
                        high = text.at[1] + LARGE.lettering.width(text.words, text.cap)
                        assert not any(text.at[1] - 1 < y < high for y in level), text.words
    assert seen
