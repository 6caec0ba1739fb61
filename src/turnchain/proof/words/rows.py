"""A paragraph as rows: one row told alone, or several told together.

In: a paragraph, the rows that come before it and the piece's one yarn, if it has one. Out: its rows as told, each with
steps of its own where rows share theirs or repeat those of others; none where the words do not fit.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TypeAlias

from turnchain.proof.maker import steps as do
from turnchain.proof.maker.told import Count, Shaped, Told
from turnchain.proof.words import closing
from turnchain.proof.words.finger import Finger
from turnchain.proof.words.ranges import rows_in
from turnchain.proof.words.sentences import sentence
from turnchain.proof.words.stripes import take_yarns
from turnchain.proof.words.tongue import Tongue

Model: TypeAlias = tuple[tuple[do.Step, ...], Count, tuple[Shaped, ...]]  # the steps of a row, its count, its edges


def rows_of(words: Tongue, text: str, before: Sequence[Told], single_yarn: str | None) -> list[Told]:
    """The rows that the paragraph ``text`` tells after those ``before``."""
    for key in ("row_in", "row", "rows_in", "rows"):
        head = words.pattern(key, ": ").match(text)
        if head is not None:
            yarn = words.yarn(head["yarn"]) if "yarn" in head.groupdict() else single_yarn
            finger = Finger(words, text[head.end() :])
            alone = key in ("row_in", "row")
            rows = _alone(finger, head, yarn) if alone else _together(finger, head, yarn, before)
            if rows:
                return rows
    return []


def _alone(finger: Finger, head: re.Match[str], yarn: str | None) -> list[Told]:
    steps = _steps(finger)
    counts, shaped, off = closing.counts(finger), closing.shaped(finger), closing.off(finger)
    if not steps or len(counts) != 1 or not finger.done:
        return []
    side = finger.words.side(head["side"])
    return [Told(int(head["n"]), side, yarn, steps, counts[0], shaped, None, off)]


def _together(finger: Finger, head: re.Match[str], yarn: str | None, before: Sequence[Told]) -> list[Told]:
    numbers = rows_in(finger.words, head["range"])
    sides = [finger.words.side(head[name]) for name in ("side", "other")]
    if not numbers or sides[0] == sides[1]:
        return []
    again = finger.take("again_ending") or finger.take("again")
    models = _each(finger) if again is None else _in_turn(finger, _repeated(finger.words, again, numbers, before))
    if not models:
        return []
    rows = [Told(number, sides[nth % 2], yarn, *models[nth % len(models)]) for nth, number in enumerate(numbers)]
    if not take_yarns(finger, rows):
        return []
    rows[-1].fasten_off = closing.off(finger)
    return rows if finger.done else []


def _each(finger: Finger) -> list[Model]:
    """What every one of the rows has, where they tell their own steps."""
    steps = _steps(finger)
    counts, shaped = closing.counts(finger, "each"), closing.shaped(finger)
    return [(steps, counts[0], shaped)] if steps and len(counts) == 1 else []


def _repeated(words: Tongue, again: re.Match[str], numbers: range, before: Sequence[Told]) -> list[Told]:
    """The rows that are to be repeated, where it is said rightly with which of them the ``numbers`` end."""
    known = {row.number: row for row in before}
    wanted = rows_in(words, again["range"])
    if not wanted or any(number not in known for number in wanted):
        return []
    over = len(numbers) % len(wanted)
    ending = wanted[over - 1] if over else None
    said = int(again["end"]) if "end" in again.groupdict() else None
    return [known[number] for number in wanted] if said == ending else []


def _in_turn(finger: Finger, rows: list[Told]) -> list[Model]:
    """What rows that repeat those have in turn; the counts are told anew."""
    counts = closing.counts(finger, "turns")
    if len(counts) != len(rows):
        return []
    return [(_plain(row), count, row.shaped) for row, count in zip(rows, counts, strict=True)]


def _plain(told: Told) -> tuple[do.Step, ...]:
    """A row's steps without the change of yarn, which the rows that repeat it tell by themselves."""
    return tuple(step for step in told.steps if not isinstance(step, do.Change))


def _steps(finger: Finger) -> tuple[do.Step, ...]:
    """The steps of the sentence that the text begins with; none where it does not fit."""
    steps, finger.at = sentence(finger.words, finger.text)
    return steps
