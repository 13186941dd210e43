"""The thesaurus: every line loads, reads both ways, and its JASC codes mean what the line says."""

import pytest

from indexer.trade.chapter_tables import jasc_rows, read_table
from indexer.trade.chapters import is_chapter, jasc_title
from indexer.trade.thesaurus import ACTIONS, EVERYDAY, split_terms, thesaurus, thesaurus_rows

ROWS = thesaurus_rows()


def test_every_line_of_the_table_loads_once():
    assert len(ROWS) == len(read_table("thesaurus.csv")) == 364
    assert len({row.term.casefold() for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.term)
def test_every_line_leads_to_the_manuals_words_and_back(row):
    assert row.manual_terms
    (forward,) = [entry for entry in thesaurus() if entry.term == row.term and not entry.backward]
    assert set(forward.others) == {
        term for term in row.manual_terms if term.casefold() != row.term.casefold()
    }
    for term in forward.others:
        back = [entry for entry in thesaurus() if entry.term == term and entry.backward]
        if term.casefold() in EVERYDAY:
            assert not back, f"{term} says too little to lead anywhere"
        else:
            assert row.term in back[0].others


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.term)
def test_the_chapters_of_a_note_are_chapters(row):
    for number in row.chapters:
        assert is_chapter(number[:2]), f"{row.term}: {row.note}"


# Words of the code's title in the FAA's table (JASC Code Table and Definitions, 27 October 2008) beside each
# term whose note quotes the code; tables/jasc.csv is that table.
@pytest.mark.parametrize(
    ("term", "code", "title_holds"),
    [
        ("tail wheel", "3220", "TAIL LANDING GEAR"),
        ("shimmy dampener", "3252", "SHIMMY"),
        ("cowl flap", "7111", "COWL"),
        ("baffles", "7112", "AIR BAFFLE"),
        ("jug", "8530", "CYLINDER"),
        ("mag", "7414", "MAGNETO"),
        ("shower of sparks", "7413", "VIBRATOR"),
        ("plugs", "7421", "SPARK PLUG"),
        ("carb", "7322", "FUEL CONTROL"),
        ("spider", "7324", "DIVIDER"),
        ("injector", "7313", "FUEL INJECTOR"),
        ("gascolator", "2821", "FILTER/STRAINER"),
        ("boost pump", "2822", "BOOST PUMP"),
        ("fuel valve", "2823", "SELECTOR/SHUT"),
        ("fuel sender", "2842", "QUANTITY SENSOR"),
        ("airbox", "7160", "AIR INTAKE"),
        ("blower", "8560", "SUPERCHARGER"),
        ("vernatherm", "7922", "TEMP. REGULATOR"),
        ("oil radiator", "7921", "OIL COOLER"),
        ("governor", "6122", "GOVERNOR"),
        ("spinner", "6113", "SPINNER"),
        ("hub", "6114", "HUB"),
        ("feather", "6123", "FEATHERING"),
        ("starter", "8011", "STARTER"),
        ("starter generator", "2435", "STARTER-GENERATOR"),
        ("alternator", "2434", "ALTERNATOR"),
        ("VR", "2436", "REGULATOR"),
        ("GPU plug", "2440", "EXTERNAL POWER"),
        ("ELT", "2562", "EMERGENCY LOCATOR BEACON"),
        ("transponder", "3452", "TRANSPONDER"),
        ("encoder", "3416", "ALTIMETER"),
        ("pitot", "3411", "PITOT"),
        ("VSI", "3413", "RATE OF CLIMB"),
        ("ASI", "3414", "AIRSPEED"),
        ("DG", "3422", "DIRECTIONAL GYRO"),
        ("AI", "3421", "ATTITUDE GYRO"),
        ("T&B", "3424", "TURN"),
        ("whiskey compass", "3423", "COMPASS"),
        ("OAT", "3412", "OUTSIDE AIR TEMP"),
        ("CHT", "7721", "CYLINDER HEAD TEMP"),
        ("EGT", "7722", "EGT/TIT"),
        ("MP", "7713", "MANIFOLD PRESSURE"),
        ("tach", "7714", "RPM"),
        ("stall horn", "3418", "STALL WARNING"),
        ("heater", "2140", "HEATING"),
        ("outflow valve", "2133", "REGUL/OUTFLOW"),
        ("nav lights", "3340", "EXTERIOR LIGHT"),
        ("accumulator", "2911", "ACCUMULATOR"),
        ("reservoir", "2916", "RESERVOIR"),
    ],
)
def test_a_code_quoted_in_a_note_is_the_one_of_the_faa_table(term, code, title_holds):
    (row,) = [row for row in ROWS if row.term == term]
    assert code in row.jasc_codes
    assert title_holds in jasc_title(code)


def test_every_code_quoted_in_a_note_is_in_the_faa_table():
    for row in ROWS:
        assert set(row.jasc_codes) <= set(jasc_rows()), row


def test_a_note_gives_its_chapters():
    by_term = {row.term: row.chapters for row in ROWS}
    assert by_term["squat switch"] == ("32",)
    assert by_term["puck"] == ("32-40",)
    assert by_term["rod end"] == ("20", "27", "76")
    assert by_term["harness"] == ("74", "24", "92")
    assert by_term["bottle"] == ("35", "26")
    assert by_term["pushrod"] == ()  # the chapters in its note are those of another pushrod
    assert by_term["dope"] == ()  # chapter 2 of a circular is no ATA chapter


def test_terms_are_parted_at_semicolons_and_lose_their_asides():
    assert split_terms("shock strut; shock absorber") == ("shock strut", "shock absorber")
    assert split_terms("manufacturer code (V + 5 characters)") == ("manufacturer code",)
    assert split_terms("") == ()


def test_everyday_words_and_actions_are_single_words_in_small_letters():
    for word in EVERYDAY | ACTIONS:
        assert word == word.casefold() and " " not in word
