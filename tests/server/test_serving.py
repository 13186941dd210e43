"""The service as a program: it says where it is, answers there, and follows the library while it changes."""

import os
import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import httpx
import pytest
import small_library
from asking import Client
from click.testing import CliRunner

from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server import demo as demo_module
from server import serving
from server.app import create_app
from server.cli import main
from server.opened import OpenedLibrary

ROOT = Path(__file__).parents[2]


@pytest.fixture
def own_library(tmp_path):
    small_library.make(tmp_path / "library", tmp_path / "files")
    return tmp_path / "library"


def test_serve_says_its_address_and_answers_there(own_library):
    process = subprocess.Popen(
        [sys.executable, "-m", "server.cli", "serve", "--port", "0", "--library", str(own_library)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )
    try:
        said = process.stdout.readline()
        address = re.search(r"http://127\.0\.0\.1:\d+/", said)[0]
        assert "Only this machine can reach it." in process.stdout.readline()
        assert httpx.get(f"{address}api/status", timeout=120).json()["publications"] == 4
        manual = httpx.get(f"{address}api/publications", timeout=120).json()["publications"][0]["id"]
        picture = httpx.get(f"{address}api/publications/{manual}/pages/1", timeout=120)
        assert picture.headers["content-type"] == "image/jpeg"
        busy = CliRunner().invoke(
            main, ["serve", "--port", re.search(r":(\d+)/", address)[1], "--library", str(own_library)]
        )
        assert busy.exit_code == 2 and "Choose another port" in busy.stderr
    finally:
        process.send_signal(signal.SIGINT if os.name != "nt" else signal.SIGTERM)
        _, complaints = process.communicate(timeout=120)
    assert "Traceback" not in complaints


@pytest.mark.parametrize(
    ("host", "closed"),
    [
        ("127.0.0.1", True),
        ("localhost", True),
        ("::1", True),
        ("0.0.0.0", False),
        ("192.168.1.7", False),
        ("x", False),
    ],
)
def test_which_addresses_are_closed_to_the_network(host, closed):
    assert serving.is_this_machine(host) is closed


def test_a_library_that_grows_is_followed_without_a_restart(own_library, tmp_path):
    with OpenedLibrary.open(own_library, Settings()) as library:
        client = Client(create_app(library, Settings()))
        before = client.get("/api/search?q=zeppelin").json()
        assert before["total"] == 0
        with Catalogue.open(own_library) as other:  # as another process would
            small_library.take(
                other, tmp_path / "files", "zeppelin", small_library.one_page("Zeppelin moorings.")
            )
        after = client.get("/api/search?q=zeppelin").json()
        assert after["total"] == 1
        assert after["library_state"]["generation"] > before["library_state"]["generation"]
        assert after["library_state"]["publications"] == 5
        assert after["library_state"]["up_to_date"] is True


def test_a_lost_index_is_built_again_when_the_library_is_opened(own_library):
    with OpenedLibrary.open(own_library, Settings()):
        pass
    shutil.rmtree(own_library / "index")
    with OpenedLibrary.open(own_library, Settings()) as library:
        assert Client(create_app(library, Settings())).get("/api/search?q=brake").json()["total"] == 7


@pytest.fixture
def served(monkeypatch, tmp_path):
    """The demo over one sample document; what it would serve is noted."""
    samples = tmp_path / "samples"
    samples.mkdir()
    shutil.copy(ROOT / "sample_docs" / "pdf" / "sl-0219.pdf", samples)
    monkeypatch.setattr(demo_module, "SAMPLES", samples)
    noted = []

    def note(settings, host, port, started, ocr, encryption):
        assert ocr, "scanned samples are read while the demo is open"
        assert encryption == serving.Encryption(shop=encryption.shop)
        with Catalogue.open(settings.library_folder) as catalogue:
            publications = catalogue.status().publications
        noted.append((settings.library_folder, host, port, started, publications, encryption.shop))

    monkeypatch.setattr(demo_module, "serve", note)
    return noted


def test_the_demo_takes_the_samples_into_a_library_of_its_own(served):
    done = CliRunner().invoke(main, ["demo", "--no-browser"])
    assert done.exit_code == 0, done.stderr
    ((folder, host, port, started, publications, encrypted),) = served
    assert (host, port, started, publications, encrypted) == ("127.0.0.1", 0, None, 1, False)
    assert not folder.exists(), "the temporary library is gone with the demo"
    assert "hangarleaf demo --lan" in done.stdout


def test_the_demo_opens_to_the_network_only_when_told(served, tmp_path):
    done = CliRunner().invoke(main, ["demo", "--lan", "--library", str(tmp_path / "kept")])
    assert done.exit_code == 0, done.stderr
    ((folder, host, _, started, _, encrypted),) = served
    assert host == "0.0.0.0" and started is not None and not encrypted
    assert folder == tmp_path / "kept" and folder.exists()


def test_the_demo_says_that_its_authority_ends_with_it(served):
    done = CliRunner().invoke(main, ["demo", "--lan", "--https", "--no-browser"])
    assert done.exit_code == 0, done.stderr
    assert served[0][-1] is True and "take the trust back" in done.stdout


def test_the_demo_touches_no_library_that_is_there(served, own_library):
    before = (own_library / "catalogue.sqlite").read_bytes()
    done = CliRunner().invoke(main, ["demo", "--library", str(own_library)])
    assert done.exit_code == 2
    assert "not empty" in done.stderr and not served
    assert (own_library / "catalogue.sqlite").read_bytes() == before


def test_the_demo_says_when_its_samples_are_missing(served, tmp_path, monkeypatch):
    monkeypatch.setattr(demo_module, "SAMPLES", tmp_path / "nowhere")
    done = CliRunner().invoke(main, ["demo"])
    assert done.exit_code == 2 and "sample documents are not here" in done.stderr


@pytest.mark.parametrize(
    ("options", "host", "encryption"),
    [
        ([], "127.0.0.1", serving.PLAIN),
        (["--host", "192.168.1.7"], "192.168.1.7", serving.PLAIN),
        (["--lan"], "0.0.0.0", serving.PLAIN),
        (["--lan", "--https"], "0.0.0.0", serving.Encryption(shop=True)),
        (
            ["--lan", "--certificate", "a.crt", "--certificate-key", "a.key"],
            "0.0.0.0",
            serving.Encryption(False, Path("a.crt"), Path("a.key")),
        ),
    ],
)
def test_where_the_command_listens_and_over_which_way(monkeypatch, own_library, options, host, encryption):
    asked = []
    monkeypatch.setattr(serving, "serve", lambda *given, **more: asked.append((given[1], more["encryption"])))
    done = CliRunner().invoke(main, ["serve", *options, "--library", str(own_library)])
    assert done.exit_code == 0, done.stderr
    assert asked == [(host, encryption)]
