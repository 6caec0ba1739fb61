"""How random tests draw their examples: always the same ones, or with ``--hypothesis-profile=fresh`` new ones.

The same examples are the same on every machine and in any order of tests. For that it is not enough that they are drawn
from a fixed seed: hypothesis also tries constants that it finds in the program's modules, and which are loaded depends
on the tests that ran before, while any constant that is changed anywhere would change the examples of every test.
Fresh examples come from the seed in ``--hypothesis-seed`` and try such constants too; ``python -m tests.nightly`` asks
for them. No example is held to a time.

A test of ``examples(5, 100)`` tries 5 of them in the quick set and belongs to the slow one too, where it tries 100.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.internal.conjecture import providers

few_of_many = False
"""Whether the quick set is wanted, and nothing else."""


def examples(few: int, many: int, **more: Any) -> Callable[[Any], Any]:
    """Settings of a test that tries a ``few`` examples in the quick set and ``many`` in the slow one."""
    if few_of_many:
        return settings(max_examples=few, **more)
    return lambda test: pytest.mark.slow(pytest.mark.quick(0)(settings(max_examples=many, **more)(test)))


def same_examples() -> None:
    """Loads the profile of the same examples, and registers the others: ``fresh``, and ``mutants`` for quicker
    failures, which looks for no smaller example. To be called before tests are imported."""
    alike = settings(
        derandomize=True, database=None, deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow]
    )
    settings.register_profile("same", alike)
    settings.register_profile("fresh", alike, derandomize=False)
    settings.register_profile("mutants", alike, phases=[Phase.explicit, Phase.generate])
    settings.load_profile("same")
    _without_constants_of_the_program()


def _without_constants_of_the_program() -> None:
    found = getattr(providers, "_get_local_constants", None)  # versions before 6.131 try none
    if found is None or getattr(found, "mended", False):
        return

    def constants() -> providers.Constants:
        return providers.Constants() if settings.default.derandomize else found()

    constants.mended = True
    providers._get_local_constants = constants
