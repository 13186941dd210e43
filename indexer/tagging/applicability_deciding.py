"""Does a printed applicability reach one model and serial? Three answers, each with the words that decide.

"Applies" where one clause has the model by name, holds the serial, and sets no condition. "Does not apply"
only where every clause shuts it out by closed words, every word of the text was read, and neither the model
nor the serial stands anywhere in the text in another place. "Cannot tell" in every other case: a missing
match proves nothing.
"""

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from indexer.tagging.applicability_clauses import Article, Clause, ConditionKind, ModelName, ReadApplicability
from indexer.tagging.applicability_text import plain_text
from indexer.trade.applies import ApplicabilityAnswer, Applies
from indexer.trade.evidence import Answer
from indexer.trade.model_names import ModelMatch, compare_models, fold_model, is_bare_number
from indexer.trade.serials import Serial, SerialRange, is_registration, parse_serial

_WORD = re.compile(r"(?<![A-Z0-9-])[A-Z0-9][A-Z0-9./-]*[A-Z0-9]")


@dataclass(frozen=True, slots=True)
class Asked:
    """Whom it is asked for.

    article   whose model and serial these are; None = those that the text is about
    prefixes  serial prefixes known from wider words to run beside each other
    models    models known from wider words to be different ones
    """

    model: str
    serial: str
    article: Article | None = None
    prefixes: frozenset[str] = frozenset()
    models: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class _Known:
    """What the whole text says.

    named         its words in capitals, among which a maker may be
    by_name       whether the model itself is listed in it, or in wider words
    prefixes      serial prefixes that run beside each other
    own_prefixes  those listed for the model itself
    """

    named: frozenset[str]
    by_name: bool
    prefixes: frozenset[str]
    own_prefixes: frozenset[str]


@dataclass(frozen=True, slots=True)
class _Reach:
    """One clause held against what is asked."""

    clause: Clause
    answer: Answer
    why: str
    rank: int  # the higher, the nearer the clause is to what is asked


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


def _shut_out(reaches: list[_Reach], asked: Asked) -> ApplicabilityAnswer:
    nearest = max(reaches, key=lambda reach: reach.rank)
    if nearest.rank:
        return ApplicabilityAnswer(Applies.DOES_NOT_APPLY, nearest.why, nearest.clause.words)
    listed = ", ".join(dict.fromkeys(name.name for reach in reaches for name in reach.clause.models))
    why = f"Model {asked.model} is not among the models listed: {listed}."
    return ApplicabilityAnswer(
        Applies.DOES_NOT_APPLY, why, "; ".join(dict.fromkeys(reach.clause.words for reach in reaches))
    )


def _reaches(text: str, read: ReadApplicability, asked: Asked) -> list[_Reach]:
    named = frozenset(re.findall(r"[A-Z]{3,}", plain_text(text).upper()))
    kind = asked.article or next(
        (clause.article for clause in read.clauses if clause.article is not Article.UNSTATED),
        Article.UNSTATED,
    )
    by_name = _listed_by_name(read, asked, named)
    prefixes = asked.prefixes | {
        prefix for clause in read.clauses if clause.serials for prefix in clause.serials.prefixes
    }
    known = _Known(named, by_name, prefixes, _own_prefixes(read, asked, named))
    return [_reach(clause, asked, kind, known) for clause in read.clauses]


def _own_prefixes(read: ReadApplicability, asked: Asked, named: Collection[str]) -> frozenset[str]:
    return frozenset(
        prefix
        for clause in read.clauses
        if clause.serials
        and any(compare_models(asked.model, name.name, named) is ModelMatch.SAME for name in clause.models)
        for prefix in clause.serials.prefixes
    )


def _reach(clause: Clause, asked: Asked, kind: Article, known: _Known) -> _Reach:
    if clause.article not in (kind, Article.UNSTATED) and kind is not Article.UNSTATED:
        why = f'"{clause.words}" speaks of articles that have numbers of their own: see what is installed.'
        return _Reach(clause, Answer.CANNOT_TELL, why, 1)
    named = known.named
    model, model_why = _model(clause, asked.model, named, known.by_name)
    serial, serial_why = _serial(clause, asked.serial, known.prefixes)
    if model is Answer.NO:
        if serial is Answer.YES and _of_another_series(clause, asked.serial, known.own_prefixes):
            why = f"{serial_why} But the model asked for is {asked.model}: check the model and the serial."
            return _Reach(clause, Answer.CANNOT_TELL, why, 2)
        return _Reach(clause, Answer.NO, model_why, 3 if _excepts(clause, asked.model, named) else 0)
    rank = 4 if clause.models and model is Answer.YES else 2
    if serial is Answer.NO:
        return _Reach(clause, Answer.NO, serial_why, rank)
    if model is Answer.CANNOT_TELL:
        return _Reach(clause, Answer.CANNOT_TELL, model_why, rank)
    if serial is Answer.CANNOT_TELL:
        return _Reach(clause, Answer.CANNOT_TELL, serial_why, rank)
    if clause.conditions:
        first = clause.conditions[0]
        why = f'{model_why} {serial_why} But only "{first.words}": {first.kind.value}.'.strip()
        return _Reach(clause, Answer.CANNOT_TELL, why, rank)
    if not clause.models and clause.serials is None and clause.article is not Article.UNSTATED:
        return _Reach(clause, Answer.CANNOT_TELL, "The words name no model.", rank)
    why = f"{model_why} {serial_why}".strip() or "The words name all."
    return _Reach(clause, Answer.YES, why, rank)


def _model(clause: Clause, model: str, named: Collection[str], by_name: bool) -> tuple[Answer, str]:
    """Whether a clause has the model. A name that only shares a part with a listed one is in doubt, unless
    the model itself is listed in the text: then it is no other.

    "QZ62 series" names the QZ62; whether it covers a QZ62S cannot be told unless the QZ62S is listed.
    """
    if not clause.models and not clause.excepted:
        return Answer.YES, ""
    if not model.strip():
        return Answer.CANNOT_TELL, "The model is not known."
    out = [compare_models(model, name.name, named) for name in clause.excepted]
    if ModelMatch.SAME in out:
        if clause.exceptions_sure:
            return Answer.NO, f"Model {model} is excepted."
        return Answer.CANNOT_TELL, f"Model {model} is excepted, but the words after that may limit it."
    if any(_may_be(model, name, named, by_name) for name in clause.excepted):
        return Answer.CANNOT_TELL, f"Model {model} may be among the models excepted."
    if not clause.models:
        return Answer.YES, ""
    for name in clause.models:
        if compare_models(model, name.name, named) is ModelMatch.SAME:
            return Answer.YES, f"Model {model} is listed."
    for name in clause.models:
        if _may_be(model, name, named, by_name):
            series = f"The {name.name} series" if name.series else f'"{name.name}"'
            return (
                Answer.CANNOT_TELL,
                f"{series} is listed; whether that means the {model} the words do not say.",
            )
    return Answer.NO, f"Model {model} is not listed in this clause."


def _may_be(model: str, name: ModelName, named: Collection[str], by_name: bool) -> bool:
    kin = compare_models(model, name.name, named) is ModelMatch.KIN
    if not name.series:
        # Two type numbers in one text are two models; words beside a number may say more than its name.
        return kin and not (by_name and is_bare_number(name.name))
    hundreds = re.fullmatch(r"(\d)00", fold_model(name.name))  # "200 series" is said of a 206 and a 210
    number = re.search(r"(?<!\d)(\d)\d\d(?!\d)", model)
    return kin or bool(hundreds and number and hundreds[1] == number[1])


def _excepts(clause: Clause, model: str, named: Collection[str]) -> bool:
    return any(compare_models(model, name.name, named) is ModelMatch.SAME for name in clause.excepted)


def _serial(clause: Clause, serial: str, prefixes: Collection[str]) -> tuple[Answer, str]:
    held = clause.serials
    other = next((each for each in clause.conditions if each.kind is ConditionKind.LINE_NUMBERS), None)
    if other:
        return Answer.CANNOT_TELL, f'"{other.words}": {other.kind.value}.'
    if held is None or (held.everything and not held.excepted):
        return Answer.YES, ""
    if not serial.strip():
        return Answer.CANNOT_TELL, "The serial number is not known, and the words list serial numbers."
    if is_registration(serial):
        return Answer.CANNOT_TELL, f"{serial} is a registration, not a serial number."
    asked = parse_serial(serial)
    if asked is None:
        return Answer.CANNOT_TELL, f'"{serial}" cannot be read as one serial number.'
    answer = held.holds(asked, prefixes)
    words = held.deciding(asked)
    fault = next((each.fault for each in (*held.included, *held.excepted) if each.fault), "")
    if answer is Answer.YES:
        return answer, f'Serial {serial} is in "{words}".' if words else f"Serial {serial} is not excepted."
    if answer is Answer.CANNOT_TELL:
        return answer, f"{fault}." if fault else _unclear(serial, words)
    if not clause.labelled and asked.prefix not in {*prefixes, *held.prefixes}:
        return Answer.CANNOT_TELL, f'"{words}" may be numbers of another kind than serial {serial}.'
    if any(each.holds(asked) is Answer.YES for each in held.excepted):
        if clause.exceptions_sure:
            return answer, f"Serial {serial} is excepted."
        return Answer.CANNOT_TELL, f"Serial {serial} is excepted, but the words after that may limit it."
    return answer, f'Serial {serial} lies outside "{words}".'


def _unclear(serial: str, words: str) -> str:
    return (
        f'Serial {serial} agrees only loosely with "{words}", or its prefix is not clear: '
        f"read both as printed."
    )


def _of_another_series(clause: Clause, serial: str, own_prefixes: Collection[str]) -> bool:
    """A serial with a prefix belongs to one series: listed for another model, when the model's own serials
    have no such prefix, something is wrong with the model or the serial."""
    asked = parse_serial(serial)
    listed = bool(clause.serials and clause.serials.included)
    return bool(asked and listed and asked.prefix and asked.prefix not in own_prefixes)


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
