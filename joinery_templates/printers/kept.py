"""Files in the person's own folder for settings: printer profiles, and tools."""

from pathlib import Path

from joinery_templates.errors import MachineError, mistake, refusal


def settings_folder() -> Path:
    """The person's folder for this program's settings, whether it exists or not.

    Raises:
        MachineError: where the system names none: a folder that would depend on where the
            program is started is none.
    """
    from platformdirs import user_config_path

    folder = user_config_path("joinery-templates", appauthor=False)
    if not folder.is_absolute():
        raise MachineError(
            mistake(
                "no-settings-folder",
                "There is no folder for settings: the environment names no home.",
                "Set HOME to a folder of yours.",
            )
        )
    return folder


def settings_text(name: str) -> str:
    """The text of a file of settings; empty where there is none.

    Raises:
        InputError: `settings-unreadable`, where it is no text.
        MachineError: `settings-unreadable`, where it cannot be read.
    """
    try:
        path = settings_folder() / name
    except MachineError:
        return ""
    try:
        return path.read_bytes().decode("utf-8-sig")
    except (FileNotFoundError, NotADirectoryError):
        return ""
    except UnicodeDecodeError:
        message, remedy = "It is not a text in UTF-8.", "Mend the file, or delete it."
        raise refusal("settings-unreadable", message, remedy, str(path)) from None
    except OSError as error:
        message = f"It cannot be read: {error.strerror}."
        raise MachineError(mistake("settings-unreadable", message, place=str(path))) from None
