r"""The through dovetail: tails and pins go right through, and show on both faces.

The tail board's end, outside face (n = 2)::

    +---+\      /+---+\      /+---+  y = 0, the end
    |   | \    / |   | \    / |   |
    |   |  \__/  |   |  \__/  |   |  y = baseline
      half  tail  pin   tail  half
      pin                     pin
"""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from joinery_templates.errors import InputError, mistake
from joinery_templates.exact import square_root
from joinery_templates.joints.dovetail_advice import NOYES, RAKES, advise, slope_use
from joinery_templates.joints.dovetail_work import Sizes, order_of_work
from joinery_templates.joints.joint import (
    Example,
    Joint,
    Kind,
    LengthSetting,
    Mark,
    Member,
    Request,
    Role,
    SettingOut,
    Size,
    SlopeSetting,
)
from joinery_templates.joints.parameter import Quantity, parameter
from joinery_templates.joints.spacing import Ground, Spacing, SpacingGiven, marks_of, space_tails
from joinery_templates.lengths import Units, length_text
from joinery_templates.wood.board import Board, Hand
from joinery_templates.wood.cut import BoardEnd, Cut, HalfSpace, Surface, at_least, at_most
from joinery_templates.wood.placement import Placement, end_to_end


@dataclass(frozen=True, slots=True, kw_only=True)
class Given(SpacingGiven):
    """The parameters of a through dovetail."""

    slope: Fraction = parameter(
        Quantity.SLOPE,
        "How much the sides lean, as a ratio or an angle.",
        default=Fraction(1, 7),
        rule="1:7",
    )
    tails_proud: Fraction = parameter(
        Quantity.LENGTH,
        "How far the tails' ends stand past the pin board's face, to be planed flush.",
        default=Fraction(0),
        rule="0",
        low=0,
        high=10,
    )
    pins_proud: Fraction = parameter(
        Quantity.LENGTH,
        "How far the pins' ends stand past the tail board's face, to be planed flush.",
        default=Fraction(0),
        rule="0",
        low=0,
        high=10,
    )
    fit: Fraction = parameter(
        Quantity.LENGTH,
        "Gap at each sloping side, square to it, taken off the pins; negative presses.",
        default=Fraction(0),
        rule="0",
        low=-1,
        high=1,
    )


def build(request: Request) -> Joint:
    """The layout of a through dovetail.

    Raises:
        InputError: where it cannot be cut.
    """
    given = request.given
    assert isinstance(given, Given)
    tail_board, pin_board = request.boards
    _check_boards(tail_board, pin_board, given, request.units)
    depth = pin_board.thickness + given.tails_proud
    ground = Ground(
        width=tail_board.width,
        lean=depth * given.slope,
        pin_thickness=pin_board.thickness,
        units=request.units,
        smallest_pin=request.tools.narrowest_space,
    )
    spacing = space_tails(given, ground)
    return _Layout(request, given, spacing).joint()


@dataclass(frozen=True, slots=True)
class _Layout:
    """A spacing on two boards, and all that follows from it."""

    request: Request
    given: Given
    spacing: Spacing

    @property
    def tail_board(self) -> Board:
        return self.request.boards[0]

    @property
    def pin_board(self) -> Board:
        return self.request.boards[1]

    @property
    def depth(self) -> Fraction:
        """From the tail board's end to its baseline."""
        return self.pin_board.thickness + self.given.tails_proud

    @property
    def pin_depth(self) -> Fraction:
        """From the pin board's end to its baseline."""
        return self.tail_board.thickness + self.given.pins_proud

    @property
    def lean(self) -> Fraction:
        """How far a side comes in between the end and the baseline."""
        return self.depth * self.given.slope

    @property
    def placement(self) -> Placement:
        """The pin board on the tail board."""
        return end_to_end(self.given.tails_proud, self.given.pins_proud)

    @property
    def fit_across(self) -> Fraction:
        """The fit allowance measured across the board, along x."""
        return self.given.fit * square_root(1 + self.given.slope**2)

    def side_planes(self) -> tuple[tuple[HalfSpace | None, HalfSpace | None], ...]:
        """For each tail the half-spaces that hold it on its left and right, None at an edge."""
        slope, one, zero = self.given.slope, Fraction(1), Fraction(0)
        return tuple(
            (
                HalfSpace((-one, slope, zero), -tail.left) if tail.left_slopes else None,
                HalfSpace((one, slope, zero), tail.right) if tail.right_slopes else None,
            )
            for tail in self.spacing.tails
        )

    def tail_end(self) -> BoardEnd:
        """The tail board: the spaces for the pins are taken away."""
        sides = self.side_planes()
        shoulder = at_most(1, self.depth, Surface.SHOULDER)
        lefts = (None, *(right for _, right in sides))
        rights = (*(left for left, _ in sides), None)
        cuts = tuple(
            Cut((*(plane.turned() for plane in (left, right) if plane), shoulder))
            for left, right in zip(lefts, rights, strict=True)
            if left or right
        )
        return BoardEnd(self.tail_board, cuts, self.depth)

    def pin_end(self) -> BoardEnd:
        """The pin board: the tails, moved out by the fit allowance, are taken away."""
        onto_pins = self.placement.reversed()
        shoulder = at_most(1, self.pin_depth, Surface.SHOULDER)
        cuts = tuple(
            Cut(
                (
                    *(onto_pins.half_space(side).moved(self.given.fit) for side in sides if side),
                    shoulder,
                )
            )
            for sides in self.side_planes()
        )
        return BoardEnd(self.pin_board, cuts, self.pin_depth)

    def pin_widths(self) -> tuple[Fraction, Fraction]:
        """Narrowest and widest whole pin, at the pin board's outside and inside face."""
        shift = 2 * self.given.tails_proud * self.given.slope - 2 * self.fit_across
        pins = self.spacing.pins or (Fraction(0),)
        return min(pins) + shift, max(pins) + 2 * self.lean - 2 * self.fit_across

    def filled(self) -> tuple[tuple[HalfSpace, ...], ...]:
        """The corner where the boards cross: no wood may be missing in it when `fit` is 0."""
        low = self.given.tails_proud
        return (
            (
                at_least(0, Fraction(0)),
                at_most(0, self.tail_board.width),
                at_least(1, low),
                at_most(1, low + self.pin_board.thickness),
                at_least(2, Fraction(0)),
                at_most(2, self.tail_board.thickness),
            ),
        )

    def rows(self) -> tuple[SettingOut, ...]:
        """The setting-out along the end and the baseline of both boards."""
        proud_lean = self.given.tails_proud * self.given.slope
        row = self._row
        return (
            row("outside face, along the end", "tail board", Fraction(0), True),
            row("along the baseline", "tail board", self.lean, False),
            row(
                "outside face, along the end", "pin board",
                proud_lean - self.fit_across, False,
            ),
            row(
                "inside face, along the end", "pin board",
                self.lean - self.fit_across, False,
            ),
        )

    def _row(self, title: str, role: str, lean: Fraction, main: bool) -> SettingOut:
        on_tails = role == "tail board"
        name = _tail_name(self.spacing) if on_tails else _socket_name(self.spacing)
        marks = tuple(
            Mark(position, f"{name(number)} {'starts' if starts else 'ends'}")
            for position, number, starts in marks_of(self.spacing, lean)
        )
        return SettingOut(title, role, self.tail_board.width, marks, main)

    def sizes(self) -> tuple[Size, ...]:
        """The widths at both faces."""
        spacing, sizes = self.spacing, []
        tails = spacing.whole_tails
        if spacing.half_pins:
            sizes.append(Size("half pin at the reference edge, narrow side", spacing.half_pins[0]))
            if len(set(spacing.half_pins)) > 1:
                sizes.append(Size("half pin at the far edge, narrow side", spacing.half_pins[1]))
        else:
            sizes.append(Size("half tail at each edge, at the end", spacing.tails[0].width))
        if tails:
            sizes.append(Size("tail at the end (wide)", tails[0].width))
            sizes.append(Size("tail at the baseline (narrow)", tails[0].width_at(self.lean)))
        if spacing.pins:
            sizes.append(Size("space for a pin at the tail board's end", spacing.pins[0]))
            narrow, wide = self.pin_widths()
            sizes.append(Size("pin on the pin board's outside face (narrow)", narrow))
            sizes.append(Size("pin on the pin board's inside face (wide)", wide))
        return tuple(sizes)

    def lengths(self) -> tuple[LengthSetting, ...]:
        """Gauges and dividers."""
        lengths = [
            LengthSetting("gauge", "tail board's baseline, from its end", self.depth),
            LengthSetting("gauge", "pin board's baseline, from its end", self.pin_depth),
        ]
        step = self.spacing.step
        if step is not None:
            lengths.append(LengthSetting("dividers", "one tail and one pin, stepped off", step))
        return tuple(lengths)

    def joint(self) -> Joint:
        """The whole layout.

        Raises:
            InputError: where the fit allowance eats a pin or closes a socket.
        """
        self._check_fit()
        tools = self.request.tools
        return Joint(
            kind=KIND.name,
            title=KIND.title,
            members=(
                Member("tail board", self.tail_end(), Hand.RIGHT),
                Member("pin board", self.pin_end(), Hand.LEFT),
            ),
            placement=self.placement,
            filled=self.filled(),
            allowance=self.given.fit,
            rows=self.rows(),
            sizes=self.sizes(),
            lengths=self.lengths(),
            slopes=(
                SlopeSetting("sides of the tails", self.given.slope, slope_use(self.given.slope)),
            ),
            rules=self.spacing.rules,
            findings=advise(
                self.spacing, self.given.slope, self.depth, self.tail_board.thickness, tools,
                self.request.units,
            ),
            steps=order_of_work(self._sizes_for_work()),
        )

    def _check_fit(self) -> None:
        """Wood must be left of every pin and half pin, and room in every socket."""
        proud_lean = self.given.tails_proud * self.given.slope
        pins = [half + proud_lean - self.fit_across for half in self.spacing.half_pins]
        if self.spacing.pins:
            pins.append(self.pin_widths()[0])
        sockets = (tail.width_at(self.lean - self.fit_across) for tail in self.spacing.tails)
        for narrowest, lost, remedy in (
            (min(pins), "nothing of a pin", "Give a smaller fit or wider pins."),
            (min(sockets), "no room for a tail", "Give a fit that presses less or wider tails."),
        ):
            if narrowest <= 0:
                raise InputError(
                    mistake("no-room", f"The fit allowance leaves {lost}.", remedy, "fit")
                )

    def _sizes_for_work(self) -> Sizes:
        return Sizes(
            spacing=self.spacing,
            slope=self.given.slope,
            tail_baseline=self.depth,
            pin_baseline=self.pin_depth,
            tails_proud=self.given.tails_proud,
            pins_proud=self.given.pins_proud,
            tail_board=self.tail_board.name,
            pin_board=self.pin_board.name,
            units=self.request.units,
        )


def _tail_name(spacing: Spacing) -> Callable[[int], str]:
    """Names the tails: numbered from the reference edge, the half ones by their edge."""
    first = spacing.tails[0].whole

    def name(number: int) -> str:
        tail = spacing.tails[number - 1]
        if tail.whole:
            return f"tail {number if first else number - 1}"
        return f"half tail at the {'reference' if number == 1 else 'far'} edge"

    return name


def _socket_name(spacing: Spacing) -> Callable[[int], str]:
    tail = _tail_name(spacing)
    return lambda number: f"space for {tail(number)}"


def _check_boards(tail_board: Board, pin_board: Board, given: Given, units: Units) -> None:
    findings = []
    if tail_board.width != pin_board.width:
        findings.append(
            mistake(
                "widths-differ",
                f'Board "{tail_board.name}" is {length_text(tail_board.width, units)} wide and '
                f'"{pin_board.name}" {length_text(pin_board.width, units)}.',
                "At a through-dovetailed corner both are of one width; plane them together.",
            )
        )
    for board, mate, proud in (
        (tail_board, pin_board, given.tails_proud),
        (pin_board, tail_board, given.pins_proud),
    ):
        reach = mate.thickness + proud
        if board.length is not None and board.length <= reach:
            findings.append(
                mistake(
                    "board-too-short",
                    f'Board "{board.name}" is {length_text(board.length, units)} long and the '
                    f"joint alone takes {length_text(reach, units)}.",
                    "Check the board's length.",
                )
            )
    if findings:
        raise InputError(*findings)


KIND = Kind(
    name="through-dovetail",
    title="Through dovetail",
    summary="Tails and pins right through both boards, seen on both faces: boxes and carcases.",
    roles=(Role("tail_board", "tail board"), Role("pin_board", "pin board")),
    given_class=Given,
    build=build,
    example=Example(
        width="90 mm",
        thicknesses=("12 mm", "12 mm"),
        parameters=(
            ("slope", "1:7"),
            ("tails", 3),
            ("half_pin", "6 mm"),
            ("pin", "4 mm"),
            ("tails_proud", "0.3 mm"),
            ("pins_proud", "0.3 mm"),
        ),
    ),
    sources=(NOYES, RAKES),
)
