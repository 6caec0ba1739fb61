"""The page beside the work: sound HTML, the plan's own numbers, and every control in a real browser.

The browser is Debian's chromium; axe-core is looked for where TURNCHAIN_AXE says (the file axe.min.js), then in
node_modules of the repository. Where either is missing these tests are left out, but with CI=true they fail.
"""

from __future__ import annotations

import base64
import hashlib
import html
import io
import math
import os
import random
import re
import shutil
from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction
from functools import cache, partial
from pathlib import Path
from typing import Any

import html5lib
import pytest
from click.testing import CliRunner
from PIL import Image

from turnchain import file_names, style
from turnchain.cli import cli
from turnchain.drawing.colours import tint
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.garment.edging import planned as edging
from turnchain.making import planned
from turnchain.making.everything import make_all
from turnchain.pages.beside import page as beside
from turnchain.pages.beside.colours import ON_A_TINT, veil
from turnchain.pattern import Pattern, Piece, Swatch, Yarn
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.reading.pattern_file import read_file, read_sizes, read_text
from turnchain.records import replace
from turnchain.wording import words
from turnchain.yarns import figures as yarn

pytestmark = pytest.mark.slow

HERE = Path(__file__).parent
CASES = {file.stem: file for file in sorted((HERE / "cases").glob("*.toml"))}
CASES["starter"] = HERE.parent / "src" / "turnchain" / "starter.toml"
X = "{http://www.w3.org/1999/xhtml}"
S = "{http://www.w3.org/2000/svg}"

NASTY = (
    "Kelp</style><script>alert(1)</script>",
    "a\"b\\c 'd' & مدّ البحر, x): 3 cl (y). z",
    "<img src=x onerror=alert(1)>",
)


def nasty() -> Plan:
    """Names that would break a careless page, a neck that divides a piece, two yarns of one colour."""
    cm = Fraction
    pattern = Pattern(
        title="Tide & <script>alert('1')</script> \"quoted\" مدّ",
        by="</title><img src=x onerror=alert(2)>",
        note="שלום <b>bold</b> \ufdd0",
        terms="UK",
        units="in",
        swatches=(Swatch(cm(8), cm(16), cm(10), cm(10), weight=cm(49, 4)),),
        yarns=(
            Yarn(NASTY[0], "#2f6b5e", stock=Fraction(125, 2), metres_per_100g=cm(250)),
            Yarn(NASTY[1], "#777777", keep=Fraction(11, 4)),
            Yarn(NASTY[2], "#777777", metres_per_100g=cm(180), ball=cm(50)),
        ),
        stripes=planned(CASES["kite_kerchief"]).pattern.stripes,
        pieces=(
            Piece("front", width=cm(42), length=cm(40), neck=_neck()),
            Piece("خلفي", count=2, outline=((cm(0), cm(4)), (cm(24), cm(40)))),
        ),
    )
    assert pattern.stripes is not None
    return plan_pattern(replace(pattern, stripes=replace(pattern.stripes, order=NASTY, rows=(2, 1, 1))), "nasty")


def _neck() -> Any:
    from turnchain.pattern import Neck

    return Neck(Fraction(12), Fraction(9), "round")


def triangle() -> Plan:
    """168 rows that grow to some hundred clusters, no two of one length."""
    plan = planned(CASES["kite_kerchief"])
    swatch = Swatch(Fraction(8), Fraction(16), Fraction(10), Fraction(10))
    outline = ((Fraction(0), Fraction(2)), (Fraction(168), Fraction(170)))
    return plan_pattern(replace(plan.pattern, swatches=(swatch,), pieces=(Piece("shawl", outline=outline),)), "shawl")


@pytest.fixture(scope="module")
def plans() -> dict[str, Plan]:
    more = {"nasty": nasty(), "edged": plan_pattern(read_text(EDGED, "x"))}
    return {name: planned(file) for name, file in CASES.items()} | more


@pytest.fixture(scope="module")
def texts(plans: dict[str, Plan]) -> dict[str, str]:
    pages = {name: beside.page(plan) for name, plan in plans.items()}
    return {**pages, "sizes": beside.page_of_sizes(sizes())}


ALL = [*CASES, "nasty", "edged"]
SIZED = """
title = "Mat and bag"
sizes = ["6-8", "age 9", "L/XL"]
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
[[yarn]]
name = "Reed"
colour = "#b9b36a"
[[piece]]
name = "mat"
width = "20 (25, 30)"
length = "10 (15, 20)"
[[piece]]
name = "bag"
width = "– (–, 20)"
length = "– (–, 15)"
"""


EDGED = """
title = "Saltpan mat"
[swatch]
clusters = 4
width = 10
rows = 8
height = 10
[[yarn]]
name = "Reed"
colour = "#b9b36a"
[[piece]]
name = "mat"
width = 20
length = 15
[[edging]]
edges = "mat.left"
rows = 3
buttonholes = 2
tie = 10
"""


@cache
def sizes() -> tuple[Plan, ...]:
    """A mat, and in the largest size a bag; the sizes have names that stand in no style sheet as they are."""
    return plan_sizes(read_sizes(SIZED, "x"))


def parsed(text: str) -> Any:
    return html5lib.HTMLParser(strict=True, tree=html5lib.getTreeBuilder("etree")).parse(text)


def of_class(root: Any, kind: str, tag: str = "*") -> list[Any]:
    return [one for one in root.iter() if isinstance(one.tag, str) and kind in one.get("class", "").split()]


def said(element: Any) -> str:
    return "".join(element.itertext())


def rows_of(plan: Plan) -> Iterator[tuple[int, PiecePlan, Row]]:
    for number, piece in enumerate(plan.pieces, 1):
        for row in piece.rows:
            yield number, piece, row


# ------------------------------------------------------------------------------------------------- without a browser


@pytest.mark.parametrize("name", [*ALL, "sizes"])
def test_sound_html(texts: dict[str, str], name: str) -> None:
    root = parsed(texts[name])
    ids = Counter(one.get("id") for one in root.iter() if one.get("id"))
    assert not [anchor for anchor, times in ids.items() if times > 1]
    for one in root.iter():
        if (target := one.get("href", "")).startswith("#"):
            assert target[1:] in ids, target
        for told in ("for", "aria-labelledby"):
            assert one.get(told) is None or one.get(told) in ids


@pytest.mark.parametrize("name", [*ALL, "sizes"])
def test_strict_policy(texts: dict[str, str], name: str) -> None:
    text, root = texts[name], parsed(texts[name])
    policy = next(one.get("content") for one in root.iter(f"{X}meta") if one.get("http-equiv"))
    scripts, styles = list(root.iter(f"{X}script")), list(root.iter(f"{X}style"))
    assert (len(scripts), len(styles)) == (1, 1)
    for kind, (element,) in (("script", scripts), ("style", styles)):
        digest = base64.b64encode(hashlib.sha256(element.text.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{digest}'" in policy
    assert policy.startswith("default-src 'none'; ")
    assert "unsafe" not in policy
    assert text.index("Content-Security-Policy") < text.index("<style>")
    for one in root.iter():
        assert not [key for key in one.attrib if key.startswith("on") or key in ("style", "src", "srcdoc")], one.attrib
        href = one.get("href", "#")
        assert href.startswith("#") or (one.tag == f"{X}link" and href.startswith("data:image/svg+xml,"))
    assert "innerHTML" not in scripts[0].text


@pytest.mark.parametrize("name", ALL)
def test_same_bytes(plans: dict[str, Plan], texts: dict[str, str], name: str) -> None:
    assert beside.page(plans[name]) == texts[name]


def test_what_makers_wrote_stays_words(texts: dict[str, str], plans: dict[str, Plan]) -> None:
    root = parsed(texts["nasty"])
    pattern = plans["nasty"].pattern
    assert said(next(root.iter(f"{X}h1"))) == pattern.title
    assert not list(root.iter(f"{X}img"))
    isolated = {said(one) for one in root.iter(f"{X}bdi")}
    assert set(NASTY) | {"front", "خلفي", "שלום <b>bold</b> �"} <= isolated
    assert not [one for one in of_class(root, "words") if NASTY[1] in said(one) and not list(one.iter(f"{X}bdi"))]


@pytest.mark.parametrize("name", ALL)
def test_rows_are_the_plans(plans: dict[str, Plan], texts: dict[str, str], name: str) -> None:
    plan, root = plans[name], parsed(texts[name])
    items = [one for one in root.iter(f"{X}li") if one.get("data-chart")]
    assert len(items) == sum(len(piece.rows) for piece in plan.pieces)
    drawn = {one.get("id"): one for one in root.iter(f"{S}g") if one.get("id")}
    for item, (number, piece, row) in zip(items, rows_of(plan), strict=True):
        band, *stitches = list(drawn[item.get("data-chart")])
        assert band.get("fill") == f"var(--t{item.get('data-yarn')})"
        assert stitches[-1].get("color") == "var(--stitch)"
        section = "" if row.section == "body" else f"{row.section.replace(' ', '-')}/"
        assert item.get("id") == f"piece-{number}/{section}row-{row.number}"
        (link,) = of_class(item, "row")
        assert said(link).split()[:2] == ["Row", str(row.number)]
        (side,) = of_class(item, "side")
        assert said(side).startswith("Right side from the right" if row.number % 2 else "Wrong side from the left")
        (count,) = of_class(item, "count")
        assert said(count).startswith(f"{row.clusters} cluster")
        for kind, term in (("us", "US"), ("uk", "UK")):
            parts = [said(one) for one in of_class(item, kind)]
            told = f"{parts[0]} {row.clusters} cl ({parts[1]}).{' ' if parts[2:] else ''}{''.join(parts[2:])}"
            assert words.row_words(piece, row, term).endswith(f"): {told}")
            dc = "dc" if kind == "us" else "tr"
            assert parts[1].startswith(f"{row.counts.dc} {dc}")
        if row.colour:
            (chip,) = of_class(item, "yarn")
            index = [one.name for one in plan.pattern.yarns].index(row.colour)
            assert said(chip) == f"{style.letter(index)} {row.colour}"
            assert item.get("data-yarn") == str(index + 1)
    begins = [said(one) for one in of_class(root, "chain")]
    assert begins == [f"Begin with a chain of {p.foundation_chain}." for p in plan.pieces for _ in ("card", "list")]


def test_rows_of_all_sizes_are_the_plans(texts: dict[str, str]) -> None:
    """Each size says what its own page says, in a part of its own."""
    blocks = of_class(parsed(texts["sizes"]), "size")
    for plan, block in zip(sizes(), blocks, strict=True):
        alone = of_class(parsed(beside.page(plan)), "piece")
        assert [said(one) for one in of_class(block, "piece")] == [said(one) for one in alone]
        assert block.get("data-key") == parsed(beside.page(plan)).find(".//*[@data-key]").get("data-key")


@pytest.mark.parametrize("name", ALL)
def test_lengths_are_the_plans(plans: dict[str, Plan], texts: dict[str, str], name: str) -> None:
    plan, root = plans[name], parsed(texts[name])
    likely = yarn.density(plan.pattern).likely
    tables = [table for table in root.iter(f"{X}table") if table.get("class") == "left"]
    assert len(tables) == len(plan.pieces)
    items = iter([one for one in root.iter(f"{X}li") if one.get("data-chart")])
    for table, piece in zip(tables, plan.pieces, strict=True):
        told = [next(items) for _ in piece.rows]
        for line in (one for one in table.iter(f"{X}tr") if one.get("data-yarn")):
            one = plan.pattern.yarns[int(line.get("data-yarn")) - 1]
            mine = [row for row in piece.rows if row.colour == one.name]
            assert said(of_class(line, "rows")[0]) == str(len(mine))
            if likely is None:
                assert not of_class(line, "long")
                continue
            grams = likely * sum(yarn.row_area(piece, row) for row in mine)
            unit, whole = "g", grams
            if one.metres_per_100g:
                inches = plan.pattern.units == "in"
                unit, whole = ("yd" if inches else "m"), grams * one.metres_per_100g / (yarn.YARD if inches else 100)
            thousandths = sum(int(told[row.index].get("data-long")) for row in mine)
            assert abs(Fraction(thousandths, 1000) - whole) <= Fraction(1, 1000)
            assert said(of_class(line, "long")[0]) == f"{math.ceil(thousandths / 1000)}\u00a0{unit}"


@pytest.mark.parametrize(("plan", "most"), [("mudflat_blanket", 600_000), ("triangle", 1_900_000)])
def test_large_pieces_stay_light(plans: dict[str, Plan], plan: str, most: int) -> None:
    text = beside.page(triangle() if plan == "triangle" else plans[plan])
    assert len(text.encode()) < most
    drawn = len(re.findall("<(use|path)", text))
    assert drawn < 12_000


def test_a_pattern_without_yarns() -> None:
    plan = planned(CASES["kite_kerchief"])
    plain = plan_pattern(replace(plan.pattern, yarns=(), stripes=None), "plain")
    root = parsed(beside.page(plain))
    assert not of_class(root, "pickers")
    assert not of_class(root, "yarn")
    assert not of_class(root, "left")


def test_for_left_handed_makers(plans: dict[str, Plan]) -> None:
    root = parsed(beside.page(plans["heron_top"], Look(hand="left")))
    told = [said(one) for one in of_class(root, "side")]
    assert told[0].startswith("Right side from the left →")
    assert {one.get("data-from") for one in root.iter(f"{X}li") if "row-2" in one.get("id", "").split("/")} == {"right"}


def test_command(tmp_path: Path, texts: dict[str, str]) -> None:
    out = tmp_path / "heron.html"
    ran = CliRunner().invoke(cli, ["page", str(CASES["heron_top"]), "-o", str(out)])
    assert (ran.exit_code, ran.output) == (0, f"{out}\n")
    assert out.read_text("utf-8") == texts["heron_top"]
    wrong = CliRunner().invoke(cli, ["page", str(CASES["heron_top"]), "-o", str(tmp_path / "heron.pdf")])
    assert wrong.exit_code == 2
    assert "must end in .html" in wrong.output


def test_made_with_everything_and_linked(tmp_path: Path, texts: dict[str, str]) -> None:
    make_all(CASES["kite_kerchief"], tmp_path, None, Look())
    assert (tmp_path / file_names.BESIDE).read_text("utf-8") == texts["kite_kerchief"]
    assert f'<a href="{file_names.BESIDE}">' in (tmp_path / "index.html").read_text("utf-8")


# ----------------------------------------------------------------------------------------------------- in a browser

CHROMIUM = "/usr/bin/chromium"
ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]
SMALL, LARGE = 360, 1440
HEIGHTS = {320: 640, SMALL: 740, LARGE: 900}


def missing(what: str) -> None:
    if os.environ.get("CI") == "true":
        pytest.fail(f"{what} is missing")
    pytest.skip(f"{what} is not on this machine")


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    if not shutil.which(CHROMIUM):
        missing("chromium")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield started
        started.close()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory, texts: dict[str, str]) -> Path:
    made = tmp_path_factory.mktemp("pages")
    for name, text in texts.items():
        (made / f"{name}.html").write_text(text, "utf-8")
    return made


@pytest.fixture(scope="module")
def axe() -> str:
    places = [Path(os.environ.get("TURNCHAIN_AXE", "/nowhere"))]
    places += [above / "node_modules" / "axe-core" / "axe.min.js" for above in HERE.parents]
    found = next((place for place in places if place.is_file()), None)
    if found is None:
        missing("axe-core (npm install axe-core)")
    assert found is not None
    return found.read_text("utf-8")


class Reader:
    """A browser with pages open, that takes note of everything the console says."""

    def __init__(self, browser: Any, folder: Path, width: int, **options: Any) -> None:
        self.folder, self.width = folder, width
        size = {"width": width, "height": HEIGHTS[width]}
        self.context = browser.new_context(viewport=size, has_touch=True, **options)
        self.said: list[str] = []
        self.page = self.context.new_page()
        self.page.set_default_timeout(10_000)
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda error: self.said.append(str(error)))
        self.page.on("request", self._asked)

    def _asked(self, request: Any) -> None:
        if not request.url.startswith(("file:", "data:")):
            self.said.append(request.url)

    def open(self, name: str, address: str = "") -> Any:
        self.page.goto("about:blank")
        self.page.goto(f"{(self.folder / name).with_suffix('.html').as_uri()}{address}")
        return self.page

    def address(self) -> str:
        return str(self.page.evaluate("decodeURIComponent(location.hash)"))

    def card(self) -> str:
        return str(self.page.locator(".card:visible").inner_text())

    def title(self) -> str:
        return str(self.page.locator(".card:visible .row").inner_text()).split("\n")[0]

    def picture(self, selector: str) -> Image.Image:
        return Image.open(io.BytesIO(self.page.locator(selector).first.screenshot())).convert("RGB")


@pytest.fixture
def reader(browser: Any, folder: Path) -> Iterator[Callable[..., Reader]]:
    opened: list[Reader] = []

    def make(width: int = LARGE, **options: Any) -> Reader:
        opened.append(Reader(browser, folder, width, **options))
        return opened[-1]

    yield make
    for one in opened:
        said = one.said
        one.context.close()
        assert not said


def press(locator: Any, way: str) -> None:
    if way == "mouse":
        locator.click()
    elif way == "touch":
        locator.tap()
    else:
        locator.focus()
        locator.press("Enter")


def waited(page: Any, true: str) -> None:
    """Waits until an expression is true; playwright's own waiting would need a policy that lets it evaluate."""
    for _ in range(200):
        if page.evaluate(true):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"never true: {true}")


def swipe(page: Any, selector: str, by: int) -> None:
    box = page.locator(selector).first.bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + min(box["height"], 120) / 2
    client = page.context.new_cdp_session(page)
    client.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for part in (0.3, 0.6, 1.0):
        point = {"x": x + by * part, "y": y + 4 * part}
        client.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [point]})
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    client.detach()


WAYS = ["mouse", "key", "touch"]
WIDTHS = [SMALL, LARGE]


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("way", WAYS)
def test_every_control(reader: Callable[..., Reader], plans: dict[str, Plan], way: str, width: int) -> None:
    one = reader(width)
    page, plan = one.open("heron_top"), plans["heron_top"]
    assert (one.title(), one.address()) == ("Row 1", "#piece-1/row-1")
    press(page.locator(".next:visible"), way)
    press(page.locator(".next:visible"), way)
    assert (one.title(), one.address()) == ("Row 3", "#piece-1/row-3")
    press(page.locator(".back:visible"), way)
    assert one.title() == "Row 2"
    press(page.locator(".back:visible"), way)
    page.locator(".back:visible").focus()
    page.keyboard.press("Enter")
    assert one.title() == "Row 1", "nothing before row 1"
    assert page.locator(".back:visible").get_attribute("aria-disabled") == "true"

    press(page.locator(".pieces a", has_text="back"), way)
    assert page.locator("#name-2").is_visible()
    assert not page.locator("#name-1").is_visible()
    assert page.locator(".pieces a[aria-current=page]").inner_text() == "back"

    press(page.locator("#piece-2 summary"), way)
    link = page.locator("#piece-2 .ledger a", has_text="Row 13")
    press(link, way)
    assert (one.title(), one.address()) == ("Row 13", "#piece-2/row-13")
    assert "Reed" in one.card()
    assert page.evaluate("document.activeElement.className") == "next"
    assert page.locator(".card:visible").bounding_box()["y"] < HEIGHTS[width]

    closer = page.locator(".closer:visible")
    before = page.locator(".sheet:visible").bounding_box()["width"]
    press(closer, way)
    assert closer.get_attribute("aria-pressed") == "true"
    assert page.locator(".sheet:visible").bounding_box()["width"] > 1.5 * before
    press(closer, way)
    assert page.locator(".sheet:visible").bounding_box()["width"] == before

    assert "3 dc" not in one.card()
    dc = f"{plan.pieces[1].rows[12].counts.dc}"
    assert f"{dc} dc" in one.card()
    if way == "key":
        page.locator("#terms-us").focus()
        page.keyboard.press("ArrowRight")
    else:
        press(page.locator("label[for=terms-uk]"), way)
    assert f"{dc} tr" in one.card()
    assert f"{dc} dc" not in one.card()
    assert one.title() == "Row 13", "the arrow keys are the switch's own there"

    background = "getComputedStyle(document.body).backgroundColor"
    for anchor, theme in (("page-light", style.LIGHT), ("page-dark", style.DARK)):
        if way == "key":
            page.locator(".switch input[name=page]:checked").focus()
            page.keyboard.press("ArrowRight")
        else:
            press(page.locator(f"label[for={anchor}]"), way)
        assert page.evaluate(background) == rgb(theme.paper)

    page.locator("#colour-2").fill("#102030")
    assert page.locator("output[for=colour-2]").text_content() == "#102030"
    press(page.locator(".reset"), way)
    assert page.locator("output[for=colour-2]").text_content() == plan.pattern.yarns[1].colour
    press(page.locator(".pieces a", has_text="colors"), way)
    assert page.evaluate("scrollY") > 0


def test_skip_link(reader: Callable[..., Reader]) -> None:
    page = reader(SMALL).open("heron_top")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    assert page.locator(".skip").bounding_box()["y"] >= 0
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "work"


def rgb(colour: str) -> str:
    return f"rgb({', '.join(str(int(colour[i : i + 2], 16)) for i in (1, 3, 5))})"


@pytest.mark.parametrize("width", WIDTHS)
def test_keys_and_swipes(reader: Callable[..., Reader], width: int) -> None:
    one = reader(width)
    page = one.open("heron_top", "#piece-1/row-5")
    for key, row in (("ArrowRight", 6), ("Space", 7), ("ArrowLeft", 6), ("Shift+Space", 5), ("ArrowLeft", 4)):
        page.keyboard.press(key)
        assert one.title() == f"Row {row}", key
    page.locator(".next:visible").focus()
    page.keyboard.press("Space")
    assert one.title() == "Row 5", "once, though the button hears the key as well"
    page.keyboard.press("Control+ArrowRight")
    page.locator("#colour-1").focus()
    page.keyboard.press("ArrowRight")
    assert one.title() == "Row 5"
    page.evaluate("document.activeElement.blur()")
    for selector in (".card:visible", ".frame:visible"):
        page.locator(selector).scroll_into_view_if_needed()
        swipe(page, selector, -120)
        assert one.title() == "Row 6"
        swipe(page, selector, 120)
        assert one.title() == "Row 5"
        swipe(page, selector, 20)
        assert one.title() == "Row 5", "too short for a swipe"


@pytest.mark.parametrize("width", [320, SMALL, LARGE])
@pytest.mark.parametrize("name", [*ALL, "sizes"])
def test_no_sideways_scrolling(reader: Callable[..., Reader], name: str, width: int) -> None:
    one = reader(width)
    page = one.open(name)
    for tab in range(page.locator(".pieces:visible a").count() - 1):
        page.locator(".pieces:visible a").nth(tab).click()
        page.locator(".piece:visible summary").click()
        for near in (False, True):
            if near:
                page.locator(".closer:visible").click()
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            wide = page.evaluate(
                "w => [...document.body.querySelectorAll('*')].filter(e => !e.closest('.frame,.shared') &&"
                " e.getBoundingClientRect().right > w + 1 && !e.closest('legend')).map(e => e.outerHTML.slice(0, 90))",
                width,
            )
            assert not wide


@pytest.mark.parametrize("width", WIDTHS)
def test_large_enough_to_touch(reader: Callable[..., Reader], width: int) -> None:
    page = reader(width).open("heron_top")
    page.locator(".piece:visible summary").click()
    sizes = page.evaluate(
        "[...document.querySelectorAll('button,input[type=color],.switch label,.pieces a,summary,.ledger .row')]"
        ".filter(e => e.checkVisibility()).map(e => [e.className || e.tagName, e.getBoundingClientRect()])"
        ".map(([name, box]) => [name, box.width, box.height])"
    )
    assert len(sizes) > 50
    assert not [one for one in sizes if one[1] < 44 or one[2] < 44]


def test_focus_is_seen(reader: Callable[..., Reader]) -> None:
    page = reader().open("heron_top", "#piece-1/row-3")
    outlines = []
    for _ in range(24):
        page.keyboard.press("Tab")
        outlines.append(
            page.evaluate(
                "(() => { const e = document.activeElement, s = getComputedStyle(e.type === 'radio' ?"
                " e.nextElementSibling : e); return [e.outerHTML.slice(0, 60), s.outlineStyle, s.outlineWidth] })()"
            )
        )
    assert not [one for one in outlines if one[1:] != ["solid", "3px"] and "<body" not in one[0]]


def test_place_is_kept(reader: Callable[..., Reader]) -> None:
    one = reader(SMALL)
    page = one.open("nasty", "#piece-1/second-shoulder/row-34")
    assert (one.title(), one.address()) == ("Row 34", "#piece-1/second-shoulder/row-34")
    assert "second shoulder" in one.card()
    page.keyboard.press("ArrowRight")
    page.locator("label[for=terms-us]").click()
    page.locator("#colour-1").fill("#445566")
    page.reload()
    assert (one.title(), one.address()) == ("Row 35", "#piece-1/second-shoulder/row-35")
    assert page.locator("#terms-us").is_checked()
    assert page.locator("#colour-1").input_value() == "#445566"
    assert page.evaluate("document.documentElement.style.getPropertyValue('--y1')") == "#445566"
    assert page.locator(".frame:visible").bounding_box()["y"] >= 0, "the row is in view"
    page = one.open("nasty")
    assert one.address() == "#piece-1/second-shoulder/row-35", "kept by the browser where the address names none"
    page.locator(".pieces a").nth(1).click()
    page.keyboard.press("ArrowRight")
    page.locator(".pieces a").nth(0).click()
    assert one.title() == "Row 35"
    page.locator(".pieces a").nth(1).click()
    assert (one.title(), one.address()) == ("Row 2", "#piece-2/row-2")
    page.evaluate("location.hash = 'piece-1/row-7'")
    waited(page, "document.querySelector('#piece-1 .card .row').textContent === 'Row 7'")
    assert page.locator("#piece-1").is_visible()
    for wrong in ("#piece-9/row-1", "#piece-1/row-9999", "#%E0%A4%A", "#piece-1"):
        one.open("nasty", wrong)
        assert one.title() in ("Row 7", "Row 1")


def test_edgings_are_told_row_by_row(texts: dict[str, str], plans: dict[str, Plan]) -> None:
    """A step to every row, the buttonholes in theirs, and one to the ties; the same words as in the written pattern."""
    (one,) = edging.of(plans["edged"])
    part = texts["edged"].split('id="edgings"')[1].split("</section>")[0]
    steps = re.findall(r'value="([\d.]+)"', part)
    assert steps == ["1.1", "1.2", "1.3", "1.4"], "3 rows and the ties"
    assert [str(count) in step for count, step in zip(one.counts, part.split("<li>")[1:], strict=False)] == [True] * 3
    assert "buttonholes in row 2" in part.split("<li>")[2]


def test_rows_of_edgings_are_ticked_and_stay(reader: Callable[..., Reader]) -> None:
    one = reader(SMALL)
    page = one.open("edged")
    boxes = page.locator(".edgings input")
    assert boxes.count() == 4
    page.locator(".edgings label").nth(1).click()
    boxes.nth(2).press("Space")
    assert one.title() == "Row 1", "the space bar ticks there"
    page.reload()
    assert [boxes.nth(nth).is_checked() for nth in range(4)] == [False, True, True, False]
    page.locator(".edgings label").nth(1).click()
    page.reload()
    assert [boxes.nth(nth).is_checked() for nth in range(4)] == [False, False, True, False]
    assert all(box["height"] >= 44 for box in (label.bounding_box() for label in page.locator(".edgings label").all()))


@pytest.mark.parametrize(
    "kept", ["throw 1", "return {getItem: () => '{', setItem() { throw 1 }}", "return {getItem: () => 'null'}"]
)
def test_nothing_can_be_kept(reader: Callable[..., Reader], kept: str) -> None:
    one = reader()
    one.page.add_init_script(f"Object.defineProperty(window, 'localStorage', {{get() {{ {kept} }}}})")
    page = one.open("heron_top", "#piece-2/row-4")
    page.keyboard.press("ArrowRight")
    page.reload()
    assert (one.title(), one.address()) == ("Row 5", "#piece-2/row-5"), "the address keeps it"

def remade(folder: Path, plan: Plan, name: str, change: Callable[[Pattern], Pattern]) -> None:
    """The page of the changed pattern in ``folder``."""
    (folder / f"{name}.html").write_text(beside.page(plan_pattern(change(plan.pattern))), "utf-8")


def notices(page: Any) -> list[str]:
    return [words for words in page.locator(".notice:visible").all_inner_texts() if words]


def test_a_second_tab_never_writes_an_older_place_over_a_newer_one(reader: Callable[..., Reader]) -> None:
    one = reader()
    first = one.open("heron_top", "#piece-1/row-3")
    first.keyboard.press("ArrowRight")
    second = one.context.new_page()
    second.goto(first.url)
    for _ in range(4):
        first.keyboard.press("ArrowRight")
    assert one.title() == "Row 8"
    second.bring_to_front()
    waited(second, "document.querySelector('#piece-1 .card .row').textContent.startsWith('Row 8')")
    assert notices(second) == ["Row 8, as in the other tab."]
    second.locator("#colour-1").fill("#445566")  # keeps something, and no older place with it
    first.reload()
    assert one.title() == "Row 8"
    second.locator(".next:visible").click()
    assert second.locator(".card:visible .row").inner_text().startswith("Row 9")
    one.open("heron_top")
    assert one.title() == "Row 9"


def test_a_tab_that_heard_nothing_of_the_other_catches_up_before_it_steps(reader: Callable[..., Reader]) -> None:
    one = reader()
    page = one.open("heron_top", "#piece-1/row-3")
    page.keyboard.press("ArrowRight")
    # as another tab would keep it, without telling this one
    page.evaluate(
        """() => { const key = "turnchain/" + document.body.dataset.key, kept = JSON.parse(localStorage.getItem(key));
        kept.places.front = {...kept.places.front, row: "row-9", step: 77};
        localStorage.setItem(key, JSON.stringify(kept)) }"""
    )
    page.keyboard.press("ArrowRight")
    assert one.title() == "Row 9"
    page.keyboard.press("ArrowRight")
    assert one.title() == "Row 10"


def test_an_older_address_offers_the_later_place(reader: Callable[..., Reader]) -> None:
    one = reader()
    page = one.open("heron_top", "#piece-1/row-11")
    page.keyboard.press("ArrowRight")
    page = one.open("heron_top", "#piece-1/row-4")
    assert one.title() == "Row 4"
    assert notices(page)[0].startswith("You were at Row 12.")
    page.locator(".notice:visible button").click()
    assert (one.title(), notices(page)) == ("Row 12", [])
    one.open("heron_top", "#piece-1/row-4")
    one.open("heron_top")
    assert one.title() == "Row 12", "looking at a row is not working it"


def test_a_remade_page_with_fewer_rows_offers_the_nearest(
    reader: Callable[..., Reader], plans: dict[str, Plan], folder: Path
) -> None:
    one, plan = reader(), plans["heron_top"]
    last = plan.pieces[0].rows[-1].number
    page = one.open("heron_top", f"#piece-1/row-{last - 1}")
    page.keyboard.press("ArrowRight")

    def narrower(pattern: Pattern) -> Pattern:
        swatches = tuple(replace(one, rows=one.rows and one.rows * Fraction(4, 5)) for one in pattern.swatches)
        return replace(pattern, swatches=swatches)

    remade(folder, plan, "heron_short", narrower)
    page = one.open("heron_short")
    shorter = int(one.title().removeprefix("Row "))
    assert 1 < shorter < last
    said = f"You were at row {last}, which this piece no longer has: this is the nearest row."
    assert notices(page) == [said]
    page = one.open("heron_top")
    assert (one.title(), notices(page)) == (f"Row {last}", []), "and nothing is forgotten"


def test_a_renamed_piece_keeps_its_place(
    reader: Callable[..., Reader], plans: dict[str, Plan], folder: Path
) -> None:
    one, plan = reader(), plans["heron_top"]
    page = one.open("heron_top", "#piece-2/row-5")
    page.keyboard.press("ArrowRight")

    def renamed(pattern: Pattern) -> Pattern:
        pieces = tuple(replace(p, name="rear", faces=None) if p.name == "back" else p for p in pattern.pieces)
        return replace(pattern, pieces=pieces, seams=())

    remade(folder, plan, "heron_renamed", renamed)
    page = one.open("heron_renamed")
    assert (one.title(), one.address()) == ("Row 6", "#piece-2/row-6")
    assert notices(page) == ["The place is that of “back”, which was here before."]


def test_a_place_kept_before_places_went_by_names_is_found(reader: Callable[..., Reader]) -> None:
    one = reader()
    page = one.open("heron_top")
    page.evaluate(
        """() => { localStorage.clear(); const { before } = document.body.dataset;
        localStorage.setItem(`turnchain/${before}`, JSON.stringify(
        {at: "piece-2/row-7", places: {"piece-2": "piece-2/row-7"}, choices: {}, colours: {}})) }"""
    )
    one.open("heron_top")
    assert (one.title(), one.address()) == ("Row 7", "#piece-2/row-7")


def test_a_full_storage_is_told(reader: Callable[..., Reader]) -> None:
    one = reader(SMALL)
    page = one.open("heron_top", "#piece-1/row-4")
    page.keyboard.press("ArrowRight")
    page.evaluate(
        "() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError') } }"
    )
    assert notices(page) == []
    page.keyboard.press("ArrowRight")
    assert notices(page)[0].startswith("This browser cannot keep your place: its storage is full")
    page.reload()
    assert one.title() == "Row 6"
    assert notices(page)[0].startswith("You were at Row 5."), "the address is ahead of what was kept"


def test_a_new_colour_in_the_file_goes_before_one_tried_on(
    reader: Callable[..., Reader], plans: dict[str, Plan], folder: Path
) -> None:
    one, plan = reader(), plans["heron_top"]
    one.open("heron_top").locator("#colour-1").fill("#445566")
    yarns = (replace(plan.pattern.yarns[0], colour="#aa0000"), *plan.pattern.yarns[1:])
    again = replace(plan, pattern=replace(plan.pattern, yarns=yarns))
    (folder / "heron_again.html").write_text(beside.page(again), "utf-8")
    page = one.open("heron_again")
    assert page.locator("#colour-1").input_value() == "#aa0000"


@pytest.mark.parametrize("name", ["heron_top", "nasty"])
def test_numbers_on_the_way(reader: Callable[..., Reader], plans: dict[str, Plan], name: str) -> None:
    """The whole of a piece, row by row: title, words, rows left, and what is left of every yarn."""
    one, plan = reader(SMALL), plans[name]
    page, piece = one.open(name), plan.pieces[0]
    likely = yarn.density(plan.pattern).likely
    assert likely is not None
    inches = plan.pattern.units == "in"
    for row in piece.rows:
        assert one.title() == f"Row {row.number}"
        card = one.card()
        assert f"{row.clusters} clusters" in card
        left = len(piece.rows) - row.index
        assert ("The last row" if left == 1 else f"{left} rows left") in card
        body = html.unescape(words.row_words(piece, row, plan.pattern.terms).partition(f"{row.colour}): ")[2])
        assert body.partition(".")[0][:40] in card
        lines = page.locator(".left:visible tbody tr").evaluate_all(
            "lines => lines.map(l => [...l.cells].map(c => c.textContent))"
        )
        for used, (_, rows, long) in zip(plan.pattern.yarns, lines, strict=True):
            rest = [other for other in piece.rows[row.index :] if other.colour == used.name]
            assert rows == str(len(rest))
            exact = likely * sum(yarn.row_area(piece, other) for other in rest)
            if used.metres_per_100g:
                exact *= used.metres_per_100g / (yarn.YARD if inches else 100)
            assert int(long.split("\u00a0")[0]) in {math.ceil(exact + Fraction(n, 1000)) for n in (-1, 0, 1)}
        page.keyboard.press("ArrowRight")
    assert page.locator(".next:visible").get_attribute("aria-disabled") == "true"


def test_said_aloud(reader: Callable[..., Reader]) -> None:
    page = reader().open("heron_top")
    card = page.locator(".card:visible")
    assert (card.get_attribute("aria-live"), card.get_attribute("aria-atomic")) == ("polite", "true")
    for landmark in ("banner", "navigation", "main", "contentinfo"):
        assert page.get_by_role(landmark).count() == 1, landmark
    assert page.get_by_role("heading", level=1).inner_text() == "Heron Creek top"
    chart = page.locator(".sheet:visible")
    assert "47 rows of 18 to 22 clusters" in chart.get_attribute("aria-label")


# ------------------------------------------------------------------------------------------------------------ pixels


def counted(picture: Image.Image) -> Counter[tuple[int, int, int]]:
    return Counter(picture.get_flattened_data() if hasattr(picture, "get_flattened_data") else picture.getdata())


def channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_repainted_at_once(
    reader: Callable[..., Reader], plans: dict[str, Plan], width: int, scheme: str
) -> None:
    one = reader(width, color_scheme=scheme, device_scale_factor=2, reduced_motion="reduce")
    page = one.open("heron_top", "#piece-1/row-14")  # a row of the second yarn, at a shaped edge
    yarns = [one.colour for one in plans["heron_top"].pattern.yarns]
    before = {selector: counted(one.picture(selector)) for selector in (".frame:visible", ".cloth", ".card:visible")}
    new = "#c01878"
    page.locator("#colour-2").fill(new)
    for selector, colours in before.items():
        look = partial(tint, wanted=ON_A_TINT) if selector.startswith(".frame") else str  # charts are in tints
        old = channels(look(yarns[1]))
        assert colours[old] > 100, selector
        after = counted(one.picture(selector))
        assert after[old] == 0, selector
        assert after[channels(look(new))] == pytest.approx(colours[old], rel=0.2), selector
        for other in (0, 2):
            kept = channels(look(yarns[other]))
            assert after[kept] == pytest.approx(colours[kept], rel=0.1), selector
    assert after[channels(style.ink_on(new))] > 50, "the yarn's name in an ink that can be read"


def test_only_the_row_is_lit(reader: Callable[..., Reader], plans: dict[str, Plan]) -> None:
    one = reader(reduced_motion="reduce", device_scale_factor=2)
    page = one.open("heron_top", "#piece-1/row-14")
    paper = channels(style.LIGHT.paper)
    piece, yarns = plans["heron_top"].pieces[0], plans["heron_top"].pattern.yarns
    strength = veil(style.LIGHT, [style.PLAIN_STRIPE, *(one.colour for one in yarns)])
    for row in (14, 15, 20):
        page.evaluate(f"location.hash = 'piece-1/row-{row}'")
        waited(page, f"document.querySelector('.card .row').textContent === 'Row {row}'")
        page.wait_for_timeout(100)
        picture, frame = one.picture(".frame:visible"), page.locator(".frame:visible").bounding_box()
        for other, share in ((row - 1, 0.6 * strength), (row, 0.0), (row + 1, strength)):
            band = page.locator(f"#p1-r{other} > path").first.bounding_box()
            left, top = band["x"] - frame["x"], band["y"] - frame["y"]
            right, bottom = left + band["width"], top + band["height"]
            box = (2 * left + 20, 2 * top + 6, 2 * right - 20, 2 * bottom - 6)
            strip = picture.crop(tuple(map(round, box)))
            ((commonest, _),) = counted(strip).most_common(1)
            own = next(y.colour for y in yarns if y.name == piece.rows[other - 1].colour)
            full = channels(tint(own, ON_A_TINT))
            wanted = [a * (1 - share) + b * share for a, b in zip(full, paper, strict=True)]
            assert max(abs(a - b) for a, b in zip(commonest, wanted, strict=True)) <= 2, (row, other)


def test_inks_as_everywhere(reader: Callable[..., Reader]) -> None:
    page = reader().open("heron_top")
    draw = random.Random(7)
    colours = [f"#{draw.randrange(1 << 24):06x}" for _ in range(120)]
    colours += [f"#{grey:02x}{grey:02x}{grey:02x}" for grey in range(0, 256, 5)]
    inks = page.evaluate(
        """colours => colours.map(colour => {
          const picker = document.getElementById("colour-1");
          picker.value = colour;
          picker.dispatchEvent(new Event("input"));
          const style = document.documentElement.style;
          return [style.getPropertyValue("--i1"), style.getPropertyValue("--t1")];
        })""",
        colours,
    )
    for colour, (ink, lighter) in zip(colours, inks, strict=True):
        assert ink == style.ink_on(colour)
        assert lighter == tint(colour, ON_A_TINT)
        assert style.contrast(ink, colour) >= style.LEAST_CONTRAST


def test_letters_stay(reader: Callable[..., Reader]) -> None:
    page = reader().open("heron_top")
    letters = page.locator("#piece-1 .sheet svg").first.inner_html()
    page.locator("#colour-1").fill("#000000")
    assert page.locator("#piece-1 .sheet svg").first.inner_html() == letters
    assert page.locator(".pickers .chip").all_inner_texts() == ["A", "B", "C"]


# ------------------------------------------------------------------------------------------------- script or no script


@pytest.mark.parametrize("width", WIDTHS)
def test_readable_without_script(reader: Callable[..., Reader], width: int) -> None:
    one = reader(width, java_script_enabled=False)
    page = one.open("heron_top", "#piece-2/row-13")
    assert page.locator(".piece").count() == 3
    for piece in page.locator(".piece").all():
        assert piece.is_visible()
        assert piece.locator(".sheet svg").is_visible()
    here = page.locator("[id='piece-2/row-13']")
    assert here.is_visible()
    assert 0 <= here.bounding_box()["y"] < HEIGHTS[width]
    assert "dc in" in here.inner_text()
    page.locator("label[for=terms-uk]").click()
    assert "tr in" in here.inner_text()
    assert "dc in" not in here.inner_text()
    assert not [button for button in page.locator("button").all() if button.is_visible()]


def seen(page: Any) -> list[str]:
    return [text.strip() for text in page.locator(".piece h2:visible").all_inner_texts()]


def test_a_size_is_chosen_and_stays(reader: Callable[..., Reader]) -> None:
    """Each size has its own place, and the page opens with the size and the place that its maker left."""
    one = reader(SMALL)
    page = one.open("sizes")
    assert (one.title(), seen(page), page.locator("input[name=size]:checked").get_attribute("id")) == (
        "Row 1", ["mat"], "size-6_2d_8"
    )  # fmt: skip
    page.keyboard.press("ArrowRight")
    page.locator("label", has_text="L/XL").click()
    assert (one.title(), one.address()) == ("Row 1", "#size-L_2f_XL/piece-1/row-1")
    page.locator(".pieces a:visible", has_text="bag").click()
    for _ in range(3):
        page.locator(".next:visible").click()
    assert (one.title(), seen(page)) == ("Row 4", ["bag"])
    page.locator("label", has_text="6-8").click()
    assert (one.title(), seen(page)) == ("Row 2", ["mat"])
    page.locator("label", has_text="L/XL").click()
    page.locator("#colour-1").fill("#445566")
    page = one.open("sizes")
    assert (one.title(), seen(page), page.locator("#colour-1").input_value()) == ("Row 4", ["bag"], "#445566")
    page = one.open("sizes", "#size-age_20_9")
    assert (one.title(), one.address()) == ("Row 1", "#size-age_20_9/piece-1/row-1")
    page.evaluate("location.hash = 'size-6_2d_8/piece-1/row-3'")
    waited(page, "location.hash === '#size-6_2d_8/piece-1/row-3' && document.getElementById('size-6_2d_8').checked")
    assert one.title() == "Row 3"
    one.open("sizes")
    assert one.title() == "Row 4", "an address does not choose a size for good"


def test_the_place_of_a_size_is_that_of_its_own_page(reader: Callable[..., Reader], folder: Path) -> None:
    (folder / "one size.html").write_text(beside.page(sizes()[1]), "utf-8")
    one = reader()
    one.open("one size").keyboard.press("ArrowRight")
    one.open("sizes", "#size-age_20_9")
    assert one.title() == "Row 2"


@pytest.mark.parametrize("width", WIDTHS)
def test_a_size_is_chosen_without_script(reader: Callable[..., Reader], width: int) -> None:
    one = reader(width, java_script_enabled=False)
    page = one.open("sizes")
    assert seen(page) == ["mat"]
    page.locator("label", has_text="L/XL").click()
    assert seen(page) == ["mat", "bag"]
    assert page.locator("#colours figure:visible").count() == 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize("name", ["heron_top", "nasty", "sizes", "edged"])
def test_axe_finds_nothing(
    reader: Callable[..., Reader], axe: str, name: str, width: int, scheme: str
) -> None:
    one = reader(width, color_scheme=scheme)
    page = one.open(name, "#piece-1/row-3")
    page.locator(".piece:visible summary").click()
    page.evaluate(axe)
    found = page.evaluate("axe.run()")
    assert len(found["passes"]) > 20
    told = [(one["id"], [node["html"][:120] for node in one["nodes"]][:3]) for one in found["violations"]]
    assert not told


def test_axe_can_find_something(reader: Callable[..., Reader], axe: str) -> None:
    page = reader().open("heron_top")
    page.evaluate(axe)
    page.evaluate("document.querySelector('.next').style.color = '#222'")
    assert [one["id"] for one in page.evaluate("axe.run()")["violations"]] == ["color-contrast"]


def test_rows_turn_swiftly(reader: Callable[..., Reader]) -> None:
    page = reader().open("mudflat_blanket")
    spent = page.evaluate(
        """async () => {
          const each = [];
          for (let row = 0; row < 60; row++) {
            const from = performance.now();
            document.querySelector(".next").click();
            await new Promise(requestAnimationFrame);
            each.push(performance.now() - from);
          }
          return each.sort((one, other) => one - other);
        }"""
    )
    assert spent[len(spent) // 4] < 150, "ms from the click to the picture, on a machine that has other work as well"


@pytest.mark.parametrize("theme", [style.LIGHT, style.DARK])
@pytest.mark.parametrize("name", ["heron_top", "mudflat_blanket", "kite_kerchief"])
def test_dimmed_rows_can_still_be_read(theme: style.Theme, name: str) -> None:
    """4.5 to 1 between stitches and their row under the veil, as WCAG 2 has it for words."""
    yarns = [made.colour for made in plan_pattern(read_file(CASES[name])).pattern.yarns]
    strength = veil(theme, yarns)
    for one in yarns:
        ground = tint(one, ON_A_TINT)
        row, stitches = (style.mixed(theme.paper, colour, strength) for colour in (ground, style.INK_DARK))
        assert style.contrast(row, stitches) >= 4.5
    assert strength > 0.2, "dimmed rows are seen to be"
