"""The legend explains what is drawn in its own job, and nothing else."""

from pathlib import Path

import pytest

from joinery_templates.drawings.figure import Role
from joinery_templates.drawings.look import PENS
from tests.pdf.drawn_jobs import pages_from
from tests.pdf.page_reading import HATCH

SAMPLES = Path(__file__).parents[2] / "sample_jobs"
WORDS = {
    Role.SAW: "sawn: beside the line, on the waste side",
    Role.KNIFE: "knifed or gauged",
    Role.GUIDE: "line carried across",
    Role.GROOVE: "groove or rebate along the board",
    Role.FOLD: "fold: lies on the arris",
    Role.TRIM: "cut the paper here",
    Role.OPEN_HATCH: "waste that stops",
    Role.SEAM: "seam: one sheet is cut",
}
"""Roles whose pen no other role has, and what the legend says of them."""


@pytest.mark.parametrize(
    "name",
    [
        "jewel_box",
        "tea_box",
        "bench_top",
        "kitchen_drawer",
        "plate_rack",
        "cabinet_door",
        "lantern",
    ],
)
def test_the_legend_has_an_entry_for_every_line_of_the_job_and_no_other(name):
    pages = pages_from((SAMPLES / f"{name}.toml").read_text("utf-8"))
    overview = [page for page in pages if "Overview" in said(page)]
    told = " ".join(map(said, overview))
    lines = (line for page in pages if page not in overview for line in page.lines)
    pens = {line.pen for line in lines if line.pen != HATCH}
    pens = {(round(width, 2), tuple(round(dash, 2) for dash in dashes)) for width, dashes in pens}
    assert "hole that is bored" not in told
    for role, words in WORDS.items():
        is_drawn = (PENS[role].width, PENS[role].dash) in pens
        assert (words in told) == is_drawn, (name, role)
    crossed = any("crosses stand in the waste" in said(page) for page in pages)
    assert ("a cross between two: waste" in told) == crossed


def said(page) -> str:
    return " ".join(words.text for words in page.words)
