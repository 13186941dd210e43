"""The forms a number is also indexed by, so that it is found written differently. Pure.

A number here is what stands between two blanks and holds a digit, already folded and cut into its printed
words ("32", "41", "00"; see analysis.py, whose table shows every form). Forms are few on purpose: each
costs room in the index, and each must be something a person would type for this number and for no other.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

_LONGEST_LEAD = 6  # chapter, section, subject, function, sequence, configuration
_REVISED = re.compile(r"(\d+)r\d{1,2}")
_TWO_DIGITS = re.compile(r"\d\d")
_SERIAL = re.compile(r"\d{3,4}")
_LETTERS_FIRST = re.compile(r"([a-z]{1,4})(\d.*)")


class Form(NamedTuple):
    """One written form and the printed words it covers, first and last counted from 0."""

    text: str
    first: int
    last: int


def is_number(words: Sequence[str]) -> bool:
    """Whether it is digits alone: dashes, strokes and points may stand between them, letters not."""
    return all(word[0].isdigit() and not any(letter.isalpha() for letter in word) for word in words)


def joined(words: Sequence[str]) -> str:
    return "".join(words)


def number_forms(chunk: str, words: Sequence[str]) -> list[Form]:
    """Every form of a number beside its `words`. `chunk` is as printed, dotted chapter numbers dashed."""
    forms: dict[str, Form] = {}
    for form in (*_dashed(chunk, words), *_in_one(words), *_without_letters(words)):
        if form.text not in words:
            forms.setdefault(form.text, form)
    return list(forms.values())


def _dashed(chunk: str, words: Sequence[str]) -> Iterator[Form]:
    last = len(words) - 1
    if not last or "," in chunk:
        return
    if is_number(words):
        yield Form(chunk, 0, last)
    leading = _leading_numbers(words)
    for count in range(2, len(leading) + 1):
        yield Form("-".join(leading[:count]), 0, count - 1)
        if count > 2 and count < len(words) and all(_TWO_DIGITS.fullmatch(word) for word in leading[:count]):
            yield Form(joined(leading[:count]), 0, count - 1)  # 324100 also finds 32-41-00-01
    for first, count in (*_inner_chapter_numbers(words), *_after_model(words)):
        yield Form("-".join(words[first : first + count]), first, first + count - 1)


def _leading_numbers(words: Sequence[str]) -> list[str]:
    """The words of digits it begins with, a few at most; a revision mark (13r1) is taken off the last."""
    leading: list[str] = []
    for word in words[:_LONGEST_LEAD]:
        revised = _REVISED.fullmatch(word)
        if word.isdigit():
            leading.append(word)
        elif revised and leading:
            return [*leading, revised[1]]
        else:
            break
    return leading


def _inner_chapter_numbers(words: Sequence[str]) -> Iterator[tuple[int, int]]:
    """Chapter-section and chapter-section-subject after a word with letters: first word, number of words."""
    for first in range(1, len(words) - 1):
        if not any(letter.isalpha() for letter in words[first - 1]):
            continue
        for count in (2, 3):
            run = words[first : first + count]
            if len(run) == count and all(_TWO_DIGITS.fullmatch(word) for word in run):
                yield first, count


def _after_model(words: Sequence[str]) -> Iterator[tuple[int, int]]:
    """A bulletin's number without the model before it, 52-0093 of QZ62-52-0093: chapter and serial number."""
    chapter_and_serial = len(words) > 2 and _TWO_DIGITS.fullmatch(words[1]) and _SERIAL.fullmatch(words[2])
    if chapter_and_serial and any(map(str.isalpha, words[0])):
        yield 1, 2


def _in_one(words: Sequence[str]) -> Iterator[Form]:
    fraction = is_number(words) and any("." in word or "/" in word for word in words)
    chapter = is_number(words) and len(joined(words)) == 2
    if len(words) > 1 and not fraction and not chapter:  # 5-1/2 is not 51/2, nor paragraph 7-2 chapter 72
        yield Form(joined(words), 0, len(words) - 1)


def _without_letters(words: Sequence[str]) -> Iterator[Form]:
    """MS20470-4 as people also type it: MS, 20470-4, 20470, 204704."""
    match = _LETTERS_FIRST.fullmatch(words[0])
    if not match or (len(words) == 1 and len(match[2]) < 3):
        return
    last = len(words) - 1
    rest = [match[2], *words[1:]]
    yield Form(match[1], 0, 0)
    if len(match[2]) > 2:  # FIG2 is not 2
        yield Form(match[2], 0, 0)
    if last:
        yield Form(joined(rest), 0, last)
        if is_number(rest):
            yield Form("-".join(rest), 0, last)


def forms_after_capitals(capitals: str, words: Sequence[str]) -> list[Form]:
    """SB 32-0012 as people also type it: SB32-0012, SB32. `capitals` folded; () where they are no prefix."""
    if len(words) == 1 and len(words[0]) < 3:  # FIG 5, NO 12
        return []
    last = len(words) - 1
    first = Form(capitals + words[0], 0, 0)
    return [first, Form(capitals + joined(words), 0, last)] if last else [first]
