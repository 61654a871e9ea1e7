"""A kind of joint, as its file declares it, and what a joint of that kind is built from."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from joinery_templates.exact import Fraction
from joinery_templates.joint import WRAP, Corner, Joint
from joinery_templates.joints.parameter import Parameter, Table
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units
from joinery_templates.wood.board import Board

RESERVED = frozenset(
    {"kind", "name", "corners", "views", "seams", "front"}
    | {"width", "second_width", "thickness", "second_thickness"}
    | {"units", "paper", "output", "force", "open", "help"}
)
"""What a joint's table in a job file, and `quick`, keep for themselves: no parameter's name."""


class Surroundings(Struct, frozen=True):
    """What the other joints of a job tell of one; of a joint by itself, nothing.

    Attributes:
        first_is_between: whether the first board is joined at both its ends; None where that is
            not known, or not always so.
        is_closed: the same of both boards.
        alone: the one piece that has the joint's second board, with its corners; empty where
            several have it, or that is not known.
        at_ends: whether all rails come to ends of their stiles, though nobody told where they come.
        panelled: the rails of the job with a panel at their far edge, and whether they have one at
            their reference edge too.
        between_shoulders: what is left between the first board's shoulders along its reference edge
            and its far edge, where it slants and both its ends are known; else None.
        stop: where a groove in the second board stops, as words that go on from how it runs.
    """

    first_is_between: bool | None = None
    is_closed: bool | None = None
    alone: str = ""
    at_ends: bool = False
    panelled: tuple[tuple[str, bool], ...] = ()
    between_shoulders: tuple[Fraction, Fraction] | None = None
    stop: str = ""


class Request(Struct, frozen=True):
    """What a joint is built from.

    Attributes:
        boards: by role, in the kind's order.
        given: what is told of it: an instance of the kind's `parameter_class`.
        units: the person's units, for words and for rounding a proposal.
        tools: the person's tools.
        corners: where it is wanted.
        first_in_front: whether the first board is at the front and back of the piece, as where
            the rail of a frame is an upright in its middle.
        views: how its boards' ends are drawn, some of `VIEWS`.
        around: what other joints tell of it.
    """

    boards: tuple[Board, Board]
    given: Any
    units: Units
    tools: Tools
    corners: tuple[Corner, ...] = ()
    first_in_front: bool = False
    views: tuple[str, ...] = (WRAP,)
    around: Surroundings = Surroundings()


class BoardRole(Struct, frozen=True):
    """A board's part in a joint: its name in job files and in words."""

    key: str
    words: str


class Example(Struct, frozen=True):
    """A layout for starters and for tests: sizes as a person writes them, and parameters.

    Attributes:
        width: of the first board, and of the second where it has no width of its own.
        thicknesses: of both boards.
        parameters: by name.
        second_width: of the second board, where the two may differ.
        corners: where it is wanted, each a name and the letter of the corner that it is
            like; the four corners of a piece where there are none.
    """

    width: str
    thicknesses: tuple[str, str]
    parameters: tuple[tuple[str, object], ...]
    second_width: str = ""
    corners: tuple[tuple[str, str], ...] = ()

    @property
    def widths(self) -> tuple[str, str]:
        """Of both boards."""
        return self.width, self.second_width or self.width


class Kind(Struct, frozen=True):
    """A kind of joint, as its file declares it.

    Attributes:
        name: in job files and commands.
        title: in words.
        summary: one sentence for the list of joints.
        roles: the two boards, first the one that is set out first.
        parameter_class: whose attributes are its parameters.
        lay_out: the joint from a request; raises InputError where it cannot be cut.
        example: a layout that builds, as raw values of a job file in mm: the
            boards' ``width`` and ``thickness`` by role key, and parameters.
        sources: where its rules come from.
        also: other names that the trade has for it, as a person may write them.
        spread: layouts to choose between, from bold to fine, each by the parameters that make
            it, from one that is laid out; None where there is no choice.
    """

    name: str
    title: str
    summary: str
    roles: tuple[BoardRole, BoardRole]
    parameter_class: type[Table]
    lay_out: Callable[[Request], Joint]
    example: Example
    sources: tuple[str, ...]
    also: tuple[str, ...] = ()
    spread: Callable[[Joint, Units], Iterable[Mapping[str, object]]] | None = None

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """What it can be told."""
        return self.parameter_class.parameters

    def build(self, request: Request) -> Joint:
        """A joint of this kind.

        Raises:
            InputError: where it cannot be cut.
        """
        return replace(self.lay_out(request), kind=self.name, title=self.title)
