r"""The housing, or dado: a trench across a side takes a shelf's end, or a tongue on it.

Seen from the front edge; the side stands on the left::

      side        shelf                      side        shelf with a shoulder
    |     |                                |     |
    |  +--+-----------  z = 0, squared     |  +--+-----------  z = 0
    |  |                   line            |  |     tongue
    |  |                                   |  +--+
    |  +--+-----------  z = thickness      |     | shoulder
    |     |                                |     +-----------  z = thickness
      y = 0, the shelf's end and the bottom of the housing

The side's y runs down from the squared line, as the shelf's z. The fit is below the shelf, or
below its tongue. A housing that stops does not show in front, where the shelf's corner is cut
back. A rebate along the side's back edge takes a back; the shelf is narrower by it.
"""

from joinery_templates.errors import COMMON
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.housings import boards
from joinery_templates.joints.parameter import Quantity, Table, parameter
from joinery_templates.joints.shared_parameters import (
    distance_parameter,
    fit_parameter,
    size_parameter,
)
from joinery_templates.wood.cut import BoardEnd, Cut, Stretch, Surface, at_least, at_most


class BackRebate(Table):
    """A rebate along the side's back edge, on the inside, as for a back."""

    width: Fraction = size_parameter("How wide it is, from the back edge.", "needed", needed=True)
    depth: Fraction | None = size_parameter(
        "How deep it is.", f"a third of the side, rounded to a gauge setting ({COMMON})"
    )


class Parameters(boards.HousingParameters):
    """The parameters of a housing."""

    depth: Fraction | None = boards.depth_parameter("Depth of the housing.")
    at: Fraction | None = boards.place_parameter()
    stop: Fraction = boards.stop_parameter()
    stop_clearance: Fraction = boards.stop_clearance_parameter("the shelf's end")
    shoulder: Fraction = distance_parameter(
        "Width of the shoulder at the shelf's lower face; 0 for a housing as wide as the shelf.",
        "0, none",
        default=ZERO,
    )
    rebate: BackRebate | None = parameter(
        Quantity.TABLE,
        "A rebate along the side's back edge, as for a back; the shelf is narrower by it.",
        rule="none",
        table=BackRebate,
        example="{ width = 8 }",
    )
    fit: Fraction = fit_parameter("at the lower wall, taken off the side")


class Housing(boards.ShelfInSide, frozen=True):
    """A shelf's end, whole or with a shoulder, and the trench that takes it."""

    given: Parameters

    @property
    def tongue(self) -> Fraction:
        """How thick the shelf's end is."""
        return self.shelf.thickness - self.given.shoulder

    @property
    def width(self) -> Fraction:
        """Of the housing, across its walls."""
        return self.tongue + self.given.fit

    @property
    def behind(self) -> Fraction:
        """How much of the side's width is not for the shelf: its rebate."""
        return self.given.rebate.width if self.given.rebate else ZERO

    @property
    def rebate_depth(self) -> Fraction:
        """How deep the rebate is, given or by rule; 0 where there is none."""
        rebate = self.given.rebate
        usual = as_a_gauge_is_set(self.side.thickness / 3, self.units)
        return (rebate.depth or usual) if rebate else ZERO

    @property
    def parts(self) -> tuple[BoardEnd, Stretch]:
        """The shelf's end and the side."""
        return self._shelf_end(), self._side_part()

    def _shelf_end(self) -> BoardEnd:
        """The shelf's end, cut back in front and below where it is told so."""
        shoulder = at_most(1, self.depth, Surface.SAWN_SHOULDER)
        cuts = self.cut_back(shoulder)
        if self.given.shoulder:
            behind = (at_least(0, self.start),) if self.start else ()
            tongue = (at_least(2, self.tongue), shoulder, *behind)
            cuts += (Cut(tongue, self.after_corner("shoulder")),)
        return BoardEnd(self.shelf, cuts, self.depth)

    def _side_part(self) -> Stretch:
        """The side with the trench across its inside face, and the rebate along its back."""
        side, stop = self.side, self.given.stop
        floor = at_least(2, side.thickness - self.depth, Surface.SHOULDER)
        front = (at_least(0, stop, Surface.WALL),) if stop else ()
        cuts = [Cut((at_least(1, ZERO), at_most(1, self.width), floor, *front))]
        if self.behind:
            back = at_least(0, side.width - self.behind, Surface.GROOVE)
            cuts.append(
                Cut((back, at_least(2, side.thickness - self.rebate_depth, Surface.GROOVE)))
            )
        sawn = at_least(0, stop + boards.SAWN_FROM[self.units]) if stop else None
        return self.housed(tuple(cuts), self.width, sawn)
