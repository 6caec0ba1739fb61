"""One mutant against its tests.

Most mutants lie within a function. For these all tests are collected once, and each mutant gets a process forked from
there, in which the function has other code; so a mutant costs the time of its tests and little more, and ends with the
first that fails. What is reckoned when a module is imported is for ``anew``.

A test that takes far longer than it should is cut off, and the mutant counts as one without an end; but only where the
same test, without the mutant and with nothing made before, takes less than a third of the time that was allowed.
"""

from __future__ import annotations

import ast
import gc
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from types import CodeType, FunctionType

import pytest

from .anew import Libraries
from .changes import Mutant, file_of, mutated
from .processes import LEAST_SECONDS, Watch, allowed, bound, forked
from .recording import IMPORTING, Recorded, caches, options, test_files
from .sampling import GALLERY, KEPT

NOTHING = "nothing changed"
_SHARE_OF_KEPT = 3  # of the seconds of tests, one in so many for what is kept of files
_MOST_OF_GALLERY = 2  # tests
_SHARE_OF_OTHERS = 4  # of the seconds of tests, one in so many for those that do not pass through the line themselves


class Collected:
    """The tests of the quick set, collected, and the functions of the package as they are now."""

    def __init__(self, items: Sequence[pytest.Item], recorded: Recorded, libraries: Libraries) -> None:
        self.items = {item.nodeid: item for item in items}
        self.recorded, self.libraries = recorded, libraries
        self.functions: dict[tuple[str, int, str], list[FunctionType]] = defaultdict(list)
        for one in gc.get_objects():
            if isinstance(one, FunctionType):
                self.functions[_key(one.__code__)].append(one)
        self.caches = list(caches())
        gc.collect()
        gc.freeze()

    # ------------------------------------------------------------------------------------------- which tests

    def tests(self, mutant: Mutant, first: Sequence[str], seconds: float, found: Sequence[str] = ()) -> list[str]:
        """The tests that may see a change, at most so many ``seconds`` of them.

        Those that pass through the changed line come before others of their files, which may use what was made in them.
        Of these, tests that ``found`` other mutants come first; then those in files named ``first``; of a test with
        parameters one before another; quick ones before slow ones. What is kept of files is apart, and comes as soon as
        those have had a share of the time; the gallery is last. A table that no test passes through is for all that use
        its module, and for kept results of every file.
        """
        file = file_of(mutant.module)
        through = self.recorded.through(file, mutant.lines) - {IMPORTING}
        if not through:
            through = self.recorded.through(file, range(1, 10_000))
            through |= {test for test in self.items if _file(test) in (*first, *KEPT)}
        kept, gallery = ({test for test in through if _file(test) in some} for some in (KEPT, GALLERY))
        through -= kept | gallery
        files = {_file(test) for test in through}
        others = {test for test in self.items if _file(test) in files} - through
        own = [*self._within(_known_first(self._ordered(through, first), found), seconds)]
        begin = len([*self._within(own, seconds / _SHARE_OF_KEPT)])
        return [*own[:begin],
                *self._within(_known_first(self._quickest(kept), found), seconds / _SHARE_OF_KEPT),
                *own[begin:],
                *self._within(self._ordered(others, first), seconds / _SHARE_OF_OTHERS),
                *self._ordered(gallery, first)[:_MOST_OF_GALLERY]]  # fmt: skip

    def _ordered(self, names: set[str], first: Sequence[str]) -> list[str]:
        known, nth, took = self.recorded.seconds, dict[str, int](), defaultdict[str, int](int)
        there = sorted(names & known.keys() & self.items.keys(), key=lambda name: (known[name], name))
        for name in there:
            function = name.partition("[")[0]
            nth[name], took[function] = took[function], took[function] + 1
        return sorted(there, key=lambda name: (_file(name) not in first, nth[name], known[name], name))

    def _quickest(self, names: set[str]) -> list[str]:
        known = self.recorded.seconds
        return sorted(names & known.keys() & self.items.keys(), key=lambda name: (known[name], name))

    def _within(self, names: Sequence[str], seconds: float) -> Iterator[str]:
        spent = 0.0
        for name in names:
            if spent == 0 or spent + self.recorded.seconds[name] < seconds:
                spent += self.recorded.seconds[name]
                yield name

    # ------------------------------------------------------------------------------------------- what they find

    def caught(self, mutant: Mutant, tests: Sequence[str]) -> str:
        """The first of the ``tests`` that fails with this mutant, "no end" and the test, ``NOTHING`` where it is
        compiled to the same, or "" where all pass."""
        tree, file = mutated(mutant), str(file_of(mutant.module))
        old = compile(file_of(mutant.module).read_text("utf-8"), file, "exec")
        new = compile(tree, file, "exec")
        if old == new:
            return NOTHING
        ones, others = list(_outer(old)), list(_outer(new))
        pairs = [(one, other) for one, other in zip(ones, others, strict=False) if one != other]
        held = self.functions.get(_key(pairs[0][0]), []) if len(ones) == len(others) and pairs else []
        if not held or IMPORTING in self.recorded.through(file_of(mutant.module), mutant.lines):
            return self.libraries.caught(mutant.module, ast.unparse(tree), tests, self._taking(tests))
        return self._exchanged(held, pairs[0][1], tests)

    def _taking(self, tests: Sequence[str]) -> float:
        return sum(self.recorded.seconds.get(test, 0) for test in tests)

    def _exchanged(self, held: Sequence[FunctionType], code: CodeType, tests: Sequence[str]) -> str:
        on_the_way, answer = forked(lambda tell: self._run(tests, tell, held, code))
        if answer is not None:
            return answer
        if on_the_way in self.items:
            _, took = forked(lambda tell: self._timed(on_the_way))
            if took is not None and 3 * float(took) < self._allowed(on_the_way):
                return f"no end: {on_the_way}"
        _, answer = forked(lambda tell: self._run(tests, tell, held, code, max(LEAST_SECONDS, 3 * self._taking(tests))))
        return "no end" if answer is None else answer

    def _allowed(self, test: str) -> float:
        return 4 + 5 * self.recorded.seconds[test]

    def _timed(self, test: str) -> str:
        began = time.process_time()
        self._run([test], lambda _: None, (), None, LEAST_SECONDS)
        return str(time.process_time() - began)

    def _run(
        self, tests: Sequence[str], tell: Callable[[str], None], held: Sequence[FunctionType], code: CodeType | None,
        seconds: float | None = None,
    ) -> str:  # fmt: skip
        """Runs tests in this process with nothing made before, each bounded by itself or all of them together; ``held``
        functions get ``code``."""
        bound(seconds or 1_000_000)
        for one in held if code else ():
            one.__code__ = code  # type: ignore[assignment]
        for cache in self.caches:
            cache.cache_clear()
        items = [self.items[test] for test in tests]
        for item, following in zip(items, [*items[1:], None], strict=True):
            if seconds is None:
                allowed(self._allowed(item.nodeid))
            tell(item.nodeid)
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        return ""


def _known_first(tests: Sequence[str], found: Sequence[str]) -> list[str]:
    known = [test for test in found if test in set(tests)]
    return [*known, *(test for test in tests if test not in known)]


def _file(test: str) -> str:
    return test.partition("::")[0].rpartition("/")[2].removeprefix("test_").removesuffix(".py")


def _key(code: CodeType) -> tuple[str, int, str]:
    return code.co_filename, code.co_firstlineno, code.co_qualname


def _outer(code: CodeType) -> Iterator[CodeType]:
    """The functions of a module that stand in no other one, in their order."""
    for one in code.co_consts:
        if isinstance(one, CodeType):
            if one.co_flags & 0x02 or one.co_flags & 0x01:  # names are local or optimized: a function
                yield one
            else:
                yield from _outer(one)


def with_tests(recorded: Recorded, libraries: Libraries, do: Callable[[Collected], None]) -> None:
    """Collects the tests of the quick set and calls ``do`` with them."""

    class Loop:
        @pytest.hookimpl(tryfirst=True)
        def pytest_runtestloop(self, session: pytest.Session) -> bool:
            from turnchain.making import parallel  # nothing of the package before there are the libraries

            parallel.alone()
            session.config.pluginmanager.register(Watch())
            do(Collected(session.items, recorded, libraries))
            return True

    pytest.main(["-s", "-p", "no:terminal", *options(test_files())], plugins=[Loop()])
