"""Strokes and words of a PDF's pages in millimetres, read by pdfminer.six and pikepdf.

It shares nothing with the rooms that draw. What one `Do` operator places is kept
together as a placement, and each stroke and word remembers the clip that it is seen
through, so that a test can ask for what is drawn or for what is seen. pikepdf parts the
operators, several times as fast as pdfminer, which says what they do and knows the fonts.
"""

import io
from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import cache
from typing import Any

import pikepdf
from msgspec import Struct
from pdfminer.pdfdevice import PDFTextDevice
from pdfminer.pdffont import PDFFont
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.pdftypes import stream_value
from pdfminer.psparser import LIT
from pdfminer.utils import apply_matrix_pt, translate_matrix

MM = 25.4 / 72
Rectangle = tuple[float, float, float, float]
Place = tuple[float, float]

# Pen width and dash pattern of each kind of line, in mm, as the legend explains them.
SAW = (0.35, ())  # and setting-out mark, hole
KNIFE = (0.7, ())
THIN = (0.18, ())  # whatever only explains: edge of the board, prick point, graduation, frame
GUIDE = (0.18, (3.0, 1.5))
FOLD = (0.18, (5.0, 1.2, 0.6, 1.2))
TRIM = (0.18, (1.2, 1.2))
OPEN_HATCH = (0.18, (2.16, 3.24))
SEAM = (0.18, (6.0, 1.2, 0.6, 1.2, 0.6, 1.2))
HATCH = (0.18, ("1 in 2",))  # thin as well; known by the way in which it alone runs


class Line(Struct, frozen=True):
    """A straight stroke: its ends and pen in mm, and the clip rectangle or None."""

    start: Place
    end: Place
    pen: tuple[float, tuple[float, ...]]
    clip: Rectangle | None

    @property
    def length(self) -> float:
        return ((self.end[0] - self.start[0]) ** 2 + (self.end[1] - self.start[1]) ** 2) ** 0.5

    @property
    def box(self) -> Rectangle:
        (x0, y0), (x1, y1) = self.start, self.end
        return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


class Words(Struct, frozen=True):
    """Letters that follow each other on one line: text, start, box, degrees of turn, drawing."""

    text: str
    at: Place
    end: Place
    box: Rectangle
    turn: int
    size_pt: float
    font: str
    clip: Rectangle | None
    form: str


class Placement(Struct):
    """All that stands on a page through one transformation."""

    matrix: tuple[float, ...]
    lines: list[Line] = []
    words: list[Words] = []
    forms: list[str] = []

    def drawn_with(self, pen: tuple[float, tuple[float, ...]]) -> list[Line]:
        return [line for line in self.lines if line.pen == pen]

    def saying(self, part: str) -> list[Words]:
        return [words for words in self.words if part in words.text]


class PageRead(Struct):
    """A page: its size in points and what was placed on it, in drawing order."""

    width_pt: float
    height_pt: float
    placements: list[Placement] = []

    @property
    def lines(self) -> list[Line]:
        return [line for placement in self.placements for line in placement.lines]

    @property
    def words(self) -> list[Words]:
        return [words for placement in self.placements for words in placement.words]


def read_pages(content: bytes, most: int = 0) -> list[PageRead]:
    """Every page of a PDF, or the first so many."""
    resources = PDFResourceManager()
    device = _Device(resources)
    interpreter = _Interpreter(resources, device)
    pages = []
    for page in PDFPage.get_pages(io.BytesIO(content), maxpages=most):
        left, bottom, right, top = page.mediabox
        assert (left, bottom) == (0, 0)
        device.page = PageRead(right, top)
        device.clip = None
        interpreter.process_page(page)
        assert not device.strings, "all words stand in forms"
        pages.append(device.page)
    return pages


def meeting(one: Rectangle, other: Rectangle | None) -> Rectangle | None:
    """The common part of two rectangles; None where there is none. No clip clips nothing."""
    if other is None:
        return one
    low_x, low_y = max(one[0], other[0]), max(one[1], other[1])
    high_x, high_y = min(one[2], other[2]), min(one[3], other[3])
    return (low_x, low_y, high_x, high_y) if low_x <= high_x and low_y <= high_y else None


def clipped(start: Place, end: Place, clip: Rectangle | None) -> tuple[Place, Place] | None:
    """The part of a line inside a rectangle (Liang and Barsky's rule, from memory)."""
    if clip is None:
        return start, end
    low, high = 0.0, 1.0
    for axis in (0, 1):
        run = end[axis] - start[axis]
        for bound, sign in ((clip[axis], -1.0), (clip[axis + 2], 1.0)):
            room = sign * (bound - start[axis])
            if abs(run) < 1e-9:
                if room < 0:
                    return None
            elif sign * run > 0:
                high = min(high, room / (sign * run))
            else:
                low = max(low, room / (sign * run))
    if low > high:
        return None

    def at(share: float) -> Place:
        return (
            start[0] + share * (end[0] - start[0]),
            start[1] + share * (end[1] - start[1]),
        )

    return at(low), at(high)


def box_of(points: Iterable[Place]) -> Rectangle:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


_BLANK = pikepdf.new()


def _plain(operand: Any) -> Any:
    """An operand as pdfminer has it."""
    if type(operand) in (Decimal, int):  # most are; to ask of pikepdf's own types takes longer
        return float(operand)
    if isinstance(operand, pikepdf.Name):
        return LIT(str(operand)[1:])
    if isinstance(operand, pikepdf.String):
        return bytes(operand)
    assert isinstance(operand, pikepdf.Array)
    return [_plain(part) for part in operand]


@cache
def _method(operator: str) -> str:
    return "do_" + operator.replace("*", "_a").replace('"', "_w").replace("'", "_q")


class _Interpreter(PDFPageInterpreter):
    """Follows the clip, which pdfminer leaves aside."""

    device: "_Device"

    def execute(self, streams: Sequence[object]) -> None:
        content = b"\n".join(stream_value(stream).get_data() for stream in streams)
        if content not in self.device.parted:  # what stands on several pages is parted once
            self.device.parted[content] = [
                (_method(str(operator)), [*map(_plain, operands)])
                for operands, operator in pikepdf.parse_content_stream(
                    pikepdf.Stream(_BLANK, content)
                )
            ]
        for method, operands in self.device.parted[content]:
            getattr(self, method)(*operands)

    def init_state(self, ctm: Any) -> None:
        super().init_state(ctm)
        self.clips: list[Rectangle | None] = []
        self.next_clip: Rectangle | None = None

    def do_q(self) -> None:
        super().do_q()
        self.clips.append(self.device.clip)

    def do_Q(self) -> None:  # noqa: N802
        super().do_Q()
        self.device.clip = self.clips.pop()

    def do_W(self) -> None:  # noqa: N802
        super().do_W()
        self.note_clip()

    def do_W_a(self) -> None:  # noqa: N802
        super().do_W_a()
        self.note_clip()

    def note_clip(self) -> None:
        points = [step[1:] for step in self.curpath if step[0] in "ml"]
        assert len(points) == 4, "a clip is a rectangle"
        corners = [apply_matrix_pt(self.ctm, point) for point in points]
        self.next_clip = box_of((x * MM, y * MM) for x, y in corners)

    def do_n(self) -> None:
        super().do_n()
        if self.next_clip:
            self.device.clip = meeting(self.next_clip, self.device.clip)
            self.next_clip = None

    def do_Do(self, xobjid: Any) -> None:  # noqa: N802
        """Draw a form; one that was drawn before in the same place is not read anew."""
        device, before = self.device, self.device.clip
        placement = device.place(tuple(self.ctm), xobjid.name)
        drawing = stream_value(self.xobjmap[xobjid.name])
        form = (drawing.objid, tuple(self.ctm), before)
        if form not in device.read:
            lines, words = len(placement.lines), len(placement.words)
            left, low, right, high = drawing["BBox"]
            corners = (apply_matrix_pt(self.ctm, at) for at in ((left, low), (right, high)))
            device.box = box_of((x * MM, y * MM) for x, y in corners)
            super().do_Do(xobjid)
            device.finish(xobjid.name)
            device.read[form] = (placement.lines[lines:], placement.words[words:])
        else:
            placement.lines += device.read[form][0]
            placement.words += device.read[form][1]
        device.clip = before


class _String(Struct, frozen=True):
    """What one operator writes, as it stands on the page in points."""

    text: str
    matrix: tuple[float, ...]
    font: str
    letter: float
    advance: float
    low: float
    high: float
    clip: Rectangle | None

    @property
    def end(self) -> Place:
        return apply_matrix_pt(self.matrix, (self.advance, 0))

    def box(self, advance: float) -> Rectangle:
        reach = ((0, self.low), (0, self.high), (advance, self.low), (advance, self.high))
        return box_of(apply_matrix_pt(self.matrix, corner) for corner in reach)

    def goes_on(self, after: "_String") -> bool:
        """Whether another begins where this one ends, in the same line and type."""
        x, y = self.end
        same_way = self.matrix[:4] == after.matrix[:4] and self.font == after.font
        near = abs(after.matrix[4] - x) < 0.05 and abs(after.matrix[5] - y) < 0.05
        return same_way and near and self.clip == after.clip


class _Device(PDFTextDevice):
    """Keeps strokes and strings in the order in which they are painted."""

    page: PageRead
    clip: Rectangle | None = None
    box: Rectangle
    """Of the form that is drawn: none of its words are seen outside it."""

    def __init__(self, resources: PDFResourceManager) -> None:
        super().__init__(resources)
        self.strings: list[_String] = []
        self.read: dict[object, tuple[list[Line], list[Words]]] = {}
        self.parted: dict[bytes, list[tuple[str, list[Any]]]] = {}

    def place(self, matrix: tuple[float, ...], form: str) -> Placement:
        """Where what a form draws is kept."""
        placements = self.page.placements
        if not placements or placements[-1].matrix != matrix:
            placements.append(Placement(matrix))
        placements[-1].forms.append(form)
        return placements[-1]

    def paint_path(self, gstate: Any, stroke: bool, fill: bool, evenodd: bool, path: Any) -> None:
        if not stroke:
            return
        dash, _ = gstate.dash or ((), 0)
        pen = (
            round(gstate.linewidth * MM, 4),
            tuple(round(float(part) * MM, 3) for part in dash),
        )
        last: Place | None = None
        for step in path:
            assert step[0] in "ml", "only straight strokes are drawn"
            x, y = apply_matrix_pt(self.ctm, step[1:])
            here = (x * MM, y * MM)
            if step[0] == "l":
                assert last is not None
                known = HATCH if pen == THIN and _is_hatch(last, here) else pen
                self.page.placements[-1].lines.append(Line(last, here, known, self.clip))
            last = here

    def render_string_horizontal(
        self, seq: Any, matrix: Any, pos: Place, font: PDFFont, fontsize: float, *rest: Any
    ) -> Place:
        scaling, charspace, wordspace, rise, *_ = rest
        assert (scaling, charspace, wordspace, rise) == (1, 0, 0, 0), "plain type"
        x, y = pos
        for written in seq:
            letters = list(font.decode(written))
            advances = [font.char_width(letter) * fontsize for letter in letters]
            low = font.get_descent() * fontsize
            self.strings.append(
                _String(
                    "".join(map(font.to_unichr, letters)),
                    translate_matrix(matrix, (x, y)),
                    font.fontname,
                    advances[0],
                    sum(advances),
                    low,
                    low + fontsize,
                    meeting(self.box, self.clip) or (0, 0, 0, 0),
                )
            )
            x += sum(advances)
        return x, y

    def finish(self, form: str) -> None:
        """Join the strings of a form into words."""
        run: list[_String] = []
        for string in self.strings:
            if run and not run[-1].goes_on(string):
                self.page.placements[-1].words.append(_words(run, form))
                run = []
            run.append(string)
        if run:
            self.page.placements[-1].words.append(_words(run, form))
        self.strings = []


def _is_hatch(start: Place, end: Place) -> bool:
    """Whether a line rises 1 in 2, on a sheet that lies either way."""
    across, up = sorted(abs(b - a) for a, b in zip(start, end, strict=True))
    return abs(up - 2 * across) < 0.01 * up


def _words(run: list[_String], form: str) -> Words:
    first = run[0]
    a, b, _, _, x, y = first.matrix
    turn = {(1, 0): 0, (0, 1): 90, (-1, 0): 180, (0, -1): 270}[(round(a), round(b))]
    boxes = [string.box(string.advance) for string in run]
    box = box_of(corner for one in boxes for corner in (one[:2], one[2:]))
    letter, axis = first.box(first.letter), 1 if turn in (0, 180) else 0
    end_x, end_y = run[-1].end
    return Words(
        text="".join(string.text for string in run),
        at=(x * MM, y * MM),
        end=(end_x * MM, end_y * MM),
        box=(box[0] * MM, box[1] * MM, box[2] * MM, box[3] * MM),
        turn=turn,
        size_pt=letter[axis + 2] - letter[axis],
        font=first.font,
        clip=first.clip,
        form=form,
    )
