"""Notes that name an item: "SUPSD BY ITEM 50C", "SUPSDS ITEM 50A" are printed so in component manuals."""

from indexer.tagging.parts_items import with_named_items
from indexer.tagging.parts_notes import find_notes
from indexer.tagging.parts_rows import PartsRow


def row(ordinal, item, number, words="", figure=0):
    notes = tuple(found.note for found in find_notes(words))
    return PartsRow(ordinal, figure, item, number, "PIN", 0, "1", 1, (), words, notes=notes)


def named(*rows):
    return [[note.number for note in each.notes] for each in with_named_items(rows)]


def test_the_item_of_the_same_figure_gives_its_number():
    rows = [row(0, "50A", "QZ1-1", "(SUPSD BY ITEM 50C)"), row(1, "50C", "QZ1-3", "(SUPSDS ITEM 50A)")]
    assert named(*rows) == [["QZ1-3"], ["QZ1-1"]]
    assert with_named_items(rows)[0].notes[0].words == "SUPSD BY ITEM 50C"


def test_an_item_of_another_figure_is_not_meant():
    assert named(row(0, "50A", "QZ1-1", "(SUPSD BY ITEM 50C)"), row(1, "50C", "QZ1-3", figure=1)) == [
        [""],
        [],
    ]


def test_an_item_with_two_numbers_is_not_guessed():
    rows = [row(0, "4", "QZ1-1", "(OPT TO ITEM 5)"), row(1, "5", "QZ1-3"), row(2, "5", "QZ1-5")]
    assert named(*rows) == [[""], [], []]


def test_several_items_and_numbers_that_are_printed_stay_as_they_are():
    rows = [row(0, "4", "QZ1-1", "(SUPSD BY ITEMS 5 AND 6)"), row(1, "5", "QZ1-3"), row(2, "6", "QZ1-5")]
    assert named(*rows)[0] == [""]
    assert named(row(0, "4", "QZ1-1", "(SUPSD BY QZ1-9)"), row(1, "9", "QZ1-3"))[0] == ["QZ1-9"]
    assert named(row(0, "4", "QZ1-1", "(SEE FIG 3 ITEM 5)"), row(1, "5", "QZ1-3"))[0] == ["3"]
    assert with_named_items([]) == ()
