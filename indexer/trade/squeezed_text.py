"""Text with its spacing made simple, and the way back to the places in the text as printed."""

import re
from dataclasses import dataclass

from indexer.trade.dashes import plain_dashes

_CONTROLS = str.maketrans("\r\f\v", "   ")
_SPACING = re.compile(
    r"(?P<hyphen>(?<=[a-z])- *\n *(?=[a-z]))"
    r"|(?P<blank_line> *\n *\n[ \n]*)|(?P<line_end> *\n *)|(?P<blanks> {2,})|(?P<leader>([._*=-])\6{5,})"
)


@dataclass(frozen=True, slots=True)
class SqueezedText:
    """text: plain dashes, one blank for a run of them, line ends bare, blank lines as one, words cut by a
    line's end joined, leaders cut to five marks. offsets[i] is the place of text[i] in the original."""

    text: str
    offsets: tuple[int, ...]

    def original_span(self, start: int, end: int) -> tuple[int, int]:
        """The span in the original text of text[start:end]; the span must not be empty."""
        return self.offsets[start], self.offsets[end - 1] + 1


def squeeze(text: str) -> SqueezedText:
    """The text squeezed; every character is one of the original's, or a blank or line end in its place."""
    plain = plain_dashes(text).translate(_CONTROLS)
    pieces: list[str] = []
    offsets: list[int] = []
    place = 0

    def keep(piece: str, start: int) -> None:
        pieces.append(piece)
        offsets.extend(range(start, start + len(piece)))

    for match in _SPACING.finditer(plain):
        keep(plain[place : match.start()], place)
        keep(_instead_of(match), match.start())
        place = match.end()
    keep(plain[place:], place)
    return SqueezedText("".join(pieces), tuple(offsets))


def _instead_of(match: re.Match) -> str:
    if match["hyphen"]:
        return ""
    if match["blank_line"]:
        return "\n\n"
    if match["line_end"]:
        return "\n"
    return " " if match["blanks"] else match[0][:5]
