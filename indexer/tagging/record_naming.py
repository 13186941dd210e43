"""The words before a source's name that tell which of its kind is meant: "Pellworth H-14", "manufacturer's"."""

import re

from indexer.tagging.record_words import POINTER

_WORDS = re.compile(r"(?P<word>[\w'&./-]{1,24})[ ]{1,3}$")
_MOST_WORDS = 5
_FURTHEST = 90  # characters looked back
_MODEL = re.compile(
    r"(?!(?:rev|pg|pp|fig|ch|par|p|r|pb|no)[0-9])[A-Z]{1,5}-?[0-9]{1,4}[A-Z]{0,4}(?:-[0-9A-Z]{1,5}){0,3}",
    re.IGNORECASE,
)
_TELLING = re.compile(
    r"(?:engine|eng|prop|propeller|aircraft|acft|airframe|airplane|mfr'?s?|mfg'?s?|manufacturer'?s?|manuf|current|latest"
    r"|maker'?s?|oem|kit|type|model|component|stc)\.?",
    re.IGNORECASE,
)
_NAME = re.compile(r"[A-Z][a-z]{3,}(?:'s)?")
_NO_NAME = re.compile(
    r".*(?:ed|ing|ion|ment)|Replace|Install|Remove|Brake|Wheel|Tire|Gear|Using|With|From|Also|Current|Wing|Door|Seat"
    r"|Engine|Prop|Work|This|That|They|Then|When|Alert|Mandatory|Emergency|Airplane|Aircraft|Reference|Refer|Chapter"
    r"|Section|Page|Figure|Paragraph|Part|Item|Note|Task|Subject|Step|Revision|Issue|Dated|Under|Each|Both|Upon"
)
_STOPS = frozenset(
    "of the in to and or from with by for on at per iaw see ref that this new old was is are all any a an not no as"
    " c/w cw rev revision page pg chapter ch fig sect section".split()
)
_PLACE_VALUE = re.compile(r"[0-9]{1,2}(?:[-.][0-9]{1,4})*[A-Za-z]?|[0-9]{3,}|[0-9].*[/.]+.*")
# A manual's own number stands among such words: two dashes or more, with letters ("QZM-62-3").
OWN_NUMBER = re.compile(r"[A-Z]{1,5}[0-9]{0,4}(?:-[0-9A-Z]{1,6}){2,4}", re.IGNORECASE)


def pointed_at(flat: str, start: int) -> bool:
    """Whether words that point at a source ("IAW", "per the") stand right before the place."""
    return POINTER.search(flat, max(0, start - 48), start) is not None


def naming_start(flat: str, start: int, floor: int) -> int:
    """Where the naming words before `start` begin; `start` where there are none. None stand before `floor`."""
    places = [start]
    floor = max(floor, start - _FURTHEST)
    while len(places) <= _MOST_WORDS:
        word = _WORDS.search(flat, max(floor, places[-1] - 27), places[-1])
        if (
            not word
            or (word.start() > floor and flat[word.start() - 1] not in " (,;:/")
            or not _plain(word["word"])
        ):
            break
        places.append(word.start())
    # All words after the nearest words that point, where nothing parts them.
    for count, place in enumerate(places):
        if place > floor and pointed_at(flat, place):
            if all(_no_place(flat[at:].split(" ", 1)[0]) for at in places[1 : count + 1]):
                return place
            break
    named = start
    for place in places[1:]:
        word = flat[place:named].strip()
        if not _tells(word, flat, place):
            break
        named = place
    return named


def _plain(word: str) -> bool:
    return word.lower().rstrip(".") not in _STOPS and not word.endswith((":", ";"))


def _no_place(word: str) -> bool:
    return not _PLACE_VALUE.fullmatch(word)


def _tells(word: str, flat: str, place: int) -> bool:
    if _MODEL.fullmatch(word) or _TELLING.fullmatch(word) or OWN_NUMBER.fullmatch(word):
        return True
    return bool(_NAME.fullmatch(word)) and not _NO_NAME.fullmatch(word)
