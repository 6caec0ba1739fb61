"""The sentence of a row as steps.

In: text that begins with a sentence of steps, parted by commas. Out: the steps, and where the next sentence begins;
none where a step is not one that a maker can be told.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import cast

from turnchain.proof.maker import steps as do
from turnchain.proof.words.tables import PLACES
from turnchain.proof.words.tongue import Tongue

_STEPS = (
    "chains_one", "chains_many", "spaces_one", "spaces_many", "slip_one", "slip_many", "slip_into", "dc_in",
    "two_dc_in", "cluster_in", "cluster_dc_in", "skip_chains", "skip_first", "skip_next", "skip_last",
    "join_skipped", "join", "join_same", "leave_tch", "leave_clusters", "leave_rest", "change", "chain", "turn",
)  # fmt: skip
_STOP = r"(?=, |\. |\]|\.?$)"


def sentence(words: Tongue, text: str) -> tuple[tuple[do.Step, ...], int]:
    """The steps of the sentence ``text`` begins with, and where the next one begins; none where it does not fit."""
    for start in (text, text[:1].lower() + text[1:]):
        found = words.told.get(start)
        if found is None:
            steps, at = _list(words, start, 0)
            if not steps or not start.startswith(". ", at):
                continue
            found = words.told[start] = (steps, at + 2)
        return found
    return (), 0


def _list(words: Tongue, text: str, at: int) -> tuple[tuple[do.Step, ...], int]:
    """Steps parted by commas from ``at`` on, and where they end; none where one does not fit."""
    steps: list[do.Step] = []
    while True:
        step, at = _repeat(words, text, at) if text.startswith("[", at) else _one(words, text, at)
        if step is None:
            return (), at
        steps.append(step)
        if not text.startswith(", ", at):
            return tuple(steps), at
        at += 2


def _repeat(words: Tongue, text: str, at: int) -> tuple[do.Step | None, int]:
    steps, at = _list(words, text, at + 1)
    found = words.pattern("times", _STOP).match(text, at)
    if found is None or not steps or int(found["n"]) < 2 or int(found["n"]) > 100_000:
        return None, at
    return do.Repeat(steps, int(found["n"])), found.end()


def _one(words: Tongue, text: str, at: int) -> tuple[do.Step | None, int]:
    for key in _STEPS:
        found = words.pattern(key, _STOP).match(text, at)
        if found is not None:
            step = _step(words, key, found)
            if step is not None:
                return step, found.end()
    return None, at


def _step(words: Tongue, key: str, found: re.Match[str]) -> do.Step | None:
    slots = found.groupdict()
    number = int(slots["n"]) if "n" in slots else 1
    if key == "turn":
        return do.Turn()
    if key.startswith("skip_") and key != "skip_chains":
        return do.SkipCluster(cast(do.Which, key.removeprefix("skip_")))
    if key.startswith("leave_"):
        return _leave(key, number)
    if "place" in slots:
        place = _place(words, slots["place"])
        return None if place is None else _placed(words, key, place, slots)
    if key == "change":
        yarn = words.yarn(slots["yarn"])
        return None if yarn is None else do.Change(yarn)
    return _NUMBERED[key](number)


_NUMBERED: dict[str, type[do.Chain | do.Slip | do.DcInChains | do.ClusterInSpaces | do.SkipChains]] = {
    "chain": do.Chain,
    "slip_one": do.Slip,
    "slip_many": do.Slip,
    "chains_one": do.DcInChains,
    "chains_many": do.DcInChains,
    "spaces_one": do.ClusterInSpaces,
    "spaces_many": do.ClusterInSpaces,
    "skip_chains": do.SkipChains,
}


def _leave(key: str, number: int) -> do.Leave:
    if key == "leave_clusters":
        return do.Leave("clusters", number)
    return do.Leave("tch" if key == "leave_tch" else "rest")


def _placed(words: Tongue, key: str, place: do.Named, slots: dict[str, str]) -> do.Step | None:
    if key == "slip_into":
        return do.Slip(into=place.which) if isinstance(place, do.Space) else None
    if key in ("dc_in", "two_dc_in"):
        return do.Dc(2 if key == "two_dc_in" else 1, place)
    if key in ("cluster_in", "cluster_dc_in"):
        return do.Cluster(place, and_dc=key == "cluster_dc_in")
    if not isinstance(place, do.Space | do.DcOf) or slots["section"] != words.phrases["first"]:
        return None
    same = place.which == "same"
    if same != (key == "join_same"):
        return None
    return do.Join(words.yarn(slots["yarn"]), int(slots.get("n") or 0), place)


@lru_cache(maxsize=4096)
def _place(words: Tongue, text: str) -> do.Named | None:
    for key in PLACES:
        found = words.pattern(key).fullmatch(text)
        if found is not None:
            nth = int(re.sub(r"\D", "", found["nth"])) if "nth" in found.groupdict() else 0
            return _named(key, nth)
    return None


def _named(key: str, nth: int) -> do.Named:
    spaces: dict[str, do.Which] = {"at_first_space": "first", "at_next_space": "next", "at_same_space": "same"}
    if key in spaces:
        return do.Space(spaces[key])
    if key in ("at_dc_next", "at_dc_same"):
        return do.DcOf(nth, "next" if key == "at_dc_next" else "same")
    if key == "at_hook":
        return do.FromHook(nth)
    if key == "at_top":
        return do.TurningChain(nth)
    plain: dict[str, do.Named] = {
        "at_last": do.LastChain(), "at_last_dc": do.LastDc(), "at_base": do.Base(), "at_edge": do.EdgeDc()
    }  # fmt: skip
    return plain[key]
