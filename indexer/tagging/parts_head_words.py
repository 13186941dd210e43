"""The words of column heads of parts lists and number indexes, and which column each names.

The words are those of illustrated parts catalogs (iSpec 2200) and of older makers' lists: common practice.
"""

import re
from enum import StrEnum
from functools import cache

_LEAST_LETTERS_FUZZY = 4
_LEVELS = "1234567"


class Column(StrEnum):
    FIGURE = "figure"
    ITEM = "item"
    PART_NUMBER = "part number"
    STOCK_NUMBER = "stock number"
    NOMENCLATURE = "nomenclature"
    NUMBER_OVER_NAME = "part number over nomenclature"  # one column, a line for each
    ITEM_OVER_NUMBER = "item over part number"
    USAGE = "usage code"
    EFFECTIVITY = "effectivity"
    SUPPLIER = "supplier code"
    UNITS = "units per assembly"
    OTHER = "other"


_NO = r"(?: ?(?:NO|NOS|NUMBER|NUMBERS|NR|NUM|#))"
_FIG = r"(?:FIG|FIGURE|PLATE)"
_AND = r"(?: ?(?:&|AND|/|-)? ?)"
_ITEM = rf"(?:ITEM{_NO}?|INDEX{_NO}?|IDX{_NO}?|KEY{_NO}?|REF{_NO}?|CALLOUT|FIND{_NO}|POS)"
_PER = r"(?: ?PER)?(?: ?(?:NEXT HIGHER )?(?:ASSY|ASSEMBLY|ASSEM|FIG|UNIT|ARTICLE|A/C|AIRPLANE|AIRCRAFT))?"
_REQUIRED = r"(?:REQ'?D?|REQUIRED)"
_FORMS: tuple[tuple[Column, re.Pattern[str]], ...] = tuple(
    (column, re.compile("|".join(forms)))
    for column, *forms in (
        (Column.FIGURE, rf"{_FIG}{_NO}?"),
        (Column.ITEM, rf"(?:{_FIG}{_NO}?{_AND})?(?:{_ITEM}|NO|NUMBER)", rf"{_ITEM}(?:{_AND}{_FIG})?"),
        (
            Column.STOCK_NUMBER,
            rf"(?:AIRLINE|NATIONAL|NATO|FEDERAL)(?: ?(?:STOCK|PART)){_NO}?",
            rf"STOCK{_NO}?",
            "NSN",
            rf"A/L STOCK{_NO}?",
        ),
        (
            Column.PART_NUMBER,
            rf"NEW PART{_NO}",
            rf"(?:(?:MFR|MANUFACTURER|MANUFACTURER'?S|VENDOR|MAKER'?S) ?)?PARTS?{_NO}",
            "P/N",
            "PN",
            "PART",
        ),
        (Column.NOMENCLATURE, r"(?:PART )?(?:NOMENCLATURE|DESCRIPTION|NAME|TITLE)(?: OF PARTS?)?"),
        (
            Column.EFFECTIVITY,
            "EFFECTIVITY",
            r"EFF(?:ECT(?:IVE)?)? ?FROM ?-?(?:TO|THRU)",
            rf"SERIALS?{_NO}?",
            "MODELS?",
            "S/N",
            "USED ON(?: MODEL)?",
            "FROM ?-?TO",
        ),
        (
            Column.USAGE,
            r"(?:USAGE|USE|USABLE ON|USABLE|EFFECT|EFF|EFFECTIVITY|USED ON)(?: ?CODES?)?",
            "CODES?",
        ),
        (Column.SUPPLIER, r"(?:MFR|MFG|VENDOR|SUPPLIER|CAGE|FSCM|V|MAKER)(?: ?(?:CODE|NO))?"),
        (
            Column.UNITS,
            rf"(?:TOTAL )?(?:UNITS?|QTY|QUANTITY|QUAN|AMT|NO){_PER}(?: ?{_REQUIRED})?",
            "REQ'?D?",
            "UPA",
            "QPA",
            "TOTAL",
        ),
    )
)
_NUMBER_OVER_NAME = re.compile(rf"PARTS?{_NO}(?: AND)? (?:NOMENCLATURE|DESCRIPTION|NAME)")
_OF_ANOTHER_LIST = re.compile(
    r"\b(?:PRICES?|COST|AMOUNT|LIFE|HOURS|HRS|INTERVALS?|TORQUE|ARM|MOMENT|REMEDY|CAUSE|DATE|MAN-?HOURS)\b"
)
_ITEM_OVER_NUMBER = re.compile(rf"(?:{_FIG}{_NO}?{_AND})?{_ITEM}(?: AND)? PARTS?{_NO}")
# Long enough to be known again when OCR misreads a letter or two.
_VOCABULARY = frozenset(
    "FIG FIGURE ITEM INDEX PART NUMBER AIRLINE STOCK NOMENCLATURE DESCRIPTION NAME USAGE EFFECT EFFECTIVITY "
    "CODE UNITS QUANTITY ASSY ASSEMBLY USABLE MODEL TOTAL PLATE".split()
)
HEAD_WORDS = _VOCABULARY | frozenset(
    "NO NOS NR NUM # & AND / - ITEM-NO FIG-ITEM FIG/ITEM FIG&ITEM FIG-NO FIGITEM IDX KEY REF CALLOUT "
    "FIND POS NATIONAL NATO FEDERAL NSN A/L MFR MFG MANUFACTURER MANUFACTURERS MANUFACTURER'S VENDOR "
    "MAKER'S MAKERS MAKER PARTS P/N PN PARTNUMBER PARTNO TITLE OF EFF EFFECTIVE FROM TO THRU FROM-TO "
    "SERIAL SERIALS S/N MODELS USED ON USE CODES SUPPLIER CAGE FSCM V UNIT QTY QUAN AMT PER NEXT HIGHER "
    "ASSEM ARTICLE A/C AIRPLANE AIRCRAFT REQ'D REQD REQ REQUIRED UPA QPA REMARKS NOTES UNITSPER PERASSY "
    "NUMBERS".split()
)


def is_level(text: str) -> bool:
    """Whether the text is one or some of the figures 1 to 7 over the nomenclature, in order."""
    return bool(text) and text in _LEVELS


@cache
def head_word(text: str, fuzzy: bool) -> str:
    """A printed word as the head words write it; fuzzy: a letter or two may be misread."""
    bare = text.upper().strip(".,:;()*/").replace("\u2019", "'").replace(".", "") or text.strip(".,:;()*")
    if bare in HEAD_WORDS or not fuzzy or len(bare) < _LEAST_LETTERS_FUZZY or is_level(bare):
        return bare
    allowed = 1 if len(bare) < 8 else 2
    for word in sorted(_VOCABULARY):
        near = abs(len(word) - len(bare)) <= allowed and len(word) >= _LEAST_LETTERS_FUZZY
        if near and _edits(bare, word) <= allowed:
            return word
    return bare


def _edits(one: str, two: str) -> int:
    """Letters to change, add or leave out to make one of the other (Levenshtein)."""
    line = list(range(len(two) + 1))
    for row, letter in enumerate(one, start=1):
        before, line[0] = line[0], row
        for place, other in enumerate(two, start=1):
            before, line[place] = (
                line[place],
                min(line[place] + 1, line[place - 1] + 1, before + (letter != other)),
            )
    return line[-1]


def is_of_another_list(text: str) -> bool:
    """Whether a head names what no parts list has: "UNIT PRICE", "LIFE HOURS", "INTERVAL"."""
    return bool(_OF_ANOTHER_LIST.search(text))


def is_number_over_name(text: str) -> bool:
    """Whether heads printed one over the other name both: "PART NUMBER/ DESCRIPTION"."""
    return bool(_NUMBER_OVER_NAME.fullmatch(text))


def is_item_over_number(text: str) -> bool:
    """The same of "INDEX NO." over "PART NO."."""
    return bool(_ITEM_OVER_NUMBER.fullmatch(text))


@cache
def column_named(text: str) -> Column:
    """The column that a whole head names; OTHER when it names none that we know."""
    bare = re.sub(r"\s+", " ", text).strip(" -")
    named = next((column for column, form in _FORMS if form.fullmatch(bare)), Column.OTHER)
    if named is Column.OTHER and "/" in bare and not is_number_over_name(bare):
        # The same in another language: "NOMENCLATURE / DESIGNATION".
        both = {column_named(one) for one in bare.split("/") if one.strip()} - {Column.OTHER}
        if len(both) == 1:
            return both.pop()
    return named
