"""Records: classes of named values, as the standard library's dataclasses, made in microseconds.

Every command makes some hundred of them while it loads, of which it fills a few; ``dataclass`` compiles the methods
of each at once, 0.7 ms apiece. Here ``__init__`` is compiled once a class turns out to have many records, and what
compares, hashes and shows records is shared. A record has slots, fields in the order of their annotations, and
defaults; it is pickled by its fields. No inheritance, no options for a single field but ``default_factory``.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from operator import attrgetter
from typing import TYPE_CHECKING, Any, TypeVar, cast, dataclass_transform, overload

if TYPE_CHECKING:
    from dataclasses import replace as replace  # mypy looks at the fields that are changed
else:

    def replace(record, /, **changes):
        """A record like ``record`` but for ``changes``, by name of field."""
        for name in record.__match_args__:
            if name not in changes:
                changes[name] = getattr(record, name)
        return type(record)(**changes)


def fields(record: object) -> tuple[str, ...]:
    """The names of the fields of a record, or of a class of records, in order."""
    return record.__match_args__  # type: ignore[attr-defined, no-any-return]  # every record has them


#: So many records of a class are filled field by field, half a µs slower than by what is compiled, and some µs where
#: fields are named or left out; to compile takes 70 to 150.
FEW = 100

T = TypeVar("T")
_Record = TypeVar("_Record")
_Class = TypeVar("_Class", bound=type[Any])


def for_the_last(function: Callable[[_Record], T]) -> Callable[[_Record], T]:
    """``function`` of a record that never changes, which keeps what it made of the last one: asked of the very same
    record again, it gives the same value."""
    last: list[tuple[_Record, T]] = []

    @wraps(function)
    def asked(record: _Record) -> T:
        for known, value in last:
            if known is record:
                return value
        value = function(record)
        last[:] = [(record, value)]
        return value

    return asked


class _Factory:
    def __init__(self, make: Callable[[], Any]) -> None:
        self.make = make


def field(*, default_factory: Callable[[], T]) -> T:
    """The default of a field that every record gets anew, such as an empty list."""
    return cast(T, _Factory(default_factory))


@overload
def frozen(kind: _Class, /) -> _Class: ...
@overload
def frozen(*, eq: bool = True, slots: bool = True) -> Callable[[_Class], _Class]: ...
@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(kind: Any = None, /, *, eq: bool = True, slots: bool = True) -> Any:
    """A class whose records never change; with ``eq`` they are equal, and hashed, by their fields.

    Without ``slots`` a record has room for what ``cached_property`` keeps.
    """
    fixed: dict[str, Any] = {"__setattr__": _fixed, "__delattr__": _fixed}

    def made(kind: type[Any]) -> type[Any]:
        return _made(kind, fixed | (_compared(kind) if eq else {}), slots)

    return made if kind is None else made(kind)


@overload
def mutable(kind: _Class, /) -> _Class: ...
@overload
def mutable(*, eq: bool = True) -> Callable[[_Class], _Class]: ...
@dataclass_transform(field_specifiers=(field,))
def mutable(kind: Any = None, /, *, eq: bool = True) -> Any:
    """A class whose records may change; with ``eq`` they are equal by their fields, and cannot be hashed."""

    def made(kind: type[Any]) -> type[Any]:
        return _made(kind, _compared(kind) | {"__hash__": None} if eq else {}, slots=True)

    return made if kind is None else made(kind)


def _made(kind: type[Any], shared: dict[str, Any], slots: bool) -> type[Any]:
    names = tuple(kind.__annotations__)
    body = {"__repr__": _shown, "__reduce__": _reduced} | shared | vars(kind)  # what the class has itself stays
    defaults = {name: body.pop(name) for name in names if name in body}
    for name in ("__dict__", "__weakref__"):
        body.pop(name, None)
    body |= {"__qualname__": kind.__qualname__, "__match_args__": names}
    body["__slots__"] = names if slots else (*names, "__dict__")
    made: type[Any] = type(kind)(kind.__name__, kind.__bases__, body)  # type: ignore[misc]  # a class, by its metaclass

    made.__init__ = _uncompiled(made, defaults)
    return made


def _uncompiled(made: type[Any], defaults: dict[str, Any]) -> Any:
    """``__init__`` of the first ``FEW`` records, which needs nothing compiled; the next one, and a call with wrong
    arguments, has it compiled for itself and all that follow."""
    names, room = fields(made), iter(range(FEW))
    count, setters = len(names), [vars(made)[name].__set__ for name in names]  # past that of frozen records
    every, finish = set(names), vars(made).get("__post_init__")

    def filled(values: tuple[Any, ...], named: dict[str, Any]) -> list[Any] | None:
        """The values of all fields; None of a call with wrong arguments."""
        found = {**defaults, **dict(zip(names, values, strict=False)), **named}
        twice = not named.keys().isdisjoint(names[: len(values)])
        if twice or len(values) > count or found.keys() != every:
            return None
        return [value.make() if value.__class__ is _Factory else value for value in map(found.get, names)]

    def first(self: Any, /, *values: Any, **named: Any) -> None:
        given = values if len(values) == count and not named else filled(values, named)
        if given is None or next(room, None) is None:
            made.__init__ = _compiled(made, defaults)
            made.__init__(self, *values, **named)
            return
        for put, value in zip(setters, given, strict=True):
            put(self, value)
        if finish is not None:
            finish(self)

    return first


def _compiled(made: type[Any], defaults: dict[str, Any]) -> Any:
    """``__init__``, which fills each slot by its own setter, past the ``__setattr__`` of frozen records."""
    names = fields(made)
    space: dict[str, Any] = {f"set_{name}": vars(made)[name].__set__ for name in names}
    space |= {f"default_{name}": value for name, value in defaults.items()}
    space |= {f"make_{name}": value.make for name, value in defaults.items() if isinstance(value, _Factory)}
    heads = [f"{name}=default_{name}" if name in defaults else name for name in names]
    lines = [f"def __init__({', '.join(('self', *heads))}):"]
    for name in names:
        if f"make_{name}" in space:
            lines.append(f" if {name} is default_{name}: {name} = make_{name}()")
        lines.append(f" set_{name}(self, {name})")
    lines.append(" self.__post_init__()" if hasattr(made, "__post_init__") else " pass")
    exec("\n".join(lines), space)
    written = space["__init__"]
    written.__qualname__ = f"{made.__qualname__}.__init__"  # as errors about wrong arguments name it
    return written


def _compared(kind: type[Any]) -> dict[str, Any]:
    """``__eq__`` and ``__hash__`` by the fields, as one tuple."""
    names = tuple(kind.__annotations__)
    values: Callable[[Any], Any] = attrgetter(*names) if len(names) > 1 else _few(names)

    def equal(self: Any, other: object) -> Any:
        return values(self) == values(other) if self.__class__ is other.__class__ else NotImplemented

    return {"__eq__": equal, "__hash__": lambda self: hash(values(self))}


def _few(names: tuple[str, ...]) -> Callable[[Any], tuple[Any, ...]]:
    """As ``attrgetter``, which gives no tuple for a single name and refuses none."""
    return lambda record: tuple(getattr(record, name) for name in names)


def _fixed(self: Any, name: str, *value: Any) -> None:
    raise AttributeError(f"{type(self).__name__} is frozen: its {name} cannot change")


def _shown(self: Any) -> str:
    return f"{type(self).__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in self.__match_args__)})"


def _reduced(self: Any) -> tuple[type[Any], tuple[Any, ...]]:
    return type(self), tuple(getattr(self, name) for name in self.__match_args__)
