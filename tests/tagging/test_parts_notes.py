"""Notes beside a part, by the forms that catalogs print: data/parts_notes.csv, each with its mark.

The mark is that of the trade notes: verified in a printed introduction, from memory, or common practice (no
source). What a "trap" looks like is from memory. The numbers are invented.
"""

import csv
from pathlib import Path

import pytest

from indexer.tagging.parts_cells import read_nomenclature
from indexer.tagging.parts_notes import find_notes, names_another_unclearly
from indexer.tagging.parts_rows import PartNoteKind

with open(Path(__file__).parent / "data" / "parts_notes.csv", encoding="ascii", newline="") as table:
    FORMS = [
        pytest.param(
            row["text"].encode("ascii").decode("unicode_escape"), row["notes"], row["words"], id=row["text"]
        )
        for row in csv.DictReader(table)
    ]


def test_there_are_enough_forms_and_every_kind_is_among_them():
    assert len({form.values[0] for form in FORMS}) == len(FORMS) >= 60
    kinds = {one.split(">")[0].strip() for form in FORMS for one in form.values[1].split("|")} - {""}
    assert kinds == set(PartNoteKind)


@pytest.mark.parametrize(("text", "notes", "words"), FORMS)
def test_forms(text, notes, words):
    found = find_notes(text)
    assert " | ".join(f"{one.note.kind}>{one.note.number}" for one in found) == notes
    assert read_nomenclature(text).words == words
    assert read_nomenclature(text).notes == tuple(one.note for one in found)
    for one in found:
        printed = " ".join(text[one.start : one.end].split())
        assert one.note.words == printed.strip("()").strip()
        assert one.note.words
    ends = [(one.start, one.end) for one in found]
    assert all(a == b or a[1] <= b[0] for a, b in zip(ends, ends[1:], strict=False))


@pytest.mark.parametrize(
    "words",
    [
        "SHUNT (NOT REPLACED BY QZ24-2806-5)",
        "LAMP, WILL BE REPLACED BY QZ24-2811-4",
        "SOCKET, SUPERSEDES AND IS SUPERSEDED BY QZ24-2810-1",
        "STRAP, QZ24-2813-1 SUPERSEDED BY QZ24-2813-2",  # said of another part than the row's
        "CLAMP. QZ24-2812-1 REPLACED BY THIS PART",
        "DIODE, REPL QZ24-2807-2",
        "BASE (WAS QZ24-2803)",
    ],
)
def test_words_that_leave_the_direction_open_are_no_note_and_are_told(words):
    assert find_notes(words) == []
    assert names_another_unclearly(words)


def test_what_is_said_of_the_successor_is_not_said_of_the_part():
    found = [each.note for each in find_notes("LUG, SUPSD BY QZ24-2808-5 WHICH REPLS QZ24-2808-1")]
    assert [(note.kind, note.number) for note in found] == [(PartNoteKind.SUPERSEDED_BY, "QZ24-2808-5")]


@pytest.mark.parametrize(
    "words", ["KIT, REPLACEMENT, 28 VOLT", "COVER, USE WITH LARGE BOLT", "VALVE, NOW CLOSED", "LAMP"]
)
def test_names_with_such_words_leave_nothing_open(words):
    assert not names_another_unclearly(words)
