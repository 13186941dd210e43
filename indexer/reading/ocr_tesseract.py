"""The engine tesseract, called as a program of its own, one thread, and never through a shell."""

import os
import re
import shutil
import subprocess
import time
from dataclasses import dataclass
from functools import cache

from indexer.reading.ocr_engine import EngineFailed, OutOfTime, Picture, PictureWord
from indexer.reading.second_look import LIKELY, unread_text, with_second_look

_PROGRAM = "tesseract"
_ANSWERS_WITHIN_S = 20.0  # to say its version, on a machine that is busy
_LEAST_SURE = 2.0  # orientation confidence, in tesseract's own unit; below it the turn is a guess
_LANGUAGE = "eng"
_ONE_THREAD = {"OMP_THREAD_LIMIT": "1"}  # a worker a core reads more pages than one page over many cores
_LAID_OUT, _PLAIN_LINES = ("--psm", "3"), ("--psm", "6")
_AS_TABLE = ("-c", "tessedit_create_tsv=1")
_WORD_LEVEL = "5"  # of the table's rows


@dataclass(frozen=True, slots=True)
class Tesseract:
    program: str  # path
    version: str

    @property
    def name(self) -> str:
        return f"tesseract {self.version}"

    def read(self, picture: Picture, dpi: int, time_limit_s: float) -> list[PictureWord]:
        """See Engine. Columns are told apart by tesseract's own page layout (psm 3).

        That layout takes a column of short numbers, such as the items of a parts list, for a line that runs
        downward, and reads nonsense or nothing. So what is left without a likely word is read once more as
        plain lines (psm 6).
        """
        until = time.monotonic() + time_limit_s
        words = words_of(self._run(picture, dpi, time_limit_s, *_LAID_OUT, *_AS_TABLE))
        left_over = unread_text(picture, [word for word in words if word.confidence >= LIKELY], dpi)
        if left_over is None:
            return words
        more = words_of(self._run(left_over, dpi, until - time.monotonic(), *_PLAIN_LINES, *_AS_TABLE))
        return with_second_look(words, more)

    def turned(self, picture: Picture, dpi: int, time_limit_s: float) -> int | None:
        """See Engine. None as well without tesseract's data for it (osd), or with too little text."""
        try:
            answer = self._run(picture, dpi, time_limit_s, "--psm", "0", language="osd")
        except _Refused:
            return None
        rotate = re.search(r"^Rotate: (\d+)", answer, re.M)
        sure = re.search(r"^Orientation confidence: ([\d.]+)", answer, re.M)
        if not rotate or not sure or float(sure[1]) < _LEAST_SURE:
            return None
        return (360 - int(rotate[1])) % 360

    def _run(
        self, picture: Picture, dpi: int, time_limit_s: float, *options: str, language: str = _LANGUAGE
    ) -> str:
        command = [self.program, "stdin", "stdout", "-l", language, "--dpi", str(dpi), *options]
        try:
            done = subprocess.run(
                command,
                input=_as_pgm(picture),
                capture_output=True,
                timeout=max(time_limit_s, 0.1),
                env={**os.environ, **_ONE_THREAD},
            )
        except subprocess.TimeoutExpired:
            raise OutOfTime(f"it took more than {time_limit_s:.0f} seconds") from None
        except OSError as problem:
            raise EngineFailed(f"tesseract does not start: {problem.strerror or problem}") from None
        if done.returncode:
            said = done.stderr.decode("utf-8", "replace").strip().splitlines()
            raise _Refused(said[-1] if said else f"tesseract ended with code {done.returncode}")
        return done.stdout.decode("utf-8", "replace")


class _Refused(EngineFailed):
    """tesseract ran and said no."""


@cache
def find_tesseract() -> Tesseract | None:
    """tesseract as installed on this machine, None without it or without its data for English."""
    program = shutil.which(_PROGRAM)
    if program is None:
        return None
    version = re.search(r"tesseract v?(\d[\w.]*)", _said_by(program, "--version"))
    languages = _said_by(program, "--list-langs").split()
    return Tesseract(program, version[1]) if version and _LANGUAGE in languages else None


def words_of(tsv: str) -> list[PictureWord]:
    """Words from tesseract's table of results, lines counted in its order."""
    words = []
    lines: dict[tuple[str, ...], int] = {}
    for row in tsv.splitlines():
        cells = row.split("\t")
        if len(cells) < 12 or cells[0] != _WORD_LEVEL or not cells[11].strip():
            continue
        line = lines.setdefault(tuple(cells[1:5]), len(lines))
        left, top, width, height = (float(cell) for cell in cells[6:10])
        confidence = min(max(float(cells[10]) / 100, 0.0), 1.0)
        words.append(PictureWord(cells[11].strip(), left, top, left + width, top + height, confidence, line))
    return words


def _said_by(program: str, option: str) -> str:
    try:
        done = subprocess.run([program, option], capture_output=True, timeout=_ANSWERS_WITHIN_S)
    except (OSError, subprocess.TimeoutExpired):
        return ""
    return (done.stdout + done.stderr).decode("utf-8", "replace")  # old versions say it on stderr


def _as_pgm(picture: Picture) -> bytes:
    """The picture as a file that needs no packing: portable gray map, netpbm's pgm(5)."""
    height, width = picture.shape
    return b"P5 %d %d 255\n" % (width, height) + picture.tobytes()
