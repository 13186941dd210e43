"""The shop's fleet list: added, changed, confirmed, removed, carried out as CSV and taken back in."""

import datetime

import pytest

from indexer.library import fleet, fleet_list
from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Fitted, FittedKind
from indexer.library.fleet_values import alike, day_given, key_of
from indexer.library.problems import AircraftUnknown, EntryRefused
from indexer.library.shop_lists import Imported

LEFT = Fitted(FittedKind.ENGINE, "Marl 260", "ML-0417", "Stanhope", "left")
RIGHT = Fitted(FittedKind.ENGINE, "Marl 260", "ML-0418", "Stanhope", "right")
HATCH = Fitted(FittedKind.ALTERATION, "SA90412ZZ", note="camera hatch")
DAY = datetime.date(2024, 3, 4)
CSV = """registration,kind,position,maker,model,serial,note,confirmed_on,confirmed_by
QX-1AB,aircraft,,Aldermoor,QZ62,QZ-077,,2024-03-04,R. Quill
QX-1AB,engine,left,Stanhope,Marl 260,ML-0417,,,
QX-1AB,engine,right,Stanhope,Marl 260,ML-0418,"overhauled, 2025",,
QX-2CD,aircraft,,Pellworth,H-14,,serial plate unreadable,2024-03-05,M. Ohler
"""


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def other(tmp_path):
    with Catalogue.open(tmp_path / "other", create=True) as opened:
        yield opened


def twin(catalogue, registration="QX-1AB", **rest):
    given = {"serial": "QZ-077", "fitted": (LEFT, RIGHT), "confirmed_on": DAY, **rest}
    return fleet.add(catalogue, registration, "QZ62", "R. Quill", **given)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("QX-1AB", "qx1ab", True),
        ("QX-1AB", " Qx\u20111 ab ", True),  # a dash that does not break, and blanks
        ("QX-1AB", "QX-IAB", False),  # I is not 1
        ("QX-O1", "QX-01", False),  # O is not 0
        ("QX-1AB", "QX-1ABC", False),
    ],
)
def test_what_two_registrations_have_in_common(one, other, same):
    assert (key_of(one) == key_of(other)) is same


def test_an_aircraft_is_added_found_and_removed(catalogue):
    added = twin(catalogue, " qx-1ab ")
    assert (added.registration, added.model, added.serial) == ("QX-1AB", "QZ62", "QZ-077")
    assert (added.fitted, added.confirmed_on, added.confirmed_by) == ((LEFT, RIGHT), DAY, "R. Quill")
    assert fleet.fleet(catalogue) == [added] == [fleet.aircraft(catalogue, "QX1AB")]
    assert fleet.remove(catalogue, "qx1ab", "M. Ohler", "sold") == added
    assert fleet.fleet(catalogue) == []
    assert catalogue.database.connection().execute("SELECT count(*) FROM fitted").fetchone()[0] == 0
    first, last = catalogue.history()
    assert (first.event, last.event) == ("aircraft added", "aircraft removed")
    assert "QX-1AB: QZ62; serial QZ-077; engine left Stanhope Marl 260 serial ML-0417" in last.detail
    assert last.detail.endswith("confirmed 2024-03-04 by R. Quill -> none. Why: sold")


def test_a_registration_not_in_the_list_is_an_error_and_a_look_alike_is_named_and_not_taken(catalogue):
    twin(catalogue)
    assert alike("QX-1AB", "QX-IAB") and not alike("QX-1AB", "QX1AB")
    with pytest.raises(AircraftUnknown) as problem:
        fleet.aircraft(catalogue, "qx-iab")
    assert "«qx-iab» is not in" in problem.value.what and "QX-1AB" in problem.value.remedy
    for given in ("", "-", "QX-9ZZ"):
        with pytest.raises(AircraftUnknown) as problem:
            fleet.aircraft(catalogue, given)
        assert "kept apart" not in problem.value.remedy


def test_two_aircraft_may_differ_by_a_letter_that_looks_like_a_figure(catalogue):
    twin(catalogue, "QX-1AB")
    twin(catalogue, "QX-IAB", serial="QZ-078")
    assert fleet.aircraft(catalogue, "qxiab").serial == "QZ-078"
    with pytest.raises(EntryRefused, match="QX-IAB is in the fleet list already"):
        twin(catalogue, "QXIAB")


def test_a_change_keeps_the_day_of_confirmation_and_says_what_was_before(catalogue):
    twin(catalogue)
    changed = fleet.change(catalogue, "QX-1AB", "M. Ohler", "read off the plate", serial="QZ-078")
    assert (changed.serial, changed.confirmed_on, changed.fitted) == ("QZ-078", DAY, (LEFT, RIGHT))
    act = catalogue.history()[-1]
    assert act.event == "aircraft changed" and act.detail.startswith("M. Ohler: ")
    before, after = act.detail.split(" -> ")
    assert "serial QZ-077" in before and "serial QZ-078" in after and "Why: read off the plate" in after
    with pytest.raises(EntryRefused, match="nothing of QX-1AB would change"):
        fleet.change(catalogue, "QX-1AB", "M. Ohler", "again", serial="QZ-078")
    renamed = fleet.change(catalogue, "QX-1AB", "M. Ohler", "new marks", new_registration="QX-7EF")
    assert renamed.id == changed.id and fleet.fleet(catalogue) == [renamed]
    cleared = fleet.change(catalogue, "QX-7EF", "M. Ohler", "plate is gone", serial="", fitted=())
    assert (cleared.serial, cleared.fitted) == ("", ())


def test_a_row_is_confirmed_on_a_day_by_a_person(catalogue):
    twin(catalogue)
    confirmed = fleet.confirm(catalogue, "QX-1AB", "M. Ohler", "2024-04-01")
    assert (confirmed.confirmed_on, confirmed.confirmed_by) == (datetime.date(2024, 4, 1), "M. Ohler")
    assert catalogue.history()[-1].event == "aircraft confirmed"
    with pytest.raises(EntryRefused, match="later than 2024-03-05"):
        fleet.confirm(catalogue, "QX-1AB", "M. Ohler", "2024-03-05")
    assert fleet.confirm(catalogue, "QX-1AB", "R. Quill").confirmed_on == datetime.date.today()
    assert day_given("", datetime.date(2030, 1, 1)) == datetime.date(2030, 1, 1)


def test_an_engine_takes_the_place_of_another(catalogue):
    twin(catalogue)
    other = Fitted(FittedKind.ENGINE, "Marl 260", "ML-0900", "Stanhope", "left")
    with pytest.raises(EntryRefused, match="2 engines at «left»"):
        fleet.fit(catalogue, "QX-1AB", other, "M. Ohler", "swapped")
    swapped = fleet.fit(catalogue, "QX-1AB", other, "M. Ohler", "swapped", instead=True)
    assert set(swapped.fitted) == {RIGHT, other}
    assert HATCH in fleet.fit(catalogue, "QX-1AB", HATCH, "M. Ohler", "hatch fitted").fitted
    with pytest.raises(EntryRefused, match="2 of what is fitted"):
        fleet.unfit(catalogue, "QX-1AB", FittedKind.ENGINE, "M. Ohler", "taken off")
    with pytest.raises(EntryRefused, match="no such propeller"):
        fleet.unfit(catalogue, "QX-1AB", FittedKind.PROPELLER, "M. Ohler", "taken off")
    left = fleet.unfit(catalogue, "QX-1AB", FittedKind.ENGINE, "M. Ohler", "taken off", position="Left")
    assert set(left.fitted) == {RIGHT, HATCH}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"registration": ""}, "no registration"),
        ({"registration": "QX/1AB"}, "is no registration"),
        ({"registration": "Q" * 30}, "is no registration"),
        ({"model": " "}, "no model is given for QX-1AB"),
        ({"serial": "qx1ab"}, "the registration is given for the serial number"),
        ({"who": " "}, "no name"),
        ({"confirmed_on": "2999-01-01"}, "2999-01-01 lies in the future"),
        ({"confirmed_on": "4.3.2024"}, "«4.3.2024» is no date"),
        ({"note": "x" * 2000}, "too long"),
        ({"fitted": (Fitted(FittedKind.ENGINE, ""),)}, "an engine of QX-1AB has no model"),
        ({"fitted": (Fitted(FittedKind.PROPELLER, " "),)}, "a propeller of QX-1AB has no model"),
        ({"fitted": (Fitted(FittedKind.ALTERATION, ""),)}, "has no number or name"),
        ({"fitted": (Fitted(FittedKind.ENGINE, "A"), Fitted(FittedKind.ENGINE, "B"))}, "without a position"),
        ({"fitted": (LEFT, Fitted(FittedKind.ENGINE, "B"))}, "has no position, and there are 2"),
        ({"fitted": (HATCH, HATCH)}, "«SA90412ZZ» twice"),
    ],
)
def test_a_wrong_row_is_refused_and_nothing_is_kept(catalogue, change, says):
    given = {"registration": "QX-1AB", "model": "QZ62", "who": "R. Quill", **change}
    with pytest.raises(EntryRefused, match=says):
        fleet.add(catalogue, **given)
    assert fleet.fleet(catalogue) == [] and catalogue.history() == []


def test_removing_and_changing_take_a_name_and_a_reason(catalogue):
    twin(catalogue)
    with pytest.raises(EntryRefused, match="no reason"):
        fleet.remove(catalogue, "QX-1AB", "R. Quill", " ")
    with pytest.raises(EntryRefused, match="no name"):
        fleet.change(catalogue, "QX-1AB", "", "why", model="QZ62S")
    with pytest.raises(AircraftUnknown):
        fleet.remove(catalogue, "QX-2CD", "R. Quill", "sold")
    assert len(fleet.fleet(catalogue)) == 1


def test_the_list_goes_out_and_comes_back_as_it_was(catalogue, other):
    assert fleet_list.import_csv(catalogue, CSV, "M. Ohler") == Imported(2, 0)
    assert fleet_list.export_csv(catalogue) == CSV
    assert fleet_list.import_csv(other, CSV, "R. Quill") == Imported(2, 0)
    assert fleet.fleet(other) == fleet.fleet(catalogue)
    generation = other.generation
    assert fleet_list.import_csv(other, CSV, "R. Quill") == Imported(0, 2)
    assert other.generation == generation


def test_a_line_without_day_is_entered_by_the_importer_and_confirmed_by_nobody(catalogue):
    text = "\ufeffmodel;kind;registration".replace(";", ",") + "\r\nH-14,Aircraft,qx-3ef\r\n"
    assert fleet_list.import_csv(catalogue, text, "M. Ohler").added == 1
    (row,) = fleet.fleet(catalogue)
    assert (row.registration, row.confirmed_by) == ("QX-3EF", "M. Ohler")
    assert row.confirmed_on is None
    carried = fleet_list.export_csv(catalogue)
    assert fleet_list.import_csv(catalogue, carried, "R. Quill").already == 1, "taken back as it is"
    fleet.confirm(catalogue, "QX-3EF", "R. Quill", DAY)
    assert fleet_list.import_csv(catalogue, carried, "M. Ohler").already == 1
    assert fleet.aircraft(catalogue, "QX-3EF").confirmed_on == DAY, "a line without a day takes none away"


def test_adding_and_changing_confirm_nothing(catalogue):
    """Only a person who held the row against the aircraft confirms it; common practice, no source."""
    added = fleet.add(catalogue, "QX-1AB", "QZ62", "R. Quill")
    assert (added.confirmed_on, added.confirmed_by) == (None, "R. Quill")
    changed = fleet.change(catalogue, "QX-1AB", "M. Ohler", "data plate read", serial="QZ-077")
    assert (changed.confirmed_on, changed.confirmed_by) == (None, "R. Quill")
    assert catalogue.history()[-1].detail.count("entered by R. Quill, never confirmed") == 2
    assert fleet.confirm(catalogue, "QX-1AB", "M. Ohler", "2020-01-01").confirmed_by == "M. Ohler"


def test_what_the_list_says_otherwise_is_changed_with_a_reason_only(catalogue):
    fleet_list.import_csv(catalogue, CSV, "M. Ohler")
    changed = CSV.replace("QZ-077", "QZ-078")
    refused = fleet_list.import_csv(catalogue, changed, "M. Ohler")
    assert [problem.line for problem in refused.problems] == [2] and refused.added == 0
    assert "QX-1AB is in the list and says otherwise" in refused.problems[0].what
    assert fleet.aircraft(catalogue, "QX-1AB").serial == "QZ-077"
    assert fleet_list.import_csv(catalogue, changed, "M. Ohler", "plate read") == Imported(0, 1, changed=1)
    assert fleet.aircraft(catalogue, "QX-1AB").serial == "QZ-078"
    assert "Why: plate read. Imported" in catalogue.history()[-1].detail


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("QX-1AB,aircraft,,,H-14,,,,", "stands on line 2 already"),
        ("qx1ab,aircraft,,,H-14,,,,", "stands on line 2 already"),
        ("QX-9ZZ,engine,,,A,,,,", "no line of the kind aircraft stands here for «QX-9ZZ»"),
        ("QX-1AB,motor,,,A,,,,", "«motor» is no kind of line"),
        ("QX-1AB,propeller,left,,,,,,", "no model is given for the propeller"),
        ("QX-1AB,propeller,left,,A,,,2024-01-01,", "belong on the line of the aircraft"),
        ("QX-5AA,aircraft,left,,A,,,,", "an aircraft has no position"),
        ("QX-5AA,aircraft,,,,,,,", "no model is given for QX-5AA"),
        ("QX-5AA,aircraft,,,A,,,2999-01-01,", "lies in the future"),
        ("QX-5AA,aircraft,,,A,,,soon,", "is no date"),
        (",aircraft,,,A,,,,", "no registration"),
        ("QX-5AA,aircraft,,,A,,,,,,,", "fields stand under"),
    ],
)
def test_every_wrong_line_is_named_and_nothing_is_taken(catalogue, line, says):
    refused = fleet_list.import_csv(catalogue, f"{CSV}{line}\nQX-6BB,blimp,,,A,,,,\n", "M. Ohler")
    assert refused.added == 0 and fleet.fleet(catalogue) == [] and catalogue.history() == []
    assert [problem.line for problem in refused.problems] == [6, 7]
    assert says in refused.problems[0].what


def test_a_wrong_head_is_named(catalogue):
    refused = fleet_list.import_csv(catalogue, "tail,model\nQX,H-14\n", "M. Ohler")
    assert [problem.line for problem in refused.problems] == [1, 1, 1]
    assert "there is no column «registration»" in refused.problems[0].what
