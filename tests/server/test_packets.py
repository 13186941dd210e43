"""Job packets: what is collected stays in order, and says what changed since; nothing in it becomes a yes."""

import re

import pytest
from packet_shelf import FIRST, REGISTRATION, SECOND, opened
from revision_shelf import take_temporary

from indexer.errors import PageUnknown, PublicationUnknown
from indexer.library import fleet, packets
from indexer.library.packet_records import PacketItemKind
from indexer.library.packets import NewItem
from indexer.library.problems import (
    PacketClosed,
    PacketFull,
    PacketItemUnknown,
    PacketRefused,
    PacketUnknown,
)
from indexer.library.relations import relate
from server.packet_changes import Standing
from server.packets import (
    PacketAsked,
    Wanted,
    add_item,
    begin_packet,
    open_fields,
    packet_fields,
    standing_fields,
)
from server.sourcecheck import check


@pytest.fixture
def place(tmp_path):
    return tmp_path


@pytest.fixture
def shelf(place):
    library, manual = opened(place)
    with library:
        library.catch_up()
        yield library, manual


@pytest.fixture
def library(shelf):
    return shelf[0]


@pytest.fixture
def manual(shelf):
    return shelf[1]


@pytest.fixture
def packet(library, manual):
    """A packet for the aircraft with the manual's page 401 in it."""
    made = begin_packet(library, "WO 1174", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    return made


def later(library, take):
    """Something new is taken in, and relations and index follow."""
    take(library.catalogue)
    relate(library.catalogue)
    library.catch_up()


def page_item(page):
    return NewItem(PacketItemKind.PAGE, "p", page, page, "", f"page {page}")


def order(catalogue, packet_id):
    return [each.pdf_page for each in packets.packet(catalogue, packet_id).items]


def test_an_id_is_not_found_by_trying_and_is_easily_typed(library):
    made = [packets.begin(library.catalogue, "job").id for _ in range(50)]
    assert len(set(made)) == 50
    letters = {letter for each in made for letter in each} - {"-"}
    assert not letters & set("01oli"), "none that is taken for another"
    # 31 letters or figures, 12 of them: log2(31 ** 12) = 59.4 bits
    assert all(re.fullmatch(r"[2-9a-km-np-z]{4}(-[2-9a-km-np-z]{4}){2}", each) for each in made)


def test_items_are_moved_taken_out_and_put_back(library):
    catalogue = library.catalogue
    made = packets.begin(catalogue, "job").id
    first, second, third = (packets.add(catalogue, made, page_item(page))[0].id for page in (1, 2, 3))
    packets.move(catalogue, made, third, -1)
    assert order(catalogue, made) == [1, 3, 2]
    packets.move(catalogue, made, first, -1)
    assert order(catalogue, made) == [1, 3, 2], "at the top it stays"
    packets.move(catalogue, made, first, 5)
    assert order(catalogue, made) == [3, 2, 1]
    packets.remove(catalogue, made, second)
    assert order(catalogue, made) == [3, 1]
    packets.put_back(catalogue, made, second)
    assert order(catalogue, made) == [3, 2, 1]
    with pytest.raises(PacketItemUnknown):
        packets.put_back(catalogue, made, second)


def test_the_first_item_is_put_back_first(library):
    catalogue = library.catalogue
    made = packets.begin(catalogue, "job").id
    first = packets.add(catalogue, made, page_item(1))[0].id
    packets.add(catalogue, made, page_item(2))
    packets.remove(catalogue, made, first)
    packets.put_back(catalogue, made, first)
    assert order(catalogue, made) == [1, 2]


def test_the_same_thing_is_in_once_and_may_come_again_after_it_was_taken_out(library):
    catalogue = library.catalogue
    made = packets.begin(catalogue, "job").id
    item, new = packets.add(catalogue, made, page_item(1))
    assert new
    assert packets.add(catalogue, made, page_item(1)) == (item, False)
    packets.remove(catalogue, made, item.id)
    again, new = packets.add(catalogue, made, page_item(1))
    assert new and again.id != item.id


def test_a_closed_packet_is_read_and_not_changed(library, packet):
    catalogue = library.catalogue
    item = packets.packet(catalogue, packet).items[0].id
    packets.close(catalogue, packet)
    for change in (
        lambda: packets.add(catalogue, packet, page_item(9)),
        lambda: packets.move(catalogue, packet, item, 1),
        lambda: packets.note(catalogue, packet, item, "words"),
        lambda: packets.remove(catalogue, packet, item),
        lambda: packets.name_job(catalogue, packet, "other"),
    ):
        with pytest.raises(PacketClosed):
            change()
    assert packet_fields(library, packet)["standing"] == "closed"
    assert open_fields(library)["packets"] == []
    packets.reopen(catalogue, packet)
    packets.note(catalogue, packet, item, "see the torque")
    assert packets.packet(catalogue, packet).items[0].note == "see the torque"


def test_limits_are_said(library, manual, packet):
    catalogue = library.catalogue
    with pytest.raises(PacketRefused):
        packets.begin(catalogue, "x" * 201)
    with pytest.raises(PacketUnknown):
        packets.add(catalogue, "none", page_item(1))
    for page in range(packets.MOST_ITEMS - 1):
        packets.add(catalogue, packet, page_item(page + 100))
    with pytest.raises(PacketFull):
        packets.add(catalogue, packet, page_item(9999))
    for wanted, refusal in (
        (Wanted("page", manual, 99), PageUnknown),
        (Wanted("page", "nothing", 1), PublicationUnknown),
        (Wanted("thing", manual, 1), PacketAsked),
    ):
        with pytest.raises(refusal):
            add_item(library, packet, wanted)


def test_a_packet_makes_no_generation(library, manual):
    before = library.catalogue.generation
    made = begin_packet(library, "WO 1", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    packets.close(library.catalogue, made)
    assert library.catalogue.generation == before


def test_a_packet_never_changes_from_one_aircraft_to_another(library, packet):
    with pytest.raises(PacketRefused):
        packets.set_aircraft(library.catalogue, packet, "QX-0", "D44", "1")
    without = begin_packet(library, "")
    packets.set_aircraft(library.catalogue, without, REGISTRATION, "D44", "44-019")
    assert packets.packet(library.catalogue, without).serial == "44-019"


def test_nothing_changed_is_said_as_that_and_never_as_current(library, packet):
    found = packet_fields(library, packet)
    assert found["standing"] == Standing.CURRENT
    assert found["standing_words"] == ["Nothing that is held here has changed since the items were added."]
    page = found["items"][0]["now"]["pages"][0]
    assert page["current"]["state"] == "unknown"
    assert page["current"]["words"].startswith("Not known to be current.")
    assert page["standing"]["lead"] == "Not determined"


def test_a_newer_revision_makes_the_item_superseded_and_says_both(library, packet, place):
    later(library, lambda catalogue: SECOND.take(catalogue, place / "files"))
    found = packet_fields(library, packet)
    assert found["standing"] == "superseded"
    [said] = [each["words"] for each in found["items"][0]["changes"] if each["standing"] == "superseded"][:1]
    assert said == "Revision 6 then; since then: superseded by revision 7 of 1 December 2031."
    assert found["items"][0]["is_superseded"]


def test_what_was_superseded_when_it_was_added_is_no_less_so(library, manual, place):
    later(library, lambda catalogue: SECOND.take(catalogue, place / "files"))
    made = begin_packet(library, "WO 2", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    found = packet_fields(library, made)
    assert found["items"][0]["changes"] == []
    assert found["standing"] == "superseded"
    assert "superseded when it was added" in found["standing_words"][0]


def test_a_temporary_revision_that_came_later_changes_its_page_alone(library, manual, packet, place):
    add_item(library, packet, Wanted("page", manual, 3))
    later(
        library,
        lambda catalogue: take_temporary(
            catalogue, place / "files", "32-9", "2031-06-30", (FIRST.pages[0][0], "401")
        ),
    )
    first, second = packet_fields(library, packet)["items"]
    words = [each["words"] for each in first["changes"]]
    assert any(
        each.startswith("TR 32-9 changes this page (PDF page 2) since it was added.") for each in words
    )
    assert second["changes"] == []
    [override] = first["now"]["pages"][0]["overrides"]
    assert override["in_front"] and override["page"]["pdf_page"] == 1


def test_a_file_that_was_taken_out_is_said_to_be_gone(library, manual, packet):
    later(library, lambda catalogue: catalogue.remove(catalogue.publication(manual).copy_id))
    [item] = packet_fields(library, packet)["items"]
    assert not item["now"]["held"]
    assert item["name"] == "D4410-1, PDF page 2 (printed 401)", "what it was called then"
    assert item["changes"][0]["words"].startswith("Not held any more")
    assert item["is_superseded"]


@pytest.mark.parametrize("changed", [{"serial": "44-020"}, {"model": "D45"}])
def test_another_serial_in_the_fleet_list_makes_every_answer_cannot_tell(library, packet, changed):
    later(
        library, lambda catalogue: fleet.change(catalogue, REGISTRATION, "R. Quill", "plate read", **changed)
    )
    found = packet_fields(library, packet)
    assert found["aircraft_now"] is None
    assert "Look at the data plate." in found["aircraft_doubt"]
    assert found["items"][0]["now"]["applies"]["answer"] == "cannot tell"
    assert found["items"][0]["now"]["source"]["applies"]["answer"] == "cannot tell"
    assert found["standing"] == "changed"


def test_an_aircraft_that_left_the_fleet_list_is_said(library, packet):
    later(library, lambda catalogue: fleet.remove(catalogue, REGISTRATION, "R. Quill", "sold"))
    found = packet_fields(library, packet)
    assert found["aircraft_doubt"] == f"{REGISTRATION} is not in the fleet list any more."
    assert found["items"][0]["now"]["applies"]["answer"] == "cannot tell"


def test_a_finding_that_cannot_tell_stays_one(library, packet):
    made = check(library, "Replaced wheel nut IAW D4410-1 page 401", REGISTRATION, "major")
    add_item(library, packet, Wanted("finding", about=str(made.id)))
    item = packet_fields(library, packet)["items"][1]
    kept = made.fields()["citations"]
    assert kept, "the entry cites something"
    for shown, answered in zip(item["now"]["findings"], kept, strict=True):
        rows = {row["question"]: row["answer"] for row in shown["rows"]}
        assert rows["Enough for major work?"] == answered["enough"]["major"]["answer"]
        assert rows["Current?"] == answered["current"]["state"]
        assert rows["Applies to the aircraft?"] == answered["applies"]["answer"]
        assert "yes" not in (rows["Enough for major work?"], rows["Applies to the aircraft?"])


def test_a_finding_says_in_what_it_would_be_answered_otherwise_today(library, packet, place):
    made = check(library, "Replaced wheel nut IAW D4410-1 Rev 6 page 401", REGISTRATION, "minor")
    add_item(library, packet, Wanted("finding", about=str(made.id)))
    later(library, lambda catalogue: SECOND.take(catalogue, place / "files"))
    item = packet_fields(library, packet)["items"][1]
    assert item["is_superseded"]
    assert any("now superseded" in each["words"] for each in item["changes"])


def test_a_finding_that_was_asked_for_another_aircraft_says_so(library, packet):
    fleet.add(library.catalogue, "QX-8NP", "D44", "R. Quill", serial="44-020", maker="Corvane Aircraft")
    for registration in (REGISTRATION, "QX-8NP", ""):
        made = check(library, "Replaced wheel nut IAW D4410-1 Rev 6 page 401", registration, "minor")
        add_item(library, packet, Wanted("finding", about=str(made.id)))
    said = [each["now"]["other_aircraft"] for each in packet_fields(library, packet)["items"][1:]]
    assert said == [
        "",
        "This check was asked for QX-8NP: it does not say what holds for QX-7NP.",
        "This check was asked for no aircraft: it does not say what holds for QX-7NP.",
    ]


def test_the_standing_of_copies_is_asked_for_many_at_once(library, packet, place):
    other = begin_packet(library, "closed")
    packets.close(library.catalogue, other)
    before = standing_fields(library, [packet, other, "nope"])
    assert set(before) == {"library_state", "packets"}
    assert [(each["id"], each["standing"]) for each in before["packets"]] == [
        (packet, "current"),
        (other, "closed"),
        ("nope", "gone"),
    ]
    assert all(set(each) == {"id", "standing", "copy", "changed_at", "words"} for each in before["packets"])
    later(library, lambda catalogue: SECOND.take(catalogue, place / "files"))
    [now] = standing_fields(library, [packet])["packets"]
    assert now["standing"] == "superseded"
    assert now["changed_at"] > before["packets"][0]["changed_at"], "a copy made before must be replaced"
    with pytest.raises(PacketAsked):
        standing_fields(library, [str(each) for each in range(51)])
