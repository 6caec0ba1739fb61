"""The languages that a pattern can be written in.

In: nothing. Out: ``LANGUAGES``, each a table of tokens, a table of phrases and a few small grammar functions. To
add a language, write its module beside these and name it here; the tests say what is missing from its tables.
"""

from __future__ import annotations

from turnchain.wording.languages.english import UK, US
from turnchain.wording.languages.german import GERMAN
from turnchain.wording.languages.language import Language

LANGUAGES: dict[str, Language] = {language.code: language for language in (US, UK, GERMAN)}
