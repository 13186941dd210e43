"""A page, or a tile of it, as a JPEG picture: drawn by pdfium in an isolated worker, kept on disk.

A page that crashes, hangs or would fill the memory costs its worker and this one answer, never the service.
"""

import contextlib
import io
import multiprocessing
import threading
from collections import OrderedDict
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

import pebble

from indexer.errors import HangarleafError
from indexer.reading.page import Word
from indexer.settings import Settings
from server.picture_cache import PictureCache
from server.tiles import Crop, Tile, crop_of

if TYPE_CHECKING:
    from PIL import Image

Result = TypeVar("Result")

JPEG_QUALITY = 80
POINTS_PER_INCH = 72
PICTURE_DPIS = (75, 110, 150, 220, 300)  # the only sizes drawn, so that the cache stays bounded
WORKERS = 2  # so that one slow page does not hold up the rest
WORDS_TIME_LIMIT_S = 5.0  # the page view waits for these; without them only marks on words are missing
PAGES_PER_WORKER = 500  # a worker is renewed after this many, whatever it leaked
WORDS_KEPT = 64  # pages whose words are held in memory: a page is turned back to, and asked again


class PageNotDrawn(HangarleafError):
    """One page could not be made into a picture; its text and the rest of the file are still there."""

    slug = "page-not-drawn"

    def __init__(self, file: str, pdf_page: int, why: str):
        super().__init__(
            f"{file}, PDF page {pdf_page}: no picture could be made of this page ({why}).",
            "Open the file itself in a PDF reader, or ask its publisher for a good copy.",
        )


def draw(path: str, pdf_page: int, dpi: int, max_pixels: int) -> bytes:
    """JPEG bytes of one page, turned as the file asks. Runs in the worker.

    pdf_page    1-based
    max_pixels  a larger page is drawn smaller, never larger than this
    """
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    try:
        page = document[pdf_page - 1]
        scale = dpi / POINTS_PER_INCH
        pixels = page.get_width() * page.get_height() * scale * scale
        if pixels > max_pixels:
            scale *= (max_pixels / pixels) ** 0.5
        image = page.render(scale=scale).to_pil().convert("RGB")
    finally:
        document.close()
    return _jpeg(image)


def draw_tile(path: str, pdf_page: int, crop: Crop) -> bytes:
    """JPEG bytes of one tile of a page, turned as the file asks. Runs in the worker.

    pdf_page    1-based
    Only the tile is held in memory, however large the page: pdfium draws the whole page at the scale of
    `crop`, moved so that all but the tile falls outside the picture.
    """
    import pypdfium2
    from pypdfium2 import raw

    document = pypdfium2.PdfDocument(path)
    try:
        page = document[pdf_page - 1]
        bitmap = pypdfium2.PdfBitmap.new_native(crop.width, crop.height, raw.FPDFBitmap_BGR)
        raw.FPDFBitmap_FillRect(bitmap, 0, 0, crop.width, crop.height, 0xFFFFFFFF)
        place = (-crop.left, -crop.top, crop.page_width, crop.page_height)
        raw.FPDF_RenderPageBitmap(bitmap, page, *place, 0, raw.FPDF_ANNOT)
        image = bitmap.to_pil().convert("RGB")
    finally:
        document.close()
    return _jpeg(image)


def _jpeg(image: "Image.Image") -> bytes:
    with io.BytesIO() as out:
        image.save(out, "JPEG", quality=JPEG_QUALITY, optimize=True)
        return out.getvalue()


def words_on(path: str, pdf_page: int, settings: Settings) -> tuple[Word, ...]:
    """The words of one page with their boxes, in the order of the file. Runs in the worker."""
    from indexer.reading.pdf import PdfFile

    with PdfFile(Path(path), settings) as pdf:
        words = pdf.raw_page(pdf_page).words
    return tuple(word for direction in words for word in words[direction])


def _ready() -> None:
    """In the worker: what drawing and reading a page need is loaded."""
    import pypdfium2  # noqa: F401

    import indexer.reading.pdf  # noqa: F401


def _context() -> multiprocessing.context.BaseContext:
    """How workers are started: never by forking this process, whose threads may hold locks."""
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["pypdfium2", "PIL.Image", "indexer.reading.pdf", "server.render"])
    return context


def _limit_memory(megabytes: int) -> None:
    """In the worker, on systems that can: a page that asks for more fails alone."""
    with contextlib.suppress(ImportError):  # Windows has no such limit; the pixel limit still holds there
        import resource

        if megabytes:
            resource.setrlimit(resource.RLIMIT_AS, (megabytes * 1024 * 1024,) * 2)


class PagePictures:
    """Pictures of pages. Safe to use from many threads; `close` ends the worker."""

    def __init__(
        self,
        cache: Path,
        settings: Settings,
        drawing: Callable[[str, int, int, int], bytes] = draw,
    ):
        self._cache = PictureCache(cache)
        self._settings = settings
        self._drawing = drawing
        self._pool: pebble.ProcessPool | None = None
        self._lock = threading.Lock()
        self._words: OrderedDict[tuple[Path, int], tuple[Word, ...]] = OrderedDict()

    def warm(self) -> None:
        """Start the workers now, so that the first page asked for does not wait for them."""
        for _ in range(WORKERS):
            self._workers().schedule(_ready)

    def picture(self, path: Path, file: str, copy_id: str, pdf_page: int, dpi: int) -> bytes:
        """The JPEG of one page. Raises PageNotDrawn.

        path      where the PDF lies
        file      what it is called, for a person
        copy_id   names its content
        dpi       taken to the nearest size of PICTURE_DPIS that is not smaller
        """
        dpi = next((size for size in PICTURE_DPIS if size >= dpi), PICTURE_DPIS[-1])
        kept = self._cache.kept(copy_id, pdf_page, dpi)
        if kept is not None:
            return kept
        work = (self._drawing, str(path), pdf_page, dpi, self._settings.max_page_pixels)
        jpeg = self._done(file, pdf_page, self._settings.render_time_limit_s, *work)
        self._cache.keep(copy_id, pdf_page, dpi, jpeg)
        return jpeg

    def tile(
        self, path: Path, file: str, copy_id: str, pdf_page: int, size: tuple[float, float], tile: Tile
    ) -> bytes | None:
        """The JPEG of one tile of a page; None where the page has no such tile. Raises PageNotDrawn.

        size   of the page as displayed, in points
        """
        crop = crop_of(*size, tile)
        if crop is None:
            return None
        kept = self._cache.kept(copy_id, pdf_page, tile.name)
        if kept is not None:
            return kept
        limit_s = self._settings.render_time_limit_s
        jpeg = self._done(file, pdf_page, limit_s, draw_tile, str(path), pdf_page, crop)
        self._cache.keep(copy_id, pdf_page, tile.name, jpeg)
        return jpeg

    def words(self, path: Path, file: str, pdf_page: int) -> tuple[Word, ...]:
        """The words of one page with their boxes in points. Raises PageNotDrawn.

        path   names the content: a file of the library never changes
        """
        place = (path, pdf_page)
        with self._lock:
            if place in self._words:
                self._words.move_to_end(place)
                return self._words[place]
        limit_s = min(self._settings.render_time_limit_s, WORDS_TIME_LIMIT_S)
        words = self._done(file, pdf_page, limit_s, words_on, str(path), pdf_page, self._settings)
        with self._lock:
            self._words[place] = words
            while len(self._words) > WORDS_KEPT:
                self._words.popitem(last=False)
        return words

    def _done(
        self, file: str, pdf_page: int, limit_s: float, work: Callable[..., Result], *arguments: object
    ) -> Result:
        task = self._workers().schedule(work, args=arguments, timeout=limit_s)
        try:
            return task.result(timeout=2 * limit_s)  # it may wait for a worker as long as it may work
        except TimeoutError:
            task.cancel()
            why = f"it took more than {limit_s:g} seconds"
        except pebble.ProcessExpired:
            why = "it stopped the worker"
        except MemoryError:
            why = "it needs too much memory"
        except Exception as problem:  # whatever the page made pdfium raise: it is the page's answer, not ours
            why = str(problem) or type(problem).__name__
        raise PageNotDrawn(file, pdf_page, why)

    def _workers(self) -> pebble.ProcessPool:
        with self._lock:
            if self._pool is None or not self._pool.active:
                self._pool = pebble.ProcessPool(
                    max_workers=WORKERS,
                    max_tasks=PAGES_PER_WORKER,
                    initializer=_limit_memory,
                    initargs=[self._settings.worker_memory_mb],
                    context=_context(),
                )
            return self._pool

    def close(self) -> None:
        """End the worker; a picture being drawn is given up."""
        with self._lock:
            if self._pool is not None:
                self._pool.stop()
                self._pool.join()
                self._pool = None
