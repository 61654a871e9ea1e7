"""What must hold on every page, told as a list of faults: empty where all is well."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import chain

import numpy as np

from tests.pdf.page_reading import (
    HATCH,
    OPEN_HATCH,
    SEAM,
    THIN,
    Line,
    PageRead,
    Placement,
    Rectangle,
    Words,
    box_of,
    clipped,
    meeting,
)

NEAR = 0.001
SLACK = 0.15
"""Letters keep at least about this from the sides of their box, in mm."""
DESCENT, HEIGHT = 0.236, 0.729
"""In the size of the letters (DejaVu's tables): how far some hang down, and capitals' height."""
HANGING = frozenset("gjpqyQçşţµ,;()[]{}|/@_✂◄►▲▼")
READABLE_FROM = 17.0
GRADUATION = 4.0
"""Length of the longest graduation."""
MM_IN_POINTS = 25.4 / 72
PENS_BESIDE_WORK = (HATCH, OPEN_HATCH, SEAM)
"""Waste, and what belongs to the taping itself."""
EDGE = 12.0
"""A thin line that is longer is an edge of the board, and no waste cross and no match mark."""

Seen = tuple[object, Rectangle]


def faults(pages: list[PageRead], title: str, margin: float = 10.0) -> list[str]:
    """Every fault on every page of one file; one of the first says what the rulers must read."""
    told, stated = [], " ".join(map(words_of, pages))
    for number, page in enumerate(pages, start=1):
        for fault in page_faults(page, number, len(pages), title, margin, stated):
            told.append(f"page {number}: {fault}")
    return told


def page_faults(
    page: PageRead, number: int, total: int, title: str, margin: float, stated: str
) -> Iterator[str]:
    yield from collisions(page)
    yield from taping_faults(page)
    yield from outside(page, margin)
    yield from ruler_faults(page, stated)
    yield from furniture_faults(page, number, total, title)


def collisions(page: PageRead) -> Iterator[str]:
    """Words on words, and words on strokes.

    Hatching only shows waste, and may pass below.
    """
    seen = sorted(
        ((words.text, box) for words in page.words if (box := shown(words))),
        key=lambda one: one[1],
    )
    for index, (text, box) in enumerate(seen):
        for other_text, other in seen[index + 1 :]:
            if other[0] >= box[2]:
                break
            common = meeting(box, other)
            if common and common[2] - common[0] > 0 and common[3] - common[1] > 0:
                yield f"{text!r} stands on {other_text!r} at {told(common)}"
    strokes = [line for line in page.lines if line.pen not in (HATCH, OPEN_HATCH)]
    x0, y0, x1, y1 = np.array([line.box for line in strokes]).reshape(-1, 4).T
    for text, box in seen:
        left, low, right, high = box
        near = (x0 <= right) & (left <= x1) & (y0 <= high) & (low <= y1)
        for line in (strokes[number] for number in np.flatnonzero(near)):
            part = seen_part(line)
            if part and clipped(*part, box):
                yield f"{text!r} stands on a line {line.pen} at {told(box)}"
                break


def taping_faults(page: PageRead) -> Iterator[str]:
    """Words and match marks of which a sheet shows only a part; marks on lines."""
    for words in page.words:
        box, seen = ink(words), shown(words)
        if seen and any(abs(one - other) > SLACK for one, other in zip(box, seen, strict=True)):
            yield f"{words.text!r} is cut at {told(seen)}"
    worked_to = [
        (line.pen, part, box_of(part))
        for line in page.lines
        if line.pen not in PENS_BESIDE_WORK and (line.pen != THIN or line.length > EDGE)
        if (part := seen_part(line))
    ]
    for placement in page.placements:
        for mark in match_marks(placement):
            seen = meeting(mark, placement.lines[0].clip)
            if seen is None or seen[0] >= seen[2] or seen[1] >= seen[3]:
                continue
            if any(abs(one - other) > NEAR for one, other in zip(mark, seen, strict=True)):
                yield f"a match mark is cut at {told(seen)}"
            for pen, part, box in worked_to:
                if meeting(box, mark) and clipped(*part, mark):
                    yield f"a match mark stands on a line {pen} at {told(mark)}"


def out_of_sight(pages: Sequence[PageRead]) -> Iterator[str]:
    """Words that stand past the sides of the title block, and of a drawing what no sheet shows."""
    seen: dict[tuple[str, int], bool] = {}
    told_of: dict[tuple[str, int], str] = {}
    for page in pages:
        left, low, right, _ = box_of(
            end for line in page.placements[0].lines for end in (line.start, line.end)
        )
        room = (left, low, right, page.height_pt * MM_IN_POINTS)
        for placement in page.placements:
            count = Counter[str]()
            for words in placement.words:
                one = words.form, count[words.form]
                count[words.form] += 1
                told_of[one] = words.text
                box = shown(words)
                seen[one] = seen.get(one, False) or box is not None
                if box and meeting(box, room) != box:
                    yield f"{words.text!r} stands in the margin at {told(box)}"
    yield from (f"{told_of[one]!r} is on no sheet" for one, is_seen in seen.items() if not is_seen)


def match_marks(placement: Placement) -> Iterator[Rectangle]:
    """What the arms of each match mark reach: one level and one upright, 5 mm long."""
    arms = [line.box for line in placement.drawn_with(THIN) if abs(line.length - 5) < NEAR]
    level, upright = (
        [box for box in arms if box[3 - axis] - box[1 - axis] < NEAR] for axis in (0, 1)
    )
    for left, low, right, _ in level:
        for x, down, _, up in upright:
            if abs((left + right) / 2 - x) < NEAR and abs((down + up) / 2 - low) < NEAR:
                yield left, down, right, up


def outside(page: PageRead, margin: float) -> Iterator[str]:
    """Words below 17 mm, anything in the margins, patterns or words over the rulers."""
    width, height = page.width_pt * MM_IN_POINTS, page.height_pt * MM_IN_POINTS
    room = (margin - NEAR, margin - NEAR, width - margin + NEAR, height - margin + NEAR)
    for words in page.words:
        if (box := shown(words)) and box[1] < READABLE_FROM:
            yield f"{words.text!r} stands {box[1]:.2f} mm above the lower edge"
    placed = [list(everything(placement)) for placement in page.placements]
    for what, box in chain(*placed):
        if box[0] < room[0] or box[1] < room[1] or box[2] > room[2] or box[3] > room[3]:
            yield f"{what!r} stands in the margin at {told(box)}"
    zero = zero_of(page)
    for what, box in chain(*placed[1:]):
        if box[0] < zero[0] + GRADUATION or box[1] < zero[1] + GRADUATION:
            yield f"{what!r} stands on a ruler at {told(box)}"


def words_of(page: PageRead) -> str:
    return " ".join(one.text for one in page.words)


def ruler_faults(page: PageRead, words: str) -> Iterator[str]:
    """Two rulers at right angles, as long as the first page's words say, and graduated so."""
    across, along = rulers(page)
    if across.start != along.start or across.start[1] != across.end[1]:
        yield "the rulers do not meet at their zeros"
    stated = re.findall(r"(\d+) (mm|in) across and (\d+) (?:mm|in) along", words)
    zeros = across.start
    figures = ruler_figures(page, zeros)
    if not stated or any(len(row) < 2 for row in figures.values()):
        yield "the rulers' lengths are not stated"
        return
    ends = {scale: max(row) for scale, row in figures.items()}
    for (turn, unit), row in figures.items():
        zero = zeros[0 if turn == 0 else 1]
        for number, (start, end) in row.items():
            place = zero + number * (25.4 if unit == "in" else 1)
            if not start - NEAR < place < end + NEAR:
                yield f"the figure {number} {unit} stands beside another graduation"
    for first, unit, second in stated:
        if (float(first), float(second)) != (ends[0, unit], ends[90, unit]):
            yield "the rulers' lengths are stated otherwise at their ends"
    ticks = page.placements[0].drawn_with(THIN)
    for ruler, axis, turn in ((across, 0, 0), (along, 1, 90)):
        zero = ruler.start[axis]
        millimetres, inches = ends[turn, "mm"], ends[turn, "in"]
        longest = max(millimetres, inches * 25.4)
        if abs(ruler.length - longest) > NEAR:
            yield f"a ruler is {ruler.length:.3f} mm long and should be {longest}"
        square = [
            t
            for t in ticks
            if abs(t.start[axis] - t.end[axis]) < NEAR
            and abs(t.start[1 - axis] - ruler.start[1 - axis]) < NEAR
        ]
        inner = {
            round(t.start[axis] - zero, 3) for t in square if t.end[1 - axis] > t.start[1 - axis]
        }
        outer = {
            round(t.start[axis] - zero, 3) for t in square if t.end[1 - axis] < t.start[1 - axis]
        }
        wanted = {float(n) for n in range(int(millimetres) + 1)}
        if inner != wanted:
            yield f"millimetre graduations differ: {sorted(inner ^ wanted)[:5]}"
        wanted = {round(n * 25.4 / 16, 3) for n in range(int(inches) * 16 + 1)}
        if len(outer) != len(wanted) or any(
            abs(a - b) > 0.0015 for a, b in zip(sorted(outer), sorted(wanted), strict=True)
        ):
            yield "inch graduations differ"


def ruler_figures(
    page: PageRead, zeros: tuple[float, float]
) -> dict[tuple[int, str], dict[int, tuple[float, float]]]:
    """For each scale its figures, each with where it starts and ends along the ruler.

    Millimetres stand on the side of the drawing area, inches on the other.
    """
    x, y = zeros
    found: dict[tuple[int, str], dict[int, tuple[float, float]]] = {
        (turn, unit): {} for turn in (0, 90) for unit in ("mm", "in")
    }
    for words in page.placements[0].words:
        if words.text.isdigit():
            along, aside = (0, words.at[1] - y) if words.turn == 0 else (1, words.at[0] - x)
            scale = found[words.turn, "mm" if aside > 0 else "in"]
            scale[int(words.text)] = (words.at[along], words.end[along])
    return found


def furniture_faults(page: PageRead, number: int, total: int, title: str) -> Iterator[str]:
    """The title block's fields: the piece, the sheet, the scale; its part is told elsewhere."""
    texts = [words.text for words in page.placements[0].words]
    if f"sheet {number} of {total}" not in texts:
        yield "the sheet's number is missing"
    begins = [text for text in texts if title.startswith(text.removesuffix("…")) and len(text) > 3]
    if not begins:
        yield "the title is missing"
    if "1:1, print at 100 %" not in texts:
        yield "the words on printing at 100 % are missing"
    if not any(re.fullmatch("job [2-9A-Z]{4}", text) for text in texts):
        yield "the job's fingerprint is missing"


def rulers(page: PageRead) -> tuple[Line, Line]:
    """Across and along: the two lines that have graduations on them."""
    ticks = page.placements[0].drawn_with(THIN)

    starts = np.array([tick.start for tick in ticks])

    def graduations(line: Line) -> int:
        box = np.array(line.box)
        on_it = (starts > box[:2] - NEAR) & (starts < box[2:] + NEAR)
        return int(on_it.all(axis=1).sum())

    long = [line for line in ticks if line.length > GRADUATION + 1]
    one, other = (line for line in long if graduations(line) > 50)
    return (one, other) if abs(one.start[1] - one.end[1]) < NEAR else (other, one)


def zero_of(page: PageRead) -> tuple[float, float]:
    return rulers(page)[0].start


def everything(placement: Placement) -> Iterator[Seen]:
    for words in placement.words:
        box = shown(words)
        if box:
            yield words.text, box
    for line in placement.lines:
        if part := seen_part(line):
            yield line.pen, box_of(part)


def seen_part(line: Line) -> tuple[tuple[float, float], tuple[float, float]] | None:
    return clipped(line.start, line.end, line.clip)


def ink(words: Words) -> Rectangle:
    """The box that the ink of words fills."""
    em = words.size_pt * MM_IN_POINTS
    low = -(DESCENT if set(words.text) & HANGING else 0) * em + SLACK
    high = HEIGHT * em - SLACK
    along, up = {0: (1, 1j), 90: (1j, -1), 180: (-1, -1j), 270: (-1j, 1)}[words.turn]
    start, end = complex(*words.at) + SLACK * along, complex(*words.end) - SLACK * along
    corners = [corner + aside * up for corner in (start, end) for aside in (low, high)]
    return box_of((corner.real, corner.imag) for corner in corners)


@lru_cache(maxsize=2000)  # a page's words are asked for several times
def shown(words: Words) -> Rectangle | None:
    """The box of words as far as it is seen; None if out of sight."""
    small = meeting(ink(words), words.clip)
    return small if small and small[0] < small[2] and small[1] < small[3] else None


def told(box: Rectangle) -> str:
    return "(" + ", ".join(f"{number:.2f}" for number in box) + ")"
