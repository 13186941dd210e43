"""A copy read again by newer rules: its own rows are replaced, and nothing that people did is touched."""

import sqlite3

import pytest
from making import Made, Text, take
from shop import DATE, bulletin, claim, directive

from indexer.errors import PublicationUnknown
from indexer.library import shop_map, shop_words, taking
from indexer.library.catalogue import Catalogue
from indexer.library.records import EntryKind
from indexer.library.relations import relate
from indexer.library.shop_entries import add_entry, entries, second_entry
from indexer.tagging.tags import ClaimKind, StandingValue


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def made_of(*texts: str, **rest) -> Made:
    return bulletin("32-0012", "3", DATE(2030, 8, 3), texts=[Text(text) for text in texts], **rest)


def read_as(made: Made, other: Made):
    """What reading gives for the bytes of `made` when they are read as `other`."""
    other.content = made.bytes
    return other.document(), other.publications()


def test_the_new_reading_takes_the_place_of_the_old(catalogue, tmp_path, monkeypatch):
    monkeypatch.setattr(taking, "RULES", taking.RULES - 1)
    made = made_of("Old words.", "More old words.")
    copy_id = take(catalogue, tmp_path, made).copy_id
    entry = add_entry(catalogue, copy_id, 1, "R. Quill", "as read", EntryKind.CHAPTERS, "32")
    shop_map.add_row(catalogue, "SB 32-0012", "V", "", "32", "R. Quill", "as read")
    shop_words.add_word(catalogue, "jug", "cylinder", "R. Quill")
    relate(catalogue)
    lists = (shop_map.export_csv(catalogue), shop_words.export_csv(catalogue))
    before, copy = catalogue.history(), catalogue.copy(copy_id)
    monkeypatch.undo()
    assert [each.id for each in catalogue.read_by_older_rules()] == [copy_id]
    taken = catalogue.read_again(copy_id, *read_as(made, made_of("New words.", "32-41-00 words.", "Third.")))
    relate(catalogue)
    assert (taken.copy_id, taken.passages) == (copy_id, 3)
    assert [each.text for each in catalogue.passages_of(f"{copy_id}-1")] == [
        "New words.",
        "32-41-00 words.",
        "Third.",
    ]
    assert catalogue.copy(copy_id) == copy
    assert [(each.id, each.value) for each in entries(catalogue)] == [(entry.id, "32")]
    assert (shop_map.export_csv(catalogue), shop_words.export_csv(catalogue)) == lists
    (noted,) = catalogue.history()[len(before) :]
    assert (noted.event, noted.copy_id) == ("read again", copy_id)
    assert noted.detail.endswith(f"by rules {taking.RULES} in place of {taking.RULES - 1}")
    assert catalogue.read_by_older_rules() == [] and catalogue.status().copies_read_by_older_rules == 0


def test_it_is_as_if_it_had_been_read_so_from_the_start(catalogue, tmp_path):
    made, other = made_of("Old words."), made_of("New words.", "More.")
    copy_id = take(catalogue, tmp_path, made).copy_id
    take(catalogue, tmp_path, directive("2031-04-07", claim(ClaimKind.REQUIRES, "32-0012")))
    relate(catalogue)
    catalogue.read_again(copy_id, *read_as(made, other))
    relate(catalogue)
    with Catalogue.open(tmp_path / "fresh", create=True) as fresh:
        document, publications = read_as(made, other)
        fresh.take(tmp_path / made.file, document, publications)
        take(fresh, tmp_path, directive("2031-04-07", claim(ClaimKind.REQUIRES, "32-0012")))
        relate(fresh)
        assert catalogue.dump() == fresh.dump()


def test_a_directive_that_no_longer_says_so_takes_its_standing_back(catalogue, tmp_path):
    target = take(catalogue, tmp_path, made_of("Replace the fitting.")).copy_id
    required = claim(ClaimKind.REQUIRES, "32-0012", revision="3", date=DATE(2030, 8, 3))
    orders = directive("2031-04-07", required)
    copy_id = take(catalogue, tmp_path, orders).copy_id
    relate(catalogue)
    (passage,) = catalogue.passages_of(f"{target}-1")
    assert passage.standing.value is StandingValue.APPROVED
    with catalogue.database.writing() as connection:
        connection.execute("DELETE FROM outbox")
    catalogue.read_again(copy_id, *read_as(orders, directive("2031-04-07")))
    relate(catalogue)
    (passage,) = catalogue.passages_of(f"{target}-1")
    assert passage.standing.value is StandingValue.UNDETERMINED
    with catalogue.reading() as connection:
        waiting = {row["publication_id"] for row in connection.execute("SELECT * FROM outbox")}
    assert waiting == {f"{target}-1", f"{copy_id}-1"}


def test_another_files_reading_is_refused(catalogue, tmp_path):
    made = made_of("Old words.")
    copy_id = take(catalogue, tmp_path, made).copy_id
    before = catalogue.dump()
    other = made_of("Of another file.")
    with pytest.raises(ValueError, match="is not copy"):
        catalogue.read_again(copy_id, other.document(), other.publications())
    with pytest.raises(PublicationUnknown):
        document, publications = other.document(), other.publications()
        catalogue.read_again(taking.copy_id_of(document.sha256), document, publications)
    assert catalogue.dump() == before


def test_a_crash_in_the_middle_leaves_the_old_reading(catalogue, tmp_path):
    made = made_of("Old words.")
    copy_id = take(catalogue, tmp_path, made).copy_id
    add_entry(catalogue, copy_id, 1, "R. Quill", "as read", EntryKind.CHAPTERS, "32")
    relate(catalogue)
    before, history, generation = catalogue.dump(), catalogue.history(), catalogue.generation
    with catalogue.database.writing() as connection:
        connection.execute(
            "CREATE TRIGGER stop BEFORE INSERT ON passage WHEN NEW.text = 'Second.'"
            " BEGIN SELECT RAISE(ABORT, 'power cut'); END"
        )
    with pytest.raises(sqlite3.IntegrityError, match="power cut"):
        catalogue.read_again(copy_id, *read_as(made, made_of("First.", "Second.")))
    assert (catalogue.dump(), catalogue.history(), catalogue.generation) == (before, history, generation)


def test_a_crash_while_entries_take_effect_leaves_all_as_it_was(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, made_of("Old words.")).copy_id
    relate(catalogue)
    add_entry(catalogue, copy_id, 1, "R. Quill", "as read", EntryKind.NUMBER, "SB 32-0099")
    second_entry(catalogue, 1, "M. Ohler")
    add_entry(catalogue, copy_id, 1, "R. Quill", "as read", EntryKind.CHAPTERS, "32")
    before = catalogue.dump()
    with catalogue.database.writing() as connection:
        connection.execute(
            "CREATE TRIGGER stop BEFORE INSERT ON filed_number BEGIN SELECT RAISE(ABORT, 'power cut'); END"
        )
    with pytest.raises(sqlite3.IntegrityError, match="power cut"):
        relate(catalogue)
    assert catalogue.dump() == before and catalogue.status().relations_pending
    with catalogue.database.writing() as connection:
        connection.execute("DROP TRIGGER stop")
    assert relate(catalogue)
    assert catalogue.publication(f"{copy_id}-1").number == "SB 32-0099"
