"""Clean characters out of a PDF's text layer: ligatures, soft hyphens, control and private characters."""

import re
import unicodedata

LINE_END_HYPHEN = "\x02"  # what pdfium puts for the hyphen of a word that runs on in the next line

UNKNOWN = "\ufffd"  # a glyph that the file gives no meaning to

_LIGATURES = {
    "\ufb00": "ff",
    "\ufb01": "fi",
    "\ufb02": "fl",
    "\ufb03": "ffi",
    "\ufb04": "ffl",
    "\ufb05": "st",
    "\ufb06": "st",
    "\u0132": "IJ",
    "\u0133": "ij",
}
# Symbol fonts without a Unicode map land in the private area at 0xF000 plus their own code; these are the
# bullets and arrows that word processors draw with them (Symbol and Wingdings encodings).
_PRIVATE = {
    "\uf0b7": "•",
    "\uf0a7": "•",
    "\uf0d8": "•",
    "\uf076": "•",
    "\uf0fc": "•",
    "\uf06e": "•",
    "\uf0a8": "•",
    "\uf0b0": "°",
    "\uf0b1": "±",
    "\uf0b4": "×",
    "\uf0a3": "≤",
    "\uf0b3": "≥",
    "\uf0ae": "→",
    "\uf0e0": "→",
    "\uf02d": "-",
    "\uf02b": "+",
}
_HYPHENS = {"\u2010": "-", "\u2011": "-", "\xad": "", LINE_END_HYPHEN: "-"}
_SPACES = {"\xa0": " ", "\u2007": " ", "\u202f": " ", "\u3000": " "}
_NOTHING = ["\x00", "\u200b", "\u200c", "\u200d", "\u2060", "\ufeff"]
_CONTROL = [*map(chr, range(1, 9)), *map(chr, range(14, 32)), "\x7f"]

_DELETED = dict.fromkeys(_NOTHING, "")
_UNMAPPED = dict.fromkeys(_CONTROL, UNKNOWN)
_TABLE = str.maketrans(_DELETED | _UNMAPPED | _LIGATURES | _PRIVATE | _HYPHENS | _SPACES)

# Old fonts draw an accent as a mark of its own after the letter ("Ageˆncia"); a combining mark joins the two.
_ACCENTS = {"\u02c6": "\u0302", "\u02dc": "\u0303", "\xb4": "\u0301", "\xb8": "\u0327", "\xa8": "\u0308"}
_ACCENTED = re.compile(f"(?<=[A-Za-z])[{''.join(_ACCENTS)}](?=[A-Za-z])")


def cleaned(text: str) -> str:
    """The text as a person would type it. Plain text comes back unchanged.

    Private-use characters with a known meaning are replaced, the rest stay: garbage is told by them.
    """
    if text.isascii() and text.isprintable():
        return text
    text = text.translate(_TABLE)
    if not _ACCENTED.search(text):
        return text
    return unicodedata.normalize("NFC", _ACCENTED.sub(lambda mark: _ACCENTS[mark.group()], text))


def is_private(character: str) -> bool:
    """Whether Unicode leaves this character without a meaning of its own."""
    return "\ue000" <= character <= "\uf8ff" or character == "\ufffd" or character >= "\U000f0000"
