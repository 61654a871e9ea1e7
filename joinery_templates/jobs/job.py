"""What a job file says, read and checked."""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import Finding
from joinery_templates.joints.joint import Joint
from joinery_templates.lengths import Units
from joinery_templates.sheets.correction import Correction
from joinery_templates.sheets.margins import Margins
from joinery_templates.sheets.papers import Paper


LETTERED = frozenset(f"Corner {letter}" for letter in "ABCD")
"""Names of the corners of a four-sided piece."""


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the piece: its name, and whether its ends are the mirror image of A's."""

    name: str
    mirrored: bool

    @property
    def letter(self) -> str:
        """A to D where it is a corner of a four-sided piece, else empty."""
        return self.name[-1] if self.name in LETTERED else ""


@dataclass(frozen=True, slots=True)
class JointJob:
    """One joint of the job: the layout, and where it is wanted.

    Attributes:
        name: what the person calls it.
        joint: the fully stated layout.
        corners: one set of templates for each.
        views: wrap, faces, end-grain.
        seams: places from the reference edge where wide patterns are to be cut.
    """

    name: str
    joint: Joint
    corners: tuple[Corner, ...]
    views: tuple[str, ...]
    seams: tuple[Fraction, ...] = ()


@dataclass(frozen=True, slots=True)
class Job:
    """A whole job.

    Attributes:
        title: printed on every page.
        notes: printed on the first page.
        units: of bare numbers and printed figures.
        paper: every page's.
        margins: what the printer cannot reach.
        overlap: paper shared by two taped sheets.
        joints: in the file's order.
        source: the job file's own text, for the attachment.
        paper_thickness: what a fold takes up.
        match_marks: whether seams carry them.
        one_per_page: whether every pattern gets a page of its own.
        correction: the printer's profile, or None.
    """

    title: str
    notes: str
    units: Units
    paper: Paper
    margins: Margins
    overlap: Fraction
    joints: tuple[JointJob, ...]
    source: str
    paper_thickness: Fraction = Fraction(1, 10)
    match_marks: bool = True
    one_per_page: bool = False
    correction: Correction | None = None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All advice, each with the joint that it belongs to."""
        return tuple(
            finding.at(job.name) for job in self.joints for finding in job.joint.findings
        )
