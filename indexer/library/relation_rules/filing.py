"""What passages are filed under once the shop has spoken: its entries first, its map below print. Pure."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from indexer.library.anchoring import Spot
from indexer.library.entry_values import drops_printed, numbers_of
from indexer.library.map_names import Names
from indexer.library.records import EntryKind, MapRow, ShopEntry
from indexer.library.relation_rules.entered_identity import entry_evidence
from indexer.library.relation_rules.entry_places import Placed
from indexer.tagging.numbering import NumberTags, file_by_shop
from indexer.trade.chapters import parse_number
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.own_numbers import in_range

MAP_RULE = "shop map"


@dataclass(frozen=True, order=True)
class _Weight:
    """Which of several entries holds for a passage: the least. The narrower place, then the later entry."""

    carried_over: bool
    place: int  # 0 = by its words, 1 = by section, 2 = by pages
    passages: int
    age: float
    id: int


def filed_numbers(
    passages: Iterable[Spot],
    numbers: Mapping[str, NumberTags],
    mapped: Mapping[str, Sequence[MapRow]],
    placed: Sequence[Placed],
) -> dict[str, NumberTags]:
    """Passage id -> the numbers that hold, for passages that the shop files otherwise than they are read.

    numbers  as tagging gives them
    mapped   passage id -> the lines of the map that reach it
    """
    entered = _entered(placed, numbers)
    found: dict[str, NumberTags] = {}
    for spot in passages:
        given = numbers.get(spot.id, ())
        held = file_by_shop(given, _mapped(mapped.get(spot.id, ())), entered.get(spot.id))
        if held != given:
            found[spot.id] = held
    return found


def unagreed(placed: Iterable[Placed], numbers: Mapping[str, NumberTags]) -> frozenset[int]:
    """Entries that leave out a number printed where they were made, and that no second person agreed to."""
    return frozenset(
        each.entry.id
        for each in placed
        if each.entry.kind is EntryKind.CHAPTERS and each.own and not each.entry.second
        if any(drops_printed(each.entry.value, numbers.get(passage, ())) for passage in each.own.passages)
    )


def _entered(placed: Sequence[Placed], numbers: Mapping[str, NumberTags]) -> dict[str, NumberTags]:
    """What entries give each passage. None that waits does, nor one person's where another copy prints it."""
    waits = unagreed(placed, numbers)
    best: dict[str, tuple[_Weight, ShopEntry]] = {}
    for each in placed:
        entry = each.entry
        if entry.kind is not EntryKind.CHAPTERS or entry.id in waits:
            continue
        places = [(False, each.own)] if each.own else []
        for over, found in [*places, *((True, found) for found in each.carried.values())]:
            weight = _weight(entry, over, len(found.passages))
            for passage in found.passages:
                if not entry.second and drops_printed(entry.value, numbers.get(passage, ())):
                    continue
                if passage not in best or weight < best[passage][0]:
                    best[passage] = (weight, entry)
    return {passage: entered_numbers(entry) for passage, (_, entry) in best.items()}


def _weight(entry: ShopEntry, carried_over: bool, passages: int) -> _Weight:
    place = 0 if entry.quote else 1 if entry.section else 2
    return _Weight(carried_over, place, passages, -entry.made_at.timestamp(), -entry.id)


def entered_numbers(entry: ShopEntry) -> NumberTags:
    """The chapters of an entry as tags; () = it says that there is none."""
    return tuple(Tag(number, entry_evidence(entry)) for number in numbers_of(entry.value))


def _mapped(rows: Sequence[MapRow]) -> NumberTags:
    """Chapters of the narrowest lines that reach a passage, each once."""
    narrowest = [row for row in rows if not any(_narrower(other, row) for other in rows)]
    tags: dict[str, Tag] = {}
    for row in sorted(narrowest, key=lambda row: (row.first, row.last, row.chapters, row.made_at)):
        for chapter in row.chapters:
            number = parse_number(chapter)
            if number is not None:
                evidence = Evidence(Basis.SHOP_ENTRY, MAP_RULE, row.why, source=row.who)
                tags.setdefault(str(number), Tag(number, evidence))
    return tuple(tags.values())


def _narrower(one: MapRow, other: MapRow) -> bool:
    return _within(one, other) and not _within(other, one)


def _within(one: MapRow, other: MapRow) -> bool:
    return in_range(one.first, other.first, other.last) and in_range(one.last, other.first, other.last)


def mapped_publications(rows: Iterable[MapRow], names: Names) -> dict[str, list[MapRow]]:
    """Publication id -> the lines of the map that speak of it; a line speaks of every revision of a work."""
    found: dict[str, list[MapRow]] = {}
    for row in rows:
        for publication in names.reached(row.publication):
            found.setdefault(publication, []).append(row)
    return found


def mapped_passages(rows: Sequence[MapRow], spots: Iterable[Spot]) -> dict[str, list[MapRow]]:
    """Passage id -> the lines whose range its own section or a paragraph it holds lies in."""
    found: dict[str, list[MapRow]] = {}
    for spot in spots:
        reach = [row for row in rows if spot.stands_in(row.first, row.last)]
        if reach:
            found[spot.id] = reach
    return found
