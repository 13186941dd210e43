"""A page as a JPEG picture: drawn by pdfium in an isolated worker, kept on disk.

A page that crashes, hangs or would fill the memory costs its worker and this one answer, never the service.
"""

import contextlib
import io
import multiprocessing
import os
import tempfile
import threading
from concurrent.futures import TimeoutError as FutureTimeout
from pathlib import Path

import pebble

from indexer.errors import HangarleafError

JPEG_QUALITY = 80
POINTS_PER_INCH = 72
PICTURE_DPIS = (75, 110, 150, 220, 300)  # the only sizes drawn, so that the cache stays bounded
PAGES_PER_WORKER = 500  # a worker is renewed after this many, whatever it leaked


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
    with io.BytesIO() as out:
        image.save(out, "JPEG", quality=JPEG_QUALITY, optimize=True)
        return out.getvalue()


def _limit_memory(megabytes: int) -> None:
    """In the worker, on systems that can: a page that asks for more fails alone."""
    with contextlib.suppress(ImportError):  # Windows has no such limit; the pixel limit still holds there
        import resource

        if megabytes:
            resource.setrlimit(resource.RLIMIT_AS, (megabytes * 1024 * 1024,) * 2)


class PagePictures:
    """Pictures of pages. Safe to use from many threads; `close` ends the worker."""

    def __init__(self, cache: Path, time_limit_s: float, max_pixels: int, memory_mb: int):
        self._cache = cache
        self._time_limit_s = time_limit_s
        self._max_pixels = max_pixels
        self._memory_mb = memory_mb
        self._pool: pebble.ProcessPool | None = None
        self._lock = threading.Lock()

    def picture(self, path: Path, copy_id: str, pdf_page: int, dpi: int) -> bytes:
        """The JPEG of one page. `copy_id` names the content of the file. Raises PageNotDrawn."""
        kept = self._cache / copy_id / f"{pdf_page}-{dpi}.jpg"
        with contextlib.suppress(OSError):  # not drawn yet, or the cache was emptied meanwhile
            return kept.read_bytes()
        if not path.is_file():
            raise PageNotDrawn(path.name, pdf_page, "the file is no longer where it was taken from")
        jpeg = self._drawn(path, pdf_page, dpi)
        _keep(kept, jpeg)
        return jpeg

    def _drawn(self, path: Path, pdf_page: int, dpi: int) -> bytes:
        task = self._workers().schedule(
            draw, args=[str(path), pdf_page, dpi, self._max_pixels], timeout=self._time_limit_s
        )
        try:
            return task.result()
        except (TimeoutError, FutureTimeout):
            why = f"it took more than {self._time_limit_s:g} seconds"
        except pebble.ProcessExpired:
            why = "it stopped the worker"
        except MemoryError:
            why = "it needs too much memory"
        except Exception as problem:  # whatever the page made pdfium raise: it is the page's answer, not ours
            why = str(problem) or type(problem).__name__
        raise PageNotDrawn(path.name, pdf_page, why)

    def _workers(self) -> pebble.ProcessPool:
        with self._lock:
            if self._pool is None or not self._pool.active:
                self._pool = pebble.ProcessPool(
                    max_workers=1,
                    max_tasks=PAGES_PER_WORKER,
                    initializer=_limit_memory,
                    initargs=[self._memory_mb],
                    context=multiprocessing.get_context("spawn"),
                )
            return self._pool

    def close(self) -> None:
        """End the worker; a picture being drawn is given up."""
        with self._lock:
            if self._pool is not None:
                self._pool.stop()
                self._pool.join()
                self._pool = None


def _keep(place: Path, jpeg: bytes) -> None:
    """Write whole or not at all: a reader never meets half a picture."""
    place.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=place.parent, suffix=".part")
    with os.fdopen(handle, "wb") as file:
        file.write(jpeg)
    os.replace(name, place)
