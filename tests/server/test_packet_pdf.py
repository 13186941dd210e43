"""A packet's PDF, read by programs that are not ours: pdfplumber, pdfium, poppler and qpdf.

True size, /Rotate, /CropBox, /UserUnit and inherited boxes: ISO 32000-1, 7.7.3.3, 7.7.3.4, 8.3.2.
"""

import io
import shutil
import subprocess

import numpy
import pdfplumber
import pikepdf
import pypdfium2
import pytest
from pikepdf import Array, Dictionary, Name
from reportlab.lib.pagesizes import letter
from reportlab.pdfgen.canvas import Canvas

from indexer.settings import Settings
from server.demo import enter_fleet
from server.opened import OpenedLibrary
from server.packet_fonts import MISSING, in_font, lacks, use_fonts
from server.packet_pdf import PacketNotPrinted, packet_pdf
from server.packet_stamp import stamp_file
from server.packet_strip import Line, strip_for
from server.packets import Wanted, add_item, begin_packet
from server.sourcecheck import check

LINES = (
    Line("Reference copy: check the revision before use. Page 2 of 9 of the job packet.", strong=True),
    Line("SB 32-0012, revision 2; PDF page 1 (printed 401)"),
    Line("Superseded by revision 3."),
)
SCALE = 2  # pixels to a point: the strip is then a whole number of pixels wide


def drawn(turn=0, size=letter, page=None, root=None, **saving):
    """A page of words, lines and a picture; `page` and `root` may change the page and the file."""
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=size)
    canvas.setFont("Helvetica", 11)
    for at, words in enumerate(("Remove the wheel nut.", "Torque to 120 inch-pounds.", "NOTE: QZ32-4410-1")):
        canvas.drawString(90, size[1] - 100 - 40 * at, words)
    canvas.rect(80, 80, 100, 60)
    canvas.line(80, 80, size[0] - 80, size[1] - 90)
    canvas.drawString(3, 3, "corner")
    canvas.save()
    out.seek(0)
    made = io.BytesIO()
    with pikepdf.open(out) as pdf:
        if turn:
            pdf.pages[0].Rotate = turn
        if page:
            page(pdf, pdf.pages[0])
        if root:
            root(pdf)
        pdf.save(made, **saving)
    return made.getvalue()


def scanned():
    """A page that is one picture, in grey, as a scanner makes them."""
    from PIL import Image

    grey = numpy.linspace(0, 255, 850 * 1100).reshape(1100, 850).astype("uint8")
    picture = io.BytesIO()
    Image.fromarray(grey).convert("RGB").save(picture, "JPEG", quality=90)
    picture.seek(0)
    from reportlab.lib.utils import ImageReader

    out = io.BytesIO()
    canvas = Canvas(out, pagesize=letter)
    canvas.drawImage(ImageReader(picture), 0, 0, *letter)
    canvas.save()
    return out.getvalue()


def cropped(pdf, page):
    page.CropBox = Array([60, 50, 560, 740])
    page.MediaBox = Array([-20, -10, 612, 792])


def inherited(pdf, page):
    """Boxes and turn stand in the node above, and the media box has its corners the other way round."""
    parent = page.obj.Parent
    parent.MediaBox, parent.Rotate = Array([612, 792, 0, 0]), 90
    for name in ("/MediaBox", "/Rotate"):
        if name in page.obj:
            del page.obj[name]


def half_in_a_trim_box(pdf, page):
    page.TrimBox = Array([200, 200, 400, 400])


def leaking(pdf, page):
    """Content that leaves a turned and coloured state behind it."""
    page.contents_add(pdf.make_stream(b"0.5 0 0 0.5 100 100 cm 1 0 0 rg q 3 w"), prepend=False)


def marked_void(pdf, page):
    """An annotation with an appearance: a stamp across the page. And a link, which shows nothing."""
    look = pdf.make_stream(b"1 0 0 RG 6 w 0 0 m 200 60 l S")
    look.Type, look.Subtype, look.BBox = Name.XObject, Name.Form, Array([0, 0, 200, 60])
    stamp = Dictionary(
        Type=Name.Annot, Subtype=Name.Stamp, Rect=Array([150, 300, 350, 360]), F=4, AP=Dictionary(N=look)
    )
    away = Dictionary(S=Name.URI, URI=pikepdf.String("https://example.invalid/"))
    link = Dictionary(
        Type=Name.Annot, Subtype=Name.Link, Rect=Array([90, 690, 250, 710]), A=away, Border=Array([0, 0, 0])
    )
    page.Annots = Array([pdf.make_indirect(stamp), pdf.make_indirect(link)])


def one_layer_hidden(pdf, page):
    group = pdf.make_indirect(Dictionary(Type=Name.OCG, Name=pikepdf.String("superseded figure")))
    pdf.Root.OCProperties = Dictionary(OCGs=Array([group]), D=Dictionary(OFF=Array([group])))
    page.obj.Resources.Properties = Dictionary(L1=group)
    page.contents_add(pdf.make_stream(b"/OC /L1 BDC 0 0 1 rg 200 200 150 150 re f EMC"), prepend=False)


def larger_unit(pdf, page):
    page.UserUnit = 2


PAGES = {
    "digital": drawn(),
    "scanned": scanned(),
    "turned 90": drawn(90),
    "turned 180": drawn(180),
    "turned 270": drawn(270),
    "cropped": drawn(page=cropped),
    "cropped and turned": drawn(90, page=cropped),
    "inherited": drawn(page=inherited),
    "a foldout": drawn(size=(1224, 792)),
    "a trim box": drawn(page=half_in_a_trim_box),
    "content that leaks": drawn(page=leaking),
    "a stamp": drawn(page=marked_void),
    "a hidden layer": drawn(page=one_layer_hidden),
    "encrypted, empty password": drawn(
        encryption=pikepdf.Encryption(user="", owner="keeper", allow=pikepdf.Permissions(extract=False))
    ),
}


@pytest.fixture
def stamped(tmp_path):
    """Stamps the first page of a file; gives the PDF that came of it, and the width of the strip."""

    def stamp(data, height=792.0):
        source, out = tmp_path / "source.pdf", tmp_path / "out.pdf"
        source.write_bytes(data)
        assert stamp_file(source, Settings(), [(1, LINES)], str(out)) == ("",)
        return out.read_bytes(), strip_for(height, LINES).width

    return stamp


def height_of(data):
    with pypdfium2.PdfDocument(data) as pdf:
        return pdf[0].get_height()


def picture(data):
    with pypdfium2.PdfDocument(data) as pdf:
        return numpy.asarray(pdf[0].render(scale=SCALE).to_pil().convert("L"), dtype=int)


@pytest.mark.parametrize("name", PAGES)
def test_the_page_is_drawn_as_before_at_its_true_size_beside_the_strip(stamped, name):
    before = PAGES[name]
    after, strip = stamped(before, height_of(before))
    old, new = picture(before), picture(after)
    left = round(strip * SCALE)
    assert new.shape == (old.shape[0], old.shape[1] + left), "as high as it was, wider by the strip"
    beside = new[:, left:]
    off = abs(old - beside)
    assert (off > 48).mean() < 0.0005, f"{(off > 48).sum()} pixels differ"
    assert off.mean() < 0.25
    assert old.min() < 128, "there was something to draw"


def test_a_larger_user_unit_is_kept_as_size(stamped):
    """Poppler and the standard count user units; pdfium draws them as points, so sizes are compared here."""
    after, strip = stamped(drawn(page=larger_unit), 1584.0)
    with pikepdf.open(io.BytesIO(after)) as pdf:
        box = [float(each) for each in pdf.pages[0].mediabox]
        assert "/UserUnit" not in pdf.pages[0].obj
    assert box == pytest.approx([0, 0, strip + 1224, 1584], abs=0.01)


@pytest.mark.parametrize("name", ["digital", "a foldout", "a trim box", "encrypted, empty password"])
def test_text_stays_text_in_its_place(stamped, name):
    """pdfplumber, words of the page before and after: the same, moved by the width of the strip alone."""
    before = PAGES[name]
    after, strip = stamped(before)
    with pdfplumber.open(io.BytesIO(before)) as old, pdfplumber.open(io.BytesIO(after)) as new:
        words = old.pages[0].extract_words()
        moved = [each for each in new.pages[0].extract_words() if each["x0"] >= strip]
    assert [each["text"] for each in moved] == [each["text"] for each in words]
    for one, other in zip(words, moved, strict=True):
        assert other["x0"] - strip == pytest.approx(one["x0"], abs=0.5)
        assert other["top"] == pytest.approx(one["top"], abs=0.5)
        assert other["bottom"] - other["top"] == pytest.approx(one["bottom"] - one["top"], abs=0.1)


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_text_of_a_turned_and_cropped_page_stands_where_it_is_displayed(stamped, turn):
    """Places worked out by hand: the words are drawn at (90, 692) of a page cropped to 60..560, 50..740."""
    before = drawn(turn, page=cropped)
    after, strip = stamped(before, height_of(before))
    across, up = 90 - 60, 692 - 50
    width, height = 500, 690
    shown = {
        0: (across, up),
        90: (up, width - across),
        180: (width - across, height - up),
        270: (height - up, across),
    }[turn]
    with pypdfium2.PdfDocument(after) as pdf:
        text = pdf[0].get_textpage()
        whole = text.get_text_range()
        at = whole.index("Remove")
        left, bottom, right, top = text.get_charbox(at)
    nearest_x = min(abs(strip + shown[0] - each) for each in (left, right))
    nearest_y = min(abs(shown[1] - each) for each in (bottom, top))
    assert nearest_x < 1.5 and nearest_y < 1.5, "side bearing of the R"


def test_the_strip_says_its_words_and_lies_over_nothing(stamped):
    after, strip = stamped(PAGES["digital"])
    with pdfplumber.open(io.BytesIO(after)) as pdf:
        chars = [each for each in pdf.pages[0].chars if each["x1"] <= strip]
    said = "".join(each["text"] for each in chars)
    for line in LINES:
        assert line.words.replace(" ", "") in said.replace(" ", "")


def test_a_low_page_gets_a_strip_that_holds_every_word(tmp_path):
    low = drawn(size=(400, 160))
    (tmp_path / "low.pdf").write_bytes(low)
    assert stamp_file(tmp_path / "low.pdf", Settings(), [(1, LINES)], str(tmp_path / "out.pdf")) == ("",)
    with pdfplumber.open(tmp_path / "out.pdf") as pdf:
        said = "".join(each["text"] for each in pdf.pages[0].chars)
    for line in LINES:
        assert line.words.replace(" ", "") in said.replace(" ", "")


def test_links_scripts_forms_and_attachments_stay_behind(tmp_path):
    def armed(pdf):
        pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS=pikepdf.String("app.alert(1)"))
        pdf.attachments["list.txt"] = b"attached"

    data = drawn(page=marked_void, root=armed)
    (tmp_path / "armed.pdf").write_bytes(data)
    stamp_file(tmp_path / "armed.pdf", Settings(), [(1, LINES)], str(tmp_path / "out.pdf"))
    with pikepdf.open(tmp_path / "out.pdf") as pdf:
        assert not pdf.attachments
        assert "/OpenAction" not in pdf.Root and "/AcroForm" not in pdf.Root
        assert "/Annots" not in pdf.pages[0].obj
    plain = (tmp_path / "out.pdf").read_bytes()
    assert b"JavaScript" not in plain and b"example.invalid" not in plain


def test_a_page_that_is_not_there_is_said_and_the_rest_are_taken(tmp_path):
    (tmp_path / "one.pdf").write_bytes(PAGES["digital"])
    wanted = [(1, LINES), (7, LINES), (1, LINES)]
    first, second, third = stamp_file(tmp_path / "one.pdf", Settings(), wanted, str(tmp_path / "out.pdf"))
    assert (first, third) == ("", "") and second
    with pikepdf.open(tmp_path / "out.pdf") as pdf:
        assert len(pdf.pages) == 2


def test_letters_that_the_font_lacks_are_marked():
    use_fonts()
    assert in_font("Wartungshandbuch für «Größe»") == "Wartungshandbuch für «Größe»"
    assert not lacks("Revision 3, 4 March 2031: 10 ± 2 N·m")
    assert in_font("Győr") == "Gyor" and lacks("Győr")
    assert in_font("整备手册") == MISSING * 4 and lacks("整备手册")


# The whole packet, of sample documents ----------------------------------------------------------------------


@pytest.fixture(scope="module")
def library(sample_folder, tmp_path_factory):
    """The sample documents with the fleet, in a folder of its own: packets are written here."""
    folder = shutil.copytree(sample_folder, tmp_path_factory.mktemp("packets") / "library")
    enter_fleet(folder)
    with OpenedLibrary.open(folder, Settings()) as opened:
        yield opened


@pytest.fixture(scope="module")
def held(library):
    return {each.file: each for each in library.publications()}


AIRCRAFT = "QX-1AB"
BULLETINS = ("sb-qz62-32-0114-rev-b.pdf", "sb-qz62-32-0114-rev-c.pdf")
OVERRIDDEN = "qz62-maintenance-manual.pdf"


@pytest.fixture(scope="module")
def overridden(library, held):
    """A page (1-based) of the manual that the temporary revision changes."""
    from server.currency import Currency

    with library.reading():
        return min(Currency(library.catalogue).overridden_pages(held[OVERRIDDEN]))


@pytest.fixture(scope="module")
def packet(library, held, overridden):
    made = begin_packet(library, "WO 1174: brakes", AIRCRAFT)
    add_item(library, made, Wanted("page", held["sb-qz62-32-0114-rev-b.pdf"].id, 1))
    add_item(library, made, Wanted("page", held["sb-qz62-32-0114-rev-c.pdf"].id, 1, last_page=2))
    add_item(library, made, Wanted("page", held[OVERRIDDEN].id, overridden))
    add_item(library, made, Wanted("page", held["h-14-service-manual.pdf"].id, 2))
    entry = check(library, "Replaced tie bolts IAW SB QZ62-32-0114 Rev B", AIRCRAFT, "minor")
    add_item(library, made, Wanted("finding", about=str(entry.id)))
    return made


@pytest.fixture(scope="module")
def printed(library, packet):
    return packet_pdf(library, packet)


@pytest.fixture(scope="module")
def texts(printed):
    """The words of each sheet, blanks taken out: strips and narrow columns break lines anywhere."""
    with pdfplumber.open(io.BytesIO(printed.data)) as pdf:
        return ["".join("".join(char["text"] for char in page.chars).split()) for page in pdf.pages]


def squeezed(words):
    return "".join(words.split())


def sheet_with(texts, words):
    return next(at for at, text in enumerate(texts) if squeezed(words) in text)


def cover_of(texts):
    """All sheets before the first that has a strip; the first item of the packet is a page."""
    return "".join(texts[: sheet_with(texts, "Strip added at the left")])


def test_every_source_stands_on_the_cover(texts, held):
    cover = cover_of(texts)
    for file in (
        "sb-qz62-32-0114-rev-b.pdf",
        "sb-qz62-32-0114-rev-c.pdf",
        OVERRIDDEN,
        "h-14-service-manual.pdf",
    ):
        assert squeezed(f"File {file}") in cover
    for words in (
        "WO 1174: brakes",
        "QX-1AB, QZ62, serial QZ-077",
        "Reference copy: check the revision before use.",
        "Superseded. Superseded by revision C",
        "Demonstration",
        "not for flight",
        "DOES NOT APPLY to QX-1AB",
        "When no airworthiness directive is listed, that means none among the documents held here.",
    ):
        assert squeezed(words) in cover, words


def test_the_page_of_a_temporary_revision_stands_in_front_of_the_page_it_changes(texts):
    front = next(at for at, text in enumerate(texts) if squeezed("Read this first: it changes") in text)
    assert squeezed("Its page stands in front of this one.") in texts[front + 1]
    assert squeezed("TR 32-07") in texts[front]


def test_a_superseded_page_and_one_for_other_aircraft_say_so_on_their_strips(texts):
    strips = [text for text in texts if squeezed("Strip added at the left") in text]
    assert any(squeezed("Superseded by revision C") in text for text in strips)
    assert any(squeezed("DOES NOT APPLY to QX-1AB") in text for text in strips)
    assert all(squeezed("Reference copy: check the revision before use. Page") in text for text in strips)
    assert all(squeezed("Job: WO 1174: brakes. Aircraft: QX-1AB") in text for text in strips)


def test_sheets_are_numbered_through(texts, printed):
    assert printed.sheets == len(texts)
    for number, text in enumerate(texts, start=1):
        assert squeezed(f"Page {number} of {len(texts)} of the job packet.") in text


def test_a_finding_stands_as_it_was_answered_and_cannot_tell_is_no_yes(texts):
    sheet = texts[sheet_with(texts, "Entry: Replaced tie bolts")]
    assert squeezed("Not current: superseded.") in sheet
    assert squeezed("Enough for minor work? Cannot tell.") in sheet
    assert squeezed("Enough for minor work? Yes.") not in sheet
    cover = cover_of(texts)
    assert squeezed("Enough for minor work? Cannot tell.") in cover


def test_the_file_says_what_it_is_and_has_a_bookmark_for_each_source(printed):
    with pikepdf.open(io.BytesIO(printed.data)) as pdf:
        assert str(pdf.docinfo["/Title"]) == "Job packet: WO 1174: brakes, QX-1AB, QZ62, serial QZ-077"
        assert "check the revision before use" in str(pdf.docinfo["/Subject"])
        with pdf.open_outline() as outline:
            marks = [each.title for each in outline.root]
    assert marks[0] == "Cover" and len(marks) == 6
    assert marks[1].startswith("1. SB QZ62-32-0114, PDF page 1")


def test_the_words_of_every_original_page_are_all_there(library, held, printed):
    """The words of the sample's own page, by pdfplumber, in order among those of the packet's sheet."""
    owner = held["sb-qz62-32-0114-rev-c.pdf"]
    path = library.catalogue.copy_file(owner.copy_id)
    with pdfplumber.open(path) as source, pdfplumber.open(io.BytesIO(printed.data)) as packet:
        words = [each["text"] for each in source.pages[1].extract_words()]
        sheets = [[each["text"] for each in page.extract_words()] for page in packet.pages]
    assert len(words) > 50
    assert any(sheet[-len(words) :] == words or _in_order(words, sheet) for sheet in sheets)


def _in_order(words, sheet):
    rest = iter(sheet)
    return all(word in rest for word in words)


@pytest.mark.poppler
@pytest.mark.skipif(
    not shutil.which("pdfinfo") or not shutil.which("pdftotext"), reason="poppler is not installed"
)
def test_poppler_reads_it(printed, tmp_path):
    file = tmp_path / "packet.pdf"
    file.write_bytes(printed.data)
    told = subprocess.run(["pdfinfo", file], capture_output=True, text=True, check=True).stdout
    assert f"Pages:           {printed.sheets}\n" in told
    assert "JavaScript:      no" in told and "Form:            none" in told
    text = subprocess.run(["pdftotext", "-layout", file, "-"], capture_output=True, text=True, check=True)
    assert "LANDING GEAR - BRAKES" in text.stdout and not text.stderr


@pytest.mark.skipif(not shutil.which("qpdf"), reason="qpdf is not installed")
def test_qpdf_finds_no_fault(printed, tmp_path):
    file = tmp_path / "packet.pdf"
    file.write_bytes(printed.data)
    done = subprocess.run(["qpdf", "--check", file], capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_damaged_file_leaves_a_sheet_in_place_of_each_of_its_pages(library, held):
    """The library's own copy is overwritten behind its back, as a failing disk would."""
    made = begin_packet(library, "WO 9", AIRCRAFT)
    owner = held["ad-2031-07-11.pdf"]
    add_item(library, made, Wanted("page", owner.id, 1))
    add_item(library, made, Wanted("page", held["sb-qz62-32-0114-rev-c.pdf"].id, 1))
    file = library.catalogue.copy_file(owner.copy_id)
    whole = file.read_bytes()
    file.chmod(0o600)
    file.write_bytes(b"%PDF-1.4 and nothing more")
    try:
        printed = packet_pdf(library, made)
    finally:
        file.write_bytes(whole)
    assert len(printed.failed) == 1 and "2031-07-11" in printed.failed[0]
    with pdfplumber.open(io.BytesIO(printed.data)) as pdf:
        words = [page.extract_text() for page in pdf.pages]
    assert any("This page could not be put into the packet" in each for each in words)
    assert any("SERVICE BULLETIN" in each for each in words)


def test_an_empty_packet_gives_no_pdf(library):
    with pytest.raises(PacketNotPrinted):
        packet_pdf(library, begin_packet(library, "nothing"))
