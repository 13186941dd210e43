"""What the page about ingest shows, in words."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from indexer.library.ocr_state import at_work, last_state
from indexer.library.records import RefusedRecord
from server import incoming
from server.ingest_state import Doing, IngestState, Outcome
from server.ocr_debt import owed
from server.ocr_words import not_read
from server.opened import OpenedLibrary
from server.routes.addresses import publication_address
from server.routes.page_templates import moment
from server.taken_lately import taken_lately
from server.words import count_of, publication_name

_CAME = {
    "taken": "Taken",
    "already": "Held already: these very bytes are in the library, nothing was added",
    "refused": "Not taken",
    "sent": "Received, waits for its turn",
}


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar of progress; `total` 0 = none is shown."""

    done: int = 0
    total: int = 0


def ingest_view(library: OpenedLibrary, state: IngestState) -> dict[str, Any]:
    """Call it inside `reading`."""
    lately = taken_lately(library)
    times = [each.at for each in lately[:1]] + [state.ended_at] * bool(state.ended_at)
    reading = state.doing in (Doing.READING, Doing.RELATING, Doing.INDEXING)
    return {
        "doing": state.doing.value,
        "words": state.words,
        "since": state.since_words,
        "reading": state.reading,
        "problem": state.problem,
        "bar": Bar(state.done, state.total) if reading else Bar(),
        "last": f"The last time: {moment(max(times))}." if times else "No file has been taken yet.",
        "outcomes": [outcome_view(library, each) for each in state.outcomes[:12]],
        "more_outcomes": max(0, len(state.outcomes) - 12),
        "lately": [
            {"name": each.name, "at": each.at, "publications": _publications(library, each.publications)}
            for each in lately
        ],
        "refused": [refused_view(library, each, state) for each in library.catalogue.refused()],
        "watch": _watch(state),
        "ocr": _ocr(library),
    }


def outcome_view(library: OpenedLibrary, outcome: Outcome) -> dict[str, Any]:
    words = _CAME[outcome.came]
    if outcome.came == "taken":
        words += f", {count_of(outcome.pages, 'page')}"
    return {
        "name": outcome.name,
        "words": words,
        "at": outcome.at,
        "source": outcome.source.value,
        "what": plain(outcome.what, outcome.path, outcome.name),
        "remedy": outcome.remedy,
        "is_refused": outcome.came == "refused",
        "publications": _publications(library, outcome.publications),
    }


def refused_view(library: OpenedLibrary, refused: RefusedRecord, state: IngestState) -> dict[str, Any]:
    """A refused file, what to do about it, and what this page can do."""
    path = Path(refused.path)
    sent = incoming.is_incoming(library.folder, path)
    there = path.exists()
    watched = bool(state.watch) and path.is_relative_to(state.watch.folder)
    if sent and there:
        after = "The file is kept here until you remove it, or until a better one sent in its place is taken."
    elif sent:
        after = "The file itself is gone. Send it again, or strike it from this list."
    elif watched:
        after = "It is read again by itself once another file lies in its place in the watched folder."
    else:
        after = f"When it is put right: hangarleaf ingest {_quoted(refused.path)}"
    return {
        "path": refused.path,
        "name": path.name,
        "folder": "" if sent else str(path.parent),
        "what": plain(refused.what, refused.path, path.name),
        "remedy": refused.remedy,
        "at": refused.refused_at,
        "after": after,
        "is_sent": sent and there,
        "is_there": there,
    }


def plain(what: str, path: str, name: str) -> str:
    """A sentence about a file by its name alone: where it waits says nothing to a reader."""
    return what.replace(path, name)


def _publications(library: OpenedLibrary, ids: Iterable[str]) -> list[dict[str, str]]:
    held = {record.id: record for record in library.every_publication()}
    return [
        {"name": publication_name(held[each]), "address": publication_address(each)}
        for each in ids
        if each in held
    ]


def _watch(state: IngestState) -> dict[str, Any] | None:
    watch = state.watch
    if watch is None:
        return None
    if watch.looked_at is None:
        words = "Not looked into yet."
    elif watch.problem and not watch.files:
        words = ""
    else:
        words = f"{count_of(watch.files, 'PDF file')} there."
        if watch.settling:
            words += (
                f" {count_of(watch.settling, 'new or changed file')} "
                "may still be written to: taken when unchanged at the next look."
            )
        else:
            words += " None is new."
    return {
        "folder": watch.folder,
        "looked_at": watch.looked_at,
        "every": f"{watch.every_s:g} seconds",
        "words": words,
        "problem": watch.problem,
    }


def _ocr(library: OpenedLibrary) -> dict[str, Any]:
    """Pages that wait for OCR, and how far the run is that reads them now."""
    debt, run = owed(library), last_state(library.folder)
    working = debt.running and run is not None and at_work(run)
    words = f"{debt.words}" if debt.unread or debt.failed else "No page waits to be read by OCR."
    return {
        "words": words,
        "bar": Bar(run.done, run.done + run.left) if working else Bar(),
        "run": f"This run: {count_of(run.done, 'page')} read, {not_read(run.left)}." if working else "",
        "page": run.page if working else "",
    }


def _quoted(path: str) -> str:
    return f'"{path}"' if " " in path else path
