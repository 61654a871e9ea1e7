"""Corners that come round or do not, worked by hand: n equal ones of a ring have 180 - 360 / n."""

import pytest

from joinery_templates.jobs.reader import read_job

BOX = """\
boards.side = {{ width = 90, thickness = 10, length = 110, pieces = {pieces} }}
[[joints]]
kind = "{kind}"
first_board = "side"
second_board = "side"
{angles}
"""


def ring(pieces: int, angles: str, kind: str = "angled-mitre") -> str:
    return BOX.format(pieces=pieces, angles=angles, kind=kind)


def found(text: str, *codes: str) -> list[str]:
    findings = [one for one in read_job(text).findings if one.code in codes]
    return [f"{one.message} {one.remedy}" for one in findings]


@pytest.mark.parametrize(
    ("pieces", "angles", "kind", "words"),
    [
        # 120 for six: who gives the angle by which the boards turn gets two rings of three.
        (6, "plan = 60", "angled-mitre", ("3 boards", "pieces says 6", "Write plan = 120,")),
        (4, "plan = 60", "angled-mitre", ("3 boards", "pieces says 4", "Write plan = 90,")),
        (8, "plan = 120", "angled-mitre", ("6 boards", "pieces says 8", "Write plan = 135,")),
        (3, "plan = 135", "angled-mitre", ("8 boards", "pieces says 3", "Write plan = 60,")),
        # Boards turn by 80 at 100 degrees: five are 40 too many, four 40 too few.
        (5, "plan = 100", "angled-mitre", ("no number of boards", "Write plan = 108,")),
        # Above 150 nothing is laid out, and 16 sides have 157.5.
        (16, "plan = 150", "angled-mitre", ("12 boards", "157.5°", "Write another plan,")),
        (8, "plan = 144\nlean = 6", "canted-mitre", ("10 boards", "Write plan = 135,")),
        (6, "lean = 6", "canted-mitre", ("4 boards", "Write plan = 120,")),
    ],
)
def test_boards_that_close_no_ring_are_told_the_angle_that_would(pieces, angles, kind, words):
    (told,) = found(ring(pieces, angles, kind), "ring-open")
    assert [word for word in words if word not in told] == []


@pytest.mark.parametrize(
    ("pieces", "angles", "kind"),
    [
        (6, "plan = 120", "angled-mitre"),
        (3, "plan = 60", "angled-mitre"),
        (12, "plan = 120", "angled-mitre"),  # two boxes of six sides
        (7, "plan = 128.6", "angled-mitre"),  # 128.57, nearer than a bevel is set
        (10, "plan = 144\nlean = 6", "canted-mitre"),
        (8, "lean = 6", "canted-mitre"),  # two trays
        (3, "lean = 6", "canted-mitre"),  # open at one side
        (2, "plan = 135", "angled-mitre"),  # one corner
        (6, "", "splined-mitre"),  # which is square, however many boxes it is for
    ],
)
def test_a_ring_that_closes_or_can_be_no_ring_is_told_nothing(pieces, angles, kind):
    assert found(ring(pieces, angles, kind), "ring-open") == []


FAN = """\
boards.side = {{ width = 84, thickness = 10, length = 203.1 }}
boards.front = {{ width = 84, thickness = 14, length = 300 }}
boards.back = {{ width = 84, thickness = 10, length = 229.5 }}
[[joints]]
kind = "angled-dovetail"
name = "Front corners"
corners = [{{ name = "Front left", like = "A" }}, {{ name = "Front right", like = "D" }}]
tail_board = "side"
pin_board = "front"
plan = {front}
[[joints]]
kind = "angled-dovetail"
name = "Back corners"
corners = [{{ name = "Back left", like = "B" }}, {{ name = "Back right", like = "C" }}]
tail_board = "side"
pin_board = "back"
plan = {back}
"""


@pytest.mark.parametrize(
    ("front", "back", "words"),
    [
        (80, 100, ()),
        (80, 110, ("380°", "A 80°, B 110°", "plan = 70 in joint 1", "plan = 100 in joint 2")),
        (80, 80, ("320°", "plan = 100 in joint 1", "plan = 100 in joint 2")),
        # 360 less twice 150 leaves 30 for each in front; less twice 40, 140 behind.
        (40, 150, ("380°", "plan = 30 in joint 1", "plan = 140 in joint 2")),
    ],
)
def test_the_four_corners_of_a_piece_add_up_to_a_whole_turn(front, back, words):
    told = found(FAN.format(front=front, back=back), "ring-open")
    assert len(told) == bool(words)
    assert [word for word in words if word not in told[0]] == []


@pytest.mark.parametrize(
    ("back", "told"),
    [
        # The sides run in by 203.1 cos 80 = 35.27 each: 300 - 70.54 = 229.46 behind.
        ("229.5", ""),
        ("230.1", ""),  # as near as a tenth of a degree brings it, 0.52, and a shaving
        ("300", 'end 70.5 mm{} "back" 229.5 mm long; or make "front" 370.5 mm long.'),
        # Or of 203.1 the sides 50 / cos 80 = 287.94, which bring them in by 50 each.
        (
            "200",
            'end 29.5 mm{} "side" 287.9 mm long; or make "back" 229.5 mm long; or make "front" '
            "270.5 mm long.",
        ),
    ],
)
def test_four_sides_are_as_long_as_their_angles_want_them(back, told):
    text = FAN.format(front=80, back=100).replace("length = 229.5", f"length = {back}")
    words = found(text, "ring-open")
    assert len(words) == bool(told)
    assert told.format(" from where they began. Make") in "".join(words)
    assert found(text.replace(f", length = {back}", ""), "ring-open") == []


def test_of_four_unlike_sides_the_one_is_told_that_alone_would_close_them():
    """Square at A and B, 200 apart; from D at 60 degrees 200 / sin 60 = 230.94 to C.

    That brings C 200 / tan 60 = 115.47 nearer: 184.53 from B, where D is 300 from A.
    """
    lengths = {"left": 200, "front": 300, "back": 184.53, "right": 230.94}
    at = {"A": ("left", "front", 90), "B": ("left", "back", 90)}
    at |= {"C": ("right", "back", 120), "D": ("right", "front", 60)}
    boards = [
        f"boards.{name} = {{ width = 80, thickness = 10, length = {length} }}"
        for name, length in lengths.items()
    ]
    joints = [
        f'[[joints]]\nkind = "angled-mitre"\nname = "Joint {letter}"\ncorners = ["{letter}"]\n'
        f'first_board = "{first}"\nsecond_board = "{second}"\nplan = {plan}'
        for letter, (first, second, plan) in at.items()
    ]
    text = "\n".join((*boards, *joints))
    assert found(text, "ring-open") == []
    (told,) = found(text.replace("230.94", "220"), "ring-open")
    assert told.endswith('end 10.9 mm from where they began. Make "right" 230.9 mm long.')
    (told,) = found(text.replace("200", "195"), "ring-open")
    assert told.endswith('end 5 mm from where they began. Make "left" 200 mm long.')


def test_a_canted_piece_of_four_equal_corners_is_square():
    tray = """\
boards.long = { width = 80, thickness = 10, length = 400 }
boards.end = { width = 80, thickness = 10, length = 300 }
[[joints]]
kind = "canted-dovetail"
corners = ["A", "B", "C", "D"]
tail_board = "long"
pin_board = "end"
lean = 8
plan = 100
"""
    (told,) = found(tray, "ring-open")
    assert "add up to 400°" in told
    assert "Write plan = 90." in told
    assert found(tray.replace("plan = 100", "plan = 90"), "ring-open") == []


IN_TURN = """\
boards.tall = {{ width = 90, thickness = 10, length = 140, pieces = {count} }}
boards.low = {{ width = 90, thickness = 10, length = 140, pieces = {count} }}
[[joints]]
kind = "angled-dovetail"
tail_board = "tall"
pin_board = "low"
plan = {plan}
{corners}
"""
ODD, EVEN = '{ name = "Odd corners", like = "A" }', '{ name = "Even corners", like = "B" }'


@pytest.mark.parametrize(
    ("count", "plan", "corners", "words"),
    [
        (4, 135, "", (f"corners = [{ODD}, {EVEN}]",)),
        (3, 120, f"corners = [{ODD}]", (f"corners = [{ODD}, {EVEN}]",)),
        (2, 90, "", ('corners = ["A", "B", "C", "D"]',)),
        (4, 135, f"corners = [{ODD}, {EVEN}]", ()),
        (2, 90, 'corners = ["A", "B", "C", "D"]', ()),
        (1, 135, "", ()),  # two boards and one corner
    ],
)
def test_a_ring_of_two_boards_in_turn_has_corners_of_two_sorts(count, plan, corners, words):
    """TALL's right-hand end stands in the odd ones, its left-hand end in the even ones."""
    told = found(IN_TURN.format(count=count, plan=plan, corners=corners), "one-end-drawn")
    assert len(told) == bool(words)
    if told:
        sentence = 'the left-hand end of "tall" meets the right-hand end of "low"'
        assert sentence in told[0]
    assert [word for word in words if word not in told[0]] == []
