"""What entries say besides their sources. Common practice where none is named."""

import datetime
import random

import pytest

from indexer.tagging.entry_fact_records import Article, EntryFact, FactKind
from indexer.tagging.entry_facts import read_entry

REG, SER, MOD = FactKind.REGISTRATION, FactKind.SERIAL, FactKind.MODEL
DAY, WORK, AD = FactKind.DATE_OF_WORK, FactKind.WORK, FactKind.DIRECTIVE_WORDS
OLD, PRESS, OTHER = FactKind.REPAIRED_BEFORE, FactKind.PRESSURIZED, FactKind.OTHER_AIRCRAFT
REC, PART, SILENT = FactKind.RECOMMENDS_APPROVAL, FactKind.PART_APPROVAL, FactKind.NO_MAKERS_DATA
CONTRARY, LIMITS, LIFE = FactKind.CONTRARY, FactKind.LIMITS, FactKind.LIFE_LIMIT
TORQUE, DONE, BATCH = FactKind.TORQUE, FactKind.PART_DONE, FactKind.BATCH

# Text, and of each fact: kind, value, words, then what article it is of or that it is denied.
LINES = [
    # Aircraft and articles
    ("N62QZ annual due", [(REG, "N62QZ", "N62QZ")]),
    ("Reg N62QZ S/N QB-814", [(REG, "N62QZ", "N62QZ"), (SER, "QB-814", "S/N QB-814", Article.AIRCRAFT)]),
    ("serial QB-814", [(SER, "QB-814", "serial QB-814", Article.UNSAID)]),
    ("QZ62S S/N QB-814", [(MOD, "QZ62S", "QZ62S"), (SER, "QB-814", "S/N QB-814")]),
    ("aircraft serial no. QB-814", [(SER, "QB-814", "serial no. QB-814", Article.AIRCRAFT)]),
    ("A/C S/N: 1147", [(SER, "1147", "S/N: 1147", Article.AIRCRAFT)]),
    ("model QZ62, MSN 44", [(MOD, "QZ62", "model QZ62"), (SER, "44", "MSN 44")]),
    ("Engine S/N L-4471-A removed", [(SER, "L-4471-A", "S/N L-4471-A", Article.ENGINE)]),
    ("eng model V6 s/n 44", [(MOD, "V6", "model V6", Article.ENGINE), (SER, "44", "s/n 44", Article.ENGINE)]),
    ("prop serial number 8812B", [(SER, "8812B", "serial number 8812B", Article.PROPELLER)]),
    ("L/H mag S/N 10-4471", [(SER, "10-4471", "S/N 10-4471", Article.PART)]),
    ("bolt P/N 4402-3 S/N 77", [(SER, "77", "S/N 77", Article.PART)]),
    ("tires S/N 4471 & 4472", [(SER, "4471", "S/N 4471", Article.PART), (SER, "4472", "4472", Article.PART)]),
    ("N 44 71 not a mark", []),
    ("serviced strut w/ N2", []),
    ("N1 97% N2 88%", []),
    ("aircraft N2 washed", [(REG, "N2", "N2")]),
    ("C-FQZA ferried", [(REG, "C-FQZA", "C-FQZA")]),
    ("battery G-243 replaced", []),
    ("N0471Q and N44I1 are no marks", []),  # 14 CFR 47.15: no zero first, no letter I
    ("n62qz in lower case is no mark", []),
    ("reg n62qz", [(REG, "N62QZ", "n62qz")]),
    ("IAW QZ62 MM 32-41-00", []),  # the manual's model, not the aircraft's
    # Day of the work
    ("3/14/31 oil changed", [(DAY, "2031-03-14", "3/14/31")]),
    ("14 MAR 31: oil changed", [(DAY, "2031-03-14", "14 MAR 31")]),
    ("Date: March 14, 2031 tires", [(DAY, "2031-03-14", "March 14, 2031")]),
    ("N62QZ 3/14/31 oil changed", [(REG, "N62QZ", "N62QZ"), (DAY, "2031-03-14", "3/14/31")]),
    ("W/O 4471 3/14/31 oil changed", [(DAY, "2031-03-14", "3/14/31")]),
    ("4/3/31 oil changed", [(DAY, "", "4/3/31")]),  # 3 April or 4 March
    ("work completed 2031-03-14", [(DAY, "2031-03-14", "2031-03-14")]),
    ("Ops check good. 3/14/31 J. Doe", [(DAY, "2031-03-14", "3/14/31")]),
    ("next due 3/14/32", []),
    ("C/W SB QZ62-32-0114 dtd 2/20/31", []),
    ("battery exp 3/14/33", []),
    ("dwg 62-5310 release date : 22-mar-06", []),
    ("inspection type : 3clt", []),
    # Class of work, as the entry calls it
    ("Major repair, see Form 337", [(WORK, "major repair", "Major repair"), (WORK, "form 337", "Form 337")]),
    ("Not a major repair", [(WORK, "major repair", "major repair", True)]),
    ("major alteration per STC", [(WORK, "major alteration", "major alteration")]),
    ("minor repair to cowl", [(WORK, "minor repair", "minor repair")]),
    ("minor alteration", [(WORK, "minor alteration", "minor alteration")]),
    ("altered mount", [(WORK, "alteration", "altered")]),
    ("annual inspection", [(WORK, "annual inspection", "annual inspection")]),
    ("annual c/w this date", [(WORK, "annual inspection", "annual")]),
    ("100 hr insp", [(WORK, "100-hour inspection", "100 hr insp")]),
    ("100-hour inspection", [(WORK, "100-hour inspection", "100-hour inspection")]),
    ("mag overhauled by others", [(WORK, "overhaul", "overhauled")]),
    ("IAW engine overhaul manual", []),
    # Directives
    ("C/W AD 2031-07-11", [(AD, "complied with", "C/W AD")]),
    ("AD 2031-07-11 complied with", [(AD, "complied with", "AD 2031-07-11 complied with")]),
    ("AD 2030-19-04 PCW", [(AD, "previously complied with", "AD 2030-19-04 PCW")]),
    ("AD 89-24-09 n/a", [(AD, "not applicable, as the entry says", "AD 89-24-09 n/a")]),
    ("replaced AD rivets", []),
    # What the structure is
    ("patch over old repair", [(OLD, "repaired before", "old repair")]),
    ("previously repaired area", [(OLD, "repaired before", "previously repaired")]),
    ("skin was already repaired", [(OLD, "repaired before", "already repaired")]),
    ("existing doubler removed", [(OLD, "repaired before", "existing doubler")]),
    ("no previous repair in area", [(OLD, "repaired before", "previous repair", True)]),
    ("skin of pressurized cabin", [(PRESS, "pressurized", "pressurized cabin")]),
    ("aft pressure bulkhead", [(PRESS, "pressurized", "pressure bulkhead")]),
    ("non-pressurized wing", [(PRESS, "pressurized", "pressurized", True)]),
    ("pressurized aircraft to 4 psi", []),
    ("existing splice at sta 110", []),
    ("unpressurized area", [(PRESS, "not pressurized", "unpressurized")]),
    ("damage within SRM limits", [(LIMITS, "within", "within SRM limits")]),
    ("wear exceeds limits", [(LIMITS, "outside", "exceeds limits")]),
    # Authority claimed
    ("8110-3 recommends approval of data", [(REC, "recommends approval", "recommends approval")]),
    ("337 for N44Q", [(OTHER, "N44Q", "337 for N44Q"), (WORK, "form 337", "337"), (REG, "N44Q", "N44Q")]),
    ("approval for another aircraft", [(OTHER, "another aircraft", "for another aircraft")]),
    ("data from sister ship", [(OTHER, "another aircraft", "from sister ship")]),
    ("installed under PMA", [(PART, "PMA", "PMA")]),
    ("TSO-C26 wheel", [(PART, "TSO", "TSO-C26")]),
    ("with 8130-3 tag", [(PART, "release tag", "8130-3 tag")]),
    ("412 hrs TSO", []),  # time since overhaul
    ("manufacturer silent on repair", [(SILENT, "maker silent", "manufacturer silent")]),
    ("no manufacturer repair data", [(SILENT, "maker silent", "no manufacturer repair data")]),
    ("contrary to mfr's data", [(CONTRARY, "contrary to the maker's data", "contrary to mfr's data")]),
    ("SB extends the retirement life", [(LIFE, "life limit", "extends the retirement life")]),
    ("life limited part", [(LIFE, "life limit", "life limited")]),
    # Values and parts
    ("torqued 50-60 in-lb", [(TORQUE, "50-60 in-lb", "50-60 in-lb")]),
    ("torque 90 inch-pounds", [(TORQUE, "90 in-lb", "90 inch-pounds")]),
    ("axle nut 50 ft lbs", [(TORQUE, "50 ft-lb", "50 ft lbs")]),
    ("torque 12.5 Nm", [(TORQUE, "12.5 N m", "12.5 Nm")]),
    ("torque 240 lb-in", [(TORQUE, "240 in-lb", "240 lb-in")]),
    ("tire 42 psi, 8 qts", []),
    ("c/w part 3", [(DONE, "part 3", "part 3")]),
    ("did paragraph (g)(1)", [(DONE, "paragraph (g)(1)", "paragraph (g)(1)")]),
    ("FAR part 43", []),
    ("part number 3", []),
    ("sealant batch 4471-B", [(BATCH, "4471-B", "batch 4471-B")]),
    ("bolts lot #77", [(BATCH, "77", "lot #77")]),
]  # fmt: skip


def as_told(fact: EntryFact, row: tuple) -> tuple:
    """The fact in the form of a row of the table, with as much of it as the row tells."""
    told = (fact.kind, fact.value, fact.text)
    if len(row) > 3:
        told += (fact.of,) if isinstance(row[3], Article) else (fact.denied,)
    elif fact.denied:
        told += (True,)
    return told


@pytest.mark.parametrize("text, rows", LINES, ids=lambda value: str(value)[:40])
def test_an_entry_says(text, rows):
    facts = read_entry(text).facts
    assert [fact.text for fact in facts] == [row[2] for row in rows]
    assert [as_told(fact, row) for fact, row in zip(facts, rows, strict=True)] == rows
    assert [text[fact.start : fact.end] for fact in facts] == [fact.text for fact in facts]


def test_the_table_is_long():
    assert len(LINES) >= 60


def test_a_day_that_can_be_read_two_ways_is_no_day():
    assert read_entry("4/3/31 oil changed").done_on is None
    assert read_entry("3/14/31 oil changed").done_on == datetime.date(2031, 3, 14)
    assert read_entry("3/14/31 oil changed. 3/15/31 ground run").done_on is None


def test_serials_of_articles_are_kept_apart_from_the_aircrafts():
    facts = read_entry("N62QZ, aircraft S/N QB-814. Engine S/N L-4471 removed. Prop S/N 8812 installed.")
    assert facts.serials_of(Article.AIRCRAFT) == ("QB-814",)
    assert facts.serials_of(Article.ENGINE) == ("L-4471",)
    assert facts.serials_of(Article.PROPELLER) == ("8812",)
    assert facts.says(FactKind.REGISTRATION).value == "N62QZ"
    assert facts.says(FactKind.WORK) is None


def test_words_of_any_text_stand_where_they_are_said_to():
    letters = random.Random(43)
    pieces = [
        "S/N",
        "N62QZ",
        "3/14/31",
        "old repair",
        "in-lb",
        "50",
        "no ",
        "PMA",
        "\n",
        "–",
        "part 3",
        " ",
        "AD",
        "337",
        "-",
        ".",
    ]
    for _ in range(400):
        text = "".join(letters.choice(pieces) + letters.choice(["", " "]) for _ in range(40))
        facts = read_entry(text).facts
        assert [text[fact.start : fact.end] for fact in facts] == [fact.text for fact in facts]
        assert [fact.start for fact in facts] == sorted(fact.start for fact in facts)
