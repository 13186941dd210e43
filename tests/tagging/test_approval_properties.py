"""What is put into a sentence never raises what it grants: denials, hopes, conditions, other papers, damage.

The sentences are those of data/approval_sentences.csv. The same examples are drawn at each run; take
`derandomize` away to look for others.
"""

import re

from approval_pages import cases, made_for, printed
from hypothesis import given, settings
from hypothesis import strategies as st
from test_approval_sentences import BY_PLACE, OF_WORDS, approved_pages

from indexer.tagging.standing import standing_in
from indexer.tagging.tags import StandingValue

APPROVED = StandingValue.APPROVED
ALL = cases()
TRAPS = [case for case in ALL if not case.reach and case.group != BY_PLACE]
# Where a second sentence or line takes the first back, a misread letter can hide that from any reader.
ONE_SENTENCE = [case for case in TRAPS if not re.search(r"[.;:?] +\S|\|", case.words)]
# Sentences that say "is FAA approved" and the like: a verb to be denied, and an end to be limited.
_VERB = re.compile(
    r"\b(?P<verb>is|are|has been|have been)\s+(?=(?:FAA|approved by|DER|ODA)\b)", re.IGNORECASE
)
SENTENCES = [
    printed(case.sentence)
    for case in ALL
    if case.reach
    and case.where != "approval page"
    and _VERB.search(printed(case.sentence))
    and not re.search(r"[.] [A-Z]|\|\|", case.sentence)
]
STAMPS = [printed(case.sentence) for case in ALL if case.reach and case.group == "stamp"]
DENIED = [
    "is not", "are not", "is no longer", "are no longer", "has not been", "have never been", "is not yet",
    "isn't", "cannot be", "is neither", "is nowhere", "was formerly", "was once",
]  # fmt: skip
HOPED = [
    "will be", "would be", "should be", "may be", "might be", "can be", "is to be", "is expected to be",
    "is hoped to be", "is proposed to be", "is about to be", "must be", "ought to be", "shall be",
    "is believed to be", "is considered", "is said to be", "is claimed to be", "is being",
    "is intended to be",
]  # fmt: skip
CONDITIONS = [
    "if it bears a signature", "unless the airplane was altered", "when the letter is attached",
    "subject to the note below", "provided the kit is used", "except for the skins",
    "pending the flight test", "until the next revision", "only for the first lot", "in part",
    "as noted", "where marked",
    "once the form is signed", "with the exception of step 4", "other than Part 3", "but not for the C77",
    "for reference", "on condition that it is current", "after the inspection", "before the change",
]  # fmt: skip
LED_IN = [
    "It is not true that ", "Nobody says that ", "If ", "When ", "Unless ", "Once ", "Whether ", "Until ",
    "Suppose ", "The seller claims that ", "We hope that ", "Do not assume that ", "Ask whether ",
    "Make sure that ", "Before ", "According to the seller ", "As far as we know ", "In the old edition ",
    "It was once thought that ",
]  # fmt: skip
ANOTHER = [
    "Service Bulletin 32-0012 is FAA approved.", "The engine manual is FAA approved.",
    "STC SA99999CE was approved by the FAA.", "The vendor's drawing is FAA-DER approved.",
    "AD 2031-04-07 approved another method.", "The tires are FAA approved.",
    "Revision A of the vendor's bulletin was FAA approved 12 May 2004.",
    "See the FAA approved flight manual.",
]  # fmt: skip
_OTHERS = ["the vendor's", "the other", "that", "each", "any", "no", "an earlier", "the attached", "some"]


def value(text, kind=None):
    return standing_in(text, kind).value


def test_there_are_enough_sentences():
    assert len(SENTENCES) > 80
    assert len(STAMPS) > 30
    assert len(ONE_SENTENCE) > 250


@settings(deadline=None, max_examples=300, derandomize=True)
@given(st.sampled_from(SENTENCES), st.sampled_from([*DENIED, *HOPED]))
def test_a_denial_or_hope_in_place_of_the_verb_takes_the_grant_away(sentence, instead):
    """The first verb: the closing words of the limitations statement grant nothing."""
    found = _VERB.search(sentence)
    changed = f"{sentence[: found.start()]}{instead} {sentence[found.end() :]}"
    assert value(changed) is not APPROVED
    assert value(changed.upper()) is not APPROVED


@settings(deadline=None, max_examples=300, derandomize=True)
@given(st.sampled_from([each for each in SENTENCES if each.endswith(".")]), st.sampled_from(CONDITIONS))
def test_a_condition_at_its_end_takes_the_grant_away(sentence, condition):
    for joint in (" ", ", ", "\n", " (", ",\n"):
        assert value(f"{sentence[:-1]}{joint}{condition}{')' if '(' in joint else ''}.") is not APPROVED


@settings(deadline=None, max_examples=300, derandomize=True)
@given(st.sampled_from(SENTENCES), st.sampled_from(LED_IN))
def test_words_that_lead_into_the_sentence_take_the_grant_away(sentence, lead):
    lowered = sentence[0].lower() + sentence[1:]
    assert value(lead + lowered) is not APPROVED
    assert value((lead + lowered).upper()) is not APPROVED
    assert value(f"{lead.strip()}\n{lowered}") is not APPROVED


@settings(deadline=None, max_examples=300, derandomize=True)
@given(st.sampled_from(SENTENCES), st.sampled_from(_OTHERS))
def test_said_of_another_paper_it_grants_nothing(sentence, other):
    changed = re.sub(r"\b(?:this|these)\b", other, sentence, flags=re.IGNORECASE)
    if changed != sentence:
        assert value(changed) is not APPROVED


@settings(deadline=None, max_examples=300, derandomize=True)
@given(st.sampled_from(TRAPS), st.lists(st.sampled_from(ANOTHER), min_size=1, max_size=3), st.booleans())
def test_a_mention_of_another_paper_beside_it_never_raises_a_standing(case, others, before):
    words = printed(case.words)
    text = " ".join([*others, words] if before else [words, *others])
    assert value(text, OF_WORDS.get(case.type)) is not APPROVED


@settings(deadline=None, max_examples=300, derandomize=True)
@given(
    st.sampled_from(STAMPS),
    st.sampled_from(["NOT", "PENDING", "WITHDRAWN", "VOID", "DRAFT", "SAMPLE", "NOT YET"]),
)
def test_a_word_over_under_or_beside_a_stamp_takes_it_away(stamp, word):
    for text in (
        f"{word} {stamp}",
        f"{word}\n{stamp}",
        f"{stamp} {word}",
        f"{stamp} - {word}",
        f"{stamp}\n{word}",
    ):
        assert value(text) is not APPROVED, text


def broken(text, breaks):
    """Line ends in place of some of the spaces."""
    parts = text.split(" ")
    joined = parts[0]
    for place, part in enumerate(parts[1:]):
        joined += ("\n" if breaks >> place & 1 else " ") + part
    return joined


_DAMAGE = [
    ("O", "0"),
    ("o", "0"),
    ("l", "1"),
    ("I", "1"),
    ("i", "l"),
    ("m", "rn"),
    ("rn", "m"),
    ("e", "c"),
    ("S", "5"),
]


@settings(deadline=None, max_examples=300, derandomize=True)
@given(
    st.sampled_from(TRAPS), st.integers(min_value=0), st.sampled_from([str, str.upper, str.lower, str.title])
)
def test_line_ends_and_capitals_never_raise_a_standing(case, breaks, letters):
    text = broken(letters(printed(case.words)), breaks)
    assert value(text, OF_WORDS.get(case.type)) is not APPROVED


@settings(deadline=None, max_examples=300, derandomize=True)
@given(
    st.sampled_from(ONE_SENTENCE),
    st.lists(st.tuples(st.sampled_from(_DAMAGE), st.integers(0, 9)), max_size=4),
    st.lists(st.integers(0, 60), max_size=2),
)
def test_misread_letters_and_lost_spaces_never_raise_a_standing(case, damage, lost):
    text = printed(case.words)
    for (letter, misread), place in damage:
        spots = [found.start() for found in re.finditer(letter, text)]
        if spots:
            at = spots[place % len(spots)]
            text = text[:at] + misread + text[at + len(letter) :]
    for place in lost:
        spots = [found.start() for found in re.finditer(" ", text)]
        if spots:
            at = spots[place % len(spots)]
            text = text[:at] + text[at + 1 :]
    assert value(text, OF_WORDS.get(case.type)) is not APPROVED


@settings(deadline=None, max_examples=100, derandomize=True)
@given(
    st.sampled_from(TRAPS),
    st.sampled_from([str.upper, str.lower]),
    st.lists(st.sampled_from(ANOTHER), max_size=2),
)
def test_nor_on_the_page_it_stands_on(case, letters, others):
    changed = type(case)(
        case.group, case.type, case.where, letters(case.before), letters(case.sentence),
        " ".join([letters(case.after), *others]).strip(), case.reach, case.why, case.source,
    )  # fmt: skip
    assert approved_pages(made_for(changed))[0] == frozenset()
