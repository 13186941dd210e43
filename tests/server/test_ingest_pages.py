"""Files sent to the service: streamed, named safely, checked, queued; what the page and the API say."""

import asyncio
import re
from pathlib import Path

import httpx
import pytest
import small_library
from asking import HERE, Client

from indexer.errors import DamagedPdf
from indexer.library.catalogue import Catalogue
from indexer.settings import Settings
from server import incoming, uploading
from server.app import create_app
from server.incoming import safe_name
from server.opened import OpenedLibrary
from server.routes import ingest_models
from server.uploading import Upload

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "sample_docs" / "pdf" / "sl-0219.pdf"
PDF = b"%PDF-1.4 the rest of it"
BIG = b"%PDF-1.4 " + b"x" * 3_000_000  # more than any other address takes


@pytest.fixture
def shop(tmp_path):
    small_library.make(tmp_path / "library", tmp_path / "files")
    with OpenedLibrary.open(tmp_path / "library", Settings()) as opened:
        yield opened


@pytest.fixture
def app(shop):
    return create_app(shop, Settings(max_file_mb=4))


@pytest.fixture
def web(app):
    return Client(app)


def files(*sent):
    return [("files", (name, content, "application/pdf")) for name, content in sent]


def send(web, *sent, address="/api/ingest/files", **more):
    return web.request("POST", address, files=files(*sent), **more)


def waiting(shop):
    return {path.name: path.read_bytes() for path in incoming.waiting(shop.folder)}


def ask_from(app, client, method, address, **more):
    async def ask():
        transport = httpx.ASGITransport(app, raise_app_exceptions=False, client=(client, 50000))
        async with httpx.AsyncClient(transport=transport, base_url=HERE) as browser:
            return await browser.request(method, address, **more)

    return asyncio.run(ask())


def test_a_file_over_the_limit_of_other_addresses_is_received_whole_and_queued(web, shop, app):
    answer = send(web, ("big.pdf", BIG))
    assert answer.status_code == 202
    ingest_models.UploadAnswer.model_validate(answer.json())
    assert [(each["file"], each["came"]) for each in answer.json()["files"]] == [("big.pdf", "sent")]
    assert waiting(shop) == {"big.pdf": BIG}
    assert app.state.ingest.state().waiting == 1
    elsewhere = web.request("POST", "/api/check", content=BIG)
    assert elsewhere.status_code == 413, "only these addresses take so much"


def test_nothing_of_a_large_body_is_read_before_the_right_is_checked(app, shop):
    taken = []

    async def body():
        for piece in range(100):
            taken.append(piece)
            yield b"x" * 100_000

    for address in ("/ingest/files", "/api/ingest/files"):
        answer = ask_from(
            app,
            "192.168.1.20",
            "POST",
            address,
            content=body(),
            headers={"content-type": "multipart/form-data; boundary=b"},
        )
        assert answer.status_code in (403, 421)
        site = {"origin": "http://elsewhere.example", "content-type": "multipart/form-data; boundary=b"}
        assert ask_from(app, "127.0.0.1", "POST", address, content=BIG, headers=site).status_code == 403
    assert not incoming.incoming_folder(shop.folder).exists()


def test_the_page_takes_files_without_script_and_comes_back(web, shop):
    answer = send(web, ("a.pdf", PDF), ("b.pdf", PDF + b"b"), address="/ingest/files")
    assert (answer.status_code, answer.headers["location"]) == (303, "/ingest")
    assert waiting(shop) == {"a.pdf": PDF, "b.pdf": PDF + b"b"}
    assert "2 files more wait." in web.get("/ingest").text


@pytest.mark.parametrize(
    ("content", "slug"),
    [
        (b"", "empty-file"),
        (b"PK\x03\x04 a package", "not-a-pdf"),
        (b"x" * 2000 + PDF, "not-a-pdf"),  # readers look within the first 1,024 bytes for the mark
        (b"%PDF-1.4 " + b"x" * 4_000_001, "too-large"),
    ],
)
def test_what_will_not_do_is_refused_at_the_door_with_a_remedy(web, shop, content, slug):
    answer = send(web, ("x.pdf", content))
    assert answer.status_code == 400
    error = answer.json()["error"]
    assert error["slug"] == slug and error["what"].startswith("x.pdf: ") and error["remedy"]
    assert not waiting(shop) and list(incoming.incoming_folder(shop.folder).glob("*")) == []
    page = send(web, ("x.pdf", content), address="/ingest/files")
    assert page.status_code == 400 and error["remedy"] in page.text


def test_a_refused_file_keeps_no_other_of_the_same_form_out(web, shop):
    answer = send(web, ("a.pdf", PDF), ("x.txt", b"words"), ("b.pdf", PDF + b"b"))
    came = [(each["file"], each["came"]) for each in answer.json()["files"]]
    assert answer.status_code == 202
    assert came == [("a.pdf", "sent"), ("x.txt.pdf", "refused"), ("b.pdf", "sent")]
    assert set(waiting(shop)) == {"a.pdf", "b.pdf"}


def test_what_the_shelf_holds_to_the_byte_is_not_taken_twice(web, shop):
    record = shop.publications()[0]
    content = shop.catalogue.copy_file(record.copy_id).read_bytes()
    (told,) = send(web, ("other name.pdf", content)).json()["files"]
    assert told["came"] == "already" and record.id in told["publications"]
    assert not waiting(shop)
    assert shop.publication(record.id).file == record.file, "its name stays as it was"


def test_two_files_of_one_name_both_wait(web, shop):
    send(web, ("scan.pdf", PDF))
    send(web, ("scan.pdf", PDF + b"another"))
    assert sorted(path.read_bytes() for path in incoming.waiting(shop.folder)) == [PDF, PDF + b"another"]


@pytest.mark.parametrize("cut", [8, 40, 200, 1_000_000, 2_999_000])
def test_an_upload_that_is_cut_short_leaves_nothing_behind(web, shop, cut):
    whole = httpx.Request("POST", HERE, files=files(("first.pdf", PDF), ("second.pdf", BIG)))
    body, headers = whole.read(), {"content-type": whole.headers["content-type"]}
    answer = web.request("POST", "/api/ingest/files", content=body[: len(body) - cut], headers=headers)
    assert answer.status_code == 400 and answer.json()["error"]["slug"] == "upload-broken"
    assert "first.pdf" in waiting(shop), "what was whole before is kept"
    assert not list(incoming.incoming_folder(shop.folder).glob(f"*/*{incoming.PART}"))


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("application/json", b"{}"),
        ("multipart/form-data", b"x"),
        ("multipart/form-data; boundary=b", b"no boundary at all"),
        ("multipart/form-data; boundary=b", b"--b\r\nContent-Disposition: " + b"x" * 9000),
    ],
)
def test_what_is_no_form_with_files_is_said(web, shop, kind, body):
    answer = web.request("POST", "/api/ingest/files", content=body, headers={"content-type": kind})
    assert answer.status_code == 400 and answer.json()["error"]["slug"] == "upload-broken"
    assert not waiting(shop)


def test_a_form_without_a_file_is_said(web):
    body = b'--b\r\nContent-Disposition: form-data; name="files"; filename=""\r\n\r\n\r\n--b--\r\n'
    headers = {"content-type": "multipart/form-data; boundary=b"}
    answer = web.request("POST", "/ingest/files", content=body, headers=headers)
    assert answer.status_code == 400 and "No file was chosen." in answer.text


# Reserved names: Microsoft, "Naming Files, Paths, and Namespaces".
@pytest.mark.parametrize(
    ("given", "name"),
    [
        ("AMM chapter 32.pdf", "AMM chapter 32.pdf"),
        ("../../etc/passwd", "passwd.pdf"),
        ("C:\\Users\\x\\Desktop\\AMM.PDF", "AMM.pdf"),
        ("/", "unnamed.pdf"),
        ("..", "unnamed.pdf"),
        (".pdf", "unnamed.pdf"),
        (".hidden.pdf", "hidden.pdf"),
        ("a\x00b\nc.pdf", "abc.pdf"),
        ('what? "this" <is>|*.pdf', "what_ _this_ _is___.pdf"),
        ("CON.pdf", "_CON.pdf"),
        ("lpt1.old.pdf", "_lpt1.old.pdf"),
        ("Fahrwerk–Übersicht.pdf", "Fahrwerk–Übersicht.pdf"),
        ("U\u0308bersicht.pdf", "Übersicht.pdf"),
        ("innocent\u202efdp.exe", "innocentfdp.exe.pdf"),
        ("trailing. . .pdf", "trailing.pdf"),
    ],
)
def test_names_are_made_safe(given, name):
    assert safe_name(given) == name


def test_a_long_name_fits_any_file_system(web, shop):
    assert len(safe_name("ü" * 500 + ".pdf").encode()) <= 140
    send(web, ("../" + "ü" * 500 + ".pdf", PDF))
    (path,) = incoming.waiting(shop.folder)
    assert incoming.is_incoming(shop.folder, path)


def test_a_drive_without_room_is_said_before_it_is_full(web, shop, monkeypatch):
    monkeypatch.setattr(incoming, "free_bytes", lambda library: uploading.KEPT_FREE + 5_000_000)
    error = send(web, ("big.pdf", BIG)).json()["error"]  # it would be there twice
    assert error["slug"] == "no-room" and "room" in error["remedy"]
    assert not waiting(shop)
    assert send(web, ("small.pdf", PDF)).status_code == 202


def test_no_more_of_a_file_than_one_piece_is_held(shop):
    """The file is written as the body comes: after each piece, all but that piece is on the drive."""
    upload = Upload(shop.folder, Settings(), "multipart/form-data; boundary=b")
    upload.feed(b'--b\r\nContent-Disposition: form-data; name="f"; filename="a.pdf"\r\n\r\n%PDF-')
    for _ in range(40):
        upload.feed(b"y" * 100_000)
    (part,) = incoming.incoming_folder(shop.folder).glob(f"*/*{incoming.PART}")
    assert part.stat().st_size > 3_800_000
    upload.give_up()
    assert not part.parent.exists()


def test_what_was_refused_stands_there_with_its_remedy_and_can_be_removed_or_tried_again(web, shop, app):
    part = incoming.new_part(shop.folder, "scan.pdf")
    part.write_bytes(PDF)
    path = incoming.accept(part)
    shop.catalogue.refuse(path, DamagedPdf(str(path), "cut short"))
    page = web.get("/ingest").text
    assert "scan.pdf: the PDF is cut short or damaged" in page and str(path.parent) not in re.sub(
        r'value="[^"]*"', "", page
    )
    assert "ask its publisher for a good copy" in page and "Send a better one in its place" in page
    form = {"path": str(path), "do": "again"}
    assert web.request("POST", "/ingest/refused", data=form).status_code == 303
    assert app.state.ingest.state().waiting == 1
    web.request("POST", "/ingest/refused", data={"path": str(path)})
    assert path.exists() and shop.catalogue.refused(), "nothing is deleted unless that is what was asked"
    form = {"path": str(path), "do": "remove"}
    assert web.request("POST", "/ingest/refused", data=form).status_code == 303
    assert app.state.ingest.state().waiting == 0
    assert not path.parent.exists() and not shop.catalogue.refused()


def test_a_better_file_is_laid_beside_the_one_it_replaces(web, shop):
    part = incoming.new_part(shop.folder, "scan.pdf")
    part.write_bytes(PDF)
    path = incoming.accept(part)
    shop.catalogue.refuse(path, DamagedPdf(str(path), "cut short"))
    form = {"instead": str(path)}
    assert send(web, ("better.pdf", PDF + b"2"), address="/ingest/files", data=form).status_code == 303
    better = next(each for each in incoming.waiting(shop.folder) if each.name == "better.pdf")
    assert incoming.is_better_than(better, path) and path.exists()


def test_only_what_was_sent_is_ever_deleted(web, shop, tmp_path):
    mine = tmp_path / "mine.pdf"
    mine.write_bytes(b"words")
    form = {"path": str(mine), "do": "remove"}
    assert web.request("POST", "/ingest/refused", data=form).status_code == 400, "it is not on the list"
    shop.catalogue.refuse(mine, DamagedPdf(str(mine), "cut short"))
    assert f"hangarleaf ingest {mine}" in web.get("/ingest").text
    assert web.request("POST", "/ingest/refused", data=form).status_code == 303
    assert mine.exists() and not shop.catalogue.refused()
    odd = f"{incoming.incoming_folder(shop.folder)}/../mine.pdf"
    assert not incoming.is_incoming(shop.folder, Path(odd))


def test_the_page_says_when_nothing_runs_and_when_the_last_time_was(web, shop):
    page = web.get("/ingest").text
    assert "Nothing is being taken in now." in page and "The last time: " in page
    assert "hangarleaf serve --watch" in page and "<progress" not in page
    state = web.get("/api/ingest").json()
    ingest_models.IngestAnswer.model_validate(state)
    assert (state["doing"], state["watched_folder"]) == ("nothing", None)


def test_the_page_says_what_becomes_of_the_watched_folder(shop, tmp_path):
    settings = Settings(watch_folder=str(tmp_path / "not there"))
    app = create_app(shop, settings)
    app.state.ingest._watched.look()
    page = Client(app).get("/ingest").text
    assert "this folder is not there now" in page and "not there" in page
    ingest_models.IngestAnswer.model_validate(Client(app).get("/api/ingest").json())


def test_a_file_goes_the_whole_way_and_is_found(web, shop, app):
    app.state.ingest.start()
    try:
        assert send(web, ("sl.pdf", SAMPLE.read_bytes())).status_code == 202
        for _ in range(6000):
            state = web.get("/api/ingest").json()
            if state["outcomes"] and state["doing"] == "nothing":
                break
        assert [each["came"] for each in state["outcomes"]] == ["taken"], state
    finally:
        app.state.ingest.stop()
    (record,) = [each for each in shop.publications() if each.file == "sl.pdf"]
    assert f"/publications/{record.id}" in web.get("/ingest").text
    with Catalogue.open(shop.folder) as catalogue:
        assert catalogue.copy_file(record.copy_id).read_bytes() == SAMPLE.read_bytes()
