"""No yes beside a directive that forbids a part of the entry.

That a directive forbids a part by its number in a sentence or over a list, and in these words, is how the FAA
writes "Parts Installation Prohibition" (14 CFR 39.11: what a directive requires; wording from memory); the
numbers are our own fiction.
"""

from dataclasses import replace

import pytest
from conftest import ROOT

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.settings import Settings
from indexer.trade.evidence import Answer, Origin
from server.checking import part_numbers_named
from server.checking.findings import Enough
from server.checking.parts_forbidden import forbidding_words, lowered, why_forbidden
from server.demo import DAY
from server.opened import OpenedLibrary
from server.parts_printed import in_directives
from server.sourcecheck import check

PAPERS = ("ad-2031-07-11", "sb-qz62-32-0114-rev-c", "qz62-parts-catalog", "qz62-maintenance-manual")
MANUAL = "QZ62 Maintenance Manual Rev 6, 32-42-00 page 401"
BULLETIN = "SB QZ62-32-0114 Rev C"
WHY = "AD 2031-07-11 (h) forbids installing QZ32-4421-3: read it before use."


@pytest.fixture(scope="module")
def held(tmp_path_factory):
    """A directive that forbids a bolt, and the bulletin, manual and parts catalog that name it."""
    folder = tmp_path_factory.mktemp("forbidden") / "library"
    with Catalogue.open(folder, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    files = [ROOT / "sample_docs" / "pdf" / f"{name}.pdf" for name in PAPERS]
    assert not ingest(files, folder, Settings(library=str(folder))).refused
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


def answers(held, number, source, deed="Installed", work=""):
    (finding,) = check(held, f"{deed} four tie bolts {number} IAW {source}.", work=work, keep=False).findings
    return finding


@pytest.mark.parametrize("source", [MANUAL, BULLETIN])
@pytest.mark.parametrize(
    "number",
    ["P/N QZ32-4421-3", "QZ32-4421-3", "P/N qz32 4421 3", "qz32 4421 3", "P/N qz3244213", "qz3244213"],
)
def test_a_yes_is_lowered_where_a_directive_forbids_the_part(held, number, source):
    asked = answers(held, number, source)
    same = answers(held, "", source)
    assert same.enough["minor"].answer is Answer.YES
    assert asked.enough["minor"].answer is Answer.CANNOT_TELL
    for work, answer in asked.enough.items():
        assert answer.answer is not Answer.YES
        if same.enough[work].answer is Answer.YES:
            assert answer.why.startswith(WHY) and answer.why.endswith(same.enough[work].why)
        else:
            assert answer == same.enough[work]
    assert asked.notes[0].startswith("AD 2031-07-11 names part number")
    assert any(each.startswith("For what cannot be told: ") for each in asked.ask)


def test_an_entry_that_removes_the_part_ends_in_cannot_tell_too(held):
    assert answers(held, "P/N QZ32-4421-3", MANUAL, "Removed").enough["minor"].why.startswith(WHY)


@pytest.mark.parametrize("source", [MANUAL, BULLETIN])
@pytest.mark.parametrize("number", ["P/N QZ32-4421-5", "QZ32-4421-31", "P/N QZ32 44213", "P/N QZ32-4421"])
def test_another_number_changes_no_answer(held, number, source):
    asked = answers(held, number, source)
    assert asked.enough == answers(held, "", source).enough
    assert not any("names part number" in each for each in asked.notes)


def told(held, monkeypatch, **passage):
    """The finding for the manual, with the directive's passage as given."""
    with held.reading():
        (printed,) = in_directives(held, "QZ32-4421-3")
    other = replace(printed, passage=replace(printed.passage, **passage))
    monkeypatch.setattr(part_numbers_named, "in_directives", lambda *_: [other])
    return answers(held, "P/N QZ32-4421-3", MANUAL)


def test_a_directive_that_only_names_the_number_changes_no_answer(held, monkeypatch):
    text = "(g) Measure each tie bolt with part number QZ32-4421-3 and record its length."
    asked = told(held, monkeypatch, text=text, heading_path=())
    assert asked.enough == answers(held, "", MANUAL).enough
    assert asked.notes[0].startswith("AD 2031-07-11 names part number QZ32-4421-3")


def test_words_that_ocr_read_lower_as_well(held, monkeypatch):
    asked = told(held, monkeypatch, origin=Origin.OCR).enough["minor"]
    assert asked.answer is Answer.CANNOT_TELL
    assert asked.why.startswith(f"{WHY} Read by OCR: compare with the page.")


def test_a_list_below_a_paragraph_that_forbids_is_forbidden(held, monkeypatch):
    asked = told(held, monkeypatch, text="(2) QZ32-4421-3, all lots.").enough["minor"]
    assert asked.answer is Answer.CANNOT_TELL
    assert "names QZ32-4421-3 in a paragraph that says «Prohibition»: read it" in asked.why


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("Do not install P/N AN4-12A.", "Do not install"),
        ("AN4-12A must not be\ninstalled.", "must not be installed"),
        ("P/N AN4-12A may not be installed.", "may not be installed"),
        ("No person may install a bolt AN4-12A.", "No person may install"),
        ("Installation of AN4-12A is prohibited.", "prohibited"),
        ("This AD prohibits AN4-12A.", "prohibits"),
        ("AN4-12A is not eligible for installation.", "not eligible for installation"),
        ("Use of AN4-12A is not allowed.", "is not allowed"),
        ("Remove AN4-12A before further flight.", "Remove AN4-12A before further flight"),
        ("Remove AN4-12A from service.", "Remove AN4-12A from service"),
        ("Inspect AN4-12A before further flight.", ""),
        ("Install AN4-12A. Remove the cover. Do so before further flight.", ""),
        ("The installed bolt AN4-12A is eligible for installation.", ""),
    ],
)
def test_the_words_that_forbid(text, said):
    assert forbidding_words(text) == said


def test_only_a_yes_is_lowered():
    before = {"minor": Enough(Answer.YES, "y"), "major": Enough(Answer.NO, "n")}
    before["directive"] = Enough(Answer.CANNOT_TELL, "c")
    after = lowered(before, ["AD 1 forbids it.", "AD 1 forbids it."])
    assert after == before | {
        "minor": Enough(Answer.CANNOT_TELL, "AD 1 forbids it. Of the source itself: y"),
    }
    assert lowered(before, []) == before


def test_a_directive_not_known_to_be_in_force_lowers_and_says_so(held):
    with held.reading():
        (printed,) = in_directives(held, "QZ32-4421-3")
        status = replace(printed.status, words="cannot tell whether it is in force", holds=Answer.CANNOT_TELL)
        why = why_forbidden(held.catalogue, replace(printed, status=status), "QZ32-4421-3")
    assert why.startswith("AD 2031-07-11 (h) (cannot tell whether it is in force) forbids installing")
