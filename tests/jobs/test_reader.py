"""What a good job file says is read exactly."""

import pytest
from msgspec.structs import replace

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.jobs import tables
from joinery_templates.jobs.job import Corner
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.dovetails.through_dovetail import KIND, Parameters
from joinery_templates.lengths import Units
from joinery_templates.sheets.margins import Margins
from joinery_templates.wood.board import Hand
from tests.jobs.bad_files import BOARDS, JOINT
from tests.jobs.job_texts import EVERYTHING, small_job

INCH = Fraction(254, 10)


def test_a_file_with_everything_in_it_is_read_back_exactly() -> None:
    job = read_job(EVERYTHING)
    assert (job.title, job.notes, job.source) == ("Blanket chest", "Two of them", EVERYTHING)
    assert job.units is Units.INCH
    assert (job.sheets.paper.name, job.sheets.paper.width, job.sheets.paper.height) == (
        "A3",
        297,
        420,
    )
    assert job.sheets.margins == Margins(Fraction(5), INCH / 4, Fraction(15, 2), Fraction(15))
    assert job.sheets.overlap == 14
    (one,) = job.joints
    assert one.name == "Back"
    assert one.corners == (
        Corner("Corner A", False, "A", "A"),
        Corner("Corner B", True, "B", "B"),
        Corner("Lid", False, like="A"),
        Corner("Rear", True, like="D"),
    )
    assert one.views == ("wrap", "faces", "end-grain")
    tails, pins = (member.part.board for member in one.joint.members)
    assert (tails.name, tails.width, tails.thickness, tails.length) == ("side", 140, 20, 420)
    assert (pins.name, pins.width, pins.thickness, pins.length) == (
        "back board",
        140,
        Fraction(3, 4) * INCH,
        None,
    )


def test_a_joint_s_parameters_and_tools_reach_it_exactly(monkeypatch: pytest.MonkeyPatch) -> None:
    """Read as Fractions: 0.4 is 2/5, not the float beside it; a 64th of an inch is 127/320 mm."""
    seen = []
    from joinery_templates.joints.catalogue import kinds

    kind = kinds()["through-dovetail"]

    def listening(request):
        seen.append(request)
        return KIND.lay_out(request)

    monkeypatch.setattr(tables, "known_kind", lambda _: replace(kind, lay_out=listening))
    read_job(EVERYTHING)
    (request,) = seen
    assert request.given == Parameters(
        start="half-pin",
        slope=Fraction(1, 6),
        tails=4,
        pin=Fraction(3),
        half_pin=Fraction(7),
        half_pin_far=Fraction(8),
        tails_proud=Fraction(2, 5),
        pins_proud=Fraction(127, 320),
        fit=Fraction(-1, 20),
    )
    assert request.tools.chisels == (3, INCH / 4, Fraction(25, 2))
    assert (request.tools.kerf, request.tools.smallest_pin) == (Fraction(3, 5), 3)
    assert (request.tools.gauge, request.tools.kerf_shown) == (INCH / 64, True)
    assert request.units is Units.INCH  # figures are wanted in inches


def test_bare_numbers_are_in_the_file_s_units() -> None:
    text = small_job(
        units='"in"',
        figures='"in"',
        boards_side_width="3.5",
        boards_side_thickness="0.1",
        paper_overlap="0.5",
        paper_margin="0.25",
        tools_kerf="0.02",
        tools_chisels="[0.1]",
        tools_smallest_pin="0.1",
        joint_pin="0.125",
        joint_half_pin="0.25",
        joint_tails_proud="0.01",
        joint_pins_proud="0.01",
    )
    job = read_job(text)
    board = job.joints[0].joint.members[0].part.board
    assert (board.width, board.thickness) == (Fraction(889, 10), Fraction(254, 100))
    assert (job.sheets.overlap, job.sheets.margins.left) == (INCH / 2, INCH / 4)


@pytest.mark.parametrize(("units", "paper"), [("mm", "A4"), ("in", "Letter")])
def test_paper_unless_given_follows_the_units(units: str, paper: str) -> None:
    text = f'units = "{units}"\n' + BOARDS.replace("90", "'90 mm'").replace("12", "'12 mm'") + JOINT
    assert read_job(text).sheets.paper.name == paper
    assert read_job(f'figures = "in"\n{BOARDS}{JOINT}').sheets.paper.name == "A4"


def test_a_job_says_little_at_least() -> None:
    job = read_job(BOARDS + JOINT)
    assert (job.units, job.sheets.overlap, job.sheets.margins.top, job.notes) == (
        Units.MM,
        12,
        10,
        "",
    )
    assert [(one.name, one.views) for one in job.joints] == [("Through dovetail", ("wrap",))]
    assert job.joints[0].corners == (Corner("Through dovetail", False),)


@pytest.mark.parametrize(
    ("written", "corners"),
    [
        ('"A"', [("Corner A", False)]),
        ('["d", "c"]', [("Corner D", True), ("Corner C", False)]),
        ('["E", "Back left"]', [("E", False), ("Back left", False)]),
        ('{ name = "Front" }', [("Front", False)]),
        ('[{ name = "x", like = "b" }]', [("x", True)]),
        ('["家具", "पेटी"]', [("家具", False), ("पेटी", False)]),
        ('["  Back \\t left "]', [("Back left", False)]),
    ],
)
def test_corners_are_letters_names_or_tables(written: str, corners: list[tuple[str, bool]]) -> None:
    job = read_job(small_job(joint_corners=written))
    assert [(corner.name, corner.mirrored) for corner in job.joints[0].corners] == corners


def test_a_name_like_that_of_a_corner_makes_no_corner_of_a_four_sided_piece() -> None:
    job = read_job(small_job(joint_corners='["C", { name = "Corner A", like = "B" }]'))
    assert [corner.letter for corner in job.joints[0].corners] == ["C", ""]


TWO_BOARDS = """
[boards.long]
width = 90
thickness = 12
[boards.end]
width = 90
thickness = 12
[[joints]]
kind = "through-dovetail"
corners = ["A", "B", { name = "Lid", like = "A" }]
tail_board = "long"
pin_board = "end"
front = "FRONT"
"""


@pytest.mark.parametrize(
    ("front", "mirrored"), [("end", [False, True, False]), ("long", [True, False, True])]
)
def test_ends_change_with_the_board_that_stands_in_front(front: str, mirrored: list[bool]) -> None:
    """At the front left the board on the left meets with its right-hand end.

    The front meets it with its left-hand end, whichever of the two has the tails.
    """
    (one,) = read_job(TWO_BOARDS.replace("FRONT", front)).joints
    assert [corner.mirrored for corner in one.corners] == mirrored
    tail_board_end = one.joint.members[0].hand
    at_a = tail_board_end.other if mirrored[0] else tail_board_end
    assert at_a is (Hand.LEFT if front == "long" else Hand.RIGHT)


def test_a_front_that_is_no_board_of_the_joint_is_told() -> None:
    with pytest.raises(InputError) as caught:
        read_job(TWO_BOARDS.replace("FRONT", "lid"))
    (finding,) = caught.value.findings
    assert finding.place.endswith("joint 1, front")
    assert "'long' or 'end'" in finding.remedy


def test_margins_are_one_width_or_sides() -> None:
    assert read_job(small_job(paper_margin="0")).sheets.margins == Margins(*[Fraction(0)] * 4)
    sides = read_job(small_job(paper_margin="{ top = 20 }")).sheets.margins
    assert sides == Margins(top=Fraction(20))  # the others stay the usual 10 mm
    assert sides.left == 10


def test_a_view_named_alone_or_twice_stands_once() -> None:
    assert read_job(small_job(joint_views='"faces"')).joints[0].views == ("faces",)
    assert read_job(small_job(joint_views='["faces", "wrap", "faces"]')).joints[0].views == (
        "faces",
        "wrap",
    )


def test_boards_may_be_named_in_any_script_and_with_signs_outside_the_fonts() -> None:
    for name in ("Zarge é ß", "側板", "لوح", "🪵", "e\u0301"):
        text = (
            (BOARDS + JOINT).replace("[boards.a]", f'[boards."{name}"]').replace('"a"', f'"{name}"')
        )
        assert read_job(text).joints[0].joint.members[0].part.board.name == name


def test_overrides_change_paper_and_figures_and_nothing_else() -> None:
    plain, job = read_job(small_job()), read_job(small_job(), Overrides("Arch D", "in"))
    assert (job.sheets.paper.name, job.units) == ("Arch D", Units.INCH)
    assert (plain.sheets.paper.name, plain.units) == ("A4", Units.MM)
    assert job.joints[0].joint.rows == plain.joints[0].joint.rows
    assert (job.sheets.margins, job.sheets.overlap, job.title) == (
        plain.sheets.margins,
        plain.sheets.overlap,
        plain.title,
    )


def test_a_size_of_paper_on_the_command_line_is_in_the_file_s_units() -> None:
    assert read_job(small_job(), Overrides(paper="300 x 420")).sheets.paper.width == 300
    inches = BOARDS.replace("90", "4").replace("12", "0.5") + JOINT
    assert (
        read_job(f'units = "in"\n{inches}', Overrides(paper="9 x 12")).sheets.paper.width
        == 9 * INCH
    )


@pytest.mark.parametrize(
    ("overrides", "words"),
    [
        (Overrides(units="inch"), ["--units: 'inch' is not one of"]),
        (Overrides(paper="A44"), ["--paper: No paper is called 'A44'. Did you mean"]),
        (Overrides("300,5 x 400", "m"), ["--units: 'm'", "--paper: No paper", '"300.5 x 400"']),
        (Overrides(paper=""), ["--paper: This text is empty"]),
        (Overrides(paper="A4\u202e"), ["--paper: Sign 3 of this text cannot be printed"]),
    ],
)
def test_a_bad_override_is_refused_by_its_option(overrides: Overrides, words: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        read_job(small_job(), overrides)
    for word in words:
        assert word in str(caught.value)


def test_a_file_s_own_mistakes_are_told_even_where_an_override_would_hide_them() -> None:
    with pytest.raises(InputError, match=r"line 6: paper\.size: No paper"):
        read_job(small_job(paper_size='"A44"'), Overrides(paper="A4"))
