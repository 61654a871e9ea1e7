"""Shared vocabulary of random layouts, and the plain request that worked cases start from."""

from hypothesis import strategies as st
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joints.dovetails import through_dovetail
from joinery_templates.joints.dovetails.through_dovetail import Parameters
from joinery_templates.joints.kind import Kind, Request
from joinery_templates.joints.parameter import read_parameters
from joinery_templates.joints.spacing.parameters import HALF_PIN, HALF_TAIL
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import INCH, Units, read_length
from joinery_templates.wood.board import Board
from tests.joints.worked import request

ZERO = Fraction(0)


def dovetail(
    width: str,
    thicknesses: tuple[str, str] = ("18 mm", "18 mm"),
    units: Units = Units.MM,
    tools: Tools | None = None,
    **raw: object,
) -> Request:
    """A request for a through dovetail from values as a person writes them."""
    return request(through_dovetail.KIND, width, thicknesses, units, tools=tools, **raw)


def example_request(kind: Kind, units: Units = Units.MM, **changes: object) -> Request:
    """The request behind a kind's example, with some parameters changed."""
    example = kind.example
    raw = dict(example.parameters) | changes
    sizes = zip(kind.roles, example.widths, example.thicknesses, strict=True)
    first, second = (
        Board(role.words, read_length(width, Units.MM), read_length(thickness, Units.MM))
        for role, width, thickness in sizes
    )
    given = read_parameters(kind.parameter_class, raw, units)
    return Request((first, second), given, units, Tools())


def lengths(low: int, high: int) -> st.SearchStrategy[Fraction]:
    """Lengths in mm from `low` to `high`, in tenths of a millimetre or 64ths of an inch."""
    tenths = st.integers(low * 10, high * 10).map(lambda count: Fraction(count, 10))
    grid = INCH / 64
    parts = st.integers(-(-low // grid), high // grid).map(lambda count: count * grid)
    return st.one_of(tenths, parts)


SLOPES = st.one_of(
    st.integers(4, 10).map(lambda run: Fraction(1, run)),
    st.integers(5 * 7, 8 * 7).map(lambda sevenths: Fraction(7, sevenths)),
)
NO_FIT = st.just(ZERO)
GAPS = st.integers(1, 50).map(lambda count: Fraction(count, 100))
PRESSED = st.integers(-30, -1).map(lambda count: Fraction(count, 100))
PROUD = st.one_of(st.just(ZERO), lengths(0, 2))


@st.composite
def dovetails(
    draw: st.DrawFn,
    fits: st.SearchStrategy[Fraction] = NO_FIT,
    starts: tuple[str, ...] = (HALF_PIN, HALF_TAIL),
) -> Request:
    """Through dovetails that can be cut: with half pins or half tails, flush or proud.

    Whole widths are drawn and the board is as wide as they come to, so nothing is
    proposed or rounded. Whatever the fit, wood is left of every pin and tail.
    """
    slope = draw(SLOPES)
    tail_thickness, pin_thickness = draw(lengths(6, 30)), draw(lengths(6, 30))
    tails_proud, pins_proud = draw(PROUD), draw(PROUD)
    lean = (pin_thickness + tails_proud) * slope
    start = draw(st.sampled_from(starts))
    pin, tail = draw(lengths(2, 12)), draw(lengths(2, 30)) + 2 * lean
    shared = {
        "start": start,
        "slope": slope,
        "pin": pin,
        "fit": draw(fits),
        "tails_proud": tails_proud,
        "pins_proud": pins_proud,
    }
    if start == HALF_PIN:
        count = draw(st.integers(1, 7))
        first, last = draw(lengths(2, 15)), draw(lengths(2, 15))
        width = first + last + count * tail + (count - 1) * pin
        given = Parameters(tails=count, half_pin=first, half_pin_far=last, **shared)
    else:
        count = draw(st.integers(0, 6))
        half = draw(lengths(2, 15)) + lean
        width = 2 * half + count * tail + (count + 1) * pin
        given = Parameters(tails=count, half_tail=half, tail=tail if count else None, **shared)
    boards = (Board("side", width, tail_thickness), Board("end", width, pin_thickness))
    return Request(boards, given, draw(st.sampled_from(list(Units))), Tools())


def with_given(request: Request, **changes: object) -> Request:
    """The same request with some parameters changed."""
    return replace(request, given=request.given.but(**changes))


def widened(request: Request, number: int, insets: tuple[Fraction, Fraction], far: bool) -> Request:
    """The same joint on one board that is wider by as much at either edge."""
    boards = list(request.boards)
    boards[number] = replace(boards[number], width=boards[number].width + sum(insets))
    meet, offset = ("far", insets[1]) if far else ("reference", insets[0])
    given_ = request.given.but(meet=meet, offset=offset)
    return replace(request, boards=tuple(boards), given=given_)
