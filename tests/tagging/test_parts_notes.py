"""Notes beside a part, by the forms that catalogs print: data/parts_notes.csv, each with its mark.

The mark is that of the trade notes: verified in a printed introduction, from memory, or common practice (no
source). What a "trap" looks like is from memory. The numbers are invented.
"""

import csv
from pathlib import Path

import pytest

from indexer.tagging.parts_cells import read_nomenclature
from indexer.tagging.parts_notes import find_notes
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
