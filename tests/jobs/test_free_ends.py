"""A board that one joint holds: where its other end comes out in the piece."""

import pytest

from joinery_templates.errors import InputError
from joinery_templates.jobs.reader import read_job

DOOR = """
units = "mm"
boards.stile = {{ width = 100, thickness = 40, length = 2000 }}
boards."top rail" = {{ width = 110, thickness = 40, length = 700 }}
boards."lock rail" = {{ width = 200, thickness = 40, length = 700 }}
boards.muntin = {{ width = 90, thickness = 40, length = {length}{pieces} }}
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B"]
rail = "top rail"
stile = "stile"
tenon_length = 60
at = 30
[[joints]]
kind = "mortise-and-tenon"
corners = [{{ name = "Lock left", like = "A" }}, {{ name = "Lock right", like = "B" }}]
rail = "lock rail"
stile = "stile"
tenon_length = 60
at = {lock}
[[joints]]
kind = "mortise-and-tenon"
name = "Head"
corners = [{{ name = "Muntin head", like = "A" }}]
rail = "muntin"
stile = "top rail"
front = "muntin"
tenon_length = 40
at = 305
"""
GATE = """
units = "mm"
boards.stile = {{ width = 100, thickness = 40, length = 1800 }}
boards.rail = {{ width = 100, thickness = 40, length = 760 }}
boards.bar = {{ width = 80, thickness = 40, length = {length} }}
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B"]
rail = "rail"
stile = "stile"
tenon_length = 80
at = 50
[[joints]]
kind = "mortise-and-tenon"
name = "Bar"
corners = [{{ name = "Bar", like = "A" }}]
rail = "bar"
stile = "stile"
tenon_length = 80
at = 900
"""
CODES = "ends-in-the-air", "runs-through"


def told(text: str) -> list[tuple[str, str]]:
    return [(one.code, one.message) for one in read_job(text).findings if one.code in CODES]


@pytest.mark.parametrize(
    ("length", "lock", "words"),
    [
        # From 140, the top rail's reference edge, to 900: an opening of 760, and a tenon of 40.
        ("800", "900", ""),
        ("840", "900", ""),  # as like at its foot as at its head
        ("780", "900", '(Muntin head) alone holds "muntin", and its other end stops 20 mm short'),
        ("800", "925.5", "25.5 mm short"),
        ("1000", "900", ""),  # its end is flush with the lock rail's lower edge
        ("1012", "900", '"muntin" runs through "lock rail" and 12 mm on'),
    ],
)
def test_where_a_muntin_ends_that_is_joined_at_its_head(length, lock, words) -> None:
    text = DOOR.format(length=length, pieces="", lock=lock)
    found = told(text)
    assert len(found) == bool(words)
    assert all(words in one for _, one in found)


@pytest.mark.parametrize(("length", "codes"), [("780", []), ("1012", ["runs-through"])])
def test_pieces_that_are_counted_may_end_in_the_air_but_go_through_nothing(length, codes) -> None:
    found = told(DOOR.format(length=length, pieces=", pieces = 3", lock="900"))
    assert [code for code, _ in found] == codes


@pytest.mark.parametrize("untold", [", length = 2000", "at = 900"])
def test_nothing_is_told_where_nobody_knows_how_far_the_other_board_is(untold: str) -> None:
    text = DOOR.format(length="780", pieces="", lock="900")
    assert len(told(text)) == 1
    assert told(text.replace(untold, "")) == []


def test_what_hangs_free_below_a_single_rail_is_not_told() -> None:
    text = DOOR.format(length="780", pieces="", lock="900")
    top, _, rest = text.partition('[[joints]]\nkind = "mortise-and-tenon"\ncorners = [{')
    assert told(top + "[[joints]]" + rest.rpartition("[[joints]]")[2]) == []


@pytest.mark.parametrize(
    ("length", "words"),
    [
        # Between the stiles are 760 - 2 * 80 = 600, and the far one is 100 wide.
        ("760", ""),
        ("780", ""),  # right through it: 80 + 600 + 100
        ("790", '(Bar), "bar" runs through "stile" and 10 mm on'),
        ("640", '(Bar) alone holds "bar", and its other end stops 40 mm short of "stile"'),
    ],
)
def test_where_a_bar_ends_that_is_joined_at_one_stile(length: str, words: str) -> None:
    found = told(GATE.format(length=length))
    assert len(found) == bool(words)
    assert all(words in one for _, one in found)


def test_of_boards_in_line_whose_joints_meet_that_is_told_and_no_more() -> None:
    """Scarfs of 6 x 17.2 = 103.2 mm at both ends of a piece 103.5 mm long: no face lies across."""
    text = """
        units = "mm"
        boards.long = { width = 90, thickness = 17.2, length = 386 }
        boards.short = { width = 90, thickness = 17.2, length = 103.5 }
        [[joints]]
        kind = "scarf"
        first_board = "long"
        second_board = "short"
        held_by = "bolts"
        corners = [{ name = "One", like = "D" }, "Other"]
        """
    with pytest.raises(InputError) as told:
        read_job(text)
    assert [finding.code for finding in told.value.findings] == ["joints-meet"]
