"""Drawing operators followed with a pen: which straight strokes come out, and where.

A stroke is what `S s B b b* B*` paint; a dashed one counts as unbroken. Curves
and filled shapes leave nothing. Windows (`W`, and the box of a form) cut strokes
as they cut them on paper; a window that has not four corners counts as the upright
box around it. Grammar: ISO 32000-1, 8.4 to 8.6 and 8.10.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Protocol

from joinery_templates.measure.allowance import Allowance
from joinery_templates.measure.content import Operand, operations
from joinery_templates.measure.document import unreadable
from joinery_templates.measure.plane import (
    Box,
    Leaning,
    Matrix,
    Segment,
    box_around,
    leaning_window,
)

_MOST_SAVED = 1_000
_LONGEST_PATH = 200_000
_FORM_COST = 20
_COPY_COST = 8
_RECTANGLE_COST = 4
_MOST_LEANING = 4
"""Of leaning windows within each other the innermost are kept."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """What one content stream leaves on the paper.

    Attributes:
        segments: straight pieces, in the frame the stream is placed in.
        text_seen: whether lettering is shown with a font that is all there.
        fonts_missing: names of fonts that lettering asks for and that are not in the file.
    """

    segments: tuple[Segment, ...]
    text_seen: bool = False
    fonts_missing: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Font:
    """A font as a page names it, and whether its letter shapes are in the file."""

    name: str
    usable: bool


class Resources(Protocol):
    """What a content stream can name."""

    def form(self, name: str) -> tuple[Drawn, Matrix] | None:
        """A drawing used by name, in its own frame, with the map that places it."""

    def font(self, name: str) -> Font:
        """A font used by name."""


@dataclass(frozen=True, slots=True)
class _State:
    """What `q` saves and `Q` brings back."""

    matrix: Matrix
    window: Box
    leaning: tuple[Leaning, ...] = ()
    font: Font | None = None


def trace(
    data: bytes, start: Matrix, window: Box, resources: Resources, allowance: Allowance
) -> Drawn:
    """Follow a content stream.

    Args:
        data: the stream, unpacked.
        start: from the stream's frame to the frame of the answer.
        window: what can be seen at all, in the frame of the answer.
        resources: what the stream can name.
        allowance: paid for every operator and every piece kept.

    Raises:
        InputError: `pdf-unreadable` or `pdf-too-large`.
    """
    pen = _Pen(_State(start, window), resources, allowance)
    for operator, operands in operations(data, allowance):
        action = _ACTIONS.get(operator)
        if action is not None:
            action(pen, operands)
    return Drawn(tuple(pen.kept), pen.text_seen, frozenset(pen.fonts_missing))


class _Pen:
    """The pen on its way through one stream."""

    def __init__(self, state: _State, resources: Resources, allowance: Allowance) -> None:
        self.state = state
        self.saved: list[_State] = []
        self.resources = resources
        self.allowance = allowance
        self.kept: list[Segment] = []
        self.text_seen = False
        self.fonts_missing: set[str] = set()
        self._clear_path()

    def _clear_path(self) -> None:
        self.path: list[Segment] = []
        self.visited: list[tuple[float, float]] = []
        self.start: tuple[float, float] | None = None
        self.here: tuple[float, float] | None = None
        self.cuts_window = False

    def save(self, _: list[Operand]) -> None:
        if len(self.saved) >= _MOST_SAVED:
            raise unreadable("its drawing state is saved without end")
        self.saved.append(self.state)

    def restore(self, _: list[Operand]) -> None:
        if self.saved:
            self.state = self.saved.pop()

    def concatenate(self, operands: list[Operand]) -> None:
        matrix = Matrix(*_numbers(operands, 6)).then(self.state.matrix)
        self.state = replace(self.state, matrix=matrix)

    def move(self, operands: list[Operand]) -> None:
        self.start = self.here = self._visit(*_numbers(operands, 2))

    def line(self, operands: list[Operand]) -> None:
        end = self._visit(*_numbers(operands, 2))
        if self.here is None:
            raise unreadable("a line in it starts nowhere")
        self.path.append(Segment(*self.here, *end))
        self.here = end

    def curve(self, operands: list[Operand]) -> None:
        values = _numbers(operands, 4 if len(operands) < 6 else 6)
        for place in range(0, len(values), 2):
            self.here = self._visit(values[place], values[place + 1])

    def rectangle(self, operands: list[Operand]) -> None:
        x, y, wide, high = _numbers(operands, 4)
        self.allowance.spend(_RECTANGLE_COST)
        corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
        a, b, c, d = (self._visit(*corner) for corner in corners)
        self.path += [Segment(*a, *b), Segment(*b, *c), Segment(*c, *d), Segment(*d, *a)]
        self.start = self.here = a

    def close(self, _: list[Operand]) -> None:
        if self.start is not None and self.here is not None and self.start != self.here:
            self.path.append(Segment(*self.here, *self.start))
        self.here = self.start

    def stroke(self, _: list[Operand]) -> None:
        self._keep(self.path)
        self.end_path(_)

    def close_and_stroke(self, _: list[Operand]) -> None:
        self.close(_)
        self.stroke(_)

    def cut_window(self, _: list[Operand]) -> None:
        self.cuts_window = True

    def end_path(self, _: list[Operand]) -> None:
        if self.cuts_window and self.visited:
            window = self.state.window.meet(box_around(self.visited))
            # Three lines leave no room for a curve among four corners.
            found = leaning_window(self.visited) if len(self.path) > 2 else None
            leaning = (*self.state.leaning, *([found] if found else []))[-_MOST_LEANING:]
            self.state = replace(self.state, window=window, leaning=leaning)
        self._clear_path()

    def use_form(self, operands: list[Operand]) -> None:
        found = self.resources.form(_name(operands))
        if found is None:
            return
        drawn, placing = found
        placed = placing.then(self.state.matrix)
        near = placed.back(self.state.window).near(drawn.segments)
        self.allowance.spend(_FORM_COST + len(drawn.segments) // 4 + _COPY_COST * len(near))
        self._keep([placed.segment(piece) for piece in near])
        self.text_seen |= drawn.text_seen
        self.fonts_missing |= drawn.fonts_missing

    def set_font(self, operands: list[Operand]) -> None:
        font = self.resources.font(_name(operands[:1]))
        self.state = replace(self.state, font=font)

    def show_text(self, _: list[Operand]) -> None:
        font = self.state.font
        if font is None or font.usable:
            self.text_seen |= font is not None
        else:
            self.fonts_missing.add(font.name)

    def _visit(self, x: float, y: float) -> tuple[float, float]:
        point = self.state.matrix.point(x, y)
        self.visited.append(point)
        if len(self.visited) > _LONGEST_PATH:
            raise unreadable("a line in it goes on without end")
        return point

    def _keep(self, path: list[Segment]) -> None:
        window, leaning = self.state.window, self.state.leaning
        for piece in path:
            if not math.isfinite(sum(piece)):
                raise unreadable("a coordinate in it is too large")
            seen = window.cut(piece)
            for shape in leaning:
                seen = shape.cut(seen) if seen is not None else None
            if seen is not None:
                self.allowance.spend_segments()
                self.kept.append(seen)


def _numbers(operands: list[Operand], count: int) -> list[float]:
    """The last `count` operands, which must be finite numbers."""
    values = [value for value in operands[-count:] if isinstance(value, float)]
    if len(values) != count:
        raise unreadable("a drawing operator in it lacks its numbers")
    if not math.isfinite(sum(values)):
        raise unreadable("a coordinate in it is too large")
    return values


def _name(operands: list[Operand]) -> str:
    name = operands[-1] if operands else None
    if not isinstance(name, str):
        raise unreadable("a drawing operator in it lacks a name")
    return name


_ACTIONS: dict[bytes, Callable[[_Pen, list[Operand]], None]] = {
    b"q": _Pen.save,
    b"Q": _Pen.restore,
    b"cm": _Pen.concatenate,
    b"m": _Pen.move,
    b"l": _Pen.line,
    b"c": _Pen.curve,
    b"v": _Pen.curve,
    b"y": _Pen.curve,
    b"re": _Pen.rectangle,
    b"h": _Pen.close,
    b"S": _Pen.stroke,
    b"s": _Pen.close_and_stroke,
    b"B": _Pen.stroke,
    b"B*": _Pen.stroke,
    b"b": _Pen.close_and_stroke,
    b"b*": _Pen.close_and_stroke,
    b"f": _Pen.end_path,
    b"F": _Pen.end_path,
    b"f*": _Pen.end_path,
    b"n": _Pen.end_path,
    b"W": _Pen.cut_window,
    b"W*": _Pen.cut_window,
    b"Do": _Pen.use_form,
    b"Tf": _Pen.set_font,
    b"Tj": _Pen.show_text,
    b"TJ": _Pen.show_text,
    b"'": _Pen.show_text,
    b'"': _Pen.show_text,
}
