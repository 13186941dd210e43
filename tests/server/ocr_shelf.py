"""A shelf with a scanned manual, partly read by OCR, beside a born-digital one: our own fiction.

scanned   PDF pages 1 and 2 read by OCR, page 3 through a hidden layer, pages 4 to 6 not yet read
digital   one page; it prints "is", "so", "fall" and 50 as words of its own
"""

import hashlib

from small_library import HEIGHT, WIDTH, _identity, _pdf, passage

from indexer.library.catalogue import Catalogue
from indexer.library.ocr_pages import keep_page, recognized_in
from indexer.reading.page import Document, Page, TextState
from indexer.reading.recognized import OcrReason, RecognizedPage, RecognizedWord
from indexer.tagging.tags import TaggedPublication
from indexer.trade.evidence import Box, Origin
from indexer.trade.publication_types import PublicationType

OCR, HIDDEN = Origin.OCR, Origin.HIDDEN_OCR
SCANNED = (
    (
        "Tighten the bolts to a t0rque of 175 inch-pounds. Part AN4-I2A holds the PlSTON.",
        1,
        OCR,
        ("175", "the"),
    ),
    ("Do not bum the paint off. The brake is 50 wide, model M4O-88 and M40-89.", 2, OCR, ()),
    ("Set the torque of the lamp bracket, 5eal it and fall back.", 3, HIDDEN, ("5eal",)),
)
DIGITAL = ("So the torque is 50. Burn nothing. The ice may fall on the M40-88 hose.", "Modem of the radio.")


def scanned() -> TaggedPublication:
    passages = tuple(
        passage(ordinal, page, text, heading=("Brakes",), origin=origin, doubtful=doubtful)
        for ordinal, (text, page, origin, doubtful) in enumerate(SCANNED)
    )
    identity = _identity(PublicationType.MAINTENANCE_MANUAL, "OW9-MM", "OW-9 Service Book", "", None)
    return TaggedPublication(1, 6, identity, passages, ())


def digital() -> TaggedPublication:
    passages = tuple(passage(ordinal, 1, text, heading=("Notes",)) for ordinal, text in enumerate(DIGITAL))
    identity = _identity(PublicationType.MAINTENANCE_MANUAL, "OW10-MM", "OW-10 Service Book", "", None)
    return TaggedPublication(1, 1, identity, passages, ())


def page_of(pdf_page: int, origin: Origin = Origin.DIGITAL, read: bool = True, reason=None) -> Page:
    state = TextState.TEXT if read else TextState.NO_TEXT
    return Page(pdf_page, WIDTH, HEIGHT, 0, state, origin=origin, ocr_reason=reason)


def recognized(pdf_page: int, text: str, doubtful=(), skew: float = 0.0) -> RecognizedPage:
    """The words of a text in one line at the head of the page, as OCR would give them."""
    words = tuple(
        RecognizedWord(word, Box(72 + 30 * at, 90, 98 + 30 * at, 102), 0.5 if word in doubtful else 1.0, 0)
        for at, word in enumerate(text.split())
    )
    return RecognizedPage(pdf_page, WIDTH, HEIGHT, 0, skew, words, "engine 1", 300, 0.9, 1.0)


def take(catalogue: Catalogue, folder, name: str, publication: TaggedPublication, pages, read=()) -> str:
    """Draw a PDF and take it; `read`: what OCR read of it. Gives the publication's id."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.pdf"
    _pdf(path, len(pages), name)
    sha256 = hashlib.sha256(path.read_bytes()).hexdigest()
    document = Document(path.name, sha256, {}, (), tuple(pages), ())
    taken = catalogue.take(path, document, [publication])
    for page in read:
        assert keep_page(catalogue, taken.copy_id, page)
    if read:
        kept = {page: at for page, (_, at) in recognized_in(catalogue, taken.copy_id).items()}
        catalogue.read_again(taken.copy_id, document, [publication], kept)
    return taken.publications[0]


def make(library, folder) -> dict[str, str]:
    """A new library; gives publication ids by name."""
    pages = [
        page_of(1, OCR, reason=OcrReason.NO_TEXT),
        page_of(2, OCR, reason=OcrReason.NO_TEXT),
        page_of(3, HIDDEN),
        *(page_of(number, read=False, reason=OcrReason.NO_TEXT) for number in (4, 5, 6)),
    ]
    read = [recognized(page, text, doubts) for text, page, origin, doubts in SCANNED if origin is OCR]
    with Catalogue.open(library, create=True) as catalogue:
        ids = {
            "scanned": take(catalogue, folder, "ow9-service-book", scanned(), pages, read),
            "digital": take(catalogue, folder, "ow10-service-book", digital(), [page_of(1)]),
        }
    return ids
