"""The colours of the page, and its chapter for trying others.

In: plans and the pictures of their cloth. Out: every colour that can change as a CSS variable, by which all pictures
are painted; the cloth as worn, and a colour picker for every yarn.
"""

from __future__ import annotations

from collections.abc import Sequence

from turnchain import style
from turnchain.drawing.colours import tint
from turnchain.fabric.plan import Plan
from turnchain.pages.beside.markup import chip, plain, set_apart
from turnchain.pattern import Pattern, Yarn
from turnchain.style import Theme
from turnchain.wording.tables import speech_of

#: Contrast (WCAG 2) of stitches and their tint on the page: more than on other charts, since a veil lies over both.
ON_A_TINT = 8.0
MOST_VEIL = 36  # fiftieths of the page's colour over rows that are done or to come


def variables(pattern: Pattern) -> str:
    """CSS: the colours of the page, light and dark, and of the yarns as variables. ``--y0`` is for rows without a yarn,
    ``--y1`` the first yarn, ``--i1`` the ink on it, ``--t1`` its tint, and ``--stitch`` the one ink on all tints; all
    that the pictures are painted with."""
    yarns = [style.PLAIN_STRIPE, *(one.colour for one in pattern.yarns)]
    dark, light = (_theme(theme, yarns) for theme in (style.DARK, style.LIGHT))
    painted = f"--stitch:{style.INK_DARK};" + "".join(
        f"--y{n}:{colour};--i{n}:{style.ink_on(colour)};--t{n}:{tint(colour, ON_A_TINT)};"
        for n, colour in enumerate(yarns)
    )
    chips = "".join(f".c{n}{{background:var(--y{n});color:var(--i{n})}}" for n in range(len(yarns)))
    return (
        f"\n:root{{{painted}{light}}}\n"
        f"@media screen and (prefers-color-scheme:dark){{:root:not(:has(#page-light:checked)){{{dark}}}}}\n"
        f"@media screen{{:root:has(#page-dark:checked){{{dark}}}}}\n{chips}\n"
    )


def veil(theme: Theme, yarns: Sequence[str]) -> float:
    """How strong (0 to ``MOST_VEIL`` fiftieths, as a share of 1) the page's colour may lie over rows in the tints of
    these ``yarns`` ("#rrggbb") so that their stitches keep a contrast of 4.5 to 1 (W3C, WCAG 2)."""
    tints = [tint(one, ON_A_TINT) for one in yarns]
    fitting = [step / 50 for step in range(MOST_VEIL + 1) if all(_readable(theme, one, step / 50) for one in tints)]
    return max(fitting, default=0.0)


def _readable(theme: Theme, ground: str, share: float) -> bool:
    dimmed = (style.mixed(theme.paper, colour, share) for colour in (ground, style.INK_DARK))
    return style.contrast(*dimmed) >= style.LEAST_CONTRAST


def _theme(theme: Theme, yarns: Sequence[str]) -> str:
    colours = {name: getattr(theme, name) for name in ("paper", "ink", "soft", "hair", "accent")}
    raised = style.mixed(theme.paper, theme.hair, 0.86)
    scheme = "dark" if theme is style.DARK else "light"
    told = "".join(f"--{name}:{colour};" for name, colour in colours.items())
    strength = veil(theme, yarns)
    veils = f"--worked:{0.6 * strength:.2g};--coming:{strength:.2g}"
    return f"{told}--raised:{raised};{veils};color-scheme:{scheme}"


def figure(plan: Plan, cloth: str) -> str:
    """HTML: the ``cloth`` (an SVG) as worn."""
    told = speech_of(plan.pattern).say("beside.cloth", pieces=", ".join(piece.name for piece in plan.pieces))
    return f'<figure class="cloth"><div role="img" aria-label="{plain(told)}">{cloth}</div></figure>'


def chapter(pattern: Pattern, figures: str) -> str:
    """HTML: ``figures`` of the fabric, and a colour picker for every yarn that the pattern names."""
    speech = speech_of(pattern)
    reset, heading, hint = (plain(speech.say(f"beside.{key}")) for key in ("own_colours", "colours", "try"))
    pickers = "".join(_picker(number, one) for number, one in enumerate(pattern.yarns, 1))
    least = f'data-least="{style.LEAST_CONTRAST}" data-tint="{ON_A_TINT:g}"'
    inks = f'data-inks="{style.INK_DARK} {style.INK_LIGHT} {style.INK_FULL}" {least}'
    tools = (
        f'<div class="paint" hidden {inks}><ul class="pickers">{pickers}</ul>'
        f'<p><button type="button" class="reset">{reset}</button></p></div>'
        if pickers
        else ""
    )
    return (
        f'<section class="colours" id="colours" aria-labelledby="colours-name"><h2 id="colours-name">{heading}</h2>'
        f'<p class="quiet">{hint}</p>'
        f'<div class="dyeing">{figures}{tools}</div></section>'
    )


def _picker(number: int, one: Yarn) -> str:
    return (
        f'<li><label for="colour-{number}">{chip(number)} '
        f'{set_apart(one.name)}</label><output for="colour-{number}">{one.colour}</output>'
        f'<input type="color" id="colour-{number}" value="{one.colour}" autocomplete="off"></li>'
    )
