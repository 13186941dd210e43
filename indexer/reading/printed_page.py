"""The page number as printed: found in the running head or foot, and believed when its neighbours agree."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from indexer.reading.rows import Run

_NUMBER = r"\d{1,5}"
_ROMAN = r"(?=[ivx])x{0,3}(?:ix|iv|v?i{0,3})"
_LETTERED = r"(?:[A-Z]{1,4}|INDEX|TITLE)\s?-\s?\d{1,4}[A-Z]?|[A-Z]{1,2}\d{1,3}"  # LEP-1, T-1, A3
_NOT_ALONE = (
    r"(?!\s+\d{1,4}(?![\w/.-]))"  # "Page 42-10 401": a part of a chapter number, and the page after it
)
_CHAPTERED = (
    rf"\d{{1,3}}[-.–](?!0+(?!\w))\d{{1,4}}[A-Za-z]?{_NOT_ALONE}"  # 2-14; never 42-00, part of 32-42-00
)
_LABEL = rf"(?:{_LETTERED}|{_CHAPTERED}|{_NUMBER}[A-Za-z]?|{_ROMAN})"
_NAMED = re.compile(
    rf"\b(?:page|pg\.?)\s*(?:no\.?\s*)?[:#]?\s*(?P<label>{_LABEL})"
    rf"(?:\s*/\s*{_NUMBER})?(?:\s+(?:of|/)\s+{_NUMBER})?(?![\w-])",
    re.IGNORECASE,
)
_OF = re.compile(rf"(?<![\w/.-])(?P<label>{_NUMBER})\s+of\s+{_NUMBER}(?![\w/-])", re.IGNORECASE)
_LONE = re.compile(rf"[-–—\[(|]*\s*(?P<label>{_LABEL})\s*[-–—\])|]*", re.IGNORECASE)
_CUT_PAGE = re.compile(r"[p|]?\s?age\s+(\d{1,4})", re.IGNORECASE)  # as OCR reads "Page 401"
_HALF = re.compile(r"[-–—]\s*\d+[-.–]\d+[A-Za-z]?|\d+[-.–]\d+[A-Za-z]?\s*[-–—]")  # "-42-10" of 32-42-10
_SPLIT = re.compile(r"(?P<prefix>.*?)(?P<number>\d+)(?P<suffix>[A-Za-z]?)")
_NEIGHBOURS = 3  # pages to either side that may speak for a number
_FIRST_YEAR, _LAST_YEAR = 1900, 2099


@dataclass(frozen=True, slots=True)
class Candidate:
    """A label that may be the page number. `named` = the word "page" or "of" says so."""

    text: str
    prefix: str
    number: int
    named: bool
    place: tuple[int, float]  # which row from the edge, and how far the run lies from the page's middle line


def is_page_line(runs: Sequence[str], lone: bool) -> bool:
    """Whether a row of runs names the page.

    lone  a number standing alone is enough, or at the end of a row that holds no other figures
    """
    text = _row_text(runs)
    if _NAMED.search(text) or _OF.search(text):
        return True
    if not lone:
        return False
    if len(runs) == 1:
        return _lone(runs[0]) is not None
    numbers = [run for run in runs if any(map(str.isdigit, run))]
    return len(numbers) == 1 and numbers[0] in (runs[0], runs[-1]) and _lone(numbers[0]) is not None


def candidates(rows: Sequence[Sequence[Run]], width: float) -> list[Candidate]:
    """Every label in the rows of one page's head and foot, from the edge inward."""
    found = []
    for index, row in enumerate(rows):
        text = _row_text([run.text for run in row])
        for pattern in (_NAMED, _OF):
            for match in pattern.finditer(text):
                found.append(_candidate(match["label"], True, index, 0.0))
        for run in row:
            label = _lone(run.text)
            if label is not None:
                across = abs((run.x0 + run.x1) / 2 - width / 2)
                found.append(_candidate(label, False, index, round(across / 20)))
    return found


def printed_pages(by_page: Sequence[Sequence[Candidate]]) -> list[str]:
    """The label of each page, "" where none can be told. `by_page`: the candidates of consecutive pages."""
    if len(by_page) == 1:
        return [_alone(by_page[0])]
    chosen = [_best(by_page, index) for index in range(len(by_page))]
    for index, candidate in enumerate(list(chosen)):
        if candidate is None:
            chosen[index] = _at_the_usual_place(by_page[index], chosen[max(0, index - 1) : index + 2])
    return [candidate.text if candidate else "" for candidate in chosen]


def _alone(found: Sequence[Candidate]) -> str:
    """The label of a file of one page, which no neighbour can confirm: a named one, or one bare number."""
    named = [candidate for candidate in found if candidate.named]
    if named:
        return named[0].text
    return found[0].text if len(found) == 1 and found[0].text.isdigit() else ""


def _at_the_usual_place(
    found: Sequence[Candidate], neighbours: Sequence[Candidate | None]
) -> Candidate | None:
    """A number that counts on from nothing (its block has one page) but stands where its neighbours' do."""
    places = {neighbour.place for neighbour in neighbours if neighbour is not None}
    matching = [candidate for candidate in found if candidate.place in places]
    return matching[0] if len(matching) == 1 else None


def _best(by_page: Sequence[Sequence[Candidate]], index: int) -> Candidate | None:
    best, best_score = None, 0
    for candidate in by_page[index]:
        support = sum(
            any(_agrees(candidate, other, step) for other in by_page[index + step])
            for step in range(-_NEIGHBOURS, _NEIGHBOURS + 1)
            if step and 0 <= index + step < len(by_page)
        )
        score = 2 * support + (5 if candidate.named else 0)
        if not candidate.named and support == 0:
            continue
        if score > best_score:
            best, best_score = candidate, score
    return best


def _agrees(one: Candidate, two: Candidate, step: int) -> bool:
    """Whether two labels, `step` pages apart, count on in the same way."""
    return one.prefix == two.prefix and two.number - one.number == step and one.named == two.named


def _candidate(label: str, named: bool, row: int, across: float) -> Candidate:
    label = re.sub(r"\s*-\s*", "-", label.strip())
    parts = _SPLIT.fullmatch(label)
    if parts is not None:
        return Candidate(label, parts["prefix"].upper(), int(parts["number"]), named, (row, across))
    return Candidate(label, "roman", _roman(label), named, (row, across))


def _row_text(runs: Sequence[str]) -> str:
    return " ".join(_CUT_PAGE.sub(r"Page \1", run) if _CUT_PAGE.fullmatch(run) else run for run in runs)


def _lone(text: str) -> str | None:
    match = _LONE.fullmatch(text.strip())
    if match is None or not match["label"] or _HALF.fullmatch(text.strip()):
        return None
    label = match["label"]
    if label.isdigit() and _FIRST_YEAR <= int(label) <= _LAST_YEAR:
        return None
    return label


def _roman(text: str) -> int:
    values = [{"i": 1, "v": 5, "x": 10, "l": 50, "c": 100}[letter] for letter in text.lower()]
    return sum(-one if one < two else one for one, two in zip(values, [*values[1:], 0], strict=True))
