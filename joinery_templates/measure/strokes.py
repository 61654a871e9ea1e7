"""The straight strokes of every page of a PDF, in millimetres on the paper.

Its drawing operators are followed with a pen. A stroke is what `S s B b b* B*`
paint; a dashed one counts as unbroken. Curves and filled shapes leave nothing.
Windows (`W`, and the box of a form) cut strokes as they cut them on paper.

The frame is the page as it lies in front of the reader: turned by its /Rotate,
larger by its /UserUnit, origin at the lower left corner of the MediaBox.
Grammar: ISO 32000-1, 8.4 to 8.6 and 8.10.
"""

import math
from collections.abc import Callable
from typing import NamedTuple

from joinery_templates.measure import plane
from joinery_templates.measure.allowance import COPY, LINE, NAMED, WORD, Allowance
from joinery_templates.measure.content import Operand, operations
from joinery_templates.measure.document import (
    Document,
    entry,
    guarded,
    listed,
    unpacked,
    unreadable,
)

POINT_MM = 25.4 / 72
_LARGEST_PAGE_MM = 100_000.0
_MOST_SIDES = 32
"""Of all the windows that a line is seen through, those that run alike counted once."""


class PageStrokes(NamedTuple):
    """What is drawn on one page.

    Attributes:
        crop: the CropBox within the MediaBox; what a viewer shows and a printer prints.
        segments: every straight stroked piece, cut to the windows it was drawn through.
        text_seen: whether lettering is shown with a font that is in the file.
        fonts_missing: fonts that lettering asks for and that are not in the file.
    """

    crop: plane.Box
    segments: tuple[plane.Segment, ...]
    text_seen: bool
    fonts_missing: tuple[str, ...] = ()


def page_strokes(document: Document) -> tuple[PageStrokes, ...]:
    """Read all pages.

    Raises:
        InputError: `pdf-unreadable` or `pdf-too-large`.
    """
    with guarded():
        reading = _Reading()
        return tuple(_page(page, reading) for page in document.pages)


def _page(page: object, reading: "_Reading") -> PageStrokes:
    media = _box(entry(page, "/MediaBox"))
    crop = _box(entry(page, "/CropBox")) if entry(page, "/CropBox") else media
    placing = _placing(page, media)
    drawn = reading.drawn(
        entry(page, "/Contents"), entry(page, "/Resources"), _State(placing, plane.EVERYWHERE)
    )
    return PageStrokes(
        plane.box_around(placing.point(*corner) for corner in crop.meet(media).corners),
        tuple(drawn.segments),
        drawn.text_seen,
        tuple(sorted(drawn.fonts_missing)),
    )


def _placing(page: object, media: plane.Box) -> plane.Matrix:
    """The map from the page's own units to mm before the reader."""
    scale = POINT_MM * float(entry(page, "/UserUnit") or 1)
    width, height = (media.x1 - media.x0) * scale, (media.y1 - media.y0) * scale
    if not (0 < width <= _LARGEST_PAGE_MM and 0 < height <= _LARGEST_PAGE_MM):
        raise unreadable("a page has no sensible size")
    flat = plane.Matrix(scale, 0, 0, scale, -media.x0 * scale, -media.y0 * scale)
    turns = {
        0: plane.IDENTITY,
        90: plane.Matrix(0, -1, 1, 0, 0, width),
        180: plane.Matrix(-1, 0, 0, -1, width, height),
        270: plane.Matrix(0, 1, -1, 0, height, 0),
    }
    turn = turns.get(int(entry(page, "/Rotate") or 0) % 360)
    if turn is None:
        raise unreadable("a page is turned by an angle that is not allowed")
    return flat.then(turn)


class _Font(NamedTuple):
    """What a font is called, and whether its letter shapes are in the file."""

    name: str
    usable: bool


class _State(NamedTuple):
    """What `q` saves and `Q` brings back."""

    matrix: plane.Matrix
    window: plane.Window
    font: _Font | None = None


class _Reading:
    """What has been read of one file, so that a form placed on a hundred pages is read once."""

    def __init__(self) -> None:
        self.allowance = Allowance()
        self._forms: dict[tuple[int, int], _Pen] = {}
        self._kept: list[object] = []
        """Keeps alive what is known by its identity."""

    def drawn(self, contents: object, resources: object, state: _State) -> "_Pen":
        """The pen after it has followed a content stream, or several as one."""
        pieces = [unpacked(stream, self.allowance) for stream in listed(contents)]
        pen = _Pen(state, resources, self)
        pen.follow(b"\n".join(pieces))
        return pen

    def form(self, form: object, inherited: object) -> "_Pen":
        """What a form draws, in its own frame."""
        own = entry(form, "/Resources")
        resources = inherited if own is None else own
        key = (id(form), id(resources))
        if key not in self._forms:
            self._kept += [form, resources]
            window = plane.EVERYWHERE.narrowed(_box(entry(form, "/BBox")).corners)
            self._forms[key] = self.drawn(form, resources, _State(plane.IDENTITY, window))
        return self._forms[key]


class _Pen:
    """The pen on its way through one stream, and what it has left on the paper.

    Attributes:
        segments: straight pieces, in the frame the stream is placed in.
        text_seen: whether lettering is shown with a font that is all there.
        fonts_missing: names of fonts that lettering asks for and that are not in the file.
    """

    def __init__(self, state: _State, resources: object, reading: _Reading) -> None:
        self.segments: list[plane.Segment] = []
        self.text_seen = False
        self.fonts_missing: set[str] = set()
        self._state = state
        self._saved: list[_State] = []
        self._resources = resources
        self._reading = reading
        self._clear_path()

    def follow(self, data: bytes) -> None:
        for operator, operands in operations(data, self._reading.allowance):
            if operator in _DRAWING:
                count, draw = _DRAWING[operator]
                draw(self, *operands[len(operands) - count :] if count else ())
            elif operator == b"Do":
                self._place(operands[-1])
            elif operator == b"Tf":
                self._take_font(operands[-2])

    def _clear_path(self) -> None:
        self._path: list[plane.Segment] = []
        self._visited: list[plane.Point] = []
        self._start: plane.Point | None = None
        self._here: plane.Point | None = None
        self._cuts_window = False

    def save(self) -> None:
        self._saved.append(self._state)

    def restore(self) -> None:
        if self._saved:
            self._state = self._saved.pop()

    def concatenate(self, *numbers: float) -> None:
        matrix = plane.Matrix(*numbers).then(self._state.matrix)
        self._state = self._state._replace(matrix=matrix)

    def move(self, x: float, y: float) -> None:
        self._start = self._here = self._visit(x, y)

    def line(self, x: float, y: float) -> None:
        if self._here is None:
            raise unreadable("a line in it starts nowhere")
        end = self._visit(x, y)
        self._path.append(plane.Segment(*self._here, *end))
        self._here = end

    def curve(self, *numbers: float) -> None:
        for place in range(0, len(numbers), 2):
            self._here = self._visit(numbers[place], numbers[place + 1])

    def rectangle(self, x: float, y: float, wide: float, high: float) -> None:
        self._reading.allowance.spend(4, WORD)
        self.move(x, y)
        self.line(x + wide, y)
        self.line(x + wide, y + high)
        self.line(x, y + high)
        self.close()

    def close(self) -> None:
        if self._start is not None and self._here is not None and self._start != self._here:
            self._path.append(plane.Segment(*self._here, *self._start))
        self._here = self._start

    def stroke(self) -> None:
        for piece in self._path:
            self._keep(self._state.window.cut(piece))
        self.end_path()

    def close_and_stroke(self) -> None:
        self.close()
        self.stroke()

    def cut_window(self) -> None:
        self._cuts_window = True

    def end_path(self) -> None:
        if self._cuts_window and self._visited:
            # Three lines leave no room for a curve among four corners.
            is_straight = len(self._path) > 2
            outline = self._visited if is_straight else plane.box_around(self._visited).corners
            window = self._state.window.narrowed(outline)
            if len(window.sides) > _MOST_SIDES:
                raise unreadable("it is seen through windows without end")
            self._state = self._state._replace(window=window)
        self._clear_path()

    def show_text(self) -> None:
        font = self._state.font
        if font is not None and not font.usable:
            self.fonts_missing.add(font.name)
        self.text_seen |= font is not None and font.usable

    def _place(self, name: Operand) -> None:
        """Draw a form of that name; an image, or one that is not there, leaves nothing."""
        form = entry(entry(self._resources, "/XObject"), f"/{name}")
        if entry(form, "/Subtype") != "/Form":
            return
        drawn = self._reading.form(form, self._resources)
        own = entry(form, "/Matrix")
        placing = plane.IDENTITY if own is None else plane.Matrix(*map(float, listed(own)))
        placed = placing.then(self._state.matrix)
        self._reading.allowance.spend(1, NAMED)
        self._reading.allowance.spend(len(drawn.segments), COPY)
        window = self._state.window.before(placed)
        for piece in drawn.segments:
            seen = window.cut(piece)
            if seen is not None:
                self._keep(placed.segment(seen))
        self.text_seen |= drawn.text_seen
        self.fonts_missing |= drawn.fonts_missing

    def _take_font(self, name: Operand) -> None:
        self._reading.allowance.spend(1, NAMED)
        font = entry(entry(self._resources, "/Font"), f"/{name}")
        shown = str(entry(font, "/BaseFont") or f"/{name}").lstrip("/")
        self._state = self._state._replace(font=_Font(shown[:80], _has_shapes(font)))

    def _visit(self, x: float, y: float) -> plane.Point:
        point = self._state.matrix.point(x, y)
        self._visited.append(point)
        return point

    def _keep(self, piece: plane.Segment | None) -> None:
        if piece is not None:
            if not math.isfinite(sum(piece)):
                raise unreadable("a coordinate in it is too large")
            self._reading.allowance.spend(1, LINE)
            self.segments.append(piece)


_DRAWING: dict[bytes, tuple[int, Callable[..., None]]] = {
    b"q": (0, _Pen.save),
    b"Q": (0, _Pen.restore),
    b"cm": (6, _Pen.concatenate),
    b"m": (2, _Pen.move),
    b"l": (2, _Pen.line),
    b"c": (6, _Pen.curve),
    **dict.fromkeys((b"v", b"y"), (4, _Pen.curve)),
    b"re": (4, _Pen.rectangle),
    b"h": (0, _Pen.close),
    **dict.fromkeys((b"S", b"B", b"B*"), (0, _Pen.stroke)),
    **dict.fromkeys((b"s", b"b", b"b*"), (0, _Pen.close_and_stroke)),
    **dict.fromkeys((b"f", b"F", b"f*", b"n"), (0, _Pen.end_path)),
    **dict.fromkeys((b"W", b"W*"), (0, _Pen.cut_window)),
    **dict.fromkeys((b"Tj", b"TJ", b"'", b'"'), (0, _Pen.show_text)),
}
"""How many numbers an operator takes, and what it has the pen do."""


def _has_shapes(font: object) -> bool:
    if entry(font, "/Subtype") == "/Type3":
        return bool(entry(font, "/CharProcs"))
    (font, *_) = listed(entry(font, "/DescendantFonts")) or [font]
    descriptor = entry(font, "/FontDescriptor")
    programs = (entry(descriptor, key) for key in ("/FontFile", "/FontFile2", "/FontFile3"))
    return any(hasattr(program, "get_data") for program in programs)


def _box(value: object) -> plane.Box:
    x0, y0, x1, y1 = map(float, listed(value))
    return plane.box_around(((x0, y0), (x1, y1)))
