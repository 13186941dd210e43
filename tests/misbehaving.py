"""A reader for tests of ingest: it does to a file what the file's name says. Runs in worker processes."""

import ctypes
import hashlib
import os
import time
from pathlib import Path

from indexer.errors import DamagedPdf
from indexer.reading.page import Document, Page, Passage, PassageKind, TextState
from indexer.settings import Settings
from indexer.tagging.tags import Identity, Standing, StandingValue, TaggedPassage, TaggedPublication
from indexer.trade.evidence import Box, PageBox


def read(path: Path, settings: Settings):
    name = path.name
    if "exit" in name:
        os._exit(7)
    if "segfault" in name:
        ctypes.string_at(0)
    if "hang" in name:
        while True:
            time.sleep(1)
    if "bomb" in name:
        return bytearray(1 << 36)
    if "damaged" in name:
        raise DamagedPdf(str(path), "as its name says")
    if "mistake" in name:
        raise KeyError("a mistake of ours")
    if "vanish" in name:
        path.unlink()
    return read_well(path)


def read_slowly(path: Path, settings: Settings):
    """For tests that stop an ingest on its way."""
    time.sleep(0.05)
    return read_well(path)


def hang_and_tell(path: Path, settings: Settings):
    """Writes its process id to the place the file names, and never ends."""
    Path(path.read_text()).write_text(str(os.getpid()))
    while True:
        time.sleep(1)


def read_well(path: Path):
    content = path.read_bytes() if path.exists() else b"gone"
    sha256 = hashlib.sha256(content).hexdigest()
    passages = tuple(
        _passage(ordinal, text) for ordinal, text in enumerate(content.decode("latin-1").split("\n"))
    )
    publication = TaggedPublication(1, 1, Identity(None, None, None, None, (), None, None), passages, ())
    page = Page(1, 612.0, 792.0, 0, TextState.TEXT)
    return Document(path.name, sha256, {}, (), (page,), ()), (publication,)


def _passage(ordinal: int, text: str) -> TaggedPassage:
    passage = Passage(ordinal, 1, (PageBox(1, Box(0, 0, 1, 1)),), (), text, PassageKind.TEXT)
    return TaggedPassage(passage, (), None, Standing(StandingValue.UNDETERMINED, StandingValue.UNDETERMINED))
