"""Strips, divider walks and cards of every sample, drawn once for all that looks at them."""

from functools import cache
from pathlib import Path
from unittest import mock

import pytest

from joinery_templates.drawings.figure import Pattern
from joinery_templates.exact import Fraction
from joinery_templates.jobs.job import Job
from joinery_templates.jobs.reader import read_job
from joinery_templates.patterns import SETTING_OUT, patterns
from joinery_templates.pdf.fonts import DejaVu

JOBS = sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.toml"))
SHEET = (Fraction(170), Fraction(240))
every_job = pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)


@cache
def drawn(path: Path) -> tuple[Job, tuple[Pattern, ...]]:
    """A sample, and its patterns for setting out; those of its faces are not drawn for it."""
    job = read_job(path.read_text("utf-8"))
    with mock.patch("joinery_templates.patterns.views", return_value=()):
        return job, tuple(p for p in patterns(job, SHEET, DejaVu()) if p.group == SETTING_OUT)
