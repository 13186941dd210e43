"""Usage (effectivity) codes of a parts list, and what its footnotes and front pages say that they mean.

A code is defined for its figure alone (the introduction of an illustrated parts catalog); a list of codes in
the front pages holds for every figure that explains none (common practice, no source). A code that is
explained nowhere, or in two ways at once, has no words: nothing is guessed.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from indexer.reading.page import Page
from indexer.tagging.parts_lines import printed_rows
from indexer.tagging.parts_rows import PartsFigure, PartsRow, UsageCode
from indexer.trade.dashes import plain_dashes

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # codes are letters without I and O
_RANGE = re.compile(r"([A-Z])\s*(?:-|THRU|TO)\s*([A-Z])")
_BETWEEN = re.compile(r"\s*[,;&/]\s*|\s+(?:AND|OR)\s+|\n")

# How a line explains a code: with a label, with "=" or ":", or with words that begin an applicability.
_CODE = r"[A-HJ-NP-Z]{1,3}"
_BEGINS = (
    r"(?i:MODELS?|S/N|SN|SERIALS?|SER\.?\s*NO|USED\s+ON|USABLE\s+ON|EFF(?:ECTIVE|ECTIVITY)?|AIRCRAFT|AIRPLANES?"
    r"|A/C|ACFT|HELICOPTERS?|UNITS?|FOR|P/N|PN|PART\s+N(?:O|UMBER)|ASSY|ASSEMBLY|PRE|POST|BEFORE|AFTER|ALL)"
    r"(?![A-Za-z])"
)
_LABEL = r"(?i:(?:(?:USAGE|USABLE\s+ON|EFF(?:ECTIVITY)?)\s+)?CODES?)"
_OPEN, _CLOSE = r"[\"'(]?", r"[\"')]?"
_EXPLAINED = re.compile(
    rf"(?:^|\s){_OPEN}(?:"
    rf"{_LABEL}\s*{_OPEN}(?P<labelled>{_CODE}|[0-9]{{1,2}}){_CLOSE}\s*(?:[:=]|-\s|\s)"
    rf"|(?P<code>{_CODE}){_CLOSE}\s*[=:]"
    rf"|(?P<bare>{_CODE}){_CLOSE}\s+(?:-\s+)?(?={_BEGINS}))\s*"
)
_APPLIES = re.compile(_BEGINS)
_SIZE = re.compile(
    r"[0-9]?\.[0-9]|[0-9]\s*(?:IN|INCH(?:ES)?|MM|CM|FT|LBS?|PSI|DEG|HZ)\b", re.IGNORECASE
)  # A = 1.25 IN.
_NUMBERS = re.compile(  # models, serials and what joins them, and nothing else
    r"(?=.*[0-9])(?:(?:[A-Z]+-?)*[0-9][A-Z0-9/-]*|MODELS?|S/N'?S?|SN|SERIALS?|NOS?\.?|AIRCRAFT|AIRPLANES?|A/C|ACFT"
    r"|USED|USABLE|EFF|ONLY|P/N|PRE|POST|SB|AND|ON|THRU|THROUGH|TO|EXCEPT|UP|SUBS?|SUBSEQUENT|&|,|:|\s)+"
)
_HEADING = re.compile(
    r"(?:USAGE|USABLE\s+ON|EFFECTIVITY|EFF)\s*CODES?(?:\s+(?:LIST|INDEX|TABLE))?\s*:?"
    r"|CODES?\s+(?:MODELS?|EFFECTIVITY|USED\s+ON|USABLE\s+ON|MEANING|S/N|SERIALS?)(?:\s.*)?",
    re.IGNORECASE,
)
_TABLE_ROW = re.compile(r"-?[0-9]{1,3}[A-Z]?\s+(?=\S*[A-Z-])(?=\S*[0-9])\S{5,}")  # an item and a part number
_LISTED = re.compile(r"(?P<code>[A-HJ-NP-Z]{1,3}|[0-9]{1,2})\s+(?:-\s+)?(?P<words>[^=:]*[0-9][^=:]*)")
_GOES_ON = re.compile(r"(?:AND|THRU|THROUGH|EXCEPT|&|,|TO)\b|[0-9]", re.IGNORECASE)
_UNFINISHED = re.compile(r"(?:,|-|&|\b(?:AND|THRU|THROUGH|TO|EXCEPT|ON|S/N))$", re.IGNORECASE)
_ABBREVIATIONS = frozenset({"AR", "RF", "REF", "NP", "NPS", "NHA", "LH", "RH", "ASSY", "QTY", "SB", "AD"})


def read_usage(text: str) -> tuple[str, ...]:
    """The codes of a usage cell in printed order: "A,B", "A/B", "AB" -> A, B; a model's name stays whole.

    "AB" is two codes while its letters rise; `with_usage` takes it for one where the catalog explains AB.
    """
    codes: list[str] = []
    for piece in _BETWEEN.split(" ".join(plain_dashes(text).split(" ")).strip()):
        piece = " ".join(piece.split()).strip("()*. ")
        if span := _RANGE.fullmatch(piece):
            codes += _between(span[1], span[2])
        elif re.fullmatch("[A-Z](?: [A-Z])+", piece):
            codes += piece.split()
        elif re.fullmatch("[A-Z]{2,}", piece) and list(piece) == sorted(set(piece)):
            codes += piece
        elif piece.strip("-"):
            codes.append(piece)
    return tuple(dict.fromkeys(codes))


def _between(first: str, last: str) -> list[str]:
    """The letters of codes from one to another; as printed when they do not rise."""
    if first in _LETTERS and last in _LETTERS and first < last:
        return list(_LETTERS[_LETTERS.index(first) : _LETTERS.index(last) + 1])
    return [f"{first}-{last}"]


def explained_codes(
    lines: Sequence[tuple[int, str]], strict: bool = False
) -> tuple[Mapping[str, UsageCode], set[str]]:
    """Codes that lines explain ("A  MODEL QZ62 S/N 001-050", "CODE A: ..."); those explained in two ways.

    lines   (pdf_page, text), in printed order: the lines under one figure's list, or of the front pages
    strict  of pages that hold other things than lists: "A = 12" counts only in words of an applicability
    A code explained twice in different words is not among the first: which of the two holds is not guessed.
    """
    found: dict[str, UsageCode] = {}
    two_ways: set[str] = set()
    for code in _explained(lines, strict):
        known = found.setdefault(code.code, code)
        if _plain(known.words) != _plain(code.words):
            two_ways.add(code.code)
    return {code: words for code, words in found.items() if code not in two_ways}, two_ways


def with_usage(
    rows: Sequence[PartsRow], figures: Sequence[PartsFigure], pages: Sequence[Page]
) -> tuple[PartsRow, ...]:
    """The same rows; each code with the words of its figure's pages, else of the front pages.

    A model's name in place of a code is its own words.
    """
    if not any(row.usage for row in rows):
        return tuple(rows)
    used = {number for figure in figures for number in (*figure.list_pages, *figure.art_pages)}
    before = min(used, default=0)
    lines = {p.pdf_page: _lines(p) for p in pages if p.pdf_page < before or p.pdf_page in used}
    front, _ = explained_codes(
        [line for number in sorted(lines) if number < before for line in lines[number]], strict=True
    )
    by_figure: dict[int, Mapping[str, UsageCode]] = {}
    for figure in figures:
        listed, two_ways = explained_codes(
            [line for number in figure.list_pages for line in lines.get(number, [])]
        )
        art = sorted(set(figure.art_pages) - set(figure.list_pages))
        drawn, also = explained_codes([line for number in art for line in lines.get(number, [])], strict=True)
        other = {**front, **drawn}
        by_figure[figure.ordinal] = {c: w for c, w in other.items() if c not in two_ways | also} | dict(
            listed
        )
    return tuple(replace(row, usage=_with_words(row.usage, by_figure.get(row.figure, front))) for row in rows)


def _with_words(usage: Sequence[UsageCode], known: Mapping[str, UsageCode]) -> tuple[UsageCode, ...]:
    joined = "".join(code.code for code in usage)
    if len(usage) > 1 and joined in known and not any(code.code in known for code in usage):
        return (known[joined],)
    return tuple(
        known.get(code.code)
        or (replace(code, words=code.code) if _is_model(code.code) and not code.words else code)
        for code in usage
    )


def _is_model(code: str) -> bool:
    """Whether it is a model's name and no code: letters and figures, three characters or more."""
    return len(code) > 2 and bool(re.search("[A-Za-z]", code)) and bool(re.search("[0-9]", code))


def _lines(page: Page) -> list[tuple[int, str]]:
    """The page's printed lines over its whole width, for columns of the page may part a code from its words.

    A line is cut where a row of another table begins, or another explanation.
    """
    lines = []
    for row in printed_rows(page):
        cut: list[list[str]] = [[]]
        texts = [piece.text for piece in row.pieces]
        for place, text in enumerate(texts):
            ahead = " ".join(texts[place : place + 2])
            if cut[-1] and (_TABLE_ROW.match(ahead) or _EXPLAINED.match(plain_dashes(ahead))):
                cut.append([])
            cut[-1].append(text)
        lines += [(page.pdf_page, " ".join(texts)) for texts in cut if texts]
    return lines


def _explained(lines: Iterable[tuple[int, str]], strict: bool) -> list[UsageCode]:
    found: list[UsageCode] = []
    listing = False  # under a heading such as "USAGE CODES", where a code and its words stand side by side
    open_ended = False
    for pdf_page, text in lines:
        text = " ".join(plain_dashes(text).split())
        heading = _HEADING.fullmatch(text)
        marks = [] if heading else [*_EXPLAINED.finditer(text)]
        if marks and not text[: marks[0].start()].strip(" *()-"):
            open_ended = False
            ends = [*(mark.start() for mark in marks[1:]), len(text)]
            for mark, end in zip(marks, ends, strict=True):
                code = mark["labelled"] or mark["code"] or mark["bare"]
                words = text[mark.end() : end].strip(" ,;")
                if mark["labelled"] or listing or _may_explain(words, strict, bare=mark["bare"] is not None):
                    found.append(UsageCode(code, words, pdf_page))
                    open_ended = True
        elif listing and (match := _LISTED.fullmatch(text)):
            found.append(UsageCode(match["code"], match["words"].strip(), pdf_page))
            open_ended = True
        elif open_ended and (_GOES_ON.match(text) and _UNFINISHED.search(found[-1].words)):
            found[-1] = replace(found[-1], words=f"{found[-1].words} {text}")
        else:
            listing, open_ended = bool(heading), False
    return [code for code in found if code.words and code.code not in _ABBREVIATIONS]


def _may_explain(words: str, strict: bool, bare: bool) -> bool:
    """Whether the words may explain a code; bare: nothing but a blank stands between the two.

    "A part number does not show ..." and "A model 62 airplane" are sentences that begin with the article.
    """
    if bare:
        return _NUMBERS.fullmatch(words.upper()) is not None or bool(
            not strict and words == words.upper() and re.search("[0-9]", words)
        )
    if _APPLIES.match(words):
        return True
    return not _SIZE.search(words) and (not strict or _NUMBERS.fullmatch(words) is not None)


def _plain(words: str) -> str:
    return re.sub(r"[\s.]", "", words).casefold()
