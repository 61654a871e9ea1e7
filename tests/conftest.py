"""What every test stands on."""

import os
from collections.abc import Iterator
from unittest import mock

import pytest
from hypothesis import settings

# The same cases every time, on however busy a machine; others with --hypothesis-profile fresh.
settings.register_profile("usual", derandomize=True, deadline=None, max_examples=50)
settings.register_profile("fresh", deadline=None, print_blob=True)
settings.load_profile("usual")


@pytest.fixture(autouse=True, scope="session")
def _no_settings_of_the_person(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The tools and printers that a person keeps must not change what is tested."""
    folder = tmp_path_factory.mktemp("settings")
    with mock.patch.dict(os.environ, {"XDG_CONFIG_HOME": str(folder)}):
        yield
