"""What is drawn on and beside a seam: the line, match marks, and what to do there.

Three marks for each seam: two on it near its ends, one beside it, so that a tile laid
on upside down or askew shows. The words stand on the strips that vanish when the
sheets are taped: of the lower sheet the strip that is covered, of the upper one the
strip that is trimmed away.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from operator import itemgetter

from msgspec.structs import replace

from joinery_templates.drawings.figure import Align, Figure, Point, Role, Stroke, Text, line
from joinery_templates.drawings.lettering import ASCENT, DESCENT, Lettering, text_corners
from joinery_templates.drawings.placing import Ground, outwards
from joinery_templates.lengths import INCH, Units
from joinery_templates.sheets.tiling import Seam, Tiled

MARK_ARM = Fraction(5, 2)
"""How far a match mark's arms reach from its middle."""
MARK_ROOM = Fraction(4)
"""A match mark keeps so far from the ends of its seam."""
MARK_CAPS = (Fraction(9, 4), Fraction(7, 4), Fraction(5, 4))
NOTE_CAPS = (Fraction(17, 10), Fraction(13, 10))
NOTE_PITCH = Fraction(7, 5)
"""Distance of the two rows of words beside a seam, in capital heights."""
SHORTEST_NOTE = Fraction(26)
"""Words beside a seam want so long a stretch between two marks."""
CHECK_CAPS = (Fraction(8, 5), Fraction(13, 10))
CHECK_GAP = Fraction(7, 10)

_PAST = MARK_ARM + Fraction(1, 2)
_ROUND = ((-1, 1), (1, 1), (-1, -1), (1, -1), (0, 1), (0, -1), (-1, 0), (1, 0))
"""Places of a letter round its mark, the best first: which way to the right, and up."""


class Taping:
    """Where everything stands along the seams of one pattern.

    A mark that stands on lines can still be laid on its like, so it stands where as few
    as may be are; no words are written on a line, on a mark or on other words.

    Args:
        tiled: the pattern and its tiles.
        overlap: paper shared by two neighbours.
        marks: False leaves the match marks out.
        units: the check lines are whole centimetres or whole inches long.
        lettering: how wide words run.

    Attributes:
        figure: seam lines, match marks and check lines, the same on all tiles, in the
            pattern's box.
        marks: for every seam the middles of its match marks: two on it, one beside it.
    """

    def __init__(
        self, tiled: Tiled, overlap: Fraction, marks: bool, units: Units, lettering: Lettering
    ) -> None:
        self._tiled, self._shared, self._lettering = tiled, overlap / 2, lettering
        pattern, seams = tiled.pattern, tiled.seams
        texts = (text for layer in pattern.layers for text in layer.texts)
        self._ground = Ground(lettering, pattern.strokes, texts)
        self._strokes: list[Stroke] = []
        self._texts: list[Text] = []
        self._draw(Stroke(Role.SEAM, seam.point(seam.low), seam.point(seam.high)) for seam in seams)
        for length, upright in ((pattern.width, False), (pattern.height, True)):
            if any(seam.upright != upright for seam in seams):
                self._check(length, upright, units)
        crossing = len({seam.upright for seam in seams}) > 1
        self.marks = [self._marked(seam, crossing) for seam in seams if marks]
        size = pattern.width, pattern.height
        self.figure = Figure(*size, tuple(self._strokes), tuple(self._texts))

    def notes(self, pages: Sequence[int]) -> tuple[Figure, ...]:
        """What each tile says beside its seams.

        Args:
            pages: for each tile, the number of the page that it is on.
        """
        texts: list[list[Text]] = [[] for _ in self._tiled.tiles]
        for seam in self._tiled.seams:
            letter, below, above = seam.letter, seam.before, seam.after
            covered = (
                (f"{letter}: sheet {above + 1} (page {pages[above]})", "goes on top here"),
                (f"{letter}: page {pages[above]} on top",),
            )
            trimmed = (
                (f"✂ {letter}: cut off, lay on", f"sheet {below + 1} (page {pages[below]})"),
                (f"✂ {letter}: lay on page {pages[below]}",),
                (f"✂ {letter}",),
            )
            for tile, ways, aside in ((below, covered, 1), (above, trimmed, -1)):
                rows = self._rows(seam, ways, aside * self._shared / 2)
                texts[tile] += self._ground.placed_together(rows)
        return tuple(replace(self.figure, strokes=(), texts=tuple(said)) for said in texts)

    def _rows(
        self, seam: Seam, ways: Sequence[tuple[str, ...]], aside: Fraction
    ) -> Iterator[tuple[Text, ...]]:
        """Rows of words on the strip beside a seam: every way, size and place."""
        for rows in ways:
            for cap in NOTE_CAPS:
                long = max(self._lettering.width(words, cap) for words in rows)
                low, high = seam.low + 1, seam.high - 1 - long
                up = Fraction(len(rows) - 1, 2)
                first = tuple(_row(seam, w, aside, cap, up - n) for n, w in enumerate(rows))
                for start in outwards((low + high) / 2, low, high):
                    x, y = (Fraction(0), start) if seam.upright else (start, Fraction(0))
                    yield tuple(text.moved(x, y) for text in first)

    def _draw(self, strokes: Iterable[Stroke]) -> None:
        drawn = tuple(strokes)
        self._ground.draw(drawn)
        self._strokes += drawn

    def _marked(self, seam: Seam, crossing: bool) -> tuple[Point, ...]:
        """The marks of a seam: one in each third, the one in the middle beside it.

        On a short seam they stand close to its ends, so that words have room at all; not
        where another seam crosses it there.
        """
        third, middle = (seam.high - seam.low) / 3, (seam.low + seam.high) / 2
        low, high, near = seam.low + third / 2, seam.high - third / 2, third / 2 - MARK_ROOM
        if third - 2 * MARK_ROOM < SHORTEST_NOTE and not crossing:
            low, high, near = seam.low + MARK_ROOM, seam.high - MARK_ROOM, Fraction(0)
            middle = min(low + 2 * MARK_ROOM, middle)
        wishes = ((low, Fraction(0)), (high, Fraction(0)), (middle, self._shared / 2))
        drawn = (self._mark(seam, wish, near, aside) for wish, aside in wishes)
        return tuple(at for at in drawn if at)

    def _mark(self, seam: Seam, wish: Fraction, near: Fraction, aside: Fraction) -> Point | None:
        """The middle of a mark, drawn with its letter in the first place where that is clear.

        Where no letter is clear the mark stands alone, and not at all where words fill the seam.
        """
        chosen: Point | None = None
        letter: tuple[Text, ...] = ()
        for at in self._mark_places(seam, wish, near, aside):
            letter = self._ground.placed(self._letters(seam, at))
            chosen = at if letter else chosen or at
            if letter:
                break
        if chosen:
            self._texts += letter
            self._draw(match_mark(chosen))
            self._ground.keep(*_around(chosen))
        return chosen

    def _mark_places(
        self, seam: Seam, wish: Fraction, near: Fraction, aside: Fraction
    ) -> Iterator[Point]:
        """Places of a mark on no words, near the one wished for, then anywhere on the seam.

        Where it meets the fewest lines comes first, then what is nearest.
        """
        inset = min(MARK_ROOM, (seam.high - seam.low) / 6)
        low, high = seam.low + inset, seam.high - inset
        for start, end in ((max(low, wish - near), min(high, wish + near)), (low, high)):
            places = (seam.point(along, aside) for along in outwards(wish, start, end))
            on_lines: list[tuple[int, Point]] = []
            for at in places:
                if not self._ground.has_words(*_around(at)):
                    lines = self._ground.lines_in(*_around(at))
                    if lines:
                        on_lines.append((lines, at))
                    else:
                        yield at
            yield from (at for _, at in sorted(on_lines, key=itemgetter(0)))

    def _letters(self, seam: Seam, at: Point) -> Iterator[Text]:
        """A mark's letter in all places round it that are on the paper that both sheets have."""
        low, high = seam.point(seam.low, -self._shared), seam.point(seam.high, self._shared)
        for cap in MARK_CAPS:
            for right, up in _ROUND:
                beside, rise = (Fraction(6, 5), Fraction(5, 4)) if right and up else (_PAST, _PAST)
                foot = (-cap / 2, rise + cap * DESCENT, -rise - cap * ASCENT)[up]
                align = (Align.CENTRE, Align.LEFT, Align.RIGHT)[right]
                place = (at[0] + right * beside, at[1] + foot)
                text = Text(seam.letter, place, cap, align, bold=True)
                corners = text_corners(text, self._lettering)
                if all(low[n] <= corner[n] <= high[n] for corner in corners for n in (0, 1)):
                    yield text

    def _check(self, extent: Fraction, upright: bool, units: Units) -> None:
        """A long line over all the taped sheets, with its length: it shows errors that add up.

        It stands on the rim of the paper, its words where no seam cuts them.
        """
        start, edge = Fraction(2), Fraction(4, 5)
        unit = INCH if units is Units.INCH else Fraction(10)
        length = (extent - 2 * start) // unit * unit
        stated = f"{length / units.mm} {units} from tick to tick"
        ways = (f"check of the taping, not the board's size: {stated}", f"check: {stated}")
        cuts = sorted({seam.at for seam in self._tiled.seams if seam.upright != upright})
        lows = (start + 9, *(cut + self._shared + 1 for cut in cuts))
        highs = (*(cut - self._shared - 1 for cut in cuts), start + length)
        rooms = tuple(zip(lows, highs, strict=True))

        def point(along: Fraction, aside: Fraction) -> Point:
            return (aside, along) if upright else (along, aside)

        def said() -> Iterator[Text]:
            for words in ways:
                for cap in CHECK_CAPS:
                    # Turned lettering stands to the left of its baseline.
                    foot = edge + CHECK_GAP + (cap if upright else 0)
                    for low, high in rooms:
                        if low + self._lettering.width(words, cap) <= high:
                            yield Text(words, point(low, foot), cap, turn=90 if upright else 0)

        ticks = (start, start + length)
        corners = (point(start, Fraction(0)), point(start + length, 2 * edge))
        if not self._ground.has_words(*corners) and (words := self._ground.placed(said())):
            self._texts += words
            self._draw((Stroke(Role.DIMENSION, *(point(along, edge) for along in ticks)),))
            self._draw(
                Stroke(Role.DIMENSION, point(along, Fraction(0)), point(along, 2 * edge))
                for along in ticks
            )


def _around(at: Point) -> tuple[Point, Point]:
    """Opposite corners of the room that a match mark fills."""
    x, y = at
    return (x - MARK_ARM, y - MARK_ARM), (x + MARK_ARM, y + MARK_ARM)


def _row(seam: Seam, words: str, aside: Fraction, cap: Fraction, rows_up: Fraction) -> Text:
    """Words along a seam on a white ground, so many rows above the middle of the strip."""
    rise = cap * (rows_up * NOTE_PITCH - (ASCENT - DESCENT) / 2)
    # Turned lettering rises to the left: its rows run the other way aside.
    at = seam.point(Fraction(0), aside - rise if seam.upright else aside + rise)
    return Text(words, at, cap, turn=90 if seam.upright else 0, opaque=True)


def match_mark(at: Point, arm: Fraction = MARK_ARM) -> Iterator[Stroke]:
    """An upright cross in a square that stands on its corner."""
    x, y = at
    inner = arm * 3 / 5
    yield line(Role.MATCH, x - arm, y, x + arm, y)
    yield line(Role.MATCH, x, y - arm, x, y + arm)
    corners = ((x + inner, y), (x, y + inner), (x - inner, y), (x, y - inner))
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        yield Stroke(Role.MATCH, start, end)
