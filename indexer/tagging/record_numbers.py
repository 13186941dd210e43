"""The numbers of sources as records write them after the words of a kind: "#24", "SA123ZZ", "43.13 1b"."""

import re

from indexer.tagging.record_dates import DATE
from indexer.tagging.record_place_words import BETWEEN, FIGURE, PAGE, PARAGRAPH, PASSED, REVISION
from indexer.tagging.record_words import Kind, Numbered
from indexer.tagging.reference_words import spaced
from indexer.trade.publication_types import PublicationType as Type

_NO = r"(?:(?:nos?|numbers?|nbr)\b\.?)?"
_TOKEN = (
    r"(?P<number>(?=[A-Z0-9.-]{0,24}[0-9])[A-Z0-9]{1,16}"
    r"(?:(?:-|\.(?=[0-9]))[A-Z0-9]{1,12}){0,6})(?![\w-])(?!\.[0-9])"
)
_ALIAS = re.compile(r"[ ]?\([A-Z]{2,5}s?\)")
_LABELS = (
    r"(?:P/?N|part no\.?|pub(?:lication)?\.?|doc(?:ument)?\.?|report|rpt\.?|form|supplement"
    r"|AN|T\.?O\.?|NAVAIR|per|vol(?:ume)?\.?|nos?\b\.?|number|#)"
)
_OF_MANUAL = spaced(rf"[ ,]{{1,3}}(?P<label>(?:{_LABELS}[ #:]{{0,3}}){{0,3}}){_TOKEN}")
_OF_CERTIFICATE = spaced(
    r" (?:for|of|to) (?:the )?(?:STC ?)?[#]? ?(?P<number>S[A-Z]{1,2}[0-9]{2,6}[A-Z]{1,4}(?:-[A-Z])?)(?![\w-])"
)
BULLETIN = spaced(
    rf" ?{_NO}[ .:#-]{{0,4}}{_TOKEN}(?!/[0-9](?![0-9]{{1,3}}(?![/\w])))(?:/(?P<revision>[A-Z])(?![\w]))?"
)
DIRECTIVE_NUMBER = (
    r"(?P<number>(?:(?:19|20)[0-9]{2}|[0-9]{2})-[0-9]{2}-[0-9]{2}(?:[ -]?R(?P<revision>[0-9]{1,2}))?"
    r"|20[0-9]{2}-[0-9]{4}(?:-E)?(?:[ -]?R(?P<r2>[0-9]{1,2}))?|CF-?(?:19"
    r"|20)[0-9]{2}-[0-9]{1,3}(?:R(?P<r3>[0-9]{1,2}))?)(?![\w-])"
)
_DIRECTIVE = spaced(
    rf" ?(?:{_NO}|notes?|c/?w|p?cw|complied with|list(?:ed)?)[ .:#]{{0,4}}(?:(?:AD"
    rf"|A\.D\.) )?{DIRECTIVE_NUMBER}"
)
_CIRCULAR = spaced(
    rf" ?{_NO}[ .:#-]{{0,3}}(?P<number>43[.-]?13(?:[ -]{{1,3}}[12] ?[A-Z](?![\w])|-[12]"
    rf"(?![\w]))?(?![\w])(?!\.[0-9])"
    r"|[0-9]{1,3}(?:\.[0-9]{1,4})?-[0-9]{1,4}[A-Z]{0,2}(?![\w])(?!-[0-9]))"
)
_TOKEN_AFTER = spaced(rf" ?{_NO}[ .:#-]{{0,3}}{_TOKEN}")
_FORM = re.compile(r"337|8110-3|8100-9|8130-3|TSO[ -]{0,2}(?P<tso>C[0-9]{1,3}[a-z]{0,2})", re.IGNORECASE)
_OWN_OF_FORM = spaced(
    r" ?,? ?(?:(?:form |cert(?:ificate)? )?(?:tracking )?(?:no|number|nbr)\b\.?|tracking|#)[ .:#]{0,3}"
    + _TOKEN
)
_OWN_PAPER = re.compile(r"(?:report|dwg|drawing)$", re.IGNORECASE)
_MAY_BE_DIGITS = frozenset(
    {Type.PROPELLER_MANUAL, Type.ENGINE_MANUAL, Type.SERVICE_MANUAL, Type.FLIGHT_MANUAL_SUPPLEMENT, None}
)


def read_number(flat: str, kind: Kind, words: re.Match) -> tuple[str, str, int]:
    """(number, revision glued to it, end) after the words of the kind; ("", "", their end) without one."""
    place = words.end()
    if kind.numbered in (Numbered.MANUAL, Numbered.TITLED):
        return _manual(flat, kind, place)
    if kind.numbered is Numbered.BULLETIN:
        return _bulletin(flat, words)
    if kind.numbered is Numbered.FORM:
        return _form(flat, kind, words)
    if kind.numbered is Numbered.WORDS:
        own = _TOKEN_AFTER.match(flat, place) if _OWN_PAPER.search(words[0]) else None
        return (own["number"], "", own.end()) if own and len(own["number"]) > 2 else ("", "", place)
    pattern = {Numbered.DIRECTIVE: _DIRECTIVE, Numbered.CIRCULAR: _CIRCULAR}.get(kind.numbered, _TOKEN_AFTER)
    match = pattern.match(flat, place)
    if not match or len(match["number"]) < 3:
        return "", "", place
    number = " ".join(match["number"].split())
    if kind.numbered is Numbered.CIRCULAR:
        number = circular_number(number)
    return number, revision_in(match), match.end()


def revision_in(match: re.Match) -> str:
    """The revision that a directive's number carries."""
    groups = match.groupdict()
    return groups.get("revision") or groups.get("r2") or groups.get("r3") or ""


def circular_number(printed: str) -> str:
    """ "43.13 1b" is 43.13-1b."""
    return re.sub(r"[ -]+", "-", re.sub(r"(?<=[0-9]) (?=[A-Za-z]$)", "", printed))


def _manual(flat: str, kind: Kind, place: int) -> tuple[str, str, int]:
    if alias := _ALIAS.match(flat, place):
        place = alias.end()
    if kind.type is Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS and (
        match := _OF_CERTIFICATE.match(flat, place)
    ):
        return match["number"], "", match.end()
    match = _OF_MANUAL.match(flat, place)
    if not match or not _is_own_number(flat, match, kind):
        return "", "", place
    return match["number"], "", match.end()


def _is_own_number(flat: str, match: re.Match, kind: Kind) -> bool:
    number, start = match["number"], match.start("number")
    if re.match("AN|T|NAV", match["label"], re.IGNORECASE):
        return True
    if any(pattern.match(flat, start) for pattern in (DATE, PAGE, FIGURE, PARAGRAPH, PASSED)):
        return False
    if re.fullmatch(
        r"(?i)(?:ch|chap|ata|sect?|task|para?|r|rev|chg|i|f|fig|pg?|page|pb)[.-]?[0-9][0-9.-]*|[0-9]{2}(?:[-.][0-9]{2}){1,2}(?![0-9]).*",
        number,
    ):
        return False
    revised = REVISION.match(flat, BETWEEN.match(flat, match.end()).end()) is not None
    if kind.numbered is Numbered.TITLED and number.isdigit():
        return bool(match["label"]) or len(number) >= 3 and revised
    if number.isdigit():
        short_is_number = kind.type is Type.FLIGHT_MANUAL_SUPPLEMENT or match["label"]
        return (
            kind.type in _MAY_BE_DIGITS
            and (len(number) >= 3 or bool(short_is_number))
            or bool(match["label"])
        )
    if re.fullmatch(r"[0-9]{1,2}-[0-9]{1,3}[A-Z]?", number):
        return bool(match["label"]) or kind.type is None and revised
    return True


def _bulletin(flat: str, words: re.Match) -> tuple[str, str, int]:
    match = BULLETIN.match(flat, words.end())
    if not match:
        return "", "", words.end()
    number = match["number"]
    if prefix := bulletin_prefix(words[0]):
        if number.isdigit() and len(number) < 2:
            return "", "", words.end()
        number = f"{prefix} {number}"
    return number, match["revision"] or "", match.end()


def bulletin_prefix(words: str) -> str:
    """ "SB" of "S/B", "SBs", "s.b.": the short word is part of the number as printed; "" of long words."""
    letters = re.sub(r"[^A-Z]", "", words.upper())
    if len(letters) > 5 or " " in words.strip():
        return ""
    return letters[:-1] if len(letters) > 2 and letters.endswith("S") and words[-1] in "sS" else letters


def _form(flat: str, kind: Kind, words: re.Match) -> tuple[str, str, int]:
    form = _FORM.search(words[0])
    number = "" if not form else f"TSO-{form['tso']}" if form["tso"] else form[0]
    if kind.type in (Type.ENGINEERING_APPROVAL, Type.RELEASE_CERTIFICATE):
        own = _OWN_OF_FORM.match(flat, words.end())
        if own:
            return number, "", own.end()
    return number, "", words.end()
