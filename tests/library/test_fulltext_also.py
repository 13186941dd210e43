"""Other words for the words asked for, and why a passage is where it is: both ways of answering."""

import pytest

from indexer.library.fulltext import Also, Filters, FullTextQuery, IndexedPassage
from indexer.library.whoosh_engine import WhooshEngine


def passage(passage_id, text, heading=""):
    return IndexedPassage(passage_id, "book", heading, text, ("32",), ("32-41",), "", "")


SHELF = [
    passage("p1", "Remove the jug from the crankcase."),
    passage("p2", "Remove the cylinder assembly from the crankcase."),
    passage("p3", "Remove the assembly of the cylinder from the crankcase."),
    passage("p4", "Grease the tail landing gear."),
    passage("p5", "Grease the tail, then the wheel."),
    passage("p6", "Grease the tail and the tire of the dolly."),
    passage("p7", "Check the cylinder.", "Engine\n72-30-00"),
]
JUG = Also(("jug",), ("cylinder assembly", "barrel"), 0.6)
TAIL_WHEEL = Also(("tail", "wheel"), ("tail landing gear",), 0.6)


@pytest.fixture(params=[True, False], ids=["arrays", "plain"])
def engine(request, tmp_path):
    made = WhooshEngine(tmp_path / "index", cache_mb=8, fast=request.param)
    made.rebuild(1, SHELF)
    return made


def scores(engine, *words, **query):
    result = engine.search(FullTextQuery(**{"words": words, **query}), 20, 5)
    return {scored.passage_id: scored.score for scored in result.top}


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ({"words": ("jug",), "also": (JUG,)}, "p1 p2"),
        ({"words": ("jug", "crankcase"), "also": (JUG,)}, "p1 p2"),
        ({"words": ("jugs",), "also": (JUG,)}, "p1 p2"),  # read as the engine reads words, plural or not
        ({"words": ("jug", "grease"), "also": (JUG,)}, ""),
        ({"words": ("jug", "grease"), "also": (JUG,), "any_word": True}, "p1 p2 p4 p5 p6"),
        ({"words": ("jug",), "also": (JUG,), "excluded": ("assembly",)}, "p1"),
        ({"words": ("jug",), "also": (JUG,), "filters": Filters(chapters=("72",))}, ""),
        ({"words": ("tail", "wheel"), "also": (TAIL_WHEEL,)}, "p4 p5"),
        ({"words": ("tail", "wheel"), "also": (TAIL_WHEEL, Also(("wheel",), ("tire",), 0.5))}, "p4 p5 p6"),
        ({"words": ("tail", "wheel", "grease"), "also": (TAIL_WHEEL,)}, "p4 p5"),
        ({"words": ("wheel",), "also": (TAIL_WHEEL,)}, "p5"),  # tail was not asked for
        ({"words": ("dolly",), "also": (Also(("dolly",), ("jug", "the"), 0.0),)}, "p1 p6"),
        ({"words": ("jug",), "also": (JUG, Also(("jug",), ("cylinder",), 0.2))}, "p1 p2 p3 p7"),
        ({"words": ("jug",), "also": (Also(("jug",), ("wheel/dolly",), 0.2),)}, "p1"),
    ],
)
def test_a_passage_with_other_words_will_do(engine, query, expected):
    assert scores(engine, **query).keys() == set(expected.split())


def test_other_words_count_by_their_weight_and_the_better_counts_alone(engine):
    alone = scores(engine, "jug")["p1"]
    phrase = scores(engine, phrases=("cylinder assembly",))["p2"]
    both = scores(engine, "jug", also=(JUG,))
    assert both == pytest.approx({"p1": alone, "p2": 0.6 * phrase}, rel=1e-5)
    tail, wheel = (scores(engine, word)["p5"] for word in ("tail", "wheel"))
    close = scores(engine, "tail", "wheel")["p5"] - tail - wheel
    gear = 0.6 * scores(engine, phrases=("tail landing gear",))["p4"]
    found = scores(engine, "tail", "wheel", also=(TAIL_WHEEL,))
    here = max(scores(engine, "tail")["p4"], gear / 2)  # of the word itself and its half of the other words
    assert found == pytest.approx({"p5": tail + wheel + close, "p4": here + gear / 2}, rel=1e-5)


def test_other_words_are_marked(engine):
    query = FullTextQuery(words=("jug", "crankcase"), also=(JUG,))
    text = "Jugs: the cylinder assembly, the cylinder and its barrel on the crankcase."
    marked = [text[start:end] for start, end in engine.marks(query, text)]
    assert marked == ["Jugs", "cylinder assembly", "barrel", "crankcase"]


@pytest.mark.parametrize(
    ("query", "passage_id", "names"),
    [
        ({"words": ("jug",)}, "p1", {"jug, in the text"}),
        ({"words": ("jug",), "also": (JUG,)}, "p2", {"cylinder assembly, looked for with jug"}),
        ({"words": ("tails", "wheel")}, "p5", None),
        (
            {"words": ("engine", "cylinder")},
            "p7",
            {"engine, in a heading", "cylinder, in the text"},
        ),
        ({"words": ("72-30", "cylinder")}, "p7", None),
        ({"words": ("72-30",)}, "p7", {"72-30, in its number or a heading"}),
        ({"words": ("tail",)}, "p6", {"tail, in the text"}),
        ({"words": ("jug",)}, "p2", set()),  # no hit
        ({"words": ("jug",)}, "nosuch", set()),
        ({"words": ("jug",), "excluded": ("crankcase",)}, "p1", set()),
        ({"filters": Filters(chapters=("32",))}, "p1", set()),  # let through, with a score of nothing
    ],
)
def test_explain_names_the_parts_and_they_add_up(engine, query, passage_id, names):
    parts = engine.explain(FullTextQuery(**query), passage_id)
    if names is not None:
        assert {part.name for part in parts} == names
    found = engine.search(FullTextQuery(**query), 20, 5).top
    expected = next((scored.score for scored in found if scored.passage_id == passage_id), 0.0)
    assert sum(part.score for part in parts) == pytest.approx(expected, rel=1e-4)
    assert [part.score for part in parts] == sorted((part.score for part in parts), reverse=True)


def test_explain_counts_and_says_what_stands_close_together(engine):
    engine.apply(2, [], [passage("p8", "Brake lining: a brake, and one more brake.", "Wheel brakes")])
    named = {part.name for part in engine.explain(FullTextQuery(words=("brakes", "lining")), "p8")}
    assert named == {
        "brakes, in a heading",
        "brakes, in the text (3 times)",
        "lining, in the text",
        "brakes and lining close together",
    }
