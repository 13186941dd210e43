"""The body of a multipart form (RFC 7578) -> files under incoming/, written to the drive as it comes.

Nothing of a file is held in memory but the piece that came last. What will not do is read to its end and let
go of, so that the sender gets an answer and not a broken connection.
"""

import hashlib
import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from python_multipart.exceptions import FormParserError
from python_multipart.multipart import MultipartParser, parse_options_header

from indexer.errors import EmptyFile, FileRefused, HangarleafError, NotAPdf, QueryProblem, TooLarge
from indexer.settings import Settings
from server import incoming

_MARK = b"%PDF-"
_MARK_WITHIN = 1024  # bytes; as reading/pdf.py has it
_MOST_FIELD = 4096  # bytes of a field that is no file, or of a header of a part
_MOST_PARTS = 1000
_LOOK_EVERY = 16_000_000  # bytes written between two looks at what is free
KEPT_FREE = 200_000_000  # bytes that must stay free on the drive, for the catalogue and the index


class UploadBroken(QueryProblem):
    """What was sent is no form with files."""

    slug = "upload-broken"

    def __init__(self, detail: str):
        super().__init__(
            f"What was sent cannot be taken apart into files ({detail}).",
            "Send the files again from the page /ingest.",
        )


class NoRoom(FileRefused):
    """The drive of the library would be full."""

    slug = "no-room"

    def __init__(self, file: str, free_mb: float):
        super().__init__(
            f"{file}: there is no room for it on the drive of the library ({free_mb:,.0f} MB free; a file "
            "needs its size twice while it is taken).",
            "Free some room on that drive, or move the library to a larger one, then send the file again.",
        )


@dataclass(frozen=True, slots=True)
class Sent:
    """One file of an upload: where it lies now, or why it does not."""

    name: str
    path: Path | None = None
    sha256: str = ""
    problem: HangarleafError | None = None


class Upload:
    """Feed it the body piece by piece, then `finish`; or `give_up`."""

    def __init__(
        self,
        library: Path,
        settings: Settings,
        content_type: str,
        announced: int | None = None,
        instead: Callable[[str], Path | None] = lambda given: None,
    ):
        """announced   bytes of the whole body; None = not told
        instead     the field `instead` -> the refused file that is meant
        Raises UploadBroken.
        """
        kind, options = parse_options_header(content_type)
        if kind != b"multipart/form-data" or not options.get(b"boundary"):
            raise UploadBroken("it is no multipart form")
        self.sent: list[Sent] = []
        self._library = library
        self._settings = settings
        self._announced = announced or 0
        self._find_instead = instead
        self._instead: Path | None = None
        self._header, self._value, self._disposition = b"", b"", b""
        self._parts = 0
        self._whole = False
        self._file: _File | None = None
        self._field: tuple[str, bytearray] | None = None
        names = "part_begin part_data part_end header_field header_value header_end headers_finished end"
        callbacks = {f"on_{name}": getattr(self, f"_on_{name}") for name in names.split()}
        self._parser = MultipartParser(options[b"boundary"], callbacks)

    def feed(self, piece: bytes) -> None:
        """Raises UploadBroken, OSError; call `give_up` then."""
        try:
            self._parser.write(piece)
        except FormParserError as problem:
            raise UploadBroken(str(problem)) from problem

    def finish(self) -> list[Sent]:
        """What came of every file, in order. Raises UploadBroken without its end; files before stay."""
        if not self._whole:
            raise UploadBroken("it ends before its last file does")
        return self.sent

    def give_up(self) -> None:
        """Let go of the file that was being written; those before it are whole and stay."""
        if self._file is not None:
            self._file.let_go()
            self._file = None

    # What the parser calls ---------------------------------------------------------------------------------

    def _on_part_begin(self) -> None:
        self._parts += 1
        if self._parts > _MOST_PARTS:
            raise UploadBroken(f"it has more than {_MOST_PARTS:,} parts")
        self._header, self._value, self._disposition = b"", b"", b""
        self._file = self._field = None

    def _on_header_field(self, data: bytes, start: int, end: int) -> None:
        self._header = _little(self._header + data[start:end])

    def _on_header_value(self, data: bytes, start: int, end: int) -> None:
        self._value = _little(self._value + data[start:end])

    def _on_header_end(self) -> None:
        if self._header.lower() == b"content-disposition":
            self._disposition = self._value
        self._header, self._value = b"", b""

    def _on_headers_finished(self) -> None:
        _, options = parse_options_header(self._disposition)
        given = options.get(b"filename")
        if given is None:
            self._field = (options.get(b"name", b"").decode(errors="replace"), bytearray())
        elif given:  # a file field that was left empty has no name
            name = given.decode(errors="replace")
            self._file = _File(self._library, self._settings, name, self._instead, self._announced)

    def _on_part_data(self, data: bytes, start: int, end: int) -> None:
        if self._file is not None:
            self._file.write(data[start:end])
        elif self._field is not None:
            _little(bytes(self._field[1]) + data[start:end])
            self._field[1].extend(data[start:end])

    def _on_part_end(self) -> None:
        if self._file is not None:
            file, self._file = self._file, None
            self.sent.append(file.finish())
        elif self._field is not None and self._field[0] == "instead":
            self._instead = self._find_instead(self._field[1].decode(errors="replace").strip())

    def _on_end(self) -> None:
        self._whole = True


class _File:
    """One file on its way to the drive; once it is refused, what comes of it is let go of."""

    def __init__(self, library: Path, settings: Settings, given: str, instead: Path | None, announced: int):
        self._library = library
        self._name = incoming.safe_name(given)
        self._most = int(settings.max_file_mb * 1e6) or None
        self._limit_mb = settings.max_file_mb
        self._digest = hashlib.sha256()
        self._size, self._next_look = 0, 0
        self._head = b""
        self._problem: HangarleafError | None = None
        self._part: Path | None = None
        self._target: IO[bytes] | None = None
        if announced and incoming.free_bytes(library) < 2 * announced + KEPT_FREE:
            self._refuse(NoRoom(self._name, incoming.free_bytes(library) / 1e6))
        else:
            self._part = incoming.new_part(library, given, instead)
            self._target = self._part.open("wb")

    def write(self, piece: bytes) -> None:
        self._size += len(piece)
        if self._problem is not None:
            return
        if self._most and self._size > self._most:
            self._refuse(TooLarge(self._name, "its size", f"{self._limit_mb} MB", "HANGARLEAF_MAX_FILE_MB"))
            return
        if len(self._head) < _MARK_WITHIN:
            self._head += piece[: _MARK_WITHIN - len(self._head)]
            if len(self._head) == _MARK_WITHIN and _MARK not in self._head:
                self._refuse(NotAPdf(self._name))
                return
        if self._size >= self._next_look:
            free = incoming.free_bytes(self._library)
            if free < self._size + KEPT_FREE:  # its copy in the library takes as much once more
                self._refuse(NoRoom(self._name, free / 1e6))
                return
            self._next_look = self._size + _LOOK_EVERY
        self._digest.update(piece)
        self._target.write(piece)

    def finish(self) -> Sent:
        if self._problem is None and not self._size:
            self._refuse(EmptyFile(self._name))
        if self._problem is None and _MARK not in self._head:
            self._refuse(NotAPdf(self._name))
        if self._problem is not None:
            return Sent(self._name, problem=self._problem)
        self._target.flush()
        os.fsync(self._target.fileno())
        self._target.close()
        return Sent(self._name, incoming.accept(self._part), self._digest.hexdigest())

    def let_go(self) -> None:
        if self._target is not None:
            self._target.close()
        if self._part is not None:
            incoming.drop(self._library, self._part)

    def _refuse(self, problem: HangarleafError) -> None:
        self._problem = problem
        self.let_go()


def _little(data: bytes) -> bytes:
    if len(data) > _MOST_FIELD:
        raise UploadBroken("a name or field in it is too long")
    return data
