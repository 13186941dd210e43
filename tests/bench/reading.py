"""How fast are PDFs read? Ours against pdftotext -bbox-layout on the same files, in the same run.

    python tests/bench/reading.py FILE...
    python tests/bench/reading.py tests/data/real/*.pdf sample_docs/pdf/*.pdf

Measured: words with boxes (one process, ours and pdftotext in turn, file by file), whole documents (layout,
tables, headings and passages too), and the peak memory of one process over a file of 1,500 pages put together
from the given ones. The machine is shared and noisy: trust ratios, not milliseconds. pdftotext starts a
process for each file, which is counted; ours runs in a process that is up already, as a worker is.
Needs pdftotext (poppler-utils). Results: a table here, and every single time in tests/bench/runs/.
"""

import argparse
import datetime
import json
import os
import platform
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from importlib.metadata import version
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path.insert(0, str(ROOT))

import pypdfium2  # noqa: E402

from indexer.errors import FileRefused  # noqa: E402
from indexer.reading.document import read_document  # noqa: E402
from indexer.reading.page import TextState  # noqa: E402
from indexer.reading.pdf import PdfFile  # noqa: E402
from indexer.settings import Settings  # noqa: E402

SETTINGS = Settings()
LONG = 1500  # pages


def main() -> None:
    options = _options()
    if options.peak:
        print(json.dumps(_peak(Path(options.peak))))
        return
    files = [path for path in map(Path, options.files) if _is_born_digital(path)]
    if not files:
        sys.exit("no born-digital PDF among the files given")
    left_out = len(options.files) - len(files)
    print(f"{len(files)} born-digital files ({left_out} left out), {options.repeats} rounds")
    rounds = [_round(files) for _ in range(options.repeats)]
    documents = [_documents(files) for _ in range(options.repeats)]
    with tempfile.TemporaryDirectory() as folder:
        long_file = Path(folder) / "long.pdf"
        _put_together(files, long_file)
        peak = _peak_in_a_process_of_its_own(long_file)
    result = {
        "machine": {
            "system": platform.platform(),
            "cores": os.cpu_count(),
            "python": platform.python_version(),
        },
        "versions": {
            "pypdfium2": version("pypdfium2"),
            "pdfium": str(pypdfium2.version.PDFIUM_INFO),
            "pdfplumber": version("pdfplumber"),
            "pdftotext": _pdftotext_version(),
        },
        "files": [path.name for path in files],
        "words_with_boxes": rounds,
        "whole_documents": documents,
        "peak_memory": peak,
    }
    _show(result)
    runs = Path(__file__).parent / "runs"
    runs.mkdir(exist_ok=True)
    path = runs / f"{datetime.date.today().isoformat()}-reading.json"
    path.write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")
    print(f"every single time: {path.relative_to(ROOT)}")


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("files", nargs="*", help="PDF files; scans are left out")
    parser.add_argument("--repeats", type=int, default=5)
    parser.add_argument("--peak", help=argparse.SUPPRESS)  # read this file and print the peak memory
    return parser.parse_args()


def _is_born_digital(path: Path) -> bool:
    """Whether most pages hold text that is not a layer of OCR."""
    try:
        pages = read_document(path, SETTINGS).pages
    except FileRefused:
        return False
    digital = sum(page.state is TextState.TEXT and page.origin == "digital" for page in pages)
    return digital > len(pages) / 2


def _round(files: list[Path]) -> list[dict]:
    """Each file by both, one right after the other."""
    return [
        {
            "file": path.name,
            "ours": _timed(_read_words, path),
            "pdftotext": _timed(_read_with_pdftotext, path),
        }
        for path in files
    ]


def _timed(work, path: Path) -> dict:
    start = time.perf_counter()
    done = work(path)
    return {"seconds": time.perf_counter() - start, **done}


def _read_words(path: Path) -> dict:
    words = 0
    with PdfFile(path, SETTINGS) as pdf:
        for number in range(1, pdf.page_count + 1):
            words += sum(map(len, pdf.raw_page(number).words.values()))
        return {"pages": pdf.page_count, "words": words}


def _read_with_pdftotext(path: Path) -> dict:
    command = ["pdftotext", "-bbox-layout", str(path), "-"]
    out = subprocess.run(command, capture_output=True, check=True).stdout
    return {"pages": len(re.findall(rb"<page ", out)), "words": len(re.findall(rb"<word ", out))}


def _documents(files: list[Path]) -> dict:
    start = time.perf_counter()
    pages = passages = 0
    for path in files:
        document = read_document(path, SETTINGS)
        pages += len(document.pages)
        passages += len(document.passages)
    return {"seconds": time.perf_counter() - start, "pages": pages, "passages": passages}


def _put_together(files: list[Path], path: Path) -> None:
    """One file of LONG pages: the pages of the given ones, over and over."""
    with pypdfium2.PdfDocument.new() as long_file:
        while len(long_file) < LONG:
            for source_path in files:
                with pypdfium2.PdfDocument(source_path) as source:
                    room = min(LONG - len(long_file), len(source))
                    if room > 0:
                        long_file.import_pages(source, list(range(room)))
        long_file.save(path)


def _peak_in_a_process_of_its_own(path: Path) -> dict:
    command = [sys.executable, __file__, "--peak", str(path)]
    return json.loads(subprocess.run(command, capture_output=True, check=True, text=True).stdout)


def _peak(path: Path) -> dict:
    start = time.perf_counter()
    document = read_document(path, SETTINGS)
    return {
        "pages": len(document.pages),
        "words": sum(len(line.words) for page in document.pages for line in page.body),
        "seconds": time.perf_counter() - start,
        "peak_mb": _most_resident_mb(),
    }


def _most_resident_mb() -> float | None:
    """The most memory this process has held, in MB; None where the system does not say."""
    status = Path("/proc/self/status")
    if not status.exists():
        return None
    return int(re.search(r"VmHWM:\s+(\d+) kB", status.read_text())[1]) / 1024


def _pdftotext_version() -> str:
    out = subprocess.run(["pdftotext", "-v"], capture_output=True, text=True, check=False)
    return (out.stderr or out.stdout).splitlines()[0]


def _ratio(rounds: list[list[dict]], index: int) -> float:
    """Our time over pdftotext's for one file, median of the rounds."""
    each = [files[index]["ours"]["seconds"] / files[index]["pdftotext"]["seconds"] for files in rounds]
    return statistics.median(each)


def _show(result: dict) -> None:
    rounds = result["words_with_boxes"]
    pages = sum(each["ours"]["pages"] for each in rounds[0])
    print(f"\nwords with boxes, {pages} pages        ms a page (median of rounds)   words")
    medians = {}
    for name in ("ours", "pdftotext"):
        per_page = [1000 * sum(each[name]["seconds"] for each in files) / pages for files in rounds]
        medians[name] = statistics.median(per_page)
        words = sum(each[name]["words"] for each in rounds[0])
        print(f"  {name:12} {medians[name]:8.2f}   ({min(per_page):.2f} to {max(per_page):.2f})   {words:8}")
    worst, file = max((_ratio(rounds, index), each["file"]) for index, each in enumerate(rounds[0]))
    ratio = medians["ours"] / medians["pdftotext"]
    print(f"  ratio {ratio:.2f} (may be 5); the worst file: {worst:.2f}, {file}")
    documents = result["whole_documents"]
    rates = [each["pages"] / each["seconds"] for each in documents]
    print(f"whole documents: {statistics.median(rates):.0f} pages a second in one process")
    peak = result["peak_memory"]
    done = f"{peak['pages']} pages, {peak['words']} words"
    print(f"peak memory over {done}: {peak['peak_mb']:.0f} MB (may be 400)")


if __name__ == "__main__":
    if shutil.which("pdftotext") is None:
        sys.exit("pdftotext (poppler-utils) is not installed")
    main()
