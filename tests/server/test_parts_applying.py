"""Whether a row applies to an aircraft. Nothing that is not proved by digital text is a yes or a no.

That a blank usage column means all variants: iSpec 2200. The other rules are common practice, no source.
"""

from dataclasses import replace

import pytest
from making import Made, take
from parts_shelf import CATALOGUE, CODE_A, CODE_B, covers, note, papers, row

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Fitted, FittedKind
from indexer.settings import Settings
from indexer.tagging.parts_rows import PartNoteKind, PartsFigure, PartsList, RowFlag, UsageCode
from indexer.trade.evidence import Origin
from server.opened import OpenedLibrary
from server.parts import find_parts, part_row

PRE, POST = PartNoteKind.PRE_BULLETIN, PartNoteKind.POST_BULLETIN
YES, NO, OPEN = "applies", "does not apply", "cannot tell"
OF = "QZ62 airplanes, serial numbers QZ-001 through QZ-200"


@pytest.fixture
def answers(tmp_path):
    """Takes rows and gives the answer of one of them for aircraft QX-1AB, QZ62, serial QZ-077."""
    held = []

    def ask(*rows, which: int = -1, of: str = OF, altered: str = "", serial: str = "QZ-077"):
        figure = PartsFigure(0, "1", "", "BRAKE", (1,), (3,))
        made = Made("a.pdf", CATALOGUE, "A", "1", pages=3, parts=PartsList((figure,), rows),
                    applicability=covers(of) if of else ())  # fmt: skip
        place = tmp_path / str(len(held))
        with Catalogue.open(place / "library", create=True) as catalogue:
            publication = take(catalogue, place / "files", made).publications[0]
            fitted = [Fitted(FittedKind.ALTERATION, altered)] if altered else []
            fleet.add(catalogue, "QX-1AB", "QZ62", "R. Quill", serial, fitted=fitted)
        held.append(OpenedLibrary.open(place / "library", Settings()))
        ordinal = rows[which].ordinal
        return part_row(held[-1], f"{publication}-part-{ordinal}", "QX-1AB")["applies"]

    yield ask
    for each in held:
        each.close()


def part(ordinal=0, dots=0, **more):
    return row(ordinal, str(ordinal + 1), f"A-{ordinal}", "BRAKE", dots, **more)


@pytest.mark.parametrize(
    ("codes", "answer"),
    [
        ((), YES),
        ((CODE_A,), NO),  # QZ-001 thru QZ-060
        ((CODE_B,), YES),  # QZ-061 thru QZ-200
        ((CODE_A, CODE_B), YES),  # one of them is enough
        ((CODE_A, UsageCode("Z")), OPEN),
        ((UsageCode("Z"),), OPEN),
        ((UsageCode("C", "USED ON QZ28-2210-1 ONLY"),), OPEN),
        # An assembly's name says nothing of aircraft, whatever stands in it.
        ((UsageCode("A", "as QZ62-1, ALTERNATOR, QZ62 S/N QZ-061 THRU QZ-200", 2, of_assembly=True),), OPEN),
    ],
)
def test_usage_codes_are_read_by_their_words(answers, codes, answer):
    assert answers(part(usage=codes))["answer"] == answer


def test_a_code_without_its_words_says_so(answers):
    why = answers(part(usage=(UsageCode("Z"),)))["why"]
    assert "usage code Z" in why and "was not found" in why


def test_a_blank_column_goes_as_the_publication_goes_and_says_why(answers):
    found = answers(part())
    assert found["answer"] == YES and found["why"].startswith("The row has no usage code, which means all")
    assert found["words"] == "Applies to QX-1AB:"


@pytest.mark.parametrize(
    ("of", "answer"),
    [
        ("QZ62 airplanes, serial numbers QZ-100 through QZ-200", NO),
        ("QX9 airplanes, all serial numbers", NO),
        ("QZ62 airplanes, serial numbers as given in SB 32-1", OPEN),
        ("", OPEN),
    ],
)
def test_a_row_is_never_for_more_than_its_publication(answers, of, answer):
    assert answers(part(usage=(CODE_B,)), of=of)["answer"] == answer


@pytest.mark.parametrize(
    ("words", "answer"),
    [
        ("S/N QZ-070 THRU QZ-080", YES),
        ("S/N QZ-100 AND ON", NO),
        ("S/N QZ-100 AND ON, AND AS MODIFIED", OPEN),
        ("SEE NOTE 4", OPEN),
    ],
)
def test_words_on_serials_in_the_row_count_like_codes(answers, words, answer):
    assert answers(part(effectivity=words))["answer"] == answer


def test_code_and_words_must_both_hold(answers):
    assert answers(part(usage=(CODE_B,), effectivity="S/N QZ-100 AND ON"))["answer"] == NO
    assert answers(part(usage=(UsageCode("Z"),), effectivity="S/N QZ-070 THRU QZ-080"))["answer"] == OPEN


@pytest.mark.parametrize(
    ("kind", "altered", "answer"),
    [
        (PRE, "", OPEN),
        (POST, "", OPEN),
        (PRE, "SB QZ62-32-0999", OPEN),
        (POST, "SB QZ62-32-0114", YES),
        (PRE, "SB QZ62-32-0114", NO),
        (PRE, "QZ62-32-0114", NO),
    ],
)
def test_before_and_after_a_bulletin_take_the_fleet_lists_word(answers, kind, altered, answer):
    words = f"{kind.name[:3]} SB QZ62-32-0114"
    found = answers(part(notes=(note(kind, words, "QZ62-32-0114"),)), altered=altered)
    assert found["answer"] == answer
    assert ("on the fleet list's word" in found["why"]) is (answer != OPEN)


def test_a_bulletin_that_is_not_named_decides_nothing(answers):
    assert answers(part(notes=(note(POST, "POST SB"),)), altered="SB QZ62-32-0114")["answer"] == OPEN


@pytest.mark.parametrize("origin", [Origin.OCR, Origin.HIDDEN_OCR])
@pytest.mark.parametrize("codes", [(), (CODE_A,), (CODE_B,)])
def test_what_ocr_read_is_never_a_yes_or_a_no(answers, codes, origin):
    found = answers(part(usage=codes, origin=origin, confidence=0.99))
    assert found["answer"] == OPEN and "read the page" in found["why"]


@pytest.mark.parametrize("codes", [(), (CODE_A,), (CODE_B,)])
@pytest.mark.parametrize(
    "flag",
    [RowFlag.COLUMNS, RowFlag.FOOTNOTE, RowFlag.OTHER_COLUMN, RowFlag.DITTO],
    ids=lambda flag: flag.name,
)
def test_what_may_hide_a_code_leaves_it_open(answers, flag, codes):
    found = answers(part(usage=codes, flags=(flag,)))
    assert found["answer"] == OPEN and "read the page" in found["why"]


def test_a_detail_is_not_for_what_its_assembly_is_not_for(answers):
    """The answer is left open, never a no: details are often printed under the last of several assemblies."""
    found = answers(part(0, usage=(CODE_A,)), part(1, 1, above=0))
    assert found["answer"] == OPEN and "assembly" in found["why"]
    assert answers(part(0, usage=(CODE_B,)), part(1, 1, above=0))["answer"] == YES


def test_details_under_two_assemblies_are_for_both(answers):
    variants = part(0, usage=(CODE_B,)), part(1, usage=(CODE_A,)), part(2, 1, above=1)
    assert answers(*variants)["answer"] == YES


def test_an_assembly_further_up_counts_too(answers):
    rows = part(0, usage=(CODE_A,)), part(1, 1, above=0), part(2, 2, above=1)
    assert answers(*rows)["answer"] == OPEN


def test_an_attaching_part_is_not_for_what_its_part_is_not_for(answers):
    bolt = part(1, attaching=True, attaches=0)
    assert answers(part(0, usage=(CODE_B,)), bolt)["answer"] == YES
    said = answers(part(0, usage=(CODE_A,)), bolt)
    assert said["answer"] == OPEN and "The part that it attaches (item 1)" in said["why"]


@pytest.mark.parametrize("more", [{"attaching": True}, {"flags": (RowFlag.ATTACHING,)}])
def test_an_attaching_part_of_a_part_not_certain_is_left_open(answers, more):
    assert answers(part(0), part(1, **more))["answer"] == OPEN


def test_a_row_whose_assembly_could_not_be_read_is_left_open(answers):
    loose = replace(part(), indenture=None, flags=(RowFlag.INDENTURE,))
    assert answers(loose)["answer"] == OPEN


def test_an_aircraft_without_a_serial_is_left_open(answers):
    assert answers(part(usage=(CODE_B,)), serial="")["answer"] == OPEN


def test_the_fleet_is_answered_one_by_one_and_what_is_not_covered_is_counted(tmp_path):
    named = papers()
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        publication = take(catalogue, tmp_path / "files", named["cat"]).publications[0]
        fleet.add(catalogue, "QX-1AB", "QZ62", "R. Quill", "QZ-077")
        fleet.add(catalogue, "QX-2AB", "QZ62", "R. Quill", "QZ-010")
        fleet.add(catalogue, "QX-3AB", "QZ62", "R. Quill")
        fleet.add(catalogue, "QX-4AB", "QZ62", "R. Quill", "QZ-900")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library:
        answer = part_row(library, f"{publication}-part-0")
        assert [(each["registration"], each["answer"]) for each in answer["fleet"]] == [
            ("QX-1AB", NO),
            ("QX-2AB", YES),
            ("QX-3AB", OPEN),
        ]
        assert answer["fleet_counts"] == {
            YES: 1, NO: 1, OPEN: 1, "not covered by the publication": 1, "not answered here": 0,
        }  # fmt: skip
        assert answer["applies"] is None
        rows = find_parts(library, "QZ28-2210-1", aircraft="qx-2ab")["groups"][0]["rows"]
        assert [each["applies"]["answer"] for each in rows] == [YES]
