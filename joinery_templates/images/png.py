"""A figure as a PNG picture for a screen."""

import io
import math
from collections.abc import Iterator

from PIL import Image, ImageDraw, ImageFont

from joinery_templates.drawings.figure import Align, Figure, Stroke, Text
from joinery_templates.drawings.look import PENS
from joinery_templates.exact import as_float
from joinery_templates.pdf.fonts import BOLD, CAP_HEIGHT, REGULAR, font_file

DOTS_PER_MM = 6
"""About 150 to the inch."""
FINER = 3
"""Drawn so many times as large and made smaller, so that lines are smooth."""
MOST_ACROSS = 2000
"""A wider picture is drawn smaller."""
ANCHORS = {Align.LEFT: "ls", Align.CENTRE: "ms", Align.RIGHT: "rs"}


def png(figure: Figure) -> bytes:
    """The picture, in black on white."""
    scale = min(DOTS_PER_MM, MOST_ACROSS / as_float(max(figure.width, figure.height))) * FINER
    size = tuple(math.ceil(as_float(length) * scale) for length in (figure.width, figure.height))
    image = Image.new("L", (size[0], size[1]), 255)
    draw = ImageDraw.Draw(image)
    for stroke in figure.strokes:
        width = max(1, round(PENS[stroke.role].width * scale))
        for start, end in _dashes(stroke):
            points = [(x * scale, size[1] - y * scale) for x, y in (start, end)]
            draw.line(points, fill=0, width=width)
    for text in figure.texts:
        _write(draw, text, scale, size[1])
    small = image.resize((max(1, size[0] // FINER), max(1, size[1] // FINER)), Image.Resampling.BOX)
    file = io.BytesIO()
    small.save(file, "PNG")
    return file.getvalue()


def _dashes(stroke: Stroke) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    (x, y), (x1, y1) = (tuple(map(as_float, point)) for point in (stroke.start, stroke.end))
    dash, length = PENS[stroke.role].dash, math.hypot(x1 - x, y1 - y)
    if not dash or not length:
        yield (x, y), (x1, y1)
        return

    def at(along: float) -> tuple[float, float]:
        share = min(along, length) / length
        return x + share * (x1 - x), y + share * (y1 - y)

    along, number = 0.0, 0
    while along < length:
        step = dash[number % len(dash)]
        if number % 2 == 0:
            yield at(along), at(along + step)
        along, number = along + step, number + 1


def _write(draw: ImageDraw.ImageDraw, text: Text, scale: float, height: int) -> None:
    """Words that stand upright: those of the pictures made here do."""
    size = as_float(text.cap * 1000 / CAP_HEIGHT) * scale
    font = ImageFont.truetype(str(font_file(BOLD if text.bold else REGULAR)), size)
    at = (as_float(text.at[0]) * scale, height - as_float(text.at[1]) * scale)
    draw.text(at, text.words, fill=0, font=font, anchor=ANCHORS[text.align])
