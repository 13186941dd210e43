"""The model and serial that an AMOC letter is limited to: "For the airplane with serial number QZ-077 only".

The limit often names the serial alone; the model stands beside the same serial where the letter tells what
was asked for. Without both nothing is given: a serial alone may be that of another maker's airplane too.
"""

import re
from collections.abc import Iterator, Sequence

from indexer.reading.page import Page
from indexer.tagging.flow import body_flow, one_line
from indexer.trade.evidence import Tag
from indexer.trade.serial_lists import LABEL, SERIAL

_AIRPLANE = r"(?:airplane|aircraft|helicopter|glider)"
# It takes the word "only": a letter may speak of one airplane and approve for more.
_ONLY = re.compile(
    rf"\bfor\s+(?:the\s+)?{_AIRPLANE},?\s+(?:with\s+)?(?i:{LABEL})\s*:?\s*(?P<serial>{SERIAL})\s+only\b",
    re.IGNORECASE,
)
_WITH_MODEL = re.compile(
    rf"(?i:{_AIRPLANE},?\s+models?)\s+[A-Z0-9][\w-]*,?\s+(?i:{LABEL})\s*:?\s*(?P<serial>{SERIAL})"
)


def letter_applicability(pages: Sequence[Page]) -> Iterator[Tag[str]]:
    """ "airplane Model QZ62, serial number QZ-077", as printed; nothing where the letter is limited twice, or
    does not print the model beside that serial."""
    flow = body_flow(pages)
    limits = {found["serial"] for found in _ONLY.finditer(flow.plain)}
    beside = [found for found in _WITH_MODEL.finditer(flow.plain) if {found["serial"]} == limits]
    words = {one_line(found[0]) for found in beside}
    if len(words) == 1:
        yield Tag(words.pop(), flow.evidence(*beside[0].span(), "airplane that an AMOC letter is limited to"))
