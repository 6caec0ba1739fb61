"""Pattern files for bodies, made by hand: in several sizes, of every ease and length, and with measures that no body
has."""

from __future__ import annotations

from collections.abc import Iterator

from turnchain import sizes

_HEAD = 'title = "Dune Edge"\n{}swatch = {{ clusters = 4, width = 10, rows = 8, height = 10, weight = 6 }}\n'
_THREE = _HEAD.format('sizes = ["S", "L", "2X"]\n')
_YARNS = '[[yarn]]\nname = "Marram"\ncolour = "#8f9a5b"\nstock = 900\n[[yarn]]\nname = "Shell"\ncolour = "#ead9c5"\n'
_WOMAN = '[wearer]\ntable = "woman"\n'
_NECK = 'neck = { shoulder = "10 (11, 12)", depth = 8, shape = "round" }\n'
_SIZED = 'width = "44 (52, 62)"\nlength = "40 (41, 43)"\n'

SIZED: dict[str, str] = {
    "sizes with armholes": _THREE
    + _YARNS
    + f'[stripes]\norder = ["Marram", "Shell"]\nrows = "2 (2, 3)"\n{_WOMAN}'
    + f'[[piece]]\nname = "back"\n{_SIZED}armhole = {{ depth = "18 (19, 21)", width = "4 (5, 7)" }}\n{_NECK}'
    + f'[[piece]]\nname = "front"\n{_SIZED}armhole = {{ depth = "18 (19, 21)", width = "4 (5, 7)" }}\n{_NECK}',
    "sizes sideways": f'{_THREE}{_YARNS}[[piece]]\nname = "front"\nworked = "sideways"\n{_SIZED}{_NECK}',
    "sizes of an outline": f'{_THREE}[[piece]]\nname = "sleeve"\ncount = 2\n'
    'outline = [[0, "22 (24, 26)"], ["30 (31, 32)", "32 (36, 40)"], ["36 (37, 39)", 10]]\nalign = "left"\n',
    "sizes of steps": f'{_THREE}[[piece]]\nname = "yoke"\n'
    'outline = [[0, "30 (32, 36)"], [12, "30 (32, 36)"], [12, "40 (44, 50)"], ["20 (20, 24)", "40 (44, 50)"]]\n',
    "sizes that lack a piece": f'{_THREE}{_YARNS}[[piece]]\nname = "front"\n{_SIZED}[[piece]]\nname = "gusset"\n'
    'count = "- (1, 2)"\nwidth = 7\nlength = "20 (20, 22)"\n',
    "sizes with sleeves and caps": f'{_THREE}{_WOMAN}[[piece]]\nname = "back"\n{_SIZED}'
    'armhole = { depth = "18 (19, 21)", width = 5, shape = "curved" }\n'
    f'[[piece]]\nname = "front"\n{_SIZED}armhole = {{ depth = "18 (19, 21)", width = 5, shape = "curved" }}\n{_NECK}'
    '[[piece]]\nname = "sleeve"\ncount = 2\nwidth = "30 (32, 36)"\nlength = 12\ncap = { into = ["back", "front"] }\n',
    "sizes of a triangle": f'{_THREE}[[piece]]\nname = "shawl"\ntriangle = {{ width = "50 (60, 70)", height = 26 }}\n',
    "sizes with edgings": f'{_THREE}{_YARNS}[[piece]]\nname = "panel"\n{_SIZED}{_NECK}'
    '[[edging]]\nedges = "neck"\nrows = 3\n[[edging]]\nedges = "lower edge"\nrows = 2\nstitch = "dc"\n',
    "sizes in the closed fabric": f'{_THREE}fabric = {{ gap = 0 }}\n[[piece]]\nname = "panel"\n{_SIZED}{_NECK}',
    "sizes with sleeves begun": f'{_THREE}[[piece]]\nname = "back"\n{_SIZED}[[piece]]\nname = "front"\n{_SIZED}{_NECK}'
    '[[piece]]\nname = "sleeve"\ncount = 2\nbegin_on = "armhole"\noutline = [[0, "36 (38, 42)"], [16, 24]]\n',
    "sizes out of order": f'{_THREE}[[piece]]\nname = "panel"\nwidth = "44 (52)"\nlength = 20\n',
}


def worn() -> Iterator[tuple[str, str]]:
    """Tops on bodies: of every ease and length, with measures left out, and with such as no body has."""
    for nth, ease in enumerate((-6, 0, 2, 4, 5, 7, 9, 10, 13, 15, 19, 25)):
        yield f"worn with ease {nth}", _top("M", width=(94 + ease) / 2, length=38 + 6 * nth)
    for size in ("XS", "S", "L", "1X", "3X", "5X"):
        yield f"worn in {size}", _top(size, width=55, length=60)
    for bust in (101, 102, 104):
        yield f"worn with a bust of {bust}", _top("M", width=56, length=58, more=f"bust = {bust}\n")
    for child in (2, 4, 8, 12, 16):
        text = _top("M", width=38, length=44).replace('"woman"', '"child"').replace('"M"', str(child))
        yield f"worn by a child, {child}", text
    for lacks in ("waist_length = 42", "bust = 94", "head = 57", "armhole = 20\narm = 44", "neck_to_cuff = 74"):
        text = _top("M", width=52, length=58).replace('table = "woman"\nsize = "M"\n', f"{lacks}\n")
        yield f"worn with {lacks.splitlines()[0]} alone", text
    for name in sizes.POSSIBLE:
        yield f"no body has {name}", _top("M", width=52, length=58, more=f"{name} = 1\n")


def _top(size: str, width: float, length: float, more: str = "") -> str:
    pieces = "".join(
        f'[[piece]]\nname = "{name}"\nwidth = {width}\nlength = {length}\n'
        f"neck = {{ shoulder = {width / 4}, depth = {depth} }}\n"
        for name, depth in (("back", 2.5), ("front", 8))
    )
    sleeve = '[[piece]]\nname = "sleeve"\ncount = 2\noutline = [[0, 24], [36, 38]]\n'
    return f'{_HEAD.format("")}[wearer]\ntable = "woman"\nsize = "{size}"\n{more}{pieces}{sleeve}'
