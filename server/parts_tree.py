"""A row among the rows of its figure: the assemblies above with their variants, and what is below. Pure."""

from collections.abc import Sequence

from indexer.library.parts_records import PartRecord


def above(near: Sequence[PartRecord], record: PartRecord) -> list[tuple[PartRecord, list[PartRecord]]]:
    """The assemblies above a row among the rows of its figure, the nearest first, each with other variants
    that the row belongs to as well, as printed."""
    by_ordinal = {each.row.ordinal: each for each in near}
    chain: list[tuple[PartRecord, list[PartRecord]]] = []
    seen: set[int] = set()
    level = [record.row]
    while True:
        nearest = level[0].above
        ordinals = {each for row in level for each in (row.above, *row.above_also) if each in by_ordinal}
        if nearest not in ordinals or ordinals & seen:
            return chain
        seen |= ordinals
        others = [by_ordinal[each] for each in sorted(ordinals - {nearest})]
        chain.append((by_ordinal[nearest], others))
        level = [by_ordinal[nearest].row, *(each.row for each in others)]


def below(near: Sequence[PartRecord], ordinal: int) -> list[PartRecord]:
    """The details of a row, also those that it shares with other variants; attaching parts are none."""
    return [
        each for each in near if ordinal in (each.row.above, *each.row.above_also) and not each.row.attaching
    ]


def attaching(near: Sequence[PartRecord], ordinal: int) -> list[PartRecord]:
    """The parts that attach a row, also those that attach other variants of it."""
    return [each for each in near if ordinal in (each.row.attaches, *each.row.attaches_also)]
