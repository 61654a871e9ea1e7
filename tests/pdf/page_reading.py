"""Strokes and words of a PDF's pages in millimetres, read by pdfminer.six alone.

It shares nothing with the rooms that draw. What one `Do` operator places is kept
together as a placement, and each stroke and word remembers the clip that it is seen
through, so that a test can ask for what is drawn or for what is seen.
"""

import io
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from pdfminer.converter import PDFPageAggregator
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.utils import apply_matrix_pt

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


@dataclass(frozen=True, slots=True)
class Line:
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


@dataclass(frozen=True, slots=True)
class Words:
    """Letters that follow each other on one line: text, start, box, degrees of turn."""

    text: str
    at: Place
    end: Place
    box: Rectangle
    turn: int
    size_pt: float
    font: str
    clip: Rectangle | None


@dataclass(slots=True)
class Placement:
    """All that stands on a page through one transformation."""

    matrix: tuple[float, ...]
    lines: list[Line] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    forms: list[str] = field(default_factory=list)

    def drawn_with(self, pen: tuple[float, tuple[float, ...]]) -> list[Line]:
        return [line for line in self.lines if line.pen == pen]

    def saying(self, part: str) -> list[Words]:
        return [words for words in self.words if part in words.text]


@dataclass(slots=True)
class PageRead:
    """A page: its size in points and what was placed on it, in drawing order."""

    width_pt: float
    height_pt: float
    placements: list[Placement] = field(default_factory=list)

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
        assert not device.letters, "all words stand in forms"
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
    listed = list(points)
    xs, ys = [x for x, _ in listed], [y for _, y in listed]
    return min(xs), min(ys), max(xs), max(ys)


class _Interpreter(PDFPageInterpreter):
    """Follows the clip, which pdfminer leaves aside."""

    device: "_Device"

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
        form = (self.xobjmap[xobjid.name].objid, tuple(self.ctm), before)
        if form not in device.read:
            lines, words = len(placement.lines), len(placement.words)
            super().do_Do(xobjid)
            device.finish()
            device.read[form] = (placement.lines[lines:], placement.words[words:])
        else:
            placement.lines += device.read[form][0]
            placement.words += device.read[form][1]
        device.clip = before


class _Device(PDFPageAggregator):
    """Keeps strokes and letters in the order in which they are painted."""

    page: PageRead
    clip: Rectangle | None = None

    def __init__(self, resources: PDFResourceManager) -> None:
        super().__init__(resources, laparams=None)
        self.letters: list[tuple[Any, Rectangle | None]] = []
        self.read: dict[object, tuple[list[Line], list[Words]]] = {}

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

    def render_char(self, *arguments: Any) -> float:
        advance: float = super().render_char(*arguments)
        self.letters.append((self.cur_item._objs[-1], self.clip))
        return advance

    def finish(self) -> None:
        """Join the letters of a form into words."""
        run: list[Any] = []
        clip: Rectangle | None = None
        for letter, seen_through in self.letters:
            if run and not (_follows(run[-1], letter) and clip == seen_through):
                self.page.placements[-1].words.append(_words(run, clip))
                run = []
            run.append(letter)
            clip = seen_through
        if run:
            self.page.placements[-1].words.append(_words(run, clip))
        self.letters = []


def _is_hatch(start: Place, end: Place) -> bool:
    """Whether a line rises 1 in 2, on a sheet that lies either way."""
    across, up = sorted(abs(b - a) for a, b in zip(start, end, strict=True))
    return abs(up - 2 * across) < 0.01 * up


def _end(letter: Any) -> Place:
    return apply_matrix_pt(letter.matrix, (letter.adv, 0))


def _follows(before: Any, after: Any) -> bool:
    x, y = _end(before)
    same_way = before.matrix[:4] == after.matrix[:4] and before.fontname == after.fontname
    near = abs(after.matrix[4] - x) < 0.05 and abs(after.matrix[5] - y) < 0.05
    return same_way and near


def _words(run: list[Any], clip: Rectangle | None) -> Words:
    first, last = run[0], run[-1]
    a, b = first.matrix[:2]
    turn = {(1, 0): 0, (0, 1): 90, (-1, 0): 180, (0, -1): 270}[(round(a), round(b))]
    corners = [corner for letter in run for corner in (letter.bbox[:2], letter.bbox[2:])]
    x, y = _end(last)
    return Words(
        text="".join(letter.get_text() for letter in run),
        at=(first.matrix[4] * MM, first.matrix[5] * MM),
        end=(x * MM, y * MM),
        box=box_of((cx * MM, cy * MM) for cx, cy in corners),
        turn=turn,
        size_pt=first.height if turn in (0, 180) else first.width,
        font=first.fontname,
        clip=clip,
    )
