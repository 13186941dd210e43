"""Worker processes: what they are given, when they give way, and how they end."""

import os
import threading
from dataclasses import dataclass
from pathlib import Path

import pytest
import working

from indexer.settings import Settings
from indexer.workers import Workers

SETTINGS = Settings(workers=2, worker_memory_mb=800)


@dataclass(frozen=True)
class Item:
    path: Path
    given: tuple = ()


def test_an_item_may_bring_something_beside_its_path(tmp_path):
    items = [Item(tmp_path, (number, "times")) for number in range(5)] + [Item(tmp_path)]
    with Workers(SETTINGS, tmp_path) as workers:
        results = [done.result for done in workers.each(working.tell, items)]
    assert sorted(results) == [(), *((number, "times") for number in range(5))]


@pytest.mark.skipif(not hasattr(os, "nice"), reason="the system knows no niceness")
@pytest.mark.parametrize("niceness", [0, 10])
def test_workers_give_way_when_told_to(tmp_path, niceness):
    with Workers(SETTINGS, tmp_path, niceness=niceness) as workers:
        (done,) = workers.each(working.niceness, [Item(tmp_path)])
    assert done.result == min(os.nice(0) + niceness, 19)


@dataclass(frozen=True)
class LongItem(Item):
    times_longer: float = 200.0


def test_a_longer_file_may_take_longer_and_is_told_its_own_limit(tmp_path):
    with Workers(SETTINGS, tmp_path, time_limit_s=0.3) as workers:
        items = [Item(tmp_path, (1.5,)), LongItem(tmp_path, (1.5,)), LongItem(tmp_path, (99.0,), 2.0)]
        by_item = {done.item: done for done in workers.each(working.sleep, items)}
    short, long, too_long = (by_item[item] for item in items)
    assert (short.problem.slug, long.problem, too_long.problem.slug) == (
        "reading-too-slow", None, "reading-too-slow",
    )  # fmt: skip
    assert "more than 0.3 seconds" in short.problem.what
    assert "more than 0.6 seconds" in too_long.problem.what


def test_items_are_drawn_when_a_worker_is_free_for_them(tmp_path):
    drawn = []

    def items():
        for number in range(6):
            drawn.append(number)
            yield Item(tmp_path, (number,))

    with Workers(SETTINGS, tmp_path, number=1, waiting=0) as workers:
        for count, _ in enumerate(workers.each(working.tell, items()), 1):
            assert len(drawn) == count


def test_it_ends_when_it_is_stopped_though_an_item_never_does(tmp_path):
    stop = threading.Event()
    threading.Timer(0.1, stop.set).start()
    with Workers(SETTINGS, tmp_path) as workers:
        assert list(workers.each(working.hang, [Item(tmp_path)], stop.is_set)) == []
    assert stop.is_set()


def test_problems_of_ours_cross_whole_and_others_are_worded(tmp_path):
    with Workers(SETTINGS, tmp_path) as workers:
        problems = {
            done.problem.slug
            for done in workers.each(working.fail, [Item(tmp_path, (1,)), Item(tmp_path, (2,))])
        }
    assert problems == {"page-not-read", "reading-crashed"}
