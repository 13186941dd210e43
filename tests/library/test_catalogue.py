"""The catalogue keeps what it is given, whole or not at all, and forgets nothing it was not told to."""

import sqlite3
import threading
from dataclasses import replace

import pytest
from making import Made, Text, take
from shop import DATE, bulletin, directive, everything, manual

from indexer.errors import DamagedPdf, FileNotReadable, PageUnknown, PublicationUnknown
from indexer.library.catalogue import Catalogue
from indexer.library.copies import copy_path
from indexer.library.problems import AlreadyHeld, PassageUnknown
from indexer.library.relations import relate
from indexer.reading.page import TextState
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.publication_types import PublicationType as Type


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "in"


# What goes in comes out ------------------------------------------------------------------------------------


def test_everything_taken_is_there_to_be_read(catalogue, folder):
    made = manual("6", DATE(2030, 3, 1))
    document, (publication,) = made.document(), made.publications()
    taken = take(catalogue, folder, made)
    record = catalogue.publication(taken.publications[0])
    assert record.identity == publication.identity
    assert (record.type, record.number, record.revision) == (Type.MAINTENANCE_MANUAL, "D4410-1", "6")
    assert (record.first_page, record.last_page, record.file) == (1, 6, "mm-D4410-1-6.pdf")
    passages = catalogue.passages_of(record.id)
    assert [each.numbers for each in passages] == [tagged.numbers for tagged in publication.passages]
    assert [each.boxes for each in passages] == [tagged.passage.boxes for tagged in publication.passages]
    assert [each.own_standing for each in passages] == [tagged.standing for tagged in publication.passages]
    assert [each.printed_page for each in passages] == ["1", "201", "202", "201", "202", ""]
    assert [page.pdf_page for page in catalogue.pages(record.copy_id)] == [1, 2, 3, 4, 5, 6]
    copy = catalogue.copy(record.copy_id)
    assert (copy.sha256, copy.properties, copy.pages) == (document.sha256, document.properties, 6)
    assert catalogue.copy_file(copy.id).read_bytes() == made.bytes


def test_facts_of_a_directive_are_kept(catalogue, folder):
    made = directive("2031-04-07")
    record = catalogue.publication(take(catalogue, folder, made).publications[0])
    assert record.directive == made.directive
    assert record.bulletin is None


def test_ids_follow_from_the_content(catalogue, folder):
    made = bulletin("1", "A", None)
    taken = take(catalogue, folder, made)
    assert taken.copy_id == made.document().sha256[:16]
    assert taken.publications == (f"{taken.copy_id}-1",)
    assert catalogue.passages_of(taken.publications[0])[2].id == f"{taken.copy_id}-1-2"


def test_a_bound_file_holds_several_works(catalogue, folder):
    made = bulletin("1", "A", None)
    (first,) = made.publications()
    second = replace(first, first_page=2, last_page=2, passages=())
    document = replace(
        made.document(), pages=(*made.document().pages, replace(made.document().pages[0], pdf_page=2))
    )
    taken = catalogue.take(made.write(folder), document, (first, second))
    assert [each.first_page for each in catalogue.publications_in(taken.copy_id)] == [1, 2]


def test_revisions_of_a_work_stand_together_in_order(catalogue, folder):
    for made in (
        manual("7", DATE(2032, 3, 1)),
        manual("6", DATE(2030, 3, 1)),
        manual("1", None, number="D9"),
    ):
        take(catalogue, folder, made)
    works = {each.work_id for each in catalogue.publications()}
    assert len(works) == 2
    found = {tuple(each.revision for each in catalogue.publications_of(work)) for work in works}
    assert found == {("6", "7"), ("1",)}


def test_unknown_ids_are_said_to_be_unknown(catalogue, folder):
    taken = take(catalogue, folder, bulletin("1", "A", None))
    with pytest.raises(PublicationUnknown):
        catalogue.publication("no-such")
    with pytest.raises(PassageUnknown):
        catalogue.passage("no-such")
    with pytest.raises(PageUnknown, match="pages 1 to 1"):
        catalogue.page(taken.copy_id, 2)
    assert catalogue.passages(["no-such", f"{taken.publications[0]}-0"]).keys() == {
        f"{taken.publications[0]}-0"
    }


def test_more_passages_can_be_asked_for_than_sqlite_takes_parameters(catalogue, folder):
    made = bulletin("1", "A", None, texts=[Text(f"Words {number}") for number in range(1200)])
    publication = take(catalogue, folder, made).publications[0]
    wanted = [f"{publication}-{number}" for number in range(1199, -1, -1)]
    found = catalogue.passages(wanted)
    assert list(found) == wanted
    assert len(catalogue.passages_of(publication)) == 1200


# Taken once, replaced, removed -----------------------------------------------------------------------------


def test_the_same_content_is_taken_once_and_its_places_are_kept(catalogue, folder):
    made = bulletin("1", "A", None)
    taken = take(catalogue, folder, made)
    before = catalogue.generation
    with pytest.raises(AlreadyHeld):
        take(catalogue, folder, made)
    assert catalogue.generation == before
    with pytest.raises(AlreadyHeld):
        take(catalogue, folder / "elsewhere", made)
    copy = catalogue.copy(taken.copy_id)
    assert copy.paths == (str(folder / "elsewhere" / made.file), str(folder / made.file))
    assert copy.replaced is None
    assert len(catalogue.publications()) == 1


def test_a_changed_file_is_a_new_copy_and_the_old_one_stays_readable(catalogue, folder):
    old, new = bulletin("1", "A", None), bulletin("1", "B", None)
    new.file = old.file
    first = take(catalogue, folder, old)
    second = take(catalogue, folder, new)
    assert second.replaced == first.copy_id
    assert [each.revision for each in catalogue.publications()] == ["B"]
    assert sorted(each.revision for each in catalogue.publications(replaced=True)) == ["A", "B"]
    record = catalogue.publication(first.publications[0])
    assert record.replaced.copy_id == second.copy_id
    assert len(catalogue.passages_of(record.id)) == 5
    assert catalogue.copy_file(first.copy_id).read_bytes() == old.bytes
    assert [each.event for each in catalogue.history(first.copy_id)] == ["taken", "replaced"]
    assert catalogue.status().replaced_copies == 1


def test_an_old_file_that_comes_back_is_on_the_shelf_again(catalogue, folder):
    old, new = bulletin("1", "A", None), bulletin("1", "B", None)
    new.file = old.file
    take(catalogue, folder, old)
    take(catalogue, folder, new)
    with pytest.raises(AlreadyHeld):
        take(catalogue, folder, old)
    assert [each.revision for each in catalogue.publications()] == ["A"]


def test_a_copy_that_lies_elsewhere_too_is_not_replaced(catalogue, folder):
    old, new = bulletin("1", "A", None), bulletin("1", "B", None)
    new.file = old.file
    take(catalogue, folder, old)
    with pytest.raises(AlreadyHeld):
        take(catalogue, folder / "elsewhere", old)
    take(catalogue, folder, new)
    assert sorted(each.revision for each in catalogue.publications()) == ["A", "B"]


def test_removing_the_newer_file_puts_the_older_one_back(catalogue, folder):
    old, new = bulletin("1", "A", None), bulletin("1", "B", None)
    new.file = old.file
    take(catalogue, folder, old)
    alone = catalogue.dump()
    newer = take(catalogue, folder, new)
    gone = catalogue.remove(newer.copy_id)
    assert gone.sha256 == new.document().sha256
    assert catalogue.dump() == alone
    assert not copy_path(catalogue.folder, gone.sha256).exists()
    assert [each.event for each in catalogue.history(newer.copy_id)] == ["taken", "removed"]


def test_removing_what_is_not_there_changes_nothing(catalogue, folder):
    take(catalogue, folder, bulletin("1", "A", None))
    before = catalogue.generation
    with pytest.raises(PublicationUnknown):
        catalogue.remove("no-such")
    assert catalogue.generation == before


def test_history_can_only_grow(catalogue, folder):
    take(catalogue, folder, bulletin("1", "A", None))
    for statement in ("DELETE FROM history", "UPDATE history SET event = 'never'"):
        with (
            pytest.raises(sqlite3.IntegrityError, match="append only"),
            catalogue.database.writing() as connection,
        ):
            connection.execute(statement)
    assert len(catalogue.history()) == 1


# All or nothing --------------------------------------------------------------------------------------------


def test_a_file_that_changed_after_it_was_read_is_refused(catalogue, folder):
    made = bulletin("1", "A", None)
    path = made.write(folder)
    path.write_bytes(b"%PDF something else")
    with pytest.raises(FileNotReadable, match="changed while"):
        catalogue.take(path, made.document(), made.publications())
    assert catalogue.publications() == []
    assert [each for each in catalogue.folder.rglob("*") if each.suffix in (".pdf", ".unfinished")] == []


BAD_PARTS = {
    "a passage on a page that is not there": lambda one: replace(
        one, passages=(replace(one.passages[0], passage=replace(one.passages[0].passage, pdf_page=9)),)
    ),
    "two passages of one ordinal": lambda one: replace(one, passages=(one.passages[0], one.passages[0])),
}


@pytest.mark.parametrize("spoil", BAD_PARTS.values(), ids=BAD_PARTS)
def test_parts_that_do_not_fit_together_are_refused_whole(catalogue, folder, spoil):
    made = bulletin("1", "A", None)
    (publication,) = made.publications()
    empty = catalogue.dump()
    with pytest.raises(ValueError):
        catalogue.take(made.write(folder), made.document(), (spoil(publication),))
    assert catalogue.dump() == empty


def test_a_file_without_a_row_is_swept(catalogue, folder):
    made = bulletin("1", "A", None)
    take(catalogue, folder, made)
    stray = copy_path(catalogue.folder, "ab" * 32)
    stray.parent.mkdir(parents=True)
    stray.write_bytes(b"%PDF of a run that was stopped")
    stray.with_suffix(".unfinished").write_bytes(b"%PDF")
    assert catalogue.sweep() == 2
    assert catalogue.copy_file(made.document().sha256[:16]).exists()
    assert catalogue.sweep() == 0


# Status, refusals, shop entries ----------------------------------------------------------------------------


def test_status_counts_what_is_on_the_shelf(catalogue, folder):
    texts = [
        Text("one", number=ChapterNumber("32", "41")),
        Text("two", number=ChapterNumber("5", scheme=Scheme.OWN)),
        Text("three"),
    ]
    made = bulletin("1", "A", None, texts=texts)
    document = made.document()
    states = (TextState.TEXT, TextState.BLANK, TextState.NO_TEXT, TextState.GARBLED, TextState.FAILED)
    pages = tuple(
        replace(document.pages[0], pdf_page=number, state=state) for number, state in enumerate(states, 1)
    )
    catalogue.take(made.write(folder), replace(document, pages=pages), made.publications())
    status = catalogue.status()
    assert (status.copies, status.publications, status.pages, status.passages) == (1, 1, 5, 3)
    assert status.pages_without_text == 3
    assert status.pages_by_state == {state.value: 1 for state in states}
    assert status.passages_not_numbered == 2  # a manual's own number is no chapter
    assert status.publications_by_type == {"service-bulletin": 1}
    assert status.relations_pending
    relate(catalogue)
    assert not catalogue.status().relations_pending


def test_status_follows_every_change(catalogue, folder):
    assert catalogue.status().publications == 0
    taken = take(catalogue, folder, bulletin("1", "A", None))
    assert catalogue.status().publications == 1
    catalogue.remove(taken.copy_id)
    assert catalogue.status().publications == 0


def test_each_change_makes_one_generation(catalogue, folder):
    old, new = bulletin("1", "A", None), bulletin("1", "B", None)
    new.file = old.file
    seen = [catalogue.generation]
    take(catalogue, folder, old)
    seen.append(catalogue.generation)
    newer = take(catalogue, folder, new)
    seen.append(catalogue.generation)
    catalogue.remove(newer.copy_id)
    seen.append(catalogue.generation)
    assert seen == [0, 1, 2, 3]


def test_a_refused_file_is_listed_until_it_is_taken(catalogue, folder):
    made = bulletin("1", "A", None)
    path = made.write(folder)
    catalogue.refuse(path, DamagedPdf(str(path), "no end mark"), "ab" * 32)
    catalogue.refuse(path, DamagedPdf(str(path), "no start mark"), "cd" * 32)
    (refused,) = catalogue.refused()
    assert (refused.path, refused.slug, refused.sha256) == (str(path), "damaged-pdf", "cd" * 32)
    assert "no start mark" in refused.what and refused.remedy
    assert catalogue.status().refused == (refused,)
    take(catalogue, folder, made)
    assert catalogue.refused() == ()


# Many at once ----------------------------------------------------------------------------------------------


def test_a_reader_sees_one_state_while_others_write(catalogue, folder):
    with catalogue.reading():
        before = (catalogue.generation, len(catalogue.publications()))
        writer = threading.Thread(target=take, args=(catalogue, folder, bulletin("1", "A", None)))
        writer.start()
        writer.join()
        assert (catalogue.generation, len(catalogue.publications())) == before
    assert len(catalogue.publications()) == 1


def test_readers_in_many_threads_never_see_half_a_publication(catalogue, folder):
    stop = threading.Event()
    problems = []

    def read():
        try:
            while not stop.is_set():
                with catalogue.reading():
                    status = catalogue.status()
                    records = catalogue.publications()
                    passages = sum(len(catalogue.passages_of(record.id)) for record in records)
                    if (status.publications, status.passages) != (len(records), passages):
                        problems.append((status.publications, len(records), status.passages, passages))
        except Exception as problem:
            problems.append(problem)

    readers = [threading.Thread(target=read) for _ in range(4)]
    for reader in readers:
        reader.start()
    try:
        for made in everything():
            take(catalogue, folder, made)
            relate(catalogue)
    finally:
        stop.set()
        for reader in readers:
            reader.join()
    assert problems == []


def test_a_publication_without_any_identity_is_kept_as_such(catalogue, folder):
    record = catalogue.publication(take(catalogue, folder, Made("unknown.pdf")).publications[0])
    assert (record.type, record.number, record.title, record.revision, record.date) == (
        None,
        "",
        "",
        "",
        None,
    )
