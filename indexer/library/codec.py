"""Tags to JSON text and back, driven by the types themselves, so that a new field needs no code here.

A field that holds its default is left out, so a field added later with a default reads old rows well.
"""

import datetime
import json
import types
from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints


def to_json(value: Any) -> str:
    """JSON text of a value made of our frozen records, enums, dates, tuples, mappings and plain values.

    Equal values give equal text: keys are in the order of the fields, mappings are sorted.
    """
    return json.dumps(_plain(value), ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def from_json(kind: Any, text: str) -> Any:
    """The value of type `kind` that to_json wrote. `kind` may be a record, tuple[...], Tag[...] or X | None.

    Raises ValueError, TypeError or KeyError when the text is not of that kind.
    """
    return _reader(kind)(json.loads(text))


def _plain(value: Any) -> Any:
    kind = type(value)
    if value is None or kind in _PLAIN:
        return value
    if kind is tuple:
        return [_plain(item) for item in value]
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, datetime.date):
        return value.isoformat()
    if is_dataclass(value):
        return {
            name: _plain(held)
            for name, default in _fields(kind)
            if not _same(held := getattr(value, name), default)
        }
    if isinstance(value, Mapping):
        return {key: _plain(value[key]) for key in sorted(value)}
    raise TypeError(f"no JSON form for {kind.__name__}")


def _same(held: Any, default: Any) -> bool:
    return held is default or (type(held) is type(default) and held == default)


_PLAIN = frozenset({str, bool, int, float})


@cache
def _fields(kind: type) -> tuple[tuple[str, Any], ...]:
    """Name and default of each field; MISSING, which no value is, where there is none."""
    return tuple(
        (field.name, field.default if field.default_factory is MISSING else field.default_factory())
        for field in fields(kind)
    )


@cache
def _reader(kind: Any) -> Callable[[Any], Any]:
    """What makes a value of type `kind` out of plain data; worked out once for each type."""
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        (some,) = (_reader(each) for each in get_args(kind) if each is not type(None))
        return lambda data: None if data is None else some(data)
    if origin is tuple:
        if get_args(kind)[-1] is not Ellipsis:
            parts = [_reader(part) for part in get_args(kind)]
            return lambda data: tuple([part(item) for part, item in zip(parts, data, strict=True)])
        each = _reader(get_args(kind)[0])
        return lambda data: tuple([each(item) for item in data])
    if isinstance(origin, type) and issubclass(origin, Mapping):
        held = _reader(get_args(kind)[1])
        return lambda data: {key: held(item) for key, item in data.items()}
    if is_dataclass(origin or kind):
        return _record_reader(kind)
    if issubclass(kind, Enum):
        return kind
    if kind is datetime.date:
        return datetime.date.fromisoformat
    return lambda data: data if type(data) is kind else _checked(kind, data)


def _checked(kind: type, data: Any) -> Any:
    if type(data) is kind:
        return data
    if kind is float and type(data) is int:
        return float(data)
    raise TypeError(f"{data!r} is not {kind.__name__}")


def _record_reader(kind: Any) -> Callable[[dict], Any]:
    """Reader of a record. Its fields are looked into at the first use: a record may hold its like."""
    maker = get_origin(kind) or kind
    filled = dict(zip(getattr(maker, "__parameters__", ()), get_args(kind), strict=False))
    readers: dict[str, Callable] = {}

    def read(data: dict) -> Any:
        if not readers:
            hints = get_type_hints(maker)
            readers.update((name, _reader(_filled(hint, filled))) for name, hint in hints.items())
        return maker(**{name: readers[name](item) for name, item in data.items()})

    return read


def _filled(hint: Any, filled: dict) -> Any:
    """The type of a field, with the parameter of Tag[X] filled in."""
    if isinstance(hint, TypeVar):
        return filled[hint]
    if filled and getattr(hint, "__parameters__", ()):
        return hint[tuple(filled[parameter] for parameter in hint.__parameters__)]
    return hint
