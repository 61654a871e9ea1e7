"""Keys in a row along the line where two boards meet, and what is said of them."""

from joinery_templates.joints.keys.key import Key
from joinery_templates.joints.keys.row import KeyRow
from joinery_templates.joints.kind import BoardRole
from joinery_templates.joints.layout import Layout


class KeyedJoint(Layout, frozen=True):
    """Keys across a joint line.

    Attributes:
        key: the keys.
        row: where they stand.
        across_grain: whether the keys lie across the grain of the boards.
        line: what the joint line is called.
        limits: what it starts and ends at.
        meet: how the boards are made to meet before any key is let in.
        lay_on: how the socket templates are laid on.
    """

    roles = (BoardRole("first_board", "first board"), BoardRole("second_board", "second board"))
    key: Key
    row: KeyRow
    across_grain: bool
    line: str
    limits: tuple[str, str]
    meet: str
    lay_on: str

    @property
    def count(self) -> int:
        """How many keys."""
        return len(self.row.positions)
