"""Does a printed applicability reach one model and serial? Three answers, each with the words that decide.

"Applies" where one clause has the model by name, holds the serial, and sets no condition. "Does not apply"
only where every clause shuts it out by closed words, every word of the text was read, and neither the model
nor the serial stands anywhere in the text in another place. "Cannot tell" in every other case: a missing
match proves nothing.
"""

import re
from collections.abc import Collection, Iterable

from indexer.tagging.applicability_clauses import Article, ReadApplicability
from indexer.tagging.applicability_reach import Asked, Known, Reach, reach_of
from indexer.tagging.applicability_text import plain_text
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Answer
from indexer.trade.model_names import ModelMatch, compare_models, fold_model
from indexer.trade.serials import Serial, SerialRange, parse_serial

_WORD = re.compile(r"(?<![A-Z0-9-])[A-Z0-9][A-Z0-9./-]*[A-Z0-9]")


def decide(text: str, read: ReadApplicability, asked: Asked) -> ApplicabilityAnswer:
    """The answer for a model and serial, both as the shop wrote them; "" = not known."""
    if not read.clauses:
        return _cannot_tell("No models or serial numbers could be read from these words.", plain_text(text))
    reaches = _reaches(text, read, asked)
    yes = next((reach for reach in reaches if reach.answer is Answer.YES), None)
    if read.unread:
        return _cannot_tell(_unread(read), read.unread[0])
    if yes:
        return ApplicabilityAnswer(Applies.APPLIES, yes.why, yes.clause.words)
    doubts = [reach for reach in reaches if reach.answer is Answer.CANNOT_TELL]
    if doubts:
        nearest = max(doubts, key=lambda reach: reach.rank)
        own = max(reaches, key=lambda reach: reach.rank)
        shut = f"{own.why} But " if own.rank > nearest.rank else ""
        return _cannot_tell(f"{shut}{nearest.why}", nearest.clause.words)
    elsewhere = _mentioned_elsewhere(text, read, asked)
    if elsewhere or not read.closed:
        return _cannot_tell(elsewhere or "The words say that the list is not complete.", plain_text(text))
    return _shut_out(reaches, asked)


def _shut_out(reaches: list[Reach], asked: Asked) -> ApplicabilityAnswer:
    nearest = max(reaches, key=lambda reach: reach.rank)
    if nearest.rank:
        return ApplicabilityAnswer(Applies.DOES_NOT_APPLY, nearest.why, nearest.clause.words)
    listed = ", ".join(dict.fromkeys(name.name for reach in reaches for name in reach.clause.models))
    why = f"Model {asked.model} is not among the models listed: {listed}."
    return ApplicabilityAnswer(
        Applies.DOES_NOT_APPLY, why, "; ".join(dict.fromkeys(reach.clause.words for reach in reaches))
    )


def _reaches(text: str, read: ReadApplicability, asked: Asked) -> list[Reach]:
    named = frozenset(re.findall(r"[A-Z]{3,}", plain_text(text).upper()))
    kind = asked.article or next(
        (clause.article for clause in read.clauses if clause.article is not Article.UNSTATED),
        Article.UNSTATED,
    )
    by_name = _listed_by_name(read, asked, named)
    prefixes = asked.prefixes | {
        prefix for clause in read.clauses if clause.serials for prefix in clause.serials.prefixes
    }
    known = Known(named, by_name, prefixes, _own_prefixes(read, asked, named))
    return [reach_of(clause, asked, kind, known) for clause in read.clauses]


def _own_prefixes(read: ReadApplicability, asked: Asked, named: Collection[str]) -> frozenset[str]:
    return frozenset(
        prefix
        for clause in read.clauses
        if clause.serials
        and any(compare_models(asked.model, name.name, named) is ModelMatch.SAME for name in clause.models)
        for prefix in clause.serials.prefixes
    )


def _mentioned_elsewhere(text: str, read: ReadApplicability, asked: Asked) -> str:
    """Why "does not apply" may not be said: what is asked for stands in the text where no clause has it."""
    plain = plain_text(text).upper()
    named = frozenset(re.findall(r"[A-Z]{3,}", plain))
    by_name = _listed_by_name(read, asked, named)
    left = _left(plain, read)
    core = fold_model(asked.model)
    listed = {fold_model(each.printed) for each in _printed_serials(read)}  # a model may be read as a serial
    if core and not by_name and (core in listed or _stands_in(core, left)):
        return f"Model {asked.model} stands in the words in a place that could not be read."
    numbers = [word for word in _WORD.findall(left) if re.search(r"\d", word)]
    near = next((word for word in numbers if not by_name and _near(asked.model, word, named)), "")
    if near:
        return f'"{near}" stands in the words and may mean the {asked.model}.'
    serial = parse_serial(asked.serial)
    if serial and not _is_excepted(read, serial) and _stands_in(fold_model(str(serial)), plain):
        return f"Serial {asked.serial} stands in the words in a place that could not be read."
    return ""


def _printed_serials(read: ReadApplicability) -> list[SerialRange]:
    lists = [clause.serials for clause in read.clauses if clause.serials]
    return [each for held in lists for each in (*held.included, *held.excepted)]


def _left(plain: str, read: ReadApplicability) -> str:
    """The words without the lists that were read."""
    for each in _printed_serials(read):
        plain = plain.replace(each.printed.upper(), " ")
    for clause in read.clauses:
        for name in sorted((*clause.models, *clause.excepted), key=lambda name: -len(name.name)):
            plain = re.sub(rf"(?<![A-Z0-9]){re.escape(name.name.upper())}(?![A-Z0-9])", " ", plain)
    return plain


def _near(model: str, word: str, named: Collection[str]) -> bool:
    telling = len(re.findall(r"\d", word)) >= 3 or re.search(r"[A-Z]", word)
    return bool(telling) and compare_models(model, word, named) is not ModelMatch.DIFFERENT


def _stands_in(folded: str, plain: str) -> bool:
    spaced = r"[\s.-]*".join(re.escape(letter) for letter in folded)
    return re.search(rf"(?<![A-Z0-9]){spaced}(?![A-Z0-9])", plain) is not None


def _is_excepted(read: ReadApplicability, serial: Serial) -> bool:
    ends = _printed_serials(read)
    # An end that is not included ("prior to 1050") is printed and read.
    at_ends = any(
        (each.low == serial and not each.low_included) or (each.high == serial and not each.high_included)
        for each in ends
    )
    return at_ends or any(each.holds(serial) is Answer.YES for each in ends)


def _unread(read: ReadApplicability) -> str:
    words = "; ".join(f'"{each}"' for each in list(dict.fromkeys(read.unread))[:3])
    return f"Some of the words could not be read for certain: {words}. Read them as printed."


def _cannot_tell(why: str, quote: str) -> ApplicabilityAnswer:
    return ApplicabilityAnswer(Applies.CANNOT_TELL, why, quote)


def _listed_by_name(read: ReadApplicability, asked: Asked, named: Collection[str]) -> bool:
    listed = [name.name for clause in read.clauses for name in (*clause.models, *clause.excepted)]
    return any(
        compare_models(asked.model, name, named) is ModelMatch.SAME for name in (*listed, *asked.models)
    )


def prefixes_beside(others: Iterable[ReadApplicability]) -> frozenset[str]:
    """Serial prefixes that wider words name: known to run beside each other."""
    return frozenset(
        prefix
        for other in others
        for clause in other.clauses
        if clause.serials
        for prefix in clause.serials.prefixes
    )


def models_beside(others: Iterable[ReadApplicability]) -> frozenset[str]:
    """Models that wider words name one by one."""
    return frozenset(
        name.name for other in others for clause in other.clauses for name in clause.models if not name.series
    )
