"""Manuals with their own order: which section and paragraph each passage stands in.

How such manuals print their sections (running line, heading, page counted by section, contents page,
paragraphs "5-12.") is common practice of the 1940s to 1960s, no source. Manuals here are invented; the sample
manuals are held to their truth in tests/test_sample_truth.py.
"""

import pytest
from made_documents import document, page

from indexer.tagging.front_pages import front_pages
from indexer.tagging.publication import tag_document
from indexer.trade.chapters import Scheme

TITLE = "# SERVICE MANUAL\nModel 7"


def tagged(*pages):
    return tag_document(document(*pages))[0].passages


def own(passage):
    return [str(tag.value) for tag in passage.numbers if tag.value.scheme is Scheme.OWN]


def cited(*pages):
    return [own(passage) for passage in tagged(page(1, TITLE), *pages)][1:]


def test_sections_in_the_foot_and_paragraphs_in_the_headings():
    found = tagged(
        page(1, TITLE),
        page(2, "# SECTION V\n# LANDING GEAR\nText", foot=["Section V", "Page 2"], printed_page="2"),
        page(3, "# 5-12. BRAKES.\nAdjust the cam.", foot=["Section V", "Page 3"], printed_page="3"),
        page(4, "# 6-1. GENERAL.\nText", foot=["Section VI", "Page 4"], printed_page="4"),
    )
    assert [own(each) for each in found] == [[], ["V"], ["V"], ["5-12"], ["6-1"]]
    brakes = found[3].numbers[-1]
    assert (brakes.value.chapter, brakes.value.section) == ("5", "12")
    assert (brakes.evidence.quote, brakes.evidence.pdf_page) == ("5-12. BRAKES.", 3)
    assert brakes.evidence.box is not None


def test_a_paragraph_runs_on_over_the_page_and_is_quoted_from_where_it_is_printed():
    found = tagged(
        page(1, TITLE),
        page(2, "# 5-12. BRAKES.\nAdjust the cam.", foot=["Section V"]),
        page(3, "Then lock it.", foot=["Section V"]),
        page(4, "# 5-13. BLEEDING.\nText", foot=["Section V"]),
    )
    assert [own(each) for each in found[1:]] == [["5-12"], ["5-12"], ["5-13"]]
    assert found[2].numbers[-1].evidence.pdf_page == 2


def test_paragraphs_without_headings_are_all_named():
    body = "the cam until it drags.\n5-12. Raise the wheel.\nTurn the cam.\n5-13. Bleed the brakes."
    found = cited(page(2, f"# 5-11. DRUMS.\n{body}", foot=["Section V"]), *(
        page(number, "Text", foot=["Section V"]) for number in (3, 4)
    ))  # fmt: skip
    assert found == [["5-11", "5-12", "5-13"], ["5-13"], ["5-13"]]


@pytest.mark.parametrize(
    "line",
    [
        "5-12 bolts are used.",  # no stop behind the number
        "6-12. TANKS.",  # of another section
        "5-1407. Bolt.",  # a part number
        "5.12 In. of travel",
    ],
)
def test_what_opens_no_paragraph(line):
    found = cited(*(page(number, f"Text\n{line}\nText", foot=["Section V"]) for number in (2, 3, 4)))
    assert found == [["V"]] * 3


def test_pages_counted_by_section():
    found = cited(
        *(
            page(place, "Text", printed_page=printed)
            for place, printed in enumerate(("1-1", "2-1", "2-2", "V-1"), 2)
        )
    )
    assert found == [["1"], ["2"], ["2"], ["V"]]


def test_headings_and_a_contents_page_are_enough_where_pages_are_counted_through():
    listed = ("I. General ........ 3", "II. Landing gear ........ 4", "III. Engine ........ 6")
    contents = "# CONTENTS\n" + "\n".join(f"Section {each}" for each in listed)
    found = cited(
        page(2, contents, printed_page="2"),
        page(3, "# SECTION I\n# GENERAL\nText", printed_page="3"),
        page(4, "# SECTION II\n# LANDING GEAR\nText", printed_page="4"),
        page(5, "Text", printed_page="5"),
        page(6, "# SECTION III\n# ENGINE\nText", printed_page="6"),
    )
    assert found[0] == []
    assert found[1:] == [["I"], ["I"], ["II"], ["II"], ["II"], ["III"], ["III"]]


def test_headings_alone_do_not_make_an_order():
    found = cited(
        *(page(place, f"# SECTION {number}\nText") for place, number in enumerate(("I", "II", "III"), 2))
    )
    assert found == [[], [], []]


def test_a_chapter_numbered_manual_with_sections_in_its_contents_keeps_its_chapters_alone():
    contents = "# CONTENTS\nSection 1. General ........ 1\nSection 2. Brakes ........ 2"
    found = tagged(
        page(1, "# MAINTENANCE MANUAL"),
        page(2, contents),
        page(3, "# SECTION 1\n# GENERAL\nText", foot=["32-00-00 Page 1"], printed_page="1"),
        page(4, "# SECTION 2\n# BRAKES\nText", foot=["32-41-00 Page 2"], printed_page="2"),
    )
    assert [str(tag.value) for passage in found[2:] for tag in passage.numbers][-1] == "32-41-00"
    assert not [number for passage in found for number in own(passage)]


def test_the_index_at_the_back_is_of_no_section():
    index = "# INDEX\n" + "\n".join(f"Brakes, part {number}, 5-{number}" for number in range(1, 9))
    found = cited(
        *(page(number, "Text", foot=["Section V"], printed_page=str(number)) for number in (2, 3, 4)),
        page(5, index, printed_page="5"),
    )
    assert found == [["V"], ["V"], ["V"], []]


def test_a_sentence_in_the_foot_names_no_section():
    pages = [page(number, "Text", foot=["Section V", f"Page {number}"]) for number in (2, 3, 4)]
    pages.append(page(5, "SECTION VI OF THIS MANUAL TELLS MORE", foot=["Section V", "Page 5"]))
    assert cited(*pages) == [["V"]] * 4


@pytest.mark.parametrize(
    "body, printed",
    [
        ("# CONTENTS\nGeneral ........ 1\nBrakes ........ 2", ""),
        ("# LIST OF EFFECTIVE PAGES\nPage 1 May 1958", ""),
        ("# RECORD OF REVISIONS\nNo. 1", ""),
        ("# ALPHABETICAL INDEX\nBrakes 5-12", ""),
        ("Text", "LEP-1"),
    ],
)
def test_pages_that_only_lead_to_others(body, printed):
    pages = [page(1, "Text"), page(2, body, printed_page=printed), page(3, "Text")]
    assert front_pages(pages) == {2}


@pytest.mark.parametrize(
    "body",
    [
        "# BRAKES\nText",
        "# INDEXING THE PROPELLER\nText",
        "# CHANGE OF OIL\nText",
        "# REVISION OF THE RIGGING\nText",
    ],
)
def test_pages_that_are_about_something(body):
    assert front_pages([page(1, "Text"), page(2, body), page(3, "Text")]) == frozenset()
