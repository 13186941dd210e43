"""The font of a packet's cover, sheets and strips: alike on every machine, embedded; what it lacks is said.

Bitstream Vera comes with reportlab, so a packet reads alike wherever it is made. It has the letters of
western Europe. A letter that it lacks is written without its accent, else as MISSING; the page itself shows
it as printed.
"""

import unicodedata

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

PLAIN, STRONG = "Vera", "VeraBd"
MISSING = "[?]"
MISSING_WORDS = (
    f"Letters that the font of this packet lacks are written without their accents or as {MISSING}: the page "
    "itself shows them as printed."
)


def use_fonts() -> None:
    """Make the fonts known to reportlab, once in each process."""
    if PLAIN not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(PLAIN, "Vera.ttf"))
        pdfmetrics.registerFont(TTFont(STRONG, "VeraBd.ttf"))
        pdfmetrics.registerFontFamily(PLAIN, normal=PLAIN, bold=STRONG, italic=PLAIN, boldItalic=STRONG)


def in_font(text: str) -> str:
    """The text in letters that the font has; control characters become blanks."""
    has = pdfmetrics.getFont(PLAIN).face.charToGlyph
    return "".join(_letter(each, has) for each in text)


def lacks(text: str) -> bool:
    """Whether a letter of the text is not in the font."""
    return in_font(text) != "".join(" " if _is_control(each) else each for each in text)


def _letter(letter: str, has: dict[int, int]) -> str:
    if _is_control(letter):
        return " "
    if ord(letter) in has:
        return letter
    base = unicodedata.normalize("NFKD", letter)[0]
    return base if ord(base) in has and base != letter else MISSING


def _is_control(letter: str) -> bool:
    return unicodedata.category(letter) in ("Cc", "Cf")
