"""What every test stands on."""

import gc
import os
import sys
from collections.abc import Iterator
from unittest import mock

import pytest

# Its plugin has pytest rewrite the assertions of the whole library, a second in each process.
plain = [one for one in sys.meta_path if type(one).__name__ != "AssertionRewritingHook"]
with mock.patch.object(sys, "meta_path", plain):
    from hypothesis import settings

# The same cases every time, on however busy a machine; others with --hypothesis-profile fresh.
settings.register_profile("usual", derandomize=True, deadline=None, max_examples=20)
settings.register_profile("fresh", deadline=None, print_blob=True)
settings.load_profile("usual")

# What tests share is kept to the end: to look through it for rubbish again and again takes long.
gc.set_threshold(500_000, 20, 50)


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> None:
    """With `-n`, neighbours stay in one process as long as can be: they share what is drawn."""
    if config.getoption("numprocesses", None) and config.option.dist == "no":
        config.option.dist = "worksteal"


@pytest.fixture(autouse=True, scope="session")
def _compiled_once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Where no bytecode is kept, each process that a test starts would compile all there is."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent  # of all workers
    kept = {"PYTHONPYCACHEPREFIX": str(folder / "bytecode"), "PYTHONDONTWRITEBYTECODE": ""}
    with mock.patch.dict(os.environ, kept if sys.dont_write_bytecode else {}):
        yield


@pytest.fixture(autouse=True, scope="session")
def _no_settings_of_the_person(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The tools and printers that a person keeps must not change what is tested."""
    folder = tmp_path_factory.mktemp("settings")
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(folder)}):
        yield


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What takes long by itself comes first, so that no process waits for it at the end.

    What reads drawn pages comes next, and so in one process, which draws and reads them once:
    work is taken over from the end of what a process has before it.
    """
    reads_pages = {"pages_from", "bound_from", "booklet_from"}

    def turn(item: pytest.Item) -> tuple[bool, bool]:
        names = vars(getattr(item, "module", item))
        return item.get_closest_marker("slow") is None, reads_pages.isdisjoint(names)

    items.sort(key=turn)
