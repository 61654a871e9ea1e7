"""A figure as an SVG picture, in its true size."""

from xml.sax.saxutils import escape

from joinery_templates.drawings.figure import Align, Figure, Stroke, Text
from joinery_templates.drawings.look import PENS
from joinery_templates.exact import Fraction, as_float
from joinery_templates.pdf.fonts import CAP_HEIGHT

ANCHORS = {Align.LEFT: "start", Align.CENTRE: "middle", Align.RIGHT: "end"}


def svg(figure: Figure) -> bytes:
    """The picture: one unit is a millimetre."""
    width, height = as_float(figure.width), as_float(figure.height)
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.2f}mm" height="{height:.2f}mm" '
        f'viewBox="0 0 {width:.2f} {height:.2f}" font-family="DejaVu Sans Condensed, sans-serif">'
    )
    ground = f'<rect width="{width:.2f}" height="{height:.2f}" fill="white"/>'
    lines = (_line(stroke, figure.height) for stroke in figure.strokes)
    words = (_words(text, figure.height) for text in figure.texts)
    return "\n".join([head, ground, *lines, *words, "</svg>\n"]).encode()


def _line(stroke: Stroke, height: Fraction) -> str:
    (x, y), (x1, y1) = stroke.start, stroke.end
    pen = PENS[stroke.role]
    dash = f' stroke-dasharray="{" ".join(map(str, pen.dash))}"' if pen.dash else ""
    return (
        f'<line x1="{as_float(x):.4f}" y1="{as_float(height - y):.4f}" x2="{as_float(x1):.4f}" '
        f'y2="{as_float(height - y1):.4f}" stroke="black" stroke-width="{pen.width}"{dash}/>'
    )


def _words(text: Text, height: Fraction) -> str:
    x, y = as_float(text.at[0]), as_float(height - text.at[1])
    size = as_float(text.cap * 1000 / CAP_HEIGHT)
    bold = ' font-weight="bold"' if text.bold else ""
    turn = f' transform="rotate({-text.turn} {x:.3f} {y:.3f})"' if text.turn else ""
    return (
        f'<text x="{x:.3f}" y="{y:.3f}" font-size="{size:.3f}" '
        f'text-anchor="{ANCHORS[text.align]}"{bold}{turn}>{escape(text.words)}</text>'
    )
