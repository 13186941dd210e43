"""A run of OCR with an engine that does to each page what its line says: what is kept, used, and when."""

import threading
from dataclasses import replace

import fake_ocr
import pytest

from indexer.errors import LibraryBusy
from indexer.ingest import ingest, read_again
from indexer.library import taking
from indexer.library.catalogue import Catalogue
from indexer.library.lock import only_one, only_one_ocr
from indexer.library.ocr_pages import (
    debt,
    failed_pages,
    pages_of,
    pages_to_read,
    recognized_in,
    unread_pages_of,
    waiting_copies,
)
from indexer.library.ocr_records import MOST_TRIES
from indexer.library.ocr_state import at_work, last_state
from indexer.library.ocr_wants import note_missed, note_wanted
from indexer.library.problems import OcrAtWork
from indexer.library.records import EntryKind, EntryState
from indexer.library.shop_entries import add_entry, entries
from indexer.ocr_at_fault import pages_at_fault
from indexer.ocr_placing import NotPutInPlace, PageUnusable, PutInPlace, wait_s
from indexer.ocr_run import Limits, PageRead, PagesFound, recognize_pages
from indexer.settings import Settings

SETTINGS = Settings(workers=2, file_time_limit_s=20, ocr_page_time_limit_s=20, worker_memory_mb=800)
MANUAL = "MM-1 digital title page\nscan:brake tie bolts\nscan:torque of the bolts\nlast page"
SCANNED = "scan:PC-2 parts catalog\nscan:wheel half\nscan:tie bolt"


@pytest.fixture
def folder(tmp_path):
    made = tmp_path / "publications"
    made.mkdir()
    (made / "manual.pdf").write_text(MANUAL)
    (made / "scanned.pdf").write_text(SCANNED)
    return made


@pytest.fixture
def library(tmp_path, folder):
    return taken(folder, tmp_path / "library")


def taken(folder, library):
    assert not ingest([folder], library, SETTINGS, read=fake_ocr.read).refused
    return library


def run(library, settings=SETTINGS, engine=None, read=fake_ocr.read, **rest):
    engine = engine or fake_ocr.Engine()
    return recognize_pages(library, settings, engine, recognize=fake_ocr.recognize, read=read, **rest)


def one_worker():
    return replace(SETTINGS, workers=1)


def order_of(library, **rest) -> list[tuple[str, int]]:
    """The pages of a run with one worker, as they were read."""
    events = []
    run(library, one_worker(), progress=events.append, **rest)
    return [(event.page.file, event.page.pdf_page) for event in events if isinstance(event, PageRead)]


def copies(catalogue) -> dict[str, str]:
    return {copy.file: copy.id for copy in catalogue.copies()}


def texts(library) -> dict[str, list[str]]:
    with Catalogue.open(library) as catalogue:
        return {
            record.file: [each.text for each in catalogue.passages_of(record.id)]
            for record in catalogue.publications()
        }


def dump(library) -> str:
    with Catalogue.open(library) as catalogue:
        return catalogue.dump()


def test_what_ocr_read_is_searched_beside_the_digital_text(library):
    assert texts(library) == {"manual.pdf": ["MM-1 digital title page", "last page"], "scanned.pdf": []}
    with Catalogue.open(library) as catalogue:
        owed = debt(catalogue)
        assert (owed.pages_unread, owed.pages_failed, owed.publications) == (5, 0, 2)
        assert (owed.running, owed.seconds_left) == (False, None)
        assert unread_pages_of(catalogue, f"{copies(catalogue)['manual.pdf']}-1") == (2, 3)
    events = []
    report = run(library, progress=events.append)
    assert (report.read, report.failed, report.left, report.placed) == (5, [], 0, 2)
    assert events[0] == PagesFound(5, "fake 1.0")
    assert texts(library) == {
        "manual.pdf": ["MM-1 digital title page", "brake tie bolts", "torque of the bolts", "last page"],
        "scanned.pdf": ["PC-2 parts catalog", "wheel half", "tie bolt"],
    }
    with Catalogue.open(library) as catalogue:
        assert (debt(catalogue).pages_unread, debt(catalogue).publications) == (0, 0)
        assert pages_to_read(catalogue) == [] and waiting_copies(catalogue) == []
        assert catalogue.publication(f"{copies(catalogue)['scanned.pdf']}-1").number == "PC-2"
        assert not catalogue.status().relations_pending
    assert run(library).read == 0


def test_the_index_is_fed_as_copies_are_put_in_place(library):
    class Index:
        at = None

        def generation(self):
            return self.at

        def rebuild(self, generation, passages):
            self.at, self.texts = generation, {each.text for each in passages}

        def apply(self, generation, gone, passages):
            self.at = generation
            self.texts |= {each.text for each in passages}

    index = Index()
    run(library, index=index)
    assert "torque of the bolts" in index.texts and "tie bolt" in index.texts
    with Catalogue.open(library) as catalogue:
        assert index.at == catalogue.generation


def test_page_by_page_comes_to_the_same_as_all_at_once(library, folder, tmp_path):
    other = taken(folder, tmp_path / "other")
    while run(library, limits=Limits(pages=1)).left:
        pass
    run(other)
    assert dump(library) == dump(other)
    with Catalogue.open(library) as catalogue:  # each of the five runs put its page in place
        assert sum(entry.event == "read again" for entry in catalogue.history()) == 5


def test_keeping_a_page_makes_no_generation_and_the_debt_shrinks_when_it_is_searched(library):
    with Catalogue.open(library) as catalogue, only_one(library):
        before = catalogue.generation
        stop = threading.Event()
        done = threading.Thread(target=lambda: run(library, limits=Limits(stopped=stop)))
        done.start()
        while pages_to_read(catalogue):
            assert done.is_alive()
        assert catalogue.generation == before
        assert debt(catalogue).pages_unread == 5, "read, and not searched yet"
        assert debt(catalogue).running
        stop.set()
        done.join()
        assert waiting_copies(catalogue) == sorted(copies(catalogue).values())
    report = run(library)  # nothing is left to be read: what waits is put in place
    assert (report.read, report.placed) == (0, 2)
    with Catalogue.open(library) as catalogue:
        assert debt(catalogue).pages_unread == 0


def test_a_page_that_fails_holds_up_no_other_and_is_tried_in_three_runs(library, folder):
    (folder / "bad.pdf").write_text("BM-3 title\nscan:unreadable\nscan:good\nscan:exit")
    taken(folder, library)
    for tries in range(1, MOST_TRIES + 1):
        report = run(library)
        assert len(report.failed) == 2 and report.placed == (3 if tries == 1 else 0)
        with Catalogue.open(library) as catalogue:
            failed = failed_pages(catalogue)
            assert [(each.file, each.pdf_page, each.tries) for each in failed] == [
                ("bad.pdf", 2, tries),
                ("bad.pdf", 4, tries),
            ]
            left = (0, 2) if tries == MOST_TRIES else (2, 0)
            assert (debt(catalogue).pages_unread, debt(catalogue).pages_failed) == left
    assert failed[0].problem.startswith("bad.pdf, PDF page 2: OCR could not read this page")
    assert failed[1].problem == "bad.pdf, PDF page 4: reading it stopped the worker (it ended with code 7)."
    assert run(library).failed == [], "no longer tried by itself"
    assert texts(library)["bad.pdf"] == ["BM-3 title", "good"]
    with Catalogue.open(library) as catalogue:
        asked = pages_of(catalogue, f"{copies(catalogue)['bad.pdf']}-1", 2, 2)
    assert len(run(library, only=asked).failed) == 1, "tried when it is asked for"


def test_a_hanging_page_ends_at_its_time_limit(library, folder, monkeypatch):
    monkeypatch.setattr("indexer.ocr_run._GRACE_S", 0.0)
    (folder / "hangs.pdf").write_text("HM-4 title\nscan:hang")
    taken(folder, library)
    report = run(library, replace(SETTINGS, ocr_page_time_limit_s=2.0))
    assert report.read == 5
    ((page, why),) = report.failed
    assert page.file == "hangs.pdf" and why == "hangs.pdf, PDF page 2: reading it took more than 2 seconds."


def test_a_copy_that_cannot_be_read_again_stays_as_it_was(library):
    before = texts(library)
    events = []
    report = run(library, read=fake_ocr.read_badly, progress=events.append)
    assert report.read == 5 and report.placed == 0
    assert [each.problem.slug for each in report.not_placed] == ["reading-crashed"] * len(report.not_placed)
    assert {each.file for each in events if isinstance(each, NotPutInPlace)} == {"manual.pdf", "scanned.pdf"}
    assert texts(library) == before
    assert last_state(library).ended == "2 files could not be put in place"
    assert last_state(library).not_placed == tuple(each.words for each in report.not_placed)
    scanned = next(each for each in report.not_placed if each.file == "scanned.pdf")
    assert scanned.pages == 3 and scanned.words == (
        "scanned.pdf: 3 pages were read, but the file could not be put in place: reading it stopped the"
        " worker (KeyError: 'a mistake of ours'). What was read is kept; try again with: hangarleaf ocr. If"
        " that fails too, print the file to a new PDF and ingest that."
    )
    with Catalogue.open(library) as catalogue:
        owed = debt(catalogue)
        assert (owed.pages_unread, owed.not_placed, owed.pages_failed) == (5, 5, 0)
    assert run(library).placed == 2, "what was read was kept for the next run"
    with Catalogue.open(library) as catalogue:
        assert debt(catalogue).not_placed == 0 and last_state(library).not_placed == ()


def test_a_page_that_cannot_be_used_costs_that_page_only(library, folder):
    lines = [
        "BM-3 title",
        *(f"scan:good {number}" for number in range(9)),
        "scan:poison",
        "scan:venom",
        "scan:end",
    ]
    (folder / "bad.pdf").write_text("\n".join(lines))
    (folder / "one.pdf").write_text("scan:poison alone")
    taken(folder, library)
    events = []
    report = run(library, read=fake_ocr.read_but, progress=events.append)
    assert (report.not_placed, report.left, report.placed) == ([], 0, 4)
    assert (report.read, len(report.failed)) == (5 + 10, 3)
    assert {(each.page.file, each.page.pdf_page) for each in events if isinstance(each, PageUnusable)} == {
        ("bad.pdf", 11), ("bad.pdf", 12), ("one.pdf", 1)
    }  # fmt: skip
    assert texts(library)["bad.pdf"] == ["BM-3 title", *(f"good {number}" for number in range(9)), "end"]
    with Catalogue.open(library) as catalogue:
        owed = debt(catalogue)
        assert (owed.pages_unread, owed.pages_failed, owed.not_placed) == (0, 3, 0)
        assert waiting_copies(catalogue) == []
        failed = {(each.file, each.pdf_page): each for each in failed_pages(catalogue)}
        asked = pages_of(catalogue, f"{copies(catalogue)['bad.pdf']}-1", 11, 12)
    assert failed["bad.pdf", 11].problem == (
        "bad.pdf, PDF page 11: OCR read it, but what it read cannot be used: reading it stopped the worker"
        " (KeyError: 'a mistake of ours')."
    )
    assert "it ended with code 9" in failed["bad.pdf", 12].problem
    assert all(each.tries == 0 and not each.tried_again for each in failed.values())
    state = last_state(library)
    assert (state.ended, state.done, state.failed) == ("all pages are read", 15, 3)
    assert run(library, read=fake_ocr.read_but).failed == [], "it is not tried by itself again"
    assert run(library, only=asked).placed == 1, "it is used where it can be once it is read anew"
    assert "poison" in texts(library)["bad.pdf"]


def test_pages_at_fault_are_found_in_few_readings():
    for bad in ({37}, {1}, {100}, {3, 4, 90}, {50, 51}):
        asked = []

        def fails(pages, bad=bad, asked=asked):
            asked.append(pages)
            return bool(bad & set(pages))

        assert pages_at_fault(fails, range(1, 101)) == sorted(bad)
        assert len(asked) <= 16 * len(bad) + 2
    assert pages_at_fault(lambda pages: True, [1, 2, 3]) == [], "it fails without any of them"
    assert pages_at_fault(lambda pages: 2 in pages, [3, 4], [1, 2]) == [2], "one that was used before"
    assert pages_at_fault(lambda pages: {2, 5} <= set(pages), range(1, 7)) == [5], (
        "two that do not go together"
    )


# In which order -------------------------------------------------------------------------------------------


def test_pages_that_tell_an_unknown_publication_come_first_and_are_put_in_place_at_once(library):
    events = []
    run(library, one_worker(), progress=events.append)
    told = [event for event in events if isinstance(event, (PageRead, PutInPlace))]
    assert told[0].page.file == "scanned.pdf" and told[0].page.pdf_page == 1
    assert isinstance(told[1], PutInPlace) and told[1].file == "scanned.pdf"
    assert [(each.page.file, each.page.pdf_page) for each in told[2:] if isinstance(each, PageRead)] == [
        ("manual.pdf", 2),
        ("manual.pdf", 3),
        ("scanned.pdf", 2),
        ("scanned.pdf", 3),
    ]


def test_what_was_opened_and_what_was_missed_is_read_first(library):
    with Catalogue.open(library) as catalogue:
        note_wanted(catalogue, copies(catalogue)["scanned.pdf"], 3)
        note_wanted(catalogue, copies(catalogue)["manual.pdf"], 3)
        note_missed(catalogue, "PC-2 tie bolts")
    assert order_of(library) == [
        ("manual.pdf", 3),
        ("scanned.pdf", 3),
        ("scanned.pdf", 1),
        ("scanned.pdf", 2),  # once its first page has told that it is PC-2
        ("manual.pdf", 2),
    ]


def test_the_next_page_is_chosen_anew_after_each(library, folder, tmp_path):
    go = tmp_path / "go"
    (folder / "held.pdf").write_text(f"AA-1 title\nscan:until:{go}\n" + "\n".join(["scan:rest"] * 5))
    taken(folder, library)
    with Catalogue.open(library) as catalogue:
        held = copies(catalogue)["held.pdf"]
        note_wanted(catalogue, held, 2)

        def wish(event):
            if isinstance(event, PagesFound):
                threading.Thread(target=_want_and_go).start()

        def _want_and_go():
            with Catalogue.open(library) as other:
                note_wanted(other, held, 7)
            go.write_text("go")

        events = []
        run(library, one_worker(), progress=lambda event: (wish(event), events.append(event)))
    order = [(event.page.file, event.page.pdf_page) for event in events if isinstance(event, PageRead)]
    assert order[:2] == [("held.pdf", 2), ("held.pdf", 7)]


# Limits, other runs, other changes ------------------------------------------------------------------------


def test_a_run_ends_at_its_number_of_pages(library):
    report = run(library, limits=Limits(pages=2))
    assert (report.read, report.left) == (2, 3)
    assert not at_work(last_state(library)) and last_state(library).ended == "stopped at its limit"
    assert run(library, limits=Limits(minutes=1e-9)).read == 0


def test_a_copy_that_is_taken_out_while_it_is_read_is_passed_over(library, folder, tmp_path):
    go = tmp_path / "go"
    (folder / "held.pdf").write_text(f"AA-1 title\nscan:until:{go}\nscan:rest\nscan:rest")
    taken(folder, library)
    with Catalogue.open(library) as catalogue:
        held = copies(catalogue)["held.pdf"]
        note_wanted(catalogue, held, 2)

    def take_out():
        with Catalogue.open(library) as other:
            other.remove(held)
        go.write_text("go")

    def wish(event):
        if isinstance(event, PagesFound):
            taking_out.append(threading.Thread(target=take_out))
            taking_out[0].start()

    taking_out = []
    report = run(library, one_worker(), progress=wish)
    taking_out[0].join()
    assert (report.left, report.failed, report.placed) == (0, [], 2)
    with Catalogue.open(library) as catalogue:
        assert "held.pdf" not in copies(catalogue) and debt(catalogue).pages_unread == 0


def test_two_runs_at_a_time_are_refused(library):
    with only_one_ocr(library), pytest.raises(OcrAtWork):
        run(library)
    assert run(library).read == 5


def test_pages_are_read_while_the_library_is_busy_and_put_in_place_afterwards(library):
    events = []
    with Catalogue.open(library) as catalogue:
        with only_one(library):
            done = threading.Thread(target=lambda: run(library, progress=events.append))
            done.start()
            while pages_to_read(catalogue):
                assert done.is_alive()
            assert not any(isinstance(event, PutInPlace) for event in events)
            with pytest.raises(LibraryBusy):
                ingest([library.parent / "publications"], library, SETTINGS, read=fake_ocr.read)
        done.join()
        assert debt(catalogue).pages_unread == 0
    assert "tie bolt" in texts(library)["scanned.pdf"]


def test_without_an_engine_only_what_was_read_before_is_put_in_place(library):
    report = recognize_pages(library, SETTINGS, None, recognize=fake_ocr.recognize, read=fake_ocr.read)
    assert (report.read, report.left, report.placed) == (0, 5, 0)
    assert last_state(library).ended == "no OCR engine is installed"


def test_reading_again_by_newer_rules_uses_what_ocr_read(library, monkeypatch):
    run(library)
    before = dump(library)
    report = read_again(library, SETTINGS, everything=True, read=fake_ocr.read)
    assert len(report.taken) == 2 and dump(library) == before
    with Catalogue.open(library) as catalogue:
        assert debt(catalogue).pages_unread == 0 and waiting_copies(catalogue) == []
        assert "by rules" in catalogue.history()[-1].detail and "by OCR" in catalogue.history()[-1].detail
        assert catalogue.read_by_older_rules() == [] and taking.RULES


def test_pages_go_with_their_copy_and_are_kept_where_the_same_file_is_found_again(library, folder):
    run(library)
    (folder / "taken twice.pdf").write_text(SCANNED)
    taken(folder, library)
    with Catalogue.open(library) as catalogue:
        copy_id = copies(catalogue)["scanned.pdf"]
        assert len(recognized_in(catalogue, copy_id)) == 3 and pages_to_read(catalogue) == []
        catalogue.remove(copy_id)
        assert recognized_in(catalogue, copy_id) == {}
    taken(folder, library)
    with Catalogue.open(library) as catalogue:
        assert {page.copy_id for page in pages_to_read(catalogue)} == {copy_id}
    assert run(library).read == 3


def test_pages_of_a_replaced_file_are_not_read(library, folder):
    (folder / "scanned.pdf").write_text("scan:PC-2 parts catalog\nscan:another revision")
    taken(folder, library)
    with Catalogue.open(library) as catalogue:
        assert debt(catalogue).pages_unread == 4
        assert sum(page.file == "scanned.pdf" for page in pages_to_read(catalogue)) == 2


def test_an_entry_of_the_shop_survives_beside_pages_that_come_in(library):
    with Catalogue.open(library) as catalogue:
        manual, scanned = copies(catalogue)["manual.pdf"], copies(catalogue)["scanned.pdf"]
        add_entry(catalogue, manual, 4, "R. Quill", "as read", EntryKind.CHAPTERS, "32", quote="last page")
        add_entry(catalogue, scanned, 2, "R. Quill", "seen on the picture", EntryKind.CHAPTERS, "32-41")
    run(library, limits=Limits(pages=3))
    run(library)
    with Catalogue.open(library) as catalogue:
        assert [entry.state for entry in entries(catalogue)] == [EntryState.IN_FORCE] * 2
        filed = {
            (each.copy_id, each.pdf_page): [str(tag.value) for tag in each.numbers]
            for record in catalogue.publications()
            for each in catalogue.passages_of(record.id)
        }
    assert filed[manual, 4] == ["32"] and filed[manual, 2] == []
    assert filed[scanned, 2] == ["32-41"] and filed[scanned, 3] == []


def test_pages_are_read_anew_by_another_engine_when_asked(library):
    run(library)
    with Catalogue.open(library) as catalogue:
        publication = f"{copies(catalogue)['scanned.pdf']}-1"
        asked = pages_of(catalogue, publication, 2)
    assert [page.pdf_page for page in asked] == [2, 3]
    report = run(library, engine=fake_ocr.OtherEngine(), only=asked)
    assert (report.read, report.left) == (2, 0)
    assert texts(library)["scanned.pdf"] == ["PC-2 parts catalog", "WHEEL HALF", "TIE BOLT"]


def test_the_background_leaves_at_once_when_it_is_told_to_stop(library, folder):
    (folder / "hangs.pdf").write_text("HM-4 title\nscan:hang")
    taken(folder, library)
    stop = threading.Event()
    reports = []
    thread = threading.Thread(
        target=lambda: reports.append(
            run(library, limits=Limits(stopped=stop), background=True, progress=lambda event: read.set())
        )
    )
    read = threading.Event()
    thread.start()
    assert read.wait(60)
    stop.set()
    thread.join(30)
    assert not thread.is_alive()
    (report,) = reports
    assert report.left >= 1 and not at_work(last_state(library))
    assert last_state(library).ended == "stopped"


@pytest.mark.parametrize(
    ("took_s", "waits_s"), [(None, 60.0), (0.2, 60.0), (3.0, 60.0), (3.5, 70.0), (60.0, 1200.0)]
)
def test_putting_in_place_takes_a_twentieth_of_the_time_at_most(took_s, waits_s):
    assert wait_s(took_s) == waits_s
