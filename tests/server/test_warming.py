"""What searches need is worked out before they ask: at the start of the service, and after a change."""

import asyncio
import logging
import time

import pytest
from asking import Client

from indexer.library.shop_words import add_word
from indexer.settings import Settings
from server import not_current
from server.app import create_app
from server.warming import Warming


@pytest.fixture
def opened(shelf):
    return shelf[0]


@pytest.fixture
def worked_out(monkeypatch):
    """The generations for which it was worked out what is not current, each time it was."""
    generations = []
    work_out = not_current._not_current

    def noted(library, current):
        generations.append(library.catalogue.generation)
        return work_out(library, current)

    monkeypatch.setattr(not_current, "_not_current", noted)
    return generations


def change(library):
    before = library.catalogue.generation
    add_word(library.catalogue, "biscuit", ("brake lining",), "R. Quill")
    assert library.catalogue.generation > before
    assert library.catch_up()


def wait_until(what, seconds=60):
    """Looks again and again; a test that waits in vain fails."""
    end = time.monotonic() + seconds
    while not what():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(0.02)


def test_a_search_finds_it_worked_out(opened, worked_out):
    warming, client = Warming(opened), Client(create_app(opened, Settings()))
    warming.look()
    assert worked_out == [opened.catalogue.generation]
    assert "Current only" in client.get("/find?q=brake&begun=1").text
    warming.look()
    assert len(worked_out) == 1
    change(opened)
    warming.look()
    assert worked_out[1:] == [opened.catalogue.generation]
    assert "Current only" in client.get("/find?q=brake&begun=1").text
    assert len(worked_out) == 2


def test_nothing_is_worked_out_while_an_ingest_is_at_work(opened, worked_out, monkeypatch):
    warming = Warming(opened)
    monkeypatch.setattr(opened, "up_to_date", lambda: False)
    warming.look()
    assert not worked_out
    monkeypatch.undo()
    warming.look()
    assert warming.warmed


def test_the_service_does_it_from_its_start_to_its_end(opened):
    app = create_app(opened, Settings())
    app.state.warming = warming = Warming(opened, every_s=0.02)

    async def served():
        async with app.router.lifespan_context(app):
            wait_until(lambda: warming.warmed)
            change(opened)
            wait_until(lambda: warming.warmed[0] == opened.catalogue.generation)

    asyncio.run(served())
    assert not warming._thread.is_alive()


def test_what_goes_wrong_is_said_once_and_ends_nothing(opened, monkeypatch, caplog):
    def broken(library):
        raise OSError("the disk is gone")

    monkeypatch.setattr("server.warming.not_current", broken)
    warming = Warming(opened, every_s=0.01)
    with caplog.at_level(logging.ERROR):
        warming.start()
        wait_until(lambda: caplog.records)
        monkeypatch.undo()
        change(opened)  # a later state is tried again
        wait_until(lambda: warming.warmed)
        warming.stop()
    assert [each.getMessage() for each in caplog.records] == ["searches were not prepared for"]
