r"""The scarf: two boards or beams end on end, cut at a long slant; plain, hooked or keyed.

Seen on the reference edge, which shows the depth; y runs from the first board's tip into it::

    outside  plain                         hooked, or with a key in the hook
    ---------.--------------------         ---------.--------------------
      first   `--.         second            first  |`-._  |`-._   second
                  `--.                                     `-|    `-.|
    ------------------`-----------         --------------------|---------
         y = length   y = 0

Each y is cut at one depth alone; so the second lies on the first, and comes off square to its
faces. With a key, the hook's two faces stand apart by its width.
"""

from collections.abc import Iterator

from joinery_templates.errors import COMMON
from joinery_templates.joint import LengthSetting, Size, SlopeSetting
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.scarfs import work
from joinery_templates.joints.scarfs.shape import GLUED, TREDGOLD, Parameters, Scarf


class Stated(Scarf, frozen=True):
    """All that is stated of a scarf."""

    impossible = work.impossible
    rules = work.rules_of
    advise = work.advise
    steps = work.order_of_work

    def slopes(self) -> Iterator[SlopeSetting]:
        """The slants."""
        yield SlopeSetting("slants, to check them by, stock on the squared end", self.slope)

    def sizes(self) -> Iterator[Size]:
        """Of the scarf, its hook and its key."""
        yield Size("scarf, length along the boards", self.long)
        if not self.is_plain:
            yield Size("hook, depth", self.hook)
            yield Size("from the scarf's ends to the hook", self.before)
        if self.key:
            yield Size("key, width", self.key)

    def lengths(self) -> Iterator[LengthSetting]:
        """Gauges."""
        if not self.is_plain:
            yield gauge("hook, from the outside and from the inside face of both", self.high)
            yield gauge("square ends, from the face that they stand at", self.nib)


KIND = Kind(
    name="scarf",
    title="Scarf",
    summary="Two boards or beams end on end, cut at a long slant: plain, hooked, or hooked with a "
    "key.",
    roles=Stated.roles,
    parameter_class=Parameters,
    lay_out=Stated.joint_of,
    example=Example(
        width="60 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(("scarf_length", "240 mm"),),
        corners=(("Scarf 1", "A"),),
    ),
    sources=(TREDGOLD, GLUED, f"nibs and folding wedges: {COMMON}"),
)
