"""Records as spoken or scanned, put the way they are typed: "32 dash 41 dash 00" and "32-41-O0" are 32-41-00.

Only what stands in a number is put right, and places lead back to the text as given.
"""

import re
from bisect import bisect_right
from dataclasses import dataclass

_UNITS = "zero one two three four five six seven eight nine".split()
_TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen".split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_VALUES = {
    **{word: str(value) for value, word in enumerate(_UNITS)},
    **{word: str(value) for value, word in enumerate(_TEENS, 10)},
    "oh": "0",
}
_TENS_VALUES = {word: value for value, word in enumerate(_TENS, 2)}
_UNIT = "|".join(_UNITS[1:])
_NUMBER = rf"(?:(?:{'|'.join(_TENS)})(?:[ -](?:{_UNIT}))?|{'|'.join(_TEENS)}|{'|'.join(_UNITS)}|oh)(?![\w])"
_RUN = rf"{_NUMBER}(?:[ ]{_NUMBER}){{0,7}}"
_PLACE = (
    r"(?:chapter|section|page|figure|item|paragraph|revision|rev|number|manual|bulletin"
    r"|directive|letter|instruction|order|circular|part|table|sheet|note|point)"
)
_SPOKEN = re.compile(
    rf"(?P<joint>(?<=\w)[ ]{{1,2}}(?P<mark>dash|hyphen|slash|point)[ ]{{1,2}}"
    rf"(?=[0-9]|{_NUMBER}|[a-z](?![\w])))"
    rf"|(?<![\w-])(?:(?:(?<=dash )|(?<=hyphen )|(?<=slash )|(?<=point ))(?P<last>{_RUN})"
    rf"|(?P<run>{_RUN})(?=[ ](?:dash|hyphen|point)(?![\w])))"
    rf"|(?P<before>(?<![\w-])(?:{_PLACE}|dash|hyphen|slash)[ ])(?P<after>{_RUN})",
    re.IGNORECASE,
)
_MARKS = {"dash": "-", "hyphen": "-", "slash": "/", "point": "."}
# Two letters that a scanner gives for digits, in a chapter's or a directive's number.
_SCANNED = re.compile(
    r"(?<![\w-])(?:(?=(?:[0-9][OoIl0-9]|[OoIl][0-9])-)|[12][0-9OoIl](?=[0-9OoIl]{2}-[0-9OoIl]{2}-))"
    r"(?:[0-9OoIl]{2}-){2}[0-9OoIl]{2}(?![\w])"
)
_DIGITS = str.maketrans("OoIl", "0011")


@dataclass(frozen=True, slots=True)
class Typed:
    """text           as it would be typed
    starts, given  where each piece begins in the text, and where in the text as given
    ends           where each piece ends in the text as given
    """

    text: str
    starts: tuple[int, ...]
    given: tuple[int, ...]
    ends: tuple[int, ...]

    def place(self, place: int, end: bool = False) -> int:
        """Where a place of the text stands in the text as given; the end of a piece is its last letter's."""
        at = bisect_right(self.starts, place - end) - 1
        if at < 0:
            return place
        if end and place == (*self.starts, len(self.text))[at + 1]:
            return self.ends[at]
        return min(self.given[at] + place - self.starts[at], self.ends[at])


def typed(flat: str) -> Typed:
    """The flat text as it would be typed, of one length with it where nothing is spoken."""
    flat = _SCANNED.sub(lambda match: match[0].translate(_DIGITS), flat)
    pieces: list[str] = []
    starts, given, ends = [0], [0], []
    length = place = 0

    def add(words: str, start: int, end: int) -> None:
        nonlocal length
        ends.append(end)
        pieces.append(words)
        length += len(words)
        starts.append(length)
        given.append(end)

    for start, end, words in _spoken(flat):
        add(flat[place:start], place, start)
        add(words, start, end)
        place = end
    add(flat[place:], place, len(flat))
    return Typed("".join(pieces), tuple(starts[:-1]), tuple(given[:-1]), tuple(ends))


def _spoken(flat: str) -> list[tuple[int, int, str]]:
    """(start, end, as typed) of every spoken piece, in order."""
    found: list[tuple[int, int, str]] = []
    place = 0
    while match := _SPOKEN.search(flat, place):
        if match["joint"]:
            found.append((match.start(), match.end(), _MARKS[match["mark"].lower()]))
        elif run := match["run"] or match["last"]:
            found.append((match.start(), match.end(), _digits(run)))
        else:
            found.append((match.start("after"), match.end("after"), _digits(match["after"])))
        place = match.end()
    return found


def _digits(words: str) -> str:
    """ "four oh one" is 401, "thirty two" is 32."""
    digits = ""
    tens = 0
    for word in re.split("[ -]+", words.lower()):
        if word in _TENS_VALUES:
            digits += f"{tens}0" if tens else ""
            tens = _TENS_VALUES[word]
        elif tens and word in _UNITS[1:]:
            digits, tens = f"{digits}{tens}{_VALUES[word]}", 0
        else:
            digits += (f"{tens}0" if tens else "") + _VALUES[word]
            tens = 0
    return digits + (f"{tens}0" if tens else "")
