"""True on paper: a printer that errs, measured on its calibration sheet, draws true lines.

The printer is simulated, the sheet is measured on its rendered picture, the readings go
through the real command, and the lines that come out are read by pdfminer.
"""

import math
import os
import random
from functools import cache
from itertools import cycle
from pathlib import Path
from unittest import mock

import numpy as np
import pytest

from joinery_templates.sheets.calibration import rectangle
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import find_paper
from tests.cli.command_line import run
from tests.pdf.page_reading import read_pages
from tests.printers.simulated_printer import (
    Printer,
    Sheet,
    corners_seen,
    misfit,
    read_by_lines,
    read_by_rule,
)
from tests.printers.small_job import SMALL_JOB

TRUE_WITHIN = 0.05
"""In mm, over a page on which lines run 250 mm."""
NAMED = Printer(1.004, 0.996, 0.15, turn_deg=0.2, moved=(1.5, -0.8))
chance = random.Random(1906)
PRINTERS = [
    NAMED,
    Printer(1.004, 0.996, -0.15, moved=(-1.0, 0.4)),
    *(
        Printer(
            chance.uniform(0.99, 1.01),
            chance.uniform(0.99, 1.01),
            chance.uniform(-0.5, 0.5),
            chance.uniform(-0.3, 0.3),
            (chance.uniform(-1.5, 1.5), chance.uniform(-1.5, 1.5)),
        )
        for _ in range(2)
    ),
]


@pytest.fixture(scope="module")
def bench(tmp_path_factory):
    """A folder with the calibration sheet and a job, and the program's own settings in it."""
    folder = tmp_path_factory.mktemp("bench")
    (folder / "job.toml").write_text(SMALL_JOB, encoding="utf-8")
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(folder / "settings")}):
        assert run("calibrate", "-o", folder / "sheet.pdf").code == 0
        # True readings change nothing, and their footer leaves the page the room that others do.
        keep({"across": "162", "along": "216", "rising": "270", "falling": "270"})
        plain = ("--printer", "Press", "-o", folder / "plain.pdf")
        assert run("draw", folder / "job.toml", *plain).code == 0
        yield folder


def stated_corners() -> dict[str, tuple[float, float]]:
    """Where the rectangle stands on the sheet as drawn."""
    frame = Frame(find_paper("A4"), Margins())
    stated = rectangle(frame)
    width, height = float(stated.across), float(stated.along)
    left, bottom = float(frame.area.left) + 10, float(frame.area.bottom) + 10
    return {
        "lower left": (left, bottom),
        "lower right": (left + width, bottom),
        "upper left": (left, bottom + height),
        "upper right": (left + width, bottom + height),
    }


def seen_on(printer: Printer, sheet: Sheet) -> dict[str, tuple[float, float]]:
    stated = stated_corners()
    landed = printer.printed(np.array(list(stated.values())))
    guess = {name: (x, y) for name, (x, y) in zip(stated, landed.tolist(), strict=True)}
    return corners_seen(sheet, guess)


def measured(bench: Path, printer: Printer, by_line: bool) -> dict[str, str]:
    """What a person reads off the sheet that this printer prints."""
    sheet = Sheet(printer.paper((bench / "sheet.pdf").read_bytes()))
    corners = seen_on(printer, sheet)
    return read_by_lines(sheet, corners) if by_line else read_by_rule(corners)


def keep(readings: dict[str, str]) -> None:
    options = [part for name, told in readings.items() for part in (f"--{name}", told)]
    kept = run("calibrate", "Press", *options, "--date", "1 May")
    assert kept.code == 0, kept.messages


@cache
def points(content: bytes) -> list[np.ndarray]:
    """Both ends of every stroke that lies on its page, page by page."""
    pages = []
    for page in read_pages(content):
        ends = [(line.start, line.end) for one in page.placements for line in one.lines]
        pages.append(np.array(ends).reshape(-1, 2))
    return pages


def worst(bench: Path, printer: Printer, drawn: Path) -> float:
    """The largest misfit of any page, printed, against the pages as they should be."""
    true, corrected = (points(path.read_bytes()) for path in (bench / "plain.pdf", drawn))
    misfits = []
    for one, other in zip(true, corrected, strict=True):
        assert np.ptp(one[:, 1]) > 250, "the check covers 250 mm"
        misfits.append(misfit(one, printer.printed(other)))
    return max(misfits)


@pytest.mark.parametrize(
    ("printer", "by_line"), [*zip(PRINTERS, cycle([True, False])), (NAMED, False)]
)
def test_lines_of_a_measured_printer_are_true_on_paper(bench, printer, by_line):
    keep(measured(bench, printer, by_line))
    drawn = bench / "corrected.pdf"
    assert run("draw", bench / "job.toml", "--printer", "Press", "-o", drawn).code == 0
    left = worst(bench, printer, drawn)
    uncorrected = worst(bench, printer, bench / "plain.pdf")
    print(f"{printer}: {uncorrected:.3f} mm before, {left:.3f} mm after")
    assert left <= TRUE_WITHIN
    assert uncorrected > 4 * TRUE_WITHIN


def test_a_correction_the_wrong_way_round_would_be_seen(bench):
    """The diagonals exchanged: the skew is then doubled, not undone."""
    readings = measured(bench, NAMED, by_line=False)
    readings["rising"], readings["falling"] = readings["falling"], readings["rising"]
    keep(readings)
    drawn = bench / "wrong.pdf"
    assert run("draw", bench / "job.toml", "--printer", "Press", "-o", drawn).code == 0
    assert worst(bench, NAMED, drawn) > 0.3


def test_the_picture_is_measured_rightly(bench):
    """The true sheet reads as stated, and a printer's lengths as its map makes them."""
    sheet = (bench / "sheet.pdf").read_bytes()
    for printer in (Printer(), NAMED):
        seen = seen_on(printer, Sheet(printer.paper(sheet)))
        for name, (x, y) in stated_corners().items():
            landed = printer.printed(np.array([[x, y]]))[0]
            assert math.dist(seen[name], landed) < 0.012, name
