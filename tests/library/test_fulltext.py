"""What the engine promises (indexer/library/fulltext.py), on a shelf small enough to check by eye."""

import os
import subprocess
import sys
import threading
from dataclasses import replace
from pathlib import Path

import pytest

from indexer.errors import LibraryBusy, NothingToSearchFor
from indexer.library import index_files, whoosh_writer
from indexer.library.array_cache import ENTRY_BYTES
from indexer.library.fulltext import NOT_NUMBERED, Filters, FullTextQuery, IndexedPassage, NoIndex
from indexer.library.whoosh_engine import WhooshEngine

ROOT = Path(__file__).parent.parent.parent


def passage(
    passage_id, text, heading="", chapters=(), sections=(), type="maintenance-manual", standing="acceptable"
):
    publication = passage_id.split("-")[0]
    return IndexedPassage(passage_id, publication, heading, text, chapters, sections, type, standing)


SHELF = [
    passage("manual-1", "Remove the wheel and inspect the brake lining.", "Brakes", ("32",), ("32-41",)),
    passage("manual-2", "Bleed the brakes. See 32-41-00.", "Servicing", ("12", "32"), ("12-10", "32-41")),
    passage("manual-3", "Do not tow with the brake set.", "Towing", ("09",), ("09-10",)),
    passage(
        "letter-1",
        "Lining wear limits for brake part MS20470-4.",
        "",
        (),
        (),
        "service-letter",
        "information",
    ),
    passage(
        "order-1",
        "Inspect the wheel brake within 100 hours.",
        "",
        ("32",),
        (),
        "airworthiness-directive",
        "approved",
    ),
    passage(
        "order-2", "Fuel quantity probes.", "Fuel", ("28",), ("28-40",), "airworthiness-directive", "approved"
    ),
]


@pytest.fixture(params=[True, False], ids=["arrays", "plain"])
def engine(request, tmp_path):
    """Every promise holds for both ways of answering."""
    made = WhooshEngine(tmp_path / "index", cache_mb=8, fast=request.param)
    made.rebuild(1, SHELF)
    return made


def found(engine, *words, limit=20, per_chapter=5, **query):
    return engine.search(FullTextQuery(words=words, **query), limit, per_chapter)


def ids(result):
    return {scored.passage_id for scored in result.top}


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ({"words": ("brake",)}, "manual-1 manual-2 manual-3 letter-1 order-1"),
        ({"words": ("brake", "lining")}, "manual-1 letter-1"),
        ({"words": ("brake", "lining"), "any_word": True}, "manual-1 manual-2 manual-3 letter-1 order-1"),
        ({"words": ("the", "lining")}, "manual-1 letter-1"),
        ({"phrases": ("inspect the brake lining",)}, "manual-1"),
        ({"phrases": ("wheel brake",)}, "order-1"),
        ({"words": ("lining",), "phrases": ("brake lining",)}, "manual-1"),
        ({"words": ("fuel", "towing"), "phrases": ("brake set",), "any_word": True}, "manual-3"),
        ({"words": ("brake",), "excluded": ("lining",)}, "manual-2 manual-3 order-1"),
        ({"words": ("brake",), "excluded": ("inspect the wheel", "tow")}, "manual-1 manual-2 letter-1"),
        ({"words": ("brake",), "excluded": ("the",)}, "manual-1 manual-2 manual-3 letter-1 order-1"),
        ({"words": ("32-41",)}, "manual-2"),
        ({"words": ("ms204704",)}, "letter-1"),
        ({"words": ("100-hour",)}, "order-1"),
        ({"words": ("servicing",)}, "manual-2"),
        ({"words": ("rotor",)}, ""),
        ({"words": ("brake", "rotor")}, ""),
        ({"words": ("brake", "rotor"), "any_word": True}, "manual-1 manual-2 manual-3 letter-1 order-1"),
        ({"words": ("brake",), "filters": Filters(chapters=("32",))}, "manual-1 manual-2 order-1"),
        ({"words": ("brake",), "filters": Filters(chapters=("12", NOT_NUMBERED))}, "manual-2 letter-1"),
        ({"words": ("brake",), "filters": Filters(sections=("32-41",))}, "manual-1 manual-2"),
        ({"words": ("brake",), "filters": Filters(types=("service-letter",))}, "letter-1"),
        (
            {"words": ("brake",), "filters": Filters(standings=("approved", "information"))},
            "letter-1 order-1",
        ),
        (
            {"words": ("brake",), "filters": Filters(publications=("manual", "nosuch"))},
            "manual-1 manual-2 manual-3",
        ),
        ({"words": ("brake",), "filters": Filters(chapters=("32",), standings=("approved",))}, "order-1"),
        ({"filters": Filters(types=("airworthiness-directive",))}, "order-1 order-2"),
        ({"filters": Filters(chapters=("32",)), "excluded": ("bleed",)}, "manual-1 order-1"),
        ({"filters": Filters(chapters=("99",))}, ""),
    ],
)
def test_hits(engine, query, expected):
    result = engine.search(FullTextQuery(**query), 20, 5)
    assert ids(result) == set(expected.split())
    assert result.total == len(expected.split())


@pytest.mark.parametrize(
    "query",
    [
        FullTextQuery(),
        FullTextQuery(words=("the", "of")),
        FullTextQuery(phrases=("of the",)),
        FullTextQuery(words=("the",), filters=Filters(chapters=("32",))),
        FullTextQuery(excluded=("brake",)),
    ],
)
def test_nothing_to_search_for(engine, query):
    with pytest.raises(NothingToSearchFor):
        engine.search(query, 20, 5)
    assert engine.marks(query, "the brake") == []


def test_counts_are_over_all_hits_and_a_passage_counts_under_each_of_its_chapters(engine):
    result = found(engine, "brake", limit=1, per_chapter=1)
    assert result.total == 5 and len(result.top) == 1
    assert {group.chapter: group.count for group in result.chapters} == {
        "32": 3,
        "12": 1,
        "09": 1,
        NOT_NUMBERED: 1,
    }
    assert dict(result.counts_by_type) == {
        "maintenance-manual": 3,
        "service-letter": 1,
        "airworthiness-directive": 1,
    }
    assert dict(result.counts_by_standing) == {"acceptable": 3, "information": 1, "approved": 1}


def test_a_passage_is_grouped_under_its_first_chapter_alone(engine):
    grouped = {
        group.chapter: {scored.passage_id for scored in group.best}
        for group in found(engine, "brake").chapters
    }
    assert grouped == {
        "32": {"manual-1", "order-1"},
        "12": {"manual-2"},
        "09": {"manual-3"},
        NOT_NUMBERED: {"letter-1"},
    }


def test_a_chapter_carried_only_beside_another_has_a_count_and_comes_last(engine):
    first, last = found(engine, "bleed").chapters
    assert (first.chapter, first.count, len(first.best)) == ("12", 1, 1)
    assert (last.chapter, last.count, last.best) == ("32", 1, ())


def test_chapters_come_in_order_of_their_best_hit_and_best_hits_first(engine):
    result = found(engine, "brake")
    bests = [group.best[0].score for group in result.chapters]
    assert bests == sorted(bests, reverse=True)
    for group in [result.top, *(group.best for group in result.chapters)]:
        assert [scored.score for scored in group] == sorted((scored.score for scored in group), reverse=True)
    assert result.top[0].passage_id == "manual-1", "a word in the heading weighs more"


def test_equal_scores_stand_in_order_of_passage_id(tmp_path, engine):
    same = [passage(f"copy-{letter}", "Grease the hinge.") for letter in "dbeac"]
    engine.apply(2, [], same)
    result = found(engine, "hinge", limit=3)
    assert [scored.passage_id for scored in result.top] == ["copy-a", "copy-b", "copy-c"]
    assert [scored.passage_id for scored in result.chapters[0].best] == [
        f"copy-{letter}" for letter in "abcde"
    ]


def test_a_change_is_one_generation(engine):
    assert engine.generation() == found(engine, "brake").generation == 1
    engine.apply(7, ["manual"], [passage("manual-1", "Replace the brake disc.", "", ("32",))])
    assert engine.generation() == found(engine, "brake").generation == 7
    assert ids(found(engine, "brake")) == {"manual-1", "letter-1", "order-1"}
    assert ids(found(engine, "disc")) == {"manual-1"}
    assert found(engine, "bleed").total == 0


def test_an_empty_change_still_moves_the_generation(engine):
    engine.apply(2, [], [])
    assert engine.generation() == 2
    assert found(engine, "brake").total == 5


def test_everything_can_be_removed_and_put_back(engine):
    engine.apply(2, ["manual", "letter", "order"], [])
    assert engine.generation() == 2
    assert found(engine, "brake").total == 0
    engine.apply(3, [], SHELF)
    assert found(engine, "brake").total == 5


def test_an_index_of_nothing_is_an_index(tmp_path):
    engine = WhooshEngine(tmp_path / "index", cache_mb=1)
    engine.rebuild(4, [])
    assert engine.generation() == 4
    result = found(engine, "brake")
    assert (result.total, result.chapters, result.top) == (0, (), ())
    engine.apply(5, [], SHELF)
    assert found(engine, "brake").total == 5


def test_without_an_index_there_is_no_generation_and_no_answer(tmp_path):
    engine = WhooshEngine(tmp_path / "index", cache_mb=1)
    assert engine.generation() is None
    with pytest.raises(NoIndex, match="rebuild-index"):
        found(engine, "brake")
    with pytest.raises(NoIndex):
        engine.apply(1, [], SHELF)
    assert engine.generation() is None, "a change to no index must not make one that holds the change alone"


def test_a_failing_change_leaves_the_index_as_it_was(engine):
    def half():
        yield SHELF[0]
        raise RuntimeError("the catalogue broke")

    for fail in (lambda: engine.apply(2, ["order"], half()), lambda: engine.rebuild(2, half())):
        with pytest.raises(RuntimeError, match="catalogue broke"):
            fail()
        assert engine.generation() == 1
        assert found(engine, "brake").total == 5
    engine.apply(2, ["order"], [])
    assert (engine.generation(), found(engine, "brake").total) == (2, 4)


def test_a_rebuild_serves_the_old_index_until_it_is_complete(engine):
    def watched():
        for number, each in enumerate(SHELF[:3]):
            assert (engine.generation(), found(engine, "brake").total) == (1, 5), f"after {number} passages"
            yield each

    engine.rebuild(2, watched())
    assert (engine.generation(), found(engine, "brake").total) == (2, 3)
    assert [path.name for path in engine._folder.iterdir() if path.is_dir()] == ["2"], "the old one is gone"


def test_a_rebuild_removes_nothing_that_is_not_ours(engine):
    stranger = engine._folder / "99"
    stranger.mkdir()
    (stranger / "notes.txt").write_text("mine", encoding="utf-8")
    engine.rebuild(2, SHELF)
    assert (stranger / "notes.txt").read_text(encoding="utf-8") == "mine"
    assert engine.generation() == 2


def test_only_one_writes_at_a_time(engine):
    with whoosh_writer.writing(engine._folder):
        for write in (lambda: engine.apply(2, [], []), lambda: engine.rebuild(2, [])):
            with pytest.raises(LibraryBusy):
                write()
    engine.apply(2, [], [])
    assert engine.generation() == 2


def test_a_commit_of_another_process_is_seen_by_the_next_search(engine):
    assert found(engine, "brake").generation == 1
    script = (
        "import sys; from pathlib import Path; from indexer.library.whoosh_engine import WhooshEngine\n"
        "WhooshEngine(Path(sys.argv[1]), 1).apply(2, ['manual'], [])"
    )
    subprocess.run(
        [sys.executable, "-c", script, str(engine._folder)],
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    result = found(engine, "brake")
    assert (result.generation, result.total) == (2, 2)


def test_a_search_keeps_the_generation_it_began_with(engine):
    held = engine._newest().reader
    for generation in range(2, 12):  # enough commits for segments to be merged and their files removed
        engine.apply(generation, ["order"], [replace(SHELF[4], text=f"Brake and number {generation}.")])
    engine.rebuild(12, SHELF[:1])
    from indexer.library.search_plan import plan

    result = held.search(plan(FullTextQuery(words=("brake",))), 20, 5)
    assert (result.generation, result.total) == (1, 5)
    result = held.search(plan(FullTextQuery(phrases=("wheel brake",))), 20, 5)
    assert ids(result) == {"order-1"}, "read from files that are gone from the folder"
    assert (engine.generation(), found(engine, "brake").total) == (12, 1)


def test_searches_from_many_threads_agree(engine):
    words = ["brake", "lining", "wheel", "inspect", "fuel", "tow", "bleed", "set", "probe", "limit"]
    expected = {word: ids(found(engine, word)) for word in words}
    fresh = WhooshEngine(engine._folder, cache_mb=8, fast=engine._fast)
    wrong = []

    def ask(start):
        for step in range(60):
            word = words[(start + step) % len(words)]
            if ids(found(fresh, word)) != expected[word]:
                wrong.append(word)

    threads = [threading.Thread(target=ask, args=(start,)) for start in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not wrong


def test_segments_stay_few(tmp_path):
    engine = WhooshEngine(tmp_path / "index", cache_mb=8)
    engine.rebuild(1, [])
    for generation in range(2, 60):
        engine.apply(generation, [], [passage(f"book{generation}-1", f"Hinge number {generation}.")])
    assert found(engine, "hinge").total == 58
    segments = list(index_files.newest_commit(engine._folder).folder.glob("*.seg"))
    assert len(segments) <= 8
    engine.apply(60, [f"book{generation}" for generation in range(2, 50)], [])
    assert found(engine, "hinge").total == 10
    reader = whoosh_writer.open_reader(index_files.newest_commit(engine._folder))
    assert reader.doc_count_all() < 2 * reader.doc_count(), "what was deleted is merged away"
    reader.close()


def test_the_cache_stays_within_its_bound(tmp_path):
    many = [
        passage(f"book-{number}", f"word{number % 7} and {number}", chapters=("32",))
        for number in range(3000)
    ]
    engine = WhooshEngine(tmp_path / "index", cache_mb=1)
    engine.rebuild(1, many)
    cache = engine._newest().reader._cache
    largest = 0
    for number in range(600):
        assert found(engine, f"word{number % 7}", f"{number}").total == (1 if number % 7 == number % 7 else 0)
        filtered = found(engine, filters=Filters(publications=("book", f"other{number}")))
        assert filtered.total == 3000
        largest = max(largest, cache.bytes)
    assert 500_000 < largest <= 1 << 20
    arrays = sum(array.nbytes for arrays in cache._held.values() for array in arrays)
    assert cache.bytes == arrays + ENTRY_BYTES * len(cache._held)


@pytest.mark.parametrize(
    ("query", "text", "marked"),
    [
        ({"words": ("brakes",)}, "The brake, the BRAKES.", ["brake", "BRAKES"]),
        ({"words": ("32-41",)}, "See 32-41-00 and 3241.", ["32-41"]),
        ({"words": ("ms204704",)}, "P/N MS 20470–4 rivet", ["MS 20470–4"]),
        ({"words": ("AN4-12A",)}, "AN4-12A, AN4-12 and 12a", ["AN4-12A"]),
        ({"phrases": ("brake lining",)}, "lining; brake-lining; the brake", ["brake-lining"]),
        (
            {"words": ("lining",), "phrases": ("wheel brake",)},
            "Wheel brake lining",
            ["Wheel brake", "lining"],
        ),
        ({"words": ("fuel", "tank"), "any_word": True}, "tank of fuel", ["tank", "fuel"]),
        ({"words": ("brake",), "excluded": ("wheel",)}, "brake and wheel", ["brake"]),
        ({"words": ("fitting",)}, "Refit the ﬁttings", ["ﬁttings"]),
        ({"words": ("the",), "phrases": ("of",)}, "the end of it", []),
        ({"filters": Filters(chapters=("32",))}, "brake", []),
        ({"words": ("rotor",)}, "brake", []),
        ({"words": ("brake",)}, "", []),
    ],
)
def test_marks(engine, query, text, marked):
    assert [text[start:end] for start, end in engine.marks(FullTextQuery(**query), text)] == marked
