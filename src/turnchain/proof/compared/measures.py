"""Every printed measure of a piece, held against the cloth.

In: a worked piece, what the pattern file asks to be measured of it, and figures as printed. Out: reasons, in words. A
figure by a name that nothing on the cloth has is a reason too, so that no new figure is printed unmeasured.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from turnchain.proof.cloth import measures as tape
from turnchain.proof.cloth.edges import Side, WorkedCloth
from turnchain.proof.compared.captions import chain
from turnchain.proof.printed.lengths import Length, is_length, length, shown
from turnchain.proof.printed.pattern import drafted, further
from turnchain.proof.printed.picture import Arrow, ReadPicture
from turnchain.proof.printed.report import PieceSaid


@dataclass(frozen=True, slots=True)
class AskedArmhole:
    """An armhole at a ``side`` of the chart, from ``low`` to ``high`` cm up, and how ``wide`` it is asked for in cm."""

    side: Side
    low: Fraction
    high: Fraction
    wide: Fraction


@dataclass(frozen=True, slots=True)
class AskedMeasures:
    """What the pattern file asks of a piece: worked ``sideways`` or not, with a ``neck`` or without; of an outline the
    ``heights`` (cm) of its points and those of its ``steps``, its ``armholes``, and how
    ``high`` it is. Of a panel worked sideways with parts the depth and the width of its armholes (``arms``) and the
    whole edge of its ``cap`` in cm; half a front (``half``) has no width of a neck; one worked
    upwards whose ``shoulder`` slopes has that as its last edge."""

    sideways: bool
    neck: bool
    heights: tuple[Fraction, ...] = ()
    steps: frozenset[Fraction] = frozenset()
    armholes: tuple[AskedArmhole, ...] = ()
    high: Fraction = Fraction(1)
    arms: tuple[Fraction, Fraction] | None = None
    cap: Fraction | None = None
    half: bool = False
    shoulder: bool = False


Cms = tuple[Fraction, ...]


def taken(cloth: WorkedCloth, asked: AskedMeasures) -> dict[str, Cms]:
    """The measures of a piece in cm, exact, by their names; two shoulders stand under one name."""
    found: dict[str, Cms] = {}
    if asked.heights:
        found["height"] = (tape.along(cloth),)
        for height in asked.heights:
            found[f"width at {float(height)}"] = (_width_at(cloth, asked, height),)
    else:
        found |= {name: (cm,) for name, cm in tape.panel(cloth, asked.sideways).items()}
    if asked.shoulder:
        found["shoulder"] = (sum((run.across for run in cloth.edges["last"]), 0) * cloth.tape.half,)
    found |= _armholes(cloth, asked) if asked.arms is None else _upper_armholes(cloth)
    if asked.cap is not None:
        found["cap edge"] = (tape.cap_edge(cloth),)
    if asked.neck:
        half = Fraction(1, 2) * (tape.along(cloth) if asked.sideways else tape.across(cloth))
        found["shoulder"] = tape.shoulders(cloth) or (half, half)  # a neck too shallow for a row leaves none
        found["neck depth"] = (tape.neck_depth(cloth),)
        found |= {} if asked.half else {"neck width": (tape.neck_width(cloth),)}
    return found


def _armholes(cloth: WorkedCloth, asked: AskedMeasures) -> dict[str, Cms]:
    """Depth and width of the armholes: under one name where they are alike, else by their edges."""
    high = asked.high
    taken_of = {
        one: tape.armhole(cloth, one.side, one.low * cloth.high / high, one.high * cloth.high / high)
        for one in asked.armholes
    }
    whole = {(one.high - one.low, one.wide, *taken_of[one]) for one in asked.armholes}
    found: dict[str, Cms] = {}
    for one, (deep, wide) in taken_of.items():
        head = f"{one.side} edge armhole" if len(whole) > 1 else "armhole"
        found |= {f"{head} depth": (deep,), f"{head} width": (wide,)}
    return found


def _upper_armholes(cloth: WorkedCloth) -> dict[str, Cms]:
    """The same of a panel worked sideways; its edges are those as worn."""
    taken_of = tape.upper_armholes(cloth)
    alike = len({(deep, wide) for _, deep, wide in taken_of}) < 2
    found: dict[str, Cms] = {}
    for side, deep, wide in taken_of:
        head = "armhole" if alike else f"{side} edge armhole"
        found |= {f"{head} depth": (deep,), f"{head} width": (wide,)}
    return found


def _width_at(cloth: WorkedCloth, asked: AskedMeasures, height: Fraction) -> Fraction:
    """The width where the shape asked for is ``height`` cm high, the whole of it being as many rows as the cloth;
    at a step, below it."""
    low, whole = cloth.sc_below, asked.high - cloth.sc_below  # what is worked into an edge is as high as it is
    rows = tape.rows_up(cloth, low + (height - low) * (cloth.tops[-1] - low) / whole)
    return tape.at_level(cloth, Fraction(floor(rows)) if height in asked.steps else rows)


def named(cloth: WorkedCloth, asked: AskedMeasures, name: str) -> Cms | None:
    """The measure, in cm, that is printed by a ``name`` (of shoulders: both); None where nothing on the cloth is called
    that."""
    found = taken(cloth, asked)
    if name == "width in row 1" and asked.heights:
        return (tape.across(cloth),)
    if at := re.fullmatch(r"width at (.+)", name):
        near = [height for height in asked.heights if length(at[1]).says(height)]
        return found[f"width at {float(near[0])}"] if near else None
    return found["shoulder"] if "shoulder" in name and "shoulder" in found else found.get(name)


Said = Sequence[tuple[str, Length]]


def differing(cloth: WorkedCloth, asked: AskedMeasures, said: Said, taped: bool = False) -> Iterator[str]:
    """Where measures, each by its name, are not the cloth's, or only one of two shoulders is told. ``taped``: they are
    told as a tape is read, as customers have them."""
    yield from _differing(cloth, asked, said, taped)
    shoulders = [printed for name, printed in said if "shoulder" in name]
    for cm in taken(cloth, asked).get("shoulder", ()) if shoulders else ():
        if not any(_is(printed, cm, taped) for printed in shoulders):
            yield f"{cloth.name}: a shoulder measures {shown(cm, shoulders[0].unit)}, which is not printed"


def _is(printed: Length, cm: Fraction, taped: bool) -> bool:
    return printed.tapes(cm) if taped else printed.says(cm)


def _differing(cloth: WorkedCloth, asked: AskedMeasures, said: Said, taped: bool) -> Iterator[str]:
    for name, printed in said:
        cms = named(cloth, asked, name)
        if cms is None:
            yield f"{cloth.name}: {name} {printed} is printed, which nothing on the cloth is called"
        elif not any(_is(printed, cm, taped) for cm in cms):
            yield f"{cloth.name}: {name} {printed} is printed, {_listed(cms, printed.unit)} measured"


def _listed(cms: Iterable[Fraction], unit: str) -> str:
    return " and ".join(dict.fromkeys(shown(cm, unit) for cm in cms))


def report(cloth: WorkedCloth, asked: AskedMeasures, said: PieceSaid | None) -> Iterator[str]:
    """What is wrong in the report's part about a piece (None: it has none)."""
    if said is None:
        yield f"{cloth.name}: the report says nothing of it"
        return
    clusters = [row.clusters for row in cloth.rows if not row.solid]
    solid = Counter(row.kind for row in cloth.rows if row.solid)
    facts: dict[str, tuple[object, object]] = {
        "pieces alike": (said.count, cloth.count),
        "rows": (said.rows, cloth.high),
        "clusters": (said.clusters, (min(clusters), max(clusters))),
        "foundation": (said.chain, chain(cloth)),
        "rows of each stitch": (sorted(said.solid.values()), sorted(solid.values())),
    }
    for name, (printed, made) in facts.items():
        if printed != made:
            yield f"{cloth.name}: {name}: {printed} printed, {made} worked"
    yield from complete(cloth, asked, [one.name for one in said.measures])
    yield from differing(cloth, asked, [(one.name, one.worked) for one in said.measures])
    for one in said.measures:
        off = one.off or Length(Fraction(0), one.wanted.unit)
        if not any(off.says(cm - one.wanted.cm, one.wanted.rounding) for cm in named(cloth, asked, one.name) or ()):
            yield f"{cloth.name}: {one.name}: {one.off or 'exact'} is printed for {one.worked} and {one.wanted}"
    yield from _armholes_asked(cloth.name, asked, said)
    yield from _upper_asked(cloth.name, asked, said)


def _armholes_asked(name: str, asked: AskedMeasures, said: PieceSaid) -> Iterator[str]:
    """Whether armholes are told as the file asks for them."""
    for printed in said.measures:
        if found := re.fullmatch(r"(?:(?P<side>left|right) edge )?armhole (?P<what>depth|width)", printed.name):
            for one in asked.armholes:
                cm = one.wide if found["what"] == "width" else one.high - one.low
                if found["side"] in (None, one.side) and not printed.wanted.says(cm):
                    yield f"{name}: {printed.name}: {printed.wanted} is printed as wanted, {shown(cm, 'cm')} asked"


def _upper_asked(name: str, asked: AskedMeasures, said: PieceSaid) -> Iterator[str]:
    """Whether armholes and cap of a panel worked sideways are told as the file asks for them."""
    for printed in said.measures:
        found = re.fullmatch(r".*\b(armhole depth|armhole width|cap edge)", printed.name)
        wanted = {"cap edge": asked.cap}
        if asked.arms is not None:
            wanted |= {"armhole depth": asked.arms[0], "armhole width": asked.arms[1]}
        cm = wanted.get(found[1]) if found else None
        if cm is not None and not printed.wanted.says(cm):
            yield f"{name}: {printed.name}: {printed.wanted} is printed as wanted, {shown(cm, 'cm')} asked"


def complete(cloth: WorkedCloth, asked: AskedMeasures, names: Sequence[str]) -> Iterator[str]:
    """The measures that are not printed at all, where those called ``names`` are."""
    wanted = [name for name in taken(cloth, asked) if not name.startswith("width at")]
    widths = sum(name.startswith("width") for name in names)
    for name in wanted:
        if not any(name in one for one in names):
            yield f"{cloth.name}: {name} is not printed"
    if widths < len(asked.heights):
        yield f"{cloth.name}: {widths} widths are printed of {len(asked.heights)}"


def arrows(cloths: dict[str, WorkedCloth], asked: dict[str, AskedMeasures], picture: ReadPicture) -> Iterator[str]:
    """What is wrong with the measuring arrows of the schematic: the label of each against the cloth, and its own length
    by the scale bar against its label. ``cloths`` and ``asked`` are by the names of pieces, in the order drawn."""
    if picture.scale is None:
        yield "the schematic has no scale bar"
        return
    near = 0.05 / picture.scale  # px of a drawing are rounded to hundredths
    for piece, arrow in _by_piece(cloths, picture.arrows):
        name, labels = _label(arrow)
        cloth = cloths[piece]
        if not labels:
            yield f"{piece}: an arrow of the schematic, {name}, has no length"
        yield from _differing(cloth, asked[piece], [(name, one) for one in labels], taped=True)
        drawn = arrow.px / picture.scale
        for printed in labels:
            if not printed.tapes(drawn, near):
                yield f"{piece}: an arrow of {shown(drawn, printed.unit)} is labelled {name} {printed}"


def as_drawn(pieces: Sequence[str], picture: ReadPicture) -> tuple[int, list[str]]:
    """Whether the alt text of the schematic tells the arrows that are drawn, each piece of its own, and the widths told
    in a line; and how many."""
    wrong, looked = [], 0
    for nth, name in enumerate(pieces, 1):
        labels = [_label(arrow) for arrow in picture.arrows if arrow.piece == nth]
        lines = " ".join(picture.words)
        for other in pieces:  # "sleeve 2" ends as a piece that is called "2"
            lines = lines.replace(f"{other}, further", "") if other != name and other.endswith(name) else lines
        labels += [(width, list(cms)) for _, width, cms in further(lines, name)]
        drawn = Counter((words, *map(str, cms)) for words, cms in labels)
        told = Counter((words, *map(str, cms)) for _, words, cms in drafted(picture.told, name))
        looked += told.total()
        wrong += [f"{name}: {' '.join(one)} is told and not drawn in the schematic" for one in told - drawn]
        wrong += [f"{name}: {' '.join(one)} is drawn and not told in the schematic" for one in drawn - told]
    return looked, wrong


def _by_piece(cloths: dict[str, WorkedCloth], found: Sequence[Arrow]) -> Iterator[tuple[str, Arrow]]:
    """Every arrow with its piece, by the number in its name: pieces are numbered in their order."""
    names = list(cloths)
    for arrow in found:
        yield names[arrow.piece - 1], arrow


def _label(arrow: Arrow) -> tuple[str, list[Length]]:
    """The name on an arrow and its lengths."""
    words = [one for one in arrow.words if not is_length(one)]
    return " ".join(words), [length(one) for one in arrow.words if one not in words]
