"""Whether the text of a page is words. A page is called garbled only when nothing else can explain it."""

import re

from indexer.reading.characters import is_private
from indexer.reading.page import TextState
from indexer.reading.raw_page import RawPage

_LEAST_CHARACTERS = 40  # to judge a page by
_UNKNOWN_SHARE = 0.3

# The eight commonest letters of English make up 69 % of a rule's text, 50 % of a parts list or a German page,
# 40 % of the abbreviations on a drawing; where each letter stands for another they make up 19 to 45 %, most
# often less than 33. Measured on public documents, and on one of them with its letters shifted.
_COMMON = frozenset("etaoinsrETAOINSR")
_FEWEST_COMMON = 0.35
_LEAST_LETTERS = 150
_LETTER_SHARE = 0.5  # of all characters, for a page to be judged as Latin text
_ASCII_SHARE = 0.95  # a page of formulas holds more signs than this leaves room for

_SYMBOLS = frozenset('!"#$%&*+;<=>?@[\\]^`{|}~')
_MOST_SYMBOLS = 0.2  # a page of formulas has 0.11, a program 0.1
_DRAWN = re.compile(r"(.)\1{3,}")  # rules and leaders made of characters


def text_state(raw: RawPage) -> tuple[TextState, str]:
    """The page's state, and for a garbled one the reason, for a person."""
    if not any(raw.words.values()):
        return (TextState.NO_TEXT if raw.picture_part or raw.has_drawing else TextState.BLANK), ""
    text = "".join(word.text for words in raw.words.values() for word in words)
    problem = _garbled(_DRAWN.sub("", text))
    return (TextState.GARBLED, problem) if problem else (TextState.TEXT, "")


def _garbled(text: str) -> str:
    """Why a text is not words; "" when it may be."""
    if len(text) < _LEAST_CHARACTERS:
        return ""
    unknown = 0 if text.isascii() else sum(map(is_private, text))
    if unknown >= _UNKNOWN_SHARE * len(text):
        return f"{100 * unknown // len(text)} % of its characters have no meaning in the file's fonts"
    plain = [character for character in text if character.isascii()]
    letters = sum(map(str.isalpha, plain))
    if letters >= max(_LEAST_LETTERS, _LETTER_SHARE * len(text)) and len(plain) >= _ASCII_SHARE * len(text):
        common = sum(map(_COMMON.__contains__, plain))
        if common < _FEWEST_COMMON * letters:
            return f"only {100 * common // letters} of 100 letters are common ones: they stand for others"
    symbols = sum(character in _SYMBOLS for character in text)
    if symbols >= _MOST_SYMBOLS * len(text):
        return f"{100 * symbols // len(text)} % of its characters are signs: they stand for letters"
    return ""
