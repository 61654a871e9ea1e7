"""The styles of spacing: how each spreads the tails, and what may be told beside it."""

from collections.abc import Callable, Mapping, Sequence

from msgspec import Struct

from joinery_templates.errors import refusal
from joinery_templates.exact import ZERO, Fraction
from joinery_templates.joints.gauge import as_a_gauge_is_set, nearest_whole
from joinery_templates.joints.sources import JOYCE, NOYES_48
from joinery_templates.joints.spacing import parameters
from joinery_templates.joints.spacing.proposal import WIDEST_TAIL, just, proposed_half_pin
from joinery_templates.joints.spacing.rounding import in_settable_figures
from joinery_templates.joints.spacing.solver import Asked, Run, check_count

SHOULDER_RULE = f"half the greatest width of a socket, at the shoulder line ({NOYES_48})"
EQUAL_RULE = f"equally wide on one line, which is strongest ({NOYES_48}; which line: our judgement)"
REST_RULE = "what the widths given leave over, shared by both edges (our judgement)"
RATIO_RULE = "each tail 5/4 of its neighbour (our judgement)"
SMALL_RULE = f"small tails near the edges hold the corners against twisting ({JOYCE})"
OUTERMOST_RULE = "half of the outermost wide tail (our judgement)"
WIDE_RULE = "wide ones about twice as wide as the narrow ones (our judgement)"
NARROW_RULE = "as wide as a pin where both meet the baseline (our judgement)"
GRADED_RATIO, SMALL_RATIO = Fraction(5, 4), Fraction(2)


def _even(asked: Asked) -> Run:
    """All whole tails of one width and all pins of one width.

    What is not given follows: the pins where tails and their number are, what stands at the
    edges where all else is, and otherwise the tails.
    """
    given, lean = asked.given, asked.ground.lean
    # Without their number the tails' width is only a wish.
    tail = None if given.tails is None else given.tail
    has_pins = asked.half_tails or given.tails != 1
    pin_follows = tail is not None and given.pin is None and has_pins
    pin = None if pin_follows else asked.pin(told=has_pins)
    edges_follow = tail is not None and pin is not None

    def run(count: int, unknown: Fraction) -> Run:
        wide, narrow = tail or unknown, pin or unknown
        tails = (wide,) * count
        if edges_follow:
            return asked.run(tails, narrow, unknown, alike=False)
        if pin_follows and not asked.half_tails:
            return asked.run(tails, narrow, narrow + lean)
        return _beside(asked, tails, narrow, wide)

    count = asked.tails(run, asked.tail_wish(pin or ZERO))
    filled = asked.fill(lambda unknown: run(count, unknown), "tails")
    if edges_follow:
        return filled
    if pin is None or asked.half_tails:
        asked.decide_edges()
        return filled
    return in_settable_figures(filled, asked, pin)


def _by_shoulder(asked: Asked) -> Run:
    """The shoulder line in as many equal parts as tails.

    Half the greatest width of a socket is set off on each side of every division and
    from both edges (Noyes 1910, no. 48). At the shoulder a
    half pin is therefore half as wide as a whole one.
    """
    if asked.half_tails:
        raise refusal(
            "not-with-this-style",
            "This style has half pins at the edges.",
            f'Leave it out, or set start = "{parameters.HALF_PIN}".',
            "start",
        )
    given, ground = asked.given, asked.ground
    socket, both = given.chosen.socket, 2 * ground.lean
    if socket is not None and given.pin is not None and socket != given.pin + both:
        raise refusal(
            "does-not-add-up",
            f"A pin of {ground.text(given.pin)} is {ground.text(given.pin + both)} "
            f"wide at the shoulder line, and not {ground.text(socket)}.",
            "Leave out one of the two.",
            "spacing.socket",
        )
    pin = asked.pin() if socket is None else socket - both

    def run(count: int, tail: Fraction) -> Run:
        # At the shoulder pin / 2 + lean: half of pin + 2 lean.
        return asked.run((tail,) * count, pin, pin / 2)

    count = asked.tails(run, asked.tail_wish(pin))
    asked.decide("Half pin", SHOULDER_RULE)
    return asked.fill(lambda tail: run(count, tail), "tails")


def _equal_to_pins(asked: Asked) -> Run:
    """Tails as wide as the pins at a line across them.

    Strongest, by Noyes (1910, no. 48); he does not say at which line. What is not known is that
    width, or, where it follows from what is given, what stands at the edges.
    """
    given, ground = asked.given, asked.ground
    both = 2 * ground.lean * parameters.LINES[given.chosen.at or "middle"]
    asked.decide("Tails and pins", EQUAL_RULE)
    if given.pin is not None and given.tail not in (None, given.pin + 2 * both):
        raise refusal(
            "does-not-add-up",
            f"A pin of {ground.text(given.pin)} and a tail of "
            f"{ground.text(given.tail or ZERO)} at the end are not equally wide on that line.",
            "Leave one of them out.",
            "tail",
        )
    known = None if given.pin is None else given.pin + both
    if given.tail is not None and given.tails is not None:
        known = given.tail - both

    def run(count: int, width: Fraction, edge: Fraction | None = None) -> Run:
        if edge is None:
            edge = (width + both) / 2 if asked.half_tails else width - both + ground.lean
        return asked.run((width + both,) * count, width - both, edge)

    wish = known
    if wish is None:
        ordinary = min(ground.pin_thickness, WIDEST_TAIL - both)
        wish = max(ordinary if given.tail is None else given.tail - both, Fraction(1, 10))
    count = asked.tails(run, just(wish))
    if known is None:
        asked.decide_edges()
        return asked.fill(lambda width: run(count, width), "tails")
    asked.decide_edges(REST_RULE)
    return asked.fill(lambda edge: run(count, known, edge), "tails")


def _as_listed(asked: Asked) -> Run:
    """The tails and pins of a list, in order; what stands at the edges takes up the rest."""
    widths = asked.given.chosen.widths or ()
    if not widths:
        raise refusal(
            "missing",
            "The widths are missing.",
            'Write for example { style = "listed", widths = [20, 5, 30, 5, 20] }.',
            "spacing.widths",
        )
    if asked.given.chosen.mirrored:
        widths = (*widths, *widths[-2::-1])
    if len(widths) % 2 == 0:
        piece = "pin" if asked.half_tails else "tail"
        raise refusal(
            "list-uneven",
            f"The list has {len(widths)} widths; it begins and ends with a {piece}, so "
            "that their number is odd.",
            "Add or take away one, or write mirrored = true to list up to the middle only.",
            "spacing.widths",
        )
    tails, pins = widths[::2], widths[1::2]
    if asked.half_tails:
        tails, pins = pins, tails
    check_count(len(tails))
    near, far = asked.ends
    if near is None and far is None:
        asked.decide_edges(REST_RULE)

    def run(edge: Fraction) -> Run:
        return Run(asked.half_tails, near or edge, tails, pins, far or edge)

    return asked.fill(run, "spacing.widths")


# Tails of several widths, each fixed or a share of one width; pins of one width.


def _beside(asked: Asked, tails: Sequence[Fraction], pin: Fraction, *outermost: Fraction) -> Run:
    """Tails with half pins by rule, or half of the outermost tails, where nothing is told."""
    if asked.half_tails:
        return asked.run(tails, pin, *(tail / 2 for tail in outermost))
    return asked.run(tails, pin, proposed_half_pin(asked.ground, pin))


def _in_shares(
    asked: Asked, pin: Fraction, least: int, shares_of: Callable[[int], Sequence[Fraction]]
) -> Run:
    """Tails each so many times as wide as one that is not known.

    Args:
        asked: of the spacing.
        pin: width of all.
        least: whole tails there must be; they are counted as if all were alike.
        shares_of: so many tails.
    """
    count = asked.tails(
        lambda count, tail: _beside(asked, (tail,) * count, pin, tail),
        asked.tail_wish(pin),
        least,
    )
    shares = shares_of(count)

    def run(one: Fraction) -> Run:
        tails = [one * share for share in shares]
        return _beside(asked, tails, pin, tails[0], tails[-1])

    return _filled(asked, run)


def _filled(asked: Asked, run: Callable[[Fraction], Run]) -> Run:
    asked.decide_edges(OUTERMOST_RULE if asked.half_tails else "")
    return asked.fill(run, "half_tail")


def _graded(asked: Asked) -> Run:
    """Each tail is so many times as wide as its neighbour nearer the edge.

    Mirrored, the tails change towards the middle; else from the reference edge to the
    far edge.
    """
    chosen, pin = asked.given.chosen, asked.pin()
    if chosen.ratio is None:
        asked.decide("Ratio", RATIO_RULE)
    ratio, mirrored = chosen.ratio or GRADED_RATIO, chosen.mirrored is not False

    def shares(count: int) -> list[Fraction]:
        places = range(count)
        return [ratio ** (min(n, count - 1 - n) if mirrored else n) for n in places]

    return _in_shares(asked, pin, 1, shares)


def _small_edges(asked: Asked) -> Run:
    """Narrower tails near both edges, or near the reference edge only.

    So carcases are dovetailed: small tails near the front and back edges keep the edges
    of the panel from twisting (Joyce 1970).
    """
    chosen, pin = asked.given.chosen, asked.pin()
    ratio, small = chosen.ratio or SMALL_RATIO, chosen.edge_tails or 1
    if ratio <= 1:
        raise refusal(
            "out-of-limits",
            "The other tails must be wider than the small ones.",
            "Give a ratio above 1.",
            "spacing.ratio",
        )
    asked.decide("Small tails", SMALL_RULE)
    near = [Fraction(1)] * small
    far = near if chosen.mirrored is not False else []
    few = len(near) + len(far)
    return _in_shares(asked, pin, few + 1, lambda count: [*near, *[ratio] * (count - few), *far])


def _clusters(asked: Asked) -> Run:
    """Two or three pins stand together, with narrow tails between them, and wide tails apart."""
    ground, chosen, pin = asked.ground, asked.given.chosen, asked.pin()
    together, told = chosen.pins_together or 2, chosen.narrow_tail
    narrow = told or as_a_gauge_is_set(pin + 4 * ground.lean, ground.units)
    if told is None:
        asked.decide("Narrow tail", NARROW_RULE)
    cluster = (narrow,) * (together - 1)

    def run(groups: int, wide: Fraction) -> Run:
        apart = () if asked.half_tails else (wide,)
        tails = (*apart, *cluster, *(wide, *cluster) * (groups - 1), *apart)
        return _beside(asked, tails, pin, wide)

    wish = asked.tail_wish(pin)
    if wish.rule and wish.usual < 2 * narrow:
        wish = just(2 * narrow, WIDE_RULE)
    groups = _given_groups(asked, together) or asked.count(run, wish, 1, "Number of clusters")
    filled = _filled(asked, lambda wide: run(groups, wide))
    wide = filled.first * 2 if groups == 1 and asked.half_tails else max(filled.tails)
    if wide <= narrow:
        raise refusal(
            "no-clusters",
            "The tails between the clusters would be no wider than the narrow ones of "
            f"{ground.text(narrow)}.",
            "Give fewer clusters, or narrower pins or narrow tails.",
            "spacing",
        )
    return filled


def _given_groups(asked: Asked, together: int) -> int | None:
    """How many clusters, where they or the tails are given."""
    groups, tails = asked.given.chosen.groups, asked.given.tails
    if tails is None:
        return groups
    extra = -1 if asked.half_tails else 1  # whole tails beyond `together` for each cluster
    made = groups or max(1, nearest_whole(Fraction(tails - extra, together)))
    if made * together + extra != tails:
        raise refusal(
            "no-whole-clusters",
            f"{tails} tails do not make {made} clusters of {together} pins; "
            f"{made * together + extra} would.",
            "Leave out the number of tails, or give one that does.",
            "tails",
        )
    return made


class Style(Struct, frozen=True):
    """A way to spread the tails.

    Attributes:
        run: the widths from edge to edge.
        parts: what may stand beside it in its table.
        follows: what follows from it and cannot be given as well.
        tail_follows: whether the tails' width follows when their number is given.
    """

    run: Callable[[Asked], Run]
    parts: tuple[str, ...]
    follows: tuple[str, ...] = ()
    tail_follows: bool = False


_ROUNDING = ("round_to", "round")
STYLES: Mapping[str, Style] = {
    parameters.EVEN: Style(_even, _ROUNDING),
    parameters.SHOULDER: Style(
        _by_shoulder,
        ("socket", *_ROUNDING),
        follows=("half_pin", "half_pin_far", "half_tail"),
        tail_follows=True,
    ),
    parameters.EQUAL: Style(_equal_to_pins, ("at", *_ROUNDING)),
    parameters.LISTED: Style(_as_listed, ("widths", "mirrored"), follows=("tails", "tail", "pin")),
    parameters.GRADED: Style(_graded, ("ratio", "mirrored", *_ROUNDING), tail_follows=True),
    parameters.SMALL_EDGES: Style(
        _small_edges, ("ratio", "edge_tails", "mirrored", *_ROUNDING), tail_follows=True
    ),
    parameters.CLUSTERS: Style(
        _clusters, ("pins_together", "groups", "narrow_tail", *_ROUNDING), tail_follows=True
    ),
}
