"""What a language of patterns is made of.

In: nothing. Out: ``Language`` and ``Token``, which every language's module fills.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Token:
    """A word of the craft: ``short`` as it stands in rows, ``full`` as the abbreviations explain it (empty for a
    plain word that needs none)."""

    short: str
    full: str = ""


@dataclass(frozen=True, slots=True)
class Language:
    """One language.

    ``phrases``: templates with {tokens} and {slots}; all languages have the same keys, each with the same slots in
    whatever order the grammar asks for; tokens may be used freely. A key that depends on a number is looked up with the
    ending that ``form`` gives for it (".one", ".many" or what the grammar asks for). ``ordinal``: "3rd".
    ``listed``: "3, 5 and 7". ``reviewed``: read by somebody who grew up with the language.
    """

    code: str
    tag: str
    tokens: Mapping[str, Token]
    phrases: Mapping[str, str]
    ordinal: Callable[[int], str]
    form: Callable[[int], str]
    listed: Callable[[Sequence[str]], str]
    reviewed: bool = True
