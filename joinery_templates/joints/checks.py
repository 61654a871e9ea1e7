"""What every joint asks of its boards, and advice that all share."""

from collections.abc import Iterable, Iterator

from joinery_templates.errors import OURS, Finding, advice, mistake
from joinery_templates.exact import Fraction
from joinery_templates.joints.layout import Layout
from joinery_templates.joints.parameter import Table

MOST_FIT = Fraction(1, 5)
"""A wider gap than 0.2 mm is too much for most glues (our judgement)."""
USUAL_SLOPES = Fraction(1, 8), Fraction(1, 5)
"""Flatter holds little, and steeper leaves short grain at the corners (Joyce 1970)."""


def first_found(*checks: Iterable[Finding]) -> Iterator[Finding]:
    """What the first check finds that finds anything: those after it rest on it."""
    yield from next(filter(None, map(tuple, checks)), ())


def first_told(given: Table, *names: str) -> str:
    """The first of these parameters that was given, or none: no error points at another."""
    return next((name for name in names if getattr(given, name) is not None), "")


def widths_differ(layout: Layout, where: str, or_else: str = "") -> Iterator[Finding]:
    """Boards that are not of one width, as they must be at a place: ``At a lapped corner``.

    Args:
        layout: with the boards.
        where: the place.
        or_else: what else can be done, after planing them to one width.
    """
    first, second = layout.boards
    if first.width != second.width:
        yield mistake(
            "widths-differ",
            f'Board "{first.name}" is {layout.text(first.width)} wide and '
            f'"{second.name}" {layout.text(second.width)}.',
            f"{where} both must be equally wide: plane them together.{or_else}",
        )


def thicknesses_differ(layout: Layout, remedy: str) -> Iterator[Finding]:
    """Boards that are not of one thickness, as they must be."""
    first, second = layout.boards
    if first.thickness != second.thickness:
        yield mistake(
            "thicknesses-differ",
            f'Board "{first.name}" is {layout.text(first.thickness)} thick and "{second.name}" '
            f"{layout.text(second.thickness)}.",
            remedy,
        )


def only_with(name: str, form: str, message: str) -> Finding:
    """A parameter that means nothing in the form asked for, and the form that it belongs to."""
    return mistake("not-together", message, f'Leave it out, or write form = "{form}".', name)


def too_short(layout: Layout, reaches: tuple[Fraction, Fraction]) -> Iterator[Finding]:
    """Boards no longer than the joint reaches along them, where their lengths are told."""
    for board, reach in zip(layout.boards, reaches, strict=True):
        if board.length is not None and board.length <= reach:
            yield mistake(
                "board-too-short",
                f'Board "{board.name}" is {layout.text(board.length)} long and the joint '
                f"itself takes {layout.text(reach)}.",
                "Check the board's length.",
            )


def unusual_slope(
    slope: Fraction,
    steep: str,
    flat: str,
    source: str,
    remedy: str,
    usual: tuple[Fraction, Fraction] = USUAL_SLOPES,
) -> Iterator[Finding]:
    """A slope outside what is usual.

    Args:
        slope: of sides that hold like a dovetail's.
        steep: what comes of one too steep.
        flat: what comes of one too flat.
        source: of the limits.
        remedy: what to give.
        usual: the flattest and the steepest.
    """
    flattest, steepest = usual
    if slope > steepest:
        yield advice("slope-steep", steep, source, remedy, "slope")
    elif slope < flattest:
        yield advice("slope-flat", flat, source, remedy, "slope")


def loose_fit(layout: Layout, fit: Fraction, gap: str) -> Iterator[Finding]:
    """A fit that leaves more than glue fills; `gap` says where it is and what comes of it."""
    if fit > MOST_FIT:
        yield advice(
            "fit-loose",
            f"A gap of {layout.text(fit)} {gap}.",
            OURS,
            "Give a smaller fit.",
            "fit",
        )
