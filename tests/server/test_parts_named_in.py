"""Publications other than parts lists that print a part number: a directive may forbid what a list shows.

That a directive forbids a part by its number in a lettered paragraph ("Parts Installation Prohibition")
is how the FAA writes them (14 CFR 39.11: what a directive requires); the numbers are our own fiction.
"""

import csv
import io

import pytest
from asking import Client
from conftest import ROOT

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.register_lists import COLUMNS, import_csv
from indexer.settings import Settings
from server.app import create_app
from server.demo import DAY
from server.opened import OpenedLibrary
from server.parts import find_parts, part_row
from server.parts_batch import PartListRefused, answer_list
from server.parts_printed import number_in, sentence_at
from server.sourcecheck import check

PAPERS = ("ad-2031-07-11", "amoc-letter-2031-07-11", "sb-qz62-32-0114-rev-c", "qz62-parts-catalog")


@pytest.fixture(scope="module")
def held(tmp_path_factory):
    """The sample parts catalog, a directive, a letter and a bulletin about its bolts, and the register."""
    folder = tmp_path_factory.mktemp("named") / "library"
    with Catalogue.open(folder, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    files = [ROOT / "sample_docs" / "pdf" / f"{name}.pdf" for name in PAPERS]
    assert not ingest(files, folder, Settings(library=str(folder))).refused
    with Catalogue.open(folder) as catalogue:
        line = f"QZM-62-4,5,,Maker's index of manual revisions,{DAY},Q. Larkspur,90,"
        assert not import_csv(catalogue, f"{','.join(COLUMNS)}\n{line}\n", "Q. Larkspur", 90).problems
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


@pytest.mark.parametrize(
    ("text", "number", "printed"),
    [
        ("a tie bolt with part number QZ32-4421-3 on any airplane", "QZ32-4421-3", "QZ32-4421-3"),
        ("bolts QZ32-4421-\n3, of lots", "QZ32-4421-3", "QZ32-4421-\n3"),
        ("bolts QZ32\u20134421\u20133.", "QZ32-4421-3", "QZ32\u20134421\u20133"),
        ("bolts QZ32-4421-3.", "QZ3244213", "QZ32-4421-3"),
        ("two bolts, AN 4-12A", "AN4-12A", "AN 4-12A"),
        ("bolts AN4-12AB", "AN4-12A", None),
        ("bolts AN4-12A-3", "AN4-12A", None),
        ("bolts QZ32-4421-31", "QZ32-4421-3", None),
        ("bolts QZ32-4421-3", "QZ32-442-13", None),
        ("bolts MS20470-4", "MS20470", None),
        ("bulletin 5AN4-12A", "AN4-12A", None),
    ],
)
def test_a_number_is_named_by_the_same_number_alone(text, number, printed):
    """AN4-12 and AN4-12A are two bolts (FAA-H-8083-30, aircraft hardware, AN bolts)."""
    place = number_in(text, number)
    assert (text[slice(*place)] if place else None) == printed


def test_the_sentence_is_quoted_and_a_long_one_is_cut():
    text = "Read this. Do not install P/N AN4-12A. See Note 2."
    at = text.index("AN4")
    assert sentence_at(text, at, at + 7) == "Do not install P/N AN4-12A."
    long = sentence_at("word " * 100 + "AN4-12A " + "word " * 100, 500, 507)
    assert long.startswith("... word") and "AN4-12A" in long and long.endswith("word ...") and len(long) < 260


def test_a_directive_in_force_that_names_the_number_is_said_first(held):
    answer = find_parts(held, "QZ32-4421-3")
    named = answer["named_in"]
    assert named["directives"] == ["AD 2031-07-11"]
    assert named["words"] == ["AD 2031-07-11 names this part number: read it before use."]
    first = named["passages"][0]
    assert first["paragraph"] == "(h)" and first["in_force"] and first["pdf_page"] == 2
    assert first["quote"].endswith("do not install a tie bolt with part number QZ32-4421-3 on any airplane.")
    kinds = [each["publication"]["type"] for each in named["passages"]]
    assert kinds[1:] == ["service-bulletin"] * (len(kinds) - 1) and len(kinds) > 1
    row = answer["groups"][0]["rows"][0]
    assert part_row(held, row["id"])["named_in"] == named


def test_none_found_is_never_none_applies(held):
    (said,) = find_parts(held, "AN4-12A")["named_in"]["words"]
    assert said.startswith("No directive held here names this number.")
    assert "does not mean that none applies" in said
    assert find_parts(held, "brake lining")["named_in"] is None


def test_a_number_without_a_row_is_named_by_bulletins_and_letters(held):
    answer = find_parts(held, "QZ32-4421-7")
    assert answer["groups"] == [] and answer["named_in"]["directives"] == []
    (said,) = answer["asked"]["said"]
    assert said.startswith("No row of a parts list has it; named in: AMOC letter of 3 November 2031")
    assert "SB QZ62-32-0114 revision C" in said


def test_a_list_has_a_column_with_the_directives(held):
    rows = list(csv.DictReader(io.StringIO(answer_list(held, "QZ32-4421-3\nAN4-12A\nQZ32-4421-7\n"))))
    assert [row["directives"] for row in rows] == ["AD 2031-07-11", "", ""]
    assert "read it before use" in rows[0]["remarks"] and "named in: AMOC letter" in rows[2]["remarks"]


def test_the_pages_say_it_under_the_number(held):
    web = Client(create_app(held, Settings()))
    row = find_parts(held, "QZ32-4421-3")["groups"][0]["rows"][0]
    for address in ("/parts?q=QZ32-4421-3", row["address"]):
        page = web.get(address).text
        said = page.index("AD 2031-07-11 names this part number: read it before use.")
        assert said < page.index("do not install a tie bolt") < page.index("BOLT, TIE", said)


def test_a_list_that_the_register_calls_superseded_says_so_first(held):
    publication = find_parts(held, "QZ32-4421-3")["groups"][0]["rows"][0]["publication"]
    assert publication["superseded"] and publication["current"]["why"].startswith("Revision 5 is current per")
    (row,) = csv.DictReader(io.StringIO(answer_list(held, "QZ32-4421-3\n")))
    assert row["superseded_publication"] == "yes" and row["currency"].startswith("superseded. Revision 5 is")


@pytest.mark.parametrize(
    "entry",
    [
        "Installed four tie bolts P/N QZ32-4421-3 IAW SB QZ62-32-0114 Rev C.",
        "Installed four tie bolts QZ32-4421-3 IAW MM 32-42-00.",
        "Installed four tie bolts QZ32-4421-3.",
    ],
)
def test_a_check_says_that_a_directive_names_a_part_of_the_entry(held, entry):
    answer = check(held, entry, keep=False).fields()
    words = "AD 2031-07-11 names part number QZ32-4421-3, which this entry names: read paragraph (h)."
    said = [each["notes"] for each in answer["citations"]] or [answer["notes"]]
    assert all(notes[0] == words for notes in said)
    notes = [each["directives_note"] for each in answer["citations"] if each["directives_note"]]
    assert all(each.startswith(words) for each in notes)


@pytest.mark.parametrize(
    "entry", ["Installed four tie bolts P/N QZ32-4421-5 IAW MM 32-42-00.", "SB QZ62-32-0114"]
)
def test_no_directive_is_said_to_name_another_number(held, entry):
    assert "names part number" not in str(check(held, entry, keep=False).fields())


@pytest.mark.parametrize("mark", [";", "\t", ","])
def test_a_list_is_parted_as_the_spreadsheet_writes_it(held, mark):
    """RFC 4180 knows the comma alone; spreadsheets write a semicolon where the comma parts decimals."""
    text = 'job;part_number;n\n"a, b";QZ32-4421-3;1,5\n'.replace(";", mark)
    text = text.replace("1,5", '"1,5"') if mark == "," else text
    (row,) = csv.DictReader(io.StringIO(answer_list(held, text)))
    assert (row["match"], row["job"], row["n"]) == ("exact", "a, b", "1,5")


@pytest.mark.parametrize("text", ["part_number|n\nAN4-12A|1\n", "PK\x03\x04AN4-12A\n"])
def test_what_is_no_table_is_refused(held, text):
    with pytest.raises(PartListRefused):
        answer_list(held, text)


def test_words_in_the_column_of_numbers_are_said_to_be_words(held):
    (row,) = csv.DictReader(io.StringIO(answer_list(held, "part_number\nBRAKE BOLT\n")))
    assert (row["match"], row["remarks"]) == (
        "problem",
        "Only numbers are answered here; ask for words on /parts.",
    )


@pytest.mark.parametrize("q", ["32-42-00 fig 1 item 15A", "32-42-00-01-15A", "tie bolt"])
def test_rows_found_by_place_or_words_say_which_numbers_a_directive_names(held, q):
    said = find_parts(held, q)["asked"]["said"]
    assert said[0] == "AD 2031-07-11 names part number QZ32-4421-3, shown here: read it before use."
