"""Whether the parts of a panel leave each other room.

In: the parts of a panel, with the neck of its piece. Out: notes of every collision, with the measures that collide and
how much room there is.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import floor

from turnchain import pattern
from turnchain.reading.notes import Notes
from turnchain.reading.part_lines import CURVED_AT_ONCE, PanelParts
from turnchain.reading.piece_tables import NeckTable
from turnchain.reading.places import Place
from turnchain.units import shown


class PartChecks:
    """Whether the parts of a panel leave each other room."""

    def __init__(self, notes: Notes, parts: PanelParts, neck: NeckTable | None, place: Place) -> None:
        self.notes, self.parts, self.neck, self.place = notes, parts, neck, place

    def all(self) -> None:
        """Notes every collision: what takes more than the length, what takes more than the width, and what is wrong
        with a part by itself."""
        if self._along():
            self._tapers()
        self._across()
        self._curved()
        self._slope()

    def _cm(self, cm: Fraction) -> str:
        return shown(cm, self.notes.unit)

    def _along(self) -> bool:
        """Whether what lies one above the other leaves a side to be sewn."""
        parts, armhole = self.parts, self.parts.armhole
        taken: dict[tuple[str, ...], tuple[str, Fraction]] = {
            ("slit",): ("slit", parts.slit),
            ("armhole", "depth"): ("armhole depth", armhole.depth if armhole else Fraction(0)),
            ("shoulder_slope",): ("shoulder slope", parts.slope),
        }
        taken = {keys: one for keys, one in taken.items() if one[1]}
        whole = sum((cm for _, cm in taken.values()), Fraction(0))
        if whole < parts.length:
            return True
        allowed = f"there is room for less than the length of {self._cm(parts.length)}, with a side left to be sewn"
        self._say(taken, whole, allowed)
        return False

    def _across(self) -> None:
        """What lies side by side at the top leaves room for a neck, or for a shoulder."""
        side, chest = self.parts.widths
        armholes = sum(self.parts.armed(hand) for hand in ("left", "right"))
        shoulder = (self.neck.shoulder if self.neck is not None else None) or Fraction(0)
        if 2 * shoulder >= self.parts.width:  # that is told of the neck by itself
            shoulder = Fraction(0)
        taken: dict[tuple[str, ...], tuple[str, Fraction]] = {}
        if self.parts.armhole is not None:
            each = f"{'two armholes' if armholes == 2 else 'an armhole'} of {self._cm(self.parts.armhole.width)}"
            taken["armhole", "width"] = (each, armholes * self.parts.armhole.width)
        if shoulder:
            taken["neck", "shoulder"] = (f"two shoulders of {self._cm(shoulder)}", 2 * shoulder)
        whole = side - chest + 2 * shoulder
        if whole >= side:
            left = "a neck left between" if shoulder else "something left between"
            self._say(taken, whole, f"there is room for less than the width of {self._cm(side)} there, with {left}")

    def _say(self, taken: Mapping[tuple[str, ...], tuple[str, Fraction]], whole: Fraction, allowed: str) -> None:
        """Notes one collision, with all that is ``taken`` by its keys: its words and its cm."""
        place, *others = (self._at(keys) for keys in taken)
        said = [words if " of " in words else f"{words} of {self._cm(cm)}" for words, cm in taken.values()]
        together = f" are {self._cm(whole)}" if others or "two" in said[0] else ""
        self.notes.say(place, f"{_joined(said)}{together}", allowed, "make one of them less" if others else "")

    def _at(self, keys: tuple[str, ...]) -> Place:
        place = self.place
        for key in keys:
            place = place.key(key)
        return place

    def _curved(self) -> None:
        armhole = self.parts.armhole
        if armhole is None:
            return
        if self.parts.sideways:
            self._steps_out(armhole)
            return
        if armhole.shape != "curved":
            return
        if armhole.width * (1 - CURVED_AT_ONCE) >= armhole.depth:
            found = f"{self._cm(armhole.width)} wide and {self._cm(armhole.depth)} deep"
            allowed = "a curved armhole slants over a third of its width, and must be deeper than that"
            self.notes.say(self.place.key("armhole"), found, allowed, 'or take shape = "square"')

    def _steps_out(self, armhole: pattern.Armhole) -> None:
        """Worked sideways an armhole ends in a step outwards, which is a cluster at the least, and has a row under
        it."""
        rest = armhole.width * (1 - self.parts.at_once)
        for key, cm, least, what in (
            ("depth", armhole.depth, rest + self.parts.half * 3 / 2, "a cluster is added there at once"),
            ("width", armhole.width, self.parts.row / 2, "it has a row at the least"),
        ):
            if cm <= least:
                allowed = f"worked sideways {what}: it must be more than {self._cm(least)}"
                notes = self.place.key("armhole").key(key)
                self.notes.say(notes, self._cm(cm), allowed, "or work the piece upwards")

    def _slope(self) -> None:
        """A sloping shoulder belongs to a neck, and goes in by half a cluster a row at least, to a cluster at its
        top."""
        parts, here = self.parts, self.place.key("shoulder_slope")
        if not parts.slope:
            return
        shoulder = self.neck.shoulder if self.neck is not None else None
        if not shoulder:
            allowed = "a shoulder slopes from the arm up to a neck"
            self.notes.say(here, "no neck in this piece", allowed, "give it `neck`, or leave `shoulder_slope` out")
            return
        if parts.sideways:
            self._slope_along(shoulder)
            return
        rows = max(0, floor(shoulder / parts.half) - 2)
        if max(1, round(parts.slope / parts.row)) > rows:
            found = f"{self._cm(parts.slope)} on a shoulder of {self._cm(shoulder)}"
            allowed = "every row goes in by half a cluster at least, and the last one has a cluster: there is room for "
            self.notes.say(here, found, allowed + (self._cm(rows * parts.row) if rows else "none"))

    def _slope_along(self, shoulder: Fraction) -> None:
        """Worked sideways a shoulder rises by half a cluster in a row at most."""
        parts, rows = self.parts, round(shoulder / self.parts.row)
        if max(1, round(parts.slope / parts.half)) >= rows - 1:
            found = f"{self._cm(parts.slope)} on a shoulder of {self._cm(shoulder)}"
            most = self._cm(max(0, rows - 2) * parts.half)
            allowed = f"worked sideways every row goes up by half a cluster at most: there is room for {most}"
            self.notes.say(self.place.key("shoulder_slope"), found, allowed, "or work the piece upwards")

    def _tapers(self) -> None:
        top, at = self.parts.underarm, Fraction(0)
        several = len(self.parts.tapers) > 1
        for nth, one in enumerate(self.parts.tapers, 1):
            here = self.place.key("taper").entry("taper", nth) if several else self.place.key("taper")
            if one.start < at or one.end <= one.start or one.end > top:
                found = f"from {self._cm(one.start)} to {self._cm(one.end)}"
                where = "the underarm" if self.parts.armhole else "the top"
                self.notes.say(here, found, f"there is room from {self._cm(at)} to {where} at {self._cm(top)}")
            at = max(at, one.end)


def _joined(said: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(said[:-1]), said[-1])))
