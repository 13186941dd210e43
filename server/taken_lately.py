"""The files that were taken last, whoever had them taken: from the history of the library."""

import datetime
from dataclasses import dataclass
from pathlib import PurePath

from server.opened import OpenedLibrary

SHOWN = 12


@dataclass(frozen=True, slots=True)
class TakenFile:
    """publications   ids of those in it that are held still; () = it was taken out since"""

    name: str
    at: datetime.datetime  # UTC
    publications: tuple[str, ...]


def taken_lately(library: OpenedLibrary, most: int = SHOWN) -> list[TakenFile]:
    """The newest first; inside `reading`."""
    with library.catalogue.reading() as connection:
        found = connection.execute(
            "SELECT at, copy_id, path FROM history WHERE event = 'taken' ORDER BY id DESC LIMIT ?", (most,)
        ).fetchall()
    held: dict[str, list[str]] = {}
    for record in library.every_publication():
        held.setdefault(record.copy_id, []).append(record.id)
    return [
        TakenFile(
            PurePath(row["path"]).name,
            datetime.datetime.fromisoformat(row["at"]),
            tuple(held.get(row["copy_id"], ())),
        )
        for row in found
    ]
