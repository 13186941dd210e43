"""What a directive takes out of a document it requires is not raised with the rest.

Directives and bulletins are invented; wordings: common practice, no source.
"""

import pytest
from making import take
from shop import DATE, OTHER_MAKER, bulletin, claim, directive

from indexer.library.catalogue import Catalogue
from indexer.library.relation_rules.exceptions import exceptions
from indexer.library.relations import relate
from indexer.tagging.tags import ClaimKind, StandingValue

REQUIRES = claim(ClaimKind.REQUIRES, "32-0012", revision="3", date=DATE(2030, 8, 3))
BULLETIN = bulletin("32-0012", "3", DATE(2030, 8, 3))
WORDS = "This AD applies to Corvane Aircraft Company airplanes."


@pytest.fixture
def raised(tmp_path):
    def put(held, text):
        catalogue = Catalogue.open(tmp_path / "library", create=True)
        taken = take(catalogue, tmp_path / "in", held)
        take(catalogue, tmp_path / "in", directive("2031-04-07", REQUIRES, text=text))
        relate(catalogue)
        return [
            passage.heading_path[0]
            for passage in catalogue.passages_of(taken.publications[0])
            if passage.standing.value is StandingValue.APPROVED
        ]

    return put


@pytest.mark.parametrize(
    ("sentence", "parts"),
    [
        ("Do the work in accordance with the bulletin, except paragraph 3.C.", ("paragraph 3.C",)),
        ("Paragraphs 3.C and 3.D of the bulletin are not required.", ("Paragraphs 3.C and 3.D",)),
        ("This AD does not require Part 1 of the bulletin.", ("Part 1",)),
        ("Do not do Part 2 of the bulletin.", ("Part 2",)),
        ("Where paragraph 2.B says to call the maker, this AD requires another way.", ("paragraph 2.B",)),
        ("Do Part 2 of the bulletin, except as required by paragraph (h) of this AD.", ()),
        ("Do Part 2 of the bulletin.", ()),
        ("Do the bulletin, except that one test is not done.", ('"except that one test is not done."',)),
        ("A test in the bulletin is not required.", ('"A test in the bulletin is not required."',)),
        ("Although the bulletin says to send a report, this AD does not require that.", ()),
        ("14 CFR part 39 does not require a permit.", ()),
        ("Do this except for the airplanes in Table 1 to paragraph (g) of this AD.", ()),
    ],
)
def test_parts_are_taken_out_by_words_of_exception_and_by_no_others(sentence, parts):
    assert exceptions(sentence) == parts


def test_the_excepted_part_stays_as_it_was_and_the_rest_is_raised(raised):
    found = raised(BULLETIN, f"{WORDS} Do the bulletin, except Part 3.")
    assert found == ["1. PLANNING INFORMATION", "PART 2 - INSPECTION", "PART 2 - INSPECTION"]


def test_an_exception_that_cannot_be_found_raises_nothing(raised):
    assert raised(BULLETIN, f"{WORDS} Do the bulletin, except Part 9.") == []


def test_without_an_exception_the_whole_bulletin_is_raised(raised):
    assert len(raised(BULLETIN, f"{WORDS} Do the bulletin.")) == 5


def test_another_makers_bulletin_of_the_same_number_revision_and_date_is_not_raised(raised):
    other = bulletin("32-0012", "3", DATE(2030, 8, 3), maker=OTHER_MAKER)
    assert raised(other, WORDS) == []
