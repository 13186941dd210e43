"""Pictures of pages: right size, kept on disk, and no page can take the service down."""

import io
import os
import time
from pathlib import Path

import pytest
from PIL import Image
from reportlab.pdfgen import canvas

from indexer.settings import Settings
from server.picture_cache import PictureCache
from server.render import PageNotDrawn, PagePictures, draw

LETTER = (612, 792)  # points


@pytest.fixture
def pdf(tmp_path) -> Path:
    """Two pages: a plain one, and one of 200 by 200 inches, the most that PDF allows without user units."""
    path = tmp_path / "two.pdf"
    sheet = canvas.Canvas(str(path), pagesize=LETTER)
    sheet.drawString(72, 700, "Fictitious. Not for flight.")
    sheet.showPage()
    sheet.setPageSize((14400, 14400))
    sheet.drawString(72, 700, "A very large page")
    sheet.save()
    return path


def pictures(tmp_path, drawing=draw, **given):
    limits = {"render_time_limit_s": 20, "max_page_pixels": 4_000_000, "worker_memory_mb": 0}
    return PagePictures(tmp_path / "cache", Settings(**limits | given), drawing)


def image(jpeg: bytes) -> Image.Image:
    return Image.open(io.BytesIO(jpeg))


def crash(path, pdf_page, dpi, max_pixels):
    os._exit(11)


def hang(path, pdf_page, dpi, max_pixels):
    while True:
        time.sleep(60)


def bomb(path, pdf_page, dpi, max_pixels):
    return bytes(8 * 1024**3)


def break_first_page(path, pdf_page, dpi, max_pixels):
    if pdf_page == 1:
        os._exit(11)
    return b"picture"


def test_a_page_is_drawn_at_its_size_and_kept(tmp_path, pdf):
    shelf = pictures(tmp_path)
    try:
        jpeg = shelf.picture(pdf, "two.pdf", "abc", 1, 150)
        assert image(jpeg).format == "JPEG"
        assert image(jpeg).size == pytest.approx((1275, 1650), abs=1)  # letter paper at 150 dots per inch
        assert [kept.name for kept in (tmp_path / "cache" / "abc").iterdir()] == ["1-150.jpg"]
        pdf.unlink()
        assert shelf.picture(pdf, "two.pdf", "abc", 1, 150) == jpeg
    finally:
        shelf.close()


def test_a_large_page_is_drawn_smaller_and_odd_sizes_are_not_drawn(tmp_path, pdf):
    shelf = pictures(tmp_path, max_page_pixels=5_000_000)
    try:
        width, height = image(shelf.picture(pdf, "two.pdf", "abc", 2, 300)).size
        assert 4_900_000 < width * height <= 5_010_000
        assert image(shelf.picture(pdf, "two.pdf", "abc", 1, 151)).size == pytest.approx((1870, 2420), abs=1)
        assert image(shelf.picture(pdf, "two.pdf", "abc", 1, 9999)).size[0] < 2550
    finally:
        shelf.close()


@pytest.mark.parametrize(
    ("drawing", "limits", "why"),
    [
        (crash, {}, "stopped the worker"),
        (hang, {"render_time_limit_s": 1}, "more than 1 seconds"),
        pytest.param(
            bomb,
            {"worker_memory_mb": 1500},
            "too much memory",
            marks=pytest.mark.skipif(os.name == "nt", reason="Windows has no such memory limit"),
        ),
    ],
)
def test_a_hostile_page_costs_one_answer(tmp_path, pdf, drawing, limits, why):
    shelf = pictures(tmp_path, drawing=drawing, **limits)
    try:
        with pytest.raises(PageNotDrawn) as problem:
            shelf.picture(pdf, "two.pdf", "abc", 1, 150)
        assert why in problem.value.what and "two.pdf, PDF page 1" in problem.value.what
        assert problem.value.remedy
        assert not (tmp_path / "cache").exists()
    finally:
        shelf.close()


def test_the_next_page_is_drawn_after_a_crash(tmp_path, pdf):
    shelf = pictures(tmp_path, drawing=break_first_page)
    try:
        with pytest.raises(PageNotDrawn):
            shelf.picture(pdf, "two.pdf", "abc", 1, 150)
        assert shelf.picture(pdf, "two.pdf", "abc", 2, 150) == b"picture"
    finally:
        shelf.close()


def test_what_is_no_pdf_is_said_so(tmp_path):
    path = tmp_path / "not.pdf"
    path.write_text("not a PDF")
    shelf = pictures(tmp_path)
    try:
        with pytest.raises(PageNotDrawn):
            shelf.picture(path, "not.pdf", "abc", 1, 150)
    finally:
        shelf.close()


def test_a_picture_that_cannot_be_kept_is_still_shown(tmp_path, pdf):
    (tmp_path / "cache").write_text("a file where the folder should be")
    shelf = pictures(tmp_path)
    try:
        assert image(shelf.picture(pdf, "two.pdf", "abc", 1, 75)).format == "JPEG"
    finally:
        shelf.close()


def test_the_words_of_a_page_come_with_their_boxes(tmp_path, pdf):
    shelf = pictures(tmp_path)
    try:
        words = shelf.words(pdf, "two.pdf", 1)
        assert [word.text for word in words] == ["Fictitious.", "Not", "for", "flight."]
        assert words[0].box.x0 == pytest.approx(72, abs=2)
        assert words[0].box.bottom == pytest.approx(792 - 700, abs=4)
    finally:
        shelf.close()


def test_the_oldest_pictures_go_when_there_are_too_many(tmp_path):
    cache = PictureCache(tmp_path, limit_mb=0.01)
    for pdf_page in range(1, 13):
        cache.keep("abc", pdf_page, 150, bytes(1000))
        os.utime(tmp_path / "abc" / f"{pdf_page}-150.jpg", (pdf_page, pdf_page))
    assert cache.tidy() == 4  # 12 kB, over the limit of 10: down to 8
    assert [cache.kept("abc", pdf_page, 150) is None for pdf_page in range(1, 13)] == [True] * 4 + [False] * 8
    assert cache.tidy() == 0
