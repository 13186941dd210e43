"""A small library with every case, opened over a plain engine, and the service over it."""

import sys
from pathlib import Path

import desk_shelf
import pytest
import small_library
from asking import Client
from plain_engine import PlainEngine

from indexer.ingest import ingest
from indexer.library.catalogue import Catalogue
from indexer.library.day import make_demonstration
from indexer.library.whoosh_engine import WhooshEngine
from indexer.settings import Settings
from server.app import create_app
from server.demo import DAY
from server.opened import OpenedLibrary, index_folder
from server.render import PagePictures

ROOT = Path(__file__).parents[2]
sys.path.append(str(ROOT / "tests" / "library"))  # making.py, hand-made papers, serves both rooms
sys.path.append(str(ROOT / "tests" / "browser"))  # in_chromium.py and usable.py do too


@pytest.fixture(scope="session")
def made(tmp_path_factory):
    """The library's folder, and the ids of its publications by name. Tests only read it."""
    place = tmp_path_factory.mktemp("small")
    return place / "library", small_library.make(place / "library", place / "files")


@pytest.fixture(scope="session")
def ids(made):
    return made[1]


@pytest.fixture(scope="session")
def library(made):
    folder, _ = made
    settings = Settings()
    pictures = PagePictures(folder / "cache" / "pages", settings)
    with OpenedLibrary(folder, Catalogue.open(folder), PlainEngine(), pictures) as opened:
        opened.catch_up()
        yield opened


@pytest.fixture(scope="session")
def client(library):
    return Client(create_app(library, Settings()))


@pytest.fixture
def shelf(tmp_path):
    """A fresh library to write in, opened over the real engine; desk_shelf.py says what is in it."""
    own_manual = desk_shelf.make(tmp_path / "library", tmp_path / "files")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        yield opened, own_manual


@pytest.fixture
def own_manual(shelf):
    """The id of its manual with an order of its own."""
    return shelf[1]


@pytest.fixture
def desk(shelf):
    return Client(create_app(shelf[0], Settings()))


SAMPLES = (
    "qz62-maintenance-manual.pdf",
    "qz62-temporary-revision-32-07.pdf",
    "sb-qz62-32-0114-rev-b.pdf",
    "sb-qz62-32-0114-rev-c.pdf",
    "ad-2031-07-11.pdf",
    "h-14-service-manual.pdf",
)


@pytest.fixture(scope="session")
def sample_folder(tmp_path_factory):
    """A library made from some of the sample documents, the whole way: read, tagged, related, indexed.

    Its day is the demonstration's: what the samples say is in force is.
    """
    place = tmp_path_factory.mktemp("samples")
    files = [ROOT / "sample_docs" / "pdf" / name for name in SAMPLES]
    settings = Settings(library=str(place / "library"))
    engine = WhooshEngine(index_folder(place / "library"), settings.search_cache_mb)
    with Catalogue.open(place / "library", create=True) as catalogue:
        make_demonstration(catalogue, DAY)
    report = ingest(files, place / "library", settings, engine=engine)
    assert not report.refused
    return place / "library"


@pytest.fixture(scope="session")
def samples(sample_folder):
    with OpenedLibrary.open(sample_folder, Settings()) as opened:
        yield opened


@pytest.fixture(scope="session")
def sample_client(samples):
    return Client(create_app(samples, Settings()))
