"""What changed about an item of a job packet since it was added, in sentences. Pure."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Standing(StrEnum):
    """What a packet's copy is worth today, the worst first."""

    GONE = "gone"
    CLOSED = "closed"
    SUPERSEDED = "superseded"
    CHANGED = "changed"
    CURRENT = "current"  # nothing held here changed since the items were added; never that they are current


LEADS = {
    "current": "Unchanged since it was put together",
    "changed": "Changed since it was put together",
    "superseded": "Superseded: not to be used as it is",
    "closed": "Closed",
}


@dataclass(frozen=True, slots=True)
class Change:
    """`standing`: SUPERSEDED where the item must not be used as it was added, else CHANGED."""

    standing: Standing
    words: str


def changes(then: Mapping[str, Any], now: Mapping[str, Any]) -> tuple[Change, ...]:
    """What is not as it was; then: as kept with the item, now: as `packet_item.ItemReader.now` gives it."""
    return tuple(dict.fromkeys(_changes(then, now)))


def _changes(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Change]:
    if not now["held"]:
        yield Change(Standing.SUPERSEDED, "Not held any more: its file was taken out of the library.")
        return
    source = now["source"]
    revision = f"Revision {then['revision']} then" if then.get("revision") else "As it was then"
    for each in source["superseding"]:
        if each["publication"] in then.get("superseding", ()):
            continue
        if each["certain"]:
            yield Change(Standing.SUPERSEDED, f"{revision}; since then: {_small(each['words'])}")
        else:
            yield Change(Standing.CHANGED, f"{revision}; since then: {_small(each['words'])}")
    if source["replaced"] and not any("Replaced" in words for words in then.get("against", ())):
        yield Change(Standing.SUPERSEDED, "A newer file took the place of this one since it was added.")
    if source["revision"] != then.get("revision", source["revision"]):
        yield Change(
            Standing.CHANGED,
            f"Revision {then.get('revision') or 'not found'} was read then; the same file is read as "
            f"revision {source['revision'] or 'not found'} now.",
        )
    for page in now["pages"]:
        for each in page["overrides"]:
            if each["publication"] not in then.get("overrides", ()):
                where = f"PDF page {page['pdf_page']}"
                words = f"{each['name']} changes this page ({where}) since it was added. {each['words']}"
                yield Change(Standing.SUPERSEDED if each["in_front"] else Standing.CHANGED, words)
    if not now["still_there"]:
        yield Change(Standing.CHANGED, "Not found in its page as it was read then: look at the page itself.")
    yield from _answers(then, now)
    for each in source["directives"]:
        if each["publication"] not in then.get("directives", (each["publication"],)):
            yield Change(Standing.CHANGED, f"{each['name']} speaks of it since it was added.")


def _answers(then: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Change]:
    """Currency, standing and applicability, each then and now."""
    state, lead, answer = now["state"], now["standing"], now["applies"]["answer"]
    if then.get("current", state) != state:
        worse = Standing.SUPERSEDED if state == "superseded" else Standing.CHANGED
        yield Change(worse, f"Currency: then {then['current']}, now {state}.")
    if then.get("standing", lead) != lead:
        yield Change(Standing.CHANGED, f"Standing: then {then['standing']}; now {lead}.")
    said = {*conditions(now)}
    before = {*then.get("conditions", said)}
    for words in sorted(said - before):
        yield Change(Standing.CHANGED, f"Said of its standing now, and not then: {words}")
    for words in sorted(before - said):
        yield Change(Standing.CHANGED, f"Said of its standing then, and not now: {words}")
    if then.get("applies", answer) != answer:
        yield Change(Standing.CHANGED, f"Applies to the aircraft: then {then['applies']}, now {answer}.")


def conditions(now: Mapping[str, Any]) -> list[str]:
    """What is said with the standing of an item's pages: a directive that does not bind yet, or a limit."""
    parts = (part for page in now["pages"] for part in page["standing"]["parts"])
    return sorted({words for part in parts for words in part["notes"]})


def _small(words: str) -> str:
    return words[:1].lower() + words[1:]


def worst(found: tuple[Change, ...]) -> Standing:
    """Of an item's changes the one that weighs most."""
    if any(each.standing is Standing.SUPERSEDED for each in found):
        return Standing.SUPERSEDED
    return Standing.CHANGED if found else Standing.CURRENT


def state_words(fields: Mapping[str, Any]) -> str:
    """That the library changed since items were added; "" = it did not."""
    now = fields["library_state"]["generation"]
    older = [each for each in fields["generations"] if each != now]
    if not older:
        return ""
    then = ", ".join(str(each) for each in older)
    return f"The library changed since items were added: library state {then} then, {now} now."
