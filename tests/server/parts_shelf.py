"""Hand-made parts lists with every case that an answer about parts must tell apart: our own fiction.

cat     QZ62 catalogue, revision 4, for QZ-001 through QZ-200: two brake assemblies under one usage code each,
        with attaching parts, linings before and after a bulletin, a row whose number could not be read
old     the same catalogue, revision 3: superseded by it
second  a second maker's catalogue with a figure 14 too, and rows that do not agree with the first
scan    a parts list read by OCR
"""

import datetime
from pathlib import Path

from making import Made, evidence, take

from indexer.library.catalogue import Catalogue
from indexer.tagging.parts_rows import (
    IndexedNumber,
    PartNote,
    PartNoteKind,
    PartsFigure,
    PartsList,
    PartsRow,
    RowFlag,
    UsageCode,
)
from indexer.tagging.tags import ApplicabilityScope, StatedApplicability
from indexer.trade.evidence import Box, Origin, PageBox, Tag
from indexer.trade.publication_types import PublicationType

CODE_A = UsageCode("A", "QZ62 S/N QZ-001 THRU QZ-060", 2)
CODE_B = UsageCode("B", "QZ62 S/N QZ-061 THRU QZ-200", 2)
WIDTH = 540.0


def row(ordinal, item, number, name, dots=0, figure=0, units="1", page=3, **more) -> PartsRow:
    """A row drawn at a place that follows from its ordinal."""
    top = 100.0 + 14 * (ordinal % 40)
    box = Box(72, top, WIDTH, top + 12)
    quote = f"{item} {number} {'.' * (dots or 0)}{name} {units}"
    held = {"number_box": Box(110, top, 180, top + 12), **more}
    return PartsRow(
        ordinal, figure, item, number, name, dots, units, page, (PageBox(page, box),), quote, **held
    )


def note(kind: PartNoteKind, words: str, number: str = "") -> PartNote:
    return PartNote(kind, words, number)


def covers(words: str) -> tuple[StatedApplicability, ...]:
    """What a whole publication is for, as printed on its title page."""
    return (StatedApplicability(ApplicabilityScope.PUBLICATION, Tag(words, evidence(words))),)


BRAKES = PartsList(
    figures=(
        PartsFigure(0, "14", "32-42-00", "BRAKE INSTALLATION", (2,), (3,)),
        PartsFigure(1, "15", "32-42-00", "PISTON ASSEMBLY", (4,), (5,)),
    ),
    rows=(
        row(0, "1", "QZ28-2210-1", "BRAKE ASSEMBLY", units="2", usage=(CODE_A,),
            notes=(note(PartNoteKind.SUPERSEDED_BY, "SUPSD BY QZ28-2210-3", "QZ28-2210-3"),),
            callouts=(PageBox(2, Box(200, 300, 212, 310)),)),
        row(1, "1A", "QZ28-2210-2", "BRAKE ASSEMBLY", units="2", usage=(CODE_B,), illustrated=False),
        row(2, "2", "AN4-12A", "BOLT", units="4", attaching=True, attaches=1),
        row(3, "3", "QZ28-2214-1", "LINING", 1, above=1, units="4",
            notes=(note(PartNoteKind.PRE_BULLETIN, "PRE SB QZ62-32-0114", "QZ62-32-0114"),)),
        row(4, "4", "QZ28-2214-2", "LINING", 1, above=1, units="4",
            notes=(note(PartNoteKind.POST_BULLETIN, "POST SB QZ62-32-0114", "QZ62-32-0114"),)),
        row(5, "5", "AN4-12", "BOLT, HEX HEAD", 1, above=1, units="6"),
        row(6, "6", "", "WASHER", 1, above=1, flags=(RowFlag.PART_NUMBER,)),
        row(7, "7", "QZ28-2230", "PISTON ASSEMBLY", 1, above=1,
            notes=(note(PartNoteKind.SEE_FIGURE, "SEE FIG 15 FOR BKDN", "15"),)),
        row(8, "8", "QZ28-2260", "CYLINDER ASSEMBLY", 0, usage=(UsageCode("Z"),)),
        row(9, "1", "QZ28-2230", "PISTON ASSEMBLY", 0, figure=1, page=5, units="REF",
            notes=(note(PartNoteKind.NEXT_HIGHER_ASSEMBLY, "SEE FIG 14 FOR NHA", "14"),)),
        row(10, "2", "AN4-12A", "BOLT", 1, figure=1, page=5, above=9),
    ),
    index=(
        IndexedNumber("AN4-12A", "14-2", "5", 6, Box(72, 100, 300, 112)),
        IndexedNumber("QZ28-9999", "16-3", "1", 6, Box(72, 114, 300, 126)),
    ),
)  # fmt: skip
SECOND = PartsList(
    figures=(PartsFigure(0, "14", "5-2", "WHEEL", (2,), (2,)),),
    rows=(
        row(0, "1", "QZ28-2210-1", "BRAKE ASSY", page=2,
            notes=(note(PartNoteKind.SUPERSEDED_BY, "SUPSD BY WT-77", "WT-77"),)),
        row(1, "2", "WT-77", "BRAKE", page=2,
            notes=(note(PartNoteKind.REPLACED_BY, "REPLD BY WT-78", "WT-78"),)),
        row(2, "3", "WT-78", "BRAKE", page=2,
            notes=(note(PartNoteKind.REPLACED_BY, "REPLD BY QZ28-2210-1", "QZ28-2210-1"),)),
        row(3, "7", "an4 12a", "BOLT", page=2),
        row(4, "8", "QZ28-22I0-2", "BRAKE", page=2),
    ),
)  # fmt: skip
SCAN = PartsList(
    figures=(PartsFigure(0, "3", "", "BRAKE", (1,), (1,)),),
    rows=(
        row(0, "1", "AN4-12A", "BOLT", page=1, origin=Origin.OCR, confidence=0.97),
        row(1, "2", "H14-33", "BRAKE ASSEMBLY", page=1, origin=Origin.OCR, confidence=0.61,
            usage=(UsageCode("A", "QZ62", 1),), flags=(RowFlag.DOUBTFUL_NUMBER,)),
    ),
)  # fmt: skip
CATALOGUE = PublicationType.PARTS_CATALOG


def papers() -> dict[str, Made]:
    """Each publication of the shelf by name."""
    of = "QZ62 airplanes, serial numbers QZ-001 through QZ-200"
    named = {"type": CATALOGUE, "maker": "Aldermoor", "models": ("QZ62",)}
    return {
        "cat": Made("cat.pdf", number="QZ62-IPC", revision="4", date=datetime.date(2031, 5, 1),
                    title="PARTS CATALOG QZ62", pages=6, printed={3: "32-42-00 page 2"}, parts=BRAKES,
                    applicability=covers(of), **named),
        "old": Made("old.pdf", number="QZ62-IPC", revision="3", date=datetime.date(2028, 2, 1),
                    title="PARTS CATALOG QZ62", pages=6, parts=BRAKES, applicability=covers(of), **named),
        "second": Made("second.pdf", CATALOGUE, "WT-IPC", "1", datetime.date(2030, 1, 1), "Wheatear",
                       "WHEEL AND BRAKE PARTS LIST", pages=2, parts=SECOND),
        "scan": Made("scan.pdf", CATALOGUE, "H14-IPC", "2", datetime.date(2001, 1, 1), "Pellworth",
                     "H-14 PARTS LIST", pages=1, parts=SCAN),
        "bulletin": Made("sb.pdf", PublicationType.SERVICE_BULLETIN, "QZ62-32-0114", "C",
                         datetime.date(2031, 4, 1), "Aldermoor", "BRAKE LINING", ("QZ62",)),
    }  # fmt: skip


def make(folder: Path, files: Path) -> dict[str, str]:
    """The library, and the ids of its publications by name."""
    with Catalogue.open(folder, create=True) as catalogue:
        return {name: take(catalogue, files, made).publications[0] for name, made in papers().items()}
