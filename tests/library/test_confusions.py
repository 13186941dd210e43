"""Words as OCR may have misread them: which are taken for one another, and public text misread by chance."""

import random
import re

import pytest
from passage_corpus import sentences, text_files

from indexer.library.confusions import LookAlikes, is_misreading, key
from indexer.library.folding import singular
from indexer.library.fulltext import Also, FullTextQuery, IndexedPassage
from indexer.library.whoosh_engine import WhooshEngine

# Common practice, no source: what scans of typed pages do to these words.
MISREAD = """torque t0rque, burn bum, M40-88 M4O-88, AN4-12A AN4-I2A, piston PlSTON, lamp Iamp, valve vaIve,
    seal 5eal, oil 0il, bolts 8olts, IO-540 10-540, 68-3204 68-32O4, 175 I75, modem modern, bus 8us"""
NOT_MISREAD = """so 50, 15 is, 50 SO, 10 IO, fail fall, fin fln, all AIL, modern MODEM, torque torque,
    brake brakes, 3241 32-41, 105 IOS, 18 1B, soil 5011, gas GAS"""


@pytest.mark.parametrize("pair", [pair.split() for pair in MISREAD.split(",")])
def test_what_looks_alike_is_taken_for_a_misreading(pair):
    asked, printed = pair
    assert is_misreading(asked, printed) and key(asked) == key(printed)


@pytest.mark.parametrize("pair", [pair.split() for pair in NOT_MISREAD.split(",")])
def test_what_is_a_word_of_its_own_is_not(pair):
    assert not is_misreading(*pair)


def test_look_alikes_are_found_by_what_they_fold_to():
    held = LookAlikes(["t0rque", "torque", "m4o88", "m40-88", "is", "bum", "burn", "torqued"])
    assert held.of("torque") == ["t0rque"]
    assert held.of("burn") == ["bum"]
    assert held.of("M40-88") == ["m4o88"]
    assert held.of("is") == [] and held.of("zeppelin") == []
    assert LookAlikes([]).of("torque") == []


def test_a_letter_misread_in_public_text_is_found_by_the_word(tmp_path):
    """Public text (tests/data/SOURCES.md), look-alikes put in by chance: with its misreadings a word finds
    what it finds in the text as it was, no more and no less."""
    chance = random.Random(7)
    swaps = [("o", "0"), ("l", "1"), ("s", "5"), ("b", "8"), ("m", "rn"), ("rn", "m"), ("l", "I")]
    whole = [sentence for sentence in sentences(text_files()) if sentence.isascii()][:3000]
    read, changed = [], {}
    for sentence in whole:
        words = []
        for word in sentence.split():
            here = [pair for pair in swaps if pair[0] in word[1:]]
            if len(word) > 4 and word.isalpha() and word.islower() and here and chance.random() < 0.03:
                letter, seen = chance.choice(here)
                at = word.index(letter, 1)
                misread = word[:at] + seen + word[at + len(letter) :]
                changed.setdefault(word, set()).add(misread)
                word = misread
            words.append(word)
        read.append(" ".join(words))
    engine, as_it_was = WholeText(tmp_path / "read", read), WholeText(tmp_path / "whole", whole)
    vocabulary = {word.casefold() for sentence in whole for word in re.findall("[A-Za-z0-9]+", sentence)}
    tried = 0
    for word in sorted(changed):
        misread = {each for each in changed[word] if each.casefold() not in vocabulary}
        if misread != changed[word] or not all(is_misreading(word, each) for each in misread):
            continue  # chance made a word of the text
        tried += 1
        alike = [each for each in engine.alike(word) if each not in vocabulary]
        held = {each.casefold() for each in misread}
        assert {singular(each) if each.isalpha() else each for each in held} <= set(alike), word
        assert engine.find(word, alike) == as_it_was.find(word, ()), word
    assert tried > 150


class WholeText:
    def __init__(self, folder, texts):
        self.engine = WhooshEngine(folder / "index", cache_mb=8)
        self.engine.rebuild(
            1, [IndexedPassage(f"b-{at}", "b", "", text, (), (), "", "") for at, text in enumerate(texts)]
        )

    def alike(self, word):
        return self.engine.look_alikes(word)

    def find(self, word, alike):
        also = (Also((word,), tuple(alike), 0.5),) if alike else ()
        found = self.engine.search(FullTextQuery((word,), also=also), 10_000, 1)
        return {scored.passage_id for scored in found.top}
