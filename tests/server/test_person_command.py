"""hangarleaf person and hangarleaf tablet, and --who of every command that changes the library."""

import json

import pytest
from click.testing import CliRunner

from indexer.library import people, tablets
from indexer.library.catalogue import Catalogue
from server.cli import main

PASSCODE = "four sorts of rivet"


@pytest.fixture
def folder(tmp_path):
    Catalogue.open(tmp_path / "library", create=True).close()
    return tmp_path / "library"


@pytest.fixture
def run(folder):
    def running(*words, given=None):
        return CliRunner().invoke(main, [*words, "--library", str(folder)], input=given)

    return running


def test_a_person_is_named_by_a_prompt_that_shows_nothing(run, folder):
    answer = run("person", "add", "Rosa Quill", "--role", "librarian", given=f"{PASSCODE}\n{PASSCODE}\n")
    assert answer.exit_code == 0 and "Named: Rosa Quill, librarian" in answer.output
    assert PASSCODE not in answer.output
    with Catalogue.open(folder) as catalogue:
        assert people.with_passcode(catalogue, "Rosa Quill", PASSCODE)


def test_scripts_name_change_list_and_end(run, folder):
    assert "Nobody is named" in run("person", "list").output
    stdin = "--passcode-stdin"
    assert run("person", "add", "Ivo Brandt", "--role", "inspector", stdin, given=PASSCODE).exit_code == 2
    assert run("person", "add", "Rosa Quill", "--role", "librarian", stdin, given=PASSCODE).exit_code == 0
    assert run("person", "add", "Ivo Brandt", "--role", "inspector", stdin, given=PASSCODE).exit_code == 0
    short = run("person", "passcode", "Ivo Brandt", stdin, given="short\n")
    assert short.exit_code == 2 and "8 or more" in short.output
    assert run("person", "passcode", "Ivo Brandt", stdin, given="another hydraulic tale\n").exit_code == 0
    assert run("person", "end", "Ivo Brandt", "--who", "Rosa Quill").exit_code == 0
    listed = json.loads(run("person", "list", "--json").output)
    assert [(one["name"], one["role"], bool(one["ended_at"])) for one in listed] == [
        ("Rosa Quill", "librarian", False),
        ("Ivo Brandt", "inspector", True),
    ]
    unknown = run("person", "end", "Nobody")
    assert unknown.exit_code == 2 and "none of the persons named" in unknown.output


def test_tablets_are_listed_and_ended_and_the_code_changed(run, folder):
    code = run("tablet", "code").output.strip()
    assert run("tablet", "code").output.strip() == code
    with Catalogue.open(folder) as catalogue:
        token = tablets.join(catalogue, code, "Tablet at bay 2")
    assert "1  Tablet at bay 2" in run("tablet", "list").output
    assert json.loads(run("tablet", "list", "--json").output)[0]["name"] == "Tablet at bay 2"
    assert run("tablet", "code", "--end-all").exit_code == 2
    assert run("tablet", "code", "--new").output.strip() != code
    with Catalogue.open(folder) as catalogue:
        assert tablets.joined(catalogue, token)
    assert run("tablet", "end", "1").exit_code == 0 and run("tablet", "end", "1").exit_code == 2
    with Catalogue.open(folder) as catalogue:
        assert tablets.joined(catalogue, token) is None


def test_who_must_be_a_person_once_persons_are_named(run, folder):
    def add(word, who):
        return run("words", "add", word, "rubber shock disc", "--who", who)

    assert add("donut", "Anybody").exit_code == 0
    with Catalogue.open(folder) as catalogue:
        people.add(catalogue, "Rosa Quill", "librarian", PASSCODE, "Rosa Quill")
    for who in ("Anybody", "rosa quill", "R. Quill"):
        refused = add("biscuit", who)
        assert refused.exit_code == 2 and "hangarleaf person list" in refused.output, who
    assert add("biscuit", "Rosa Quill").exit_code == 0
