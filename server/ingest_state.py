"""What the ingest of the service is doing, what waits, what came of the files before: values and words."""

import datetime
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from server.ocr_words import duration
from server.watched_folder import WatchState
from server.words import count_of


class Source(StrEnum):
    """Where a file came from."""

    SENT = "sent to the service"
    WATCHED = "watched folder"


class Doing(StrEnum):
    """What the ingest does now."""

    NOTHING = "nothing"
    WAITING = "waiting"  # another ingest holds the library
    READING = "reading"
    RELATING = "relating"
    INDEXING = "indexing"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one file."""

    name: str
    path: str
    source: Source
    came: str  # "sent" = it waits for its turn; "taken", "already", "refused"
    at: datetime.datetime  # UTC
    pages: int = 0
    publications: tuple[str, ...] = ()
    slug: str = ""
    what: str = ""
    remedy: str = ""


@dataclass(frozen=True, slots=True)
class IngestState:
    """doing, total, done   the files of the ingest at work, and how many of them are through
    reading    names of those being read now
    waiting    files that wait for their turn after these
    begun_at   of the ingest at work, UTC; seconds = since then
    ended_at   of the last one that this service did, UTC; None = none yet
    problem    what keeps it from going on, and what to do
    outcomes   the newest first, of this run of the service
    watch      None = no folder is watched
    """

    doing: Doing = Doing.NOTHING
    total: int = 0
    done: int = 0
    reading: tuple[str, ...] = ()
    waiting: int = 0
    begun_at: datetime.datetime | None = None
    seconds: float = 0.0
    ended_at: datetime.datetime | None = None
    problem: str = ""
    outcomes: tuple[Outcome, ...] = ()
    watch: WatchState | None = None

    @property
    def at_work(self) -> bool:
        return self.doing is not Doing.NOTHING

    @property
    def words(self) -> str:
        """What is done now, as one or two sentences."""
        more = f" {count_of(self.waiting, 'file')} more {'wait' if self.waiting > 1 else 'waits'}." * bool(
            self.waiting
        )
        if self.doing is Doing.NOTHING:
            return f"Nothing is being taken in now.{more}"
        if self.doing is Doing.WAITING:
            return (
                f"{more.strip()[:-1].replace(' more', '')}: another ingest is at work in this library. "
                "It goes on by itself when that one ends."
            )
        if self.doing is Doing.READING:
            return f"Reading: {self.done:,} of {count_of(self.total, 'file')} done.{more}"
        if self.doing is Doing.RELATING:
            return f"All read. Working out how the documents stand to one another.{more}"
        return f"All read. Building the search index.{more}"

    @property
    def since_words(self) -> str:
        """How long it has been at work; "" where it is not."""
        return f"At work for {duration(self.seconds)}." if self.begun_at else ""

    def fields(self) -> dict[str, Any]:
        return {
            "doing": self.doing.value,
            "words": self.words,
            "files": self.total,
            "done": self.done,
            "reading": list(self.reading),
            "waiting": self.waiting,
            "begun_at": _moment(self.begun_at),
            "seconds": round(self.seconds, 1),
            "last_ended": _moment(self.ended_at),
            "problem": self.problem,
            "outcomes": [outcome_fields(each) for each in self.outcomes],
            "watched_folder": self.watch
            and {
                "folder": self.watch.folder,
                "every_s": self.watch.every_s,
                "looked_at": _moment(self.watch.looked_at),
                "problem": self.watch.problem,
                "files": self.watch.files,
                "may_still_be_written_to": self.watch.settling,
            },
        }


def outcome_fields(outcome: Outcome) -> dict[str, Any]:
    return {
        "file": outcome.name,
        "from": outcome.source.value,
        "came": outcome.came,
        "at": _moment(outcome.at),
        "pages": outcome.pages,
        "publications": list(outcome.publications),
        "problem": {"slug": outcome.slug, "what": outcome.what, "remedy": outcome.remedy}
        if outcome.slug
        else None,
    }


def now() -> datetime.datetime:
    return datetime.datetime.now(datetime.UTC)


def _moment(when: datetime.datetime | None) -> str | None:
    return when.isoformat() if when else None
