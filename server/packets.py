"""Job packets as plain data for pages, JSON API and command: what was collected, and what has changed since.

begin_packet(library, job, registration)          a new packet -> its id
add_item(library, packet_id, wanted)              put something in -> what came of it
packet_fields(library, packet_id)                 a packet with every item as it stands today
open_fields(library)                              the open packets of the shop
standing_fields(library, ids)                     what copies on tablets are worth today
"""

import hashlib
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.errors import QueryProblem
from indexer.library import packets, parts
from indexer.library.packet_records import Packet, PacketItem, PacketItemKind
from indexer.library.packets import NewItem
from indexer.library.problems import PacketUnknown
from server.fleet import chosen, in_hand_fields, serial_words
from server.opened import OpenedLibrary
from server.packet_changes import Change, Standing, changes, worst
from server.packet_findings import called, check_id_of, finding_changes, finding_now
from server.packet_item import AircraftOf, ItemReader, kept_of
from server.sourcecheck import kept
from server.words import CAUTIONS, SHORT_CAUTION, date_words

MOST_PAGES = 60  # of one item
MOST_ASKED = 50  # packets whose standing is asked for at once
UNCHANGED = "Nothing that is held here has changed since the items were added."


class PacketAsked(QueryProblem):
    """What was asked of a packet cannot be understood."""

    slug = "packet-asked"


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to go into a packet, as asked for; publication_id "" and pdf_page 0 for a finding."""

    kind: str
    publication_id: str = ""
    pdf_page: int = 0
    about: str = ""
    last_page: int = 0


@dataclass(frozen=True, slots=True)
class Added:
    packet_id: str
    item_id: int
    new: bool  # False = it was in already
    words: str


def begin_packet(library: OpenedLibrary, job: str, registration: str = "") -> str:
    """A new packet, for the aircraft as the fleet list has it now. Raises AircraftUnknown, PacketRefused."""
    row = chosen(library, registration)
    made = packets.begin(
        library.catalogue,
        job,
        row.registration if row else "",
        row.model if row else "",
        row.serial if row else "",
    )
    return made.id


def add_item(library: OpenedLibrary, packet_id: str, wanted: Wanted) -> Added:
    """Put something in, with what is known of it now.

    Raises PacketUnknown, PacketClosed, PacketFull, PacketAsked, PublicationUnknown, PageUnknown,
    CheckUnknown, PassageUnknown, FigureUnknown, PartUnknown.
    """
    with library.reading():
        held = packets.packet(library.catalogue, packet_id)
        new = _new_item(library, held, wanted)
    item, is_new = packets.add(library.catalogue, packet_id, new)
    return Added(packet_id, item.id, is_new, item.words)


def _new_item(library: OpenedLibrary, held: Packet, wanted: Wanted) -> NewItem:
    try:
        kind = PacketItemKind(wanted.kind)
    except ValueError:
        raise PacketAsked(
            f"«{wanted.kind}» is nothing that goes into a packet.",
            f"Give one of {', '.join(PacketItemKind)}.",
        ) from None
    if kind is PacketItemKind.FINDING:
        answer = kept(library, check_id_of(wanted.about))
        as_added = {"generation": answer["library_state"]["generation"]}
        return NewItem(kind, "", 0, 0, str(answer["id"]), called(answer), as_added)
    publication_id, first, about = _place(library, kind, wanted)
    owner = library.publication(publication_id)
    last = max(first, min(wanted.last_page, owner.last_page)) if kind is PacketItemKind.PAGE else first
    if last - first >= MOST_PAGES:
        raise PacketAsked(
            f"{last - first + 1} pages were to be added at once.",
            f"Add at most {MOST_PAGES} pages as one item.",
        )
    asked = PacketItem(0, kind, owner.id, first, last, about, "", "", {}, held.begun_at)
    reader = ItemReader(library, AircraftOf(library, held))
    reader.pages(asked, owner)  # raises PageUnknown for a page outside the publication
    now = reader.now(asked)
    return NewItem(
        kind, owner.id, first, last, about, now["words"], kept_of(now, library.catalogue.generation)
    )


def _place(library: OpenedLibrary, kind: PacketItemKind, wanted: Wanted) -> tuple[str, int, str]:
    """Publication, page and id of what is wanted: a passage, figure or row knows where it stands."""
    catalogue = library.catalogue
    if kind is PacketItemKind.PASSAGE:
        passage = catalogue.passage(wanted.about)
        return passage.publication_id, passage.pdf_page, passage.id
    if kind is PacketItemKind.FIGURE:
        figure = parts.figure(catalogue, wanted.about)
        pages = (*figure.figure.art_pages, *figure.figure.list_pages)
        return figure.publication_id, min(pages) if pages else 0, figure.id
    if kind is PacketItemKind.PART:
        row = parts.row(catalogue, wanted.about)
        return row.publication_id, row.row.pdf_page, row.id
    return wanted.publication_id, wanted.pdf_page, ""


def packet_fields(library: OpenedLibrary, packet_id: str) -> dict[str, Any]:
    """A packet with every item as it stands today. Raises PacketUnknown."""
    library.catch_up()
    return _fields(library, packet_id)


def _fields(library: OpenedLibrary, packet_id: str) -> dict[str, Any]:
    with library.reading() as status:
        held = packets.packet(library.catalogue, packet_id)
        aircraft = AircraftOf(library, held)
        reader = ItemReader(library, aircraft)
        items = [_item_fields(library, reader, each) for each in held.items]
        standing, words = _standing(held, aircraft, items)
        said = {
            **_head(held),
            "aircraft_doubt": aircraft.doubt,
            "standing": standing.value,
            "standing_words": words,
            "items": items,
        }
        generations = sorted({each["then"]["generation"] for each in items if each["then"].get("generation")})
        return {
            "library_state": library.state(status).fields(),
            **said,
            "copy": _copy_of(said),
            "aircraft_now": in_hand_fields(aircraft.row),
            "generations": generations,
            "cautions": list(CAUTIONS),
            "caution": SHORT_CAUTION,
        }


def _copy_of(said: Mapping[str, Any]) -> str:
    """All that a copy of the packet says, in 16 characters: a copy that says other than today's is not kept.

    No time of a change tells as much: a day that begins, a backup that is brought back and an entry that is
    undone change what is said, and leave no later time behind them.
    """
    told = json.dumps(said, sort_keys=True, ensure_ascii=False, default=str)
    return hashlib.sha256(told.encode()).hexdigest()[:16]


def _head(held: Packet) -> dict[str, Any]:
    return {
        "id": held.id,
        "job": held.job,
        "name": packet_name(held),
        "aircraft": held.aircraft,
        "model": held.model,
        "serial": held.serial,
        "aircraft_words": aircraft_words(held),
        "begun_at": held.begun_at.isoformat(),
        "changed_at": held.changed_at.isoformat(),
        "closed_at": held.closed_at.isoformat() if held.closed_at else None,
    }


def aircraft_words(held: Packet) -> str:
    """ "QX-1AB, QZ62, serial QZ-077", as it was when the packet was begun; "No aircraft" without one."""
    if not held.aircraft:
        return "No aircraft"
    return f"{held.aircraft}, {held.model}, {serial_words(held.serial)}"


def _item_fields(library: OpenedLibrary, reader: ItemReader, item: PacketItem) -> dict[str, Any]:
    if item.kind is PacketItemKind.FINDING:
        now = finding_now(library, item, reader.registration)
        found = finding_changes(now)
    else:
        now = reader.now(item)
        found = changes(item.as_added, now)
    return {
        "id": item.id,
        "kind": item.kind.value,
        "about": item.about,
        "publication": item.publication_id,
        "pdf_page": item.pdf_page,
        "name": now.get("words") or item.words,
        "note": item.note,
        "added_at": item.added_at.isoformat(),
        "then": dict(item.as_added),
        "now": now,
        "is_superseded": _is_superseded(now) or worst(found) is Standing.SUPERSEDED,
        "changes": [{"standing": each.standing.value, "words": each.words} for each in found],
    }


def _is_superseded(now: dict[str, Any]) -> bool:
    """Whether what was collected must not be used as it is, whenever that became so."""
    return not now["held"] or now.get("state") == "superseded"


def _standing(
    held: Packet, aircraft: AircraftOf, items: Sequence[dict[str, Any]]
) -> tuple[Standing, list[str]]:
    """The packet's own standing, the worst of its items', and why, one sentence for each reason."""
    words = []
    for each in items:
        words += [f"{each['name']}: {one['words']}" for one in each["changes"]]
        if each["is_superseded"] and not each["changes"]:
            words.append(f"{each['name']}: superseded when it was added, and so it is today.")
    doubt = [Change(Standing.CHANGED, aircraft.doubt)] if held.aircraft and aircraft.doubt else []
    words += [each.words for each in doubt]
    if held.closed_at is not None:
        return Standing.CLOSED, ["The packet is closed.", *words]
    if any(each["is_superseded"] for each in items):
        return Standing.SUPERSEDED, words
    if words:
        return Standing.CHANGED, words
    return Standing.CURRENT, [UNCHANGED] if items else []


def open_fields(library: OpenedLibrary) -> dict[str, Any]:
    """The open packets of the shop, the one changed last first."""
    with library.reading() as status:
        found = packets.open_packets(library.catalogue)
        return {
            "library_state": library.state(status).fields(),
            "packets": [{**_head(held), "count": count} for held, count in found],
        }


def standing_fields(library: OpenedLibrary, ids: Sequence[str]) -> dict[str, Any]:
    """What copies of packets are worth today; an id that is not known is "gone".

    copy        what a copy of it says today, as `packet_fields` has it; None where there is nothing to copy
    changed_at  when the packet was changed last or, where something in it is not as it was when it was added,
                when the library was changed last, if that is later: a copy made before it is to be replaced
    Raises PacketAsked.
    """
    if len(ids) > MOST_ASKED:
        raise PacketAsked(f"{len(ids)} packets were asked for at once.", f"Ask for at most {MOST_ASKED}.")
    library.catch_up()
    with library.reading() as status:
        state = library.state(status)
        return {
            "library_state": state.fields(),
            "packets": [
                _standing_of(library, each, state.changed_at.isoformat()) for each in dict.fromkeys(ids)
            ],
        }


def _standing_of(library: OpenedLibrary, packet_id: str, library_changed_at: str) -> dict[str, Any]:
    try:
        found = _fields(library, packet_id)
    except PacketUnknown:
        words = ["This packet is not in the library."]
        return {
            "id": packet_id,
            "standing": Standing.GONE.value,
            "copy": None,
            "changed_at": None,
            "words": words,
        }
    changed = found["changed_at"]
    if found["standing"] in (Standing.SUPERSEDED.value, Standing.CHANGED.value):
        changed = max(changed, library_changed_at)
    return {
        "id": packet_id,
        "standing": found["standing"],
        "copy": found["copy"],
        "changed_at": changed,
        "words": found["standing_words"],
    }


def packet_name(held: Packet) -> str:
    """The job or, where none was named, when it was begun, on this machine's clock."""
    if held.job:
        return held.job
    begun = held.begun_at.astimezone()
    return f"Packet of {date_words(begun.date())}, {begun:%H:%M}"
