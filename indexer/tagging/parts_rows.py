"""What a parts list says: figures, rows, the number index. Values only.

The columns are those of an illustrated parts catalog (iSpec 2200): figure-item, part number, airline stock
number, nomenclature with indenture, effectivity or usage code, units per assembly.
"""

from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.evidence import Box, Origin, PageBox


class PartNoteKind(StrEnum):
    """What the words beside a part say of it. Direction matters: from the row's part to `number`."""

    SUPERSEDED_BY = "superseded by"
    SUPERSEDES = "supersedes"
    REPLACED_BY = "replaced by"
    REPLACES = "replaces"
    OPTIONAL = "optional"  # OPT, OPT TO
    ALTERNATE = "alternate"  # ALT, ALT FOR
    SEE_FIGURE = "see figure"  # for its details, where the words say so
    NEXT_HIGHER_ASSEMBLY = "next higher assembly"  # NHA
    NOT_PROCURABLE = "not procurable"  # NP, NPS
    ORDER = "order"  # ORDER QZ28-2210-1
    PRE_BULLETIN = "before the bulletin"  # PRE SB
    POST_BULLETIN = "after the bulletin"  # POST SB


@dataclass(frozen=True, slots=True)
class PartNote:
    """kind, the words as printed, and the part number, figure or bulletin that they name ("" = none)."""

    kind: PartNoteKind
    words: str
    number: str = ""


@dataclass(frozen=True, slots=True)
class UsageCode:
    """A usage or effectivity code of a row, and what the catalog says that it means ("" = not found).

    of_assembly  the words name assemblies with the same code ("as QZ24-3101-1, ALTERNATOR"), and no aircraft
    """

    code: str
    words: str = ""
    pdf_page: int | None = None  # 1-based, where the words stand
    of_assembly: bool = False


class RowFlag(StrEnum):
    """What of a row could not be read, for a person. A flagged row is kept; nothing in it is guessed."""

    PART_NUMBER = "the part number could not be read"
    DOUBTFUL_NUMBER = "the part number was read by OCR and is doubtful"
    ITEM = "the item could not be read"
    UNITS = "the units could not be read"
    INDENTURE = "the dots could not be read, so the assembly is not certain"
    COLUMNS = "its columns could not be told apart"
    ATTACHING = "the end of the attaching parts was not found"
    NAME = "its name could not be read"
    SEVERAL_NUMBERS = "more than one number stands in the place of its part number"
    FOOTNOTE = "a footnote's mark stands in it, and what the footnote says was not read with it"
    DITTO = "a mark stands in it for what the row above says"
    NOTE = "which way its words about another number point is not certain"
    OTHER_COLUMN = "a column that is not kept here says something of it"


@dataclass(frozen=True, slots=True)
class PartsFigure:
    """One figure and its list.

    ordinal     0-based in the publication
    figure      number as printed ("1", "5-2", "28-22-00-01")
    number      chapter-section-subject or section that the pages print; "" = none
    art_pages   1-based pages that show the figure; list_pages: that hold its rows
    """

    ordinal: int
    figure: str
    number: str
    title: str
    art_pages: tuple[int, ...]
    list_pages: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PartsRow:
    """One row of a parts list, cells as printed; "" = the cell is empty or was not read (then it is flagged).

    ordinal           0-based in the publication, in printed order
    figure            ordinal of its PartsFigure
    item              without the dash of a part that is not illustrated: "15A"
    illustrated       False where the print says so ("-" before the item)
    nomenclature      without the dots; lines of a wrapped cell joined by a blank
    indenture         number of dots: 0 = an assembly of the figure; None = could not be read
    units             per next higher assembly, as printed: "2", "A/R", "REF"
    effectivity       words on serials or models in the row itself, as printed ("S/N 0012 THRU 0040")
    supplier          CAGE code after V, "0Q7X4"; "" = the maker itself
    attaching         it is among the attaching parts of the row `attaches`
    attaches          ordinal of the row that it attaches; None = it attaches none, or which is not certain
    attaches_also     ordinals of other variants of that row (items 1 and 1A) which it attaches as well
    above             ordinal of the next higher assembly in this list, by dots; None = none, or not certain
    above_also        ordinals of other variants of that assembly which it belongs to as well
    boxes             of the whole row, one a printed line; number_box of the part number alone
    callouts          where its item number stands on the figure's pages, as far as the text layer shows it
    confidence        least of its item, number and units, when read by OCR; None = digital
    """

    ordinal: int
    figure: int
    item: str
    part_number: str
    nomenclature: str
    indenture: int | None
    units: str
    pdf_page: int  # 1-based; the page it begins on
    boxes: tuple[PageBox, ...]
    quote: str  # the row as printed, cells from left to right
    illustrated: bool = True
    stock_number: str = ""
    usage: tuple[UsageCode, ...] = ()
    effectivity: str = ""
    supplier: str = ""
    attaching: bool = False
    attaches: int | None = None
    attaches_also: tuple[int, ...] = ()
    above: int | None = None
    above_also: tuple[int, ...] = ()
    notes: tuple[PartNote, ...] = ()
    number_box: Box | None = None
    callouts: tuple[PageBox, ...] = ()
    flags: tuple[RowFlag, ...] = ()
    origin: Origin = Origin.DIGITAL
    confidence: float | None = None


@dataclass(frozen=True, slots=True)
class IndexedNumber:
    """One line of a numerical index: part number -> figure and item as printed, and the total quantity."""

    part_number: str
    figure_item: str
    quantity: str
    pdf_page: int  # 1-based
    box: Box
    stock_number: str = ""
    origin: Origin = Origin.DIGITAL


@dataclass(frozen=True, slots=True)
class PartsList:
    """All that one publication lists. Empty for a publication that is no parts list."""

    figures: tuple[PartsFigure, ...] = ()
    rows: tuple[PartsRow, ...] = ()
    index: tuple[IndexedNumber, ...] = ()
