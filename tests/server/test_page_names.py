"""The page that a reader names, in a PDF with Roman front pages and chapters that count anew."""

import pytest
from asking import Client
from reportlab.lib.pagesizes import LETTER
from reportlab.pdfgen import canvas

from indexer.ingest import ingest
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary

TITLES = "Drum Cable Hook Frame Motor Brake Switch Lamp Guide Cutter Cover".split()
PRINTED = ("i", "ii", "iii", "iv", "1-1", "1-2", "1-3", "5-1", "5-2", "5-3", "5-4")


@pytest.fixture(scope="module")
def manual(tmp_path_factory):
    """The service, and the address of the manual; each page prints its number in its foot."""
    place = tmp_path_factory.mktemp("named")
    (place / "files").mkdir()
    sheet = canvas.Canvas(str(place / "files" / "manual.pdf"), pagesize=LETTER, invariant=1)
    for at, (number, title) in enumerate(zip(PRINTED, TITLES, strict=True)):
        sheet.setFont("Helvetica-Bold", 14)
        sheet.drawString(72, 650 - 20 * (at % 3), f"{title} of the hoist")
        sheet.setFont("Helvetica", 11)
        for line in range(12):
            sheet.drawString(
                72, 560 - 16 * line, "Clean the drum of the hoist and look at the cable for broken wires."
            )
        sheet.drawCentredString(306, 40, f"Page {number}")
        sheet.showPage()
    sheet.save()
    ingest([place / "files"], place / "library", Settings())
    with OpenedLibrary.open(place / "library", Settings()) as opened:
        opened.catch_up()
        (record,) = opened.catalogue.publications()
        yield Client(create_app(opened, Settings())), f"/publications/{record.id}"


@pytest.mark.parametrize(
    ("typed", "pdf_page"),
    [
        ("iv", 4),
        ("IV", 4),
        ("page ii", 2),
        ("5-2", 9),
        ("5\N{EN DASH}2", 9),
        ("5 - 2", 9),
        ("Page 5-2", 9),
        ("p. 1-3", 7),
        ("pg 1-3", 7),
        ("7", 7),
        ("PDF page 7", 7),
    ],
)
def test_a_page_is_named_as_it_prints_its_number(manual, typed, pdf_page):
    client, address = manual
    answer = client.get(f"{address}/contents", params={"page": typed})
    assert answer.status_code == 303, answer.text
    assert answer.headers["location"] == f"{address}/pages/{pdf_page}"


@pytest.mark.parametrize("typed", ["5-9", "v", "page", "PDF page iv", "page 99", "-"])
def test_a_name_that_no_page_has_is_said(manual, typed):
    client, address = manual
    answer = client.get(f"{address}/contents", params={"page": typed})
    assert answer.status_code == 200 and f"No page {typed} in this publication." in answer.text


def test_contents_say_the_printed_page_of_each_heading(manual):
    client, address = manual
    page = client.get(f"{address}/contents").text
    for pdf_page, (number, title) in enumerate(zip(PRINTED, TITLES, strict=True), 1):
        row = page[page.index(f'href="{address}/pages/{pdf_page}"><span>{title} of the hoist') :]
        assert f"page {number}</span>" in row[: row.index("</li>")]
