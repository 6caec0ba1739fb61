"""Speech: phrases of a language, said with their slots filled.

In: a ``Language``. Out: text, phrase by phrase; and the memory of what was said, from which the glossary knows what
needs explaining.
"""

from __future__ import annotations

from collections.abc import Callable

from turnchain.wording.languages.language import Language


class Speech:
    """Says phrases of a language and remembers which were said, so that only what is used gets explained.

    ``named`` is how names of yarns and pieces are put into the text.
    """

    def __init__(self, language: Language, named: Callable[[str], str] = str) -> None:
        self.language = language
        self.named = named
        self.said: set[str] = set()
        self.used: set[str] = set()

    def __getitem__(self, key: str) -> str:
        """The short form of a token, asked for by a phrase."""
        self.used.add(key)
        return self.language.tokens[key].short

    def say(self, key: str, **slots: str | int) -> str:
        """The phrase ``key`` with its slots filled."""
        self.said.add(key)
        return self.language.phrases[key].format_map(_Slots(self, slots))

    def count(self, key: str, number: int, **slots: str | int) -> str:
        """The phrase ``key`` in the form that ``number`` asks for; the number is its slot n."""
        return self.say(f"{key}.{self.language.form(number)}", n=number, **slots)

    def section(self, name: str) -> str:
        """A section by its name in the language, where it has one."""
        key = f"section.{name}"
        return self.say(key) if key in self.language.phrases else name

    def nth(self, number: int) -> str:
        """ "3rd"."""
        return self.language.ordinal(number)

    def abbreviations(self) -> tuple[tuple[str, str], ...]:
        """The tokens used so far that need explaining, by the alphabet."""
        tokens = [self.language.tokens[key] for key in self.used]
        return tuple(sorted(((one.short, one.full) for one in tokens if one.full), key=lambda pair: pair[0].lower()))


class _Slots:
    """What a template may name: its own slots first, then the tokens of the language."""

    def __init__(self, speech: Speech, slots: dict[str, str | int]) -> None:
        self.speech, self.slots = speech, slots

    def __getitem__(self, key: str) -> str | int:
        return self.slots[key] if key in self.slots else self.speech[key]


def capital(words: str) -> str:
    """``words`` as a sentence begins."""
    return words[:1].upper() + words[1:]
