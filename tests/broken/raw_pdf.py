"""A PDF written object by object, so that a test can break exactly one thing in it."""

from collections.abc import Mapping, Sequence
from pathlib import Path

FONT = b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>"


def stream(content: bytes, entries: bytes = b"") -> bytes:
    """A stream object with its length; `entries` go into its dictionary."""
    return b"<< /Length %d %s >>\nstream\n%s\nendstream" % (len(content), entries, content)


def text_content(*lines: str, size: int = 12, left: int = 72, top: int = 720) -> bytes:
    """Page content that shows lines of plain text, one below the other."""
    shown = b"".join(b"(%s) Tj T* " % line.encode("latin-1") for line in lines)
    return b"BT /F1 %d Tf %d TL %d %d Td %s ET" % (size, size + 3, left, top, shown)


def page(content: int, resources: bytes = b"", box: bytes = b"0 0 612 792", entries: bytes = b"") -> bytes:
    """A page dictionary with the common font (object 3); `content` is the number of its content object.

    resources, entries   more for its resources, and for the page itself
    """
    return (
        b"<< /Type /Page /Parent 2 0 R /MediaBox [%s] /Contents %d 0 R %s "
        b"/Resources << /Font << /F1 3 0 R >> %s >> >>" % (box, content, entries, resources)
    )


def assemble(
    objects: Mapping[int, bytes], trailer: bytes = b"", offset_error: int = 0, startxref_error: int = 0
) -> bytes:
    """The file's bytes: header, objects, cross-reference table, trailer (root is object 1).

    offset_error, startxref_error   bytes by which the table and the pointer to it lie
    """
    written = bytearray(b"%PDF-1.5\n%\xe2\xe3\xcf\xd3\n")
    offsets = {}
    for number, body in sorted(objects.items()):
        offsets[number] = len(written)
        written += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    start, size = len(written), max(objects) + 1
    written += b"xref\n0 %d\n0000000000 65535 f \n" % size
    for number in range(1, size):
        if number in offsets:
            written += b"%010d 00000 n \n" % (offsets[number] + offset_error)
        else:
            written += b"0000000000 00000 f \n"
    written += b"trailer\n<< /Size %d /Root 1 0 R %s >>\n" % (size, trailer)
    written += b"startxref\n%d\n%%%%EOF\n" % (start + startxref_error)
    return bytes(written)


def document(
    pages: Sequence[bytes], others: Mapping[int, bytes] | None = None, root: bytes = b""
) -> dict[int, bytes]:
    """Objects of a document: 1 root, 2 page tree, 3 font, pages from 10 on, then `others`."""
    kids = b" ".join(b"%d 0 R" % (10 + n) for n in range(len(pages)))
    objects = {
        1: b"<< /Type /Catalog /Pages 2 0 R %s >>" % root,
        2: b"<< /Type /Pages /Kids [%s] /Count %d >>" % (kids, len(pages)),
        3: FONT,
    }
    objects.update({10 + n: body for n, body in enumerate(pages)})
    objects.update(others or {})
    return objects


def write(path: Path, content: bytes) -> Path:
    path.write_bytes(content)
    return path
