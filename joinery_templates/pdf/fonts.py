"""The embedded fonts, how wide words run in them, and signs that they lack."""

import re
import unicodedata
from functools import cache, lru_cache
from itertools import groupby
from pathlib import Path
from typing import Any

import joinery_templates
from joinery_templates.drawings.direction import (
    RIGHT_TO_LEFT,
    has_right_to_left,
    stretches,
    without_signs,
)
from joinery_templates.errors import MachineError, mistake
from joinery_templates.exact import Fraction, as_float, rounded
from joinery_templates.libraries import by_themselves

REGULAR = "DejaVuSansCondensed"
BOLD = "DejaVuSansCondensed-Bold"
EASTERN = "DroidSansFallback"
"""Chinese, Japanese and Korean signs, in one weight; read only when a name has some."""
EASTERN_SHARE = Fraction(87, 100)
"""Size of those signs beside letters, so that they reach no higher than letters do."""
CAP_HEIGHT = Fraction(1493 * 1000, 2048)
"""Height of an H in thousandths of the font size, measured off the outlines; the figure
that the font file itself states is 4 % too high."""
_WHOLE = Fraction(1)
STAND_IN = "□"
"""Printed for a sign that the fonts lack, so that its absence is seen."""
_JOINER = "\u034f"
"""A mark that is never seen: which side of a bracket it stands on tells how that runs."""


class DejaVu:
    """The project's lettering; answers `drawings.lettering.Lettering`."""

    def width(self, words: str, cap: Fraction, bold: bool = False) -> Fraction:
        """Width in mm of words whose capitals are `cap` mm high."""
        return cap * _thousandths(words, bold) / CAP_HEIGHT


@cache
def load(name: str) -> Any:
    """A font, read from its file and made known to reportlab.

    Raises:
        MachineError: where the font files that belong to the program are missing.
    """
    with by_themselves():
        from reportlab.pdfbase import pdfmetrics
        from reportlab.pdfbase.ttfonts import TTFError

        from joinery_templates.pdf import typeface

    path = font_file(name)
    try:
        font = typeface.font(name, str(path))
    except (TTFError, OSError) as error:
        raise MachineError(
            mistake("font-missing", f"The font {path.name} cannot be read.", "Install again.")
        ) from error
    pdfmetrics.registerFont(font)
    return font


@lru_cache(maxsize=64)
def size_pt(cap: Fraction, bold: bool) -> float:
    """The font size in points at which capitals are `cap` mm high."""
    load(BOLD if bold else REGULAR)
    return as_float(cap * 360 / 127 * 1000 / CAP_HEIGHT)


def printable(words: str) -> str:
    """Words with a stand-in for every sign that would print as a blank or break the file."""
    composed = unicodedata.normalize("NFC", without_signs(words))
    return "".join(sign if _is_known(sign) or _is_eastern(sign) else STAND_IN for sign in composed)


def missing_signs(words: str) -> str:
    """The signs in words that the fonts lack, each once, in order."""
    composed = unicodedata.normalize("NFC", words)
    lacking = (s for s, shown in zip(composed, printable(words), strict=True) if s != shown)
    return "".join(dict.fromkeys(lacking))


@lru_cache(maxsize=4096)
def runs(words: str, bold: bool) -> tuple[tuple[str, Fraction, str], ...]:
    """One line of words as it is printed from left to right.

    Returns:
        Stretches of one font: its name, its share of the font size, the signs.
    """
    name = BOLD if bold else REGULAR
    if words and (_is_plain(words) or _is_known_throughout(words)):
        return ((name, _WHOLE, words),)
    line = "".join(_in_order(printable(part), towards) for part, towards in stretches(words))
    return tuple(
        (name, _WHOLE, "".join(signs)) if ours else (EASTERN, EASTERN_SHARE, "".join(signs))
        for ours, signs in groupby(line, key=_is_known)
    )


def _in_order(words: str, towards: str) -> str:
    """Hebrew and Arabic in the order in which they stand on paper, Arabic letters joined.

    What is put in order tells nothing of brackets, which are turned where they run
    leftwards (rule L4 of Unicode Standard Annex 9): a mark after each, which stays with it
    as marks do, comes before it there.
    """
    if not has_right_to_left(words):
        return words
    with by_themselves():
        from arabic_reshaper import reshape
        from bidi import get_display
        from bidi.mirror import MIRRORED

    marked = (s + _JOINER if s in MIRRORED else s for s in reshape(words) if s != _JOINER)
    base = "R" if towards == RIGHT_TO_LEFT else "L"
    shown = str(get_display("".join(marked), base_dir=base))
    brackets = re.escape("".join(MIRRORED))
    turned = re.sub(
        f"([{brackets}]){_JOINER}|{_JOINER}(.)", lambda m: m[1] or MIRRORED[m[2]], shown
    )
    return printable(turned)


@lru_cache(maxsize=4096)
def _thousandths(words: str, bold: bool) -> int:
    """How wide words run, in thousandths of the font size; each string is measured once."""
    if _is_plain(words):
        widths = load(BOLD if bold else REGULAR).face.charWidths
        thousandths: int = round(sum(map(widths.__getitem__, words.encode())))
        return thousandths
    total = Fraction(0)
    for name, share, signs in runs(words, bold):
        widths = load(name).face.charWidths
        total += share * round(sum(map(widths.__getitem__, map(ord, signs))))
    return rounded(total)


def _is_eastern(sign: str) -> bool:
    """Whether the font that is read on demand has a sign that the others lack."""
    # All that it has beyond them stands past the signs of western scripts.
    return 0x1100 <= ord(sign) <= 0xFFFF and ord(sign) in load(EASTERN).face.charToGlyph


def _is_plain(words: str) -> bool:
    """Whether all signs are printed as they stand, as those of nearly all words are."""
    return words.isascii() and words.isprintable()


def _is_known_throughout(words: str) -> bool:
    """Whether words with signs beyond ASCII are printed as they stand, too."""
    is_in_order = words.isprintable() and not has_right_to_left(words)
    return is_in_order and unicodedata.is_normalized("NFC", words) and all(map(_is_known, words))


@cache
def _is_known(sign: str) -> bool:
    """Whether both weights have a sign; those past U+FFFF break a PDF's list of letters."""
    code = ord(sign)
    return code <= 0xFFFF and all(code in load(n).face.charToGlyph for n in (REGULAR, BOLD))


@cache
def font_file(name: str) -> Path:
    """Where the file of a font lies."""
    return _folder() / f"{name}.ttf"


def _folder() -> Path:
    """The fonts' folder: inside the installed package, or at the top of a checkout."""
    package = Path(joinery_templates.__file__).parent
    inside = package / "fonts"
    return inside if inside.is_dir() else package.parent / "fonts"
