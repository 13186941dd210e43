"""The standing of what is cited, and which document is meant, on hand-made papers.

Text read by OCR proves nothing; makers number alike. Common practice, no source, where no other is named.
"""

import datetime
from dataclasses import replace

import pytest
from small_library import APPROVED, UNDETERMINED, passage, tag, take

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.relations import relate
from indexer.settings import Settings
from indexer.tagging.tags import (
    Claim,
    ClaimKind,
    DirectiveFacts,
    Identity,
    Standing,
    StandingValue,
    TaggedPublication,
)
from indexer.trade.evidence import Basis, Evidence, Origin, Tag
from indexer.trade.publication_types import PublicationType as Type
from server.opened import OpenedLibrary
from server.sourcecheck import check

DAY = datetime.date(2031, 3, 4)


def paper(
    kind, number, passages, revision="3", maker="Osprey Works", models=("OW-12",), date=DAY, type_origin=None
):
    kind_tag = tag(kind, kind.label)
    if type_origin:
        kind_tag = Tag(kind, Evidence(Basis.PRINTED, "test", kind.label, 1, origin=type_origin))
    identity = Identity(
        kind_tag,
        tag(number, number) if number else None,
        tag(f"{kind.label} {models[0]}", kind.label),
        tag(maker, maker) if maker else None,
        tuple(tag(model, model) for model in models),
        tag(revision, f"Revision {revision}") if revision else None,
        tag(date, date.isoformat()) if date else None,
    )
    return TaggedPublication(1, 3, identity, tuple(passages), ())


def standing(value, quote, origin=Origin.DIGITAL, **more):
    evidence = Evidence(Basis.PRINTED, "test", quote, 2, origin=origin)
    return Standing(value, StandingValue.ACCEPTABLE, evidence, "page", **more)


def read_as(origin):
    return standing(StandingValue.APPROVED, "FAA APPROVED", origin)


@pytest.fixture
def library(tmp_path):
    """Takes papers and gives the library opened, over an index that nobody asks."""
    opened = []

    def make(**papers):
        with Catalogue.open(tmp_path / "library", create=True) as catalogue:
            (tmp_path / "files").mkdir()
            for name, publication in papers.items():
                take(catalogue, tmp_path / "files", name, publication)
            relate(catalogue)
        opened.append(OpenedLibrary.open(tmp_path / "library", Settings()))
        return opened[0]

    yield make
    for each in opened:
        each.close()


def one(library, text, aircraft=""):
    citations = check(library, text, aircraft, keep=False).fields()["citations"]
    assert len(citations) == 1, citations
    return citations[0]


def answers(finding):
    return {work: each["answer"] for work, each in finding["enough"].items()}


LINE = "IAW Maintenance Manual OW12-MM, Rev 3, 32-41-05 page 401"


@pytest.mark.parametrize(
    ("why", "own", "origin", "value"),
    [
        ("digital words on a digital page", APPROVED, Origin.DIGITAL, "approved"),
        ("digital words, the page read by OCR", APPROVED, Origin.OCR, "undetermined"),
        ("words read by OCR", read_as(Origin.OCR), Origin.DIGITAL, "undetermined"),
        ("words of a hidden layer", read_as(Origin.HIDDEN_OCR), Origin.DIGITAL, "undetermined"),
        ("no words, the page read by OCR", UNDETERMINED, Origin.OCR, "undetermined"),
        ("no words on a digital page", UNDETERMINED, Origin.DIGITAL, "acceptable"),
    ],
)
def test_text_read_by_ocr_proves_nothing(library, why, own, origin, value):
    page = passage(0, 2, "Replace the lining.", own, ["32-41-05"], origin=origin)
    finding = one(library(manual=paper(Type.MAINTENANCE_MANUAL, "OW12-MM", [page])), LINE)
    assert finding["resolved"]["pdf_pages"] == [2]
    assert finding["standing"]["value"] == value
    if value == "undetermined":
        assert "yes" not in answers(finding).values()


def test_a_kind_of_manual_read_by_ocr_makes_nothing_acceptable(library):
    page = passage(0, 2, "Replace the lining.", UNDETERMINED, ["32-41-05"])
    made = paper(Type.MAINTENANCE_MANUAL, "OW12-MM", [page], type_origin=Origin.OCR)
    assert answers(one(library(manual=made), LINE)) == {"minor": "cannot tell", "major": "cannot tell"}


def test_the_least_standing_of_the_place_counts(library):
    """Standing is a property of a passage: one page may hold approved words and others beside them."""
    pages = [
        passage(0, 2, "Approved words.", APPROVED, ["32-41-05"]),
        passage(1, 2, "Words beside them.", UNDETERMINED, ["32-41-05"]),
    ]
    finding = one(library(manual=paper(Type.MAINTENANCE_MANUAL, "OW12-MM", pages)), LINE)
    assert finding["standing"]["value"] == "acceptable" and answers(finding)["major"] != "yes"


def test_a_notice_on_any_passage_of_the_place_blocks_it(library):
    pages = [
        passage(0, 2, "Approved words.", APPROVED, ["32-41-05"]),
        passage(1, 2, "Training.", standing(StandingValue.BLOCKED, "NOT FOR MAINTENANCE"), ["32-41-05"]),
    ]
    finding = one(library(manual=paper(Type.MAINTENANCE_MANUAL, "OW12-MM", pages)), LINE)
    assert finding["standing"]["value"] == "blocked"
    assert answers(finding) == {"minor": "no", "major": "no"}
    assert "NOT FOR MAINTENANCE" in finding["enough"]["minor"]["why"]


def test_a_whole_document_has_no_more_than_its_least_passage(library):
    pages = [
        passage(0, 2, "Approved words.", standing(StandingValue.APPROVED, "is FAA approved"), ["32-41"]),
        passage(1, 3, "Appendix.", UNDETERMINED, ["32-41"]),
    ]
    held = library(bulletin=paper(Type.SERVICE_BULLETIN, "SB OW12-32-0012", pages))
    finding = one(held, "C/W SB OW12-32-0012 Rev 3")
    assert finding["standing"]["value"] == "acceptable" and answers(finding)["major"] == "cannot tell"
    assert any("1 of 2 passages" in each for each in finding["standing"]["conditions"])


def test_makers_number_alike(library):
    """ "Service Bulletin 17" names a document only beside a maker, a model, its date or the aircraft."""
    pages = [passage(0, 2, "Inspect the bolt.", UNDETERMINED, ["32-41"])]
    held = library(bulletin=paper(Type.SERVICE_BULLETIN, "17", pages, revision=""))
    fleet.add(held.catalogue, "N12OW", "OW-12", "R. Quill", "12", "Osprey Works")
    fleet.add(held.catalogue, "N99ZZ", "ZZ-9", "R. Quill", "9", "Zephyr Makers")
    assert answers(one(held, "C/W SB 17"))["minor"] == "cannot tell"
    assert answers(one(held, "C/W SB 17", "N99ZZ"))["minor"] == "cannot tell"
    assert answers(one(held, "C/W Osprey SB 17"))["minor"] == "yes"
    assert answers(one(held, "C/W SB 17 dated March 4, 2031"))["minor"] == "yes"
    assert "number alike" not in " ".join(one(held, "C/W SB 17", "N12OW")["notes"])


def test_one_number_of_two_makers_is_left_open(library):
    pages = [passage(0, 2, "Inspect the bolt.", UNDETERMINED, ["32-41"])]
    held = library(
        ours=paper(Type.SERVICE_BULLETIN, "17", pages, revision=""),
        theirs=paper(
            Type.SERVICE_BULLETIN, "17", pages, revision="", maker="Zephyr Makers", models=("ZZ-9",)
        ),
    )
    open_ = one(held, "C/W SB 17")
    assert open_["resolved"] is None and len(open_["candidates"]) == 2
    assert one(held, "C/W Zephyr SB 17")["resolved"]["name"].startswith("SB 17")


def test_manuals_of_one_kind_are_told_apart_by_the_words_or_the_aircraft(library):
    pages = [passage(0, 2, "Replace the lining.", UNDETERMINED, ["32-41-05"])]
    held = library(
        ours=paper(Type.MAINTENANCE_MANUAL, "OW12-MM", pages),
        theirs=paper(Type.MAINTENANCE_MANUAL, "ZZ9-MM", pages, maker="Zephyr Makers", models=("ZZ-9",)),
    )
    fleet.add(held.catalogue, "N99ZZ", "ZZ-9", "R. Quill", "9", "Zephyr Makers")
    line = "IAW AMM 32-41-05 page 401"
    open_ = one(held, line)
    assert open_["resolved"] is None and len(open_["candidates"]) == 2
    assert one(held, line, "N99ZZ")["resolved"]["name"].startswith("ZZ9-MM")
    assert one(held, "IAW OW-12 AMM 32-41-05 page 401")["resolved"]["name"].startswith("OW12-MM")


def test_a_manual_of_a_product_that_is_not_held_is_not_another_products(library):
    pages = [passage(0, 2, "Replace the lining.", UNDETERMINED, ["32-41-05"])]
    held = library(ours=paper(Type.MAINTENANCE_MANUAL, "OW12-MM", pages))
    finding = one(held, "IAW Zephyr ZZ-9 Maintenance Manual 32-41-05 page 401")
    assert "yes" not in answers(finding).values()


@pytest.mark.parametrize("order", [("b", "c"), ("c", "b")])
def test_the_order_of_taking_changes_no_finding(library, order):
    pages = [passage(0, 2, "Inspect the bolt.", UNDETERMINED, ["32-41"])]
    later = datetime.date(2031, 9, 9)
    papers = {
        "b": paper(Type.SERVICE_BULLETIN, "SB OW12-32-0012", pages, "B"),
        "c": paper(Type.SERVICE_BULLETIN, "SB OW12-32-0012", pages, "C", date=later),
    }
    held = library(**{name: papers[name] for name in order})
    assert one(held, "C/W SB OW12-32-0012 Rev B")["current"]["state"] == "superseded"
    assert one(held, "C/W SB OW12-32-0012 Rev C")["current"]["state"] == "unknown"
    assert [each["revision"] for each in one(held, "C/W SB OW12-32-0012")["candidates"]] == ["C", "B"]


def test_a_replaced_directive_that_is_not_held_is_history(library):
    """Paragraph (b) of the newer directive names it."""
    words = "This AD replaces AD 2029-22-08."
    claim = Claim(
        ClaimKind.SUPERSEDES,
        "2029-22-08",
        Evidence(Basis.PRINTED, "test", words, 1),
        Type.AIRWORTHINESS_DIRECTIVE,
    )
    effective = tag(datetime.date(2032, 3, 15), "effective March 15, 2032")
    facts = DirectiveFacts(tag("2032-03-05", "AD 2032-03-05"), None, effective, (), None, True)
    newer = paper(Type.AIRWORTHINESS_DIRECTIVE, "2032-03-05", [passage(0, 1, words, APPROVED)], revision="")
    held = library(newer=replace(newer, claims=(claim,), directive=facts))

    def told(day):
        line = "C/W AD 2029-22-08, latch inspected."
        return check(held, line, work="directive", on=day, keep=False).fields()["citations"][0]

    after = told(datetime.date(2032, 3, 15))
    assert after["resolved"] is None and after["current"]["state"] == "superseded"
    assert answers(after)["directive"] == "no" and "AD 2032-03-05" in after["enough"]["directive"]["why"]
    before = told(datetime.date(2032, 3, 14))
    assert before["current"]["state"] == "unknown" and answers(before)["directive"] == "cannot tell"
