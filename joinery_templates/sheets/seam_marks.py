"""What is drawn on and beside a seam: the line, match marks, and what to do there.

Three marks for each seam: two on it near its ends, one beside it, so that a tile laid
on upside down or askew shows. The words stand on the strips that vanish when the
sheets are taped: of the lower sheet the strip that is covered, of the upper one the
strip that is trimmed away.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, line
from joinery_templates.drawings.lettering import Lettering, largest_cap, text_corners
from joinery_templates.lengths import INCH, Units
from joinery_templates.sheets.tiling import Seam, Tiled

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
MARK_INSET = Fraction(4)
"""How far a match mark stands in from the end of its seam."""
MARK_CAP = Fraction(5, 2)
NOTE_CAPS = (Fraction(19, 10), Fraction(8, 5), Fraction(13, 10), Fraction(1))
NOTE_PITCH = Fraction(13, 5)
"""Distance of the two rows of words beside a seam."""
CHECK_CAP = Fraction(8, 5)


def seam_lines(tiled: Tiled, overlap: Fraction, marks: bool, units: Units) -> Figure:
    """Seam lines, match marks and check lines, the same on all tiles, in the pattern's box.

    Args:
        tiled: the pattern and its tiles.
        overlap: paper shared by two neighbours.
        marks: False leaves the match marks out.
        units: the check lines are whole centimetres or whole inches long.
    """
    strokes: list[Stroke] = []
    texts: list[Text] = []
    for seam in tiled.seams:
        strokes.append(Stroke(Role.SEAM, seam.point(seam.low), seam.point(seam.high)))
        for at in _mark_places(seam, overlap) if marks else ():
            strokes.extend(_mark(at))
            words = Text(seam.letter, (at[0] - 1, at[1] + 1), MARK_CAP, Align.RIGHT, bold=True)
            texts.append(words)
    check = _check_lines(tiled, units)
    pattern = tiled.pattern
    return Figure(
        pattern.width, pattern.height, (*strokes, *check.strokes), (*texts, *check.texts)
    )


def _mark_places(seam: Seam, overlap: Fraction) -> tuple[Point, Point, Point]:
    low, high = seam.low + MARK_INSET, seam.high - MARK_INSET
    beside = seam.point(low + (high - low) * 4 / 5, overlap / 4)
    return seam.point(low), seam.point(high), beside


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
    tiled: Tiled, number: int, pages: Sequence[int], overlap: Fraction, lettering: Lettering
) -> Figure:
    """What one tile says beside its seams.

    Args:
        tiled: the pattern and its tiles.
        number: which tile.
        pages: for each tile, the number of the page that it is on.
        overlap: paper shared by two neighbours.
        lettering: how wide words run.
    """
    texts: list[Text] = []
    for seam in tiled.seams:
        if number == seam.before:
            lines = (f"{seam.letter}: sheet {seam.after + 1} (page {pages[seam.after]})",
                     "is laid over this strip")
            aside = overlap / 4
        elif number == seam.after:
            lines = (f"✂ {seam.letter}: cut off this strip, lay on",
                     f"sheet {seam.before + 1} (page {pages[seam.before]})")
            aside = -overlap / 4
        else:
            continue
        start, room = _clear_stretch(tiled, seam, overlap, lettering)
        cap = min(largest_cap(words, room, NOTE_CAPS, lettering) for words in lines)
        for row, words in enumerate(lines):
            drop = (Fraction(1, 2) - row) * NOTE_PITCH - cap / 2
            # Turned lettering rises to the left: its rows run the other way aside.
            at = seam.point(start, aside - drop if seam.upright else aside + drop)
            texts.append(Text(words, at, cap, turn=90 if seam.upright else 0, opaque=True))
    return Figure(tiled.pattern.width, tiled.pattern.height, texts=tuple(texts))


def _clear_stretch(
    tiled: Tiled, seam: Seam, overlap: Fraction, lettering: Lettering
) -> tuple[Fraction, Fraction]:
    """Where the words beside a seam start, and their room.

    The longest stretch that no line and no word of the pattern crosses, if words have
    room there; else all between the match marks: what the words then hide is hidden or
    cut off anyway.
    """
    marks = sorted(at[1 if seam.upright else 0] for at in _mark_places(seam, overlap))
    low, high = marks[0] + MARK_ARM + 1, marks[1] - MARK_ARM - 1
    reach = overlap / 2
    across, along = (0, 1) if seam.upright else (1, 0)
    pieces = [(stroke.start, stroke.end) for stroke in tiled.pattern.strokes]
    pieces += [text_corners(t, lettering) for layer in tiled.pattern.layers for t in layer.texts]
    blocked = sorted(
        (min(one[along], other[along]), max(one[along], other[along]))
        for one, other in pieces
        if min(one[across], other[across]) < seam.at + reach
        and max(one[across], other[across]) > seam.at - reach
    )
    best, reached = (low, Fraction(0)), low
    for start, end in (*blocked, (high, high)):
        if min(start, high) - reached > best[1]:
            best = (reached, min(start, high) - reached)
        reached = max(reached, end)
    enough = lettering.width("✂ aa: cut off this strip, lay on", NOTE_CAPS[1])
    return (best[0] + 1, best[1] - 2) if best[1] - 2 >= enough else (low, high - low)
