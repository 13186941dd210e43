"""Other people's odd PDFs (robustness/, sources in SOURCES.md): taken, or refused with a reason to act on.

What a page holds was looked up with poppler (pdftotext and page pictures), not with our own reader.
"""

from pathlib import Path

import pytest

from indexer.errors import FileRefused
from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings

FOLDER = Path(__file__).parent / "robustness"
TEXT, NO_TEXT = TextState.TEXT, TextState.NO_TEXT

TURNED = "pdfplumber__nics-background-checks-2015-11-rotated.pdf"
ONLY_TEXT = "This is a test document. It only contains some text."

LOCKED = (
    "horrors__encryption_openpassword.pdf",
    "pdfminer__aes-128.pdf",
    "pdfminer__aes-256-r6.pdf",
    "pdfminer__rc4-40.pdf",
    "pypdf__r6-both-passwords.pdf",
    "pypdf__r6-user-password.pdf",  # a viewer asks for it; poppler gets in by the empty owner's password
)

TAKEN = {  # file: state of each page, words that pdftotext finds on page 1
    "horrors__calistoMTNoFontsEmbedded.pdf": ((TEXT,), "This document uses the Calisto MT font."),
    "horrors__corruptionOneByteMissing.pdf": ((TEXT,), ONLY_TEXT),
    "horrors__encryption_notextaccess.pdf": ((TEXT,), ONLY_TEXT),
    "horrors__fileAttachment.pdf": ((TEXT,), "This is a test document. It contains a file attachment."),
    "horrors__javascript.pdf": ((TEXT,), "JavaScript example"),
    "horrors__pdf-17-header18.pdf": ((TEXT,), ONLY_TEXT),
    "ocrmypdf__overlay.pdf": ((TEXT,), "Text Payed 2017-Jan-22"),
    "ocrmypdf__vector.pdf": ((NO_TEXT,), ""),
    "pdfminer__AcroForm_TEST.pdf": ((TEXT,), "BUTTON CHECKBOX RADIO DROPDOWN LIST COMBO TEXT"),
    "pdfminer__simple3.pdf": ((TEXT,), "World"),
    "pdfplumber__hello_structure.pdf": ((TEXT, TEXT), "Hello World"),
    TURNED: ((TEXT,), "Alabama Alaska Arizona Guam Wyoming"),
    "pikepdf__ccitt-endofline-true.pdf": ((NO_TEXT,), ""),
    "pikepdf__content-stream-errors.pdf": ((TEXT, TEXT, TEXT, TEXT), "Potato"),
    "pikepdf__pike-flate-jp2.pdf": ((NO_TEXT,), ""),
    "pypdf__box.pdf": ((NO_TEXT,), ""),
    "pypdf__commented-xmp.pdf": ((TEXT,), "The Crazy Ones October 14, 1998"),
    "pypdf__imagemagick-CCITTFaxDecode.pdf": ((NO_TEXT,), ""),
    "pypdf__outlines-with-invalid-destinations.pdf": ((TEXT, TEXT, TEXT, TEXT), "Contents Foo Bar Baz"),
    "pypdf__r2-owner-password.pdf": ((TEXT,), "pdf encryption test password: asdfzxcv"),
    "pypdf__r4-aes-v2-no-key-length.pdf": ((TEXT,), "pdf encryption test password: asdfzxcv"),
    "pypdf__r6-empty-password.pdf": ((TEXT,), "pdf encryption test password: asdfzxcv"),
    "verapdf__veraPDF_test_suite_6-1-3-t03-fail-a.pdf": ((NO_TEXT,), ""),
}  # fmt: skip


def test_every_file_has_its_outcome_and_its_source():
    there = {path.name for path in FOLDER.glob("*.pdf")}
    assert there == {*LOCKED, *TAKEN}
    sources = (FOLDER.parent / "SOURCES.md").read_text(encoding="utf-8")
    assert [name for name in there if f"`{name}`" not in sources] == []


@pytest.mark.parametrize("name", LOCKED)
def test_a_locked_file_is_refused_with_a_reason_to_act_on(name):
    with pytest.raises(FileRefused) as raised:
        read_document(FOLDER / name, Settings())
    assert raised.value.slug == "password-needed"
    assert name in raised.value.what
    assert "password" in raised.value.remedy


@pytest.mark.parametrize("name", TAKEN)
def test_an_odd_file_is_taken_with_the_words_it_shows(name):
    states, words = TAKEN[name]
    document = read_document(FOLDER / name, Settings())
    assert tuple(page.state for page in document.pages) == states
    first = document.pages[0]
    shown = " ".join(line.text for line in (*first.head, *first.body, *first.foot)).split()
    assert set(words.split()) <= set(shown)


def test_a_sheet_whose_lines_run_sideways_is_read_along_its_lines():
    page = read_document(FOLDER / TURNED, Settings()).pages[0]
    assert page.rotation == 90
    first_words = [line.words[0].text for line in page.body]
    states = [name for name in first_words if name in ("Alabama", "Alaska", "Arizona", "Guam", "Wyoming")]
    assert states == ["Alabama", "Alaska", "Arizona", "Guam", "Wyoming"]


def test_figures_of_neighbouring_cells_are_not_made_one_number():
    """A 0 and a 0, a 2 and a 1 in cells side by side; no cell of this table holds 00 or 30 (pdftotext)."""
    page = read_document(FOLDER / TURNED, Settings()).pages[0]
    assert not {"00", "30"} & {word.text for line in page.body for word in line.words}


def test_bookmarks_that_lead_nowhere_are_kept_without_a_page():
    """The file's own bookmarks say whether they lead somewhere."""
    outline = read_document(FOLDER / "pypdf__outlines-with-invalid-destinations.pdf", Settings()).outline
    assert len(outline) == 9
    leads = {entry.title: entry.pdf_page for entry in outline}
    assert leads['Valid Destination: Action /GoTo Named Destination "section.1"'] == 2
    assert leads["Valid Destination: /Dest within outline object"] == 2
    assert [page for title, page in leads.items() if not title.startswith("Valid")] == [None] * 6
