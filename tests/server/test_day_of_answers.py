"""A directive counts from its day on, and the demonstration says of which day it answers.

14 CFR 39.11 and 39.13: each directive is an amendment with its effective date. AD 2030-19-04 of the samples
is effective on 21 October 2030 and is the only thing that approves Pellworth bulletin 27 (its truth files).
"""

import datetime
import json
import shutil
from pathlib import Path

import pytest
from asking import Client
from click.testing import CliRunner

from indexer.ingest import ingest
from indexer.library import fleet
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.app import create_app
from server.cli import main
from server.leaf import page
from server.opened import OpenedLibrary, index_folder
from server.search import search
from server.sourcecheck import check

PDF = Path(__file__).parents[2] / "sample_docs" / "pdf"
FILES = ("ad-2030-19-04.pdf", "pellworth-service-bulletins-bound.pdf")
EFFECTIVE = datetime.date(2030, 10, 21)
LINE = "C/W Pellworth H-14 SB 27 dated 6 May 1957"
NOT_YET = "Not in force before 21 October 2030: until then nothing is approved through AD 2030-19-04."


def library_of(folder, day):
    with Catalogue.open(folder, create=True) as catalogue:
        make_demonstration(catalogue, day)
    settings = Settings(library=str(folder))
    engine = WhooshEngine(index_folder(folder), settings.search_cache_mb)
    assert not ingest([PDF / name for name in FILES], folder, settings, engine=engine).refused
    return OpenedLibrary.open(folder, settings)


@pytest.fixture(scope="module")
def eve(tmp_path_factory):
    """The library on the day before the directive takes effect."""
    with library_of(tmp_path_factory.mktemp("eve") / "library", EFFECTIVE - datetime.timedelta(1)) as opened:
        fleet.add(opened.catalogue, "N14PW", "H-14", "R. Quill", "H-120", "Pellworth")
        yield opened


@pytest.fixture(scope="module")
def on_day(tmp_path_factory):
    with library_of(tmp_path_factory.mktemp("day") / "library", EFFECTIVE) as opened:
        fleet.add(opened.catalogue, "N14PW", "H-14", "R. Quill", "H-120", "Pellworth")
        yield opened


def found(library, text, on=None):
    (finding,) = check(library, text, "N14PW", "directive", on, keep=False).fields()["citations"]
    return finding


def bulletin(library):
    return next(each for each in library.publications() if each.number == "27")


def test_before_its_day_nothing_is_approved_through_a_directive(eve):
    finding = found(eve, LINE)
    assert finding["standing"]["value"] != "approved" and not finding["standing"]["mandatory"]
    statuses = {each["status"] for each in finding["directives"]}
    assert statuses == {"effective from 21 October 2030: not in force on 20 October 2030"}
    assert not [each for each in finding["directives"] if each["reaches"] != "no"]
    assert "Nothing is approved through AD 2030-19-04." in " ".join(finding["notes"])
    assert finding["enough"]["major"]["answer"] != "yes" and finding["enough"]["directive"]["answer"] == "no"


def test_from_its_day_on_it_approves_without_a_day_of_work(on_day):
    finding = found(on_day, LINE)
    assert finding["standing"]["value"] == "approved"
    assert finding["standing"]["mandatory"] == "AD 2030-19-04"
    assert "yes" in {each["reaches"] for each in finding["directives"]}


def test_the_day_of_the_work_counts_before_the_library_s(eve, on_day):
    assert found(eve, LINE, EFFECTIVE)["standing"]["value"] == "approved"
    assert found(on_day, LINE, EFFECTIVE - datetime.timedelta(1))["standing"]["value"] != "approved"


def test_a_directive_s_own_text_is_not_approved_before_its_day(eve, on_day):
    early = found(eve, "C/W AD 2030-19-04")
    assert early["standing"]["value"] == "undetermined" and not early["standing"]["mandatory"]
    assert early["enough"]["directive"]["answer"] == "no"
    assert found(on_day, "C/W AD 2030-19-04")["standing"]["value"] == "approved"


def conditions(library):
    """Of the passages that the directive approves: in search, and on their page."""
    hits = [hit for group in search(library, "detent plate").groups for hit in group.hits]
    of_bulletin = [hit.passage.standing for hit in hits if hit.publication.number == "27"]
    record = bulletin(library)
    passages = page(library, record.id, record.first_page)["passages"]
    return (
        [each.conditions for each in of_bulletin if each.value.value == "approved"],
        [each["standing"]["conditions"] for each in passages if each["standing"]["value"] == "approved"],
    )


def test_a_hit_and_its_page_say_from_which_day(eve, on_day):
    for told in conditions(eve):
        assert told and all(each[0] == NOT_YET for each in told)
    for told in conditions(on_day):
        assert told and not any(NOT_YET in each for each in told)


def test_pages_say_from_which_day(eve):
    record = bulletin(eve)
    web = Client(create_app(eve, Settings()))
    for address in (f"/publications/{record.id}/pages/{record.first_page}", "/?q=detent+plate"):
        answer = web.get(address)
        assert answer.status_code == 200 and NOT_YET in answer.text


SAYS = "Demonstration: answers are given as of 20 October 2030."


@pytest.mark.parametrize(
    "address", ["/", "/system", "/check", "/checks", "/publications", "/fleet", "/register"]
)
def test_every_page_of_the_demonstration_says_its_day(eve, address):
    assert SAYS in Client(create_app(eve, Settings())).get(address).text


def test_json_and_commands_say_the_day(eve, tmp_path):
    web = Client(create_app(eve, Settings()))
    for address in ("/api/search?q=plate", "/api/register", "/api/fleet", f"/api/check?text={LINE}"):
        state = web.get(address).json()["library_state"]
        assert (state["day"], state["demonstration"]) == ("2030-10-20", SAYS)
    shutil.copytree(eve.folder, tmp_path / "copy")
    told = CliRunner().invoke(main, ["status", "--json", "--library", str(tmp_path / "copy")])
    assert told.exit_code == 0 and told.stderr.strip() == SAYS
    assert json.loads(told.stdout)["library_state"]["day"] == "2030-10-20"


def test_a_shop_s_own_library_says_nothing_of_a_demonstration(client):
    state = client.get("/api/search?q=brake").json()["library_state"]
    assert state["demonstration"] is None
    assert "Demonstration:" not in client.get("/").text
