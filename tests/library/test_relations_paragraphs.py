"""Which passages a directive means by "Part 3" or "paragraphs 2.A through 2.C"; what is unsure is not
found."""

import pytest

from indexer.library.relation_rules.held import HeldPassage
from indexer.library.relation_rules.paragraph_names import references
from indexer.library.relation_rules.paragraphs import find_paragraphs
from indexer.tagging.tags import Standing, StandingValue

_STANDING = Standing(StandingValue.UNDETERMINED, StandingValue.ACCEPTABLE)


def passages(*rows: tuple) -> list[HeldPassage]:
    """Rows of headings from the outermost in, or (headings, text)."""
    made = []
    for number, row in enumerate(rows):
        headings, text = row if row and isinstance(row[0], tuple) else (row, "Do this.")
        made.append(HeldPassage(str(number), (1,), headings, text, (), _STANDING))
    return made


PLAIN = passages(
    ("1. PLANNING INFORMATION", "A. Effectivity"),
    ("2. MATERIAL INFORMATION",),
    ("3. ACCOMPLISHMENT INSTRUCTIONS", "A. Preparation"),
    ("3. ACCOMPLISHMENT INSTRUCTIONS", "B. Inspection", "(1) Left side"),
    ("3. ACCOMPLISHMENT INSTRUCTIONS", "B. Inspection", "(2) Right side"),
    ("3. ACCOMPLISHMENT INSTRUCTIONS", "C. Close up"),
    ("APPENDIX A", "B. Form"),
)


@pytest.mark.parametrize(
    "named, expected",
    [
        ("paragraph 3.B", "34"),
        ("paragraph 3.B.(2)", "4"),
        ("paragraph 3.B. (2)", "4"),
        ("paragraphs 3.B.(1) and (2)", "34"),
        ("paragraphs 3.A, B and C", "2345"),
        ("paragraphs 3.A through C", "2345"),
        ("paragraphs 3.B.(1) and 2", None),  # neither 3.B.(2) nor 2 for sure
        ("paragraph 3.B of something 2", None),
        ("paragraphs 3.A through 3.C", "2345"),
        ("paragraphs 3.A and 3.C", "25"),
        ("Section 2", "1"),
        ("step 3.C", "5"),
        ("Appendix A", "6"),
        ("Accomplishment Instructions", "2345"),
        ("paragraph 3.D", None),
        ("paragraphs 3.B through 3.D", None),  # one of them is not there
        ("Part 3", None),  # a paragraph 3 is not a part 3
        ("the fitting", None),
    ],
)
def test_paragraphs_of_a_bulletin_numbered_throughout(named, expected):
    found = find_paragraphs([named], PLAIN)
    assert (found.whole, found.not_found) == (
        (frozenset(expected), ()) if expected else (frozenset(), (named,))
    )


IN_PARTS = passages(
    ("PART 1 - INSPECTION", "A. Access"),
    ("PART 1 - INSPECTION", "B. Look"),
    ("PART 2 - REPLACEMENT", "A. Access"),
    ("Part 3: Test",),
)


@pytest.mark.parametrize(
    "named, expected",
    [
        ("Part 1", "01"),
        ("Parts 1 and 3", "013"),
        ("Parts 1 through 3", "0123"),
        ("PART 2", "2"),
        ("Part 1.B", "1"),
        ("paragraph B", "1"),
        ("paragraph A", None),  # both parts have one
    ],
)
def test_paragraphs_of_a_bulletin_in_parts(named, expected):
    found = find_paragraphs([named], IN_PARTS)
    assert (found.whole, found.not_found) == (
        (frozenset(expected), ()) if expected else (frozenset(), (named,))
    )


def test_the_mark_of_a_first_line_is_as_good_as_a_heading():
    held = passages((("2. INSTRUCTIONS",), "A. Remove the cover."), (("2. INSTRUCTIONS",), "B. Look inside."))
    assert find_paragraphs(["paragraph 2.A"], held).whole == {"0"}


STEPS = passages(
    (("2. INSTRUCTIONS",), "A. Remove the cover.\nB. Look inside.\n(1) Left.\n(2) Right."),
    (("2. INSTRUCTIONS",), "WARNING: SHARP EDGES.\nC. Deburr the edge."),
    (("2. INSTRUCTIONS",), "and clean it."),
    (("2. INSTRUCTIONS",), "(3) a last burr.\nD. Close the cover."),
    (("3. RECORDS",), "A. Make an entry."),
)


@pytest.mark.parametrize(
    "named, whole, partly",
    [
        ("paragraph 2.A", "", "0"),  # B is in the same passage
        ("paragraphs 2.A and 2.B", "0", ""),
        ("paragraphs 2.A through 2.C", "01", "2"),  # 2 goes on from C, most likely
        ("paragraph 2.C", "1", "2"),  # a warning belongs to the step it guards
        ("paragraph 2.D", "", "3"),  # the end of C stands before it
        ("Section 2", "0123", ""),
    ],
)
def test_passages_that_hold_several_paragraphs(named, whole, partly):
    found = find_paragraphs([named], STEPS)
    assert (found.whole, found.partly, found.not_found) == (frozenset(whole), frozenset(partly), ())


@pytest.mark.parametrize(
    "held",
    [
        passages(("2. INSTRUCTIONS",), ("FIGURE 1",), ("2. INSTRUCTIONS",)),
        passages((("2. INSTRUCTIONS",), "A. Look."), (("2. INSTRUCTIONS",), "B. Turn.\nA. Look again.")),
    ],
    ids=["in two pieces", "marked twice"],
)
def test_a_paragraph_that_is_there_twice_is_not_told(held):
    name = "Section 2" if len(held) == 3 else "paragraph 2.A"
    assert find_paragraphs([name], held).not_found == (name,)


def test_what_is_found_counts_beside_what_is_not():
    found = find_paragraphs(["paragraph 3.A", "paragraph 9.Z"], PLAIN)
    assert (found.whole, found.not_found) == (frozenset("2"), ("paragraph 9.Z",))


@pytest.mark.parametrize("name", ["", "3", "paragraphs 2.A through 3.C", "2 of 5"])
def test_names_that_cannot_be_read(name):
    assert references(name) == []
