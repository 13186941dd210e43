"""Parts lists in the catalogue: what is kept is what was read, every key finds it, and it goes whole."""

import itertools
from dataclasses import replace

import pytest
from making import Made, take

from indexer.library import parts
from indexer.library.analysis import printed_words
from indexer.library.catalogue import Catalogue
from indexer.library.parts_held import IndexHeld, indexes_held
from indexer.library.parts_records import figure_id, row_id
from indexer.library.problems import FigureUnknown, PartUnknown
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
from indexer.trade.evidence import Box, Origin, PageBox
from indexer.trade.part_numbers import Match, compare, loose_key
from indexer.trade.publication_types import PublicationType

NUMBERS = (
    "AN4-12A",
    "AN4-12",
    "an4 12a",
    "AN412A",
    "AN41-2A",
    "QZ28-22I0-2",
    "QZ28-2210-2",
    "QZ28-2210-O2",
    "",
)
NAMES = ("BRAKE ASSEMBLY", "LINING, BRAKE", "BOLT", "BOLTS, HEX-HEAD", "PIN, COTTER", "CYLINDER ASSY")
BOX = Box(72, 100, 540, 112)


def row(ordinal: int, number: str, name: str, **more) -> PartsRow:
    place = {"figure": 0, "item": str(ordinal + 1), "indenture": 1, "units": "2", "pdf_page": 1, **more}
    return PartsRow(
        ordinal, part_number=number, nomenclature=name, boxes=(PageBox(1, BOX),), quote=name, **place
    )


FULL = row(
    0,
    "QZ28-2210-1",
    "BRAKE ASSEMBLY",
    illustrated=False,
    stock_number="QZ-77-1",
    usage=(UsageCode("A", "S/N 0012 THRU 0040", 1), UsageCode("B")),
    effectivity="S/N 0012 AND ON",
    supplier="0Q7X4",
    attaching=True,
    attaches=1,
    above=1,
    notes=(
        PartNote(PartNoteKind.SUPERSEDED_BY, "SUPSD BY QZ28-2210-3", "QZ28-2210-3"),
        PartNote(PartNoteKind.POST_BULLETIN, "POST SB QZ62-32-0114", "QZ62-32-0114"),
    ),
    number_box=BOX,
    callouts=(PageBox(1, Box(200, 300, 212, 310)),),
    flags=(RowFlag.UNITS,),
    origin=Origin.OCR,
    confidence=0.5,
)


def listing(*rows: PartsRow) -> PartsList:
    figure = PartsFigure(0, "5-2", "32-42-00", "BRAKE INSTALLATION", (1,), (1,))
    return PartsList((figure,), rows, (IndexedNumber("QZ28-9999", "5-2-3", "1", 1, BOX),))


def made(file: str, held: PartsList) -> Made:
    return Made(file, PublicationType.PARTS_CATALOG, f"IPC {file}", "1", parts=held)


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


def test_what_is_read_back_is_what_was_taken(catalogue, tmp_path):
    plain = row(1, "AN4-12A", "BOLT", indenture=None)
    taken = take(catalogue, tmp_path, made("a.pdf", listing(FULL, plain)))
    publication = taken.publications[0]
    assert parts.row(catalogue, row_id((publication, 0))).row == FULL
    assert parts.row(catalogue, row_id((publication, 1))).row == plain
    assert [each.row for each in parts.rows_of_figure(catalogue, publication, 0)] == [FULL, plain]
    figure = parts.figure(catalogue, figure_id(publication, 0))
    assert figure.figure == listing().figures[0] and figure.publication_id == publication
    (line,) = parts.indexed(catalogue, loose_key("QZ28-9999"))
    assert line.line == listing().index[0]
    assert parts.indexed(catalogue, loose_key("QZ28-9999"), [publication]) == []


@pytest.mark.parametrize(
    "given", ["", "x-part-0", "{}-part-7", "{}-figure-0", "{}-part-", "{}-part-0x", "{}-part--1"]
)
def test_an_id_of_no_row_is_a_clear_error(catalogue, tmp_path, given):
    publication = take(catalogue, tmp_path, made("a.pdf", listing(FULL))).publications[0]
    with pytest.raises(PartUnknown, match="No row"):
        parts.row(catalogue, given.format(publication))
    with pytest.raises(FigureUnknown, match="No figure"):
        parts.figure(catalogue, given.format(publication).replace("figure", "figura"))


@pytest.mark.parametrize("asked", [number for number in NUMBERS if number])
def test_the_key_finds_every_number_that_is_not_another(catalogue, tmp_path, asked):
    """The oracle is `compare` over every row."""
    held = [row(at, number, "BOLT") for at, number in enumerate(NUMBERS)]
    take(catalogue, tmp_path, made("a.pdf", listing(*held)))
    wanted = {each.ordinal for each in held if compare(asked, each.part_number) is not Match.DIFFERENT}
    found = {each.ordinal: each for each in parts.with_loose_key(catalogue, loose_key(asked))}
    assert wanted <= found.keys() and wanted
    for ordinal, each in found.items():
        assert (each.part_number, each.item) == (held[ordinal].part_number, held[ordinal].item)
        assert each.origin == "digital"


@pytest.mark.parametrize(
    "words", [("bolt",), ("brake",), ("brake", "lining"), ("hex", "head"), ("assembly",), ("no",), ()]
)
def test_words_find_the_rows_that_have_all_of_them(catalogue, tmp_path, words):
    """The oracle reads every nomenclature."""
    held = [row(at, f"P{at}", name) for at, name in enumerate(NAMES)]
    publication = take(catalogue, tmp_path, made("a.pdf", listing(*held))).publications[0]
    wanted = {
        (publication, each.ordinal)
        for each in held
        if words and set(words) <= set(printed_words(each.nomenclature))
    }
    assert parts.keys_with_words(catalogue, words) == wanted
    for word in words:
        assert parts.knows_word(catalogue, word) == (word != "no")


def test_numbers_that_a_row_names_lead_to_it_and_numbers_of_figures_do_not(catalogue, tmp_path):
    kinds = [
        row(at, f"A-{at}", "BOLT", notes=(PartNote(kind, f"{kind} N-{at}", f"N-{at}"),))
        for at, kind in enumerate(PartNoteKind)
    ]
    take(catalogue, tmp_path, made("a.pdf", listing(*kinds)))
    named = {
        kind
        for at, kind in enumerate(PartNoteKind)
        if [each.row.ordinal for each in parts.naming(catalogue, loose_key(f"N-{at}"))] == [at]
    }
    of_no_part = {
        PartNoteKind.SEE_FIGURE,
        PartNoteKind.NEXT_HIGHER_ASSEMBLY,
        PartNoteKind.NOT_PROCURABLE,
        PartNoteKind.PRE_BULLETIN,
        PartNoteKind.POST_BULLETIN,
    }
    assert named == set(PartNoteKind) - of_no_part


def test_rows_of_a_replaced_file_are_not_searched_and_stay_readable(catalogue, tmp_path):
    old = take(catalogue, tmp_path, made("a.pdf", listing(FULL))).publications[0]
    newer = replace(made("a.pdf", listing(replace(FULL, units="4"))), revision="2")
    new = take(catalogue, tmp_path, newer).publications[0]
    key = loose_key("QZ28-2210-1")
    assert [each.publication_id for each in parts.with_loose_key(catalogue, key)] == [new]
    assert [each.publication_id for each in parts.naming(catalogue, loose_key("QZ28-2210-3"))] == [new]
    assert [each.publication_id for each in parts.indexed(catalogue, loose_key("QZ28-9999"))] == [new]
    assert [each.publication_id for each in parts.figures(catalogue)] == [new]
    assert parts.numbers_beginning(catalogue, key, 2, 10) == [("QZ28-2210-1", 1)]
    assert parts.row(catalogue, row_id((old, 0))).row.units == "2"


def test_removing_a_copy_takes_back_exactly_its_parts(catalogue, tmp_path):
    take(catalogue, tmp_path, made("a.pdf", listing(row(0, "AN4-12A", "BOLT"))))
    before = catalogue.dump()
    gone = take(catalogue, tmp_path, made("b.pdf", listing(FULL, row(1, "AN4-12A", "BOLT, HEX"))))
    assert "QZ28-2210-3" in catalogue.dump()
    catalogue.remove(gone.copy_id)
    assert catalogue.dump() == before


def test_reading_a_copy_again_leaves_what_taking_it_anew_gives(catalogue, tmp_path):
    first = made("a.pdf", listing(FULL, row(1, "AN4-12A", "BOLT")))
    again = made("a.pdf", listing(row(0, "QZ28-2210-1", "BRAKE ASSY"), row(1, "AN4-12", "NUT")))
    again.content = first.bytes
    copy_id = take(catalogue, tmp_path, first).copy_id
    catalogue.read_again(copy_id, again.document(), again.publications())
    read_again = catalogue.dump()
    catalogue.remove(copy_id)
    take(catalogue, tmp_path, again)
    assert catalogue.dump() == read_again


def test_the_tree_is_read_in_short_form_as_in_full(catalogue, tmp_path):
    held = [
        row(0, "A", "BRAKE", indenture=0),
        row(1, "B", "LINING", above=0),
        row(2, "C", "RIVET", above=1, above_also=(0,)),
    ]
    publication = take(catalogue, tmp_path, made("a.pdf", listing(*held))).publications[0]
    placed = parts.placed(catalogue, [(publication, at) for at in (0, 1, 2, 9)])
    assert [(each.above, each.nomenclature, each.figure) for each in placed.values()] == [
        ((), "BRAKE", 0),
        ((0,), "LINING", 0),
        ((1, 0), "RIVET", 0),
    ]


def test_more_rows_are_read_at_once_than_sqlite_takes_in_one_statement(catalogue, tmp_path):
    held = [row(at, f"P-{at}", "BOLT") for at in range(1500)]
    publication = take(catalogue, tmp_path, made("a.pdf", listing(*held))).publications[0]
    keys = [(publication, at) for at in itertools.chain(range(1499, -1, -1), [5000])]
    assert [each.row.ordinal for each in parts.rows(catalogue, keys).values()] == list(range(1499, -1, -1))


def test_numbers_of_an_index_that_no_row_has_are_counted_for_each_publication(catalogue, tmp_path):
    def indexed(*numbers):
        return tuple(IndexedNumber(number, "1-1", "1", 1, BOX) for number in numbers)

    bolts = replace(listing(row(0, "AN4-12A", "BOLT")), index=indexed("AN4-12A", "an4 12a", "QZ1-1", "QZ1-2"))
    other = replace(listing(row(0, "QZ1-1", "PIN")), index=())
    one = take(catalogue, tmp_path, made("a.pdf", bolts)).publications[0]
    take(catalogue, tmp_path, made("b.pdf", other))
    assert indexes_held(catalogue) == {one: IndexHeld(numbers=3, without_row=2)}
