"""The cells of a parts list's row. The mark of each rule stands beside its cases, as in the trade notes:

V = verified in a printed introduction (iSpec 2200 lists, a maker's list of parts); M = from memory;
C = common practice, no source. Numbers and codes are invented.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.tagging.applicability import read_applicability
from indexer.tagging.parts_cells import (
    ItemFacts,
    read_item,
    read_nomenclature,
    read_part_number,
    read_supplier,
    read_units,
)
from indexer.trade.applies import Applies


@pytest.mark.parametrize(
    ("text", "indenture", "words"),
    [
        # V: no dot an assembly of the figure, each dot one step down
        ("PUMP ASSY, FUEL", 0, "PUMP ASSY, FUEL"),
        (". BODY", 1, "BODY"),
        (". . SEAL", 2, "SEAL"),
        (".. SEAL", 2, "SEAL"),
        ("..SEAL", 2, "SEAL"),
        (". ..SEAL", 3, "SEAL"),
        # C: bullets, and dots that a font joins
        ("\u2022 BODY", 1, "BODY"),
        ("\u2022 \u2022 SEAL", 2, "SEAL"),
        ("\u00b7\u00b7SEAL", 2, "SEAL"),
        ("\u2026CLIP", 3, "CLIP"),
        # C: a period before a figure is a decimal point
        (".25 DIA WASHER", 0, ".25 DIA WASHER"),
        (". .25 DIA WASHER", 1, ".25 DIA WASHER"),
        ("..25 DIA WASHER", 1, ".25 DIA WASHER"),
        (". 2 WAY VALVE", 1, "2 WAY VALVE"),
        # C: leaders behind the name are no dots of it
        ("BODY . . . . . .", 0, "BODY"),
        ("BODY ..........", 0, "BODY"),
        (". BODY ASSY. . . . .", 1, "BODY ASSY"),
        (". BODY ASSY.", 1, "BODY ASSY."),
        # C: wrapped cells
        (". VALVE ASSEMBLY,\nFUEL SELECTOR", 1, "VALVE ASSEMBLY, FUEL SELECTOR"),
        (". VALVE ASSEMBLY,\n. FUEL SELECTOR", 1, "VALVE ASSEMBLY, FUEL SELECTOR"),
        ("NUT, SELF-\nLOCKING", 0, "NUT, SELF-LOCKING"),
        ("", 0, ""),
        (". .", 2, ""),
    ],
)
def test_dots(text, indenture, words):
    facts = read_nomenclature(text)
    assert (facts.indenture, facts.words) == (indenture, words)


@pytest.mark.parametrize(
    ("text", "shown", "indenture"),
    [
        ("BODY", None, None),  # V: OCR often eats the dots
        (". BODY", None, 1),
        (". . BODY", None, 2),
        (". , BODY", None, None),  # specks that may be dots
        (", . BODY", 2, None),
        ("' BODY", None, None),
        ("BODY", 2, 2),  # the place of the words shows it
        (". BODY", 2, 1),  # dots that were read go before it
    ],
)
def test_dots_in_text_from_ocr(text, shown, indenture):
    facts = read_nomenclature(text, indenture=shown, read_by_ocr=True)
    assert (facts.indenture, facts.words) == (indenture, "BODY")


def test_a_quotation_mark_before_a_letter_is_no_speck():
    facts = read_nomenclature(". 'O' RING", read_by_ocr=True)
    assert (facts.indenture, facts.words) == (1, "'O' RING")


def test_a_list_with_columns_1_to_7_in_place_of_dots():
    assert read_nomenclature("BODY", indenture=3).indenture == 3  # V: columns "1 2 3 4 5 6 7"
    assert read_nomenclature(". BODY", indenture=3).indenture == 1


@pytest.mark.parametrize(
    ("text", "supplier", "words"),
    [
        # V: "V" and five characters behind the name; DoD 4100.39-M volume 7, read: figure first and last,
        # letters without I and O; codes of other countries have a letter first or last
        ("PIN, TAPER V0Q7X4", "0Q7X4", "PIN, TAPER"),
        ("PIN, TAPER (V0Q7X4)", "0Q7X4", "PIN, TAPER"),
        ("PIN, TAPER V12345", "12345", "PIN, TAPER"),
        ("PIN, TAPER, VK2345", "K2345", "PIN, TAPER"),
        ("PIN, TAPER\nV0Q7X4", "0Q7X4", "PIN, TAPER"),
        ("PIN, TAPER V0Q7X4 (SUPSD BY QZ1-3)", "0Q7X4", "PIN, TAPER"),
        ("PIN, TAPER FSCM 0Q7X4", "0Q7X4", "PIN, TAPER"),  # M
        ("PIN, TAPER CAGE CODE: 0Q7X4", "0Q7X4", "PIN, TAPER"),  # M
        # none
        ("PIN, TAPER", "", "PIN, TAPER"),
        ("VALVES", "", "VALVES"),  # a word
        ("PUMP, VACUUM", "", "PUMP, VACUUM"),
        ("PIN V0QX7", "V0QX7", "PIN"),  # five characters of which V is the first
        ("PIN (V0QX7)", "V0QX7", "PIN"),
        ("TUBE V101A", "", "TUBE V101A"),  # a designator
        ("TUBE V1012", "", "TUBE V1012"),
        ("PIN V0Q7", "", "PIN V0Q7"),  # four
        ("PIN V0Q7X45", "", "PIN V0Q7X45"),  # six
        ("PIN V0QOX4", "", "PIN V0QOX4"),  # O is no character of a code
        ("PIN VIQ7X4", "", "PIN VIQ7X4"),  # nor is I
        ("ENGINE V2500-A5", "", "ENGINE V2500-A5"),
        ("PIN (SUPSD BY V12345)", "", "PIN"),  # a part number
    ],
)
def test_supplier(text, supplier, words):
    facts = read_nomenclature(text)
    assert (facts.supplier, facts.words) == (supplier, words)


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ("V0Q7X4", "0Q7X4"),
        ("0Q7X4", "0Q7X4"),
        ("(V0Q7X4)", "0Q7X4"),
        ("", ""),
        ("VALVE", ""),
        ("0QOX4", ""),
        ("V0QX7", "V0QX7"),
    ],
)
def test_supplier_in_a_column_of_its_own(cell, code):
    assert read_supplier(cell) == code


@pytest.mark.parametrize(
    ("text", "effectivity", "words"),
    [
        # C: the wordings of serials and aircraft in a row
        ("PUMP S/N 0012 THRU 0040", "S/N 0012 THRU 0040", "PUMP"),
        ("PUMP (S/N 0012 THRU 0040)", "S/N 0012 THRU 0040", "PUMP"),
        ("PUMP, S/N 0012\nTHRU 0040", "S/N 0012 THRU 0040", "PUMP"),
        ("PUMP A/C 51 AND ON", "A/C 51 AND ON", "PUMP"),
        ("PUMP ACFT 51 & UP", "ACFT 51 & UP", "PUMP"),
        ("PUMP SERIALS 1, 4 AND 7", "SERIALS 1, 4 AND 7", "PUMP"),
        ("PUMP SER NO. KT-0141 AND SUBS", "SER NO. KT-0141 AND SUBS", "PUMP"),
        ("PUMP S/N 12 THRU 40 EXCEPT 20", "S/N 12 THRU 40 EXCEPT 20", "PUMP"),
        ("PUMP USED ON S/N 12 & ON", "S/N 12 & ON", "PUMP"),
        ("PUMP (EFF: S/N 3 TO 9)", "S/N 3 TO 9", "PUMP"),
        (". PUMP S/N 0012 THRU 0040 V0Q7X4", "S/N 0012 THRU 0040", "PUMP"),
        ("PUMP S/N 1-9 (PRE SB 28-12)", "S/N 1-9", "PUMP"),
        ("PUMP REPLD BY QZ1-3, S/N 1 THRU 99", "S/N 1 THRU 99", "PUMP"),
        ("PUMP S/N 1-9; A/C 3 AND ON", "S/N 1-9; A/C 3 AND ON", "PUMP"),
        # none
        ("PLATE, S/N", "", "PLATE, S/N"),  # a plate with the serial number
        ("PLATE, SERIAL NUMBER", "", "PLATE, SERIAL NUMBER"),
        ("BOLT, A/C ATTACH", "", "BOLT, A/C ATTACH"),
        ("SNAP 12", "", "SNAP 12"),
        ("SNAP12", "", "SNAP12"),
        ("SERVO12", "", "SERVO12"),
        ("BATTERY, AIRCRAFT", "", "BATTERY, AIRCRAFT"),
    ],
)
def test_serials_and_aircraft(text, effectivity, words):
    facts = read_nomenclature(text)
    assert (facts.effectivity, facts.words) == (effectivity, words)


@pytest.mark.parametrize(
    "text", ["PIN (REPLD BY QZ1-3 S/N 100 AND UP)", "PIN REPLD BY QZ1-3 ON S/N 100 AND UP"]
)
def test_serials_that_may_be_those_of_the_other_part_prove_nothing(text):
    kept = read_nomenclature(text).effectivity
    assert kept.startswith("REPLD BY QZ1-3")
    for serial in ("50", "100", "150"):
        assert read_applicability(kept).applies("QZ62", serial).answer is Applies.CANNOT_TELL


@pytest.mark.parametrize("text", ["S/N 0012 THRU 0040", "A/C 51 AND ON", "SERIALS 1, 4 AND 7"])
def test_the_reader_of_applicability_understands_what_is_kept(text):
    kept = read_nomenclature(f"PUMP {text}").effectivity
    assert kept == text
    read = read_applicability(kept).read
    assert read.clauses and not read.unread


@pytest.mark.parametrize(
    ("text", "facts"),
    [
        ("1", ItemFacts("1", True)),
        ("15", ItemFacts("15", True)),
        ("15A", ItemFacts("15A", True)),  # V: added, alternate or modified part
        ("15AB", ItemFacts("15AB", True)),
        ("15.", ItemFacts("15", True)),  # C
        # V: a dash before the item: not illustrated
        ("-15", ItemFacts("15", False)),
        ("- 15A", ItemFacts("15A", False)),
        ("\u201315", ItemFacts("15", False)),
        ("-", ItemFacts("", False)),  # C: old lists print the dash alone
        # V: figure and item in one column
        ("14-7", ItemFacts("7", True, "14")),
        ("14-7A", ItemFacts("7A", True, "14")),
        ("14 7", ItemFacts("7", True, "14")),
        ("14 -7", ItemFacts("7", False, "14")),
        ("14--7", ItemFacts("7", False, "14")),
        ("14- 7", ItemFacts("7", False, "14")),
        ("5-2-7", ItemFacts("7", True, "5-2")),
        ("28-22-00-01-15", ItemFacts("15", True, "28-22-00-01")),
        ("28-22-00-01 -15", ItemFacts("15", False, "28-22-00-01")),
        # a figure alone
        ("28-22-00-01", ItemFacts("", True, "28-22-00-01")),
        ("FIG 14", ItemFacts("", True, "14")),
        ("FIG. 14-", ItemFacts("", True, "14")),
        ("14-", ItemFacts("", True, "14")),
        ("", ItemFacts("", True)),
        # no item
        ("15I", ItemFacts("", True, readable=False)),  # V: I and O are not used
        ("15O", ItemFacts("", True, readable=False)),
        ("l5", ItemFacts("", True, readable=False)),
        ("-l5", ItemFacts("", False, readable=False)),
        ("S", ItemFacts("", True, readable=False)),
        ("REF", ItemFacts("", True, readable=False)),
        ("12345", ItemFacts("", True, readable=False)),
        ("1.5", ItemFacts("", True, readable=False)),
    ],
)
def test_items(text, facts):
    assert read_item(text) == facts


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("1", "1"),
        ("12", "12"),
        (" 2 ", "2"),
        ("A/R", "A/R"),  # V
        ("AR", "AR"),  # V
        ("REF", "REF"),  # V
        ("RF", "RF"),  # V
        ("Ref", "Ref"),
        ("2 PER", "2 PER"),  # C
        ("AR (QT)", "AR (QT)"),  # C
        ("AR FT", "AR FT"),
        ("10 FT", "10 FT"),
        ("1.5 YD", "1.5 YD"),
        ("1 SET", "1 SET"),
        ("AS REQ'D", "AS REQ'D"),
        ("NP", "NP"),  # M
        ("", ""),
        ("-", ""),
        ("\u2014", ""),
        # unreadable
        ("l", None),
        ("O", None),
        ("I", None),
        ("?", None),
        ("2 2", None),
        ("A", None),
        ("AN4-12A", None),
        ("1O", None),
    ],
)
def test_units(text, units):
    assert read_units(text) == units


@pytest.mark.parametrize(
    ("text", "number", "notes"),
    [
        ("QZ28-2210-1", "QZ28-2210-1", []),
        ("QZ28-\n2210-1", "QZ28-2210-1", []),
        ("MS20470\nAD4-6", "MS20470AD4-6", []),
        ("MS20470 AD4-6", "MS20470 AD4-6", []),
        ("QZ28-2210-1(NP)", "QZ28-2210-1", ["NP"]),  # V: "(NP)" behind the part number
        ("QZ28-2210-1 (SUPSD BY QZ28-2210-3)", "QZ28-2210-1", ["SUPSD BY QZ28-2210-3"]),
        ("NP", "", ["NP"]),
        ("ORDER NHA", "", ["ORDER NHA"]),
        ("", "", []),
    ],
)
def test_part_number_cells(text, number, notes):
    facts = read_part_number(text)
    assert (facts.number, [note.words for note in facts.notes]) == (number, notes)


CELLS = st.text(alphabet="ABNPRSUVOT .,-/()\n0123456789*\u2022", max_size=60)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(CELLS, st.booleans())
def test_no_cell_breaks_the_reader_and_no_word_is_made_up(text, ocr):
    facts = read_nomenclature(text, read_by_ocr=ocr)
    noted = {note.words for note in facts.notes}
    reach = [one for one in facts.effectivity.split("; ") if one not in noted]
    kept = "".join([facts.words, facts.supplier, *reach, *noted])
    assert all(kept.count(letter) <= text.count(letter) for letter in set(kept) - set(" ;"))
    read_item(text)
    assert read_units(text) is None or set(read_units(text)) <= set(text) | set(" -")
    read_part_number(text)
