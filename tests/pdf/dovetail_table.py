"""Where every line of a through dovetail's wrap must stand, worked out from a job's numbers.

Nothing of the package is used: lengths, spacing and lines are computed here anew, in
floats, which are good for far less than a thousandth of a millimetre.

On the wrap ``s`` runs from the reference edge across the board and ``t`` from the fold
between outside face and end grain, up through the end grain to the inside face::

    outside face   t = -y      end grain   t = z      inside face   t = thickness + paper + y

The paper's own thickness is taken up by the fold.
"""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

Segment = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Side:
    """A side of a tail or socket: where it stands at depth 0, and how it leans (-1, 0, 1)."""

    at: float
    lean: int


@dataclass(frozen=True)
class Corner:
    """The numbers of a job's joint, in mm; tails as pairs of sides from the reference edge."""

    width: float
    tail_thickness: float
    pin_thickness: float
    slope: float
    tails_proud: float
    pins_proud: float
    fit: float
    paper: float
    tails: tuple[tuple[Side, Side], ...]


def length(value: object, units: str) -> float:
    """A length such as 5, "5 1/2 in" or "1/64 in" in mm."""
    if not isinstance(value, str):
        return float(value) * (25.4 if units == "in" else 1)  # type: ignore[arg-type]
    inches = re.fullmatch(r"(?:(\d+) )?(\d+)/(\d+) in", value)
    assert inches, value
    whole, over, under = inches.groups()
    return (int(whole or 0) + int(over) / int(under)) * 25.4


def slope(value: str) -> float:
    """1:6 is 1/6; 9.5 deg is its tangent."""
    if value.endswith(" deg"):
        return math.tan(math.radians(float(value.removesuffix(" deg"))))
    one, other = value.split(":")
    return float(one) / float(other)


def corner_of(job: Mapping[str, Any], number: int = 0) -> Corner:
    """One joint of a job file that gives tails or clusters, pin, and half pins if there are any."""
    joint, units = job["joints"][number], job["units"]

    def given(name: str) -> float:
        return length(joint.get(name, 0), units)

    tail_board, pin_board = (job["boards"][joint[name]] for name in ("tail_board", "pin_board"))
    width, n, pin = length(tail_board["width"], units), joint.get("tails", 0), given("pin")
    if joint.get("start") == "half-tail":
        # W = n tails + 2 half tails + (n + 1) pins, half tails half as wide as tails.
        tail = (width - (n + 1) * pin) / (n + 1)
        starts = [tail / 2 + pin + i * (tail + pin) for i in range(n)]
        tails = (
            (Side(0, 0), Side(tail / 2, -1)),
            *((Side(x, 1), Side(x + tail, -1)) for x in starts),
            (Side(width - tail / 2, 1), Side(width, 0)),
        )
    elif "spacing" in joint:
        narrow = length(joint["spacing"]["narrow_tail"], units)
        tails = clusters(width, given("half_pin"), pin, narrow, joint["spacing"])
    else:
        near = given("half_pin")
        far = given("half_pin_far") if "half_pin_far" in joint else near
        step = (width - near - far + pin) / n  # tail and pin, as stepped off with dividers
        tails = tuple(
            (Side(near + i * step, 1), Side(near + (i + 1) * step - pin, -1)) for i in range(n)
        )
    return Corner(
        width=width,
        tail_thickness=length(tail_board["thickness"], units),
        pin_thickness=length(pin_board["thickness"], units),
        slope=slope(joint["slope"]),
        tails_proud=given("tails_proud"),
        pins_proud=given("pins_proud"),
        fit=given("fit"),
        paper=0.1,  # printing paper; no job says otherwise
        tails=tails,
    )


def clusters(
    width: float, half_pin: float, pin: float, narrow: float, spacing: Mapping[str, Any]
) -> tuple[tuple[Side, Side], ...]:
    """Pins in clusters with narrow tails between them, and wide tails that share the rest."""
    together, groups = spacing["pins_together"], spacing["groups"]
    pins, narrows = together * groups, (together - 1) * groups
    wide = (width - 2 * half_pin - pins * pin - narrows * narrow) / (groups + 1)
    tails, x = [], half_pin
    for i in range(pins + 1):
        tail = wide if i % together == 0 else narrow
        tails.append((Side(x, 1), Side(x + tail, -1)))
        x += tail + pin
    return tuple(tails)


def tail_wrap(corner: Corner) -> tuple[list[Segment], list[Segment]]:
    """Sawn lines and baselines on the tail board's wrap."""
    thick, deep = corner.tail_thickness, corner.pin_thickness + corner.tails_proud
    far_fold = thick + corner.paper
    saws: list[Segment] = []
    for side in _sides(corner):
        low = side.at + side.lean * deep * corner.slope
        saws.append(((side.at, 0), (low, -deep)))
        saws.append(((side.at, 0), (side.at, thick)))
        saws.append(((side.at, far_fold), (low, far_fold + deep)))
    foot = [
        (left.at + left.lean * deep * corner.slope, right.at + right.lean * deep * corner.slope)
        for left, right in corner.tails
    ]
    rights = [0.0, *(right for _, right in foot)]
    lefts = [*(left for left, _ in foot), corner.width]
    spaces = [(a, b) for a, b in zip(rights, lefts, strict=True) if b - a > 1e-9]
    bases = [((a, t), (b, t)) for a, b in spaces for t in (-deep, far_fold + deep)]
    return saws, bases


def pin_wrap(corner: Corner) -> tuple[list[Segment], list[Segment]]:
    """Sawn lines and baselines on the pin board's wrap: the tails' sockets.

    The tail board's end stands `tails_proud` before the pin board's outside face, so at z
    behind that face a tail's side has leaned for z + tails_proud. The fit is taken square
    to the sloping side; along the board that is fit / cos(angle).
    """
    thick, deep = corner.pin_thickness, corner.tail_thickness + corner.pins_proud
    far_fold = thick + corner.paper
    aside = corner.fit * math.sqrt(1 + corner.slope**2)

    def at(side: Side, z: float) -> float:
        return side.at + side.lean * ((z + corner.tails_proud) * corner.slope - aside)

    saws: list[Segment] = []
    for side in _sides(corner):
        outside, inside = at(side, 0), at(side, thick)
        saws.append(((outside, 0), (outside, -deep)))
        saws.append(((outside, 0), (inside, thick)))
        saws.append(((inside, far_fold), (inside, far_fold + deep)))
    bases = [
        ((at(left, z), t), (at(right, z), t))
        for left, right in corner.tails
        for z, t in ((0, -deep), (thick, far_fold + deep))
    ]
    return saws, bases


def _sides(corner: Corner) -> Iterator[Side]:
    """The sloping sides."""
    return (side for tail in corner.tails for side in tail if side.lean)
