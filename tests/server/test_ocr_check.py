"""A source check on a scanned manual that OCR read, the whole way from its picture: never a yes.

The words are those of a stamp that approves in digital text (tests/tagging/test_digital_proof.py), read with
full confidence. That OCR proves nothing is common practice, no source.
"""

import io
from dataclasses import replace

import ocr_shelf
import pytest
import small_library
from PIL import Image, ImageDraw
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen import canvas

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.ocr_pages import keep_page, recognized_in
from indexer.library.relations import relate
from indexer.reading.document import read_document
from indexer.reading.recognized import RecognizedPage, RecognizedWord
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.tags import ApplicabilityScope, StatedApplicability
from indexer.trade.evidence import Basis, Box, Evidence, Origin, Tag
from server.opened import OpenedLibrary
from server.sourcecheck import check

WIDTH, HEIGHT = 612, 792
LINES = (
    "OW-12 MAINTENANCE MANUAL",
    "Osprey Works",
    "P/N OW12-MM",
    "Revision 3, 4 March 2031",
    "This manual is FAA approved.",
    "This manual applies to Model OW-12 airplanes, serial numbers 100 through 200.",
    "32-41-05 WHEEL BRAKE - REMOVAL/INSTALLATION",
    "Replace the brake lining. Tighten the bolts to 175 inch-pounds.",
    "FAA APPROVED J. Doe 12 May 2030",
    "32-41-05 Page 401",
)
ENTRIES = {"a page": "IAW OW12-MM, Rev 3, 32-41-05 page 401", "the whole": "IAW OW12-MM, Rev 3"}


def picture_of_page(path):
    """A page that is a picture and holds no text."""
    picture = Image.new("L", (WIDTH, HEIGHT), 255)
    draw = ImageDraw.Draw(picture)
    for at, line in enumerate(LINES):
        draw.text((60, 60 + 70 * at), line, fill=0)
    out = io.BytesIO()
    picture.save(out, "PNG")
    sheet = canvas.Canvas(str(path), pagesize=(WIDTH, HEIGHT), invariant=1)
    sheet.drawImage(ImageReader(out), 0, 0, WIDTH, HEIGHT)
    sheet.showPage()
    sheet.save()


def read(confidence):
    words = []
    for line, text in enumerate(LINES):
        x = 60.0
        for word in text.split():
            width = 6.0 * len(word)
            words.append(
                RecognizedWord(word, Box(x, 60 + 70 * line, x + width, 72 + 70 * line), confidence, line)
            )
            x += width + 5
    return RecognizedPage(1, WIDTH, HEIGHT, 0, 0.0, tuple(words), "engine 1", 300, confidence, 1.0)


@pytest.fixture(params=[1.0, 0.5], ids=["all certain", "all doubtful"])
def finding(request, tmp_path):
    path, settings = tmp_path / "ow12-mm.pdf", Settings()
    picture_of_page(path)
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        unread = read_document(path, settings)
        assert unread.pages[0].ocr_reason is not None and not unread.passages
        taken = catalogue.take(path, unread, tag_document(unread))
        keep_page(catalogue, taken.copy_id, read(request.param))
        kept = recognized_in(catalogue, taken.copy_id)
        document = read_document(path, settings, {1: kept[1][0]})
        assert "FAA APPROVED" in " ".join(passage.text for passage in document.passages)
        catalogue.read_again(taken.copy_id, document, tag_document(document), {1: kept[1][1]})
        relate(catalogue)
        fleet.add(catalogue, "N1", "OW-12", "A. Person", serial="150", maker="Osprey Works")
    with OpenedLibrary.open(tmp_path / "library", settings) as library:
        found = {
            name: check(library, entry, "N1", keep=False).fields()["citations"]
            for name, entry in ENTRIES.items()
        }
    return request.param, found


@pytest.mark.parametrize("named", ENTRIES)
def test_what_ocr_read_is_never_a_yes(finding, named):
    confidence, found = finding
    (citation,) = found[named]
    assert citation["resolved"] and citation["read_by_ocr"]
    assert citation["standing"]["value"] == "undetermined"
    assert citation["applies"]["answer"] == "cannot tell"
    assert citation["current"]["state"] == "unknown"
    assert "yes" not in {each["answer"] for each in citation["enough"].values()}
    assert citation["cannot_tell"].startswith("Cannot tell: read the page.")
    assert any(note.startswith("Read by OCR") and "Cannot tell" in note for note in citation["notes"])
    if citation["resolved"]["pdf_pages"]:
        assert ("175" in citation["doubtful"]) == (confidence < Settings().ocr_floor)


@pytest.mark.parametrize(
    ("words_read", "page_read", "answer"),
    [
        (Origin.DIGITAL, Origin.DIGITAL, "applies"),
        (Origin.OCR, Origin.DIGITAL, "cannot tell"),
        (Origin.HIDDEN_OCR, Origin.DIGITAL, "cannot tell"),
        (Origin.DIGITAL, Origin.OCR, "cannot tell"),
    ],
)
def test_that_it_applies_never_rests_on_ocr(tmp_path, words_read, page_read, answer):
    words = "Model OW-12 airplanes, serial numbers 100 through 200."
    said = StatedApplicability(
        ApplicabilityScope.PUBLICATION,
        Tag(words, Evidence(Basis.PRINTED, "test", words, 1, origin=words_read)),
        None,
        None,
    )
    page = small_library.passage(0, 2, "Replace the lining.", numbers=["32-41-05"], origin=page_read)
    made = replace(ocr_shelf.digital(), last_page=2, passages=(page,), applicability=(said,))
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        small_library.take(catalogue, tmp_path, "ow10-mm", made)
        relate(catalogue)
        fleet.add(catalogue, "N1", "OW-12", "A. Person", serial="150", maker="Osprey Works")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library:
        (found,) = check(library, "IAW OW10-MM, 32-41-05", "N1", keep=False).fields()["citations"]
    assert found["resolved"]["pdf_pages"] == [2]
    assert found["applies"]["answer"] == answer
