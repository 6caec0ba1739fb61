"""One language's phrases as regular expressions, and a place in a text that moves past them.

In: a language and the names of the yarns, which are the pattern's own and need not be words of any language. Out: a
``Phrasebook``, which finds each phrase wherever it stands; and a ``Cursor``, which passes phrase after phrase of a
text.
"""

from __future__ import annotations

import re
from functools import cache

from turnchain.proof.maker import steps as do
from turnchain.proof.words.tables import GENDERS, PLACES, STITCHES, TABLES, PhraseTable

_FREE = {"piece": r".+?", "piece2": r".+?", "range": r".+?", "parts": r"[^()]*", "list": r"[^()]*?"}


class Phrasebook:
    """The phrases of ``language`` (a key of ``TABLES``, else KeyError) as regular expressions, with the names of the
    ``yarns`` of one pattern among them. ``told`` keeps sentences that were read. ``stitch``: what the fabric is made
    of; ``unit``: the word for what is worked in one place, "single" where that is one stitch."""

    def __init__(self, language: str, yarns: tuple[str, ...], stitch: str = "dc", unit: str = "cl") -> None:
        tokens, phrases = TABLES[language]
        said = stitch if unit == "single" else unit
        self.stitch = stitch
        repeat = tokens["cl"] if unit == "cl" else tokens["rep"]
        self.names = {tokens[key]: key for key in STITCHES}
        self.tokens = tokens | {"dc": tokens[stitch], "cl": tokens[said], "rep": repeat}
        self.phrases = phrases | _varied(GENDERS.get(language, {}), phrases, stitch, said)
        self.yarns = {marked(name): name for name in yarns}
        self._made: dict[str, re.Pattern[str]] = {}
        self.told: dict[str, tuple[tuple[do.ReadStep, ...], int]] = {}

    def pattern(self, key: str, ending: str = "") -> re.Pattern[str]:
        """The phrase ``key`` as an expression, its slots as named groups, followed by the expression ``ending``."""
        made = self._made.get(key + ending)
        if made is None:
            made = self._made[key + ending] = re.compile(self._source(key) + ending)
        return made

    def _source(self, key: str) -> str:
        phrase = self.phrases[key].format_map(self.tokens)
        return "".join(self._slot(part) for part in re.split(r"(<\w+>)", phrase))

    def _slot(self, part: str) -> str:
        if not re.fullmatch(r"<\w+>", part):
            return re.escape(part)
        name = part[1:-1]
        return f"(?P<{name}>{self._inside(name)})"

    def _inside(self, name: str) -> str:
        if name in ("nth", "after"):
            return self.phrases["nth"]
        if name == "yarn":
            words = sorted([*self.yarns, self.phrases["some_yarn"]], key=len, reverse=True)
            return "|".join(map(re.escape, words))
        if name == "section":
            return "|".join(re.escape(self.phrases[key]) for key in ("first", "second"))
        if name in ("stitch", "same", "same2"):
            return "|".join(sorted(map(re.escape, self.names), key=len, reverse=True))
        if name in ("side", "other"):
            return "|".join(re.escape(self.tokens[key]) for key in ("RS", "WS"))
        if name == "way":
            return "|".join(re.escape(self.phrases[key]) for key in ("sideways", "upwards"))
        if name in ("place", "second"):
            return "|".join(re.sub(r"\(\?P<\w+>", "(?:", self._source(key)) for key in PLACES)
        if name == "amount":
            return re.escape(self.phrases["half"]) + r"|[0-9]{1,9}½?"
        return _FREE.get(name, r"[0-9]{1,9}")

    def say(self, key: str) -> str:
        """The phrase ``key``, one without slots, with the words of this language put in."""
        return self.phrases[key].format_map(self.tokens)

    def stitch_of(self, found: str) -> str:
        """The stitch so named in the text, by its US name."""
        return self.names[found]

    def yarn(self, found: str) -> str | None:
        """The yarn so named in the text, without Markdown's backslashes; None where the text says only "yarn"."""
        return self.yarns.get(found)

    def side(self, found: str) -> str:
        """"RS" or "WS", for the word ``found`` for it in this language."""
        return "RS" if found == self.tokens["RS"] else "WS"


def _varied(genders: dict[str, str], phrases: PhraseTable, stitch: str, unit: str) -> PhraseTable:
    """The phrases that the genders of this fabric's stitch and of its clusters ask for, by their plain keys."""
    wanted = {"st": (genders.get(stitch), genders.get("dc"))}
    wanted["cl"] = (genders.get(unit), genders.get("cl"))
    endings = [f"/{what}-{own}" for what, (own, usual) in wanted.items() if own != usual]
    return {key.removesuffix(end): words for end in endings for key, words in phrases.items() if key.endswith(end)}


@cache
def phrasebook(language: str, yarns: tuple[str, ...], stitch: str = "dc", unit: str = "cl") -> Phrasebook:
    """The ``Phrasebook`` of ``language`` with these names of yarns; made once."""
    return Phrasebook(language, yarns, stitch, unit)


def marked(name: str) -> str:
    """A name as Markdown has it: a backslash before each character that means something there."""
    return re.sub(r"[\\`*_\[\]<>#|~]|&(?=#?\w+;)", lambda sign: "\\" + sign[0], name)


class Cursor:
    """Passes over ``text`` from the character ``at`` on; ``at`` is then where it has come to."""

    def __init__(self, words: Phrasebook, text: str, at: int = 0) -> None:
        self.words, self.text, self.at = words, text, at

    @property
    def done(self) -> bool:
        """Whether everything was read."""
        return self.at == len(self.text)

    def take(self, key: str, ending: str = "") -> re.Match[str] | None:
        """Passes the phrase ``key`` with ``ending``, if it comes next; None, and nothing passed, where it does not."""
        found = self.words.pattern(key, ending).match(self.text, self.at)
        if found is not None:
            self.at = found.end()
        return found

    def literal(self, words: str) -> bool:
        """Passes ``words``, if they come next; whether they did."""
        fits = self.text.startswith(words, self.at)
        self.at += len(words) * fits
        return fits
