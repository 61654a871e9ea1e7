"""The order of work on the rail: cheeks, shoulders and sides, then wedges and pegs."""

from collections.abc import Iterator

from joinery_templates.joint import Step, Task
from joinery_templates.joints.tenons.cuts import from_shoulder
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.words import BESIDE, beside, fold_over
from joinery_templates.wood.board import EDGES, Face


def tenoning(tenon: Tenon) -> Iterator[Step]:
    """The tenons, from the wrap to the last saw cut."""
    yield Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(0)}",
        fold_over(),
    )
    yield Step(
        Task.GAUGE,
        "Shoulder and cheeks",
        f"Knife the shoulder, {_around(tenon)}. On the faces pare a small groove to it from the "
        f"waste, for the saw. {_gauging(tenon)} gauge the cheeks on the end grain, where they must "
        "fall on the printed lines, and down both edges as far as the shoulder.",
        (0,),
    )
    # A level cut then ends at the shoulder on both edges.
    clamped = "upright" if tenon.is_square else "leaning, so that its slanting shoulder lies level"
    lines = beside("the cheek line" if tenon.is_bare else "both cheek lines")
    between = " Saw down between the tenons likewise." if tenon.given.twins > 1 else ""
    yield Step(
        Task.SAW_DOWN,
        "Saw the cheeks",
        f"Clamp the rail {clamped}. Saw {lines}: aslant from the near edge, turn the rail, "
        f"aslant from the other edge, then level down to the shoulder.{between}",
    )
    between = ""
    if tenon.given.twins > 1:
        between = " Chop out what stands between the tenons, half from each edge."
    yield Step(
        Task.SAW_FIRST,
        "Saw the shoulders",
        f"Saw across {_sawn(tenon)}, in the groove beside the knifed shoulder, "
        f"down to the cheek and no deeper: the waste comes off.{between}",
    )
    yield from _on_cheeks(tenon)
    yield from _edges(tenon)


def _on_cheeks(tenon: Tenon) -> Iterator[Step]:
    """The templates of cheeks, laid on while the tenon is as wide as the rail, as they are."""
    shown = {Face.OUTSIDE: tenon.has_detail, Face.INSIDE: tenon.ends_mitred}
    for face in (face for face, is_shown in shown.items() if is_shown):
        check = from_shoulder(tenon, face)
        yield Step(
            Task.LAY_ON,
            f"Lay on the tenon's {str(face).replace('face', 'cheek')}",
            "Trim the template along its outer lines, and lay what is above the shoulder's line on "
            f"the cheek towards the rail's {face}: its end flush with the tenon's end, its edges "
            "in line with the rail's. Press it into the corner at the shoulder: what is below "
            "stands up there, and is not stuck to the rail's face. Glue it, or tape it and prick "
            f"it through at the small rings{f'. Check it: {check}' if check else ''}. Then cut "
            "off what stands up.",
        )


def _gauging(tenon: Tenon) -> str:
    given, text, (low, high) = tenon.given, tenon.text, tenon.cheeks[0]
    if not low:
        return f"With a gauge set to {text(high)} and its stock on the outside face,"
    if high - low == tenon.mortise_width and low == tenon.mortise_from and given.twins == 1:
        return "With the mortise gauge still set and its stock on the outside face,"
    if high - low == tenon.mortise_width:
        return f"Set the mortise gauge's stock to {text(low)}, and with it on the outside face,"
    return (
        f"Set the mortise gauge to {text(high - low)} and its stock to {text(low)}; with the stock "
        "on the outside face,"
    )


def _around(tenon: Tenon) -> str:
    text = tenon.text
    if tenon.given.rebate:
        return (
            f"{text(tenon.length)} from the end on the outside face and across both edges; on the "
            f"inside face only {text(tenon.length - tenon.channel_depth)}, for there it is longer "
            f"and fills the {tenon.role(1)}'s rebate"
        )
    if not tenon.is_square:
        return "as it is printed, against a bevel on both faces and a square on both edges"
    where = f"on {_sawn(tenon)}" if tenon.is_bare else "all round: both faces"
    return f"{text(tenon.length)} from the end, against a square {where} and both edges"


def _sawn(tenon: Tenon) -> str:
    """The faces from which a cheek comes off."""
    faces = {"outside": tenon.sides[0][0], "inside": tenon.rail.thickness - tenon.sides[-1][1]}
    return f"the {' and the '.join(face for face, shoulder in faces.items() if shoulder)} face"


def _edges(tenon: Tenon) -> Iterator[Step]:
    text = tenon.text
    edges = zip(EDGES, tenon.sawn_shoulders, strict=True)
    told = [f"{text(inset)} from the rail's {edge}" for edge, inset in edges if inset]
    cut, them = ("edges", "them") if len(told) > 1 or tenon.gaps else ("edge", "it")
    if not told and not tenon.gaps:
        return
    words = []
    if told:
        words.append(f"Gauge the tenon's {cut} on its cheeks, {' and '.join(told)}.")
    last = ""
    if tenon.given.haunch and tenon.is_haunch_square:
        deep, rest = tenon.haunch_length, tenon.length - tenon.haunch_length
        end = f", {text(rest)} from the tenon's end" if tenon.is_square else ", as it is printed"
        words.append(
            f"First knife the end of the haunch on both cheeks and the far edge: {text(deep)} from "
            f"the shoulder{end}."
        )
        last = "; at the far edge only down to the haunch's line, and across beside that"
    elif tenon.given.haunch:
        last = (
            f"; at the far edge leave the haunch standing, {text(tenon.haunch_length)} from the "
            "shoulder beside the tenon and nothing at the rail's edge"
        )
    words.append(f"Saw down {beside(them)}, then across {beside('the knifed shoulder')}{last}.")
    if tenon.gaps:
        words.append("Between the tenons chop it, half from each cheek.")
    yield Step(Task.SAW_FIRST, f"Saw the tenon's {cut}", " ".join(words))


def mitring(tenon: Tenon) -> Step:
    """The end of a tenon that meets another one in the leg."""
    return Step(
        Task.MITRE,
        "Mitre the tenon's end",
        f"Gauge the mitre's line on the inside cheek, {tenon.text(tenon.mitre)} from the tenon's "
        "end, where it must fall on the printed one, and join it on both edges of the tenon to the "
        f"end of the outside cheek: that is 45°. Saw {BESIDE}: the outside cheek keeps its whole "
        "length. So the ends of the two tenons in one leg lie side by side, with a little air "
        "between them.",
        (0,),
    )


def wedging(tenon: Tenon) -> Iterator[Step]:
    """Kerfs and wedges."""
    text = tenon.text
    yield Step(
        Task.SAW_FIRST,
        "Saw the kerfs",
        f"Saw two in each tenon, the middle of each {text(tenon.from_side)} from an edge of it: "
        f"{text(tenon.kerf_depth)} down from its end and no deeper.",
    )
    yield Step(
        Task.MAKE_KEYS,
        "Make the wedges",
        f"Of dry straight-grained hardwood {text(tenon.mortise_width)} thick, the grain along "
        "them: lay the template on. From nothing at the thin end they grow to "
        f"{text(tenon.wedge_end)}, {text(tenon.kerf_depth)} from it, and go on to "
        f"{text(tenon.wedge_length)}, to be driven.",
    )


def pegging(tenon: Tenon) -> Iterator[Step]:
    """The tenon's holes, and pegs."""
    text = tenon.text
    yield Step(
        Task.SAW_FIRST,
        "Bore the tenon",
        f"With the shoulders shut, press the bit's point through the {tenon.role(1)}'s hole on to "
        f"the cheek, and take the joint apart: the template's ring must stand {text(tenon.offset)} "
        "nearer to the shoulder than this mark. Bore on the ring, square to the cheek; were it "
        "nearer to the tenon's end, the peg would drive the shoulder open.",
    )
    yield Step(
        Task.MAKE_KEYS,
        "Make the pegs",
        f"Split them from dry straight-grained hardwood, {text(tenon.peg)} thick, and do not saw "
        "them: where the grain runs out, a peg breaks as it bends. Taper a third of their length, "
        "so that the point goes through all holes.",
    )
