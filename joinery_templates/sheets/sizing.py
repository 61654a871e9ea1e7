"""The sizing sheet: a board's thickness and width are read off paper, without a caliper.

Thickness is read between two lines that converge, as on a taper gauge: where both arrises
of the board's end meet the lines. Width is read on a diagonal scale, where the board's
second edge crosses a slanting line. Half pins are judged by eye against drawn ones.
"""

from collections.abc import Iterator

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Role, Stroke, Text, line, prick_point
from joinery_templates.drawings.lettering import Lettering, Paragraph, column
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.exact import Fraction, as_float, floor
from joinery_templates.lengths import INCH, Units, inch_text
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.packing import Piece, pack
from joinery_templates.sheets.page import Booklet, Window, whole

TITLE = "Sizing sheet"
IN_UNITS = {Units.MM: "in millimetres", Units.INCH: "in inches"}
GAP = Fraction(6)
LONG = Fraction(5)
"""The longest graduation."""
LANE = Fraction(5, 2)
HALF_PIN_DEPTH = Fraction(12)
HALF_PIN_SLOPE = Fraction(1, 7)


class Scale(Struct, frozen=True):
    """How sizes are read in one kind of units; lengths in mm.

    Attributes:
        units: of the figures.
        taper: how much wider the gap grows for each mm along it.
        step: what the board's thickness grows by from one graduation to the next.
        figured: how many graduations from one figure to the next.
        middle: every so many graduations one is longer.
        thinnest, thickest: the boards that it serves.
        cell: what the diagonal scale divides.
        parts: into how many.
        half_pins: those that are drawn.
    """

    units: Units
    taper: Fraction
    step: Fraction
    figured: int
    middle: int
    thinnest: Fraction
    thickest: Fraction
    cell: Fraction
    parts: int
    half_pins: tuple[Fraction, ...]

    @property
    def pitch(self) -> Fraction:
        """From one graduation of the taper to the next."""
        return self.step / self.taper

    def figure(self, length: Fraction) -> str:
        """A size without its unit."""
        if self.units is Units.MM:
            return str(as_float(length)).removesuffix(".0")
        return inch_text(length).removesuffix(" in")


SCALES = {
    Units.MM: Scale(
        Units.MM,
        Fraction(1, 10),
        Fraction(1, 10),
        10,
        5,
        Fraction(3),
        Fraction(60),
        Fraction(1),
        10,
        tuple(map(Fraction, range(3, 16))),
    ),
    Units.INCH: Scale(
        Units.INCH,
        Fraction(1, 6),
        INCH / 128,
        8,
        4,
        INCH / 8,
        INCH * 19 / 8,
        INCH / 16,
        8,
        tuple(INCH * n / 16 for n in range(2, 11)),
    ),
}


class Taper(Struct, frozen=True):
    """A pair of converging lines: the gap is `low` at the foot and grows upwards to `high`."""

    scale: Scale
    low: Fraction
    high: Fraction

    @property
    def height(self) -> Fraction:
        """From foot to top."""
        return (self.high - self.low) / self.scale.taper

    def drawn(self, lettering: Lettering) -> Figure:
        """The lines with their graduations outside, and figures to the right."""
        scale, steps = self.scale, int((self.high - self.low) / self.scale.step)
        words = [
            scale.figure(self.low + n * scale.step) for n in range(0, steps + 1, scale.figured)
        ]
        room = max(lettering.width(word, BODY) for word in words)
        width = LONG + self.high + LONG + 1 + room
        middle, top = LONG + self.high / 2, self.height

        def sides(gap: Fraction) -> tuple[Fraction, Fraction]:
            return middle - gap / 2, middle + gap / 2

        (left, right), (far_left, far_right) = sides(self.low), sides(self.high)
        strokes = [
            line(Role.MARK, left, 0, far_left, top),
            line(Role.MARK, right, 0, far_right, top),
        ]
        texts = []
        for number in range(steps + 1):
            gap, y = self.low + number * scale.step, number * scale.pitch
            left, right = sides(gap)
            long = LONG if number % scale.figured == 0 else LONG / 2
            long = long if number % scale.middle == 0 else LONG / 4
            strokes.append(line(Role.TICK, left - long, y, left, y))
            strokes.append(line(Role.TICK, right, y, right + long, y))
            if number % scale.figured == 0:
                strokes.append(line(Role.TICK, left, y, right, y))
                at = (right + long + 1, y - BODY / 2)
                texts.append(Text(words[number // scale.figured], at, BODY))
        return Figure(width, top, tuple(strokes), tuple(texts))


def sizing_booklet(frame: Frame, units: Units, lettering: Lettering) -> Booklet:
    """The pages of the sizing sheet.

    Raises:
        InputError: `page-too-small`.
    """
    frame.check_size()
    area = frame.area
    laid = list(_stations(SCALES[units], area.width, area.height, lettering))
    spots = pack(
        [[Piece(f.width, f.height) for f in one] for one in laid], (area.width, area.height), GAP
    )
    pages: dict[int, list[Window]] = {}
    for figures, places in zip(laid, spots, strict=True):
        for figure, spot in zip(figures, places, strict=True):
            at = (area.left + spot.x, area.top - spot.y - figure.height)
            pages.setdefault(spot.page, []).append(whole(figure, at))
    block = frame.title_block(TITLE, len(pages), lettering)
    return frame.booklet(block, TITLE, IN_UNITS[units], tuple(pages.values())).marked()


def _stations(
    scale: Scale, width: Fraction, height: Fraction, lettering: Lettering
) -> Iterator[tuple[Figure, ...]]:
    """What is read one after the other, each with the words that say how."""

    def words(heading: str, *rows: str, room: Fraction = width) -> Figure:
        paragraphs = [Paragraph(heading, HEADING, bold=True, after=Fraction(1))]
        paragraphs += [Paragraph(row, BODY, after=Fraction(1)) for row in rows]
        return column(paragraphs, room, lettering)

    fine = "0.1 mm" if scale.units is Units.MM else "1/128 in"
    told = words(
        "Thickness: slide the board between two lines",
        "First lay a steel rule on both rulers of this sheet: on a sheet that was scaled, "
        "everything reads wrong. Fasten the sheet to something flat.",
        "Stand the board on its edge where two lines stand wide apart, with its end towards their "
        "narrow end. Slide it down until both arrises of its end stand on the middle of the "
        f"lines, and read there: each graduation is {fine}. Do the same on the board's other "
        "edge. If the two differ, plane the board to one thickness, or lay out by the thicker.",
        f"With care you come within {fine} (our judgement). Try it first on a chisel or a "
        "drill whose width you know.",
    )
    yield told, *(taper.drawn(lettering) for taper in tapers(scale, height - told.height - GAP))
    told = words(
        "Width: read it at the second edge",
        "Lay the board flat, its first edge along the heavy line at the foot, the scale showing "
        "beside it. The figure on the right gives the last whole graduation below the second "
        "edge. Follow that edge to where it crosses a slanting line: the upright line nearest to "
        f"that crossing tells how many times {fine} to add. Wider boards need a rule.",
    )
    beside = words(
        "Half pins, by eye",
        "Each is drawn on the edge of a board, narrow side up. Hold your board's end against "
        "them, and choose. Its width is that of the narrow side: set your dividers from ring to "
        "ring.",
        room=Fraction(60),
    )
    room = height - told.height - GAP
    scaled = diagonal_scale(scale, room - 1 - BODY, lettering)
    yield told, scaled, half_pins(scale, room, lettering), beside


def tapers(scale: Scale, height: Fraction) -> Iterator[Taper]:
    """The pairs of lines that serve all boards, none higher than there is room.

    Each goes from one figured size to another, so that no reading falls between two.
    """
    whole = scale.step * scale.figured
    span = floor(height * scale.taper / whole) * whole
    low = scale.thinnest
    while low < scale.thickest:
        yield Taper(scale, low, min(low + span, scale.thickest))
        low += span


def diagonal_scale(scale: Scale, length: Fraction, lettering: Lettering) -> Figure:
    """An upright scale that divides each of its cells by slanting lines.

    The first edge of the board lies along the foot. Where its second edge crosses a slanting
    line, the upright line that is met there gives the parts.
    """
    cells = floor(length / scale.cell)
    right = scale.parts * LANE
    top = cells * scale.cell
    strokes = [line(Role.TICK, n * LANE, 0, n * LANE, top) for n in range(scale.parts + 1)]
    strokes.append(line(Role.MARK, -LONG, 0, right + LONG, 0))
    strokes += [
        line(Role.TICK, 0, n * scale.cell, right, (n + 1) * scale.cell) for n in range(cells)
    ]
    texts = [
        Text(str(n), (n * LANE, top + 1), BODY, Align.CENTRE) for n in range(0, scale.parts + 1, 2)
    ]
    figured = 10 if scale.units is Units.MM else 8
    for number in range(0, cells + 1, figured):
        y = number * scale.cell
        strokes.append(line(Role.DIMENSION, right, y, right + LONG, y))
        words = scale.figure(y) if number else "0"
        texts.append(Text(words, (right + LONG + 1, y - BODY / 2), BODY))
    widest = max(lettering.width(text.words, BODY) for text in texts)
    drawn = Figure(right + 2 * LONG + 1 + widest, top + 1 + BODY, tuple(strokes), tuple(texts))
    return drawn.moved(LONG, Fraction(0))


def half_pins(scale: Scale, height: Fraction, lettering: Lettering) -> Figure:
    """Half pins of the usual widths on an edge of a board, each with two points for dividers."""
    pitch = height / len(scale.half_pins)
    strokes: list[Stroke] = []
    texts = []
    reach = scale.half_pins[-1] + HALF_PIN_SLOPE * HALF_PIN_DEPTH
    for number, width in enumerate(scale.half_pins):
        low = number * pitch
        deep = low + min(HALF_PIN_DEPTH, pitch * 3 / 4)
        strokes += [
            line(Role.OUTLINE, 0, low, 0, deep),
            line(Role.OUTLINE, 0, deep, width, deep),
            line(Role.SAW, width, deep, width + (deep - low) * HALF_PIN_SLOPE, low),
            *prick_point((Fraction(0), deep), Fraction(1)),
            *prick_point((width, deep), Fraction(1)),
        ]
        at = (reach + 2, (low + deep - BODY) / 2)
        texts.append(Text(f"{scale.figure(width)} {scale.units}", at, BODY))
    widest = max(lettering.width(text.words, BODY) for text in texts)
    return Figure(reach + 2 + widest, height, tuple(strokes), tuple(texts))
