"""Usage letters that tie a part to the assembly with the same letter, where a catalog's introduction says so.

Such a letter speaks of no aircraft: it says with which of the figure's assemblies the part goes. That is a
rule of printed introductions (tests/tagging/test_parts_usage.py names one); how they word it, from memory.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from indexer.reading.page import Page
from indexer.tagging.parts_lines import printed_rows
from indexer.tagging.parts_rows import PartsFigure, PartsRow, RowFlag, UsageCode

_MOST_NAMED = 3  # assemblies with one letter: of more, nothing is learned
_SENTENCE_END = re.compile(r"(?<=[a-z])[.:;]\s+(?=[A-Z(])")
_LETTERS = re.compile(r"\b(?:letters?|codes?)\b", re.IGNORECASE)
_SAME = re.compile(r"\bsame\s+(?:usage\s+)?(?:letters?|codes?)\b", re.IGNORECASE)
_ASSEMBLY = re.compile(r"\bassembl(?:y|ies)\b", re.IGNORECASE)
_NOT_TOLD = frozenset({RowFlag.COLUMNS, RowFlag.PART_NUMBER, RowFlag.DOUBTFUL_NUMBER, RowFlag.INDENTURE})


def states_ties(lines: Iterable[str]) -> bool:
    """Whether a sentence of the front pages says that letters tie parts to assemblies with the same letter.

    lines  as printed, in order
    """
    sentences = _SENTENCE_END.split(" ".join(" ".join(line.split()) for line in lines))
    return any(_SAME.search(text) and _ASSEMBLY.search(text) and _LETTERS.search(text) for text in sentences)


def with_assemblies(
    rows: Sequence[PartsRow], figures: Sequence[PartsFigure], pages: Sequence[Page]
) -> tuple[PartsRow, ...]:
    """The same rows; a letter without words of a part under an assembly gets the assemblies that bear it.

    rows  tied together, as `with_variants` gives them
    Only a figure's assemblies (no dots, and parts under them) that were read whole are named; where one with
    the letter was not, nothing is. The assemblies' own letters stay as they are.
    """
    if not any(row.indenture and any(not code.words for code in row.usage) for row in rows):
        return tuple(rows)
    if not states_ties(_front_lines(figures, pages)):
        return tuple(rows)
    has_parts = {above for row in rows for above in (row.above, *row.above_also)}
    borne: dict[tuple[int, str], list[PartsRow]] = {}
    for row in rows:
        if row.indenture == 0 and row.ordinal in has_parts and not row.attaching:
            for code in row.usage:
                borne.setdefault((row.figure, code.code), []).append(row)
    unread = {row.figure for row in rows if row.indenture is None}
    return tuple(
        replace(row, usage=tuple(_tied(code, borne.get((row.figure, code.code), ())) for code in row.usage))
        if row.usage and row.indenture and row.figure not in unread
        else row
        for row in rows
    )


def _front_lines(figures: Sequence[PartsFigure], pages: Sequence[Page]) -> list[str]:
    """The printed lines before the first figure."""
    before = min((number for each in figures for number in (*each.list_pages, *each.art_pages)), default=0)
    return [row.text for page in pages if page.pdf_page < before for row in printed_rows(page)]


def _tied(code: UsageCode, assemblies: Sequence[PartsRow]) -> UsageCode:
    told = all(row.part_number and not _NOT_TOLD & set(row.flags) for row in assemblies)
    if code.words or not assemblies or not told or len(assemblies) > _MOST_NAMED:
        return code
    named = dict.fromkeys(f"{row.part_number}, {row.nomenclature}" for row in assemblies)
    return UsageCode(code.code, f"as {' and '.join(named)}", assemblies[0].pdf_page, of_assembly=True)
