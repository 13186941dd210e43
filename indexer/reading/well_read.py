"""How well text was read by OCR, told from its words alone.

By their form in every language: a word has letters of one script and one case, a number has digits, and what
is neither was misread. Modern engines put words even into noise, so an English text is held against a list of
words too. Rules and figures of this file are measured on public documents; there is no source.
"""

import re
from collections.abc import Sequence

from indexer.trade.english_words import is_english, unknown_words

_LEAST_WORDS = 25  # to judge a text by
_LEAST_LISTED = 20  # words of four letters, to hold a text against the list
_FORMS_COUNT = 2.0  # a word of an impossible form counts so often: every reading holds far fewer of them

_EDGES = "\"'`‘’“”«»„()（）[]{}<>《》.,;:!?*•·-–—_/|=+…®©™、。；：，"
_NUMBER = re.compile(r"[#$€£±~≈<>≤≥Øø]?[A-Za-z]{0,4}[-/.]?\d[\dA-Za-z.,:/°'\"%+×x()*&#=_–—-]*")
_JOINTS = re.compile(r"[-/'’.&,()–—:=（）、。；：，]+")
_ADDRESS = re.compile(r"\(?(?:https?://|www\.)\S+|\S+@\S+\.\S+")
_VOWELS = frozenset("aeiouyàáâãäåæèéêëìíîïòóôõöøùúûüýœ")
_CONSONANTS = re.compile(r"[bcdfghjklmnpqrstvwxz]{6,}")
_LEADER = re.compile(r"[.·_\-–—=*]{2,}")
_SINGLE_SIGNS = "-–—•·&=+./§©®°±×<>≤≥□→"
_WITHOUT_VOWEL = 3  # letters: "hrs", "kts"
_LETTERED = re.compile(r"\(?[A-Za-z][.):]+|\([A-Za-z]\)?")  # the mark of a paragraph


def quality(texts: Sequence[str]) -> float | None:
    """How well a text was read, 0.0 to 1.0; None for one too short to tell."""
    texts = [text for text in texts if not _LEADER.fullmatch(text)]
    if len(texts) < _LEAST_WORDS:
        return None
    misformed = 1.0 - plausibility(texts)
    unknown, listed = unknown_words(texts) if is_english(texts) else (0, 0)
    misread = unknown / listed if listed >= _LEAST_LISTED else 0.0
    return max(1.0 - max(_FORMS_COUNT * misformed, misread), 0.0)


def plausibility(texts: Sequence[str]) -> float:
    """How much of a text has the form of words and numbers, 0.0 to 1.0, by letters; 0.0 for none.

    A lone letter or sign counts as two letters: badly read text is full of them.
    """
    good = total = 0
    for text in texts:
        if not _LEADER.fullmatch(text):
            weight = max(len(text), 2)
            total += weight
            good += weight if is_plausible(text) else 0
    return good / total if total else 0.0


def is_plausible(text: str) -> bool:
    """Whether one word as printed has the form of a word, a number or a part number, in any language."""
    core = text.strip(_EDGES)
    if not core:
        return len(text) == 1 and text in _SINGLE_SIGNS
    if len(core) == 1:
        return not core.islower() or core in "axyå" or not core.isascii() or bool(_LETTERED.fullmatch(text))
    if any(character.isdigit() for character in core):
        return _NUMBER.fullmatch(core) is not None or _is_part_number(core)
    if all(_is_word(piece) for piece in _JOINTS.split(core) if piece):
        return True
    return _ADDRESS.fullmatch(text) is not None


def _is_part_number(core: str) -> bool:
    """Capitals, digits and the usual signs: "MS20470AD4-6", "QZ-114/A"; another script with digits in it."""
    return all(
        each.isdigit() or each.isupper() or each in "-/.,()_&#+:=" or (each.isalpha() and not each.isascii())
        for each in core
    )


def _is_word(piece: str) -> bool:
    if not piece.isalpha():
        return False
    if piece.isupper() or not piece.isascii() and not any(each.isascii() for each in piece):
        return True  # capitals may be an abbreviation; a script without A to Z sets no blanks we know of
    if len(piece) > 1 and not piece[1:].islower():
        return piece[-1:] == "s" and piece[:-1].isupper()  # "ADs"
    lower = piece.lower()
    if not _VOWELS.isdisjoint(lower):
        return _CONSONANTS.search(lower) is None
    return len(piece) <= _WITHOUT_VOWEL
