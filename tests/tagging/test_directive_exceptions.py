"""Where a directive says otherwise than its bulletin: the directive's words and values are found.

Forms of sentences: exceptions paragraphs of published directives begin "Where [document] specifies ...,
this AD requires ..." (14 CFR part 39 rules in the Federal Register); the values here are invented.
"""

import pytest

from indexer.tagging.directive_exceptions import find_exceptions, values_replaced

TORQUE = (
    "(h) Exception. Where Service Bulletin XJ9-32-0020, Revision 1, dated January 8, 2099, gives a torque "
    "of 50 inch-pounds for the axle nut, this AD requires a torque of 60 inch-pounds. Comply within 10 hours."
)


@pytest.mark.parametrize(
    ("text", "replaced"),
    [
        (TORQUE, ("50 inch-pounds",)),
        ("Where the bulletin says to write on the plate, this AD does not require that action.", ()),
        (
            "Where the service bulletin specifies contacting the maker, this AD requires using a method "
            "approved by the Manager.",
            (),
        ),
        (
            "Where the bulletin says within 1,200 hours, this AD requires it within 600 flight hours.",
            ("1200 hours",),
        ),
        ("Where the letter gives 25 psi, for this AD use 25 psi.", ()),
    ],
)
def test_what_takes_the_place_of_the_bulletins_words(text, replaced):
    (found,) = find_exceptions(text)
    assert found.quote.startswith("Where") and found.quote in text
    assert found.replaced == replaced


@pytest.mark.parametrize(
    "text",
    [
        "This AD requires replacing the nut.",
        "Where the nut is loose, replace it before further flight.",
        "Look where the hose meets the wall. This AD requires a torque of 60 inch-pounds.",
    ],
)
def test_other_sentences_are_no_exceptions(text):
    assert find_exceptions(text) == []


@pytest.mark.parametrize(
    ("entry", "values"),
    [
        ("Torqued axle nut to 50 in-lb IAW SB XJ9-32-0020.", ("50 inch-pounds",)),
        ("Torqued axle nut to 50 in. lbs.", ("50 inch-pounds",)),
        ("Torqued axle nut to 60 in-lb as the AD says.", ()),
        ("Torqued axle nut to 150 in-lb.", ()),
        ("Replaced 50 rivets at 60 inches.", ()),
        ("Torqued to 50 ft-lb.", ()),
    ],
)
def test_an_entry_that_uses_the_replaced_value(entry, values):
    (found,) = find_exceptions(TORQUE)
    assert values_replaced(entry, found) == values
