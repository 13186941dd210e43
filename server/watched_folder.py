"""A folder whose new and changed PDF files are taken in: looked at every so often.

A file is taken once its size and time were the same at two looks, so that none is taken while it is still
being copied. What came of it is kept in watched.json of the library, so that what is held or was refused is
not read again until it changes.
"""

import contextlib
import datetime
import json
import logging
import os
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from indexer.errors import HangarleafError
from indexer.library.database import FILE_NAME

NOTES = "watched.json"
_AGAIN_S = 600.0  # until a file that could not be opened is tried again
_PASSING = ("file-vanished", "file-not-readable")  # refusals by the drive, not by what the file holds

_log = logging.getLogger(__name__)

Stamp = tuple[int, int]  # size in bytes, time of the last change in nanoseconds


class WatchFolderRefused(HangarleafError):
    """The folder to be watched cannot be one."""

    slug = "watch-folder-refused"

    def __init__(self, folder: Path, detail: str):
        super().__init__(
            f"{folder}: this folder cannot be watched ({detail}).",
            "Name a folder outside the library with --watch or the setting HANGARLEAF_WATCH_FOLDER.",
        )


@dataclass(frozen=True, slots=True)
class WatchState:
    """folder    that is watched
    every_s    seconds between two looks
    looked_at  UTC; None = not yet
    problem    why it cannot be looked into, and what to do; "" = it can
    files      PDF files that lie there
    settling   new or changed ones that may still be written to
    """

    folder: str
    every_s: float
    looked_at: datetime.datetime | None = None
    problem: str = ""
    files: int = 0
    settling: int = 0


class WatchedFolder:
    """Use it from one thread; `state` may be read from any."""

    def __init__(
        self,
        library: Path,
        folder: Path,
        every_s: float,
        clock: Callable[[], float] = time.monotonic,
    ):
        """Raises WatchFolderRefused."""
        self.folder = folder.expanduser().absolute()
        self._library = library.expanduser().resolve()
        if self.folder.resolve().is_relative_to(self._library):
            raise WatchFolderRefused(self.folder, "it lies in the library itself")
        if self.folder.exists() and not self.folder.is_dir():
            raise WatchFolderRefused(self.folder, "it is a file")
        self.every_s = max(1.0, every_s)
        self.state = WatchState(str(self.folder), self.every_s)
        self._clock = clock
        self._before: dict[str, Stamp] = {}  # at the look before
        self._handed: dict[str, Stamp] = {}  # given out, nothing came of it yet
        self._passing: dict[str, float] = {}  # when a file that could not be opened was tried
        self._notes = self._read_notes()  # what came of a file with this stamp

    def look(self) -> list[Path]:
        """Files to be taken now, in order of their paths. A folder that is gone is said in `state`."""
        problems: list[OSError] = []
        found = dict(self._walk(self.folder, problems))
        now = datetime.datetime.now(datetime.UTC)
        if problems and not found:
            # What lay there before is not forgotten: a drive that comes back is not read anew.
            self.state = WatchState(str(self.folder), self.every_s, now, _problem_words(problems[0]))
            return []
        new = {path: stamp for path, stamp in found.items() if not self._done_with(path, stamp)}
        ready = [path for path, stamp in new.items() if self._before.get(path) == stamp]
        self._before = found
        if not problems:
            self._forget_what_is_gone(found)
        self._handed.update((path, new[path]) for path in ready)
        problem = _problem_words(problems[0]) if problems else ""
        settling = len(new) - len(ready)
        self.state = WatchState(str(self.folder), self.every_s, now, problem, len(found), settling)
        return [Path(path) for path in sorted(ready)]

    def came_of(self, path: Path, outcome: str) -> None:
        """Note what came of a file that `look` gave out: "taken", "already", or the slug of its refusal."""
        stamp = self._handed.pop(str(path), None)
        if stamp is None:
            return
        if outcome in _PASSING:
            self._passing[str(path)] = self._clock()
            return
        self._notes[str(path)] = (*stamp, outcome)
        self._write_notes()

    def _done_with(self, path: str, stamp: Stamp) -> bool:
        if self._handed.get(path) == stamp:
            return True
        tried = self._passing.get(path)
        if tried is not None and self._clock() - tried < _AGAIN_S:
            return True
        noted = self._notes.get(path)
        return noted is not None and tuple(noted[:2]) == stamp

    def _forget_what_is_gone(self, found: dict[str, Stamp]) -> None:
        inside = f"{self.folder}{os.sep}"
        gone = [path for path in self._notes if path.startswith(inside) and path not in found]
        for path in gone:
            del self._notes[path]
        if gone:
            self._write_notes()

    def _walk(self, folder: Path, problems: list[OSError]):
        """(path, stamp) of every PDF file; not of hidden or temporary ones, nor of any library's own."""
        try:
            with os.scandir(folder) as listing:
                entries = sorted(listing, key=lambda entry: entry.name)
        except OSError as problem:
            problems.append(problem)
            return
        if any(entry.name == FILE_NAME for entry in entries):
            return  # a library: its files are its own copies
        for entry in entries:
            if entry.name.startswith((".", "~")):
                continue
            if not _can_be_kept(entry.path):
                problems.append(OSError(0, "a name in it is in no known letters: rename it", str(folder)))
                continue
            try:
                if entry.is_dir(follow_symlinks=False):
                    if Path(entry.path).resolve() != self._library:
                        yield from self._walk(Path(entry.path), problems)
                elif entry.name.casefold().endswith(".pdf") and entry.is_file():
                    if entry.is_symlink() and not self._leads_inside(entry.path):
                        why = "it is a link to a place outside this folder: put the file itself here"
                        problems.append(OSError(0, why, entry.path))
                        continue
                    seen = entry.stat()
                    yield entry.path, (seen.st_size, seen.st_mtime_ns)
            except FileNotFoundError:
                continue  # gone between listing and looking
            except OSError as problem:
                problems.append(problem)

    def _leads_inside(self, path: str) -> bool:
        """Whoever may write here shows all tablets no file that only the service may read."""
        return Path(path).resolve().is_relative_to(self.folder.resolve())

    def _read_notes(self) -> dict[str, tuple]:
        """Notes that cannot be read cost one look at every file, and nothing else."""
        try:
            held = json.loads((self._library / NOTES).read_text(encoding="utf-8"))
            return {
                path: (int(size), int(time_ns), str(what)) for path, (size, time_ns, what) in held.items()
            }
        except FileNotFoundError:
            return {}
        except (OSError, ValueError, TypeError, AttributeError) as problem:
            _log.warning("%s: begun anew (%s)", self._library / NOTES, problem)
            return {}

    def _write_notes(self) -> None:
        written = self._library / f"{NOTES}.unfinished"
        try:
            written.write_text(json.dumps(self._notes), encoding="utf-8")
            written.replace(self._library / NOTES)
        except OSError as problem:
            _log.warning("%s: not noted what was taken (%s)", self._library / NOTES, problem)
            with contextlib.suppress(OSError):
                written.unlink()


def _can_be_kept(path: str) -> bool:
    """False for a name whose bytes are no text (Python, os.fsdecode: they come as lone surrogates)."""
    return not any("\ud800" <= letter <= "\udfff" for letter in path)


def _problem_words(problem: OSError) -> str:
    if isinstance(problem, FileNotFoundError):
        return (
            f"{problem.filename}: this folder is not there now. Check the drive or the network; it is looked "
            "for again at every look, and nothing that was taken is lost."
        )
    why = problem.strerror or type(problem).__name__
    return f"{problem.filename}: this cannot be looked into ({why}). Check its permissions and the drive."
