"""Pages as PDF 1.7 documents: real vectors, and words that can be searched and copied.

In: pages of ``paper``, in mm. Out: bytes on a stream, the same for the same pages: no dates, and an identifier made
from the content. A definition becomes a *form*, an object of the document that is drawn by name wherever it is
used, on every page; a small one is written out instead, since drawing by name takes a viewer longer than that.
Its ink is the colour in force when it is drawn. A page holds only what its windows show.

Words are set in the shipped fonts, and letters that those lack in other fonts (``lettering.others``), each cut down to
the characters that occur. A character that no font has is drawn as the shipped font's box, plain to see; searching and
copying still find the character itself.

pydyf writes the objects: of the libraries measured it starts quickest (40 ms; pikepdf 110, reportlab 100, fpdf2 500),
is 8 kB without dependencies, leaves forms and fonts to its caller, packs objects into streams, and writes no time. It
checks nothing, so the tests let qpdf, poppler and pypdf read what it wrote.
"""

from __future__ import annotations

import hashlib
import math
import zlib
from collections.abc import Iterable, Sequence
from typing import BinaryIO, TypeAlias

import pydyf  # type: ignore[import-untyped]  # it has no types

from turnchain.lettering import faces, measuring
from turnchain.lettering.opened import Face
from turnchain.numbers import decimal
from turnchain.paper import Link, Page, PhotographView, View
from turnchain.raster.bounds import Bounds, Extents
from turnchain.records import field, frozen, mutable
from turnchain.scene import INK, Group, Item, Path, Scene, Text, Use, Weight
from turnchain.terminal import progress

POINTS_PER_MM = 72 / 25.4
#: The longest side of a page in points (ISO 32000-1, annex C.2).
LONGEST = 14_400
#: Definitions whose operators take no more bytes are written out where they are used.
SHORT = 400
LETTERS = {"M": "m", "L": "l", "C": "c", "Z": "h"}
CAPS = {"butt": "0 J", "round": "1 J"}
ROUND_JOINS = "1 j"

#: What operators may name: kind of resource, then name, then the reference to the object.
Resources: TypeAlias = dict[str, dict[str, bytes]]


def write(pages: Sequence[Page], stream: BinaryIO, *, title: str, language: str) -> None:
    """Writes ``pages`` in their order to ``stream``; ``title`` is shown in place of the file's name, and ``language``
    (BCP 47) is that of all words. A page's links count pages from 1. ValueError for no pages, for a link to
    none of them, for a page with a side over ``LONGEST`` points (5 m), and for a place that is no finite number."""
    if not pages:
        raise ValueError("a document has at least one page")
    document = _Document()
    for number, page in enumerate(pages):
        progress("pages", number, len(pages))
        document.add(page)
    document.finish(title, language, [page.label for page in pages])
    document.pdf.write(stream, identifier=True, compress=True)


@mutable
class _Content:
    """Operators, and the resources that they name."""

    operators: list[str] = field(default_factory=list)
    resources: Resources = field(default_factory=dict)

    def data(self) -> bytes:
        return "\n".join(self.operators).encode("ascii")

    def resource(self, kind: str, name: str, reference: bytes) -> str:
        """Notes that ``name`` stands for ``reference``; the operand that names it."""
        self.resources.setdefault(kind, {})[name] = reference
        return f"/{name}"

    def include(self, other: _Content) -> None:
        self.operators += other.operators
        for kind, names in other.resources.items():
            self.resources.setdefault(kind, {}).update(names)

    def short(self) -> bool:
        return "XObject" not in self.resources and sum(map(len, self.operators)) <= SHORT


@frozen(eq=False)
class _Drawn:
    """A scene being drawn: what it shows in flat order with the bounds of each, and its definitions as
    content, made when first needed."""

    scene: Scene
    extents: Extents
    leaves: list[tuple[Item, Bounds]]
    definitions: dict[str, _Content]


class _Document:
    """The document being put together."""

    def __init__(self) -> None:
        self.pdf = pydyf.PDF()
        self._fonts: dict[tuple[Weight, Face | None], _Font] = {}
        self._opacities: dict[str, bytes] = {}
        self._forms: dict[tuple[bytes, ...], tuple[str, bytes]] = {}
        self._photographs: dict[bytes, tuple[str, bytes]] = {}
        self._drawn: dict[int, _Drawn] = {}
        self._pages: list[tuple[pydyf.Dictionary, Page]] = []

    def add(self, page: Page) -> None:
        """Adds ``page`` behind those there are."""
        width, height = page.width * POINTS_PER_MM, page.height * POINTS_PER_MM
        if max(width, height) > LONGEST:
            raise ValueError(f"a page of {page.width:.0f} x {page.height:.0f} mm is too long: 5 m is the most")
        content = _Content([ROUND_JOINS])
        for placed in page.photographs:
            self._photograph(content, placed, height)
        for view in page.views:
            self._view(content, view, height)
        data = _packed(content.data())
        self.pdf.add_object(data)
        made = pydyf.Dictionary(
            {
                "Type": "/Page",
                "Parent": self.pdf.pages.reference,
                "MediaBox": pydyf.Array(["0", "0", _number(width), _number(height)]),
                "Resources": _named(content.resources),
                "Contents": data.reference,
            }
        )
        self.pdf.add_page(made)
        self._pages.append((made, page))

    def _photograph(self, content: _Content, placed: PhotographView, page: float) -> None:
        """Draws a photograph, its JPEG as it is; it is one object wherever it stands."""
        photograph = placed.photograph
        if photograph.data not in self._photographs:
            parts = {
                "Type": "/XObject",
                "Subtype": "/Image",
                "Width": photograph.width,
                "Height": photograph.height,
                "ColorSpace": "/DeviceRGB",
                "BitsPerComponent": 8,
                "Filter": "/DCTDecode",
            }
            made = pydyf.Stream([photograph.data], parts)
            self.pdf.add_object(made)
            self._photographs[photograph.data] = (f"P{len(self._photographs) + 1}", made.reference)
        left, wide, high = (_number(mm * POINTS_PER_MM) for mm in (placed.left, placed.width, placed.height))
        foot = _number(page - (placed.top + placed.height) * POINTS_PER_MM)
        alt = ("\ufeff" + photograph.alt).encode("utf-16-be", "replace").hex()
        named = content.resource("XObject", *self._photographs[photograph.data])
        content.operators.append(f"/Span <</Alt <{alt}>>> BDC q {wide} 0 0 {high} {left} {foot} cm {named} Do Q EMC")

    def finish(self, title: str, language: str, labels: Sequence[str]) -> None:
        """Adds what stands outside the pages."""
        for font in self._fonts.values():
            font.finish()
        for made, page in self._pages:
            if page.links:
                made["Annots"] = pydyf.Array([self._link(link, page) for link in page.links])
        self.pdf.info["Title"] = pydyf.String(measuring.printable(title))
        self.pdf.info["Producer"] = pydyf.String("turnchain")
        self.pdf.catalog["Lang"] = pydyf.String(measuring.printable(language))
        self.pdf.catalog["ViewerPreferences"] = "<</DisplayDocTitle true>>"
        if any(labels):
            entries: list[object] = []
            for index, label in enumerate(labels):
                words = pydyf.String(measuring.printable(label))
                number = pydyf.Dictionary({"P": words} if label else {"S": "/D", "St": index + 1})
                entries += [index, number]
            self.pdf.catalog["PageLabels"] = pydyf.Dictionary({"Nums": pydyf.Array(entries)})

    def _link(self, link: Link, page: Page) -> bytes:
        """The reference of an unseen box that leads to another page, all of which is shown."""
        if not 1 <= link.page <= len(self._pages):
            raise ValueError(f"a link to page {link.page} of {len(self._pages)}")
        target = self._pages[link.page - 1][0]
        top, bottom = page.height - link.top, page.height - link.bottom
        box = [_number(mm * POINTS_PER_MM) for mm in (link.left, bottom, link.right, top)]
        made = pydyf.Dictionary(
            {
                "Type": "/Annot",
                "Subtype": "/Link",
                "Rect": pydyf.Array(box),
                "Border": pydyf.Array([0, 0, 0]),
                "Dest": pydyf.Array([target.reference, "/Fit"]),
            }
        )
        self.pdf.add_object(made)
        reference: bytes = made.reference
        return reference

    def _view(self, content: _Content, view: View, page_height: float) -> None:
        scale, window = view.mm_per_px * POINTS_PER_MM, view.seen()
        left, top = view.left * POINTS_PER_MM, page_height - view.top * POINTS_PER_MM
        # from here on in px of the scene, y downwards, clipped to the window
        places = (scale, 0, 0, -scale, left - scale * window.left, top + scale * window.top)
        frame = " ".join(
            decimal(n) for n in (window.left, window.top, window.right - window.left, window.bottom - window.top)
        )
        content.operators += ["q", " ".join(map(_number, places)) + " cm", f"{frame} re W n"]
        if view.scene.background:
            content.operators += [_colour(view.scene.background, "rg"), f"{frame} re f"]
        drawn = self._scene(view.scene)
        for item, bounds in drawn.leaves:
            if bounds.meets(window):
                self._item(content, drawn, item)
        content.operators.append("Q")

    def _scene(self, scene: Scene) -> _Drawn:
        # by identity: pages hold the scenes, so that none can go and another take its place
        if id(scene) not in self._drawn:
            extents = Extents(scene.definitions)
            leaves = [(item, extents.of(item)) for item in _flat(scene.items)]
            self._drawn[id(scene)] = _Drawn(scene, extents, leaves, {})
        return self._drawn[id(scene)]

    def _definition(self, drawn: _Drawn, name: str) -> _Content:
        if name not in drawn.definitions:
            content = _Content()
            for item in _flat(drawn.scene.definitions[name]):
                self._item(content, drawn, item)
            drawn.definitions[name] = content
        return drawn.definitions[name]

    def _item(self, content: _Content, drawn: _Drawn, item: Item) -> None:
        match item:
            case Path():
                self._path(content, item)
            case Text():
                self._text(content, item)
            case Use():
                self._use(content, drawn, item)

    def _use(self, content: _Content, drawn: _Drawn, use: Use) -> None:
        made = self._definition(drawn, use.name)
        if not made.operators:
            return
        content.operators.append("q")
        if use.ink != INK:
            content.operators += [_colour(use.ink, "rg"), _colour(use.ink, "RG")]
        if use.x or use.y:
            content.operators.append(f"1 0 0 1 {decimal(use.x)} {decimal(use.y)} cm")
        if made.short():
            content.include(made)
        else:
            self._draw(content, made, drawn.extents.definition(use.name))
        content.operators.append("Q")

    def _draw(self, content: _Content, made: _Content, bounds: Bounds, together: bool = False) -> None:
        """Draws ``made`` by name, as one see-through whole where asked; equal content is one form, in whatever
        scene it stands."""
        data, resources = made.data(), _named(made.resources)
        box = [decimal(n) for n in (bounds.left - 1, bounds.top - 1, bounds.right + 1, bounds.bottom + 1)]
        key = (data, resources.data, " ".join(box).encode(), bytes(together))
        if key not in self._forms:
            form = _packed(data)
            form.extra |= {
                "Type": "/XObject",
                "Subtype": "/Form",
                "BBox": pydyf.Array(box),
                "Resources": resources,
            }
            if together:
                form.extra["Group"] = "<</S /Transparency /I true /CS /DeviceRGB>>"
            self.pdf.add_object(form)
            self._forms[key] = (f"F{len(self._forms) + 1}", form.reference)
        content.operators.append(content.resource("XObject", *self._forms[key]) + " Do")

    def _path(self, content: _Content, path: Path) -> None:
        stroked = path.stroke if decimal(path.width) != "0" else None  # a width of 0 is a hairline in PDF
        if not (path.fill or stroked) or not path.steps or path.opacity <= 0:
            return
        own: list[str] = []
        if path.fill and path.fill != INK:
            own.append(_colour(path.fill, "rg"))
        if stroked and stroked != INK:
            own.append(_colour(stroked, "RG"))
        if stroked and sum(path.dash) > 0:
            own.append(f"[{' '.join(map(decimal, path.dash))}] 0 d")
        pen = [decimal(path.width) + " w", CAPS[path.cap]] if stroked else []
        paint = "B" if path.fill and stroked else "f" if path.fill else "S"
        operators = [*own, *pen, _outline(path), paint]
        faint = path.opacity < 1
        if faint:
            operators.insert(0, self._opacity(content, path.opacity))
        if paint == "B" and faint:
            # drawn at once: otherwise the fill would show through its own stroke
            whole = _Content([*own, *pen, _outline(path), paint])
            content.operators += ["q", operators[0]]
            self._draw(content, whole, Extents({}).of(path), together=True)
            content.operators.append("Q")
        else:
            content.operators += ["q", *operators, "Q"] if own or faint else operators

    def _opacity(self, content: _Content, opacity: float) -> str:
        """The operator that sets ``opacity`` for fills, strokes and forms."""
        value = _number(opacity)
        if value not in self._opacities:
            state = pydyf.Dictionary({"Type": "/ExtGState", "ca": value, "CA": value})
            self.pdf.add_object(state)
            self._opacities[value] = state.reference
        return content.resource("ExtGState", f"O{value.replace('.', '_')}", self._opacities[value]) + " gs"

    def _text(self, content: _Content, text: Text) -> None:
        words = measuring.printable(text.words)
        if not words or decimal(text.size) == "0":
            return
        cosine, sine = math.cos(math.radians(text.turn)), math.sin(math.radians(text.turn))
        start = -measuring.SHIFTS[text.anchor] * measuring.measure(words, text.size, text.weight)
        turned = " ".join(map(_number, (cosine, sine, sine, -cosine)))
        place = f"{decimal(text.x + start * cosine)} {decimal(text.y + start * sine)}"
        own = [] if text.colour == INK else [_colour(text.colour, "rg")]
        (first, *more) = measuring.runs(words, text.weight)
        shown = f"{self._set_in(content, text, first[0])} {turned} {place} Tm {self._codes(text, *first)}"
        for face, run in more:  # each begins where the one before has ended
            shown += f" {self._set_in(content, text, face)} {self._codes(text, face, run)}"
        shown = f"BT {shown} ET"
        content.operators += ["q", *own, shown, "Q"] if own else [shown]

    def _set_in(self, content: _Content, text: Text, face: Face | None) -> str:
        """The operator that sets the font of ``face`` in the size of ``text``."""
        font = self._font(text.weight, face)
        return f"{content.resource('Font', font.name, font.reference)} {_number(text.size)} Tf"

    def _codes(self, text: Text, face: Face | None, run: str) -> str:
        return f"<{self._font(text.weight, face).codes(run)}> Tj"

    def _font(self, weight: Weight, face: Face | None) -> _Font:
        if (weight, face) not in self._fonts:
            others = sum(used is not None for _, used in self._fonts)
            self._fonts[weight, face] = _Font(self.pdf, weight, face, f"{weight}-{others + 1}" if face else weight)
        return self._fonts[weight, face]


class _Font:
    """A font in the document: the shipped one of ``weight``, or ``face``. Each character has a code of its own, in the
    order of first need, even where several are drawn as the box: so copied words are the true ones."""

    def __init__(self, pdf: pydyf.PDF, weight: Weight, face: Face | None, name: str) -> None:
        self._pdf, self._weight, self._face, self.name = pdf, weight, face, name
        self._codes: dict[str, int] = {}
        self._object = pydyf.Dictionary()
        pdf.add_object(self._object)

    @property
    def reference(self) -> bytes:
        """The reference to the font's object, for resources."""
        return bytes(self._object.reference)

    def codes(self, words: str) -> str:
        """``words`` in the codes of the font, as hexadecimals."""
        # 0 is left to the box
        return "".join(f"{self._codes.setdefault(c, len(self._codes) + 1):04x}" for c in words)

    def finish(self) -> None:
        """Adds the font itself, cut down to what was used."""
        used = "".join(self._codes)
        cut = self._face.cut(used, measuring.em(self._weight)) if self._face else faces.cut(self._weight, used)
        widths = [measuring.measure(character, 1000, self._weight) for character in self._codes]
        glyphs = b"".join(glyph.to_bytes(2, "big") for glyph in (0, *cut.glyphs.values()))
        tag = hashlib.sha256(cut.data).digest()[:6]
        name = f"/{''.join(chr(ord('A') + byte % 26) for byte in tag)}+{cut.name}"
        descriptor = pydyf.Dictionary(
            {
                "Type": "/FontDescriptor",
                "FontName": name,
                "Flags": 4,  # its own set of characters
                "FontBBox": pydyf.Array(cut.box),
                "ItalicAngle": 0,
                "Ascent": cut.ascent,
                "Descent": cut.descent,
                "CapHeight": cut.capital,
                "StemV": 80 if self._weight == "regular" else 120,
                "FontFile2": self._add(_packed(cut.data, {"Length1": len(cut.data)})),
            }
        )
        descendant = pydyf.Dictionary(
            {
                "Type": "/Font",
                "Subtype": "/CIDFontType2",
                "BaseFont": name,
                "CIDSystemInfo": "<</Registry (Adobe) /Ordering (Identity) /Supplement 0>>",
                "FontDescriptor": self._add(descriptor),
                "W": pydyf.Array([1, pydyf.Array(map(_number, widths))]),
                "CIDToGIDMap": self._add(_packed(glyphs)),
            }
        )
        self._object |= {
            "Type": "/Font",
            "Subtype": "/Type0",
            "BaseFont": name,
            "Encoding": "/Identity-H",
            "DescendantFonts": pydyf.Array([self._add(descendant)]),
            "ToUnicode": self._add(_packed(_to_unicode(self._codes))),
        }

    def _add(self, made: pydyf.Object) -> bytes:
        self._pdf.add_object(made)
        return bytes(made.reference)


def _to_unicode(codes: dict[str, int]) -> bytes:
    """The CMap that says which character each code stands for (ISO 32000-1, 9.10.3)."""
    pairs = [f"<{code:04x}> <{character.encode('utf-16-be').hex()}>" for character, code in codes.items()]
    blocks = [pairs[i : i + 100] for i in range(0, len(pairs), 100)]  # more are not allowed at a time
    mapped = "\n".join("\n".join([f"{len(block)} beginbfchar", *block, "endbfchar"]) for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap\n"
        "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
        "/CMapName /Adobe-Identity-UCS def /CMapType 2 def\n"
        "1 begincodespacerange <0000> <ffff> endcodespacerange\n"
        f"{mapped}\n"
        "endcmap CMapName currentdict /CMap defineresource pop end end"
    ).encode("ascii")


def _flat(items: Iterable[Item]) -> Iterable[Item]:
    """``items`` without their groups."""
    for item in items:
        if isinstance(item, Group):
            yield from _flat(item.items)
        else:
            yield item


def _packed(data: bytes, extra: dict[str, object] | None = None) -> pydyf.Stream:
    """A stream object of ``data``, deflated."""
    return pydyf.Stream([zlib.compress(data, 9)], {"Filter": "/FlateDecode"} | (extra or {}))


def _named(resources: Resources) -> pydyf.Dictionary:
    return pydyf.Dictionary({kind: pydyf.Dictionary(resources[kind]) for kind in sorted(resources)})


def _colour(colour: str, operator: str) -> str:
    """The operator that sets "#rrggbb" for fills (rg) or strokes (RG)."""
    channels = bytes.fromhex(colour.removeprefix("#"))
    return " ".join(f"{round(channel / 255, 3):g}" for channel in channels) + f" {operator}"


def _outline(path: Path) -> str:
    return "\n".join(" ".join((*map(decimal, numbers), LETTERS[letter])) for letter, *numbers in path.steps)


def _number(value: float) -> str:
    """``value`` to six decimals, for factors, turns and places in points. ValueError unless it is finite."""
    if not math.isfinite(value):
        raise ValueError(f"{value} has no place in a picture")
    words = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if words == "-0" else words
