"""The chapter list and the JASC code table, as printed (tables/chapters.csv, tables/jasc.csv)."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib import resources


@dataclass(frozen=True, slots=True)
class ChapterRow:
    """One two-digit chapter of ATA Spec 100 / iSpec 2200.

    use   "assigned", "operator" (reserved for the operator), "military" or "not assigned"
    """

    chapter: str
    title: str
    group: str
    use: str
    source: str


@dataclass(frozen=True, slots=True)
class JascRow:
    """One four-digit code of the FAA's Joint Aircraft System/Component table."""

    code: str
    title: str
    note: str
    source: str


def read_table(name: str) -> list[dict[str, str]]:
    """The rows of one of this package's CSV tables, each as column name -> text."""
    text = resources.files("indexer.trade").joinpath("tables", name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


@cache
def chapter_rows() -> dict[str, ChapterRow]:
    """Chapter ("00" to "99") -> its row, in order."""
    return {row["chapter"]: ChapterRow(**row) for row in read_table("chapters.csv")}


@cache
def jasc_rows() -> dict[str, JascRow]:
    """Four-digit code -> its row, in order."""
    return {row["code"]: JascRow(**row) for row in read_table("jasc.csv")}


@cache
def jasc_groups() -> frozenset[str]:
    """The two-digit groups under which the JASC table has codes."""
    return frozenset(code[:2] for code in jasc_rows())
