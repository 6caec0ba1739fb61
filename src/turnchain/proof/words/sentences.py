"""The sentence of a row as steps.

In: text that begins with a sentence of steps, parted by commas. Out: the steps, and where the next sentence begins;
none where a step is not one that a maker can be told.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal, TypeAlias, cast

from turnchain.proof.maker import steps as do
from turnchain.proof.words.phrasebook import Phrasebook
from turnchain.proof.words.tables import PLACES

_STEPS = (
    "chains_one", "chains_many", "spaces_one", "spaces_many", "units_many", "unit_in_chain", "slip_one",
    "slip_many", "slip_into", "with_chain_in", "together_in", "dc_in", "dcs_in", "cluster_in", "cluster_dc_in",
    "dc_cluster_in", "solid_one", "solid_many", "solid_chain", "solid_chains", "solid_in", "skip_stitches",
    "skip_chains", "edge_passed", "tip_passed", "skip_first", "skip_next", "skip_last", "join_skipped", "join",
    "join_same", "leave_tch", "leave_edge", "leave_clusters", "leave_rest", "change", "chain_new",
    "chain_new_one", "chain", "turn",
)  # fmt: skip
_STOP = r"(?=, |\. |\]|\.?$)"


def sentence(words: Phrasebook, text: str) -> tuple[tuple[do.ReadStep, ...], int]:
    """The steps of the sentence ``text`` begins with, and the character where the next one begins; no steps, and 0,
    where it does not fit."""
    for start in (text, text[:1].lower() + text[1:]):
        found = words.told.get(start)
        if found is None:
            steps, at = _list(words, start, 0)
            if not steps or not start.startswith(". ", at):
                continue
            found = words.told[start] = (steps, at + 2)
        return found
    return (), 0


def _list(words: Phrasebook, text: str, at: int) -> tuple[tuple[do.ReadStep, ...], int]:
    """Steps parted by commas from ``at`` on, and where they end; none where one does not fit."""
    steps: list[do.ReadStep] = []
    while True:
        step, at = _repeat(words, text, at) if text.startswith("[", at) else _one(words, text, at)
        if step is None:
            return (), at
        steps.append(step)
        if not text.startswith(", ", at):
            return tuple(steps), at
        at += 2


def _repeat(words: Phrasebook, text: str, at: int) -> tuple[do.ReadStep | None, int]:
    steps, at = _list(words, text, at + 1)
    found = words.pattern("times", _STOP).match(text, at)
    if found is None or not steps or int(found["n"]) < 2 or int(found["n"]) > 100_000:
        return None, at
    return do.RepeatSteps(steps, int(found["n"])), found.end()


def _one(words: Phrasebook, text: str, at: int) -> tuple[do.ReadStep | None, int]:
    for key in _STEPS:
        found = words.pattern(key, _STOP).match(text, at)
        if found is not None:
            step = _step(words, key, found)
            if step is not None:
                return step, found.end()
    return None, at


def _step(words: Phrasebook, key: str, found: re.Match[str]) -> do.ReadStep | None:
    slots = found.groupdict()
    number = int(slots["n"]) if "n" in slots else 1
    if key == "turn":
        return do.TurnWork()
    if key == "unit_in_chain":
        return do.ClusterInChain()
    if key == "edge_passed":
        return do.PassEdge()
    if key == "tip_passed":
        return do.PassFirst()
    if key.startswith("chain_new"):
        return do.ChainStitches(number, int(slots.get("turning", 1)))
    if key.startswith("solid_"):
        stitch = words.stitch_of(slots["stitch"])
        if key == "solid_in":
            place = _place(words, slots["place"])
            return None if place is None else do.SolidInPlace(stitch, place)
        return do.SolidInEach(stitch, number, key.startswith("solid_chain"))
    if key.startswith("skip_") and key not in ("skip_chains", "skip_stitches"):
        return do.PassCluster(cast(do.WhichBelow, key.removeprefix("skip_")))
    if key.startswith("leave_"):
        return _leave(key, number)
    if "place" in slots:
        place = _place(words, slots["place"])
        return None if place is None else _placed(words, key, place, slots)
    if key == "change":
        yarn = words.yarn(slots["yarn"])
        return None if yarn is None else do.ChangeYarn(yarn)
    return _NUMBERED[key](number)


_Numbered: TypeAlias = (
    do.ChainStitches | do.SlipStitches | do.DcAlongChain | do.ClusterInEach | do.ClusterOnEach | do.PassChains
    | do.PassStitches
)
_NUMBERED: dict[str, type[_Numbered]] = {
    "chain": do.ChainStitches,
    "slip_one": do.SlipStitches,
    "slip_many": do.SlipStitches,
    "chains_one": do.DcAlongChain,
    "chains_many": do.DcAlongChain,
    "spaces_one": do.ClusterInEach,
    "spaces_many": do.ClusterInEach,
    "units_many": do.ClusterOnEach,
    "skip_chains": do.PassChains,
    "skip_stitches": do.PassStitches,
}


def _leave(key: str, number: int) -> do.LeaveRest:
    if key == "leave_clusters":
        return do.LeaveRest("clusters", number)
    return do.LeaveRest(_LEFT[key])


_LEFT: dict[str, Literal["tch", "edge", "rest"]] = {"leave_tch": "tch", "leave_edge": "edge", "leave_rest": "rest"}


def _placed(words: Phrasebook, key: str, place: do.Named, slots: dict[str, str]) -> do.ReadStep | None:
    if key == "slip_into":
        return do.SlipStitches(into=place.which) if isinstance(place, do.SpaceBelow) else None
    if key in ("dc_in", "dcs_in"):
        return do.DcInPlace(int(slots.get("n") or 1), place)
    if key == "with_chain_in":
        return do.DcWithChain(place, int(slots["n"]))
    if key == "together_in":
        second = _place(words, slots["second"])
        return None if second is None else do.DcTogether(place, second)
    if key in ("cluster_in", "cluster_dc_in", "dc_cluster_in"):
        return do.ClusterInPlace(place, key == "cluster_dc_in", key == "dc_cluster_in")
    if not isinstance(place, do.SpaceBelow | do.DcOf | do.StitchBelow) or slots["section"] != words.phrases["first"]:
        return None
    same = place.which == "same"
    if same != (key == "join_same"):
        return None
    return do.JoinYarn(words.yarn(slots["yarn"]), int(slots.get("n") or 0), place)


@lru_cache(maxsize=4096)
def _place(words: Phrasebook, text: str) -> do.Named | None:
    for key in PLACES:
        found = words.pattern(key).fullmatch(text)
        if found is not None:
            nth = int(re.sub(r"\D", "", found["nth"])) if "nth" in found.groupdict() else 0
            return _named(key, nth)
    return None


def _named(key: str, nth: int) -> do.Named:
    spaces: dict[str, do.WhichBelow] = {"at_first_space": "first", "at_next_space": "next", "at_same_space": "same"}
    if key in spaces:
        return do.SpaceBelow(spaces[key])
    if key in ("at_dc_next", "at_dc_same"):
        return do.DcOf(nth, "next" if key == "at_dc_next" else "same")
    units: dict[str, do.WhichBelow] = {"at_unit_next": "next", "at_unit_same": "same", "at_unit_last": "last"}
    if key in units:
        return do.StitchBelow(units[key])
    if key == "at_hook":
        return do.FromHook(nth)
    if key == "at_top":
        return do.TurningChain(nth)
    plain: dict[str, do.Named] = {
        "at_last": do.ChainEnd(), "at_last_dc": do.LastDc(), "at_base": do.Base(), "at_edge": do.EdgeStitch(),
        "at_same_place": do.SamePlace(), "at_half": do.HalfSpace(), "at_beside": do.BesideEdge(),
        "at_next_stitch": do.NextBelow(), "at_tip": do.OutermostBelow(),
    }  # fmt: skip
    return plain[key]
