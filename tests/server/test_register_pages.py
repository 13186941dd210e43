"""The register and "what was effective on D": pages, JSON and commands give one answer."""

import csv
import datetime
import json
import re

import pytest
from asking import Client
from click.testing import CliRunner
from revision_shelf import WHEELS, Manual, take_temporary

from indexer.library.catalogue import Catalogue
from indexer.library.register import DIRECTIVE_LIST
from indexer.library.relations import relate
from indexer.settings import Settings
from server.app import create_app
from server.cli import main
from server.demo import SAMPLES
from server.opened import OpenedLibrary
from server.routes import register_pages

PAGES = [(WHEELS, "401", "2025-03-14"), (WHEELS, "402", "2021-06-02")]
TODAY = datetime.date.today()
CHECK = {"source": "Maker's list", "who": "L. Onda", "revision": "6", "date": "2025-03-14"}


@pytest.fixture
def shop(tmp_path):
    (tmp_path / "files").mkdir()
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        manual = Manual("6", "2025-03-14", PAGES).take(catalogue, tmp_path / "files")
        take_temporary(catalogue, tmp_path / "files", "32-07", "2025-06-30", (WHEELS, "402"))
        relate(catalogue)
    with OpenedLibrary.open(tmp_path / "library", Settings(recheck_days=45)) as opened:
        yield opened, manual


@pytest.fixture
def web(shop):
    return Client(create_app(shop[0], Settings(recheck_days=45)))


def check(web, publication="D4410-1", **more):
    return web.request("POST", "/api/register", json={"publication": publication, **CHECK, **more})


def days_ago(days):
    return (TODAY - datetime.timedelta(days)).isoformat()


def test_a_check_by_json_makes_the_manual_current_and_says_why(shop, web):
    kept = check(web).json()
    assert kept["state"] == "stands" and kept["recheck_days"] == 45
    assert kept["held"][0]["current"]["state"] == "current as checked"
    answer = web.get("/api/register").json()
    assert [each["id"] for each in answer["checks"]] == [kept["id"]]
    assert answer["overdue"] == []
    assert [each["name"] for each in answer["never_checked"]] == ["TR 32-07"]


def test_an_overdue_check_stands_first_and_changes_the_finding(shop, web):
    check(web, checked_on=days_ago(45))
    answer = web.get("/api/register").json()
    assert [each["state"] for each in answer["overdue"]] == ["overdue"]
    assert answer["overdue"][0]["held"][0]["current"]["state"] == "the check has expired"
    page = web.get("/register").text
    assert page.index(">Overdue<") < page.index("Review due") < page.index(">Record a check<")


def test_undone_and_earlier_checks_stay_readable(shop, web):
    first = check(web, revision="5", date="", checked_on=days_ago(20)).json()["id"]
    second = check(web).json()["id"]
    undone = web.request(
        "POST", f"/api/register/{second}/undo", json={"who": "B. Marsh", "why": "wrong manual"}
    )
    assert undone.json()["state"] == "taken back"
    states = {each["id"]: each["state"] for each in web.get("/api/register").json()["checks"]}
    assert states == {first: "stands", second: "taken back"}
    assert "Taken back by B. Marsh: wrong manual" in web.get("/register").text


@pytest.mark.parametrize(
    ("given", "what"),
    [
        ({"who": ""}, "no name"),
        ({"source": ""}, "no source"),
        ({"revision": "", "date": ""}, "neither revision nor date"),
        ({"checked_on": "2999-01-01"}, "has not come yet"),
        ({"checked_on": "yesterday"}, "no date"),
        ({"publication": "D9999"}, "no publication held here"),
        ({"publication": ""}, "no publication is named"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_is_kept(shop, web, given, what):
    answer = check(web, **given)
    assert answer.status_code == 400 and what in answer.json()["error"]["what"]
    assert web.get("/api/register").json()["checks"] == []
    shown = web.request("POST", "/register", data={"publication": "D4410-1", **CHECK, **given})
    assert shown.status_code == 400 and what in shown.text
    if given.get("source") != "":
        assert "Maker&#39;s list" in shown.text  # what was typed is still there


def test_the_form_records_and_comes_back_to_the_register(shop, web):
    answer = web.request("POST", "/register", data={"publication": shop[1], "recheck_days": "30", **CHECK})
    assert answer.status_code == 303 and answer.headers["location"].startswith("/register?done=Recorded")
    page = web.get(answer.headers["location"]).text
    assert "Current revision is 6 of 14 March 2025 per Maker&#39;s list" in page
    assert "Current as checked." in page
    (kept,) = web.get("/api/register").json()["checks"]
    back = web.request(
        "POST", "/register/undo", data={"check": kept["id"], "who": "B. Marsh", "why": "typed twice"}
    )
    assert back.status_code == 303


def test_csv_goes_out_and_is_taken_whole_or_not_at_all(shop, web):
    check(web)
    text = web.get("/register.csv").text
    assert web.get("/api/register.csv").text == text
    taken = web.request("POST", "/api/register/import", json={"csv": text, "who": "B. Marsh"}).json()
    assert (taken["added"], taken["already"]) == (0, 1)
    wrong = web.request(
        "POST", "/register/import", data={"csv": text + "D9,1,,S,2025-01-01,,,\n", "who": "B. Marsh"}
    )
    assert wrong.status_code == 400 and "Line 3" in wrong.text


def test_changes_are_taken_from_this_machine_only(shop, web):
    for address in ("/register", "/register/undo", "/register/import"):
        answer = web.request("POST", address, data=CHECK, headers={"sec-fetch-site": "cross-site"})
        assert answer.status_code == 403
    for address in ("/api/register", "/api/register/1/undo", "/api/register/import"):
        answer = web.request("POST", address, json={}, headers={"sec-fetch-site": "cross-site"})
        assert answer.status_code == 403


def test_what_was_effective_is_one_answer_for_page_json_and_command(shop, web, tmp_path):
    address = f"/publications/{shop[1]}/effective?on=2025-07-01"
    answer = web.get(f"/api{address}").json()
    assert answer["revision"]["revision"] == "6"
    pages = {each["printed_page"]: each for each in answer["pages"]}
    assert pages["402"]["answer"] == "effective" and pages["402"]["pdf_page"] == 3
    assert (
        pages["402"]["temporary"][0]["words"]
        == "TR 32-07 of 30 June 2025 was in force: read that page first."
    )
    page = web.get(address).text
    assert "What was effective on 1 July 2025?" in page and "TR 32-07 of 30 June 2025 was in force" in page
    library = ["--library", str(tmp_path / "library")]
    command = CliRunner().invoke(main, ["effective", "D4410-1", "--on", "2025-07-01", "--json", *library])
    assert json.loads(command.stdout) == answer
    words = CliRunner().invoke(main, ["effective", "D4410-1", "--on", "2025-07-01", *library]).stdout
    assert "was in force: read that page first" in words


def test_a_day_that_is_none_is_a_clear_error(shop, web):
    for address in ("/publications/{}/effective?on=2025-13-01", "/api/publications/{}/effective?on=soon"):
        answer = web.get(address.format(shop[1]))
        assert answer.status_code == 400 and "is no date" in answer.text
    assert web.get("/api/publications/nothing/effective?on=2025-01-01").status_code == 404


def test_the_command_records_lists_takes_back_and_writes(shop, tmp_path):
    library = ["--library", str(tmp_path / "library")]

    def run(*given):
        return CliRunner().invoke(main, ["register", *given, *library])

    kept = run("check", "D4410-1", "--revision", "6", "--source", "Maker's list", "--who", "L. Onda")
    assert "current revision is 6 per Maker's list" in kept.stdout and "stands; review due" in kept.stdout
    assert "current as checked" in run("list").stdout
    assert run("overdue").stdout == "No check is overdue.\n"
    run("export", str(tmp_path / "register.csv"))
    assert "0 were" not in run("import", str(tmp_path / "register.csv"), "--who", "B. Marsh").stdout
    number = re.match(r" *(\d+)", kept.stdout)[1]
    assert (
        "taken back by B. Marsh: wrong" in run("undo", number, "--who", "B. Marsh", "--why", "wrong").stdout
    )
    assert json.loads(run("overdue", "--json").stdout) == []
    assert run("check", "D4410-1", "--source", "x", "--who", "L. Onda").exit_code == 2


def test_overdue_checks_are_named_on_the_desk(shop, web):
    assert "overdue" not in web.get("/desk").text
    check(web, checked_on=days_ago(45))
    page = web.get("/desk").text
    assert 'href="/register#overdue"' in page and "1 check of the revision register is overdue" in page


def test_the_register_of_the_samples_names_publications_that_are_there():
    with (SAMPLES / "publications_truth.csv").open(encoding="utf-8", newline="") as file:
        numbers = {line["number"] for line in csv.DictReader(file)}
    with (SAMPLES / "register.csv").open(encoding="utf-8", newline="") as file:
        lines = list(csv.DictReader(file))
    assert {line["publication"] for line in lines} - numbers == {DIRECTIVE_LIST}
    ages = [int(line["days_ago"]) - int(line["recheck_days"]) for line in lines]
    assert sum(age >= 0 for age in ages) == 1  # one is overdue, whatever the day


def test_of_too_many_works_the_one_meant_is_named_in_words(shop, web, monkeypatch):
    library, manual = shop
    assert web.get("/register").text.count("<option value=") == 1 + 1 + 2  # none, the list, two works
    monkeypatch.setattr(register_pages, "_MOST_CHOICES", 1)
    page = web.get("/register").text
    assert '<input id="publication" name="publication"' in page and "<option" not in page
    one = web.get(f"/register?publication={manual}").text
    assert f'<option value="{manual}" selected>' in one and one.count("<option value=") == 1 + 1 + 1
    of_the_list = web.get(f"/register?publication={DIRECTIVE_LIST}").text
    assert f'<option value="{DIRECTIVE_LIST}" selected>' in of_the_list
    form = {"publication": "d4410-1", "checked_on": days_ago(0), "recheck_days": "45", **CHECK}
    done = web.request("POST", "/register", data=form, follow_redirects=False)
    assert done.status_code == 303
    refused = web.request("POST", "/register", data={**form, "publication": "D9999"})
    assert refused.status_code == 400 and 'value="D9999"' in refused.text
