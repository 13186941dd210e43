"""Tiles of a page put together are the page: held against pdfium drawing all of it at the same scale."""

import io
import math

import numpy as np
import pypdfium2
import pytest
from drawn_pages import FOLDOUT, draw_pages
from PIL import Image

from indexer.settings import Settings
from server.render import PagePictures
from server.tiles import TILE_DPIS, TILE_PIXELS, Tile, crop_of, page_pixels

JPEG_DIFFERENCE = 3.0  # mean of the absolute differences, of 255: what quality 80 costs on lines and text


@pytest.fixture(scope="module")
def drawn(tmp_path_factory):
    """A letter page, a foldout of 34 by 11 inches, and a letter page that the file turns by 90 degrees."""
    return draw_pages(tmp_path_factory.mktemp("drawn") / "drawn.pdf")


@pytest.fixture(scope="module")
def pictures(tmp_path_factory):
    shelf = PagePictures(tmp_path_factory.mktemp("cache"), Settings())
    yield shelf
    shelf.close()


def whole(path, pdf_page, zoom):
    """The page drawn in one go by pypdfium2's own way of drawing."""
    document = pypdfium2.PdfDocument(path)
    try:
        page = document[pdf_page - 1]
        size = (page.get_width(), page.get_height())
        scale = (
            TILE_DPIS[zoom] / 72 - 1e-9
        )  # so that 1275 pixels are not 1276 by the last digit of a fraction
        image = page.render(scale=scale).to_pil().convert("RGB")
    finally:
        document.close()
    return size, image


@pytest.mark.parametrize(("pdf_page", "zoom"), [(1, 0), (1, 1), (2, 0), (2, 1), (3, 0), (3, 1)])
def test_tiles_put_together_are_the_page(drawn, pictures, pdf_page, zoom):
    size, expected = whole(drawn, pdf_page, zoom)
    assert page_pixels(*size, zoom) == expected.size
    together = Image.new("RGB", expected.size)
    for column in range(math.ceil(expected.width / TILE_PIXELS)):
        for row in range(math.ceil(expected.height / TILE_PIXELS)):
            jpeg = pictures.tile(drawn, "drawn.pdf", "abc", pdf_page, size, Tile(zoom, column, row))
            together.paste(Image.open(io.BytesIO(jpeg)), (column * TILE_PIXELS, row * TILE_PIXELS))
    ours, theirs = (np.asarray(image, dtype=np.int16) for image in (together, expected))
    assert theirs.std() > 5, "the page shows something"
    assert np.abs(ours - theirs).mean() < JPEG_DIFFERENCE
    shifted = np.abs(ours[:, 2:] - theirs[:, :-2]).mean()
    assert shifted > np.abs(ours - theirs).mean() * 2, "two pixels aside is told from in place"


def test_one_tile_at_the_deepest_zoom_is_that_part_of_the_page(drawn, pictures):
    """The crop that pypdfium2 itself makes of the same page."""
    size, _ = whole(drawn, 2, 0)
    zoom = len(TILE_DPIS) - 1
    crop = crop_of(*size, Tile(zoom, 20, 5))
    document = pypdfium2.PdfDocument(drawn)
    try:
        scale = TILE_DPIS[zoom] / 72
        right, below = (
            crop.page_width - crop.left - crop.width,
            crop.page_height - crop.top - crop.height,
        )
        cut = (crop.left / scale, below / scale, right / scale, crop.top / scale)
        expected = document[1].render(scale=scale, crop=cut).to_pil().convert("RGB")
    finally:
        document.close()
    tile = Image.open(io.BytesIO(pictures.tile(drawn, "drawn.pdf", "abc", 2, size, Tile(zoom, 20, 5))))
    assert tile.size == (TILE_PIXELS, TILE_PIXELS)
    ours = np.asarray(tile, dtype=np.int16)
    theirs = np.asarray(expected.crop((0, 0, *tile.size)), dtype=np.int16)
    assert theirs.std() > 5
    assert np.abs(ours - theirs).mean() < JPEG_DIFFERENCE


def test_tiles_at_the_edge_are_what_is_left():
    assert page_pixels(612, 792, 1) == (1275, 1650)  # 8.5 and 11 inches at 150 dots per inch
    assert crop_of(612, 792, Tile(1, 2, 3)) is not None
    edge = crop_of(612, 792, Tile(1, 2, 3))
    assert (edge.width, edge.height) == (1275 - 1024, 1650 - 1536)


@pytest.mark.parametrize(
    "tile", [Tile(1, 3, 0), Tile(1, 0, 4), Tile(4, 0, 0), Tile(-1, 0, 0), Tile(0, -1, 0)]
)
def test_there_is_no_tile_outside_the_page(tile):
    assert crop_of(612, 792, tile) is None


def test_a_foldout_has_as_many_tiles_as_its_size_asks():
    width, height = FOLDOUT
    assert page_pixels(width, height, 3) == (34 * 600, 11 * 600)
    assert crop_of(width, height, Tile(3, 39, 12)) is not None  # 20400 = 39.8 tiles, 6600 = 12.9
    assert crop_of(width, height, Tile(3, 40, 0)) is None


def test_a_tile_is_kept_beside_the_whole_picture(drawn, tmp_path):
    shelf = PagePictures(tmp_path, Settings())
    try:
        jpeg = shelf.tile(drawn, "drawn.pdf", "abc", 1, (612, 792), Tile(0, 0, 0))
        whole_page = shelf.picture(drawn, "drawn.pdf", "abc", 1, 75)
    finally:
        shelf.close()
    assert (tmp_path / "abc" / "1-tile-0-0-0.jpg").read_bytes() == jpeg
    assert (tmp_path / "abc" / "1-75.jpg").read_bytes() == whole_page


def test_the_service_hands_out_tiles_and_says_where_there_is_none(client, ids):
    at = f"/api/publications/{ids['manual']}/pages/2/tiles"
    answer = client.get(f"{at}/1/2/3")
    assert answer.headers["content-type"] == "image/jpeg" and answer.headers["cache-control"] == "no-store"
    assert Image.open(io.BytesIO(answer.content)).size == (251, 114)
    outside = client.get(f"{at}/1/3/0")
    assert outside.status_code == 404 and outside.json()["error"]["slug"] == "tile-unknown"
    assert "column 3, row 0" in outside.json()["error"]["what"]
    assert client.get(f"{at}/4/0/0").status_code == 400
    assert client.get(f"{at}/1/-1/0").status_code == 400
    assert client.get(f"/api/publications/{ids['manual']}/pages/99/tiles/0/0/0").status_code == 404
    assert client.get("/api/publications/nothing/pages/1/tiles/0/0/0").status_code == 404
