"""Named printer profiles in the user's configuration folder, one TOML file for all.

A profile keeps what was measured; what follows is worked out anew each time.
"""

import tomllib
from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path

from msgspec import Struct
from msgspec.structs import astuple

from joinery_templates.errors import InputError, refusal
from joinery_templates.exact import Fraction
from joinery_templates.lengths import Units, read_length
from joinery_templates.printers.kept import settings_folder, settings_text
from joinery_templates.printers.readings import Readings, Verdict, judged
from joinery_templates.sheets.calibration import SIDES, Stated
from joinery_templates.sheets.margins import Margins

_LENGTHS = ("stated_across", "stated_along", "across", "along", "rising", "falling")
_DAMAGE = (ValueError, LookupError, TypeError, AttributeError, ArithmeticError, RecursionError)
FILE = "printers.toml"


class Profile(Struct, frozen=True):
    """One printer as measured.

    Attributes:
        name: the person's name for it.
        date: as the person entered it.
        paper: the paper of the sheet that was measured.
        stated: lengths that the sheet states.
        readings: lengths that were measured.
        by_line: all lengths were read by the numbered lines.
        margins: what the printer cannot reach, by side; sides not read are left out.
    """

    name: str
    date: str
    paper: str
    stated: Stated
    readings: Readings
    by_line: bool = False
    margins: tuple[tuple[str, Fraction], ...] = ()

    @property
    def verdict(self) -> Verdict:
        """What follows from the readings."""
        return judged(self.readings, self.stated, Units.MM, self.by_line)


def profile_file() -> Path:
    """Where the profiles are kept.

    Raises:
        MachineError: where the system names no folder for settings.
    """
    return settings_folder() / FILE


def known_profiles() -> dict[str, Profile]:
    """All profiles by name.

    Raises:
        InputError: `settings-unreadable` where the file is damaged.
        MachineError: where it cannot be read.
    """
    text = settings_text(FILE)
    try:
        tables = tomllib.loads(text, parse_float=Decimal)
        return {name: _profile(name, table) for name, table in tables.items()}
    except (*_DAMAGE, InputError) as error:
        raise refusal(
            "settings-unreadable",
            f"The printer profiles are damaged ({error}).",
            "Mend the file, or delete it and calibrate again.",
            str(profile_file()),
        ) from None


def find_profile(name: str) -> Profile:
    """The profile of this name.

    Raises:
        InputError: `printer-unknown`, with the names that are known.
    """
    known = known_profiles()
    if name in known:
        return known[name]
    others = ", ".join(f'"{other}"' for other in known)
    kept = f"Kept: {others}." if others else "None is kept yet."
    raise refusal(
        "printer-unknown",
        f'No printer is kept as "{name[:60]}". {kept}',
        "Measure yours with: joinery-templates calibrate",
        "--printer",
    )


def text_with(profile: Profile) -> str:
    """All profiles as the file's text, with one added or replaced.

    Raises:
        InputError: `settings-unreadable` where the file that is there is damaged.
    """
    import tomlkit

    known_profiles()  # a damaged file is told of, not written over
    document = tomlkit.parse(settings_text(FILE))
    table = tomlkit.table()
    table["date"] = profile.date
    table["paper"] = profile.paper
    table["by_line"] = profile.by_line
    lengths = (*astuple(profile.stated), *astuple(profile.readings))
    for name, length in zip(_LENGTHS, lengths, strict=True):
        table[name] = _length(length)
    if profile.margins:
        margins = tomlkit.inline_table()
        margins.update({side: _length(width) for side, width in profile.margins})
        table["margins"] = margins
    document[profile.name] = table
    return tomlkit.dumps(document)


def _length(length: Fraction) -> str:
    """An exact length as the reader of lengths takes it."""
    return f"{length.numerator}/{length.denominator} mm"


def _profile(name: str, table: Mapping[str, object]) -> Profile:
    lengths = [read_length(table[key], Units.MM) for key in _LENGTHS]
    margins = table.get("margins", {})
    if not isinstance(margins, Mapping):
        raise TypeError("margins")
    profile = Profile(
        name=name,
        date=str(table["date"]),
        paper=str(table["paper"]),
        stated=Stated(*lengths[:2]),
        readings=Readings(*lengths[2:]),
        by_line=table.get("by_line") is True,
        margins=tuple(
            (side, read_length(margins[side], Units.MM)) for side in SIDES if side in margins
        ),
    )
    _ = profile.verdict  # absurd figures are damage too
    Margins(**dict(profile.margins))
    return profile
