"""Tablets: joined with the shop's code, seen, ended."""

import datetime

import pytest

from indexer.errors import HangarleafError
from indexer.library import tablets
from indexer.library.catalogue import Catalogue
from indexer.library.problems import CodeRefused


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def test_the_code_is_made_once_and_has_no_letters_that_are_taken_for_others(catalogue):
    code = tablets.shop_code(catalogue)
    assert tablets.shop_code(catalogue) == code
    assert len(code) == 9 and code[4] == "-" and not set(code) & set("01IO")
    assert len({tablets.change_code(catalogue, "Rosa Quill") for _ in range(50)}) == 50


def test_a_device_joins_with_the_code_however_it_is_typed(catalogue):
    code = tablets.shop_code(catalogue)
    for typed in (code, code.lower(), code.replace("-", ""), f" {code.replace('-', ' ')} "):
        token = tablets.join(catalogue, typed, "  Tablet  at bay 2 ")
        assert tablets.joined(catalogue, token).name == "Tablet at bay 2"
    assert tablets.joined(catalogue, tablets.join(catalogue, code, "")).name == "Tablet"
    with catalogue.reading() as connection:
        assert token not in str([tuple(row) for row in connection.execute("SELECT * FROM tablet")])


@pytest.mark.parametrize("wrong", ["", "-", "AAAA-AAAA", "\u00e9", "x" * 4000])
def test_another_code_is_refused(catalogue, wrong):
    with pytest.raises(CodeRefused):  # before there is any code
        tablets.join(catalogue, wrong, "Tablet")
    tablets.shop_code(catalogue)
    with pytest.raises(CodeRefused):
        tablets.join(catalogue, wrong, "Tablet")
    assert not tablets.tablets(catalogue)


def test_a_new_code_ends_no_tablet_unless_asked(catalogue):
    old = tablets.shop_code(catalogue)
    token = tablets.join(catalogue, old, "Tablet")
    new = tablets.change_code(catalogue, "Rosa Quill")
    assert tablets.joined(catalogue, token)
    with pytest.raises(CodeRefused):
        tablets.join(catalogue, old, "Tablet")
    other = tablets.join(catalogue, new, "Another")
    tablets.change_code(catalogue, "Rosa Quill", end_all=True)
    assert tablets.joined(catalogue, token) is None and tablets.joined(catalogue, other) is None


def test_an_ended_tablet_reads_no_more_and_stays_in_the_list(catalogue):
    token = tablets.join(catalogue, tablets.shop_code(catalogue), "Tablet")
    gone = tablets.end(catalogue, tablets.joined(catalogue, token).id, "Rosa Quill")
    assert gone.ended_at and tablets.joined(catalogue, token) is None
    assert [one.name for one in tablets.tablets(catalogue)] == ["Tablet"]
    with pytest.raises(HangarleafError):
        tablets.end(catalogue, gone.id, "Rosa Quill")
    assert catalogue.generation == 0
    assert [entry.event for entry in catalogue.history()] == [
        "shop's code changed",
        "tablet joined",
        "tablet ended",
    ]
    said = " ".join(entry.detail for entry in catalogue.history())
    assert tablets.shop_code(catalogue) not in said and token not in said


def test_a_tablet_is_noted_as_seen_now_and_then_and_never_waits(catalogue, tmp_path, monkeypatch):
    token = tablets.join(catalogue, tablets.shop_code(catalogue), "Tablet")
    here = tablets.joined(catalogue, token)
    assert not tablets.seen(catalogue, here), "just now"
    later = datetime.datetime.now(datetime.UTC) + datetime.timedelta(seconds=tablets.SEEN_EVERY_S + 1)
    monkeypatch.setattr("indexer.library.rows.now", lambda: later.isoformat(timespec="milliseconds"))
    with Catalogue.open(tmp_path / "library") as other, other.database.writing():
        assert not tablets.seen(catalogue, here), "a writer is at work, and nobody waits for it"
    assert tablets.seen(catalogue, here)
    assert tablets.joined(catalogue, token).last_seen > here.last_seen
