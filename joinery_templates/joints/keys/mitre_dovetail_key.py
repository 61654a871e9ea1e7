r"""Two members of a frame in a flat mitre, with keys across the mitre and square to it.

The first member seen on its outside face, its end at the top; the end is left long::

    reference edge = outer edge of the frame
    x = 0
    + - - - - +
    |\  waste |
    | \       |  y = 0: line squared across at the outer corner
    |  \/\    |
    |  /  \   |  half a socket, square to the mitre
    |  \   \  |
    |      \  \
    |        \|  y = width of the member: the inner corner
    |         |

The frame lies flat: outside faces up, reference edges outwards. At the corners A to D,
clockwise seen from above with A at the lower left, the first member is the upright one.
"""

from fractions import Fraction

from joinery_templates.errors import Finding, advice
from joinery_templates.exact import square_root
from joinery_templates.joint import Joint, SettingOut
from joinery_templates.joints.checks import refuse, too_short, widths_differ
from joinery_templates.joints.keys.figures import (
    ROLES,
    SOURCES,
    block,
    keyed_joint,
    mouths,
)
from joinery_templates.joints.keys.key import ONE, ZERO, JointLine, Key
from joinery_templates.joints.keys.layout import KeyedJoint
from joinery_templates.joints.keys.parameters import KeyParameters, settle_key
from joinery_templates.joints.keys.row import KeyGround, KeyRow, lay_keys
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.lengths import length_text
from joinery_templates.wood.board import Board, Face
from joinery_templates.wood.cut import Cut, HalfSpace, Stretch
from joinery_templates.wood.placement import Placement

LINE, LIMITS = "the mitre", ("outer corner", "inner corner")
NOYES = "Noyes, Handwork in Wood, 1910, p. 194: a mitre opens at the inside corner"
WIDE = Fraction(75)
"""A wider member's mitre is told to open (our judgement)."""
HALF_ROOT = square_root(Fraction(1, 2))
"""Sine and cosine of 45 degrees, within `exact.ROOT_BOUND`."""
MITRE = HalfSpace((-ONE, ONE, ZERO), ZERO)
"""The waste before the mitre, in either member's frame."""

MEET = JointLine(
    start=(ZERO, ZERO, ZERO),
    along=(HALF_ROOT, HALF_ROOT, ZERO),
    into=(-HALF_ROOT, HALF_ROOT, ZERO),
    placement=Placement(
        ((ZERO, ONE, ZERO), (ONE, ZERO, ZERO), (ZERO, ZERO, ONE)), (ZERO, ZERO, ZERO)
    ),
    bounds=((MITRE.turned(),), (MITRE.turned(),)),
)
"""The mitre from the outer corner; across one member is along the other."""


def build(request: Request) -> Joint:
    """The layout of keys across a mitre.

    Raises:
        InputError: where it cannot be cut.
    """
    given, boards, units = request.given, request.boards, request.units
    assert isinstance(given, KeyParameters)
    refuse(widths_differ(boards, "In a mitre of 45 degrees", units))
    width = boards[0].width
    usual = (width / 2, "half the width of the members (our judgement)")
    key, key_rules = settle_key(given, boards, units, usual)
    mitre = width * square_root(Fraction(2))
    row = lay_keys(given, key, _ground(mitre, key), units)
    reach = _reach(width, row, key)
    refuse(too_short(boards, (reach, reach), units))
    keyed = KeyedJoint(
        request=request,
        key=key,
        row=row,
        across_grain=False,
        line=LINE,
        limits=LIMITS,
        meet=_SHOOT,
        lay_on=_LAY_ON,
    )
    cuts = MEET.sockets(key, row.positions)
    mitred = SettingOut(
        "along the mitre",
        ROLES[0].words,
        row.length,
        mouths(row, key),
        start=LIMITS[0],
        along_end=False,
    )
    return keyed_joint(
        KIND,
        keyed,
        MEET,
        (_member(boards[0], cuts[0], reach), _member(boards[1], cuts[1], reach)),
        filled=_filled(width, reach, keyed.thinner.thickness),
        rows=(mitred,),
        rules=key_rules,
        # The mitre is squared over the edges; a pattern of them would show no more.
        drawn=(Face.OUTSIDE, Face.INSIDE) if key.through else (Face.OUTSIDE,),
        reference="outer edge",
        findings=_on_width(request),
    )


def _ground(mitre: Fraction, key: Key) -> KeyGround:
    """How near the corners a socket may come before a tip breaks through an edge."""
    outer = key.half_width + key.reach
    inner = max(key.half_mouth, key.half_width - key.reach)
    return KeyGround(
        length=mitre,
        share=3 * key.width,
        share_rule="about 3 key widths for each",
        nearest=(outer, inner),
        line=LINE,
        limits=LIMITS,
    )


def _filled(
    width: Fraction, reach: Fraction, thickness: Fraction
) -> tuple[tuple[HalfSpace, ...], ...]:
    """The corner as far along the first member as sockets reach, and what the second has more."""
    corner = block((ZERO, ZERO), (width, reach), thickness)
    more = block((width, ZERO), (reach, width), thickness)
    return (corner, more) if reach > width else (corner,)


def _member(board: Board, sockets: tuple[Cut, ...], reach: Fraction) -> Stretch:
    """One member, left long past the outer corner."""
    words = "squared across at the outer corner"
    hands = ("right-hand end", "left-hand end")
    return Stretch(
        board, (Cut((MITRE,)), *sockets), ZERO, reach, words, "end, still too long here", hands
    )


def _reach(width: Fraction, row: KeyRow, key: Key) -> Fraction:
    """From the outer corner along a member to the last of the mitre and the sockets."""
    furthest = row.positions[-1] + key.half_width + key.reach
    return max(width, furthest * HALF_ROOT)


def _on_width(request: Request) -> tuple[Finding, ...]:
    width = request.boards[0].width
    if width <= WIDE:
        return ()
    return (
        advice(
            "mitre-wide",
            f"Members {length_text(width, request.units)} wide shrink across their width and not "
            "along it, and the mitre opens at its inner corner.",
            f"{NOYES}; the limit of {length_text(WIDE, request.units)} is our judgement",
            "Take narrower members or dry wood, and set the last key near the inner corner.",
        ),
    )


_SHOOT = (
    "Saw both members in the mitre and shoot them until the corner closes at 90 degrees without "
    "light: the frame lies flat with the outside faces up, and the reference edges are its outer "
    "edges. Corners A to D go clockwise seen from above, A at the lower left, and the first board "
    "is the upright one. A template shows where the mitre runs: lay it with its dashed line on a "
    "line squared across at the outer corner, and prick it through; the hatched corner goes."
)
_LAY_ON = (
    "The hatched corner before the mitre is sawn away by now: cut it off the paper too, straight "
    "across the sockets' mouths. Lay the rest of each template on the joined corner, the cut on "
    "the mitre and its reference edge flush with the member's, and prick through the small crosses."
)

KIND = Kind(
    name="mitre-dovetail-key",
    title="Keyed mitre",
    summary="A flat mitre of a frame, held by double-dovetail keys let in across it.",
    roles=ROLES,
    parameter_class=KeyParameters,
    build=build,
    example=Example(
        width="70 mm",
        thicknesses=("20 mm", "20 mm"),
        parameters=(
            ("keys", 1),
            ("key_length", "36 mm"),
            ("key_width", "15 mm"),
            ("waist", "9 mm"),
            ("depth", "8 mm"),
            ("proud", "1 mm"),
        ),
    ),
    sources=(*SOURCES, NOYES),
)
