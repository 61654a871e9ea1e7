"""Advice on a box joint, and the order of work with the layout's own figures."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import COMMON, OURS, Finding, advice
from joinery_templates.joints.box_joints.fingers import Given, Piece
from joinery_templates.joints.joint import Request, Step
from joinery_templates.lengths import length_text

MOST_FIT = Fraction(1, 5)
"""A wider gap than 0.2 mm is too much for most glues (our judgement)."""


@dataclass(frozen=True, slots=True)
class Work:
    """What the words are about: the boards, the pieces across them, and the baselines."""

    request: Request
    given: Given
    pieces: tuple[Piece, ...]
    depths: tuple[Fraction, Fraction]

    @property
    def finger(self) -> Fraction:
        """Width of the fingers that do not stand at an edge, if there are any."""
        return self.pieces[1 if len(self.pieces) > 2 else 0].width

    def text(self, length: Fraction) -> str:
        """A length in the person's units."""
        return length_text(length, self.request.units)


def advise(work: Work) -> tuple[Finding, ...]:
    """What is unwise though it can be cut."""
    return (*_on_width(work), *_on_edges(work), *_on_fit(work))


def _on_width(work: Work) -> Iterator[Finding]:
    finger, thin = work.finger, min(board.thickness for board in work.request.boards)
    if thin / 2 <= finger <= 2 * thin:
        return
    wide = finger > thin
    yield advice(
        "finger-wide" if wide else "finger-narrow",
        f"Fingers of {work.text(finger)} in boards {work.text(thin)} thick make "
        f"{'fewer glue faces' if wide else 'more sawing'} than is usual.",
        f"{COMMON}: about as wide as the stock is thick; half and twice are our limits",
        f"Give {'more' if wide else 'fewer'} fingers.",
        "fingers",
    )


def _on_edges(work: Work) -> Iterator[Finding]:
    edge = work.pieces[0].width
    if edge < work.finger / 2:
        yield advice(
            "edge-finger-narrow",
            f"The pieces at the edges are only {work.text(edge)} wide and may split away.",
            OURS,
            "Give another number of fingers, or leave `finger` out.",
            "finger",
        )


def _on_fit(work: Work) -> Iterator[Finding]:
    if work.given.fit > MOST_FIT:
        yield advice(
            "fit-loose",
            f"A gap of {work.text(work.given.fit)} at each side is more than glue fills well, and "
            "glue alone holds this joint.",
            OURS,
            "Give a smaller fit.",
            "fit",
        )


def order_of_work(work: Work) -> tuple[Step, ...]:
    """The steps, in order (common practice, no source)."""
    return (*_first_steps(work), *_second_steps(work))


def _boards(work: Work) -> tuple[str, str]:
    """Both boards, with their names."""
    first, second = work.request.boards
    return f"the first board ({first.name})", f"the second board ({second.name})"


def _first_steps(work: Work) -> Iterator[Step]:
    first, second = _boards(work)
    depth, other = (work.text(depth) for depth in work.depths)
    own = sum(piece.finger for piece in work.pieces)
    yield Step(
        "Prepare",
        "Plane the ends square. Mark the outside face and the reference edge of every board, "
        f"and the corner's letter on both its boards. Measure the thickness of {first} and "
        f"{second} again: if it is not what the job says, correct the job file and print again.",
    )
    yield Step(
        "Baselines",
        f"Set a gauge to {depth} for {first} and another to {other} for {second}. Scribe "
        "lightly on both faces, and on an edge where a space stands at it. The printed "
        "baseline must fall on the scribed one.",
    )
    yield Step(
        f"Lay on {first}",
        "Trim the template along its outer lines. Fold it over the end so that the two fold "
        "lines sit on the arrises, bring its reference edge flush with the board's, and glue "
        "it, or tape it and prick through the small crosses.",
    )
    yield Step(
        f"Saw and chop {first}",
        f"It keeps {own} finger{'' if own == 1 else 's'}. Saw straight down in the waste, so "
        "that the line just stays, and stop at the baseline. Clear the spaces with a chisel, "
        "half way from each face; saw off a space at an edge along the baseline.",
    )


def _second_steps(work: Work) -> Iterator[Step]:
    first, second = _boards(work)
    yield Step(
        f"Lay on {second}",
        f"Put the template of {second} on in the same way: it has a space wherever {first} "
        f"has a finger. Then stand the cut fingers of {first} on its end: where line and "
        "finger differ, the finger is right. Knife round the fingers themselves.",
    )
    yield Step(
        f"Saw and chop {second}",
        "In the same way. Saw on the waste side of the knife line: the sides of the fingers "
        "are all that the glue holds.",
    )
    yield Step(
        "Fit and glue",
        "Try each corner once, part of the way, and ease only where it rubs and shines. Peel "
        "or plane off the paper. Glue all sides of the fingers, for nothing locks this joint "
        "but glue; clamp both ways, with blocks that press between the ends, and check that "
        "the diagonals are equal before it sets." + _flush(work),
    )


def _flush(work: Work) -> str:
    proud = [
        f"{board.name} stands {work.text(length)} proud"
        for board, length in zip(
            work.request.boards, (work.given.first_proud, work.given.second_proud), strict=True
        )
        if length
    ]
    if not proud:
        return ""
    words = " and ".join(proud)
    them = "it" if len(proud) == 1 else "them"
    return f" {words[0].upper()}{words[1:]}: plane {them} flush when the glue is hard."
