"""All about one row: its place in the tree, where else it is used, what takes its place, where it stands.

The tree by indenture and the attaching parts: iSpec 2200. That a note has a direction and may be one-way is
common practice, no source.
"""

import datetime

import pytest
from making import Made, take
from parts_shelf import CATALOGUE, note, papers, row

from indexer.library.catalogue import Catalogue
from indexer.library.problems import FigureUnknown, PartUnknown
from indexer.settings import Settings
from indexer.tagging.parts_rows import PartNoteKind, PartsFigure, PartsList
from indexer.trade.evidence import Origin
from server.opened import OpenedLibrary
from server.parts import find_parts, part_row
from server.parts_figure import figure_rows

BY, OF = PartNoteKind.SUPERSEDED_BY, PartNoteKind.SUPERSEDES


def catalogue_of(name: str, *rows, number: str = "") -> Made:
    figure = PartsFigure(0, "1", "", "BRAKE", (1,), (1,))
    return Made(f"{name}.pdf", CATALOGUE, number or name, "1", datetime.date(2030, 1, 1), name, name,
                parts=PartsList((figure,), rows))  # fmt: skip


def says(ordinal: int, number: str, kind: PartNoteKind | None = None, other: str = "", **more):
    notes = (note(kind, f"{kind.value.upper()} {other}", other),) if kind else ()
    return row(ordinal, str(ordinal + 1), number, "BRAKE", page=1, notes=notes, **more)


@pytest.fixture
def shelf(tmp_path):
    """Takes papers, and opens what was taken."""
    held = []

    def make(*made: Made):
        with Catalogue.open(tmp_path / "library", create=True) as catalogue:
            ids = [take(catalogue, tmp_path / "files", each).publications[0] for each in made]
        held.append(OpenedLibrary.open(tmp_path / "library", Settings()))
        return held[-1], ids

    yield make
    for each in held:
        each.close()


@pytest.fixture
def stocked(shelf):
    named = papers()
    library, ids = shelf(*named.values())
    return library, dict(zip(named, ids, strict=True))


def numbers(links) -> list[str]:
    return [link["number"] for link in links]


def test_the_assembly_stands_above_the_nearest_first_and_the_details_below(stocked):
    library, ids = stocked
    lining = part_row(library, f"{ids['cat']}-part-3")
    assert [each["part_number"] for each in lining["above"]] == ["QZ28-2210-2"]
    assembly = part_row(library, f"{ids['cat']}-part-1")
    assert [each["item"] for each in assembly["below"]] == ["3", "4", "5", "6", "7"]
    assert [each["part_number"] for each in assembly["attaching_parts"]] == ["AN4-12A"]
    assert assembly["above"] == [] and not assembly["illustrated"]
    bolt = part_row(library, f"{ids['cat']}-part-2")
    assert bolt["attaches"]["part_number"] == "QZ28-2210-2" and bolt["attaching"]


def test_every_variant_of_an_assembly_stands_above_and_lists_what_is_below(shelf):
    library, (one,) = shelf(
        catalogue_of(
            "A",
            says(0, "LEFT"),
            says(1, "RIGHT"),
            says(2, "BOLT", attaching=True, attaches=1, attaches_also=(0,)),
            says(3, "HOUSING-L", dots=1, above=0),
            says(4, "HOUSING-R", dots=1, above=1),
            says(5, "PISTON", dots=2, above=4, above_also=(3,)),
        )
    )
    held = [part_row(library, f"{one}-part-{at}") for at in range(6)]
    steps = [
        (each["part_number"], [one["part_number"] for one in each["variants"]]) for each in held[5]["above"]
    ]
    assert steps == [("HOUSING-R", ["HOUSING-L"]), ("RIGHT", ["LEFT"])]
    for assembly in held[:2]:
        assert [each["part_number"] for each in assembly["attaching_parts"]] == ["BOLT"]
    for housing in held[3:5]:
        assert [each["part_number"] for each in housing["below"]] == ["PISTON"]
    bolt = held[2]
    assert bolt["attaches"]["part_number"] == "RIGHT"
    assert [each["part_number"] for each in bolt["attaches_also"]] == ["LEFT"]


def test_a_place_is_said_with_its_chapter_number(stocked):
    library, ids = stocked
    lining = part_row(library, f"{ids['cat']}-part-3")
    assert lining["place"] == "32-42-00 figure 14, item 3"
    assert lining["figure"]["place"] == "32-42-00 figure 14"


def test_a_tree_that_goes_round_is_walked_once(shelf):
    library, (one,) = shelf(catalogue_of("A", says(0, "A-1", above=1), says(1, "A-2", above=0)))
    assert [each["part_number"] for each in part_row(library, f"{one}-part-0")["above"]] == ["A-2", "A-1"]


def test_where_else_it_is_used_and_apart_what_only_looks_alike(stocked):
    library, ids = stocked
    answer = part_row(library, f"{ids['cat']}-part-2")
    used = [(each["publication"]["number"], each["part_number"]) for each in answer["used_elsewhere"]]
    assert used[:2] == [("QZ62-IPC", "AN4-12A"), ("WT-IPC", "an4 12a")]
    assert answer["used_elsewhere_count"] == len(used) == 4
    assert [each["read_by_ocr"] for each in answer["may_be_used_elsewhere"]] == [True]
    scanned = part_row(library, f"{ids['scan']}-part-0")
    assert scanned["used_elsewhere"] == [] and scanned["may_be_used_elsewhere_count"] == 5


def test_rows_lead_on_from_number_to_number_and_only_the_way_they_say(shelf):
    library, (one, two) = shelf(
        catalogue_of("A", says(0, "A-1", BY, "B-1"), says(1, "X-1", OF, "C-1")),
        catalogue_of("B", says(0, "B-1", BY, "C-1"), says(1, "C-1")),
    )
    first = part_row(library, f"{one}-part-0")["supersession"]
    assert [(each["number"], each["after"], each["step"]) for each in first["replaced_by"]] == [
        ("B-1", "A-1", 1),
        ("C-1", "B-1", 2),
        ("X-1", "C-1", 3),  # said by the row of X alone: supersedes C
    ]
    assert first["replaces"] == []
    last = part_row(library, f"{two}-part-1")["supersession"]
    assert [(each["number"], each["step"]) for each in last["replaces"]] == [("B-1", 1), ("A-1", 2)]
    assert numbers(last["replaced_by"]) == ["X-1"]
    said = first["replaced_by"][0]
    assert said["said"] == "A-1 is superseded by B-1, as figure 1, item 1 of A says."
    assert [each["part_number"] for each in said["rows"]] == ["B-1"] and said["from"]["id"] == f"{one}-part-0"


def test_optional_and_alternate_parts_take_no_place(shelf):
    library, (one,) = shelf(
        catalogue_of(
            "A",
            says(0, "A-1", PartNoteKind.OPTIONAL, "B-1"),
            says(1, "C-1", PartNoteKind.ALTERNATE, "A-1"),
            says(2, "D-1", PartNoteKind.ORDER, "E-1"),
        )
    )
    links = part_row(library, f"{one}-part-0")["supersession"]
    assert links["replaced_by"] == links["replaces"] == []
    assert sorted(numbers(links["either_way"])) == ["B-1", "C-1"]
    assert numbers(part_row(library, f"{one}-part-2")["supersession"]["order"]) == ["E-1"]


def test_a_circle_is_said_and_walked_once(shelf):
    library, (one,) = shelf(
        catalogue_of("A", *(says(at, f"A-{at}", BY, f"A-{(at + 1) % 3}") for at in range(3)))
    )
    answer = part_row(library, f"{one}-part-0")
    assert numbers(answer["supersession"]["replaced_by"]) == ["A-1", "A-2"]
    assert numbers(answer["supersession"]["replaces"]) == ["A-2", "A-1"]
    assert sum("circle" in each for each in answer["cautions"]) == 1


def test_a_circle_further_on_ends_too(shelf):
    rows = [says(0, "A-0", BY, "A-1"), says(1, "A-1", BY, "A-2"), says(2, "A-2", BY, "A-1")]
    library, (one,) = shelf(catalogue_of("A", *rows))
    assert numbers(part_row(library, f"{one}-part-0")["supersession"]["replaced_by"]) == ["A-1", "A-2", "A-1"]


def test_rows_that_do_not_agree_are_both_shown(shelf):
    library, (one, _) = shelf(
        catalogue_of("A", says(0, "A-1", BY, "B-1")), catalogue_of("B", says(0, "A-1", BY, "C-1"))
    )
    answer = part_row(library, f"{one}-part-0")
    assert sorted(numbers(answer["supersession"]["replaced_by"])) == ["B-1", "C-1"]
    assert any(
        "do not agree on what takes the place of A-1: B-1 and C-1" in each for each in answer["cautions"]
    )


def test_two_rows_that_contradict_each_other_are_both_shown(shelf):
    library, (one, _) = shelf(
        catalogue_of("A", says(0, "A-1", BY, "B-1")), catalogue_of("B", says(0, "B-1", BY, "A-1"))
    )
    answer = part_row(library, f"{one}-part-0")
    assert (
        numbers(answer["supersession"]["replaced_by"])
        == numbers(answer["supersession"]["replaces"])
        == ["B-1"]
    )
    assert any("the other way round" in each for each in answer["cautions"])


def test_another_number_leads_nowhere(shelf):
    library, (one,) = shelf(catalogue_of("A", says(0, "AN4-12"), says(1, "AN4-12A", BY, "B-1")))
    assert part_row(library, f"{one}-part-0")["supersession"]["replaced_by"] == []


def test_what_ocr_read_of_other_numbers_is_said_and_not_followed(shelf):
    library, (one, two) = shelf(
        catalogue_of("A", says(0, "B-1", BY, "C-1"), says(1, "A-1")),
        catalogue_of("B", says(0, "A-1", BY, "B-1", origin=Origin.OCR, confidence=0.9),
                     says(1, "Z-1", OF, "A-I", origin=Origin.OCR, confidence=0.5)),
    )  # fmt: skip
    scanned = part_row(library, f"{two}-part-0")
    assert [(each["number"], each["read_by_ocr"]) for each in scanned["supersession"]["replaced_by"]] == [
        ("B-1", True),
        ("Z-1", True),
    ]
    digital = part_row(library, f"{one}-part-1")
    assert [(each["number"], each["read_by_ocr"]) for each in digital["supersession"]["replaced_by"]] == [
        ("Z-1", True)
    ]
    assert any("read by OCR" in each for each in digital["cautions"])


def test_a_bulletin_is_led_to_where_it_is_held_and_said_to_be_missing_where_not(stocked):
    library, ids = stocked
    (before,) = part_row(library, f"{ids['cat']}-part-3")["bulletins"]
    assert before["mark"] == "before the bulletin" and before["words"] == "PRE SB QZ62-32-0114"
    assert [each["id"] for each in before["publications"]] == [ids["bulletin"]]
    assert before["said"].endswith("QZ62-32-0114 is held here.")
    library.catalogue.remove(ids["bulletin"].rpartition("-")[0])
    (after,) = part_row(library, f"{ids['cat']}-part-4")["bulletins"]
    assert after["publications"] == [] and "not among the documents held here" in after["said"]


def test_see_figure_leads_to_the_figure_of_the_same_list(stocked):
    library, ids = stocked
    (named,) = part_row(library, f"{ids['cat']}-part-7")["figures"]
    assert [each["id"] for each in named["figures"]] == [f"{ids['cat']}-figure-1"]
    (back,) = part_row(library, f"{ids['cat']}-part-9")["figures"]
    assert [each["figure"] for each in back["figures"]] == ["14"]


@pytest.mark.parametrize("number", ["32-42-00-02", "FIG 2", "2", "02"])
def test_the_figure_is_found_however_the_note_writes_it(shelf, number):
    figures = (
        PartsFigure(0, "1", "32-42-00", "BRAKE", (1,), (1,)),
        PartsFigure(1, "02", "32-42-00", "PISTON", (1,), (1,)),
    )
    rows = (
        row(0, "1", "A-1", "BRAKE", page=1, notes=(note(PartNoteKind.SEE_FIGURE, f"SEE {number}", number),)),
    )
    made = Made("a.pdf", CATALOGUE, "A", "1", parts=PartsList(figures, rows))
    library, (one,) = shelf(made)
    (named,) = part_row(library, f"{one}-part-0")["figures"]
    assert [each["title"] for each in named["figures"]] == ["PISTON"]


def test_a_figure_number_of_several_sections_asks_for_the_section(shelf):
    figures = tuple(PartsFigure(at, "1", f"32-4{at}-00", "BRAKE", (1,), (1,)) for at in range(3))
    rows = tuple(row(at, "1", f"A-{at}", "BRAKE", figure=at, page=1) for at in range(3))
    library, _ = shelf(Made("a.pdf", CATALOGUE, "A", "1", parts=PartsList(figures, rows)))
    answer = find_parts(library, "fig 1 item 1")
    assert answer["asked"]["said"] == [
        "Figure 1 with this item stands in 3 sections of one parts list: name the section as well, "
        "as in 32-42-00 fig 1 item 1."
    ]
    assert answer["groups"][0]["count"] == 3
    one = find_parts(library, "32-42-00 fig 1 item 1")
    assert one["asked"]["said"] == [] and one["groups"][0]["rows"][0]["part_number"] == "A-2"


def test_the_marks_say_where_row_number_and_callouts_stand(stocked):
    library, ids = stocked
    marks = part_row(library, f"{ids['cat']}-part-0")["marks"]
    assert marks["list_page"] == 3 and marks["row"][0]["pdf_page"] == 3
    assert marks["number"] == {"x0": 110, "top": 100.0, "x1": 180, "bottom": 112.0}
    assert [(each["pdf_page"], len(each["callouts"])) for each in marks["art"]] == [(2, 1)]
    assert part_row(library, f"{ids['cat']}-part-1")["marks"]["art"][0]["callouts"] == []


def test_a_row_that_could_not_be_read_whole_is_kept_with_what_is_missing(stocked):
    library, ids = stocked
    answer = part_row(library, f"{ids['cat']}-part-6")
    assert answer["part_number"] == "" and answer["flags"] == ["the part number could not be read"]
    assert answer["used_elsewhere"] == [] and answer["supersession"]["replaced_by"] == []


def test_a_figure_gives_every_row_in_printed_order(stocked):
    library, ids = stocked
    answer = figure_rows(library, f"{ids['cat']}-figure-0")
    assert [each["item"] for each in answer["rows"]] == ["1", "1A", "2", "3", "4", "5", "6", "7", "8"]
    assert (answer["count"], answer["flagged"]) == (9, 1)
    assert [each["pdf_page"] for each in answer["art"]] == [2] and answer["title"] == "BRAKE INSTALLATION"
    with pytest.raises(FigureUnknown):
        figure_rows(library, f"{ids['cat']}-figure-9")
    with pytest.raises(PartUnknown):
        part_row(library, "nothing")
