"""One page as printed: the passage marked, warnings, standing, and what overrides it in front."""

import re

import pytest

from server.routes.page_view import page_view
from server.search import search


def test_the_passage_asked_for_is_marked_and_the_rest_less(library, ids):
    with library.reading():
        view = page_view(library, ids["manual"], 2, f"{ids['manual']}-0", "brake")
    first, second = view.picture.boxes
    assert (first.also, second.also) == (False, True)
    assert (first.x, first.y, first.width, first.height) == (70.0, 98.0, 472.0, 64.0)
    assert view.standing.lead == "Approved data"
    words = [(round(box.x), round(box.y)) for box in view.picture.words]
    assert words, "the words asked for are marked one by one"


def test_marks_are_drawn_over_the_picture_in_points(client, ids):
    page = client.get(f"/publications/{ids['manual']}/pages/2?q=brake&passage={ids['manual']}-0").text
    assert 'viewBox="0 0 612.0 792.0"' in page
    assert re.search(r'<rect class="box" x="70.0" y="98.0" width="472.0" height="64.0"', page)
    assert f'src="/api/publications/{ids["manual"]}/pages/2?dpi=150"' in page


def test_warnings_of_the_page_are_shown_whole(client, ids):
    page = client.get(f"/publications/{ids['manual']}/pages/2").text
    assert "1 warning on this page" in page
    assert "release the brake pressure before you open the brake line." in page


def test_a_page_without_a_passage_asked_for_speaks_for_all_of_it(library, ids):
    with library.reading():
        assert page_view(library, ids["manual"], 2).standing.lead == "Not the same over this page"
        assert page_view(library, ids["manual"], 3).standing.lead == "Not determined"
        assert page_view(library, ids["manual"], 4).standing is None


def test_a_page_that_cannot_be_searched_says_so(client, ids):
    page = client.get(f"/publications/{ids['manual']}/pages/4").text
    assert "no text that can be searched" in page and "Read the picture itself" in page


def test_pages_turn_within_the_publication(client, ids):
    first = client.get(f"/publications/{ids['manual']}/pages/1?q=brake").text
    assert (
        "First page" in first and f'rel="next" href="/publications/{ids["manual"]}/pages/2?q=brake"' in first
    )
    last = client.get(f"/publications/{ids['manual']}/pages/4").text
    assert "Last page" in last and 'rel="prev"' in last


@pytest.mark.parametrize(("zoom", "dpi"), [("100", 150), ("150", 220), ("200", 300), ("77", 150)])
def test_a_larger_view_asks_for_a_sharper_picture(client, ids, zoom, dpi):
    assert f"pages/2?dpi={dpi}" in client.get(f"/publications/{ids['manual']}/pages/2?zoom={zoom}").text


def of_file(samples, name):
    return next(record for record in samples.catalogue.publications() if record.file == name)


def test_a_temporary_revision_stands_before_the_page_it_changes(samples, sample_client):
    manual = of_file(samples, "qz62-maintenance-manual.pdf")
    revision = of_file(samples, "qz62-temporary-revision-32-07.pdf")
    boxes = [
        page["pdf_page"]
        for page in sample_client.get(f"/api/publications/{manual.id}").json()["pages"]
        if sample_client.get(f"/api/publications/{manual.id}/pages/{page['pdf_page']}/boxes").json()[
            "overridden_by"
        ]
    ]
    assert len(boxes) == 1, "the temporary revision changes one page of this manual"
    page = sample_client.get(f"/publications/{manual.id}/pages/{boxes[0]}").text
    before = page.index(f"/api/publications/{revision.id}/pages/1?")
    after = page.index(f"/api/publications/{manual.id}/pages/{boxes[0]}?")
    assert before < after
    assert "Overridden by TR 32-07: read that page first." in page


def test_a_hit_that_is_superseded_says_by_what(samples):
    hits = [hit for group in search(samples, "tie bolt", types=["SB"]).groups for hit in group.hits]
    by_file = {hit.publication.file: hit.currency for hit in hits}
    assert "Superseded by revision C" in by_file["sb-qz62-32-0114-rev-b.pdf"][0]
    assert by_file["sb-qz62-32-0114-rev-c.pdf"] == (
        "AD 2031-07-11 names another revision of this document, not this one.",
    )


def test_a_hit_on_an_overridden_page_says_so(samples):
    hits = [
        hit for group in search(samples, "torque tie bolts", chapters=["32-42"]).groups for hit in group.hits
    ]
    assert any("Overridden by TR 32-07: read that page first." in hit.currency for hit in hits)


def test_a_publication_shows_its_tags_their_evidence_and_what_disagrees(client, ids):
    page = client.get(f"/publications/{ids['manual']}").text
    assert "OW12-MM" in page and "Elsewhere it says <b>OW12-AMM</b>" in page
    assert "OW12-AMM (foot)" in page
    assert "This is the habit of the type, not a finding about this copy." in page
    assert "not found in this file" in client.get(f"/publications/{ids['circular']}").text


def test_a_publication_shows_how_it_stands_to_others(samples, sample_client):
    bulletin = of_file(samples, "sb-qz62-32-0114-rev-b.pdf")
    page = sample_client.get(f"/publications/{bulletin.id}").text
    assert "Required by AD 2031-07-11" in page and "Held here: the revision named." in page
    assert "not that there is none" in page


def test_the_status_page_names_what_is_held_and_what_is_not_searched(client):
    page = client.get("/status").text
    assert "4 publications" in page and "ow12-mm.pdf, PDF page 4: no text" in page


def test_a_page_says_what_it_refers_to_and_what_refers_to_it(samples, sample_client):
    """Source of the sentence: page 1 of the bulletin QZ62-32-0114, drawn with the samples."""
    held = {record.file: record for record in samples.catalogue.publications()}
    bulletin, manual = held["sb-qz62-32-0114-rev-b.pdf"], held["qz62-maintenance-manual.pdf"]
    page = sample_client.get(f"/api/publications/{bulletin.id}/pages/1/boxes").json()
    (said,) = [each for each in page["refers_to"] if "QZM-62-2, 32-42-00" in each["text"]]
    (target,) = said["targets"]
    assert (said["state"], target["publication"], said["reason"]) == ("resolved", manual.id, "")
    there = sample_client.get(f"/api/publications/{manual.id}/pages/{target['pdf_page']}/boxes").json()
    assert there["printed_page"] == "201"
    pointing = [each for each in there["referred_to_from"] if each["publication"] == bulletin.id]
    assert (said["text"], said["passage"]) in [(each["text"], each["passage"]) for each in pointing]
