"""The straight strokes of every page of a PDF, in millimetres on the paper.

The frame is the page as it lies in front of the reader: turned by its /Rotate,
larger by its /UserUnit, origin at the lower left corner of the MediaBox.
"""

import math
from dataclasses import dataclass

from joinery_templates.measure.allowance import Allowance
from joinery_templates.measure.document import (
    Document,
    entry,
    guarded,
    resolved,
    unpacked,
    unreadable,
)
from joinery_templates.measure.plane import EVERYWHERE, IDENTITY, Box, Matrix, Segment
from joinery_templates.measure.tracing import Drawn, Font, trace

__all__ = ["Box", "PageStrokes", "Segment", "page_strokes"]

POINT_MM = 25.4 / 72
_DEEPEST = 12
_LARGEST_PAGE_MM = 100_000.0


@dataclass(frozen=True, slots=True)
class PageStrokes:
    """What is drawn on one page.

    Attributes:
        width: of the MediaBox, as the page lies before the reader.
        height: of the same.
        crop: the CropBox within it; what a viewer shows and a printer prints.
        segments: every straight stroked piece, cut to the windows it was drawn through.
        text_seen: whether lettering is shown with a font that is in the file.
        fonts_missing: fonts that lettering asks for and that are not in the file.
    """

    width: float
    height: float
    crop: Box
    segments: tuple[Segment, ...]
    text_seen: bool
    fonts_missing: tuple[str, ...] = ()


def page_strokes(document: Document) -> tuple[PageStrokes, ...]:
    """Read all pages.

    Raises:
        InputError: `pdf-unreadable` or `pdf-too-large`.
    """
    with guarded():
        shelf = _Shelf(Allowance())
        return tuple(_page(page, shelf) for page in document.pages)


def _page(page: object, shelf: "_Shelf") -> PageStrokes:
    media = _box(entry(page, "/MediaBox"))
    crop = _box(entry(page, "/CropBox")) if entry(page, "/CropBox") else media
    placing, width, height = _placing(page, media)
    data = shelf.content(entry(page, "/Contents"))
    resources = _Named(entry(page, "/Resources"), shelf, depth=0)
    drawn = trace(data, placing, EVERYWHERE, resources, shelf.allowance)
    return PageStrokes(
        width,
        height,
        placing.box(crop.meet(media)),
        drawn.segments,
        drawn.text_seen,
        tuple(sorted(drawn.fonts_missing)),
    )


def _placing(page: object, media: Box) -> tuple[Matrix, float, float]:
    """The map from the page's own units to mm before the reader, and the page's size there."""
    scale = POINT_MM * _number(entry(page, "/UserUnit") or 1)
    width, height = (media.x1 - media.x0) * scale, (media.y1 - media.y0) * scale
    if not (0 < width <= _LARGEST_PAGE_MM and 0 < height <= _LARGEST_PAGE_MM):
        raise unreadable("a page has no sensible size")
    flat = Matrix(scale, 0, 0, scale, -media.x0 * scale, -media.y0 * scale)
    match _number(entry(page, "/Rotate") or 0) % 360:
        case 0:
            return flat, width, height
        case 90:
            return flat.then(Matrix(0, -1, 1, 0, 0, width)), height, width
        case 180:
            return flat.then(Matrix(-1, 0, 0, -1, width, height)), width, height
        case 270:
            return flat.then(Matrix(0, 1, -1, 0, height, 0)), height, width
    raise unreadable("a page is turned by an angle that is not allowed")


class _Shelf:
    """What has been read of one file, so that a form placed on a hundred pages is read once."""

    def __init__(self, allowance: Allowance) -> None:
        self.allowance = allowance
        self._drawn: dict[tuple[int, int], Drawn] = {}
        self._fonts: dict[int, Font] = {}
        self._kept: list[object] = []

    def content(self, contents: object) -> bytes:
        """A content stream, or several as one, unpacked."""
        pieces = contents if isinstance(contents, list) else [contents]
        streams = (stream for stream in map(resolved, pieces) if stream is not None)
        return b"\n".join(unpacked(stream, self.allowance) for stream in streams)

    def form(self, form: object, inherited: object, depth: int) -> Drawn:
        """What a form draws, in its own frame."""
        if depth > _DEEPEST:
            raise unreadable("drawings stand in drawings without end")
        own = entry(form, "/Resources")
        resources = inherited if own is None else own
        key = (id(form), id(resources))
        if key not in self._drawn:
            self._kept += [form, resources]
            self._drawn[key] = trace(
                self.content(form),
                IDENTITY,
                _box(entry(form, "/BBox")),
                _Named(resources, self, depth),
                self.allowance,
            )
        return self._drawn[key]

    def font(self, name: str, font: object) -> Font:
        """A font, and whether its letter shapes are in the file."""
        if id(font) not in self._fonts:
            self._kept.append(font)
            shown = str(entry(font, "/BaseFont") or f"/{name}").lstrip("/")
            self._fonts[id(font)] = Font(shown[:80], _has_shapes(font))
        return self._fonts[id(font)]


@dataclass(frozen=True, slots=True)
class _Named:
    """The resources of one content stream."""

    resources: object
    shelf: _Shelf
    depth: int

    def form(self, name: str) -> tuple[Drawn, Matrix] | None:
        """The form of that name; None where it is an image, or not there."""
        form = entry(entry(self.resources, "/XObject"), f"/{name}")
        if form is None or entry(form, "/Subtype") != "/Form":
            return None
        drawn = self.shelf.form(form, self.resources, self.depth + 1)
        matrix = entry(form, "/Matrix")
        return drawn, IDENTITY if matrix is None else Matrix(*_numbers(matrix, 6))

    def font(self, name: str) -> Font:
        """The font of that name."""
        font = entry(entry(self.resources, "/Font"), f"/{name}")
        return Font(name, usable=False) if font is None else self.shelf.font(name, font)


def _has_shapes(font: object) -> bool:
    if entry(font, "/Subtype") == "/Type3":
        return bool(entry(font, "/CharProcs"))
    descendants = entry(font, "/DescendantFonts")
    if isinstance(descendants, list) and descendants:
        font = resolved(descendants[0])
    descriptor = entry(font, "/FontDescriptor")
    programs = (entry(descriptor, key) for key in ("/FontFile", "/FontFile2", "/FontFile3"))
    return any(hasattr(program, "get_data") for program in programs)


def _box(value: object) -> Box:
    x0, y0, x1, y1 = _numbers(value, 4)
    return Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _numbers(value: object, count: int) -> list[float]:
    if not isinstance(value, list) or len(value) != count:
        raise unreadable("a box or a matrix in it is damaged")
    return [_number(resolved(one)) for one in value]


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise unreadable("a number in it is damaged")
    return float(value)
