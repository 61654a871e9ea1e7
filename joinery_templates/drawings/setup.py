"""How patterns are drawn: what holds for all of a joint."""

from msgspec import Struct

from joinery_templates.drawings.lettering import Lettering
from joinery_templates.drawings.look import TITLE
from joinery_templates.drawings.waste_words import Saying
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Tell, Units, teller


class DrawingSetup(Struct, frozen=True):
    """How patterns are drawn.

    Attributes:
        lettering: how wide words run.
        units: of figures.
        sheet: width and height that one sheet offers; a wrap that misses it by its
            label gets a smaller name there, or fewer words.
        paper: thickness of the paper, which a wrap's fold takes up.
        seams: places across the board, from the reference edge, where the person wants
            a pattern cut that does not fit on one sheet.
        kerf: how wide the saw cuts, where that is to be seen.
        piece: the job's title.
        both: whether figures of tools are told in both kinds of units.
        also: which other corners the piece in hand is at, where there are several alike.
        largest: how high the capitals of a name may be.
    """

    lettering: Lettering
    units: Units
    sheet: tuple[Fraction, Fraction]
    paper: Fraction = Fraction(0)
    seams: tuple[Fraction, ...] = ()
    kerf: Fraction | None = None
    piece: str = ""
    both: bool = False
    also: str = ""
    largest: Fraction = TITLE

    @property
    def tell(self) -> Tell:
        """How figures of tools are said."""
        return teller(self.units, self.both)

    @property
    def saying(self) -> Saying:
        """How words are said on a face."""
        return Saying(self.lettering, self.units, self.kerf)

    def shared_by(self, width: Fraction, height: Fraction) -> int:
        """How many patterns of this size stand on one sheet, upright and edge to edge."""
        return int(self.sheet[0] // width) * int(self.sheet[1] // height)

    def takes(self, width: Fraction, height: Fraction) -> bool:
        """Whether one sheet takes a pattern of this size, upright or turned."""
        short, long = sorted((width, height))
        return short <= min(self.sheet) and long <= max(self.sheet)
