"""What is told of patterns that a paper cuts badly, and the smallest paper that would do.

A seam is moved to where no line is cut to; on small paper there may be no such place. Words
are moved off a seam; on very small paper there may be no room for them.
"""

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import chain, groupby

from joinery_templates.drawings.figure import Pattern
from joinery_templates.drawings.lettering import Lettering
from joinery_templates.errors import OURS, Finding, InputError, advice
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.papers import known_papers
from joinery_templates.sheets.tiling import MARK_AIR, Scissors, Tiled


def advise_on_seams(
    patterns: Sequence[Tiled], frame: Frame, overlap: Fraction, lettering: Lettering
) -> Iterator[Finding]:
    """Advice where a seam runs at a line that a tool follows, and where words are left out.

    Args:
        patterns: as they are cut, in order.
        frame: of their pages.
        overlap: paper shared by two neighbours.
        lettering: how wide words run.
    """

    def scissors(one: Frame) -> Scissors:
        return Scissors((one.area.width, one.area.height), overlap, lettering)

    def smallest(drawn: Sequence[Pattern], suits: Callable[[Scissors, Pattern], bool]) -> str:
        """The smallest listed paper that suits all patterns, as a remedy."""
        area = frame.paper.width * frame.paper.height
        papers = sorted(known_papers(), key=lambda one: one.width * one.height)
        for paper in papers:
            tried = scissors(Frame(paper, frame.margins))
            try:
                if paper.width * paper.height > area and all(suits(tried, p) for p in drawn):
                    return f"{paper.name} is the smallest listed paper that would do."
            except InputError:
                continue  # of this shape it is too small for any tile
        return "No listed paper would do: take a roll, or say where seams are wanted."

    def clear(tried: Scissors, pattern: Pattern) -> bool:
        return tried.nearest_line(pattern) >= MARK_AIR

    here, name = scissors(frame), frame.paper.name
    cut = [tiled for tiled in patterns if tiled.seams]
    # Where the person wants seams is for the person to say.
    poor = [one.drawn for one in cut if not one.drawn.seams and not clear(here, one.drawn)]
    if poor:
        yield advice(
            "seam-at-line",
            f"On {name} a seam of these must run along a line that you work to, or close beside "
            "one: sheets that are taped a little off would spoil that line.",
            OURS,
            smallest(poor, clear),
            _listed(poor),
        )
    short = [one.drawn for one in cut if one.lost]
    if short:
        lost = dict.fromkeys(chain.from_iterable(one.lost for one in cut))
        words = "; ".join(f'"{one}"' for one in lost)
        yield advice(
            "no-room-for-words",
            f"On {name} this has no room beside the seams, and is left out: {words}.",
            OURS,
            smallest(short, lambda tried, pattern: not tried.cut(pattern).lost),
            _listed(short),
        )


def _listed(patterns: Sequence[Pattern]) -> str:
    """Patterns by what they belong to."""
    return "; ".join(
        f"{group}: {', '.join(dict.fromkeys(one.title for one in ones))}"
        for group, ones in groupby(patterns, lambda one: one.group)
    )
