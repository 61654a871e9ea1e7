"""What sketches of a piece from above have in common: where its corners are, and its words.

Corners go clockwise, A at the near left; who looks at the sketch stands at its foot.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Stroke, Text, distinct
from joinery_templates.drawings.lettering import ASCENT, DESCENT, Lettering, fitted, wrapped
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground
from joinery_templates.exact import Fraction

GAP = Fraction(6, 5)
NAME_PITCH = HEADING * 5 / 4
"""Of the rows of a corner's name."""
ROW = BODY * (ASCENT + DESCENT) + GAP
HALF = Fraction(20)
"""Room for a corner's name, also where half of the piece is drawn narrower."""
PLACES = {"A": "near left", "B": "far left", "C": "far right", "D": "near right"}
SIDES = {False: ("AD", "BC"), True: ("AB", "CD")}
"""The corners at the ends of boards across, and of those at the sides; near or left ones first."""


class FromAbove(Struct, frozen=True):
    """A piece on the paper, its near left corner at (0, 0).

    Attributes:
        across: how wide it is drawn.
        along: how deep.
        lettering: how wide words run.
    """

    across: Fraction
    along: Fraction
    lettering: Lettering

    def point(self, letter: str, across: Fraction, along: Fraction) -> Point:
        """A point so far into the piece from one of its corners."""
        return (
            self.across - across if letter in "CD" else across,
            self.along - along if letter in "BC" else along,
        )

    def corner_names(self, names: Mapping[str, str], away: Fraction) -> Iterator[Text]:
        """What corners are called, so far off the piece, and on which side the reader stands."""
        low, middle = Fraction(0), self.across / 2
        half = max(middle, HALF)
        for letter, name in names.items():
            is_right = letter in "CD"
            x, align = (middle + half, Align.RIGHT) if is_right else (middle - half, Align.LEFT)
            rows = wrapped(name, half - GAP, HEADING, self.lettering, bold=True)
            top = self.along + away + (len(rows) - 1) * NAME_PITCH
            if letter in "AD":
                top = -away - HEADING
            for number, words in enumerate(rows):
                y = top - number * NAME_PITCH
                low = min(low, y)
                yield Text(words, (x, y), HEADING, align, bold=True)
        yield Text("towards you", (middle, low - ROW), BODY, Align.CENTRE)

    def board_name(
        self, rows: Sequence[str], at_side: bool, far: int, off: Fraction
    ) -> Iterator[tuple[Text, ...]]:
        """Ways to write a board's name along it: so far into the piece, or beside a narrow one."""
        yield self._along(rows, at_side, far, off)
        if self.across < 2 * HALF:
            yield self._along(rows, at_side, far, -ROW * len(rows))

    def _along(
        self, rows: Sequence[str], at_side: bool, far: int, off: Fraction
    ) -> tuple[Text, ...]:
        """Rows of a name in the order in which they are read."""
        texts = list[Text]()
        for number, words in enumerate(rows):
            inwards = off + ROW * (len(rows) - 1 - number if far == at_side else number)
            # The feet of letters are below, or right of letters that are turned.
            foot = inwards + BODY * (DESCENT if far == at_side else ASCENT)
            if at_side:
                x = self.across - foot if far else foot
                texts.append(Text(words, (x, self.along / 2), BODY, Align.CENTRE, 90))
            else:
                y = self.along - foot if far else foot
                texts.append(Text(words, (self.across / 2, y), BODY, Align.CENTRE))
        return tuple(texts)

    def figure(
        self,
        strokes: Iterable[Stroke],
        texts: Iterable[Text],
        names: Iterable[Iterable[tuple[Text, ...]]],
    ) -> Figure:
        """The sketch; a board's name without room is left out rather than put on anything.

        Args:
            strokes: its lines.
            texts: words that must stand.
            names: of boards, each with the ways to write it.
        """
        drawn, said = distinct(strokes), [*texts]
        ground = Ground(self.lettering, drawn, said)
        for ways in names:
            said += ground.placed_together(ways)
        return fitted(drawn, tuple(said), self.lettering)
