"""What can go wrong, in words for makers.

In: nothing. Out: the exceptions whose text the command line prints before it ends with an exit code.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain.records import frozen, replace


@frozen
class Problem:
    """One thing wrong in a pattern file: where (``place``, in words), what was ``found``, what is ``allowed``
    and what to try (``hint``, may be empty).

    ``path`` leads to the place by keys and by numbers of entries from 0, as ("yarn", 0, "colour"); empty for the
    whole file. ``line`` and ``column``, from 1, are where it stands in the text, None where there is none to look in;
    of a key that is missing, its table's.
    """

    place: str
    found: str
    allowed: str
    hint: str = ""
    path: tuple[str | int, ...] = ()
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        words = f"{self.place}: {self.found}; {self.allowed}" if self.place else f"{self.found}; {self.allowed}"
        return f"{words} ({self.hint})" if self.hint else words


def of_sizes(names: Sequence[str], problems: Sequence[Sequence[Problem]]) -> list[Problem]:
    """The ``problems`` of every size (in the order of ``names``) as those of one file: what all sizes have is told
    once, all else with the names of its sizes."""
    found: dict[Problem, list[str]] = {}
    for name, some in zip(names, problems, strict=True):
        for problem in dict.fromkeys(some):
            found.setdefault(problem, []).append(name)
    return [
        problem if len(whose) == len(names) else replace(problem, place=_with_sizes(problem.place, whose))
        for problem, whose in found.items()
    ]


def _with_sizes(place: str, names: Sequence[str]) -> str:
    return f"{place}, {sizes_said(names)}" if place else sizes_said(names)


def sizes_said(names: Sequence[str]) -> str:
    """Sizes, one at the least, as messages name them: "size M", "sizes S, M and L"."""
    return f"size {names[0]}" if len(names) == 1 else f"sizes {', '.join(names[:-1])} and {names[-1]}"


class MakerError(Exception):
    """Anything that a maker can mend; its text is the whole message."""


class PatternError(MakerError):
    """A pattern that cannot be made: all ``problems`` found, in the order in which they are printed, a line each.
    ``source`` is what stands before each: the pattern file as the maker called it."""

    def __init__(self, source: str, problems: list[Problem]) -> None:
        self.source = source
        self.problems = tuple(problems)
        super().__init__("\n".join(f"{source}: {problem}" for problem in problems))


class Stopped(KeyboardInterrupt):
    """A run that was stopped while stripes were searched; its text is the best found so far, to be pasted into a
    pattern file."""


class FileError(MakerError):
    """A file that cannot be read or written."""
