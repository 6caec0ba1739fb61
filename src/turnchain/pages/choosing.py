"""Pages of several sizes, of which their reader chooses one.

In: the sizes. Out: what a page needs to show one at a time: classes, a style sheet, a switch. The style sheet alone
chooses, so that it needs no script; the script of a page only keeps what was chosen.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Iterable, Sequence

from turnchain.pattern import Pattern
from turnchain.records import frozen


@frozen
class OfSize:
    """What of a page is of one size: ``anchor`` begins the addresses in it, "size-M"; "" where the page is of one
    pattern without sizes."""

    anchor: str = ""

    @property
    def above(self) -> str:
        """What stands before the address of a piece."""
        return f"{self.anchor}/" if self.anchor else ""

    @property
    def ids(self) -> str:
        """What stands before names in pictures."""
        return f"{self.anchor}-" if self.anchor else ""


def size_anchor(size: str) -> str:
    """The anchor of a ``size``, with letters and figures alone after "size-", so that a style sheet can name it; other
    characters by their number."""
    return "size-" + re.sub(r"[^A-Za-z0-9]", lambda found: f"_{ord(found[0]):x}_", size)


def of_sizes(anchors: Sequence[str]) -> str:
    """The classes of what is shown while one of the sizes of these ``anchors`` is chosen: "of of-size-M"."""
    return " ".join(["of", *(f"of-{anchor}" for anchor in anchors)])


def style_of(anchors: Iterable[str]) -> str:
    """The style sheet that shows nothing of other sizes while one is chosen."""
    return "".join(f":root:has(#{anchor}:checked) .of:not(.of-{anchor}){{display:none}}\n" for anchor in anchors)


def switch(legend: str, name: str, choices: Sequence[tuple[str, str, bool]], kind: str = "switch") -> str:
    """A switch as HTML with a ``legend`` (HTML): for each of ``choices`` its id, its label (HTML), whether it is
    chosen; ``kind`` are its classes."""
    made = "".join(
        f'<input type="radio" name="{name}" id="{anchor}"{" checked" if chosen else ""}>'
        f'<label for="{anchor}">{said}</label>'
        for anchor, said, chosen in choices
    )
    return f'<fieldset class="{kind}"><legend>{legend}</legend>{made}</fieldset>'


def page_key(title: str, pattern: Pattern) -> str:
    """Under what the browser keeps choices and places of a page of this ``title``: the same for one pattern made
    again, even if its pieces are renamed."""
    return digest(title, pattern.by)


def digest(*names: str) -> str:
    """What tells these ``names`` from others."""
    return hashlib.sha256("\n".join(names).encode("utf-8", "replace")).hexdigest()[:16]


def hash_of(text: str) -> str:
    """The hash of a script or a style sheet, as the policy of a page names what it allows."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
