"""What holds where the shop has spoken: entry over print, print over map, map over inference.

The order is this project's own rule; that a page of section 2 on brakes is 12 and 32 is common practice, no
source.
"""

import pytest

from indexer.tagging.numbering import file_by_shop
from indexer.trade.chapters import ChapterNumber, Scheme, parse_number
from indexer.trade.evidence import Basis, Evidence, Tag

OWN = Tag(ChapterNumber("5", "12", scheme=Scheme.OWN), Evidence(Basis.PRINTED, "own section", "5-12. BRAKES"))


def tags(basis, *numbers, confidence=None, others=()):
    evidence = Evidence(basis, "a rule", confidence=confidence)
    return tuple(
        Tag(parse_number(number), evidence, others if place == 0 else ())
        for place, number in enumerate(numbers)
    )


def printed(*numbers):
    return tags(Basis.PRINTED, *numbers)


def shop(*numbers):
    return tags(Basis.SHOP_ENTRY, *numbers)


def inferred(*numbers, confidence=0.99):
    return tags(Basis.INFERRED, *numbers, confidence=confidence)


@pytest.mark.parametrize(
    "numbers, mapped, entered, holds, beside",
    [
        (printed("32-41-00"), (), None, ["32-41-00"], []),
        (printed("32-41-00"), shop("12"), None, ["32-41-00"], ["12"]),
        (printed("32-41-00"), shop("32"), None, ["32-41-00"], []),  # says less, does not disagree
        (printed("32-41-00"), shop("12"), shop("05"), ["05"], ["12", "32-41-00"]),
        (printed("32-41-00"), (), (), [], []),
        (inferred("32"), shop("12", "32"), None, ["12", "32"], []),
        (inferred("71"), shop("12", "32"), None, ["12", "32"], ["71"]),
        (inferred("71", confidence=0.6), shop("32"), None, ["32"], []),  # only possible: not worth a doubt
        (inferred("71"), (), shop("32"), ["32"], ["71"]),
        ((), shop("32"), None, ["32"], []),
        ((), (), None, [], []),
        ((*inferred("71"), OWN), shop("32"), None, ["32", "5-12"], ["71"]),
        ((OWN,), (), None, ["5-12"], []),
        ((*inferred("32"), OWN), (), (), ["5-12"], ["32"]),  # the shop says: under no chapter
    ],
)  # fmt: skip
def test_which_numbers_hold(numbers, mapped, entered, holds, beside):
    now = file_by_shop(numbers, mapped, entered)
    assert [str(tag.value) for tag in now] == holds
    assert sorted(str(other.value) for tag in now[:1] for other in tag.others) == sorted(beside)


def test_a_doubt_of_the_page_itself_is_not_lost():
    outline = tags(Basis.OUTLINE, "24-31-00")
    (now,) = file_by_shop(tags(Basis.PRINTED, "32-41-00", others=outline), shop("32"), None)
    assert [str(other.value) for other in now.others] == ["24-31-00"]


def test_the_winner_keeps_its_own_evidence():
    (now,) = file_by_shop(inferred("71"), shop("32"), None)
    assert now.evidence.basis is Basis.SHOP_ENTRY
    assert now.others[0].evidence.basis is Basis.INFERRED
