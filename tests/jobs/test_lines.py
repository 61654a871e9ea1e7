"""Lines told for places in a job file, held against Python's own reader of TOML."""

import json
import tomllib
from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from joinery_templates.jobs.lines import Path, lines_of

NAMES = st.one_of(
    st.sampled_from(["a", "b-c", "1", "boards", "_"]),
    st.text("ab.= #[]{}\"'\\é\n", max_size=4),
)
SCALARS = st.sampled_from(
    [
        "1",
        "-0.5e3",
        "nan",
        "true",
        "1979-05-27 07:32:00",
        '"a # ] } , = [x]"',
        "'\"'",
        '""',
        "''",
        r'"\\"',
        r'"\""',
        '"""\n[a]\n"""',
        '"""a""b\\""" """',
        "'''\nb = 1\n'''",
        '""""a"""""',
        "0x1F",
        "07:32:00",
    ]
)


def _name(words: str) -> str:
    bare = words.replace("-", "").replace("_", "").isalnum() and words.isascii()
    return words if bare else json.dumps(words, ensure_ascii=False)


def _list(values: list[str]) -> str:
    return "[" + ", # ]\n".join(values) + "\n]"


def _inline(table: dict[str, str]) -> str:
    return "{ " + ", ".join(f"{_name(name)} = {value}" for name, value in table.items()) + " }"


VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3).map(_list),
        st.dictionaries(NAMES, inner, max_size=3).map(_inline),
    ),
    max_leaves=6,
)
TABLES = st.dictionaries(NAMES, VALUES, max_size=3)


@st.composite
def files(draw: st.DrawFn) -> str:
    """Tables, tables in lists and names with points, with remarks and blank lines between."""
    blank = st.sampled_from(["", "\n", "# [x]\n", "  # a = 1\r\n", "\t\n"])
    parts = [_body(draw(TABLES), draw(blank))]
    for number in range(draw(st.integers(0, 4))):
        name = _name(draw(NAMES))
        header = draw(st.sampled_from(["[t%d.%s]", "[[l%d.%s]]", "[ [l.x] ]", "[[l]] # %d%s"]))
        header = header % (number, name) if "%d" in header else "[[l]]\n[l.x]"
        parts.append(f"{draw(blank)}{header}\n{_body(draw(TABLES), draw(blank))}")
    return "".join(parts)


def _body(table: dict[str, str], blank: str) -> str:
    return "".join(f"{blank}{_name(name)}.x \t= {value} # é\n" for name, value in table.items())


def paths(tree: object, path: Path = ()) -> Iterator[Path]:
    """Every place in a tree that tomllib has read."""
    if path:
        yield path
    if isinstance(tree, dict):
        for name, inner in tree.items():
            yield from paths(inner, (*path, name))
    if isinstance(tree, list):
        for number, inner in enumerate(tree):
            yield from paths(inner, (*path, number))


@settings(max_examples=40)
@given(text=files())
def test_every_place_that_tomllib_sees_has_a_line_and_no_other(text: str) -> None:
    """The oracle: a file that ends before the line does not hold the place; the line names it."""
    tree = tomllib.loads(text)
    found = lines_of(text, paths(tree))
    rows = text.split("\n")
    for path in paths(tree):
        assert path in found
        if isinstance(path[-1], str):
            assert _name(path[-1]) in rows[found[path] - 1]
        try:
            before = tomllib.loads("\n".join(rows[: found[path] - 1]))
        except tomllib.TOMLDecodeError:
            continue  # in the middle of a value
        assert path not in set(paths(before))


def test_lines_are_those_that_an_editor_counts() -> None:
    text = 'a = 1\r\n\r\n[b]\r\nc = """\n\u2028\x85\n"""\nd = [\n 1,\n { e = 2 },\n]\n'
    text += "[[f]]\n[[f]]\ng.h = 3\n"
    wanted = {
        ("a",): 1,
        ("b",): 3,
        ("b", "c"): 4,
        ("b", "d"): 7,
        ("b", "d", 0): 8,
        ("b", "d", 1): 9,
        ("b", "d", 1, "e"): 9,
        ("f",): 11,
        ("f", 0): 11,
        ("f", 1): 12,
        ("f", 1, "g"): 13,
        ("f", 1, "g", "h"): 13,
    }
    assert lines_of(text, wanted) == wanted


def test_what_does_not_stand_there_gets_the_line_of_what_it_would_stand_in() -> None:
    text = "\n[[joints]]\nkind = 'x'\n"
    assert lines_of(text, [("joints", 0, "pin", 3)]) == {("joints", 0, "pin", 3): 2}
    assert lines_of(text, [("boards", "a")]) == {}


def test_lines_of_a_large_file_are_found_quickly() -> None:
    import time

    text = "".join(f"[boards.b{n}]\nwidth = {n}\n" for n in range(20_000))
    start = time.process_time()
    assert lines_of(text, [("boards", "b19999", "width")]) == {
        ("boards", "b19999", "width"): 40_000
    }
    assert time.process_time() - start < 1
