"""A directive given as plain text: its lines as a flow.

The text may be wrapped, hold page ends and running lines of the register, or be one long line.
"""

import re

from indexer.reading.page import Line, Word
from indexer.tagging.flow import Flow, PrintedLine, plain
from indexer.trade.evidence import Box

_PAGE_END = re.compile(r"[\f\v]|\r\n?")
_RUNNING = re.compile(
    r"\s*(?:\d{1,6}\s+)?Federal\s+Register\s*/\s*Vol\.\s*\d+.*|\s*\[\[Page \d+\]\]\s*|\s*VerDate\b.*"
    r"|\s*BILLING CODE\b.*"
)
# Where a new part begins that would stand on a line of its own, in a text without line ends.
_HEADINGS = (
    "Effective Date|Comments Due Date|Affected ADs?|Affected Airworthiness Directives|Applicability"
    "|Subject|Reason"
    "|Unsafe Condition|Compliance|Required Actions?|Requirements|Definitions?|Exceptions?|Credit for"
    "|No Reporting"
    "|Parts Installation|Special Flight Permit|Alternative Methods|Other FAA AD Provisions"
    "|Additional AD Provisions"
    "|Additional FAA AD Provisions|Related Information|Additional Information|Material Incorporated"
)
_PARAGRAPH = re.compile(rf"(?<=\S) (?=\([a-z]{{1,2}}\) (?:{_HEADINGS})\b)")
_LETTER = re.compile(r"(?<=[.;:)]) (?=\([a-z]\) [A-Z])")
_NUMBER_LINE = re.compile(
    r"(?<=\S) (?=(?:(?:19|20)?\d{2}-\d{2}-\d{2}(?:[ -]?R\d)? [A-Z][^:]{1,120}: (?:\([^)]{1,80}\) )?"
    r"(?:Amendment|Amdt|Applie|Applica|Docket)))"
)
_WHOLE_HEADING = re.compile(
    r"(\([a-z]{1,2}\) (?:Effective Date|Comments Due Date|Affected ADs?|Applicability|Subject|Reason"
    r"|Unsafe Condition|Compliance"
    r"|Required Actions?|Requirements|Definitions|Credit for Previous Actions|No Reporting Requirements?"
    r"|Special Flight Permits?|Parts Installation (?:Prohibition|Limitation)s?"
    r"|Alternative Methods of Compliance \(AMOCs\)"
    r"|Other FAA AD Provisions|Additional (?:FAA )?AD Provisions|Related Information|Additional Information"
    r"|Material Incorporated by Reference))(?:\(s\))?[.:]? (?=[A-Z(])"
)
_LONG = 400  # characters of a line on which parts that begin a line may stand within


def text_flow(text: str) -> Flow:
    """The text's lines without those of page ends, as a flow of one page."""
    lines: list[PrintedLine] = []
    for row in _PAGE_END.sub("\n", text).split("\n"):
        if _RUNNING.fullmatch(plain(row)):
            continue
        lines += [_line(part) for part in _parts(row) if part.strip()]
    return Flow(lines)


def _parts(row: str) -> list[str]:
    """A long line cut before what would begin a line of its own."""
    if len(row) < _LONG:
        return [row]
    words = plain(row)
    cuts = {found.end() for found in _NUMBER_LINE.finditer(words)}
    lettered = [found.end() for found in _PARAGRAPH.finditer(words)]
    cuts.update(lettered or (found.end() for found in _LETTER.finditer(words)))
    if lettered:
        cuts.update(found.end() for found in _WHOLE_HEADING.finditer(words))
        cuts.update(_later_letters(words, lettered))
    places = [0, *sorted(cuts), len(row)]
    return [row[start:end] for start, end in zip(places, places[1:], strict=False)]


def _later_letters(words: str, lettered: list[int]) -> list[int]:
    """Where a paragraph opens whose heading is none of the usual: "(g) Inspection of the Fork Within"."""
    place = lettered[0]
    return [place + found.end() for found in re.finditer(r"(?<=[.;:]) (?=\([a-z]\) [A-Z])", words[place:])]


def _line(text: str) -> PrintedLine:
    words = tuple(Word(word, Box(0, 0, 1, 1), 10.0, False) for word in text.split())
    return PrintedLine(1, Line(words, Box(0, 0, 1, 1)))
