"""Which aircraft and articles a record entry names: registrations, serial numbers, models.

Marks of the United States are formed as 14 CFR 47.15 says: N and one to five characters, of which the
letters, at most two, stand last and are not I or O. A registration is never a serial number.
"""

import re
from collections.abc import Iterator

from indexer.tagging.entry_fact_records import Article, EntryFact, FactKind
from indexer.tagging.reference_words import spaced

_US = r"N[ -]?(?:[1-9][0-9]{0,4}|[1-9][0-9]{0,3}[A-HJ-NP-Z]|[1-9][0-9]{0,2}[A-HJ-NP-Z]{2})"
_OTHER_STATES = (
    r"(?:[CFGI]-[A-Z]{4}|D-[A-Z]{4}|(?:EC|EI|HB|LN|LX|OE|OH|OO|OY|PH|PP|PT|SE|SP|VH|XA|XB"
    r"|ZK|ZS)-[A-Z]{3}|JA[0-9]{4})"
)
_MARK = re.compile(rf"(?<![\w/-])(?:{_US}|{_OTHER_STATES})(?![\w-])", re.IGNORECASE)
_ANNOUNCED = spaced(
    r"(?:\b(?:reg(?:istration)?\b\.?(?: ?(?:no|number|mark)\b\.?)?|aircraft|airplane|acft"
    r"|a/c|tail(?: no\.?| number)?)"
    r"[ :#]{0,3})$"
)
# Gas and spool speeds are written so: "N2", "N1 97%".
_SHORT_MARK = re.compile(r"N[ -]?[0-9]{1,2}", re.IGNORECASE)
_TOKEN = r"(?=[A-Z0-9./-]{0,20}[0-9])[A-Z0-9]{1,12}(?:[./-][A-Z0-9]{1,10}){0,4}"
_SERIAL = spaced(
    r"(?<![\w-])(?:S/Ns?|SNs?|MSN|ser(?:ial)?s?\b\.?(?: ?(?:nos?|numbers?|nbr)\b\.?)?)[ .:#]{0,3}"
    rf"(?P<value>{_TOKEN})(?![\w-])"
)
_NEXT_SERIAL = spaced(
    rf" ?(?:,|&|and) ?(?:S/N )?(?P<value>{_TOKEN})(?![\w-])(?! ?(?:hrs?|hours|in\b|ft\b|lbs?|%|psi|ea\b))"
)
_MODEL_TOKEN = r"(?=[A-Z0-9-]{0,12}[A-Z])(?=[A-Z0-9-]{0,12}[0-9])[A-Z0-9]{1,8}(?:-[A-Z0-9]{1,6}){0,2}"
_MODEL = spaced(rf"(?<![\w-])(?:models?|mdl)\b\.?[ :#]{{0,3}}(?P<value>{_MODEL_TOKEN})(?![\w-])")
_BEFORE_SERIAL = spaced(rf"(?<![\w/-])(?P<value>{_MODEL_TOKEN})[ ,]{{1,3}}$")
_PART_NUMBER = re.compile(r"P/?N[ .:#]{0,3}[\w./-]{0,24}[ ,]{0,3}$", re.IGNORECASE)
_ARTICLES = (
    (Article.ENGINE, re.compile(r"\b(?:engines?|eng)\b", re.IGNORECASE)),
    (Article.PROPELLER, re.compile(r"\b(?:propellers?|props?|hub|blades?)\b", re.IGNORECASE)),
    (
        Article.AIRCRAFT,
        re.compile(r"\b(?:aircraft|airplane|acft|airframe|a/c|rotorcraft|helicopter|tail)\b", re.IGNORECASE),
    ),
    (
        Article.PART,
        re.compile(
            r"\bP/?N\b|\b(?:part|batter(?:y|ies)|wheels?|tires?|tyres?|brakes?|mag(?:neto)?s?"
            r"|alternators?|generators?"
            r"|pumps?|starters?|governors?|carb(?:uretor)?s?|cyl(?:inder)?s?|strut|actuators?"
            r"|motors?|valves?|bottle"
            r"|radio|transponder|altimeter|gyro|ELT|servo|caliper|regulators?|unit|assy|assembly"
            r"|kit|tag|compon\w+)\b",
            re.IGNORECASE,
        ),
    ),
)
_CLAUSE = re.compile(r"[.;](?=[ ]|$)|\n|\b(?:removed|installed|replaced|off|on)\b:?", re.IGNORECASE)
_OF_OTHER = spaced(
    r"(?:field approv(?:al|ed)|337|8110-3|8100-9|AMOC|approval|approved)\b[^.;\n]{0,40}?\b"
    r"(?:for|of|from|on)[ ](?:aircraft |acft )?$"
)


def registrations(text: str) -> Iterator[EntryFact]:
    """Marks named; those of an aircraft that an approval was given for are told as another aircraft's too."""
    for match in _MARK.finditer(text):
        before = text[max(0, match.start() - 24) : match.start()]
        announced = _ANNOUNCED.search(before) is not None
        first_letter = match[0][0].isupper() or announced
        if _SHORT_MARK.fullmatch(match[0]) and not announced or not first_letter:
            continue
        value = re.sub(r"[ ]", "", match[0].upper())
        value = value.replace("-", "") if value.startswith("N") else value
        yield EntryFact(FactKind.REGISTRATION, value, match[0], *match.span(), of=Article.AIRCRAFT)
        if other := _OF_OTHER.search(text, max(0, match.start() - 70), match.start()):
            words = text[other.start() : match.end()]
            yield EntryFact(FactKind.OTHER_AIRCRAFT, value, words, other.start(), match.end())


def serials(text: str) -> Iterator[EntryFact]:
    """Serial numbers, and the model printed right before one, with what they are of."""
    for match in _SERIAL.finditer(text):
        article = _article(text, match.start())
        start, end, value = match.start(), match.end(), match["value"]
        yield _serial(text, start, end, value, article)
        for _ in range(20):
            more = _NEXT_SERIAL.match(text, end)
            if not more or _shape(more["value"]) != _shape(value):
                break
            end = more.end()
            yield _serial(text, more.start("value"), end, more["value"], article)
        model = _BEFORE_SERIAL.search(text, max(0, start - 24), start)
        announced = model and _MODEL.search(text, max(0, start - 40), start)
        if (
            model
            and not announced
            and not _PART_NUMBER.search(text, max(0, start - 40), start)
            and not _MARK.fullmatch(model["value"])
        ):
            yield EntryFact(
                FactKind.MODEL, model["value"].upper(), model["value"], *model.span("value"), of=article
            )


def models(text: str) -> Iterator[EntryFact]:
    """Models announced as such."""
    for match in _MODEL.finditer(text):
        article = _article(text, match.start())
        yield EntryFact(FactKind.MODEL, match["value"].upper(), match[0], *match.span(), of=article)


def _serial(text: str, start: int, end: int, value: str, article: Article) -> EntryFact:
    return EntryFact(FactKind.SERIAL, value.upper().rstrip("."), text[start:end], start, end, of=article)


def _shape(value: str) -> str:
    return re.sub("[A-Za-z]+", "A", re.sub("[0-9]+", "0", value))


def _article(text: str, start: int) -> Article:
    """What the nearest words before, in the same clause, are of."""
    before = text[max(0, start - 60) : start]
    clauses = list(_CLAUSE.finditer(before))
    before = before[clauses[-1].end() :] if clauses else before
    if _PART_NUMBER.search(before):
        return Article.PART
    nearest, found = -1, Article.UNSAID
    for article, words in _ARTICLES:
        for match in words.finditer(before):
            if match.start() > nearest:
                nearest, found = match.start(), article
    mark = list(_MARK.finditer(before))
    if mark and mark[-1].start() > nearest and not _SHORT_MARK.fullmatch(mark[-1][0]):
        return Article.AIRCRAFT
    return found
