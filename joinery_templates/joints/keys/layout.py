"""Keys in a row along the line where two boards meet, and what is said of them."""

from joinery_templates.joint import Step
from joinery_templates.joints.keys.key import JointLine, Key
from joinery_templates.joints.keys.row import KeyRow
from joinery_templates.joints.layout import Layout


class KeyedJoint(Layout, frozen=True):
    """Keys across a joint line.

    Attributes:
        key: the keys.
        line: that they lie across.
        row: where they stand.
        meet: the step in which the boards are made to meet, before any key is let in.
        lay_on: how the socket templates are laid on.
        across_grain: whether the keys lie across the grain of the boards.
    """

    key: Key
    line: JointLine
    row: KeyRow
    meet: Step
    lay_on: str
    across_grain: bool = False

    @property
    def count(self) -> int:
        """How many keys."""
        return len(self.row.positions)
