"""SVG files: valid by the W3C's own DTD, safe, the same every time, and all ink where it belongs."""

from __future__ import annotations

import math
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path as FilePath

import pytest
from lxml import etree

from pictures import Picture, cairos, check_alike, opened, ours, svg_bytes
from turnchain.drawing import glyphs
from turnchain.lettering import measuring
from turnchain.records import replace
from turnchain.scene import INK, Anchor, Group, Item, Path, Scene, Text, Use, line, rectangle
from turnchain.writers import svg

# The document type definition of the W3C's Recommendation SVG 1.1 (second edition), as Debian packs it.
DTD = FilePath("/usr/share/xml/w3c-sgml-lib/schema/dtd/REC-SVG11-20110816/svg11.dtd")
NAMES = {"s": "http://www.w3.org/2000/svg"}
HREF = "{http://www.w3.org/1999/xlink}href"
DOT = (Path(line(5, 5, 5, 5), stroke=INK, width=6),)


def scene(*items: Item, definitions: dict[str, tuple[Item, ...]] | None = None, **options: object) -> Scene:
    settled = {
        "width": 60,
        "height": 40,
        "title": "A title",
        "words": "Some words",
        "language": "en",
    } | options
    return Scene(**settled, definitions=definitions or {}, items=items)  # type: ignore[arg-type]


def full() -> Scene:
    """Everything that a scene can hold."""
    dc = glyphs.place(glyphs.load("dc"), (0, 0), (0, -20), 2)
    row: tuple[Item, ...] = tuple(Use("dc", 10.5 * i, 0, INK) for i in range(3))
    return scene(
        Group((Use("3-row", 10, 30, "#aa0000"), Use("dc", 50, 30, "#0000aa")), "row-1", "Row 1: three dc"),
        Group((Group((Text(5, 35, "12 ½ <&>", 8, "#222222", "semibold", "middle", 30),)),)),
        Text(5, 35, "漢字", 8, "#222222", "semibold", "end", 30),
        Path(line(0, 0, 60, 40), stroke="#000000", cap="butt", dash=(4, 2.5)),
        Path(rectangle(1, 1, 5, 5), fill="#00ff00", stroke="#ff0000", opacity=0.5),
        definitions={"dc": dc, "3-row": row},
    )


def tree(of: Scene) -> etree._Element:
    return etree.fromstring(svg_bytes(of))


@pytest.mark.skipif(not DTD.exists() or not shutil.which("xmllint"), reason="the W3C's DTD is not on this machine")
@pytest.mark.parametrize("spoil", [False, True])
def test_valid_by_the_dtd(spoil: bool, tmp_path: FilePath) -> None:
    file = tmp_path / "chart.svg"
    data = svg_bytes(full())
    # that the check can fail: one attribute that SVG 1.1 lacks
    file.write_bytes(data.replace(b"<path ", b'<path aria-label="" ', 1) if spoil else data)
    command = ["xmllint", "--noout", "--nonet", "--dtdvalid", str(DTD), str(file)]
    run = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (run.returncode != 0) == spoil, run.stderr


def test_title_and_words_come_first_with_language_and_size() -> None:
    root = tree(full())
    assert [etree.QName(child).localname for child in root][:2] == ["title", "desc"]
    assert (root[0].text, root[1].text) == ("A title", "Some words")
    assert root.get("{http://www.w3.org/XML/1998/namespace}lang") == "en"
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("60px", "40px", "0 0 60 40")


def test_same_scene_same_bytes() -> None:
    assert svg_bytes(full()) == svg_bytes(full())


def bare(element: etree._Element) -> tuple[object, ...]:
    """An element with all that is in it, without namespaces and descriptions."""
    attributes = {etree.QName(name).localname: str(value) for name, value in element.attrib.items()}
    inside = [bare(child) for child in element if etree.QName(child).localname != "desc"]
    return etree.QName(element).localname, attributes, (element.text or "").strip(), inside


def test_a_page_holds_the_same_picture_without_names_of_its_own_and_descriptions() -> None:
    whole = full()
    empty = Group((Text(5, 35, " ", 8, "#222222"), Group((), "named", "Nothing"), *whole.items[2:]), words="All else")
    of = replace(whole, items=(*whole.items[:2], empty))
    texts = svg.inline(of)
    assert not re.search(r"\s<|>\s|xlink|desc|<g[^>]*></g>", texts[0] + "".join(texts[1]))
    definitions, *groups = (bare(child) for child in tree(of)[2:])
    assert bare(etree.fromstring(texts[0])) == definitions
    assert [bare(etree.fromstring(f"<g>{inside}</g>"))[3] for inside in texts[1]] == [group[3] for group in groups[1:]]


def test_numbers_are_short() -> None:
    places = (-0.001, 1e-7, 12345678.125, 1 / 3)
    data = svg_bytes(scene(Path((("M", *places[:2]), ("L", *places[2:])), stroke="#000000", width=0.1 + 0.2)))  # type: ignore[arg-type]
    assert b'd="M0 0L12345678.12 0.33"' in data
    assert b'stroke-width="0.3"' in data
    # factors of words need more decimals than places: a font unit is far smaller than a px
    everything = re.sub(r"scale\(0\.\d{1,9}\)", "", svg_bytes(full()).decode())
    assert not re.search(r"\d\.\d{3}|\d[eE][-+]?\d|(?<![\d.])-0(?![\d.])", everything)


@pytest.mark.parametrize("value", [math.nan, math.inf])
def test_no_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="no place in a picture"):
        svg_bytes(scene(Path(line(0, 0, value, 1), stroke="#000000")))


def test_control_characters_never_reach_the_file() -> None:
    bad = "a\x00b\x0bc\x1fd\x7fe\x85f\ud800g\uffffh <script>&amp;"
    data = svg_bytes(scene(Text(1, 1, bad, 8, "#000000"), Group((), words=bad), title=bad, words=bad, language=bad))
    root = etree.fromstring(data)  # lxml accepts only what XML 1.0 does
    kept = "ab c de f\N{REPLACEMENT CHARACTER}g\N{REPLACEMENT CHARACTER}h <script>&amp;"
    assert root[0].text == kept
    assert not root.findall(".//s:script", NAMES)
    assert not re.search(rb"[\x00-\x09\x0b-\x1f\x7f]|\xc2[\x80-\x9f]", data)


def test_covered_words_are_outlines_with_the_words_beside_them() -> None:
    root = tree(scene(Text(1, 1, "Row 1", 8, "#123456")))
    (group,) = root.findall("s:g", NAMES)
    # desc: no tooltips; a blank needs no use
    assert [etree.QName(child).localname for child in group] == ["desc", "use", "use", "use", "use"]
    assert group[0].text == "Row 1"
    assert group.get("fill") == "#123456"
    assert not root.findall(".//s:text", NAMES)


def test_each_character_of_a_weight_is_stated_once() -> None:
    root = tree(scene(
        Text(1, 1, "noon", 8, "#123456"),
        Text(1, 9, "on", 12, "#654321"),
        Group((Text(1, 20, "o", 8, "#123456", "semibold"),)),
    ))  # fmt: skip
    stated = [path.get("id") for path in root.findall("s:defs/s:path", NAMES)]
    assert sorted(stated) == ["r.6e", "r.6f", "s.6f"]
    outlines = [path.get("d") for path in root.findall("s:defs/s:path", NAMES)]
    assert all(re.fullmatch(r"([MLHVQ][-\d. ]+|Z)+", outline) for outline in outlines)
    assert {use.get(HREF) for use in root.findall(".//s:use", NAMES)} == {f"#{name}" for name in stated}
    assert not root.findall(".//s:g/s:path", NAMES)


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
def test_characters_stand_where_their_advances_put_them(anchor: Anchor) -> None:
    text = Text(30, 20, "1 ½w", 13, "#000000", "semibold", anchor, 30)
    (group,) = tree(scene(text)).findall("s:g", NAMES)
    assert group.get("transform") == "translate(30 20) rotate(30) scale(0.0065)"  # Lato has 2000 units to the em
    places = [float(use.get("x", "0")) for use in group.findall("s:use", NAMES)]
    before = [measuring.measure(words, 2000, "semibold") for words in ("", "1 ", "1 ½")]
    start = {"start": 0, "middle": 0.5, "end": 1}[anchor] * measuring.measure(text.words, 2000, "semibold")
    assert places == pytest.approx([each - start for each in before], abs=0.1)


def test_uses_say_no_more_than_needed() -> None:
    row: tuple[Item, ...] = tuple(Use("dc", x, 0, INK) for x in (0, 8))
    lines = svg_bytes(scene(Use("row", 4, 30.5, "#aa0000"), definitions={"dc": DOT, "row": row})).decode().splitlines()
    assert [line for line in lines if "<use" in line] == [
        '<use xlink:href="#dc"/>',
        '<use x="8" xlink:href="#dc"/>',
        '<use color="#aa0000" x="4" xlink:href="#row" y="30.5"/>',
    ]
    assert all(line.count("<") <= 2 and line == line.strip() for line in lines)


@pytest.mark.parametrize("size", [math.nan, math.inf])
def test_a_size_that_is_no_number_is_refused(size: float) -> None:
    with pytest.raises(ValueError, match="no place in a picture"):
        svg_bytes(scene(Text(0, 0, "a", size, "#000000")))


def test_other_words_are_live_text() -> None:
    (text,) = tree(scene(Text(1, 2, "漢字", 8, "#123456", "semibold", "end", 90))).findall("s:text", NAMES)
    assert text.text == "漢字"
    expected = {"x": "1", "y": "2", "font-family": "sans-serif", "font-weight": "600", "text-anchor": "end"}
    assert expected.items() <= dict(text.attrib).items()
    assert text.get("transform") == "rotate(90 1 2)"


def test_ink_passes_through_nested_uses() -> None:
    pair: tuple[Item, ...] = (Use("dot", 0, 0, INK), Use("dot", 10, 0, "#00ff00"))
    nested = scene(Use("pair", 0, 0, "#ff0000"), definitions={"dot": DOT, "pair": pair}, width=20, height=10)
    picture = cairos(nested)
    assert picture[5, 5].tolist() == [255, 0, 0]
    assert picture[5, 15].tolist() == [0, 255, 0]


def words() -> Scene:
    """Every way to place covered words, in a definition too."""
    return scene(
        Text(10, 30, "Granny stripe 0123456789", 18, "#222222", "semibold"),
        Text(230, 60, "Row 12: ch 3, (3 dc) × 40½", 11, "#222222", anchor="end"),
        Text(120, 120, "turned", 24, "#b23a48", anchor="middle", turn=-35),
        Use("letter", 20, 100, "#1d4e89"),
        Use("letter", 200, 140, "#3a7d44"),
        definitions={"letter": (Text(0, 0, "gf", 30, INK), Path(line(0, 4, 30, 4), stroke=INK, width=2))},
        width=240,
        height=160,
    )


def _librsvgs(data: bytes) -> Picture:
    return opened(subprocess.run(["rsvg-convert"], input=data, capture_output=True, check=True).stdout)


def _resvgs(data: bytes) -> Picture:
    return opened(pytest.importorskip("resvg_py").svg_to_bytes(svg_string=data.decode()))


@pytest.mark.parametrize("draw", [
    pytest.param(_librsvgs, marks=pytest.mark.skipif(
        not shutil.which("rsvg-convert"), reason="librsvg's rsvg-convert is not on this machine")),
    _resvgs,
])  # fmt: skip
def test_other_renderers_agree(draw: Callable[[bytes], Picture]) -> None:
    covered = full()
    covered = scene(*(item for item in covered.items if not isinstance(item, Text)), definitions=covered.definitions)
    # 2,400 px of which every other one is an edge, and each renderer has its own arithmetic for edges
    check_alike(draw(svg_bytes(covered)), cairos(covered), mean=3, near=0.95)
    check_alike(draw(svg_bytes(words())), cairos(words()), mean=1, near=0.98)


def test_words_are_drawn_where_the_png_has_them() -> None:
    check_alike(cairos(words()), ours(words()))


def test_background() -> None:
    assert cairos(scene(), "RGBA")[0, 0].tolist() == [255, 255, 255, 255]
    assert cairos(scene(background=None), "RGBA")[0, 0].tolist() == [0, 0, 0, 0]
