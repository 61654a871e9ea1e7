"""White edges that a printer may really have."""

import pytest

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.sheets.margins import Margins


def test_ten_millimetres_all_round_unless_told():
    assert Margins() == Margins(*[Fraction(10)] * 4)
    assert Margins().bottom == 10


@pytest.mark.parametrize("width", [0, 100, Fraction("16.93")])
def test_margins_from_nothing_to_100_mm_are_kept(width):
    assert Margins(*[Fraction(width)] * 4).left == width


@pytest.mark.parametrize("side", ["left", "right", "top", "bottom"])
@pytest.mark.parametrize("width", [Fraction(-1, 100), Fraction(10_001, 100)])
def test_an_impossible_margin_is_refused_by_the_name_of_its_side(side, width):
    with pytest.raises(InputError) as caught:
        Margins(**{side: width})
    (finding,) = caught.value.findings
    assert finding.code == "margin-impossible"
    assert finding.place == side


def test_every_impossible_margin_is_told_at_once():
    with pytest.raises(InputError) as caught:
        Margins(left=Fraction(-1), bottom=Fraction(101))
    assert [finding.place for finding in caught.value.findings] == ["left", "bottom"]
