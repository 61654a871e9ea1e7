"""What joints do to each other on one board: each finding by hand, beside a job that has none."""

import re
from pathlib import Path

import pytest
from hypothesis import given, reject
from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.errors import InputError, Level
from joinery_templates.exact import Fraction
from joinery_templates.jobs.furniture import known_together
from joinery_templates.jobs.mistakes import Mistakes
from joinery_templates.jobs.reader import read_job
from joinery_templates.wood.cut import Cut, at_least
from tests.strategies import PROPERTY

JOBS = sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))
CODES = {
    "board-twice",
    "corner-twice",
    "two-joints-at-end",
    "out-at-end",
    "joints-meet",
    "wall-thin",
    "groove-shows",
    "rebate-shows",
    "out-of-line",
    "groove-in-tenon",
    "never-closed",
    "length-off",
    "tongue-cut",
    "ring-open",
    "one-end-drawn",
    "rebates-differ",
    "rebate-filled",
}
TRELLIS = (JOBS[0].parent / "garden_trellis.toml").read_text("utf-8")
GROOVE = "groove = { from_edge = 9, width = 6, depth = 4 }"
FRONT = ('"A"', '"D"')
BACK = ('"B"', '"C"')


def corners(*named: str) -> str:
    return f"corners = [{', '.join(named)}]"


def like(name: str, letter: str) -> str:
    return f'{{ name = "{name}", like = "{letter}" }}'


def drawer(
    front: tuple[str, ...] = FRONT,
    back: tuple[str, ...] = BACK,
    groove: str = GROOVE,
    back_words: str = "half_pin = 12",
    back_kind: str = "through-dovetail",
    length: str = "480",
) -> str:
    """A drawer whose front takes 14 mm of the side, its lap of 5 left out, and the back 12."""
    return f"""\
boards.side = {{ width = 115, thickness = 12, length = {length} }}
boards.front = {{ width = 115, thickness = 19 }}
boards.back = {{ width = 115, thickness = 12 }}
[[joints]]
kind = "lapped-dovetail"
name = "Front corners"
{corners(*front) if front else ""}
tail_board = "side"
pin_board = "front"
lap = 5
tails = 3
pin = 6
{groove}
[[joints]]
kind = "{back_kind}"
name = "Back corners"
{corners(*back) if back else ""}
tail_board = "side"
pin_board = "back"
tails = 3
pin = 6
{back_words}
"""


def told(text: str) -> list[tuple[str, str]]:
    """Code and words of all that is told of joints together; with the place before."""
    try:
        found = read_job(text).findings
    except InputError as error:
        found = error.findings
        assert {one.level for one in found} == {Level.ERROR}
    else:
        assert {one.level for one in found} <= {Level.ADVICE}
    return [(one.code, one.told()) for one in found if one.code in CODES]


def codes(text: str) -> list[str]:
    return [code for code, _ in told(text)]


# Corners


def test_a_drawer_with_a_joint_at_each_end_of_its_sides_is_told_nothing() -> None:
    assert codes(drawer(groove="")) == []


def test_a_corner_given_to_two_joints_is_refused_at_its_line_with_both_joints() -> None:
    ((code, words),) = told(drawer(back=('"B"', '"D"'), groove=""))
    assert code == "corner-twice"
    assert words.startswith("line 17: joint 2, corners, number 2: 'Corner D' is given here and in ")
    assert 'joint 1 "Front corners" (Corner D): an end of "side" takes one joint.' in words
    assert '{ name = "Second box, Corner D", like = "D" }' in words


def test_every_corner_given_twice_is_told_and_a_name_of_one_s_own_counts_as_a_letter_does() -> None:
    assert codes(drawer(back=FRONT, groove="")) == ["corner-twice"] * 2
    named = (like("Front left", "A"), like("Front right", "D"))
    assert codes(drawer(front=named, back=(like("front left", "B"), '"C"'), groove="")) == [
        "corner-twice"
    ]


def test_pieces_without_a_board_in_common_may_have_corners_of_one_name() -> None:
    box, tray = drawer(groove=""), drawer(groove="")
    for name in ("side", "front", "back"):
        tray = tray.replace(f'"{name}"', f'"tray {name}"').replace(
            f"boards.{name} ", f'boards."tray {name}" '
        )
    boards, joints = tray.split("[[joints]]", 1)
    assert codes(f"{boards}{box}[[joints]]{joints}") == []
    shared = joints.replace('"tray side"', '"side"')
    assert codes(f"{boards}{box}[[joints]]{shared}") == ["corner-twice"] * 4


def test_a_corner_like_the_wrong_one_puts_two_joints_at_one_end_of_a_board() -> None:
    wrong = drawer(groove="", back=(like("Back left", "A"), like("Back right", "C")))
    ((code, words),) = told(wrong)
    assert code == "two-joints-at-end"
    assert words.startswith(
        'Back corners: Joint 2 "Back corners" (Back left) and joint 1 "Front corners" (Corner A) '
        'both take the right-hand end of "side".'
    )
    assert "like A at one end is like B" in words
    right = wrong.replace('like = "A"', 'like = "B"')
    assert codes(right) == []


SLATS = """
units = "mm"
boards.slat = {{ width = 60, thickness = 16, length = 330{pieces} }}
boards.rail = {{ width = 90, thickness = 32, length = 1180 }}
"""
SLAT = """
[[joints]]
kind = "mortise-and-tenon"
corners = [{{ name = "Slat {number}", like = "A" }}]
rail = "slat"
stile = "rail"
front = "slat"
at = {at}
"""


@pytest.mark.parametrize(
    ("pieces", "is_told"), [("", True), (", pieces = 1", True), (", pieces = 5", False)]
)
def test_tops_of_several_slats_are_told_only_where_the_job_does_not_count_them(
    pieces: str, is_told: bool
) -> None:
    """Two of a bench's five."""
    both = SLAT.format(number=1, at=173) + SLAT.format(number=2, at=387)
    assert codes(SLATS.format(pieces=pieces) + both) == ["two-joints-at-end"] * is_told


def test_a_wrong_letter_is_told_of_counted_boards_too() -> None:
    """Two sides are counted, and by the letters there would be three."""
    wrong = drawer(groove="", back=(like("Back left", "A"), like("Back right", "C")))
    counted = wrong.replace("boards.side = {", "boards.side = { pieces = 2,")
    assert codes(wrong) == codes(counted) == ["two-joints-at-end"]
    assert counted != wrong


def test_at_the_front_and_back_a_board_s_other_end_is_at_another_corner() -> None:
    """The front is at A and D: what is like D goes with A, and what is like B does not."""

    def front_alone(letter: str) -> str:
        one = drawer(groove="", front=('"A"',), back=(like("Right", letter),))
        return one.replace('tail_board = "side"\npin_board = "back"', _FRONT_AGAIN)

    assert codes(front_alone("D")) == []
    ((code, words),) = told(front_alone("A"))
    assert code == "two-joints-at-end"
    assert 'the left-hand end of "front"' in words
    assert "like A at one end is like D" in words


_FRONT_AGAIN = 'tail_board = "back"\npin_board = "front"'


def test_two_joints_of_which_no_corner_is_told_are_both_drawn_for_one_end() -> None:
    text = drawer(front=(), back=(), groove="")
    assert codes(text) == ["two-joints-at-end"]
    nameless = re.sub('name = ".*"', "", text).replace("lapped-dovetail", "through-dovetail")
    assert codes(nameless.replace("lap = 5", "")) == ["two-joints-at-end"]


@PROPERTY
@given(st.integers(1, 6), st.integers(1, 6), st.permutations(range(12)))
def test_any_number_of_equal_drawers_is_told_nothing(plain: int, deep: int, order) -> None:
    """Fronts of two sorts on equal sides, drawer by drawer in any order; the backs are alike."""
    count = plain + deep
    drawers = [number for number in order if number < count]
    ends = {
        place: [like(f"Drawer {number} {place}", letter) for number in drawers]
        for place, letter in {"fl": "A", "bl": "B", "br": "C", "fr": "D"}.items()
    }
    lipped = drawer(groove="", front=(*ends["fl"][:plain], *ends["fr"][:plain]))
    text = lipped.replace(corners(*BACK), corners(*ends["bl"], *ends["br"]))
    second = text[text.index("[[joints]]") : text.rindex("[[joints]]")]
    second = re.sub(r"corners = .*", corners(*ends["fl"][plain:], *ends["fr"][plain:]), second)
    text += second.replace("lap = 5", "lap = 6").replace("Front", "Deep front")
    assert codes(text) == []


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_no_sample_job_is_told_anything(job: Path) -> None:
    assert codes(job.read_text("utf-8")) == []


# Grooves


def test_a_groove_that_is_right_at_the_front_and_shows_at_the_back_is_told_on_its_bench_page() -> (
    None
):
    """At its end the back's half pin is 12 wide; the groove lies from 9 to 15."""
    ((code, words),) = told(drawer())
    assert code == "groove-shows"
    assert words.startswith(
        'Front corners: The groove of joint 1 "Front corners" (Corner A) runs on along "side" and '
        'shows at its other end, in joint 2 "Back corners" (Corner B). Stop it 12 mm from that end'
    )
    (front, back) = read_job(drawer()).joints
    assert [one.code for one in front.joint.findings] == [code]
    assert not back.joint.findings


@pytest.mark.parametrize(
    ("back", "shows"),
    [
        ({"back_words": "half_pin = 15"}, False),
        ({"back_words": "half_pin = 14.9"}, True),
        # The same groove there: its own stop is told with that joint.
        ({"back_words": GROOVE}, False),
        ({"back_words": GROOVE.replace("depth = 4", "depth = 3")}, True),
        # A lap of the back covers the end of the side.
        ({"back_words": "lap = 4", "back_kind": "lapped-dovetail"}, False),
        # A box whose four corners are alike.
        ({"front": (*FRONT, *BACK), "back": (like("Other", "A"), like("Other 2", "B"))}, False),
    ],
)
def test_a_groove_shows_where_it_leaves_the_space_between_the_tails(back, shows) -> None:
    assert codes(drawer(**back)) == ["groove-shows"] * shows


def test_a_rebate_that_is_wider_than_the_other_joint_s_half_pin_shows_too() -> None:
    one = drawer(groove="", front=('"A"',), back=('"B"',), back_words="half_pin = 7").replace(
        "lapped-dovetail", "through-dovetail"
    )
    rebated = one.replace("lap = 5", "rebate = { width = 6, depth = 4 }")
    assert codes(rebated) == []
    assert codes(rebated.replace("half_pin = 7", "half_pin = 5.5")) == ["rebate-shows"]


ANGLED = """\
boards.tails = { width = 100, thickness = 9, length = 110 }
boards.pins = { width = 100, thickness = 9, length = 110 }
[[joints]]
kind = "angled-dovetail"
name = "Odd corners"
corners = [{ name = "Odd corners", like = "A" }]
tail_board = "tails"
pin_board = "pins"
plan = 60
tails = 2
half_pin = 8
pin = 6
groove = { from_edge = 15, width = 4, depth = 3 }
"""


@pytest.mark.parametrize("plan", [60, 120])
def test_a_groove_shows_at_a_slanting_end_too(plan: int) -> None:
    """A half pin's side stands square to the board along its end: it reaches to 19 or not."""
    odd = ANGLED.replace("plan = 60", f"plan = {plan}")
    even = odd[odd.index("[[joints]]") : odd.index("groove")].replace("Odd", "Even")
    even = even.replace('like = "A"', 'like = "B"')
    assert codes(odd + even.replace("half_pin = 8", "half_pin = 19")) == []
    assert codes(odd + even.replace("half_pin = 8", "half_pin = 18.9")) == ["groove-shows"]


@PROPERTY
@given(st.integers(2, 100), st.integers(1, 8), st.integers(8, 24))
def test_a_groove_shows_unless_it_lies_in_one_space(low: int, width: int, half_pin: int) -> None:
    """The back's three tails stepped off by hand: pins of 6 between, half pins at the edges."""
    high, step = low + width, Fraction(115 - 2 * half_pin + 6, 3)
    pins = [(half_pin + n * step - 6, half_pin + n * step) for n in (1, 2)]
    spaces = [(0, half_pin), *pins, (115 - half_pin, 115)]
    text = drawer(
        groove=f"groove = {{ from_edge = {low}, width = {width}, depth = 4 }}",
        back_words=f"half_pin = {half_pin}",
    )
    try:
        read_job(text)
    except InputError:
        reject()  # the front has no room for it
    hidden = any(left <= low and high <= right for left, right in spaces)
    assert codes(text) == ["groove-shows"] * (not hidden)


# Walls


@pytest.mark.parametrize(
    ("length", "found"),
    # The front takes 14 and the back 12; a third of the board's thickness is 4.
    [("25", "joints-meet"), ("26", "joints-meet"), ("29.99", "wall-thin"), ("30", None)],
)
def test_two_ends_of_a_short_board(length: str, found: str | None) -> None:
    assert codes(drawer(groove="", length=length)) == [found] * bool(found)


def test_a_wall_that_is_thin_is_told_with_both_joints_and_its_thickness() -> None:
    ((_, words),) = told(drawer(groove="", length="29"))
    assert words == (
        'Back corners: Between joint 1 "Front corners" (Corner A) and joint 2 "Back corners" '
        '(Corner B), only 3 mm of "side" is left. Move one of them, or take a longer board. [our '
        "judgement: at least a third of the board's thickness]"
    )


def test_a_groove_is_no_wood_of_a_joint_s_own() -> None:
    assert codes(drawer(length="29", back_words="half_pin = 20")) == ["wall-thin"]


def test_of_backs_of_two_sorts_the_one_that_reaches_farther_is_held_against_the_front() -> None:
    """The front takes 14 of the side, one back 12 and the other 20."""
    ends = {letter: (like(f"1 {letter}", letter), like(f"2 {letter}", letter)) for letter in "ABCD"}
    one = drawer(
        groove="",
        front=(*ends["A"], *ends["D"]),
        back=(ends["B"][0], ends["C"][0]),
        length="33.9",
    )
    plain = one.replace("boards.back", "boards.deep = { width = 115, thickness = 20 }\nboards.back")
    second = one[one.rindex("[[joints]]") :].replace('"back"', '"deep"').replace("1 ", "2 ")
    assert codes(plain) == []
    assert codes(plain + second) == ["joints-meet"]
    assert codes((plain + second).replace("33.9", "38")) == []


def test_a_joint_that_meets_itself_from_the_other_end_is_refused() -> None:
    box = drawer(groove="", front=(*FRONT, *BACK), back=(like("X", "A"),), length="28")
    one = box[: box.rindex("[[joints]]")]
    assert codes(one) == ["joints-meet"]
    assert codes(one.replace("length = 28", "length = 32")) == []


SHELVES = """\
boards.side = {{ width = 200, thickness = 18, length = 300 }}
boards.shelf = {{ width = 200, thickness = 15 }}
boards.top = {{ width = 200, thickness = 20 }}
[[joints]]
kind = "housing"
name = "Upper shelf"
corners = [{{ name = "Upper left", like = "A" }}, {{ name = "Upper right", like = "B" }}]
shelf = "shelf"
side = "side"
at = {upper}
[[joints]]
kind = "{kind}"
name = "Lower shelf"
corners = [{{ name = "Lower left", like = "A" }}, {{ name = "Lower right", like = "B" }}]
shelf = "shelf"
side = "side"
at = {lower}
"""
TOP = """\
[[joints]]
kind = "through-dovetail"
name = "Top"
corners = ["A", "D"]
tail_board = "side"
pin_board = "top"
"""


def shelves(upper: str, lower: str = "200", kind: str = "housing", top: str = "") -> str:
    return SHELVES.format(upper=upper, lower=lower, kind=kind) + top


@pytest.mark.parametrize(
    ("lower", "found"),
    # The upper housing reaches from 100 to 115; a third of the side is 6.
    [
        ("100", "joints-meet"),
        ("90", "joints-meet"),
        ("115", "joints-meet"),
        ("120.9", "wall-thin"),
        ("121", None),
        ("79", None),
        ("79.1", "wall-thin"),
        ("285", None),
        ("285.1", "out-at-end"),
    ],
)
def test_two_housings_in_one_side(lower: str, found: str | None) -> None:
    assert codes(shelves("100", lower)) == [found] * bool(found)


def test_a_sliding_dovetail_is_measured_at_its_own_walls() -> None:
    """The shelf is 15 thick and its tail narrower by a shoulder of 2 above and below."""
    text = shelves("100", "119", "sliding-dovetail") + 'depth = 6\nshoulder = 2\nslope = "1:6"\n'
    assert codes(text) == ["wall-thin"]
    assert codes(text.replace("\nat = 119", "\nat = 120")) == []


@pytest.mark.parametrize(
    ("upper", "found"),
    # The top's pins take 20 of the side.
    [("15", "joints-meet"), ("20", "joints-meet"), ("25.9", "wall-thin"), ("26", None)],
)
def test_a_housing_near_the_joint_at_the_end(upper: str, found: str | None) -> None:
    assert codes(shelves(upper, top=TOP)) == [found] * bool(found)


@pytest.mark.parametrize(
    ("lower", "found"),
    # The bottom's pins take the last 20 of 300; the shelf's housing is 15 wide.
    [("266", "joints-meet"), ("265", "joints-meet"), ("259.1", "wall-thin"), ("259", None)],
)
def test_a_housing_near_the_joint_at_the_other_end(lower: str, found: str | None) -> None:
    box = TOP.replace('"A", "D"', '"A", "B", "C", "D"')
    assert codes(shelves("100", lower, top=box)) == [found] * bool(found)


@pytest.mark.parametrize(
    ("upper", "lower", "found"),
    # The top takes 20 of the side, the bottom 12 of its 300; a shelf 15, and a third of the side
    # is 6. On the right side it is the bottom's end that has the hand of the left one's top.
    [
        ("20", "200", "Corner A"),
        ("26", "267", ""),
        ("26", "267.1", "Corner B"),
        ("26", "273", "Corner B"),
    ],
)
def test_what_is_let_in_is_held_against_the_joint_at_its_own_piece_s_end(upper, lower, found):
    bottom = TOP.replace('"Top"', '"Bottom"').replace('"A", "D"', '"B", "C"')
    bottom = bottom.replace("through-dovetail", "lapped-dovetail") + "lap = 8\n"
    text = shelves(upper, lower, top=TOP + bottom)
    assert [f"({found})" in words for _, words in told(text)] == [True] * bool(found)


def test_the_same_housing_in_two_sides_is_not_one_from_either_end_of_one_side() -> None:
    """What is like D is drawn as what is like B is, and both are measured from the top."""
    text = shelves("142").replace('like = "B"', 'like = "D"')
    one = text[: text.rindex("[[joints]]")]  # its middle is that of the side
    assert codes(one) == []


def test_a_housing_whose_place_is_not_told_is_held_against_nothing() -> None:
    text = shelves("100", "100").replace("\nat = 100", "")
    assert codes(text) == []


DOOR = """\
boards.rail = {{ width = 60, thickness = 20 }}
boards.middle = {{ width = 40, thickness = 20 }}
boards.stile = {{ width = 60, thickness = 21, length = {length} }}
[[joints]]
kind = "mortise-and-tenon"
name = "Frame"
corners = [{ends}]
rail = "rail"
stile = "stile"
horn = 20
shoulder = 10
shoulder_far = 20
[[joints]]
kind = "mortise-and-tenon"
name = "Middle rail"
corners = [{middles}]
rail = "middle"
stile = "stile"
horn = {horn}
shoulder = 5
shoulder_far = 5
"""


def door(horn: str, length: str = "700", doors: int = 1) -> str:
    ends = [like(f"{n} {letter}", letter) for n in range(doors) for letter in "ABCD"]
    middles = [like(f"{n} middle {letter}", letter) for n in range(doors) for letter in "AB"]
    return DOOR.format(horn=horn, length=length, ends=", ".join(ends), middles=", ".join(middles))


@pytest.mark.parametrize(
    ("horn", "found"),
    # The upper mortise is chopped from 40 to 70, the lower one from 630 to 660 of 700, the
    # middle one 30 long and 5 below its rail's edge; a third of the stile is 7.
    [
        ("64", "joints-meet"),
        ("65", "joints-meet"),
        ("71.9", "wall-thin"),
        ("72", None),
        ("588", None),
        ("588.1", "wall-thin"),
        ("595", "joints-meet"),
        ("640", "joints-meet"),
    ],
)
def test_mortises_in_one_stile_from_either_end(horn: str, found: str | None) -> None:
    assert codes(door(horn)) == [found] * bool(found)
    assert codes(door(horn, doors=3)) == [found] * bool(found)


BARRED = """boards.rail = { width = 40, thickness = 20, length = 400 }
boards.stile = { width = 40, thickness = 20, length = 600 }
[[joints]]
kind = "halving"
form = "corner"
corners = ["A", "B", "C", "D"]
rail = "rail"
stile = "stile"
[[joints]]
kind = "halving"
form = "tee"
corners = [{ name = "Bar", like = "A" }]
rail = "rail"
stile = "stile"
"""


@pytest.mark.parametrize(("at", "corner"), [("20", "Corner A"), ("540", "Corner D")])
def test_the_corner_of_the_piece_that_is_meant_is_named(at: str, corner: str) -> None:
    """The left stile runs from A down to D; at C the right one has an end of A's hand."""
    ((code, words),) = told(f"{BARRED}at = {at}\n")
    assert code == "joints-meet"
    assert f"({corner})" in words


def test_rails_of_two_sorts_for_doors_of_their_own_may_have_one_place() -> None:
    """As many middle rails as frames have a lower end: they stand on stiles of their own."""
    two = door("20", doors=1).replace('"0 middle B", like = "B"', '"0 middle D", like = "D"')
    assert codes(two) == []


def changed(text: str, **changes: object) -> list[str]:
    """What is told where the second joint's second board is cut otherwise."""
    job = read_job(text)
    first, second = job.joints
    board, stile = second.joint.members
    members = (board, replace(stile, part=replace(stile.part, **changes)))
    second = replace(second, joint=replace(second.joint, members=members))
    mistakes = Mistakes()
    joints = known_together((first, second), job.units, mistakes)
    told = [one for joint in joints for one in joint.joint.findings]
    return [one.code for one in (*told, *(one for _, one in mistakes.found)) if one.code in CODES]


def test_what_lies_beside_another_joint_and_not_behind_it_leaves_no_wall() -> None:
    """One mortise from the reference edge, and one from the far edge at the same place."""
    text, same = door("200"), Fraction(20)
    (socket,) = read_job(text).joints[1].joint.members[1].part.cuts
    far = Cut((at_least(0, Fraction(50)), *socket.half_spaces[1:]))
    assert changed(text, along=same) == ["joints-meet"]
    assert changed(text, along=same, cuts=(far,)) == []


def test_what_begins_before_the_end_of_a_board_breaks_out_there() -> None:
    text = shelves("100", "0")
    assert changed(text) == []
    assert changed(text, start=Fraction(-1)) == ["out-at-end"]


# Boards


def test_two_boards_that_read_alike_have_one_size() -> None:
    other = drawer(groove="").replace("boards.back", "boards.Side")
    other = other.replace('pin_board = "back"', 'pin_board = "Side"')
    ((code, words),) = told(other)
    assert code == "board-twice"
    assert words.startswith('line 3: boards.Side: On paper this looks the same as "side"')
    equal = other.replace("thickness = 12 }", "thickness = 12, length = 480 }")
    assert codes(equal) == []


# All in one go


def test_mistakes_between_joints_are_told_with_those_within_them() -> None:
    text = drawer(back=FRONT, groove="").replace("[[joints]]", "[tools]\nkerf = -1\n[[joints]]", 1)
    with pytest.raises(InputError) as caught:
        read_job(text)
    assert [one.code for one in caught.value.findings] == ["out-of-limits", *["corner-twice"] * 2]


# A straight board between two others


@pytest.mark.parametrize(
    ("at", "length", "found"),
    [
        ("494.45", "714.3", None),
        ("494", "714.3", 'comes to "stile" at ≈494.449 mm in joint 3'),
        # With its right length it comes out there, whatever length is given.
        ("494", "714.2", 'comes to "stile" at ≈494.449 mm in joint 3'),
        ("494", "", None),
    ],
)
def test_a_slanting_rail_comes_out_where_its_length_and_angle_bring_it(at, length, found) -> None:
    """510 mm between the stiles and 60°: 510 / tan 60° = 294.45 mm lower than at 200."""
    text = TRELLIS.replace("at = 494.45", f"at = {at}")
    text = text.replace("length = 714.3 ", f"length = {length} " if length else "# ")
    assert [found in words for _, words in told(text)] == ([True] if found else [])


@pytest.mark.parametrize(("at", "found"), [("200", []), ("200.5", ["out-of-line"])])
def test_a_square_rail_lies_level(at, found) -> None:
    text = TRELLIS.replace("angle = 60", "").replace("angle = 120", "")
    text = text.replace("at = 494.45", f"at = {at}").replace("length = 714.3", "length = 603")
    assert codes(text) == found


PANELLED = """\
boards.stile = { width = 80, thickness = 24, length = 900 }
boards.rail = { width = 80, thickness = 24, length = 500 }
boards.lock = { width = 80, thickness = 24, length = 500 }
"""


def panelled(far: str, haunch: str = "") -> str:
    """A lock rail with a panel above it and one below, both in grooves 10 deep."""
    tenon = 'stile = "stile"\ntenon_length = 50\ngroove = { width = 8, depth = 10 }\n'
    kind = 'kind = "mortise-and-tenon"\n'
    return (
        f'{PANELLED}[[joints]]\n{kind}at = 30\nrail = "rail"\n{tenon}'
        f'[[joints]]\n{kind}at = 400\nrail = "lock"\n{tenon}'
        f'corners = ["A", "B"]\nshoulder_far = {far}\n{haunch}'
    ).replace("at = 30\n", 'at = 30\ncorners = ["A", "B", "C", "D"]\n', 1)


@pytest.mark.parametrize(
    ("far", "haunch", "found"),
    [
        ("10", "", []),
        ("9.5", "", ["groove-in-tenon"]),
        ("9.5", 'haunch = "square"\n', ["groove-in-tenon"]),
        # Of a haunch 20 wide the panel takes the outer 10; the tenon keeps clear.
        ("20", 'haunch = "square"\n', []),
        ("20", 'haunch = "square"\ncount = 2\n', []),
    ],
)
def test_a_groove_in_the_far_edge_takes_wood_of_a_tenon_that_comes_nearer(far, haunch, found):
    told = codes(panelled(far, haunch))
    assert [code for code in told if code == "groove-in-tenon"] == found


def test_a_rebate_in_the_far_edge_takes_no_wood_of_a_tenon():
    """It goes from the inside face down to the mortise, and the tenon begins there."""
    text = panelled("5").replace("groove = { width = 8, depth = 10 }", "rebate = { width = 10 }")
    assert text.count("rebate") == 2
    assert "groove-in-tenon" not in codes(text)


@pytest.mark.parametrize(
    ("name", "size"), [("groove", "{ width = 8, depth = 10 }"), ("rebate", "10")]
)
def test_what_runs_along_an_edge_and_shows_at_the_other_end_is_called_what_it_is(name, size):
    joints = "".join(
        f'[[joints]]\nkind = "mortise-and-tenon"\nrail = "{rail}"\nstile = "stile"\n{more}\n'
        for rail, more in (
            ("rail", f'name = "Top"\ncorners = ["A", "B"]\n{name} = {size}'),
            ("lock", 'name = "Foot"\ncorners = ["C", "D"]'),
        )
    )
    (words,) = (words for _, words in told(f"{PANELLED}{joints}") if "runs on along" in words)
    assert f'The {name} of joint 1 "Top" (Corner A) runs on along "stile"' in words
    assert f"or give that joint the same {name}" in words


@pytest.mark.parametrize("kind", ["haunched-mortise-and-tenon", "mortise-and-tenon"])
def test_a_plain_door_has_no_panel_at_the_far_edges_of_its_rails(kind):
    """They are its top and bottom, where the stile's groove shows unless a haunch fills it."""
    joints = f'[[joints]]\nkind = "{kind}"\nrail = "rail"\nstile = "stile"\ntenon_length = 50\n'
    corners = 'corners = ["A", "B", "C", "D"]\ngroove = { width = 8, depth = 10 }\n'
    shows = [] if kind.startswith("haunched") else ["groove-shows"]
    assert codes(f"{PANELLED}{joints}{corners}") == shows


def braced(brace: str) -> str:
    """A level rail between two stiles, and below it a brace that leans 30 degrees."""
    text = ""
    for board in ("stile", "rail", "brace"):
        text += f"boards.{board} = {{ width = 80, thickness = 40 }}\n"
    for name, at, more in (("rail", 100, ""), ("brace", 300, brace)):
        for letter, place in (("A", at), ("B", at + (300 if more else 0))):
            text += (
                f'[[joints]]\nname = "{name} {letter}"\nrail = "{name}"\nstile = "stile"\n'
                f"corners = [{like(f'{name} {letter}', letter)}]\nat = {place}\n"
                f"{more or LEVEL}"
            )
            if more:
                text += f"angle = {120 if letter == 'A' else 60}\n"
    return text


LEVEL = 'kind = "mortise-and-tenon"\n'


@pytest.mark.parametrize(
    ("brace", "found"),
    [
        # Its tenons go in along the brace, and the rail's along the rail: once one is in both
        # stiles, these come no nearer to each other along the other.
        (LEVEL, ["never-closed"]),
        # A halving is laid in from the face when all else is closed.
        ('kind = "halving"\nform = "tee"\n', []),
    ],
)
def test_what_goes_between_two_boards_along_two_lines_cannot_be_put_together(brace, found):
    assert [code for code in codes(braced(brace)) if code == "never-closed"] == found


# A board as long as the space between two others

BOTH = '{ name = "Left", like = "A" }, { name = "Right", like = "B" }'
GATE = """\
boards.rail = {{ width = 70, thickness = 32, length = {rail} }}
boards.low = {{ width = 70, thickness = 32, length = 640 }}
boards.stile = {{ width = 80, thickness = 32, length = 900 }}
boards.brace = {{ width = 60, thickness = 30, length = {brace} }}
[[joints]]
kind = "mortise-and-tenon"
name = "Rail"
corners = [{both}]
rail = "rail"
stile = "stile"
tenon_length = 55
at = 40
[[joints]]
kind = "mortise-and-tenon"
name = "Low rail"
corners = [{low}]
rail = "low"
stile = "stile"
tenon_length = 55
at = 820
"""
BRACED = """\
[[joints]]
kind = "halving"
form = "tee"
name = "Brace {number}"
corners = [{{ name = "Brace {number}", like = "{letter}" }}]
rail = "brace"
stile = "stile"
angle = {angle}
overhang = 0
at = {at}
"""


def gate(rail: str = "640", brace: str = "", at: str = "") -> str:
    """530 mm between the stiles, and a brace at 30 degrees to the square rails.

    Between its shoulders 530 / cos 30° = 611.99 mm of it; it ends at the stiles' far edges, and
    is 60 tan 30° shorter along its reference edge: (530 + 160) / cos 30° + 34.64 in all.
    """
    low = BOTH.replace("Left", "Low left").replace("Right", "Low right")
    text = GATE.format(rail=rail, brace=brace or "831.4", both=BOTH, low=low)
    if brace:
        text += BRACED.format(number=1, letter="A", angle=60, at="300")
        text += BRACED.format(number=2, letter="B", angle=120, at=at)
    return text


@pytest.mark.parametrize(
    ("brace", "at", "found"),
    [
        ("831.4", "606", []),  # 530 tan 30° = 306 lower
        ("821.4", "606", ["length-off"]),
        ("821.4", "601", ["length-off", "out-of-line"]),
        ("831.4", "601", ["out-of-line"]),
    ],
)
def test_a_brace_is_held_against_the_rails_between_the_same_stiles(brace, at, found) -> None:
    words = told(gate(brace=brace, at=at))
    assert [code for code, _ in words] == found
    for code, said in words:
        if code == "length-off":
            assert 'keeps the two boards "stile" ≈602.01' in said
            assert '"rail" in joint 1 "Rail" (Left) keeps them ≈611.99 mm apart' in said
            assert 'Make "brace" 831.4 mm long, not 821.4 mm' in said
        else:
            assert "write at = 606" in said


def test_of_two_rails_between_the_same_stiles_both_lengths_are_told() -> None:
    ((code, words),) = told(gate(rail="652"))
    assert code == "length-off"
    assert 'keeps the two boards "stile" 530 mm apart, but "rail"' in words
    assert "keeps them 542 mm apart" in words
    assert 'Make "low" 652 mm long, not 640 mm; or correct the length of "rail".' in words


def test_what_most_boards_agree_in_is_right() -> None:
    ((code, words),) = told(gate(rail="652", brace="831.4", at="606"))
    assert code == "length-off"
    assert 'Make "rail" 640 mm long, not 652 mm; or correct the length of "low".' in words


@pytest.mark.parametrize(("back", "found"), [("300", []), ("290", ["length-off"])])
def test_the_front_and_back_of_a_drawer_keep_its_sides_as_far_apart(back, found) -> None:
    """Inside 276 mm, the front's 300 less two sides of 12; and 266 mm at the back."""
    text = drawer(groove="").replace("thickness = 19 }", "thickness = 19, length = 300 }")
    words = told(text.replace("thickness = 12 }", f"thickness = 12, length = {back} }}"))
    assert [code for code, _ in words] == found
    for _, said in words:
        assert '"back" keeps the two boards "side" 266 mm apart, but "front" in joint 1' in said
        assert "keeps them 276 mm apart. Make" in said


UPRIGHT = """\
boards.upright = {{ width = 50, thickness = 20, length = {length} }}
[[joints]]
kind = "mortise-and-tenon"
name = "Head"
corners = [{{ name = "Upper end", like = "A" }}]
rail = "upright"
stile = "rail"
front = "upright"
tenon_length = 30
at = 200
[[joints]]
kind = "mortise-and-tenon"
name = "Foot"
corners = [{{ name = "Lower end", like = "D" }}]
rail = "upright"
stile = "low"
front = "upright"
tenon_length = 30
at = 200
"""


@pytest.mark.parametrize(("length", "found"), [("770", []), ("769.7", ["length-off"])])
def test_an_upright_is_as_long_as_the_space_between_its_rails(length, found) -> None:
    """From the upper rail's reference edge, 110 down, to the lower one's, 820: 710 mm."""
    text = gate().replace('name = "Low left", like = "A"', 'name = "Low left", like = "D"')
    text = text.replace('name = "Low right", like = "B"', 'name = "Low right", like = "C"')
    text = text.replace("at = 820", "at = 10")
    boards, joints = UPRIGHT.format(length=length).split("\n", 1)
    assert codes(f"{boards}\n{text}{joints}") == found


TABLE = """\
boards.leg = { width = 50, thickness = 50, length = 700 }
boards."back leg" = { width = 40, thickness = 50, length = 700 }
boards.front = { width = 90, thickness = 22, length = 600 }
boards.back = { width = 90, thickness = 22, length = 580 }
boards.side = { width = 90, thickness = 22, length = 400 }
"""


def aprons(name: str, ends: str, leg: str = "leg", on: str = "reference-edge") -> str:
    return (
        f'[[joints]]\nkind = "mortise-and-tenon"\nname = "{name}"\ncorners = [{ends}]\n'
        f'rail = "{name}"\nstile = "{leg}"\non = "{on}"\nat = 10\ntenon_length = 25\n'
    )


@pytest.mark.parametrize(
    ("back", "ends", "leg", "found"),
    [
        ("580", '"A", "B", "C", "D"', "leg", ["length-off"]),
        ("600", '"A", "B", "C", "D"', "leg", []),
        # Nothing at the right keeps the legs square to each other.
        ("580", '"A", "B"', "leg", []),
        # Slimmer legs may stand farther apart, their outsides flush.
        ("580", '"A", "B", "C", "D"', "back leg", []),
    ],
)
def test_what_faces_each_other_between_four_legs_has_one_length(back, ends, leg, found) -> None:
    """Less two tenons of 25: 550 mm in front, 530 behind."""
    text = (
        TABLE.replace("580", back) + aprons("front", '"A", "D"') + aprons("back", '"B", "C"', leg)
    )
    text += aprons("side", '"A", "D"' if leg != "leg" else ends, on="inside")
    words = told(text + (aprons("side", '"B", "C"', leg, "inside") if leg != "leg" else ""))
    assert [code for code, _ in words] == found
    for _, said in words:
        assert '"back" keeps the two boards "leg" 530 mm apart, but "front"' in said
        assert "keeps the other two 550 mm apart" in said
        assert 'Make "back" 600 mm long, not 580 mm; or correct the length of "front".' in said


@pytest.mark.parametrize(("back", "found"), [("240", []), ("250", ["length-off"])])
def test_the_front_and_the_back_of_a_drawer_have_one_length(back, found) -> None:
    text = drawer(groove="").replace("boards.back = {", f"boards.back = {{ length = {back},")
    assert codes(text.replace("boards.front = {", "boards.front = { length = 240,")) == found


@pytest.mark.parametrize(
    ("pivot", "at", "remedies"),
    [
        # Its foot 60 above the post's, the rail comes 150 - 60 above it.
        (640, 40, ["write at = 90 mm there."]),
        (640, 90, []),
        # Its foot 200 above the post's, the rail comes 50 below it: told at 40, 90 lower.
        (500, 40, ['"pivot" is 50 mm too short for it', "write at = 240 mm in joint 2 "]),
        # Told at 110, it comes 160 lower than that: so it must be 160 higher on the post.
        (500, 110, ['"pivot" is 50 mm too short for it', "write at = 310 mm in joint 2 "]),
    ],
)
def test_where_a_rail_comes_out_past_a_foot_no_place_there_is_the_remedy(pivot, at, remedies):
    """The tops are level, and feet are measured from: the post is 700 long, its rail at 150."""
    text = f"""\
boards.post = {{ width = 45, thickness = 45, length = 700 }}
boards.pivot = {{ width = 45, thickness = 45, length = {pivot} }}
boards.high = {{ width = 60, thickness = 22, length = 400 }}
boards.low = {{ width = 50, thickness = 22, length = 400 }}
"""
    places = (("high", "B", 5), ("low", "C", 150), ("high", "A", 5), ("low", "D", at))
    for rail, letter, place in places:
        text += (
            f'[[joints]]\nkind = "mortise-and-tenon"\nname = "{rail} {letter}"\n'
            f"corners = [{like(f'{rail} {letter}', letter)}]\n"
            f'rail = "{rail}"\nstile = "{"post" if letter in "BC" else "pivot"}"\n'
            f"at = {place}\ntenon_length = 25\n"
        )
    words = [said for code, said in told(text) if code == "out-of-line"]
    assert len(words) == bool(remedies)
    for said in words:
        assert all(remedy in said for remedy in remedies)
        assert said.count("write at") == 1


def test_a_groove_that_runs_on_beside_the_next_panel_shows_nowhere() -> None:
    """At the rails at the ends it does run out, unless the stile goes on: then it stops there."""

    def shows(text: str) -> list[bool]:
        joints = (one.joint for one in read_job(text).joints)
        return [any(one.code == "groove-shows" for one in joint.findings) for joint in joints]

    boards, ends, lock = panelled("10").split("[[joints]]")
    assert shows(f"{boards}[[joints]]{ends}[[joints]]{lock}") == [False, False]
    ends = ends.replace("at = 30", "at = 0")
    assert shows(f"{boards}[[joints]]{ends}[[joints]]{lock}") == [True, False]
    assert shows(f"{boards}[[joints]]{lock}") == [False]


# What runs along a seam

SEAM = """\
boards.front = {{ width = 180, thickness = 24, length = 1200 }}
boards.back = {{ width = 170, thickness = 24, length = 1200 }}
[[joints]]
kind = "tongue-and-groove"
first_board = "front"
second_board = "{second}"
form = "{form}"
tongue = 6
[[joints]]
kind = "dovetail-key"
first_board = "front"
second_board = "back"
{key}
"""


@pytest.mark.parametrize(
    ("key", "found"),
    # The tongue lies from 9 to 15 below the outside face.
    [("depth = 7", []), ("depth = 7.1", ["tongue-cut"]), ("through = true", ["tongue-cut"])],
)
@pytest.mark.parametrize("form", ["loose", "solid"])
def test_keys_are_let_in_above_the_tongue_of_their_seam(form, key, found) -> None:
    words = told(SEAM.format(form=form, key=key, second="back"))
    assert [code for code, _ in words] == found
    for _, said in words:
        assert "there lies the tongue of joint 1" in said
        assert "from 9 mm to 15 mm" in said
        assert ("go 7 mm deep at most" in said) == ("depth" in key)


def test_a_tongue_along_another_seam_is_not_cut() -> None:
    """The boards in front and behind are keyed; the tongue is between two boards in front."""
    assert codes(SEAM.format(form="loose", key="depth = 12", second="front")) == []
