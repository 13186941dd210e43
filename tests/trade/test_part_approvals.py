"""Part approvals, release tags and standard parts are no data for the work.

Outside check: 14 CFR 21.9(a)(2) and (a)(3); form and standard numbers are common practice, no source.
"""

import pytest

from indexer.trade.part_approvals import PartApprovalKind as K
from indexer.trade.part_approvals import find_part_approvals, part_approval_of_type
from indexer.trade.publication_types import PublicationType as Type


@pytest.mark.parametrize(
    ("words", "kinds"),
    [
        ("Installed FAA-PMA oil filter P/N 4410-2", [K.PMA]),
        ("installed PMA'd bracket", [K.PMA]),
        ("parts manufacturer approval PQ1234CE", [K.PMA]),
        ("Altered mount per FAA/PMA supplement 3", [K.PMA]),
        ("new belt IAW TSO-C22g", [K.TSO]),
        ("seat, TSO C39b approved", [K.TSO]),
        ("GPS under TSO authorization", [K.TSO]),
        ("ETSO-C126", [K.TSO]),
        ("repaired IAW 8130-3 tag", [K.RELEASE]),
        ("FAA Form 8130-3 attached", [K.RELEASE]),
        ("authorized release certificate", [K.RELEASE]),
        ("EASA Form 1", [K.RELEASE]),
        ("yellow tag on file", [K.RELEASE]),
        ("bolt AN4-12A and rivets MS20470AD4-4", [K.STANDARD_PART, K.STANDARD_PART]),
        ("use standard parts", [K.STANDARD_PART]),
        ("PMA filter with 8130-3", [K.PMA, K.RELEASE]),
        ("engine TSO 540 hrs, TSN 2100", []),  # time since overhaul
        ("TSO 540", []),
        ("replaced an 8130 valve", []),
        ("IAW standard practices manual 20-10", []),
        ("an item on the list", []),
        ("see MS 4 of the manual", []),
    ],
)
def test_papers_that_approve_an_article_are_found(words, kinds):
    found = find_part_approvals(words)
    assert [each.kind for each in found] == kinds
    assert all(each.quote == words[each.start : each.end] != "" for each in found)


@pytest.mark.parametrize("kind", list(K))
def test_every_sentence_says_that_other_data_must_be_cited(kind):
    words = {
        K.PMA: "FAA-PMA", K.TSO: "TSO-C91a", K.RELEASE: "8130-3", K.STANDARD_PART: "AN4-12A",
    }  # fmt: skip
    found = (
        find_part_approvals(words[kind])[0] if kind in words else part_approval_of_type(Type.PARTS_APPROVAL)
    )
    assert found.kind is kind
    assert "no data for" in found.sentence
    assert "Cite the data" in found.sentence
    assert found.source


def test_only_papers_about_an_article_are_such_by_their_type():
    of_article = {kind for kind in Type if part_approval_of_type(kind)}
    assert of_article == {Type.PARTS_APPROVAL, Type.RELEASE_CERTIFICATE}
    assert part_approval_of_type(None) is None
