"""The words before a source's name that tell which of its kind is meant: "Pellworth H-14"."""

import re
from bisect import bisect_right
from dataclasses import dataclass

from indexer.tagging.record_words import POINTS

_WORDS = re.compile(r"(?P<word>[\w'&./-]{1,24})[ ]{1,3}$")
_NAMES = re.compile(r"[\w'&./ -]*")
_MOST_WORDS = 5
_FURTHEST = 90  # characters looked back
_MODEL = re.compile(
    r"(?!(?:rev|pg|pp|fig|ch|par|p|r|pb|no)[0-9])[A-Z]{1,5}-?[0-9]{1,4}[A-Z]{0,4}(?:-[0-9A-Z]{1,5}){0,3}",
    re.IGNORECASE,
)
_TELLING = re.compile(
    r"(?:engine|eng|prop|propeller|aircraft|acft|airframe|airplane|mfr'?s?|mfg'?s?"
    r"|manufacturer'?s?|manuf|current|latest"
    r"|maker'?s?|oem|kit|type|model|component|stc)\.?",
    re.IGNORECASE,
)
_NAME = re.compile(r"[A-Z][a-z]{3,}(?:'s)?")
_NO_NAME = re.compile(
    r".*(?:ed|ing|ion|ment)|Replace|Install|Remove|Brake|Wheel|Tire|Gear|Using|With|From"
    r"|Also|Current|Wing|Door|Seat"
    r"|Engine|Prop|Work|This|That|They|Then|When|Alert|Mandatory|Emergency|Airplane"
    r"|Aircraft|Reference|Refer|Chapter"
    r"|Section|Page|Figure|Paragraph|Part|Item|Note|Task|Subject|Step|Revision|Issue|Dated"
    r"|Under|Each|Both|Upon"
)
_STOPS = frozenset(
    "of the in to and or from with by for on at per iaw see ref that this new old was is are all any a"
    " an not no as"
    " c/w cw rev revision page pg chapter ch fig sect section".split()
)
_PLACE_VALUE = re.compile(r"[0-9]{1,2}(?:[-.][0-9]{1,4})*[A-Za-z]?|[0-9]{3,}|[0-9].*[/.]+.*")
# A manual's own number stands among such words: two dashes or more, with letters ("QZM-62-3").
OWN_NUMBER = re.compile(r"[A-Z]{1,5}[0-9]{0,4}(?:-[0-9A-Z]{1,6}){2,4}", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Pointers:
    """The words of one flat text that point at a source ("IAW", "per the"): where each ends, in order."""

    flat: str
    ends: tuple[int, ...]

    @classmethod
    def of(cls, flat: str) -> "Pointers":
        return cls(flat, tuple(match.end() for match in POINTS.finditer(flat)))

    def at(self, start: int) -> bool:
        """Whether such words stand right before the place."""
        place = bisect_right(self.ends, start)
        return place > 0 and self.ends[place - 1] == start

    def naming_start(self, start: int, floor: int) -> int:
        """Where the naming words before `start` begin, not before `floor`; `start` where there are none."""
        floor = max(floor, start - _FURTHEST)
        pointed = self._before(start, floor)
        if pointed is not None:
            return pointed
        named = start
        for _ in range(_MOST_WORDS):
            word = _WORDS.search(self.flat, max(floor, named - 27), named)
            if not word or (word.start() > floor and self.flat[word.start() - 1] not in " (,;:/"):
                break
            if not _plain(word["word"]) or not _tells(word["word"]):
                break
            named = word.start()
        return named

    def _before(self, start: int, floor: int) -> int | None:
        """The end of the words that point, when nothing but a few words of a name stands between."""
        place = bisect_right(self.ends, start)
        end = self.ends[place - 1] if place else -1
        if end < floor or not _NAMES.fullmatch(self.flat, end, start):
            return None
        words = self.flat[end:start].split()
        if len(words) > _MOST_WORDS:
            return None
        return end if all(_plain(word) and not _PLACE_VALUE.fullmatch(word) for word in words) else None


def _plain(word: str) -> bool:
    return word.lower().rstrip(".") not in _STOPS and word[:1].isalnum()


def _tells(word: str) -> bool:
    if _MODEL.fullmatch(word) or _TELLING.fullmatch(word) or OWN_NUMBER.fullmatch(word):
        return True
    return bool(_NAME.fullmatch(word)) and not _NO_NAME.fullmatch(word)
