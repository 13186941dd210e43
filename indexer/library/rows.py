"""Catalogue rows to records and back. No SQL is decided here: values in, values out."""

import datetime
import sqlite3
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import lru_cache

from indexer.library.codec import from_json, to_json
from indexer.library.records import (
    CopyRecord,
    EntryKind,
    EntryState,
    HistoryEntry,
    MapRow,
    PageRecord,
    PassageRecord,
    PublicationRecord,
    RefusedRecord,
    Replacement,
    ShopEntry,
    ShopWord,
)
from indexer.reading.page import Page, PassageKind, TextState
from indexer.tagging.tags import (
    BulletinFacts,
    DirectiveFacts,
    Identity,
    Standing,
    StandingValue,
    TaggedPassage,
)
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Box, Evidence, Origin, PageBox, Tag
from indexer.trade.publication_types import PublicationType

Number = Tag[ChapterNumber]


def now() -> str:
    return datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds")


def moment(text: str) -> datetime.datetime:
    return datetime.datetime.fromisoformat(text)


def page_row(copy_id: str, page: Page) -> tuple:
    return (
        copy_id,
        page.pdf_page,
        page.state.value,
        page.label,
        page.printed_page,
        page.width,
        page.height,
        page.rotation,
        page.origin.value,
        page.problem,
        page.ocr_reason.value if page.ocr_reason else None,
        page.skew,
    )


def passage_row(passage_id: str, publication_id: str, tagged: TaggedPassage) -> tuple:
    passage = tagged.passage
    return (
        passage_id,
        publication_id,
        passage.ordinal,
        passage.pdf_page,
        passage.kind.value,
        passage.origin.value,
        to_json(passage.heading_path),
        passage.text,
        to_json(passage.boxes),
        to_json(tagged.page_block) if tagged.page_block else None,
        to_json(passage.doubtful),
    )


def number_rows(passage_id: str, numbers: Iterable[Number]) -> list[tuple]:
    return [
        (
            passage_id,
            rank,
            *_number_columns(tag.value),
            to_json(tag.evidence),
            to_json(tag.others),
        )
        for rank, tag in enumerate(numbers)
    ]


def citation_rows(passage_id: str, tagged: TaggedPassage) -> list[tuple]:
    return [
        (passage_id, ordinal, each.kind.value, *_number_columns(each.chapter_number), to_json(each))
        for ordinal, each in enumerate(tagged.references)
    ]


def _number_columns(number: ChapterNumber | None) -> tuple[str | None, ...]:
    """scheme, chapter, section, subject"""
    if number is None:
        return (None, None, None, None)
    return (number.scheme.value, number.chapter, number.section, number.subject)


def standing_row(passage_id: str, standing: Standing) -> tuple:
    return (passage_id, standing.value.value, to_json(standing))


def number(row: sqlite3.Row) -> ChapterNumber:
    return ChapterNumber(row["chapter"], row["section"], row["subject"], Scheme(row["scheme"]))


def number_tag(row: sqlite3.Row) -> Number:
    return Tag(
        number(row),
        from_json(Evidence, row["evidence_json"]),
        from_json(tuple[Number, ...], row["others_json"]),
    )


def standing_now(standing: Standing, entered_type: str | None) -> Standing:
    """A standing, with the usual one of the type that the shop entered; None = none entered, "" = unclear."""
    if entered_type is None:
        return standing
    usual = StandingValue(PublicationType(entered_type).usual_standing) if entered_type else None
    return replace(standing, usual=usual or StandingValue.UNDETERMINED)


def passage_record(row: sqlite3.Row, numbers: Iterable[Number]) -> PassageRecord:
    own = from_json(Standing, row["standing_json"])
    given = row["entered_standing_json"] or row["directive_standing_json"]
    standing = standing_now(from_json(Standing, given) if given else own, row["entered_type"])
    return PassageRecord(
        row["id"],
        row["publication_id"],
        row["copy_id"],
        row["ordinal"],
        row["pdf_page"],
        row["printed_page"],
        from_json(tuple[PageBox, ...], row["boxes_json"]),
        from_json(tuple[str, ...], row["heading_path_json"]),
        row["text"],
        PassageKind(row["kind"]),
        Origin(row["origin"]),
        tuple(numbers),
        from_json(Tag[str], row["page_block_json"]) if row["page_block_json"] else None,
        standing,
        own,
        from_json(tuple[str, ...], row["doubtful_json"]),
    )


def page_record(row: sqlite3.Row) -> PageRecord:
    return PageRecord(
        row["copy_id"],
        row["pdf_page"],
        TextState(row["state"]),
        row["label"],
        row["printed_page"],
        row["width"],
        row["height"],
        row["rotation"],
        Origin(row["origin"]),
        row["problem"],
    )


def replacement(row: sqlite3.Row) -> Replacement | None:
    return Replacement(row["replaced_by"], moment(row["replaced_since"])) if row["replaced_by"] else None


def copy_record(row: sqlite3.Row, paths: Iterable[str]) -> CopyRecord:
    return CopyRecord(
        row["id"],
        row["sha256"],
        row["file"],
        tuple(paths),
        row["size"],
        row["pages"],
        from_json(Mapping[str, str], row["properties_json"]),
        from_json(tuple[str, ...], row["notes_json"]),
        moment(row["taken_at"]),
        replacement(row),
    )


@lru_cache(8192)
def identity(text: str) -> Identity:
    """An identity from its JSON text. All are read in every generation, and few of them change."""
    return from_json(Identity, text)


def publication_record(row: sqlite3.Row) -> PublicationRecord:
    return PublicationRecord(
        row["id"],
        row["copy_id"],
        row["work_id"],
        row["revision_id"],
        row["file"],
        row["first_page"],
        row["last_page"],
        identity(row["entered_json"] or row["identity_json"]),
        from_json(DirectiveFacts, row["directive_json"]) if row["directive_json"] else None,
        from_json(BulletinFacts, row["bulletin_json"]) if row["bulletin_json"] else None,
        row["passages"],
        row["not_numbered"],
        replacement(row),
    )


def refused_record(row: sqlite3.Row) -> RefusedRecord:
    return RefusedRecord(
        row["path"], row["slug"], row["what"], row["remedy"], row["sha256"], moment(row["refused_at"])
    )


def history_entry(row: sqlite3.Row) -> HistoryEntry:
    return HistoryEntry(moment(row["at"]), row["event"], row["copy_id"], row["path"], row["detail"])


ENTRY = (
    "SELECT shop_entry.*, entry_state.state, entry_state.reason FROM shop_entry"
    " LEFT JOIN entry_state ON entry_state.entry_id = shop_entry.id"
)


def shop_entry(row: sqlite3.Row) -> ShopEntry:
    """`row` also has state and reason of table entry_state; NULL before relations are first worked out."""
    undone = row["undone_by"] and row["undone_second"] != ""
    state = EntryState.UNDONE if undone else EntryState(row["state"] or EntryState.IN_FORCE.value)
    return ShopEntry(
        row["id"],
        row["copy_id"],
        row["pdf_page"],
        row["last_page"],
        row["section"],
        row["quote"],
        from_json(Box | None, row["box_json"]),
        EntryKind(row["kind"]),
        row["value"],
        row["who"],
        moment(row["made_at"]),
        row["why"],
        state,
        row["second"],
        row["undone_by"],
        row["undone_why"],
        row["undone_second"],
        "" if undone else row["reason"] or "",
    )


def entry_rows(connection: sqlite3.Connection) -> list[sqlite3.Row]:
    """Every entry as `shop_entry` takes it, in the order they were made."""
    return connection.execute(f"{ENTRY} ORDER BY made_at, shop_entry.id").fetchall()


def map_row(row: sqlite3.Row) -> MapRow:
    return MapRow(
        row["id"],
        row["publication"],
        row["first"],
        row["last"],
        from_json(tuple[str, ...], row["chapters_json"]),
        row["who"],
        moment(row["made_at"]),
        row["why"],
    )


def shop_word(row: sqlite3.Row) -> ShopWord:
    return ShopWord(
        row["id"],
        row["term"],
        from_json(tuple[str, ...], row["manual_terms_json"]),
        row["note"],
        row["who"],
        moment(row["made_at"]),
    )
