"""Whatever is asked wrongly is answered in one shape: what happened, and what to do."""

import json
import shutil
import sqlite3

import pytest
from asking import Client
from click.testing import CliRunner

from indexer.library.database import FILE_NAME
from indexer.settings import Settings
from server.app import create_app
from server.cli import main
from server.opened import OpenedLibrary

BAD_QUESTIONS = [
    ("q=brake&chapter=99x", ["brake", "--chapter", "99x"], "unknown-chapter", "99x", "32-41"),
    (
        "q=brake&type=cookbook",
        ["brake", "--type", "cookbook"],
        "unknown-type",
        "cookbook",
        "service-bulletin",
    ),
    ("q=brake&standing=fine", ["brake", "--standing", "fine"], "unknown-standing", "fine", "approved"),
    ("q=%22master", ['"master'], "unclosed-quote", '"master', "Close the quote"),
    ("q=the+of", ["the", "of"], "nothing-to-search-for", "the of", "Add a word"),
    ("q=-brake", ["--", "-brake"], "query-problem", "-brake", "Add a word"),
    (
        "chapter=32&chapter=24-30",
        ["--chapter", "32", "--chapter", "24-30"],
        "query-problem",
        "together",
        "sections",
    ),
]


@pytest.mark.parametrize(("address", "words", "slug", "what", "remedy"), BAD_QUESTIONS)
def test_a_question_that_cannot_be_answered(sample_client, sample_folder, address, words, slug, what, remedy):
    error = sample_client.get(f"/api/search?{address}")
    assert error.status_code == 400
    assert error.json() == {
        "error": {"slug": slug, **{key: error.json()["error"][key] for key in ("what", "remedy")}}
    }
    assert what in error.json()["error"]["what"] and remedy in error.json()["error"]["remedy"]

    page = sample_client.get(f"/?{address}")
    assert page.status_code == 400
    assert remedy in page.text and 'name="q"' in page.text, "the reader can correct it at once"

    command = CliRunner().invoke(main, ["search", "--library", str(sample_folder), *words])
    assert command.exit_code == 2
    assert what in command.stderr and remedy in command.stderr
    assert "Traceback" not in command.stderr and not command.stdout


def test_an_empty_search_is_the_start_page_and_an_error_of_the_api(client):
    assert client.get("/?q=").status_code == 200
    assert client.get("/api/search").json()["error"]["slug"] == "query-problem"


@pytest.mark.parametrize(
    ("address", "status", "slug"),
    [
        ("/api/nothing-here", 404, "no-such-address"),
        ("/api/publications/nobody", 404, "publication-unknown"),
        ("/api/publications/{manual}/pages/99", 404, "page-unknown"),
        ("/api/publications/{manual}/pages/99/boxes", 404, "page-unknown"),
        ("/api/publications/{manual}/pages/0", 400, "bad-request"),
        ("/api/publications/{manual}/pages/two", 400, "bad-request"),
        ("/api/publications/{manual}/pages/1?dpi=100000", 400, "bad-request"),
        ("/api/passages/nothing", 404, "passage-unknown"),
        ("/api/search?q=brake&limit=-1", 400, "bad-request"),
        ("/api/search?q=brake&publication=nobody", 404, "publication-unknown"),
        (f"/api/search?q={'x' * 501}", 400, "bad-request"),
    ],
)
def test_every_failing_address_has_the_one_shape(client, ids, address, status, slug):
    response = client.get(address.format(**ids))
    assert response.status_code == status
    assert set(response.json()) == {"error"}
    error = response.json()["error"]
    assert set(error) == {"slug", "what", "remedy"}
    assert error["slug"] == slug and error["what"] and error["remedy"]


@pytest.mark.parametrize(
    ("address", "status"),
    [
        ("/nothing-here", 404),
        ("/publications/nobody", 404),
        ("/publications/{manual}/pages/99", 404),
        ("/publications/{manual}/pages/0", 400),
        ("/static/nothing.css", 404),
    ],
)
def test_a_page_that_fails_says_what_to_do(client, ids, address, status):
    response = client.get(address.format(**ids))
    assert response.status_code == status
    assert response.headers["content-type"].startswith("text/html")
    assert 'role="alert"' in response.text and "To the search" in response.text


def test_only_reading_is_answered(client):
    response = client.request("POST", "/api/search")
    assert response.status_code == 405
    assert response.json()["error"]["slug"] == "method-not-allowed"


def test_a_failure_of_ours_shows_no_inside(library, monkeypatch):
    def broken(*_):
        raise RuntimeError("secret inside")

    monkeypatch.setattr(OpenedLibrary, "reading", broken)
    response = Client(create_app(library, Settings())).get("/api/status")
    assert response.status_code == 500
    assert response.json()["error"]["slug"] == "internal-error"
    assert "secret" not in response.text


@pytest.mark.parametrize("address", ["/api/status", "/status", "/nothing-here"])
def test_an_answer_to_our_own_failure_bears_what_every_answer_bears(library, monkeypatch, address):
    """A page of a failure is a page: it is no more free to load, to be framed or to be kept than another."""
    app = create_app(library, Settings())
    usual = Client(app).get(address).headers

    def broken(*_, **__):
        raise RuntimeError("secret inside")

    monkeypatch.setattr(OpenedLibrary, "reading", broken)
    monkeypatch.setattr("server.routes.problems.hand_of_failure", broken)
    failed = Client(app).get(address)
    assert failed.status_code == 500
    own = {"content-type", "content-length", "content-encoding", "vary", "etag", "library-state"}
    missing = {
        name: usual[name] for name in usual if name not in own and failed.headers.get(name) != usual[name]
    }
    assert missing == {} and failed.headers["cache-control"] == "no-store"
    assert "content-security-policy" in usual


@pytest.fixture
def copied(made, tmp_path):
    """The small library's folder, to be spoiled."""
    folder, _ = made
    shutil.copytree(folder, tmp_path / "library", ignore=shutil.ignore_patterns("cache", "index"))
    return tmp_path / "library"


def everything_in(folder):
    return {
        path.relative_to(folder): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and not path.name.endswith(("-shm", "-wal"))
    }


def test_a_library_of_a_newer_version_is_left_alone(copied):
    with sqlite3.connect(copied / FILE_NAME) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("PRAGMA user_version = 999")
    connection.close()
    before = everything_in(copied)
    for arguments in (["search", "brake"], ["status"], ["serve", "--port", "0"], ["show", "SB 32-0012"]):
        command = CliRunner().invoke(main, [*arguments, "--library", str(copied)])
        assert command.exit_code == 2, arguments
        assert "newer Hangarleaf" in command.stderr and "has not been changed" in command.stderr
    assert everything_in(copied) == before


def test_a_damaged_library_is_said_so(copied):
    (copied / FILE_NAME).write_bytes(b"no catalogue" * 100)
    command = CliRunner().invoke(main, ["search", "brake", "--library", str(copied)])
    assert command.exit_code == 2
    assert "cannot be read" in command.stderr and "backup" in command.stderr


def test_a_library_that_is_not_there_is_not_made_by_asking(tmp_path):
    command = CliRunner().invoke(main, ["search", "brake", "--library", str(tmp_path / "none")])
    assert command.exit_code == 2
    assert "no library here yet" in command.stderr and "hangarleaf ingest" in command.stderr
    assert not (tmp_path / "none").exists()


def test_a_hostile_page_gives_an_error_and_the_service_goes_on(copied):
    with OpenedLibrary.open(copied, Settings()) as library:
        client = Client(create_app(library, Settings()))
        record = next(each for each in library.catalogue.publications() if each.file == "sb-32-0012.pdf")
        library.catalogue.copy_file(record.copy_id).write_bytes(b"%PDF-1.7 and then nothing of the kind")
        response = client.get(f"/api/publications/{record.id}/pages/1")
        assert response.status_code == 502
        assert response.json()["error"]["slug"] == "page-not-drawn"
        assert "sb-32-0012.pdf, PDF page 1" in response.json()["error"]["what"]
        assert client.get(f"/publications/{record.id}/pages/1?q=brake").status_code == 200
        other = next(each for each in library.catalogue.publications() if each.id != record.id)
        assert client.get(f"/api/publications/{other.id}/pages/1").headers["content-type"] == "image/jpeg"


def test_json_on_the_command_line_is_json_alone(sample_folder):
    command = CliRunner().invoke(main, ["search", "brake", "--json", "--library", str(sample_folder)])
    assert command.exit_code == 0
    assert json.loads(command.stdout)["total"] > 0
