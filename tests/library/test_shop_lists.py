"""The shop's map and its words: lines added, removed, carried out as CSV and taken back in."""

import pytest

from indexer.library import shop_map, shop_words
from indexer.library.catalogue import Catalogue
from indexer.library.problems import EntryRefused, EntryUnknown


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def other(tmp_path):
    with Catalogue.open(tmp_path / "other", create=True) as opened:
        yield opened


def test_a_line_of_the_map_is_added_and_removed(catalogue):
    row = shop_map.add_row(catalogue, "KM-12", "5-12", "5-20", "32-41; 32", "R. Quill", "brake paragraphs")
    assert (row.publication, row.first, row.last, row.chapters) == ("KM-12", "5-12", "5-20", ("32-41", "32"))
    assert shop_map.map_rows(catalogue) == [row]
    assert catalogue.status().relations_pending
    assert shop_map.remove_row(catalogue, row.id, "M. Ohler", "the manual is gone") == row
    assert shop_map.map_rows(catalogue) == []
    again = shop_map.add_row(catalogue, "KM-12", "V", "", ["32"], "R. Quill", "whole section")
    assert again.id != row.id and again.last == "V"  # a number once used never means another line
    with pytest.raises(EntryUnknown):
        shop_map.remove_row(catalogue, row.id, "M. Ohler", "twice")
    events = [(each.event, each.detail) for each in catalogue.history()]
    assert [event for event, _ in events] == ["map line added", "map line removed", "map line added"]
    assert (
        events[1][1].endswith("Why: the manual is gone") and "KM-12 5-12 to 5-20: 32-41; 32" in events[1][1]
    )


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("", "V", "V", "32", "R. Quill", "why"), "no publication"),
        (("KM-12", "the brakes", "", "32", "R. Quill", "why"), "no section"),
        (("KM-12", "5-20", "5-12", "32", "R. Quill", "why"), "comes before"),
        (("KM-12", "V", "V", "", "R. Quill", "why"), "no chapter"),
        (("KM-12", "V", "V", "17", "R. Quill", "why"), "no assigned chapter"),
        (("KM-12", "V", "V", "32", "", "why"), "no name"),
        (("KM-12", "V", "V", "32", "R. Quill", ""), "no reason"),
    ],
)
def test_a_wrong_line_of_the_map_is_refused(catalogue, given, says):
    with pytest.raises(EntryRefused, match=says):
        shop_map.add_row(catalogue, *given)
    assert shop_map.map_rows(catalogue) == []


def test_the_map_goes_out_and_comes_back_as_it_was(catalogue, other):
    shop_map.add_row(catalogue, "KM-12", "5-12", "5-20", "32-41; 32", "R. Quill", "brakes, both kinds")
    shop_map.add_row(catalogue, 'Manual "Kestrel", 1951', "V", "", "32", "José Núñez", "whole section")
    text = shop_map.export_csv(catalogue)
    assert text.splitlines()[0] == "publication,first,last,chapters,who,date,why"
    not_held = ("KM-12", 'Manual "Kestrel", 1951')
    assert shop_map.import_csv(other, text, "M. Ohler") == shop_map.Imported(2, 0, not_held=not_held)
    assert shop_map.export_csv(other) == text
    assert other.dump() == catalogue.dump()
    generation = other.generation
    assert shop_map.import_csv(other, text, "M. Ohler") == shop_map.Imported(0, 2)
    assert (shop_map.export_csv(other), other.generation) == (text, generation)


def test_a_line_without_name_date_and_reason_is_the_importers(catalogue):
    text = "\ufeffchapters,first,publication\r\n32,V,KM-12\r\n\r\n"  # as a spreadsheet may write it
    assert shop_map.import_csv(catalogue, text, "M. Ohler").added == 1
    (row,) = shop_map.map_rows(catalogue)
    assert (row.who, row.why, row.last) == ("M. Ohler", "imported", "V")


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("", [1]),
        ("publication,first\nKM-12,V\n", [1]),
        ("publication,first,chapters,colour\nKM-12,V,32,red\n", [1]),
        ("publication,first,chapters,first\nKM-12,V,32,V\n", [1]),
        ("publication,first,chapters\nKM-12,V,32\nKM-12,VI,17\nKM-12,VII,32\n,V,32\n", [3, 5]),
        ('publication,first,chapters\n"KM\n12",nothing,32\nKM-12,V,17\n', [2, 4]),
        ("publication,first,chapters\nKM-12,V,32,33\n", [2]),
        ("publication,first,chapters,date\nKM-12,V,32,12 May\n", [2]),
        ('publication,first,chapters\nKM-12,V,"32\n', [2]),
    ],
)
def test_nothing_of_a_list_is_taken_when_a_line_is_wrong(catalogue, text, lines):
    taken = shop_map.import_csv(catalogue, text, "M. Ohler")
    assert (taken.added, [problem.line for problem in taken.problems]) == (0, lines)
    assert all(problem.what for problem in taken.problems)
    assert (shop_map.map_rows(catalogue), catalogue.generation, catalogue.history()) == ([], 0, [])


def test_a_word_is_added_and_removed(catalogue):
    word = shop_words.add_word(catalogue, "jug", "cylinder assembly; cylinder", "R. Quill", "radials too")
    assert (word.term, word.manual_terms, word.note) == (
        "jug",
        ("cylinder assembly", "cylinder"),
        "radials too",
    )
    assert shop_words.shop_words(catalogue) == [word]
    assert shop_words.remove_word(catalogue, word.id, "M. Ohler", "nobody says so") == word
    assert shop_words.shop_words(catalogue) == []
    assert [each.event for each in catalogue.history()] == ["word added", "word removed"]
    with pytest.raises(EntryUnknown):
        shop_words.remove_word(catalogue, word.id, "M. Ohler", "twice")


@pytest.mark.parametrize(
    ("given", "says"),
    [
        (("", "cylinder", "R. Quill"), "no word"),
        (("jug", " ; ", "R. Quill"), "nothing is given for «jug»"),
        (("jug", ["cylinder; assembly"], "R. Quill"), "semicolon"),
        (("jug", "cylinder", " "), "no name"),
    ],
)
def test_a_wrong_word_is_refused(catalogue, given, says):
    with pytest.raises(EntryRefused, match=says):
        shop_words.add_word(catalogue, *given)


def test_the_words_go_out_and_come_back_as_they_were(catalogue, other):
    shop_words.add_word(catalogue, "jug", "cylinder assembly; cylinder", "R. Quill", 'said "often"')
    shop_words.add_word(catalogue, "pucks, brake", ["brake lining"], "M. Ohler")
    text = shop_words.export_csv(catalogue)
    assert text.splitlines()[0] == "term,manual_terms,note,who,date"
    assert shop_words.import_csv(other, text, "T. Third") == shop_words.Imported(2, 0)
    assert shop_words.export_csv(other) == text
    assert shop_words.import_csv(other, text, "T. Third") == shop_words.Imported(0, 2)


def test_nothing_of_the_words_is_taken_when_a_line_is_wrong(catalogue):
    taken = shop_words.import_csv(catalogue, "term,manual_terms\njug,cylinder\npucks,\n", "M. Ohler")
    assert (taken.added, [problem.line for problem in taken.problems]) == (0, [3])
    assert shop_words.shop_words(catalogue) == []


def test_an_import_needs_a_name(catalogue):
    for room in (shop_map, shop_words):
        with pytest.raises(EntryRefused, match="no name"):
            room.import_csv(catalogue, room.export_csv(catalogue), " ")
