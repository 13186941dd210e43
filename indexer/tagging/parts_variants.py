"""Assemblies printed as variants one after another: the details under the last of them belong to all.

"1 BRAKE ASSEMBLY, LEFT" (usage code A), "1A BRAKE ASSEMBLY, RIGHT" (code B): details and attaching parts are
printed once, below both; one without a code belongs to both, one with code A to the first alone. Usage
codes tie details to variants, and a blank column means all (the introduction of an illustrated parts catalog,
iSpec 2200); an item with a letter is an added, alternate or changed part (the same); that what stands below
several of them in a row belongs to each: common practice, no source.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from indexer.tagging.parts_rows import PartNoteKind, PartsRow, RowFlag

_ITEM = re.compile(r"([0-9]+)([A-Z]{0,2})")
_SIDES = {PartNoteKind.PRE_BULLETIN, PartNoteKind.POST_BULLETIN}


def with_variants(rows: Sequence[PartsRow]) -> tuple[PartsRow, ...]:
    """The same rows with `above_also` and `attaches_also`; rows as `with_tree` and `with_usage` give them.

    Where the codes exclude the nearest variant and not another, `above` and `attaches` name the other.
    """
    by_ordinal = {row.ordinal: row for row in rows}
    beside = _variants(rows)

    def tied(row: PartsRow) -> PartsRow:
        above, above_also = _belongs(row, row.above, beside, by_ordinal)
        attaches, attaches_also = _belongs(row, row.attaches, beside, by_ordinal)
        if (above, above_also, attaches, attaches_also) == (row.above, (), row.attaches, ()):
            return row
        return replace(
            row, above=above, above_also=above_also, attaches=attaches, attaches_also=attaches_also
        )

    return tuple(tied(row) for row in rows)


def _variants(rows: Sequence[PartsRow]) -> dict[int, list[int]]:
    """{ordinal: ordinals of all variants with it, in printed order}, of rows that have any."""
    found: dict[int, list[int]] = {}
    run: list[PartsRow] = []
    for row in rows:
        if run and _is_variant(run, row):
            run.append(row)
        else:
            run = [row]
        if len(run) > 1:
            ordinals = [each.ordinal for each in run]
            found.update((ordinal, ordinals) for ordinal in ordinals)
    return found


def _is_variant(run: Sequence[PartsRow], row: PartsRow) -> bool:
    """Whether a row right behind others is a variant of them: the item's number again with another letter,
    or the same item for other codes."""
    last, own = _ITEM.fullmatch(run[-1].item), _ITEM.fullmatch(row.item)
    if not (last and own) or last[1] != own[1]:
        return False
    before = run[-1]
    beside = (before.figure, before.indenture, before.attaching, before.attaches, before.above)
    if row.indenture is None or beside != (row.figure, row.indenture, row.attaching, row.attaches, row.above):
        return False
    if RowFlag.ITEM in row.flags or RowFlag.ITEM in before.flags:
        return False
    if any(each.item == row.item for each in run):
        return all(_excluded(each, row) for each in run if each.item == row.item)
    return True


def _belongs(
    row: PartsRow, nearest: int | None, beside: Mapping[int, Sequence[int]], rows: Mapping[int, PartsRow]
) -> tuple[int | None, tuple[int, ...]]:
    """The nearest variant that a row belongs to, and the others; the nearest as it was where none fits."""
    if nearest is None or nearest not in beside:
        return nearest, ()
    fitting = [each for each in beside[nearest] if each < row.ordinal and not _excluded(rows[each], row)]
    return (fitting[-1], tuple(fitting[:-1])) if fitting else (nearest, ())


def _excluded(one: PartsRow, other: PartsRow) -> bool:
    """Whether two rows are never for one aircraft: no code in common, or before and after one bulletin."""
    codes, others = ({each.code for each in row.usage} for row in (one, other))
    if codes and others and codes.isdisjoint(others):
        return True
    sides = {(note.kind, note.number) for note in one.notes if note.kind in _SIDES and note.number}
    return any(
        note.kind in _SIDES and any(note.number == number and note.kind is not kind for kind, number in sides)
        for note in other.notes
    )
