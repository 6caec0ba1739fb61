"""The inner loops of the rasteriser in C, where they were compiled, and in numpy: pictures drawn with either."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from types import ModuleType

import pytest

from turnchain.raster import loops


def _compiled() -> ModuleType | None:
    try:
        return import_module("turnchain.raster._loops")
    except ImportError:
        return None


#: The loops in C; None where there was no compiler.
COMPILED = _compiled()


@contextmanager
def draw_with(used: ModuleType | None) -> Iterator[None]:
    """Within it, pictures are drawn with the loops ``used``."""
    with pytest.MonkeyPatch.context() as patched:
        for name in loops.__all__:
            patched.setattr(loops, name, getattr(used, name))
        yield
