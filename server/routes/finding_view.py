"""One finding of a source check as the page shows it, from the answer as it was kept. Pure."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from indexer.library.register_records import CurrencyState
from indexer.tagging.tags import StandingValue
from indexer.trade.applies import Applies
from server.checking.findings import CITED_ITSELF
from server.disputed_notes import DisputedNotes, is_asked, parted
from server.first_sentence import first_sentence
from server.routes.addresses import check_address, page_address, publication_address
from server.words import STANDING_LABELS, entered_lead

LEADS = {
    **{value.value: label for value, label in STANDING_LABELS.items()},
    "part approval": "Part approval: no data for the work",
}
_ANSWERS = {"yes": "Yes", "no": "No", "cannot tell": "Cannot tell"}
_USUALLY = {
    "approved": "usually approved",
    "acceptable": "usually acceptable",
    "information": "usually information only",
}
_ENOUGH = {
    "minor": "Enough for minor work?",
    "major": "Enough for major work?",
    "directive": "Enough for work for a directive?",
    "inspection": "Enough for this inspection?",
}
_STATES = {
    "current as checked": "Current as checked",
    "superseded": "Superseded",
    "the check has expired": "The check has expired",
    "unknown": "Not known",
}
_APPLIES = {"applies": "Applies", "does not apply": "Does not apply", "cannot tell": "Cannot tell"}
_LEVELS = {
    "required": "Requires it",
    "incorporated": "Incorporates it",
    "credit": "Gives credit for it",
    "alternative": "Allows it as an alternative",
    "mentioned": "Mentions it only",
    CITED_ITSELF: "The directive cited",
}
_RAISING = ("required", "incorporated")
_MOST_PAGE_LINKS = 6


@dataclass(frozen=True, slots=True)
class Link:
    name: str
    address: str
    words: str = ""  # said after the link


@dataclass(frozen=True, slots=True)
class CandidateView:
    """A publication that may be meant. `choose`: the form with the entry that names it."""

    name: str
    address: str
    why: str
    choose: str


@dataclass(frozen=True, slots=True)
class Row:
    """One question of a finding with its answer. `kind` names the answer for the stylesheet alone.

    short  the first sentence of `why`
    """

    question: str
    answer: str
    why: str
    kind: str
    quote: str = ""

    @property
    def short(self) -> str:
        return first_sentence(self.why)


@dataclass(frozen=True, slots=True)
class DirectiveView:
    name: str
    address: str
    level: str
    status: str
    quote: str
    place: str
    note: str


@dataclass(frozen=True, slots=True)
class FindingView:
    """One reference of the entry. `lead` is the standing in plain words, or that it is not held here."""

    place: int  # 1-based, in the order of the entry
    cited: str
    lead: str
    stops: tuple[str, ...]  # what stands above it: for another aircraft, not current
    value: str
    name: str
    address: str
    pages: tuple[Link, ...]
    candidates: tuple[CandidateView, ...]
    why: str
    quote: str
    quote_place: str
    quote_address: str
    rows: tuple[Row, ...]  # seen at a glance
    first: int  # how many of them answer for the class of work asked for, or for each where none was said
    other_rows: tuple[Row, ...]  # of minor or major work, where another class was asked for
    mandatory: str
    directives: tuple[DirectiveView, ...]
    directives_note: str
    conditions: tuple[str, ...]
    notes: tuple[str, ...]
    disputed: tuple[DisputedNotes, ...]  # points that bear on the class of work asked for
    other_disputed: tuple[DisputedNotes, ...]
    ask: tuple[str, ...]
    missing: tuple[str, ...]
    wording: str


def lead_words(finding: Mapping[str, Any]) -> str:
    """The standing in plain words, or that the source is not held here."""
    if finding["resolved"] is None:
        value = finding["standing"]["value"]
        if value not in (StandingValue.UNDETERMINED.value, ""):
            return LEADS[value]  # a kind of paper that is what it is, held here or not
        return "Which one is meant cannot be told" if finding["candidates"] else "Not determined"
    return entered_lead(finding["standing"], LEADS[finding["standing"]["value"]])


def finding_view(place: int, finding: Mapping[str, Any], answer: Mapping[str, Any]) -> FindingView:
    """One of the citations of an answer, given as JSON fields; place: 1-based, in the order of the entry."""
    resolved, standing = finding["resolved"], finding["standing"]
    pages = _page_links(resolved) if resolved else ()
    quote_page = standing["pdf_page"]
    same_paper = resolved and not standing["source"]
    asked = answer["work"] or ""
    notes, disputed = parted(finding["notes"])
    enough, other_rows = _enough_rows(finding["enough"], asked)
    return FindingView(
        place,
        finding["text"],
        lead_words(finding),
        _stops(finding, answer["aircraft"] or ""),
        standing["value"].replace(" ", "-"),
        _name(resolved) if resolved else "",
        publication_address(resolved["publication"]) if resolved else "",
        pages,
        tuple(_candidate(each, finding, answer) for each in finding["candidates"]),
        _standing_why(finding),
        standing["quote"],
        _quote_place(standing),
        page_address(resolved["publication"], quote_page) if same_paper and quote_page else "",
        (*enough, *_rows(finding, answer["aircraft"] or "")),
        len(enough),
        other_rows,
        standing["mandatory"],
        tuple(_directive(each) for each in finding["directives"]),
        finding["directives_note"],
        tuple(standing["conditions"]),
        notes,
        tuple(each for each in disputed if each.bears_on(asked)),
        tuple(each for each in disputed if not each.bears_on(asked)),
        tuple(finding["ask"]),
        tuple(finding["missing"]),
        finding["wording"],
    )


def _stops(finding: Mapping[str, Any], aircraft: str) -> tuple[str, ...]:
    """What must be read before the standing: approved data for another aircraft is none for this one."""
    stops = []
    if finding["applies"]["answer"] == Applies.DOES_NOT_APPLY.value:
        stops.append(f"Does not apply to {aircraft or 'this aircraft'}")
    if finding["current"]["state"] == CurrencyState.SUPERSEDED.value:
        stops.append("Not current: superseded")
    return tuple(stops)


def _name(resolved: Mapping[str, Any]) -> str:
    revision = resolved["revision"]
    return f"{resolved['name']}, revision {revision}" if revision else resolved["name"]


def _page_links(resolved: Mapping[str, Any]) -> tuple[Link, ...]:
    """Links to the pages meant; the first opens with the passage marked."""
    passages = resolved["passages"]
    links = []
    for number, page in enumerate(resolved["pdf_pages"][:_MOST_PAGE_LINKS]):
        passage = passages[0] if passages and number == 0 else ""
        links.append(Link(f"PDF page {page}", page_address(resolved["publication"], page, passage=passage)))
    return tuple(links)


def _candidate(
    candidate: Mapping[str, Any], finding: Mapping[str, Any], answer: Mapping[str, Any]
) -> CandidateView:
    text = answer["text"]
    entry = text[: finding["start"]] + _written_out(candidate, finding) + text[finding["end"] :]
    return CandidateView(
        _name(candidate),
        publication_address(candidate["publication"]),
        candidate["why"],
        check_address(entry, answer["aircraft"] or "", answer["work"] or ""),
    )


def _written_out(candidate: Mapping[str, Any], finding: Mapping[str, Any]) -> str:
    """The reference with the candidate's name and revision in it: "SB 32-0012, Rev 2, page 3"."""
    number, _, title = candidate["name"].partition(": ")
    name = f"{title} {number}" if title and " " not in number else number
    parts = [name, f"Rev {candidate['revision']}" if candidate["revision"] else ""]
    chapter = finding["chapter_number"]
    parts += [chapter["text"] if chapter else "", f"pg {finding['page']}" if finding["page"] else ""]
    parts += [f"fig {finding['figure']}" if finding["figure"] else "", finding["paragraph"]]
    return ", ".join(part for part in parts if part)


def _standing_why(finding: Mapping[str, Any]) -> str:
    standing = finding["standing"]
    usual = _USUALLY.get(standing["usual"], "")
    said = [standing["basis"], f"for this {standing['scope']}" if standing["scope"] else ""]
    words = ", ".join(word for word in said if word)
    if usual and standing["value"] != standing["usual"]:
        words = f"{words}; {usual} by type" if words else f"{usual} by type, which is no finding"
    return f"{words[:1].upper()}{words[1:]}." if words else ""


def _quote_place(standing: Mapping[str, Any]) -> str:
    if not standing["quote"] or standing["pdf_page"] is None:
        return standing["source"] if standing["quote"] else ""
    source = standing["source"]
    return f"PDF page {standing['pdf_page']}{f' of {source}' if source else ''}"


def _enough_rows(
    enough: Mapping[str, Mapping[str, str]], asked: str
) -> tuple[tuple[Row, ...], tuple[Row, ...]]:
    """The answers for the class of work asked for, and those for minor and major work that was not."""
    seen, others = [], []
    for work, each in sorted(enough.items(), key=lambda one: one[0] != asked):
        row = Row(_ENOUGH[work], _ANSWERS[each["answer"]], each["why"], each["answer"].replace(" ", "-"))
        (seen if is_asked(work, asked) else others).append(row)
    return tuple(seen), tuple(others)


def _rows(finding: Mapping[str, Any], aircraft: str) -> tuple[Row, ...]:
    """Whether it is current, whether it applies, and the directives."""
    current, applies = finding["current"], finding["applies"]
    return (
        Row("Current?", _STATES[current["state"]], current["why"], current["state"].replace(" ", "-")),
        Row(
            f"Applies to {aircraft}?" if aircraft else "Applies to the aircraft?",
            _APPLIES[applies["answer"]],
            applies["why"],
            applies["answer"].replace(" ", "-"),
            applies["quote"],
        ),
        _directive_row(finding),
    )


def _directive_row(finding: Mapping[str, Any]) -> Row:
    """Each directive with what it does and its status; those that only mention the document after them."""
    acting = [each for each in finding["directives"] if each["level"] != "mentioned"]
    mentioning = dict.fromkeys(
        f"{each['number']} ({each['status']})" for each in finding["directives"] if each not in acting
    )
    mentions = f"Mentioned only in {'; '.join(mentioning)}." if mentioning else ""
    why = " ".join(part for part in (mentions, finding["directives_note"]) if part)
    if not acting:
        return Row("Directive?", "None that requires it is held here", why, "none-held")
    answers = dict.fromkeys(f"{_level_words(each)}: {each['number']}, {each['status']}" for each in acting)
    return Row("Directive?", "; ".join(answers), why, "directive")


def _level_words(each: Mapping[str, Any]) -> str:
    """What a directive does with the document; checks kept earlier hold the revision it names in the note."""
    if said := each.get("says", ""):
        return said
    if each["level"] in _RAISING and each["note"].startswith("Names ") and ", not " in each["note"]:
        return "Names another revision, not this one"
    return _LEVELS.get(each["level"], each["level"])


def _directive(each: Mapping[str, Any]) -> DirectiveView:
    page = each["pdf_page"]
    address = page_address(each["publication"], page) if page else publication_address(each["publication"])
    return DirectiveView(
        each["number"],
        address,
        _level_words(each),
        each["status"],
        each["quote"],
        f"PDF page {page}" if page else "",
        each["note"],
    )
