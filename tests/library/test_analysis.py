"""What a text is found by, and what a question asks for.

The number forms are those of the trade: chapter-section-subject and task numbers (ATA 100 / iSpec 2200,
AMTOSS), data module codes (S1000D), part numbers of the AN, MS and NAS standards, directive numbers with
their revisions (14 CFR part 39). That people write them with and without dashes is common practice, no
source.
"""

import pytest
from passage_corpus import sentences, text_files

from indexer.library.analysis import LONGEST_WORD, clauses, phrase, printed_words, tokens, word_positions
from indexer.library.folding import folded, singular


@pytest.mark.parametrize(
    ("printed", "words"),
    [
        ("Check the Brakes.", "check brake"),
        ("left-hand main wheel", "left hand main wheel"),
        ("brake/clutch", "brake clutch"),
        ("and/or", ""),
        ("S/N, P/N, U.S.", "sn pn us"),
        ("the pilot's seat doesn't move", "pilot seat doesnt move"),
        ("Turn it OFF, not ON", "turn off not on"),
        ("No. 2 engine", "no 2 engine"),
        ("32-41-00", "32 41 00"),
        ("MS20470-4", "ms20470 4"),
        ("0.032 in. and 3/8 bolt", "0.032 3/8 bolt"),
        ("5-1/2 turns, 5½ turns", "5 1/2 turn 5 1/2 turn"),
        ("para 2.A.(1)", "para 2 a 1"),
        ("end of page.Next page", "end page next page"),
        ("ﬁttings, café, ΔP, No¹", "fitting cafe δp no1"),
        ("co\u00adwling", "cowling"),
        ("飞机 维修", "飞 机 维 修"),
        ("", ""),
        (" - / . ' ", ""),
    ],
)
def test_printed_words(printed, words):
    assert " ".join(printed_words(printed)) == words


@pytest.mark.parametrize(
    ("printed", "forms"),
    [
        ("32-41-00", {"32-41-00", "32-41", "324100"}),
        ("32–41–00", {"32-41-00", "32-41", "324100"}),
        ("32.41.00", {"32-41-00", "32-41", "324100"}),
        ("32-41", {"32-41", "3241"}),
        ("3241", set()),
        (
            "32-41-00-400-801",
            {"32-41", "32-41-00", "324100", "32-41-00-400", "32-41-00-400-801", "324100400801"},
        ),
        (
            "32-41-00-400-801-A01",
            {"32-41", "32-41-00", "324100", "32-41-00-400", "32-41-00-400-801", "324100400801a01"},
        ),
        ("DMC-HL-A-32-41-00-00A-520A-D", {"32-41", "32-41-00", "dmchla32410000a520ad"}),
        ("MS20470-4", {"ms204704", "ms", "20470", "204704", "20470-4"}),
        ("AN4-12A", {"an412a", "412a"}),
        ("NAS1149F0363P", {"nas", "1149f0363p"}),
        ("32-0012", {"32-0012", "320012"}),
        ("2019-07-05", {"2019-07-05", "2019-07", "20190705"}),
        ("82-27-13R1", {"82-27", "82-27-13", "822713r1"}),
        ("82-27-13-R1", {"82-27", "82-27-13", "822713", "822713r1"}),
        ("100-hour", {"100hour"}),
        ("36,000", {"36000"}),
        ("5-1/2", {"5-1/2"}),
        ("0.032", set()),
        ("3/8", set()),
        ("12.5.3", set()),
        ("left-hand", set()),
    ],
)
def test_numbers_are_also_found_written_differently(printed, forms):
    assert {token.text for token in tokens(printed) if token.variant} == forms


@pytest.mark.parametrize(
    ("printed", "form"),
    [
        ("MS 20470-4", "ms204704"),
        ("MS 20470-4", "ms20470"),
        ("SB 32-0012", "sb320012"),
        ("AD 2019-07-05", "ad20190705"),
        ("AN 4-12A", "an412a"),
    ],
)
def test_capitals_before_a_number_are_also_found_joined_to_it(printed, form):
    assert form in word_positions(f"see {printed} for this")


@pytest.mark.parametrize("printed", ["see 20470-4", "FIG 5", "THE 2000 BOLTS", "Ms 20470"])
def test_other_words_before_a_number_are_not_joined_to_it(printed):
    first, second = printed.lower().split()[:2]
    assert first + second.split("-")[0] not in word_positions(printed)


@pytest.mark.parametrize(
    ("asked", "printed"),
    [
        ("brake", "BRAKES"),
        ("brakes", "brake"),
        ("assembly", "assemblies"),
        ("32-41", "32-41-00"),
        ("32-41-00", "32–41–00"),
        ("32-41-00", "TASK 32-41-00-400-801"),
        ("32-41-00", "DMC-HL-A-32-41-00-00A-520A-D"),
        ("324100", "32-41-00"),
        ("324100", "32-41-00-01"),
        ("MS20470-4", "MS20470-4"),
        ("MS20470-4", "MS 20470-4"),
        ("ms204704", "MS20470-4"),
        ("MS20470", "MS20470-4"),
        ("MS20470", "MS 20470-4"),
        ("20470-4", "MS20470-4"),
        ("AN4-12A", "AN 4-12A"),
        ("SB32-0012", "SB 32-0012"),
        ("32-0012", "SB32-0012"),
        ("32-0114", "QZ62-32-0114"),
        ("82-27-13", "82-27-13R1"),
        ("AD2019-07-05", "AD 2019-07-05"),
        ("100-hour", "100 hour"),
        ("100-hour", "100-HOUR"),
        ("nose-wheel", "nose wheel"),
        ("1500", "1,500"),
        ("5-1/2", "5½"),
        ("737-800", "B737-800"),
        ("P/N", "PN"),
    ],
)
def test_asked_finds_printed(asked, printed):
    assert holds(asked, printed)


@pytest.mark.parametrize(
    ("asked", "printed"),
    [
        ("32-41", "12-32-41"),
        ("32-41", "3241"),  # a JASC code is another number
        ("32-00-12", "SB 32-0012"),
        ("AN4-12", "AN4-12A"),  # the A means there is no cotter hole
        ("AN4-12A", "AN4-H12A"),
        ("MS20470-4", "MS20470-5, item 4"),
        ("MS20470-400", "MS20470 and AN400"),
        ("2019-07-05", "2019-07-06"),
        ("nose-wheel", "wheel at the nose"),
        ("0.032", "32"),
        ("on", "off"),
        ("fit", "fitting"),
    ],
)
def test_asked_does_not_find(asked, printed):
    assert not holds(asked, printed)


@pytest.mark.parametrize(
    ("quoted", "printed", "found"),
    [
        ("removal of the wheel", "Removal wheel", True),
        ("100 hour inspection", "100-hour inspections", True),
        ("100-hour inspection", "100 hour inspection", True),
        ("SB 32-0012 Rev B", "per SB 32–0012, Rev. B", True),
        ("32 41 00", "32-41-00", True),
        ("wheel removal", "removal of the wheel", False),
        ("brake wheel", "brake disc and wheel", False),
        ("not approved", "approved", False),
    ],
)
def test_words_in_quotes_stand_in_a_row(quoted, printed, found):
    assert stands((phrase(quoted),), printed) is found


def test_a_paragraph_number_is_no_chapter():
    assert not holds("72", "paragraph 7-2") and holds("7-2", "paragraph 7-2") and holds("72", "chapter 72")
    assert holds("204704", "part 20470-4") and not holds("32", "paragraph 3-2")


def test_stop_words_ask_for_nothing():
    assert clauses("the") == clauses("and/or") == clauses(" - ") == []
    assert phrase("of the") is None
    for turning in ("no", "not", "on", "off", "without", "before", "out", "all"):
        assert clauses(turning)


@pytest.mark.parametrize(
    ("plural", "one"),
    [
        ("brakes", "brake"),
        ("assemblies", "assembly"),
        ("boxes", "box"),
        ("switches", "switch"),
        ("bosses", "boss"),
        ("hoses", "hose"),
        ("pulleys", "pulley"),
        ("ties", "tie"),
        ("axes", "axis"),
        ("gases", "gas"),
        ("buses", "bus"),
    ],
)
def test_plurals_fold(plural, one):
    assert singular(plural) == singular(one) == one


@pytest.mark.parametrize(
    "word",
    [
        "aileron",
        "bus",
        "gas",
        "axis",
        "chassis",
        "radius",
        "class",
        "press",
        "lens",
        "series",
        "glass",
        "status",
    ],
)
def test_words_that_are_no_plurals_stay(word):
    assert singular(word) == word


def test_character_ranges_lead_back_to_the_text():
    text = "Refit the ﬁttings – see MS 20470–4, 5½ turns, café’s AN4-12A."
    for token in tokens(text):
        piece = text[token.start : token.end]
        assert piece == piece.strip()
        assert token.text.replace("-", "") in folded(piece)[0].replace(" ", "").replace("-", "")
    marked = {token.text: text[token.start : token.end] for token in tokens(text)}
    assert marked["fitting"] == "ﬁttings"
    assert marked["ms204704"] == "MS 20470–4"
    assert marked["20470-4"] == "20470–4"
    assert marked["5-1/2"] == "5½"


def test_positions_count_printed_words():
    found = word_positions("See 32-41-00 for the brakes")
    printed = {word: found[word] for word in ("see", "32", "41", "00", "brake")}
    assert printed == {"see": [0], "32": [1], "41": [2], "00": [3], "brake": [4]}
    assert found.keys() - printed.keys() == {"32-41-00", "32-41", "324100"}


def test_variants_stand_next_to_nothing():
    text = "MS20470-4 MS20470-4, AN470 AN470; 470 SB 32-0012 B737"
    found = word_positions(text)
    variants = {token.text for token in tokens(text) if token.variant}
    every = {place for places in found.values() for place in places}
    for word in variants:
        far = [place for place in found[word] if place > 100]
        assert far and not every & {place + step for place in far for step in (-1, 1)}
        assert found[word] == sorted(found[word])


def test_long_garbage_is_cut_and_still_found():
    garbage = "x" * 500
    assert printed_words(garbage) == ["x" * LONGEST_WORD]
    assert holds(garbage, garbage)
    number = "7a-" * 100 + "7"
    assert all(len(token.text) <= LONGEST_WORD for token in tokens(number))
    assert holds(number, number)


def test_every_word_of_real_text_finds_its_own_sentence():
    lines = sentences(text_files())[::40]
    assert len(lines) > 100
    for line in lines:
        for asked in line.split():
            assert all(stands((clause,), line) for clause in clauses(asked)), (asked, line)
        quoted = phrase(line)
        assert quoted is None or stands((quoted,), line)


def holds(asked: str, printed: str) -> bool:
    found = clauses(asked)
    assert found, f"{asked} asks for nothing"
    return stands(found, printed)


def stands(wanted, printed: str) -> bool:
    """Whether each clause has an atom whose words stand at positions one after another."""
    at = {word: set(places) for word, places in word_positions(f"before {printed} after").items()}

    def in_a_row(atom):
        return any(
            all(start + step in at.get(word, ()) for step, word in enumerate(atom))
            for start in at.get(atom[0], ())
        )

    return all(any(in_a_row(atom) for atom in clause) for clause in wanted)
