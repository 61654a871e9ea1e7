"""A rebate along a board, and the board's other joints: worked by hand on one carcase side."""

import re

import pytest

from joinery_templates.jobs.reader import read_job

CARCASE = """\
units = "mm"
boards.side = {{ width = 240, thickness = 20, length = 800 }}
boards.top = {{ width = 240, thickness = 20, length = 600 }}
boards.bottom = {{ width = 240, thickness = 20, length = 600 }}
boards.shelf = {{ width = {width}, thickness = 18, length = 572 }}
[[joints]]
kind = "through-dovetail"
name = "Top"
corners = [{{ name = "Top left", like = "A" }}, {{ name = "Top right", like = "D" }}]
tail_board = "side"
pin_board = "top"
tails = 6
{top}
[[joints]]
kind = "{kind}"
name = "Shelf"
corners = [{{ name = "Shelf left", like = "A" }}, {{ name = "Shelf right", like = "B" }}]
{boards}
at = 400
{shelf}
{more}
"""
HOUSED = 'shelf = "shelf"\nside = "side"'
BUTTED = 'form = "tee"\nfirst_board = "shelf"\nsecond_board = "side"'
BOTTOM = """
[[joints]]
kind = "through-dovetail"
name = "Bottom"
corners = [{{ name = "Bottom left", like = "B" }}, {{ name = "Bottom right", like = "C" }}]
tail_board = "side"
pin_board = "bottom"
tails = 6
half_pin = 14
{told}
"""
CODES = "rebates-differ", "rebate-filled", "rebate-shows", "housing-open"


def rebate(width: int, depth: int, edge: str = "") -> str:
    return f"rebate = {{ width = {width}, depth = {depth}{edge and f', edge = {edge!r}'} }}"


def carcase(
    top: str = "",
    shelf: str = "",
    width: int = 240,
    kind: str = "housing",
    boards: str = HOUSED,
    bottom: str | None = None,
) -> list[tuple[str, str]]:
    """Codes and words of what is told of rebates."""
    more = "" if bottom is None else BOTTOM.format(told=bottom)
    text = CARCASE.format(top=top, shelf=shelf, width=width, kind=kind, boards=boards, more=more)
    findings = [one for one in read_job(text).findings if one.code in CODES]
    return [(one.code, f"{one.message} {one.remedy}") for one in findings]


@pytest.mark.parametrize(
    ("kind", "boards", "shelf", "width", "into"),
    [
        # The side is 240 wide, and 9 of them are the back's.
        ("housing", HOUSED, "depth = 6", 240, "9 mm"),
        ("housing", HOUSED, "depth = 6", 235, "4 mm"),
        ("housing", HOUSED, "depth = 6", 231, ""),
        ("housing", HOUSED, "depth = 6", 220, ""),
        ("sliding-dovetail", HOUSED, "depth = 6", 240, "9 mm"),
        ("sliding-dovetail", HOUSED, "depth = 6", 231, ""),
        ("dowel", BUTTED, "", 240, "9 mm"),
    ],
)
def test_a_shelf_leaves_room_for_the_back_in_another_joints_rebate(
    kind, boards, shelf, width, into
):
    found = dict(carcase(rebate(9, 8, "far"), shelf, width, kind, boards))
    assert ("rebate-filled" in found) == bool(into)
    if into:
        words = found["rebate-filled"]
        assert f"stands {into} into the room" in words
        assert 'rebate of joint 1 "Top" (Top left), along the far edge of "side"' in words
        assert 'Make "shelf" 231 mm wide, unless' in words


def test_of_a_rebate_in_front_the_shelf_is_told_to_have_it_behind():
    """A shelf comes to the reference edge, however narrow it is."""
    ((code, words),) = carcase(rebate(9, 8), "depth = 6")
    assert code == "rebate-filled"
    assert 'Put the rebate at the far edge (edge = "far") and make "shelf" 231 mm wide' in words
    found = dict(carcase(rebate(9, 8), "depth = 6", width=231))
    assert 'Put the rebate at the far edge (edge = "far"), unless' in found["rebate-filled"]


def test_two_rebates_in_the_way_are_told_once():
    (one,) = carcase(rebate(9, 8, "far"), "depth = 6", bottom=rebate(9, 8, "far"))
    assert one[0] == "rebate-filled"


@pytest.mark.parametrize(
    ("width", "is_open"),
    [
        # The back in its rebate, 9 wide, covers what lies behind a shelf of 231, not of 230.
        (231, False),
        (232, False),
        (230, True),
    ],
)
def test_a_housing_that_ends_in_a_rebate_is_not_open(width, is_open):
    codes = [code for code, _ in carcase(rebate(9, 8, "far"), "depth = 6", width=width)]
    assert ("housing-open" in codes) == is_open
    bare = [code for code, _ in carcase("", "depth = 6", width=width)]
    assert bare == ["housing-open"]


@pytest.mark.parametrize(
    ("shelf", "differ"),
    [
        ((9, 8), False),
        ((12, 8), True),
        ((9, 6), True),
    ],
)
def test_one_edge_of_a_board_has_rebates_of_one_size(shelf, differ):
    told = f"depth = 6\n{rebate(*shelf)}"
    found = carcase(rebate(9, 8, "far"), told, width=240 - shelf[0])
    assert [code for code, _ in found] == ["rebates-differ"] * differ
    if differ:
        wide, deep = shelf
        assert 'Along the far edge of "side", the rebate of joint 2 "Shelf"' in found[0][1]
        assert f"is {wide} mm wide and {deep} mm deep" in found[0][1]
        assert 'that of joint 1 "Top" (Top left) 9 mm wide and 8 mm deep' in found[0][1]


def test_rebates_at_both_ends_of_a_board_are_of_one_size_though_neither_shows():
    """Both half pins are 14, wider than either."""
    ends = f"half_pin = 14\n{rebate(9, 8, 'far')}"
    found = carcase(ends, "depth = 6", 220, bottom=rebate(12, 8, "far"))
    assert [code for code, _ in found] == ["housing-open", "rebates-differ"]
    found = carcase(ends, "depth = 6", 231, bottom=rebate(9, 8, "far"))
    assert found == []


@pytest.mark.parametrize(
    ("half_pin", "shows"),
    [
        # At its end the last tail begins 7 from the edge, and 12 are planed away.
        ("7", True),
        ("11.9", True),
        ("12", False),
    ],
)
def test_a_housings_rebate_shows_at_the_end_where_no_half_pin_hides_it(half_pin, shows):
    found = carcase(f"half_pin = {half_pin}", f"depth = 6\n{rebate(12, 7)}", width=228)
    assert [code for code, _ in found] == ["rebate-shows"] * shows
    if shows:
        assert 'shows at its end, in joint 1 "Top" (Top left). Stop it 20 mm' in found[0][1]
        assert ", or give that joint the same rebate: its layout then keeps clear." in found[0][1]


def test_a_housings_rebate_shows_nowhere_where_the_top_has_it_too():
    told = f"half_pin = 7\n{rebate(12, 7, 'far')}"
    assert carcase(told, f"depth = 6\n{rebate(12, 7)}", width=228) == []


# What is halved across a rebated board

FRAME = """\
units = "mm"
boards.stile = {{ width = 60, thickness = 24, length = 900 }}
boards.rail = {{ width = 60, thickness = 24, length = 500 }}
boards.mid = {{ width = 50, thickness = 24, length = 537 }}
[[joints]]
kind = "mortise-and-tenon"
name = "Frame"
corners = ["A", "B", "C", "D"]
rail = "rail"
stile = "stile"
{channel}
[[joints]]
kind = "{kind}"
name = "Middle"
corners = [{{ name = "Left", like = "A" }}, {{ name = "Right", like = "B" }}]
rail = "mid"
stile = "stile"
at = 400
{more}
"""
TEE = 'form = "tee"\n'
REBATE = "rebate = { width = 10, depth = 8 }"
LEAVE = 'eave so much of "mid" standing there.'


@pytest.mark.parametrize(
    ("channel", "kind", "more", "remedy"),
    [
        # The rail is whole outside, the stile inside, where its rebate is 16 to 24 deep: halved
        # at 12 the rail would be cut under, halved at 16 it can be left 10 longer.
        (REBATE, "halving", TEE, "Let the two meet 16 mm from the outside face, at the rebate's"),
        (REBATE, "halving", f"{TEE}depth = 16", f"L{LEAVE}"),
        # Whole inside the rail lies in the rebate; there is wood of the stile outside.
        (REBATE, "halving", f'{TEE}depth = 12\nshows = "inside"', ""),
        # A groove stays in the wood, and nothing of it shows.
        ("groove = { width = 6, depth = 8 }", "halving", TEE, ""),
        ("", "halving", TEE, ""),
        # The inside shoulder of a tenon that knows of no rebate.
        (REBATE, "mortise-and-tenon", "", "Give that joint the same rebate: its layout then"),
        (REBATE, "mortise-and-tenon", REBATE, ""),
    ],
)
def test_what_is_cut_away_for_a_rebated_board_is_not_filled(channel, kind, more, remedy):
    job = read_job(FRAME.format(channel=channel, kind=kind, more=more))
    found = [one for one in job.findings if one.code == "rebate-open"]
    assert len(found) == bool(remedy)
    if remedy:
        assert found[0].remedy.startswith(remedy)
        assert (LEAVE in found[0].remedy) == (kind == "halving")
        assert (
            'joint 2 "Middle" (Left), "mid" is cut away for the whole width of "stile", and of '
            'that the rebate of joint 1 "Frame" (Corner A) takes 10 mm along its reference edge'
        ) in found[0].message


BARS = """\
units = "mm"
boards.stile = {{ width = 50, thickness = 24, length = 960 }}
boards.top = {{ width = 50, thickness = 24, length = 510 }}
boards.bar = {{ width = 20, thickness = 24, length = 480 }}
boards.upright = {{ width = 24, thickness = 24, length = 940 }}
[[joints]]
kind = "haunched-mortise-and-tenon"
name = "Frame"
corners = ["A", "B", "C", "D"]
rail = "top"
stile = "stile"
tenon_length = 35
rebate = {{ width = 8, depth = 12 }}
shoulder_outside = 4
tenon_thickness = 8
[[joints]]
kind = "mortise-and-tenon"
name = "Upright"
corners = [{{ name = "Head", like = "A" }}, {{ name = "Foot", like = "D" }}]
front = "upright"
rail = "upright"
stile = "top"
{where}
tenon_length = 20
rebate = {{ width = 8, depth = 12 }}
shoulder_outside = 4
tenon_thickness = 8
[[joints]]
kind = "halving"
form = "cross"
name = "Bars"
corners = [{{ name = "Crossing", like = "A" }}]
rail = "bar"
stile = "upright"
"""


def test_of_a_bar_between_two_panes_both_edges_leave_the_other_bars_notch_open():
    """Of 24 the rebates leave a fin of 8, and the notch in the other bar is 24 wide."""
    job = read_job(BARS.format(where="middle = true"))
    (one,) = [one for one in job.findings if one.code == "rebate-open"]
    assert "takes 8 mm along each of its edges: so much stays open." in one.message
    assert '"bar" is cut away for the whole width of "upright"' in one.message
    assert one.remedy == 'Leave so much of "bar" standing there.'


def test_a_halving_can_have_no_groove_and_is_not_told_to_be_given_one():
    """Its rail is grooved for the tenon at the other end; the stile is 50, the end 1.5 over it."""
    text = FRAME.format(channel="groove = { width = 6, depth = 8 }", kind="halving", more="")
    text = text.replace('"A", "B", "C", "D"', '"A", "D"').replace("at = 400\n", "")
    text = text.replace('{ name = "Left", like = "A" }, { name = "Right", like = "B" }', '"B", "C"')
    text = text.replace('rail = "mid"\nstile = "stile"', 'rail = "rail"\nstile = "mid"')
    found = [one for one in read_job(text).findings if "at its other end" in one.message]
    assert [one.remedy for one in found] == ["Stop it 51.5 mm from that end."]


@pytest.mark.parametrize(
    ("kind", "more", "place"),
    [
        # The bar is 30 wide and its far edge 300 from the end: the rebate comes to it at 330.
        ("mortise-and-tenon", "at = 300", "330 mm from that end"),
        ("halving", 'form = "tee"\nat = 300', "330 mm from that end"),
        # In the middle of 640 its far edge is at 305, 30 mm before its reference edge.
        ("mortise-and-tenon", "middle = true", "335 mm from that end"),
        # Nobody told how far it is from the end: 30 mm from there would be wrong.
        ("mortise-and-tenon", "", '30 mm from the far edge of "bar"'),
        ("halving", 'form = "tee"', '30 mm from the far edge of "bar"'),
    ],
)
def test_a_rebate_that_shows_at_a_bar_is_stopped_where_the_bar_comes(kind, more, place):
    text = f"""\
units = "mm"
boards.rail = {{ width = 60, thickness = 24, length = 380 }}
boards.stile = {{ width = 60, thickness = 24, length = 640 }}
boards.bar = {{ width = 30, thickness = 24, length = 380 }}
[[joints]]
kind = "mortise-and-tenon"
corners = ["A", "B"]
rail = "rail"
stile = "stile"
rebate = {{ width = 8 }}
at = 20
[[joints]]
kind = "{kind}"
corners = [{{ name = "Left", like = "D" }}, {{ name = "Right", like = "C" }}]
rail = "bar"
stile = "stile"
{more}
"""
    (found,) = [one for one in read_job(text).findings if one.code == "rebate-shows"]
    remedy = re.split(r"[.]$|, or give", found.remedy)[0]
    assert remedy == f'Stop it where "bar" comes, {place}'
