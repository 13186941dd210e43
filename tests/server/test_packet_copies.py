"""What a copy of a packet on a tablet is worth: it is replaced whenever the packet says anything else today.

14 CFR 39.11 and 39.13: a directive counts from its effective date. AD 2030-19-04 of the samples is effective
on 21 October 2030 and is the only thing that approves Pellworth bulletin 27 (its truth files).
"""

import datetime
import re
import shutil
from dataclasses import replace

import pytest
from asking import Client
from markupsafe import escape
from packet_shelf import FIRST, REGISTRATION, SECOND, opened
from revision_shelf import take_temporary
from test_day_of_answers import EFFECTIVE, LINE, NOT_YET, library_of

from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.generations import set_meta
from indexer.library.relations import relate
from indexer.settings import Settings
from server.app import create_app
from server.opened import OpenedLibrary
from server.packet_plan import plan
from server.packets import Wanted, add_item, begin_packet, packet_fields, standing_fields
from server.page_lookup import passages_on
from server.routes.shown import state_of
from server.sourcecheck import check


def copy_of(library, packet):
    [found] = standing_fields(library, [packet])["packets"]
    return found["copy"]


def day_begins(library, day):
    """Another day, and nothing else: the library stays as it is."""
    with library.catalogue.database.writing() as connection:
        set_meta(connection, "demonstration_day", day.isoformat())


@pytest.fixture(scope="module")
def eve(tmp_path_factory):
    """The library on the day before the directive takes effect."""
    with library_of(tmp_path_factory.mktemp("eve") / "library", EFFECTIVE - datetime.timedelta(1)) as opened:
        fleet.add(opened.catalogue, "N14PW", "H-14", "R. Quill", "H-120", "Pellworth")
        yield opened


@pytest.fixture
def before(eve):
    day_begins(eve, EFFECTIVE - datetime.timedelta(1))
    return eve


@pytest.fixture(scope="module")
def not_yet(eve):
    """A passage that the directive will approve."""
    with eve.reading():
        passages = (
            each
            for owner in eve.publications()
            for page in range(owner.first_page, owner.last_page + 1)
            for each in passages_on(eve.catalogue, owner, page)
        )
        return next(each for each in passages if NOT_YET in each.standing.conditions)


def test_the_day_on_which_a_directive_begins_to_bind_makes_every_copy_old(before, not_yet):
    packet = begin_packet(before, "WO 9", "N14PW")
    add_item(before, packet, Wanted("passage", about=not_yet.id))
    [then] = standing_fields(before, [packet])["packets"]
    state = state_of(before)
    day_begins(before, EFFECTIVE)
    [now] = standing_fields(before, [packet])["packets"]
    assert state_of(before).generation == state.generation
    assert state_of(before).mark != state.mark, "an open page and the service worker learn of it"
    assert (then["standing"], now["standing"]) == ("current", "changed")
    assert now["copy"] != then["copy"]
    assert f"Said of its standing then, and not now: {NOT_YET}" in "".join(now["words"])


def test_a_finding_is_asked_again_on_a_new_day(before):
    packet = begin_packet(before, "WO 10", "N14PW")
    made = check(before, LINE, "N14PW", "major")
    add_item(before, packet, Wanted("finding", about=str(made.id)))
    [then] = packet_fields(before, packet)["items"]
    day_begins(before, EFFECTIVE)
    [now] = packet_fields(before, packet)["items"]
    assert then["changes"] == []
    assert now["changes"], "on the day the directive binds the answer is another"


def test_what_is_not_in_force_yet_is_said_wherever_a_packet_names_the_standing(before, not_yet):
    packet = begin_packet(before, "WO 11", "N14PW")
    add_item(before, packet, Wanted("passage", about=not_yet.id))
    made = check(before, LINE, "N14PW", "major")
    add_item(before, packet, Wanted("finding", about=str(made.id)))
    [answered] = packet_fields(before, packet)["items"][1]["now"]["findings"]
    told = [*answered["conditions"], *answered["directives"]]
    assert any("21 October 2030" in words for words in told)
    browser = Client(create_app(before, Settings()))
    for address in (f"/packets/{packet}", f"/packets/{packet}/copy"):
        passage, finding = re.findall(r"<article.*?</article>", browser.get(address).text, re.DOTALL)
        assert "Approved data" in passage and NOT_YET in passage, address
        for words in told:
            assert str(escape(words)) in finding, address


@pytest.fixture
def shelf(tmp_path):
    library, manual = opened(tmp_path)
    with library:
        library.catch_up()
        yield library, manual, tmp_path


@pytest.fixture
def packet(shelf):
    library, manual, _ = shelf
    made = begin_packet(library, "WO 1174", REGISTRATION)
    add_item(library, made, Wanted("page", manual, 2))
    return made


def later(library, take):
    take(library.catalogue)
    relate(library.catalogue)
    library.catch_up()


def test_a_copy_made_while_an_entry_stood_is_old_when_the_entry_is_undone(shelf, packet):
    """The packet is then as it was when it was put together: no time of any change would tell."""
    library, manual, place = shelf
    first = copy_of(library, packet)
    temporary = (FIRST.pages[0][0], "401")
    later(
        library,
        lambda catalogue: take_temporary(catalogue, place / "files", "32-9", "2031-06-30", temporary),
    )
    between = copy_of(library, packet)
    [other] = [each for each in library.publications() if each.id != manual]
    later(library, lambda catalogue: catalogue.remove(other.copy_id))
    assert packet_fields(library, packet)["standing"] == "current"
    assert copy_of(library, packet) == first != between


def test_nothing_but_time_leaves_a_copy_as_it_is(shelf, packet):
    library, _, place = shelf
    first = copy_of(library, packet)
    begin_packet(library, "another")
    other = replace(FIRST, number="D9999-9", name="another")
    later(library, lambda catalogue: other.take(catalogue, place / "files"))
    assert copy_of(library, packet) == first


def test_a_library_brought_back_from_a_backup_bears_another_mark_at_the_same_generation(shelf, packet):
    library, _, place = shelf
    backup = shutil.copytree(library.folder, place / "backup")
    later(library, lambda catalogue: SECOND.take(catalogue, place / "files"))
    with Catalogue.open(backup) as catalogue:
        take_temporary(catalogue, place / "files", "32-9", "2031-06-30", (FIRST.pages[0][0], "401"))
        relate(catalogue)
    with OpenedLibrary.open(backup, Settings()) as restored:
        now, then = state_of(restored), state_of(library)
        assert (now.library, now.generation) == (then.library, then.generation)
        assert now.mark != then.mark
        assert copy_of(restored, packet) != copy_of(library, packet)


def test_each_sheet_of_a_printed_copy_says_that_it_may_be_superseded(shelf, packet):
    library, _, place = shelf
    temporary = (FIRST.pages[0][0], "401")
    later(
        library,
        lambda catalogue: take_temporary(catalogue, place / "files", "32-9", "2031-06-30", temporary),
    )
    browser = Client(create_app(library, Settings()))
    page = browser.get(f"/packets/{packet}/copy").text
    styles = browser.get(re.search(r'href="([^"]+packets\.css)"', page)[1]).text
    figures = re.findall(r"<figure.*?</figure>", page, re.DOTALL)
    assert len(figures) == 2, "the temporary revision and its page"
    for figure in figures:
        assert re.search(r'class="on-paper">Copy of [^<]+: may be superseded since\.<', figure)
        assert 'class="applies' in figure and "Not determined" in figure
    assert re.search(
        r"@media print \{[^}]*header\.copied \{ display: block; \}[^}]*\.on-paper \{ display: block", styles
    )


def collected(name, lead, applies):
    """A passage on page 4 of one manual, as `packet_fields` has it."""
    answer = {"answer": applies, "why": f"{name} says so.", "quote": ""}
    worth = {"lead": lead, "why": "Printed:", "quote": "", "quote_place": "", "notes": []}
    page = {
        "pdf_page": 4,
        "printed_page": "204",
        "current": {"state": "unknown", "words": "Not known to be current."},
        "standing": {"lead": lead, "parts": [worth]},
        "applies": {"answer": "cannot tell", "why": "Not the same for the whole page.", "quote": ""},
        "overrides": [],
        "not_read": "",
        "read_by_ocr": False,
    }
    source = {"id": "m", "copy_id": "m", "short": "D44", "name": "D44: Manual", "kind": "Manual, Rev 6"}
    now = {"held": True, "called": name, "source": source, "pages": [page], "applies": answer}
    changes = [{"words": f"{name} changed."}]
    return {"kind": "passage", "name": name, "note": "", "changes": changes, "now": now}


def test_a_page_of_several_passages_says_what_holds_for_each():
    """The page comes once: the standing of its first passage must not be read as that of the second."""
    items = [
        collected("Repair 4", "Approved data", "applies"),
        collected("Note 5", "Information only", "does not apply"),
    ]
    [sheet] = plan({"items": items, "aircraft": "QX-7NP"})
    lines = [each.words for each in sheet.lines]
    for words in (
        "Repair 4: Approved data. Printed:",
        "Repair 4: Applies to QX-7NP: Repair 4 says so.",
        "Note 5: Information only. Printed:",
        "Note 5: DOES NOT APPLY to QX-7NP: Note 5 says so.",
        "Since it was added: Note 5 changed.",
        "Cannot tell for QX-7NP: Not the same for the whole page.",
    ):
        assert words in lines, lines
    assert not any(each.startswith("Approved data") for each in lines)
