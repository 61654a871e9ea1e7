"""A random job on any paper: no word of any page stands on a line, on a mark or on a word."""

import re
from pathlib import Path
from random import Random

from joinery_templates.build import pdf_of
from joinery_templates.jobs.reader import read_job
from joinery_templates.joints.catalogue import kinds
from tests.exhaustive.watched import CLOCK, Played
from tests.pdf.page_reading import read_pages
from tests.random_jobs import made
from tests.sheets.page_checks import collisions, out_of_sight, taping_faults

PAPERS = ("A6", "A5", "A4", "Letter", "Tabloid", "roll 610 mm", "190 x 260 mm")
"""As likely as the paper that the job came with: on small paper most patterns are taped."""
PRINTER = re.compile(r"\n\[printer\]\n(?:.+\n)+")
"""A profile leans a page, and the boxes of words with it; nothing comes to stand on anything."""
MOST_PAGES, MOST_MB = 120, 1000
"""Of one PDF; its reader keeps all that stands on them."""


def job_and_pdf(chance: Random) -> tuple[str, bytes]:
    """A random job, with its PDF."""
    kind = chance.choice(list(kinds().values()))
    paper = chance.choice(PAPERS) if chance.random() < 0.5 else None

    def draw(text: str) -> tuple[str, bytes]:
        text = PRINTER.sub("\n", text)
        if paper:
            text = re.sub(r"(?m)^size = .*", f'size = "{paper}"', text)
        CLOCK.start_anew()
        return text, pdf_of(read_job(text))[0]

    return made(kind, chance, draw)


def faults_of(pdf: bytes) -> list[str]:
    """Each word and match mark that touches something, on the first pages of a PDF.

    Where these are all, each word that is on no sheet too.
    """
    pages = read_pages(pdf, MOST_PAGES)
    faults = [
        f"page {number}: {fault}"
        for number, page in enumerate(pages, start=1)
        for fault in (*collisions(page), *taping_faults(page))
    ]
    return faults + ([] if len(pages) == MOST_PAGES else [*out_of_sight(pages)])


def played(chance: Random, folder: Path) -> Played:
    text, pdf = job_and_pdf(chance)
    CLOCK.stop()  # reading the pages is no work of the program
    return text, faults_of(pdf)
