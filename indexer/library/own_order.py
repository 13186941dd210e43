"""Manuals with their own order, section by section: where each stands and what it is filed under."""

import json
import re
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from indexer.library.catalogue import Catalogue
from indexer.tagging.section_signs import number_in, title_in
from indexer.trade.own_numbers import OwnNumber, parse_own_number

_SUGGESTED = 3

_MANUALS = """
    SELECT publication_id, COUNT(DISTINCT passage.id) AS passages
    FROM number_tag JOIN passage ON passage.id = passage_id
    JOIN publication ON publication.id = publication_id
    JOIN copy ON copy.id = copy_id AND replaced_by IS NULL
    WHERE scheme = 'OWN' GROUP BY publication_id ORDER BY publication_id
"""
_PASSAGES = """
    SELECT passage.id, pdf_page, boxes_json, heading_path_json, own.chapter AS own
    FROM passage JOIN number_tag AS own ON own.passage_id = passage.id AND own.scheme = 'OWN'
    WHERE passage.publication_id = ? AND NOT EXISTS (
        SELECT 1 FROM number_tag AS before
        WHERE before.passage_id = passage.id AND before.scheme = 'OWN' AND before.rank < own.rank)
    ORDER BY passage.ordinal
"""
_FILED = """
    SELECT passage_id, chapter, evidence_json FROM number_now JOIN passage ON passage.id = passage_id
    WHERE publication_id = ? AND scheme <> 'OWN' ORDER BY passage_id, rank
"""


@dataclass(frozen=True, slots=True)
class OwnOrderSection:
    """A section of a manual with its own order.

    number      as printed ("V", "5"); title "" when no heading names it
    pages       first and last pdf page, 1-based
    worked_out  (chapter, passages, mean confidence) that inference gives, most passages first
    filed       (chapter, passages) that hold now, whatever gives them, most passages first
    """

    number: str
    title: str
    first_page: int
    last_page: int
    passages: int
    not_numbered: int
    worked_out: tuple[tuple[str, int, float], ...]
    filed: tuple[tuple[str, int], ...]


def manuals_with_own_order(catalogue: Catalogue) -> dict[str, int]:
    """Publication id -> passages that stand in a section of its own order; on the shelf only."""
    with catalogue.reading() as connection:
        return {row["publication_id"]: row["passages"] for row in connection.execute(_MANUALS)}


def own_sections_of(catalogue: Catalogue, publication_id: str) -> list[OwnOrderSection]:
    """The sections in the manual's order; [] for a publication without one."""
    with catalogue.reading() as connection:
        filed: dict[str, list[sqlite3.Row]] = {}
        for row in connection.execute(_FILED, (publication_id,)):
            filed.setdefault(row["passage_id"], []).append(row)
        sections: dict[OwnNumber | str, list[sqlite3.Row]] = {}
        for row in connection.execute(_PASSAGES, (publication_id,)):
            outer = outer_section(row["own"])
            sections.setdefault(parse_own_number(outer) or outer, []).append(row)
    found = [_section(_as_printed(passages), passages, filed) for passages in sections.values()]
    return sorted(found, key=lambda section: (_order(section.number), section.first_page))


@lru_cache(4096)
def outer_section(own: str) -> str:
    """The section that a number of a manual's own order stands in: "V" of "V", "5" of "5-12"."""
    return re.split(r"[-.]", own, maxsplit=1)[0]


def _as_printed(passages: list[sqlite3.Row]) -> str:
    """The section's own figure, "V", where a heading or a passage has it; else its paragraphs' "5"."""
    own = parse_own_number(outer_section(passages[0]["own"]))
    if printed := printed_number((row["heading_path_json"] for row in passages), own):
        return printed
    numbers = [outer_section(row["own"]) for row in passages]
    return next((number for number in numbers if not number.isdigit()), numbers[0])


def printed_number(heading_paths_json: Iterable[str], own: OwnNumber | None) -> str:
    """The figure of a section as the first heading that names it prints it; "" where none does."""
    paths = dict.fromkeys(heading_paths_json)
    return next(filter(None, (number_in(json.loads(path), own) for path in paths)), "")


def last_page_of(pdf_page: int, boxes_json: str) -> int:
    """The last PDF page that a passage lies on; it begins on `pdf_page`."""
    return max([pdf_page, *(box["pdf_page"] for box in json.loads(boxes_json))])


def _section(
    number: str, passages: list[sqlite3.Row], filed: dict[str, list[sqlite3.Row]]
) -> OwnOrderSection:
    counts: dict[str, int] = {}
    sure: dict[str, list[float]] = {}
    for passage in passages:
        for row in filed.get(passage["id"], ()):
            counts[row["chapter"]] = counts.get(row["chapter"], 0) + 1
            evidence = json.loads(row["evidence_json"])
            if evidence["basis"] == "inferred":
                sure.setdefault(row["chapter"], []).append(evidence.get("confidence") or 0.0)
    last_page = max(last_page_of(passage["pdf_page"], passage["boxes_json"]) for passage in passages)
    worked_out = sorted(sure, key=lambda chapter: (-len(sure[chapter]), chapter))
    return OwnOrderSection(
        number,
        _title(number, passages),
        min(passage["pdf_page"] for passage in passages),
        last_page,
        len(passages),
        sum(passage["id"] not in filed for passage in passages),
        tuple(
            (chapter, len(sure[chapter]), sum(sure[chapter]) / len(sure[chapter]))
            for chapter in worked_out[:_SUGGESTED]
        ),
        tuple(sorted(counts.items(), key=lambda each: (-each[1], each[0]))),
    )


def _title(number: str, passages: list[sqlite3.Row]) -> str:
    for passage in passages:
        title = title_in(json.loads(passage["heading_path_json"]), parse_own_number(number))
        if title:
            return title
    return ""


def _order(number: str) -> tuple:
    parsed = parse_own_number(number)
    return (0, parsed.key) if parsed else (1, number)
