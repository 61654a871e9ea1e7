"""The house: which room may import which, and that nothing looks back."""

import ast
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "joinery_templates"
BASE = {"errors", "lengths"}
MAY_IMPORT = {
    "errors": set(),
    "exact": set(),
    "libraries": set(),
    "lengths": {"errors"},
    "wood": set(),
    "joint": {"errors", "wood"},
    "joints": BASE | {"wood", "joint"},
    "drawings": BASE | {"wood", "joint"},
    "pictures": BASE | {"wood", "joint", "drawings"},
    "sheets": BASE | {"drawings"},
    "pdf": BASE | {"libraries", "drawings", "sheets"},
    "measure": {"errors", "lengths"},
    "printers": BASE | {"sheets", "measure"},
    "jobs": BASE | {"wood", "joint", "joints", "drawings", "sheets", "printers"},
    "figures": BASE | {"wood", "joint", "joints", "jobs"},
    "choices": BASE | {"joint", "joints", "jobs"},
    "patterns": BASE | {"joint", "joints", "drawings", "pictures", "jobs", "choices"},
    "images": {"drawings", "pdf"},
    "build": {"errors", "lengths", "drawings", "jobs", "choices", "patterns", "sheets", "pdf"},
    "proof": {"drawings", "sheets", "measure"},
}
"""What DEVELOPERS.md states, room by room; cli may import all, and all may import exact."""
THIRD_PARTY = {
    "reportlab": {"pdf"},
    "gmpy2": {"exact"},
    "fractions": {"exact"},
    "PIL": {"images"},
    "pypdf": {"measure"},
    "typer": {"cli"},
    "tomlkit": {"jobs", "printers"},
    "platformdirs": {"printers"},
    "filelock": {"cli"},
    "bidi": {"pdf"},
    "arabic_reshaper": {"pdf"},
}


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@cache
def imported(path: Path) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are absolute"
            names.add(str(node.module))
    return names


FILES = sorted(PACKAGE.rglob("*.py"))


def strangers(room: str, names: set[str]) -> set[str]:
    """Rooms among imported names that a room may not import."""
    ours = {name.split(".")[1] for name in names if name.startswith("joinery_templates.")}
    return ours - MAY_IMPORT[room] - {room, "exact"}


def test_a_room_imports_only_rooms_before_it():
    for path in FILES:
        room = room_of(path)
        if room not in {"cli", "__init__", "__main__"}:
            assert strangers(room, imported(path)) == set(), path


def test_the_check_sees_a_room_that_looks_back():
    assert strangers("wood", {"joinery_templates.pdf.writer", "math"}) == {"pdf"}


@pytest.mark.parametrize("package", THIRD_PARTY)
def test_a_package_is_used_in_its_room_only(package):
    users = {
        room_of(path)
        for path in FILES
        if any(name.split(".")[0] == package for name in imported(path))
    }
    assert users
    assert users <= THIRD_PARTY[package]


def test_no_kind_of_joint_is_named_outside_the_joints():
    """A new joint is one new file: nothing else may ask what kind a joint is."""
    names = [path.stem.replace("_", "-") for path in (PACKAGE / "joints").rglob("*_*.py")]
    assert "through-dovetail" in names
    texts = {
        path: path.read_text(encoding="utf-8")
        for path in FILES
        if room_of(path)
        in {"wood", "drawings", "pictures", "sheets", "pdf", "joint", "patterns", "build", "proof"}
    }
    found = [
        (path.name, name)
        for path, text in texts.items()
        for name in names
        if f'"{name}"' in text or "kind ==" in text
    ]
    assert found == []


def test_the_top_level_holds_what_was_agreed():
    done = subprocess.run(
        ["git", "ls-files"], cwd=PACKAGE.parent, capture_output=True, text=True, check=False
    )
    if done.returncode:
        pytest.skip("not a checkout")
    top = {line.split("/")[0] for line in done.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} == {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "joinery_templates",
        "tests",
        "sample_jobs",
        "fonts",
    }


def test_start_up_loads_neither_the_pdf_writer_nor_the_reader():
    code = (
        "import sys; import joinery_templates.cli.app; "
        "print(sorted({'reportlab', 'pypdf', 'tomlkit'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=PACKAGE.parent,
    )
    assert done.stdout.strip() == "[]"
