"""Tags to JSON text and back, driven by the types themselves, so that a new field needs no code here.

A field that holds its default is left out, so a field added later with a default reads old rows well.
"""

import datetime
import json
import types
from collections.abc import Mapping
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
    return _value(kind, json.loads(text))


def _plain(value: Any) -> Any:
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, datetime.date):
        return value.isoformat()
    if is_dataclass(value):
        return {
            field.name: _plain(held)
            for field in fields(value)
            if not _is_default(field, held := getattr(value, field.name))
        }
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, Mapping):
        return {key: _plain(value[key]) for key in sorted(value)}
    if value is None or isinstance(value, (str, bool, int, float)):
        return value
    raise TypeError(f"no JSON form for {type(value).__name__}")


def _is_default(field: Any, held: Any) -> bool:
    if field.default is not MISSING:
        return type(held) is type(field.default) and held == field.default
    return field.default_factory is not MISSING and held == field.default_factory()


def _value(kind: Any, data: Any) -> Any:
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        return _optional(get_args(kind), data)
    if origin is tuple:
        return (
            tuple(_value(get_args(kind)[0], item) for item in data)
            if _open_ended(kind)
            else tuple(_value(part, item) for part, item in zip(get_args(kind), data, strict=True))
        )
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return {key: _value(get_args(kind)[1], item) for key, item in data.items()}
    if is_dataclass(origin or kind):
        return _record(kind, data)
    if issubclass(kind, (Enum,)):
        return kind(data)
    if kind is datetime.date:
        return datetime.date.fromisoformat(data)
    if kind is float and type(data) is int:
        return float(data)
    if type(data) is not kind:
        raise TypeError(f"{data!r} is not {kind.__name__}")
    return data


def _open_ended(kind: Any) -> bool:
    return get_args(kind)[-1] is Ellipsis


def _optional(kinds: tuple, data: Any) -> Any:
    if data is None:
        return None
    (kind,) = (each for each in kinds if each is not type(None))
    return _value(kind, data)


def _record(kind: Any, data: dict) -> Any:
    maker, parts = _parts(kind)
    return maker(**{name: _value(parts[name], item) for name, item in data.items()})


@cache
def _parts(kind: Any) -> tuple[type, dict[str, Any]]:
    """The class of a record and the type of each field, with Tag[X]'s parameter filled in."""
    maker = get_origin(kind) or kind
    filled = dict(zip(getattr(maker, "__parameters__", ()), get_args(kind), strict=False))
    return maker, {name: _filled(hint, filled) for name, hint in get_type_hints(maker).items()}


def _filled(hint: Any, filled: dict) -> Any:
    if isinstance(hint, TypeVar):
        return filled[hint]
    if filled and getattr(hint, "__parameters__", ()):
        return hint[tuple(filled[parameter] for parameter in hint.__parameters__)]
    return hint
