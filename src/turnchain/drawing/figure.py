"""A plain figure, drawn to the measures of a wearer: one outline, without a face.

In: a wearer. Out: the outline in cm, x from the middle of the body, y down from the nape; how broad body and arms are.
What is not known is taken from the size nearest to what is, and told. The rules by which measures round a body become
breadths, and heights follow from one another, are general knowledge of drawing, from memory.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise

from turnchain import sizes
from turnchain.garment import body
from turnchain.garment.body import Level
from turnchain.pattern import Wearer
from turnchain.records import frozen
from turnchain.sizes import TableName

Cm = tuple[float, float]

#: Half the breadth of a body seen from the front, over half the breadth of a circle as long round.
BUST, WAIST, HIP = 1.00, 1.08, 1.10
ARM_LEAN = 0.24  # radians by which arms hang away from the body
SLOPE = 0.115  # how far the end of a shoulder lies below the nape, in lengths from nape to waist
HEAD_ROUND = 2.55  # head rounds to a head's height
SHANK = 0.5  # from knee to sole, over from nape to knee
#: The sizes that stand in for a wearer of whom nothing is known.
TAKEN: dict[TableName, str] = {"woman": "M", "child": "8"}


@frozen
class Figure:
    """A body in cm: half breadths at ``bust``, ``waist`` and ``hip``, half of ``shoulders`` and of an ``arm`` at its
    top; heights down from the nape to the ``levels``, the ``armhole`` and the ``sole``; ``reach`` from the end of the
    shoulder to the wrist; ``head``, its height. ``assumed``: table and size that stand in for what is not known."""

    bust: float
    waist: float
    hip: float
    shoulders: float
    arm: float
    armhole: float
    reach: float
    head: float
    sole: float
    levels: dict[Level, float]
    assumed: tuple[TableName, str] | None
    lean: float = ARM_LEAN

    @property
    def shoulder_end(self) -> Cm:
        """Where the shoulder at the right of the picture ends and the arm begins."""
        return self.shoulders, SLOPE * self.levels["waist"]

    def half_at(self, y: float) -> float:
        """Half the breadth of the trunk so far below the nape, cm; below the hip that of the hip."""
        stops = [(self.armhole, self.bust), (self.levels["waist"], self.waist), (self.levels["hip"], self.hip)]
        if y <= stops[0][0]:
            return stops[0][1]
        for (top, one), (low, other) in pairwise(stops):
            if y <= low:
                share = (y - top) / (low - top)
                return one + (other - one) * share * share * (3 - 2 * share)
        return self.hip

    def along_arm(self, far: float, off: float = 0.0) -> Cm:
        """The place so far down the arm at the right from the end of the shoulder, ``off`` cm out from its middle."""
        x, y = self.shoulder_end
        x -= 0.8 * self.arm
        sine, cosine = math.sin(self.lean), math.cos(self.lean)
        return x + far * sine + off * cosine, y + far * cosine - off * sine

    def outline(self) -> list[Cm]:
        """Places all round the figure, from the top of the head clockwise as seen, to be joined by a smooth line."""
        half = [*self._head(), *self._arm(), *self._trunk()]
        return [*half, *((-x, y) for x, y in reversed(half[1:-1]))]

    def _head(self) -> list[Cm]:
        neck = 0.17 * self.levels["waist"]
        top, wide = -neck - self.head, 0.37 * self.head
        turns = (0.0, 0.45, 0.9, 1.35, 1.8, 2.2)
        ring = [(wide * math.sin(turn), top + self.head / 2 * (1 - math.cos(turn))) for turn in turns]
        throat = 0.62 * wide
        x, y = self.shoulder_end
        base = [(throat + 0.1, -0.1 * neck), (throat + 1.6, 0.2 * y), (0.62 * x, 0.52 * y)]
        return [*ring, (throat, -0.72 * neck), *base]

    def _arm(self) -> list[Cm]:
        """Down the outer side of the arm, round the hand and up the inner side."""
        wrist, hand = 0.52 * self.arm, 0.62 * self.head
        outer = [self.along_arm(far * self.reach, self.arm * wide) for far, wide in (
            (0.04, 0.92), (0.2, 1.0), (0.5, 0.86), (0.75, 0.74))]
        inner = [self.along_arm(far * self.reach, -self.arm * wide) for far, wide in (
            (0.75, 0.62), (0.5, 0.78), (0.36, 0.9))]
        far = self.reach
        tip = [
            self.along_arm(far, wrist), self.along_arm(far + 0.4 * hand, 0.8 * self.arm),
            self.along_arm(far + 0.8 * hand, 0.62 * self.arm), self.along_arm(far + hand, 0.05 * self.arm),
            self.along_arm(far + 0.8 * hand, -0.5 * self.arm), self.along_arm(far + 0.4 * hand, -0.72 * self.arm),
            self.along_arm(far, -wrist),
        ]  # fmt: skip
        return [*outer, *tip, *inner]

    def _trunk(self) -> list[Cm]:
        """From under the arm down the side and the leg, and up its inner side to the middle."""
        waist, hip, knee = self.levels["waist"], self.levels["hip"], self.levels["knee"]
        fork = hip + 0.16 * waist
        calf, ankle = knee + 0.3 * (self.sole - knee), self.sole - 0.10 * (self.sole - knee)
        leg = 0.55 * self.hip
        pit = min(self.bust, self.along_arm(0.36 * self.reach, -self.arm)[0] - 1.2)
        down = [(pit, self.armhole + 2.0), (self.half_at((self.armhole + waist) / 2), (self.armhole + waist) / 2)]
        down += [(self.waist, waist), (self.half_at((waist + hip) / 2), (waist + hip) / 2), (self.hip, hip)]
        down += [(0.97 * self.hip, fork + 3), (leg + 0.31 * self.hip, knee), (leg + 0.34 * self.hip, calf)]
        foot = [(leg + 0.17 * self.hip, ankle), (leg + 0.34 * self.hip, self.sole - 0.6), (leg, self.sole)]
        up = [(leg - 0.17 * self.hip, self.sole - 0.8), (leg - 0.16 * self.hip, ankle), (leg - 0.26 * self.hip, calf)]
        return [*down, *foot, *up, (leg - 0.24 * self.hip, knee), (0.07 * self.hip, fork + 5), (0.0, fork)]


def between(x: float, xs: Sequence[float], ys: Sequence[float]) -> float:
    """What a line through places has at ``x``: its ``xs`` rise; before the first and past the last it goes on level."""
    if x <= xs[0] or x >= xs[-1]:
        return ys[0] if x <= xs[0] else ys[-1]
    nth = bisect_right(xs, x) - 1
    return (ys[nth + 1] - ys[nth]) / (xs[nth + 1] - xs[nth]) * (x - xs[nth]) + ys[nth]


def breadth(body: Figure, cut: float | None = None) -> float:
    """Half the breadth of a figure with its arms, in cm, down to where it is ``cut`` off."""
    return max(x for x, y in (body.outline() if cut is None else cut_off(body.outline(), cut)))


def cut_off(outline: list[Cm], low: float) -> list[Cm]:
    """The smooth line through an outline as far as it lies above ``low`` cm, from one end of the cut to the other."""
    line = list(_smooth(outline))
    below = next(nth for nth, (_, y) in enumerate(line) if y > low)
    line = [*line[below:], *line[:below]]
    return [(x, y) for x, y in line if y <= low]


def _smooth(outline: list[Cm], parts: int = 8) -> Iterator[Cm]:
    """Places along Catmull and Rom's spline through ``outline``, which is closed."""
    count = len(outline)
    for nth in range(count):
        before, here, ahead, after = (outline[(nth + step) % count] for step in (-1, 0, 1, 2))
        for part in range(parts):
            t = part / parts
            yield _spline(before[0], here[0], ahead[0], after[0], t), _spline(before[1], here[1], ahead[1], after[1], t)


def _spline(before: float, here: float, ahead: float, after: float, t: float) -> float:
    bend = 2 * before - 5 * here + 4 * ahead - after
    return here + t / 2 * (ahead - before + t * (bend + t * (3 * (here - ahead) + after - before)))


def of(wearer: Wearer | None, lean: float = ARM_LEAN) -> Figure:
    """The figure of a wearer, or of a likely one where there is none, its arms held away from the body by ``lean``."""
    table: TableName = "child" if body.is_child(wearer) else "woman"
    size = TAKEN[table]
    if wearer is not None and wearer.bust is not None and wearer.table is None:
        own = wearer.bust
        size = min(sizes.tables()[table], key=lambda name: abs(sizes.tables()[table][name]["bust"].middle - own))
    row = sizes.tables()[table][size]
    missing: list[str] = []

    def cm(measure: str, rule: float | None = None) -> float:
        found = body.known(wearer, measure)
        if found is not None:
            return float(found.middle)
        if rule is not None and measure not in row:
            return rule
        missing.append(measure)
        return float(row[measure].middle)

    bust, waist_length, head = cm("bust"), cm("waist_length"), cm("head")
    child = table == "child"
    waist, hip = cm("waist", 0.9 * bust), cm("hip", 1.04 * bust)
    shoulders, arm = cm("cross_back") / 2, cm("upper_arm") / math.tau
    armhole = cm("armhole") + SLOPE * waist_length
    cuff = body.known(wearer, "neck_to_cuff")
    reach = float(cuff.middle) - shoulders if cuff else cm("arm") + 0.62 * cm("armhole")
    hip_level = _level(wearer, "hip") or waist_length + (5.1 if child else 0.5 * waist_length)
    knee = _level(wearer, "knee") or (2.2 if child else 2.4) * waist_length
    return Figure(
        bust / math.tau * BUST, waist / math.tau * WAIST, hip / math.tau * HIP, shoulders, arm, armhole, reach,
        head / HEAD_ROUND, (1 + SHANK) * knee, {"waist": waist_length, "hip": hip_level, "knee": knee},
        (table, size) if missing else None, lean,
    )  # fmt: skip


def _level(wearer: Wearer | None, name: Level) -> float | None:
    found = body.level(wearer, name)
    return None if found is None else float(found.middle)
