"""The front doors of the source check: CSV of entries, JSON API, command line. One answer behind all."""

import csv
import io
import json

import pytest
from click.testing import CliRunner

from server.cli import main
from server.sourcecheck import CheckRefused, check
from server.sourcecheck_batch import COLUMNS, check_csv, decoded

LINE = "IAW QZM-62-2 Rev 6, 32-42-00 pg 401"
QUOTED = f'"{LINE}"'  # as a CSV cell


def rows(text):
    return list(csv.DictReader(io.StringIO(text.lstrip("\ufeff"), newline="")))


# Many entries ----------------------------------------------------------------------------------------------


def test_every_citation_of_every_entry_has_a_row(samples):
    text = f'id,entry,work\nA,"{LINE}; C/W AD 2031-07-11",minor\nB,Cleaned parts.,\n'
    batch = check_csv(samples, text)
    found = rows(batch.text)
    assert (batch.entries, batch.findings, batch.problems) == (2, 2, ())
    assert [row["id"] for row in found] == ["A", "A", "B"]
    assert [row["number"] for row in found] == ["QZM-62-2", "2031-07-11", ""]
    assert "No source is cited" in found[2]["notes"] and found[0]["enough_minor"]
    assert all(row["caution"] and row["check"] for row in found)


def test_a_row_that_cannot_be_checked_is_named_and_the_others_go_on(samples):
    wrong = f"{QUOTED},great,,\nIAW MM,,3/4/31,\nIAW MM,,,N404XX\n"
    text = f"entry,work,date,aircraft\n,,,\n{wrong}IAW MM,minor,2031-06-01,\n"
    batch = check_csv(samples, text)
    found = rows(batch.text)
    assert batch.entries == 1 and len(found) == 4
    assert [problem.partition(":")[0] for problem in batch.problems] == ["Line 3", "Line 4", "Line 5"]
    assert [bool(row["problem"]) for row in found] == [True, True, True, False]
    assert "N404XX" in found[2]["problem"]


def test_what_stands_for_rows_that_do_not_say(samples):
    found = rows(check_csv(samples, "text\nIAW MM\n", work="inspection").text)
    assert found[0]["work"] == "inspection" and found[0]["enough_inspection"] == "cannot tell"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no column"),
        ("a,b\n1,2\n", "no column"),
        ("entry\n", "holds no entry"),
        ("entry,entry\nx,y\n", "two columns"),
        ('entry\n"open', "not CSV"),
    ],
)
def test_a_csv_that_cannot_be_read_says_why_and_nothing_is_kept(samples, text, words):
    with pytest.raises(CheckRefused, match=words):
        check_csv(samples, text)


def test_a_cell_that_a_spreadsheet_would_run_is_set_off(samples):
    """Common practice, no source; the same as for the CSV of a system."""
    found = rows(check_csv(samples, 'id,entry\n=1+1,"=HYPERLINK(""x"") IAW MM"\n').text)
    assert found[0]["id"].startswith("'=") and found[0]["entry"].startswith("'=")


def test_the_columns_are_the_same_in_every_row(samples):
    text = check_csv(samples, f"entry\n{QUOTED}\n").text
    assert tuple(rows(text)[0]) == (*COLUMNS, "caution")


def test_what_is_not_utf_8_is_refused():
    assert decoded("\ufeffentry".encode(), "x") == "entry"
    with pytest.raises(CheckRefused, match="UTF-8"):
        decoded(b"\xff\xfe\x00", "entries.csv")


# The JSON API ----------------------------------------------------------------------------------------------


def test_the_api_gives_the_answer_of_the_check_and_keeps_it(samples, sample_client):
    answer = sample_client.get("/api/check", params={"text": LINE, "work": "minor"})
    assert answer.status_code == 200
    given = answer.json()
    expected = check(samples, LINE, work="minor", keep=False).fields()
    assert given["citations"] == json.loads(json.dumps(expected["citations"]))
    assert sample_client.get(f"/api/checks/{given['id']}").json() == given
    assert sample_client.get("/api/checks", params={"limit": 1}).json()["checks"][0]["id"] == given["id"]
    assert sample_client.get(f"/api/checks/{given['id']}/again").json()["differences"] == []


def test_the_finding_has_the_fields_that_others_build_on(sample_client):
    finding = sample_client.get("/api/check", params={"text": LINE}).json()["citations"][0]
    assert set(finding) >= {
        *(
            "text",
            "kind",
            "type",
            "number",
            "revision",
            "date",
            "chapter_number",
            "page",
            "figure",
            "paragraph",
        ),
        *(
            "resolved",
            "candidates",
            "current",
            "applies",
            "standing",
            "directives",
            "enough",
            "ask",
            "missing",
        ),
        *("notes", "wording"),
    }
    assert set(finding["resolved"]) >= {"publication", "revision", "pdf_pages"}
    assert set(finding["current"]) >= {"state", "why"} and set(finding["applies"]) >= {"answer", "why"}
    assert set(finding["standing"]) >= {"value", "usual", "scope", "basis", "quote", "pdf_page", "conditions"}
    assert set(finding["enough"]) == {"minor", "major"}
    assert all(set(each) == {"answer", "why"} for each in finding["enough"].values())


def test_a_long_entry_is_posted(sample_client):
    sent = {"text": LINE, "work": "directive", "on": "2031-06-01"}
    answer = sample_client.request("POST", "/api/check", json=sent)
    assert answer.status_code == 200
    assert answer.json()["on"] == "2031-06-01" and "directive" in answer.json()["citations"][0]["enough"]


def test_many_entries_are_posted_as_csv(sample_client):
    answer = sample_client.request("POST", "/api/check/batch", content=f"entry\n{QUOTED}\n".encode())
    assert answer.status_code == 200 and answer.headers["content-type"].startswith("text/csv")
    assert rows(answer.content.decode("utf-8"))[0]["document"].startswith("QZM-62-2")


@pytest.mark.parametrize(
    ("address", "more", "status", "slug"),
    [
        ("/api/check", {"text": " "}, 400, "check-refused"),
        ("/api/check", {"text": "IAW MM", "work": "great"}, 400, "check-refused"),
        ("/api/check", {"text": "IAW MM", "on": "June"}, 400, "check-refused"),
        ("/api/check", {"text": "IAW MM", "aircraft": "N404XX"}, 404, "aircraft-unknown"),
        ("/api/checks/999999", {}, 404, "check-unknown"),
        ("/api/checks/0", {}, 400, "bad-request"),
    ],
)
def test_what_cannot_be_answered_has_the_one_shape(sample_client, address, more, status, slug):
    answer = sample_client.get(address, params=more)
    assert (answer.status_code, answer.json()["error"]["slug"]) == (status, slug)
    assert answer.json()["error"]["remedy"]


@pytest.mark.parametrize("method", ["GET", "POST"])
def test_another_sites_page_cannot_fill_the_trail(sample_client, method):
    more = {"json": {"text": LINE}} if method == "POST" else {"params": {"text": LINE}}
    sent = {"headers": {"Origin": "https://elsewhere.example", "Sec-Fetch-Site": "cross-site"}, **more}
    answer = sample_client.request(method, "/api/check", **sent)
    assert (answer.status_code, answer.json()["error"]["slug"]) == (403, "foreign-origin")


# The command -----------------------------------------------------------------------------------------------


def run(folder, *arguments):
    return CliRunner().invoke(main, [*arguments, "--library", str(folder)])


def test_the_command_prints_a_finding_with_its_proof_and_the_cautions(sample_folder):
    told = run(sample_folder, "check", LINE, "--work", "minor").output
    for words in (
        "QZM-62-2",
        "revision 6",
        "PDF page 35",
        "Standing",
        "MAINTENANCE MANUAL",
        "For minor",
        "It approves no",
    ):
        assert words in told


def test_the_command_gives_the_json_of_the_api(sample_folder, samples):
    told = json.loads(run(sample_folder, "check", LINE, "--json").stdout)
    assert told["citations"] == json.loads(json.dumps(check(samples, LINE, keep=False).fields()["citations"]))
    again = json.loads(run(sample_folder, "checks", "again", str(told["id"]), "--json").stdout)
    assert again["kept"] == told and again["differences"] == []
    assert json.loads(run(sample_folder, "checks", "show", str(told["id"]), "--json").stdout) == told
    assert f"{told['id']:>6}" in run(sample_folder, "checks", "--limit", "1").stdout


def test_the_command_reads_files_and_writes_findings(sample_folder, tmp_path):
    (tmp_path / "entry.txt").write_text(LINE, encoding="utf-8")
    assert "QZM-62-2" in run(sample_folder, "check", "--file", str(tmp_path / "entry.txt")).output
    (tmp_path / "many.csv").write_text(f"entry\n{QUOTED}\n", encoding="utf-8")
    out = tmp_path / "findings.csv"
    run(sample_folder, "check", "--csv", str(tmp_path / "many.csv"), "--out", str(out))
    assert rows(out.read_text(encoding="utf-8"))[0]["document"].startswith("QZM-62-2")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("check",), "Give the entry's words"),
        (("check", "IAW MM", "--csv", "x.csv"), "Give the entry's words"),
        (("check", "IAW MM", "--out", "x.csv"), "--out goes with --csv"),
        (("check", "--file", "gone.txt"), "gone.txt"),
        (("check", "IAW MM", "--work", "great"), "no class of work"),
        (("checks", "show", "999999"), "999999"),
    ],
)
def test_the_command_says_what_is_wrong(sample_folder, arguments, words, capfd):
    with pytest.raises(SystemExit) as ended:
        main.main([*arguments, "--library", str(sample_folder)])
    assert ended.value.code == 2 and words in capfd.readouterr().err
