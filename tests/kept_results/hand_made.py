"""Pattern files made by hand: what random ones seldom have, and such as cannot be made or are doubtful."""

from __future__ import annotations

from collections.abc import Iterator

_SWATCH = "swatch = { clusters = 9, width = 20, rows = 17, height = 20, weight = 21.5, weighed = [23, 22.5], hook = 5 }"
_HEAD = f'title = "Sandpiper Reach"\nby = "Fen Mill"\n{_SWATCH}\n'
_TWO = (
    '[[yarn]]\nname = "Sedge"\ncolour = "#7a8450"\nstock = 300\nkeep = 25\nball = 50\nmetres_per_100g = 240\n'
    '[[yarn]]\nname = "Foam"\ncolour = "#e9ede4"\nstock = 180\nmetres_per_100g = 230\n'
)
_FOUR = _TWO + (
    '[[yarn]]\nname = "Rust"\ncolour = "#9a4a2c"\nstock = 60\nball = 25\nfibre = "wool"\n'
    '[[yarn]]\nname = "Pool"\ncolour = "#3d5f78"\nstock = 90\n'
)
_PANEL = '[[piece]]\nname = "panel"\nwidth = 24\nlength = 22\n'
_BODY = 'name = "{}"\nwidth = 46\nlength = 52\n'
_BACK, _FRONT = (f"[[piece]]\n{_BODY.format(name)}" for name in ("back", "front"))
_MEASURES = "width = 20\nlength = 12\n"


def _panel(more: str, head: str = "") -> str:
    return f"{_HEAD}{head}{_PANEL}{more}"


def _fabric(fabric: str, more: str = "", head: str = "") -> str:
    return f"{_HEAD}{head}[fabric]\n{fabric}\n{_PANEL}{more}"


def _piece(lines: str, head: str = "") -> str:
    return f'{_HEAD}{head}[[piece]]\nname = "strip"\n{lines}'


def _stripes(lines: str, more: str = "") -> str:
    return f"{_HEAD}{_FOUR}[stripes]\n{lines}\n{_PANEL}{more}"


def _top(more: str, parts: str = "", head: str = "") -> str:
    """A back and a front with a neck, and more."""
    neck = "neck = {{ shoulder = 12, depth = {}, shape = '{}' }}\n"
    return f"{_HEAD}{head}{_BACK}{parts}{neck.format(3, 'slant')}{_FRONT}{parts}{neck.format(9, 'round')}{more}"


_ARMHOLE = "armhole = { depth = 20, width = 5, shape = 'curved' }\n"
_SLEEVE = '[[piece]]\nname = "sleeve"\ncount = 2\nwidth = 26\nlength = 18\ntaper = { width = 36, end = 16 }\n'

GOOD: dict[str, str] = {
    **{
        f"fabric {kind}": _fabric(f'kind = "{kind}"', head=_TWO)
        for kind in (
            "closed",
            "bare-open",
            "bare-closed",
            "moss",
            "moss-plain",
            "moss-slit",
            "offset-mesh",
            "slit",
            "v",
            "wide-v",
            "double-v",
            "shell",
            "mesh",
            "mesh-2",
            "solid-sc",
            "solid-hdc",
            "solid-dc",
        )
    },
    **{
        f"clusters of {stitch}": _fabric(f'stitch = "{stitch}"\ncluster = {cluster}\ngap = {gap}')
        for stitch, cluster, gap in (("sc", 2, 1), ("hdc", 3, 2), ("tr", 4, 3), ("dc", 1, 1))
    },
    "rows of sc among others": _fabric('rows = ["cluster", "cluster", "sc"]', head=_FOUR)
    + ('[stripes]\norder = ["Foam", "Rust"]\nsc = "Pool"\n'),
    "swatches of other stitches": _fabric(
        'rows = ["cluster", "dc"]\nbase = ["sc"]\nlast = ["hdc", "sc"]', head=_TWO
    ).replace(
        "hook = 5 }",
        "hook = 5, sc = { rows = 20, height = 10, stitches = 15, width = 10, weight = 12, weighed = [12, 11] } }",
    ),
    "stacked after rows of sc": _fabric('kind = "closed"\nrows = ["cluster", "sc"]\nthen = "stacked"'),
    "foundation of sc": _fabric('foundation = "sc"\nstart = "spaced"', 'row_plan = "alternate"\n'),
    "foundation in groups": _fabric('kind = "closed"\nfoundation = "grouped"\nstart = "flush"'),
    "bare start": _fabric('start = "bare"\nkind = "bare-closed"'),
    "turned otherwise": _fabric('stitch = "hdc"\nturning_chain = 1\nturning_chain_counts = false'),
    "UK terms in inches": _panel('worked = "sideways"\n', 'terms = "UK"\nunits = "in"\n').replace(
        "= 22\n", '= "8 3/8 in"\n'
    ),
    "lengths of every unit": _piece('outline = [[0, "120 mm"], ["0.1 m", "5 1/2 in"], ["8\\"", 18.25]]\n'),
    "a chain of one's own": _panel("exact_chain = 49\n"),
    "rows and clusters of one's own": _panel('exact_rows = 21\nexact_clusters = 12\nrow_plan = "alike"\n'),
    "only so many rows": _panel("exact_rows = 14\n"),
    "alternate rows": _panel('row_plan = "alternate"\n'),
    "many alike": _panel("count = 12\n", _TWO),
    **{
        f"stripes {name}": _stripes(lines)
        for name, lines in {
            "mirrored": 'kind = "mirrored"\norder = ["Sedge", "Foam", "Rust"]\nrows = [1, 2, 3]',
            "from the middle": 'kind = "mirrored"\nbegin = "middle"\norder = ["Sedge", "Foam", "Rust"]\nrows = [3, 1]',
            "by numbers": 'kind = "numbers"\norder = ["Sedge", "Pool"]\nmost = 5\nrun = "there and back"',
            "falling": 'kind = "numbers"\norder = ["Sedge", "Pool", "Foam"]\nnumbers = [4, 2, 1]\nrun = "falling"',
            "crossing": 'kind = "numbers"\norder = ["Sedge", "Foam"]\nmost = 8\nrun = "crossing"',
            "gradual": 'kind = "gradual"\norder = ["Sedge", "Foam", "Pool"]\nblock = 6\neven = true',
            "at random": 'kind = "random"\norder = ["Sedge", "Foam", "Rust", "Pool"]\nleast = 1\nmost = 3\napart = 2',
            "between": 'kind = "between"\norder = ["Sedge", "Rust"]\nbetween = "Foam"\nbetween_rows = 2\nevery = 2',
            "of the stash": 'kind = "stash"\nleast = 1\nmost = 4\nuse_up = ["Rust"]\ncarry = 2',
            "of the stash, even": 'kind = "stash"\nleast = 2\nmost = 4\neven = true\norder = ["Sedge", "Foam", "Pool"]',
            "carried": 'order = ["Sedge", "Foam", "Rust"]\nrows = [1, 2, 4]\ncarry = 6',
        }.items()
    },
    "stripes of its own": _stripes(
        'order = ["Sedge", "Foam"]', ('stripes = { order = ["Rust", "Pool"], rows = 3 }\nstripes_begin = 2\n')
    ),
    "a stash begun": _stripes('kind = "stash"\nleast = 1\nmost = 3')
    + ('[[progress]]\npiece = "panel"\nrows = 5\nheight = 6.2\nwidth = 24.5\n'),
    "too little yarn": _panel("", _TWO.replace("300", "12").replace("180", "4"))
    + '[stripes]\norder = ["Sedge", "Foam"]\n',
    "little allowed for": _panel("", _TWO + "[allowance]\nmargin = 3\ntail = 8\n"),
    "no weights": _panel("", _TWO).replace(", weight = 21.5, weighed = [23, 22.5]", ""),
    "closed without weights": _fabric("gap = 0", head=_TWO).replace(", weight = 21.5, weighed = [23, 22.5]", ""),
    "three swatches": _panel("").replace(
        _SWATCH,
        "swatch = ["
        + ", ".join(
            f"{{ clusters = 9, width = {wide}, rows = 17, height = {high}, weight = {grams} }}"
            for wide, high, grams in ((20, 20, 21), (20.5, 19.8, 22), (19.6, 20.4, 20.5))
        )
        + "]",
    ),
    "begun and wider": _panel("", _TWO) + '[[progress]]\npiece = "panel"\nrows = 7\nheight = 9.4\nwidth = 25.5\n',
    "begun sideways": _panel('worked = "sideways"\nneck = { shoulder = 6, depth = 4 }\n')
    + ('[[progress]]\npiece = "panel"\nrows = 4\nheight = 4.2\n'),
    **{
        f"neck {shape} {worked}": _panel(
            f'worked = "{worked}"\nneck = {{ shoulder = 6.5, depth = 7, shape = "{shape}" }}\n'
        )
        for shape in ("slant", "vee", "round", "square")
        for worked in ("upwards", "sideways")
    },
    "neck at the left edge": _panel('worked = "sideways"\nneck_edge = "left"\nneck = { shoulder = 7, depth = 5 }\n'),
    "faces another": _panel('worked = "sideways"\nneck = { shoulder = 7, depth = 5 }\n', _TWO)
    + (
        '[[piece]]\nname = "back"\nwidth = 24\nlength = 22\nworked = "sideways"\nfaces = "panel"\n'
        "neck = { shoulder = 7, depth = 2 }\n"
    ),
    "outline in and out": _piece("outline = [[0, 12], [6, 20], [14, 20], [14, 14], [20, 8]]\n"),
    "outline, left straight": _piece('outline = [[0, 20], [10, 11]]\nalign = "left"\n'),
    "outline, right straight, named": _piece('outline = [[0, 9], [12, 21, "side"], [16, 21]]\nalign = "right"\n'),
    "two edges apart": _piece("left_outline = [[0, 8], [12, 3]]\nright_outline = [[0, 6], [5, 10], [12, 10]]\n"),
    "triangle": _piece("triangle = { width = 30, height = 16 }\n", _TWO),
    "triangle sideways": _piece('worked = "sideways"\ntriangle = { width = 30, height = 14 }\n'),
    "half a triangle": _piece('half_triangle = { width = 20, height = 15, straight = "right" }\n'),
    "half a triangle sideways": _piece('worked = "sideways"\nhalf_triangle = { width = 22, height = 12 }\n'),
    "closed triangle": _piece("triangle = { width = 26, height = 14 }\n", "fabric = { gap = 0, cluster = 2 }\n"),
    "top with sleeves": _top(_SLEEVE, head=_FOUR),
    "top with caps": _top(_SLEEVE + 'cap = { into = ["front", "back"], top = 8 }\n', _ARMHOLE, _TWO),
    "sloping shoulders": _top("", "shoulder_slope = 3\nslit = 6\n" + _ARMHOLE.replace("curved", "square")),
    "tapers": _top("", "taper = [{ width = 42, end = 14 }, { width = 48, start = 18, end = 28 }]\n"),
    "waistcoat": _HEAD
    + _TWO
    + _BACK
    + _ARMHOLE
    + (
        f'[[piece]]\n{_BODY.format("left front")}{_ARMHOLE}front = {{ side = "left", overlap = 2 }}\n'
        'neck = { shoulder = 12, depth = 16, shape = "vee" }\n[[piece]]\nname = "right front"\nmirror = "left front"\n'
        '[[edging]]\nedges = ["front edge", "neck"]\nrows = 4\nbuttonholes = 5\n[[edging]]\nedges = "armhole"\n'
        'stitch = "hdc"\nyarn = "Foam"\nrows = 2\n'
    ),
    "edgings all round": _panel("", _TWO) + '[[edging]]\nrows = 3\nstitch = "dc"\nyarn = "Foam"\n',
    "edging with a tie": _panel("neck = { shoulder = 6, depth = 6 }\n")
    + '[[edging]]\nedges = "panel.neck"\ntie = 22\n',
    "edging with a strap": _panel("") + '[[edging]]\nedges = "panel.last"\nrows = 2\nstrap = 30\n',
    "seams by name": _top(
        '[[seam]]\njoin = ["front.left", "back.right"]\nstripes = "meet"\n'
        '[[seam]]\njoin = ["front.right", "back.left"]\nstripes = "differ"\n'
        '[[seam]]\njoin = ["front.shoulder", "back.shoulder"]\n',
        head=_FOUR + '[stripes]\norder = ["Sedge", "Foam", "Rust"]\nrows = 2\n',
    ),
    "bag begun on its front": f'{_HEAD}[[piece]]\nname = "bag front"\n{_MEASURES}[[piece]]\nname = "bag back"\n'
    f'begin_on = "bag front.first"\n{_MEASURES}',
    "bag with gusset": f'{_HEAD}[[piece]]\nname = "bag front"\n{_MEASURES}[[piece]]\nname = "bag back"\n{_MEASURES}'
    '[[piece]]\nname = "gusset"\nwidth = 6\nlength = 44\n[[piece]]\nname = "strap"\nwidth = 4\nlength = 50\n',
    "sleeves begun on the armhole": _top(
        '[[piece]]\nname = "sleeve"\ncount = 2\nbegin_on = "armhole"\noutline = [[0, 36], [20, 24]]\n'
    ),
    "cushion": f'{_HEAD}[[piece]]\nname = "cushion"\ncount = 2\nwidth = 22\nlength = 22\n',
    "hat": f'{_HEAD}[[piece]]\nname = "hat"\nwidth = 54\nlength = 22\nworked = "sideways"\n[wearer]\nhead = 57\n',
    "woman wears it": _top(_SLEEVE, _ARMHOLE, '[wearer]\ntable = "woman"\nsize = "L"\nhead = 56\n'),
    "child wears it": _top("", "slit = 4\n", '[wearer]\ntable = "child"\nsize = 10\narm = 40\n'),
    "own measures": _top(
        "", "", "[wearer]\nbust = 88\nwaist = 70\nhip = 96\nwaist_length = 42\nhip_length = 62\nhead = 58\n"
    ),
    **{f"for {who}": _panel("", f'[wearer]\nwho = "{who}"\n') for who in ("adult", "child", "baby", "pet", "home")},
    "baby by its measures": _top("", "", "[wearer]\nbust = 45\nhead = 42\n")
    .replace("46", "26")
    .replace("52", "28")
    .replace("shoulder = 12", "shoulder = 7")
    .replace("depth = 9", "depth = 4"),
    "for her own body": f'{_HEAD}[wearer]\ntable = "woman"\nsize = "M"\nease = 8\n'
    + (
        '[[piece]]\nname = "back"\nneck = {}\n[[piece]]\nname = "front"\nneck = {}\n[[piece]]\nname = "sleeve"\n'
        'outline = [[0, "2 * armhole"], ["arm - 4", "max(upper_arm * 0.8, 20)"]]\n'
    ),
    "in three sizes": _HEAD.replace("swatch", 'sizes = ["S", "M", "L"]\nswatch', 1)
    + _TWO
    + (
        '[wearer]\ntable = "woman"\n[[piece]]\nname = "front"\nwidth = "44 (48, 53)"\nlength = "50 (52, 54)"\n'
        'neck = { shoulder = "11 (12, 13)", depth = 8, shape = "round" }\n'
        '[[piece]]\nname = "strip"\ncount = "1 (-, 2)"\n'
        "width = 8\nlength = 20\n"
    ),
    "in two sizes, one piece": _HEAD.replace("swatch", 'sizes = ["2", "14"]\nswatch', 1)
    + ('[wearer]\ntable = "child"\n[[piece]]\nname = "front"\nwidth = "bust / 2 + 4"\nlength = "hip_length - 6"\n'),
    "own words": _panel(
        'before = "Begin loosely."\nafter = "Block it *flat*."\n',
        'introduction = """A scarf.\n\nFor rain."""\ncontact = "Ask."\ncolour = "#335577"\nnote = "Dry flat."\n',
    ),
    "many yarns": _HEAD
    + "".join(
        f'[[yarn]]\nname = "No {nth}"\ncolour = "#{nth * 11 + 20:02x}{250 - nth * 12:02x}{nth * 37 % 256:02x}"\n'
        for nth in range(16)
    )
    + _PANEL,
    "colours hard to tell apart": _panel("", _TWO.replace("#7a8450", "#e9ede0"))
    + '[stripes]\norder = ["Sedge", "Foam"]\n',
    "dark yarn": _panel("", _TWO.replace("#7a8450", "#0b0b0d")) + '[stripes]\norder = ["Sedge", "Foam"]\nrows = 4\n',
    "one cluster wide": _piece("width = 2.4\nlength = 20\n"),
    "one row high": _piece("width = 20\nlength = 1.2\n"),
    "wide and low": _piece("width = 130\nlength = 4\n", _TWO),
    "narrow and high": _piece(
        "width = 6\nlength = 130\n", _TWO + '[stripes]\norder = ["Sedge", "Foam"]\nrows = [2, 3]\n'
    ),
}


# ------------------------------------------------------------------------------- such as cannot be made, or doubtful

_BASE = (
    'title = "Rail Yard"\nlink = "https://example.org/a"\nterms = "US"\nunits = "cm"\n'
    "[swatch]\nclusters = 10\nwidth = 22\nrows = 20\nheight = 22\nweight = 24\nweighed = [24, 25]\nhook = 5\n"
    "[fabric]\ncluster = 3\ngap = 1\n"
    '[[yarn]]\nname = "Oat"\ncolour = "#d9bf77"\nstock = 90\n[[yarn]]\nname = "Ink"\ncolour = "#24304f"\n'
    '[stripes]\norder = ["Oat", "Ink"]\nrows = 2\ncarry = 4\n[wearer]\nbust = 60\nhead = 50\n'
    '[[piece]]\nname = "front"\nwidth = 18\nlength = 16\nneck = { shoulder = 5, depth = 4, shape = "slant" }\n'
    '[[piece]]\nname = "back"\nworked = "sideways"\nwidth = 18\nlength = 16\n'
    '[[seam]]\njoin = ["front.left", "back.first"]\n'
)
_WIDTH, _NECK = '"front"\nwidth = 18', 'neck = { shoulder = 5, depth = 4, shape = "slant" }'
_SIZE = f"{_WIDTH}\nlength = 16"
_SEAM = '["front.left", "back.first"]'
_LENGTHS = (
    "0",
    "-1",
    "1e9",
    "2e9",
    "0.00000000001",
    "1e-9",
    "nan",
    "inf",
    "true",
    "'18,5 cm'",
    "'1,234 mm'",
    "'7 1/8 in'",
    "'7 3/8'",
    "'1/2 m'",
    "'1/0 in'",
    "'18 ells'",
    "'18.'",
    "'.5 in'",
    "'7¾ in'",
    "'7\\\"'",
    "'-18 cm'",
    "'+18cm'",
    "''",
    "'18 cm wide'",
    "[18]",
    "12345678901.5",
    "1.00000000000000000000000000000001",
    "'                                                        18 cm'",
    "'180 millimetres'",
    "'7 inches'",
)
_SLIPS: tuple[tuple[str, str], ...] = (
    ("clusters = 10", "clusters = 0"),
    ("clusters = 10", "clusters = 10.5"),
    ("clusters = 10", "clusters = 2001"),
    ("rows = 20", "rows = 0"),
    ("height = 22", "height = 220"),
    ("weight = 24", "weight = 0.01"),
    ("weight = 24", "weight = 0"),
    ("weighed = [24, 25]", "weighed = [2, 25]"),
    ("hook = 5", "hook = 500"),
    ("hook = 5", "hook = 0.001"),
    ("cluster = 3", "cluster = 6"),
    ("gap = 1", "gap = 4"),
    ("gap = 1", "gap = 'open'"),
    ("gap = 1", "kind = 'granny'"),
    ("cluster = 3", "kind = 'v'"),
    ("gap = 1", "rows = ['sc']"),
    ("gap = 1", "rows = ['cluster', 'trtr']"),
    ("gap = 1", "start = 'left'"),
    ("gap = 1", "stitch = 'bobble'"),
    ("gap = 1", "foundation = 'grouped'"),
    ("gap = 1", "turning_chain = 9"),
    ("#d9bf77", "#d9bf7"),
    ("#d9bf77", "ochre"),
    ("#d9bf77", "#24304f"),
    ("stock = 90", "stock = -1"),
    ("stock = 90", "stock = 1"),
    ("stock = 90", "stock = 90\nkeep = 95"),
    ("stock = 90", "stock = 90\nfibre = 'steel'"),
    ('"Ink"\ncolour', '"Oat"\ncolour'),
    ('["Oat", "Ink"]', '["Oat", "Inc"]'),
    ('["Oat", "Ink"]', "[]"),
    ("rows = 2\n", "rows = [2, 0]\n"),
    ("rows = 2\n", "rows = 2\nkind = 'stash'\nleast = 3\nmost = 2\n"),
    ("rows = 2\n", "kind = 'zigzag'\n"),
    ("rows = 2\n", "kind = 'random'\nleast = 3\nmost = 3\neven = true\n"),
    ("rows = 2\n", "kind = 'between'\n"),
    ("rows = 2\n", "kind = 'numbers'\nnumbers = [0]\n"),
    ("carry = 4", "carry = -2"),
    ("carry = 4", "begin = 'top'"),
    ("bust = 60", "bust = 600"),
    ("bust = 60", "bust = 60\nwaist = 250"),
    ("bust = 60", "table = 'man'\nsize = 'M'"),
    ("bust = 60", "table = 'woman'\nsize = 'XXS'"),
    ("bust = 60", "size = 'M'"),
    ("bust = 60", "ease = 'loose'"),
    ("bust = 60", "who = 'cat'"),
    ("bust = 60", "bust = 140"),
    ("head = 50", "head = 80"),
    ('"front"\nwidth = 18', '"front"\nwidth = 18\ncount = 0'),
    ('"front"\nwidth = 18', '"front"\nwidth = 18\ncolour = 1'),
    (_WIDTH, '"a/b"\nwidth = 18'),
    (_WIDTH, '"back"\nwidth = 18'),
    (_WIDTH, '"front"'),
    (_WIDTH, '"front"\nwidth = 5000'),
    (_WIDTH, '"front"\nwidth = 0.2'),
    (_WIDTH, '"front"\nwidth = "bust /"'),
    (_WIDTH, '"front"\nwidth = "hip / 2"'),
    (_WIDTH, '"front"\nwidth = "bust - 60"'),
    (_WIDTH, '"front"\nwidht = 18'),
    (_WIDTH, '"front"\nwidth = 18\nexact_rows = 0'),
    (_WIDTH, '"front"\nwidth = 18\nexact_rows = 15\nexact_clusters = 30'),
    (_WIDTH, '"front"\nwidth = 18\nexact_chain = 5'),
    (_WIDTH, '"front"\nwidth = 18\nfaces = "side"'),
    (_WIDTH, '"front"\nwidth = 18\nmirror = "back"'),
    (_WIDTH, '"front"\nwidth = 18\nbegin_on = "back.first"'),
    (_WIDTH, '"front"\nwidth = 18\nbegin_on = "front.first"'),
    (_WIDTH, '"front"\nwidth = 18\narmhole = { depth = 20, width = 2 }'),
    (_WIDTH, '"front"\nwidth = 18\narmhole = { depth = 6, width = 8 }'),
    (_WIDTH, '"front"\nwidth = 18\ntaper = { width = 12, start = 9, end = 4 }'),
    (_WIDTH, '"front"\nwidth = 18\nslit = 20'),
    (_WIDTH, '"front"\nwidth = 18\nshoulder_slope = 9'),
    (_WIDTH, '"front"\nwidth = 18\nfront = { side = "middle" }'),
    (_WIDTH, '"front"\nwidth = 18\nrow_plan = "odd"'),
    (_WIDTH, '"front"\nwidth = 18\nstripes_begin = 0'),
    (_SIZE, '"front"\noutline = [[0, 18], [8, 12], [6, 9]]\nrole = "other"'),
    (_SIZE, '"front"\noutline = [[0, 18], [0, 12], [9, 12]]\nrole = "other"'),
    (_SIZE, '"front"\noutline = [[2, 18], [9, 12]]\nrole = "other"'),
    (_SIZE, '"front"\noutline = [[0, 18]]\nrole = "other"'),
    (_SIZE, '"front"\noutline = [[0, 3], [2, 60]]\nrole = "other"'),
    (_NECK, "neck = { shoulder = 9, depth = 4 }"),
    (_NECK, "neck = { shoulder = 8.9, depth = 4 }"),
    (_NECK, "neck = { shoulder = 5, depth = 16 }"),
    (_NECK, "neck = { shoulder = 0.5, depth = 15, shape = 'vee' }"),
    (_NECK, "neck = { shoulder = 5, depth = 0.4, shape = 'round' }"),
    (_NECK, "neck = { shoulder = 5 }"),
    (_NECK, "neck = { shoulder = 5, depth = 4, shape = 'boat' }"),
    (_NECK, "neck_edge = 'left'"),
    (_NECK, "neck = 5"),
    (_NECK, "triangle = { width = 10, height = 10 }"),
    (_NECK, "cap = { into = ['back'] }"),
    ('"sideways"', '"diagonally"'),
    (_SEAM, '["front.left", "front.left"]'),
    (_SEAM, '["front.left", "side.first"]'),
    (_SEAM, '["front.left"]'),
    (_SEAM, '["front.left", "back.left"]\nstripes = "meet"'),
    (_SEAM, _SEAM + '\n[[seam]]\njoin = ["front.left", "back.last"]'),
    (_SEAM, _SEAM + '\n[[edging]]\nedges = "cuff"'),
    (_SEAM, _SEAM + '\n[[edging]]\nrows = 0\nstitch = "tr"'),
    (_SEAM, _SEAM + "\n[[edging]]\nrows = 2\nbuttonholes = 3"),
    (_SEAM, _SEAM + "\n[allowance]\nmargin = 150\ntail = -1"),
    (_SEAM, _SEAM + '\n[[progress]]\npiece = "front"\nrows = 9\nheight = 0.1'),
    (_SEAM, _SEAM + '\n[[progress]]\npiece = "front"\nrows = 99\nheight = 90'),
    (_SEAM, _SEAM + '\n[[progress]]\npiece = "front"\nrows = 9\nheight = 9\nwidth = 2'),
    ('terms = "US"', 'terms = "AU"'),
    ('units = "cm"', 'units = "ell"'),
    ('units = "cm"', 'units = "in"'),
    ("https://example.org/a", "https://"),
    ('title = "Rail Yard"\n', ""),
    ('"Rail Yard"', '""'),
    ('"Rail Yard"', "5"),
    ('terms = "US"', 'terms = "US"\nlanguage = "it"'),
    ('terms = "US"', 'terms = "US"\nsizes = ["S", "S"]'),
    ('terms = "US"', 'terms = "US"\nsizes = ["S", "M"]'),
    ('terms = "US"', 'terms = "US"\ndate = "soon"'),
)


def told_off() -> Iterator[tuple[str, str]]:
    """One file with each length there is for a width, and with each slip."""
    for nth, words in enumerate(_LENGTHS):
        yield f"length {nth}", _changed(_WIDTH, f'"front"\nwidth = {words}')
    for nth, (was, now) in enumerate(_SLIPS):
        yield f"problem {nth}", _changed(was, now)


def _changed(was: str, now: str) -> str:
    assert was in _BASE, was
    return _BASE.replace(was, now, 1)
