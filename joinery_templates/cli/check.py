"""`check`: the setting-out in figures and as a sketch; nothing is drawn."""

import textwrap
from collections.abc import Iterator
from functools import partial

from joinery_templates.build import booklet_of
from joinery_templates.cli.job_input import job_from
from joinery_templates.cli.messages import say, say_json, tell_findings
from joinery_templates.cli.options import AsJson, JobName, PaperName, UnitsName
from joinery_templates.drawings.settings import setting_rows, size_rows
from joinery_templates.drawings.sketch import WASTE, WOOD, sketched
from joinery_templates.exact import Fraction
from joinery_templates.figures import figures_of
from joinery_templates.jobs.job import Job, JointJob
from joinery_templates.jobs.overrides import Overrides
from joinery_templates.joint import Member
from joinery_templates.joints.tool_fit import tool_table
from joinery_templates.lengths import Units, both_units, inch_text, length_text, mm_text
from joinery_templates.wood.board import BROAD, EDGES, Face
from joinery_templates.wood.faces import laid_out

NAMES = 56
"""So many letters wide is the column of what the figures belong to."""


def check(
    job: JobName, paper: PaperName = None, units: UnitsName = None, json: AsJson = False
) -> None:
    """Nothing is drawn or written.

    Figures count from the reference edge. One with ≈ before it was rounded.
    """
    with job_from(job, Overrides(paper, units)) as read:
        if json:
            say_json(figures_of(read))
            return
        # So that an old sheet is not laid on a corrected board.
        signs = booklet_of(read).fingerprint
        say(*_lines(read), f"Drawn now, its sheets and templates say: job {signs}")
        tell_findings(read.findings)


def _lines(job: Job) -> Iterator[str]:
    yield job.title
    yield "=" * len(job.title)
    for one in job.joints:
        yield from _joint_lines(job, one)


def _joint_lines(job: Job, one: JointJob) -> Iterator[str]:
    joint = one.joint
    yield ""
    title = "" if one.name == joint.title else f", {joint.title.lower()}"
    yield f"{one.name}{title}, at {', '.join(corner.name for corner in one.corners)}"
    exact = partial(both_units if job.both else length_text, units=job.units)
    rows = (*setting_rows(joint, exact), *size_rows(joint, exact))
    for name, figure in (*rows, *tool_table(joint, job.tools, job.units)[1]):
        *before, last = textwrap.wrap(name, NAMES)
        yield from (f"  {line}" for line in before)
        yield f"  {last:<{NAMES}}  {figure}"
    for rule in joint.rules:
        yield from textwrap.wrap(
            f"worked out: {rule}", 92, initial_indent="  ", subsequent_indent="    "
        )
    for member in joint.all_members:
        yield from _sketch(member)
    for row in joint.rows:
        yield ""
        yield f"  {row.role}, {row.title} (from the {row.start})"
        for mark in row.marks:
            yield f"    {_both(mark.position, job.units)}  {mark.what}"
    yield ""


def _sketch(member: Member) -> Iterator[str]:
    """A board's end in characters: the first face along it that is cut, and the end grain."""
    part, along = member.part, (*BROAD, *EDGES)
    cut = [face for face in along if laid_out(part, face).waste][:1]
    left = "outside face" if cut and cut[0] in along[2:] else "reference edge"
    shown = (*cut, Face.END_GRAIN) if part.cuts else ()
    drawn = {face: sketched(part, face) for face in shown if face in part.faces}
    seen = {face: lines for face, lines in drawn.items() if any(WOOD in line for line in lines)}
    signs = f"{WOOD} stays, {WASTE} goes; {left} left" if seen else "the whole end is mitred"
    yield ""
    yield f"  {member.role} ({part.board.name}): {signs if part.cuts else 'nothing is cut'}"
    for face, lines in seen.items():
        yield f"    {face}"
        yield from (f"    {line}" for line in lines)


def _both(length: Fraction, units: Units) -> str:
    """A figure in the person's units, then in the other, in columns."""
    metric, inches = f"{mm_text(length):>12}", f"{inch_text(length):>22}"
    return f"{metric}  {inches}" if units is Units.MM else f"{inches}  {metric}"
