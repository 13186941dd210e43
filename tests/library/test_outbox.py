"""After every feed the index holds what the catalogue holds: a model engine keeps all it is given."""

import random

import pytest
from making import Text, take
from shop import DATE, bulletin, claim, directive, everything

from indexer.library.catalogue import Catalogue
from indexer.library.filing import chapters_of, sections_of
from indexer.library.outbox import feed, indexed_passage, is_current
from indexer.library.relations import relate
from indexer.tagging.tags import ClaimKind
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Evidence, Tag


class ModelEngine:
    """Keeps the passages it is given; counts what was asked of it."""

    def __init__(self):
        self.held = {}
        self.at = None
        self.rebuilds = self.applies = 0

    def generation(self):
        return self.at

    def apply(self, generation, removed, added):
        removed = set(removed)
        self.held = {key: each for key, each in self.held.items() if each.publication_id not in removed}
        for each in added:
            assert each.passage_id not in self.held, "added twice"
            self.held[each.passage_id] = each
        self.at = generation
        self.applies += 1

    def rebuild(self, generation, passages):
        self.held = {each.passage_id: each for each in passages}
        self.at = generation
        self.rebuilds += 1


def wanted(catalogue):
    return {
        passage.id: indexed_passage(publication, passage)
        for publication in catalogue.publications()
        for passage in catalogue.passages_of(publication.id)
    }


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "in"


def test_the_first_feed_builds_and_later_ones_bring_only_what_changed(catalogue, folder):
    engine = ModelEngine()
    take(catalogue, folder, bulletin("1", "A", None))
    assert not is_current(catalogue, engine)
    feed(catalogue, engine)
    assert (engine.rebuilds, engine.applies, engine.at) == (1, 0, catalogue.generation)
    take(catalogue, folder, bulletin("2", "A", None))
    assert not is_current(catalogue, engine)
    feed(catalogue, engine)
    assert (engine.rebuilds, engine.applies, engine.at) == (1, 1, catalogue.generation)
    assert is_current(catalogue, engine)
    assert engine.held == wanted(catalogue)


def test_nothing_is_asked_of_the_engine_where_nothing_changed(catalogue, folder):
    engine = ModelEngine()
    take(catalogue, folder, bulletin("1", "A", None))
    for _ in range(3):
        feed(catalogue, engine)
    assert (engine.rebuilds, engine.applies) == (1, 0)


def test_a_bulletin_that_a_directive_raises_is_indexed_again(catalogue, folder):
    engine = ModelEngine()
    take(catalogue, folder, bulletin("32-0012", "3", DATE(2030, 8, 3)))
    relate(catalogue)
    feed(catalogue, engine)
    assert {each.standing for each in engine.held.values()} == {"undetermined"}
    said = claim(ClaimKind.REQUIRES, "32-0012", revision="3", date=DATE(2030, 8, 3))
    taken = take(catalogue, folder, directive("2031-04-07", said))
    relate(catalogue)
    feed(catalogue, engine)
    assert {each.standing for each in engine.held.values()} == {"approved"}
    catalogue.remove(taken.copy_id)
    feed(catalogue, engine)  # before relations are worked out again: the standing went with the directive
    assert {each.standing for each in engine.held.values()} == {"undetermined"}
    assert engine.rebuilds == 1


def test_a_replaced_copy_leaves_the_index(catalogue, folder):
    engine = ModelEngine()
    old, new = bulletin("1", "A", None), bulletin("1", "B", None)
    new.file = old.file
    first = take(catalogue, folder, old)
    feed(catalogue, engine)
    take(catalogue, folder, new)
    feed(catalogue, engine)
    assert engine.held == wanted(catalogue)
    assert first.publications[0] not in {each.publication_id for each in engine.held.values()}


UNUSABLE = {
    "no index": lambda engine: None,
    "an older index": lambda engine: engine.at - 1,
    "an index from before a backup was put back": lambda engine: engine.at + 5,
}


@pytest.mark.parametrize("spoil", UNUSABLE.values(), ids=UNUSABLE)
def test_an_index_that_is_not_at_the_generation_last_handed_over_is_rebuilt(catalogue, folder, spoil):
    engine = ModelEngine()
    take(catalogue, folder, bulletin("1", "A", None))
    feed(catalogue, engine)
    engine.at = spoil(engine)
    assert not is_current(catalogue, engine)
    engine.held = {"stale": None}
    feed(catalogue, engine)
    assert engine.rebuilds == 2
    assert engine.held == wanted(catalogue)


def test_an_index_of_another_library_is_rebuilt_even_at_the_same_generation(tmp_path, folder):
    engine = ModelEngine()
    for number, made in enumerate((bulletin("1", "A", None), bulletin("2", "A", None))):
        with Catalogue.open(tmp_path / str(number), create=True) as catalogue:
            take(catalogue, folder, made)
            feed(catalogue, engine)
            assert engine.held == wanted(catalogue)
    assert engine.rebuilds == 2


class Breaking(ModelEngine):
    """Fails once, on its way or after its commit."""

    def __init__(self, after_commit):
        super().__init__()
        self.broken = None
        self.after_commit = after_commit

    def apply(self, generation, removed, added):
        if self.broken is None:
            self.broken = True
            if self.after_commit:
                super().apply(generation, removed, added)
            raise OSError("no space left")
        super().apply(generation, removed, added)


@pytest.mark.parametrize("after_commit", [False, True])
def test_a_feed_that_was_stopped_is_made_good_by_the_next(catalogue, folder, after_commit):
    engine = Breaking(after_commit)
    take(catalogue, folder, bulletin("1", "A", None))
    feed(catalogue, engine)
    take(catalogue, folder, bulletin("2", "A", None))
    with pytest.raises(OSError):
        feed(catalogue, engine)
    feed(catalogue, engine)
    assert engine.held == wanted(catalogue)
    assert is_current(catalogue, engine)


@pytest.mark.parametrize("seed", range(10))
def test_the_index_follows_any_history(catalogue, folder, seed):
    chance = random.Random(seed)
    engine = ModelEngine()
    held = set()
    for _ in range(40):
        made = chance.choice(everything())
        copy_id = made.document().sha256[:16]
        if copy_id in held:
            catalogue.remove(copy_id)
            held.remove(copy_id)
        else:
            held.add(take(catalogue, folder, made).copy_id)
        if chance.random() < 0.3:
            relate(catalogue)
        if chance.random() < 0.3:
            feed(catalogue, engine)
            assert engine.held == wanted(catalogue)
    relate(catalogue)
    feed(catalogue, engine)
    assert engine.held == wanted(catalogue)
    assert engine.rebuilds == 1


def number(*parts, scheme=Scheme.ATA):
    return Tag(ChapterNumber(*parts, scheme=scheme), Evidence(Basis.PRINTED, "test"))


@pytest.mark.parametrize(
    "numbers, chapters, sections",
    [
        ([number("32", "41", "05")], ("32",), ("32-41",)),
        ([number("32")], ("32",), ()),
        (
            [number("52", "11"), number("32", "41"), number("52", "11", "02")],
            ("52", "32"),
            ("52-11", "32-41"),
        ),
        ([number("32", "41", scheme=Scheme.JASC)], ("32",), ()),  # a JASC code agrees by two digits only
        ([number("32", "41", "00", scheme=Scheme.SNS)], ("32",), ()),
        ([number("5", "2", scheme=Scheme.OWN)], (), ()),  # a manual's own section 5 is not chapter 05
        ([], (), ()),
    ],
)
def test_what_a_passage_is_filed_under(numbers, chapters, sections):
    """JASC by two digits: FAA JASC Code Table and Definitions, 27 October 2008."""
    assert (chapters_of(numbers), sections_of(numbers)) == (chapters, sections)


def test_an_indexed_passage_holds_numbers_title_and_headings_apart_from_its_text(catalogue, folder):
    texts = [Text("Turn it.", ("3. INSTRUCTIONS", "A. Valve"), number=ChapterNumber("32", "41"))]
    taken = take(catalogue, folder, bulletin("1", "A", None, title="BRAKES", texts=texts))
    record = catalogue.publication(taken.publications[0])
    (passage,) = catalogue.passages_of(record.id)
    indexed = indexed_passage(record, passage)
    assert indexed.heading == "SB 1\nBRAKES\n3. INSTRUCTIONS\nA. Valve\n32-41"
    assert (indexed.text, indexed.type, indexed.standing) == ("Turn it.", "service-bulletin", "undetermined")


@pytest.mark.parametrize(
    ("models", "heading"),
    [
        (("QZ62", "QZ62S"), "SB 1\nBRAKES\nQZ62\nQZ62S\nA. Valve"),
        (tuple(f"QZ{number}" for number in range(60, 90)), "SB 1\nBRAKES\nA. Valve"),  # as good as all
    ],
)
def test_an_indexed_passage_is_found_by_the_models_of_its_publication(catalogue, folder, models, heading):
    made = bulletin("1", "A", None, title="BRAKES", models=models, texts=[Text("It.", ("A. Valve",))])
    taken = take(catalogue, folder, made)
    record = catalogue.publication(taken.publications[0])
    (passage,) = catalogue.passages_of(record.id)
    assert indexed_passage(record, passage).heading == heading
