"""A standing that two persons of the shop entered is said as theirs, never as words in print.

14 CFR 43.13(a) asks for data that is shown; who says so must be plain. Common practice, no source.
"""

import pytest
from small_library import passage, tag, take

from indexer.library.catalogue import Catalogue
from indexer.library.records import EntryKind
from indexer.library.relations import relate
from indexer.library.shop_entries import add_entry, second_entry
from indexer.settings import Settings
from indexer.tagging.tags import Identity, TaggedPublication
from indexer.trade.publication_types import PublicationType as Type
from server.opened import OpenedLibrary
from server.packet_findings import finding_words
from server.routes.finding_view import finding_view
from server.sourcecheck import check
from server.words import standing_words

SAID = "Entered by Ivo Brandt, agreed by Rosa Quill; reason: Read in the grant. No printed words are quoted."
REASON = "Read in the grant"


@pytest.fixture(params=["approved", "acceptable"])
def entered(request, tmp_path):
    """A manual of which two persons say that one passage has a standing; with the value and the library."""
    kind = Type.STRUCTURAL_REPAIR_MANUAL
    identity = Identity(
        tag(kind, kind.label), tag("OW-51", "OW-51"), None, tag("Osprey Works", "Osprey Works"),
        (tag("OW-12", "OW-12"),), tag("3", "Revision 3"), None,
    )  # fmt: skip
    texts = (passage(0, 2, "Splice the stringer."),)
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        (tmp_path / "files").mkdir()
        taken = take(catalogue, tmp_path / "files", "srm", TaggedPublication(1, 2, identity, texts, ()))
        relate(catalogue)
        entry = add_entry(
            catalogue,
            catalogue.publication(taken).copy_id,
            2,
            "Ivo Brandt",
            f"{REASON}.",
            EntryKind.STANDING,
            request.param,
        )
        second_entry(catalogue, entry.id, "Rosa Quill")
        relate(catalogue)
    with OpenedLibrary.open(tmp_path / "library", Settings()) as library:
        yield request.param, library, taken


def test_the_words_of_a_passage_say_who_entered_it(entered):
    value, library, publication = entered
    words = standing_words(library.catalogue.passages_of(publication)[0].standing)
    assert words.lead == f"{value.capitalize()} data (entered by the shop)"
    assert words.why == SAID and words.quote == words.quote_place == ""


def test_a_source_check_rests_on_the_entry_and_says_so(entered):
    value, library, _ = entered
    answer = check(library, "Repaired IAW OW-51 Rev 3", None, "", keep=False).fields()
    (found,) = answer["citations"]
    standing = found["standing"]
    assert (standing["value"], standing["basis"]) == (value, "entered by the shop")
    assert standing["quote"] == standing["source"] == "" and standing["pdf_page"] is None
    assert standing["conditions"][0] == SAID
    said = " ".join(each["why"] for each in found["enough"].values())
    assert "«" not in said and "for the actions of" not in said and "Approved only through" not in said
    view = finding_view(1, found, answer)
    assert view.lead == f"{value.capitalize()} data (entered by the shop)"
    assert view.quote == view.quote_place == view.quote_address == "" and SAID in view.conditions
    packed = finding_words(found)
    assert packed["lead"] == view.lead and packed["quote"] == "" and SAID in packed["conditions"]


def test_a_yes_on_an_entry_names_the_entry(entered):
    _, library, _ = entered
    answer = check(library, "Repaired stringer IAW OW-51 Rev 3 pg 401", None, "", keep=False)
    (found,) = answer.fields()["citations"]
    minor, major = found["enough"]["minor"], found["enough"]["major"]
    assert minor["answer"] == "yes" and major["answer"] != "yes"
    assert "on the shop's entry alone" in minor["why"] and SAID.rstrip(".") in minor["why"]
