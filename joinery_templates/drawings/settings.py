"""Tool settings: in words, and drawn as the lengths and angles that they are."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec.structs import replace

from joinery_templates.drawings.figure import (
    Figure,
    Pattern,
    Role,
    Stroke,
    box,
    cross,
    joined,
    line,
)
from joinery_templates.drawings.labels import SMALL_CAP, TINY_CAP
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.setup import DrawingSetup
from joinery_templates.exact import degrees_of
from joinery_templates.joint import Joint, LengthSetting, SlopeSetting
from joinery_templates.lengths import Units, both_units, decimal_text

MARGIN = Fraction(5)
CARD = Fraction(110)
"""Width of the card of tool settings, unless a length is longer or the sheet narrower."""
BEVEL_RUN = Fraction(55)
"""How far along the grain a slope is drawn."""


def setting_rows(joint: Joint, units: Units) -> tuple[tuple[str, str], ...]:
    """Tool settings, each a name and a figure."""
    return (
        *(_length_row(setting, units) for setting in joint.lengths),
        *(_slope_row(setting) for setting in joint.slopes),
    )


def size_rows(joint: Joint, units: Units) -> tuple[tuple[str, str], ...]:
    """Sizes, each a name and a figure."""
    return tuple((size.name, both_units(size.length, units)) for size in joint.sizes)


def _length_row(setting: LengthSetting, units: Units) -> tuple[str, str]:
    return f"{setting.tool}, {setting.use}", both_units(setting.length, units)


def _slope_row(setting: SlopeSetting) -> tuple[str, str]:
    angle = f"{degrees_of(setting.slope, Fraction(1)):.2f}°"
    one_in = decimal_text(1 / setting.slope, 2)
    # A ratio that had to be rounded was given as an angle.
    told = f"{angle}, about 1:{one_in[1:]}" if one_in.startswith("≈") else f"1:{one_in} ({angle})"
    return f"bevel, {setting.use}", told


def settings_cards(group: str, title: str, joint: Joint, setup: DrawingSetup) -> Iterator[Pattern]:
    """Cards on which dividers, gauges and the bevel are set directly.

    One card where the sheet takes it, else as many as are needed.

    Args:
        group: what the cards belong to.
        title: on the first card.
        joint: whose tools are set.
        setup: how patterns are drawn.
    """
    sheet, lettering = setup.sheet, setup.lettering
    width = max([min(CARD, *sheet), *(one.length + 4 * MARGIN for one in joint.lengths)])
    room = width - 2 * MARGIN
    parts = [column((Paragraph(title, SMALL_CAP, bold=True),), room, lettering)]
    parts += [_length_part(one, setup, room) for one in joint.lengths]
    parts += [_slope_part(one, room, lettering) for one in joint.slopes]
    cards: list[list[Figure]] = [[]]
    for part in parts:
        if cards[-1] and _height([*cards[-1], part]) > max(sheet):
            cards.append([])
            heading = Paragraph(f"{title}, card {len(cards)}", SMALL_CAP, bold=True)
            cards[-1].append(column((heading,), room, lettering))
        cards[-1].append(part)
    for number, card in enumerate(cards, start=1):
        name = title if number == 1 else f"{title}, card {number}"
        yield Pattern(name, group, (_card(card, width),))


def _height(parts: Sequence[Figure]) -> Fraction:
    return sum((part.height + MARGIN for part in parts), MARGIN)


def _card(parts: Sequence[Figure], width: Fraction) -> Figure:
    height = top = _height(parts)
    placed = []
    for part in parts:
        top -= part.height + MARGIN
        placed.append(part.moved(MARGIN, top + MARGIN / 2))
    frame = Figure(width, height, box(Role.TRIM, 1, 1, width - 1, height - 1))
    return joined(width, height, (frame, *placed))


def _length_part(setting: LengthSetting, setup: DrawingSetup, room: Fraction) -> Figure:
    words = ": ".join(_length_row(setting, setup.units))
    words_above = column((Paragraph(words, SMALL_CAP),), room, setup.lettering)
    y, left = Fraction(3), MARGIN
    right = left + setting.length
    strokes = (
        line(Role.DIMENSION, left, y, right, y),
        line(Role.MARK, left, 0, left, 2 * y),
        line(Role.MARK, right, 0, right, 2 * y),
        *cross(Role.PRICK, (left, y), Fraction(1)),
        *cross(Role.PRICK, (right, y), Fraction(1)),
    )
    above = words_above.moved(Fraction(0), 3 * y)
    height = 3 * y + words_above.height
    return joined(room, height, (Figure(room, height, strokes), above))


def _slope_part(setting: SlopeSetting, room: Fraction, lettering: Lettering) -> Figure:
    hint = "Lay the bevel's stock along the long line and its blade along a sloping line."
    told = Paragraph(": ".join(_slope_row(setting)), SMALL_CAP)
    words = column((told, Paragraph(hint, TINY_CAP)), room, lettering)
    base = Fraction(2)
    above = base + _bevel_run(setting.slope, room) + 3
    drawing = replace(words.moved(Fraction(0), above), height=above + words.height)
    return replace(drawing, strokes=tuple(_bevel_lines(setting.slope, room, base)))


def _bevel_lines(slope: Fraction, room: Fraction, base: Fraction) -> Iterator[Stroke]:
    """A long line, and the slope leaning to either side from a third of it."""
    run = _bevel_run(slope, room)
    yield line(Role.OUTLINE, 0, base, room, base)
    for foot, lean in ((room / 3, -slope), (room * 2 / 3, slope)):
        yield line(Role.MARK, foot, base, foot + lean * run, base + run)
        yield line(Role.GUIDE, foot, base, foot, base + run)


def _bevel_run(slope: Fraction, room: Fraction) -> Fraction:
    """How high a slope is drawn: less where it leans so much that it would leave the card."""
    return min(BEVEL_RUN, room / 3 / slope)
