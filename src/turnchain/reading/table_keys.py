"""What a table of a pattern file is: its keys, and what is sound of it.

In: nothing. Out: ``TomlTable``, of which ``tables`` and ``piece_tables`` have one for every table of a file.
"""

from __future__ import annotations

from typing import Any, ClassVar, Final, Generic, TypeVar, cast

from turnchain import pattern
from turnchain.reading import values
from turnchain.records import fields

T = TypeVar("T")
D = TypeVar("D")

ROWS: Final = values.whole(1, pattern.MOST_ROWS)  # how a number of rows is read


class TableKey(Generic[T]):
    """A key: how its value is read and, where a table must have it, the message that says so (``needed``, else "").

    Read from a table it is the value, or None where the file has none or none that is sound.
    """

    def __init__(self, read: values.Reader[T], needed: str = "") -> None:
        self.read = read
        self.needed = needed
        self.name = ""

    def __set_name__(self, owner: type[TomlTable], name: str) -> None:
        self.name = name

    def __get__(self, table: TomlTable, owner: type[TomlTable]) -> T | None:
        return cast("T | None", table.sound.get(self.name))


class SizedKey(TableKey[T]):
    """A key that may have a value for every size, in brackets as ``brackets`` reads them."""


class TomlTable:
    """What is ``sound`` of one table, by key. ``keys``: all that such a table may have; ``home``: where it stands in a
    file, in words."""

    keys: ClassVar[dict[str, TableKey[Any]]]
    home: ClassVar[str]

    def __init_subclass__(cls, home: str) -> None:
        cls.keys = {name: key for name, key in vars(cls).items() if isinstance(key, TableKey)}
        cls.home = home

    def __init__(self, sound: dict[str, object]) -> None:
        self.sound = sound

    def made(self, kind: type[D], **more: Any) -> D:
        """A ``kind`` (a record of ``turnchain.pattern``) from a sound table and the fields in ``more``, which go
        first; what both leave out keeps its default. Raises TypeError where a field without a default is missing."""
        names = fields(kind)
        return kind(**{name: value for name, value in {**self.sound, **more}.items() if name in names})
