"""Libraries loaded so that nothing beside the job decides what they do.

reportlab runs files such as ``~/.reportlab_settings`` and modules such as ``reportlab_mods``
from anywhere on the path when it is first imported, and takes ``RL_…`` out of the
environment; the reshaper of Arabic letters reads a file that the environment names. The
same job must give the same bytes for everyone, and no file may run unasked.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import ModuleType

_UNUSED = ("reportlab_mods", "reportlab_settings", "PIL", "PIL.Image", "pickle")
"""Nothing is drawn as an image, or pickled, and loading what does so takes a fifth of the time."""
_STARTS = ("RL_", "PYTHON_ARABIC_RESHAPER_", "SOURCE_DATE_EPOCH")


@contextmanager
def empty(*names: str) -> Iterator[None]:
    """Import something else as if there were nothing in these, where they are not loaded yet."""
    missing = [name for name in names if name not in sys.modules]
    sys.modules |= {name: ModuleType(name) for name in missing}
    try:
        yield
    finally:
        for name in missing:
            del sys.modules[name]


@contextmanager
def by_themselves() -> Iterator[None]:
    """Import reportlab and the like, or call them, without settings from outside."""
    hidden = {name: os.environ.pop(name) for name in list(os.environ) if name.startswith(_STARTS)}
    try:
        with empty(*_UNUSED):
            yield
    finally:
        os.environ |= hidden
