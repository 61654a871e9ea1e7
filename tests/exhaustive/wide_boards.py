"""A random job of wide boards, so that its patterns are taped: nothing touches anything."""

import re
from pathlib import Path
from random import Random

from joinery_templates.exact import Fraction
from joinery_templates.joints.catalogue import kinds
from joinery_templates.joints.kind import Kind
from joinery_templates.lengths import Units, read_length
from tests.exhaustive import words_on_lines
from tests.exhaustive.watched import CLOCK, Played
from tests.exhaustive.words_on_lines import PRINTER, faults_of
from tests.measure.drawn_and_measured import Drawn, drawn
from tests.random_jobs import made

MOST_MB = words_on_lines.MOST_MB
PAPERS = ("A5", "A4", "A4", "Letter", "A3")
NARROWEST = 20
WIDTH = re.compile(r'(?m)^width = (?:"(?P<told>[^"]*)"|(?P<bare>[\d.]+))$')


def job_and_pages(chance: Random, kind: Kind | None = None) -> tuple[str, Drawn]:
    """A random job of boards 300 to 900 mm wide, with its pages.

    Of a kind that is asked for it has one joint of boards that just need taping, in one view at
    one corner.
    """
    is_small, kind = kind is not None, kind or chance.choice(list(kinds().values()))
    paper = chance.choice(PAPERS[:-1] if is_small else PAPERS)
    widest = chance.randint(200, 240) if is_small else chance.randint(300, 900)

    def draw(text: str) -> tuple[str, Drawn]:
        text = stretched(PRINTER.sub("\n", text), widest)
        text = re.sub(r"(?m)^size = .*", f'size = "{paper}"', text)
        CLOCK.start_anew()
        return text, drawn(text)

    return made(kind, chance, draw, is_small)


def stretched(text: str, widest: int) -> str:
    """A job file with its boards made wider, all alike, so that the widest is so wide.

    A narrow one beside a very wide one is not made narrower than `NARROWEST`.
    """
    units = Units.INCH if 'units = "in"' in text else Units.MM

    def width(found: re.Match[str]) -> Fraction:
        return read_length(found["told"] or found["bare"], units)

    share = widest / max(map(width, WIDTH.finditer(text)))

    def made(found: re.Match[str]) -> str:
        own = width(found)
        return f'width = "{float(max(own * share, min(own, NARROWEST))):.4f} mm"'

    return WIDTH.sub(made, text)


def played(chance: Random, folder: Path) -> Played:
    text, pages = job_and_pages(chance)
    CLOCK.stop()  # reading the pages is no work of the program
    return text, faults_of(pages.content)
