"""The conditions under which AC 43.13-1B and -2B may be used as approved data.

Outside check: AC 43.13-1B (8 September 1998, Change 1), paragraph 1, as published. 43.13-2B from memory.
"""

import pytest

from indexer.trade.circular_conditions import circular_conditions, circulars_that_may_be_meant

PARAGRAPH_1 = (
    "This advisory circular (AC) contains methods, techniques, and practices acceptable to the "
    "Administrator for the inspection and repair of nonpressurized areas of civil aircraft, only when "
    "there are no manufacturer repair or maintenance instructions. This data generally pertains to "
    "minor repairs. The repairs identified in this AC may only be used as a basis for FAA approval "
    "for major repairs. The repair data may also be used as approved data, and the AC chapter, page, "
    "and paragraph listed in block 8 of FAA form 337 when: a. the user has determined that it is "
    "appropriate to the product being repaired; b. it is directly applicable to the repair being "
    "made; and c. it is not contrary to manufacturer's data."
)


@pytest.mark.parametrize(
    "number",
    ["43.13-1B", "AC 43.13-1B", "AC43.13-1b", "AC 43.13\u20111B", "AC No: 43.13-1B", "43.13-1B CHG 1"],
)
def test_the_circular_is_known_by_its_written_forms(number):
    assert circular_conditions(number).number == "43.13-1B"


def test_the_quoted_words_and_facts_are_the_circular_s_own():
    held = circular_conditions("43.13-1B")
    assert held.quote in PARAGRAPH_1
    for fact in ("block 8", "chapter, page", "paragraph"):
        assert fact in held.to_record and fact in PARAGRAPH_1
    assert len(held.findings) == 3
    said = " ".join(held.conditions)
    for fact in ("on-pressurized", "appropriate to the product", "directly applicable", "not contrary to"):
        assert fact in said


def test_alterations_are_the_other_circular_s():
    held = circular_conditions("AC 43.13-2B")
    assert (held.work, held.quote) == ("alteration", "")
    assert "12,500 pounds" in " ".join(held.conditions)
    assert "from memory" in held.source


@pytest.mark.parametrize("number", ["43.13-1A", "43.13-1", "43.13", "43-9C", "143.13-1B", "43.13-1B-2", ""])
def test_no_other_number_serves(number):
    assert circular_conditions(number) is None


@pytest.mark.parametrize(
    ("number", "meant"),
    [
        ("AC 43.13", ["43.13-1B", "43.13-2B"]),
        ("43.13-1", ["43.13-1B"]),
        ("43.13-1B", []),
        ("43.13-1A", []),
        ("43-13", []),
    ],
)
def test_a_number_cut_short_leaves_open_which_is_meant(number, meant):
    assert [each.number for each in circulars_that_may_be_meant(number)] == meant
