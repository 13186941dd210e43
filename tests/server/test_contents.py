"""A publication's contents, the page that a reader names, hits in page order, and references as links."""

import re

import pytest

from indexer.reading.page import Word
from indexer.trade.evidence import Box
from server.hits_in import HitPlace, among
from server.routes.page_references import places_of

PLACES = [HitPlace("a", 2), HitPlace("b", 2), HitPlace("c", 5)]


def of_file(samples, name):
    return next(record for record in samples.catalogue.publications() if record.file == name)


def test_contents_are_the_headings_with_their_pages(client, ids):
    page = client.get(f"/publications/{ids['manual']}/contents").text
    listed = re.findall(r'level-(\d)"><a href="[^"]+/pages/(\d)"><span>([^<]+)</span>', page)
    assert listed == [
        ("0", "2", "Landing gear"),
        ("1", "2", "Wheel and brake"),
        ("0", "3", "Electrical power"),
        ("0", "3", "Charts"),
    ]


@pytest.mark.parametrize(("typed", "pdf_page"), [("401", 2), ("1", 1), (" 403 ", 4)])
def test_a_page_is_gone_to_by_its_printed_or_its_pdf_number(client, ids, typed, pdf_page):
    answer = client.get(f"/publications/{ids['manual']}/contents", params={"page": typed})
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/publications/{ids['manual']}/pages/{pdf_page}"


def test_a_number_that_no_page_has_is_said(client, ids):
    answer = client.get(f"/publications/{ids['manual']}/contents?page=999")
    assert answer.status_code == 200
    assert "No page 999 in this publication." in answer.text and "PDF pages 1 to 4" in answer.text


def test_a_number_printed_on_several_pages_is_asked_back(samples, sample_client):
    """Page blocks begin anew in every section: 201 stands on several pages (common practice, no source)."""
    manual = of_file(samples, "qz62-maintenance-manual.pdf")
    pages = sample_client.get(f"/api/publications/{manual.id}").json()["pages"]
    printing = [page["pdf_page"] for page in pages if page["printed_page"] == "201"]
    assert len(printing) > 1
    page = sample_client.get(f"/publications/{manual.id}/contents?page=201")
    assert page.status_code == 200 and "Several pages may be meant by 201" in page.text
    assert page.text.count("Printed page 201") == len(printing)


@pytest.mark.parametrize(
    ("pdf_page", "passage", "at", "previous", "next_one"),
    [
        (2, "", 1, None, "b"),
        (2, "b", 2, "a", "c"),
        (3, "", 0, "b", "c"),
        (5, "c", 3, "b", None),
        (1, "", 0, None, "a"),
        (9, "nothing", 0, "c", None),
    ],
)
def test_hits_are_counted_in_the_order_of_the_pages(pdf_page, passage, at, previous, next_one):
    found = among(PLACES, pdf_page, passage)
    names = [place and place.passage_id for place in (found.previous, found.next)]
    assert (found.total, found.at, names) == (3, at, [previous, next_one])


def test_the_page_leads_from_hit_to_hit(samples, sample_client):
    manual = of_file(samples, "qz62-maintenance-manual.pdf")
    address, seen = f"/publications/{manual.id}/pages/1?q=brake", []
    first = sample_client.get(address).text
    total = int(re.search(r"(?:Hit \d+ of|>)\s*(\d+)(?: hits?, none here|<)", first).group(1))
    while address and len(seen) <= total:
        page = sample_client.get(address).text
        if found := re.search(r"Hit (\d+) of (\d+)", page):
            seen.append((int(found.group(1)), int(found.group(2))))
        after = re.search(r'href="([^"]+)">Next hit', page)
        address = after.group(1).replace("&amp;", "&") if after else ""
    assert seen == [(number, total) for number in range(1, total + 1)] and total > 1


def word(text, x0, top=100.0):
    return Word(text, Box(x0, top, x0 + 30, top + 10), 10, False)


def test_the_words_of_a_reference_are_found_on_the_page():
    words = [word("see", 0), word("(QZM-62-2,", 40), word("32-42-00)", 0, 112), word("and", 40, 112)]
    boxes, after = places_of("QZM-62-2, 32-42-00", words)
    assert [(box.x0, box.top) for box in boxes] == [(40, 100), (0, 112)], "one box for each line"
    assert after == 3
    assert places_of("QZM-62-2, 32-42-00", words, after) == ((), 3), "each place is taken once"
    assert places_of("page 202", words) == ((), 0)


def test_references_are_links_on_the_picture_and_in_the_list(samples, sample_client):
    """Source of the sentence: page 1 of the bulletin QZ62-32-0114, drawn with the samples."""
    bulletin = of_file(samples, "sb-qz62-32-0114-rev-b.pdf")
    manual = of_file(samples, "qz62-maintenance-manual.pdf")
    page = sample_client.get(f"/publications/{bulletin.id}/pages/1").text
    named = r'href="([^"]+)" aria-label="([^"]*32-42-00[^"]*)"'
    link = re.search(rf'<a class="reference"[^>]* {named}>(.*?)</a>', page)
    assert link.group(1).startswith(f"/publications/{manual.id}/pages/")
    assert "<rect" in link.group(3)
    assert "This page refers to" in page
    listed = page[page.index("This page refers to") :]
    assert "(PDF page " in listed and f"/publications/{manual.id}/pages/" in listed


def test_warnings_of_the_change_stand_before_those_of_the_page(samples, sample_client):
    """The temporary revision 32-07 warns of the torque of a coated tie bolt; drawn with the samples."""
    manual = of_file(samples, "qz62-maintenance-manual.pdf")
    changed = [
        page["pdf_page"]
        for page in sample_client.get(f"/api/publications/{manual.id}").json()["pages"]
        if sample_client.get(f"/api/publications/{manual.id}/pages/{page['pdf_page']}/boxes").json()[
            "overridden_by"
        ]
    ]
    page = sample_client.get(f"/publications/{manual.id}/pages/{changed[0]}").text
    guard = page[page.index('class="guard"') : page.index("As the text was read; the page itself counts.")]
    assert "WARNING: DO NOT TORQUE A COATED TIE BOLT" in guard
    assert re.search(r"In TEMPORARY REVISION No\. 32-07[^<]*, which changes this page", guard)
    assert page.index('class="guard"') < page.index('class="sheet')


def test_a_warning_in_a_step_is_shown_from_its_word_on(samples, sample_client):
    """Page 30 of the manual: the gear leg is jacked before the WARNING about the strut stands."""
    manual = of_file(samples, "qz62-maintenance-manual.pdf")
    page = sample_client.get(f"/publications/{manual.id}/pages/30").text
    guard = page[page.index('class="guard"') : page.index("As the text was read; the page itself counts.")]
    assert "WARNING: LET ALL THE AIR" in guard and "Jack the gear leg" not in guard
