"""What a printer profile says, in words and in figures."""

from typing import Any

from joinery_templates.exact import Fraction, as_float
from joinery_templates.printers.store import Profile
from joinery_templates.sheets.calibration import COARSE


def profile_figures(profile: Profile) -> dict[str, Any]:
    """A profile and what follows from it, for JSON."""
    verdict = profile.verdict
    return {
        "name": profile.name,
        "date": profile.date,
        "paper": profile.paper,
        "scale_across": as_float(verdict.across),
        "scale_along": as_float(verdict.along),
        "skew_degrees": as_float(verdict.skew_deg),
        "scale_doubt": as_float(verdict.scale_doubt),
        "skew_doubt_degrees": as_float(verdict.skew_doubt_deg),
        "margins_mm": {side: as_float(width) for side, width in profile.margins},
    }


def profile_lines(profile: Profile) -> list[str]:
    """A profile in words."""
    verdict = profile.verdict
    doubt = 100 * as_float(verdict.scale_doubt)

    def scale(words: str, factor: Fraction) -> str:
        error = 100 * (as_float(factor) - 1)
        size = (
            "true to size"
            if not error
            else f"{abs(error):.3f} % too {'long' if error > 0 else 'short'}"
        )
        return f"  {words:<8} prints {size} (the reading is good to {doubt:.3f} %)"

    lines = [
        ", measured ".join(filter(None, (f"{profile.name}, on {profile.paper}", profile.date))),
        scale("across", verdict.across),
        scale("along", verdict.along),
        f"  skew     {as_float(verdict.skew_deg):.3f} degrees (good to "
        f"{as_float(verdict.skew_doubt_deg):.3f} degrees)",
        f"  over 250 mm a corrected line is then right to about {verdict.length_left:.2f} mm in "
        f"its length and {verdict.square_left:.2f} mm in its direction",
    ]
    if verdict.length_left > COARSE:
        nearer = "a larger sheet" if profile.by_line else "the numbered lines of the sheet"
        lines.append(f"  {nearer} would tell more")
    if not verdict.gains:
        lines.append("  the error is within the doubt of the reading: a correction gains nothing")
    if profile.margins:
        reach = ", ".join(f"{side} {as_float(width):g} mm" for side, width in profile.margins)
        lines.append(f"  reaches to within: {reach}")
    return lines
