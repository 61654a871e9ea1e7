"""Whether the person's chisels, saw and gauge suit a layout, whatever the joint.

A joint states its `Clearing`s; here they are matched with the tools. A chisel that is to
clear a space must pass its narrowest place, so that it fits from either side and does not
bruise the corners. Where both sides are sawn and lie parallel it is narrower than what the saw
leaves, or it stands on both cuts (common practice, no source).
"""

from collections.abc import Iterator

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.errors import COMMON, Finding, advice
from joinery_templates.exact import Fraction, ceil, floor
from joinery_templates.joint import Clearing, Joint, LengthSetting, SlopeSetting
from joinery_templates.joints.gauge import GAUGE, nearest_setting
from joinery_templates.joints.tools import Tools, nearest_size
from joinery_templates.joints.words import slope_text
from joinery_templates.lengths import INCH, Units, length_text

DIVIDERS = "dividers"
"""The tool that walks, as `LengthSetting.tool` names it."""
BIT = "bit"
"""What bores, likewise: its diameter."""


RULE = (
    "Between parallel sides that are sawn the chisel is a little narrower than what two saw cuts "
    "leave; between sloping ones it may be as wide as the narrowest place."
)
"""Told below the table."""
THINNEST_CUT = Fraction(1, 2)
"""What a saw takes at least, where nobody says what it takes (our judgement)."""
NO_CHISEL = "no chisel of yours"
FRET_SAW = "no chisel: a fret saw"


class SpaceSort(Struct, frozen=True):
    """Spaces that are called the same and that the same chisel clears.

    Attributes:
        what: which spaces.
        narrowest: the narrowest place of the narrowest of them.
        widest: the narrowest place of the widest of them.
        chisel: the widest one owned that clears all of them; None where none does.
        parameter: what of the joint widens them.
        is_parallel: whether its sides are sawn, and parallel.
    """

    what: str
    narrowest: Fraction
    widest: Fraction
    chisel: Fraction | None
    parameter: str
    is_parallel: bool


def chisel_for(
    clearing: Clearing, chisels: tuple[Fraction, ...], kerf: Fraction | None = None
) -> Fraction | None:
    """The widest chisel that clears a space at its narrowest place; None where none does.

    Between parallel sawn sides one that stands on a saw cut is taken only where all do.
    """
    passing = [one for one in chisels if one <= clearing.narrowest]
    left = _between_cuts(clearing.narrowest, kerf)
    narrower = [one for one in passing if one < left or not clearing.is_parallel]
    return max(narrower or passing, default=None)


def space_sorts(
    clearings: tuple[Clearing, ...], chisels: tuple[Fraction, ...], kerf: Fraction | None = None
) -> tuple[SpaceSort, ...]:
    """The sorts of spaces, in the order in which the joint states them; the narrowest first."""
    alike: dict[tuple[str, Fraction | None], list[Clearing]] = {}
    for clearing in clearings:
        alike.setdefault((clearing.what, chisel_for(clearing, chisels, kerf)), []).append(clearing)
    names = [what for what, _ in alike]
    found = []
    for what, chisel in sorted(alike, key=lambda sort: (names.index(sort[0]), sort[1] or 0)):
        spaces = alike[what, chisel]
        widths = [space.narrowest for space in spaces]
        first = spaces[0]
        found.append(
            SpaceSort(what, min(widths), max(widths), chisel, first.parameter, first.is_parallel)
        )
    return tuple(found)


def with_tool_advice(joint: Joint, tools: Tools, units: Units) -> Joint:
    """The joint, with advice where the person's tools do not suit it."""
    told = (
        *_on_chisels(joint.clearings, tools, units),
        *_on_kerf(joint.clearings, tools, units),
        *_on_gauge(joint.lengths, tools, units),
        *_on_markers(joint.slopes, tools),
        *_on_dividers(joint.lengths, tools, units),
        *_on_bits(joint.lengths, tools, units),
    )
    return replace(joint, findings=(*joint.findings, *told)) if told else joint


def _tightest_sawn(clearings: tuple[Clearing, ...]) -> Clearing | None:
    sawn = (clearing for clearing in clearings if clearing.sawn)
    return min(sawn, key=lambda one: one.narrowest, default=None)


def tool_table(joint: Joint, tools: Tools, units: Units) -> tuple[str, tuple[tuple[str, str], ...]]:
    """Which chisel clears what, and what the saw leaves: a heading, and names with figures.

    Where the person told no chisels, the widest that passes.
    """
    owned = ", ".join(length_text(one, units) for one in tools.chisels)
    heading = f"Widest chisel for each space{'' if owned else ', or your next narrower one'}"
    rows = tuple(
        _chisel_row(sort, tools, units)
        for sort in space_sorts(joint.clearings, tools.chisels, tools.kerf)
    )
    if owned and rows:
        rows = (*rows, ("chosen from those that the job names", owned))
    tight = _tightest_sawn(joint.clearings)
    if tight is None or tools.kerf is None:
        return heading, rows
    cut, left = length_text(tools.kerf, units), tight.narrowest - 2 * tools.kerf
    cuts = f"{tight.what}: waste left at the narrowest by two saw cuts of {cut}"
    saw = (cuts, length_text(left, units) if left > 0 else "nothing: they meet")
    return heading, (*rows, saw)


def _chisel_row(sort: SpaceSort, tools: Tools, units: Units) -> tuple[str, str]:
    low, high = length_text(sort.narrowest, units), length_text(sort.widest, units)
    widths = low if low == high else f"{low} to {high}"
    if tools.chisels:
        chisel = f"chisel of {length_text(sort.chisel, units)}" if sort.chisel else NO_CHISEL
    else:
        widest = _buyable(sort, tools, units)
        chisel = f"chisel of {length_text(widest, units)} at most" if widest else FRET_SAW
    return f"{sort.what}, {widths} at the narrowest", chisel


def _on_chisels(clearings: tuple[Clearing, ...], tools: Tools, units: Units) -> Iterator[Finding]:
    accepted = tools.smallest_pin
    for sort in space_sorts(clearings, tools.chisels, tools.kerf) if tools.chisels else ():
        if sort.chisel is not None or (accepted is not None and sort.narrowest >= accepted):
            continue
        least, wanted = min(tools.chisels), _buyable(sort, tools, units)
        narrower = f"use a chisel of {length_text(wanted, units)}, " if wanted else ""
        yield advice(
            "no-chisel-fits",
            f"None of your chisels clears this: {sort.what}, {length_text(sort.narrowest, units)} "
            f"at its narrowest; your narrowest is {length_text(least, units)}.",
            COMMON,
            f"Make it {length_text(least, units)} wide there, {narrower}or clear the waste with "
            "a fret saw.",
            sort.parameter,
        )


def _buyable(sort: SpaceSort, tools: Tools, units: Units) -> Fraction:
    """The widest chisel in whole millimetres or sixteenths of an inch that passes; 0 if none."""
    grid = Fraction(1) if units is Units.MM else INCH / 16
    if not sort.is_parallel:
        return floor(sort.narrowest / grid) * grid
    left = _between_cuts(sort.narrowest, tools.kerf)
    return max(ceil(left / grid) - 1, 0) * grid


def _between_cuts(width: Fraction, kerf: Fraction | None) -> Fraction:
    """What two saw cuts leave of a width, or at most leave."""
    return width - 2 * (THINNEST_CUT if kerf is None else kerf)


def _on_kerf(clearings: tuple[Clearing, ...], tools: Tools, units: Units) -> Iterator[Finding]:
    """The narrowest space against two saw cuts: a needle pin may be cut, but not by surprise."""
    kerf = tools.kerf
    tight = _tightest_sawn(clearings)
    if kerf is None or tight is None or tight.narrowest >= 2 * kerf:
        return
    shown, cut = length_text(tight.narrowest, units), length_text(kerf, units)
    if tight.narrowest < kerf:
        yield advice(
            "space-below-kerf",
            f"Your saw cut of {cut} is wider than this: {tight.what}, {shown} at its narrowest.",
            COMMON,
            "The saw would take wood that is to stay: make it wider, or use a thinner saw.",
            tight.parameter,
        )
        return
    yield advice(
        "space-below-two-cuts",
        f"Two saw cuts of {cut} run into each other in this: {tight.what}, {shown} at its "
        "narrowest.",
        COMMON,
        "Saw beside one line and pare to the middle of the other, or make it at least "
        f"{length_text(2 * kerf, units)} wide there.",
        tight.parameter,
    )


def _on_gauge(lengths: tuple[LengthSetting, ...], tools: Tools, units: Units) -> Iterator[Finding]:
    step = tools.gauge
    if step is None:
        return
    wanted = dict.fromkeys(one.length for one in lengths if one.tool == GAUGE)
    odd = [length for length in wanted if length % step]
    if not odd:
        return
    nearest = [length_text(nearest_setting(length, step), units) for length in odd]
    each = ", ".join(
        f"{length_text(length, units)} (nearest {setting})"
        for length, setting in zip(odd, nearest, strict=True)
    )
    yield advice(
        "gauge-between-steps",
        f"Your gauge moves in steps of {length_text(step, units)} and has no setting for {each}.",
        COMMON,
        "Set it by the printed tool settings or by the wood itself, or change the joint so that "
        "the figure comes out whole.",
    )


def _on_markers(slopes: tuple[SlopeSetting, ...], tools: Tools) -> Iterator[Finding]:
    wanted = dict.fromkeys(one.slope for one in slopes if one.parameter)
    for slope in (slope for slope in wanted if tools.slopes and slope not in tools.slopes):
        yield advice(
            "no-such-marker",
            f"None of your markers has this slope: {slope_text(slope)}.",
            COMMON,
            "Set a bevel by the printed tool settings, or give "
            f"{slope_text(tools.nearest_slope(slope))}, which you have.",
            "slope",
        )


def _on_dividers(
    lengths: tuple[LengthSetting, ...], tools: Tools, units: Units
) -> Iterator[Finding]:
    widest = max((one.length for one in lengths if one.tool == DIVIDERS), default=Fraction(0))
    if tools.dividers is not None and widest > tools.dividers:
        yield advice(
            "dividers-too-small",
            f"Your dividers open to {length_text(tools.dividers, units)}, and a step is "
            f"{length_text(widest, units)}.",
            COMMON,
            "Set out by the strip or a rule.",
        )


def _on_bits(lengths: tuple[LengthSetting, ...], tools: Tools, units: Units) -> Iterator[Finding]:
    for bit in dict.fromkeys(one.length for one in lengths if one.tool == BIT):
        nearest = nearest_size(tools.bits, bit)
        if nearest is not None and nearest != bit:
            yield advice(
                "no-such-bit",
                f"None of your bits bores a hole of {length_text(bit, units)}.",
                COMMON,
                f"Your nearest is {length_text(nearest, units)}: change the hole to suit it.",
            )
