"""What is drawn on and beside a seam: the line, match marks, and what to do there.

Three marks for each seam: two on it near its ends, one beside it, so that a tile laid
on upside down or askew shows. The words stand on the strips that vanish when the
sheets are taped: of the lower sheet the strip that is covered, of the upper one the
strip that is trimmed away.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from operator import itemgetter

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, line
from joinery_templates.drawings.lettering import Lettering, text_corners
from joinery_templates.lengths import INCH, Units
from joinery_templates.sheets.tiling import Seam, Tiled

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
MARK_ROOM = Fraction(4)
"""A match mark with its letter wants this much clear to either side along the seam."""
MARK_CAP = Fraction(9, 4)
NOTE_CAPS = (Fraction(17, 10), Fraction(3, 2), Fraction(13, 10))
NOTE_PITCH = Fraction(23, 10)
"""Distance of the two rows of words beside a seam."""
SHORTEST_NOTE = Fraction(26)
"""Words beside a seam are not squeezed into a shorter stretch."""
CHECK_CAP = Fraction(8, 5)
CHECK_GAP = Fraction(3, 5)

Stretch = tuple[Fraction, Fraction]
"""A stretch along a seam, as start and end."""
_Line = tuple[tuple[float, float], tuple[float, float]]
"""A line that marks and words keep off, from start to end; near enough in floats."""
_Met = Sequence[tuple[float, float]]
"""From where to where, along a seam, lines stand on the paper that both sheets share."""


class SeamPlan(Struct, frozen=True):
    """Where things stand along one seam.

    Attributes:
        seam: which one.
        marks: middles of the match marks: two on the seam, one beside it.
        note: the stretch for the words.
    """

    seam: Seam
    marks: tuple[Point, Point, Point]
    note: Stretch


def plan_seams(tiled: Tiled, overlap: Fraction, lettering: Lettering) -> tuple[SeamPlan, ...]:
    """Find, for each seam of a pattern, places that as few lines and words cross as may be.

    A mark that stands on lines can still be laid on its like; words hide what lies
    below them, but only on strips that are covered or cut off.
    """
    seen = _lines_on_tiles(tiled, lettering)
    crossing = len({seam.upright for seam in tiled.seams}) > 1
    return tuple(
        _planned(seam, sorted(_met(seam, seen[seam.before], overlap / 2)), overlap, crossing)
        for seam in tiled.seams
    )


def _lines_on_tiles(tiled: Tiled, lettering: Lettering) -> list[list[_Line]]:
    """What each tile shows but for hatching; of words a line through them and two sides."""
    lines = [(s.start, s.end) for s in tiled.pattern.strokes if s.role is not Role.HATCH]
    for text in (text for layer in tiled.pattern.layers for text in layer.texts):
        one, other = text_corners(text, lettering)
        lines += [(one, other), (one, (other[0], one[1])), (other, (one[0], other[1]))]
    columns = [(float(tile.left), float(tile.right)) for tile in tiled.tiles if not tile.bottom]
    rows = [(float(tile.bottom), float(tile.top)) for tile in tiled.tiles if not tile.left]
    seen: list[list[_Line]] = [[] for _ in tiled.tiles]
    for start, end in lines:
        (x, y), (x1, y1) = map(float, start), map(float, end)
        for row in _reached(rows, y, y1):
            for column in _reached(columns, x, x1):
                seen[row * len(columns) + column].append(((x, y), (x1, y1)))
    return seen


def _reached(spans: Sequence[tuple[float, float]], one: float, other: float) -> range:
    """Which of the spans, in order, something reaches that runs from one place to another."""
    low, high = sorted((one, other))
    first = bisect_left(spans, low, key=itemgetter(1))
    return range(first, bisect_right(spans, high, key=itemgetter(0)))


def _met(seam: Seam, lines: Iterable[_Line], reach: Fraction) -> Iterator[tuple[float, float]]:
    """From where to where, along a seam, lines stand on the paper that both sheets share."""
    across, along = (0, 1) if seam.upright else (1, 0)
    left, right = float(seam.at - reach), float(seam.at + reach)
    low, high = float(seam.low), float(seam.high)
    for line_seen in lines:
        start, end = sorted(line_seen, key=itemgetter(across))
        if end[across] < left or start[across] > right:
            continue
        run, rise = end[across] - start[across], end[along] - start[along]
        shares = [(edge - start[across]) / run for edge in (left, right)] if run else [0.0, 1.0]
        first, last = sorted(start[along] + min(max(s, 0.0), 1.0) * rise for s in shares)
        if first <= high and last >= low:
            yield first, last


def _planned(seam: Seam, met: _Met, overlap: Fraction, crossing: bool) -> SeamPlan:
    """A mark in each third of the seam, and the words in the longest stretch between them.

    On a short seam the marks stand close to its ends, so that words have room at all; not
    where another seam crosses it there.
    """
    third = (seam.high - seam.low) / 3
    if third - 2 * MARK_ROOM < SHORTEST_NOTE and not crossing:
        low, high = seam.low + MARK_ROOM, seam.high - MARK_ROOM
        middle = min(low + 2 * MARK_ROOM, (low + high) / 2)
    else:
        low, middle, high = (_mark_place(met, seam.low + n * third, third) for n in range(3))
    marks = (seam.point(low), seam.point(high), seam.point(middle, overlap / 4))
    rooms = [(low + MARK_ROOM, middle - MARK_ROOM), (middle + MARK_ROOM, high - MARK_ROOM)]
    clear = max((one for room in rooms for one in _clear(met, room)), key=_length)
    return SeamPlan(
        seam, marks, clear if _length(clear) >= SHORTEST_NOTE else max(rooms, key=_length)
    )


def _mark_place(met: _Met, low: Fraction, third: Fraction) -> Fraction:
    """The place in a third of a seam where a mark meets the fewest lines, nearest its middle."""
    inset = min(MARK_ROOM, third / 2)
    first, middle, room = float(low + inset), float(third / 2 - inset), float(MARK_ROOM)

    def burden(step: int) -> tuple[int, float]:
        start, end = first + step - room, first + step + room
        return sum(a <= end and b >= start for a, b in met), abs(step - middle)

    return low + inset + min(range(max(1, int(third - 2 * inset))), key=burden)


def _clear(met: _Met, room: Stretch) -> Iterator[Stretch]:
    """The parts of a stretch that no line meets, in whole mm."""
    low, high = math.ceil(room[0]), math.floor(room[1])
    for start, end in met:
        yield Fraction(low), Fraction(min(math.floor(start), high))
        low = max(low, math.ceil(end))
    yield Fraction(low), Fraction(high)


def _length(stretch: Stretch) -> Fraction:
    return stretch[1] - stretch[0]


def seam_lines(tiled: Tiled, plans: Sequence[SeamPlan], marks: bool, units: Units) -> Figure:
    """Seam lines, match marks and check lines, the same on all tiles, in the pattern's box.

    Args:
        tiled: the pattern and its tiles.
        plans: of its seams.
        marks: False leaves the match marks out.
        units: the check lines are whole centimetres or whole inches long.
    """
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for plan in plans:
        seam = plan.seam
        strokes.append(Stroke(Role.SEAM, seam.point(seam.low), seam.point(seam.high)))
        for at in plan.marks if marks else ():
            strokes.extend(match_mark(at))
            texts.append(_letter(seam, at))
    width, height = tiled.pattern.width, tiled.pattern.height
    for length, upright in ((width, False), (height, True)):
        if any(seam.upright != upright for seam in tiled.seams):
            lines, words = _check_line(length, upright, units)
            strokes.extend(lines)
            texts.append(words)
    return Figure(width, height, tuple(strokes), tuple(texts))


def _letter(seam: Seam, at: Point) -> Text:
    """A mark's letter beside it: clear of the seam, and within the paper that both sheets have."""
    x, y = at
    is_beside = at[0 if seam.upright else 1] != seam.at
    if is_beside and seam.upright:
        place, align = (x + 1, y + Fraction(17, 10)), Align.LEFT
    elif is_beside:
        place, align = (x - MARK_ARM - Fraction(1, 2), y - MARK_CAP / 2), Align.RIGHT
    else:
        place, align = (x - 1, y + Fraction(17, 10)), Align.RIGHT
    return Text(seam.letter, place, MARK_CAP, align, bold=True)


def match_mark(at: Point, arm: Fraction = MARK_ARM) -> Iterator[Stroke]:
    """An upright cross in a square that stands on its corner."""
    x, y = at
    inner = arm * 3 / 5
    yield line(Role.MATCH, x - arm, y, x + arm, y)
    yield line(Role.MATCH, x, y - arm, x, y + arm)
    corners = ((x + inner, y), (x, y + inner), (x - inner, y), (x, y - inner))
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Stroke(Role.MATCH, start, end)


def _check_line(extent: Fraction, upright: bool, units: Units) -> tuple[Sequence[Stroke], Text]:
    """A long line over all the taped sheets, with its length: it shows errors that add up."""
    # So low that the words stand clear of the trim line above them.
    edge, start, tick = Fraction(4, 5), Fraction(2), Fraction(4, 5)
    unit = INCH if units is Units.INCH else Fraction(10)
    length = (extent - 2 * start) // unit * unit

    def point(along: Fraction, aside: Fraction) -> Point:
        return (aside, along) if upright else (along, aside)

    strokes = [Stroke(Role.DIMENSION, point(start, edge), point(start + length, edge))]
    strokes += [
        Stroke(Role.DIMENSION, point(along, edge - tick), point(along, edge + tick))
        for along in (start, start + length)
    ]
    stated = f"{length / units.mm} {units} from tick to tick"
    words = f"check of the taping, not the board's size: {stated}"
    # Turned lettering stands to the left of its baseline.
    at = point(start + 9, edge + CHECK_GAP + (CHECK_CAP if upright else 0))
    return strokes, Text(words, at, CHECK_CAP, turn=90 if upright else 0)


def seam_notes(
    tiled: Tiled,
    plans: Sequence[SeamPlan],
    pages: Sequence[int],
    overlap: Fraction,
    lettering: Lettering,
) -> tuple[Figure, ...]:
    """What each tile says beside its seams.

    Args:
        tiled: the pattern and its tiles.
        plans: of its seams.
        pages: for each tile, the number of the page that it is on.
        overlap: paper shared by two neighbours.
        lettering: how wide words run.
    """
    texts: list[list[Text]] = [[] for _ in tiled.tiles]
    for plan in plans:
        letter, below, above = plan.seam.letter, plan.seam.before, plan.seam.after
        covered = f"{letter}: sheet {above + 1} (page {pages[above]})", "goes on top here"
        trimmed = f"✂ {letter}: cut off, lay on", f"sheet {below + 1} (page {pages[below]})"
        texts[below] += _two_rows(plan, covered, overlap / 4, lettering)
        texts[above] += _two_rows(plan, trimmed, -overlap / 4, lettering)
    size = tiled.pattern.width, tiled.pattern.height
    return tuple(Figure(*size, texts=tuple(said)) for said in texts)


def _two_rows(
    plan: SeamPlan, rows: tuple[str, str], aside: Fraction, lettering: Lettering
) -> Iterator[Text]:
    seam, start, room = plan.seam, plan.note[0], _length(plan.note)
    fitting = (c for c in NOTE_CAPS if all(lettering.width(words, c) <= room for words in rows))
    cap = next(fitting, NOTE_CAPS[-1])
    for row, words in enumerate(rows):
        drop = (Fraction(1, 2) - row) * NOTE_PITCH - cap / 2
        # Turned lettering rises to the left: its rows run the other way aside.
        at = seam.point(start, aside - drop if seam.upright else aside + drop)
        yield Text(words, at, cap, turn=90 if seam.upright else 0, opaque=True)
