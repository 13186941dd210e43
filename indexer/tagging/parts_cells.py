"""The cells of one row of a parts list as printed: item, nomenclature, units per assembly."""

from dataclasses import dataclass

from indexer.tagging.parts_rows import PartNote


@dataclass(frozen=True, slots=True)
class NomenclatureFacts:
    """What a nomenclature cell says.

    words        what names the part, lines joined by a blank; without dots, supplier code, notes and serials
    indenture    number of dots; None = could not be read (no dots in text from OCR, which often eats them)
    supplier     CAGE code after V, "0Q7X4"; "" = none printed
    effectivity  words on serials or aircraft, as printed: "S/N 0012 THRU 0040"
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


def read_nomenclature(
    text: str, *, indenture: int | None = None, read_by_ocr: bool = False
) -> NomenclatureFacts:
    """What a nomenclature cell says; text with its dots, lines of a wrapped cell joined by "\\n" or a blank.

    indenture    what the place of the words shows, where the head prints "1 2 3 4 5 6 7" and the words begin
                 under one of the figures (under 1: 0). Dots printed in the cell go before it.
    read_by_ocr  words without dots then have no indenture: their dots may have been lost
    """
    return NomenclatureFacts(text.strip(" ."), indenture)


def read_item(text: str) -> ItemFacts:
    """What an item cell (or a figure-item cell) says."""
    return ItemFacts(text.strip(" -"), not text.strip().startswith("-"))


def read_units(text: str) -> str | None:
    """Units per assembly as printed: "2", "A/R", "REF", "2 PER"; "" = empty; None = unreadable."""
    return text.strip()


def read_supplier(text: str) -> str:
    """The CAGE code of a supplier column ("V0Q7X4", "0Q7X4"), without the V; "" = none."""
    return text.strip()
