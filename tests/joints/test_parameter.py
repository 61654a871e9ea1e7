"""Parameters: read from job file or command line, and refused in plain words."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinery_templates.errors import InputError
from joinery_templates.exact import TANGENT_BOUND, Fraction
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.dovetails.through_dovetail import KIND, Parameters
from joinery_templates.joints.parameter import Parameter, Quantity, Table, parameter
from joinery_templates.joints.reading import read_slope, read_taper
from joinery_templates.joints.spacing.parameters import SpacingParameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from tests.strategies import PROPERTY

COUNT = Parameter("tails", Quantity.COUNT, "How many.", low=Fraction(1), high=Fraction(9))
LENGTH = Parameter(
    "pin", Quantity.LENGTH, "How wide.", low=Fraction(0), high=Fraction(10), above=True
)
CHOICE = Parameter("start", Quantity.CHOICE, "Which.", choices=("one", "two"))


def refusal(parameter: Parameter, given_: object, units: Units = Units.MM) -> tuple[str, str, str]:
    with pytest.raises(InputError) as caught:
        parameter.read(given_, units)
    (finding,) = caught.value.findings
    return finding.code, finding.place, finding.remedy


@pytest.mark.parametrize(
    ("text", "slope"),
    [
        ("1:6", "1/6"),
        ("1 : 6", "1/6"),
        ("1 in 6", "1/6"),
        ("1 in 4.8", "5/24"),
        ("5/8:3", "5/24"),
        ("5/8 in 3", "5/24"),
        ("2:13", "2/13"),
        ("1:2", "1/2"),
        ("1:60", "1/60"),
    ],
)
def test_ratios_are_read_exactly(text, slope):
    assert read_slope(text) == Fraction(slope)


@pytest.mark.parametrize(
    ("text", "run"), [("14.0362 deg", 4), ("9.4623°", 6), ("8.1301 degrees", 7), ("7.1250 deg", 8)]
)
def test_angles_are_read_as_their_tangent(text, run):
    """atan(1/n): 1 in 4 14.036, 1 in 6 9.462, 1 in 7 8.130, 1 in 8 7.125 degrees."""
    assert float(read_slope(text)) == pytest.approx(1 / run, abs=1e-6)


def test_an_angle_with_a_known_tangent_keeps_its_bound():
    # tan 22.5 degrees is the root of 2, less 1.
    slope = read_slope("22.5 deg")
    low, high = slope - TANGENT_BOUND, slope + TANGENT_BOUND
    assert (1 + low) ** 2 < 2 < (1 + high) ** 2


@pytest.mark.parametrize(
    "given_",
    [
        "",
        "6",
        "1:",
        ":6",
        "1:0",
        "1/6",
        "0 deg",
        "a:b",
        "-1:6",
        "1:-6",
        "-1:-6",
        6,
        0.5,
        None,
        True,
        "1:6:7",
        "1" * 60 + ":6",
        "..:6",
        "1/0:6",
    ],
)
def test_what_is_no_slope_is_said_to_be_none(given_):
    with pytest.raises(InputError) as caught:
        read_slope(given_)
    assert [f.code for f in caught.value.findings] == ["slope-unreadable"]
    assert "1:6" in caught.value.findings[0].remedy


@pytest.mark.parametrize("given_", ["1:1.999", "1:60.001", "0:6", "27 deg", "80 deg", "0.9 deg"])
def test_a_slope_that_cannot_be_cut_is_refused(given_):
    with pytest.raises(InputError) as caught:
        read_slope(given_)
    assert [f.code for f in caught.value.findings] == ["out-of-limits"]


@PROPERTY
@given(st.text(max_size=50) | st.from_regex(r"[0-9./ :in°deg-]{1,30}", fullmatch=True))
def test_no_text_brings_the_reader_of_slopes_down(text):
    try:
        slope = read_slope(text)
    except InputError:
        return
    assert Fraction(1, 60) <= slope <= Fraction(1, 2)


@pytest.mark.parametrize(("given_", "count"), [(1, 1), (9, 9), ("3", 3), (" 3 ", 3), ("007", 7)])
def test_counts_are_whole_numbers_or_their_digits(given_, count):
    assert COUNT.read(given_, Units.MM) == count


@pytest.mark.parametrize(
    ("given_", "code"),
    [
        (0, "out-of-limits"),
        (10, "out-of-limits"),
        (-1, "out-of-limits"),
        ("10", "out-of-limits"),
        (True, "count-unreadable"),
        (2.0, "count-unreadable"),
        ("2.5", "count-unreadable"),
        ("two", "count-unreadable"),
        ("-1", "count-unreadable"),
        ("1234567", "count-unreadable"),
        ("٣", "count-unreadable"),
        (None, "count-unreadable"),
    ],
)
def test_counts_that_cannot_be_are_refused_by_name(given_, code):
    assert refusal(COUNT, given_)[:2] == (code, "tails")


@pytest.mark.parametrize(
    ("given_", "code"),
    [
        ("0", "out-of-limits"),
        ("-1", "out-of-limits"),
        ("10.001 mm", "out-of-limits"),
        ("wide", "length-unreadable"),
        (None, "length-unreadable"),
        (True, "length-unreadable"),
    ],
)
def test_lengths_that_cannot_be_are_refused_by_name(given_, code):
    assert refusal(LENGTH, given_)[:2] == (code, "pin")


def test_a_length_at_its_upper_limit_is_allowed_and_bare_numbers_are_in_the_files_units():
    assert LENGTH.read("10 mm", Units.INCH) == 10
    assert LENGTH.read("1/4", Units.INCH) == INCH / 4


def test_limits_are_told_in_the_persons_units():
    assert LENGTH.limits_text(Units.MM) == "above 0 mm and at most 10 mm"
    assert LENGTH.limits_text(Units.INCH).startswith("above 0 in and at most")
    assert refusal(LENGTH, "11 mm")[2] == "It must be above 0 mm and at most 10 mm."
    assert COUNT.limits_text(Units.MM) == "from 1 to 9"
    assert CHOICE.limits_text(Units.MM) == '"one" or "two"'


@pytest.mark.parametrize("given_", ["three", "", 1, None, ["one"]])
def test_a_choice_that_is_none_is_answered_with_the_choices(given_):
    assert refusal(CHOICE, given_) == ("choice-unknown", "start", 'Write "one" or "two".')


def test_a_choice_with_a_slip_is_answered_with_the_nearest():
    assert refusal(CHOICE, "Ones")[2] == 'Did you mean "one"? Write "one" or "two".'


def test_a_very_long_value_is_cut_short_in_the_message():
    with pytest.raises(InputError) as caught:
        CHOICE.read("x" * 500, Units.MM)
    assert len(caught.value.findings[0].message) < 100


@pytest.mark.parametrize(
    ("written", "taper"),
    [(100, 100), ("1:100", 100), ("1 in 50", 50), ("2:75", Fraction(75, 2)), (0, 0), ("0", 0)],
)
def test_a_taper_is_read_as_one_in_so_many(written, taper):
    assert read_taper(written) == taper


@pytest.mark.parametrize("written", ["", "1:", "a:100", "1:100:3", None, True, "1 mm"])
def test_what_is_no_taper_is_told_with_how_to_write_one(written):
    with pytest.raises(InputError) as caught:
        read_taper(written)
    assert "1:100" in caught.value.findings[0].remedy


ANGLE = Parameter("lean", Quantity.ANGLE, "How far.", low=Fraction(-60), high=Fraction(60))


@pytest.mark.parametrize(
    ("written", "degrees"),
    [
        (12, 12),
        ("12", 12),
        ("12 deg", 12),
        ("12°", 12),
        (" 12.5 degrees ", Fraction(25, 2)),
        ("22 1/2 °", Fraction(45, 2)),
        ("-5 deg", -5),
        (Fraction(60), 60),
    ],
)
def test_an_angle_is_read_in_degrees_with_or_without_saying_so(written, degrees):
    assert ANGLE.read(written, Units.MM) == degrees


@pytest.mark.parametrize(
    "written", ["", "deg", "°", "1:6", "12 rad", "12 mm", "12°°", "wide", None, True, "1" * 50]
)
def test_what_is_no_angle_is_told_with_how_to_write_one(written):
    code, place, remedy = refusal(ANGLE, written)
    assert (code, place) == ("angle-unreadable", "lean")
    assert '12 or "12 deg"' in remedy


def test_limits_of_an_angle_are_told_in_degrees():
    assert ANGLE.limits_text(Units.INCH) == "from -60° to 60°"
    assert refusal(ANGLE, "60.1°") == (
        "out-of-limits",
        "lean",
        "It must be from -60° to 60°.",
    )


@pytest.mark.parametrize("kind", kinds().values(), ids=kinds())
def test_what_is_told_in_degrees_can_be_written_so(kind):
    found = [one for one in kind.parameters if "in degrees" in one.help]
    found += [part for one in kind.parameters for part in one.parts if "in degrees" in part.help]
    assert all(one.quantity is Quantity.ANGLE for one in found)
    assert bool(found) is bool(
        {"lean", "plan", "cutter"} & {parameter.name for parameter in kind.parameters}
    )


def test_parameters_come_in_the_order_declared_those_of_spacing_first():
    names = [parameter.name for parameter in KIND.parameters]
    assert names[:2] == ["start", "tails"]
    assert names[-7:-2] == ["slope", "fit", "cutter", "tails_proud", "pins_proud"]
    assert names[-2:] == ["meet", "offset"]
    assert issubclass(Parameters, SpacingParameters)


@pytest.mark.parametrize(
    ("tools", "narrowest"),
    [
        (Tools(), None),
        (Tools(chisels=(Fraction(12), Fraction(6))), Fraction(6)),
        (Tools(smallest_pin=Fraction(2)), Fraction(2)),
        (Tools(chisels=(Fraction(6),), smallest_pin=Fraction(2)), Fraction(2)),
    ],
)
def test_the_narrowest_space_is_the_one_wished_for_or_the_narrowest_chisel(tools, narrowest):
    assert tools.narrowest_space == narrowest


class Peg(Table):
    size: int = parameter(Quantity.COUNT, "How thick.", default=6)
    wood: str = parameter(Quantity.WORDS, "Of what wood.", default="oak")


class Wedge(Table):
    lean: str = parameter(Quantity.WORDS, "How steep.", default="1:8")


class WedgedPeg(Wedge, Peg):
    wood: str = parameter(Quantity.WORDS, "Of what wood.", default="ash")


def test_a_table_says_what_was_given_and_else_what_is_usual():
    assert (Peg(size=8).size, Peg(size=8).wood) == (8, "oak")
    assert Peg(size=6) == Peg(wood="oak") != Peg(size=8)
    assert Peg(size=8).but(size=6) == Peg()
    assert len({Peg(), Peg(size=6), Peg(size=8)}) == 2
    assert Peg() != Wedge()


def test_a_table_takes_no_other_names_and_cannot_be_changed():
    with pytest.raises(TypeError, match="Peg has no length, width"):
        Peg(width=1, size=8, length=2)
    with pytest.raises(AttributeError, match=r"Peg\.size"):
        Peg().size = 8


def test_a_table_has_the_parameters_of_those_it_extends_and_may_declare_one_anew():
    declared = [(one.name, one.default) for one in WedgedPeg.parameters]
    assert declared == [("size", 6), ("wood", "ash"), ("lean", "1:8")]
    assert WedgedPeg().wood == "ash"
