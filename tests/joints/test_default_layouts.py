"""What is proposed where nothing is told but the boards: each layout is judged by a rule.

What is judged is read off the setting-out rows, at the tails' ends and along the baseline:
where the program took its counts and widths from is not asked.
"""

import math
from itertools import pairwise
from random import Random

import pytest

from joinery_templates.exact import Fraction
from joinery_templates.joint import Joint
from joinery_templates.joints.catalogue import kinds, known_kind
from joinery_templates.joints.kind import Kind
from joinery_templates.lengths import INCH, Units, mm_text
from tests.default_layouts import boards_alone, extreme_boards, said_against
from tests.joints.worked import request, sizes

KINDS = tuple(kinds().values())
WIDTHS = (40, 60, 90, 140, 200, 300, 450, 600, 900)
THICKNESSES = (6, 10, 12, 18, 25, 40)
Widths = tuple[list[Fraction], list[Fraction]]
"""From edge to edge at the tails' ends, and along the baseline: edge, tail, pin, tail, edge."""


def proposed(kind: str, width: float, thickness: float, units: Units = Units.MM) -> Joint:
    sizes_ = (f"{width} {units}", (f"{thickness} {units}",) * 2)
    return known_kind(kind).build(request(known_kind(kind), *sizes_, units))


def widths_of(joint: Joint) -> Widths:
    at_end, at_baseline = (
        next(row for row in joint.rows if row.role == "tail board" and words in row.title)
        for words in ("outside face, along", "along the baseline")
    )
    return tuple(
        [
            high - low
            for low, high in pairwise([0, *(mark.position for mark in row.marks), row.width])
        ]
        for row in (at_end, at_baseline)
    )  # type: ignore[return-value]


@pytest.mark.parametrize("thickness", THICKNESSES)
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("kind", ["through-dovetail", "lapped-dovetail"])
def test_proposed_tails_and_pins_are_what_handbooks_name(kind, width, thickness):
    joint = proposed(kind, width, thickness)
    end, base = widths_of(joint)
    assert sum(end) == sum(base) == width
    tails, necks = end[1::2], base[1::2]
    pins, spaces = end[2:-1:2], base[2:-1:2]
    # Dovetails of one joint are alike and stand in the middle (common practice, no source).
    assert len({*tails}) == 1
    assert len({*pins}) <= 1
    assert end[0] == end[-1]
    # Noyes 1910, no. 48: ordinarily not wider than 1 3/4 in; for looks up
    # to four times as wide as the spaces.
    assert tails[0] <= Fraction(7, 4) * INCH
    assert all(tails[0] <= 4 * space for space in spaces)
    # The same: strongest are tails as wide as the spaces, here in the middle of their length;
    # narrower ones are neither strong nor handsome.
    assert all(tails[0] + necks[0] >= pin + space for pin, space in zip(pins, spaces, strict=True))
    # Common practice, no source: an edge pin, held on one side only, is no weaker than a whole
    # one where both are widest (a gauge is set to half a millimetre); our judgement: nor is it
    # so wide that it looks a block beside them.
    assert all(space - Fraction(1, 4) <= base[0] <= space * Fraction(3, 2) for space in spaces)
    # Our judgement: a neck of a quarter of the thickness and of 3 mm does not break.
    assert necks[0] >= max(3, Fraction(thickness, 4))
    # Our judgement: a pin takes the narrowest usual chisel, 3 mm, and is no wider than half of
    # the thickness, or the work looks coarse.
    assert all(3 <= pin <= max(3, Fraction(thickness, 2)) for pin in pins)
    # Half a millimetre is what a rule has; the half pins may take up what is left.
    assert all(pin % Fraction(1, 2) == 0 for pin in pins)
    if len(tails) <= 10 and thickness >= 10:
        assert tails[0] % Fraction(1, 2) == 0 or kind == "lapped-dovetail"


PER_WIDTH = [
    # Foster, Carpentry and Woodwork, 1911: a box 3 in high of 1/2 in walnut has three.
    ("through-dovetail", "3", "1/2", Units.INCH, 3, 3),
    # Joyce 1970, of a drawer: two whole pins up to 6 in in a front of
    # 3/4 in, three above.
    ("lapped-dovetail", "4", "3/4", Units.INCH, 3, 3),
    ("lapped-dovetail", "6", "3/4", Units.INCH, 3, 3),
    ("lapped-dovetail", "7", "3/4", Units.INCH, 4, 4),
    # Our judgement, by how carcases look: a tail every 40 to 60 mm of 450 mm.
    ("through-dovetail", "450", "18", Units.MM, 8, 11),
    ("through-dovetail", "450", "25", Units.MM, 8, 11),
    # Our judgement: a small box keeps three to five, and does not look like a comb.
    ("through-dovetail", "60", "6", Units.MM, 3, 5),
    ("through-dovetail", "90", "8", Units.MM, 3, 5),
    ("through-dovetail", "140", "12", Units.MM, 4, 6),
]


@pytest.mark.parametrize(("kind", "width", "thickness", "units", "fewest", "most"), PER_WIDTH)
def test_so_many_tails_come_on_a_board(kind, width, thickness, units, fewest, most):
    end, _ = widths_of(proposed(kind, width, thickness, units))
    assert fewest <= len(end[1::2]) <= most


def test_a_narrow_thick_board_gets_one_tail_whose_half_pins_let_it_stand():
    """Our judgement: its neck does not break, and 1.5 mm are left at each edge."""
    for width, thickness in ((40, 25), (40, 40), (40, 60), (90, 60)):
        joint = proposed("through-dovetail", width, thickness)
        end, base = widths_of(joint)
        assert len(end) == 3
        assert joint.findings == ()
        assert base[1] >= max(Fraction(thickness, 4), 8)
        assert min(end[0], end[-1]) >= Fraction(3, 2)


@pytest.mark.parametrize("width", ["3 1/2", "5 1/2", "7 1/4", "9 1/4", "11 1/4"])
def test_inches_come_out_in_figures_that_a_rule_has(width):
    """Widths of dressed boards of 3/4 in, PS 20: no thousandths for a setting."""
    joint = proposed("through-dovetail", width, "3/4", Units.INCH)  # type: ignore[arg-type]
    end, _ = widths_of(joint)
    assert end[2] % (INCH / 16) == 0
    assert {piece % (INCH / 64) for piece in end[1:-1]} == {0}
    (step,) = (one.length for one in joint.lengths if one.tool == "dividers")
    assert step % (INCH / 64) == 0


OTHERS = [
    # Common practice, no source: a finger about as wide as the stock is thick.
    ("box-joint", 84, 12, "finger", Fraction(8), Fraction(18)),
    ("box-joint", 450, 18, "finger", Fraction(12), Fraction(27)),
    # Joyce 1970: a lap of 5 mm in 19 mm.
    ("double-lapped-dovetail", 140, 19, "lap, on the pin board", Fraction(5), Fraction(5)),
    # From memory: no lap thinner than 3/32 in.
    ("lapped-dovetail", 90, 6, "lap", Fraction(3, 32) * INCH, Fraction(3)),
    # Noyes 1910, nos. 50 and 51: about half of both is dovetailed.
    ("full-blind-dovetail", 140, 20, "lap", Fraction(9), Fraction(11)),
    # Noyes 1910, p. 160: a third; Building Construction: from a quarter.
    ("mortise-and-tenon", 66, 22, "thickness of the tenon", Fraction(22, 4), Fraction(22, 3) + 1),
    # Cassell's Carpentry and Joinery: half to the whole of a rail up to 5 in.
    ("mortise-and-tenon", 120, 22, "width of the tenon", Fraction(60), Fraction(120)),
    # The same: none wider than such a rail.
    ("mortise-and-tenon", 400, 22, "width of the tenon", Fraction(60), 5 * INCH),
    # Noyes 1910, nos. 14 to 17: half of each.
    ("dovetail-halving", 50, 21, "thickness of the dovetail", Fraction(21, 2), Fraction(21, 2)),
    # Common practice, no source: a third of the side, or a little less.
    ("housing", 250, 20, "how far each end", Fraction(5), Fraction(20, 3)),
]


@pytest.mark.parametrize(("kind", "width", "thickness", "what", "low", "high"), OTHERS)
def test_other_kinds_propose_what_handbooks_name(kind, width, thickness, what, low, high):
    found = [
        one
        for name, one in sizes(proposed(kind, width, thickness)).items()
        if name.startswith(what)
    ]
    assert low <= found[0] <= high


def test_a_tenon_is_not_as_long_as_a_wide_board_is():
    """Our judgement: 75 mm; in a stile of 64 mm three quarters, less 2 (Zerbe, 1914)."""
    for width, long in ((64, 46), (300, 75)):
        assert proposed("mortise-and-tenon", width, 22).members[0].part.reach == long


def test_a_key_is_no_longer_than_its_boards_have_room_for():
    """Our judgement: 3 thicknesses, at most 100 mm across the grain, a third of the end wide."""
    for kind, width, thickness, length in (
        ("dovetail-key", 200, 20, 60),
        ("dovetail-key", 200, 40, 100),
        ("dovetail-key", 40, 20, 40),
        ("butt-dovetail-key", 60, 40, 48),  # 20 wide at 5/12 of the length
    ):
        joint = proposed(kind, width, thickness)
        assert sizes(joint)["key, from tip to tip"] == length


def test_a_long_shelf_tapers_by_little_and_a_short_one_not():
    """Our judgement: 2 mm over its length, or a sixth of a thin shelf."""
    for width, thickness, narrows in ((150, 18, 0), (300, 18, 2), (900, 18, 2), (300, 6, 1)):
        found = sizes(proposed("sliding-dovetail", width, thickness))
        at_end = [one for name, one in found.items() if name.startswith("tail at its end")]
        assert math.isclose(max(at_end) - min(at_end), narrows, rel_tol=0.05), mm_text(min(at_end))


@pytest.mark.parametrize("kind", KINDS, ids=[kind.name for kind in KINDS])
def test_no_proposal_is_advised_against(kind: Kind):
    """Boards from 40 to 900 mm wide and 4 to 60 mm thick; many more in the exhaustive run."""
    at_random = (boards_alone(kind, Random(f"{kind.name} {number}")) for number in range(2))
    for boards in (*extreme_boards(kind), *at_random):
        assert said_against(kind, boards) == [], boards
