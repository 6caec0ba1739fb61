"""Words, names and symbols of others: whatever they hold, files stay what they are and nothing reaches out.

The oracle is mostly a twin: the same pattern with plain words in place of hostile ones must give pages of the same
elements, attributes and links. HTML is read by html5lib's strict parser, Markdown by markdown-it (CommonMark), SVG by
lxml, PDF by pypdf.
"""

from __future__ import annotations

import io
import json
import os
import re
import subprocess
import sys
import unicodedata
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import html5lib
import pypdf
import pytest
from lxml import etree
from markdown_it import MarkdownIt

from fault_injection import PROGRAM, contents, python, turnchain
from turnchain.drawing import glyphs
from turnchain.drawing.looks import Look
from turnchain.errors import MakerError, PatternError
from turnchain.making import everything, printed
from turnchain.making.record import FILE
from turnchain.pages import blog
from turnchain.planning.planner import plan_pattern
from turnchain.reading.pattern_file import read_tables, read_text

pytestmark = pytest.mark.slow

HOSTILE = [
    "<script>alert(1)</script>", '"><img src=x onerror=alert(1)>', "' onmouseover='alert(1)",
    "&lt;b&gt; &amp; &#x3c;i>",
    "]]>", "--><!--", "</title></style></script></svg></desc>", "[click](javascript:alert(1))", "| a | b |", "\\",
    "![x](https://evil.example/x.png)", "# heading", "- item", "+ item", "* item", "1. one", "2) two", "---", "===",
    "```", "~~~", "> said", "<https://evil.example>", "[x]: https://evil.example", "<!-- -->", "<?php ?>", "{{ 7*7 }}",
    "${x}", "%s %(x)s {0} {name}", "%3Cscript%3E", "x\u200by", "\U0001f469\u200d\U0001f33e", "שלום",
    "e\u0301", "a\u2028b",
    "javascript:alert(1)", "&#13;&#10;", "*bold* _em_ `code`", "  \u00a0 x", "$x$", "\\<b\\>", "~~gone~~", "a\u00adb",
]  # fmt: skip
PIECES = """
[[piece]]
name = "front"
worked = "sideways"
width = 12
length = 8
neck = { shoulder = 3, depth = 2 }
[[piece]]
name = "strip"
width = 8
length = 20
"""


def quoted(words: str) -> str:
    return json.dumps(words, ensure_ascii=False)


def pattern(words: list[str]) -> str:
    """A pattern whose every free text comes from ``words``, all of which are names of yarns too."""
    top = {key: words[i % len(words)] for i, key in enumerate(("title", "by", "licence", "date", "note"))}
    top["title"] = " ".join(words[:9])
    top["note"] = " ".join(words)
    text = "\n".join(f"{key} = {quoted(value)}" for key, value in top.items())
    text += "\n[swatch]\nclusters = 8\nwidth = 16\nrows = 10\nheight = 10\n"
    for i, name in enumerate(words):
        text += f'[[yarn]]\nname = {quoted(name)}\ncolour = "#{i * 5 % 256:02x}{i * 91 % 256:02x}77"\nstock = 3\n'
    order = ", ".join(map(quoted, words))
    return f"{text}[stripes]\norder = [{order}]\n{PIECES}"


TWIN = [f"yarn {i}" for i in range(len(HOSTILE))]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Everything made of the hostile pattern and of its twin."""
    folder = tmp_path_factory.mktemp("made")
    for name, words in (("hostile", HOSTILE), ("twin", TWIN)):
        (folder / f"{name}.toml").write_text(pattern(words), "utf-8")
        everything.make_all(folder / f"{name}.toml", folder / name, 400, Look())
        printed.print_booklet(folder / f"{name}.toml", folder / name / "booklet.pdf", "A4", Look(), None)
    return {name: folder / name for name in ("hostile", "twin")}


# ------------------------------------------------------------------------------------------------------------ HTML


def skeleton(path: Path) -> list[tuple[str, tuple[tuple[str, str], ...]]]:
    """Every element with its attributes, of which those that hold words are left empty."""
    read = html5lib.HTMLParser(strict=True).parse(path.read_text("utf-8"))
    found = []
    for element in read.iter():
        tag = str(element.tag).rpartition("}")[2]
        wordy = {"alt", "aria-label", "title", "data-key", "d", "x", "y", "data-name"}
        kept = tuple(sorted((str(key), "" if str(key) in wordy else value) for key, value in element.attrib.items()))
        found.append((tag, kept))
    return found


@pytest.mark.parametrize("name", ["index.html", "beside.html"])
def test_a_page_has_the_elements_of_its_twin(name: str, made: dict[str, Path]) -> None:
    hostile, twin = (skeleton(made[one] / name) for one in ("hostile", "twin"))
    outline = [(tag, tuple(key for key, _ in kept)) for tag, kept in hostile]
    assert outline == [(tag, tuple(key for key, _ in kept)) for tag, kept in twin]
    assert len(outline) > 100
    for tag, kept in hostile:
        assert tag not in ("object", "embed", "iframe", "base", "form", "frame", "applet"), tag
        for key, value in kept:
            assert not key.startswith("on"), (tag, key)
            if key in ("href", "src", "action", "formaction", "srcset", "poster") or key.endswith("href"):
                allowed = re.match(r"#[\w/.-]+$|[\w%.-]+\.(svg|png|txt|md|json|html)$|data:image/svg\+xml,", value)
                assert allowed, value


@pytest.mark.parametrize("name", ["index.html", "beside.html"])
def test_a_page_says_what_it_may_load_before_it_loads_anything(name: str, made: dict[str, Path]) -> None:
    text = (made["hostile"] / name).read_text("utf-8")
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', text)
    assert policy
    assert policy[1].startswith("default-src 'none'")
    assert "unsafe-eval" not in policy[1]
    assert "http:" not in policy[1]
    assert text.index(policy[0]) < text.index("<style")


# ------------------------------------------------------------------------------------------------------- Markdown


def outline(text: str) -> list[tuple[str, str]]:
    """Every token of a Markdown text, with where it leads; words left out."""
    found = []
    for token in MarkdownIt("commonmark").enable(["table", "strikethrough"]).parse(text):
        for one in [token, *(token.children or [])]:
            if one.type in ("text", "text_special", "softbreak"):
                continue
            assert not one.type.startswith("html"), one
            found.append((one.type, str(one.attrs.get("href", one.attrs.get("src", "")))))
    return found


def test_markdown_has_the_outline_of_its_twin(made: dict[str, Path]) -> None:
    hostile, twin = (outline((made[name] / "pattern.md").read_text("utf-8")) for name in ("hostile", "twin"))
    assert hostile == twin
    assert {kind for kind, _ in hostile} >= {"heading_open", "table_open", "image", "bullet_list_open"}


@pytest.mark.parametrize("words", HOSTILE)
def test_every_text_stands_in_markdown_as_it_was_written(words: str) -> None:
    """Each at the start of a line, where Markdown has signs that mean nothing elsewhere."""
    text = f"title = {quoted(words)}\nnote = {quoted(words)}\n[swatch]\nclusters = 8\nwidth = 16\nrows = 10\n"
    piece = 'height = 10\n[[piece]]\nname = "strip"\nwidth = 8\nlength = 3\n'
    plan = plan_pattern(read_text(text + piece, "a.toml"), "a")
    written = plan.pattern.note
    tokens = MarkdownIt("commonmark").enable(["table", "strikethrough"]).parse(blog.markdown(plan))
    told = ["".join(child.content for child in token.children or []) for token in tokens if token.type == "inline"]
    assert told[0] == written  # the title
    assert told[2] == written  # after the picture


# ------------------------------------------------------------------------------------------------- SVG, PDF, texts


def test_every_svg_holds_drawings_and_nothing_else(made: dict[str, Path]) -> None:
    elements = {"svg", "title", "desc", "defs", "g", "path", "use", "rect", "text"}
    for file in made["hostile"].glob("*.svg"):
        root = etree.parse(str(file), etree.XMLParser(resolve_entities=False, no_network=True)).getroot()
        assert not root.getroottree().docinfo.doctype
        for element in root.iter():
            assert isinstance(element.tag, str), (file, element)  # no comment, no instruction
            assert etree.QName(element).localname in elements
            for key, value in element.attrib.items():
                name = etree.QName(key).localname
                assert not name.startswith("on")
                assert name not in ("style", "class", "src")
                assert name != "href" or re.fullmatch(r"#[\w.-]+", value), value
                assert "url(" not in value
                assert "javascript" not in value


def test_titles_and_descriptions_say_the_words_themselves(made: dict[str, Path]) -> None:
    title = " ".join(HOSTILE[:9])
    root = etree.parse(str(made["hostile"] / "front.svg")).getroot()
    assert title in (root[0].text or "")
    assert json.loads((made["hostile"] / "plan.json").read_text("utf-8"))["title"] == title


def test_a_booklet_does_nothing_but_show(made: dict[str, Path]) -> None:
    read = pypdf.PdfReader(made["hostile"] / "booklet.pdf", strict=True)
    assert read.metadata is not None
    assert read.metadata.title == " ".join(HOSTILE[:9])
    forbidden = {f"/{word}" for word in ("JS", "JavaScript", "URI", "Launch", "AA", "OpenAction", "GoToR")}
    forbidden |= {"/EmbeddedFile", "/SubmitForm"}
    seen: set[int] = set()

    def look(value: Any) -> None:
        if isinstance(value, pypdf.generic.IndirectObject):
            if value.idnum in seen:
                return
            seen.add(value.idnum)
            value = value.get_object()
        if isinstance(value, dict):
            assert not forbidden & (set(value) | {one for one in value.values() if isinstance(one, str)}), value
            for one in value.values():
                look(one)
        elif isinstance(value, list):
            for one in value:
                look(one)

    look(read.trailer)
    assert len(seen) > 10


def upsetting(text: str) -> list[str]:
    """Letters that move a terminal's cursor, colour it, ring its bell or turn what it shows."""
    return [
        letter
        for letter in text
        if (unicodedata.category(letter) in ("Cc", "Cs") and letter != "\n")
        or "\u202a" <= letter <= "\u202e"
        or "\u2066" <= letter <= "\u2069"
    ]


def test_no_text_file_holds_anything_that_upsets_a_terminal(made: dict[str, Path]) -> None:
    for file in made["hostile"].iterdir():
        if file.suffix in (".txt", ".md", ".json", ".svg", ".html"):
            assert not upsetting(file.read_text("utf-8")), file


@pytest.mark.parametrize("words", [
    ("check", "{file}"), ("words", "{file}"), ("words", "{file}", "-o", "{name}.md"), ("new", "{name}"),
    ("make", "{file}", "-o", "{name}", "--width", "300"), ("chart", "{file}", "--piece", "strip", "-o", "{name}"),
    ("check", "{name}"), ("chart", "{file}", "--piece", "{name}", "-o", "a.svg"), ("{name}",), ("check", "--{name}"),
    ("chart", "{file}", "--piece", "strip", "-o", "{name}/a.svg"),
    ("print", "{file}", "--paper", "{name}", "-o", "a.pdf"),
    ("chart", "{file}", "--piece", "strip", "-o", "{name}.svg", "--width", "400"),
    ("chart", "{file}", "--piece", "strip", "-o", "a.svg", "--symbols", "{name}"),
    ("chart", "{file}", "--piece", "strip", "-o", "a.svg", "--detail", "{name}", "--at", "left"),
])  # fmt: skip
def test_nothing_upsets_the_terminal(words: tuple[str, ...], tmp_path: Path) -> None:
    """A name with colour, bell, a title for the window, a new line, turned letters, and a byte that is no UTF-8."""
    name = "a\x1b[31mb\x07\x1b]0;c\x07d\re\x9bf\u202eg\u2066h\nerror: i" + os.fsdecode(b"\xe9")
    text = pattern(["plain"]).replace("length = 20", "length = 3")
    (tmp_path / f"{name}.toml").write_text(text, "utf-8")
    filled = [word.format(file=f"{name}.toml", name=name) for word in words]
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, *filled],
        cwd=tmp_path, capture_output=True, timeout=60, check=False, stdin=subprocess.DEVNULL,
    )  # fmt: skip
    shown = (done.stdout + done.stderr).decode("utf-8")
    assert not upsetting(shown), shown
    assert "Traceback" not in shown
    assert "turnchain itself" not in shown
    assert not any(line.startswith("error: i") for line in shown.splitlines())


def test_letters_that_a_terminal_lacks(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(pattern(["Rücken ½ 背中"]).replace("length = 20", "length = 3"), "utf-8")
    environment = {**os.environ, "PYTHONIOENCODING": "latin-1"}
    for word in ("check", "words"):
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, word, "a.toml"],
            cwd=tmp_path, capture_output=True, timeout=60, check=False, env=environment,
        )  # fmt: skip
        assert (done.returncode, done.stderr) == (0, b"")
        assert b"R\xfccken \xbd \\u80cc" in done.stdout


# ----------------------------------------------------------------------------------------------- what is refused


def refused(**keys: object) -> str:
    """What is said of a pattern with these keys on top, or in its piece or yarn."""
    piece = {"name": keys.pop("piece", "front"), "width": 8, "length": 3}
    yarn = {"name": keys.pop("yarn", "Ink"), "colour": "#223344"}
    swatch = {"clusters": 8, "width": 16, "rows": 10, "height": 10}
    raw = {"title": "A", "swatch": [swatch], "piece": [piece], "yarn": [yarn], **keys}
    try:
        read_tables(raw, "a.toml")
    except PatternError as error:
        return str(error)
    return ""


CONTROLS = [chr(i) for i in (*range(9), 11, 12, *range(14, 32), *range(0x7F, 0xA0))]
TURNING = [chr(i) for i in (*range(0x202A, 0x202F), *range(0x2066, 0x206A))]
NO_LETTERS = ["\ud800", "\udfff", "\ufdd0", "\ufffe", "\uffff", "\U0001fffe", "\U0010ffff"]


@pytest.mark.parametrize("key", ["title", "by", "link", "licence", "date", "note", "yarn", "piece"])
def test_letters_that_hide_turn_or_are_none_are_refused_everywhere(key: str) -> None:
    for letter in [*CONTROLS, *TURNING, *NO_LETTERS]:
        said = refused(**{key: f"a{letter}b"})
        assert "must have no control characters and none that turn the direction of reading" in said, ascii(letter)
        assert not upsetting(said)
    piled = "must have at most 8 marks upon one letter"
    assert piled in refused(**{key: "Z" + "\u0335" * 9})
    assert piled not in refused(**{key: "Z" + "\u0335" * 8})


@pytest.mark.parametrize("name", [
    "../../x", "..", ".", "a/b", "a\\b", "/etc/passwd", ".hidden", "a:b", "CON", "nul", "Com1", "LPT9", "a.svg", "a*b",
    'a"b', "a?b", "a<b", "a|b", "~", "$HOME", "%41", "a;b", "index", "Plan", "", " ", "-", "\u0301", "a" * 61,
    "\U0001f600", "\U00020000" * 56, "a\u200bb", "a\u2028/b",
])  # fmt: skip
def test_names_of_pieces_that_no_file_should_have(name: str) -> None:
    assert 'piece' in refused(piece=name)


@pytest.mark.parametrize(("one", "other"), [("Front", "fRONT"), ("é", "e\u0301"), ("ﬁn", "fin"), ("Straße", "STRASSE")])
def test_names_that_some_disk_could_not_tell_apart(one: str, other: str) -> None:
    swatch = {"clusters": 8, "width": 16, "rows": 10, "height": 10}
    pieces = [{"name": name, "width": 8, "length": 3} for name in (one, other)]
    with pytest.raises(PatternError, match="has this name too"):
        read_tables({"title": "A", "swatch": [swatch], "piece": pieces}, "a.toml")


@pytest.mark.parametrize(("link", "taken"), [
    ("https://example.org/heron?a=b#c", True), ("http://example.org", True), ("example.org/heron", True),
    ("HTTPS://EXAMPLE.ORG", True), ("javascript:alert(1)", False), ("JavaScript:alert(1)", False),
    (" javascript:alert(1)", False), ("data:text/html,x", False), ("file:///etc/passwd", False), ("vbscript:x", False),
    ("mailto:a@example.org", False), ("//example.org", True),
])  # fmt: skip
def test_links_lead_to_pages(link: str, taken: bool) -> None:
    assert ("must be the address of a page" in refused(link=link)) != taken


# ---------------------------------------------------------------------------------------------------- Unicode names

NAMES = ["Rücken", "背中", "спинка", "ظهر", "पीठ", "e\u0301paule 2", "a" * 60, "\U00020000" * 55]


def test_names_of_any_script_work_everywhere(tmp_path: Path) -> None:
    """In the plain locale C too, which knows ASCII only."""
    pieces = "".join(f'[[piece]]\nname = "{name}"\nwidth = 4\nlength = 2\n' for name in NAMES)
    (tmp_path / "a.toml").write_text(pattern(["plain"]).split("[[piece]]")[0] + pieces, "utf-8")
    for words in (["make", "a.toml", "-o", "made", "--width", "300"], ["print", "a.toml", "--booklet", "-o", "a.pdf"]):
        done = subprocess.run(
            [sys.executable, "-c", PROGRAM, *words],
            cwd=tmp_path, capture_output=True, timeout=120, check=False, env={**os.environ, "LC_ALL": "C"},
        )  # fmt: skip
        assert done.returncode == 0
        assert all(line.startswith(b"note: ") for line in done.stderr.splitlines())  # letters without a font are told
    names = [unicodedata.normalize("NFC", name) for name in NAMES]
    files = set(contents(tmp_path / "made"))
    assert {f"{name}.svg" for name in names} <= files
    read = html5lib.HTMLParser(strict=True).parse((tmp_path / "made" / "index.html").read_text("utf-8"))
    links = [value for element in read.iter() for key, value in element.attrib.items() if key in ("href", "src")]
    led = [unquote(link) for link in links if not link.startswith("#")]
    assert all(link.isascii() for link in links)
    assert set(led) == files - {"index.html", FILE}  # the record is for the program alone
    pictures = re.findall(r"\]\(([^)]*\.png)\)", (tmp_path / "made" / "pattern.md").read_text("utf-8"))
    assert {f"{name}.png" for name in names} <= {unquote(one) for one in pictures}
    text = (tmp_path / "made" / "beside.html").read_text("utf-8")
    assert all(name in text for name in names)
    plan = json.loads((tmp_path / "made" / "plan.json").read_text("utf-8"))
    assert [piece["name"] for piece in plan["pieces"]] == names


# ---------------------------------------------------------------------------------------------------------- symbols


def symbol(body: str = "", head: str = "") -> str:
    """A sound symbol but for what stands in it."""
    ends = '<circle id="foot" cx="5" cy="9" r="0"/><circle id="head" cx="5" cy="1" r="0"/>'
    start = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 10 10"'
    return f'{head}{start} fill="none" stroke="currentColor">{body}<line x1="5" y1="9" x2="5" y2="1"/>{ends}</svg>'


LAUGHS = "".join(f'<!ENTITY l{i + 1} "{f"&l{i};" * 10}">' for i in range(9))


@pytest.mark.parametrize(("body", "head"), [
    ("&l9;", f'<!DOCTYPE svg [<!ENTITY l0 "ha">{LAUGHS}]>'),
    ("&x;", '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]>'),
    ("", '<!DOCTYPE svg SYSTEM "http://evil.example/svg.dtd">'),
    ("", '<!DOCTYPE svg [<!ENTITY % x SYSTEM "http://evil.example/x"> %x;]>'),
    ("<script>alert(1)</script>", ""), ('<style>@import "http://evil.example/a.css";</style>', ""),
    ('<image xlink:href="http://evil.example/a.png"/>', ""), ('<use xlink:href="/etc/passwd#a"/>', ""),
    ('<use xlink:href="dc.svg#foot"/>', ""), ('<path d="M 1 1" onload="alert(1)"/>', ""),
    ('<path d="M 1 1" fill="url(http://evil.example/a)"/>', ""), ('<a xlink:href="javascript:alert(1)"/>', ""),
    ("<foreignObject/>", ""), ('<animate attributeName="href"/>', ""), ("<set/>", ""),
    ('<path xml:base="http://evil.example/" d="M 1 1"/>', ""), ("<g>" * 7000 + "</g>" * 7000, ""),
    ("\x00", ""), ("\x1b[31m", ""), ("&#0;", ""), ("&#x1b;[31m<b/>", ""), (f'<path d="M 1 {"9" * 5000}"/>', ""),
    ('<xi:include xmlns:xi="http://www.w3.org/2001/XInclude" href="file:///etc/passwd"/>', ""),
])  # fmt: skip
def test_symbols_that_reach_out_or_grow_are_refused(body: str, head: str) -> None:
    with pytest.raises(MakerError) as caught:
        glyphs.parse("dc", "dc.svg", symbol(body, head).encode())
    assert str(caught.value).startswith("dc.svg: ")
    assert len(str(caught.value)) < 400


def test_what_stands_around_a_symbol_never_reaches_a_picture() -> None:
    head = '<?xml version="1.0"?><?xml-stylesheet href="http://evil.example/a.css"?><!-- <script/> -->'
    body = "<title>&lt;script&gt;</title><desc>x</desc>"
    assert glyphs.parse("dc", "dc.svg", symbol(body, head).encode()) == glyphs.parse("dc", "dc.svg", symbol().encode())


@pytest.mark.parametrize(
    "kind", ["pipe", "endless", "out", "outside by folders", "circle", "dangling", "folder", "huge"]
)
def test_a_folder_of_symbols_that_leads_elsewhere(kind: str, tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(pattern(["plain"]).replace("length = 20", "length = 3"), "utf-8")
    (tmp_path / "secret.svg").write_text(symbol(), "utf-8")
    folder = tmp_path / "symbols"
    folder.mkdir()
    file = folder / "dc.svg"
    match kind:
        case "pipe":
            os.mkfifo(file)
        case "folder":
            file.mkdir()
        case "huge":
            with file.open("wb") as stream:
                stream.truncate(2**40)
        case _:
            targets = {"endless": "/dev/zero", "out": "../secret.svg", "circle": "dc.svg", "dangling": "nowhere.svg"}
            file.symlink_to(targets.get(kind, f"{folder}/../secret.svg"))
    words = ("chart", "a.toml", "--piece", "strip", "-o", "a.svg", "--symbols", "symbols")
    done = turnchain(*words, folder=tmp_path, AS=2_000_000_000, CPU=60)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("error: symbols/dc.svg: ")
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "a.svg").exists()


@pytest.mark.parametrize("name", ["..", "../dc", "/etc/passwd", "dc.svg", "DC", "dc\n", "dc\0", "", "d c"])
def test_no_name_of_a_symbol_leads_out(name: str, tmp_path: Path) -> None:
    with pytest.raises(MakerError, match="is made of the letters a to z and _"):
        glyphs.load(name, tmp_path)


WATCHED = """
import os, sys
os.environ["TMPDIR"] = os.path.realpath("passing")
allowed = (os.path.realpath("made"), os.environ["TMPDIR"], "/dev/", "/proc/")
outward = ("socket", "subprocess", "ftplib", "smtplib", "urllib", "http", "webbrowser", "pty")
def hook(event, given):
    if event == "subprocess.Popen" and os.path.basename(str(given[0])) in ("fc-list", "fc-match"):
        return  # fonts of this machine are asked for here
    if event.split(".")[0] in outward or event in ("os.system", "os.exec", "os.spawn", "os.posix_spawn"):
        print("reached out:", event, file=sys.stderr)
    if event == "open" and isinstance(given[0], str) and isinstance(given[2], int):
        if given[2] & (os.O_WRONLY | os.O_RDWR) and not os.path.realpath(given[0]).startswith(allowed):
            print("wrote:", given[0], file=sys.stderr)
sys.dont_write_bytecode = True
sys.addaudithook(hook)
"""


def test_a_run_calls_nobody_and_writes_nowhere_else(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(pattern(HOSTILE), "utf-8")
    (tmp_path / "passing").mkdir()
    (tmp_path / "symbols").mkdir()
    (tmp_path / "symbols" / "dc.svg").write_text(symbol(), "utf-8")
    before = set(contents(tmp_path))
    words = ("make", "a.toml", "-o", "made", "--width", "400", "--symbols", "symbols")
    done = python(WATCHED + PROGRAM, *words, folder=tmp_path)
    assert done.returncode == 0
    assert all(line.startswith("note: ") for line in done.stderr.splitlines())  # letters without a font are told
    assert all(name.startswith("made/") for name in set(contents(tmp_path)) - before)
    probe = python(WATCHED + "open('b', 'w'); import socket; socket.socket()", folder=tmp_path)
    assert {line.split(":")[0] for line in probe.stderr.splitlines()} == {"wrote", "reached out"}  # the watch works


def test_pictures_are_of_their_kind(made: dict[str, Path]) -> None:
    from PIL import Image

    for file in made["hostile"].glob("*.png"):
        with Image.open(io.BytesIO(file.read_bytes())) as picture:
            picture.verify()
            assert set(picture.info) <= {"dpi", "gamma", "srgb", "transparency"}, file  # no text chunks
