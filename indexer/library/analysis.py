"""Our tokens: what a text is searched by. Pure; no engine is known here.

Reading goes in three steps: fold (folding.py), cut into chunks at blanks, cut each chunk into words.
Numbers are also indexed in other forms (number_forms.py).

    printed               words, one position each     also indexed
    Brakes                brake
    left-hand             left hand
    P/N, U.S.             pn; us                       (single letters make one word)
    32-41-00              32 41 00                     32-41-00  32-41  324100
    32.41.00, 32–41–00    32 41 00                     the same
    32-41-00-400-801-A01  32 41 00 400 801 a01         32-41  32-41-00  32-41-00-400  ..., all in one
    DMC-XX-A-32-41-00-00A dmc xx a 32 41 00 00a        32-41  32-41-00, all in one
    MS20470-4             ms20470 4                    ms204704  ms  20470  204704  20470-4
    MS 20470-4            ms 20470 4                   20470-4  204704  ms20470  ms204704
    AN4-12A, AN 4-12A     an4 12a; 4 12a               an412a  412a
    SB 32-0012            sb 32 0012                   32-0012  320012  sb32  sb320012
    QZ62-32-0114          qz62 32 0114             32-0114  qz62320114  qz  62320114  62-32-0114
    2019-07-05            2019 07 05                   2019-07-05  2019-07  20190705
    82-27-13R1            82 27 13r1                   82-27-13  82-27  822713r1
    100-hour              100 hour                     100hour
    5-1/2, 5½             5 1/2                        5-1/2
    0.032, 3/8            0.032; 3/8                   (one word: never "032")
    36,000                36 000                       36000

What is asked is read by the same steps; then one clause must hold for each chunk:

    brake                 the word
    nose-wheel            its words in a row
    brake/clutch          each of its words
    32-41                 as printed: finds 32-41-00, and neither 12-32-41 nor the JASC code 3241
    324100, ms204704      the word, which is also the form in one of what is printed with dashes
    MS20470-4, 100-hour   its words in a row (dashes and blanks alike), or the form in one
    "..."                 the printed words in a row, dashes and blanks alike

Stop words take no position, so a phrase steps over them: "removal of the wheel" is "removal wheel". Words
that turn a step round ("not", "no", "on", "off", "before", "without", ...) are never stop words. Chinese
and Japanese characters are one word each, and a run of them is asked for as words in a row.
"""

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from indexer.library.folding import folded, singular
from indexer.library.number_spellings import Form, forms_after_capitals, is_number, joined, number_forms

STOP_WORDS = frozenset(
    ["a", "an", "and", "are", "as", "at", "be", "by", "for", "from", "in", "is", "it", "its", "of", "or"]
    + ["that", "the", "this", "to", "was", "were", "with"]
)
_VARIANTS = 1 << 24  # the first position of variants; no passage has so many words
LONGEST_WORD = 64  # characters; garbled text has longer ones, which are cut

_CJK = "\u3040-\u30ff\u3400-\u4dbf\u4e00-\u9fff"
_WORD = rf"[^\W_{_CJK}]"
_CHUNK = re.compile(
    rf"[{_CJK}]+|{_WORD}+(?:(?:"
    r"[-/]"  # between any two
    r"|(?<=\d)\.(?=\d)"  # 0.032
    rf"|(?<!{_WORD}{_WORD})\.(?={_WORD}(?!{_WORD}))"  # U.S., 2.A
    r"|(?<=\d),(?=\d{3}(?!\d))"  # 36,000
    r"|(?<=[^\W\d_])'(?=[^\W\d_])"  # don't
    rf"){_WORD}+)*"
)
_GROUP = re.compile(rf"[{_CJK}]|{_WORD}+(?:(?<=\d)[./](?=\d){_WORD}+|'{_WORD}+)*")
_DOTTED_NUMBER = re.compile(r"\d\d\.\d\d\.\d\d")
_CAPITALS_BEFORE = re.compile(r"(?<![\w-])([A-Z]{1,4}) $")
_STANDARDS = ("AN", "AS")  # of parts; as words they are stop words
_DIGIT = re.compile(r"\d")


class Token(NamedTuple):
    """One way to find a piece of text.

    text      folded
    position  how many printed words stand before it, stop words not counted
    start     character range in the text as given
    end
    variant   True for a form indexed beside the printed words
    """

    text: str
    position: int
    start: int
    end: int
    variant: bool = False


class Group(NamedTuple):
    """One printed word and its place in its chunk."""

    text: str
    start: int
    end: int


Atom = tuple[str, ...]  # one word, or several that must stand in a row
Clause = tuple[Atom, ...]  # alternatives, of which one must hold


def tokens(text: str) -> list[Token]:
    """Everything `text` is found by. The variants of a number come right before its printed words."""
    plain, origins = folded(text)
    found = list(map(Token._make, _found(text, plain, origins)))
    if origins is None:
        return found
    return [token._replace(start=origins[token.start], end=origins[token.end - 1] + 1) for token in found]


def word_positions(text: str) -> dict[str, list[int]]:
    """The same for indexing: each token's text with its positions, in order.

    Words in a row are printed words in a row. So variants get positions far from those of printed words and
    never next to one another; else MS20470-400 would be found in "MS20470 and AN400".
    """
    positions: dict[str, list[int]] = defaultdict(list)
    for word, position, _, _, variant in _found(text, *folded(text)):
        positions[word].append(_VARIANTS + 2 * position if variant else position)
    for places in positions.values():
        places.sort()
    return dict(positions)


def _found(text: str, plain: str, origins: list[int] | None) -> Iterator[tuple[str, int, int, int, bool]]:
    """The fields of each token, its character range in the folded text."""
    position = 0
    for match in _CHUNK.finditer(plain):
        start = match.start()
        chunk = match.group()
        groups = _groups(chunk)
        if _DIGIT.search(chunk):
            for form, first, last in _forms(chunk):
                begin, end = start + groups[first].start, start + groups[last].end
                yield form[:LONGEST_WORD], position + first, begin, end, True
            if chunk[0].isdigit():
                for (form, _, last), begin in _forms_after_capitals(text, origins, start, groups):
                    yield form[:LONGEST_WORD], position, begin, start + groups[last].end, True
        for word, begin, end in groups:
            yield word, position, start + begin, start + end, False
            position += 1


def printed_words(text: str) -> list[str]:
    """The words of `text` one after another, without variants: what a phrase is made of."""
    return [token.text for token in tokens(text) if not token.variant]


@lru_cache(maxsize=65536)
def _groups(chunk: str) -> tuple[Group, ...]:
    """The printed words of a chunk; none when it is a stop word."""
    groups = [Group(match.group(), *match.span()) for match in _GROUP.finditer(_with_dashes(chunk))]
    words = [group.text for group in groups]
    if len(words) > 1 and chunk[0].isascii() and all(len(word) == 1 and word.isalpha() for word in words):
        return (Group(joined(words), 0, len(chunk)),)
    if _DIGIT.search(chunk):  # "a" in a number is no stop word
        return tuple(group._replace(text=_word(group.text)) for group in groups)
    return tuple(group._replace(text=_word(group.text)) for group in groups if group.text not in STOP_WORDS)


def _with_dashes(chunk: str) -> str:
    """32.41.00 is 32-41-00; every other dotted number is a decimal or a paragraph and stays whole."""
    return chunk.replace(".", "-") if _DOTTED_NUMBER.fullmatch(chunk) else chunk


def _word(printed: str) -> str:
    if "'" in printed:
        printed = printed.removesuffix("'s").replace("'", "")
    return (singular(printed) if printed.isalpha() else printed)[:LONGEST_WORD]


@lru_cache(maxsize=65536)
def _forms(chunk: str) -> tuple[Form, ...]:
    forms = number_forms(_with_dashes(chunk), [group.text for group in _groups(chunk)])
    return tuple(form for form in forms if form.text not in STOP_WORDS)


def _forms_after_capitals(
    text: str, origins: Sequence[int] | None, start: int, groups: Sequence[Group]
) -> Iterator[tuple[Form, int]]:
    """MS 20470-4 is also found written in one: each form, and where the capitals start in the folded text."""
    at = start if origins is None else origins[start]
    capitals = _CAPITALS_BEFORE.search(text, max(0, at - 6), at)
    if capitals and (capitals[1].lower() not in STOP_WORDS or capitals[1] in _STANDARDS):
        prefix = capitals[1].lower()
        for form in forms_after_capitals(prefix, [group.text for group in groups]):
            yield form, start - len(prefix) - 1


def clauses(asked: str) -> list[Clause]:
    """What must hold for something asked without quotes: mostly one clause; none when all are stop words."""
    plain, _ = folded(asked)
    return [clause for match in _CHUNK.finditer(plain) for clause in _clauses_of_chunk(match.group())]


def _clauses_of_chunk(chunk: str) -> list[Clause]:
    words = tuple(group.text for group in _groups(chunk))
    if len(words) < 2:
        return [(words,)] if words else []
    if not _DIGIT.search(chunk):
        return [((word,),) for word in words] if "/" in chunk else [(words,)]
    if not is_number(words):
        return [(words, (joined(words)[:LONGEST_WORD],))]
    if any("/" in word for word in words):
        return [(words,)]  # 5-1/2 is also printed 5 1/2
    whole = joined(words) if "," in chunk else _with_dashes(chunk)
    return [((whole[:LONGEST_WORD],),)]


def phrase(quoted: str) -> Clause | None:
    """What must hold for words in quotes; None when they are all stop words."""
    words = tuple(printed_words(quoted))
    return (words,) if words else None
