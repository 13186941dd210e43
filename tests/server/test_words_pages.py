"""The shop's own list of words: page, JSON and command, and what a search makes of it."""

import json

import pytest
import small_library
from asking import Client
from click.testing import CliRunner
from plain_engine import PlainEngine

from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server.app import create_app
from server.cli import main
from server.opened import OpenedLibrary
from server.render import PagePictures
from server.routes import words_pages
from server.search import search


@pytest.fixture
def shop(tmp_path):
    """A library of its own, to be changed."""
    small_library.make(tmp_path / "library", tmp_path / "files")
    folder = tmp_path / "library"
    pictures = PagePictures(folder / "cache" / "pages", Settings())
    with OpenedLibrary(folder, Catalogue.open(folder), PlainEngine(), pictures) as opened:
        opened.catch_up()
        yield opened


@pytest.fixture
def web(shop):
    return Client(create_app(shop, Settings()))


def add(web, term="biscuit", manual_terms=("brake lining",), who="R. Quill", **more):
    sent = {"term": term, "manual_terms": list(manual_terms), "who": who, **more}
    return web.request("POST", "/api/words", json=sent)


def test_a_word_of_the_shop_is_looked_for_both_ways(shop, web):
    assert search(shop, "biscuit").total == 0
    assert add(web, note="what the old hands say").status_code == 200
    answer = search(shop, "biscuit").fields()
    assert answer["also_looked_for"] == [
        {"words": ["biscuit"], "others": ["brake lining"], "source": "shop list"}
    ]
    assert answer["total"] == search(shop, '"brake lining"').total > 0
    back = search(shop, "brake lining").fields()["also_looked_for"]
    assert {"words": ["brake", "lining"], "others": ["biscuit"], "source": "shop list"} in back
    assert search(shop, "biscuit", as_typed=True).total == 0


def test_the_list_keeps_who_and_when_and_the_history_keeps_what_was_taken_out(shop, web):
    word = add(web).json()
    words_pages.ShopWord.model_validate(word)
    listed = web.get("/api/words").json()
    words_pages.ShopWordList.model_validate(listed)
    assert [each["who"] for each in listed["words"]] == ["R. Quill"]
    gone = web.request(
        "POST", f"/api/words/{word['id']}/remove", json={"who": "A. Osei", "why": "nobody says it"}
    )
    assert gone.status_code == 200 and web.get("/api/words").json()["total"] == 0
    said = [entry.detail for entry in shop.catalogue.history() if entry.event.startswith("word")]
    assert (
        "R. Quill: biscuit = brake lining" in said[0] and "A. Osei" in said[1] and "nobody says it" in said[1]
    )


@pytest.mark.parametrize(
    ("address", "sent", "status"),
    [
        ("/api/words", {"term": "biscuit", "manual_terms": ["brake lining"], "who": " "}, 400),
        ("/api/words", {"term": "", "manual_terms": ["brake lining"], "who": "R. Quill"}, 400),
        ("/api/words", {"term": "biscuit", "manual_terms": [], "who": "R. Quill"}, 400),
        ("/api/words/7/remove", {"who": "R. Quill", "why": "gone"}, 404),
        ("/api/words/import", {"csv": "term,manual_terms\nbiscuit,\n", "who": "R. Quill"}, 400),
    ],
)
def test_what_is_not_complete_is_not_kept(web, address, sent, status):
    answer = web.request("POST", address, json=sent)
    assert answer.status_code == status, answer.text
    assert web.get("/api/words").json()["total"] == 0


def test_the_list_goes_out_as_csv_and_comes_back(web):
    add(web)
    add(web, "spats", ["wheel fairing", "wheel pant"])
    text = web.get("/words.csv").text
    for word in web.get("/api/words").json()["words"]:
        web.request("POST", f"/api/words/{word['id']}/remove", json={"who": "A. Osei", "why": "to test"})
    taken = web.request("POST", "/api/words/import", json={"csv": text, "who": "A. Osei"}).json()
    assert taken == {"added": 2, "already": 0, "problems": []}
    again = web.get("/api/words").json()["words"]
    assert [(word["term"], word["who"]) for word in again] == [("biscuit", "R. Quill"), ("spats", "R. Quill")]


def test_the_page_adds_and_takes_out(web):
    form = {"term": "biscuit", "manual_terms": "brake lining; brake puck", "who": "R. Quill", "note": ""}
    added = web.request("POST", "/words", data=form)
    assert added.status_code == 303 and "Added" in added.headers["location"]
    page = web.get("/words").text
    assert "<b>biscuit</b> = brake lining; brake puck" in page
    number = web.get("/api/words").json()["words"][0]["id"]
    gone = web.request("POST", "/words/remove", data={"word": number, "who": "R. Quill", "why": "wrong"})
    assert gone.status_code == 303
    assert "The list is empty." in web.get("/words").text


def test_the_page_says_what_is_wrong_and_keeps_what_was_typed(web):
    answer = web.request("POST", "/words", data={"term": "<b>biscuit", "manual_terms": "", "who": "R. Quill"})
    assert answer.status_code == 400
    assert "nothing is given" in answer.text and 'value="&lt;b&gt;biscuit"' in answer.text
    lines = web.request("POST", "/words/import", data={"csv": "term,manual_terms\nx,\n", "who": "R. Quill"})
    assert lines.status_code == 400 and "Line 2" in lines.text


def run(*arguments, library):
    return CliRunner().invoke(main, [*map(str, arguments), "--library", str(library)])


def test_the_command_keeps_the_list(tmp_path):
    small_library.make(tmp_path / "library", tmp_path / "files")
    library = tmp_path / "library"
    assert "The list is empty." in run("words", "list", library=library).stdout
    added = run("words", "add", "biscuit", "brake lining", "--who", "R. Quill", "--json", library=library)
    number = json.loads(added.stdout)["id"]
    assert "biscuit = brake lining" in run("words", "list", library=library).stdout
    assert run("words", "export", tmp_path / "words.csv", library=library).exit_code == 0
    removed = run("words", "remove", number, "--who", "A. Osei", "--why", "to test", library=library)
    assert removed.exit_code == 0
    done = run("words", "import", tmp_path / "words.csv", "--who", "A. Osei", library=library)
    assert done.exit_code == 0 and "1 added." in done.stdout
    assert json.loads(run("words", "list", "--json", library=library).stdout)["total"] == 1
    (tmp_path / "bad.csv").write_text("term,manual_terms\nx,\n")
    bad = run("words", "import", tmp_path / "bad.csv", "--who", "A. Osei", library=library)
    assert bad.exit_code == 2 and "Line 2" in bad.stderr
    assert run("words", "remove", 99, "--who", "A. Osei", "--why", "x", library=library).exit_code == 2
