"""What a listing names and the library does not hold: one line a document, rules together, places last.

The bulletin and its number as an AD prints them: invented. How such numbers are written: common practice, no
source.
"""

from itertools import permutations

import pytest

from indexer.library.records import Reference, ReferenceState
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.publication_types import PublicationType as Type
from server.system_not_here import missing, rules_words, said_by
from server.system_records import NotHere, NotHereKind

DOCUMENT, RULE, PLACE = NotHereKind


def said(kind, text, number="", state=ReferenceState.NOT_HELD, type=None, revision="", reason="Why."):
    citation = Citation(kind, text, 0, len(text), type=type, number=number, revision=revision)
    return said_by(Reference("a-1-0", 0, "a-1", citation, state, (), reason))


def bulletin(text, number, revision=""):
    reason = f"Held here, but not at the revision named ({revision}): C." if revision else "Not held."
    return said(
        CitationKind.DOCUMENT, text, number, type=Type.SERVICE_BULLETIN, revision=revision, reason=reason
    )


@pytest.mark.parametrize(
    "other",
    [
        "QZ62-32-0114",
        "SB QZ62-32-0114",
        "Service Bulletin QZ62-32-0114",
        "qz62 32 0114",
        "QZ62\u201332\u20130114",
    ],
)
def test_one_number_however_written_is_one_document(other):
    (found,) = missing([bulletin("SB QZ62-32-0114", "QZ62-32-0114"), bulletin(other, other)])
    assert (
        found.kind is DOCUMENT
        and "QZ62-32-0114" in found.name.replace("\u2013", "-").replace(" ", "-").upper()
    )


def test_documents_of_two_numbers_are_two():
    other = said(CitationKind.DOCUMENT, "AD 2031-04-07", "2031-04-07", type=Type.AIRWORTHINESS_DIRECTIVE)
    found = missing([bulletin("SB 32-0114", "32-0114"), bulletin("SB 32-0115", "32-0115"), other])
    assert [each.name for each in found] == ["SB 32-0114", "SB 32-0115", "AD 2031-04-07"]


def test_revisions_are_told_apart_in_the_words_of_one_line():
    claim = NotHere(DOCUMENT, "32-0114", "32-0114", "A", "credit", "Credits earlier work.", (("b-1", 4),))
    both = [bulletin("SB 32-0114", "32-0114", "A"), bulletin("SB 32-0114", "32-0114", "original"), claim]
    for order in permutations(both):
        (found,) = missing(order)
        assert found.name == "SB 32-0114" and found.named_by == (("b-1", 4),)
        assert found.words.endswith(". Held here, but not at the revision named: C.")
        assert "A" in found.words and "original" in found.words and "Credits" not in found.words


def test_rules_stand_in_one_line():
    rules = [
        said(CitationKind.REGULATION, "14 CFR 39.19", "39.19"),
        said(CitationKind.REGULATION, "14 CFR\n43.13(b)", "43.13(b)"),
        said(CitationKind.REGULATION, "1 CFR part 51", "1 CFR part 51"),
        said(CitationKind.REGULATION, "\u00a7 39.19", "39.19"),
    ]
    found = missing(rules)
    assert {each.kind for each in found} == {RULE}
    assert rules_words(found) == "Rules: 14 CFR 39.19, 43.13(b); 1 CFR part 51 (not held here)"
    assert rules_words([]) == ""


def test_a_place_in_a_document_held_here_is_no_document():
    places = [
        said(CitationKind.PARAGRAPH, "paragraph (h)", state=ReferenceState.CANNOT_TELL),
        said(CitationKind.DOCUMENT, "SB 5, page 9", "5", ReferenceState.NO_SUCH_PLACE, Type.SERVICE_BULLETIN),
    ]
    assert [(each.kind, each.name) for each in missing(places)] == [
        (PLACE, "paragraph (h)"),
        (PLACE, "SB 5, page 9"),
    ]
