"""Which writing a letter belongs to, and where lines without blanks may break.

In: characters and words. Out: names of writings, as makers are told them ("Japanese", "Thai"), and pieces of words.
East Asian letters have one code point where countries draw them differently, so that the words around them decide:
kana are Japanese, hangul Korean; Chinese is simplified or traditional by the national standard that has more of it.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import Final

#: The tag (BCP 47) of East Asian writings, and the standard that lists the letters of each.
EAST_ASIAN: Final = {
    "Simplified Chinese": ("zh-cn", "gb2312"),
    "Traditional Chinese": ("zh-tw", "big5"),
    "Japanese": ("ja", "euc_jp"),
    "Korean": ("ko", "euc_kr"),
}
#: Writings whose letters change their form or place with their neighbours, by the names in Unicode.
SHAPED: Final = frozenset((
    "Arabic", "Syriac", "Thaana", "Nko", "Hebrew", "Devanagari", "Bengali", "Gurmukhi", "Gujarati", "Oriya", "Tamil",
    "Telugu", "Kannada", "Malayalam", "Sinhala", "Thai", "Lao", "Tibetan", "Myanmar", "Khmer", "Mongolian", "Balinese",
    "Javanese", "Tai",
))  # fmt: skip
SIGNS: Final = "signs"
#: Of the letters of Japanese, this share in kana at least; a Chinese text may hold one as an ornament.
KANA: Final = 0.1
_OWN: Final = {
    "HIRAGANA": "Japanese",
    "KATAKANA": "Japanese",
    "HANGUL": "Korean",
    "BOPOMOFO": "Traditional Chinese",
}
#: Not at the start of a line, and not at its end: the W3C's Requirements for Japanese Text Layout, appendix A (closing
#: brackets, full stops, commas, small kana, marks of length and repetition; opening brackets).
_NEVER_FIRST: Final = frozenset(
    "、。，．・：；？！）］｝」』】〉》〕〗’”ー々ゝゞヽヾぁぃぅぇぉっゃゅょゎァィゥェォッャュョヮヵヶ…‥％"
    ",.:;?!)]}%"
)
_NEVER_LAST: Final = frozenset("（［｛「『【〈《〔〖‘“([{")


@lru_cache(4096)
def writing_of(character: str) -> str:
    """The writing that ``character`` belongs to by itself, as "Thai"; "Chinese" for what several East Asian writings
    share, ``SIGNS`` for what is no letter."""
    name = unicodedata.name(character, "")
    first = name.replace("HALFWIDTH ", "").split(" ")[0].split("-")[0]
    if first in _OWN:
        return _OWN[first]
    kind = unicodedata.category(character)
    if unicodedata.east_asian_width(character) in "WF" and kind != "So":
        return "Chinese"
    return first.capitalize() if kind[0] in "LMN" and first else SIGNS


def is_shaped(character: str) -> bool:
    """Whether ``character`` is written from right to left, or drawn by its neighbours: what single outlines in a row
    would show wrongly."""
    return unicodedata.bidirectional(character) in ("R", "AL") or writing_of(character) in SHAPED


def east_asian(words: str) -> str:
    """The East Asian writing of ``words``, a key of ``EAST_ASIAN``; "" where they hold no letter of one."""
    found = [writing_of(character) for character in words if character > "\u1100"]
    counts = {name: found.count(name) for name in ("Chinese", *EAST_ASIAN)}
    if not any(counts.values()):
        return ""
    if counts["Korean"]:
        return "Korean"
    if counts["Japanese"] > KANA * counts["Chinese"]:
        return "Japanese"
    if counts["Traditional Chinese"]:
        return "Traditional Chinese"
    shared = "".join(one for one in words if one > "\u1100" and writing_of(one) == "Chinese")
    # of equals the first
    return max(EAST_ASIAN, key=lambda name: len(shared.encode(EAST_ASIAN[name][1], "ignore")))


def pieces(word: str) -> Iterator[str]:
    """``word``, which has no blanks, in the pieces between which a line may break: letters of Chinese and Japanese one
    by one, with the punctuation that belongs to them. Korean breaks at its blanks."""
    held = ""
    for character in word:
        if held and _breaks(held[-1], character):
            yield held
            held = ""
        held += character
    yield held


def _breaks(before: str, after: str) -> bool:
    if before in _NEVER_LAST or after in _NEVER_FIRST:
        return False
    return any(one > "\u2e7f" and writing_of(one) in ("Chinese", "Japanese") for one in (before, after))
