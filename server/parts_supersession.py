"""What supersedes a part and what it supersedes, as rows of all parts lists say it, with direction.

A row of A that says "superseded by B" makes B take the place of A and says nothing of the way back. Rows are
followed from number to number: A by B, B by C. What rows say is shown as it stands, also where they disagree.
"""

from collections import deque
from dataclasses import dataclass, field
from typing import Any

from indexer.library import parts
from indexer.library.catalogue import Catalogue
from indexer.library.parts_records import PartRecord
from indexer.tagging.parts_rows import PartNote, PartNoteKind
from indexer.trade.part_numbers import Match, compare, loose_key, normalised
from server.parts_by_number import add_counted
from server.parts_found import Found
from server.parts_row import RowShaper
from server.parts_words import BACKWARD, DIRECTIONS, is_same, joined, place_words, reads_by_ocr

_MOST_LINKS = 60  # of each direction
_MOST_ROWS = 5  # rows of each other number that are shown
_ROWS_READ = 200  # rows of one number whose notes are read
_SAME = (Match.EXACT.value, Match.NORMALISED.value)
_VERBS = {
    PartNoteKind.SUPERSEDED_BY: "is superseded by",
    PartNoteKind.REPLACED_BY: "is replaced by",
    PartNoteKind.SUPERSEDES: "supersedes",
    PartNoteKind.REPLACES: "replaces",
    PartNoteKind.OPTIONAL: "is optional to",
    PartNoteKind.ALTERNATE: "is an alternate for, or has as an alternate,",
    PartNoteKind.ORDER: "is to be ordered as",
}


@dataclass(frozen=True, slots=True)
class Link:
    """One statement of a row: from the part asked about, or one it leads to, to another number."""

    direction: str  # replaced_by, replaces, either_way, order: seen from `after`
    after: str  # the number it leads on from
    number: str
    note: PartNote
    record: PartRecord  # the row that says it
    sure: bool  # False = read by OCR
    step: int = 1


@dataclass(slots=True)
class Links:
    """All statements by direction, and what must be said of them."""

    held: dict[str, list[Link]] = field(
        default_factory=lambda: {"replaced_by": [], "replaces": [], "either_way": [], "order": []}
    )
    cautions: list[str] = field(default_factory=list)


def links_of(catalogue: Catalogue, record: PartRecord) -> Links:
    """All that the parts lists on the shelf say of a row's number; inside `reading`."""
    found = Links()
    number = record.row.part_number
    direct = _direct(catalogue, number, record)
    for direction in found.held:
        found.held[direction] = [link for link in direct if link.direction == direction]
    for direction in ("replaced_by", "replaces"):
        _follow(catalogue, found, direction, number)
    _say_disagreements(found, number)
    return found


def _direct(catalogue: Catalogue, number: str, record: PartRecord | None = None) -> list[Link]:
    """What rows of a number say, and what other rows say that name it; each statement of a row once."""
    links: list[Link] = []
    key = loose_key(number)
    own = [record] if record else []
    if key:
        own += [
            each
            for each in parts.with_notes(catalogue, key, _ROWS_READ)
            if not reads_by_ocr(each.row.origin)
            and is_same(number, each.row.part_number)
            and (record is None or each.key != record.key)
        ]
    for each in own:
        for note in each.row.notes:
            direction = DIRECTIONS.get(note.kind)
            if direction and note.number:
                sure = not reads_by_ocr(each.row.origin)
                links.append(Link(direction, number, note.number, note, each, sure))
    for each in parts.naming(catalogue, key) if key else ():
        sure = not reads_by_ocr(each.row.origin)
        for note in each.row.notes:
            direction = BACKWARD.get(DIRECTIONS.get(note.kind, ""))
            if direction is None or not note.number or not each.row.part_number:
                continue
            if is_same(number, note.number) or (
                not sure and compare(number, note.number) is not Match.DIFFERENT
            ):
                links.append(Link(direction, number, each.row.part_number, note, each, sure))
    return [link for link in links if not is_same(link.number, number)]


def _follow(catalogue: Catalogue, found: Links, direction: str, number: str) -> None:
    """Go on from each number that is sure, as long as rows lead on; a circle is said and not walked twice."""
    links = found.held[direction]
    seen = {normalised(number)}
    waiting = deque(links)
    while waiting and len(links) < _MOST_LINKS:
        link = waiting.popleft()
        key = normalised(link.number)
        if not link.sure or key in seen:
            continue
        seen.add(key)
        for more in _direct(catalogue, link.number):
            if more.direction != direction:
                continue
            if normalised(more.number) == normalised(number):
                if direction == "replaced_by":  # the same circle is met the other way round
                    found.cautions.append(
                        f"The rows lead round in a circle: from {number} by way of {link.number} back to it. "
                        "They cannot all hold: read the pages and ask the maker."
                    )
                continue
            further = Link(
                direction, more.after, more.number, more.note, more.record, more.sure, link.step + 1
            )
            links.append(further)
            waiting.append(further)


def _say_disagreements(found: Links, number: str) -> None:
    first = [link for link in found.held["replaced_by"] if link.step == 1]
    others = {normalised(link.number): link.number for link in first}
    if len(others) > 1:
        found.cautions.append(
            f"The rows do not agree on what takes the place of {number}: {joined(list(others.values()))}. "
            "Read each, and ask the maker."
        )
    back = {normalised(link.number) for link in found.held["replaces"] if link.step == 1}
    for key in others.keys() & back:
        found.cautions.append(
            f"By one row {others[key]} takes the place of {number}, by another it is the other way round. "
            "Read both, and ask the maker."
        )
    if any(not link.sure for links in found.held.values() for link in links):
        found.cautions.append("Some of what is said of other numbers was read by OCR: read the page.")
    found.cautions[:] = dict.fromkeys(found.cautions)


def links_fields(catalogue: Catalogue, found: Links, shaper: RowShaper) -> dict[str, list[dict[str, Any]]]:
    """The statements as plain data, by direction; inside `reading`."""
    numbers = {link.number for links in found.held.values() for link in links[:_MOST_LINKS]}
    rows = {number: _rows_with(catalogue, number, shaper) for number in numbers}
    return {
        direction: [_link_fields(link, rows[link.number], shaper) for link in links[:_MOST_LINKS]]
        for direction, links in found.held.items()
    }


def _rows_with(catalogue: Catalogue, number: str, shaper: RowShaper) -> dict[str, Any]:
    """The first rows here with a number, and the count of all; what OCR read is not among them."""
    found = Found()
    if key := loose_key(number):
        add_counted(found, catalogue, number, key, shaper.shelf, shaper.order, _MOST_ROWS)
    keys = [key for match in _SAME for key, _ in found.groups.get(match, ())]
    first = sorted(keys, key=shaper.order)[:_MOST_ROWS]
    return {
        "count": sum(found.count(match) for match in _SAME),
        "rows": shaper.rows(list(parts.rows(catalogue, first).values())),
    }


def _link_fields(link: Link, rows: dict[str, Any], shaper: RowShaper) -> dict[str, Any]:
    return {
        "number": link.number,
        "words": link.note.words,
        "said": _said(link, shaper),
        "after": link.after,
        "step": link.step,
        "read_by_ocr": not link.sure,
        **rows,
        "from": shaper.row(link.record),
    }


def _said(link: Link, shaper: RowShaper) -> str:
    """ "65-1 is superseded by 65-2, as figure 14, item 7 of PARTS CATALOG says."."""
    row, figure = link.record.row, shaper.figure(link.record.publication_id, link.record.row.figure)
    own = row.part_number or "The part"
    place = place_words(figure["figure"], row.item, figure["number"])
    name = shaper.publication(link.record.publication_id)["name"]
    read = "" if link.sure else " This was read by OCR."
    return f"{own} {_VERBS[link.note.kind]} {link.note.number}, as {place} of {name} says.{read}"
