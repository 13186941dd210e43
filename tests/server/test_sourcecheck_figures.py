"""A figure number that several sections of a catalogue have, in a line that does not name the section.

Document: sample_docs/README.md; its maker numbers figures anew in each section.
"""

import pytest
from worked.shelf import SAMPLES

from indexer.ingest import ingest
from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.demo import DAY
from server.opened import OpenedLibrary, index_folder
from server.sourcecheck import check

TWIN = "N62QZ"
CATALOGUE = "qz62-parts-catalog.pdf"


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    place = tmp_path_factory.mktemp("figures") / "library"
    with Catalogue.open(place, create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    settings = Settings(library=str(place))
    engine = WhooshEngine(index_folder(place), settings.search_cache_mb)
    assert not ingest([SAMPLES / CATALOGUE], place, settings, engine=engine).refused
    with OpenedLibrary.open(place, Settings()) as library:
        fleet.add(library.catalogue, TWIN, "QZ62", "R. Quill", "QZ-077", "Aldermoor")
        yield library


def finding(library, line):
    (found,) = check(library, line, TWIN, "minor", keep=False).fields()["citations"]
    return found


@pytest.mark.parametrize("line", ["QZM-62-4 fig 1 item 15", "IPC QZM-62-4 fig. 01 item 8"])
def test_a_figure_of_several_sections_is_none_of_them(shelf, line):
    found = finding(shelf, line)
    resolved, applies = found["resolved"], found["applies"]
    assert not resolved["passages"] and not resolved["pdf_pages"]
    assert applies["answer"] == "cannot tell" and not applies["quote"]
    for said in ("section 32-42-00, PDF page", "Name the section."):
        assert said in applies["why"]
    assert all(each["answer"] != "yes" for each in found["enough"].values())
    assert found["standing"]["value"] not in ("approved", "acceptable")


def test_a_figure_of_the_section_named_is_found(shelf):
    resolved = finding(shelf, "QZM-62-4 32-42-00 fig 1 item 15")["resolved"]
    assert resolved["pdf_pages"] and resolved["passages"]
