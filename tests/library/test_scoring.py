"""What a mechanic looks for comes first: both ways of answering, on passages that differ in one thing."""

import pytest

from indexer.library.fulltext import FullTextQuery, IndexedPassage
from indexer.library.whoosh_engine import WhooshEngine


def passage(passage_id, text, heading=""):
    return IndexedPassage(passage_id, "book", heading, text, ("32",), (), "", "")


OTHERS = [
    passage(f"other-{number}", f"Grease the hinge, pin and bolt number{number}.", "Hinges and pins")
    for number in range(30)
]
REST = "Keep the area clean and do this with care at all times."


def in_order(tmp_path, shelf, fast, **query):
    engine = WhooshEngine(tmp_path / f"index-{fast}", cache_mb=8, fast=fast)
    engine.rebuild(1, [*shelf, *OTHERS])
    found = engine.search(FullTextQuery(**query), 50, 5).top
    return [scored.passage_id for scored in found]


@pytest.mark.parametrize("fast", [True, False], ids=["arrays", "plain"])
@pytest.mark.parametrize(
    ("query", "shelf", "expected"),
    [
        (  # in a row, then close, then in the wrong order, then far apart
            {"words": ("brake", "lining")},
            [
                passage("d", f"Brake. {REST} Lining."),
                passage("c", f"Lining, brake. {REST}"),
                passage("b", f"Brake disc lining. {REST}"[:-10]),
                passage("a", f"Brake lining. {REST}"),
            ],
            ["a", "b", "c", "d"],
        ),
        (  # the page filed under the number, then the pages that refer to it
            {"words": ("32-41",)},
            [
                passage("b", "See 32-41-00. Also 32-41-00 and 32-41-00."),
                passage("a", f"Wheel. {REST}", "Wheels\n32-41-00"),
            ],
            ["a", "b"],
        ),
        (
            {"words": ("magneto",)},
            [passage("b", f"The magneto is there. {REST}"), passage("a", f"Check it. {REST}", "Magneto")],
            ["a", "b"],
        ),
        (  # what the contents point to comes before the contents
            {"words": ("magneto",)},
            [
                passage("b", "Magneto .... 12\nMagneto drive .... 13\nMagneto points .... 14"),
                passage("a", f"The magneto is there. {REST} The magneto drive too."),
            ],
            ["a", "b"],
        ),
        (  # more of what was asked, the rare words first
            {"words": ("hinge", "shimmy", "damper", "bolt"), "any_word": True},
            [
                passage("c", "Hinge hinge bolt bolt hinge bolt."),
                passage("b", f"Shimmy. {REST} Bolt."),
                passage("a", f"Shimmy. {REST} Damper. {REST}"),
            ],
            ["a", "b", "c"],
        ),
        (  # all of what was asked, however often the others say some of it
            {"words": ("hinge", "shimmy", "bolt"), "any_word": True},
            [
                passage("b", "Hinge shimmy. Hinge shimmy. Hinge shimmy.", "Hinge shimmy"),
                passage("a", f"Hinge. {REST} Shimmy. {REST} {REST} Bolt. {REST}"),
            ],
            ["a", "b"],
        ),
    ],
)
def test_what_is_wanted_comes_first(tmp_path, fast, query, shelf, expected):
    found = in_order(tmp_path, shelf, fast, **query)
    assert [each for each in found if not each.startswith("other")] == expected
