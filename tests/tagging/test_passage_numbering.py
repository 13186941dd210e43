"""The chapter number and page block each passage is filed under.

Outside checks: forms and page blocks of ATA Spec 100 / iSpec 2200 and S1000D as makers' manual introductions
and training notes describe them. Manuals are invented.
"""

import pytest
from made_documents import document, page

from indexer.reading.page import OutlineEntry
from indexer.tagging.publication import tag_document
from indexer.trade.chapters import Scheme
from indexer.trade.evidence import Basis

MANUAL = "# MAINTENANCE MANUAL\nModel 88"


def passages(*pages, outline=()):
    return tag_document(document(*pages, outline=outline))[0].passages


def numbers(passage):
    return [str(tag.value) for tag in passage.numbers]


def test_the_foot_gives_number_and_page_block():
    (_, brakes) = passages(
        page(1, MANUAL),
        page(2, "Remove the wheel.", foot=["32-41-00 Page 401", "Mar 14/2031"], printed_page="401"),
    )
    assert numbers(brakes) == ["32-41-00"]
    assert brakes.page_block.value == "Removal/installation"
    assert brakes.numbers[0].evidence.quote == "32-41-00 Page 401"
    assert brakes.numbers[0].evidence.pdf_page == 2
    assert brakes.numbers[0].evidence.box is not None


@pytest.mark.parametrize(
    "title, printed, block",
    [
        ("MAINTENANCE MANUAL", "301", "Servicing"),
        ("ENGINE MANUAL", "301", "Removal"),
        ("STRUCTURAL REPAIR MANUAL", "101", "Allowable damage"),
        ("ILLUSTRATED PARTS CATALOG", "101", None),
        ("MAINTENANCE MANUAL", "LEP-1", None),
    ],
)
def test_the_page_block_depends_on_the_type_of_manual(title, printed, block):
    (_, passage) = passages(
        page(1, f"# {title}"), page(2, "Text", foot=[f"72-30-00 Page {printed}"], printed_page=printed)
    )
    assert (passage.page_block and passage.page_block.value) == block


@pytest.mark.parametrize(
    "body",
    [
        "Do the leak check as given in 32-42-00, Page 201.",
        "See 24-31-00.",
        "Refer to AMM 32-41-00 for the removal.",
        "Refer to TASK 32-41-00-400-801.",
        "Install the wheel. (32-41-00)",
    ],
)
def test_a_reference_in_running_text_is_not_the_passage_s_number(body):
    (_, passage) = passages(page(1, MANUAL), page(2, body))
    assert passage.numbers == ()
    assert passage.page_block is None


def test_a_reference_does_not_join_the_number_of_the_page():
    (_, passage) = passages(page(1, MANUAL), page(2, "Refer to 24-31-00.", foot=["32-41-00 Page 401"]))
    assert numbers(passage) == ["32-41-00"]
    assert passage.numbers[0].others == ()


def test_a_task_at_the_head_of_the_passage_numbers_it():
    (_, passage) = passages(page(1, MANUAL), page(2, "TASK 32-41-00-000-801\nRemove the brake."))
    assert numbers(passage) == ["32-41-00"]
    assert passage.numbers[0].evidence.rule == "task number"


def test_a_data_module_code_keeps_its_own_scheme():
    (_, passage) = passages(page(1, MANUAL), page(2, "Text", foot=["DMC-C88-A-32-41-00-00A-520A-A"]))
    assert (passage.numbers[0].value.chapter, passage.numbers[0].value.scheme.value) == ("32", "SNS")


def test_a_heading_numbers_what_stands_under_it():
    (_, brakes) = passages(page(1, MANUAL), page(2, "# 32-41-00 BRAKES\nRemove the wheel."))
    assert numbers(brakes) == ["32-41-00"]
    assert brakes.numbers[0].evidence.rule == "number in heading"


def test_the_outline_numbers_the_pages_it_covers_and_is_named_as_the_basis():
    outline = (
        OutlineEntry(1, "Front matter", 1),
        OutlineEntry(1, "Chapter 32 Landing gear", 2),
        OutlineEntry(2, "32-41-00 Brakes", 3),
        OutlineEntry(1, "Index", 4),
    )
    front, chapter, brakes, index = passages(
        page(1, MANUAL), page(2, "Text"), page(3, "Text"), page(4, "Text"), outline=outline
    )
    assert [numbers(each) for each in (front, chapter, brakes, index)] == [[], ["32"], ["32-41-00"], []]
    assert brakes.numbers[0].evidence.basis is Basis.OUTLINE
    assert brakes.numbers[0].evidence.quote == "32-41-00 Brakes"


def test_what_is_printed_in_the_foot_wins_and_the_disagreeing_outline_stays_beside_it():
    outline = (OutlineEntry(1, "24-31-00 Alternator", 2),)
    (_, passage) = passages(page(1, MANUAL), page(2, "Text", foot=["32-41-00 Page 401"]), outline=outline)
    assert numbers(passage) == ["32-41-00"]
    assert [str(other.value) for other in passage.numbers[0].others] == ["24-31-00"]


def test_an_outline_that_only_says_less_is_no_disagreement():
    outline = (OutlineEntry(1, "Chapter 32 Landing gear", 2),)
    (_, passage) = passages(page(1, MANUAL), page(2, "Text", foot=["32-41-00 Page 401"]), outline=outline)
    assert passage.numbers[0].others == ()


def test_a_page_of_two_subjects_carries_both_numbers():
    (_, passage) = passages(page(1, MANUAL), page(2, "Text", foot=["32-41-00/32-42-00 Page 1"]))
    assert numbers(passage) == ["32-41-00", "32-42-00"]


def test_a_chapter_word_counts_only_with_that_chapter_s_title():
    """ "Chapter 12" is servicing in ATA Spec 100; in an older book it can be the engine."""
    (_, servicing, engine) = passages(
        page(1, MANUAL),
        page(2, "Text", head=["CHAPTER 12 SERVICING"]),
        page(3, "Text", head=["CHAPTER 12 ENGINE"]),
    )
    assert numbers(servicing) == ["12"]
    assert numbers(engine) == []


def own_order_manual(*extra):
    return passages(
        page(1, "# SERVICE MANUAL\nModel H-14", printed_page="1-1"),
        page(
            2,
            "# SECTION V\nLANDING GEAR\n5-12. BRAKES.\nRemove the wheel.",
            foot=["5-12"],
            printed_page="5-12",
        ),
        page(3, "Text", foot=["5-13"], printed_page="5-13"),
        page(4, "12-10-01. ENGINE.\nText", foot=["12-14"], printed_page="12-14"),
        *extra,
    )


def test_pages_of_a_manual_with_its_own_section_order_are_not_numbered():
    """A page numbered 5-12 is not chapter 05."""
    assert all(passage.page_block is None for passage in own_order_manual())
    printed = [
        tag
        for passage in own_order_manual()
        for tag in passage.numbers
        if tag.evidence.basis is not Basis.INFERRED
    ]
    assert {tag.value.scheme for tag in printed} <= {Scheme.OWN}


def test_an_outline_of_sections_does_not_number_a_manual_of_its_own_order():
    outline = (OutlineEntry(1, "Chapter 12 Servicing", 1),)
    pages = [page(1, "# SERVICE MANUAL", printed_page="2-1")]
    pages += [page(number, "Text", printed_page=f"2-{number}") for number in range(2, 6)]
    made = document(*pages, outline=outline)
    found = [tag for passage in tag_document(made)[0].passages for tag in passage.numbers]
    printed = [tag.value for tag in found if tag.evidence.basis is not Basis.INFERRED]
    assert {(str(number), number.scheme) for number in printed} == {("2", Scheme.OWN)}


def test_roman_sections_in_the_foot_are_an_order_of_its_own():
    pages = [page(1, "# SERVICE MANUAL")] + [
        page(number, "Text", foot=["Section V Page 7"], printed_page=str(number)) for number in range(2, 6)
    ]
    (title, *sections) = passages(*pages)
    assert title.numbers == ()
    assert [numbers(passage)[-1:] for passage in sections] == [["V"]] * 4


def test_a_date_in_the_foot_is_not_a_number():
    pages = [page(number, "Text", foot=[f"Page {number}", "05-12-98"]) for number in range(2, 6)]
    assert all(passage.numbers == () for passage in passages(page(1, MANUAL), *pages))


def test_a_number_that_could_be_a_date_is_believed_where_other_pages_print_numbers_there():
    pages = [
        page(2, "Text", foot=["32-41-00"]),
        page(3, "Text", foot=["32-42-00"]),
        page(4, "Text", foot=["24-31-00"]),
        page(5, "Text", foot=["05-10-00"]),
    ]
    assert numbers(passages(page(1, MANUAL), *pages)[-1]) == ["05-10-00"]


def test_a_date_that_stands_beside_the_number_on_other_pages_is_never_a_number():
    pages = [
        page(2, "Text", foot=["32-41-00", "03-14-98"]),
        page(3, "Text", foot=["32-42-00", "03-14-98"]),
        page(4, "Text", foot=["24-31-00", "03-14-98"]),
        page(5, "List of effective pages", foot=["03-14-98"]),
    ]
    assert numbers(passages(page(1, MANUAL), *pages)[-1]) == []


def test_papers_of_an_authority_are_not_arranged_by_system():
    made = document(
        page(1, "# ADVISORY CIRCULAR\nAC No: 43-99\nSubject: Brakes"),
        page(2, "# 32-41-00 Brakes\nText of it."),
    )
    numbers = [tag for passage in tag_document(made)[0].passages for tag in passage.numbers]
    assert all(tag.evidence.basis is Basis.INFERRED for tag in numbers)


@pytest.mark.parametrize(
    "lines, expected",
    [
        ("# SERVICE BULLETIN\nService Bulletin No. C88-32-0012\nSubject: Brakes", ["32"]),
        ("# SERVICE BULLETIN\nService Bulletin No. 14\nATA 24-31\nSubject: Alternator", ["24-31"]),
        ("# SERVICE BULLETIN\nService Bulletin No. 14\nSubject: Alternator", []),
    ],
)
def test_a_bulletin_is_filed_by_its_ata_line_or_the_style_of_its_number(lines, expected):
    assert numbers(passages(page(1, lines))[0]) == expected


def test_a_bulletin_whose_number_and_ata_line_disagree_keeps_both():
    (passage,) = passages(page(1, "# SERVICE BULLETIN\nService Bulletin No. C88-32-0012\nATA 24\nText"))
    assert numbers(passage) == ["24"]
    assert [str(other.value) for other in passage.numbers[0].others] == ["32"]
