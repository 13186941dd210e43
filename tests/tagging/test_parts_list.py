"""The parts lists of the sample library, row by row; and no rows from anything that is no parts list.

The truth comes from the scripts that draw the sample library, not from what was read.
"""

import re
from functools import cache
from pathlib import Path

import pytest

from indexer.errors import HangarleafError
from indexer.reading.document import read_document
from indexer.reading.page import Page
from indexer.settings import Settings
from indexer.tagging.parts_list import read_parts_list
from indexer.tagging.parts_rows import PartNoteKind, PartsList
from indexer.trade.publication_types import PublicationType
from sample_docs.draw.single import parts_list as single
from sample_docs.draw.twin_books import parts_catalog, parts_figures

ROOT = Path(__file__).parent.parent.parent
PDF = ROOT / "sample_docs" / "pdf"
CATALOGS = {"qz62-parts-catalog.pdf", "h-14-parts-list.pdf"}
OTHERS = [path for path in sorted(PDF.glob("*.pdf")) if path.name not in CATALOGS]
REAL_FOLDERS = (ROOT / "tests/data/real", ROOT / "tests/data/robustness")
REAL = [path for folder in REAL_FOLDERS for path in sorted(folder.glob("*.pdf"))]
KINDS = (PublicationType.PARTS_CATALOG, PublicationType.COMPONENT_MAINTENANCE_MANUAL, None)
# Words of a nomenclature cell that do not name the part: kept as notes, supplier, serials.
BESIDE_THE_NAME = re.compile(
    r",? \(?(?:NP, )?(?:PRE SB|POST SB|SUPSDS|SUPSD BY|SEE|ORDER|replaces|order) .*"
    r"| V[0-9A-Z]{4,5}\b|,? \(NP.*",
    re.DOTALL,
)


@pytest.fixture(scope="module")
def twin() -> PartsList:
    return _read(PDF / "qz62-parts-catalog.pdf")


@pytest.fixture(scope="module")
def old_single() -> PartsList:
    return _read(PDF / "h-14-parts-list.pdf")


def _read(path: Path, kind: PublicationType | None = PublicationType.PARTS_CATALOG) -> PartsList:
    return read_parts_list(kind, _pages(path))


@cache
def _pages(path: Path) -> tuple[Page, ...]:
    """Empty for a file that is refused: those are for tests/data/test_robustness.py."""
    try:
        return read_document(path, Settings()).pages
    except HangarleafError:
        return ()


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.split("|")[1:]]


def _drawn(lines: str) -> list[tuple]:
    """(item, illustrated, number, dots, name, usage or model, units, attaching) of every drawn row."""
    made, attaching = [], False
    for line in lines.strip().splitlines():
        cells = _cells(line)
        if len(cells) != 5 or cells[0] == "No.":
            continue
        item, number, name, usage, units = cells
        if not number:
            attaching = name == "ATTACHING PARTS"
            continue
        dots = len(re.match(r"(?:\. )*", name)[0]) // 2
        made.append(
            (
                item.lstrip("-"),
                not item.startswith("-"),
                number,
                dots,
                BESIDE_THE_NAME.sub("", name[2 * dots :]),
                usage,
                units,
                attaching,
            )
        )
    return made


def _as_read(parts: PartsList, figure: int, *, models: bool) -> list[tuple]:
    return [
        (
            row.item,
            row.illustrated,
            row.part_number,
            row.indenture,
            row.nomenclature,
            row.effectivity if models else ",".join(code.code for code in row.usage),
            row.units,
            row.attaching,
        )
        for row in parts.rows
        if row.figure == figure
    ]


@pytest.mark.parametrize("place", range(len(parts_figures.FIGURES)))
def test_every_row_of_a_figure_of_the_twin(place, twin):
    drawn = parts_figures.FIGURES[place]
    assert _as_read(twin, place, models=False) == _drawn(drawn.rows)
    figure = twin.figures[place]
    assert (figure.number, f"Figure {figure.figure}", figure.title) == (
        drawn.number,
        drawn.figure,
        drawn.title,
    )
    assert len(figure.art_pages) == len(figure.list_pages) == 1
    assert figure.list_pages[0] == figure.art_pages[0] + 1


def test_the_number_index_of_the_twin(twin):
    lines = parts_catalog.numerical_index(parts_figures.FIGURES).splitlines()
    drawn = [tuple(_cells(line)) for line in lines if line.startswith("| ") and "Part number" not in line]
    read = [(line.part_number, " ".join(line.figure_item.split()), line.quantity) for line in twin.index]
    assert read == drawn


@pytest.mark.parametrize(
    ("place", "drawn", "figure", "group", "title"),
    [
        (0, single.TAIL_WHEEL, "5-1", "Group 5", "Tail wheel"),
        (1, single.BRAKE, "5-2", "Group 5", "Wheel brake"),
        (2, single.SELECTOR, "13-1", "Group 13", "Fuel selector valve, detent"),
    ],
)
def test_every_row_of_a_plate_of_the_single(place, drawn, figure, group, title, old_single):
    assert _as_read(old_single, place, models=True) == _drawn(drawn)
    read = old_single.figures[place]
    assert (read.figure, read.number, read.title) == (figure, group, title)
    assert read.art_pages == read.list_pages == (place + 2,)


def test_no_row_of_the_samples_is_flagged(twin, old_single):
    assert [row.quote for parts in (twin, old_single) for row in parts.rows if row.flags] == []


def test_the_notes_of_a_part_that_was_changed(twin):
    bolt = next(row for row in twin.rows if row.part_number == "QZ32-4421-3")
    assert {(note.kind, note.number) for note in bolt.notes} == {
        (PartNoteKind.PRE_BULLETIN, "QZ62-32-0114"),
        (PartNoteKind.SUPERSEDED_BY, "QZ32-4421-5"),
    }


# Circulars, code tables, an index and odd files, real and public (tests/data/SOURCES.md), beside our samples.
@pytest.mark.parametrize("path", [*OTHERS, *REAL], ids=lambda path: path.name)
def test_no_other_document_has_parts_whatever_it_is_taken_for(path):
    for kind in KINDS:
        assert _read(path, kind) == PartsList(), kind
