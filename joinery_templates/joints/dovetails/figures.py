"""A dovetailed corner in figures: rows of marks, sizes, dividers; and the whole joint from them."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import Finding
from joinery_templates.joints.corners.grooves import (
    advise_on_depth,
    filled_but_for,
    groove_rules,
    grooved,
    grooves_in,
    outside_channels,
)
from joinery_templates.joints.dovetails.advice import advise
from joinery_templates.joints.dovetails.corner import DovetailCorner
from joinery_templates.joints.dovetails.steps import Work, with_ploughing
from joinery_templates.joints.joint import (
    Clearing,
    Joint,
    LengthSetting,
    Mark,
    Member,
    Request,
    Role,
    SettingOut,
    Size,
    SlopeSetting,
    Step,
)
from joinery_templates.joints.spacing.tails import Spacing, marks_of
from joinery_templates.wood.board import Face, Hand
from joinery_templates.wood.cut import BoardEnd

TAIL_BOARD, PIN_BOARD = "tail board", "pin board"
ROLES = (Role("tail_board", TAIL_BOARD), Role("pin_board", PIN_BOARD))
"""The boards of every dovetailed corner."""
LAP_LINE = "end grain, along the lap line"
INSIDE = "inside face, along the end"
BASELINE = "along the baseline"
TAILS_ENDS = "inside face, at the tails' ends"
PINS_ENDS = "the pins' ends, inside face"
TAILS_WIDE = "tail at the end (wide)"
TAILS_NARROW = "tail at the baseline (narrow)"


def row(
    corner: DovetailCorner, title: str, role: str, lean: Fraction, main: bool = False
) -> SettingOut:
    """The marks along one line across a board.

    Args:
        corner: the layout.
        title: which line it is.
        role: `TAIL_BOARD` or `PIN_BOARD`.
        lean: how far the sides have come in at that line; the fit is taken off by the caller.
        main: whether this row is set out first.
    """
    spacing, (near, far) = corner.spacing, corner.edges
    name = tail_names(spacing) if role == TAIL_BOARD else socket_names(spacing)
    marks = [
        Mark(near + position, f"{name(number)} {'starts' if starts else 'ends'}")
        for position, number, starts in marks_of(spacing, lean)
    ]
    if near:
        marks.insert(0, Mark(near, "mitred reference edge ends"))
    if far:
        marks.append(Mark(corner.width - far, "mitred far edge starts"))
    return SettingOut(title, role, corner.width, tuple(marks), main)


def through_rows(corner: DovetailCorner) -> tuple[SettingOut, ...]:
    """The setting-out along the end and the baseline of both boards, cut right through."""
    outside, inside = corner.lean_at_front - corner.fit_across, corner.lean - corner.fit_across
    return (
        row(corner, "outside face, along the end", TAIL_BOARD, Fraction(0), main=True),
        row(corner, BASELINE, TAIL_BOARD, corner.lean),
        row(corner, "outside face, along the end", PIN_BOARD, outside),
        row(corner, INSIDE, PIN_BOARD, inside),
    )


def tail_sizes(corner: DovetailCorner) -> tuple[Size, ...]:
    """Half pins or half tails, and tails, on the tail board."""
    spacing = corner.spacing
    sizes = []
    if spacing.half_pins:
        sizes.append(Size("half pin at the reference edge, narrow side", spacing.half_pins[0]))
        if len(set(spacing.half_pins)) > 1:
            sizes.append(Size("half pin at the far edge, narrow side", spacing.half_pins[1]))
    elif spacing.tails[0].width == spacing.tails[-1].width:
        sizes.append(Size("half tail at each edge, at the end", spacing.tails[0].width))
    else:
        edges = (("reference", spacing.tails[0]), ("far", spacing.tails[-1]))
        sizes += [Size(f"half tail at the {edge} edge, at the end", t.width) for edge, t in edges]
    tails = sorted(spacing.whole_tails, key=lambda tail: tail.width)
    if not tails:
        return tuple(sizes)
    differ = tails[0].width != tails[-1].width
    for tail, which in ((tails[0], "narrowest "), (tails[-1], "widest "))[: 1 + differ]:
        words = which if differ else ""
        sizes.append(Size(f"{words}{TAILS_WIDE}", tail.width))
        sizes.append(Size(f"{words}{TAILS_NARROW}", tail.width_at(corner.lean)))
    return tuple(sizes)


def pin_sizes(
    corner: DovetailCorner,
    narrow_at: str = "on the pin board's outside face",
    space_at: str = "at the tail board's end",
) -> tuple[Size, ...]:
    """The spaces for the pins and the pins at both of their ends; empty without whole pins."""
    if not corner.spacing.pins:
        return ()
    narrow, wide = corner.pin_widths
    return (
        Size(f"space for a pin {space_at}", min(corner.spacing.pins)),
        Size(f"pin {narrow_at} (narrow)", narrow),
        Size("pin on the pin board's inside face (wide)", wide),
    )


def both_baselines(corner: DovetailCorner) -> tuple[LengthSetting, ...]:
    """A gauge for each board's baseline."""
    return (
        LengthSetting("gauge", "tail board's baseline, from its end", corner.depth),
        LengthSetting("gauge", "pin board's baseline, from its end", corner.pin_depth),
    )


def dividers(corner: DovetailCorner) -> tuple[LengthSetting, ...]:
    """The dividers' setting; empty where there is nothing to step."""
    step = corner.spacing.step
    if step is None:
        return ()
    return (LengthSetting("dividers", "one tail and one pin, stepped off", step),)


def clearings(corner: DovetailCorner) -> tuple[Clearing, ...]:
    """What stands between two sawn sides on both boards; at an open edge there is no other side.

    A space for a pin is narrowest at the tails' ends, a socket for a tail at the pin board's
    inside face.
    """
    spacing, lean, off = corner.spacing, corner.lean, corner.fit_across
    inside, front = 2 * (lean - off), 2 * (corner.lean_at_front - off)
    edges = zip(corner.edges, spacing.half_pins, strict=False)
    return (
        *(
            Clearing(f"{TAIL_BOARD}, space for a pin", pin, pin + 2 * lean, "pin")
            for pin in sorted(set(spacing.pins))
        ),
        *(
            Clearing(f"{TAIL_BOARD}, space for a half pin", half, half + lean, "half_pin")
            for half in sorted({half for edge, half in edges if edge})
        ),
        *(
            Clearing(f"{PIN_BOARD}, socket for a tail", tail - inside, tail - front, "tail")
            for tail in sorted({tail.width for tail in spacing.whole_tails})
        ),
    )


@dataclass(frozen=True, slots=True)
class Told:
    """What a kind says of its corner; see `Joint` for the attributes."""

    rows: tuple[SettingOut, ...]
    sizes: tuple[Size, ...]
    lengths: tuple[LengthSetting, ...]
    steps: tuple[Step, ...]
    rules: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    faces: tuple[Face, ...] = (Face.OUTSIDE, Face.END_GRAIN, Face.INSIDE)


def dovetail_joint(
    kind: tuple[str, str],
    request: Request,
    corner: DovetailCorner,
    ends: tuple[BoardEnd, BoardEnd],
    told: Told,
) -> Joint:
    """The whole layout; the advice that every dovetail has is added to the kind's own.

    Args:
        kind: the kind's name and title.
        request: what it is built from.
        corner: the layout.
        ends: the tail board's and the pin board's end.
        told: rows, sizes and words.
    """
    grooves = grooves_in(request, corner)
    tails, pins = grooved(ends, grooves)
    thickness = corner.tail_board.thickness - corner.pins.lap
    return Joint(
        kind=kind[0],
        title=kind[1],
        members=(Member(TAIL_BOARD, tails, Hand.RIGHT), Member(PIN_BOARD, pins, Hand.LEFT)),
        placement=corner.placement,
        filled=filled_but_for(corner.filled(), grooves),
        allowance=corner.fit,
        rows=told.rows,
        sizes=(*told.sizes, *(size for groove in grooves for size in groove.sizes)),
        lengths=told.lengths,
        slopes=(SlopeSetting("sides of the tails", corner.slope),),
        rules=(*told.rules, *groove_rules(grooves)),
        findings=(
            *advise(
                corner.spacing,
                corner.slope,
                corner.tail_length,
                thickness,
                request.tools,
                request.units,
            ),
            *corner.spacing.findings,
            *told.findings,
            *advise_on_depth(request, grooves),
        ),
        steps=with_ploughing(
            Work(corner, request.units), told.steps, grooves, outside_channels(request, corner)
        ),
        faces=told.faces,
        clearings=clearings(corner),
    )


def tail_names(spacing: Spacing) -> Callable[[int], str]:
    """Names the tails: numbered from the reference edge, the half ones by their edge."""
    first = spacing.tails[0].whole

    def name(number: int) -> str:
        tail = spacing.tails[number - 1]
        if tail.whole:
            return f"tail {number if first else number - 1}"
        return f"half tail at the {'reference' if number == 1 else 'far'} edge"

    return name


def socket_names(spacing: Spacing) -> Callable[[int], str]:
    """Names the sockets by the tails that they are for."""
    tail = tail_names(spacing)
    return lambda number: f"space for {tail(number)}"
