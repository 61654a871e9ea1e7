"""`calibrate`: a sheet to print and measure, and a printer profile from the readings."""

import shlex
import sys
from typing import Annotated

import typer

from joinery_templates.cli.files import keep_settings
from joinery_templates.cli.messages import mistakes_at, mistakes_at_options, note, say, say_json
from joinery_templates.cli.options import PAPER, UNITS, AsJson, Force, Output, asked
from joinery_templates.cli.parameter_options import named_units
from joinery_templates.cli.profile_words import profile_figures, profile_lines
from joinery_templates.cli.sheet import sheet_frame, write_sheet
from joinery_templates.errors import Finding, InputError, mistake, refusal, refuse
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units, read_length
from joinery_templates.printers.readings import Readings, judged, read_reading
from joinery_templates.printers.store import Profile, known_profiles, profile_file, text_with
from joinery_templates.sheets import calibration
from joinery_templates.sheets.frame import Frame
from joinery_templates.sheets.margins import Margins

SHEET = "calibration.pdf"
READING = "<reading>"


def calibrate(
    name: Annotated[
        str | None,
        typer.Argument(
            metavar="[NAME]", help="What you call the printer; without it the sheet is drawn."
        ),
    ] = None,
    across: str | None = asked(
        READING,
        'Measured width of the rectangle: a millimetre and its line, such as "150 line '
        '17", or what the rule reads.',
    ),
    along: str | None = asked(READING, "Measured height of the rectangle."),
    rising: str | None = asked(READING, "Measured diagonal that rises to the right."),
    falling: str | None = asked(READING, "Measured diagonal that falls to the right."),
    date: str | None = asked("<words>", "When it was measured; may be left out."),
    reach_left: str | None = asked(READING, "Lowest figure printed at the left edge, in mm."),
    reach_right: str | None = asked(READING, "The same at the right edge."),
    reach_top: str | None = asked(READING, "The same at the top edge."),
    reach_bottom: str | None = asked(READING, "The same at the bottom edge."),
    paper: str = asked(PAPER, "Paper that the sheet is, or was, drawn on.", "A4"),
    units: str = asked(UNITS, "Units of numbers that name none.", "mm"),
    listed: Annotated[
        bool, typer.Option("--list", help="List the profiles that are kept.")
    ] = False,
    output: Output = None,
    force: Force = False,
    json: AsJson = False,
) -> None:
    """First: calibrate (writes calibration.pdf). Print it, measure it.

    Then: calibrate NAME, which asks for the readings, or takes them as options.
    Afterwards: draw JOB --printer NAME.
    """
    given = {"across": across, "along": along, "rising": rising, "falling": falling}
    reach = {"left": reach_left, "right": reach_right, "top": reach_top, "bottom": reach_bottom}
    told = {**given, "date": date, **{f"reach-{side}": at for side, at in reach.items()}}
    if name is None or listed:
        _refuse_surplus({**told, "json": json and not listed}, "goes with the NAME of a printer")
    if name is not None or listed:
        _refuse_surplus(
            {"output": output, "force": force}, "goes with the sheet, without NAME or --list"
        )
    if listed:
        _list(json)
        return
    frame, unit = sheet_frame(paper), named_units(units)
    if name is None:
        write_sheet(
            SHEET if output is None else output,
            force,
            lambda lettering: calibration.calibration_booklet(frame, lettering, unit),
            "Print at 100 %, then measure",
            f"print it at 100 % and measure it; then: {calibration.command(frame, unit)}",
        )
        return
    _check_words("NAME", name)
    if date is not None:
        _check_words("--date", date)
    stated = calibration.rectangle(frame)
    readings = _readings(given, frame, stated, unit)
    profile = _profile(name, date or "", frame, stated, readings, reach, unit)
    if json:  # said before it is kept: where it cannot be said, nothing is kept
        say_json(profile_figures(profile))
    else:
        say(*profile_lines(profile))
    before = " in place of the one of that name" if name in known_profiles() else ""
    keep_settings(profile_file(), lambda: text_with(profile))
    note(f"Kept{before}. Draw with it: joinery-templates draw JOB --printer {shlex.quote(name)}")


def _refuse_surplus(given: dict[str, object], where: str) -> None:
    """Refuse options that would be passed over.

    Raises:
        InputError: with each that was given.
    """
    refuse(
        mistake("option-surplus", f"This {where}.", "Leave it out here.", f"--{option}")
        for option, value in given.items()
        if value not in (None, False)
    )


def _check_words(option: str, words: str) -> None:
    """Refuse words that no page can carry.

    Raises:
        InputError: `name-impossible`.
    """
    if not words.strip() or len(words) > 60 or not words.isprintable():
        raise refusal(
            "name-impossible",
            "This cannot be printed on a page.",
            "Write 1 to 60 plain letters.",
            option,
        )


def _readings(
    given: dict[str, str | None], frame: Frame, stated: calibration.Stated, units: Units
) -> dict[str, str]:
    """The readings, asked for at a terminal where they were not given.

    Raises:
        InputError: where one is missing and nobody can be asked.
    """
    if not sys.stdin.isatty():
        refuse(
            mistake(
                "reading-missing", "This reading is missing.", "Say what you measured.", f"--{name}"
            )
            for name, value in given.items()
            if value is None
        )
    questions = {
        name: f"{name}, stated {calibration.stated_text(frame, length)}"
        for name, length in zip(calibration.LENGTHS, stated.lengths, strict=True)
    }
    return {
        name: value if value is not None else _asked_for(name, questions[name], stated, units)
        for name, value in given.items()
    }


def _asked_for(name: str, question: str, stated: calibration.Stated, units: Units) -> str:
    """An answer at the terminal; asked again where it is no length.

    Raises:
        InputError: where no answer comes.
    """
    while True:
        typer.echo(f"{question}: ", nl=False, err=True)
        answer = sys.stdin.readline()
        if not answer:
            raise refusal("reading-missing", "The readings end here.", "Give them all.")
        answer = answer.strip()
        try:
            read_reading(name, answer, stated, units)
            return answer
        except InputError as error:
            note(error.findings[0].told())


def _profile(
    name: str,
    date: str,
    frame: Frame,
    stated: calibration.Stated,
    given: dict[str, str],
    reach: dict[str, str | None],
    units: Units,
) -> Profile:
    read: list[tuple[Fraction, bool]] = []
    wrong: list[Finding] = []
    for length in calibration.LENGTHS:
        try:
            read.append(read_reading(length, given[length], stated, units))
        except InputError as error:
            wrong += error.at(f"--{length}").findings
    refuse(wrong)
    readings = Readings(*(length for length, _ in read))
    by_line = all(told for _, told in read)
    with mistakes_at_options():
        judged(readings, stated, units, by_line)
    paper, margins = frame.paper.name, _reached(reach)
    return Profile(name, date, paper, stated, readings, by_line, margins)


def _reached(reach: dict[str, str | None]) -> tuple[tuple[str, Fraction], ...]:
    """The margins that were read off the staircases.

    Raises:
        InputError: where one cannot be read, or is no margin.
    """
    margins = {}
    for side, value in reach.items():
        if value is not None:
            with mistakes_at(f"--reach-{side}"):
                margins[side] = read_length(value, Units.MM)
    with mistakes_at_options("--reach-"):
        Margins(**margins)
    refuse(
        mistake(
            "reach-beyond-figures",
            f"The highest figure at the {side} edge of the sheet is {calibration.STAIRS[side]}.",
            "Give the lowest figure whose line is printed; where none is, leave it out.",
            f"--reach-{side}",
        )
        for side, reached in margins.items()
        if reached > calibration.STAIRS[side]
    )
    return tuple(margins.items())


def _list(json: bool) -> None:
    known = known_profiles()
    if json:
        say_json([profile_figures(profile) for profile in known.values()])
        return
    for profile in known.values():
        say(*profile_lines(profile))
    if not known:
        say("No printer profile is kept yet.")
