"""Standing once the shop has spoken: lowered by one person, raised by two; what it overrides stays said."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from indexer.library.entry_values import height
from indexer.library.records import EntryKind, EntryState, ShopEntry
from indexer.library.relation_rules.entered_identity import entry_evidence
from indexer.library.relation_rules.entry_places import Placed
from indexer.tagging.tags import Standing, StandingValue

CHANGED_WORDS = "The words it was given for are not the whole passage any more, so it does not raise them."
OTHER_REVISION = "A standing is not raised in another revision than the one it was given for."


@dataclass(frozen=True)
class Judged:
    """What entries make of the standing of passages, and the state each of those entries comes to."""

    standings: Mapping[
        str, Standing
    ]  # passage id -> what holds, where that is not what it is without the shop
    states: Mapping[int, tuple[EntryState, str]]  # entry id -> state, reason


def judged(placed: Iterable[Placed], without: Mapping[str, Standing]) -> Judged:
    """Standing of passages by entries. The lowest of several holds, so that no entry takes back a caution.

    without  passage id -> its standing without entries of this kind; of every passage they reach
    """
    entries = [each for each in placed if each.entry.kind is EntryKind.STANDING]
    agreed: dict[str, list[ShopEntry]] = {}
    for each in entries:
        for passage, whole, carried in _reached(each):
            if each.entry.second and (_lowers(each.entry, without[passage]) or (whole and not carried)):
                agreed.setdefault(passage, []).append(each.entry)
    chosen = {passage: _lowest(held) for passage, held in agreed.items()}
    for each in entries:
        for passage, _, _ in _reached(each):
            upper = _value(chosen[passage]) if passage in chosen else without[passage].value
            if height(_value(each.entry)) < height(upper):
                chosen[passage] = each.entry
    limits = {passage: _value(_lowest(held)) for passage, held in agreed.items()}
    standings = {
        passage: _standing(entry, without[passage])
        for passage, entry in chosen.items()
        if _value(entry) is not without[passage].value
    }
    return Judged(standings, {each.entry.id: _state(each, without, limits) for each in entries})


def _state(
    placed: Placed, without: Mapping[str, Standing], limits: Mapping[str, StandingValue]
) -> tuple[EntryState, str]:
    entry = placed.entry
    reasons, waits = ([placed.reason] if placed.reason else []), entry.undo_waits
    for passage, whole, carried in _reached(placed):
        upper = limits.get(passage, without[passage].value)
        if height(_value(entry)) <= height(upper):
            continue
        if carried:
            reasons.append(OTHER_REVISION)
        elif not whole:
            reasons.append(CHANGED_WORDS)
        elif not entry.second:
            waits = True
    if reasons:
        return EntryState.CHECK_AGAIN, " ".join(dict.fromkeys(reasons))
    return (EntryState.WAITING if waits else EntryState.IN_FORCE), ""


def _value(entry: ShopEntry) -> StandingValue:
    return StandingValue(entry.value)


def _lowers(entry: ShopEntry, base: Standing) -> bool:
    return height(_value(entry)) <= height(base.value)


def _lowest(entries: Iterable[ShopEntry]) -> ShopEntry:
    return min(entries, key=lambda entry: (height(_value(entry)), entry.made_at, entry.id))


def _reached(placed: Placed) -> Iterator[tuple[str, bool, bool]]:
    """Passage, whether the entry was made for all of it, whether it is in another revision."""
    for found, carried in [(placed.own, False), *((found, True) for found in placed.carried.values())]:
        if found:
            for passage in found.passages:
                yield passage, passage in found.whole, carried


def _standing(entry: ShopEntry, base: Standing) -> Standing:
    scope = "passage" if entry.quote else "section" if entry.section else "page"
    conditions = base.conditions
    if base.quote:
        conditions += (f"Without the shop's entry: {base.value.value}, from the words «{base.quote}».",)
    value, evidence = StandingValue(entry.value), entry_evidence(entry)
    return replace(base, value=value, evidence=evidence, scope=scope, conditions=conditions)
