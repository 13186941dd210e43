"""Damaged and difficult PDFs, one tiny maker each: a maker writes its file to the path it is given."""

import io
import zlib
from pathlib import Path

from PIL import Image
from raw_pdf import FONT, assemble, document, page, stream, text_content
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas

LINES = (
    "Wheel brakes of the T-40",
    "Remove the wheel before the brake is taken off.",
    "Fictitious. Not for flight.",
)
WORDS = text_content(*LINES)
FLATE = b"/Filter /FlateDecode"
TWICE = b"/Filter [/FlateDecode /FlateDecode]"


def _drawn(pages: int, encrypt: StandardEncryption | None = None) -> bytes:
    """Pages as most software writes them: page tree at the end, streams packed."""
    held = io.BytesIO()
    canvas = Canvas(held, invariant=1, pageCompression=1, encrypt=encrypt)
    for n in range(pages):
        for k, line in enumerate((f"Page {n + 1}", *LINES)):
            canvas.drawString(72, 720 - 15 * k, line)
        canvas.showPage()
    canvas.save()
    return held.getvalue()


def _inflating(unit: bytes, count: int) -> bytes:
    """`unit` times `count`, packed twice: hundreds of megabytes in a few kilobytes."""
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(unit) for _ in range(count)) + packer.flush()
    return zlib.compress(packed, 9)


# Not a PDF, or not all of one


def empty_file(path: Path) -> None:
    path.write_bytes(b"")


def text_renamed(path: Path) -> None:
    path.write_text("Wheel brakes: see the other folder.\n", encoding="utf-8")


def web_page_saved(path: Path) -> None:
    """What a download gives when the sign-in has run out."""
    path.write_text(
        "<!DOCTYPE html><html><body>Please sign in to read this PDF.</body></html>", encoding="utf-8"
    )


def picture_renamed(path: Path) -> None:
    Image.new("RGB", (40, 30), "white").save(path, format="JPEG")


def truncated_in_the_middle(path: Path) -> None:
    content = _drawn(5)
    path.write_bytes(content[: len(content) // 2])


def end_cut_off(path: Path) -> None:
    """The objects are whole, the table and the trailer are gone."""
    content = assemble(document([page(20)], {20: stream(WORDS)}))
    path.write_bytes(content[: content.index(b"xref\n0")])


def no_pages(path: Path) -> None:
    path.write_bytes(assemble(document([])))


def no_page_tree(path: Path) -> None:
    path.write_bytes(assemble({1: b"<< /Type /Catalog >>", 3: FONT}))


# Locked


def user_password(path: Path) -> None:
    path.write_bytes(_drawn(2, StandardEncryption("secret", "owner", strength=128)))


def owner_password_only(path: Path) -> None:
    """Opens without a password; printing and copying are forbidden, which is the reader's own affair."""
    path.write_bytes(_drawn(2, StandardEncryption("", "owner", canPrint=0, canCopy=0, strength=128)))


def foreign_lock(path: Path) -> None:
    """Locked by a publisher's own scheme, which only the publisher's own viewer opens."""
    objects = {**document([page(20)], {20: stream(WORDS)}), 30: b"<< /Filter /Publisher.Own /V 1 >>"}
    path.write_bytes(assemble(objects, b"/Encrypt 30 0 R /ID [<00112233> <00112233>]"))


# Damaged inside


def _middle_page(content: bytes) -> bytes:
    pages = [page(20), page(21), page(22)]
    return assemble(document(pages, {20: stream(WORDS), 21: content, 22: stream(WORDS)}))


def packed_stream_corrupt(path: Path) -> None:
    path.write_bytes(_middle_page(stream(b"x\x9c\xff\xfe\xfd this was never packed", FLATE)))


def page_object_missing(path: Path) -> None:
    objects = document([page(20), page(20), page(20)], {20: stream(WORDS)})
    del objects[11]
    path.write_bytes(assemble(objects))


def broken_xref(path: Path) -> None:
    path.write_bytes(assemble(document([page(20)], {20: stream(WORDS)}), offset_error=17))


def wrong_startxref(path: Path) -> None:
    path.write_bytes(assemble(document([page(20)], {20: stream(WORDS)}), startxref_error=-5000))


def junk_before_header(path: Path) -> None:
    """As a mail gateway leaves it."""
    path.write_bytes(
        b"Content-Type: application/pdf\r\n\r\n" + assemble(document([page(20)], {20: stream(WORDS)}))
    )


def cyclic_page_tree(path: Path) -> None:
    """The page tree is its own child, beside one good page."""
    objects = document([page(20)], {20: stream(WORDS)})
    objects[2] = b"<< /Type /Pages /Kids [10 0 R 2 0 R] /Count 2 >>"
    path.write_bytes(assemble(objects))


def only_a_cycle(path: Path) -> None:
    objects = document([], {30: b"<< /Type /Pages /Parent 2 0 R /Kids [2 0 R] /Count 3 >>"})
    objects[2] = b"<< /Type /Pages /Kids [30 0 R] /Count 3 >>"
    path.write_bytes(assemble(objects))


def page_count_a_lie(path: Path) -> None:
    """One page; the tree says there are 400."""
    objects = document([page(20)], {20: stream(WORDS)})
    objects[2] = b"<< /Type /Pages /Kids [10 0 R] /Count 400 >>"
    path.write_bytes(assemble(objects))


def outline_in_a_ring(path: Path) -> None:
    objects = document([page(20)], {20: stream(WORDS)}, b"/Outlines 40 0 R")
    objects[40] = b"<< /Type /Outlines /First 41 0 R /Last 42 0 R /Count 2 >>"
    objects[41] = b"<< /Title (Brakes) /Parent 40 0 R /Next 42 0 R /Dest [10 0 R /Fit] >>"
    objects[42] = b"<< /Title (Wheels) /Parent 40 0 R /Next 41 0 R /First 42 0 R /Dest [99 0 R /Fit] >>"
    path.write_bytes(assemble(objects))


def outline_very_deep(path: Path) -> None:
    objects = document([page(20)], {20: stream(WORDS)}, b"/Outlines 40 0 R")
    objects[40] = b"<< /Type /Outlines /First 41 0 R /Last 41 0 R /Count 1 >>"
    for n in range(3000):
        objects[41 + n] = b"<< /Title (Level %d) /Parent %d 0 R /First %d 0 R /Dest [10 0 R /Fit] >>" % (
            n, 40 + n, 42 + n,
        )  # fmt: skip
    path.write_bytes(assemble(objects))


# Whole and difficult


def nested_forms(path: Path) -> None:
    """The text stands in the innermost of 25 forms, each drawn by the one around it."""
    objects = document([page(20, b"/XObject << /X0 100 0 R >>")], {20: stream(b"/X0 Do")})
    for n in range(25):
        objects[100 + n] = stream(
            b"/X%d Do" % (n + 1) if n < 24 else WORDS,
            b"/Type /XObject /Subtype /Form /BBox [0 0 612 792] /Resources << /Font << /F1 3 0 R >> "
            b"/XObject << /X%d %d 0 R >> >>" % (n + 1, 101 + n),
        )
    path.write_bytes(assemble(objects))


def nested_brackets(path: Path) -> None:
    path.write_bytes(
        assemble(document([page(20)], {20: stream(zlib.compress(WORDS + b" " + b"[" * 500_000), FLATE)}))
    )


def huge_numbers(path: Path) -> None:
    wild = b"BT /F1 1e38 Tf 1e38 0 0 1e38 1e38 1e38 Tm (Far) Tj ET BT /F1 0 Tf 0 0 0 0 0 0 Tm (Flat) Tj ET "
    path.write_bytes(assemble(document([page(20)], {20: stream(wild + WORDS)})))


def huge_picture(path: Path) -> None:
    """A picture of ten thousand megapixels by its own account; its data are a few bytes."""
    picture = stream(
        zlib.compress(bytes(1000)),
        b"/Type /XObject /Subtype /Image /Width 100000 /Height 100000 /BitsPerComponent 8 "
        b"/ColorSpace /DeviceRGB " + FLATE,
    )
    content = stream(b"q 600 0 0 700 0 0 cm /I Do Q")
    path.write_bytes(assemble(document([page(20, b"/XObject << /I 30 0 R >>")], {20: content, 30: picture})))


def huge_pages(path: Path) -> None:
    """200 by 200 inches, the most the format allows without a unit of its own, and far beyond."""
    boxes = (b"0 0 14400 14400", b"0 0 1000000 1000000")
    path.write_bytes(assemble(document([page(20, box=box) for box in boxes], {20: stream(WORDS)})))


def odd_page_boxes(path: Path) -> None:
    """Empty, upside down, and no numbers at all."""
    boxes = (b"0 0 0 0", b"612 792 0 0", b"/A /B /C /D")
    path.write_bytes(assemble(document([page(20, box=box) for box in boxes], {20: stream(WORDS)})))


def hundred_thousand_texts(path: Path) -> None:
    """100,000 text objects of one word on one page."""
    texts = b" ".join(
        b"BT /F1 1 Tf %.1f %.1f Td (w%d) Tj ET" % (20 + n % 100 * 5.7, 20 + n // 100 * 0.75, n)
        for n in range(100_000)
    )
    path.write_bytes(assemble(document([page(20)], {20: stream(zlib.compress(texts), FLATE)})))


def dense_drawing(path: Path) -> None:
    """A drawing of 20,000 short lines, level and upright, such as a wiring diagram is, and some text."""
    lines = []
    for n in range(10_000):
        x, y = 40 + n % 100 * 5, 40 + n // 100 * 6
        lines.append(b"%d %d m %d %d l S %d %d m %d %d l S" % (x, y, x + 4, y, x, y, x, y + 5))
    content = WORDS + b" " + b" ".join(lines)
    path.write_bytes(assemble(document([page(20)], {20: stream(zlib.compress(content), FLATE)})))


def script_and_attachment(path: Path) -> None:
    """Carries a script and an attached file. Neither is opened, run or read as text of the page."""
    root = (
        b"/OpenAction << /S /JavaScript /JS (app.alert\\('SCRIPTWORD'\\);) >> "
        b"/Names << /EmbeddedFiles << /Names [(note.txt) 40 0 R] >> >>"
    )
    objects = document([page(20)], {20: stream(WORDS)}, root)
    objects[40] = b"<< /Type /Filespec /F (note.txt) /EF << /F 41 0 R >> >>"
    objects[41] = stream(b"ATTACHEDWORD", b"/Type /EmbeddedFile")
    path.write_bytes(assemble(objects))


def text_outside_the_page(path: Path) -> None:
    outside = text_content("LEFTOUT", left=-900) + b" " + text_content("ABOVEOUT", top=3000)
    path.write_bytes(assemble(document([page(20)], {20: stream(WORDS + b" " + outside)})))


def blank_scan_and_drawing(path: Path) -> None:
    """Three pages without a word: nothing at all, a picture over the whole page, a drawing of lines."""
    picture = stream(
        zlib.compress(bytes(100 * 130)),
        b"/Type /XObject /Subtype /Image /Width 100 /Height 130 /BitsPerComponent 8 /ColorSpace /DeviceGray "
        + FLATE,
    )
    pages = [page(20), page(21, b"/XObject << /I 30 0 R >>"), page(22)]
    contents = {
        20: stream(b" "),
        21: stream(b"q 612 0 0 792 0 0 cm /I Do Q"),
        22: stream(b"2 w 100 100 m 500 700 l S 100 700 m 500 100 l S 200 300 200 200 re S"),
        30: picture,
    }
    path.write_bytes(assemble(document(pages, contents)))


def _to_unicode(pairs: bytes, count: int) -> bytes:
    """A table that says which character each code of a font means."""
    return (
        b"/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapName /X def\n"
        b"1 begincodespacerange <00> <ff> endcodespacerange\n%d beginbfchar\n%s\nendbfchar endcmap end end"
        % (count, pairs)
    )


def garbled_text(path: Path) -> None:
    """Looks right on paper; its text layer maps every letter to a code for private use."""
    private = b"\n".join(b"<%02x> <%04x>" % (n, 0xE000 + n) for n in range(32, 127))
    objects = document(
        [page(20)], {20: stream(text_content(*LINES * 8)), 31: stream(_to_unicode(private, 95))}
    )
    objects[3] = b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /ToUnicode 31 0 R >>"
    path.write_bytes(assemble(objects))


def shifted_text(path: Path) -> None:
    """Its text layer is 30 codes too low, so that "Wheel" says "9JGGN"; it looks right on paper.

    Such is page 19 of a public coding manual of an accident board.
    """
    shift = b"\n".join(b"<%02x> <%04x>" % (n, n - 30 if n > 62 else n) for n in range(33, 127))
    objects = document([page(20)], {20: stream(text_content(*LINES * 8)), 31: stream(_to_unicode(shift, 94))})
    objects[3] = b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /ToUnicode 31 0 R >>"
    path.write_bytes(assemble(objects))


# What lies on the page and not in its content


def _shown_form(text: bytes) -> bytes:
    content = b"BT /F1 12 Tf 4 6 Td (%s) Tj ET" % text
    return stream(
        content, b"/Type /XObject /Subtype /Form /BBox [0 0 300 20] /Resources << /Font << /F1 3 0 R >> >>"
    )


def only_a_stamp(path: Path) -> None:
    """An empty page with a stamp laid on it, as reviewers do."""
    objects = document(
        [page(20, entries=b"/Annots [30 0 R]")], {20: stream(b" "), 31: _shown_form(b"SUPERSEDED")}
    )
    objects[30] = b"<< /Type /Annot /Subtype /Stamp /Rect [100 600 400 620] /F 4 /AP << /N 31 0 R >> >>"
    path.write_bytes(assemble(objects))


def filled_form(path: Path) -> None:
    """A form: its label is page content, what was typed in the field is not."""
    root = b"/AcroForm << /Fields [30 0 R] /DA (/F1 12 Tf) /DR << /Font << /F1 3 0 R >> >> >>"
    pages = [page(20, entries=b"/Annots [30 0 R]")]
    objects = document(
        pages, {20: stream(text_content("Part number of the brake:")), 31: _shown_form(b"40T3241-1")}, root
    )
    objects[30] = (
        b"<< /Type /Annot /Subtype /Widget /FT /Tx /T (part) /V (40T3241-1) /Rect [300 710 500 730] /F 4 "
        b"/P 10 0 R /DA (/F1 12 Tf) /AP << /N 31 0 R >> >>"
    )
    path.write_bytes(assemble(objects))


def one_word_off_the_edge(path: Path) -> None:
    """One very long word begins on the page and runs over its edge."""
    path.write_bytes(assemble(document([page(20)], {20: stream(text_content("BRAKE" * 60))})))


# Dangerous: read these only in a worker


def hang(path: Path) -> None:
    """Hours of work in 3 kilobytes: each of ten million color changes runs a function of 20,000 steps.

    Takes next to no memory, so that only a limit on time stops it.
    """
    function = stream(
        zlib.compress(b"{ " + b"dup pop " * 10_000 + b"}", 9),
        b"/FunctionType 4 /Domain [0 1] /Range [0 1] " + FLATE,
    )
    spot = b"/ColorSpace << /CS [/Separation /Spot /DeviceGray 30 0 R] >>"
    content = stream(_inflating(WORDS + b" /CS cs " + b"0.1 scn " * 10_000, 1000), TWICE)
    path.write_bytes(assemble(document([page(20, spot)], {20: content, 30: function})))


def crash(path: Path) -> None:
    """100 million saved graphics states in 2 kilobytes: the PDF library ends its own process when it gets no
    memory for the next one."""
    path.write_bytes(assemble(document([page(20)], {20: stream(_inflating(b"q " * (1 << 19), 200), TWICE)})))


def bomb(path: Path) -> None:
    """1.5 gigabytes of nothing in 3 kilobytes."""
    path.write_bytes(assemble(document([page(20)], {20: stream(_inflating(b" " * (1 << 20), 1500), TWICE)})))


def forms_without_end(path: Path) -> None:
    """A form that draws itself twice: the work and the memory double at every level."""
    objects = document([page(20, b"/XObject << /X0 100 0 R >>")], {20: stream(WORDS + b" /X0 Do")})
    objects[100] = stream(
        b"/X0 Do /X0 Do",
        b"/Type /XObject /Subtype /Form /BBox [0 0 612 792] /Resources << /XObject << /X0 100 0 R >> >>",
    )
    path.write_bytes(assemble(objects))
