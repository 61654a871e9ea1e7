r"""The box joint, or corner locking: square fingers of both boards interlock.

The first board's end, outside face, with 5 fingers and spaces in all::

    +----+    +----+    +----+  y = 0, the end
    |    |    |    |    |    |
    |    |____|    |____|    |  y = baseline
    finger space finger space finger

The second board has a finger where the first has a space, and the other way round.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import Finding
from joinery_templates.joint import Joint
from joinery_templates.joints.box_joints import fingers, work
from joinery_templates.joints.box_joints.corner import FingerCorner
from joinery_templates.joints.corners.angles import pair_of
from joinery_templates.joints.corners.layout import no_room
from joinery_templates.joints.corners.meeting import Meeting
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.spread import more_or_fewer_fingers

SLIP_JOINT = f"{NOYES}, no. 46: the slip joint; several side by side are called corner locking"


class Parameters(Meeting, fingers.Parameters):
    """The parameters of a box joint."""


class Stated(FingerCorner, frozen=True, dict=True):
    """All that is stated of a box joint."""

    steps = work.order_of_work

    def impossible(self) -> Iterator[Finding]:
        """A finger or a space that comes to nothing."""
        what, remedy = "a finger or a space", "Give wider fingers, or another fit."
        return no_room(self.rows(), what, remedy, "fit" if self.given.fit else "finger")

    def advise(self) -> Iterator[Finding]:
        """What is unwise though it can be cut."""
        yield from work.advise(self)
        yield from self.advise_on_strips()


def box_joint(request: Request) -> Joint:
    """Fingers where the boards meet at any angles.

    Raises:
        InputError: where it cannot be cut.
    """
    given: fingers.Parameters = request.given
    past = (given.first_proud, given.second_proud)
    pair = pair_of(request, "At a box-jointed corner", past)
    first, second = request.boards
    low, high = pair.shared
    level = replace(first, width=high - low - sum(pair.level_edges))
    divisions, rules = fingers.lay_fingers(given, (level, second), request.units)
    return Stated(request, given, pair, divisions, rules).joint()


KIND = Kind(
    name="box-joint",
    title="Box joint",
    summary="Square fingers of both boards interlock (corner locking): boxes and trays.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=box_joint,
    example=Example(
        width="84 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("fingers", 7),
            ("first_proud", "0.3 mm"),
            ("second_proud", "0.3 mm"),
        ),
    ),
    also=("finger-joint", "comb-joint", "corner-locking"),
    sources=(SLIP_JOINT, "finger about as wide as the stock is thick: common practice, no source"),
    spread=more_or_fewer_fingers,
)
