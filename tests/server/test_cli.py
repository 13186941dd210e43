"""The command line: what it prints, and the exit codes 0 (done), 1 (some files refused), 2 (usage)."""

import json
import shutil
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from server.cli import main
from server.routes import models

SAMPLES = Path(__file__).parents[2] / "sample_docs" / "pdf"
BULLETIN = SAMPLES / "sb-qz62-32-0114-rev-b.pdf"


def run(*arguments, library=None, environment=None):
    words = [str(each) for each in arguments] + (["--library", str(library)] if library else [])
    return CliRunner().invoke(main, words, env=environment or {})


def test_search_prints_hits_under_their_chapters(sample_folder):
    done = run("search", "tie", "bolt", library=sample_folder)
    assert done.exit_code == 0
    assert "passages found. Library state" in done.stdout
    assert "32 Landing gear (" in done.stdout
    more = run("search", "tie", "bolt", "--limit", "60", library=sample_folder).stdout
    assert "SB QZ62-32-0114" in more and "! Superseded by revision C" in more
    assert "Approved data. Printed" in done.stdout
    assert "no approval words found here" in run("search", "brake", library=sample_folder).stdout
    assert "Traceback" not in done.stderr


def test_search_takes_several_chapters_and_a_limit(sample_folder):
    arguments = ("search", "bolt", "--chapter", "32", "--chapter", "51", "--limit", "2", "--json")
    answer = json.loads(run(*arguments, library=sample_folder).stdout)
    models.SearchAnswer.model_validate(answer)
    assert {group["chapter"] for group in answer["groups"]} <= {"32", "51"}
    assert sum(len(group["hits"]) for group in answer["groups"]) == 2


def test_search_says_when_it_took_any_word(sample_folder):
    assert (
        "No passage holds all of these words"
        in run("search", "brake", "zeppelin", library=sample_folder).stdout
    )


def test_search_stays_within_a_publication_named_as_a_person_names_it(sample_folder):
    done = run("search", "bolt", "--publication", "QZM-62-2", "--json", library=sample_folder)
    answer = json.loads(done.stdout)
    assert {hit["publication"]["file"] for group in answer["groups"] for hit in group["hits"]} == {
        "qz62-maintenance-manual.pdf"
    }


@pytest.mark.parametrize(
    "name", ["QZM-62-2", "qzm 62 2", "qz62-maintenance-manual.pdf", "qz62-maintenance-manual"]
)
def test_show_finds_a_publication_by_any_of_its_names(sample_folder, name):
    done = run("show", name, "--json", library=sample_folder)
    assert done.exit_code == 0
    assert models.PublicationAnswer.model_validate_json(done.stdout).file == "qz62-maintenance-manual.pdf"
    by_id = run("show", json.loads(done.stdout)["id"], library=sample_folder)
    assert by_id.exit_code == 0 and "QZM-62-2" in by_id.stdout


def test_show_says_when_a_number_means_two(sample_folder):
    done = run("show", "QZ62-32-0114", library=sample_folder)
    assert done.exit_code == 2
    assert "2 publications" in done.stderr and "revision B" in done.stderr and "revision C" in done.stderr


def test_show_prints_a_page_with_its_passages(sample_folder):
    done = run("show", BULLETIN.name, "1", library=sample_folder)
    assert done.exit_code == 0
    assert "PDF page 1" in done.stdout and "FAA approved" in done.stdout
    models.PageAnswer.model_validate_json(
        run("show", BULLETIN.name, "1", "--json", library=sample_folder).stdout
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("show", "nobody"), "No publication «nobody»"),
        (("show", BULLETIN.name, "99"), "has no PDF page 99"),
        (("frobnicate",), "No such command"),
        (("search", "brake", "--limit", "many"), "not a valid integer"),
        (("ingest",), "Name a PDF file or a folder"),
    ],
)
def test_what_cannot_be_used_as_given_ends_with_2(sample_folder, arguments, said):
    library = sample_folder if arguments[0] in ("show", "search") else None
    done = run(*arguments, library=library)
    assert done.exit_code == 2
    assert said in done.stderr and not done.stdout


def test_the_library_may_come_from_the_environment(sample_folder):
    done = run("status", "--json", environment={"HANGARLEAF_LIBRARY": str(sample_folder)})
    assert done.exit_code == 0
    assert json.loads(done.stdout)["folder"] == str(sample_folder)


def test_a_setting_of_the_wrong_kind_is_said_so(sample_folder):
    done = run("status", library=sample_folder, environment={"HANGARLEAF_RENDER_DPI": "sharp"})
    assert done.exit_code == 2 and "HANGARLEAF_RENDER_DPI" in done.stderr


def test_status_prints_what_is_held(sample_folder):
    done = run("status", library=sample_folder)
    assert "publications: " in done.stdout and "search index: up to date" in done.stdout
    models.StatusAnswer.model_validate_json(run("status", "--json", library=sample_folder).stdout)


def test_tags_shows_every_passage_with_the_fields_of_a_search_hit(sample_folder):
    done = run("tags", BULLETIN, "--json")
    assert done.exit_code == 0
    passages = json.loads(done.stdout)
    for passage in passages:
        models.TaggedPassage.model_validate(passage)
    held = json.loads(run("show", BULLETIN.name, "1", "--json", library=sample_folder).stdout)["passages"]
    by_id = {passage["passage"]: passage for passage in passages}
    for passage in held:
        loose = by_id[passage["passage"]]
        assert loose["text"] == passage["text"] and loose["number"] == passage["number"]
    assert "number: ATA 32" in run("tags", BULLETIN).stdout


@pytest.mark.parametrize("name", ["missing.pdf", "words.pdf", "empty.pdf", "folder"])
def test_tags_of_what_is_no_pdf_ends_with_1(tmp_path, name):
    (tmp_path / "words.pdf").write_text("these are words")
    (tmp_path / "empty.pdf").touch()
    (tmp_path / "folder").mkdir()
    done = run("tags", tmp_path / name)
    assert done.exit_code == 1
    assert name in done.stderr and "Traceback" not in done.stderr and not done.stdout


def test_ingest_answers_a_program_too(tmp_path):
    shelf, library = tmp_path / "shelf", tmp_path / "library"
    shelf.mkdir()
    shutil.copy(BULLETIN, shelf / "good.pdf")
    (shelf / "bad.pdf").write_text("these are words")
    done = run("ingest", shelf, "--json", library=library)
    assert done.exit_code == 1
    answer = json.loads(done.stdout)
    (taken,), (refused,) = answer["taken"], answer["refused"]
    assert taken["path"].endswith("good.pdf") and taken["pages"] > 0
    assert refused["path"].endswith("bad.pdf") and refused["slug"] == "not-a-pdf" and refused["remedy"]
    again = json.loads(run("ingest", shelf / "good.pdf", "--json", library=library).stdout)
    assert again["taken"] == [] and len(again["already"]) == 1


def test_ingest_takes_the_good_and_names_the_bad(tmp_path):
    shelf, library = tmp_path / "shelf", tmp_path / "library"
    (shelf / "inner").mkdir(parents=True)
    shutil.copy(BULLETIN, shelf / "inner" / "good.pdf")
    (shelf / "bad.pdf").write_text("these are words")
    done = run("ingest", shelf, library=library)
    assert done.exit_code == 1
    assert "Taken: 1 file," in done.stdout and "Refused: 1 file." in done.stdout
    assert "bad.pdf: this is not a PDF file." in done.stderr and "Check the file" in done.stderr

    again = run("ingest", shelf / "inner", library=library)
    assert again.exit_code == 0 and "Already held: 1 file." in again.stdout
    status = json.loads(run("status", "--json", library=library).stdout)
    assert [each["slug"] for each in status["refused"]] == ["not-a-pdf"]
    assert "bad.pdf" in run("status", library=library).stdout

    shutil.rmtree(library / "index")
    rebuilt = run("ingest", "--rebuild-index", library=library)
    assert rebuilt.exit_code == 0 and "built anew" in rebuilt.stdout
    assert json.loads(run("search", "bolt", "--json", library=library).stdout)["total"] > 0
    whole = run("ingest", "--rebuild-index", library=library)
    assert whole.exit_code == 0
    assert json.loads(run("status", "--json", library=library).stdout)["library_state"]["up_to_date"] is True


def test_a_folder_without_pdfs_is_said_so_and_makes_no_library(tmp_path):
    (tmp_path / "shelf").mkdir()
    done = run("ingest", tmp_path / "shelf", library=tmp_path / "library")
    assert done.exit_code == 2
    assert "no PDF files found here" in done.stderr
    assert not (tmp_path / "library").exists()


def commands_of(group):
    """The words of each command, those of a group of commands among them."""
    for name, command in sorted(group.commands.items()):
        inner = list(commands_of(command)) if isinstance(command, click.Group) else [()]
        yield from ((name, *words) for words in inner)


@pytest.mark.parametrize("command", list(commands_of(main)), ids=" ".join)
def test_every_command_has_help(command):
    done = run(*command, "--help")
    assert done.exit_code == 0 and "--library" in done.stdout
