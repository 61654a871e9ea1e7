"""What a job file says, read and checked."""

from msgspec import Struct, field
from msgspec.structs import replace

from joinery_templates.errors import Finding
from joinery_templates.exact import Fraction
from joinery_templates.jobs.angles import joints_made
from joinery_templates.joint import Corner, Joint, Placed
from joinery_templates.joints.kind import Request
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Tell, Units, teller
from joinery_templates.sheets.setup import SheetSetup
from joinery_templates.wood.board import Board, Hand

FULL, BROKEN, NO_RODS = "full", "broken", "none"
RODS = (FULL, BROKEN, NO_RODS)
"""Ways to draw rods: whole, with their empty stretches broken, or not at all."""


class JointJob(Struct, frozen=True):
    """One joint of the job: the layout, and where it is wanted.

    Attributes:
        name: what the person calls it.
        joint: the fully stated layout.
        request: what that was built from.
        seams: places from the reference edge where wide patterns are to be cut.
    """

    name: str
    joint: Joint
    request: Request
    seams: tuple[Fraction, ...] = ()

    @property
    def corners(self) -> tuple[Corner, ...]:
        """One set of templates for each."""
        return self.request.corners

    @property
    def views(self) -> tuple[str, ...]:
        """How ends are drawn: some of `VIEWS`."""
        return self.request.views

    @property
    def first_in_front(self) -> bool:
        """Whether the first board is at the front and back of the piece."""
        return self.request.first_in_front

    @property
    def first_at_side(self) -> bool:
        """Whether the first board is at the left or right of the piece."""
        if self.joint.at_leg:
            # Seen from outside, what ends at A with its right-hand end stands at a side.
            return self.joint.members[0].hand is Hand.RIGHT
        return not self.first_in_front

    @property
    def is_seen_from_front(self) -> bool:
        """Whether its letters go round as those of a frame, and not as seen from above."""
        return not self.joint.at_leg and self.joint.members[0].hand is Hand.LEFT

    @property
    def joints_made(self) -> int:
        """For how many joints of the piece its corners stand."""
        return joints_made(self.joint, self.corners)

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Each piece that is made of wood of its own, then every board at every corner.

        Of the first there is one for all corners: it is cut square through its stock, and turned
        over it is its own mirror image. What runs along a whole seam is plain, and has none.
        """
        boards = (placed for corner in self.corners for placed in self.joint.placed(corner))
        first, *others = self.corners
        for_all = replace(first, name=self.name) if others else first
        own = (
            Placed(member, for_all, made=count * self.joints_made)
            for member, count, runs_on in self.joint.of_own_wood
            if not runs_on
        )
        return (*own, *boards)


class Job(Struct, frozen=True):
    """A whole job.

    Attributes:
        title: printed on every page.
        notes: printed on the first page.
        units: of bare numbers and printed figures.
        sheets: paper, margins and how sheets are made up.
        joints: in the file's order.
        source: the job file's own text, for the attachment.
        tools: the person's.
        both: whether figures are told in the other units, too.
        rods: one of `RODS`; empty where rods are drawn of boards that something is let into.
    """

    title: str
    notes: str
    units: Units
    sheets: SheetSetup
    joints: tuple[JointJob, ...]
    source: str
    tools: Tools = field(default_factory=Tools)
    both: bool = False
    rods: str = ""

    @property
    def tell(self) -> Tell:
        """How figures are said on paper."""
        return teller(self.units, self.both)

    @property
    def boards(self) -> tuple[Board, ...]:
        """What the piece is made of, each once, in the order in which joints name them."""
        placed = (member for one in self.joints for member in one.joint.all_members)
        return tuple({member.part.board.name: member.part.board for member in placed}.values())

    @property
    def names(self) -> list[str]:
        """All that the person has named: boards, joints and corners, as they are written."""
        named = [name for board in self.boards for name in (board.name, board.called)]
        for one in self.joints:
            named += [one.name, *(corner.name for corner in one.corners)]
        return list(dict.fromkeys(named))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All advice, each with the joint that it belongs to."""
        return tuple(
            replace(finding, place=", ".join(filter(None, (one.name, finding.place))))
            for one in self.joints
            for finding in one.joint.findings
        )
