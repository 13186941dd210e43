"""Text -> the features that chapter inference weighs: words, pairs of words, beginnings of words. Pure.

Numbers are no features: a number that names a chapter is read by the printed rungs, and a model that learned
from reports which cite one would only learn to read it. Training and use read text through this file alone.
"""

import re
from collections.abc import Sequence

from indexer.trade.dashes import plain_dashes

_WORD = re.compile(r"[a-z]+(?:/[a-z])?(?![a-z])|\d+")
_DRAWING = re.compile(r"(?<![a-z0-9])(?:\d+[a-z]+|[a-z]+\d+)(?=[a-z0-9-]*\d)")
_CITED = re.compile(
    r"(?:\d[\d ]{0,3}-\s*)*\[ref\](?:\s*-\s*\d+)*"
    r"|\d ?\d ?- ?\d ?\d ?- ?\d ?\d(?:-[\da-z]+)*"
    r"|\b(?:srm|amm|cmm|ipc|aipc|mm|wdm|fim|tsm|ata|chapter|jasc)\b[ :#]*\d\d?(?: ?- ?\d\d?)*(?:-[\da-z]+)*"
)
_STOP = frozenset(
    "a an and are as at be by for from in is it its of on or that the this to was were with".split()
)
_NO_PLURAL = ("ss", "us", "is")
_STEM = 5  # letters that stand for a word's beginning: "retra" for retract, retracting, retraction
# A line of a contents page or an index: its words, then leaders or a gap, then a page.
_LISTED = re.compile(r"\.{3,}\s*[\divxA-Z-]+|(?:\.\s){3,}\s*\d|\S\s+\d{1,2}-\d{1,3}\s*$", re.MULTILINE)
_LEAST_LISTED = 3
NUMBER = "0"  # stands for every number in a pair: "no 0", "0 psi"


def words_of(text: str) -> list[str]:
    """The words of a text in order: lower case, without plural endings and the commonest words."""
    plain = _CITED.sub(" ", plain_dashes(text).lower())
    words = []
    for word in _WORD.findall(plain):
        if word[0].isdigit():
            words.append(NUMBER)
        elif word not in _STOP:
            words.append(_singular(word))
    return words


def features_of(text: str) -> list[str]:
    """Every feature of a text, as often as it stands there.

    "brake" a word; "brake lining" two in a row; "^linin" a beginning; "#146a" how a drawing number begins.
    """
    words = words_of(text)
    features = [word for word in words if word != NUMBER]
    features += [
        f"{one} {two}" for one, two in zip(words, words[1:], strict=False) if not one == two == NUMBER
    ]
    features += [f"^{word[:_STEM]}" for word in words if len(word) > _STEM]
    features += [f"#{number[:5]}" for number in _DRAWING.findall(_CITED.sub(" ", plain_dashes(text).lower()))]
    return features


def with_heading(heading_path: Sequence[str], text: str) -> str:
    """A passage's text with the heading above it, which counts as if it were printed twice."""
    heading = heading_path[-1] if heading_path else ""
    return f"{heading}\n{heading}\n{text}" if heading else text


def is_listing(text: str) -> bool:
    """Whether a text lists titles with their pages: many terms of the trade, and nothing said of them."""
    return len(_LISTED.findall(text)) >= _LEAST_LISTED


def _singular(word: str) -> str:
    if len(word) < 4 or not word.endswith("s") or word.endswith(_NO_PLURAL):
        return word
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    return word[:-1]
