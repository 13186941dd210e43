"""What a document is: right, or "cannot tell"; never wrong."""

from pathlib import Path

import pytest
from made_documents import document, document_of_lines, page

from indexer.errors import FileRefused
from indexer.reading.document import read_document
from indexer.settings import Settings
from indexer.tagging.publication import tag_document
from indexer.tagging.type_words import type_words
from indexer.trade.evidence import Basis
from indexer.trade.publication_types import PublicationType as Type

DATA = Path(__file__).parent.parent / "data"


def type_of(made):
    identity = tag_document(made)[0].identity
    return identity.type.value if identity.type else None


# Outside check: the papers' own titles (tests/data/SOURCES.md names where each comes from).
@pytest.mark.parametrize(
    "file, allowed",
    [
        ("AC-43-14.txt", {Type.ADVISORY_CIRCULAR}),
        ("AC-43-207.txt", {Type.ADVISORY_CIRCULAR}),
        ("AC-43-6D.txt", {Type.ADVISORY_CIRCULAR}),
        ("Major_Repair_Alteration_Data_Approval_Job-Aid_R5.txt", {Type.ORDER_OR_HANDBOOK}),
        ("Report_CEN22FA347.txt", {Type.ACCIDENT_REPORT}),
        ("Report_ERA09IA240.txt", {Type.ACCIDENT_REPORT}),
        ("JASC_Codes_2008.txt", {Type.CODE_TABLE}),
        ("NTSB_aviation_coding_manual_1998.txt", {None, Type.ORDER_OR_HANDBOOK, Type.CODE_TABLE}),
        ("FAA_Form_8130-3.txt", {None, Type.RELEASE_CERTIFICATE}),
        ("FAA-H-8083-32_toc.txt", {None, Type.ORDER_OR_HANDBOOK}),
        ("FAA-H-8083-32_index.txt", {None, Type.ORDER_OR_HANDBOOK}),
        ("CCAR_43_CCAR-43.txt", {None, Type.REGULATION}),
    ],
)
def test_a_public_paper_gets_its_own_type_or_none(file, allowed):
    text = (DATA / "title_pages" / file).read_text(encoding="utf-8")
    assert type_of(document_of_lines(text)) in allowed


@pytest.mark.parametrize("part", ["39", "43"])
def test_a_part_of_title_14_is_a_regulation(part):
    # Outside check: Title 14 CFR, edition of 1 January 2015.
    text = (DATA / "text" / f"14cfr_part{part}_2015.txt").read_text(encoding="utf-8")
    tagged = tag_document(document_of_lines(text))[0]
    assert tagged.identity.type.value is Type.REGULATION
    assert tagged.identity.number.value == f"14 CFR part {part}"


@pytest.mark.parametrize(
    "title_line, kind",
    [  # invented papers; forms of title are common practice, no source
        ("CORRIGAN AIRCRAFT  MODEL 88  MAINTENANCE MANUAL", Type.MAINTENANCE_MANUAL),
        ("Illustrated Parts Catalog", Type.PARTS_CATALOG),
        ("STRUCTURAL REPAIR MANUAL", Type.STRUCTURAL_REPAIR_MANUAL),
        ("COMPONENT MAINTENANCE MANUAL WITH ILLUSTRATED PARTS LIST", Type.COMPONENT_MAINTENANCE_MANUAL),
        ("PROPELLER OWNER'S MANUAL", Type.PROPELLER_MANUAL),
        ("ENGINE OVERHAUL MANUAL", Type.ENGINE_MANUAL),
        ("MANDATORY SERVICE BULLETIN No. 14", Type.SERVICE_BULLETIN),
        ("SERVICE LETTER SL-77", Type.SERVICE_LETTER),
        ("SERVICE INSTRUCTION No. 1009", Type.SERVICE_LETTER),
        ("TEMPORARY REVISION NO. 32-4 TO THE MAINTENANCE MANUAL", Type.TEMPORARY_REVISION),
        ("AIRPLANE FLIGHT MANUAL SUPPLEMENT", Type.FLIGHT_MANUAL_SUPPLEMENT),
        ("PILOT'S OPERATING HANDBOOK", Type.FLIGHT_MANUAL),
        ("TYPE CERTIFICATE DATA SHEET NO. A99ZZ", Type.TYPE_CERTIFICATE_DATA_SHEET),
        ("SPECIAL AIRWORTHINESS INFORMATION BULLETIN", Type.AIRWORTHINESS_BULLETIN),
        ("INSTRUCTIONS FOR CONTINUED AIRWORTHINESS", Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS),
        ("MASTER MINIMUM EQUIPMENT LIST", Type.MINIMUM_EQUIPMENT_LIST),
        ("WIRING DIAGRAM MANUAL", Type.WIRING_DIAGRAM_MANUAL),
        ("SUPPLEMENTAL TYPE CERTIFICATE", Type.SUPPLEMENTAL_TYPE_CERTIFICATE),
        ("OWNER'S HANDBOOK", None),
        ("OVERHAUL MANUAL", None),
    ],
)
def test_a_title_line_gives_the_type(title_line, kind):
    assert type_of(document(page(1, f"# {title_line}\nRevision 2"))) is kind


@pytest.mark.parametrize(
    "line",
    [
        "Refer to the maintenance manual before you begin.",
        "Supplement to the service manual",
        "Service bulletin list",
        "Reference: Service Bulletin SB 32-0012",
        "See service letter SL-77",
        "This work is described in the structural repair manual",
        "RECORD OF TEMPORARY REVISIONS RECORD",
        "Service bulletin incorporation",
        "the applicable airworthiness directive",
        "Holders of the maintenance manual must insert these pages",
        "Maintenance manual, chapter 32",
        "in accordance with Service Bulletin 14",
    ],
)
def test_a_line_that_names_another_publication_gives_no_type(line):
    assert [words.type for words in type_words(line)] == []


def test_a_paper_that_only_mentions_bulletins_and_manuals_has_no_type():
    body = """# Notes of a club meeting
The speaker had used Service Bulletin 14 and the maintenance manual of the engine.
He said that the airworthiness directive had come late and that a service letter followed.
The illustrated parts catalog was of no help to him and neither was the structural repair manual."""
    assert type_of(document(page(1, body), page(2, body))) is None


def test_contents_and_index_lines_name_no_type():
    body = "# Contents\nMaintenance Manual ........ 4\nService Bulletin ........ 9\nParts List ........ 12"
    assert type_of(document(page(1, body))) is None


def test_the_title_page_wins_over_heads_and_properties_and_the_others_stay_beside_it():
    made = document(
        page(1, "# SERVICE MANUAL\nMODEL 12", head=["MAINTENANCE MANUAL"]),
        page(2, "Text of the page", head=["MAINTENANCE MANUAL"]),
        properties={"Title": "Parts Catalog"},
    )
    kind = tag_document(made)[0].identity.type
    # The head of page 1 stands in the title block too, but smaller.
    assert kind.value is Type.SERVICE_MANUAL
    assert {other.value for other in kind.others} == {Type.MAINTENANCE_MANUAL, Type.PARTS_CATALOG}


def test_a_head_on_most_pages_gives_the_type_when_the_title_page_says_nothing():
    made = document(
        *(page(number, "Some text", head=["COMPONENT MAINTENANCE MANUAL"]) for number in (1, 2, 3))
    )
    kind = tag_document(made)[0].identity.type
    assert kind.value is Type.COMPONENT_MAINTENANCE_MANUAL
    assert kind.evidence.basis is Basis.PRINTED


def test_the_file_s_own_properties_are_the_last_to_be_asked():
    kind = tag_document(document(page(1, ""), properties={"Title": "Service Bulletin 14"}))[0].identity.type
    assert kind.value is Type.SERVICE_BULLETIN
    assert kind.evidence.basis is Basis.DOCUMENT_PROPERTIES
    assert kind.evidence.pdf_page is None


def test_a_document_without_a_page_of_text_is_kept_with_nothing_told():
    (tagged,) = tag_document(document(page(1, ""), page(2, "")))
    identity = tagged.identity
    assert (tagged.first_page, tagged.last_page) == (1, 2)
    assert [identity.type, identity.number, identity.title, identity.maker] == [None] * 4


@pytest.mark.parametrize("path", sorted((DATA / "robustness").glob("*.pdf")), ids=lambda path: path.name)
def test_a_file_that_is_no_publication_of_the_trade_has_no_type(path):
    """Outside check: general PDF test files (tests/data/SOURCES.md); none prints a type."""
    try:
        made = read_document(path, Settings())
    except FileRefused:
        return  # refused with a reason: nothing to tag
    tagged = tag_document(made)
    assert [work.identity.type for work in tagged] == [None] * len(tagged)
    assert all(passage.numbers == () for work in tagged for passage in work.passages)
