"""Records do what the standard library's dataclasses do, to which each class here is held (documented behaviour of
``dataclasses`` and ``pickle``), and no class is compiled that has few records."""

from __future__ import annotations

import copy
import dataclasses
import pickle
import subprocess
import sys
from functools import cached_property
from typing import Any

import pytest

from turnchain.records import FEW, field, fields, for_the_last, frozen, mutable, replace


@frozen
class Row:
    """A row."""

    number: int
    colour: str = "sand"
    places: tuple[int, ...] = ()

    @property
    def next(self) -> int:
        return self.number + 1

    class Inner:
        pass


@dataclasses.dataclass(frozen=True, slots=True)
class AsRow:
    number: int
    colour: str = "sand"
    places: tuple[int, ...] = ()


@frozen
class One:
    value: int


@frozen
class Empty:
    pass


@frozen(eq=False)
class Itself:
    value: int


@frozen(slots=False)
class Counted:
    values: tuple[int, ...]

    @cached_property
    def total(self) -> int:
        return sum(self.values)


@frozen
class Checked:
    value: int

    def __post_init__(self) -> None:
        if self.value < 0:
            raise ValueError("less than nothing")


@mutable
class Ball:
    metres: int
    knots: list[int] = field(default_factory=list)


@mutable(eq=False)
class Tally:
    count: int = 0


@pytest.mark.parametrize(
    ("values", "named"),
    [((1,), {}), ((1, "plum"), {}), ((), {"number": 2, "places": (3,)}), ((1,), {"places": (0,), "colour": "moss"})],
)
def test_made_compared_and_hashed_as_a_dataclass(values: tuple[Any, ...], named: dict[str, Any]) -> None:
    row, again, other = Row(*values, **named), Row(*values, **named), Row(99)
    like = AsRow(*values, **named)
    assert (row.number, row.colour, row.places) == (like.number, like.colour, like.places)
    assert row == again
    assert hash(row) == hash(again) == hash(like)
    assert row != other
    assert row != like
    assert row != (row.number, row.colour, row.places)
    assert {row, again, other} == {row, other}
    assert repr(row) == repr(like).replace("AsRow", "Row")
    assert row.next == row.number + 1


WRONG: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    ((), {}), ((1, "a", (), 4), {}), ((1,), {"number": 2}), ((1,), {"wool": 3}), ((1, "a", ()), {"wool": 3}),
    ((1, "a", ()), {"colour": "b"}),
]  # fmt: skip


@pytest.mark.parametrize(("values", "named"), WRONG)
def test_wrong_arguments_of_a_first_record_are_told(values: tuple[Any, ...], named: dict[str, Any]) -> None:
    @frozen
    class Skein:
        number: int
        colour: str = "sand"
        places: tuple[int, ...] = ()

    with pytest.raises(TypeError, match="Skein"):
        Skein(*values, **named)
    assert Skein(1, "a") == Skein(1, "a", ())


@pytest.mark.parametrize(("values", "named"), WRONG)
def test_wrong_arguments_are_told_as_a_dataclass_tells_them(values: tuple[Any, ...], named: dict[str, Any]) -> None:
    for _ in range(2):  # at the first record, which has it compiled, and later
        with pytest.raises(TypeError) as like:
            AsRow(*values, **named)
        with pytest.raises(TypeError) as told:
            Row(*values, **named)
        assert str(told.value) == str(like.value).replace("AsRow", "Row")


def test_a_frozen_record_stays_as_it_is() -> None:
    row = Row(1)
    for name in ("number", "colour", "unknown"):
        with pytest.raises(AttributeError, match=f"Row is frozen: its {name} cannot change"):
            setattr(row, name, 2)
    with pytest.raises(AttributeError, match="frozen"):
        del row.number
    assert row == Row(1)
    assert not hasattr(row, "__dict__")


def test_records_of_one_field_of_none_and_of_another_class() -> None:
    assert One(1) == One(1) != One(2)
    assert hash(One(1)) == hash((1,))
    assert Empty() == Empty()
    assert repr(Empty()) == "Empty()"
    assert One(1) != Itself(1)


def test_without_eq_a_record_equals_itself_alone() -> None:
    record = Itself(1)
    assert record == record
    assert record != Itself(1)
    assert len({record, Itself(1)}) == 2
    assert Tally(1) != Tally(1)
    assert len({Tally(), Tally()}) == 2


def test_what_is_kept_on_a_record_counts_for_nothing() -> None:
    counted = Counted((1, 2))
    assert counted.total == 3
    assert counted.__dict__ == {"total": 3}
    assert counted == Counted((1, 2))
    assert pickle.loads(pickle.dumps(counted)).__dict__ == {}


def test_a_mutable_record_changes_and_has_defaults_of_its_own() -> None:
    ball, other = Ball(50), Ball(50)
    ball.knots.append(7)
    ball.metres = 43
    assert (ball.metres, ball.knots, other.knots) == (43, [7], [])
    assert other == Ball(50, []) != ball
    with pytest.raises(TypeError, match="unhashable"):
        hash(ball)
    with pytest.raises(AttributeError):
        ball.unknown = 1  # type: ignore[attr-defined]
    tally = Tally()
    tally.count += 1
    assert tally.count == 1


def test_what_a_class_says_itself_stays() -> None:
    @frozen
    class Named:
        name: str
        rows: tuple[int, ...]

        def __hash__(self) -> int:
            return hash(self.name)

        def __repr__(self) -> str:
            return self.name

    assert hash(Named("front", (1,))) == hash("front")
    assert repr(Named("front", (1,))) == "front"
    assert Named("front", (1,)) != Named("front", (2,))


def test_what_a_class_checks_is_checked_at_every_record() -> None:
    for _ in range(2):
        with pytest.raises(ValueError, match="less than nothing"):
            Checked(-1)
    with pytest.raises(ValueError, match="less than nothing"):
        replace(Checked(1), value=-1)


def test_replaced_matched_pickled_and_copied() -> None:
    row = Row(1, places=(2, 3))
    assert replace(row, colour="plum") == Row(1, "plum", (2, 3))
    assert replace(AsRow(1), number=5) == AsRow(5)
    with pytest.raises(TypeError, match="wool"):
        replace(row, wool=1)
    match row:
        case Row(number, colour, places):
            assert (number, colour, places) == (1, "sand", (2, 3))
    for again in (pickle.loads(pickle.dumps(row)), copy.copy(row), copy.deepcopy(row)):
        assert again == row
    ball = copy.deepcopy(Ball(1, [2]))
    assert ball == Ball(1, [2])
    assert (Row.__name__, Row.__qualname__, Row.__module__, Row.__doc__) == ("Row", "Row", __name__, "A row.")
    assert fields(Row) == fields(row) == ("number", "colour", "places")


def test_a_record_is_the_same_before_and_after_its_class_is_compiled() -> None:
    @mutable
    class Skein:
        yarn: str
        metres: float = 50.0
        knots: list[int] = field(default_factory=list)

        def __post_init__(self) -> None:
            self.knots.append(len(self.yarn))

    few = Skein.__init__
    skeins = [Skein("sand", metres=43) if nth % 2 else Skein(metres=43, yarn="sand") for nth in range(FEW)]
    assert Skein.__init__ is few
    skeins += [Skein("sand", 43), Skein("sand", metres=43)]
    assert Skein.__init__ is not few
    assert all(skein == skeins[0] and fields(skein) == ("yarn", "metres", "knots") for skein in skeins)
    assert all(skein.knots == [4] for skein in skeins)
    assert len({id(skein.knots) for skein in skeins}) == len(skeins)
    assert Skein("sand") == Skein("sand", 50.0, [])


def test_no_class_is_compiled_that_has_few_records() -> None:
    """Loading the report's rooms, with some hundred classes, executes no text; the first record of a class neither."""
    script = (
        "import builtins\nfound = []\nrun = exec\n"
        "def exec(text, *more):\n    found.append(text)\n    run(text, *more)\n"
        "from turnchain import records\nrecords.exec = exec\n"
        "import turnchain.planning.planner, turnchain.pattern\n"
        "made = [kind for kind in vars(turnchain.pattern).values() if hasattr(kind, '__match_args__')]\n"
        "before = len(found)\nturnchain.pattern.Allowance()\n"
        "few = len(found)\n[turnchain.pattern.Allowance() for _ in range(records.FEW)]\n"
        "print(len(made) > 10, before, few, len(found) - few)\n"
    )
    told = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert told.stdout.split() == ["True", "0", "0", "1"]


def test_what_came_of_the_last_record_is_kept_for_that_very_one() -> None:
    asked: list[Row] = []

    def number(row: Row) -> int:
        asked.append(row)
        return row.number

    kept = for_the_last(number)
    one, alike, other = Row(1), Row(1), Row(2)
    assert [kept(row) for row in (one, one, alike, alike, other, one)] == [1, 1, 1, 1, 2, 1]
    assert [id(row) for row in asked] == [id(row) for row in (one, alike, other, one)]
