"""A top designed on the page from nothing: swatch, wearer, front, back and sleeves, yarns, stripes, a pulled neck.

In: a page that stands open with no pattern, and what is to be done after every step (a picture is taken, say). Out: the
same top, by mouse (``by_mouse``) or by keyboard alone (``by_keys``); both end with the archive of everything asked for.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from playwright.sync_api import Locator, Page

Shown = Callable[[str], Any]

TITLE = "Dunlin Flats top"
SWATCH = {
    "swatch-clusters": "11", "swatch-width": "26", "swatch-rows": "18", "swatch-height": "21", "swatch-weight": "31",
}  # fmt: skip
MEASURES = {"piece-0-width": "54", "piece-0-length": "52"}
HEAD = "57"
YARNS = (("Samphire", "#7d9a6a", "220"), ("Shell", "#ead9c6", "240"), ("Tide", "#4c7288", "240"))
ORDER = re.compile("^mirrored")
SETTLED = 500  # ms: a field rests, the program answers, the picture is drawn

#: The steps that ``by_mouse`` and ``by_keys`` show, in words for those who look at their pictures.
STEPS = {
    "swatch": "The swatch as it was counted, and what a cluster and a row come to",
    "pieces": "A front with a neck, a back and two sleeves; what was wanted, and what the stitches give",
    "yarns": "Three yarns in their colours, with the grams there are and the grams they take",
    "orders": "The same yarns in other orders, to choose from with one click",
    "pull": "The neck pulled from one row to the next, with whether the head passes",
    "done": "The finished top, its chart and its rows in words, ready to be downloaded",
}


def by_mouse(page: Page, shown: Shown, narrow: bool = False) -> None:
    """Designs the top with the mouse, or on a phone with a finger (``narrow``: one card stands at a time); what is
    words or figures is typed."""

    def card(name: str) -> None:
        if narrow:
            page.locator(".stations button", has_text=name).click()

    page.get_by_role("button", name="Start from nothing").click()
    page.get_by_role("button", name="My patterns").click()
    page.get_by_label("Title").fill(TITLE)
    page.get_by_role("button", name="Close", exact=True).click()
    card("Swatch")
    for field, words in SWATCH.items():
        page.locator(f"#{field}").fill(words)
    settle(page)
    shown("swatch")
    card("Wearer and sizes")
    page.get_by_label("Name", exact=True).fill("back")
    for field, words in MEASURES.items():
        page.locator(f"#{field}").fill(words)
    page.locator("#piece-0-worked").select_option("sideways")
    for kind in ("With a neck", "A sleeve"):
        settle(page)
        page.get_by_role("button", name="Add a piece").click()
        page.get_by_role("button", name=kind).click()
    page.get_by_label("Round the head").fill(HEAD)
    page.locator(".pieces").get_by_role("button", name="front", exact=True).click()
    settle(page)
    page.get_by_label("Sewn to").select_option("back")
    settle(page)
    shown("pieces")
    card("Yarn")
    for _ in YARNS[1:]:
        page.get_by_role("button", name="Add a yarn").click()
    settle(page)
    for nth, (name, colour, grams) in enumerate(YARNS):
        page.locator(f"#yarn-{nth}-name").fill(name)
        page.locator(".ball input").nth(nth).fill(colour)
        page.locator(f"#yarn-{nth}-stock").fill(grams)
        settle(page)
    shown("yarns")
    card("Stripes")
    page.get_by_role("button", name="Other orders").click()
    page.get_by_role("button", name=ORDER).wait_for()
    settle(page)
    shown("orders")
    page.get_by_role("button", name=ORDER).click()
    settle(page)
    if narrow:
        page.get_by_role("tab", name="As worn").click()
    pulled(page, narrow)
    shown("pull")
    page.get_by_role("button", name="Take it").click()
    settle(page)
    shown("done")
    page.get_by_role("button", name="Download").click()
    page.get_by_role("button", name="Everything").click()


def pulled(page: Page, narrow: bool) -> None:
    """The pin at the shoulder, touched and moved by two places."""
    page.get_by_role("slider", name="Shoulder").click()
    page.locator(".slip").wait_for()
    for _ in range(2):
        page.get_by_role("button", name="− less").click()
    settle(page)


def by_keys(page: Page, shown: Shown) -> None:
    """Designs the top without a mouse: Tab and the arrow keys lead everywhere."""
    keys = page.keyboard
    reach(page, page.get_by_role("button", name="Start from nothing"))
    keys.press("Enter")
    settle(page)
    reach(page, page.get_by_role("button", name="My patterns"))
    keys.press("Enter")
    write(page, page.get_by_label("Title"), TITLE)
    keys.press("Escape")
    for field, words in SWATCH.items():
        write(page, page.locator(f"#{field}"), words)
    settle(page)
    shown("swatch")
    write(page, page.get_by_label("Name", exact=True), "back")
    for field, words in MEASURES.items():
        write(page, page.locator(f"#{field}"), words)
    choose(page, page.locator("#piece-0-worked"), "worked s")
    for kind in ("With a neck", "A sleeve"):
        settle(page)
        press(page, page.get_by_role("button", name="Add a piece"))
        press(page, page.get_by_role("button", name=kind))
    write(page, page.get_by_label("Round the head"), HEAD)
    press(page, page.locator(".pieces").get_by_role("button", name="front", exact=True))
    settle(page)
    choose(page, page.get_by_label("Sewn to"), "faces b")
    settle(page)
    shown("pieces")
    for _ in YARNS[1:]:
        press(page, page.get_by_role("button", name="Add a yarn"))
    settle(page)
    for nth, (name, colour, grams) in enumerate(YARNS):
        write(page, page.locator(f"#yarn-{nth}-name"), name)
        write(page, page.locator(f"#yarn-{nth}-stock"), grams)
        reach(page, page.locator(".ball input").nth(nth))
        page.locator(".ball input").nth(nth).fill(colour)  # the browser's own window of colours
        settle(page)
    shown("yarns")
    press(page, page.get_by_role("button", name="Other orders"))
    page.get_by_role("button", name=ORDER).wait_for()
    shown("orders")
    press(page, page.get_by_role("button", name=ORDER))
    settle(page)
    reach(page, page.get_by_role("slider", name="Shoulder"))
    keys.press("ArrowLeft")
    page.locator(".slip").wait_for()
    keys.press("ArrowLeft")
    shown("pull")
    keys.press("Enter")
    settle(page)
    shown("done")
    press(page, page.get_by_role("button", name="Download"))
    press(page, page.get_by_role("button", name="Everything"))


def settle(page: Page) -> None:
    """Waits until what was done is planned and drawn."""
    page.wait_for_timeout(SETTLED)
    page.locator("body:not([data-busy])").wait_for()
    page.wait_for_timeout(SETTLED)


def reach(page: Page, goal: Locator) -> None:
    """Presses Tab until the focus is on ``goal``. AssertionError where it never comes there."""
    goal.wait_for()
    for _ in range(300):
        if goal.evaluate("(node) => node === document.activeElement"):
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"Tab never reaches {goal}")


def press(page: Page, goal: Locator) -> None:
    """Comes to a button and presses it."""
    reach(page, goal)
    page.keyboard.press("Enter")


def write(page: Page, goal: Locator, words: str) -> None:
    """Comes to a field and writes ``words`` over what it has."""
    reach(page, goal)
    page.keyboard.press("Control+a")
    page.keyboard.type(words)
    page.keyboard.press("Enter")


def choose(page: Page, goal: Locator, begins: str) -> None:
    """Comes to a list and types the first letters of an entry."""
    reach(page, goal)
    page.keyboard.type(begins)
    page.wait_for_timeout(100)
