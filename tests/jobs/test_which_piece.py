"""Corners that tell of a board that can hardly be meant, each as a joiner would write it."""

import re

import pytest

from joinery_templates.errors import InputError
from joinery_templates.jobs.reader import read_job

BOARDS = """
units = "mm"
boards.stile = { width = 90, thickness = 32, length = 1240 }
boards."top rail" = { width = 90, thickness = 32, length = 528 }
boards."lock rail" = { width = 110, thickness = 32, length = 528 }
boards.muntin = { width = 70, thickness = 32, length = 470 }
boards.upper = { width = 70, thickness = 32, length = 470 }
"""
CARCASE = """
units = "mm"
boards.side = { width = 250, thickness = 20, length = 700 }
boards.top = { width = 250, thickness = 20, length = 600 }
boards.shelf = { width = 250, thickness = 18, length = 290 }
boards.partition = { width = 250, thickness = 20, length = 672 }
"""
LEGS = """
units = "mm"
boards.leg = { width = 60, thickness = 50, length = 430 }
boards.rail = { width = 70, thickness = 30, length = 320 }
boards.bar = { width = 60, thickness = 20, length = 200 }
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B", "C", "D"]
rail = "rail"
stile = "leg"
on = "reference-edge"
at = 70
"""


def joint(kind: str, boards: tuple[str, str], ends: str, more: str = "") -> str:
    """A joint whose corners are called by board and letter."""
    roles = {
        "mortise-and-tenon": ("rail", "stile"),
        "housing": ("shelf", "side"),
        "through-dovetail": ("tail_board", "pin_board"),
        "bridle": ("rail", "stile"),
    }[kind]
    corners = ", ".join(f'{{ name = "{boards[0]} {one}", like = "{one}" }}' for one in ends)
    told = "\n".join(f'{role} = "{board}"' for role, board in zip(roles, boards, strict=True))
    return f'[[joints]]\nkind = "{kind}"\ncorners = [{corners}]\n{told}\n{more}\n'


def rail(name: str, ends: str, at: int = 600) -> str:
    return joint("mortise-and-tenon", (name, "stile"), ends, f"at = {at}")


def muntin(name: str, board: str, end: str) -> str:
    return joint("mortise-and-tenon", (name, board), end, f'front = "{name}"\nat = 220')


def told(text: str) -> list[tuple[str, str]]:
    """Code and words of what this module tells."""
    try:
        job = read_job(text)
    except InputError as refused:
        found = refused.findings
    else:
        found = job.findings
    codes = "board-without-ends", "rail-from-below", "one-end-each"
    return [(one.code, f"{one.message} {one.remedy}") for one in found if one.code in codes]


DOOR = BOARDS + rail("lock rail", "AB") + muntin("muntin", "lock rail", "A")
ABOVE = muntin("upper", "lock rail", "D")


def test_a_rail_that_takes_an_upright_from_below_and_one_from_above_is_refused() -> None:
    assert told(DOOR) == []
    ((code, words),) = told(DOOR + ABOVE)
    assert code == "board-without-ends"
    assert words.startswith('Joint 3 "Mortise and tenon" (upper D) comes to another "lock rail"')
    assert "at its far edge: templates show the reference edge alone, so draw this joint" in words


@pytest.mark.parametrize(
    "text",
    [
        BOARDS + ABOVE,  # as the message says: a job of its own
        DOOR + ABOVE + rail("lock rail", "DC", 100),  # two rails of one name
        DOOR + ABOVE.replace('"lock rail"', '"top rail"') + rail("top rail", "DC", 100),
    ],
)
def test_what_the_message_says_to_write_instead_is_told_nothing(text: str) -> None:
    assert told(text) == []


def test_a_partition_that_takes_shelves_from_both_sides_is_refused() -> None:
    upright = joint("housing", ("partition", "top"), "AD", 'front = "partition"')
    # Its top is its right-hand end, like A, so that its outside face looks left.
    right, left = (
        joint("housing", ("shelf", "partition"), end, "depth = 6\nat = 300") for end in "AB"
    )
    assert told(CARCASE + upright + right) == []
    ((code, words),) = told(CARCASE + upright + right + left)
    assert code == "board-without-ends"
    assert "at its outside face: templates show the inside face alone" in words


def test_a_shelf_between_two_sides_is_told_nothing_where_one_side_has_its_ends() -> None:
    corners = joint("through-dovetail", ("side", "top"), "AB")
    shelf = joint("housing", ("shelf", "side"), "AB", "depth = 6\nat = 300")
    assert told(CARCASE + corners + shelf) == []


@pytest.mark.parametrize(
    ("bar", "found", "remedy"),
    [
        # Beneath a rail between legs hangs what comes to its reference edge.
        (muntin("bar", "rail", "A").replace("220", "100"), [], ""),
        (muntin("bar", "rail", "D").replace("220", "100"), ["rail-from-below"], "to the far edge"),
        (
            joint("mortise-and-tenon", ("bar", "rail"), "AB", "at = 100"),
            ["rail-from-below"],
            'Let "bar" run from leg to leg; or let it come to the inside face of "rail"',
        ),
        (joint("housing", ("bar", "rail"), "AB", "depth = 6\nat = 100"), [], ""),
    ],
)
def test_a_rail_between_legs_is_entered_from_below_or_from_inside(bar, found, remedy) -> None:
    words = told(LEGS + bar)
    assert [code for code, _ in words] == found
    assert all(remedy in one for _, one in words)


SHELF = joint("housing", ("shelf", "side"), "AB", "depth = 6\nat = 300")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SHELF, ""),
        (SHELF + 'front = "shelf"\n', "like D at the other: correct the corners, or leave front"),
        # As the corners of a box would be.
        (rail("lock rail", "AD", 200), "like A at one end is like B at the other: correct"),
        # Both ends of two rails, each end in a joint of its own.
        (rail("lock rail", "AD", 200) + rail("lock rail", "BC", 200), ""),
    ],
)
def test_a_board_of_which_both_ends_are_told_as_those_of_two_is_advised_against(text, said) -> None:
    words = told((CARCASE if "shelf" in text else BOARDS) + text)
    assert [code for code, _ in words] == (["one-end-each"] if said else [])
    assert all(said in one for _, one in words)


SLID = (
    '[[joints]]\nkind = "sliding-dovetail"\nshelf = "shelf"\nside = "side"\n'
    'corners = [{ name = "Left", like = "A" }, { name = "Right", like = "B" }]\n'
)
DOWELLED = (
    SLID.replace("sliding-dovetail", 'dowel"\nform = "tee')
    .replace("shelf = ", "first_board = ")
    .replace("side = ", "second_board = ")
)


@pytest.mark.parametrize("text", [SHELF, SLID, DOWELLED])
def test_a_shelf_lettered_like_a_bottom_rail_is_refused(text: str) -> None:
    """Turned over, its upper face would be 300 from the sides' foot, and not from their top."""
    (one,) = read_job(CARCASE + text).joints
    assert one.joint.members[1].part.up == "top end"
    lower = text.replace('like = "A"', 'like = "D"').replace('like = "B"', 'like = "C"')
    with pytest.raises(InputError) as refused:
        read_job(CARCASE + lower)
    (finding,) = refused.value.findings
    assert finding.code == "shelf-upside-down"
    assert '"shelf" would lie upside down' in finding.message
    assert "like A at its left-hand end and like B at its right-hand end" in finding.remedy
    letters = re.sub(r"corners = .*", 'corners = ["D", "C"]', text)
    with pytest.raises(InputError, match="Corner D"):
        read_job(CARCASE + letters)


def test_the_foot_of_a_partition_is_like_d_or_c() -> None:
    """Its head is let into what lies above it, its foot into what lies below."""
    for ends in ("AD", "BC"):
        text = joint("housing", ("partition", "top"), ends, 'depth = 6\nfront = "partition"')
        read_job(CARCASE + text)


@pytest.mark.parametrize(("count", "is_told"), [(None, True), (1, True), (2, False), (5, False)])
def test_of_as_many_boards_as_the_job_counts_each_may_have_a_free_end(count, is_told) -> None:
    """A trestle's two legs in its head, by a letter each: their feet are free."""
    pieces = f", pieces = {count}" if count else ""
    leg = f"boards.leg = {{ width = 70, thickness = 44, length = 735{pieces} }}\n"
    head = "boards.head = { width = 90, thickness = 44, length = 610 }\n"
    legs = joint("mortise-and-tenon", ("leg", "head"), "AB", 'at = 50\nfront = "leg"')
    words = told('units = "mm"\n' + leg + head + legs)
    assert [code for code, _ in words] == ["one-end-each"] * is_told


def test_the_foot_of_an_upright_need_not_be_joined() -> None:
    text = joint("bridle", ("top rail", "stile"), "AB", 'form = "corner"')
    assert told(BOARDS + text) == []


DRAWER = """
units = "mm"
boards.side = {{ width = 90, thickness = 10, length = 300 }}
boards.front = {{ width = 90, thickness = 20, length = 240 }}
boards.back = {{ width = 90, thickness = 10, length = 240 }}
[[joints]]
kind = "lapped-dovetail"
name = "Fronts"
corners = [{fronts}]
tail_board = "side"
pin_board = "front"
[[joints]]
kind = "through-dovetail"
name = "Backs"
corners = [{backs}]
tail_board = "side"
pin_board = "back"
"""


def numbered(name: str, ends: str) -> str:
    """Corners of these letters: Front 1, Front 2, and so on."""
    told = (f'{{ name = "{name} {n}", like = "{one}" }}' for n, one in enumerate(ends, 1))
    return ", ".join(told)


def drawers(fronts: str, backs: str) -> str:
    return DRAWER.format(fronts=numbered("Front", fronts), backs=numbered("Back", backs))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (drawers("ADAD", "BCBC"), ""),
        (
            drawers("ADAD", "BCBB"),
            '2 of "side" and 2 of "back" have a joint at one end only. Were one corner of joint 2 '
            '"Backs" like C instead of B, each would have one at both ends. Check the letters of '
            "Back 1, Back 3 and Back 4: most likely one of them is wrong.",
        ),
        (drawers("AD", "BB"), "Check the letters of Back 1 and Back 2:"),
        (drawers("AAAD", "BCBC"), '"Fronts" like D instead of A'),
        # Two drawers without a back: their fronts have both ends.
        (drawers("ADADAD", "BC"), ""),
        # One corner is cut elsewhere, and no letter alone puts that right.
        (drawers("ADA", "BCBC"), ""),
        (drawers("A", "C"), ""),
        # Two rails that are let in at one end only, at two heights.
        (
            BOARDS + rail("lock rail", "A", 200) + rail("lock rail", "C", 600),
            "",
        ),
        # Of three rails one has its ends where those of two would be.
        (
            BOARDS
            + re.sub(
                r"corners = .*", f"corners = [{numbered('S', 'ABABAC')}]", rail("upper", "A", 200)
            ),
            "like D instead of A or like B instead of C",
        ),
    ],
)
def test_a_wrong_letter_is_told_where_another_gives_all_boards_both_their_ends(text, said) -> None:
    words = told(text)
    assert [code for code, _ in words] == (["one-end-each"] if said else [])
    assert all(said in one for _, one in words)


UNLIKE = "ends-unlike"
CASE = (
    CARCASE
    + joint("through-dovetail", ("top", "side"), "AD", 'name = "Top"')
    + joint("housing", ("shelf", "side"), "AB", "depth = 6\nat = 300")
)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (drawers("ADAD", "BCBC"), ""),
        # Of the second drawer the back is forgotten: its two sides are as they come from the saw.
        (
            drawers("ADAD", "BC"),
            '4 boards "side" are counted as cut alike, and 2 have a joint at both ends; those at '
            "Front 3 and Front 4 have not. Name the corners that are missing, or",
        ),
        (drawers("ADA", "BCBC"), "and 3 have a joint at both ends; that at Back 4 has not."),
        (drawers("ADADADAD", "BC"), "Front 3, Front 4, Front 5, Front 6 and others have not"),
        # A letter that is wrong is told as such, and no more.
        (drawers("AD", "BB"), ""),
        # One corner for each sort of joint, or two: all sides are alike as far as they are told.
        (drawers("A", "C"), ""),
        (drawers("AD", "BC").rpartition("[[joints]]")[0], ""),
        # The tails are on the top, which stands in front, so to say, of a case on its face.
        (
            CASE,
            '2 boards "side" are counted as cut alike, and 1 has a joint at both ends; that at '
            'shelf B has not. Most likely front = "top" is missing in joint 1 "Top". If not, name',
        ),
        (CASE.replace('name = "Top"', 'front = "top"'), ""),
    ],
)
def test_boards_of_one_name_that_have_no_like_joints_at_their_ends_are_told(text, said) -> None:
    found = (one for one in read_job(text).findings if one.code == UNLIKE)
    words = [f"{one.message} {one.remedy}" for one in found]
    assert bool(words) == bool(said)
    assert any(said in one for one in words) or not words


def at_leg(name: str, ends: str, on: str, at: int = 70) -> str:
    corners = ", ".join(f'"{one}"' for one in ends)
    return (
        f'[[joints]]\nkind = "mortise-and-tenon"\nname = "{name}s"\ncorners = [{corners}]\n'
        f'rail = "{name}"\nstile = "leg"\non = "{on}"\nat = {at}\n'
    )


SIDES = LEGS.partition("[[joints]]")[0] + at_leg("rail", "ABCD", "inside")
LEGS_ALONE = LEGS.partition("[[joints]]")[0]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SIDES + at_leg("bar", "AD", "reference-edge"), ""),
        # From A to D, a rail on the reference edge would run; leg D has no mortise for it.
        (
            SIDES + at_leg("bar", "AB", "reference-edge"),
            'Joint 2 "bars" (Corner A) and Corner B are ends of two boards "bar", and no joint has '
            "their other ends. A board like A at one end is like D at the other: correct the "
            "corners, or on, unless there are two;",
        ),
        (SIDES + at_leg("bar", "AC", "reference-edge"), "correct the corners, unless there are"),
        (SIDES + at_leg("bar", "AD", "inside", 250), "like A at one end is like B at the other"),
        # One corner for all that are like it, or one of each hand, and no other legs in the job.
        (SIDES + at_leg("bar", "A", "reference-edge"), ""),
        (LEGS_ALONE + at_leg("bar", "AB", "reference-edge"), ""),
        (LEGS_ALONE + at_leg("bar", "AC", "reference-edge"), ""),
        (
            SIDES.replace("length = 200", "length = 200, pieces = 2")
            + at_leg("bar", "AB", "reference-edge"),
            "",
        ),
    ],
)
def test_a_rail_that_comes_to_none_of_the_legs_at_its_other_ends_is_told(text, said) -> None:
    words = told(text)
    assert [code for code, _ in words] == (["one-end-each"] if said else [])
    assert all(said in one for _, one in words)


@pytest.mark.parametrize(
    ("head", "foot", "at", "is_told"),
    [
        ("B", "C", 220, False),
        ("B", "D", 220, True),  # what hangs at B has its foot at C
        ("A", "C", 220, True),
        ("B", "D", 100, False),  # two stumps, each at a place of its own
    ],
)
def test_a_muntin_whose_foot_is_lettered_for_another_one_is_told(head, foot, at, is_told) -> None:
    """Each end is in a joint of its own: its head in one rail, its foot in another."""
    below = muntin("muntin", "lock rail", foot).replace("at = 220", f"at = {at}")
    frame = BOARDS + rail("top rail", "AB", 0) + rail("lock rail", "DC", 100)
    words = told(frame + muntin("muntin", "top rail", head) + below)
    assert [code for code, _ in words] == ["one-end-each"] * is_told
    far = {"A": "D", "B": "C"}[head]
    assert all(f"like {head} at one end is like {far} at the other" in one for _, one in words)


@pytest.mark.parametrize(
    ("fronts", "backs", "is_told"),
    [
        ("AD", "BC", False),
        # The front would be at A and at B, and the back at C and at D: two half-made drawers.
        ("AB", "CD", True),
        ("AC", "", False),  # drawn alone: an end of each hand
        ("AB", "", False),
    ],
)
def test_two_boards_at_one_side_of_a_box_are_told(fronts: str, backs: str, is_told: bool) -> None:
    corners = [", ".join(f'"{one}"' for one in ends) for ends in (fronts, backs)]
    text = DRAWER.format(fronts=corners[0], backs=corners[1])
    words = told(text if backs else text.rpartition("[[joints]]")[0])
    assert [code for code, _ in words] == ["one-end-each"] * is_told
    assert all(
        '(Corner A) brings "front" to one side of the piece and joint 2 "Backs" (Corner D) brings '
        '"back" to it' in one
        for _, one in words
    )


@pytest.mark.parametrize("board", ["bar", "rail"])
def test_boards_of_one_name_with_ends_of_two_kinds_are_told(board: str) -> None:
    """The long stretcher's dowels bored in a rail's ends, as if it ran between two bars."""
    mate = {"bar": "rail", "rail": "bar"}[board]
    text = SIDES + DOWELLED.replace('"shelf"', f'"{board}"').replace('"side"', f'"{mate}"')
    found = [one for one in read_job(text).findings if one.code == UNLIKE]
    assert len(found) == (board == "rail")
    for one in found:
        assert one.message.startswith('Boards "rail" are counted as cut alike, but joint 1 "rails"')
        assert 'which board is which in joint 2 "Dowelled joint"' in one.remedy
