"""The browser test room: Chromium, a served library, and the whole demonstration library."""

import shutil
from pathlib import Path

import pytest
from in_chromium import CHROMIUM, MISSING, answering, chromium_open, tabs

from indexer.settings import Settings
from server.demo import fill

_HERE = Path(__file__).parent


def pytest_collection_modifyitems(items):
    """Every test here drives a browser; without one it is skipped, and said to be."""
    for item in items:
        if item.path.is_relative_to(_HERE):
            item.add_marker(pytest.mark.browser)
            if CHROMIUM is None:
                item.add_marker(pytest.mark.skip(reason=MISSING))


@pytest.fixture(scope="module")
def chromium():
    with chromium_open() as browser:
        yield browser


@pytest.fixture
def tab(chromium):
    """Makes tabs: tab(size, scheme, touch); see `in_chromium.tabs`."""
    with tabs(chromium) as make:
        yield make


@pytest.fixture(scope="module")
def served():
    """Serves libraries: served(library) gives the address; all end with the module's tests."""
    ends = []

    def serve(library, settings=None, port=0, **options):
        address, end = answering(library, settings, port, **options)
        ends.append(end)
        return address

    yield serve
    for end in ends:
        end()


@pytest.fixture(scope="session")
def demo_library(tmp_path_factory):
    """The folder of the demonstration: all sample documents, the fleet, the register. Tests only read it."""
    folder = tmp_path_factory.mktemp("demonstration") / "library"
    assert fill(folder, Settings()) == 0
    return folder


@pytest.fixture
def own_demo(demo_library, tmp_path):
    """A copy of the demonstration's folder to write in."""
    return Path(shutil.copytree(demo_library, tmp_path / "library"))


@pytest.fixture(scope="module")
def demo(demo_library, served):
    """The address of the demonstration, served."""
    return served(demo_library)
