"""Reading and OCR for tests of the queue, without PDF or picture. Runs in worker processes.

A file is text, a line a page. A line that begins with "scan:" shows nothing to reading; OCR reads the rest of
it. What else the line says, OCR does: "exit" ends the worker, "unreadable" is refused, "slow" takes its time,
"hang" never ends, and "until:PATH" waits for that file to be there.
"""

import hashlib
import os
import time
from pathlib import Path

from indexer.reading.ocr import PageNotRead
from indexer.reading.page import Document, Page, Passage, PassageKind, TextState
from indexer.reading.recognized import OcrReason, RecognizedPage, RecognizedWord
from indexer.settings import Settings
from indexer.tagging.tags import Identity, Standing, StandingValue, TaggedPassage, TaggedPublication
from indexer.trade.evidence import Basis, Box, Evidence, Origin, PageBox, Tag

SCAN = "scan:"


class Engine:
    name = "fake 1.0"


class OtherEngine:
    name = "other 2.0"


def recognize(path: Path, settings: Settings, pdf_page: int, engine) -> RecognizedPage:
    said = path.read_text().split("\n")[pdf_page - 1].removeprefix(SCAN)
    if "exit" in said:
        os._exit(7)
    if "unreadable" in said:
        raise PageNotRead(path.name, pdf_page, "as its line says")
    if "slow" in said:
        time.sleep(0.05)
    if "hang" in said:
        while True:
            time.sleep(1)
    if "until:" in said:
        while not Path(said.split("until:")[1]).exists():
            time.sleep(0.01)
    if isinstance(engine, OtherEngine):
        said = said.upper()
    words = tuple(
        RecognizedWord(word, Box(10 * place, 10, 10 * place + 8, 20), 0.9, 0)
        for place, word in enumerate(said.split())
    )
    return RecognizedPage(pdf_page, 612.0, 792.0, 0, 0.5, words, engine.name, 300, 0.9, 0.01)


def read(path: Path, settings: Settings, recognized=None):
    """Every page its own passage; the first word of page 1 is the number of the publication."""
    content = path.read_text()
    lines = content.split("\n")
    pages, passages = [], []
    number = None
    for pdf_page, line in enumerate(lines, 1):
        scan = line.startswith(SCAN)
        read_page = (recognized or {}).get(pdf_page) if scan else None
        text = read_page.text if read_page else "" if scan else line
        origin = Origin.OCR if scan else Origin.DIGITAL
        state = TextState.TEXT if text else TextState.NO_TEXT
        reason = OcrReason.NO_TEXT if scan else None
        pages.append(Page(pdf_page, 612.0, 792.0, 0, state, origin=origin, ocr_reason=reason))
        if text:
            boxes = (PageBox(pdf_page, Box(0, 0, 100, 20)),)
            passages.append(
                _tagged(Passage(len(passages), pdf_page, boxes, (), text, PassageKind.TEXT, origin))
            )
            if pdf_page == 1:
                evidence = Evidence(Basis.PRINTED, "test", text.split()[0], 1, boxes[0].box)
                number = Tag(text.split()[0], evidence)
    identity = Identity(None, number, None, None, (), None, None)
    sha256 = hashlib.sha256(path.read_bytes()).hexdigest()
    publication = TaggedPublication(1, len(lines), identity, tuple(passages), ())
    return Document(path.name, sha256, {}, (), tuple(pages), ()), (publication,)


def read_badly(path: Path, settings: Settings, recognized=None):
    """Fails, whatever OCR read."""
    raise KeyError("a mistake of ours")


def read_but(path: Path, settings: Settings, recognized=None):
    """Fails with a page on which OCR read "poison", and ends its worker with one on which it read "venom"."""
    for page in (recognized or {}).values():
        if "venom" in page.text:
            os._exit(9)
        if "poison" in page.text:
            raise KeyError("a mistake of ours")
    return read(path, settings, recognized)


def _tagged(passage: Passage) -> TaggedPassage:
    return TaggedPassage(passage, (), None, Standing(StandingValue.UNDETERMINED, StandingValue.UNDETERMINED))
