"""A job set as pages: general, removal, installation, test. How it is dressed is the layout's business."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from fiction import JOBS, Job
from sheet import Book, Face, PageFull, Sheet

BOLD = Face("Helvetica-Bold", 10)


def run_in(sheet: Sheet, dress: "Dress", kind: str, text: str) -> None:
    """The word at the margin, its text hanging beside it."""
    sheet.flow(
        text,
        dress.x,
        dress.width,
        dress.face,
        label=f"{kind}:",
        hang=dress.face.width("WARNING:") + 10,
        gap=9,
    )


def boxed(sheet: Sheet, dress: "Dress", kind: str, text: str) -> None:
    """A ruled box as wide as the text, the word centred in bold above its text; broken rule for a caution."""
    top = sheet.y + 8
    sheet.flow(kind, dress.x, dress.width, dress.head, align="center", gap=12)
    sheet.flow(text, dress.x + 10, dress.width - 20, dress.face, gap=2)
    sheet.box(dress.x, top, dress.x + dress.width, sheet.y + 7, 1.2, dash=(4, 3) if kind == "CAUTION" else ())
    sheet.y += 10


def centred(sheet: Sheet, dress: "Dress", kind: str, text: str) -> None:
    """No box: the word centred and underlined, its text in capitals in a narrower centred block."""
    middle, half = dress.x + dress.width / 2, dress.head.width(kind) / 2
    sheet.flow(kind, dress.x, dress.width, dress.head, align="center", gap=10)
    sheet.line(middle - half, sheet.y + 1.8, middle + half, sheet.y + 1.8, 0.8)
    sheet.flow(text.upper(), dress.x + 90, dress.width - 180, dress.face, align="center", gap=4)
    sheet.y += 6


@dataclass(frozen=True)
class Dress:
    """How text is set: the measure, the faces, the labels of steps, the form of a warning."""

    x: float = 72
    width: float = 468
    face: Face = Face()
    head: Face = BOLD
    title: Face = Face("Helvetica-Bold", 13)
    title_align: str = "left"
    label: str = "({n})"  # {n} 1, 2, 3; {a} a, b, c; {A} A, B, C
    heading: str = "{n}. {text}"
    hang: float = 24
    gap: float = 5
    warn: Callable[[Sheet, "Dress", str, str], None] = run_in


def label(form: str, n: int) -> str:
    """The label of the n-th step, n from 1."""
    return form.format(n=n, a=chr(96 + n), A=chr(64 + n))


def set_heading(sheet: Sheet, dress: Dress, n: int, text: str) -> None:
    sheet.heading(dress.heading.format(n=n, text=text), dress.x, dress.width, dress.head, gap=12)


def set_steps(
    book: Book, sheet: Sheet, dress: Dress, steps: Sequence[str], alert: tuple[str, str, int] | None = None
) -> None:
    """Numbered steps; `alert` is (kind, text, index of the step it stands above)."""
    for n, step in enumerate(steps):
        if alert and alert[2] == n:
            dress.warn(sheet, dress, alert[0], alert[1])
            book.guard(alert[0], alert[1], step, sheet)
        sheet.flow(
            step,
            dress.x,
            dress.width,
            dress.face,
            label=label(dress.label, n + 1),
            hang=dress.hang,
            gap=dress.gap,
        )


def set_general(book: Book, sheet: Sheet, job: Job, dress: Dress) -> None:
    sheet.heading(job.title, dress.x, dress.width, dress.title, align=dress.title_align, gap=4)
    set_heading(sheet, dress, 1, "General")
    for paragraph in job.general:
        sheet.flow(paragraph, dress.x, dress.width, dress.face, gap=7)


def set_removal(book: Book, sheet: Sheet, job: Job, dress: Dress) -> None:
    set_heading(sheet, dress, 2, "Removal")
    set_steps(book, sheet, dress, job.removal, ("WARNING", job.warning, job.guarded))


def set_installation(book: Book, sheet: Sheet, job: Job, dress: Dress) -> None:
    set_heading(sheet, dress, 3, "Installation")
    set_steps(book, sheet, dress, job.installation, ("CAUTION", job.caution, job.careful))


def set_test(book: Book, sheet: Sheet, job: Job, dress: Dress) -> None:
    set_heading(sheet, dress, 4, "Test")
    sheet.flow(
        job.note, dress.x, dress.width, dress.face, label="NOTE:", hang=dress.face.width("NOTE:") + 10, gap=8
    )
    set_steps(book, sheet, dress, job.test)


PARTS_OF_A_JOB = (set_general, set_removal, set_installation, set_test)


def fill(book: Book, sheet: Sheet, dress: Dress, job: Job, turn: int, first: int = 11) -> None:
    """Fill the rest of a sheet, as a real page is full: other jobs in short, with their warnings.

    turn   which jobs and paragraphs, so that the pages of one file differ
    first  number of the first heading
    """
    others = [other for other in JOBS if other is not job]
    for k in range(len(others)):
        other = others[(k + 3 * turn) % len(others)]

        def in_short(other=other, number=first + k):
            set_heading(sheet, dress, number, other.title.capitalize())
            sheet.flow(other.general[(turn + number) % 4], dress.x, dress.width, dress.face, gap=6)

        def guarded_steps(other=other):
            steps = other.removal[: other.guarded + 1]
            set_steps(book, sheet, dress, steps, ("WARNING", other.warning, other.guarded))

        for block in (in_short, guarded_steps):
            mark, warned = sheet.mark(), len(book.warnings)
            try:
                block()
            except PageFull:
                sheet.back_to(mark)
                del book.warnings[warned:]
                return


def job_pages(book: Book, new_sheet: Callable[[int], Sheet], job: Job, dress: Dress, parts: int = 4) -> None:
    """One page for each of the first `parts` parts of a job; new_sheet(0), new_sheet(1) ... dress it.

    All but the last part, which ends a chapter, are filled down to the floor.
    """
    for n, set_part in enumerate(PARTS_OF_A_JOB[:parts]):
        sheet = new_sheet(n)
        set_part(book, sheet, job, dress)
        if n < 3:
            fill(book, sheet, dress, job, n + JOBS.index(job))
