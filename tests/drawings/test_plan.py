"""The plan on the first page: as long and as wide as the boards, with the corners that are cut."""

from fractions import Fraction
from pathlib import Path

import pytest

from joinery_templates.drawings.figure import Figure, Role
from joinery_templates.jobs.reader import read_job
from joinery_templates.patterns import plans
from joinery_templates.pdf.fonts import DejaVu

SAMPLES = Path(__file__).parents[2] / "sample_jobs"


def plan(job: str) -> Figure:
    (figure,) = plans(
        read_job((SAMPLES / f"{job}.toml").read_text("utf-8")), Fraction(175), DejaVu()
    )
    return figure


def extents(figure: Figure) -> tuple[float, float]:
    """How wide and high the piece is drawn, thin proud ends among it."""
    ends = [end for s in figure.strokes if s.role is Role.FRAME for end in (s.start, s.end)]
    across, up = zip(*ends, strict=True)
    return float(max(across) - min(across)), float(max(up) - min(up))


def leaning(figure: Figure) -> set[float]:
    """How steeply lines of the plan run that are neither level nor upright."""
    return {
        round(abs(float((s.end[1] - s.start[1]) / (s.end[0] - s.start[0]))), 3)
        for s in figure.strokes
        if s.start[0] != s.end[0] and s.start[1] != s.end[1]
    }


@pytest.mark.parametrize(
    ("job", "front", "side"),
    [
        ("tea_box", 7, 10),
        ("jewel_box", 220, 150),
        ("blanket_chest", 42, 20),
        ("pencil_tray", 11, 6),
    ],
)
def test_the_piece_is_as_much_longer_than_wide_as_its_boards(job, front, side):
    """From the job files: the length of the boards in front and at the sides."""
    across, up = extents(plan(job))
    assert across / up == pytest.approx(front / side, rel=0.03)


def test_a_mitre_is_drawn_as_a_mitre_and_a_through_dovetail_shows_no_slant():
    """Boards of one thickness meet at 45 degrees at the jewel box's upper edges."""
    assert 1.0 in leaning(plan("jewel_box"))
    assert leaning(plan("tea_box")) == set()


def test_below_the_half_pin_the_tails_are_dashed():
    """Seen from above the pins' board hides that the tails run through to the outside."""
    assert any(s.role is Role.GUIDE for s in plan("tea_box").strokes)
