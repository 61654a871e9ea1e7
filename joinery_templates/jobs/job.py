"""What a job file says, read and checked."""

from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import Finding
from joinery_templates.jobs.sheets_reader import SheetSetup
from joinery_templates.joints.joint import Joint
from joinery_templates.lengths import Units

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
        sheets: paper, margins and how sheets are made up.
        joints: in the file's order.
        source: the job file's own text, for the attachment.
    """

    title: str
    notes: str
    units: Units
    sheets: SheetSetup
    joints: tuple[JointJob, ...]
    source: str

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All advice, each with the joint that it belongs to."""
        return tuple(finding.at(job.name) for job in self.joints for finding in job.joint.findings)
