"""Spacing with tails of several widths: graded, smaller near the edges, pins in clusters.

All pins are of one width. Each tail is a fixed width or a share of one width, and that is
what the board makes it.
"""

from collections.abc import Sequence
from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.joints.gauge import as_a_gauge_is_set
from joinery_templates.joints.spacing.solver import ONE, UNKNOWN, Asked, Edges, Pattern, Width
from joinery_templates.joints.spacing.terms import Run, nearest_whole

GRADED_RATIO = Fraction(5, 4)
SMALL_RATIO = Fraction(2)
SMALL_RULE = (
    "small tails near the edges hold the corners against twisting "
    "(The Technique of Furniture Making, chapter on dovetailing)"
)
OUTERMOST_RULE = "half of the outermost tail, of the wide ones (our judgement)"
WIDE_RULE = "wide ones about twice as wide as the narrow ones (our judgement)"
NARROW_RULE = "as wide as a pin where both meet the baseline (our judgement)"


class _Shared:
    """The pins, and what stands at the edges: given, by rule, or half of the outermost tail."""

    def __init__(self, asked: Asked) -> None:
        self.asked = asked
        self.pin = asked.pin()
        self.known: Edges | None = None
        half = asked.given.half_tail
        if not asked.half_tails:
            self.known = asked.half_pins(Width(asked.half_pin_by_rule(self.pin)))
        elif half is not None:
            self.known = Width(half), Width(half)

    def pattern(self, tails: Sequence[Width]) -> Pattern:
        """Tails of some widths with what is shared."""
        # Of clusters the tails next to the half tails may all be narrow.
        first, last = ((tails[end].share if tails else ONE) or ONE for end in (0, -1))
        edges = self.known or (Width(share=first / 2), Width(share=last / 2))
        return self.asked.pattern(tails, Width(self.pin), edges)

    def count(self, least: int) -> int:
        """How many whole tails, counted as if all were alike."""
        return self.asked.tails(
            lambda count: self.pattern((UNKNOWN,) * count),
            lambda: self.asked.tail_wish(self.pin),
            least,
        )

    def fill(self, tails: Sequence[Width]) -> Run:
        """The tails on the board."""
        if self.known is None:
            self.asked.decide("Half tail", OUTERMOST_RULE)
        return self.pattern(tails).filling(self.asked.ground, "half_tail")


def graded(asked: Asked) -> Run:
    """Each tail is so many times as wide as its neighbour nearer the edge.

    Mirrored, the tails change towards the middle; else from the reference edge to the
    far edge.
    """
    shared, chosen = _Shared(asked), asked.given.chosen
    if chosen.ratio is None:
        asked.decide("Ratio", "each tail 5/4 of its neighbour (our judgement)")
    ratio, count = chosen.ratio or GRADED_RATIO, shared.count(1)
    mirrored = chosen.mirrored is not False
    powers = (min(n, count - 1 - n) if mirrored else n for n in range(count))
    return shared.fill([Width(share=ratio**power) for power in powers])


def small_edges(asked: Asked) -> Run:
    """Narrower tails near both edges, or near the reference edge only.

    So carcases are dovetailed: small tails near the front and back edges keep the edges
    of the panel from twisting (The Technique of Furniture Making, chapter on dovetailing).
    """
    shared, chosen = _Shared(asked), asked.given.chosen
    ratio, small = chosen.ratio or SMALL_RATIO, chosen.edge_tails or 1
    if ratio <= 1:
        raise InputError(
            mistake(
                "out-of-limits",
                "The other tails must be wider than the small ones.",
                "Give a ratio above 1.",
                "spacing.ratio",
            )
        )
    near, far = small, small if chosen.mirrored is not False else 0
    count = shared.count(near + far + 1)
    asked.decide("Small tails", SMALL_RULE)
    others = [Width(share=ratio)] * (count - near - far)
    return shared.fill([*[UNKNOWN] * near, *others, *[UNKNOWN] * far])


def clusters(asked: Asked) -> Run:
    """Two or three pins stand together, with narrow tails between them, and wide tails apart.

    Raises:
        InputError: where the number of tails does not make whole clusters, or the wide
            tails are not wider than the narrow ones.
    """
    shared, ground = _Shared(asked), asked.ground
    together = asked.given.chosen.pins_together or 2
    narrow = asked.given.chosen.narrow_tail
    if narrow is None:
        narrow = as_a_gauge_is_set(shared.pin + 4 * ground.lean, ground.units)
        asked.decide("Narrow tail", NARROW_RULE)
    cluster = [Width(narrow)] * (together - 1)

    def tails(groups: int) -> list[Width]:
        between = [one for _ in range(groups - 1) for one in (UNKNOWN, *cluster)]
        apart = [] if asked.half_tails else [UNKNOWN]
        return [*apart, *cluster, *between, *apart]

    groups = _given_groups(asked, together)
    if groups is None:
        groups = asked.count(
            lambda count: shared.pattern(tails(count)),
            lambda: asked.tail_wish(shared.pin, 2 * narrow, WIDE_RULE),
            1,
            "Number of clusters",
        )
    run = shared.fill(tails(groups))
    wide = run.first * 2 if groups == 1 and asked.half_tails else max(run.tails)
    if wide <= narrow:
        raise InputError(
            mistake(
                "no-clusters",
                "The tails between the clusters would be no wider than the narrow ones of "
                f"{ground.text(narrow)}.",
                "Give fewer clusters, or narrower pins or narrow tails.",
                "spacing",
            )
        )
    return run


def _given_groups(asked: Asked, together: int) -> int | None:
    """How many clusters, where they or the tails are given.

    Raises:
        InputError: where the number of tails does not make whole clusters.
    """
    groups, tails = asked.given.chosen.groups, asked.given.tails
    if tails is None:
        return groups
    extra = -1 if asked.half_tails else 1  # whole tails beyond `together` for each cluster
    made = groups or max(1, nearest_whole(Fraction(tails - extra, together)))
    if made * together + extra != tails:
        raise InputError(
            mistake(
                "no-whole-clusters",
                f"{tails} tails do not make {made} clusters of {together} pins; "
                f"{made * together + extra} would.",
                "Leave out the number of tails, or give one that does.",
                "tails",
            )
        )
    return made
