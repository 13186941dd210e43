"""The sample library is what its scripts draw; every page says what it is; its truth covers every page."""

import csv
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

reportlab = pytest.importorskip("reportlab", reason="reportlab draws the sample library (extra: test)")

from indexer.trade.publication_types import PublicationType  # noqa: E402
from sample_docs.draw import scanned_manual  # noqa: E402
from sample_docs.draw.book import draw_book  # noqa: E402
from sample_docs.draw.facts import FICTITIOUS_LINE  # noqa: E402
from sample_docs.draw.library import draw_all  # noqa: E402
from sample_docs.draw.truth import write_truth  # noqa: E402

SAMPLE_DOCS = ROOT / "sample_docs"
PDFS = sorted((SAMPLE_DOCS / "pdf").glob("*.pdf"))
TRUTHS = ("truth.csv", "publications_truth.csv")


def rows(name: str) -> list[dict[str, str]]:
    with (SAMPLE_DOCS / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@cache
def page_texts(path: Path) -> list[str]:
    pdf = pypdfium2.PdfDocument(path)
    try:
        return [page.get_textpage().get_text_bounded() for page in pdf]
    finally:
        pdf.close()


@pytest.fixture(scope="module")
def redrawn(tmp_path_factory):
    folder = tmp_path_factory.mktemp("redrawn")
    write_truth(folder, draw_all(folder / "pdf"))
    return folder


def test_drawing_again_gives_the_same_bytes(redrawn):
    assert [path.name for path in sorted((redrawn / "pdf").iterdir())] == [path.name for path in PDFS]
    drawn_by = (SAMPLE_DOCS / "draw" / "drawn_with.txt").read_text(encoding="utf-8").strip()
    for path in PDFS:
        again = redrawn / "pdf" / path.name
        if drawn_by == f"reportlab {reportlab.__version__}":
            assert again.read_bytes() == path.read_bytes(), path.name
        else:  # another reportlab may write the same page in other bytes
            assert page_texts(again) == page_texts(path), path.name


@pytest.mark.parametrize("name", TRUTHS)
def test_drawing_again_gives_the_same_truth(redrawn, name):
    assert (redrawn / name).read_text(encoding="utf-8") == (SAMPLE_DOCS / name).read_text(encoding="utf-8")


def test_truth_has_one_row_for_every_page():
    pages = {(path.name, number) for path in PDFS for number in range(1, len(page_texts(path)) + 1)}
    listed = [(row["file"], int(row["pdf_page"])) for row in rows("truth.csv")]
    assert len(listed) == len(set(listed))
    assert set(listed) == pages


def test_every_page_says_that_it_is_fictitious_and_not_for_flight():
    scans = [row for row in rows("truth.csv") if row["text_state"] != "text"]
    without_text = {(row["file"], int(row["pdf_page"])) for row in scans}
    for path in PDFS:
        for number, text in enumerate(page_texts(path), start=1):
            if (path.name, number) not in without_text:
                assert FICTITIOUS_LINE in " ".join(text.split()), f"{path.name} page {number}"


def test_the_scanned_sheets_say_it_too(tmp_path):
    """The scan has no text; what was put on the scanner has."""
    draw_book(tmp_path / "sheets.pdf", scanned_manual.paper())
    for text in page_texts(tmp_path / "sheets.pdf"):
        assert FICTITIOUS_LINE in " ".join(text.split())


@pytest.mark.skipif(shutil.which("tesseract") is None, reason="tesseract is not installed")
@pytest.mark.parametrize(
    "picture", sorted((SAMPLE_DOCS / "draw" / "scans").glob("*.jpg")), ids=lambda path: path.stem
)
def test_the_fictitious_line_can_be_read_on_the_scan(picture, tmp_path):
    with Image.open(picture) as sheet:
        foot = sheet.crop((0, int(sheet.height * 0.94), sheet.width, sheet.height))
        foot.resize((foot.width * 2, foot.height * 2)).save(tmp_path / "foot.png")
    command = ["tesseract", tmp_path / "foot.png", "-", "--psm", "6"]
    read = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    assert FICTITIOUS_LINE in " ".join(read.split())


def test_pages_without_text_hold_a_picture_and_no_words():
    for row in rows("truth.csv"):
        if row["text_state"] == "no text":
            assert not page_texts(SAMPLE_DOCS / "pdf" / row["file"])[int(row["pdf_page"]) - 1].strip()


def test_the_fictitious_line_holds_no_words_that_block_use():
    """Common practice, no source: a notice "for reference only" or "not for maintenance" blocks."""
    for words in ("reference", "not for maintenance", "not been FAA approved", "uncontrolled"):
        assert words.lower() not in FICTITIOUS_LINE.lower()


def test_truth_uses_the_publication_types_of_the_trade():
    for row in rows("truth.csv"):
        PublicationType(row["publication_type"])
    for row in rows("publications_truth.csv"):
        PublicationType(row["type"])


def test_publications_cover_the_pages_of_their_file_without_overlap():
    for path in PDFS:
        covered = []
        for row in rows("publications_truth.csv"):
            if row["file"] == path.name:
                covered += range(int(row["first_page"]), int(row["last_page"]) + 1)
        assert covered == list(range(1, len(page_texts(path)) + 1)), path.name


def test_relations_name_files_that_are_here():
    names = {path.name for path in PDFS}
    for row in rows("relations_truth.csv"):
        assert row["from_file"] in names
        assert not row["to_file"] or row["to_file"] in names


def test_the_library_stays_small():
    assert len(PDFS) >= 14
    assert sum(path.stat().st_size for path in SAMPLE_DOCS.rglob("*") if path.is_file()) < 8_000_000
