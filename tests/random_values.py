"""Random values for a parameter, from nothing but what it declares."""

from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from joinery_templates.exact import Fraction
from joinery_templates.joints.parameter import Parameter, Quantity
from joinery_templates.lengths import INCH, Units


@dataclass(frozen=True)
class Ground:
    """What values are judged by: a board's thickness and width in mm, and the file's units."""

    thickness: float
    width: float
    units: Units


def value_of(declared: Parameter, ground: Ground, chance: Random) -> object:
    """A value of a parameter's quantity, most often within its limits and of a usual size."""
    return VALUES[declared.quantity](declared, ground, chance)


def _one_length(declared: Parameter, ground: Ground, chance: Random) -> object:
    low, high = _limits(declared, 0, 1000)
    if high <= 20:  # such as a fit, or how far wood stands proud
        mm = chance.choice([0, *(chance.uniform(low, high) / part for part in (1, 4, 20))])
    else:
        thickness, width = ground.thickness, ground.width
        most = chance.choice([0.6 * thickness, 1.2 * thickness, 0.3 * width, 1.5 * width])
        mm = max(chance.uniform(0.03, 1) * most, low)
    return length(mm, chance, ground.units)


def _lengths(declared: Parameter, ground: Ground, chance: Random) -> object:
    """Places over a width, or widths that come to about as much."""
    thickness, width = ground.thickness, ground.width
    count = chance.randint(1, 7)
    if chance.random() < 0.5:
        step = width / chance.randint(1, 3)
        listed = [(number + chance.uniform(0.4, 0.6)) * step for number in range(count)]
    else:
        listed = [chance.uniform(0.2, 1.5) * min(thickness, width / count) for _ in range(count)]
    return [length(one, chance, ground.units) for one in listed]


def _count(declared: Parameter, ground: Ground, chance: Random) -> object:
    low, high = _limits(declared, 0, 12)
    return chance.randint(int(low), int(min(high, low + chance.choice([3, 8, 16]))))


def _slope(declared: Parameter, ground: Ground, chance: Random) -> object:
    ratios = (f"1:{chance.randint(3, 12)}", f"2:{chance.randint(9, 21)}")
    return chance.choice([*ratios, "9.5 deg", "7°"])


def _taper(declared: Parameter, ground: Ground, chance: Random) -> object:
    return chance.choice([0, 80, "1:50", "1 in 120", "1:300"])


def _number(declared: Parameter, ground: Ground, chance: Random) -> object:
    return chance.choice(["5/4", round(chance.uniform(*_limits(declared, 0.5, 3)), 2)])


def _angle(declared: Parameter, ground: Ground, chance: Random) -> object:
    low, high = _limits(declared, 0, 90)
    usual = float(declared.default) if isinstance(declared.default, Fraction | int) else 10.0
    near = usual + chance.uniform(-20, 20)
    angle = min(max(chance.choice([chance.uniform(low, high), near, usual + 15]), low), high)
    written = round(angle, chance.choice([0, 1, 3]))
    return chance.choice([written, f"{written} deg"])


def _flag(declared: Parameter, ground: Ground, chance: Random) -> object:
    return chance.random() < 0.5


def _choice(declared: Parameter, ground: Ground, chance: Random) -> object:
    return chance.choice(declared.choices)


def _table(declared: Parameter, ground: Ground, chance: Random) -> object:
    parts = {part.name: part for part in declared.parts}
    if declared.short_for and chance.random() < 0.3:
        return value_of(parts[declared.short_for[0]], ground, chance)
    return {
        name: value_of(part, ground, chance)
        for name, part in parts.items()
        if part.needed or name in declared.short_for or chance.random() < 0.3
    }


VALUES: dict[Quantity, Callable[[Parameter, Ground, Random], object]] = {
    Quantity.LENGTH: _one_length,
    Quantity.LENGTHS: _lengths,
    Quantity.COUNT: _count,
    Quantity.SLOPE: _slope,
    Quantity.TAPER: _taper,
    Quantity.NUMBER: _number,
    Quantity.ANGLE: _angle,
    Quantity.FLAG: _flag,
    Quantity.CHOICE: _choice,
    Quantity.TABLE: _table,
}


def _limits(declared: Parameter, low: float, high: float) -> tuple[float, float]:
    """The limits of a parameter, or these where it has none."""
    return (
        low if declared.low is None else float(declared.low),
        high if declared.high is None else float(declared.high),
    )


def length(mm: float, chance: Random, units: Units) -> object:
    """A length as a person writes it: to a hundredth of a millimetre or 1/64 in, seldom finer."""
    parts = max(0, round(mm / float(INCH / 64)))
    whole, rest = divmod(Fraction(parts, 64), 1)
    inches = " ".join(str(part) for part in (whole, rest) if part) or "0"
    rounded = round(mm, chance.choice([0, 1, 1, 2])) or round(mm, 2)
    if units is Units.INCH:
        return chance.choice([parts / 64, f"{inches} in", f"{inches} in", f"{rounded} mm"])
    return chance.choice([rounded, rounded, rounded, f"{rounded} mm", f"{inches} in"])
