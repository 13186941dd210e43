"""The words of a line that may be a row of a parts list: numbers, items, names, and what is none of them.

Common practice of parts catalogs, no source.
"""

import re
from collections.abc import Sequence

from indexer.trade.dashes import plain_dashes

_PLAIN = "()[],;:*."
_SHAPE = re.compile(r"[A-Z0-9]+(?:[-/.][A-Z0-9]+)*")
_STANDARD = re.compile(
    r"(?:AND?|MS|NASM?)[0-9]{1,6}[A-Z0-9]{0,10}(?:[-/][0-9A-Z]{1,8})*|MIL-[A-Z]{1,3}-[0-9]+.*"
)
_DIVIDED = re.compile(r"(?=[A-Z0-9/.-]*[0-9])(?=[A-Z0-9/.-]{3})[A-Z0-9]+(?:[-/.][A-Z0-9]+)*-")
_FEWEST_FIGURES = 4
_FEWEST_BARE = 6  # figures of a number without letters and hyphens: less may be a page, a year, a code
_NOT_NUMBERS = re.compile(
    r"[0-9]{2}-[0-9]{2}-[0-9]{2}(?:-[0-9]{1,3}[A-Z]?)*(?:-[0-9]{1,4}[A-Z]?)?"  # chapters, figures, items
    r"|[0-9]{1,2}[-/.][0-9]{1,2}[-/.](?:[0-9]{2}|[0-9]{4})"  # days
    r"|(?:19|20)[0-9]{2}-[0-9]{2}(?:-[0-9]{2})?"
    r"|[0-9]{1,2}/(?:19|20)[0-9]{2}|(?:JAN|FEB|MAR|APR|MAY|JUN|JUL|AUG|SEP|OCT|NOV|DEC)[A-Z]*[-/.0-9]+"
    r"|V[0-9A-Z]{5}"  # a supplier's code
    r"|[0-9]+(?:[./][0-9]+)+"  # measures
)
# What stands behind these words is another kind of number.
_OTHER_NUMBERS = re.compile(
    r"(?:[AM]?SBS?|SLS?|SIL|ADS?|TRS?|AMOC|STC|REV(?:ISION)?|PAGES?|S/N|SN|SERIALS?|MSN|BULLETINS?|DIRECTIVES?"
    r"|LETTERS?|CATALOG|MANUAL|TASK|SUBTASK|FIG(?:URE)?|THRU|TASKS|NSN|STC|TEL|PHONE|FAX)[.:]?",
    re.IGNORECASE,
)
_ITEM = re.compile(
    r"[-–—]?\s*[0-9]{1,3}[A-HJ-NP-Z]{0,2}|[-–—]|[0-9]{1,3}[A-Z]?-[0-9]{1,3}[A-Z]?-?|[0-9]{1,3}-"
)
_UNITS = re.compile(r"[0-9]{1,3}|A/?R|REF|RF|NP", re.IGNORECASE)
_NAME = re.compile(r"[A-Za-z]{3,}")
_SENTENCE_WORDS = frozenset(
    "the of is are was were be may must can shall will in to with for from that this these when where which "
    "on by as at or not it its do if only than then see use used".split()
)
_CLOSES = re.compile(
    r".*\b(?:lists?|index|tables?|records?)\s+of\b.*|.*\bindex|.*\bcontents"
    r"|.*\b(?:special\s+tools|tools|test\s+equipment|consumables?|materials|equipment\s+needed)\b.*"
    r"|.*\b(?:bulletins|effective\s+pages|revisions|changes|directives)\b.*"
    r"|.*\b(?:vendors?|suppliers?|manufacturers?)\b.*"
    r"|.*\bcodes?:?|legend:?|notes?:?|abbreviations|definitions|cross[- ]reference\b.*"
    r"|.*\b(?:torque\s+values|wear\s+limits|trouble\s?shooting|fits\s+and\s+clearances)\b.*",
    re.IGNORECASE,
)
_FRONT = re.compile(
    r"(?:general\s+)?introduction\b.*|foreword\b.*|preface\b.*|how\s+to\s+(?:use|find|order|read)\b.*"
    r"|(?:use|using|purpose|scope|arrangement|explanation|description)\s+(?:of\s+)?(?:this|the)\b.*"
    r"|(?:sample|specimen|example)s?\b.*|.*\b(?:sample|specimen)\s+(?:page|list|row|figure)\b.*"
    r"|.*\b(?:contents|index|bulletins|effective\s+pages|revisions|abbreviations)|explanation\b.*"
    r"|.*\b(?:vendors?|suppliers?|manufacturers?)\b.*(?:codes?|lists?|names?|addresses)\b.*|table\s+of\s+contents\b.*"
    r"|.*\b(?:lists?|index|records?)\s+of\b.*",
    re.IGNORECASE,
)
_FRONT_PAGE = re.compile(r"(?!IPL|FIG|PAGE|PL)(?:[A-Z]{2,8}|T|I)[-. ]?[0-9]{1,3}|[ivxlc]{1,6}")


def is_number(text: str, before: Sequence[str] = ()) -> bool:
    """Whether a word has the shape of a part number; before: the words before it on its line.

    No dates, chapters, measures, bulletins or serials, nor what announces itself as one of them.
    """
    if before and _OTHER_NUMBERS.fullmatch(before[-1]):
        return False
    plain = plain_dashes(text).strip(_PLAIN)
    if not _SHAPE.fullmatch(plain) or _NOT_NUMBERS.fullmatch(plain):
        return False
    if _STANDARD.fullmatch(plain):
        return True
    figures = sum(letter.isdigit() for letter in plain)
    if plain.isdigit():
        return figures >= _FEWEST_BARE
    return figures >= _FEWEST_FIGURES


def is_short_number(text: str) -> bool:
    """Whether a word may be a part number where it stands among others: a figure in it, three characters."""
    plain = plain_dashes(text)
    return bool(_SHAPE.fullmatch(plain)) and len(plain) > 2 and bool(re.search("[0-9]", plain))


def is_divided_number(text: str) -> bool:
    """Whether a word may be the first half of a number that is divided after a hyphen: "KT28-"."""
    return bool(_DIVIDED.fullmatch(plain_dashes(text)))


def is_item(text: str) -> bool:
    """An item, a figure and item, or the dash of a part that is not illustrated."""
    return bool(_ITEM.fullmatch(text.strip()))


def is_units(text: str) -> bool:
    return bool(_UNITS.fullmatch(text.strip(" .")))


def is_name(texts: Sequence[str]) -> bool:
    """Whether words may name a part: one of letters, and the first begins with a capital, figure or dot."""
    words = [text for text in texts if text.strip(".·•")]
    first = next((text.lstrip(".·•(") for text in words), "")
    return any(_NAME.search(text) for text in words) and not first[:1].islower()


def is_sentence(texts: Sequence[str]) -> bool:
    """Whether two small words of sentences stand on the line. Names in lists are printed without them."""
    return sum(text.strip(_PLAIN) in _SENTENCE_WORDS for text in texts) > 1


def closes_lists(text: str) -> bool:
    """Whether a title begins a list of other things than parts: tools, suppliers, bulletins, an index."""
    return bool(_CLOSES.fullmatch(" ".join(text.split())))


def opens_front_page(text: str) -> bool:
    """Whether a title names a page that explains or only leads to others."""
    return bool(_FRONT.fullmatch(" ".join(text.split())))


def page_of_front(printed_page: str) -> bool:
    """Whether a page's printed number has letters before it ("INT-2", "LEP-1") or is a small Roman one."""
    return bool(_FRONT_PAGE.fullmatch(printed_page.strip()))
