"""The cover of a packet and its other sheets of our own, drawn by reportlab. All text is escaped."""

import io
from collections.abc import Iterator, Mapping, Sequence
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.pagesizes import letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable, HRFlowable, Paragraph, SimpleDocTemplate, Spacer

from server.packet_changes import LEADS, state_words
from server.packet_fonts import MISSING_WORDS, PLAIN, STRONG, in_font, lacks, use_fonts
from server.packet_plan import REFERENCE, PlannedWords, applies_line

_SIZE = 9.5
_TEXT = ParagraphStyle("text", fontName=PLAIN, fontSize=_SIZE, leading=13, spaceAfter=2)
_BOLD = ParagraphStyle("bold", parent=_TEXT, fontName=STRONG)
_HEAD = ParagraphStyle("head", parent=_BOLD, fontSize=17, leading=22, spaceAfter=6)
_SECTION = ParagraphStyle("section", parent=_BOLD, fontSize=12, leading=16, spaceBefore=10, spaceAfter=3)
_ITEM = ParagraphStyle("item", parent=_BOLD, fontSize=10.5, leading=14, spaceBefore=8)
_INSIDE = ParagraphStyle("inside", parent=_TEXT, leftIndent=14)
_INSIDE_BOLD = ParagraphStyle("inside bold", parent=_BOLD, leftIndent=14)
_NONE_HELD = (
    "Directives: none among those held here speaks of it. That does not mean that none applies: check the "
    "authority's list."
)
_MADE_FROM = (
    "The pages are the publishers' own, with a strip of paper added at the left of each; what is printed on "
    "them stands at its true size. Links, scripts, forms and attachments of the files are not carried over."
)


class Writing:
    """Collects paragraphs, and notes whether a letter was missing."""

    def __init__(self) -> None:
        self.story: list[Flowable] = []
        self.lacked = False

    def say(self, words: str, style: ParagraphStyle = _TEXT) -> None:
        self.lacked = self.lacked or lacks(words)
        self.story.append(Paragraph(escape(in_font(words)).replace("\n", "<br/>"), style))


def cover(fields: Mapping[str, Any], places: Mapping[int, Sequence[int]], total: int, printed: str) -> bytes:
    """The cover as a PDF of one or more pages.

    places   for each item (1-based) the numbers of its sheets in the packet, in order; () = none of its own
    total    sheets of the whole packet; printed: date and time in words
    """
    use_fonts()
    writing, state = Writing(), fields["library_state"]
    say = writing.say
    if state["demonstration"]:
        say(f"{state['demonstration']} Invented documents of invented aircraft: not for flight.", _BOLD)
    say(f"Job packet: {fields['name']}", _HEAD)
    say(f"Aircraft: {fields['aircraft_words']}", _ITEM)
    if fields["aircraft_doubt"]:
        say(f"{fields['aircraft_doubt']} Whether anything applies cannot be told.", _BOLD)
    changed = fields["changed_words"]
    say(f"Printed {printed}. Library state {state['generation']}, last changed {changed}. {total} sheets.")
    say(REFERENCE, _SECTION)
    lead = LEADS[fields["standing"]]
    if fields["standing_words"]:
        say(f"{lead}.", _SECTION)
        for each in fields["standing_words"]:
            say(f"- {each}", _INSIDE_BOLD if fields["standing"] in ("superseded", "changed") else _INSIDE)
    if older := state_words(fields):
        say(older, _BOLD)
    say("What is in it", _SECTION)
    for place, item in enumerate(fields["items"], start=1):
        writing.story.append(HRFlowable(width="100%", thickness=0.5, spaceBefore=4))
        _item(writing, place, item, places.get(place, ()), fields["aircraft"])
    say("Read before use", _SECTION)
    for each in fields["cautions"]:
        say(f"- {each}", _INSIDE)
    say(_MADE_FROM)
    if writing.lacked:
        say(MISSING_WORDS, _BOLD)
    return _drawn(writing.story, f"{REFERENCE} Job packet {fields['id']}, printed {printed}.", 1, total)


def _item(
    writing: Writing, place: int, item: Mapping[str, Any], sheets: Sequence[int], aircraft: str
) -> None:
    say, now = writing.say, item["now"]
    where = f"sheet {_ranges(sheets)}" if sheets else "its pages stand with an item before it"
    say(f"{place}. {item['name']} ({where})", _ITEM)
    for each in item["changes"]:
        say(f"Since it was added: {each['words']}", _INSIDE_BOLD)
    if item["note"]:
        say(f"Note: {item['note']}", _INSIDE)
    if not now["held"]:
        say("Not held any more: nothing of it can be printed.", _INSIDE_BOLD)
        return
    if item["kind"] == "finding":
        check = now["check"]
        say(f"As answered in library state {check['library_state']['generation']}; see its sheet.", _INSIDE)
        if now["other_aircraft"]:
            say(now["other_aircraft"], _INSIDE_BOLD)
        for each in now["findings"]:
            for words in each["stops"]:
                say(f"{each['cited']}: {words}.", _INSIDE_BOLD)
            answers = " ".join(f"{row['question']} {row['answer'].capitalize()}." for row in each["rows"])
            say(f"{each['cited']}: {each['lead']}. {each['found']} {answers}", _INSIDE)
        return
    _source(writing, item, aircraft)


def _source(writing: Writing, item: Mapping[str, Any], aircraft: str) -> None:
    """Number, title, revision, currency, standing with its words, and directives of an item's publication."""
    say, now = writing.say, item["now"]
    source = now["source"]
    say(f"{source['name']}. {source['kind']}. File {source['file']}.", _INSIDE)
    against = now["state"] in ("superseded", "the check has expired")
    for words in dict.fromkeys(page["current"]["words"] for page in now["pages"]):
        say(f"Currency: {words}", _INSIDE_BOLD if against else _INSIDE)
    for page in now["pages"]:
        for each in page["overrides"]:
            where = " Its page stands in front." if each["in_front"] else ""
            say(f"PDF page {page['pdf_page']}: {each['words']}{where}", _INSIDE_BOLD)
    for words in dict.fromkeys(_standings(now["pages"])):
        say(words, _INSIDE)
    line = applies_line(now["applies"], aircraft)
    quote = f" «{now['applies']['quote']}»" if now["applies"]["quote"] else ""
    say(f"{line.words}{quote}", _INSIDE_BOLD if line.strong else _INSIDE)
    if not source["directives"]:
        say(_NONE_HELD, _INSIDE)
    for each in source["directives"]:
        page = f" (PDF page {each['pdf_page']})" if each["pdf_page"] else ""
        said = f"{each['name']}, {each['says'] or each['level']}. {each['status']} «{each['quote']}»{page}"
        say(f"Directive held here: {said}", _INSIDE)
    if any(page["read_by_ocr"] for page in now["pages"]):
        say("Text read by OCR: read the page itself before you cut, torque or sign.", _INSIDE)


def _standings(pages: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    """Each standing of a page's passages with the words for it; said with its page where the pages differ."""
    alike = len({page["standing"]["lead"] for page in pages}) == 1
    for page in pages:
        where = "" if alike else f", PDF page {page['pdf_page']}"
        if len({each["lead"] for each in page["standing"]["parts"]}) > 1:
            yield f"Standing{where}: {page['standing']['lead']}."
        for each in page["standing"]["parts"]:
            quote = f" «{each['quote']}» ({each['quote_place']})" if each["quote"] else ""
            notes = f" {' '.join(each['notes'])}" if each["notes"] else ""
            yield f"Standing{where}: {each['lead']}. {each['why']}{quote}{notes}"


def words_sheets(
    sheet: PlannedWords, fields: Mapping[str, Any], printed: str, first: int = 0, total: int = 0
) -> bytes:
    """The sheet of a finding as it was answered, or of an item that is gone; a PDF of one or more pages.

    first   the number of its first sheet in a packet of `total` sheets
    """
    use_fonts()
    writing = Writing()
    say = writing.say
    say(f"{sheet.item}. {sheet.name}", _SECTION)
    if sheet.finding is None:
        say("Not held any more: its file was taken out of the library. Nothing of it can be printed.", _BOLD)
    else:
        _finding(writing, sheet.finding)
    say(f"{REFERENCE} {fields['caution']}", _SECTION)
    if writing.lacked:
        say(MISSING_WORDS, _BOLD)
    return _drawn(writing.story, _foot(fields, printed), first, total)


def _finding(writing: Writing, item: Mapping[str, Any]) -> None:
    say, now = writing.say, item["now"]
    check = now["check"]
    if check["library_state"].get("demonstration"):
        say(check["library_state"]["demonstration"], _BOLD)
    say(f"Source check {check['id']}, asked for {check['aircraft'] or 'no aircraft'}", _HEAD)
    if now["other_aircraft"]:
        say(now["other_aircraft"], _BOLD)
    say(f"Entry: {check['text']}")
    say(f"As answered then, in library state {check['library_state']['generation']}.", _BOLD)
    for each in now["differences"]:
        say(f"Today it is answered otherwise: {each}", _BOLD)
    if not now["differences"]:
        say("Asked again today, it is answered alike.")
    for each in now["findings"]:
        say(f"{each['cited']}", _SECTION)
        for words in each["stops"]:
            say(f"{words}.", _BOLD)
        say(f"{each['lead']}. {each['found']}", _BOLD)
        if each["quote"]:
            say(f"«{each['quote']}»", _INSIDE)
        for row in each["rows"]:
            say(f"{row['question']} {row['answer'].capitalize()}. {row['why']}", _INSIDE)
        for words in (*each["directives"], each["directives_note"], *each["conditions"]):
            if words:
                say(words, _INSIDE)
    for words in check["notes"]:
        say(words)


def sheet_of_failure(
    name: str, why: str, fields: Mapping[str, Any], printed: str, number: int, total: int
) -> bytes:
    """The sheet that stands in place of a page which could not be taken: it is never left out silently."""
    use_fonts()
    writing = Writing()
    writing.say("This page could not be put into the packet", _HEAD)
    writing.say(name, _BOLD)
    writing.say(f"Reason: {why}"[:600])
    writing.say("Open the file itself in a PDF reader, or ask its publisher for a good copy.", _BOLD)
    writing.say(REFERENCE, _SECTION)
    return _drawn(writing.story, _foot(fields, printed), number, total)


def _foot(fields: Mapping[str, Any], printed: str) -> str:
    return (
        f"Job: {fields['name']}. Aircraft: {fields['aircraft_words']}. Printed {printed}, library state "
        f"{fields['library_state']['generation']}."
    )


def _drawn(story: list[Flowable], foot: str, first: int, total: int) -> bytes:
    """A PDF of these paragraphs; `first` is the number of its first sheet in a packet of `total` sheets."""
    out = io.BytesIO()
    words = in_font(foot)

    def write_foot(canvas, _) -> None:
        canvas.saveState()
        canvas.setFont(PLAIN, 7)
        number = f"Page {first + canvas.getPageNumber() - 1} of {total} of the job packet."
        for line, at in ((number, 38), (words, 28)):
            canvas.drawString(54, at, line)
        canvas.restoreState()

    document = SimpleDocTemplate(
        out, pagesize=letter, leftMargin=54, rightMargin=54, topMargin=50, bottomMargin=54
    )
    document.build([*story, Spacer(1, 1)], onFirstPage=write_foot, onLaterPages=write_foot)
    return out.getvalue()


def _ranges(numbers: Sequence[int]) -> str:
    """ "3", "3 to 5", "3 to 5 and 9"."""
    runs: list[list[int]] = []
    for each in numbers:
        if runs and each == runs[-1][-1] + 1:
            runs[-1].append(each)
        else:
            runs.append([each])
    words = [str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs]
    return " and ".join(filter(None, [", ".join(words[:-1]), words[-1]]))
