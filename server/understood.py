"""How a question was understood, in plain sentences, each with other ways to ask. Pure."""

from dataclasses import dataclass
from enum import StrEnum

from server.framing import left_out_words
from server.search import SearchAnswer
from server.wording import Source

MOST_FORMS = 8  # word forms named; they are many and say little


class NoteKind(StrEnum):
    LEFT_OUT = "left out"
    SLIP = "slip"
    NUMBER = "number"
    MEANING = "meaning"
    ALSO = "also"
    MISREAD = "misread"
    BEGUN = "begun"


@dataclass(frozen=True, slots=True)
class Way:
    """Another way to ask: words for the link, and the question."""

    words: str
    question: str
    as_typed: bool = False
    misread: bool = True  # False = ask without misreadings by OCR


@dataclass(frozen=True, slots=True)
class Note:
    kind: NoteKind
    words: str
    ways: tuple[Way, ...] = ()


def notes_on(answer: SearchAnswer) -> list[Note]:
    """What a reader must know of how the question was read, most surprising first; [] when as typed."""
    return [
        *_slips(answer),
        *_begun(answer),
        *_left_out(answer),
        *_numbers(answer),
        *_meanings(answer),
        *_misread(answer),
        *_also(answer),
    ]


def _slips(answer: SearchAnswer) -> list[Note]:
    if not answer.slips:
        return []
    said = " ".join(
        f"No passage has «{slip.typed}». Looked for «{slip.taken}» instead." for slip in answer.slips
    )
    others = tuple(
        Way(other, _instead(answer.question.text, slip.typed, other))
        for slip in answer.slips
        for other in slip.others
    )
    exactly = Way("Search exactly as typed", answer.question.text, as_typed=True)
    return [Note(NoteKind.SLIP, said, (exactly, *others))]


def _begun(answer: SearchAnswer) -> list[Note]:
    begun = answer.wording.begun
    if begun is None:
        return []
    said = f"«{begun.words[0]}» was taken as the beginning of a word too: {', '.join(begun.others)}."
    whole = Way("Only whole words", answer.question.text)
    return [Note(NoteKind.BEGUN, said, (whole,))]


def _left_out(answer: SearchAnswer) -> list[Note]:
    if not answer.left_out:
        return []
    exactly = Way("Search exactly as typed", answer.question.text, as_typed=True)
    return [Note(NoteKind.LEFT_OUT, left_out_words(answer.left_out), (exactly,))]


def _numbers(answer: SearchAnswer) -> list[Note]:
    notes = []
    for taken in answer.numbers.taken:
        how = f"taken as {taken.taken_as}" if taken.number else "looked for as it stands"
        ways = tuple(Way(way.words, way.question, way.as_typed) for way in taken.other)
        notes.append(Note(NoteKind.NUMBER, f"«{taken.text}» was {how}. {taken.why}", ways))
    return notes


def _meanings(answer: SearchAnswer) -> list[Note]:
    notes = []
    for found in answer.wording.could_mean:
        if found.taken:
            said = f"«{found.word}» was taken as {found.taken}, because {found.why}."
        else:
            said = (
                f"«{found.word}» can mean several things. Looked for the letters, and less for each of these:"
            )
        ways = tuple(
            Way(choice.meaning, choice.question) for choice in found.choices if choice.meaning != found.taken
        )
        notes.append(Note(NoteKind.MEANING, said, ways))
    return notes


def _misread(answer: SearchAnswer) -> list[Note]:
    found = answer.wording.misread
    if not answer.misread and not answer.as_typed and answer.question.words:
        again = Way("Look for misreadings too", answer.question.text)
        return [Note(NoteKind.MISREAD, "Words that OCR may have misread were not looked for.", (again,))]
    if not found:
        return []
    said = " ".join(each.words for each in found)
    without = Way("Without misreadings", answer.question.text, misread=False)
    return [Note(NoteKind.MISREAD, said, (without,))]


def _also(answer: SearchAnswer) -> list[Note]:
    unsure = {found.word for found in answer.wording.could_mean}
    listed = [
        each
        for each in answer.wording.also
        if each.source not in (Source.WORD_FORM, Source.MISREADING, Source.BEGINNING)
        and not unsure & {word.strip(".,;:") for word in each.words}
    ]
    names = list(dict.fromkeys(other for each in listed for other in each.others))
    shop = any(each.source is Source.SHOP_LIST for each in listed)
    forms = [
        other for each in answer.wording.also if each.source is Source.WORD_FORM for other in each.others
    ][:MOST_FORMS]
    if not names and not forms:
        return []
    parts = []
    if names:
        parts.append(f"Also looked for: {', '.join(names)}{' (with the shop’s own list)' if shop else ''}.")
    if forms:
        parts.append(f"Other forms of the words: {', '.join(dict.fromkeys(forms))}.")
    exactly = Way("Only as typed", answer.question.text, as_typed=True)
    return [Note(NoteKind.ALSO, " ".join(parts), (exactly,))]


def _instead(text: str, typed: str, other: str) -> str:
    return " ".join(other if word == typed else word for word in text.split())
