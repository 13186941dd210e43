"""Persons, their passcodes and sign-ins. All of them are invented."""

import datetime

import pytest
from making import take
from shop import DATE, manual

from indexer.library import passcodes, people, sign_ins
from indexer.library.catalogue import Catalogue
from indexer.library.person_records import Role
from indexer.library.problems import EntryRefused, PersonUnknown, SecondPersonRefused
from indexer.library.records import EntryKind, EntryState
from indexer.library.shop_entries import add_entry, second_entry

PASSCODE = "four sorts of rivet"
OTHER = "a wet bleed nipple"


@pytest.fixture
def catalogue(tmp_path):
    with Catalogue.open(tmp_path / "library", create=True) as opened:
        yield opened


@pytest.fixture
def named(catalogue):
    people.add(catalogue, "Rosa Quill", "librarian", PASSCODE, "Rosa Quill")
    people.add(catalogue, "Ivo Brandt", "inspector", OTHER, "Rosa Quill")
    return catalogue


# RFC 7914, section 12: the first, second and third vector (from the document).
@pytest.mark.parametrize(
    ("passcode", "salt", "cost", "block", "parallel", "wanted"),
    [
        ("", b"", 16, 1, 1, "77d6576238657b203b19ca42c18a0497f16b4844e3074ae8dfdffa3fede21442"),
        (
            "password",
            b"NaCl",
            1024,
            8,
            16,
            "fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b373162",
        ),
        (
            "pleaseletmein",
            b"SodiumChloride",
            16384,
            8,
            1,
            "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2",
        ),
    ],
)
def test_a_passcode_is_hashed_as_the_standard_says(passcode, salt, cost, block, parallel, wanted):
    made = passcodes.hashed(passcode, salt, cost, block, parallel)
    assert len(made) == 64 and made.hex().startswith(wanted)


# NIST SP 800-63B, 5.1.1.2 (from memory): eight characters at least, and one form for what looks alike.
@pytest.mark.parametrize(
    "passcode",
    ["", "rivets7", "  rivet7  ", "aaaaaaaaaaaa", "12121212", "rosa quill", "ROSA QUILL", "x" * 129],
)
def test_what_is_no_passcode_is_refused_and_not_repeated(catalogue, passcode):
    with pytest.raises(EntryRefused) as refused:
        people.add(catalogue, "Rosa Quill", "librarian", passcode, "Rosa Quill")
    assert not passcode.strip() or passcode.strip() not in str(refused.value)
    assert not people.any_named(catalogue)


def test_a_passcode_typed_with_other_letters_of_the_same_look_is_the_same(catalogue):
    people.add(catalogue, "Rosa Quill", "librarian", "cafe\u0301 au hangar", "Rosa Quill")
    assert people.with_passcode(catalogue, "Rosa Quill", "caf\u00e9 au hangar")


def test_a_person_is_named_and_known_by_the_passcode_alone(named):
    assert [(one.name, one.role) for one in people.persons(named)] == [
        ("Ivo Brandt", Role.INSPECTOR),
        ("Rosa Quill", Role.LIBRARIAN),
    ]
    assert people.with_passcode(named, " rosa  quill", PASSCODE).name == "Rosa Quill"
    for name, passcode in (("Rosa Quill", OTHER), ("Ivo Brandt", PASSCODE), ("Nobody", PASSCODE), ("", "")):
        assert people.with_passcode(named, name, passcode) is None


def test_no_act_makes_a_generation_and_every_one_stands_in_the_history_without_passcodes(named):
    people.change_passcode(named, "Ivo Brandt", "another hydraulic tale", "Rosa Quill")
    people.end(named, "Ivo Brandt", "Rosa Quill")
    assert named.generation == 0
    told = [(entry.event, entry.detail) for entry in named.history()]
    assert told == [
        ("person named", "Rosa Quill: Rosa Quill, librarian"),
        ("person named", "Rosa Quill: Ivo Brandt, inspector"),
        ("passcode changed", "Rosa Quill: of Ivo Brandt"),
        ("person ended", "Rosa Quill: Ivo Brandt, inspector"),
    ]
    named.close()
    kept = b"".join(path.read_bytes() for path in named.folder.iterdir() if path.is_file())
    assert b"Rosa Quill" in kept
    for passcode in (PASSCODE, OTHER, "another hydraulic tale"):
        assert passcode.encode() not in kept


def test_five_wrong_passcodes_lock_a_name_for_a_while(named, monkeypatch):
    for _ in range(people.TRIES - 1):
        assert people.with_passcode(named, "Ivo Brandt", "wrong wrong") is None
    assert people.with_passcode(named, "Ivo Brandt", OTHER), "four wrong ones do not"
    for _ in range(people.TRIES):
        assert people.with_passcode(named, "Ivo Brandt", "wrong wrong") is None
    assert people.with_passcode(named, "Ivo Brandt", OTHER) is None, "locked: the right one does not help"
    assert people.person_called(named, "Ivo Brandt").locked_until
    assert people.with_passcode(named, "Rosa Quill", PASSCODE), "another name is not locked"
    assert [entry.detail for entry in named.history() if entry.event == "person locked"] == [
        "Ivo Brandt: 5 wrong passcodes"
    ]
    later = datetime.datetime.now(datetime.UTC) + datetime.timedelta(minutes=people.LOCKED_MINUTES, seconds=1)
    monkeypatch.setattr("indexer.library.rows.now", lambda: later.isoformat(timespec="milliseconds"))
    assert people.with_passcode(named, "Ivo Brandt", OTHER)


def test_a_new_passcode_ends_a_lock_and_every_sign_in(named):
    token = sign_ins.sign_in(named, people.person_called(named, "Ivo Brandt"), 8)
    for _ in range(people.TRIES):
        people.with_passcode(named, "Ivo Brandt", "wrong wrong")
    people.change_passcode(named, "Ivo Brandt", "another hydraulic tale", "Rosa Quill")
    assert sign_ins.signed_in(named, token) is None
    assert people.with_passcode(named, "Ivo Brandt", OTHER) is None
    assert people.with_passcode(named, "Ivo Brandt", "another hydraulic tale")


def test_an_unknown_name_costs_what_a_wrong_passcode_costs(named, monkeypatch):
    """Counted, not timed: both are hashed once, with the same parameters."""
    seen = []
    hashing = passcodes.hashed
    monkeypatch.setattr(passcodes, "hashed", lambda *given: seen.append(len(given[1])) or hashing(*given))
    for name in ("Rosa Quill", "Nobody At All"):
        assert people.with_passcode(named, name, "wrong wrong") is None
    assert len(seen) == 2 and seen[0] == seen[1]


@pytest.mark.parametrize(
    ("name", "role", "says"),
    [
        ("Rosa Quill", "inspector", "named already"),
        ("ROSA  QUILL", "inspector", "named already"),
        ("R. Quill", "inspector", "may be one person"),
        ("Quill, Rosa", "inspector", "may be one person"),
        ("Mo Ohler", "foreman", "no role"),
        (" . ", "inspector", "no name"),
    ],
)
def test_a_name_must_be_told_from_every_other(named, name, role, says):
    with pytest.raises(EntryRefused, match=says):
        people.add(named, name, role, PASSCODE, "Rosa Quill")
    assert len(people.persons(named)) == 2


def test_there_is_always_a_librarian(catalogue):
    with pytest.raises(EntryRefused, match="no librarian yet"):
        people.add(catalogue, "Ivo Brandt", "inspector", PASSCODE, "Ivo Brandt")
    people.add(catalogue, "Rosa Quill", "librarian", PASSCODE, "Rosa Quill")
    people.add(catalogue, "Ivo Brandt", "inspector", PASSCODE, "Rosa Quill")
    with pytest.raises(EntryRefused, match="last librarian"):
        people.end(catalogue, "Rosa Quill", "Rosa Quill")
    people.end(catalogue, "Ivo Brandt", "Rosa Quill")
    people.end(catalogue, "Rosa Quill", "Rosa Quill")
    assert not people.any_named(catalogue)


def test_an_ended_person_signs_in_no_more_and_the_name_stays_theirs(named):
    token = sign_ins.sign_in(named, people.person_called(named, "Ivo Brandt"), 8)
    people.end(named, "Ivo Brandt", "Rosa Quill")
    assert sign_ins.signed_in(named, token) is None
    assert people.with_passcode(named, "Ivo Brandt", OTHER) is None
    with pytest.raises(PersonUnknown):
        people.change_passcode(named, "Ivo Brandt", PASSCODE, "Rosa Quill")
    with pytest.raises(EntryRefused, match="may be one person"):
        people.add(named, "I. Brandt", "inspector", OTHER, "Rosa Quill")
    again = people.add(named, "Ivo Brandt", "librarian", PASSCODE, "Rosa Quill")
    assert again.role is Role.LIBRARIAN and len(people.persons(named)) == 2
    assert sign_ins.signed_in(named, token) is None, "a sign-in of before does not come back"


def test_a_sign_in_runs_out_and_its_token_is_not_kept(named):
    rosa = people.person_called(named, "Rosa Quill")
    token, over = sign_ins.sign_in(named, rosa, 8), sign_ins.sign_in(named, rosa, -0.001)
    assert sign_ins.signed_in(named, token).name == "Rosa Quill"
    assert sign_ins.signed_in(named, over) is None
    assert sign_ins.signed_in(named, "") is None and sign_ins.signed_in(named, token[:-1]) is None
    with named.reading() as connection:
        kept = [tuple(row) for row in connection.execute("SELECT * FROM sign_in")]
    assert token not in str(kept) and sign_ins.token_hash(token) in str(kept)
    sign_ins.sign_out(named, token)
    assert sign_ins.signed_in(named, token) is None


def test_two_persons_that_are_named_are_two_and_one_is_one(catalogue, tmp_path):
    copy_id = take(catalogue, tmp_path, manual("6", DATE(2030, 3, 1))).copy_id
    typed = add_entry(catalogue, copy_id, 1, "R. Quill", "seen", EntryKind.REVISION, "B")
    people.add(catalogue, "Rosa Quill", "librarian", PASSCODE, "Rosa Quill")
    people.add(catalogue, "Rolf Q. Brandt", "inspector", OTHER, "Rosa Quill")
    with pytest.raises(SecondPersonRefused):  # the first was typed and may be her own
        second_entry(catalogue, typed.id, "Rosa Quill")
    assert second_entry(catalogue, typed.id, "Rolf Q. Brandt").state is EntryState.IN_FORCE
    hers = add_entry(catalogue, copy_id, 1, "Rosa Quill", "seen", EntryKind.DATE, "2031-02-20")
    with pytest.raises(SecondPersonRefused):
        second_entry(catalogue, hers.id, "Rosa Quill")
    assert second_entry(catalogue, hers.id, "Rolf Q. Brandt").second == "Rolf Q. Brandt"
