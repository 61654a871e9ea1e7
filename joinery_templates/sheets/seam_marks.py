"""What is drawn on and beside a seam: the line, match marks, and what to do there.

Three marks for each seam: two on it near its ends, one beside it, so that a tile laid
on upside down or askew shows. The words stand on the strips that vanish when the
sheets are taped: of the lower sheet the strip that is covered, of the upper one the
strip that is trimmed away.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, line
from joinery_templates.drawings.lettering import Lettering, largest_cap, text_corners
from joinery_templates.lengths import INCH, Units
from joinery_templates.sheets.tiling import Seam, Tiled

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
MARK_ROOM = Fraction(4)
"""A match mark with its letter wants this much clear to either side along the seam."""
MARK_CAP = Fraction(5, 2)
NOTE_CAPS = (Fraction(17, 10), Fraction(3, 2), Fraction(13, 10), Fraction(1))
NOTE_PITCH = Fraction(23, 10)
"""Distance of the two rows of words beside a seam."""
CHECK_CAP = Fraction(8, 5)

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


def plan_seams(tiled: Tiled, overlap: Fraction, lettering: Lettering) -> tuple[SeamPlan, ...]:
    """Find, for each seam of a pattern, places that no line and no word crosses.

    Where there is none a mark stands on lines: it can still be laid on its like.
    Words then hide lines, but only on strips that are covered or cut off.
    """
    extents = _extents(tiled, lettering)
    return tuple(_planned(seam, _clear(extents, seam, overlap), overlap) for seam in tiled.seams)


_Extent = tuple[float, float, float, float]
"""Left, bottom, right and top of a stroke or of words; near enough to keep out of the way."""


def _extents(tiled: Tiled, lettering: Lettering) -> list[_Extent]:
    pieces = [
        (stroke.start, stroke.end)
        for stroke in tiled.pattern.strokes
        if stroke.role is not Role.HATCH
    ]
    pieces += [text_corners(t, lettering) for layer in tiled.pattern.layers for t in layer.texts]
    numbers = [(float(a[0]), float(a[1]), float(b[0]), float(b[1])) for a, b in pieces]
    return [(min(a, c), min(b, d), max(a, c), max(b, d)) for a, b, c, d in numbers]


def _clear(extents: list[_Extent], seam: Seam, overlap: Fraction) -> list[Stretch]:
    """The stretches along a seam where its strip of paper is empty."""
    across, along = (0, 1) if seam.upright else (1, 0)
    left, right = float(seam.at - overlap / 2), float(seam.at + overlap / 2)
    blocked = sorted(
        (extent[along], extent[along + 2])
        for extent in extents
        if extent[across] < right and extent[across + 2] > left
    )
    clear, reached = [], float(seam.low)
    for low, high in (*blocked, (float(seam.high), 0.0)):
        if low > reached:
            clear.append((_exact(reached), _exact(min(low, float(seam.high)))))
        reached = max(reached, high)
    return clear


def _exact(length: float) -> Fraction:
    return Fraction(round(length * 1000), 1000)


def _planned(seam: Seam, clear: list[Stretch], overlap: Fraction) -> SeamPlan:
    wide = [stretch for stretch in clear if stretch[1] - stretch[0] >= 2 * MARK_ROOM]
    length = seam.high - seam.low
    inset = min(MARK_ROOM, length / 6)
    low, high = seam.low + inset, seam.high - inset
    if len(wide) > 1:
        low, high = wide[0][0] + MARK_ROOM, wide[-1][1] - MARK_ROOM
    third = low + (high - low) * 4 / 5
    between = [s for s in wide if s[0] > low + MARK_ROOM and s[1] < high - MARK_ROOM]
    if between:
        longest = max(between, key=lambda stretch: (stretch[1] - stretch[0], stretch[0]))
        third = (longest[0] + longest[1]) / 2
    taken = sorted((at - MARK_ROOM, at + MARK_ROOM) for at in (low, high, third))
    free = [rest for stretch in clear for rest in _without(stretch, taken)]
    note = max(free, key=lambda s: (s[1] - s[0], -s[0]), default=(low, low))
    if note[1] - note[0] < SHORTEST_NOTE:
        note = (low + MARK_ROOM, third - MARK_ROOM)
    return SeamPlan(seam, (seam.point(low), seam.point(high), seam.point(third, overlap / 4)), note)


SHORTEST_NOTE = Fraction(26)
"""Words beside a seam are not squeezed into a shorter stretch."""


def _without(stretch: Stretch, taken: list[Stretch]) -> Iterator[Stretch]:
    """What is left of a stretch when others, in order, are taken out."""
    start, end = stretch
    for low, high in taken:
        if low > start:
            yield start, min(low, end)
        start = max(start, high)
    if end > start:
        yield start, end


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
            letter = Text(seam.letter, (at[0] - 1, at[1] + 1), MARK_CAP, Align.RIGHT, bold=True)
            texts.append(letter)
    check = _check_lines(tiled, units)
    pattern = tiled.pattern
    return Figure(pattern.width, pattern.height, (*strokes, *check.strokes), (*texts, *check.texts))


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
    edge, start, tick = Fraction(3, 2), Fraction(2), Fraction(1)
    if any(seam.upright for seam in tiled.seams):
        length = (pattern.width - 2 * start) // unit * unit
        strokes += [
            line(Role.DIMENSION, start, edge, start + length, edge),
            line(Role.DIMENSION, start, edge - tick, start, edge + tick),
            line(Role.DIMENSION, start + length, edge - tick, start + length, edge + tick),
        ]
        texts.append(Text(_stated(length, units), (start + 9, edge + Fraction(1, 2)), CHECK_CAP))
    if any(not seam.upright for seam in tiled.seams):
        length = (pattern.height - 2 * start) // unit * unit
        strokes += [
            line(Role.DIMENSION, edge, start, edge, start + length),
            line(Role.DIMENSION, edge - tick, start, edge + tick, start),
            line(Role.DIMENSION, edge - tick, start + length, edge + tick, start + length),
        ]
        at = (edge + Fraction(1, 2) + CHECK_CAP, start + 9)
        texts.append(Text(_stated(length, units), at, CHECK_CAP, turn=90))
    return Figure(pattern.width, pattern.height, tuple(strokes), tuple(texts))


def _stated(length: Fraction, units: Units) -> str:
    return f"check when taped: {length / units.mm} {units} from tick to tick"


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
                "is laid over this strip",
            )
            aside = overlap / 4
        elif number == seam.after:
            lines = (
                f"✂ {seam.letter}: cut off this strip, lay on",
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
