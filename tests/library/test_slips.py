"""Slips of the finger: what is suggested for a word that a library does not hold."""

import random
import string

import pytest
from passage_corpus import passages, sentences, text_files

from indexer.library.fulltext import IndexedPassage
from indexer.library.slips import Vocabulary, is_one_slip
from indexer.library.whoosh_engine import WhooshEngine

# Misspellings from memory of how the words are written on work orders; no source.
WORDS = "magneto carburetor hydraulic aileron alternator cylinder gauge brake cable propeller torque leak"
SLIPS = """magnteo magneto, magnito magneto, magento magneto, carburator carburetor, carbuertor carburetor,
    carbeurator carburetor, hydrualic hydraulic, hydrolic hydraulic, aleron aileron, ailleron aileron,
    altenator alternator, cylnder cylinder, cilynder cylinder, guage gauge, brkae brake, rake brake,
    propellor propeller, propellar propeller, torqe torque, leek leak, HYDRUALIC hydraulic, guages gauge"""


def passage(passage_id, text, heading=""):
    return IndexedPassage(passage_id, passage_id.split("-")[0], heading, text, ("32",), (), "", "")


@pytest.fixture(params=[True, False], ids=["arrays", "plain"])
def engine(request, tmp_path):
    made = WhooshEngine(tmp_path / "index", cache_mb=8, fast=request.param)
    made.rebuild(
        1, [passage("book-1", WORDS), passage("book-2", "MS20470-4 32-41-00 nose-wheel the pin", "Gear")]
    )
    return made


@pytest.mark.parametrize("pair", SLIPS.split(","))
def test_a_slip_leads_to_the_word(engine, pair):
    slip, meant = pair.split()
    assert engine.suggest(slip)[0] == meant


@pytest.mark.parametrize(
    "word",
    [
        "brake",  # occurs
        "Brakes",
        "gear",  # occurs in a heading
        "brxxe",  # two slips in a short word
        "hxxrxulic",  # three
        "ms20471",  # another number
        "32-42",
        "3241",
        "32",
        "nose-wheal",  # two words
        "the",
        "pi",  # too short to say anything
        "",
        "?!",
        "制动器",
    ],
)
def test_nothing_is_suggested(engine, word):
    assert engine.suggest(word) == ()


def test_words_of_removed_passages_are_not_suggested_nor_known(engine):
    assert engine.knows("magneto") and engine.knows("Nose-wheel") and engine.knows("ms204704")
    assert not engine.knows("magnito") and not engine.knows("wheel-nose") and not engine.knows("the")
    engine.apply(2, ["book"], [passage("other-1", "magnets")])
    assert not engine.knows("magneto")
    assert engine.suggest("magnetto") == ("magnet",)
    assert engine.suggest("magnit") == ("magnet",)
    engine.apply(3, ["other"], [])
    assert engine.suggest("magnit") == ()


def test_no_more_are_given_than_asked_for(engine):
    engine.apply(2, [], [passage("more-1", "hose rose dose pose close")])
    assert len(engine.suggest("xose", 3)) == 3
    assert len(engine.suggest("xose")) == 5


def test_common_words_come_before_what_a_scanner_misread():
    vocabulary = Vocabulary({"hydraulic": 900, "hydrauiic": 1, "hydraulics1": 4, "hydraul1c": 50})
    assert vocabulary.near("hydrauic") == ["hydraulic", "hydrauiic"]
    assert vocabulary.near("hydruaiic") == ["hydraulic", "hydrauiic"]  # two slips, but so much commoner


def test_a_short_word_does_not_lose_its_first_letter():
    vocabulary = Vocabulary({"can": 500, "scar": 1, "brake": 5})
    assert vocabulary.near("scan") == ["scar"]
    assert vocabulary.near("sbrake") == ["brake"]


def test_an_empty_vocabulary_has_nothing_near():
    assert Vocabulary({}).near("brake") == []
    assert Vocabulary({"32-41-00": 3}).near("brake") == []


def slipped(word, chance):
    """One slip, made without sight of how slips are found."""
    at = chance.randrange(len(word))
    letter = chance.choice(string.ascii_lowercase)
    kind = chance.choice(["lost", "added", "wrong", "swapped"])
    if kind == "swapped":
        return word[:at] + word[at + 1 : at + 2] + word[at] + word[at + 2 :]
    return word[:at] + (letter if kind != "lost" else "") + word[at + (kind != "added") :]


def test_random_slips_in_public_text_lead_back_to_their_words(tmp_path):
    """Public text (tests/data/SOURCES.md); the two ways of answering agree."""
    fast = WholeText(tmp_path, True)
    plain = WholeText(tmp_path, False)
    chance = random.Random(5)
    tried = back = 0
    words = [word for word in fast.words if len(word) >= 5]
    while tried < 200:
        word = chance.choice(words)
        slip = slipped(word, chance)
        if fast.engine.knows(slip):
            continue
        tried += 1
        found = fast.engine.suggest(slip)
        back += word in found
        if tried % 20 == 0:
            assert found == plain.engine.suggest(slip), slip
    assert back >= 190, f"{back} of {tried}"


class WholeText:
    """Passages of public text, and the words that stand in five of them at least."""

    def __init__(self, folder, fast):
        self.engine = WhooshEngine(folder / "index", cache_mb=8, fast=fast)
        if fast:
            self.engine.rebuild(1, passages(1500, 60, seed=2, source=sentences(text_files())))
            counts = self.engine._newest().reader._segments.frequencies(("text",))
            self.words = sorted(word for word, count in counts.items() if count >= 5 and word.isalpha())


def test_one_slip_is_told_from_two():
    assert is_one_slip("lineing", "lining") and is_one_slip("barke", "brake")
    assert not is_one_slip("lineing", "line") and not is_one_slip("lining", "lining")
