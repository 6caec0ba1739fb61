"""What closes a row: its counts, what its edges do, the end of its yarn.

In: a finger on what comes after the steps. Out: what is said there; the finger has passed it.
"""

from __future__ import annotations

from typing import Literal

from turnchain.proof.maker.told import Count, Shaped
from turnchain.proof.words.finger import Finger

_EDGES: tuple[Literal["start", "end"], ...] = ("start", "end")


def counts(finger: Finger, lead: str | None = None) -> list[Count]:
    """ "22 cl (67 dc, 21 ch, 1 tch); ...". """
    if lead is not None and finger.take(lead) is None:
        return []
    made: list[Count] = []
    while (found := finger.take("count")) is not None:
        count = _count(finger, int(found["n"]), found["parts"])
        if count is None:
            return []
        made.append(count)
        if not finger.literal("; "):
            break
    return made if finger.literal(".") else []


def _count(finger: Finger, clusters: int, parts: str) -> Count | None:
    numbers = {"dc": 0, "ch": 0, "slips": 0, "tch": 0}
    order = []
    for part in parts.split(", "):
        for key in numbers:
            found = finger.words.pattern(f"part_{key}").fullmatch(part)
            if found is not None:
                numbers[key] = int(found["n"])
                order.append(key)
                break
        else:
            return None
    in_order = order == [key for key in numbers if key in order]
    return Count(clusters, **numbers) if in_order and all(numbers[key] for key in order) else None


def shaped(finger: Finger) -> tuple[Shaped, ...]:
    """ " At start: half a cl less; at end: 1½ cl more."."""
    begun, text = finger.at, finger.text
    made: list[Shaped] = []
    if not finger.literal(" "):
        return ()
    finger.text = text[: finger.at] + text[finger.at : finger.at + 1].lower() + text[finger.at + 1 :]
    for where in _EDGES:
        if made and not finger.literal("; "):
            break
        less, more = finger.take(f"{where}_less"), finger.take(f"{where}_more")
        found = less or more
        if found is not None:
            halves = _halves(finger, found["amount"])
            made.append(Shaped(where, halves if more else -halves))
    finger.text = text
    if not made or not finger.literal("."):
        finger.at = begun
        return ()
    return tuple(made)


def _halves(finger: Finger, amount: str) -> int:
    """ "1½" as three halves."""
    return 1 if amount == finger.words.phrases["half"] else 2 * int(amount.rstrip("½")) + amount.endswith("½")


def off(finger: Finger) -> bool:
    """ " Fasten off."."""
    return finger.literal(finger.words.say("off"))
