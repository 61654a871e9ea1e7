r"""Tongue and groove: boards edge to edge, with a tongue on the one or loose in both.

Seen on the ends; the first board's far edge meets the second's reference edge, so that a third
follows in the same way. Both are gauged from the outside face::

         outside faces                            outside faces
    ----------+-----------------             --------+-------------------
       first  +---.  second                      .---+---.
              +---'                              `---+---'  loose
    ----------+-----------------             --------+-------------------
"""

from collections.abc import Iterator

from joinery_templates.joint import Clearing, LengthSetting, Size
from joinery_templates.joints.edges import work
from joinery_templates.joints.edges.boards import AS_DEEP, CENTRED, THIRD, Edges, Parameters
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind


class Stated(Edges, frozen=True):
    """All that is stated of tongue and groove."""

    impossible = work.impossible
    rules = work.rules_of
    advise = work.advise
    steps = work.order_of_work

    def clearings(self) -> Iterator[Clearing]:
        """The grooves."""
        wide = self.tongue
        yield Clearing("groove, by plough iron or chisel", wide, wide, "tongue", sawn=False)

    def sizes(self) -> Iterator[Size]:
        """Of the tongue, and what is left behind it."""
        yield Size("tongue, thickness", self.tongue)
        if self.is_solid:
            yield Size("tongue, length", self.long)
            yield Size("first board, width without the tongue", self.shows)
        else:
            yield Size("loose tongue, across the joint", 2 * self.long)
        for number, role in enumerate(self.roles):
            left = self.boards[number].thickness - self.high
            what = "groove" if number or not self.is_solid else "tongue"
            yield Size(f"{role.words}, behind the {what} on the inside", left)

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges, and a plough's depth stop."""
        use = "nearer side of tongue and groove, from the outside face of both"
        yield LengthSetting("mortise gauge", "its points, for tongue and groove", self.tongue)
        yield gauge(use, self.low)
        if self.is_solid:
            yield gauge("tongue's shoulders, from the first board's far edge", self.long)
        yield LengthSetting("depth stop", "groove", self.depth)


KIND = Kind(
    name="tongue-and-groove",
    title="Tongue and groove",
    summary="Boards edge to edge, a tongue on the one in a groove of the other, or a loose tongue "
    "in both: panels, backs and floors.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
    example=Example(
        width="120 mm",
        thicknesses=("18 mm", "18 mm"),
        parameters=(("tongue", "6 mm"), ("tongue_length", "6 mm"), ("depth", "7 mm")),
        second_width="100 mm",
        corners=(("Seam 1", "A"),),
    ),
    sources=(CENTRED, THIRD, AS_DEEP),
)
