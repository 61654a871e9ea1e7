"""Pictures as they are printed: which way round, how large, and where words stand."""

import math
from functools import cache
from itertools import combinations
from pathlib import Path
from string import ascii_lowercase

import pytest
from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Role
from joinery_templates.drawings.lettering import text_corners
from joinery_templates.drawings.look import BODY
from joinery_templates.exact import Fraction
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.catalogue import kinds
from joinery_templates.pdf.fonts import DejaVu
from joinery_templates.pictures.picture import Pictures
from joinery_templates.pictures.pieces import eye_of, placed
from joinery_templates.wood.board import Hand
from tests.joints.solids import CLOSE_MM3, board_solid
from tests.joints.solids import placed as moved_to
from tests.joints.strategies import example_request

KINDS = kinds()
SAMPLES = Path(__file__).parents[2] / "sample_jobs"
LETTERING = DejaVu()
LARGE, SMALL = (Fraction(60), Fraction(70)), (Fraction(28), Fraction(30))
every_kind = pytest.mark.parametrize("name", KINDS)


@cache
def joint_of(name):
    return KINDS[name].build(example_request(KINDS[name]))


@cache
def figures_of(name, mirrored=False):
    pictures = Pictures(joint_of(name), mirrored, LETTERING)
    return pictures.of_joint(*LARGE), pictures.of_steps(*SMALL)


@every_kind
def test_what_comes_off_comes_off_without_rubbing(name):
    """The kernel's solids, moved by the way that the joint states, never meet."""
    joint = joint_of(name)
    boards = [
        board_solid(joint.members[0].part),
        *(
            moved_to(board_solid(one.part), at)
            for one, at in zip(joint.members[1:], joint.placements, strict=True)
        ),
    ]
    inside, loose = (
        [moved_to(board_solid(one.member.part), at) for one in some for at in one.placements]
        for some in ([one for one in joint.loose if one.is_inside], joint.let_in)
    )
    still, off = (boards, loose) if loose else ([*boards[1:], *inside], boards[:1])
    way = [float(share) for share in joint.pose.apart]
    for far in (0.2, 1, 5, 20):
        gone = [one.translate([far * share for share in way]) for one in off]
        assert sum((one ^ other).volume() for one in gone for other in still) < CLOSE_MM3


@every_kind
@pytest.mark.parametrize("mirrored", [False, True])
def test_a_board_is_of_the_hand_that_it_has_at_its_corner(name, mirrored):
    """From outside, the reference edge down, a left-hand end has the board on its right.

    So a quarter turn to the left leads from the way into the board to the way up to its far
    edge; seen from inside it is a quarter turn to the right.
    """
    joint = joint_of(name)
    for member, at in zip(joint.members, (None, *joint.placements), strict=True):
        right, up, towards = placed(eye_of(joint, mirrored), at).rows
        turn = right[1] * up[0] - up[1] * right[0]
        from_outside = towards[2] < 0
        hand = member.hand.other if mirrored else member.hand
        assert (turn > 0) == ((hand is Hand.LEFT) == from_outside)


@every_kind
def test_pictures_keep_to_the_room_that_they_are_given(name):
    large, small = figures_of(name)
    for figures, (width, height) in ((large, LARGE), (small, SMALL)):
        for figure in filter(None, figures):
            assert figure.width <= width
            # A caption stands below a picture of the joint.
            assert figure.height <= height + (10 if figures is large else 0)
            for stroke in figure.strokes:
                for x, y in (stroke.start, stroke.end):
                    assert 0 <= x <= figure.width
                    assert 0 <= y <= figure.height


@every_kind
def test_no_words_of_a_picture_stand_on_a_line(name):
    """Boxes of letters, as wide as the font says and as high as its capitals."""
    for figure in filter(None, sum(figures_of(name), ())):
        for text in figure.texts:
            width = LETTERING.width(text.words, text.cap, text.bold)
            before = {Align.LEFT: 0, Align.CENTRE: width / 2, Align.RIGHT: width}[text.align]
            left, low = text.at[0] - before, text.at[1]
            box = left, low, left + width, low + text.cap
            lines = [one for one in figure.strokes if one.role is not Role.HATCH]
            assert not any(meets(box, *one.start, *one.end) for one in lines), text.words


@every_kind
def test_words_beside_others_are_not_read_as_one_with_them(name):
    """On one line the width of two letters at the least is between them (our judgement)."""
    gap = 2 * LETTERING.width(ascii_lowercase, BODY) / len(ascii_lowercase)
    for figure in figures_of(name)[0]:
        for one, other in combinations(figure.texts, 2):
            (left, low), (right, high) = text_corners(one, LETTERING)
            (left1, low1), (right1, high1) = text_corners(other, LETTERING)
            if min(high, high1) > max(low, low1):
                assert max(left, left1) - min(right, right1) >= gap, (one.words, other.words)


def meets(box, x, y, x1, y1):
    """Whether a line passes through a box: asked of many points along it."""
    left, low, right, high = map(float, box)
    x, y, x1, y1 = map(float, (x, y, x1, y1))
    count = 1 + int(max(abs(x1 - x), abs(y1 - y)) / 0.2)
    points = ((x + n / count * (x1 - x), y + n / count * (y1 - y)) for n in range(count + 1))
    return any(left < u < right and low < v < high for u, v in points)


@every_kind
def test_every_board_is_named_in_the_pictures_of_the_joint(name):
    joint, (large, _) = joint_of(name), figures_of(name)
    apart, together, *waste = large
    hidden = {one.member.role for one in joint.loose if one.is_inside}
    for figure, unseen in ((apart, set()), (together, hidden)):
        words = " ".join(text.words for text in figure.texts)
        named = {one.role for one in joint.all_members if one.part.board.called in words}
        assert {one.role for one in joint.all_members} - named == unseen
    assert len(waste) == 1
    assert any("reference edge" in text.words for text in apart.texts)


@every_kind
def test_a_picture_of_the_other_hand_is_the_mirror_image(name):
    """All outlines, from side to side; words and their pointers stand as they read."""
    for one, other in zip(figures_of(name)[0], figures_of(name, mirrored=True)[0], strict=True):
        mine, its = outlines(one, 1), outlines(other, -1)
        assert len(mine) == len(its)
        assert all(any(is_same(a, b) for b in its) for a in mine)


def outlines(figure, sign):
    """Contours and edges, from the leftmost and lowest point on."""
    strokes = [one for one in figure.strokes if one.role in (Role.CONTOUR, Role.INNER)]
    points = [(sign * x, y) for one in strokes for x, y in (one.start, one.end)]
    left, low = (min(point[axis] for point in points) for axis in (0, 1))
    return [
        (one.role, [(float(sign * x - left), float(y - low)) for x, y in (one.start, one.end)])
        for one in strokes
    ]


def is_same(one, other):
    (role, (a, b)), (role1, ends) = one, other
    return role is role1 and any(
        max(math.dist(a, c), math.dist(b, d)) < 0.01 for c, d in (ends, ends[::-1])
    )


@pytest.mark.parametrize(
    ("name", "caption"),
    [
        ("through-dovetail", "Waste, hatched"),
        ("dowel", "Holes"),
        ("keepsake_box", "Waste, hatched"),  # narrow slots, closely
        ("picture_frame", "Waste, hatched"),
        ("wall_cupboard_back", "Waste, hatched"),
    ],
)
def test_a_caption_says_hatched_only_where_hatching_is_seen(name, caption):
    text = (SAMPLES / f"{name}.toml").read_text("utf-8") if name not in KINDS else ""
    joint = read_job(text).joints[0].joint if text else joint_of(name)
    *_, last = Pictures(joint, False, LETTERING).of_joint(*LARGE)
    assert last.texts[-1].words == caption
    hatched = [one for one in last.strokes if one.role is Role.HATCH]
    seen = [one for one in hatched if math.dist(one.start, one.end) > 0.6]
    assert caption == "Holes" or len(seen) >= 4


@every_kind
def test_a_caption_says_from_which_side_a_joint_is_seen(name):
    """A board's outside face is where z is 0, its reference edge where x is; wood has more of both.

    A carcase's plan shows its reference edges, so a picture that does not is one from behind.
    """
    joint = joint_of(name)
    up, front = joint.pose.up, joint.pose.front
    level = [
        f - u * sum(a * b for a, b in zip(front, up, strict=True)) / sum(a * a for a in up)
        for f, u in zip(front, up, strict=True)
    ]
    told = ""
    if joint.at_corner or name.startswith("angled"):
        told = f", seen from {'outside' if level[2] < 0 else 'inside'}"
    elif name in ("housing", "sliding-dovetail") and level[0] > 0:
        told = ", seen from behind"
    for figure, caption in zip(figures_of(name)[0], ("Apart", "Together"), strict=False):
        rows = [one.words for one in figure.texts if one.paragraph.startswith(caption)]
        assert " ".join(rows) == caption + told


def test_a_legs_reference_edge_is_said_to_be_behind_where_it_looks_away():
    """Both rails of the stool's sides come to the face beside it."""
    told = []
    for one in read_job((SAMPLES / "stool.toml").read_text(encoding="utf-8")).joints:
        joint = one.joint
        towards = [-float(row[0]) for row in joint.placements[0].rows]
        away = sum(a * b for a, b in zip(towards, eye_of(joint, False).eye, strict=True)) < 0
        apart = Pictures(joint, False, LETTERING).of_joint(Fraction(57), Fraction(48))[0]
        said = [text.words for text in apart.texts if "reference edge" in text.words]
        told.append((away, said[1:]))  # the rail's comes first
    assert [is_away for is_away, _ in told] == [False, True, True]
    assert told[0][1] == ["reference edge"]
    assert told[2][1] == ["reference edge, behind"]


@pytest.mark.parametrize(
    "form",
    [{"form": "corner"}, {"form": "edge", "seam": "150 mm"}, {"form": "frame"}, {"form": "tee"}],
)
def test_a_step_at_one_board_shows_what_is_done_there(form):
    """Holes of another diameter make another picture, at whichever board they are bored."""
    kind, pictures = KINDS["dowel"], []
    for diameter in ("6 mm", "8 mm"):
        joint = kind.build(example_request(kind, **form, diameter=diameter))
        pictures.append(Pictures(joint, False, LETTERING).of_steps(*SMALL))
    bored = [n for n, step in enumerate(joint.steps) if step.heading.startswith(("Lay", "Bore"))]
    assert len(bored) == 4
    for number in bored:
        one, other = (figures[number] for figures in pictures)
        assert one.strokes != other.strokes


def test_no_dowel_is_drawn_where_a_wide_board_is_broken_off():
    """Put together, the boards hide all four: the picture is that of boards without dowels."""
    kind = KINDS["dowel"]
    request = example_request(kind, form="tee", dowels=4)
    wide = tuple(replace(board, width=Fraction(380)) for board in request.boards)
    joint = kind.build(replace(request, boards=wide))
    drawn = [
        Pictures(one, False, LETTERING).of_joint(*LARGE)[1]
        for one in (joint, replace(joint, loose=()))
    ]
    assert drawn[0].strokes == drawn[1].strokes


def test_a_wide_board_is_shown_whole_where_all_its_keys_stand_far_in():
    """Of 726 mm, 16 thick, 144 would be shown; the nearer of two keys begins at 151.5."""
    kind = KINDS["butt-dovetail-key"]
    request = example_request(kind, keys=2, key_width=60)
    wide = tuple(
        replace(board, width=Fraction(726), thickness=Fraction(16)) for board in request.boards
    )
    pictures = Pictures(kind.build(replace(request, boards=wide)), False, LETTERING)
    for figure in pictures.of_joint(*LARGE)[:2]:  # the third shows the boards with their waste
        assert "KEY" in [text.words for text in figure.texts]
