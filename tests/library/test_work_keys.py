"""Which numbers and makers are one and the same. Common practice, no source."""

import pytest
from making import evidence

from indexer.library.works import claimed_keys, maker_key, number_key
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.publication_types import PublicationType as Type


@pytest.mark.parametrize(
    "one, other",
    [
        ("Corvane Aircraft Company", "CORVANE AIRCRAFT CO., INC."),
        ("The Corvane Corporation", "Corvane"),
        ("Aircraft Industries", "AIRCRAFT INDUSTRIES"),
    ],
)
def test_one_maker(one, other):
    assert maker_key(one) == maker_key(other) != ""


def test_two_makers():
    assert maker_key("Corvane Aircraft") != maker_key("Dellmore Aircraft")
    assert maker_key("Aircraft Industries") != maker_key("Aviation Company")


@pytest.mark.parametrize(
    "type, one, other",
    [
        (Type.SERVICE_BULLETIN, "SB 32-0012", "Service Bulletin No. 32-0012"),
        (Type.SERVICE_BULLETIN, "32-0012", "SB 32-0012"),
        (Type.SERVICE_LETTER, "SL-0219", "Service Letter SL-0219"),
        (Type.SERVICE_LETTER, "0219", "SL 0219"),
        (Type.AIRWORTHINESS_DIRECTIVE, "AD 82-27-13 R1", "82-27-13-R1"),
        (Type.MAINTENANCE_MANUAL, "P/N D4410-1", "D4410-1"),
        (Type.MAINTENANCE_MANUAL, "Manual No. D4410 1", "d4410-1"),
    ],
)
def test_one_number(type, one, other):
    assert number_key(one, type) == number_key(other, type) != ""


@pytest.mark.parametrize(
    "type, one, other",
    [
        (Type.SERVICE_BULLETIN, "SB 32-0012", "ASB 32-0012"),
        (Type.SERVICE_BULLETIN, "SB 32-0012", "SB 32-0013"),
        (Type.SERVICE_LETTER, "SL 0219", "SI 0219"),
        (Type.AIRWORTHINESS_DIRECTIVE, "82-27-13", "82-27-13R1"),
        (Type.MAINTENANCE_MANUAL, "D4410-1", "D44101"),
    ],
)
def test_two_numbers(type, one, other):
    assert number_key(one, type) != number_key(other, type)


@pytest.mark.parametrize(
    "quote, key",
    [
        ("in accordance with Alert Service Bulletin 32-0012, Revision 3", "ASB-32-0012"),
        ("in accordance with Service Bulletin 32-0012, Revision 3", "32-0012"),
        ("in accordance with the bulletin", "32-0012"),
    ],
)
def test_the_series_of_a_claimed_bulletin_is_read_from_the_words_before_it(quote, key):
    claim = Claim(ClaimKind.REQUIRES, "32-0012", evidence(quote), Type.SERVICE_BULLETIN)
    assert claimed_keys(claim) == {key}
