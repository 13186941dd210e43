"""What the shop's entries and map come to, at the rim: what the rules need, and the rows they derive."""

import json
import sqlite3
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from indexer.library import rows
from indexer.library.anchoring import Printed, Spot
from indexer.library.codec import from_json, to_json
from indexer.library.entry_values import IDENTITY_KINDS, TWO_PERSONS
from indexer.library.holding import pages_of
from indexer.library.records import EntryState, MapRow
from indexer.library.relation_rules.entered_identity import entered_identity
from indexer.library.relation_rules.entered_standing import Judged, judged
from indexer.library.relation_rules.entry_places import Made, Placed, looked_into, place
from indexer.library.relation_rules.filing import filed_numbers, mapped_passages, unagreed
from indexer.library.spoken_of import Spoken
from indexer.tagging.numbering import NumberTags
from indexer.tagging.tags import Identity, Standing
from indexer.trade.chapters import Scheme
from indexer.trade.evidence import PageBox

_BATCH = 500  # SQLite takes 999 parameters in its smallest build


@dataclass(frozen=True)
class Entered:
    """All that people added which is not undone, and the identities that follow from it.

    now  publication id -> identity with what entries change; of those whose identity an entry speaks of
    """

    made: tuple[Made, ...]
    map_rows: tuple[MapRow, ...]
    now: Mapping[str, Identity]
    copies: Mapping[str, sqlite3.Row] = field(repr=False)  # publication id -> its row as it was loaded

    def read(self, publication: str) -> Identity:
        """The identity that a publication was read with."""
        return rows.identity(self.copies[publication]["identity_json"])

    def identity(self, publication: str) -> Identity:
        """The identity that holds now."""
        return self.now[publication] if publication in self.now else self.read(publication)

    @cached_property
    def identities(self) -> Mapping[str, Identity]:
        """Of every publication, as they hold now."""
        return {publication: self.identity(publication) for publication in self.copies}


def load(connection: sqlite3.Connection, without: int | None = None) -> Entered:
    """All that is entered and not undone; as if one entry were undone where `without` is its id."""
    listed = [(rows.shop_entry(row), row["work_id"]) for row in rows.entry_rows(connection)]
    made = tuple(
        Made(entry, work)
        for entry, work in listed
        if entry.state is not EntryState.UNDONE and entry.id != without
    )
    held = connection.execute("SELECT * FROM publication ORDER BY id").fetchall()
    bound: dict[str, list[sqlite3.Row]] = {}
    for row in held:
        bound.setdefault(row["copy_id"], []).append(row)
    about: dict[str, list] = {}
    for each in made:
        if each.entry.kind in IDENTITY_KINDS:
            for row in bound.get(each.entry.copy_id, ()):
                if row["first_page"] <= each.entry.pdf_page <= row["last_page"]:
                    about.setdefault(row["id"], []).append(each.entry)
    found = connection.execute("SELECT * FROM shop_map ORDER BY id")
    map_rows = tuple(rows.map_row(row) for row in found)
    entered = Entered(made, map_rows, {}, {row["id"]: row for row in held})
    now = {each: entered_identity(entered.read(each), entries) for each, entries in about.items()}
    return replace(entered, now=now)


@dataclass(frozen=True)
class Placement:
    """Where entries and lines of the map stand, and the passages they reach."""

    placed: tuple[Placed, ...]
    printed: Mapping[str, Printed]
    mapped: Mapping[str, Sequence[MapRow]]  # passage id -> the lines that reach it


def place_all(connection: sqlite3.Connection, spoken: Spoken) -> Placement:
    """Find the place of every entry and line of the works that a change touches."""
    boxed = {home.id for each in spoken.made if each.entry.box and (home := spoken.shelf.of(each.entry))}
    printed = {
        each: Printed(_spots(connection, each, each in boxed))
        for each in looked_into(spoken.shelf, spoken.made) | spoken.lines.keys()
    }
    mapped: dict[str, Sequence[MapRow]] = {}
    for publication, reach in spoken.lines.items():
        mapped.update(mapped_passages(reach, printed[publication].spots))
    return Placement(tuple(place(each, spoken.shelf, printed) for each in spoken.made), printed, mapped)


def numbers_read(connection: sqlite3.Connection, passages: Collection[str]) -> dict[str, NumberTags]:
    """Passage id -> its numbers as tagging gives them, without what the shop says."""
    numbers: dict[str, list] = {}
    for row in _of_passages(
        connection, "SELECT * FROM number_tag WHERE passage_id IN", passages, "passage_id, rank"
    ):
        numbers.setdefault(row["passage_id"], []).append(rows.number_tag(row))
    return {passage: tuple(tags) for passage, tags in numbers.items()}


def filing_rows(
    connection: sqlite3.Connection, placement: Placement
) -> tuple[dict[str, NumberTags], frozenset[int]]:
    """Passage id -> the numbers that hold, for passages that the shop files otherwise than they are read; and
    the entries that wait, because they leave out a number that is printed."""
    reached = {*_reached(placement.placed), *placement.mapped}
    spots = [spot for each in placement.printed.values() for spot in each.spots if spot.id in reached]
    given = numbers_read(connection, reached)
    filed = filed_numbers(spots, given, placement.mapped, placement.placed)
    return filed, unagreed(placement.placed, given)


def judgement(connection: sqlite3.Connection, placement: Placement) -> Judged:
    """Standing by entries, over the passages' own and over that by directive."""
    return judged(placement.placed, standings(connection, _reached(placement.placed)))


def standings(
    connection: sqlite3.Connection, passages: Collection[str], by_directive: bool = True
) -> dict[str, Standing]:
    """Standing of passages, by directive where one changes it, and without what the shop entered."""
    tables = ("standing", "directive_standing") if by_directive else ("standing",)
    found: dict[str, Standing] = {}
    for table in tables:
        wanted = f"SELECT passage_id, standing_json FROM {table} WHERE passage_id IN"
        for row in _of_passages(connection, wanted, passages, "passage_id"):
            found[row["passage_id"]] = from_json(Standing, row["standing_json"])
    return found


def entry_tables(placement: Placement, verdict: Judged, waiting: Collection[int]) -> dict[str, set[tuple]]:
    """Rows of entry_state and entry_passage. `waiting` = entries that file, and wait for a second person."""
    states: set[tuple] = set()
    for each in placement.placed:
        entry = each.entry
        state, reason = EntryState.IN_FORCE, ""
        if entry.id in verdict.states:  # a standing: its place is in the verdict too
            state, reason = verdict.states[entry.id]
        elif each.reason:
            state, reason = EntryState.CHECK_AGAIN, each.reason
        elif entry.undo_waits or (entry.kind in TWO_PERSONS and not entry.second) or entry.id in waiting:
            state = EntryState.WAITING
        states.add((entry.id, state.value, reason))
    passages = {(each.entry.id, passage) for each in placement.placed for passage in _reached([each])}
    return {"entry_state": states, "entry_passage": passages}


def _reached(placed: Iterable[Placed]) -> set[str]:
    return {
        passage
        for each in placed
        for found in (each.own, *each.carried.values())
        if found
        for passage in found.passages
    }


def _spots(connection: sqlite3.Connection, publication_id: str, boxed: bool) -> list[Spot]:
    """The passages of a publication; with their boxes only where an entry has one: they take long to read."""
    own: dict[str, list[str]] = {}
    for row in connection.execute(
        "SELECT number_tag.* FROM passage JOIN number_tag ON passage_id = passage.id"
        " WHERE publication_id = ? AND scheme = ? ORDER BY passage_id, rank",
        (publication_id, Scheme.OWN.value),
    ):
        own.setdefault(row["passage_id"], []).append(str(rows.number(row)))
    found = connection.execute(
        "SELECT id, pdf_page, text, boxes_json, heading_path_json FROM passage WHERE publication_id = ?"
        " ORDER BY ordinal",
        (publication_id,),
    )
    return [_spot(row, own.get(row["id"], [""]), boxed) for row in found]


def _spot(row: sqlite3.Row, own: Sequence[str], boxed: bool) -> Spot:
    pages = pages_of(row["pdf_page"], row["boxes_json"])
    boxes = from_json(tuple[PageBox, ...], row["boxes_json"]) if boxed else ()
    heading_path = tuple(json.loads(row["heading_path_json"]))
    return Spot(row["id"], tuple(pages), row["text"], boxes, own[0], heading_path, tuple(own[1:]))


def _of_passages(
    connection: sqlite3.Connection, select: str, passages: Collection[str], order: str
) -> Iterable[sqlite3.Row]:
    wanted = sorted(passages)
    for start in range(0, len(wanted), _BATCH):
        batch = wanted[start : start + _BATCH]
        marks = ",".join("?" * len(batch))
        yield from connection.execute(f"{select} ({marks}) ORDER BY {order}", batch)


def filing_tables(filed: Mapping[str, NumberTags]) -> dict[str, set[tuple]]:
    """Rows of filing and filed_number."""
    return {
        "filing": {(passage,) for passage in filed},
        "filed_number": {row for passage, tags in filed.items() for row in rows.number_rows(passage, tags)},
    }


def standing_table(found: Mapping[str, Standing]) -> dict[str, set[tuple]]:
    """Rows of entered_standing."""
    return {"entered_standing": {rows.standing_row(passage, standing) for passage, standing in found.items()}}


def identity_table(entered: Entered) -> dict[str, set[tuple]]:
    """Rows of entered_identity."""
    changed = {each: identity for each, identity in entered.now.items() if identity != entered.read(each)}
    return {"entered_identity": {(each, to_json(identity)) for each, identity in changed.items()}}
