"""Words of a question are marked on the picture of a page that OCR read; doubtful ones have another mark."""

import math

import ocr_shelf
import pytest
from asking import Client

from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary


@pytest.fixture(scope="module")
def scans(tmp_path_factory):
    place = tmp_path_factory.mktemp("scans")
    ids = ocr_shelf.make(place / "library", place / "files")
    with OpenedLibrary.open(place / "library", Settings()) as opened:
        yield Client(create_app(opened, Settings())), ids["scanned"]


def boxes(client, address):
    answer = client.get(address).json()
    return answer, [(box["x0"], box["top"]) for box in answer["words"]]


def test_the_misread_word_is_marked_where_ocr_read_it(scans):
    client, book = scans
    answer, marked = boxes(client, f"/api/publications/{book}/pages/1/boxes?q=torque")
    text = ocr_shelf.SCANNED[0][0].split()
    assert marked == [(72 + 30 * text.index("t0rque"), 90)]
    assert (answer["origin"], answer["read_by_ocr"]) == ("ocr", True)


def test_words_below_the_floor_are_told_apart(scans):
    client, book = scans
    answer = client.get(f"/api/publications/{book}/pages/1/boxes").json()
    text = ocr_shelf.SCANNED[0][0].split()
    doubtful = [(box["x0"], box["top"]) for box in answer["doubtful_words"]]
    assert doubtful == [(72 + 30 * at, 90) for at, word in enumerate(text) if word in ("the", "175")]
    page = client.get(f"/publications/{book}/pages/1").text
    assert page.count('<rect class="doubt"') == len(doubtful) == 3 and "dashed frame" in page
    assert "OCR was not certain of: 175." in page


def test_a_page_whose_own_layer_is_used_is_marked_by_its_own_words(scans):
    client, book = scans
    answer, marked = boxes(client, f"/api/publications/{book}/pages/3/boxes?q=brake")
    assert (answer["origin"], answer["doubtful_words"]) == ("hidden ocr layer", [])
    assert marked == [] or marked[0][1] > 100  # where the drawn page has the word


def test_marks_on_a_skewed_page_lie_on_the_page_as_displayed(tmp_path):
    """A point is turned about the middle of the page: plain geometry, beside the formula of the code."""
    pages = [ocr_shelf.page_of(1, ocr_shelf.OCR, reason=ocr_shelf.OcrReason.NO_TEXT)]
    read = [ocr_shelf.recognized(1, "the brake", skew=10.0)]
    made = ocr_shelf.digital()
    with ocr_shelf.Catalogue.open(tmp_path / "library", create=True) as catalogue:
        book = ocr_shelf.take(catalogue, tmp_path / "files", "skewed", made, pages, read)
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        client = Client(create_app(opened, Settings()))
        (box,) = client.get(f"/api/publications/{book}/pages/1/boxes?q=brake").json()["words"]
    middle = complex(ocr_shelf.WIDTH / 2, ocr_shelf.HEIGHT / 2)
    turn = complex(math.cos(math.radians(10)), math.sin(math.radians(10)))
    corners = [middle + (complex(x, y) - middle) * turn for x in (102, 128) for y in (90, 102)]
    assert box["x0"] == pytest.approx(min(corner.real for corner in corners), abs=0.2)
    assert box["bottom"] == pytest.approx(max(corner.imag for corner in corners), abs=0.2)
