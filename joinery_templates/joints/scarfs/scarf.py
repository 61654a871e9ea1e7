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

from joinery_templates.errors import COMMON, OURS, Finding, advice, mistake
from joinery_templates.joint import LengthSetting, Size, SlopeSetting, Step, Task
from joinery_templates.joints.checks import only_with, thicknesses_differ, too_short, widths_differ
from joinery_templates.joints.gauge import gauge
from joinery_templates.joints.kind import Example, Kind
from joinery_templates.joints.scarfs import shape
from joinery_templates.joints.scarfs.shape import Parameters, Scarf
from joinery_templates.joints.words import BESIDE, PEEL, PRINT_AGAIN, beside, slope_text
from joinery_templates.lengths import decimal_text


def impossible(scarf: Scarf) -> Iterator[Finding]:
    """What cannot be cut."""
    given, text = scarf.given, scarf.text
    yield from widths_differ(scarf, "In a scarf")
    yield from thicknesses_differ(
        scarf, "In a scarf both must be equally thick: plane them together."
    )
    for name, form in (("hook", shape.HOOKED), ("nib", shape.HOOKED), ("key", shape.KEYED)):
        if getattr(given, name) is not None and (
            scarf.is_plain or form not in (shape.HOOKED, given.form)
        ):
            yield only_with(name, form, f'It means nothing where form = "{given.form}".')
    if scarf.hook >= scarf.deep:
        yield mistake(
            "no-room",
            f"A hook {text(scarf.hook)} deep leaves nothing of wood {text(scarf.deep)} thick.",
            f"Give less: a third is usual, {text(scarf.deep / 3)}.",
            "hook",
        )
    elif not scarf.is_plain and scarf.nib >= scarf.high:
        yield mistake(
            "no-room",
            f"Square ends {text(scarf.nib)} deep come down to the hook, which begins "
            f"{text(scarf.high)} from the face.",
            "Make them less deep.",
            "nib" if given.nib is not None else "hook",
        )
    if scarf.before <= 0:
        yield mistake(
            "no-room",
            f"A key {text(scarf.key)} wide is longer than the scarf, {text(scarf.long)}.",
            "Give a narrower key or a longer scarf.",
            "key" if given.key is not None else "scarf_length",
        )
    yield from too_short(scarf, (scarf.long, scarf.long))


def advise(scarf: Scarf) -> Iterator[Finding]:
    """What is unwise though it can be cut."""
    given, text = scarf.given, scarf.text
    is_glued, ratio = given.held_by == shape.GLUE, scarf.long / scarf.deep
    shown = f"A scarf {text(scarf.long)} long is {decimal_text(ratio, 1)} times the thickness"
    if is_glued and ratio < shape.STEEPEST_GLUED:
        yield advice(
            "slope-steep",
            f"{shown}: so steep, glue holds little, for it is too much end grain.",
            f"{shape.GLUED}; 1 in 8 is usual for plywood",
            f"Make it 8 to 12 times, {text(8 * scarf.deep)} to {text(12 * scarf.deep)}.",
            "scarf_length",
        )
    elif not is_glued and ratio < scarf.times:
        yield advice(
            "scarf-short",
            f"{shown}.",
            shape.TREDGOLD,
            f"In such wood {scarf.times} times is usual, {text(scarf.times * scarf.deep)}.",
            "scarf_length",
        )
    least = shape.SHEAR[given.wood] * scarf.hook
    if given.held_by == shape.NOTHING and scarf.before < least:
        yield advice(
            "hook-shears",
            f"Only {text(scarf.before)} of wood stands before a hook {text(scarf.hook)} deep, and "
            "may shear off along the grain.",
            f"{shape.TREDGOLD}: at least {shape.SHEAR[given.wood]} times the hook's depth in such "
            "wood",
            f"Leave {text(least)}, or make the hook less deep.",
            "hook" if given.hook else "scarf_length",
        )
    if scarf.hook > scarf.deep / 3:
        yield advice(
            "hook-deep",
            f"A hook {text(scarf.hook)} deep is more than a third of the thickness.",
            shape.TREDGOLD,
            f"A third is usual, {text(scarf.deep / 3)}.",
            "hook",
        )


def rules_of(scarf: Scarf) -> Iterator[str]:
    """What was decided by a rule."""
    given, text = scarf.given, scarf.text
    if given.scarf_length is None:
        source = shape.GLUED if given.held_by == shape.GLUE else shape.TREDGOLD
        yield f"Length: {text(scarf.long)}, {scarf.times} times the thickness ({source})."
    if not scarf.is_plain and given.hook is None:
        yield f"Hook: {text(scarf.hook)} deep, a third of the thickness ({shape.TREDGOLD})."
    if not scarf.is_plain and given.nib is None:
        yield f"Square ends: {text(scarf.nib)} deep, half of the hook ({OURS})."
    if scarf.key and given.key is None:
        yield f"Key: {text(scarf.key)} wide, about one and a half times its depth ({OURS})."
    if scarf.key:
        thin, thick = scarf.wedge_ends
        slope = slope_text((thick - thin) / scarf.wedge_length)
        yield f"Wedges of the key: {slope}, longer than the board is wide ({OURS})."


def order_of_work(scarf: Scarf) -> Iterator[Step]:
    """The order of work (common practice, no source)."""
    text, (one, other) = scarf.text, (scarf.named(0), scarf.named(1))
    lengths = [board.length for board in scarf.boards if board.length is not None]
    whole = f", which is {text(sum(lengths) - scarf.long)} long" if len(lengths) == 2 else ""
    yield Step(
        Task.PREPARE,
        "Prepare",
        "This is furniture work, no structural design: for a beam, a post or whatever else "
        "carries a load, ask an engineer licensed where you live, and keep to the local code. "
        f"Plane {one} and {other} to one width and thickness, the ends square. Both together are "
        f"{text(scarf.long)} longer than the whole{whole}. Mark outside face and reference edge of "
        "both, so that they line up from board to board, and measure again: if width or thickness "
        f"is not {PRINT_AGAIN}.",
    )
    gauge = (
        f" Square the ends of the hook across, from edge to edge. Scribe the hook "
        f"{text(scarf.high)} from both faces, and the square ends {text(scarf.nib)} from the face "
        "that they stand at."
        if not scarf.is_plain
        else ""
    )
    if scarf.key:
        gauge += (
            f" The flat for the key lies {text(scarf.before)} to {text(scarf.before + scarf.key)} "
            "from the end."
        )
    yield Step(
        Task.LAY_ON,
        "Lay on the templates",
        "Trim the templates along their outer lines. Lay each on the edge that it names, its end "
        "flush with the board's end and its outside face on that of the board. Tape them and prick "
        "through the small rings. Draw the slants with a straight-edge on both edges. Where they "
        f"come to a face, square a line across it: {text(scarf.long)} from the end, on the outside "
        f"face of {one} and on the inside face of {other}.{gauge}",
        (0, 1),
    )
    ends = (
        "It runs out sharp at the end"
        if scarf.is_plain
        else "Saw the square end and the hook across the grain before the slants"
    )
    planed = (
        ", a waste board under the thin end, down the slope towards that end,"
        if scarf.is_plain
        else ""
    )
    flat = " Level the flat for the key with a chisel." if scarf.key else ""
    for task, name, face in (
        (Task.SAW_FIRST, one, "outside"),
        (Task.CUT_SECOND, other, "inside"),
    ):
        yield Step(
            task,
            f"Saw the scarf of {name}",
            f"The waste is on the {face} face. {ends}. Saw the slant "
            f"{beside('its lines on both edges')}, and plane it{planed} to the middle of them, "
            f"straight along and square across. Test it with a straight-edge.{flat}",
        )
    if scarf.key:
        thin, thick = scarf.wedge_ends
        yield Step(
            Task.MAKE_KEYS,
            "Make the key's wedges",
            f"Make two for each scarf. Plane hard, straight-grained wood to {text(thick)} × "
            f"{text(scarf.hook)}, the grain along it, and square its end. Lay the template on, the "
            "edge that ▲ points to on that end, saw down the slope, "
            f"{BESIDE}, and plane it straight to the middle of the line. Saw the wedge off square "
            f"at the line across, {text(scarf.wedge_length)} from the end; mark the other from "
            f"the first. From {text(thin)} a wedge grows to {text(thick)}: head to tail, slope on "
            f"slope and their ends level, the two are {text(scarf.key)} wide all along. They are "
            f"to stand {text(scarf.stands_out)} past each edge of the boards.",
        )
    held = {
        shape.GLUE: "Size both slants with thin glue and let it draw in; then glue. Lay paper on a "
        "straight batten and clamp the boards on it, with a block clamped to the batten against "
        "the far, square end of each: a glued slant slides. Press the slants together between two "
        "cauls.",
        shape.BOLTS: "Clamp it together and bore for the bolts, square to the slant and clear of "
        "its ends; the holes are not drawn. Put large washers under heads and nuts.",
        shape.NOTHING: "Lay it together dry.",
    }[scarf.given.held_by]
    drive = (
        " Push the key's two wedges in from both edges, thin ends first, slope on slope. Drive "
        "them in turn until the square ends are tight, and saw them off flush."
        if scarf.key
        else ""
    )
    yield Step(
        Task.GLUE,
        "Fit and join",
        f"{PEEL} Press the slants together, square to the faces: they must touch all over, and "
        f"outside faces and reference edges run through in one line. {held}{drive}",
    )


class Stated(Scarf, frozen=True):
    """All that is stated of a scarf."""

    impossible = impossible
    rules = rules_of
    advise = advise
    steps = order_of_work

    def slopes(self) -> Iterator[SlopeSetting]:
        """The slants."""
        yield SlopeSetting(
            "drawn slants, before they are sawn, stock on the squared end", self.slope
        )

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
    sources=(shape.TREDGOLD, shape.GLUED, f"nibs and folding wedges: {COMMON}"),
)
