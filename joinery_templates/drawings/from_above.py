"""What sketches of a piece from above have in common: where its corners are, and its words.

Corners go clockwise, A at the near left; who looks at the sketch stands at its foot.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from joinery_templates.drawings.figure import Align, Figure, Point, Stroke, Text
from joinery_templates.drawings.lettering import ASCENT, DESCENT, Lettering, fitted, wrapped
from joinery_templates.drawings.look import BODY, HEADING
from joinery_templates.drawings.placing import Ground

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
    ) -> Iterator[Text]:
        """A board's name along it, so far into the piece, in the order in which rows are read."""
        for number, words in enumerate(rows):
            inwards = off + ROW * (len(rows) - 1 - number if far == at_side else number)
            # The feet of letters are below, or right of letters that are turned.
            foot = inwards + BODY * (DESCENT if far == at_side else ASCENT)
            if at_side:
                x = self.across - foot if far else foot
                yield Text(words, (x, self.along / 2), BODY, Align.CENTRE, 90, stays=True)
            else:
                y = self.along - foot if far else foot
                yield Text(words, (self.across / 2, y), BODY, Align.CENTRE, stays=True)

    def figure(self, strokes: Iterable[Stroke], texts: Iterable[Text]) -> Figure:
        """The sketch; a board's name without room is left out rather than put on another."""
        drawn, said = tuple(dict.fromkeys(strokes)), list[Text]()
        ground = Ground(self.lettering)
        for text in texts:
            said += ground.placed((text,)) if text.stays else (text,)
            ground.write(said[-1:])
        return fitted(drawn, tuple(said), self.lettering)
