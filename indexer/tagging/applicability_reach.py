"""One clause of a printed applicability held against one model and serial: yes, no or in doubt, and why."""

import re
from collections.abc import Collection
from dataclasses import dataclass

from indexer.tagging.applicability_clauses import Article, Clause, ConditionKind, ModelName
from indexer.trade.evidence import Answer
from indexer.trade.model_names import ModelMatch, compare_models, fold_model, is_bare_number
from indexer.trade.serials import is_registration, parse_serial


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
class Known:
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
class Reach:
    """One clause held against what is asked."""

    clause: Clause
    answer: Answer
    why: str
    rank: int  # the higher, the nearer the clause is to what is asked


def reach_of(clause: Clause, asked: Asked, kind: Article, known: Known) -> Reach:
    if clause.article not in (kind, Article.UNSTATED) and kind is not Article.UNSTATED:
        why = f'"{clause.words}" speaks of articles that have numbers of their own: see what is installed.'
        return Reach(clause, Answer.CANNOT_TELL, why, 1)
    named = known.named
    model, model_why = _model(clause, asked.model, named, known.by_name)
    serial, serial_why = _serial(clause, asked.serial, known.prefixes)
    if model is Answer.NO:
        if serial is Answer.YES and _of_another_series(clause, asked.serial, known.own_prefixes):
            why = f"{serial_why} But the model asked for is {asked.model}: check the model and the serial."
            return Reach(clause, Answer.CANNOT_TELL, why, 2)
        return Reach(clause, Answer.NO, model_why, 3 if _excepts(clause, asked.model, named) else 0)
    rank = 4 if clause.models and model is Answer.YES else 2
    if serial is Answer.NO:
        return Reach(clause, Answer.NO, serial_why, rank)
    if model is Answer.CANNOT_TELL:
        return Reach(clause, Answer.CANNOT_TELL, model_why, rank)
    if serial is Answer.CANNOT_TELL:
        return Reach(clause, Answer.CANNOT_TELL, serial_why, rank)
    if clause.conditions:
        first = clause.conditions[0]
        why = f'{model_why} {serial_why} But only "{first.words}": {first.kind.value}.'.strip()
        return Reach(clause, Answer.CANNOT_TELL, why, rank)
    if not clause.models and clause.serials is None and clause.article is not Article.UNSTATED:
        return Reach(clause, Answer.CANNOT_TELL, "The words name no model.", rank)
    why = f"{model_why} {serial_why}".strip() or "The words name all."
    return Reach(clause, Answer.YES, why, rank)


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
