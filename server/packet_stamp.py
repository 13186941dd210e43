"""Original pages with a strip beside them: content at its true size, nothing laid over it. In a worker.

A page becomes a form XObject (ISO 32000-1, 8.10), clipped to what its crop box shows and turned as /Rotate
asks, on a page that is wider by the strip. So its text stays text and its drawing stays drawing. Links,
scripts, attachments and form actions stay behind: a form XObject has none. What annotations show is drawn in.
"""

import io
from collections.abc import Sequence
from pathlib import Path

import pikepdf
from pikepdf import Array, Dictionary, Name

from indexer.settings import Settings
from server.packet_strip import Line, draw_strips, strip_for

PDF_VERSION = "1.7"
_UNIT_MOST = 75.0  # a user unit above that is a mistake of the file: ISO 32000-1, annex C, allows so much
_DEFAULT_BOX = (0.0, 0.0, 612.0, 792.0)
_DEEPEST = 50  # nodes above a page
_LEAST = 1.0  # point: a box narrower than that shows nothing

Wanted = tuple[int, tuple[Line, ...]]  # pdf_page (1-based), lines of its strip


def stamp_file(path: Path, settings: Settings, wanted: Sequence[Wanted], out: str) -> tuple[str, ...]:
    """Write the wanted pages of one file to `out`, each with its strip, and say of each what went wrong.

    "" = it is in `out`, at its place among those that are; else why it is not. Raises pikepdf.PdfError where
    the file cannot be opened at all.
    """
    problems, taken = [], []
    with pikepdf.open(path) as source, pikepdf.new() as made:
        if any("/Annots" in page.obj for page in source.pages):
            draw_annotations(source)
        for pdf_page, lines in wanted:
            try:
                page = source.pages[pdf_page - 1]
                shown = Shown(page)
                strip = strip_for(shown.height, lines)
                form = made.copy_foreign(content_of(page, shown))
            except (pikepdf.PdfError, IndexError, ValueError, TypeError, KeyError, RuntimeError) as problem:
                problems.append(str(problem) or type(problem).__name__)
            else:
                problems.append("")
                taken.append((shown, strip, form))
        with pikepdf.open(io.BytesIO(draw_strips([strip for _, strip, _ in taken]))) as strips:
            for (shown, strip, form), drawn in zip(taken, strips.pages if taken else (), strict=True):
                _put_together(made, shown, strip, form, made.copy_foreign(drawn.as_form_xobject()))
        carry_layers(source, made)
        made.save(out, min_version=PDF_VERSION)
    return tuple(problems)


class Shown:
    """What of a page is displayed: its box in its own units, its turn, its unit, its size in points."""

    def __init__(self, page: pikepdf.Page):
        try:
            media = _box(page.mediabox) or _DEFAULT_BOX
        except AttributeError:  # no box anywhere
            media = _DEFAULT_BOX
        crop = _box(page.obj.get("/CropBox") or _inherited(page, "/CropBox")) or media
        inside = _common(crop, media)
        self.box = inside if inside else media
        self.turned = int(_number(page.rotation)) % 360
        if self.turned % 90:
            self.turned = 0
        unit = _number(page.obj.get("/UserUnit", 1))
        self.unit = unit if 0 < unit <= _UNIT_MOST else 1.0
        x0, y0, x1, y1 = self.box
        size = ((x1 - x0) * self.unit, (y1 - y0) * self.unit)
        self.width, self.height = size if self.turned in (0, 180) else size[::-1]

    def matrix(self, left: float, bottom: float) -> tuple[float, ...]:
        """Takes the page's own coordinates to where it is displayed, lower left corner at left, bottom."""
        x0, y0, x1, y1 = self.box
        a, b, c, d, e, f = {
            0: (1, 0, 0, 1, -x0, -y0),
            90: (0, -1, 1, 0, -y0, x1),
            180: (-1, 0, 0, -1, x1, y1),
            270: (0, 1, -1, 0, y1, -x0),
        }[self.turned]
        u = self.unit
        return (a * u, b * u, c * u, d * u, e * u + left, f * u + bottom)


def content_of(page: pikepdf.Page, shown: Shown) -> pikepdf.Object:
    """The page's content as a form XObject, clipped to what is displayed."""
    page.remove_unreferenced_resources()
    for name in ("/TrimBox", "/ArtBox", "/BleedBox"):  # a printer's boxes: they hide nothing on a screen
        if name in page.obj:
            del page.obj[name]
    form = page.as_form_xobject(handle_transformations=False)
    form.BBox = Array([*map(_decimal, shown.box)])
    for name in ("/StructParents", "/StructParent"):  # tags that lead into a tree which stays behind
        if name in form:
            del form[name]
    return form


def draw_annotations(source: pikepdf.Pdf) -> None:
    """Draw what annotations and form fields show into their pages: a stamp that says VOID must stay."""
    if "/AcroForm" in source.Root:
        source.generate_appearance_streams()
    source.flatten_annotations("screen")


def carry_layers(source: pikepdf.Pdf, made: pikepdf.Pdf) -> None:
    """Keep layers hidden that the file hides (ISO 32000-1, 8.11.4): without this they would all be shown."""
    properties = source.Root.get("/OCProperties")
    if properties is None:
        return
    config = properties.get("/D", Dictionary())
    groups = [each for each in properties.get("/OCGs", Array()) if each.is_indirect]  # else not told apart
    shown = {each.objgen for each in config.get("/ON", Array())}
    hidden = {each.objgen for each in config.get("/OFF", Array())}
    if config.get("/BaseState", Name.ON) == Name.OFF:
        hidden |= {each.objgen for each in groups} - shown
    own = made.Root.get("/OCProperties")
    if own is None:
        own = made.Root["/OCProperties"] = Dictionary(OCGs=Array(), D=Dictionary(OFF=Array(), ON=Array()))
    for each in groups:
        copied = made.copy_foreign(each)
        own.OCGs.append(copied)
        own.D[Name.OFF if each.objgen in hidden else Name.ON].append(copied)


def _put_together(
    made: pikepdf.Pdf, shown: Shown, strip, form: pikepdf.Object, strip_form: pikepdf.Object
) -> None:
    """One page: the strip at the left, the content at its right, both with their tops at the top."""
    height = max(shown.height, strip.height)
    content = (
        f"q {_matrix((1, 0, 0, 1, 0, height - strip.height))} cm /Strip Do Q\n"
        f"q {_matrix(shown.matrix(strip.width, height - shown.height))} cm /Page Do Q\n"
    )
    page = Dictionary(
        Type=Name.Page,
        MediaBox=Array([0, 0, _decimal(strip.width + shown.width), _decimal(height)]),
        Resources=Dictionary(XObject=Dictionary(Strip=strip_form, Page=form)),
        Contents=made.make_stream(content.encode("ascii")),
    )
    if "/Group" in form:  # how the page's own colours mix
        page.Group = form.Group
    made.pages.append(pikepdf.Page(made.make_indirect(page)))


def _matrix(values: Sequence[float]) -> str:
    return " ".join(f"{value:.5f}".rstrip("0").rstrip(".") or "0" for value in values)


def _decimal(value: float) -> float:
    return round(value, 4)


def _inherited(page: pikepdf.Page, name: str):
    """What a page has from the nodes above it (ISO 32000-1, 7.7.3.4); None where none of them has it."""
    at = page.obj.get("/Parent")
    for _ in range(_DEEPEST):
        if at is None or name in at:
            break
        at = at.get("/Parent")
    return None if at is None else at.get(name)


def _box(given) -> tuple[float, float, float, float] | None:
    """Corners in order; None for what is no box, or shows nothing."""
    try:
        a, b, c, d = (_number(each) for each in given)
    except (TypeError, ValueError):
        return None
    box = (min(a, c), min(b, d), max(a, c), max(b, d))
    return box if box[2] - box[0] >= _LEAST and box[3] - box[1] >= _LEAST else None


def _common(one: Sequence[float], two: Sequence[float]) -> tuple[float, float, float, float] | None:
    box = (max(one[0], two[0]), max(one[1], two[1]), min(one[2], two[2]), min(one[3], two[3]))
    return box if box[2] - box[0] >= _LEAST and box[3] - box[1] >= _LEAST else None


def _number(value) -> float:
    return float(value)
