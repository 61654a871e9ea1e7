"""What is told of patterns that a paper cuts badly, and a paper that would do.

A seam is moved to where no line is cut to; on small paper there may be no such place. Words
are moved off a seam; on very small paper there may be no room for them.
"""

from collections.abc import Callable, Iterator, Sequence
from itertools import chain, groupby, islice

from joinery_templates.drawings.figure import Pattern
from joinery_templates.drawings.fingerprint import JOB
from joinery_templates.drawings.lettering import BOUND
from joinery_templates.errors import OURS, Finding, InputError, advice
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.papers import known_papers
from joinery_templates.sheets.seam_words import MARK_AIR
from joinery_templates.sheets.tiling import Scissors, Tiled

MOST_TOLD = 6
"""Where more words are left out, the paper is far too small, and the first of them say so."""


def advise_on_seams(
    patterns: Sequence[Tiled], frame: Frame, scissors: Scissors
) -> Iterator[Finding]:
    """Advice on seams at a line that a tool follows, seams not needed, and words left out.

    Args:
        patterns: as they are cut, in order.
        frame: of their pages.
        scissors: that cut them.
    """

    def smallest(drawn: Sequence[Pattern], suits: Callable[[Scissors, Pattern], bool]) -> str:
        """The smallest listed paper on which all patterns are cut well, as a remedy.

        As they are drawn for this one: for another, labels may be repeated less often.
        """
        area = frame.paper.width * frame.paper.height
        for paper in sorted(known_papers(), key=lambda one: one.width * one.height):
            room = Frame(paper, frame.margins).area
            others = scissors.for_area((room.width, room.height))
            try:
                if paper.width * paper.height > area and all(suits(others, one) for one in drawn):
                    return f"{paper.name} would do; a smaller listed paper may, too."
            except InputError:
                continue  # of this shape it is too small for any tile
        return "No listed paper would do: take a roll, or say where seams are wanted."

    def is_clear(by: Scissors, pattern: Pattern) -> bool:
        return by.nearest_line(pattern) >= MARK_AIR

    def is_whole(by: Scissors, pattern: Pattern) -> bool:
        return not by.cut(pattern).lost

    name, cut = frame.paper.name, [tiled for tiled in patterns if tiled.seams]
    # Where the person wants seams is for the person to say.
    poor = [one.drawn for one in cut if not (one.drawn.seams or is_clear(scissors, one.drawn))]
    if poor:
        yield advice(
            "seam-at-line",
            f"On {name} a seam here has to run along a line that you work to, or close beside one: "
            "sheets taped a little off would spoil it.",
            OURS,
            smallest(poor, is_clear),
            _listed(poor),
        )
    whole = [tiled.drawn for tiled in patterns if tiled.drawn.seams and not tiled.seams]
    if whole:
        yield advice(
            "seams-not-needed",
            f"On {name} these fit one sheet whole, and are not cut at the seams that the job "
            f"gives: {_listed(whole)}.",
            OURS,
            "Leave seams out, or take smaller paper.",
            "seams",
        )
    short = [one.drawn for one in cut if one.lost]
    if short:
        # Which drawing it is, a pattern tells wherever else it has words.
        said = chain.from_iterable(one.lost for one in cut)
        plain = (one.replace(JOB, "").replace(BOUND, " ") for one in said)
        lost = dict.fromkeys(one.rstrip(" ·") or "job" for one in plain)
        words = "; ".join(f'"{one}"' for one in islice(lost, MOST_TOLD))
        words += f"; and {len(lost) - MOST_TOLD} more" if len(lost) > MOST_TOLD else ""
        yield advice(
            "no-room-for-words",
            f"On {name} these words have no room beside the seams and are left out: {words}.",
            OURS,
            smallest(short, is_whole),
            _listed(short),
        )


def _listed(patterns: Sequence[Pattern]) -> str:
    """Patterns by what they belong to."""
    return "; ".join(
        f"{group}: {', '.join(dict.fromkeys(one.title for one in ones))}"
        for group, ones in groupby(patterns, lambda one: one.group)
    )
