"""What every test stands on."""

import os
from collections.abc import Iterator
from unittest import mock

import pytest


@pytest.fixture(autouse=True, scope="session")
def _no_settings_of_the_person(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The tools and printers that a person keeps must not change what is tested."""
    folder = tmp_path_factory.mktemp("settings")
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(folder)}):
        yield
