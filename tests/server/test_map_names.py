"""Which manual a line of the shop's map speaks of: one work, whatever other manuals are held.

The manuals are our own fiction. That covers of the time often print "SERVICE MANUAL" or "SHOP MANUAL" and no
number is common practice, no source.
"""

import shlex
import shutil
from pathlib import Path

import asking
import pytest
from click.testing import CliRunner
from desk_shelf import WHO, chapters_found, post, worked_out
from small_library import tag, take

from indexer.library import shop_map
from indexer.library.catalogue import Catalogue
from indexer.library.map_names import Called, Names, names_of
from indexer.settings import Settings
from indexer.tagging.tags import Identity, TaggedPublication
from indexer.trade.publication_titles import says_kind_alone
from indexer.trade.publication_types import PublicationType
from server.app import create_app
from server.cli import main
from server.opened import OpenedLibrary
from server.shop_map_view import manuals_named, sections

README = Path(__file__).parent.parent.parent / "README.md"

HEAD = "publication,first,last,chapters\n"
SHOP = ("SHOP MANUAL", "Tollerby", ("WT-5",), "whinchat")
OTHER_SHOP = ("Shop Manual", "Pellworth", ("H-14",), "hedgeling")


def manual(title, maker, models, word, number=""):
    identity = Identity(
        tag(PublicationType.SERVICE_MANUAL, "x"),
        tag(number, "x") if number else None,
        tag(title, "x") if title else None,
        tag(maker, "x") if maker else None,
        tuple(tag(model, "x") for model in models),
        None,
        None,
    )
    passages = (worked_out(f"Set the {word} on the stand and look at it.", "", 0.0, "V", 0, 1),)
    return TaggedPublication(1, 1, identity, passages, ())


@pytest.fixture
def shelf(tmp_path):
    """Takes (name of the file, manual) pairs and gives a client of the library."""
    opened = []

    def make(*manuals):
        with Catalogue.open(tmp_path / "library", create=True) as catalogue:
            ids = [take(catalogue, tmp_path, name, manual(*said)) for name, said in manuals]
        library = OpenedLibrary.open(tmp_path / "library", Settings())
        opened.append(library)
        return asking.Client(create_app(library, Settings())), library, ids

    yield make
    for library in opened:
        library.close()


@pytest.mark.parametrize(
    ("title", "alone"),
    [
        ("SERVICE MANUAL", True),
        ("Shop Manual", True),
        ("PARTS LIST", True),
        ("Owner's Handbook", True),
        ("Maintenance and Overhaul Manual", True),
        ("H-14 Service Manual", False),
        ("Handbook of the Kestrel", False),
        ("SP118 SERVICE MANUAL", False),
        ("", False),
    ],
)
def test_a_title_that_tells_no_aircraft_from_another(title, alone):
    assert says_kind_alone(title) is alone


def test_a_title_that_any_manual_may_have_names_none(shelf):
    client, library, _ = shelf(("wt-5", SHOP), ("h-14", OTHER_SHOP))
    refused = post(client, "/map", publication="SHOP MANUAL", save="range", first="V", chapters="72", **WHO)
    assert refused.status_code == 400 and "2 publications" in refused.text and "WT-5" in refused.text
    text = f"{HEAD}SHOP MANUAL,V,,72\n"
    answer = client.request("POST", "/api/map/import", json={"csv": text, "who": "R. Quill"})
    assert answer.status_code == 400
    assert (
        "line 2" in answer.json()["error"]["what"] and "wt-5.pdf, h-14.pdf" in answer.json()["error"]["what"]
    )
    shop_map.add_row(library.catalogue, "SHOP MANUAL", "V", "", "72", "R. Quill", "an old line")
    library.catch_up()
    assert (chapters_found(client, "whinchat"), chapters_found(client, "hedgeling")) == ([None], [None])
    assert "files none" in client.get("/map").text


@pytest.mark.parametrize("name", ["wt-5.pdf", "wt-5", "WT-5 Shop Manual", "id"])
def test_a_line_files_the_manual_it_names_and_no_other(shelf, name):
    client, _, ids = shelf(("wt-5", SHOP), ("h-14", OTHER_SHOP))
    new = {"publication": ids[0] if name == "id" else name, "first": "V", "chapters": "72"}
    line = client.request("POST", "/api/map", json={**new, "who": "R. Quill", "why": "seen"}).json()
    assert line["publication"] == "wt-5.pdf"
    assert (chapters_found(client, "whinchat"), chapters_found(client, "hedgeling")) == (["72"], [None])
    sections = client.get(f"/api/map/sections?publication={new['publication']}").json()
    assert sections["publication"]["id"] == ids[0] and len(sections["lines"]) == 1
    assert client.get(f"/map?publication={new['publication']}").status_code == 200


def test_a_name_that_no_manual_has_is_refused_with_names_that_would_do(shelf):
    client, library, _ = shelf(
        ("wt-5", SHOP), ("k-9", ("Manual of the K-9", "Kestrel", (), "brake", "K-9 SM"))
    )
    at = ["--library", str(library.folder), "--who", "R. Quill", "--why", "seen"]
    for name in ("H-15 Service Manual", "SHOP MANUAL"):
        refused = CliRunner().invoke(main, ["map", "add", name, "V", "32", *at])
        assert refused.exit_code != 0 and "wt-5.pdf (SHOP MANUAL, WT-5)" in refused.stderr
    assert "K-9 SM" in CliRunner().invoke(main, ["map", "sections", "X", *at[:2]]).stderr
    assert client.get("/api/map/sections?publication=X").status_code == 404
    assert not shop_map.map_rows(library.catalogue)


def test_a_list_may_speak_of_manuals_that_are_not_held_yet(shelf):
    client, _, _ = shelf(("wt-5", SHOP))
    text = f"{HEAD}K-12,V,,32\nWT-5 Shop Manual,V,,72\nSP118 Service Manual,I,,24\n"
    answer = client.request("POST", "/api/map/import", json={"csv": text, "who": "R. Quill"}).json()
    assert answer == {"added": 3, "already": 0, "not_held": ["K-12", "SP118 Service Manual"]}
    assert client.get("/map").text.count("No manual held here has this name.") == 2
    assert [line["publication"] for line in client.get("/api/map").json()][1] == "wt-5.pdf"


@pytest.mark.parametrize(
    ("name", "one", "other", "meant"),
    [
        ("KM-12", ("", "Kestrel", (), "a", "KM-12"), ("", "Kestrel Aircraft Co.", (), "b", "KM-12"), 2),
        ("KM-12", ("", "Kestrel", (), "a", "KM-12"), ("", "Aldermoor", (), "b", "KM-12"), 0),
        ("SP118 Service Manual", ("SP118 SERVICE MANUAL", "", (), "a"), ("SERVICE MANUAL", "", (), "b"), 1),
        ("Brake Book", ("BRAKE BOOK", "Kestrel", (), "a"), ("Brake  Book", "", (), "b"), 2),
        ("Brake Book", ("BRAKE BOOK", "", ("H-14",), "a"), ("Brake Book", "", ("WT-5",), "b"), 0),
        ("Brake Book", ("BRAKE BOOK", "", (), "a", "B-1"), ("Brake Book", "", (), "b", "B-2"), 0),
        ("one", ("SHOP MANUAL", "", (), "a"), ("SHOP MANUAL", "", (), "b"), 1),
    ],
)
def test_a_name_means_every_revision_of_one_work_or_nothing(shelf, name, one, other, meant):
    _, library, _ = shelf(("one", one), ("other", other))
    assert len(names_of(library.every_publication()).reached(name)) == meant


def test_the_readmes_commands_map_the_sample_manual(sample_folder, tmp_path):
    folder = shutil.copytree(sample_folder, tmp_path / "library")
    lines = README.read_text(encoding="utf-8").splitlines()
    commands = [shlex.split(line)[1:] for line in lines if line.startswith("hangarleaf map ")]
    assert [command[1] for command in commands] == ["sections", "add"]
    for command in commands:
        done = CliRunner().invoke(main, [*command, "--library", str(folder)])
        assert done.exit_code == 0, done.output
    with OpenedLibrary.open(folder, Settings()) as library:
        (manual,) = manuals_named(library, "H-14 Service Manual")
        filed = {
            (str(passage.numbers[0].value), passage.numbers[0].evidence.rule)
            for passage in library.catalogue.passages_of(manual.id)
            if str(passage.numbers[-1].value if passage.numbers else "").startswith("5")
        }
    assert filed == {("32", "shop map")}


def test_a_section_is_named_as_printed_with_all_its_pages(samples, sample_client):
    """The pages and figures are those that the sample manual prints: section XIII goes on overleaf."""
    found = sections(samples, "h-14-service-manual.pdf")["sections"]
    pages = {each["number"]: (each["first_page"], each["last_page"]) for each in found}
    assert (pages["V"], pages["XIII"]) == ((7, 9), (12, 13))
    asked = sample_client.get("/api/desk?limit=500").json()["items"]
    asked_of = {item["section"]: (item["first_page"], item["last_page"]) for item in asked if item["section"]}
    assert asked_of.get("XIII") == (12, 13) and not any(name.isdigit() for name in asked_of)
    assert "Section XIII, PDF pages 12 to 13" in sample_client.get("/desk?cause=likely&limit=500").text


@pytest.mark.parametrize(("both_on_shelf", "reached"), [(False, ["a-1", "b-1"]), (True, [])])
def test_a_file_means_also_the_one_it_replaced_and_never_two_that_lie_side_by_side(both_on_shelf, reached):
    said = (PublicationType.SERVICE_MANUAL, "kestrel", "", "SHOP MANUAL", "shop.pdf", 1)
    older, newer = Called("a-1", "alone|a-1", *said, both_on_shelf), Called("b-1", "alone|b-1", *said, True)
    assert Names((older, newer), lambda _: ()).reached("shop.pdf") == reached


def test_a_book_bound_with_others_is_named_by_its_first_page():
    said = (PublicationType.SERVICE_MANUAL, "", "", "SHOP MANUAL", "bound.pdf")
    one, other = Called("a-1", "alone|a-1", *said, 1, True), Called("a-40", "alone|a-40", *said, 40, True)
    names = Names((one, other), lambda _: ())
    assert (names.reached("bound.pdf"), names.key(other)) == ([], "bound.pdf, PDF page 40")
    assert names.reached("bound.pdf, pdf page 40") == ["a-40"]
