"""Approved and acceptable are told apart by words: the same two hits, looked at without any colour."""

import io

import pytest
from in_chromium import PHONE
from PIL import Image, ImageChops

HITS = {  # of the demonstration
    "/?q=inspection&standing=approved": "Approved data",
    "/?q=inspection&standing=acceptable": "Acceptable data",
}
MOST_BYTES = 150_000  # of the picture that is kept in pictures/


@pytest.fixture
def grey(tab, demo):
    """Gives the first hit of an address: the words of its standing, and its picture without colour."""
    page = tab(PHONE)
    cdp = page.context.new_cdp_session(page)
    cdp.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})

    def look(path):
        page.goto(demo + path)
        hit = page.locator("article.hit").first
        lead = hit.locator(".standing .lead")
        lead.scroll_into_view_if_needed()
        box, seen = lead.bounding_box(), page.evaluate("[innerWidth, innerHeight]")
        assert lead.is_visible() and box["width"] > 0 and box["height"] >= 14  # CSS px
        assert box["x"] >= 0 and box["x"] + box["width"] <= seen[0]
        assert box["y"] >= 0 and box["y"] + box["height"] <= seen[1]
        words = lead.inner_text()
        return words, Image.open(io.BytesIO(hit.screenshot())).convert("RGB")

    return look


def test_approved_and_acceptable_read_apart_without_colour(grey, tmp_path):
    seen = {path: grey(path) for path in HITS}
    assert [words for words, _ in seen.values()] == list(HITS.values())
    pictures = [picture for _, picture in seen.values()]
    for picture in pictures:
        red, green, blue = picture.split()
        assert ImageChops.difference(red, green).getextrema()[1] <= 2, "colour was left in the picture"
        assert ImageChops.difference(red, blue).getextrema()[1] <= 2
        assert red.getextrema()[1] - red.getextrema()[0] > 150, "an empty picture"
    side_by_side = Image.new(
        "L", (sum(each.width for each in pictures) + 12, max(each.height for each in pictures)), 255
    )
    at = 0
    for picture in pictures:
        side_by_side.paste(picture.convert("L"), (at, 0))
        at += picture.width + 12
    written = tmp_path / "approved-and-acceptable-in-grey.png"
    side_by_side.save(written, optimize=True)
    assert written.stat().st_size < MOST_BYTES
