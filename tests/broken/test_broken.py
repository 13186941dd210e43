"""Every damaged or difficult file is refused with its reason, or taken with the right state on each page."""

import sys

import makers
import pytest

from indexer.errors import FileRefused
from indexer.ingest import ingest
from indexer.reading.document import read_document
from indexer.reading.page import TextState
from indexer.settings import Settings

TEXT, BLANK, NO_TEXT = TextState.TEXT, TextState.BLANK, TextState.NO_TEXT
FAILED, GARBLED = TextState.FAILED, TextState.GARBLED

REFUSED = {  # maker: slug, or the slugs that would each be right
    makers.empty_file: "empty-file",
    makers.text_renamed: "not-a-pdf",
    makers.web_page_saved: "not-a-pdf",
    makers.picture_renamed: "not-a-pdf",
    makers.truncated_in_the_middle: "damaged-pdf",
    makers.end_cut_off: "damaged-pdf",
    makers.no_pages: "no-pages",
    makers.no_page_tree: "no-pages damaged-pdf",
    makers.only_a_cycle: "no-pages damaged-pdf",
    makers.user_password: "password-needed",
    makers.foreign_lock: "password-needed",
}

TAKEN = {  # maker: state of each page
    makers.owner_password_only: (TEXT, TEXT),
    makers.page_object_missing: (TEXT, FAILED, TEXT),
    makers.broken_xref: (TEXT,),
    makers.wrong_startxref: (TEXT,),
    makers.junk_before_header: (TEXT,),
    makers.cyclic_page_tree: (TEXT, FAILED),
    makers.page_count_a_lie: (TEXT, *(FAILED,) * 399),
    makers.outline_in_a_ring: (TEXT,),
    makers.outline_very_deep: (TEXT,),
    makers.nested_forms: (TEXT,),
    makers.nested_brackets: (TEXT,),
    makers.huge_numbers: (TEXT,),
    makers.huge_picture: (NO_TEXT,),
    makers.huge_pages: (TEXT, TEXT),
    makers.odd_page_boxes: (TEXT, TEXT, TEXT),
    makers.dense_drawing: (TEXT,),
    makers.script_and_attachment: (TEXT,),
    makers.text_outside_the_page: (TEXT,),
    makers.blank_scan_and_drawing: (BLANK, NO_TEXT, NO_TEXT),
    makers.garbled_text: (GARBLED,),
    makers.shifted_text: (GARBLED,),
}

SETTINGS = Settings()


def name_of(maker) -> str:
    return maker.__name__


def made(maker, folder):
    path = folder / f"{maker.__name__}.pdf"
    maker(path)
    return path


def words_on(page) -> list[str]:
    return [word for line in (*page.head, *page.body, *page.foot) for word in line.text.split()]


def assert_told_to_a_person(problem: FileRefused, path) -> None:
    """The message names the file and what is wrong, and says what to do."""
    assert path.name in problem.what
    assert len(problem.what) > len(path.name) + 10
    assert problem.remedy.strip().endswith(".")


@pytest.mark.parametrize("maker, slugs", REFUSED.items(), ids=map(name_of, REFUSED))
def test_a_file_that_cannot_be_read_is_refused_with_its_reason(maker, slugs, tmp_path):
    path = made(maker, tmp_path)
    before = path.read_bytes()
    with pytest.raises(FileRefused) as raised:
        read_document(path, SETTINGS)
    assert raised.value.slug in slugs.split()
    assert_told_to_a_person(raised.value, path)
    assert path.read_bytes() == before


@pytest.mark.parametrize("maker, states", TAKEN.items(), ids=map(name_of, TAKEN))
def test_a_difficult_file_is_taken_and_each_page_says_its_state(maker, states, tmp_path):
    path = made(maker, tmp_path)
    document = read_document(path, SETTINGS)
    assert tuple(page.state for page in document.pages) == states
    assert [page.pdf_page for page in document.pages] == list(range(1, len(states) + 1))
    for page in document.pages:
        if page.state is FAILED:
            assert page.problem
        if page.state is TEXT:
            assert "brake" in words_on(page)


def test_a_page_whose_content_is_corrupt_is_never_called_blank(tmp_path):
    """BLANK would mean that search has missed nothing. The good pages round it are taken."""
    document = read_document(made(makers.packed_stream_corrupt, tmp_path), SETTINGS)
    first, corrupt, last = document.pages
    assert (first.state, last.state) == (TEXT, TEXT)
    assert corrupt.state in (FAILED, NO_TEXT)


@pytest.mark.parametrize("maker", [makers.only_a_stamp, makers.one_word_off_the_edge], ids=name_of)
def test_a_page_that_shows_something_is_never_called_blank(maker, tmp_path):
    page = read_document(made(maker, tmp_path), SETTINGS).pages[0]
    assert page.state in (TEXT, NO_TEXT)


def test_what_was_typed_in_a_form_is_found_or_its_absence_is_told(tmp_path):
    document = read_document(made(makers.filled_form, tmp_path), SETTINGS)
    told = " ".join(document.notes).casefold()
    assert "40T3241-1" in words_on(document.pages[0]) or "form" in told


def test_all_of_a_hundred_thousand_texts_are_there(tmp_path):
    page = read_document(made(makers.hundred_thousand_texts, tmp_path), SETTINGS).pages[0]
    assert page.state is TEXT
    shown = set(words_on(page))
    assert sum(f"w{n}" in shown for n in range(100_000)) >= 99_000


def test_text_outside_the_page_is_not_text_of_the_page(tmp_path):
    """Nobody sees it on the page picture, so a hit on it would point at nothing."""
    page = read_document(made(makers.text_outside_the_page, tmp_path), SETTINGS).pages[0]
    assert "brake" in words_on(page)
    assert not {"LEFTOUT", "ABOVEOUT"} & set(words_on(page))


def test_scripts_and_attachments_are_left_alone(tmp_path):
    document = read_document(made(makers.script_and_attachment, tmp_path), SETTINGS)
    told = " ".join([*words_on(document.pages[0]), *(passage.text for passage in document.passages)])
    assert "SCRIPTWORD" not in told
    assert "ATTACHEDWORD" not in told


def test_a_suffix_in_capitals_is_a_pdf_too(tmp_path):
    folder = tmp_path / "in"
    folder.mkdir()
    makers.broken_xref(folder / "MANUAL.PDF")
    report = ingest([folder], tmp_path / "library", SETTINGS)
    assert [event.path.name for event in report.taken] == ["MANUAL.PDF"]


def test_a_file_that_is_gone_says_so(tmp_path):
    path = tmp_path / "gone.pdf"
    with pytest.raises(FileRefused) as raised:
        read_document(path, SETTINGS)
    assert raised.value.slug == "file-vanished"
    assert_told_to_a_person(raised.value, path)


def test_a_folder_named_like_a_pdf_cannot_be_read(tmp_path):
    path = tmp_path / "folder.pdf"
    path.mkdir()
    with pytest.raises(FileRefused) as raised:
        read_document(path, SETTINGS)
    assert raised.value.slug == "file-not-readable"
    assert_told_to_a_person(raised.value, path)


def test_more_pages_than_the_limit_are_too_large(tmp_path):
    path = made(makers.page_object_missing, tmp_path)
    with pytest.raises(FileRefused) as raised:
        read_document(path, Settings(max_pages=2))
    assert raised.value.slug == "too-large"
    assert "HANGARLEAF_MAX_PAGES" in raised.value.remedy


@pytest.mark.skipif(sys.platform != "linux", reason="a worker's memory is limited on Linux only")
def test_one_hang_one_crash_and_two_bombs_cost_only_themselves(tmp_path):
    """The dangerous files stand among two hundred good ones; each good one is taken."""
    folder = tmp_path / "in"
    folder.mkdir()
    for n in range(200):
        path = folder / f"good-{n:03}.pdf"
        makers.broken_xref(path)
        path.write_bytes(path.read_bytes() + b"%% copy %d\n" % n)
    dangerous = {
        makers.hang: {"reading-too-slow"},
        makers.crash: {"reading-crashed"},
        makers.bomb: {"reading-crashed"},
        makers.forms_without_end: {"reading-crashed", "reading-too-slow"},
    }
    for k, maker in enumerate(dangerous):
        maker(folder / f"good-{40 * (k + 1):03}-{maker.__name__}.pdf")
    settings = Settings(workers=2, file_time_limit_s=12, worker_memory_mb=800)
    report = ingest([folder], tmp_path / "library", settings)
    found = {refused.path.stem.split("-")[-1]: refused for refused in report.refused}
    assert found.keys() == {maker.__name__ for maker in dangerous}
    for maker, slugs in dangerous.items():
        assert found[maker.__name__].slug in slugs
        assert found[maker.__name__].remedy
    assert len(report.taken) == 200
