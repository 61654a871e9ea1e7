"""`calibrate`: a sheet to print and measure, and a printer profile from the readings."""

import sys
from typing import TYPE_CHECKING, Annotated, Any

import typer

from joinery_templates.cli.options import AsJson, Output

if TYPE_CHECKING:
    from fractions import Fraction

    from joinery_templates.printers.store import Profile
    from joinery_templates.sheets.frame import Frame

SHEET = "calibration.pdf"


def calibrate(
    name: Annotated[
        str | None,
        typer.Argument(
            metavar="[NAME]", help="What you call the printer; without it the sheet is drawn."
        ),
    ] = None,
    across: Annotated[str | None, typer.Option(help="Measured width of the rectangle.")] = None,
    along: Annotated[str | None, typer.Option(help="Measured height of the rectangle.")] = None,
    rising: Annotated[
        str | None, typer.Option(help="Measured diagonal that rises to the right.")
    ] = None,
    falling: Annotated[
        str | None, typer.Option(help="Measured diagonal that falls to the right.")
    ] = None,
    date: Annotated[str | None, typer.Option(help="When it was measured, in your words.")] = None,
    fine: Annotated[
        bool, typer.Option("--fine", help="The readings were taken with the comparison scale.")
    ] = False,
    reach_left: Annotated[
        str | None, typer.Option(help="Lowest figure printed at the left edge, in mm.")
    ] = None,
    reach_right: Annotated[str | None, typer.Option(help="The same at the right edge.")] = None,
    reach_top: Annotated[str | None, typer.Option(help="The same at the top edge.")] = None,
    reach_bottom: Annotated[str | None, typer.Option(help="The same at the bottom edge.")] = None,
    paper: Annotated[
        str, typer.Option(help="Paper of the sheet: the one it is drawn on, or was measured on.")
    ] = "A4",
    units: Annotated[str, typer.Option(help="Units of bare numbers: mm or in.")] = "mm",
    listed: Annotated[
        bool, typer.Option("--list", help="List the profiles that are kept.")
    ] = False,
    output: Output = None,
    json: AsJson = False,
) -> None:
    """Draw a sheet to measure a printer by, then keep its profile.

    First: calibrate (writes calibration.pdf). Print it, measure it. Then:
    calibrate NAME, which asks for the readings, or takes them as options.
    Afterwards: draw JOB --printer NAME.
    """
    from joinery_templates.cli.telling import note, print_json

    if listed:
        _list(json)
        return
    frame = _frame(paper)
    if name is None:
        _draw_sheet(frame, output or SHEET)
        return
    given = {"across": across, "along": along, "rising": rising, "falling": falling, "date": date}
    reach = {"left": reach_left, "right": reach_right, "top": reach_top, "bottom": reach_bottom}
    profile = _profile(name, frame, _asked(given, frame), reach, fine, units)
    _keep(profile)
    if json:
        print_json(profile_figures(profile))
    else:
        for line in profile_lines(profile):
            typer.echo(line)
    note(f'Kept. Draw with it: joinery-templates draw JOB --printer "{name}"')


def _frame(paper: str) -> "Frame":
    from joinery_templates.errors import InputError
    from joinery_templates.sheets.frame import Frame
    from joinery_templates.sheets.margins import Margins
    from joinery_templates.sheets.papers import find_paper

    try:
        return Frame(find_paper(paper), Margins())
    except InputError as error:
        raise error.at("--paper") from None


def _draw_sheet(frame: "Frame", output: str) -> None:
    from joinery_templates.cli.files import write_whole
    from joinery_templates.cli.telling import note
    from joinery_templates.pdf.fonts import DejaVu
    from joinery_templates.pdf.writer import About, write_pdf
    from joinery_templates.sheets.calibration import TITLE, calibration_booklet

    booklet = calibration_booklet(frame, DejaVu())
    write_whole(output, write_pdf(booklet, About(TITLE, "Print at 100 %, then measure"), None))
    note(f"{output}: print it at 100 % and measure it; then: joinery-templates calibrate NAME")


def _asked(given: dict[str, str | None], frame: "Frame") -> dict[str, str]:
    """The readings, asked for at a terminal where they were not given.

    Raises:
        InputError: where one is missing and nobody can be asked.
    """
    from joinery_templates.errors import InputError, mistake
    from joinery_templates.lengths import mm_text
    from joinery_templates.sheets.calibration import rectangle_sides

    width, height = rectangle_sides(frame)
    stated = {"across": width, "along": height, "rising": height * 5 / 4, "falling": height * 5 / 4}
    questions = {
        **{name: f"{name}, stated {mm_text(length)}" for name, length in stated.items()},
        "date": "date of the measurement",
    }
    if not sys.stdin.isatty():
        missing = [
            mistake("reading-missing", "This reading is missing.", "Give it.", f"--{name}")
            for name, value in given.items()
            if value is None
        ]
        if missing:
            raise InputError(*missing)
    return {
        name: value if value is not None else typer.prompt(questions[name], err=True)
        for name, value in given.items()
    }


def _profile(
    name: str,
    frame: "Frame",
    given: dict[str, str],
    reach: dict[str, str | None],
    fine: bool,
    units: str,
) -> "Profile":
    from dataclasses import replace

    from joinery_templates.errors import InputError, mistake
    from joinery_templates.lengths import Units
    from joinery_templates.printers.readings import Readings, Stated, judged
    from joinery_templates.printers.store import Profile
    from joinery_templates.sheets.calibration import rectangle_sides

    if units not in tuple(Units):
        raise InputError(
            mistake("units-unknown", f'"{units[:40]}" is neither "mm" nor "in".', "", "--units")
        )
    for option, words in (("NAME", name), ("--date", given["date"])):
        if not words.strip() or len(words) > 60 or not words.isprintable():
            raise InputError(
                mistake(
                    "name-impossible",
                    "This cannot be printed on a page.",
                    "Write 1 to 60 plain letters.",
                    option,
                )
            )
    readings = Readings(
        *(
            _length(given[side], Units(units), f"--{side}")
            for side in ("across", "along", "rising", "falling")
        )
    )
    stated = Stated(*rectangle_sides(frame))
    try:
        judged(readings, stated, Units(units), fine)
    except InputError as error:
        raise InputError(*(replace(f, place=f"--{f.place}") for f in error.findings)) from None
    margins = tuple(
        (side, _length(value, Units.MM, f"--reach-{side}"))
        for side, value in reach.items()
        if value
    )
    return Profile(name, given["date"], frame.paper.name, stated, readings, fine, margins)


def _length(text: str, units: Any, option: str) -> "Fraction":
    from joinery_templates.errors import InputError
    from joinery_templates.lengths import read_length

    try:
        return read_length(text, units)
    except InputError as error:
        raise error.at(option) from None


def _keep(profile: "Profile") -> None:
    from joinery_templates.cli.files import write_whole
    from joinery_templates.errors import MachineError, mistake
    from joinery_templates.printers.store import known_profiles, profile_file, stated_text

    known_profiles()  # a damaged file is told of, not written over
    path = profile_file()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise MachineError(
            mistake(
                "cannot-write", f"The profile cannot be kept: {error.strerror}.", place=str(path)
            )
        ) from None
    write_whole(str(path), stated_text(profile).encode())


def profile_figures(profile: "Profile") -> dict[str, Any]:
    """A profile and what follows from it, for JSON."""
    verdict = profile.verdict
    return {
        "name": profile.name,
        "date": profile.date,
        "paper": profile.paper,
        "scale_across": float(verdict.across),
        "scale_along": float(verdict.along),
        "skew_degrees": float(verdict.skew_deg),
        "scale_doubt": float(verdict.scale_doubt),
        "skew_doubt_degrees": float(verdict.skew_doubt_deg),
        "margins_mm": {side: float(width) for side, width in profile.margins},
    }


def profile_lines(profile: "Profile") -> list[str]:
    """A profile in words."""
    verdict = profile.verdict
    doubt = 100 * float(verdict.scale_doubt)

    def scale(words: str, factor: "Fraction") -> str:
        error = 100 * (float(factor) - 1)
        size = (
            "true to size"
            if not error
            else f"{abs(error):.3f} % too {'long' if error > 0 else 'short'}"
        )
        return f"  {words:<8} prints {size} (the reading is good to {doubt:.3f} %)"

    lines = [
        f"{profile.name}, measured {profile.date} on {profile.paper}",
        scale("across", verdict.across),
        scale("along", verdict.along),
        f"  skew     {float(verdict.skew_deg):.3f} degrees (good to "
        f"{float(verdict.skew_doubt_deg):.3f} degrees)",
        f"  over 250 mm a corrected line is then within about {2.5 * doubt:.2f} mm",
    ]
    if (
        abs(verdict.across - 1) <= verdict.scale_doubt
        and abs(verdict.along - 1) <= verdict.scale_doubt
    ):
        lines.append("  the error is within the doubt of the reading: a correction gains nothing")
    if profile.margins:
        reach = ", ".join(f"{side} {float(width):g} mm" for side, width in profile.margins)
        lines.append(f"  reaches to within: {reach}")
    return lines


def _list(json: bool) -> None:
    from joinery_templates.cli.telling import print_json
    from joinery_templates.printers.store import known_profiles

    known = known_profiles()
    if json:
        print_json([profile_figures(profile) for profile in known.values()])
        return
    for profile in known.values():
        for line in profile_lines(profile):
            typer.echo(line)
    if not known:
        typer.echo("No printer profile is kept yet.")
