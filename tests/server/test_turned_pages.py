"""Pages that the file turns and cuts: tiles and words stand where poppler, another renderer, puts them."""

import io
import math
import re
import shutil
import subprocess

import numpy as np
import pytest
from PIL import Image
from turned_pages import PAGES, turn_pages

from indexer.reading.document import read_document
from indexer.settings import Settings
from server.render import PagePictures
from server.tiles import TILE_DPIS, TILE_PIXELS, Tile, page_pixels

ZOOM = 1
ASIDE = 3  # pixels; two renderers differ by less
NEAR = 1.5  # points: a word's box is cut to its letters by one, and as high as its font by the other
WORD = re.compile(r'<word xMin="(\S+)" yMin="(\S+)" xMax="(\S+)" yMax="(\S+)">([^<]+)</word>')

pytestmark = [
    pytest.mark.poppler,
    pytest.mark.skipif(
        not shutil.which("pdftoppm") or not shutil.which("pdftotext"), reason="poppler is not installed"
    ),
]


@pytest.fixture(scope="module")
def turned(tmp_path_factory):
    return turn_pages(tmp_path_factory.mktemp("turned") / "turned.pdf")


@pytest.fixture(scope="module")
def read(turned):
    return read_document(turned, Settings()).pages


@pytest.fixture(scope="module")
def pictures(tmp_path_factory):
    shelf = PagePictures(tmp_path_factory.mktemp("cache"), Settings())
    yield shelf
    shelf.close()


@pytest.fixture(scope="module")
def theirs(turned):
    """Of each page: poppler's picture of its crop box, and the boxes of its words."""
    into = turned.with_name("page")
    subprocess.run(["pdftoppm", "-cropbox", "-r", str(TILE_DPIS[ZOOM]), "-png", turned, into], check=True)
    told = subprocess.run(
        ["pdftotext", "-bbox", "-cropbox", turned, "-"], capture_output=True, text=True, check=True
    )
    words = [
        {word: tuple(map(float, box)) for *box, word in WORD.findall(page)}
        for page in told.stdout.split("<page ")[1:]
    ]
    drawn = sorted(turned.parent.glob("page-*.png"))
    assert len(drawn) == len(words) == len(PAGES)
    return [(Image.open(file).convert("L"), boxes) for file, boxes in zip(drawn, words, strict=True)]


@pytest.mark.parametrize("pdf_page", range(1, len(PAGES) + 1), ids=lambda at: str(PAGES[at - 1]))
def test_tiles_show_what_another_renderer_shows(turned, read, pictures, theirs, pdf_page):
    size = (read[pdf_page - 1].width, read[pdf_page - 1].height)
    expected, _ = theirs[pdf_page - 1]
    assert page_pixels(*size, ZOOM) == expected.size
    together = Image.new("L", expected.size)
    for column in range(math.ceil(expected.width / TILE_PIXELS)):
        for row in range(math.ceil(expected.height / TILE_PIXELS)):
            jpeg = pictures.tile(turned, "turned.pdf", "abc", pdf_page, size, Tile(ZOOM, column, row))
            together.paste(
                Image.open(io.BytesIO(jpeg)).convert("L"), (column * TILE_PIXELS, row * TILE_PIXELS)
            )
    ours, other = (np.asarray(image, dtype=np.int16) for image in (together, expected))
    assert other.std() > 5, "the page shows something"
    in_place = np.abs(ours - other).mean()
    for down, across in ((ASIDE, 0), (-ASIDE, 0), (0, ASIDE), (0, -ASIDE)):
        aside = np.abs(ours - np.roll(other, (down, across), axis=(0, 1))).mean()
        assert in_place < aside * 0.7, f"moved by {across}, {down} it fits as well"


@pytest.mark.parametrize("pdf_page", range(1, len(PAGES) + 1), ids=lambda at: str(PAGES[at - 1]))
def test_words_are_marked_where_another_reader_finds_them(turned, pictures, theirs, pdf_page):
    _, boxes = theirs[pdf_page - 1]
    words = [word for word in pictures.words(turned, "turned.pdf", pdf_page) if word.text in boxes]
    assert len(words) > 150
    for word in words:
        x0, y0, x1, y1 = boxes[word.text]
        assert (word.box.x0 + word.box.x1) / 2 == pytest.approx((x0 + x1) / 2, abs=NEAR)
        assert (word.box.top + word.box.bottom) / 2 == pytest.approx((y0 + y1) / 2, abs=NEAR)
