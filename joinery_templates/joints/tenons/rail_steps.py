"""The order of work on the rail: cheeks, shoulders and sides, then wedges and pegs."""

from collections.abc import Iterator

from joinery_templates.exact import ZERO
from joinery_templates.joint import Step, Task
from joinery_templates.joints.tenons.cuts import from_shoulder
from joinery_templates.joints.tenons.tenon import Tenon
from joinery_templates.joints.words import BESIDE, beside, listed
from joinery_templates.wood.board import EDGES, Face


def tenoning(tenon: Tenon) -> Iterator[Step]:
    """The tenons, from the wrap to the last saw cut."""
    yield Step(
        Task.LAY_ON,
        f"Lay on {tenon.named(0)}",
        f"{tenon.laid_on()}{'' if tenon.cheeks[0][0] else _pricked(tenon, Face.OUTSIDE)}",
    )
    lightly = " At the far edge knife it lightly: the haunch stays." if tenon.given.haunch else ""
    faces = _sawn(tenon) if tenon.is_bare else "the faces"
    yield Step(
        Task.GAUGE,
        "Shoulder and cheeks",
        f"Knife the shoulder, {_around(tenon)}.{lightly} On {faces} pare a small groove "
        f"to it from the waste, for the saw. {_gauging(tenon)} gauge the cheeks on the end grain, "
        "where they must fall on the printed lines, and down both edges as far as the "
        f"shoulder.{_beside_the_first(tenon)}",
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
    for face in tenon.bared:
        past, over = "", "groove" if tenon.given.groove else "rebate"
        if off := tenon.ploughed_off(face):
            past = (
                f"; at the reference edge it stands {tenon.text(off)} past the cheek, for there "
                f"the {over} has taken the wood"
            )
        yield Step(
            Task.LAY_ON,
            f"Lay on the tenon's {str(face).replace('face', 'cheek')}",
            "Trim the template along its outer lines, and lay what is above the shoulder's line on "
            f"the cheek towards the rail's {face}: its end flush with the tenon's end, its edges "
            f"in line with the rail's{past}. Press it into the corner at the shoulder: what is "
            "below stands up there, and is not stuck to the rail's face. Glue it, or tape it and "
            f"prick it through at the small rings.{_pricked(tenon, face)} Then cut off what "
            "stands up.",
        )


def _pricked(tenon: Tenon, face: Face) -> str:
    """How the holes for pegs are marked from a cheek's template, and what it is checked by."""
    prick, check = "", from_shoulder(tenon, face)
    if tenon.given.drawbore and face is Face.OUTSIDE:
        prick = (
            " Prick the middle of every hole through, also where you glue: the paper comes off "
            "before it is bored."
        )
    return f"{prick}{f' Check it: {check}.' if check else ''}"


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


def _beside_the_first(tenon: Tenon) -> str:
    """Where the cheeks of further tenons are: a bare one is the rail's own face."""
    text, thick = tenon.text, tenon.rail.thickness
    told = (
        f" Gauge those of tenon {number} likewise, "
        f"{' and '.join(text(side) for side in sides if side != thick)} from the same face."
        for number, sides in enumerate(tenon.cheeks[1:], start=2)
    )
    return "".join(told)


def _around(tenon: Tenon) -> str:
    text, sawn = tenon.text, _sawn(tenon)
    edges = f"both edges{_beside_at_edges(tenon)}{_on_bare_face(tenon)}"
    if tenon.given.rebate:
        on_face = "" if tenon.is_bare else "on the outside face and "
        return (
            f"{text(tenon.length)} from the end {on_face}across {edges}; on the "
            f"inside face only {text(tenon.length - tenon.channel_depth)}, for there it is longer "
            f"and fills the {tenon.role(1)}'s rebate"
        )
    if not tenon.is_square:
        where = sawn if tenon.is_bare else "both faces"
        return f"as it is printed, against a bevel on {where} and a square on {edges}"
    where = f"on {sawn}" if tenon.is_bare else "all round: both faces"
    return f"{text(tenon.length)} from the end, against a square {where} and {edges}"


def _beside_at_edges(tenon: Tenon) -> str:
    """Where no shoulder is cut at an edge: there the tenon is as wide as the rail."""
    bare = [edge for edge, inset in zip(EDGES, tenon.shoulders, strict=True) if not inset]
    if not bare:
        return ""
    edges = "these" if len(bare) > 1 else f"the {bare[0]}"
    where, why = "beside the tenon", "it has"
    if tenon.given.twins > 1:
        where, why = "beside the tenons and between them", "they have"
    return f" (on {edges} only {where}: {why} no shoulder there)"


def _on_bare_face(tenon: Tenon) -> str:
    """How much of its shoulder is seen on a bare face: what is sawn off beside the tenons."""
    if not tenon.is_bare:
        return ""
    near, far = tenon.sawn_shoulders
    insets = {"reference edge": near, "far edge": ZERO if tenon.given.haunch else far}
    told = [f"{tenon.text(inset)} in from the {edge}" for edge, inset in insets.items() if inset]
    if tenon.gaps and not tenon.given.haunch:
        told.append("between the tenons")
    face = "inside" if tenon.sides[0][0] else "outside"
    return f", and on the {face} face only {listed(told)}" if told else ""


def _sawn(tenon: Tenon) -> str:
    """The faces from which a cheek comes off."""
    faces = {"outside": tenon.sides[0][0], "inside": tenon.rail.thickness - tenon.sides[-1][1]}
    return f"the {' and the '.join(face for face, shoulder in faces.items() if shoulder)} face"


def _edges(tenon: Tenon) -> Iterator[Step]:
    text, haunch = tenon.text, tenon.given.haunch
    edges = zip(EDGES, tenon.sawn_shoulders, strict=True)
    told = [f"{text(inset)} from the rail's {edge}" for edge, inset in edges if inset]
    cut, them = ("edges", "them") if len(told) > 1 or tenon.gaps else ("edge", "it")
    if not told and not tenon.gaps:
        return
    words = []
    if told:
        words.append(f"Gauge the tenon's {cut} on its cheeks, {' and '.join(told)}.")
    across = f"then across {beside('the knifed shoulder')}"
    if haunch:
        words += _beside_haunch(tenon, across)
    elif told:
        words.append(f"Saw down {beside(them)}, {across}.")
    if tenon.gaps:
        words.append(_between(tenon))
    yield Step(Task.SAW_FIRST, f"Saw the tenon's {cut}", " ".join(words))


def _between(tenon: Tenon) -> str:
    """What leaves between tenons one above another; no chisel gets between twins."""
    text = tenon.text
    sides = listed([text(side) for gap in tenon.gaps for side in gap])
    cheeks, out = "both cheeks", "chop the waste out, half from each cheek,"
    if tenon.given.twins > 1:
        cheeks = "the two outer cheeks"
        out = "saw the waste out through all tenons side by side, and pare the rest"
    end = f"{text(tenon.haunch_length)} from the shoulder" if tenon.given.haunch else "the shoulder"
    return (
        f"Between the tenons gauge {sides} from the rail's reference edge, on {cheeks}. "
        f"Saw down {beside('these lines')}, then {out} to {end}."
    )


def _beside_haunch(tenon: Tenon, across: str) -> Iterator[str]:
    """Edge by edge: at the far one the haunch stays, and nothing is cut at the shoulder."""
    text = tenon.text
    deep, rest = tenon.haunch_length, tenon.length - tenon.haunch_length
    if tenon.is_haunch_square:
        end = f", {text(rest)} from the tenon's end" if tenon.is_square else ", as it is printed"
        yield (
            f"Knife the end of the haunch on both cheeks and the far edge: {text(deep)} from the "
            f"shoulder{end}."
        )
    else:
        bevel = "with the bevel, its stock on the far edge" if tenon.is_square else "as printed"
        yield (
            f"Mark the haunch on both cheeks, {bevel}: {text(deep)} from the shoulder at the "
            "gauged line, and nothing at the rail's far edge."
        )
    line, haunch = "the gauged line", "the haunch's line"
    if tenon.sawn_shoulders[0]:
        yield f"At the reference edge saw down {beside(line)}, {across}."
    yield (
        f"At the far edge saw down {beside(line)}, as far as {haunch} and no deeper, then "
        f"{beside(haunch)}. Nothing is cut there at the shoulder: the haunch stays."
    )


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
    where = (
        f"they fill the mortise at the {tenon.upright.beyond}, and go on to "
        f"{text(tenon.wedge_length)}, to be driven"
        if tenon.given.through
        else f"the tenon ends, and stop at {text(tenon.wedge_length)}: the mortise's floor drives "
        "them, and longer ones would keep the shoulders open"
    )
    yield Step(
        Task.MAKE_KEYS,
        "Make the wedges",
        f"Of dry straight-grained hardwood {text(tenon.mortise_width)} thick, the grain along "
        "them, one after the other from the end of their stock: lay the template on for the first, "
        "saw down the slope, and then squarely across the whole stock at the line "
        f"{text(tenon.wedge_length)} from the end: that is the end for the next, which is marked "
        "from the first. "
        f"From nothing at the thin end they grow to {text(tenon.wedge_end)}, "
        f"{text(tenon.wedge_held)} from it, where {where}. So the thin end stays "
        f"{text(tenon.short_of_floor)} short of the kerf's floor. That is for a saw that cuts "
        f"{text(tenon.kerf)}: where yours cuts more or less, make them so much thicker or thinner.",
    )


def pegging(tenon: Tenon) -> Iterator[Step]:
    """The tenon's holes, and pegs."""
    text, drawbore = tenon.text, tenon.given.drawbore
    assert drawbore
    point = "Taper a third of their length, so that the point goes through all holes."
    if drawbore.depth:
        thin = tenon.peg - 2 * tenon.offset
        point = (
            f"The hole stops: taper no more than the last {text(tenon.point)}, to {text(thin)} at "
            "the tip. Past the tenon a peg holds only where it is whole."
        )
    pegs = "one peg" if drawbore.pegs == 1 else f"{drawbore.pegs} pegs"
    each = "each tenon" if tenon.given.twins == 1 else "each row of tenons side by side"
    yield Step(
        Task.SAW_FIRST,
        "Bore the tenon",
        f"With the shoulders shut, press the bit's point through the {tenon.role(1)}'s hole on to "
        f"the cheek, and take the joint apart: the prick of the template must stand "
        f"{text(tenon.offset)} nearer to the shoulder than this mark. Bore on the prick, square to "
        "the cheek; were it nearer to the tenon's end, the peg would drive the shoulder open.",
    )
    yield Step(
        Task.MAKE_KEYS,
        "Make the pegs",
        f"Split {pegs} for {each} from dry straight-grained hardwood, {text(tenon.peg)} thick "
        f"and {text(tenon.peg_length)} long, and do not saw them: where the grain runs out, a peg "
        f"breaks as it bends. {point}",
    )
