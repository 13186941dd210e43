"""The shop's map on its page, by command and in the JSON API: what it files, and what it refuses."""

from click.testing import CliRunner
from desk_shelf import WHO, chapters_found, of_section, post

from server.cli import main

HEAD = "publication,first,last,chapters,who,date,why\n"


def lines(desk):
    return desk.get("/api/map").json()


def test_a_section_is_mapped_changed_and_taken_out_again(desk, own_manual):
    answer = post(desk, "/map", publication=own_manual, map="V|32", **WHO)
    assert answer.status_code == 303
    (line,) = lines(desk)
    assert (line["publication"], line["first"], line["last"], line["chapters"]) == (
        "K-9 SM",
        "V",
        "V",
        ["32"],
    )
    assert (line["who"], line["why"]) == ("R. Quill", "Read on the page")
    assert chapters_found(desk, "zinnober") == ["32"]
    assert of_section(desk, "V") is None, "what the map files is not doubted"

    form = {"publication": own_manual, "save": "all", "chapters:V": "32; 12", "chapters:VI": "", **WHO}
    assert post(desk, "/map", **form).status_code == 303
    (line,) = lines(desk)
    assert line["chapters"] == ["32", "12"]

    gone = post(desk, "/map/remove", publication=own_manual, line=str(line["id"]), **WHO)
    assert gone.status_code == 303 and not lines(desk)
    assert chapters_found(desk, "zinnober") == [None]


def test_the_page_lists_the_sections_with_pages_and_what_is_worked_out(desk, own_manual):
    assert f"/map?publication={own_manual}" in desk.get("/map").text
    page = desk.get(f"/map?publication={own_manual}").text
    assert "Section V" in page and "PDF pages 2 to 3" in page and "Map to 32 Landing gear" in page
    sections = desk.get(f"/api/map/sections?publication={own_manual}").json()["sections"]
    assert [(each["number"], each["passages"], each["not_numbered"]) for each in sections] == [
        ("V", 3, 1),
        ("VI", 1, 0),
    ]


def test_a_range_is_added_and_nonsense_is_refused_where_it_was_typed(desk, own_manual):
    given = {"publication": own_manual, "save": "range", **WHO}
    assert post(desk, "/map", first="V", last="VI", chapters="32", **given).status_code == 303
    bad = post(desk, "/map", first="VI", last="V", chapters="32", **given)
    assert bad.status_code == 400 and "comes before" in bad.text
    nothing = post(desk, "/map", publication=own_manual, save="all", **WHO)
    assert nothing.status_code == 400 and "nothing was changed" in nothing.text
    assert len(lines(desk)) == 1


def test_csv_with_one_bad_line_takes_nothing_and_names_the_line(desk):
    text = f"{HEAD}K-9 SM,V,,32,,,\nK-9 SM,VI,,99x,,,\n"
    answer = post(desk, "/map/import", csv=text, who="R. Quill")
    assert answer.status_code == 400 and "line 3" in answer.text and "99x" in answer.text
    assert "K-9 SM,V" in answer.text, "the list can be corrected where it was pasted"
    api = desk.request("POST", "/api/map/import", json={"csv": text, "who": "R. Quill"})
    assert api.status_code == 400 and "line 3" in api.json()["error"]["what"]
    assert not lines(desk)


def test_csv_goes_out_and_comes_back_the_same(desk, own_manual):
    post(desk, "/map", publication=own_manual, map="V|32", **WHO)
    out = desk.get("/map.csv")
    assert out.headers["content-type"].startswith("text/csv") and out.text == desk.get("/api/map.csv").text
    again = post(desk, "/map/import", csv=out.text, who="R. Quill")
    assert again.status_code == 303 and "0" not in again.headers["location"].partition("done=")[2][:1]
    assert len(lines(desk)) == 1


def test_the_command_keeps_the_same_map(desk, shelf, tmp_path):
    at = ["--library", str(shelf[0].folder)]

    def run(*arguments):
        return CliRunner().invoke(main, ["map", *arguments, *at])

    who = ["--who", "R. Quill", "--why", "contents page"]
    assert "Section V" in run("sections", "K-9 SM").stdout
    assert run("add", "K-9 SM", "V", "32", *who).exit_code == 0
    assert "section V: 32" in run("list").stdout
    assert chapters_found(desk, "zinnober") == ["32"]
    file = tmp_path / "map.csv"
    assert run("export", str(file)).exit_code == 0 and file.read_text().startswith(HEAD)
    assert run("remove", str(lines(desk)[0]["id"]), *who).exit_code == 0 and not lines(desk)
    assert run("import", str(file), "--who", "R. Quill").exit_code == 0 and len(lines(desk)) == 1
    file.write_text(f"{HEAD}K-9 SM,V,,no,,,\n")
    refused = run("import", str(file), "--who", "R. Quill")
    assert refused.exit_code == 2 and "line 2" in refused.stderr and len(lines(desk)) == 1
