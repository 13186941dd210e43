"""Files that cannot be taken are refused with the error that fits; the rest open."""

import shutil

import pypdfium2
import pytest
from paper import Paper
from reportlab.lib import pdfencrypt
from reportlab.pdfgen.canvas import Canvas

from indexer.errors import (
    DamagedPdf,
    EmptyFile,
    FileNotReadable,
    FileVanished,
    NoPages,
    NotAPdf,
    PasswordNeeded,
    TooLarge,
)
from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings

SETTINGS = Settings()


def _small(path, pages=1):
    paper = Paper(path)
    for number in range(pages):
        paper.text(72, 100, f"Seat track inspection, sheet {number + 1}")
        paper.next_page()
    return paper.save()


def _locked(path, user, owner):
    encrypt = pdfencrypt.StandardEncryption(user, ownerPassword=owner, canCopy=0)
    canvas = Canvas(str(path), encrypt=encrypt, invariant=1)
    canvas.drawString(72, 700, "Fuel selector detent check")
    canvas.save()
    return path


def test_a_file_that_is_no_pdf(tmp_path):
    path = tmp_path / "notes.pdf"
    path.write_text("Dear sir, here is the letter you asked for.\n" * 50)
    with pytest.raises(NotAPdf, match="notes.pdf"):
        read_document(path, SETTINGS)


def test_an_empty_file(tmp_path):
    path = tmp_path / "empty.pdf"
    path.touch()
    with pytest.raises(EmptyFile):
        read_document(path, SETTINGS)


def test_a_file_cut_short_before_its_pages(tmp_path):
    path = _small(tmp_path / "whole.pdf")
    short = tmp_path / "short.pdf"
    short.write_bytes(path.read_bytes()[:60])
    with pytest.raises(DamagedPdf):
        read_document(short, SETTINGS)


def test_a_file_cut_short_near_its_end_says_so(tmp_path):
    path = _small(tmp_path / "whole.pdf", pages=5)
    short = tmp_path / "short.pdf"
    short.write_bytes(path.read_bytes()[:-8])
    document = read_document(short, SETTINGS)
    assert len(document.pages) == 5
    assert "cut short" in document.notes[0]
    assert read_document(path, SETTINGS).notes == ()


def test_a_password_to_open(tmp_path):
    with pytest.raises(PasswordNeeded):
        read_document(_locked(tmp_path / "locked.pdf", "secret", "owner"), SETTINGS)


def test_an_owner_password_alone_does_not_keep_a_reader_out(tmp_path):
    document = read_document(_locked(tmp_path / "open.pdf", "", "owner"), SETTINGS)
    assert document.pages[0].body[0].text == "Fuel selector detent check"


def test_no_pages(tmp_path):
    path = tmp_path / "none.pdf"
    document = pypdfium2.PdfDocument.new()
    document.save(path)
    with pytest.raises(NoPages):
        read_document(path, SETTINGS)


def test_a_file_that_is_gone(tmp_path):
    with pytest.raises(FileVanished):
        read_document(tmp_path / "gone.pdf", SETTINGS)


def test_a_folder_is_no_file(tmp_path):
    with pytest.raises((FileNotReadable, FileVanished)):
        read_document(tmp_path, SETTINGS)


def test_a_file_without_permission(tmp_path, monkeypatch):
    path = _small(tmp_path / "shut.pdf")

    def shut(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(type(path), "open", shut)
    with pytest.raises(FileNotReadable, match="Permission denied"):
        read_document(path, SETTINGS)


def test_more_pages_than_the_limit(tmp_path):
    with pytest.raises(TooLarge, match="3 pages is over the limit of 2 pages"):
        read_document(_small(tmp_path / "long.pdf", pages=3), Settings(max_pages=2))


def test_more_bytes_than_the_limit(tmp_path):
    with pytest.raises(TooLarge, match="HANGARLEAF_MAX_FILE_MB"):
        read_document(_small(tmp_path / "big.pdf"), Settings(max_file_mb=0))


def _by_hand(path, kids):
    """A PDF of three pages written out by hand; `kids` are the object numbers that its page list names."""
    objects = {1: b"<</Type/Catalog/Pages 2 0 R>>"}
    named = b" ".join(b"%d 0 R" % kid for kid in kids)
    objects[2] = b"<</Type/Pages/Count %d/Kids[%s]>>" % (len(kids), named)
    objects[3] = b"<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>"
    for number in (4, 5, 6):
        stream = b"BT /F1 12 Tf 72 700 Td (Seat track sheet %d) Tj ET" % (number - 3)
        objects[number + 10] = b"<</Length %d>>stream\n%s\nendstream" % (len(stream), stream)
        objects[number] = (
            b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]"
            b"/Resources<</Font<</F1 3 0 R>>>>/Contents %d 0 R>>" % (number + 10)
        )
    data = b"%PDF-1.4\n"
    offsets = {}
    for number, body in objects.items():
        offsets[number] = len(data)
        data += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    table = len(data)
    data += b"xref\n0 1\n0000000000 65535 f \n"
    for number, offset in offsets.items():
        data += b"%d 1\n%010d 00000 n \n" % (number, offset)
    data += b"trailer\n<</Size 20/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n" % table
    path.write_bytes(data)
    return path


def test_a_page_that_fails_leaves_the_rest(tmp_path):
    document = read_document(_by_hand(tmp_path / "a.pdf", [4, 99, 6]), SETTINGS)
    assert [page.pdf_page for page in document.pages] == [1, 2, 3]
    assert [page.state for page in document.pages] == [TextState.TEXT, TextState.FAILED, TextState.TEXT]
    assert document.pages[1].problem
    assert [passage.text for passage in document.passages] == ["Seat track sheet 1", "Seat track sheet 3"]
    assert [passage.pdf_page for passage in document.passages] == [1, 3]


def test_a_file_whose_pages_all_fail_is_damaged(tmp_path):
    with pytest.raises(DamagedPdf, match="none of its 3 pages can be read"):
        read_document(_by_hand(tmp_path / "a.pdf", [97, 98, 99]), SETTINGS)


def test_names_in_other_scripts_open(tmp_path):
    path = tmp_path / "Übergröße 手册 manual.pdf"
    shutil.copy(_small(tmp_path / "plain.pdf"), path)
    assert read_document(path, SETTINGS).file == path.name


def test_the_same_bytes_have_the_same_hash_and_result(tmp_path):
    first = read_document(_small(tmp_path / "a.pdf"), SETTINGS)
    second = read_document(_small(tmp_path / "b.pdf"), SETTINGS)
    assert first.sha256 == second.sha256
    assert first.pages == second.pages
    assert first.passages == second.passages
