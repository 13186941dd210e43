"""The cells of one row of a parts list as printed: item, part number, nomenclature, units per assembly.

Rules from an illustrated parts catalog's own introduction (iSpec 2200) unless a line says otherwise.
"""

import re
from dataclasses import dataclass

from indexer.tagging.parts_notes import find_notes
from indexer.tagging.parts_rows import PartNote
from indexer.trade.dashes import plain_dashes


@dataclass(frozen=True, slots=True)
class NomenclatureFacts:
    """What a nomenclature cell says.

    words        what names the part, lines joined by a blank; without dots, supplier code, notes and serials
    indenture    number of dots; None = could not be read (no dots in text from OCR, which often eats them)
    supplier     CAGE code after V, "0Q7X4"; "" = none printed
    effectivity  words on serials or aircraft, as printed, without "USED ON": "S/N 0012 THRU 0040"
    """

    words: str
    indenture: int | None
    notes: tuple[PartNote, ...] = ()
    supplier: str = ""
    effectivity: str = ""


@dataclass(frozen=True, slots=True)
class ItemFacts:
    """What an item cell says.

    item         as printed, without the dash before it: "15A"; "" = none printed, or it could not be read
    illustrated  False where a dash before the item says so
    figure       figure printed before the item in the same cell ("14-7": "14"); "" = none
    readable     False when the cell holds something that is no item
    """

    item: str
    illustrated: bool
    figure: str = ""
    readable: bool = True


@dataclass(frozen=True, slots=True)
class NumberFacts:
    """What a part number cell says: the number as printed ("" = none), and notes beside it: "(NP)"."""

    number: str
    notes: tuple[PartNote, ...] = ()


_DOT = ".\u00b7\u2022\u2219\u25cf\u25aa\u2027\u2024"  # periods and bullets that stand for a dot of indenture
_DOTS = re.compile(rf"\s*(?:[{_DOT}\u2026]\s*)*(?<![0-9])")
_DASHES = re.compile(r"(?:-\s+){1,7}(?=[A-Za-z])")
_SPECKS = re.compile(rf"(?:[\s{_DOT}\u2026,:;_~-]|['`](?=\s))*")  # dots, and what OCR makes of them
_LEADERS = re.compile(r"(?:\s*[.\u2026]){3,}\s*$|(?:\s+\.){2,}\s*$|\u2026\s*$")

# CAGE: five characters, letters I and O not used, US codes with a figure first and last; codes of other
# countries have a letter first or last (DoD 4100.39-M volume 7). So at least one figure: VALVES is no code.
_CAGE = r"(?=[A-Z0-9]{0,4}[0-9])[A-HJ-NP-Z0-9]{5}"
_SUPPLIER = re.compile(rf"(?<![A-Z0-9/.-])V({_CAGE})(?![A-Z0-9/.-])")
# A code that itself begins with V, printed without another V before it; "V101A" is a designator.
_SUPPLIER_V = re.compile(r"(?<![A-Z0-9/.-])(V(?=[0-9]*[A-HJ-NP-Z])[A-HJ-NP-Z0-9]{3}[0-9])(?![A-Z0-9/.-])")
_LABELLED = re.compile(rf"(?:CAGE|FSCM|MFR)(?:\s+CODE)?[\s:]*V?({_CAGE})(?![A-Z0-9/-])")  # from memory
_COLUMN = re.compile(rf"V?({_CAGE})")

# Serials and aircraft, with what goes on behind them; common practice, no source.
_SERIAL = r"[A-Z]{0,4}-?[0-9][A-Z0-9-]*"
_UPWARD = r"(?:AND|&)\s*(?:ON|UP|SUBS?(?:EQUENT)?|LATER)(?![A-Z])"
_REACH = (
    rf"{_SERIAL}(?:\s*(?:THRU|THROUGH|TO|-)\s*{_SERIAL}|\s*,?\s*{_UPWARD}|\s*,\s*{_SERIAL}(?=[\s,)]|$)"
    rf"|\s*,?\s*(?:AND|&)\s*{_SERIAL}|\s*,?\s*(?:EXCEPT|EXC|EXCL)\.?\s*{_SERIAL})*"
)
_EFFECTIVITY = re.compile(
    r"(?:(?:USED|EFFECTIVE|EFF|USE)\.?\s+ON\s+|EFF(?:ECTIVITY)?\s*:?\s+)?(?<![A-Z0-9/-])"
    r"(?P<reach>(?:S/N'?S?|(?:SN|SER(?:IAL)?|SERIALS|A/C|ACFT|AIRCRAFT|AIRPLANES?|MSN)(?![A-Z])\.?"
    r"(?:\s*NO'?S?\.?|\s*NUMBERS?)?)"
    rf"(?:\s*(?:S/N|SERIALS?|NOS?\.?))?[\s:.#]*{_REACH})(?:\s+ONLY(?![A-Z]))?",
    re.IGNORECASE,
)

_ITEM = r"[0-9]{1,4}[A-HJ-NP-Z]{0,2}"  # the letters of an item are A to Z without I and O
_FIGURE = r"[0-9]{1,3}[A-HJ-NP-Z]?(?:-[0-9]{1,3}[A-HJ-NP-Z]?)*?"
_LONG_FIGURE = r"[0-9]{2}(?:-[0-9]{2}[A-Z]?){2,3}"  # chapter-section-subject, and a figure of it
_UNITS = re.compile(
    r"(?:[0-9]{1,5}(?:\.[0-9]{1,3})?|(?:[0-9]{1,4}[\s-])?[1-9]/(?:2|3|4|8|16|32))"
    r"(?:\s*(?:PER(?:\s+[A-Z]+)?|EA|PR|SETS?|FT|IN|YDS?|GAL|QT|PT|OZ|LBS?|SH|['\"]))?"
    r"|(?:A/R|AR|A\.R\.|AS\s+REQ(?:'?D|UIRED)?)(?:\s*\(?(?:FT|IN|YDS?|GAL|QT|PT|OZ|LBS?|EA)\)?)?"
    r"|REF|RF|N/?P|NPS|\(REF\)",
    re.IGNORECASE,
)


def read_nomenclature(
    text: str, *, indenture: int | None = None, read_by_ocr: bool = False
) -> NomenclatureFacts:
    """What a nomenclature cell says; text with its dots, lines of a wrapped cell joined by "\\n" or a blank.

    indenture    what the place of the words shows, where the head prints "1 2 3 4 5 6 7" and the words begin
                 under one of the figures (under 1: 0). Dots printed in the cell go before it.
    read_by_ocr  words without dots then have no indenture: their dots may have been lost
    """
    lines = text.split("\n")
    dots, lines[0] = _dots(lines[0], read_by_ocr)
    body = "\n".join([_LEADERS.sub("", lines[0]), *(_LEADERS.sub("", _dots(line)[1]) for line in lines[1:])])
    found = find_notes(body)
    rest = _without(body, [(note.start, note.end) for note in found])
    reaches = [*_EFFECTIVITY.finditer(rest)]
    rest = _without(rest, [reach.span() for reach in reaches])
    rest, supplier = _supplier(rest)
    if dots == 0:
        dots = indenture if indenture is not None or read_by_ocr else 0
    notes = tuple(note.note for note in found)
    # Serials within a note may be those of the other part: kept with its words, not to be read alone.
    within = [words for words in dict.fromkeys(note.words for note in notes) if _EFFECTIVITY.search(words)]
    effectivity = "; ".join(dict.fromkeys([*(_one_line(reach["reach"]) for reach in reaches), *within]))
    return NomenclatureFacts(_words(rest), dots, notes, supplier, effectivity)


def read_item(text: str) -> ItemFacts:
    """What an item cell (or a figure-item cell) says."""
    plain = _one_line(plain_dashes(text)).rstrip(".").upper()
    if plain in ("", "-"):
        return ItemFacts("", illustrated=not plain)
    if match := re.fullmatch(rf"-\s*({_ITEM})", plain):
        return ItemFacts(match[1], illustrated=False)
    if re.fullmatch(_ITEM, plain):
        return ItemFacts(plain, illustrated=True)
    if match := re.fullmatch(
        rf"(?:FIG(?:URE)?\.?\s*)?({_LONG_FIGURE})|FIG(?:URE)?\.?\s*({_FIGURE})\s*-?|({_FIGURE})\s*-", plain
    ):
        return ItemFacts("", illustrated=True, figure=match[1] or match[2] or match[3])
    # A dash beside a blank or another dash is the mark of a part that is not illustrated; a dash alone joins.
    if match := re.fullmatch(rf"(?:FIG\.?\s*)?({_FIGURE})(-|\s+|\s*-\s*-\s*|\s+-\s*|-\s+)({_ITEM})", plain):
        return ItemFacts(match[3], illustrated=match[2].strip() == "" or match[2] == "-", figure=match[1])
    return ItemFacts("", illustrated=not plain.startswith("-"), readable=False)


def read_units(text: str) -> str | None:
    """Units per assembly as printed: "2", "A/R", "REF", "2 PER"; "" = empty; None = unreadable."""
    plain = _one_line(plain_dashes(text)).strip(" .")
    if not plain.strip("- "):
        return ""
    return plain if _UNITS.fullmatch(plain) else None


def read_supplier(text: str) -> str:
    """The CAGE code of a supplier column ("V0Q7X4", "0Q7X4", "(V0Q7X4)"), without the V; "" = none."""
    cell = text.strip().strip("()").strip()
    match = _COLUMN.fullmatch(cell) or _SUPPLIER_V.fullmatch(cell)
    return match[1] if match else ""


def read_part_number(text: str) -> NumberFacts:
    """What a part number cell says; a number wrapped over lines is joined without a blank."""
    joined = re.sub(r"\s*\n\s*", "", text.strip())
    found = find_notes(joined)
    number = _one_line(_without(joined, [(note.start, note.end) for note in found]))
    return NumberFacts(number, tuple(note.note for note in found))


def _dots(line: str, read_by_ocr: bool = False) -> tuple[int | None, str]:
    """Dots before the words of a line, and the words. None = specks that may be dots, as OCR reads them."""
    specks = _SPECKS.match(line).group()
    if read_by_ocr and set(specks) & set(",:;'`_~-"):
        return None, line[len(specks) :]
    end = _DOTS.match(line).end()
    if dashes := _DASHES.match(line):  # "- - SEAL": dashes in place of dots
        return line[: dashes.end()].count("-"), line[dashes.end() :]
    marks = line[:end]
    if marks.rstrip() and marks[-1] == "." and re.match("[0-9]", line[end:]):
        marks = marks[:-1]
    return marks.count("\u2026") * 3 + sum(marks.count(dot) for dot in _DOT), line[len(marks) :]


def _supplier(text: str) -> tuple[str, str]:
    """The text without its supplier code, and the code; of several the last, behind the words."""
    forms = (_LABELLED, _SUPPLIER, _SUPPLIER_V)
    matches = next((found for form in forms if (found := [*form.finditer(text)])), [])
    if not matches:
        return text, ""
    return _without(text, [matches[-1].span()]), matches[-1][1]


def _without(text: str, spans: list[tuple[int, int]]) -> str:
    """The text with a line end where a span was, so that what stood on its two sides is not one word."""
    for start, end in sorted(set(spans), reverse=True):
        text = f"{text[:start]}\n{text[end:]}"
    return text


def _words(text: str) -> str:
    """One line; a word broken after its hyphen closed up; empty brackets and marks left over taken off."""
    joined = re.sub(r"(?<=[A-Za-z])-\n\s*(?=[A-Za-z])", "-", text)
    line = re.sub(r"\(\s*[,;]?\s*\)", " ", _one_line(joined))
    line = re.sub(r"(?<=\()\s+|[\s,;]+(?=\))|\s+(?=[,;])", "", line)
    return _one_line(line).strip(" ,;-")


def _one_line(words: str) -> str:
    return " ".join(words.split())
