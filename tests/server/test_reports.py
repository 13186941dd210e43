"""A reader says that a tag is wrong; the desk answers; the page says so meanwhile."""

import pytest

from indexer.library import tag_reports
from indexer.library.problems import EntryRefused
from indexer.library.report_records import ReportedTag
from indexer.library.tag_reports import MOST_OPEN_ON_PAGE, ReportUnknown
from server.reports import MOST_IN_TIME

WRONG = {"tag": "chapter", "said": "This is chapter 24, not 32.", "pdf_page": "1"}


def test_a_report_is_kept_said_on_the_page_and_answered(desk, shelf, own_manual):
    sent = desk.request("POST", "/reports", data={**WRONG, "publication": own_manual, "who": "B. Rook"})
    assert sent.status_code == 303 and sent.headers["location"].endswith("/pages/1#reported")
    page = desk.get(f"/publications/{own_manual}/pages/1").text
    assert "chapter number: This is chapter 24, not 32. Not yet answered." in page
    assert "Not yet answered" not in desk.get(f"/publications/{own_manual}/pages/2").text
    (open_one,) = desk.get("/api/reports").json()["open"]
    assert (open_one["tag"], open_one["who"], open_one["pdf_page"]) == ("chapter", "B. Rook", 1)
    assert "1 tag reported as wrong by readers" in desk.get("/desk").text
    shown = desk.get("/reports").text
    assert f"/desk/new?publication={own_manual}" in shown and "This is chapter 24, not 32." in shown

    settle = f"/reports/{open_one['report']}/settle"
    assert desk.request("POST", settle, data={"who": "L. Heron", "why": "  "}).status_code == 400
    assert desk.request("POST", settle, data={"who": "L. Heron", "why": "Filed under 24"}).status_code == 303
    assert "Not yet answered" not in desk.get(f"/publications/{own_manual}/pages/1").text
    answer = desk.get("/api/reports").json()
    assert answer["open"] == []
    assert [(each["settled_by"], each["settled_why"]) for each in answer["settled"]] == [
        ("L. Heron", "Filed under 24")
    ]
    assert desk.request("POST", settle, data={"who": "L. Heron", "why": "again"}).status_code == 404


def test_a_report_changes_nothing_that_search_finds(desk, shelf, own_manual):
    before = shelf[0].catalogue.status().generation
    desk.request("POST", "/reports", data={**WRONG, "publication": own_manual})
    assert shelf[0].catalogue.status().generation == before


@pytest.mark.parametrize(
    ("given", "status"),
    [
        ({"said": " .. "}, 400),
        ({"said": "x" * 501}, 400),
        ({"tag": "colour"}, 400),
        ({"pdf_page": "999"}, 400),
        ({"pdf_page": "one"}, 400),
        ({"publication": "nothing"}, 404),
        ({"passage": "nothing"}, 404),
    ],
)
def test_what_is_no_report_is_refused(desk, own_manual, given, status):
    sent = desk.request("POST", "/reports", data={**WRONG, "publication": own_manual, **given})
    assert sent.status_code == status
    assert desk.get("/api/reports").json()["open"] == []


def test_a_page_of_another_site_cannot_report(desk, own_manual):
    sent = desk.request(
        "POST",
        "/reports",
        data={**WRONG, "publication": own_manual},
        headers={"origin": "http://elsewhere.example", "sec-fetch-site": "cross-site"},
    )
    assert sent.status_code == 403


def test_the_api_keeps_and_settles_reports(desk, own_manual):
    new = {"publication": own_manual, "pdf_page": 2, "tag": "standing", "said": "The stamp is another page's"}
    kept = desk.request("POST", "/api/reports", json=new).json()
    assert (kept["tag"], kept["settled_at"]) == ("standing", None)
    again = desk.request("POST", "/api/reports", json=new).json()
    assert again["report"] == kept["report"], "the same said twice is one report"
    settled = desk.request(
        "POST", f"/api/reports/{kept['report']}/settle", json={"who": "L. Heron", "why": "It is right"}
    ).json()
    assert settled["settled_by"] == "L. Heron"
    assert desk.request("POST", "/api/reports", json={**new, "more": 1}).status_code == 400


def test_one_device_cannot_flood_the_desk(desk, own_manual):
    statuses = [
        desk.request(
            "POST", "/reports", data={**WRONG, "publication": own_manual, "said": f"Wrong {number}"}
        ).status_code
        for number in range(MOST_IN_TIME + 1)
    ]
    assert statuses == [303] * MOST_IN_TIME + [429]


def test_a_page_takes_no_endless_number_of_open_reports(shelf, own_manual):
    catalogue = shelf[0].catalogue
    for number in range(MOST_OPEN_ON_PAGE):
        tag_reports.report(catalogue, own_manual, 1, ReportedTag.TEXT, f"Wrong {number}")
    with pytest.raises(EntryRefused, match="too many reports of this page"):
        tag_reports.report(catalogue, own_manual, 1, ReportedTag.TEXT, "One more")
    tag_reports.report(catalogue, own_manual, 2, ReportedTag.TEXT, "Another page")
    with pytest.raises(ReportUnknown):
        tag_reports.settle(catalogue, 999, "L. Heron", "No such")


def test_what_readers_type_is_shown_as_text(desk, own_manual):
    said = '<img src=x onerror="alert(1)">'
    desk.request("POST", "/reports", data={**WRONG, "publication": own_manual, "said": said})
    for address in ("/reports", f"/publications/{own_manual}/pages/1"):
        page = desk.get(address).text
        assert "<img src=x" not in page and "&lt;img src=x" in page
