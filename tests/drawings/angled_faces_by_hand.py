"""Corners not square in plan, and mitres that lean: every face worked by hand, with 3, 4 and 5.

The angle in plan is the one whose sine is 4/5 and whose cosine is -3/5; boards lean by the
one whose sine is 3/5. Faces are held as in `leaning_faces_by_hand`.

Not square in plan: the ends are square across the faces and 3/4 longer inside for each mm
through. A board 8 thick takes 10 of the other along the grain, one 12 thick 15, and tails at
1 in 6 come in by 2.5.

Mitres of boards 100 wide, 10 and 5 thick, run from the arris outside to the arris inside,
where each board reaches as far as the other is thick: 5 / (4/5) = 6.25 and 12.5 along it.

    leaning   to the arris outside 3/5 for each mm from the far edge. Inside the first board
              would end 10 * 9/20 further and takes 6.25 less: it is 1.75 shorter there. The
              other would end 5 * 9/20 further and takes 12.5 less: it is 10.25 shorter
    in plan   the first 10 * 3/4 further and 6.25 less: 1.25 longer inside; the other
              5 * 3/4 further and 12.5 less: 8.75 shorter
"""

from tests.drawings.faces_by_hand import (
    END,
    FAR,
    FIRST,
    INSIDE,
    OUTSIDE,
    PIN,
    REFERENCE,
    SECOND,
    TAIL,
)
from tests.drawings.leaning_faces_by_hand import BOARDS, LEAN, TAILS, Listed, Sided, job

PLAN = "126.869897645844"

# Both edges of a board 8 thick whose waste goes right across: it ends 15 below the end, which
# is 8 * 3/4 = 6 lower outside.
EDGE_8: Sided = {
    "left": ([], [((0, 21), (8, 15))]),
    "right": ([], [((8, 21), (0, 15))]),
}


def _square(across: tuple[float, ...], down: float, below: tuple[float, ...]) -> Listed:
    return [((a, 0), (b, down)) for a, b in zip(across, below, strict=True)]


def _along(places: tuple[tuple[float, float], ...], down: float) -> Listed:
    return [((a, down), (b, down)) for a, b in places]


_SLANTED: Sided = {
    "left": (
        _square((10, 40, 60, 85), 15, (12.5, 37.5, 62.5, 82.5)),
        _along(((0, 12.5), (37.5, 62.5), (82.5, 100)), 15),
    ),
    "right": (
        _square((15, 40, 60, 90), 15, (17.5, 37.5, 62.5, 87.5)),
        _along(((0, 17.5), (37.5, 62.5), (87.5, 100)), 15),
    ),
}
ANGLED_TAILS: dict[tuple[str, str], Sided] = {
    (TAIL, OUTSIDE): _SLANTED,
    (TAIL, INSIDE): _SLANTED,
    # Through 8 mm the slanted end is 8 / (4/5) wide; through 12 mm 15.
    (TAIL, END): {
        "left": (_square((10, 40, 60, 85), 10, (10, 40, 60, 85)), []),
        "right": (_square((15, 40, 60, 90), 10, (15, 40, 60, 90)), []),
    },
    (TAIL, REFERENCE): EDGE_8,
    (TAIL, FAR): EDGE_8,
    (PIN, OUTSIDE): {
        "left": (
            _square((10, 40, 60, 85), 10, (10, 40, 60, 85)),
            _along(((10, 40), (60, 85)), 10),
        ),
        "right": (
            _square((15, 40, 60, 90), 10, (15, 40, 60, 90)),
            _along(((15, 40), (60, 90)), 10),
        ),
    },
    (PIN, INSIDE): {
        "left": (
            _square((12.5, 37.5, 62.5, 82.5), 10, (12.5, 37.5, 62.5, 82.5)),
            _along(((12.5, 37.5), (62.5, 82.5)), 10),
        ),
        "right": (
            _square((17.5, 37.5, 62.5, 87.5), 10, (17.5, 37.5, 62.5, 87.5)),
            _along(((17.5, 37.5), (62.5, 87.5)), 10),
        ),
    },
    (PIN, END): {
        "left": (_square((12.5, 37.5, 62.5, 82.5), 15, (10, 40, 60, 85)), []),
        "right": (_square((17.5, 37.5, 62.5, 87.5), 15, (15, 40, 60, 90)), []),
    },
}

LEANING_MITRE: dict[tuple[str, str], Sided] = {
    (FIRST, OUTSIDE): {
        "left": ([((0, 60), (100, 0))], []),
        "right": ([((100, 60), (0, 0))], []),
    },
    (FIRST, INSIDE): {
        "left": ([((0, 61.75), (100, 1.75))], []),
        "right": ([((100, 61.75), (0, 1.75))], []),
    },
    (FIRST, REFERENCE): {
        "left": ([((0, 60), (10, 61.75))], []),
        "right": ([((10, 60), (0, 61.75))], []),
    },
    (FIRST, FAR): {"left": ([((0, 0), (10, 1.75))], []), "right": ([((10, 0), (0, 1.75))], [])},
    (SECOND, OUTSIDE): {
        "left": ([((0, 60), (100, 0))], []),
        "right": ([((100, 60), (0, 0))], []),
    },
    (SECOND, INSIDE): {
        "left": ([((0, 70.25), (100, 10.25))], []),
        "right": ([((100, 70.25), (0, 10.25))], []),
    },
    (SECOND, REFERENCE): {
        "left": ([((0, 60), (5, 70.25))], []),
        "right": ([((5, 60), (0, 70.25))], []),
    },
    (SECOND, FAR): {"left": ([((0, 0), (5, 10.25))], []), "right": ([((5, 0), (0, 10.25))], [])},
}
# Square across, so that only the edges tell the hand.
ANGLED_MITRE: dict[tuple[str, str], Sided] = {
    (FIRST, OUTSIDE): {side: (_along(((0, 100),), 1.25), []) for side in ("left", "right")},
    (FIRST, REFERENCE): {
        "left": ([((0, 1.25), (10, 0))], []),
        "right": ([((10, 1.25), (0, 0))], []),
    },
    (SECOND, INSIDE): {side: (_along(((0, 100),), 8.75), []) for side in ("left", "right")},
    (SECOND, REFERENCE): {
        "left": ([((0, 0), (5, 8.75))], []),
        "right": ([((5, 0), (0, 8.75))], []),
    },
}
ANGLED_MITRE[FIRST, FAR] = ANGLED_MITRE[FIRST, REFERENCE]
ANGLED_MITRE[SECOND, FAR] = ANGLED_MITRE[SECOND, REFERENCE]

CASES: dict[str, tuple[str, dict[tuple[str, str], Sided]]] = {
    "angled-dovetail": (
        job("angled-dovetail", 100, (8, 12), f'{TAILS}slope = "1:6"\nplan = {PLAN}\n'),
        ANGLED_TAILS,
    ),
    "canted-mitre": (
        job("canted-mitre", 100, (10, 5), f"{BOARDS}lean = {LEAN}\n"),
        LEANING_MITRE,
    ),
    "angled-mitre": (
        job("angled-mitre", 100, (10, 5), f"{BOARDS}plan = {PLAN}\n"),
        ANGLED_MITRE,
    ),
}
