"""The catalogue follows from the documents alone: not from their order, nor from what was here and went."""

import random

import pytest
from making import take
from shop import everything

from indexer.library.catalogue import Catalogue
from indexer.library.relations import relate

_TABLES = ("supersession", "tie", "page_override", "directive_standing", "unresolved_claim")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("in")


def build(library, folder, documents, relate_between=lambda: False) -> str:
    with Catalogue.open(library, create=True) as catalogue:
        for made in documents:
            take(catalogue, folder, made)
            if relate_between():
                relate(catalogue)
        relate(catalogue)
        return catalogue.dump()


@pytest.fixture(scope="module")
def expected(folder, tmp_path_factory):
    return build(tmp_path_factory.mktemp("library"), folder, everything())


@pytest.mark.parametrize("table", _TABLES)
def test_the_shop_has_relations_of_every_kind(expected, table):
    """Otherwise the tests below would compare nothing with nothing."""
    rows = expected.partition(f"== {table}\n")[2].partition("==")[0]
    assert rows.count("\n") >= 2


@pytest.mark.parametrize("seed", range(50))
def test_any_order_of_taking_gives_the_same_catalogue(seed, tmp_path, folder, expected):
    chance = random.Random(seed)
    documents = chance.sample(everything(), k=len(everything()))
    assert build(tmp_path, folder, documents, lambda: chance.random() < 0.3) == expected


@pytest.mark.parametrize("made", everything(), ids=lambda made: made.file)
def test_removing_a_document_and_taking_it_again_gives_the_same_catalogue(made, tmp_path, folder, expected):
    others = [each for each in everything() if each.bytes != made.bytes]
    build(tmp_path / "all", folder, everything())
    with Catalogue.open(tmp_path / "all") as catalogue:
        catalogue.remove(made.document().sha256[:16])
        relate(catalogue)
        assert catalogue.dump() == build(tmp_path / "others", folder, others)
        take(catalogue, folder, made)
        relate(catalogue)
        assert catalogue.dump() == expected


@pytest.mark.parametrize("seed", range(10))
def test_any_history_of_taking_and_removing_gives_what_the_remaining_documents_give(seed, tmp_path, folder):
    chance = random.Random(seed)
    held = {}
    with Catalogue.open(tmp_path / "one", create=True) as catalogue:
        for _ in range(40):
            made = chance.choice(everything())
            if held.pop(made.bytes, None):
                catalogue.remove(made.document().sha256[:16])
            else:
                take(catalogue, folder, made)
                held[made.bytes] = made
            if chance.random() < 0.2:
                relate(catalogue)
        relate(catalogue)
        assert catalogue.dump() == build(tmp_path / "two", folder, held.values())


def test_the_same_content_at_two_places_is_named_alike_whichever_comes_first(tmp_path, folder):
    made = everything()[0]
    places = [folder / name for name in ("a-copy.pdf", "b-copy.pdf")]
    for place in places:
        place.write_bytes(made.bytes)
    dumps = set()
    for number, order in enumerate((places, places[::-1])):
        with Catalogue.open(tmp_path / str(number), create=True) as catalogue:
            catalogue.take(order[0], made.document(), made.publications())
            assert catalogue.seen_again(order[1], made.document().sha256)
            assert catalogue.publications()[0].file == "a-copy.pdf"
            dumps.add(catalogue.dump())
    assert len(dumps) == 1


def test_relating_again_changes_nothing(tmp_path, folder):
    with Catalogue.open(tmp_path, create=True) as catalogue:
        for made in everything():
            take(catalogue, folder, made)
        assert catalogue.status().relations_pending
        assert relate(catalogue) is True
        generation = catalogue.generation
        assert not catalogue.status().relations_pending
        assert relate(catalogue) is False
        assert catalogue.generation == generation
