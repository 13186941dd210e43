"""What a tablet needs to keep packets, as plain answers; what a browser does with it is in tests/browser."""

import json
import re
from pathlib import Path

import pytest

from server.routes.static_files import ADDRESS

NOT_KEPT = "no-store"  # RFC 9111, section 5.2.2.5: no cache may store any part of the answer
FOR_GOOD = "public, max-age=31536000, immutable"  # RFC 8246


@pytest.fixture
def picture(sample_client):
    hit = sample_client.get("/api/search?q=brake&limit=1").json()["groups"][0]["hits"][0]
    return f"/api/publications/{hit['publication']['id']}/pages/{hit['pdf_page']}"


def test_no_browser_keeps_a_page_an_answer_or_a_picture(sample_client, picture):
    tile = f"{picture}/tiles/0/0/0"
    for address in (
        "/",
        "/?q=brake",
        "/publications",
        "/api/search?q=brake",
        "/offline",
        "/pinned",
        picture,
        tile,
    ):
        answer = sample_client.get(address)
        assert answer.status_code == 200, address
        assert answer.headers["cache-control"] == NOT_KEPT, address


def test_a_failure_is_not_kept_either(sample_client):
    assert sample_client.get("/publications/none-such").headers["cache-control"] == NOT_KEPT


def test_static_files_are_kept_for_good_under_an_address_that_changes_with_them(sample_client):
    answer = sample_client.get(f"{ADDRESS}/hangarleaf.css")
    assert answer.headers["cache-control"] == FOR_GOOD
    assert re.fullmatch(r"/static/[0-9a-f]{12}", ADDRESS)
    assert sample_client.get("/static/000000000000/hangarleaf.css").status_code == 404


def test_stylesheets_come_joined_in_one_answer_and_nothing_else_does(sample_client):
    both = [sample_client.get(f"{ADDRESS}/{name}.css").text for name in ("hangarleaf", "find")]
    answer = sample_client.get(f"{ADDRESS}/hangarleaf+find.css")
    assert answer.text == "".join(both) and answer.headers["Content-Type"].startswith("text/css")
    assert answer.headers["Cache-Control"] == FOR_GOOD
    assert f'"{ADDRESS}/hangarleaf+find.css"' in sample_client.get("/").text
    for wrong in ("hangarleaf+nothing.css", "hangarleaf+../app.css", "hangarleaf+find.js", "+.css"):
        assert sample_client.get(f"{ADDRESS}/{wrong}").status_code == 404


def test_every_page_says_which_library_answered_in_which_state(sample_client):
    told = sample_client.get("/api/contact").json()
    mark = told["mark"]
    assert mark.startswith(f"{told['library']}:{told['generation']}:")
    answer = sample_client.get("/?q=brake")
    assert answer.headers["library-state"] == mark
    assert f'<meta name="library-state" content="{mark}">' in answer.text
    assert sample_client.get("/api/search?q=brake").json()["library_state"]["library"] == told["library"]


def test_every_answer_says_that_it_is_the_library_s_own(sample_client):
    """What something on the way answers in its place is no contact (captive networks: RFC 8910)."""
    for address in ("/", "/api/contact", "/none-such", f"{ADDRESS}/kept.js", "/service-worker.js", "/pinned"):
        assert sample_client.get(address).headers["answered-by"] == "hangarleaf", address


def test_the_service_worker_is_filled_in_and_reaches_every_page(sample_client):
    answer = sample_client.get("/service-worker.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    given = json.loads(re.match(r"const GIVEN = (\{.*\});\n", answer.text)[1])
    assert given["hours"] == 24
    assert set(given["shell"]) >= {"/offline", "/pinned", f"{ADDRESS}/hangarleaf.css", f"{ADDRESS}/kept.js"}
    for address in given["shell"]:
        assert sample_client.get(address).status_code == 200, address


def test_the_shell_holds_nothing_of_the_library(sample_client):
    sample_client.get("/publications?aircraft=")
    for address in ("/offline", "/pinned"):
        page = sample_client.get(address).text
        assert "Library state" not in page and "library-state" not in page
        assert "Aircraft in hand" not in page


def test_the_manifest_names_pictures_of_the_size_it_says(sample_client):
    """Sizes read from the PNG header itself: W3C, PNG, section 11.2.1 (IHDR)."""
    manifest = sample_client.get("/manifest.webmanifest")
    assert manifest.headers["content-type"] == "application/manifest+json"
    told = manifest.json()
    assert told["display"] == "standalone" and told["start_url"] == "/" and told["scope"] == "/"
    assert {icon["purpose"] for icon in told["icons"]} == {"any", "maskable"}
    for icon in told["icons"]:
        picture = sample_client.get(icon["src"]).content
        width, height = (int.from_bytes(picture[at : at + 4], "big") for at in (16, 20))
        assert picture.startswith(b"\x89PNG") and f"{width}x{height}" == icon["sizes"]


def test_no_script_imports_what_the_shell_does_not_hold(sample_client):
    """A module that the kept pages import must be there without contact."""
    given = json.loads(
        re.match(r"const GIVEN = (\{.*\});\n", sample_client.get("/service-worker.js").text)[1]
    )
    for address in given["shell"]:
        if address.endswith(".js"):
            for name in re.findall(r'from "\./([^"]+)"', sample_client.get(address).text):
                assert str(Path(address).parent / name) in given["shell"]
