"""The parts lists as JSON, as CSV files and as commands: one answer behind all doors.

CSV: RFC 4180 (CR LF, doubled quotes). Cells that a spreadsheet would run begin with = + - @, tab or carriage
return: OWASP, "CSV Injection".
"""

import csv
import io
import json

import parts_shelf
import pytest
from asking import Client
from click.testing import CliRunner

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.app import create_app
from server.cli import main
from server.csv_file import plain, safe
from server.opened import OpenedLibrary
from server.parts_batch import ANSWERS, MOST_LINES, PartListRefused, answer_list
from server.parts_csv import COLUMNS
from server.routes import models, parts_models


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("parts")
    ids = parts_shelf.make(place / "library", place / "files")
    with Catalogue.open(place / "library") as catalogue:
        fleet.add(catalogue, "QX-1AB", "QZ62", "R. Quill", "QZ-077")
    return place / "library", ids


@pytest.fixture(scope="module")
def library(folder):
    with OpenedLibrary.open(folder[0], Settings()) as opened:
        yield opened


@pytest.fixture(scope="module")
def web(library):
    return Client(create_app(library, Settings()))


@pytest.fixture
def ids(folder):
    return folder[1]


@pytest.fixture
def command(folder):
    return lambda *given: CliRunner().invoke(main, [*given, "--library", str(folder[0])])


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True))


def without_time(answer: dict) -> dict:
    return {**answer, "library_state": {**answer["library_state"], "shown_at": ""}}


@pytest.mark.parametrize(
    "asked",
    [
        {"q": "AN4-12A"},
        {"q": "brake lining", "aircraft": "QX-1AB"},
        {"q": "fig 14 item 7"},
        {"q": "QZ28-9999"},
        {"q": "QZ28-2210-3", "catalogue": "QZ62-IPC", "limit": 1},
        {"figure": "14", "item": "1A"},
    ],
)
def test_a_search_has_the_shape_that_is_described(web, asked):
    answer = web.get("/api/parts", params=asked)
    assert answer.status_code == 200
    parts_models.PartsAnswer.model_validate(answer.json())


@pytest.mark.parametrize("name", ["cat", "second", "scan"])
def test_a_row_and_a_figure_have_the_shape_that_is_described(web, ids, name):
    row = web.get(f"/api/parts/{ids[name]}-part-0", params={"aircraft": "qx-1ab"})
    answer = parts_models.PartAnswer.model_validate(row.json())
    assert answer.applies.answer in ("applies", "does not apply", "cannot tell") and answer.fleet
    figure = web.get(f"/api/figures/{ids[name]}-figure-0")
    parts_models.FigureAnswer.model_validate(figure.json())


def test_addresses_in_an_answer_lead_on(web, ids):
    row = web.get("/api/parts", params={"q": "QZ28-2230"}).json()["groups"][0]["rows"][0]
    assert web.get(f"/api{row['address']}").json()["id"] == row["id"]
    assert web.get(f"/api{row['figure']['address']}").json()["id"] == row["figure"]["id"]
    assert row["page_address"] == f"/publications/{row['publication']['id']}/pages/{row['pdf_page']}"


@pytest.mark.parametrize(
    ("address", "status", "slug"),
    [
        ("/api/parts/none-part-1", 404, "part-unknown"),
        ("/api/figures/none-figure-1", 404, "figure-unknown"),
        ("/api/figures/none-figure-1.csv", 404, "figure-unknown"),
        ("/api/parts?q=AN4&catalogue=none", 404, "publication-unknown"),
        ("/api/parts?q=AN4&aircraft=none", 404, "aircraft-unknown"),
        ("/api/parts", 400, "query-problem"),
        ("/api/parts?q=AN4&limit=100000", 400, "bad-request"),
        ('/api/parts?q="brake', 400, "unclosed-quote"),
    ],
)
def test_what_is_not_here_is_a_clear_error(web, address, status, slug):
    answer = web.get(address)
    models.ProblemAnswer.model_validate(answer.json())
    assert (answer.status_code, answer.json()["error"]["slug"]) == (status, slug)
    assert answer.json()["error"]["remedy"]


def test_the_command_and_the_api_give_one_answer(web, command, ids):
    asked = web.get("/api/parts", params={"q": "AN4-12A", "limit": 20}).json()
    assert without_time(json.loads(command("part", "AN4-12A", "--json").stdout)) == without_time(asked)
    row = f"{ids['cat']}-part-1"
    told = json.loads(command("part", row, "--aircraft", "QX-1AB", "--json").stdout)
    assert without_time(told) == without_time(web.get(f"/api/parts/{row}?aircraft=QX-1AB").json())
    figure = json.loads(command("figure", "WT-IPC", "14", "--json").stdout)
    assert without_time(figure) == without_time(web.get(f"/api/figures/{ids['second']}-figure-0").json())


def test_the_terminal_says_what_is_sure_what_is_not_and_the_caution(command, ids):
    text = command("part", "AN4-12A").stdout
    assert text.index("The same number: 4 rows") < text.index("written otherwise: 1 row")
    assert text.index("written otherwise: 1 row") < text.index("read by OCR: compare")
    assert "AN4-12 is another number: 2 rows." in text and "never proves by itself" in text
    row = command("part", f"{ids['cat']}-part-1", "--aircraft", "QX-1AB").stdout
    assert "Attaching parts (for one of it):" in row and "Applies to QX-1AB:" in row
    assert "Superseded by revision 4" in command("part", "AN4-12").stdout
    nothing = command("part", "ZZ-1").stdout
    assert "That does not mean there is no such part." in nothing


def test_a_figure_number_of_two_revisions_is_not_chosen_from(command, ids):
    answer = command("figure", "QZ62-IPC", "14")
    assert (
        answer.exit_code == 2 and f"{ids['cat']}-figure-0" in answer.stderr and "revision 3" in answer.stderr
    )
    assert command("figure", "QZ62-IPC", "99").exit_code == 2
    assert "Type one of these: 5-2 fig 14 (WHEEL)." in command("figure", "WT-IPC", "99").stderr
    for typed in (["5-2-14"], ["5-2"], ["fig", "14"]):
        assert command("figure", "WT-IPC", *typed).exit_code == 0, typed
    assert command("figure", f"{ids['cat']}-figure-0").exit_code == 0
    assert command("figure", "none", "1").exit_code == 2


# CSV -----------------------------------------------------------------------------------------------------


def test_a_figure_goes_out_as_csv_with_every_row_and_the_caution_in_each(web, command, ids, tmp_path):
    answer = web.get(f"/api/figures/{ids['cat']}-figure-0.csv?aircraft=QX-1AB")
    assert answer.headers["content-type"].startswith("text/csv")
    assert 'filename="figure-32-42-00-14.csv"' in answer.headers["content-disposition"]
    text = answer.content.decode("utf-8-sig")
    assert text.count("\r\n") == text.count("\n") == 10
    rows = rows_of(text)
    assert tuple(rows[0]) == COLUMNS and len(rows) == 9
    assert [row["part_number"] for row in rows][:3] == ["QZ28-2210-1", "QZ28-2210-2", "AN4-12A"]
    assert rows[5]["nomenclature"] == "BOLT, HEX HEAD" and rows[1]["illustrated"] == "no"
    assert rows[6]["could_not_be_read"] == "the part number could not be read"
    assert [rows[0]["applies"], rows[1]["applies"]] == ["does not apply", "applies"]
    assert all("never proves" in row["caution"] for row in rows)
    file = tmp_path / "figure.csv"
    assert command("figure", f"{ids['cat']}-figure-0", "--csv", str(file)).exit_code == 0
    written = rows_of(file.read_text(encoding="utf-8"))
    assert [row["part_number"] for row in written] == [row["part_number"] for row in rows]


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1"])
def test_what_a_spreadsheet_would_run_is_set_off_and_read_back(text):
    assert safe(text) == f"'{text}" and plain(safe(text)) == text


@pytest.mark.parametrize("text", ["AN4-12A", "'tis", "", "65-1", 4])
def test_all_else_goes_out_as_it_is(text):
    assert safe(text) == text


LIST = (
    "qty,part_number,job\n3,AN4-12A,brakes\n1,QZ28-2210-3,\n2,,x\n9,AN4-12A,tail\n1,NAS1-1,\n1,QZ28-9999,\n"
)


def test_each_number_of_a_list_is_answered_in_its_line(library):
    rows = rows_of(answer_list(library, LIST))
    assert [row["match"] for row in rows] == [
        "exact", "named", "problem", "exact", "not found", "number index only",
    ]  # fmt: skip
    assert [row["line"] for row in rows] == ["2", "3", "4", "5", "6", "7"]
    assert [row["job"] for row in rows] == ["brakes", "", "x", "tail", "", ""]
    first = rows[0]
    assert (first["rows"], first["figure"], first["item"], first["revision"]) == ("4", "14", "2", "4")
    assert first["listed_nomenclature"] == "BOLT" and first["superseded_publication"] == ""
    assert "AN4-12 is another number" in first["remarks"]
    assert rows[1]["listed_number"] == "" and "SUPSD BY" in rows[1]["remarks"]
    assert rows[3]["remarks"].startswith("Asked in line 2 as well.")
    assert rows[5]["figure"] == "16-3"


def test_superseded_numbers_and_the_aircraft_stand_in_the_line(library):
    (row,) = rows_of(answer_list(library, "QZ28-2210-1\n", "QX-1AB"))
    assert row["superseded_by"] == "QZ28-2210-3; WT-77" and "do not agree" in row["remarks"]
    assert row["applies"] == "does not apply" and "QZ-001 THRU QZ-060" in row["applies_why"]
    (scanned,) = rows_of(answer_list(library, "H14-33\n"))
    assert (
        scanned["match"] == "loose" and scanned["superseded_by"] == "" and "read by OCR" in scanned["remarks"]
    )


@pytest.mark.parametrize(
    ("text", "columns"),
    [
        ("P/N,qty\nAN4-12A,1\n", ["P/N", "qty"]),
        ("qty,Part Number\n1,AN4-12A\n", ["qty", "Part Number"]),
        ("AN4-12A,1\n", ["part_number", "column 2"]),  # no line of names
        ("what,qty\nAN4-12A,1\n", ["what", "qty"]),  # the first column
        ("\ufeffpart_number,item\r\nAN4-12A,1\r\n", ["part_number", "given item"]),  # our own name is taken
        ("part_number,x,x\nAN4-12A,1,2\n", ["part_number", "x", "x 3"]),
        ('"part_number"\n"AN4-12A"\n', ["part_number"]),
    ],
)
def test_the_numbers_are_found_in_their_column_and_the_others_are_carried(library, text, columns):
    (row,) = rows_of(answer_list(library, text))
    assert list(row) == [*columns, *ANSWERS] and row["match"] == "exact"


def test_a_line_that_cannot_be_read_says_so_and_those_before_it_are_answered(library):
    rows = rows_of(answer_list(library, 'part_number\nAN4-12A\nAN4-12A,1\n"AN4-12A\nAN4-12\n'))
    assert [row["match"] for row in rows] == ["exact", "problem", "problem"]
    assert "2 fields" in rows[1]["remarks"] and "not CSV" in rows[2]["remarks"]
    (long,) = rows_of(answer_list(library, "part_number\n" + "9" * 101))
    assert long["match"] == "problem"


def test_what_came_in_goes_out_safe(library):
    (row,) = rows_of(answer_list(library, "part_number,note\nAN4-12A,=HYPERLINK(1)\n"))
    assert row["note"] == "'=HYPERLINK(1)"


@pytest.mark.parametrize(
    "text",
    ["", "\n\n", "part_number,qty\n", "part_number\n" + "A-1\n" * (MOST_LINES + 1), "x" * 1_000_001, '"'],
)
def test_a_list_that_cannot_be_answered_is_refused_whole(library, text):
    with pytest.raises(PartListRefused) as problem:
        answer_list(library, text)
    assert problem.value.remedy


def test_the_longest_list_is_taken(library):
    text = "part_number\n" + "ZZ-1\n" * MOST_LINES
    assert len(rows_of(answer_list(library, text))) == MOST_LINES


def test_a_list_is_answered_by_post_and_by_command(web, command, tmp_path):
    sent = web.request("POST", "/api/parts/list", content=LIST.encode("utf-8"))
    assert sent.status_code == 200 and sent.content.startswith(b"\xef\xbb\xbf")
    file, out = tmp_path / "list.csv", tmp_path / "answers.csv"
    file.write_text(LIST, encoding="utf-8")
    assert command("part-list", str(file), "--csv", str(out)).exit_code == 0
    assert rows_of(out.read_text(encoding="utf-8")) == rows_of(sent.text)
    assert rows_of(command("part-list", str(file)).stdout) == rows_of(sent.text)
    for body in (b"", b"\xff\xfe1"):
        refused = web.request("POST", "/api/parts/list", content=body)
        assert (refused.status_code, refused.json()["error"]["slug"]) == (400, "part-list-refused")
    foreign = web.request(
        "POST", "/api/parts/list", content=b"A-1", headers={"origin": "http://other.example"}
    )
    assert foreign.status_code == 403
    assert command("part-list", str(tmp_path / "none.csv")).exit_code == 2
