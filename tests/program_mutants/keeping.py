"""What was found so far, kept in a file, so that a run can be broken off and gone on with: a line of JSON each."""

from __future__ import annotations

import json
from pathlib import Path

from .changes import Mutant

_Key = tuple[str, str, str, str, int]


class Kept:
    """What a file knows of mutants (None: nothing is kept)."""

    def __init__(self, file: Path | None) -> None:
        self._file = file
        self._known: dict[_Key, tuple[str, int]] = {}
        for line in file.read_text("utf-8").splitlines() if file and file.exists() else ():
            said = json.loads(line)
            self._known[tuple(said["mutant"])] = said["by"], said["tests"]  # type: ignore[index]

    def of(self, mutant: Mutant, again: bool = False) -> tuple[str, int] | None:
        """By what the mutant was caught, "" for nothing, and how many tests were tried; None where it is not known, or
        ``again`` is asked of one that was not caught."""
        found = self._known.get(_key(mutant))
        return None if found and again and not found[0] else found

    def keep(self, room: str, mutant: Mutant, by: str, tests: int) -> None:
        """Keeps what was found."""
        self._known[_key(mutant)] = by, tests
        if self._file:
            said = {"room": room, "line": mutant.lines.start, "mutant": _key(mutant), "by": by, "tests": tests}
            with self._file.open("a", encoding="utf-8") as kept:
                print(json.dumps(said, ensure_ascii=False), file=kept)


def _key(mutant: Mutant) -> _Key:
    """What does not change with the lines above."""
    return mutant.module, mutant.text, mutant.was, mutant.now, mutant.alike
