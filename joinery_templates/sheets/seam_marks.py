"""What is drawn on and beside a seam: the line, match marks, and what to do there.

Three marks for each seam: two on it near its ends, one beside it, so that a tile laid
on upside down or askew shows. The words stand on the strips that vanish when the
sheets are taped: of the lower sheet the strip that is covered, of the upper one the
strip that is trimmed away.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, line
from joinery_templates.drawings.lettering import Lettering, largest_cap, text_corners
from joinery_templates.lengths import INCH, Units
from joinery_templates.sheets.page import Box
from joinery_templates.sheets.tiling import Seam, Tiled

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
MARK_ROOM = Fraction(4)
"""A match mark with its letter wants this much clear to either side along the seam."""
MARK_CAP = Fraction(9, 4)
NOTE_CAPS = (Fraction(17, 10), Fraction(3, 2), Fraction(13, 10))
NOTE_PITCH = Fraction(23, 10)
"""Distance of the two rows of words beside a seam."""
CHECK_CAP = Fraction(8, 5)
CHECK_GAP = Fraction(3, 5)

Stretch = tuple[Fraction, Fraction]
"""A stretch along a seam, as start and end."""


@dataclass(frozen=True, slots=True)
class SeamPlan:
    """Where things stand along one seam.

    Attributes:
        seam: which one.
        marks: middles of the match marks: two on the seam, one beside it.
        note: the stretch for the words.
    """

    seam: Seam
    marks: tuple[Point, Point, Point]
    note: Stretch


def without_cut_words(tiled: Tiled, overlap: Fraction, lettering: Lettering) -> Tiled:
    """The same without waste crosses that a seam cuts, and without copies of labels.

    A copy of a label goes whole where a seam cuts any of its words, if another copy is
    left whole; hatching still tells the waste.
    """
    boxes = [_along(seam, seam.low, seam.high, overlap / 2) for seam in tiled.seams]

    def is_cut(text: Text) -> bool:
        one, other = text_corners(text, lettering)
        (left, right), (low, high) = (sorted(pair) for pair in zip(one, other, strict=True))
        return any(
            box.left < right and left < box.right and box.bottom < high and low < box.top
            for box in boxes
        )

    def kept(layer: Figure) -> Figure:
        parts = {
            text.part: tuple(t.words for t in layer.texts if t.part == text.part)
            for text in layer.texts
            if text.part
        }
        cut = {text.part for text in layer.texts if text.part and is_cut(text)}
        whole = {words for part, words in parts.items() if part not in cut}
        gone = {part for part in cut if parts[part] in whole}
        strokes = tuple(
            s
            for s in layer.strokes
            if s.role is not Role.CROSS or not any(b.part_of(s.start, s.end) for b in boxes)
        )
        texts = tuple(text for text in layer.texts if text.part not in gone)
        return replace(layer, texts=texts, strokes=strokes)

    pattern = replace(tiled.pattern, layers=tuple(kept(layer) for layer in tiled.pattern.layers))
    return replace(tiled, pattern=pattern)


def plan_seams(tiled: Tiled, overlap: Fraction, lettering: Lettering) -> tuple[SeamPlan, ...]:
    """Find, for each seam of a pattern, places that as few lines and words cross as may be.

    A mark that stands on lines can still be laid on its like; words hide what lies
    below them, but only on strips that are covered or cut off.
    """
    obstacles = _obstacles(tiled, lettering)
    crossing = len({seam.upright for seam in tiled.seams}) > 1
    return tuple(_planned(seam, obstacles, overlap, crossing) for seam in tiled.seams)


_Obstacles = list[tuple[Point, Point]]
"""Lines that keep marks and words away; of words a line through them and their box's sides."""


def _obstacles(tiled: Tiled, lettering: Lettering) -> _Obstacles:
    lines = [(s.start, s.end) for s in tiled.pattern.strokes if s.role is not Role.HATCH]
    for layer in tiled.pattern.layers:
        for text in layer.texts:
            one, other = text_corners(text, lettering)
            lines += [(one, other), (one, (other[0], one[1])), (other, (one[0], other[1]))]
    return lines


def _planned(seam: Seam, obstacles: _Obstacles, overlap: Fraction, crossing: bool) -> SeamPlan:
    """A mark in each third of the seam, and the words in the longest stretch between them.

    On a short seam the marks stand close to its ends, so that words have room at all; not
    where another seam crosses it there.
    """
    strip = _along(seam, seam.low, seam.high, overlap / 2)
    near = [line for line in obstacles if strip.part_of(*line)]
    third = (seam.high - seam.low) / 3
    if third - 2 * MARK_ROOM < SHORTEST_NOTE and not crossing:
        low, high = seam.low + MARK_ROOM, seam.high - MARK_ROOM
        middle = min(low + 2 * MARK_ROOM, (low + high) / 2)
    else:
        low, middle, high = (
            _mark_place(seam, near, seam.low + number * third, aim, overlap)
            for number, aim in ((0, Fraction(1, 6)), (1, Fraction(1, 2)), (2, Fraction(5, 6)))
        )
    marks = (seam.point(low), seam.point(high), seam.point(middle, overlap / 4))
    room = [(low + MARK_ROOM, middle - MARK_ROOM), (middle + MARK_ROOM, high - MARK_ROOM)]
    clear = [s for stretch in room for s in _clear(seam, near, stretch, overlap)]
    note = max([*clear, (low, low)], key=lambda s: (s[1] - s[0], -s[0]))
    if note[1] - note[0] < SHORTEST_NOTE:
        note = max(room, key=lambda s: s[1] - s[0])
    return SeamPlan(seam, marks, note)


SHORTEST_NOTE = Fraction(26)
"""Words beside a seam are not squeezed into a shorter stretch."""


def _along(seam: Seam, low: Fraction, high: Fraction, reach: Fraction) -> Box:
    """A box along a seam, reaching so far to either side."""
    if seam.upright:
        return Box(seam.at - reach, low, seam.at + reach, high)
    return Box(low, seam.at - reach, high, seam.at + reach)


def _mark_place(
    seam: Seam, near: _Obstacles, low: Fraction, aim: Fraction, overlap: Fraction
) -> Fraction:
    """The place in a third of a seam where a mark meets the fewest lines, nearest to its aim."""
    third = (seam.high - seam.low) / 3
    inset = min(MARK_ROOM, third / 2)
    count = max(1, int(third - 2 * inset))
    wanted = seam.low + aim * (seam.high - seam.low)

    def burden(place: Fraction) -> tuple[int, Fraction]:
        around = _along(seam, place - MARK_ROOM, place + MARK_ROOM, overlap / 2)
        return sum(around.part_of(*line) is not None for line in near), abs(place - wanted)

    return min((low + inset + number for number in range(count)), key=burden)


def _clear(seam: Seam, near: _Obstacles, stretch: Stretch, overlap: Fraction) -> Iterator[Stretch]:
    """The parts of a stretch along a seam that no line crosses, to a millimetre."""
    start = low = stretch[0]
    while low + 1 <= stretch[1]:
        box = _along(seam, low, low + 1, overlap / 2)
        if any(box.part_of(*line) for line in near):
            yield start, low
            start = low + 1
        low += 1
    yield start, low


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
            strokes.extend(_mark(at))
            texts.append(_letter(seam, at))
    check = _check_lines(tiled, units)
    pattern = tiled.pattern
    return Figure(pattern.width, pattern.height, (*strokes, *check.strokes), (*texts, *check.texts))


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


def _mark(at: Point) -> Iterator[Stroke]:
    """An upright cross in a square that stands on its corner."""
    x, y = at
    arm, inner = MARK_ARM, MARK_ARM * 3 / 5
    yield line(Role.MATCH, x - arm, y, x + arm, y)
    yield line(Role.MATCH, x, y - arm, x, y + arm)
    corners = ((x + inner, y), (x, y + inner), (x - inner, y), (x, y - inner))
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Stroke(Role.MATCH, start, end)


def _check_lines(tiled: Tiled, units: Units) -> Figure:
    """A long line over all the taped sheets, with its length: it shows errors that add up."""
    pattern = tiled.pattern
    strokes: list[Stroke] = []
    texts: list[Text] = []
    unit = INCH if units is Units.INCH else Fraction(10)
    # So low that the words stand clear of the trim line above them.
    edge, start, tick = Fraction(4, 5), Fraction(2), Fraction(4, 5)
    if any(seam.upright for seam in tiled.seams):
        length = (pattern.width - 2 * start) // unit * unit
        strokes += [
            line(Role.DIMENSION, start, edge, start + length, edge),
            line(Role.DIMENSION, start, edge - tick, start, edge + tick),
            line(Role.DIMENSION, start + length, edge - tick, start + length, edge + tick),
        ]
        texts.append(Text(_stated(length, units), (start + 9, edge + CHECK_GAP), CHECK_CAP))
    if any(not seam.upright for seam in tiled.seams):
        length = (pattern.height - 2 * start) // unit * unit
        strokes += [
            line(Role.DIMENSION, edge, start, edge, start + length),
            line(Role.DIMENSION, edge - tick, start, edge + tick, start),
            line(Role.DIMENSION, edge - tick, start + length, edge + tick, start + length),
        ]
        at = (edge + CHECK_GAP + CHECK_CAP, start + 9)
        texts.append(Text(_stated(length, units), at, CHECK_CAP, turn=90))
    return Figure(pattern.width, pattern.height, tuple(strokes), tuple(texts))


def _stated(length: Fraction, units: Units) -> str:
    words = f"{length / units.mm} {units} from tick to tick"
    return f"check of the taping, not the board's size: {words}"


def seam_notes(
    tiled: Tiled,
    plans: Sequence[SeamPlan],
    number: int,
    pages: Sequence[int],
    overlap: Fraction,
    lettering: Lettering,
) -> Figure:
    """What one tile says beside its seams.

    Args:
        tiled: the pattern and its tiles.
        plans: of its seams.
        number: which tile.
        pages: for each tile, the number of the page that it is on.
        overlap: paper shared by two neighbours.
        lettering: how wide words run.
    """
    texts: list[Text] = []
    for plan in plans:
        seam = plan.seam
        if number == seam.before:
            lines = (
                f"{seam.letter}: sheet {seam.after + 1} (page {pages[seam.after]})",
                "goes on top here",
            )
            aside = overlap / 4
        elif number == seam.after:
            lines = (
                f"✂ {seam.letter}: cut off, lay on",
                f"sheet {seam.before + 1} (page {pages[seam.before]})",
            )
            aside = -overlap / 4
        else:
            continue
        texts.extend(_two_rows(plan, lines, aside, lettering))
    return Figure(tiled.pattern.width, tiled.pattern.height, texts=tuple(texts))


def _two_rows(
    plan: SeamPlan, lines: tuple[str, str], aside: Fraction, lettering: Lettering
) -> Iterator[Text]:
    seam, (start, end) = plan.seam, plan.note
    cap = min(largest_cap(words, end - start, NOTE_CAPS, lettering) for words in lines)
    for row, words in enumerate(lines):
        drop = (Fraction(1, 2) - row) * NOTE_PITCH - cap / 2
        # Turned lettering rises to the left: its rows run the other way aside.
        at = seam.point(start, aside - drop if seam.upright else aside + drop)
        yield Text(words, at, cap, turn=90 if seam.upright else 0, opaque=True)
