"""Revision marks: found as printed, compared without guessing. The marks: common practice, no source."""

import pytest

from indexer.trade.evidence import Answer
from indexer.trade.revisions import find_revision, find_revisions, later_revision, same_revision

YES, NO, CANNOT_TELL = Answer.YES, Answer.NO, Answer.CANNOT_TELL


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ("Revision 3", "3"),
        ("REVISION NO. 12", "12"),
        ("Rev. B, dated 3 March 2001", "B"),
        ("REV C", "C"),
        ("Rev N/C", "N/C"),
        ("Rev -", "-"),
        ("Rev: 7", "7"),
        ("Issue 002", "002"),
        ("Original Issue", "original"),
        ("INITIAL RELEASE", "original"),
        ("Revision 14A", "14A"),
        ("AC 43-9C CHG 1", "1"),  # AC 43-9C, Change 1
        ("Change:\n\n1", "1"),  # head of AC 43-214A
        ("Temporary Revision 32-1", None),
        ("TEMPORARY REVISION 5", None),
        ("revision of the manual", None),
        ("this revision.\n\n21 items", None),
        ("Revision date: 12 May 2004", None),
        ("previous", None),
        ("", None),
    ],
)
def test_find_revision(text, mark):
    found = find_revision(text)
    assert (found and found.mark) == mark
    if found:
        assert text[found.start : found.end] == found.text


def test_every_revision_in_order():
    text = "Revision 3, dated May 1, 2001; Revision 10; original issue"
    assert [found.mark for found in find_revisions(text)] == ["3", "10", "original"]


@pytest.mark.parametrize(
    ("a", "b", "answer"),
    [
        ("Original issue", "Rev 0", YES),
        ("Rev -", "N/C", YES),
        ("original", "0", YES),
        ("Rev 3", "3", YES),
        ("03", "3", YES),
        ("b", "B", YES),
        ("3", "4", NO),
        ("B", "C", NO),
        ("original", "2", NO),
        ("original", "B", NO),
        ("3", "C", CANNOT_TELL),  # numbers and letters are two makers' ways
        ("", "3", CANNOT_TELL),
        ("", "", CANNOT_TELL),
        ("Issue 001", "original", CANNOT_TELL),  # some makers call the first issue 1 or A
        ("A", "N/C", CANNOT_TELL),
        ("14A", "14", CANNOT_TELL),
    ],
)
def test_same_revision(a, b, answer):
    assert same_revision(a, b) is answer
    assert same_revision(b, a) is answer


@pytest.mark.parametrize(
    ("a", "b", "answer"),
    [
        ("10", "9", YES),
        ("9", "10", NO),
        ("Rev 10", "Rev 9", YES),
        ("AA", "Z", YES),
        ("B", "A", YES),
        ("2", "original", YES),
        ("original", "2", NO),
        ("3", "3", NO),
        ("3", "B", CANNOT_TELL),
        ("", "3", CANNOT_TELL),
        ("1", "original", CANNOT_TELL),
    ],
)
def test_later_revision(a, b, answer):
    assert later_revision(a, b) is answer
