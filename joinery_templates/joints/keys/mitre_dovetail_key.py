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

from collections.abc import Iterator

from msgspec.structs import replace

from joinery_templates.errors import Finding, advice, refuse
from joinery_templates.exact import ONE, ZERO, Fraction, square_root
from joinery_templates.joint import Joint, SettingOut, Step, Task
from joinery_templates.joints.checks import too_short, widths_differ
from joinery_templates.joints.gauge import at_most_as_a_gauge_is_set
from joinery_templates.joints.keys.key import JointLine
from joinery_templates.joints.keys.keyed import SOURCES, keyed_joint, mouths
from joinery_templates.joints.keys.parameters import ROOM_EACH, KeyParameters, settle_key
from joinery_templates.joints.keys.row import KeyedJoint, lay_keys
from joinery_templates.joints.kind import Example, Kind, Request
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.sources import NOYES
from joinery_templates.joints.spread import more_or_fewer_keys
from joinery_templates.joints.words import beside
from joinery_templates.wood.cut import Cut, HalfSpace, Stage, Stretch
from joinery_templates.wood.placement import ACROSS, ORIGIN, Placement

OPENS = f"{NOYES}, p. 194: a mitre opens at the inside corner"
KEYED = f"{NOYES}, no. 57, the keyed mitre (from memory)"
WIDE = Fraction(75)
"""A wider member's mitre is told to open (our judgement)."""
HALF_ROOT = square_root(Fraction(1, 2))
"""Sine and cosine of 45 degrees, within `exact.ROOT_BOUND`."""
MITRE = HalfSpace((-ONE, ONE, ZERO), ZERO)
"""The waste before the mitre, in either member's frame."""


def _lay_out(request: Request) -> Joint:
    layout = Layout(request, request.given)
    refuse(widths_differ(layout, "In a mitre of 45 degrees"))
    width = layout.boards[0].width
    half = at_most_as_a_gauge_is_set(width / 2, layout.units)
    usual = (half, "half the width of the boards (our judgement)")
    key, rules = settle_key(layout, usual)
    line = JointLine(
        name="the mitre",
        limits=("outer corner", "inner corner"),
        length=width * square_root(Fraction(2)),
        widths_each=ROOM_EACH,
        # Nearer to a corner a tip breaks through an edge.
        nearest=(
            key.half_width + key.reach,
            max(key.half_mouth, key.half_width - key.reach),
        ),
        frame=Placement(
            ((HALF_ROOT, -HALF_ROOT, ZERO), (HALF_ROOT, HALF_ROOT, ZERO), (ZERO, ZERO, ONE)),
            ORIGIN,
        ),
        # Across one member is along the other.
        placement=Placement(ACROSS, ORIGIN),
    )
    row = lay_keys(layout, key, line)
    # Along a member, from the outer corner to the last of the mitre and the sockets.
    reach = max(width, (row.positions[-1] + key.half_width + key.reach) * HALF_ROOT)
    refuse(too_short(layout, (reach, reach)))
    keyed = KeyedJoint(request, layout.given, key, line, row, meet=_shoot(layout), lay_on=_LAY_ON)
    first, second = (
        Stretch(
            board,
            (
                Cut((MITRE,), Stage(1, "mitre")),
                *(replace(socket, stage=Stage(2, "chop")) for socket in sockets),
            ),
            ZERO,
            reach,
            line="squared across at the outer corner",
            up="waste end",
            hands=("right-hand end", "left-hand end"),
            left_longer=ZERO,
        )
        for board, sockets in zip(layout.boards, line.sockets(key, row.positions), strict=True)
    )
    along_mitre = SettingOut(
        "along the mitre",
        layout.role(0),
        row.length,
        mouths(keyed),
        start=line.limits[0],
        along_end=False,
    )
    return keyed_joint(
        keyed,
        (first, second),
        rows=(along_mitre,),
        rules=(*rules, *row.rules),
        reference="outer edge",
        findings=tuple(_on_width(layout)),
    )


def _on_width(layout: Layout) -> Iterator[Finding]:
    width = layout.boards[0].width
    if width > WIDE:
        yield advice(
            "mitre-wide",
            f"Boards {layout.text(width)} wide shrink across their width and not "
            "along it, and the mitre opens at its inner corner.",
            f"{OPENS}; the limit of {layout.text(WIDE)} is our judgement",
            "Use narrower boards or dry wood, and set the last key near the inner corner.",
        )


def _shoot(layout: Layout) -> Step:
    """From boards that are left long to a frame that closes at all corners."""
    lengths = [
        f"{layout.text(board.length)} apart on {layout.named(number)}"
        for number, board in enumerate(layout.boards)
        if board.length is not None
    ]
    apart = " and ".join(lengths) or "as far apart as the frame is long there"
    return Step(
        Task.MITRE,
        "Cut the mitre",
        "The frame lies flat, outside faces up; the reference edges are its outer edges. Corners "
        "A to D go clockwise seen from above, A at the lower left, and the first board is the "
        "upright one. The boards are still longer than the frame at both ends: square a line "
        f"across where each outer corner comes, {apart}. Lay each template on with the dashed line "
        f"on that line, and prick the mitre through. Saw off the hatched corner, "
        f"{beside('its line')}, and shoot the mitre to the middle of the line. Lay opposite boards "
        "side by side: they must be of one length to a hair, or the last corner gapes. Try all "
        "four corners together before you glue any: they must close at 90 degrees without light "
        "between them.",
    )


_LAY_ON = (
    "Cut the hatched corner off the paper too, along the mitre, straight across the sockets' "
    "mouths. Lay the rest of each template on the joined corner, the cut on "
    "the mitre and its reference edge flush with the board's, and prick through the small rings."
)

KIND = Kind(
    name="mitre-dovetail-key",
    title="Keyed mitre",
    summary="A flat mitre of a frame, held by double-dovetail keys let in across it.",
    roles=KeyedJoint.roles,
    parameter_class=KeyParameters,
    lay_out=_lay_out,
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
    sources=(KEYED, OPENS, *SOURCES),
    spread=more_or_fewer_keys,
)
