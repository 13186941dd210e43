"""Notes parted into disputed points and the rest; the first sentence of a reason. Common practice."""

import pytest

from indexer.trade.disputed import Disputed, disputed_point
from server.disputed_notes import is_asked, parted
from server.first_sentence import first_sentence

MAJOR = disputed_point(Disputed.MANUAL_FOR_MAJOR_WORK).sentences


def test_a_disputed_point_is_taken_whole_and_the_rest_keeps_its_order():
    rest, (point,) = parted(("Before.", *MAJOR, "After."))
    assert rest == ("Before.", "After.")
    assert point.sentences == MAJOR
    assert point.bears_on("major") and point.bears_on("") and not point.bears_on("minor")


def test_a_point_in_other_words_stays_among_the_notes():
    """A check kept by an earlier release may be worded otherwise: nothing of it may get lost."""
    worded = ("Before.", *MAJOR[:-1], "In other words.")
    assert parted(worded) == (worded, ())


def test_an_answer_about_a_directive_is_in_sight_whatever_was_asked():
    assert is_asked("directive", "minor") and is_asked("minor", "minor") and is_asked("major", "")
    assert not is_asked("major", "minor") and not is_asked("minor", "directive")


@pytest.mark.parametrize(
    "text, first",
    [
        ("Nothing says so. Ask the holder.", "Nothing says so."),
        ("Held at Rev. B of the manual. Ask the holder.", "Held at Rev. B of the manual."),
        ("It says «Use it. Then stop.» here. Ask.", "It says «Use it. Then stop.» here."),
        ("Acceptable under 14 CFR 43.13(a). No more.", "Acceptable under 14 CFR 43.13(a)."),
        ("One sentence without an end", "One sentence without an end"),
        ("", ""),
    ],
)
def test_the_first_sentence(text, first):
    assert first_sentence(text) == first
