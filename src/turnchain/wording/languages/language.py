"""What a language of patterns is made of, and its phrases said with their slots filled.

In: nothing; the module of every language fills a ``Language``. Out: ``Speech``, which gives text phrase by phrase and
keeps what was said, so that the abbreviations explain what is used and nothing else.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from turnchain.records import field, frozen
from turnchain.units import Unit, shown, tailored


@frozen
class Token:
    """A word of the craft: ``short`` as it stands in rows, ``full`` as the abbreviations explain it (empty for a
    plain word that needs none)."""

    short: str
    full: str = ""


@frozen
class Language:
    """One language.

    ``code`` is its key in ``LANGUAGES`` ("US", "de") and ``tag`` the BCP 47 tag for HTML and SVG ("en-US").
    ``phrases``: templates with {tokens} and {slots}; all languages have the same keys, each with the same slots in
    whatever order the grammar requires; tokens may be used freely. A key that depends on a number is looked up with the
    ending that ``form`` gives for it (".one", ".many" or what the grammar requires). ``ordinal``: "3rd". ``listed``:
    "3, 5 and 7". ``reviewed``: read by somebody who grew up with the language. ``decimal``: the sign between whole and
    tenths. ``genders``: "m", "f" or "n" of the tokens whose gender matters. A phrase whose key ends in "/st-f" or
    "/cl-n" stands for that key where the fabric's stitch, or what it is worked in groups of, has that gender and the
    one that all phrases are written for (dc, cl) has another; one that ends in "/rep" where it is no cluster.
    """

    code: str
    tag: str
    tokens: Mapping[str, Token]
    phrases: Mapping[str, str]
    ordinal: Callable[[int], str]
    form: Callable[[int], str]
    listed: Callable[[Sequence[str]], str]
    reviewed: bool = True
    decimal: str = "."
    genders: Mapping[str, str] = field(default_factory=dict)


@frozen
class Naming:
    """What a fabric's parts are called: for tokens of the phrases, those that stand for them (``aliases``); in which
    chain of a ``turning`` chain the edge stitch has its top; whether edges go by ``whole`` repeats alone."""

    aliases: Mapping[str, str]
    turning: int
    whole: bool = False


CLUSTERS = Naming({"rep": "cl"}, 3)


class Speech:
    """Says phrases of a language and keeps which were said, so that only what is used gets explained.

    ``named`` makes of a yarn's or piece's name what is put into the text. ``said`` are the keys of the phrases said so
    far, ``used`` those of the tokens in them. ``naming`` is the fabric's.
    """

    def __init__(self, language: Language, named: Callable[[str], str] = str, naming: Naming = CLUSTERS) -> None:
        self.language = language
        self.named = named
        self.naming = naming
        self._variants = tuple(_variants(language, naming))
        self.said: set[str] = set()
        self.used: set[str] = set()

    def __getitem__(self, key: str) -> str:
        """The short form of the token ``key``, which counts as used from here on. KeyError where the language has
        none."""
        key = self.naming.aliases.get(key, key)
        self.used.add(key)
        return self.language.tokens[key].short

    def stitch(self, name: str) -> str:
        """The short form of the stitch ``name`` (US), whatever the fabric is made of; it counts as used."""
        self.used.add(name)
        return self.language.tokens[name].short

    def stitch_named(self, name: str, in_full: bool = False) -> str:
        """The stitch ``name`` (US), whatever the fabric is made of: "single crochet", or ``in_full`` with its
        abbreviation. It does not count as used."""
        token = self.language.tokens[name]
        return f"{token.full} ({token.short})" if in_full else token.full

    def say(self, key: str, **slots: str | int) -> str:
        """The phrase ``key`` with its slots filled. KeyError for a phrase, or a slot of it, that is missing."""
        self.said.add(key)
        for variant in self._variants:
            if f"{key}/{variant}" in self.language.phrases:
                key = f"{key}/{variant}"
        return self.language.phrases[key].format_map(_Slots(self, slots))

    def count(self, key: str, number: int, **slots: str | int) -> str:
        """The phrase ``key`` in the form that ``number`` requires; the number is its slot n. KeyError as in ``say``."""
        return self.say(f"{key}.{self.language.form(number)}", n=number, **slots)

    def length(self, cm: Fraction, unit: Unit) -> str:
        """A length in cm as text in ``unit``, with two decimals at most: "61.09 in"; decimal sign of the language."""
        return self.figure(shown(cm, unit))

    def taped(self, cm: Fraction, unit: Unit) -> str:
        """A length in cm as text in ``unit``, as exactly as a tape is read (half a cm, an eighth of an inch): "61 cm",
        "24 1/8 in"."""
        return self.figure(tailored(cm, unit))

    def figure(self, text: str) -> str:
        """``text`` with the decimal sign of the language for every full stop: for figures and their unit only."""
        return text.replace(".", self.language.decimal)

    def measure(self, name: str) -> str:
        """The measure that a plan calls ``name`` ("neck width", "width at 20 cm") in the language; the name itself
        where the language has no word for it."""
        head, at, place = name.partition(" at ")
        if at:
            return self.say("measure.width_at", at=self.figure(place))
        return self.named_by("measure", head)

    def named_by(self, kind: str, name: str) -> str:
        """What the plan calls ``name`` in the language: the phrase ``kind``.``name`` with underscores for blanks; the
        name itself where there is no such phrase."""
        key = f"{kind}.{name.replace(' ', '_')}"
        return self.say(key) if key in self.language.phrases else name

    def full(self, key: str) -> str:
        """The token ``key`` in full: "slip stitch". It does not count as used."""
        return self.language.tokens[self.naming.aliases.get(key, key)].full

    def named_in_full(self, key: str) -> str:
        """The token ``key`` in full with its abbreviation: "chain (ch)". It does not count as used."""
        token = self.language.tokens[self.naming.aliases.get(key, key)]
        return f"{token.full} ({token.short})"

    def section(self, name: str) -> str:
        """What the plan calls a section ("first shoulder") in the language; the name itself where there is no phrase
        for it."""
        key = f"section.{name}"
        return self.say(key) if key in self.language.phrases else name

    def nth(self, number: int) -> str:
        """The ordinal of ``number`` in the language: "3rd" for 3."""
        return self.language.ordinal(number)

    def abbreviations(self) -> tuple[tuple[str, str], ...]:
        """The tokens used so far that need explaining, as (short, full), by the alphabet of the short ones, capitals
        among small letters."""
        tokens = [self.language.tokens[key] for key in self.used]
        return tuple(sorted(((one.short, one.full) for one in tokens if one.full), key=lambda pair: pair[0].lower()))


def _variants(language: Language, naming: Naming) -> Iterator[str]:
    """The endings of keys that this naming asks for in a language."""
    for kind, token in (("st", "dc"), ("cl", "cl")):
        gender = language.genders.get(naming.aliases.get(token, token))
        if gender != language.genders.get(token):
            yield f"{kind}-{gender}"
    if naming.aliases.get("rep") != "cl":
        yield "rep"
    if naming.whole:
        yield "whole"


class _Slots:
    """What a template may name: its own slots first, then the tokens of the language."""

    def __init__(self, speech: Speech, slots: dict[str, str | int]) -> None:
        self.speech, self.slots = speech, slots

    def __getitem__(self, key: str) -> str | int:
        return self.slots[key] if key in self.slots else self.speech[key]


def capital(words: str) -> str:
    """``words`` with a capital first letter, as a sentence begins; "" stays ""."""
    return words[:1].upper() + words[1:]
