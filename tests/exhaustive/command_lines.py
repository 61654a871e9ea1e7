"""Command lines, sound, half sound and senseless, with streams and settings of every kind."""

import json
import os
import random
import shlex
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import chdir, contextmanager
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any
from unittest import mock

from joinery_templates.cli.app import command_of
from joinery_templates.joints.catalogue import kinds
from tests.cli.command_line import TOP, Ran, run
from tests.exhaustive.bystanders import CONFIG, HERE, HOME, OLD, State, job, state, stock
from tests.exhaustive.job_mutants import FITTING
from tests.exhaustive.watched import MOST_SECONDS, Played, told_wrongly

Chance = random.Random
COMMANDS = (
    *["draw"] * 6, *["quick"] * 4, *["check"] * 3, *["measure"] * 3, *["calibrate"] * 4, "new",
    *["tools"] * 3, "new", "schema", "papers", "joints", "joints",
)  # fmt: skip
SOURCES = (
    "/dev/null", "/dev/full", "/dev/zero", "/dev/stdin", "/dev/fd/0", "/dev/fd/77", "/dev/tty",
    "/proc/self/mem", "/proc/self/environ", "fifo_in",
)  # fmt: skip
SINKS = (
    "/dev/null", "/dev/full", "/dev/stdout", "/dev/stderr", "/dev/fd/1", "/dev/fd/2", "/dev/fd/77",
    "/dev/tty", "/proc/self/fd/1", "fifo_out",
)  # fmt: skip
"""Devices, only for a process of its own."""
NO_FILES = (
    "", "-", ".", "..", "/", "no.toml", "no/no.toml", "folder", "folder/", "job.toml ", "job.toml/",
    "folder.pdf", "loop.pdf", "dangling.pdf", "x" * 300, "x" * 5000, "*.toml", "~/job.toml",
    "C:\\x", "http://localhost/job.toml", "a\0b", "--", "-x.toml", "\udcfe", "\x1b[2J.toml",
)  # fmt: skip
GIVEN = (
    *["job.toml"] * 6, *[OLD] * 4, "bad.toml", "latin.toml", "empty.toml", "harmed.pdf",
    "other.pdf", "text.pdf", "link.toml", "link.pdf", "./-x.toml", "ünï cödé.toml", "a\nb.toml",
    "\x1b[31mred.toml", "\udcff.toml", "read_only.toml", "notes.txt", "-", *NO_FILES,
)  # fmt: skip
OUTPUTS = (
    *["new.pdf"] * 5, *["-"] * 4, "folder/new.pdf", "new", "./new.pdf", "ü\n.pdf", "\x1b[2J.pdf",
    "\udcff.pdf", "-new.pdf", "x" * 250, ".part", "~new.pdf", "job.toml", "notes.txt", "other.pdf",
    OLD, "read_only.pdf", "link.pdf", "link_other.pdf", "link.toml", "json.py", "log.txt",
    "../config/joinery-templates/tools.toml", "/proc/new.pdf", "no/new.pdf", *NO_FILES,
)  # fmt: skip
NONSENSE = (
    "", " ", "x", "-1", "0", "1e999999999999999", "9" * 5000, "nan", "\x1b[31m", "\udcff", "木",
    "a\nb", "1/0", "none", "=", "%s", "12,5", "1e9", "-", "--", "true", "\u202e",
    "x" * 20_000, "a\0b",
)  # fmt: skip
SOUND: dict[str, tuple[str, ...]] = {
    "job": GIVEN,
    "pdf": (*[OLD] * 8, *GIVEN),
    "output": OUTPUTS,
    "paper": ("A4", "Letter", "A3", "roll 610 mm", "300 x 420 mm", "30 x 40 mm"),
    "units": ("mm", "in"),
    "printer": ("Press", "Press", "Other"),
    "kind": tuple(kinds()),
    "name": ("Press", "My printer", "a.b", "'", "木"),
    "across": ("162", "163", "161.5 mm", "150 line 17", "150 line 99"),
    "along": ("216", "215.1", "217", "204 line 17"),
    "rising": ("270", "270.6", "250 line 17"),
    "falling": ("270", "269.2", "250 line 17"),
    "date": ("1 May", "today"),
    "chisels": ("3, 6, 10 mm", "none", "1/4, 1/2 in", "3,3"),
    "bits": ("6, 8, 10 mm", "none", "1/4, 3/8 in"),
    "corners": ("A", "A,B", "Left, Right", ","),
    "width": ("100", "90", "4 in"),
    "thickness": ("12", "18 mm"),
}
LENGTHS = ("0.6", "3", "5 mm", "1/64 in", "none")
STDIN = ("</dev/null", "</dev/null", "<job.toml", "<old.pdf", "<json.py", "<&-", "piped")
STDOUT = ("", "", "", ">/dev/full", ">&-", ">>log.txt", "| true", "1<>log.txt")
STDERR = ("", "", "", "2>/dev/full", "2>&-", "2>&1", "2> | true")
SETTINGS: tuple[dict[str, str], ...] = (
    {}, {}, {}, {}, {"LC_ALL": "C"}, {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    {"PYTHONIOENCODING": "latin-1"}, {"PYTHONIOENCODING": "ascii"}, {"LC_ALL": "xx_YY.nonsense"},
    {"PYTHONIOENCODING": "utf-16"}, {"PYTHONIOENCODING": "cp1252:strict"},
    {"COLUMNS": "10"}, {"COLUMNS": "x", "LINES": "0"}, {"TERM": "dumb", "NO_COLOR": "1"},
    {"FORCE_COLOR": "1"}, {"TMPDIR": "/nowhere"}, {"_JOINERY_TEMPLATES_COMPLETE": "complete_bash"},
    {"_JOINERY_TEMPLATES_COMPLETE": "x"}, {"XDG_CONFIG_HOME": "{}/here/notes.txt"},
    {"XDG_CONFIG_HOME": "{}/nowhere"}, {"XDG_CONFIG_HOME": ""}, {"XDG_CONFIG_HOME": "/dev/null"},
    {"XDG_CONFIG_HOME": "", "HOME": "{}/here/notes.txt"}, {"XDG_CONFIG_HOME": "/proc"},
    {"XDG_CONFIG_HOME": "", "HOME": "{}/nowhere"}, {"XDG_CONFIG_HOME": "", "HOME": ""},
)  # fmt: skip
"""{} stands for the folder; an empty value leaves the name out."""
WRITE_SETTINGS = ("calibrate", "tools")


@dataclass(frozen=True, slots=True)
class Line:
    """A command line and what it runs in.

    Attributes:
        words: after the program's name.
        output: what is given last as the output, or None.
        apart: whether it runs as a process of its own.
        streams: redirections of input, output and messages, as in a shell.
        settings: of the environment.
    """

    words: tuple[str, ...]
    output: str | None = None
    apart: bool = False
    streams: tuple[str, str, str] = ("</dev/null", "", "")
    settings: dict[str, str] = field(default_factory=dict)

    @property
    def command(self) -> str:
        return self.words[0] if self.words else ""

    @property
    def hears_all(self) -> bool:
        """Whether everything that is said can be heard."""
        return self.streams[1] in ("", ">>log.txt") and self.streams[2] in ("", "2>&1")

    def __str__(self) -> str:
        settings = [f"{name}={value}" for name, value in self.settings.items()]
        words = shlex.join(words if len(words) < 400 else f"{words[:40]}…" for words in self.words)
        where = "" if self.apart else "(in this process)"
        line = " ".join(filter(None, (*settings, "joinery-templates", words, *self.streams, where)))
        return line.encode("utf-8", "backslashreplace").decode()


@cache
def parameters(command: str, kind: str) -> list[Any]:
    """What a command takes, from the program itself, so that none is forgotten."""
    one = command_of(command)
    if command == "quick":
        one = one.get_command(None, kind)
    return [each for each in one.params if each.name != "help"]


def value_for(name: str, kind: str, chance: Chance, apart: bool) -> str:
    if chance.random() < 0.12:
        return chance.choice(NONSENSE)
    if name in ("job", "pdf", "output") and apart and chance.random() < 0.15:
        return chance.choice(SINKS if name == "output" else SOURCES)
    if name in SOUND:
        return chance.choice(SOUND[name])
    for each in kinds()[kind].parameters:
        if each.name == name:
            pool = FITTING.get(each.quantity) or each.choices
            return chance.choice(pool).strip('"')
    return chance.choice(LENGTHS)


def chosen_line(chance: Chance) -> Line:
    apart = chance.random() < 0.5
    kind = chance.choice(tuple(kinds()))
    if chance.random() < 0.04:
        some = (*NONSENSE, *COMMANDS, "--version", "--help", "--show-completion")
        given = [("", "", [chance.choice(some)]) for _ in range(chance.randrange(4))]
        start: list[str] = []
    else:
        command = chance.choice(COMMANDS)
        start = [command, kind] if command == "quick" else [command]
        given = list(_given(command, kind, chance, apart))
        if chance.random() < 0.06:
            given.append(("", "", [chance.choice((*NONSENSE, "--no-such", "--help", "-o"))]))
        if chance.random() < 0.06 and given:
            given.append(chance.choice(given))
        if chance.random() < 0.3:
            chance.shuffle(given)
    words = [*start, *(word for _, _, some in given for word in some)]
    outputs = [value for name, value, _ in given if name == "output"]
    if apart:  # the system takes no such word
        words, outputs = ([word.replace("\0", "0") for word in some] for some in (words, outputs))
    last = [after for word, after in pairwise(words) if word in ("-o", "--output")][-1:]
    outputs += [word for word in last if word.startswith("-") and len(word) > 1]  # it is a name
    line = Line(tuple(words), outputs[-1] if outputs else None, apart)
    if not apart:
        return line
    settings = chance.choice(SETTINGS)
    if start and start[0] in WRITE_SETTINGS and settings.get("HOME") == "":
        settings = {}  # what is kept must not reach the person's own folder
    streams = chance.choice(STDIN), chance.choice(STDOUT), chance.choice(STDERR)
    return replace(line, streams=streams, settings=settings)


def _given(
    command: str, kind: str, chance: Chance, apart: bool
) -> Iterator[tuple[str, str, list[str]]]:
    whole = command == "calibrate" and chance.random() < 0.6
    for each in parameters(command, kind):
        name = each.name
        needed = each.required or (whole and name in ("name", "across", "along", "rising",
                                                       "falling", "date"))  # fmt: skip
        often = 0.96 if needed else {"output": 0.6, "name": 0.2, "kind": 0.7}.get(name, 0.12)
        if chance.random() > often:
            continue
        if each.param_type_name == "argument":
            value = value_for(name, kind, chance, apart)
            yield name, value, [value]
        elif each.is_flag:
            yield name, "", [chance.choice((*each.opts, *each.secondary_opts))]
        else:
            value, option = value_for(name, kind, chance, apart), chance.choice(each.opts)
            joined = option.startswith("--") and chance.random() < 0.3
            yield name, value, [f"{option}={value}"] if joined else [option, value]


def environment(folder: Path, settings: dict[str, str]) -> dict[str, str]:
    """Of a run: nothing of the person's own."""
    usual = {
        "PATH": os.environ["PATH"],
        "LANG": "C.UTF-8",
        "HOME": str(folder / HOME),
        "XDG_CONFIG_HOME": str(folder / CONFIG),
        "PYTHONPATH": str(TOP),
    }
    told = usual | {name: value.format(folder) for name, value in settings.items()}
    return {name: value for name, value in told.items() if value}


def run_here(line: Line, folder: Path) -> Ran:
    with (
        chdir(folder / HERE),
        mock.patch.dict(os.environ, environment(folder, {}), clear=True),
    ):
        return run(*line.words)


@contextmanager
def partners(line: Line, here: Path) -> Iterator[None]:
    """Someone at the other end of each pipe with a name that the line speaks of."""
    words = " ".join(line.words)
    commands = {"fifo_in": ["cp", "job.toml", "fifo_in"], "fifo_out": ["cat", "fifo_out"]}
    started = [
        subprocess.Popen(command, cwd=here, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for name, command in commands.items()
        if name in words
    ]
    try:
        yield
    finally:
        for process in started:
            process.kill()
            process.wait()


def run_in_shell(line: Line, folder: Path) -> tuple[Ran, list[str]]:
    """The real program with its streams as a shell directs them, and whether it was slow."""
    given, out, err = line.streams
    directed = [word for word in (given, out, err) if word != "piped" and "|" not in word]
    script = f'exec "$@" {" ".join(directed)}'
    reading, gone = os.pipe()
    os.close(reading)
    program = [sys.executable, "-P", "-m", "joinery_templates", *line.words]
    before = os.times()
    with partners(line, folder / HERE):
        process = subprocess.Popen(
            ["sh", "-c", script, "sh", *program],
            cwd=folder / HERE,
            env=environment(folder, line.settings),
            stdin=subprocess.PIPE,
            stdout=gone if "|" in out else subprocess.PIPE,
            stderr=gone if "|" in err else subprocess.PIPE,
        )
        os.close(gone)
        try:
            output, messages = process.communicate(job(), timeout=50)
            faults = []
        except subprocess.TimeoutExpired:
            process.kill()
            output, messages = process.communicate()
            faults = ["hung"]
    after = os.times()
    took = (after[2] - before[2]) + (after[3] - before[3])
    if took > MOST_SECONDS:
        faults.append(f"took {took:.1f} s")
    words = (messages or b"").decode(line.settings.get("PYTHONIOENCODING", "utf-8").split(":")[0],
                                     "replace")  # fmt: skip
    return Ran(process.returncode, output or b"", words), faults


def played(chance: Chance, folder: Path) -> Played:
    line = chosen_line(chance)
    return str(line), faults_of(line, folder, chance)


def faults_of(line: Line, folder: Path, chance: Chance) -> list[str]:
    """What is wrong with how the program answers to a line."""
    stock(folder, chance)
    (folder / "given").write_text(str(line), encoding="utf-8")
    before, target = state(folder), _target(line, folder)
    faults: list[str] = []
    if line.apart:
        ran, faults = run_in_shell(line, folder)
    else:
        ran = run_here(line, folder)
    after = state(folder)
    said = ran.messages
    if line.streams[2] == "2>&1":
        encoding = line.settings.get("PYTHONIOENCODING", "utf-8").split(":")[0]
        said += ran.output.decode(encoding, errors="replace")
        said += str(after.get(f"{HERE}/log.txt", ("", ""))[1]).replace("\\x00", "")
    faults += told_wrongly(ran.code, said)
    faults += _unheard(line, ran, said)
    faults += _badly_written(line, ran.code, before, after, target)
    if ran.code == 0:
        faults += _not_done(line, ran, after, target)
    if ran.code == 0 and line.streams[1] in (">/dev/full", ">&-"):
        faults += _lost(line, folder, chance)
    return faults


def _target(line: Line, folder: Path) -> str:
    """The file that is to be written, by its name in the folder; empty where none is named."""
    if line.output in (None, "", "-"):
        return ""
    try:
        real = os.path.realpath(folder / HERE / str(line.output))
    except (OSError, ValueError):
        return ""
    return os.path.relpath(real, folder.resolve())


def _is_help(line: Line) -> bool:
    return any(word in ("--help", "--version") or "completion" in word for word in line.words) or (
        "_JOINERY_TEMPLATES_COMPLETE" in line.settings
    )


def _unheard(line: Line, ran: Ran, said: str) -> list[str]:
    """A failure without words, words that are no words, or an error that is called success."""
    faults = []
    odd = {sign for sign in said if ord(sign) < 32 and sign not in "\n\r\t"}
    if odd and line.streams[2] == "" and line.output not in ("/dev/stderr", "/dev/fd/2"):
        faults.append(f"said {odd} raw")
    if _is_help(line) or not line.hears_all:
        return faults
    if ran.code == 0 and "ERROR" in said:
        faults.append(f"done, and said: {said[-300:]}")
    told = any(word in said for word in ("ERROR: ", "Error: ", "Usage: "))
    reported = (
        line.command == "measure" and ran.code == 1 and (ran.output or ">>" in line.streams[1])
    )
    asked_nothing = line.words in ((), ("quick",))
    if ran.code in (1, 2) and not told and not reported and not asked_nothing:
        faults.append(f"failed with {ran.code} and said: {said[-300:]!r}")
    return faults


def _badly_written(line: Line, code: int, before: State, after: State, target: str) -> list[str]:
    """Files that changed, came or went and should not have."""
    faults = []
    forced = any(word == "--force" for word in line.words)
    may_replace = forced or target == f"{HERE}/{OLD}"
    done = code == 0 or not line.hears_all
    for name in sorted({*before, *after}):
        was, now = before.get(name), after.get(name)
        if was == now or "__pycache__" in name:
            continue
        if name == f"{HERE}/log.txt" and "log.txt" in line.streams[1] and was and now:
            if line.streams[1] == ">>log.txt" and now[1].startswith(was[1]):  # type: ignore[attr-defined]
                continue
            if line.streams[1] == "1<>log.txt":
                continue
        kept = name.startswith((CONFIG, f"{HOME}/.config", "nowhere")) and not name.endswith("part")
        is_lock = name.endswith(".lock")  # by which runs at the same time wait for each other
        if kept and line.command in WRITE_SETTINGS and (done or is_lock):
            continue
        if name.startswith(HOME) and any("completion" in word for word in line.words):
            continue
        new = was is None and now is not None
        named = name == target or (not target and _usual_name(line, name))
        if done and named and (new or may_replace):
            continue
        faults.append(f"{name}: was {_short(was)}, is {_short(now)}")
    return faults


def _usual_name(line: Line, name: str) -> bool:
    """Whether a file could be called so where no output is named."""
    end = {"draw": ".pdf", "quick": ".pdf", "calibrate": ".pdf", "new": ".toml"}.get(line.command)
    return bool(end) and name.startswith(f"{HERE}/") and name.endswith(str(end))


def _short(one: tuple[str, object] | None) -> str:
    return "not there" if one is None else f"{one[0]} {str(one[1])[:60]}"


def _not_done(line: Line, ran: Ran, after: State, target: str) -> list[str]:
    """What a run says it has done, and has not."""
    if _is_help(line):
        return []
    faults = []
    writes = line.command in ("draw", "quick", "new", "schema") or (
        line.command == "calibrate" and line.output is not None
    )
    kind, written = after.get(target, ("", None)) if target and writes else ("", None)
    inside = target and not target.startswith("..")
    if inside and writes and written is None and not kind.startswith("p"):
        faults.append("said that it is done, and wrote nothing")
    if isinstance(written, bytes) and not _is_whole(line, written):
        faults.append(f"wrote {written[:40]!r}, {len(written)} bytes")
    is_heard = line.streams[1:] == ("", "")
    draws = line.command in ("draw", "quick")
    if line.output == "-" and is_heard and draws and not _is_whole(line, ran.output):
        faults.append(f"wrote {ran.output[:40]!r} to standard output")
    if "--json" in line.words and is_heard and line.command != "calibrate":
        encoding = line.settings.get("PYTHONIOENCODING", "utf-8").split(":")[0]
        try:
            json.loads(ran.output.decode(encoding))
        except ValueError as problem:
            faults.append(f"no JSON: {problem}: {ran.output[:100]!r}")
    return faults


def _is_whole(line: Line, content: bytes) -> bool:
    if line.command in ("new", "schema"):
        return content.endswith(b"\n")
    return content.startswith(b"%PDF-") and content.rstrip().endswith(b"%%EOF")


def _lost(line: Line, folder: Path, chance: Chance) -> list[str]:
    """The same line again with a sound output: what was lost when it said it was done?"""
    for name in (HERE, HOME, CONFIG):
        shutil.rmtree(folder / name)
    stock(folder, chance)
    again, _ = run_in_shell(replace(line, streams=(line.streams[0], "", "")), folder)
    if again.code == 0 and again.output:
        return [f"said that it is done; {len(again.output)} bytes of output are lost"]
    return []
