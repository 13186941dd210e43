"""A directive that names a bulletin, for an aircraft of which it cannot be told whether it applies.

Documents: sample_docs/README.md. A directive applies to the products it names alone (14 CFR 39.3).
"""

import pytest
from worked.shelf import SAMPLES

from indexer.ingest import ingest
from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.packet_records import PacketItemKind
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.demo import DAY
from server.opened import OpenedLibrary, index_folder
from server.packet_cover import Writing, _source
from server.packet_fonts import use_fonts
from server.packets import Wanted, add_item, begin_packet, packet_fields
from server.routes.finding_view import finding_view
from server.sourcecheck import check

NO_SERIAL, REACHED = "N63QZ", "N62QZ"
LINE = "SB QZ62-32-0114 Rev B"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    place = tmp_path_factory.mktemp("reach") / "library"
    with Catalogue.open(place, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    settings = Settings(library=str(place))
    engine = WhooshEngine(index_folder(place), settings.search_cache_mb)
    names = ("sb-qz62-32-0114-rev-b", "ad-2031-07-11", "sb-qz62-52-0093-rev-a", "ad-2032-03-05")
    files = [f"{name}.pdf" for name in names]
    assert not ingest([SAMPLES / name for name in files], place, settings, engine=engine).refused
    with OpenedLibrary.open(place, Settings()) as library:
        fleet.add(library.catalogue, NO_SERIAL, "QZ62", "R. Quill", "", "Aldermoor")
        fleet.add(library.catalogue, REACHED, "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        yield library


def row(library, aircraft, line=LINE):
    answer = check(library, line, aircraft, "minor", keep=False).fields()
    return finding_view(1, answer["citations"][0], answer)


def test_the_check_says_that_it_cannot_be_told_whether_a_directive_applies(shelf):
    view = row(shelf, NO_SERIAL)
    (said,) = [each.answer for each in view.rows if each.question == "Directive?"]
    cannot = f"Names it; whether it applies to {NO_SERIAL} cannot be told"
    assert cannot in said and "Requires it" not in said
    assert "2031-07-11" in said, "it names the item all the same"
    assert any(cannot == each.level for each in view.directives)


def test_one_that_reaches_the_aircraft_by_model_and_serial_requires_it(shelf):
    view = row(shelf, REACHED, "SB QZ62-52-0093 Rev A")
    (said,) = [each.answer for each in view.rows if each.question == "Directive?"]
    assert "Requires it" in said and "2032-03-05" in said and "cannot be told" not in said


def test_one_that_hangs_on_a_part_fitted_cannot_be_told_from_model_and_serial(shelf):
    """AD 2031-07-11 (c): airplanes "that have a brake assembly with part number ... installed"."""
    (said,) = [each.answer for each in row(shelf, REACHED).rows if each.question == "Directive?"]
    assert f"whether it applies to {REACHED} cannot be told" in said and "Requires it" not in said


@pytest.mark.parametrize("aircraft", [NO_SERIAL, ""])
def test_a_packet_says_the_same_on_its_cover(shelf, aircraft):
    packet = begin_packet(shelf, "Inspect", aircraft)
    bulletin = next(each for each in shelf.publications() if each.number.endswith("32-0114"))
    add_item(shelf, packet, Wanted(PacketItemKind.PAGE.value, bulletin.id, 1))
    (item,) = packet_fields(shelf, packet)["items"]
    use_fonts()
    writing = Writing()
    _source(writing, item, aircraft)
    said = " ".join(each.text for each in writing.story if "Directive held here" in each.text)
    assert "2031-07-11" in said
    cannot = f"Names it; whether it applies to {aircraft or 'the aircraft'} cannot be told"
    assert cannot in said and "2031-07-11, required" not in said
