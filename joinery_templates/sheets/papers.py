"""Paper sizes, from A4 to a roll, and how a person names them.

Every page is portrait: patterns are turned instead, because a print chain that
turns pages may also scale them. Sizes in inches and the names of the architectural
sizes are from memory; ISO 216 sizes follow from its halving rule.
"""

import difflib
import re
import unicodedata
from collections.abc import Iterator
from enum import StrEnum
from functools import cache

from msgspec import Struct

from joinery_templates.errors import Finding, InputError, mistake, refusal
from joinery_templates.exact import Fraction, floor
from joinery_templates.lengths import INCH, Units, length_text, mm_text, read_length

SMALLEST = (Fraction(74), Fraction(105))
"""A7: less has no room for a ruler beside a pattern (our judgement)."""

LARGEST = Fraction(5080)
"""14,400 points of 1/72 in: the longest page that PDF viewers take."""

POINT = INCH / 72
"""The unit of a PDF page (ISO 32000-1, 8.3.2.3, from memory) in mm."""

# ANSI/ASME Y14.1 and the architectural series, in inches; all from memory.
_SIZES_IN_INCHES = (
    ("Letter", "8.5", "11"),
    ("Legal", "8.5", "14"),
    ("Tabloid", "11", "17"),
    ("Executive", "7.25", "10.5"),
    ("Statement", "5.5", "8.5"),
    ("Super B", "13", "19"),
    ("ANSI A", "8.5", "11"),
    ("ANSI B", "11", "17"),
    ("ANSI C", "17", "22"),
    ("ANSI D", "22", "34"),
    ("ANSI E", "34", "44"),
    ("ANSI F", "28", "40"),
    ("Arch A", "9", "12"),
    ("Arch B", "12", "18"),
    ("Arch C", "18", "24"),
    ("Arch D", "24", "36"),
    ("Arch E", "36", "48"),
    ("Arch E1", "30", "42"),
    ("Arch E2", "26", "38"),
    ("Arch E3", "27", "39"),
)
# Common practice, no source. Ledger is the same sheet as tabloid, named lying down.
_OTHER_NAMES = {
    "US Letter": "Letter",
    "8.5 x 11": "Letter",
    "8 1/2 x 11": "Letter",
    "US Legal": "Legal",
    "Ledger": "Tabloid",
    "11 x 17": "Tabloid",
    "Half letter": "Statement",
    "A3+": "Super B",
    "13 x 19": "Super B",
    "B4 JIS": "JIS B4",
    "B5 JIS": "JIS B5",
    **{f"Architectural {letter}": f"Arch {letter}" for letter in "ABCDE"},
}
_LONGEST_TEXT = 60
_REMEDY = (
    'Write a name such as "A4", "Letter" or "Arch D", a size such as "300 x 420 mm", '
    'or a roll such as "roll 610 mm".'
)


class Family(StrEnum):
    """Where a paper size comes from."""

    ISO = "ISO"
    JIS = "JIS"
    NORTH_AMERICA = "North America"
    ROLL = "roll"
    CUSTOM = "custom"


class Paper(Struct, frozen=True):
    """A sheet of paper, portrait, or a roll of which the length is still open.

    Attributes:
        name: as it is told to the person, such as ``A4`` or ``300 x 420 mm``;
            `find_paper` reads it back.
        width: in mm; of a roll always across the roll.
        height: in mm; 0 while the length of a roll is open.
        family: where the size comes from.

    Raises:
        InputError: `paper-too-small` or `paper-too-large`.
        ValueError: landscape, which only a short piece off a roll may be.
    """

    name: str
    width: Fraction
    height: Fraction
    family: Family

    def __post_init__(self) -> None:
        finding = _outside_limits(self)
        if finding:
            raise InputError(finding)
        if self.width > self.height and self.family is not Family.ROLL:
            raise ValueError(f"paper {self.name!r} is landscape; a page is portrait")

    @property
    def width_pt(self) -> int:
        """The width of the page in whole points."""
        return _whole_points(self.width)

    @property
    def height_pt(self) -> int:
        """The height of the page in whole points."""
        return _whole_points(self.height)

    @property
    def is_open_roll(self) -> bool:
        """Whether this is a roll that still needs a length."""
        return self.family is Family.ROLL and self.height == 0

    def with_length(self, length: Fraction, units: Units = Units.MM) -> "Paper":
        """A piece of this roll.

        Args:
            length: along the roll, in mm.
            units: in which the name tells the length.

        Raises:
            InputError: `paper-too-small` or `paper-too-large`.
            ValueError: this is not an open roll.
        """
        if not self.is_open_roll:
            raise ValueError(f"paper {self.name!r} is not a roll of open length")
        if length <= 0:
            raise InputError(_too_small(f"{self.name} x {mm_text(length)}"))
        name = f"{self.name} x {length_text(length, units)}"
        return Paper(name, self.width, length, Family.ROLL)


def find_paper(text: str, units: Units = Units.MM) -> Paper:
    """The paper that a person means.

    Args:
        text: a name in any spelling of capitals and spaces (``a4``, ``ANSI C``,
            ``half letter``), a size (``300 x 420 mm``, ``8 1/2 x 11 in``, either side
            first) or a roll (``roll 610``, ``roll 24 in``, ``roll 610 x 2000 mm``).
        units: of a size or a roll that names none.

    Raises:
        InputError: `paper-unknown`, `paper-too-small`, `paper-too-large`.
    """
    if len(text) > _LONGEST_TEXT:
        raise _unknown(text)
    name = _names().get(_key(text))
    if name:
        return Paper(name, *_SIZES[name])
    roll = re.fullmatch(r"roll[\s:-]*(?P<after>.+)|(?P<before>.+)\broll", text.strip().lower())
    paper = _read_roll(roll["after"] or roll["before"], units) if roll else _read_sheet(text, units)
    if paper is None:
        raise _unknown(text)
    return paper


def known_papers() -> tuple[Paper, ...]:
    """Every sheet with a name that is large enough, family by family; rolls are not listed."""
    return tuple(
        Paper(name, width, height, family)
        for name, (width, height, family) in _SIZES.items()
        if width >= SMALLEST[0] and height >= SMALLEST[1]
    )


def _whole_points(length: Fraction) -> int:
    """Points rounded down.

    A page of A4 to the last decimal, 595.276 x 841.890 pt, is larger than the A4 of most
    printer drivers, and some programs then shrink it without a word (measured). A page
    that is a fraction of a point smaller is never shrunk.
    """
    return floor(length / POINT)


def _outside_limits(paper: Paper) -> Finding | None:
    length = LARGEST if paper.is_open_roll else paper.height
    shorter, longer = sorted((paper.width, length))
    if longer > LARGEST:
        return mistake(
            "paper-too-large",
            f"Paper {paper.name} is larger than {mm_text(LARGEST)}, the longest page that can "
            "be shown and printed.",
            "Choose a smaller size: templates are spread over several sheets.",
        )
    return _too_small(paper.name) if shorter < SMALLEST[0] or longer < SMALLEST[1] else None


def _too_small(name: str) -> Finding:
    return mistake(
        "paper-too-small",
        f"Paper {name} is too small; the smallest is 74 x 105 mm (A7).",
        'Choose a larger one. Sizes in inches name their unit, such as "12 x 18 in".',
    )


def _unknown(text: str) -> InputError:
    shown = text if len(text) <= _LONGEST_TEXT else f"{text[:_LONGEST_TEXT]}…"
    near = difflib.get_close_matches(_key(shown), _names(), n=1, cutoff=0.7)
    guess = f'Did you mean "{_names()[near[0]]}"? ' if near else ""
    return refusal("paper-unknown", f"No paper is called {shown!r}.", f"{guess}{_REMEDY}")


def _read_sheet(text: str, units: Units) -> Paper | None:
    """A size written as two lengths, turned to portrait."""
    sides, told = _read_sides(text, units)
    if len(sides) != 2:
        return None
    width, height = sorted(sides)
    name = f"{length_text(width, told).removesuffix(f' {told}')} x {length_text(height, told)}"
    return Paper(name, width, height, Family.CUSTOM)


def _read_roll(text: str, units: Units) -> Paper | None:
    """A roll from what stands beside the word: its width, perhaps also a length."""
    sides, told = _read_sides(text, units)
    if not sides:
        return None
    roll = Paper(f"roll {length_text(sides[0], told)}", sides[0], Fraction(0), Family.ROLL)
    return roll.with_length(sides[1], told) if len(sides) == 2 else roll


def _read_sides(text: str, units: Units) -> tuple[list[Fraction], Units]:
    """One or two lengths, and the units in which they were written.

    A length without a unit has the unit of the other, but for feet and metres: a roll
    of "610 x 2 m" is 610 mm wide. Nothing is found where one of them cannot be read.
    """
    pieces = re.split(r"[x×✕*]|\bby\b", text.lower())
    written = [re.findall(r"[a-z]+|[\"'″”′’]+", piece) for piece in pieces]
    unit = next((found[-1] for found in reversed(written) if found), str(units))
    shared = str(units) if unit in {"m", "ft", "foot", "feet"} else unit
    try:
        sides = [
            read_length(piece if found else f"{piece.strip()} {shared}", units)
            for piece, found in zip(pieces, written, strict=True)
        ]
    except InputError:
        sides = []
    told = Units.MM if unit in {"mm", "cm", "m"} else Units.INCH
    return (sides if len(sides) <= 2 else []), told


def _key(name: str) -> str:
    """A name without what people spell differently: capitals, spaces, hyphens."""
    return re.sub(r"[\s_-]", "", unicodedata.normalize("NFKC", name).casefold()).replace("×", "x")


def _halvings(series: str, width: int, height: int) -> Iterator[tuple[str, int, int]]:
    """A sheet and the ten that come of halving its longer side again and again.

    ISO 216 (from memory): the half is rounded down to whole millimetres.
    """
    for number in range(11):
        yield f"{series}{number}", width, height
        width, height = height // 2, width


def _sizes() -> Iterator[tuple[str, Fraction, Fraction, Family]]:
    """Every named size in the order of the listing."""
    for name, width, height in (
        ("2A0", 1189, 2 * 841),
        *_halvings("A", 841, 1189),
        *_halvings("B", 1000, 1414),
        ("SRA3", 320, 450),
    ):
        yield name, Fraction(width), Fraction(height), Family.ISO
    for name, width, height in (("JIS B4", 257, 364), ("JIS B5", 182, 257)):
        yield name, Fraction(width), Fraction(height), Family.JIS
    for name, width_in, height_in in _SIZES_IN_INCHES:
        yield name, Fraction(width_in) * INCH, Fraction(height_in) * INCH, Family.NORTH_AMERICA


_SIZES = {name: (width, height, family) for name, width, height, family in _sizes()}


@cache
def _names() -> dict[str, str]:
    """The name of a size for every spelling of it that is understood."""
    spellings = dict(_OTHER_NAMES)
    for name, (_, _, family) in _SIZES.items():
        spellings[name] = name
        if family is Family.ISO:
            spellings |= {f"ISO {name}": name, f"DIN {name}": name}
    return {_key(spelling): name for spelling, name in spellings.items()}
