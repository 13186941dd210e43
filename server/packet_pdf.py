"""A job packet as one PDF: cover, findings, and the original pages with a strip beside each.

    packet_pdf(library, packet_id) -> PacketPdf

Files of the library are opened by isolated workers alone: one that crashes, hangs or eats all memory costs
its own pages, in whose place a sheet says so. Nothing is left out silently.
"""

import datetime
import io
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pikepdf

from indexer.errors import HangarleafError, PublicationUnknown
from indexer.settings import Settings
from indexer.workers import Workers
from server.opened import OpenedLibrary
from server.packet_binding import About, Bookmark, Bound, bind
from server.packet_cover import cover, sheet_of_failure, words_sheets
from server.packet_plan import REFERENCE, Planned, PlannedPage, plan, strip_lines
from server.packet_stamp import stamp_file
from server.packets import packet_fields
from server.words import date_words

MOST_SHEETS = 600  # of one PDF, the cover not counted
_PRELOAD = ("pikepdf", "server.packet_stamp", "server.packet_binding")
_ROUNDS = 4  # of the cover, until the numbers in it do not change its length


class PacketNotPrinted(HangarleafError):
    """No PDF can be made of a packet."""

    slug = "packet-not-printed"

    def __init__(self, packet_id: str, why: str):
        super().__init__(
            f"Job packet {packet_id}: no PDF can be made of it ({why}).",
            "Take out what the job does not need and try again; each page can be opened by itself.",
        )


@dataclass(frozen=True, slots=True)
class PacketPdf:
    """name   of the file; failed: the pages in whose place a sheet stands"""

    name: str
    data: bytes
    sheets: int
    failed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _File:
    """One source file for a worker."""

    path: Path
    given: tuple
    places: tuple[int, ...]  # of its pages in the plan


@dataclass(frozen=True, slots=True)
class _Binding:
    path: Path
    given: tuple


def packet_pdf(library: OpenedLibrary, packet_id: str) -> PacketPdf:
    """Raises PacketUnknown, PacketNotPrinted, WorkersCannotRun."""
    fields = packet_fields(library, packet_id)
    now = datetime.datetime.now().astimezone()
    printed = f"{date_words(now.date())}, {now:%H:%M}"
    fields = {**fields, "changed_words": _moment_words(fields["library_state"]["changed_at"])}
    sheets = plan(fields)
    if not sheets:
        raise PacketNotPrinted(packet_id, "nothing is in it")
    if len(sheets) > MOST_SHEETS:
        raise PacketNotPrinted(packet_id, f"it has {len(sheets)} sheets; at most {MOST_SHEETS} fit one PDF")
    with tempfile.TemporaryDirectory(prefix="packet-", ignore_cleanup_errors=True) as place:
        return _Making(library, fields, sheets, printed, now, Path(place)).made()


class _Making:
    """One PDF on its way; its parts lie in a folder of their own."""

    def __init__(
        self,
        library: OpenedLibrary,
        fields: Mapping[str, Any],
        sheets: Sequence[Planned],
        printed: str,
        now: datetime.datetime,
        folder: Path,
    ):
        self._library, self._fields, self._sheets = library, fields, sheets
        self._printed, self._now, self._folder = printed, now, folder
        self._bound: dict[int, Bound] = {}  # by place in the plan, 0-based
        self._failed: dict[int, str] = {}

    def made(self) -> PacketPdf:
        lengths = self._own_sheets()
        front, numbers = self._cover(lengths)
        total = front + sum(lengths)
        self._own_sheets(numbers, total)
        with self._workers() as workers:
            self._take_pages(workers, numbers, total)
            for place, why in self._failed.items():
                name = self._sheets[place].name
                data = sheet_of_failure(name, why, self._fields, self._printed, numbers[place], total)
                self._bound[place] = self._keep(f"failed-{place}.pdf", data)
            bound = [Bound("cover.pdf", 0, front - 1), *(self._bound[at] for at in range(len(self._sheets)))]
            about = self._about()
            task = _Binding(self._folder, (tuple(bound), self._bookmarks(numbers), about, "packet.pdf"))
            done = next(workers.each(bind, [task]))
        if done.problem is not None:
            raise PacketNotPrinted(self._fields["id"], done.problem.what)
        return PacketPdf(
            self._name(),
            (self._folder / "packet.pdf").read_bytes(),
            done.result,
            tuple(self._sheets[place].name for place in sorted(self._failed)),
        )

    def _workers(self) -> Workers:
        settings: Settings = self._library.settings
        return Workers(
            settings, self._folder, _PRELOAD, number=1, time_limit_s=2 * settings.render_time_limit_s
        )

    def _keep(self, name: str, data: bytes) -> Bound:
        (self._folder / name).write_bytes(data)
        return Bound(name, 0, _page_count(data) - 1)

    def _own_sheets(self, numbers: Sequence[int] = (), total: int = 0) -> list[int]:
        """Draw the sheets of our own, their numbers on them once they are known; gives how many sheets each
        entry of the plan takes."""
        lengths = []
        for place, sheet in enumerate(self._sheets):
            if isinstance(sheet, PlannedPage):
                lengths.append(1)
                continue
            first = numbers[place] if numbers else 0
            drawn = words_sheets(sheet, self._fields, self._printed, first, total)
            self._bound[place] = self._keep(f"words-{place}.pdf", drawn)
            lengths.append(self._bound[place].last + 1)
        return lengths

    def _cover(self, lengths: Sequence[int]) -> tuple[int, list[int]]:
        """Draw the cover; gives its sheets, and the number in the packet with which each entry begins."""
        front = 1
        for _ in range(_ROUNDS):
            numbers, at = [], front + 1
            for length in lengths:
                numbers.append(at)
                at += length
            places: dict[int, list[int]] = {}
            for sheet, first, length in zip(self._sheets, numbers, lengths, strict=True):
                places.setdefault(sheet.item, []).extend(range(first, first + length))
            drawn = self._keep("cover.pdf", cover(self._fields, places, at - 1, self._printed))
            if drawn.last + 1 == front:
                break
            front = drawn.last + 1
        else:
            raise PacketNotPrinted(self._fields["id"], "its cover does not settle on a length")
        return front, numbers

    def _take_pages(self, workers: Workers, numbers: Sequence[int], total: int) -> None:
        """Have the pages of each file taken; what cannot be is noted with the reason."""
        tasks = self._tasks(numbers, total)
        for done in workers.each(stamp_file, tasks):
            places, name = done.item.places, done.item.given[1]
            if done.problem is not None:
                self._failed |= dict.fromkeys(places, done.problem.what)
                continue
            at = 0
            for place, why in zip(places, done.result, strict=True):
                if why:
                    self._failed[place] = why
                else:
                    self._bound[place] = Bound(Path(name).name, at, at)
                    at += 1

    def _tasks(self, numbers: Sequence[int], total: int) -> list[_File]:
        by_copy: dict[str, list[int]] = {}
        for place, sheet in enumerate(self._sheets):
            if isinstance(sheet, PlannedPage):
                by_copy.setdefault(sheet.copy_id, []).append(place)
        tasks = []
        for copy_id, places in by_copy.items():
            try:
                path = self._library.catalogue.copy_file(copy_id)
            except PublicationUnknown:  # taken out since the packet was read
                self._failed |= dict.fromkeys(places, "its file was taken out of the library just now")
                continue
            wanted = tuple(
                (
                    self._sheets[place].pdf_page,
                    strip_lines(self._sheets[place], numbers[place], total, self._fields, self._printed),
                )
                for place in places
            )
            out = str(self._folder / f"pages-{len(tasks)}.pdf")
            tasks.append(_File(path, (wanted, out), tuple(places)))
        return tasks

    def _bookmarks(self, numbers: Sequence[int]) -> tuple[Bookmark, ...]:
        marks: dict[int, list[Bookmark]] = {}
        for sheet, number in zip(self._sheets, numbers, strict=True):
            marks.setdefault(sheet.item, []).append(Bookmark(sheet.name, number))
        named = {place: each["name"] for place, each in enumerate(self._fields["items"], start=1)}
        return (
            Bookmark("Cover", 1),
            *(
                Bookmark(f"{item}. {named[item]}", each[0].sheet, tuple(each) if len(each) > 1 else ())
                for item, each in marks.items()
            ),
        )

    def _about(self) -> About:
        fields = self._fields
        state = fields["library_state"]
        return About(
            f"Job packet: {fields['name']}, {fields['aircraft_words']}",
            f"{REFERENCE} Printed {self._printed}, library state {state['generation']}."
            f"{' ' + state['demonstration'] if state['demonstration'] else ''}",
            f"job packet, {fields['id']}",
            self._now.isoformat(timespec="seconds"),
        )

    def _name(self) -> str:
        kept = "".join(
            letter if letter.isascii() and letter.isalnum() else "-" for letter in self._fields["name"]
        )
        return f"packet-{kept.strip('-')[:40] or self._fields['id']}-{self._now:%Y-%m-%d-%H%M}.pdf"


def _page_count(data: bytes) -> int:
    """Pages of a PDF that we drew ourselves."""
    with pikepdf.open(io.BytesIO(data)) as made:
        return len(made.pages)


def _moment_words(text: str) -> str:
    local = datetime.datetime.fromisoformat(text).astimezone()
    return f"{date_words(local.date())}, {local:%H:%M}"
