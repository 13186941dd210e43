"""Parts found by number, by words and by place; what is not sure is never called the same number.

That AN4-12A is not AN4-12: the letter A says that the shank is not drilled (FAA-H-8083-30, aircraft hardware,
"AN bolts": absence of the letter means a drilled shank). Cells and the tree of a parts list: iSpec 2200 as
described there; what is common practice without a source says so.
"""

import parts_shelf
import pytest

from indexer.errors import PublicationUnknown, QueryProblem, UnclosedQuote
from indexer.library import shop_words
from indexer.library.problems import AircraftUnknown
from indexer.settings import Settings
from server.opened import OpenedLibrary
from server.parts import find_parts
from server.parts_words import GROUPS


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    place = tmp_path_factory.mktemp("parts")
    return place / "library", parts_shelf.make(place / "library", place / "files")


@pytest.fixture(scope="module")
def library(made):
    with OpenedLibrary.open(made[0], Settings()) as opened:
        yield opened


@pytest.fixture
def ids(made):
    return made[1]


def found(answer) -> dict[str, list[tuple[str, str]]]:
    """By group: the publication's name and the row's own number."""
    return {
        group["match"]: [(row["publication"]["number"], row["part_number"]) for row in group["rows"]]
        for group in answer["groups"]
    }


def test_exact_written_otherwise_and_alike_are_three_answers_in_this_order(library):
    answer = find_parts(library, "AN4-12A")
    assert [group["match"] for group in answer["groups"]] == ["exact", "normalised", "loose"]
    assert found(answer) == {
        "exact": [("QZ62-IPC", "AN4-12A")] * 4,
        "normalised": [("WT-IPC", "an4 12a")],
        "loose": [("H14-IPC", "AN4-12A")],
    }
    assert [group["label"] for group in answer["groups"]] == [GROUPS[each] for each in found(answer)]
    assert answer["asked"]["kind"] == "number"


def test_another_number_is_named_beside_the_answer_and_never_in_it(library):
    answer = find_parts(library, "AN4-12")
    assert found(answer) == {"exact": [("QZ62-IPC", "AN4-12")] * 2}
    assert answer["asked"]["said"] == ["AN4-12A is another number: 6 rows."]
    assert find_parts(library, "AN4-12A")["asked"]["said"] == ["AN4-12 is another number: 2 rows."]


@pytest.mark.parametrize("asked", ["AN4-12A", "an4-12a", "AN412A", "AN4 12A", "ANA-12A", "H14-33", "HI4-33"])
def test_what_ocr_read_is_never_more_than_alike(library, asked):
    for group in find_parts(library, asked)["groups"]:
        for row in group["rows"]:
            assert not row["read_by_ocr"] or group["match"] == "loose"
            assert not row["read_by_ocr"] or "compare with the page" in row["confidence_words"]


def test_what_looks_alike_says_what_is_printed(library):
    answer = find_parts(library, "QZ28-2210-2")
    (row,) = next(group["rows"] for group in answer["groups"] if group["match"] == "loose")
    assert row["why"] == "The list prints QZ28-22I0-2." and not row["read_by_ocr"]


def test_rows_of_a_superseded_publication_come_last_and_say_so(library):
    answer = find_parts(library, "QZ28-2230")
    (group,) = answer["groups"]
    assert [row["publication"]["revision"] for row in group["rows"]] == ["4", "4", "3", "3"]
    assert [row["publication"]["superseded"] for row in group["rows"]] == [False, False, True, True]
    assert group["rows"][2]["publication"]["currency"] == ["Superseded by revision 4 of 1 May 2031."]
    assert any("superseded" in caution for caution in answer["cautions"])


def test_a_number_that_is_only_named_is_found_with_the_row_that_names_it(library):
    answer = find_parts(library, "qz28 2210 3")
    assert found(answer) == {"named": [("QZ62-IPC", "QZ28-2210-1")] * 2}
    row = answer["groups"][0]["rows"][0]
    assert row["why"] == 'Named in the row of QZ28-2210-1: "SUPSD BY QZ28-2210-3".'


def test_a_line_of_the_number_index_without_a_row_is_found_and_one_with_a_row_is_not_said_twice(library):
    answer = find_parts(library, "QZ28-9999")
    assert answer["groups"] == []
    line = answer["index_only"][0]
    assert (line["figure_item"], line["match"], line["pdf_page"]) == ("16-3", "exact", 6)
    assert find_parts(library, "AN4-12A")["index_only"] == []


def test_a_number_that_is_nowhere_finds_nothing_and_says_what_was_not_read(library):
    answer = find_parts(library, "NAS1149F0332P")
    assert answer["groups"] == answer["index_only"] == []
    assert answer["not_read"]["rows"] == 2 and "could not be read" in answer["not_read"]["words"]
    assert "never proves" in answer["cautions"][0]


def test_the_count_is_of_all_rows_where_fewer_are_shown(library):
    (group, *_) = find_parts(library, "AN4-12A", limit=1)["groups"]
    assert (group["count"], len(group["rows"])) == (4, 1)


# Words ---------------------------------------------------------------------------------------------------


def test_all_words_must_stand_in_the_row_in_any_number_and_order(library):
    assert found(find_parts(library, "head bolts"))["words"] == [("QZ62-IPC", "AN4-12")] * 2
    assert found(find_parts(library, "hex-head bolt"))["words"] == [("QZ62-IPC", "AN4-12")] * 2
    assert found(find_parts(library, "brake bolt piston")) == {}


@pytest.mark.parametrize("q", ["V0QX7", "0QX7A", "0QX7"])
def test_a_code_of_a_supplier_is_said_not_to_be_looked_for(library, q):
    answer = find_parts(library, q)
    assert answer["groups"] == [] and "code of a supplier" in answer["asked"]["said"][0]
    assert find_parts(library, "ZZ-1")["asked"]["said"] == []


def test_the_manual_says_what_it_calls_a_jug(library):
    answer = find_parts(library, "jug")
    assert found(answer) == {"other words": [("QZ62-IPC", "QZ28-2260")] * 2}
    says = "Under another word: the list says CYLINDER ASSEMBLY for jug"
    assert answer["groups"][0]["label"] == says
    assert answer["asked"]["said"] == ["jug: the manual says CYLINDER ASSEMBLY."]
    assert answer["asked"]["kind"] == "words"


def test_short_words_of_a_list_and_long_ones_find_each_other(library):
    numbers = {number for _, number in found(find_parts(library, "brake assembly"))["words"]}
    assert numbers == {"QZ28-2210-1", "QZ28-2210-2", "H14-33"}  # WT-IPC prints BRAKE ASSY
    shown = [
        row["nomenclature"] for group in find_parts(library, "brake assy")["groups"] for row in group["rows"]
    ]
    assert "BRAKE ASSY" in shown and "BRAKE ASSEMBLY" in shown


def test_the_shops_own_words_count_too(tmp_path):
    parts_shelf.make(tmp_path / "library", tmp_path / "files")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as own:
        assert find_parts(own, "stopper")["groups"] == []
        shop_words.add_word(own.catalogue, "stopper", "brake assembly", "R. Quill")
        answer = find_parts(own, "stopper")
        assert "stopper: the manual says BRAKE ASSEMBLY." in answer["asked"]["said"]
        assert answer["groups"][0]["match"] == "other words"


def test_a_word_of_the_assembly_above_is_taken_last_and_said(library):
    answer = find_parts(library, "brake lining")
    assert found(answer) == {"assembly words": [("QZ62-IPC", "QZ28-2214-1"), ("QZ62-IPC", "QZ28-2214-2")] * 2}
    row = answer["groups"][0]["rows"][0]
    assert row["why"] == "«brake» stands in the assembly above it: BRAKE ASSEMBLY."
    groups = [group["match"] for group in find_parts(library, "brake bolt")["groups"]]
    assert groups == ["assembly words"]


def test_the_word_that_names_the_part_is_never_lent_by_the_assembly(library):
    """ "Lining brake" asks for a brake; a bolt of the brake is no brake."""
    rows = [row for group in find_parts(library, "bolt brake")["groups"] for row in group["rows"]]
    assert all("BRAKE" in row["nomenclature"] for row in rows)
    inverted = find_parts(library, "lining, brake")
    assert {row["nomenclature"] for group in inverted["groups"] for row in group["rows"]} == {"LINING"}


def test_a_word_of_the_figures_title_is_said_to_be_that(library):
    answer = find_parts(library, "piston bolt")
    rows = [row for group in answer["groups"] for row in group["rows"]]
    assert rows and all("piston" in row["why"] for row in rows)
    assert {row["figure"]["figure"] for row in rows} == {"15"}


def test_a_word_that_no_row_has_is_named(library):
    answer = find_parts(library, "flux capacitor")
    assert any("«flux»" in said for said in answer["asked"]["said"])
    with pytest.raises(UnclosedQuote):
        find_parts(library, 'the "brake')


# Figure and item -----------------------------------------------------------------------------------------


def test_a_place_that_several_lists_have_is_listed_for_each_with_the_choice(library):
    answer = find_parts(library, "fig 14 item 7")
    assert found(answer)["figure and item"] == [
        ("QZ62-IPC", "QZ28-2230"),
        ("WT-IPC", "an4 12a"),
        ("QZ62-IPC", "QZ28-2230"),
    ]
    assert "3 parts lists have figure 14, item 7: choose the one for the aircraft." in answer["asked"]["said"]
    assert {each["number"] for each in answer["asked"]["choices"]} == {"QZ62-IPC", "WT-IPC"}


@pytest.mark.parametrize("named", ["WT-IPC", "second", "second.pdf", "wt ipc"])
def test_a_chosen_catalogue_answers_alone(library, named):
    answer = find_parts(library, "fig 14 item 7", catalogue=named)
    assert found(answer) == {"figure and item": [("WT-IPC", "an4 12a")]}
    assert found(find_parts(library, "AN4-12A", catalogue=named)) == {"normalised": [("WT-IPC", "an4 12a")]}
    words = find_parts(library, "brake", catalogue=named)
    assert {row["publication"]["number"] for group in words["groups"] for row in group["rows"]} == {"WT-IPC"}


@pytest.mark.parametrize("q", ["32-42-00 fig 14 item 7", "32-42-00-14-7", "32-42-00 figure 014 item 07"])
def test_the_section_tells_figures_of_one_number_apart(library, q):
    assert found(find_parts(library, q)) == {"figure and item": [("QZ62-IPC", "QZ28-2230")] * 2}


@pytest.mark.parametrize("figure", ["32-42-00-14", "32-42-00-014", "32–42–00–14"])
def test_section_and_figure_in_one_are_a_figure(library, figure):
    """As the number index of a catalog writes them (iSpec 2200: chapter-section-subject-figure-item)."""
    by_two = found(find_parts(library, "32-42-00 fig 14"))
    assert found(find_parts(library, figure=figure)) == by_two != {}
    assert found(find_parts(library, figure=figure, item="7")) == found(find_parts(library, "32-42-00-14-7"))
    assert found(find_parts(library, figure="28-22-00-14", item="7")) == {}


def test_each_row_says_whether_its_publication_is_known_to_be_current(library):
    (exact, *_) = find_parts(library, "AN4-12A")["groups"]
    states = [row["publication"]["current"]["state"] for row in exact["rows"]]
    assert states == ["unknown", "unknown", "superseded", "superseded"]
    assert (
        exact["rows"][0]["publication"]["current"]["why"] == "Nobody has checked which revision is current."
    )


def test_an_item_with_a_letter_is_another_item(library):
    """A letter behind the item marks an added or alternate part (iSpec 2200)."""
    answer = find_parts(library, "fig 14 item 1", catalogue="QZ62-IPC")
    assert {number for _, number in found(answer)["figure and item"]} == {"QZ28-2210-1"}
    assert "1A is another item of the figure: 2 rows." in answer["asked"]["said"]
    (only,) = set(found(find_parts(library, "fig 14 item 1A"))["figure and item"])
    assert only == ("QZ62-IPC", "QZ28-2210-2")


def test_a_figure_alone_gives_all_its_rows_and_a_missing_place_says_what_is_missing(library, ids):
    answer = find_parts(library, "", ids["cat"], figure="15")
    assert [number for _, number in found(answer)["figure and item"]] == ["QZ28-2230", "AN4-12A"]
    assert find_parts(library, "fig 99 item 1")["asked"]["said"] == ["No parts list here has figure 99."]
    missing = find_parts(library, "fig 14 item 88", ids["cat"])
    assert missing["asked"]["said"] == ["The figure is here, and no row of it is item 88."]


def test_figure_and_item_narrow_a_number(library):
    answer = find_parts(library, "AN4-12A", figure="15", item="2")
    assert found(answer)["exact"] == [("QZ62-IPC", "AN4-12A")] * 2
    assert "normalised" not in found(answer)


def test_what_cannot_be_asked_is_a_clear_error(library):
    with pytest.raises(PublicationUnknown):
        find_parts(library, "AN4-12A", catalogue="no such list")
    with pytest.raises(AircraftUnknown):
        find_parts(library, "AN4-12A", aircraft="QX-9ZZ")
    with pytest.raises(QueryProblem):
        find_parts(library, " ")
