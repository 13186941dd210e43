"""In what two answers to one source check differ, in words. Pure."""

from collections.abc import Iterator, Mapping
from typing import Any

_SAID = (
    ("document", lambda each: (each["resolved"] or {}).get("publication") and _document(each)),
    ("pages", lambda each: (each["resolved"] or {}).get("pdf_pages")),
    ("current", lambda each: each["current"]["state"]),
    ("applies", lambda each: each["applies"]["answer"]),
    ("standing", lambda each: each["standing"]["value"]),
    ("words of its standing", lambda each: each["standing"]["quote"]),
    ("made mandatory by", lambda each: each["standing"]["mandatory"]),
)


def differences(before: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[str]:
    """One sentence for each difference between two answers' fields, in order of citation; none = alike.

    Times, the library's state and the cautions are left out.
    """
    old = {(each["start"], each["text"]): each for each in before["citations"]}
    new = {(each["start"], each["text"]): each for each in now["citations"]}
    for place in sorted(old.keys() | new.keys()):
        if place not in new:
            yield f"«{place[1]}»: it was found then and is not found now."
        elif place not in old:
            yield f"«{place[1]}»: it is found now and was not found then."
        else:
            yield from (f"«{place[1]}»: {each}" for each in _between(old[place], new[place]))


def _between(old: Mapping[str, Any], new: Mapping[str, Any]) -> Iterator[str]:
    told = False
    for name, read in _SAID:
        if read(old) != read(new):
            told = True
            yield f"{name}: then {_shown(read(old))}, now {_shown(read(new))}."
    for work in sorted(old["enough"].keys() | new["enough"].keys()):
        was = old["enough"].get(work, {}).get("answer")
        is_now = new["enough"].get(work, {}).get("answer")
        if was != is_now:
            told = True
            yield f"enough for {work} work: then {_shown(was)}, now {_shown(is_now)}."
    if _directives(old) != _directives(new):
        told = True
        yield f"directives: then {_shown(_directives(old))}, now {_shown(_directives(new))}."
    if not told and (words := _differing(old, new)):
        yield f"the answers are the same, their words differ ({', '.join(words)})."


def _document(each: Mapping[str, Any]) -> str:
    revision = each["resolved"]["revision"]
    return f"{each['resolved']['name']}{f', revision {revision}' if revision else ''}"


def _directives(each: Mapping[str, Any]) -> list[str]:
    return [f"{one['number']} {one['level']} ({one['status']})" for one in each["directives"]]


def _differing(old: Mapping[str, Any], new: Mapping[str, Any]) -> list[str]:
    """Of what both say: an answer kept long ago says less."""
    return sorted(key for key in old.keys() & new.keys() if old[key] != new[key])


def _shown(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(map(str, value)) or "none"
    return str(value) if value not in (None, "") else "none"
