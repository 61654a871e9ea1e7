"""The title block: whose page this is, told in one place as on a workshop drawing.

::

    +-----------------------+------------------------+--------------+---------------------+
    | piece                 | part: corner, boards   | sheet 4 of 7 | 1:1, print at 100 % |
    |                       |                        |              | job 7F3A            |
    +-----------------------+------------------------+--------------+---------------------+

The fields are those of ISO 7200 (from memory), without labels: each says what it is. On narrow
paper they take two rows or three, and so no field is ever left out.
"""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from joinery_templates.drawings.figure import Figure, Role, Text, box, line
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.lettering import (
    LINE_PITCH,
    Lettering,
    largest_cap,
    shortened,
    wrapped,
)
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.exact import Fraction
from joinery_templates.sheets.page import Box

PAD = Fraction(3, 2)
"""Between a field's frame and its words."""
LINE = BODY * LINE_PITCH
ROW = PAD + 2 * LINE + Fraction(1, 10)
"""Height of a row: two lines of words, or one that is larger."""
PIECE = Fraction(9, 20)
"""Of what sheet and scale leave of a row, the share of the piece."""
WIDE, NARROW = Fraction(150), Fraction(80)
"""A block as wide as the first has one row; one narrower than the second has three."""

SCALE = "1:1, print at 100 %"


class TitleBlock(Struct, frozen=True):
    """The block of one document.

    Attributes:
        place: where it stands on every page.
        piece: the piece of furniture.
        total: how many sheets there are.
        footer: lines below, such as the printer's profile.
        lettering: how wide words run.
        job: the fingerprint of what is drawn; empty for a sheet that is no job's.
    """

    place: Box
    piece: str
    total: int
    footer: Sequence[str]
    lettering: Lettering
    job: str = JOB

    def shared(self) -> Figure:
        """What is the same on all sheets: frames, the piece, the scale, the job's fingerprint."""
        place = self.place
        strokes = list(box(Role.FRAME, place.left, place.bottom, place.right, place.top))
        for field in self._fields:
            if field.left > place.left:
                strokes.append(line(Role.FRAME, field.left, field.bottom, field.left, field.top))
            if field.left == place.left and field.bottom > place.bottom:
                strokes.append(
                    line(Role.FRAME, place.left, field.bottom, place.right, field.bottom)
                )
        piece, _, _, scale = self._fields
        texts = [
            *self._named(self.piece, piece),
            *self._set(tuple(filter(None, (SCALE, self.job))), scale),
        ]
        foot = Box(place.left, place.bottom, place.right, place.bottom + foot_height(self.footer))
        texts += self._set(self.footer, foot)
        return Figure(place.right, place.top, tuple(strokes), tuple(texts))

    def own(self, ways: Sequence[str], kept: str, number: int) -> Figure:
        """What one sheet says of itself: its part, and which it is.

        Args:
            ways: to tell the part, the fullest first.
            kept: is added to each, and never cut short.
            number: of the sheet, from 1.
        """
        _, part, sheet, _ = self._fields
        told = next((words for words in ways if self._has_room(words + kept, part)), ways[-1])
        count = f"sheet {number} of {self.total}"
        texts = (*self._named(told, part, kept), *self._named(count, sheet))
        return Figure(self.place.right, self.place.top, texts=texts)

    @property
    def _fields(self) -> tuple[Box, Box, Box, Box]:
        """Where piece, part, sheet and scale stand."""
        left, right, room = self.place.left, self.place.right, 2 * PAD + Fraction(1, 10)
        sheet = self.lettering.width(f"sheet {self.total} of {self.total}", HEADING, True) + room
        scale = self.lettering.width(SCALE, BODY) + room
        rows = row_count(right - left)
        part = left + (right - left - sheet - scale) * PIECE
        middle = right - (max(sheet, scale) if rows == 2 else scale)
        places = {
            1: (
                (0, left, part),
                (0, part, middle - sheet),
                (0, middle - sheet, middle),
                (0, middle, right),
            ),
            2: ((0, left, middle), (1, left, middle), (0, middle, right), (1, middle, right)),
            3: ((0, left, right), (1, left, right), (2, left, middle), (2, middle, right)),
        }
        one, two, three, four = (
            Box(start, self.place.top - (row + 1) * ROW, stop, self.place.top - row * ROW)
            for row, start, stop in places[rows]
        )
        return one, two, three, four

    def _has_room(self, words: str, field: Box) -> bool:
        room = field.width - 2 * PAD
        return len(wrapped(words, room, BODY, self.lettering, bold=True)) <= 2

    def _named(self, words: str, field: Box, kept: str = "") -> Iterator[Text]:
        """A name, large on one line or smaller on two; it is cut short only past these."""
        room, told = field.width - 2 * PAD, words + kept
        cap = largest_cap(told, room, (HEADING, BODY), self.lettering)
        lines = wrapped(told, room, cap, self.lettering, bold=True)
        if len(lines) > 2:
            first, rest = (words, kept.lstrip(", ")) if kept else (lines[0], " ".join(lines[1:]))
            both = (shortened(line, room, cap, self.lettering, bold=True) for line in (first, rest))
            lines = tuple(both)
        return self._set(lines, field, cap, bold=True)

    def _set(
        self, lines: Sequence[str], field: Box, cap: Fraction = BODY, bold: bool = False
    ) -> Iterator[Text]:
        """Lines of words, their middle in the middle of a field."""
        middle = (field.bottom + field.top) / 2
        for number, words in enumerate(lines):
            up = (Fraction(len(lines) - 1, 2) - number) * cap * LINE_PITCH - cap / 2
            yield Text(words, (field.left + PAD, middle + up), cap, bold=bold)


def row_count(width: Fraction) -> int:
    """How many rows a block of that width has."""
    return 1 if width >= WIDE else 2 if width >= NARROW else 3


def block_height(width: Fraction, footer: Sequence[str]) -> Fraction:
    """How high a block of that width is."""
    return row_count(width) * ROW + foot_height(footer)


def foot_height(footer: Sequence[str]) -> Fraction:
    """How high the footer's own row is."""
    return len(footer) * LINE + PAD if footer else Fraction(0)
