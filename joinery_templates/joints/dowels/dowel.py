"""Dowels: boards edge to edge, a rail on a stile, and ends on faces, by one row of holes."""

from collections.abc import Iterator

from joinery_templates.errors import COMMON
from joinery_templates.joint import Joint, LengthSetting, Mark, SettingOut, Size
from joinery_templates.joints.along_line import dividers_along, sizes_along
from joinery_templates.joints.dowels.boards import (
    APART,
    BAND,
    FORMS,
    MIDDLE,
    RODS,
    SHORTER,
    SIZES,
    THICKEST,
    THIN_STOCK,
    THINNEST,
    Dowelled,
    Parameters,
)
from joinery_templates.joints.dowels.checks import advise, refuse_impossible
from joinery_templates.joints.dowels.steps import order_of_work
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import FRAME_CORNERS, faces_with_lines
from joinery_templates.joints.spread import Layouts
from joinery_templates.joints.tool_fit import BIT
from joinery_templates.lengths import Units


def lay_out(request: Request) -> Joint:
    """The layout of a dowelled joint.

    Raises:
        InputError: where it cannot be bored.
    """
    given: Parameters = request.given
    dowelled: Dowelled = FORMS[given.form](request, given)
    refuse_impossible(dowelled)
    parts = dowelled.parts
    return Joint(
        members=dowelled.members(*parts),
        placements=(dowelled.placement,),
        filled=tuple(dowelled.filled()),
        rows=tuple(_rows(dowelled)),
        sizes=tuple(_sizes(dowelled)),
        lengths=tuple(_lengths(dowelled)),
        rules=tuple(_rules(dowelled)),
        findings=tuple(advise(dowelled)),
        steps=tuple(order_of_work(dowelled)),
        pose=dowelled.pose,
        faces=faces_with_lines(*parts),
        loose=tuple(dowelled.loose()),
        at_corner=dowelled.at_corner,
    )


def _rows(joint: Dowelled) -> Iterator[SettingOut]:
    """One row for both boards: it is laid along the line on which both are pricked."""
    marks = tuple(
        Mark(at, f"middle of hole {number}") for number, at in enumerate(joint.positions, start=1)
    )
    for number, role in enumerate(joint.roles):
        yield SettingOut(
            "the line of the holes",
            role.words,
            joint.line,
            marks,
            main=not number,
            start=joint.limits[0],
            along_end=False,
        )


def _sizes(joint: Dowelled) -> Iterator[Size]:
    yield Size("dowel, diameter", joint.diameter)
    yield Size("dowel, length", joint.dowel)
    yield from sizes_along("dowel", joint.positions, joint.line, joint.limits)


def _lengths(joint: Dowelled) -> Iterator[LengthSetting]:
    use = f"line of the holes, from the outside face{joint.on_second}"
    yield LengthSetting("gauge", use, joint.thick / 2)
    yield LengthSetting(BIT, "holes for the dowels", joint.diameter)
    for role, depth in zip(joint.roles, joint.depths, strict=True):
        yield LengthSetting("depth stop", f"{role.words}'s holes", depth)
    yield from dividers_along("dowel", joint.positions)


def _rules(joint: Dowelled) -> Iterator[str]:
    given, text = joint.given, joint.text
    listed = given.positions is not None
    if not listed and given.dowels is None and given.pitch is None:
        yield f"Number of dowels: {len(joint.positions)}, as many as stand well apart ({APART})."
    if not listed and given.pitch is None and given.end_distance is None:
        yield "Places: each dowel in the middle of an equal share (our judgement)."
    if given.diameter is None:
        owned = ", one of your bits" if joint.diameter in joint.request.tools.bits else ""
        yield f"Diameter: {text(joint.diameter)}{owned} ({BAND})."
    for number, (name, board) in enumerate(
        zip(("depth", "second_depth"), joint.roles, strict=True)
    ):
        if getattr(given, name) is None:
            yield f"Holes in the {board.words}: {text(joint.depths[number])} deep ({MIDDLE})."
    if given.spare is None:
        yield f"Length of a dowel: {text(joint.spare)} less than both holes ({SHORTER})."


def _bolder_and_finer(joint: Joint, units: Units) -> Layouts:
    """The next thicker dowels that are sold, also one fewer; the next thinner, also one more."""
    count, diameter = joint.loose[0].made, joint.loose[0].member.part.board.width
    thick = min(member.part.board.thickness for member in joint.members)
    sold = [size for size in SIZES[units] if thick * THINNEST <= size <= thick * THICKEST]
    thicker = min((size for size in sold if size > diameter), default=diameter)
    thinner = max((size for size in sold if size < diameter), default=diameter)
    sizes = ((-1, thicker), (0, thicker), (0, diameter), (0, thinner), (1, thinner))
    told = dict.fromkeys(("pitch", "end_distance", "positions"))
    yield from ({"dowels": count + more, "diameter": size, **told} for more, size in sizes)


KIND = Kind(
    name="dowel",
    title="Dowelled joint",
    summary="Dowels in bored holes: boards edge to edge, a rail on a stile, shelves and sides.",
    roles=Dowelled.roles,
    parameter_class=Parameters,
    lay_out=lay_out,
    example=Example(
        width="60 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(
            ("form", "frame"),
            ("dowels", 2),
            ("end_distance", "15 mm"),
            ("diameter", "8 mm"),
            ("depth", "25 mm"),
            ("spare", "3 mm"),
        ),
        second_width="60 mm",
        corners=FRAME_CORNERS,
    ),
    also=(
        "dowels",
        "dowel-joint",
    ),
    spread=_bolder_and_finer,
    sources=(MIDDLE, APART, SHORTER, BAND, THIN_STOCK, RODS, f"grooves, countersinking: {COMMON}"),
)
