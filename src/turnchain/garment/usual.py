"""How the measures of a garment are usually worked out from those of a body.

In: the name of a measure. Out: its formula and the reason for it. Recipes and pattern files whose wearer has an ease
begin with these. Common practice, no source.
"""

from __future__ import annotations

import re
from typing import Final

#: Formula and reason by measure; ``width`` and ``length`` are those of front and back.
USUAL: Final = {
    "width": ("(bust + ease) / 2", "half of the bust and its ease"),
    "length": ("(waist_length + hip_length) / 2", "from the nape to halfway between waist and hips"),
    "neck": ("max(head * 0.47, cross_back * 0.45)", "wide enough, with its depth, to pass the head"),
    "shoulder": ("(width - neck) / 2", "what the neck leaves at each side"),
    "depth": ("cross_back / 5", "a fifth of the back from shoulder to shoulder"),
    "back_depth": ("cross_back / 15", "a fifteenth of the back from shoulder to shoulder"),
    "armhole_depth": ("armhole + 3", "the armhole of the body, and 3 cm below it"),
    "armhole_width": (
        "max((width - cross_back) / 2, 5)",
        "what the width is beyond the back from shoulder to shoulder, and no less than 5 cm",
    ),
    "cuff": ("upper_arm * 0.8", "four fifths of the upper arm: the hand passes"),
}


def formula(name: str) -> str:
    """The usual formula of a measure, from measures of the body, the ease, and a piece's own width and length."""
    whole = USUAL[name][0]
    for inner in USUAL.keys() - {"width", "length"}:
        if re.search(rf"\b{inner}\b", whole):
            whole = re.sub(rf"\b{inner}\b", formula(inner), whole)
    return whole
