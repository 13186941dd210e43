"""A printed applicability made plain and cut into its sentences and numbered items."""

import re
from dataclasses import dataclass

from indexer.tagging import applicability_words as words
from indexer.trade.dashes import plain_dashes

_OF_ITEM = re.compile(
    r"\b(?:paragraphs?|items?|notes?|steps?|parts?|figures?|revision|issue)$", re.IGNORECASE
)
_QUOTES = str.maketrans("\u2018\u2019\u201c\u201d", "''\"\"")


@dataclass(frozen=True, slots=True)
class Segment:
    """One sentence or item.

    item       True where an item mark "(1)" stands before it
    leads      True where it ends in a colon, or names paragraphs that follow: what it says is true of the
               items after it
    """

    text: str
    item: bool
    leads: bool


def plain_text(text: str) -> str:
    """One line with plain dashes and quotes; the blank that a line end left inside a number is dropped."""
    one = " ".join(plain_dashes(text).translate(_QUOTES).split())
    one = re.sub(r"(?<=[A-Za-z0-9])- (?=[A-Z]?\d)", "-", one)
    one = re.sub(r"(?<=[,;] )- (?=\d)|(?<=and )- (?=\d)|(?<=or )- (?=\d)", "-", one)
    return re.sub(r"\\[nt]", " ", one)


def segments(plain: str) -> list[Segment]:
    """The sentences and items of a plain text, in order, up to where compliance begins."""
    stop = words.STOP.search(plain)
    plain = plain[: stop.start()] if stop else plain
    marks = _item_marks(plain)
    starts = [(0, 0, False), *((mark.start(), mark.end(), True) for mark in marks)]
    found: list[Segment] = []
    for place, (_, start, item) in enumerate(starts):
        end = starts[place + 1][0] if place + 1 < len(starts) else len(plain)
        more = place + 1 < len(starts)
        for at, sentence in enumerate(_sentences(plain[start:end])):
            leads = more and (sentence.endswith(":") or bool(words.ITEMS_PROMISED.search(sentence)))
            found.append(Segment(sentence, item and at == 0, leads))
    return [segment for segment in found if segment.text]


def missing_items(plain: str) -> str:
    """The words that promise items which the text does not hold; "" when none are missing."""
    promised = words.ITEMS_PROMISED.search(plain)
    if not promised:
        return ""
    printed = {mark[0].strip(" ().") for mark in _item_marks(plain)}
    wanted = {str(number) for number in range(int(promised[1]), int(promised[2]) + 1)}
    return "" if wanted <= printed else promised[0]


def _item_marks(plain: str) -> list[re.Match]:
    """Marks such as "(2)" that begin an item: after a point or a joining word, or next in the count."""
    found: list[re.Match] = []
    count = 0
    for mark in words.ITEM_MARK.finditer(plain):
        before = plain[: mark.start()].rstrip()
        name = mark[0].strip(" ().")
        follows = name.isdigit() and int(name) in (1, count + 1) and not _OF_ITEM.search(before)
        if not before or before[-1] in ":;.," or re.search(r"\b(?:and|or)$", before) or follows:
            found.append(mark)
            count = int(name) if name.isdigit() else count
    return found


def _sentences(text: str) -> list[str]:
    ends = [
        end.end()
        for end in words.SENTENCE_END.finditer(text)
        if not words.ABBREVIATION.search(text[: end.start()])
    ]
    return [text[a:b].strip() for a, b in zip([0, *ends], [*ends, len(text)], strict=True)]
