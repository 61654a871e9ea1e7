"""Job files written by the program: a commented starter, and the job behind `quick`."""

import json
import textwrap
from collections.abc import Iterator, Mapping

from joinery_templates.exact import as_float
from joinery_templates.jobs.tables import JobWords, JointTable, PaperTable, Written
from joinery_templates.joints.kind import Kind
from joinery_templates.joints.parameter import Parameter, Table, names_of
from joinery_templates.joints.tools import Tools
from joinery_templates.lengths import Units, read_length


def starter(kind: Kind) -> str:
    """A commented job file for a kind of joint that draws as it stands."""
    return "\n".join(_starter_lines(kind)) + "\n"


def _starter_lines(kind: Kind) -> Iterator[str]:
    first, second = kind.roles
    yield f"# A job file for: {kind.title.lower()}. Lines that start with # are remarks."
    yield '# Lengths are numbers in the units below, or text with a unit: "19 mm", "3/4 in".'
    yield from _lines(JobWords, "title", "units")
    yield ""
    yield "[paper]"
    yield from _lines(PaperTable, "size", "margin", "overlap")
    yield ""
    yield "# [tools]                    # yours: the layout is checked against them"
    yield from _lines(Tools)
    yield ""
    yield "# Measure each board with a caliper: the thickness decides where the baseline is."
    sizes = zip(kind.roles, kind.example.widths, kind.example.thicknesses, strict=True)
    for role, width, thickness in sizes:
        yield f"[boards.{_board_name(role.key)}]"
        yield f"width = {_value(width)}"
        yield f"thickness = {_value(thickness)}"
        yield ""
    yield "[[joints]]"
    yield f'kind = "{kind.name}"'
    yield from _corners(kind)
    yield f'{first.key} = "{_board_name(first.key)}"'
    yield f'{second.key} = "{_board_name(second.key)}"'
    given = dict(kind.example.parameters)
    for parameter in kind.parameters:
        yield ""
        yield from _remark(parameter, parameter.name in given)
        if parameter.name in given:
            yield f"{parameter.name} = {_value(given[parameter.name])}"
        else:
            yield f"# {parameter.name} = {parameter.example}".rstrip()
    yield ""
    yield from _lines(JointTable, "views")


def _lines(table: type[Table], *used: str) -> Iterator[str]:
    """A line for each name of a table that has an example; a remark where it is not used."""
    for declared in table.parameters:
        if declared.example:
            line = f"{declared.name} = {declared.example}"
            written = f"{'' if declared.name in used else '# '}{line}".ljust(28)
            if len(written) + len(declared.help) <= 100:
                yield f"{written} # {declared.help}"
            else:
                yield from (*_wrapped(declared.help), written.rstrip())


def quick_job(kind: Kind, given: Mapping[str, Written]) -> str:
    """The job file of one joint from what was typed.

    Args:
        kind: the kind of joint.
        given: by name: the first board's ``width`` and ``thickness``, and, where they were
            given, ``second_width`` and ``second_thickness``, ``units``, ``paper``,
            ``corners`` and the joint's parameters.
    """
    lines = [f"title = {_text(kind.title)}", f"units = {_written(given.get('units', 'mm'))}", ""]
    if "paper" in given:
        lines += ["[paper]", f"size = {_written(given['paper'])}", ""]
    for role, prefix in zip(kind.roles, ("", "second_"), strict=True):
        lines.append(f"[boards.{_text(role.words)}]")
        for size in ("width", "thickness"):
            lines.append(f"{size} = {_written(given.get(prefix + size, given[size]))}")
        lines.append("")
    lines += ["[[joints]]", f'kind = "{kind.name}"']
    lines += [f"{role.key} = {_text(role.words)}" for role in kind.roles]
    own = ("corners", *names_of(kind.parameter_class))
    lines += [f"{name} = {_written(given[name])}" for name in own if name in given]
    return "\n".join(lines) + "\n"


def _corners(kind: Kind) -> Iterator[str]:
    remark = "# one set of templates for each"
    if not kind.example.corners:
        yield f'corners = ["A", "B", "C", "D"]   {remark}'
        return
    yield f"corners = [   {remark}"
    for name, like in kind.example.corners:
        yield f"    {{ name = {_text(name)}, like = {_text(like)} }},"
    yield "]"


def _board_name(role_key: str) -> str:
    return role_key.removesuffix("_board")


def _value(value: object) -> str:
    """A value of an example as TOML; lengths in mm lose their unit, which the file states."""
    if isinstance(value, str):
        if value.endswith(" mm"):
            length = read_length(value, Units.MM)
            return str(as_float(length)) if length.denominator > 1 else str(length)
        return _text(value)
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{name} = {_value(part)}' for name, part in value.items())} }}"
    return str(value)


def _written(value: Written) -> str:
    """A value from the command line as TOML."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return _text(value)
    return f"[{', '.join(map(_text, value))}]"


def _text(words: str) -> str:
    """Text as a TOML string: its escapes are those of JSON."""
    return json.dumps(words, ensure_ascii=False).replace("\x7f", "\\u007f")


def _remark(parameter: Parameter, is_given: bool) -> list[str]:
    """What a parameter is, its limits and, where the starter leaves it out, what then holds."""
    limits = parameter.limits_text(Units.MM)
    words = [parameter.help, f"{limits[0].upper()}{limits[1:]}." if limits else ""]
    words += [] if is_given else [f"Left out: {parameter.usual}."]
    return _wrapped(" ".join(filter(None, words)))


def _wrapped(words: str) -> list[str]:
    return textwrap.wrap(
        words, 92, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False
    )
