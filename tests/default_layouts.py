"""Joints of which nothing is told but the boards, and what must not be said of them."""

from itertools import product
from random import Random

from joinery_templates.errors import InputError
from joinery_templates.exact import Fraction
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.parameter import Quantity, read_parameters
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units
from joinery_templates.wood.board import Board

ON_THE_BOARDS = frozenset(
    {
        "mitre-wide",
        "mitre-not-to-the-corner",
        "stock-thin",
        "rail-wide",
        "housing-open",
        "boards-wide",
        "thicknesses-differ",
    }
)
"""Advice on the boards themselves, that no other layout of this kind would mend."""
SLOPES = ("1:5", "1:6", "1:7", "1:8")
"""What is customary, for soft wood and hard (Joyce 1970)."""


def boards_alone(kind: Kind, chance: Random) -> Request:
    """Random boards of a joint, 40 to 900 mm wide and 4 to 60 mm thick; the same for a chance.

    The second is by no more than a quarter thinner or a third thicker, and of another width
    where a kind's own example is. Half of the joints with a slope are told a customary one.
    """
    units = chance.choice(tuple(Units))

    def length(low: float, high: float) -> Fraction:
        # As many small ones as large ones.
        return _size(low * (high / low) ** chance.random(), units)

    wide, thick = length(40, 900), length(4, 60)
    other = thick if chance.random() < 0.5 else thick * Fraction(chance.randint(75, 133), 100)
    other = min(max(other, Fraction(4)), Fraction(60))
    is_frame = bool(kind.example.second_width)
    second = length(40, 900) if is_frame else wide
    # A slope that is told is kept, also where a board is too thick or too wide for it.
    steepens = not is_frame and 3 * other < wide and chance.random() < 0.5
    steepens &= all(one.name != "form" for one in kind.parameters)  # it may be another form's
    raw = {
        one.name: chance.choice(SLOPES)
        for one in kind.parameters
        if one.quantity is Quantity.SLOPE and steepens
    }
    return Request(
        (Board(kind.roles[0].key, wide, thick), Board(kind.roles[1].key, second, other)),
        read_parameters(kind.parameter_class, raw, units),
        units,
        Tools(),
    )


def extreme_boards(kind: Kind) -> list[Request]:
    """The narrowest and widest, thinnest and thickest boards, both alike, in mm and in inches."""
    sizes = product((40, 900), (4, 60), Units)
    return [
        Request(
            tuple(Board(role.key, _size(wide, unit), _size(thick, unit)) for role in kind.roles),
            read_parameters(kind.parameter_class, {}, unit),
            unit,
            Tools(),
        )
        for wide, thick, unit in sizes
    ]


def _size(mm: float, units: Units) -> Fraction:
    """The nearest half millimetre or sixteenth of an inch."""
    step = Fraction(1, 2) if units is Units.MM else INCH / 16
    return max(1, round(mm / step)) * step


def said_against(kind: Kind, request: Request) -> list[str]:
    """What a kind says against its own proposal for these boards."""
    try:
        findings = kind.build(request).findings
    except InputError as refused:
        findings = refused.findings
    return [one.told() for one in findings if one.code not in ON_THE_BOARDS]
