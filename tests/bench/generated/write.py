"""Writes a library of invented publications as PDF files, with its truth page by page.

    python tests/bench/generated/write.py FOLDER --documents 2000 [--scans 0.4] [--seed 1]

FOLDER gets the PDFs, truth.csv (one row a page) and map.csv (the shop's map, in the form that
`hangarleaf map import` takes, for half of the manuals of their own order). The same arguments give the same
files. --scans draws that share of the documents as pictures without text.

Vocabulary: systems.toml. Sentence frames, numbers, makers and airplanes are invented; every page says so.
"""

import argparse
import csv
import random
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path

from reportlab.lib.pagesizes import letter
from reportlab.pdfgen.canvas import Canvas

FICTION = "FICTITIOUS GENERATED PAGE - NOT FOR FLIGHT"
WIDTH, HEIGHT = letter
LEFT, TOP, LEADING, COLUMNS = 60, HEIGHT - 84, 12.5, 92
SYSTEMS = {
    int(chapter): system
    for chapter, system in tomllib.loads(
        (Path(__file__).parent / "systems.toml").read_text(encoding="utf-8")
    ).items()
}
ATA_TITLES = {  # ATA Spec 100 chapter titles, from memory; chapters.csv has the marks
    21: "AIR CONDITIONING", 22: "AUTO FLIGHT", 23: "COMMUNICATIONS", 24: "ELECTRICAL POWER",
    25: "EQUIPMENT/FURNISHINGS", 26: "FIRE PROTECTION", 27: "FLIGHT CONTROLS", 28: "FUEL",
    29: "HYDRAULIC POWER", 30: "ICE AND RAIN PROTECTION", 31: "INDICATING/RECORDING SYSTEMS",
    32: "LANDING GEAR", 33: "LIGHTS", 34: "NAVIGATION", 35: "OXYGEN", 36: "PNEUMATIC", 38: "WATER/WASTE",
    49: "AUXILIARY POWER UNIT", 52: "DOORS", 53: "FUSELAGE", 54: "NACELLES/PYLONS", 55: "STABILIZERS",
    56: "WINDOWS", 57: "WINGS", 61: "PROPELLERS", 71: "POWER PLANT", 72: "ENGINE",
    73: "ENGINE FUEL AND CONTROL", 74: "IGNITION", 76: "ENGINE CONTROLS", 77: "ENGINE INDICATING",
    78: "EXHAUST", 79: "OIL", 80: "STARTING",
}  # fmt: skip
STRUCTURE = (53, 54, 55, 57)
MAKERS = ("Tarnwick", "Ellerby", "Scarcroft", "Holmbeck", "Wexcombe", "Dunmarsh", "Yarlside", "Pennefold")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October")
ROMAN = ("I II III IV V VI VII VIII IX X XI XII XIII XIV XV XVI XVII XVIII XIX XX").split()
DO = (
    "Remove the {part}. Put a tag on each line and cap the open ends.",
    "Loosen the nuts of the {part} in turn and lift it away from its mounting.",
    "Clean the {part} with a lint-free cloth. Look for cracks, wear and corrosion.",
    "Replace the {part} when its wear is more than the limit in the table.",
    "Install the {part} with new gaskets and torque the bolts to {torque} inch-pounds.",
    "Examine the {part} with a 10-power glass and a bright light.",
    "Adjust the {part} until the clearance is {gap} inch at its tightest place.",
    "Lubricate the moving joints of the {part} and wipe off what is left over.",
    "Make sure that the {part} moves freely through its whole travel.",
    "Safety the {part} with wire and put an inspection mark on it.",
)
TELL = (
    "The {part} is mounted beside the {other} and can be reached without special tools.",
    "The {part} works together with the {other}; a fault in one often shows first at the other.",
    "Two bolts and a dowel hold the {part} in line with the {other}.",
    "If {fault}, look first at the {part}.",
    "When {fault}, the cause is usually the {part} or the {other}.",
    "Operators report that {fault}; in most cases the {part} was found worn.",
    "The {part} was changed at serial number {serial} to a stronger form.",
)
ANYWHERE = (  # in the manuals of every system, so that a word alone proves nothing
    "Disconnect the battery before you begin.",
    "Put the airplane on jacks if you need more room below it.",
    "Obey the instructions on the container of the cleaning solvent.",
    "Write the work in the airplane record.",
    "Do a check for leaks and for loose objects when the work is done.",
)


@dataclass(frozen=True, slots=True)
class PageTruth:
    """What is known of one page.

    how     "printed" (a chapter number in its foot or a stated chapter), "own" (a section of its own order),
            "unnumbered" (nothing printed) or "none" (no system: title pages, contents)
    """

    how: str
    chapters: tuple[int, ...] = ()
    section: str = ""
    refers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page to draw: running lines, body lines (a line that begins with "#" is a heading), its truth."""

    head: str
    foot: tuple[str, str, str]
    body: tuple[str, ...]
    truth: PageTruth


@dataclass(slots=True)
class Document:
    name: str
    title: str
    sheets: list[Sheet] = field(default_factory=list)
    map_rows: list[tuple[str, str, str, str]] = field(
        default_factory=list
    )  # publication, first, last, chapters


class Writer:
    """Sentences of one document: every choice comes from its own random stream."""

    def __init__(self, chance: random.Random):
        self.chance = chance

    def sentence(self, frames: tuple[str, ...], chapter: int) -> str:
        system = SYSTEMS[chapter]
        part, other = self.chance.sample(system["parts"], 2)
        return self.chance.choice(frames).format(
            part=part,
            other=other,
            fault=self.chance.choice(system["faults"]),
            torque=self.chance.randrange(20, 400, 5),
            gap=f"0.{self.chance.randrange(4, 60):03}",
            serial=self.chance.randrange(100, 900),
        )

    def body(self, chapter: int, sentences: int) -> list[str]:
        texts = [
            self.chance.choice(ANYWHERE)
            if self.chance.random() < 0.12
            else self.sentence(self.chance.choice((DO, TELL)), chapter)
            for _ in range(sentences)
        ]
        return [f"{letter_of}. {text}" for letter_of, text in zip("ABCDEFGHIJKLMNOP", texts, strict=False)]

    def date(self) -> str:
        day, year = self.chance.randrange(1, 28), self.chance.randrange(2029, 2033)
        return f"{self.chance.choice(MONTHS)} {day}, {year}"

    def reference(self, own: int | None) -> tuple[str, str]:
        """A sentence that refers to another chapter, and the number it names."""
        chapter = self.chance.choice([each for each in SYSTEMS if each != own])
        number = f"{chapter}-{self.chance.randrange(1, 6)}0-00"
        words = self.chance.choice(("Refer to {}.", "See {}, Page 201.", "Do the test in {} (Ref. {})."))
        return words.format(number, number), number


def write_library(folder: Path, documents: int, scans: float, seed: int) -> None:
    """Draw `documents` publications into `folder`, with truth.csv and map.csv."""
    folder.mkdir(parents=True, exist_ok=True)
    with (
        (folder / "truth.csv").open("w", newline="", encoding="utf-8") as truth_file,
        (folder / "map.csv").open("w", newline="", encoding="utf-8") as map_file,
    ):
        truth, shop_map = csv.writer(truth_file), csv.writer(map_file)
        truth.writerow(("file", "pdf_page", "kind", "how", "chapters", "section", "mapped", "scan", "refers"))
        shop_map.writerow(("publication", "first", "last", "chapters", "who", "date", "why"))
        for number in range(documents):
            chance = random.Random(f"{seed} {number}")
            kind = KINDS[number % len(KINDS)]
            scanned = chance.random() < scans
            document = MAKERS_OF[kind](Writer(chance), number)
            draw(folder / document.name, document, scanned)
            shop_map.writerows(
                (*row, "R. Quill", "2032-01-05", "read its contents") for row in document.map_rows
            )
            for pdf_page, sheet in enumerate(document.sheets, 1):
                known = sheet.truth
                truth.writerow(
                    (
                        document.name, pdf_page, kind, known.how, ";".join(map(str, known.chapters)),
                        known.section, int(bool(document.map_rows)), int(scanned), ";".join(known.refers),
                    )
                )  # fmt: skip


def maintenance_manual(writer: Writer, number: int) -> Document:
    model = model_of(number)
    document = Document(f"amm-{number:04}.pdf", "Maintenance Manual")
    head = f"{maker_of(number).upper()} AIRCRAFT COMPANY    {model}    MAINTENANCE MANUAL {model}-2"
    date = writer.date()
    document.sheets.append(
        title_sheet(head, ["MAINTENANCE MANUAL", f"Manual number {model}-2"], number, date)
    )
    for chapter in sorted(writer.chance.sample(list(SYSTEMS), 3)):
        section = f"{chapter}-{writer.chance.randrange(1, 6)}0-00"
        for printed in ("1", "201"):
            body = [
                f"#{ATA_TITLES[chapter]} - {'DESCRIPTION' if printed == '1' else 'MAINTENANCE PRACTICES'}"
            ]
            body += writer.body(chapter, 9)
            refers: tuple[str, ...] = ()
            if printed == "201":
                words, named = writer.reference(chapter)
                body.append(words)
                refers = (named,)
            truth = PageTruth("printed", (chapter,), section, refers)
            document.sheets.append(Sheet(head, (section, f"Page {printed}", date), tuple(body), truth))
    return document


def component_manual(writer: Writer, number: int) -> Document:
    chapter = writer.chance.choice(list(SYSTEMS))
    section = f"{chapter}-{writer.chance.randrange(1, 6)}{writer.chance.randrange(1, 9)}-0{number % 9 + 1}"
    part = writer.chance.choice(SYSTEMS[chapter]["parts"])
    head = f"{maker_of(number).upper()} COMPONENTS    COMPONENT MAINTENANCE MANUAL    {part.upper()}"
    document, date = (
        Document(f"cmm-{number:04}.pdf", f"Component Maintenance Manual {section}"),
        writer.date(),
    )
    lines = ["COMPONENT MAINTENANCE MANUAL", part.upper(), section]
    document.sheets.append(title_sheet(head, lines, number, date))
    for printed in ("1", "301", "701"):
        body = ["#DESCRIPTION AND OPERATION" if printed == "1" else "#DISASSEMBLY", *writer.body(chapter, 9)]
        document.sheets.append(
            Sheet(
                head,
                (section, f"Page {printed}", date),
                tuple(body),
                PageTruth("printed", (chapter,), section),
            )
        )
    return document


def parts_catalog(writer: Writer, number: int) -> Document:
    model = model_of(number)
    head = f"{maker_of(number).upper()} AIRCRAFT COMPANY    {model}    ILLUSTRATED PARTS CATALOG {model}-4"
    document, date = Document(f"ipc-{number:04}.pdf", "Illustrated Parts Catalog"), writer.date()
    document.sheets.append(title_sheet(head, ["ILLUSTRATED PARTS CATALOG", f"{model}-4"], number, date))
    for chapter in sorted(writer.chance.sample(list(SYSTEMS), 2)):
        section = f"{chapter}-{writer.chance.randrange(1, 6)}0-00"
        parts = writer.chance.sample(SYSTEMS[chapter]["parts"], 7)
        rows = [
            f"{item:>3}   {model}{chapter}-{writer.chance.randrange(1000, 9999)}-{item}"
            f"      .{part.upper():<44}{writer.chance.randrange(1, 5)}"
            for item, part in enumerate(parts, 1)
        ]
        body = [
            "#FIGURE 1",
            "FIG. ITEM   PART NUMBER        NOMENCLATURE                          UNITS",
            *rows,
        ]
        document.sheets.append(
            Sheet(head, (section, "Page 0", date), tuple(body), PageTruth("printed", (chapter,), section))
        )
    return document


def structural_manual(writer: Writer, number: int) -> Document:
    model = model_of(number)
    head = f"{maker_of(number).upper()} AIRCRAFT COMPANY    {model}    STRUCTURAL REPAIR MANUAL {model}-3"
    document, date = Document(f"srm-{number:04}.pdf", "Structural Repair Manual"), writer.date()
    document.sheets.append(title_sheet(head, ["STRUCTURAL REPAIR MANUAL", f"{model}-3"], number, date))
    for chapter in STRUCTURE:
        section = f"{chapter}-{writer.chance.randrange(1, 6)}0-00"
        body = [f"#{ATA_TITLES[chapter]} - REPAIRS", *writer.body(chapter, 9)]
        document.sheets.append(
            Sheet(head, (section, "Page 201", date), tuple(body), PageTruth("printed", (chapter,), section))
        )
    return document


def bulletin(writer: Writer, number: int) -> Document:
    chapter = writer.chance.choice(list(SYSTEMS))
    model, part = model_of(number), writer.chance.choice(SYSTEMS[chapter]["parts"])
    name, date = f"{model}-{chapter}-{number:04}", writer.date()
    head = f"{maker_of(number).upper()} AIRCRAFT COMPANY    SERVICE BULLETIN"
    words, named = writer.reference(chapter)
    first = [
        f"Service Bulletin No. {name}      Original issue",
        f"Subject: inspection of the {part}      Date: {date}",
        f"#{ATA_TITLES[chapter]} - {part.upper()} - INSPECTION",
        f"ATA Chapter {chapter}",
        "1. PLANNING INFORMATION",
        f"A. Effectivity: {model} airplanes, serial numbers 101 through {number + 200}.",
        *writer.body(chapter, 6),
    ]
    second = ["2. ACCOMPLISHMENT INSTRUCTIONS", *writer.body(chapter, 8), words]
    foot = f"{name}      Original issue"
    return Document(
        f"sb-{number:04}.pdf",
        "Service Bulletin",
        [
            Sheet(head, (foot, "Page 1", date), tuple(first), PageTruth("printed", (chapter,))),
            Sheet(
                head, (foot, "Page 2", date), tuple(second), PageTruth("printed", (chapter,), "", (named,))
            ),
        ],
    )


def service_letter(writer: Writer, number: int) -> Document:
    chapter = writer.chance.choice(list(SYSTEMS))
    date = writer.date()
    body = [
        f"Service Letter No. SL-{number:04}      Date: {date}",
        f"To: owners and operators of {model_of(number)} airplanes",
        f"#CARE OF THE {writer.chance.choice(SYSTEMS[chapter]['parts']).upper()}",
        *writer.body(chapter, 10),
    ]
    head = f"{maker_of(number).upper()} AIRCRAFT COMPANY    SERVICE LETTER"
    truth = PageTruth("unnumbered", (chapter,))
    return Document(
        f"sl-{number:04}.pdf",
        "Service Letter",
        [Sheet(head, (f"SL-{number:04}", "Page 1", date), tuple(body), truth)],
    )


def directive(writer: Writer, number: int) -> Document:
    chapter = writer.chance.choice(list(SYSTEMS))
    name = f"20{writer.chance.randrange(29, 33)}-{number % 26 + 1:02}-{number // 26 % 90 + 1:02}"
    maker, model = maker_of(number), model_of(number)
    part, fault = (
        writer.chance.choice(SYSTEMS[chapter]["parts"]),
        writer.chance.choice(SYSTEMS[chapter]["faults"]),
    )
    head = "Department of Transportation    Federal Aviation Administration    14 CFR Part 39"
    first = [
        f"Airworthiness Directives; {maker} Aircraft Company Airplanes",
        "AGENCY: Federal Aviation Administration (FAA), DOT.",
        "ACTION: Final rule.",
        f"SUMMARY: The FAA is adopting a new airworthiness directive (AD) for all {maker} Aircraft Company",
        f"Model {model} airplanes. This AD was prompted by a report that {fault}.",
        f"DATES: This AD is effective {writer.date()}.",
        *writer.body(chapter, 5),
    ]
    second = [
        f"{name} {maker} Aircraft Company: Amendment 39-{30000 + number}.",
        f"(a) Effective Date. This AD is effective {writer.date()}.",
        "(b) Affected ADs. None.",
        f"(c) Applicability. This AD applies to all {maker} Aircraft Company Model {model} airplanes.",
        f"(d) Subject. Air Transport Association (ATA) of America Code {chapter}, "
        f"{ATA_TITLES[chapter].title()}.",
        f"(e) Unsafe Condition. This AD was prompted by a report that {fault}.",
        "(f) Compliance. Comply with this AD within the compliance times specified, unless already done.",
        f"(g) Inspection. Within 100 hours time-in-service, inspect the {part} for cracks and wear.",
    ]
    truth = PageTruth("printed", (chapter,))
    return Document(
        f"ad-{number:04}.pdf",
        f"AD {name}",
        [
            Sheet(head, (name, "1", ""), tuple(first), truth),
            Sheet(head, (name, "2", ""), tuple(second), truth),
        ],
    )


OWN_SECTIONS = (
    53,
    57,
    32,
    27,
    55,
    71,
    28,
    61,
    21,
    34,
    24,
    74,
    79,
    30,
    25,
    52,
)  # common in the manuals of the time; from memory


def own_order_manual(writer: Writer, number: int) -> Document:
    """A manual whose sections count I, II, III ...; every other one is in the shop's map."""
    maker, model = maker_of(number), model_of(number)
    title = f"{model} Service Manual"
    document = Document(f"own-{number:04}.pdf", title)
    head = f"{maker.upper()} AEROPLANE COMPANY    MODEL {model}    SERVICE MANUAL"
    chapters = writer.chance.sample(OWN_SECTIONS, 7)
    sections = [(None, "General description"), *((each, SYSTEMS[each]["title"]) for each in chapters)]
    document.sheets.append(title_sheet(head, [title.upper()], number, "June 1, 1957"))
    lines, page = ["#CONTENTS"], 3
    for place, (_, words) in enumerate(sections):
        lines.append(f"{ROMAN[place]:<6}{words} {'.' * (60 - len(words))} {page}")
        page += 1 if place == 0 else 2
    document.sheets.append(Sheet(head, ("", "Page 2", ""), tuple(lines), PageTruth("none")))
    page = 3
    for place, (chapter, words) in enumerate(sections):
        paragraph = 1
        for sheet in range(1 if chapter is None else 2):
            body = [f"#SECTION {ROMAN[place]}", f"#{words.upper()}"] if sheet == 0 else []
            if chapter is None:
                body += [f"1-1. The Model {model} is an airplane of wood and steel tube with four seats."]
                body += ["1-2. Three-view drawings and leading particulars are in the drawing list."]
            else:
                for text in writer.body(chapter, 8):
                    body.append(f"{place + 1}-{paragraph}. {text[3:]}")
                    paragraph += 1
            truth = PageTruth(
                "none" if chapter is None else "own", (chapter,) if chapter else (), ROMAN[place]
            )
            document.sheets.append(
                Sheet(head, (f"Section {ROMAN[place]}", f"Page {page}", ""), tuple(body), truth)
            )
            page += 1
        if chapter and number // len(KINDS) % 2:
            document.map_rows.append((title, ROMAN[place], ROMAN[place], str(chapter)))
    return document


def title_sheet(head: str, lines: list[str], number: int, date: str) -> Sheet:
    body = [f"#{lines[0]}", *lines[1:], f"{maker_of(number)} Aircraft Company", f"Original issue: {date}"]
    body.append("The company, the airplanes and everything in this book are invented.")
    return Sheet(head, ("", "Page T-1", date), tuple(body), PageTruth("none"))


def maker_of(number: int) -> str:
    return MAKERS[number % len(MAKERS)]


def model_of(number: int) -> str:
    return f"{maker_of(number)[0]}{'KLMNPQR'[number % 7]}{100 + number}"


MAKERS_OF = {
    "maintenance manual": maintenance_manual,
    "component manual": component_manual,
    "parts catalog": parts_catalog,
    "structural manual": structural_manual,
    "bulletin": bulletin,
    "letter": service_letter,
    "directive": directive,
    "own-order manual": own_order_manual,
}
KINDS = (  # of twenty documents in a row
    *["maintenance manual"] * 2, "component manual", *["parts catalog"] * 2, "structural manual",
    *["bulletin"] * 6, *["letter"] * 3, *["directive"] * 3, *["own-order manual"] * 2,
)  # fmt: skip


def draw(path: Path, document: Document, scanned: bool) -> None:
    canvas = Canvas(str(path), pagesize=letter, invariant=True)
    canvas.setTitle(document.title)
    for sheet in document.sheets:
        if scanned:
            canvas.drawImage(_picture(sheet), 0, 0, WIDTH, HEIGHT)
        else:
            _print(canvas, sheet)
        canvas.showPage()
    canvas.save()


def _print(canvas: Canvas, sheet: Sheet) -> None:
    for x, y, size, bold, text in _placed(sheet):
        canvas.setFont("Helvetica-Bold" if bold else "Helvetica", size)
        canvas.drawString(x, y, text)


def _placed(sheet: Sheet) -> Iterator[tuple[float, float, float, bool, str]]:
    """x, y (points from the bottom left), size, bold, text of every line."""
    yield LEFT, HEIGHT - 40, 9, False, sheet.head
    y = TOP
    for line in sheet.body:
        if line.startswith("#"):
            y -= LEADING / 2
            yield LEFT, y, 13, True, line[1:]
            y -= LEADING * 1.4
        else:
            for part in _wrapped(line):
                yield LEFT, y, 10, False, part
                y -= LEADING
            y -= LEADING / 3
    left, middle, right = sheet.foot
    yield LEFT, 50, 9, False, left
    yield WIDTH / 2 - 20, 50, 9, False, middle
    yield WIDTH - 130, 50, 9, False, right
    yield WIDTH / 2 - 110, 32, 8, False, FICTION


def _wrapped(text: str) -> Iterator[str]:
    line = ""
    for word in text.split(" ") if "  " not in text else [text]:
        if line and len(line) + len(word) >= COLUMNS:
            yield line
            line = word
        else:
            line = f"{line} {word}" if line else word
    yield line


def _picture(sheet: Sheet):
    """The page as a scanner would give it: a picture of 100 dots an inch, no text."""
    from PIL import Image, ImageDraw, ImageFont
    from reportlab.lib.utils import ImageReader

    scale = 100 / 72
    image = Image.new("L", (int(WIDTH * scale), int(HEIGHT * scale)), 245)
    pen = ImageDraw.Draw(image)
    for x, y, size, _, text in _placed(sheet):
        pen.text((x * scale, (HEIGHT - y - size) * scale), text, 30, ImageFont.load_default(size * scale))
    stored = BytesIO()
    image.save(stored, "JPEG", quality=60)
    stored.seek(0)
    return ImageReader(stored)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("--documents", type=int, default=2000)
    parser.add_argument("--scans", type=float, default=0.0)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    write_library(given.folder, given.documents, given.scans, given.seed)
