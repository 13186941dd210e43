"""Words read by OCR below the floor of confidence on which something hangs: figures, numbers, permissions.

Where one is among them nobody may go by the text: "cannot tell: read the page". A word counts by the place it
stands in as well as by its form, because a misread figure often has none left ("lO in-lb" for "10 in-lb").
All rules of this file are common practice, no source. A doubt too many costs a look at the page.
"""

import re
from collections.abc import Iterator, Sequence
from typing import Protocol

from indexer.trade.misreadings import looks_like


class Read(Protocol):
    """Anything with the text of a passage and the words of it that were read doubtfully."""

    @property
    def text(self) -> str: ...

    @property
    def doubtful(self) -> Sequence[str]: ...


_EDGES = "\"'`‘’“”()[]{}<>.,;:!?*|_"
_UNIT = (
    r"(?:(?:in(?:ch)?|ft|foot|cm|m)[ .·-]{0,3}(?:lbs?|pounds?|kg)|n[ .·-]?c?m|kgf?[ .·-]?c?m|psig?|k?pa|m?bar"
    r"|in(?:ch(?:es)?)?|feet|foot|ft|mm|cm|lbs?|pounds?|kg|gal(?:lons?)?|qts?|quarts?|lit(?:er|re)s?|cc|oz"
    r"|volts?|amps?|ohms?|v|vdc|vac|degrees?|deg|rpm|percent|hours?|hrs?|hr|cycles|landings|days|months|mils?)"
)
_IS_UNIT = re.compile(rf"(?:{_UNIT}|[°%\"″'′][CF]?)", re.IGNORECASE)
_FIGURE = re.compile(r"[+±-]?[\d.,/-]*\d[\d.,/-]*")
_PARAGRAPH_MARK = re.compile(r"\(?\d{1,2}[.)]{1,2}|\d{1,2}(?:\.\d{1,2}){1,3}\.?|\d{1,2}-\d{1,3}\.")
_PLACES = frozenset(
    "figure fig figures table page pages paragraph para step steps chapter section sheet".split()
)
_NAMES_A_NUMBER = frozenset(
    "p/n pn part number numbers no nos s/n sn serial serials msn revision rev issue change amendment"
    " dated date ad sb asb tcds stc directive bulletin specification spec item qty torque nut".split()
)
_APPROVAL = re.compile(
    r"(?:dis|un|pre)?(?:approv|accept|authori[sz]|certif|cancel|supersed|mandator|complian|compl[iy])\w*"
    r"|faa|easa|dgac|caa|der|dar|stc|tso|pma|rev|revision|reference|only|not|no|never|shall|must",
    re.IGNORECASE,
)


def critical_doubts(passage: Read) -> tuple[str, ...]:
    """The doubtful words of a passage, as read, that are figures, numbers or units; part, serial, revision,
    directive or bulletin numbers; or words of approval and of command. Each once, in the order of the text.
    """
    doubtful = frozenset(passage.doubtful)
    if not doubtful:
        return ()
    found = {word: None for line in passage.text.split("\n") for word in _critical(line.split(), doubtful)}
    in_text = frozenset(passage.text.split())
    # A word joined over a line end no longer stands in the text as it was read.
    found.update({word: None for word in passage.doubtful if word not in in_text and _has_digit(word)})
    return tuple(found)


def _critical(words: Sequence[str], doubtful: frozenset[str]) -> Iterator[str]:
    for index, word in enumerate(words):
        if word not in doubtful:
            continue
        before = words[index - 1] if index else ""
        after = words[index + 1] if index + 1 < len(words) else ""
        if _is_critical(word, before, after):
            yield word


def _is_critical(word: str, before: str, after: str) -> bool:
    core = word.strip(_EDGES)
    label = before.strip(_EDGES).lower()
    if _APPROVAL.fullmatch(core):
        return True
    if label in _NAMES_A_NUMBER and core:
        return True
    if _IS_UNIT.fullmatch(core) and _is_figure(before):
        return True
    if _is_figure(word) and _IS_UNIT.fullmatch(after.strip(_EDGES)):
        return True
    if word.startswith("+"):
        return True
    if not _has_digit(word):
        return False
    is_place = (not before and _PARAGRAPH_MARK.fullmatch(word) is not None) or label in _PLACES
    return not is_place


def _has_digit(word: str) -> bool:
    return any(map(str.isdigit, word))


def _is_figure(word: str) -> bool:
    """Whether a word is a figure, or what OCR makes of one: "lO", "I/2", "S0"."""
    core = word.strip(_EDGES)
    return bool(core) and _FIGURE.fullmatch(looks_like(core)) is not None
