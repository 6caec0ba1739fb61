"""A finger on the text: how far reading has come.

In: a text and where to begin. Out: phrase after phrase passed, or not, as the text has them.
"""

from __future__ import annotations

import re

from turnchain.proof.words.tongue import Tongue


class Finger:
    """Passes over ``text``; ``at`` is where it has come to."""

    def __init__(self, words: Tongue, text: str, at: int = 0) -> None:
        self.words, self.text, self.at = words, text, at

    @property
    def done(self) -> bool:
        """Whether everything was read."""
        return self.at == len(self.text)

    def take(self, key: str, ending: str = "") -> re.Match[str] | None:
        """Passes the phrase ``key``, if it comes next."""
        found = self.words.pattern(key, ending).match(self.text, self.at)
        if found is not None:
            self.at = found.end()
        return found

    def literal(self, words: str) -> bool:
        """Passes ``words``, if they come next."""
        fits = self.text.startswith(words, self.at)
        self.at += len(words) * fits
        return fits
