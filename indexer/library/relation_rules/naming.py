"""Whether a publication held here is the very one that a claim names: its revision, its date, its maker.

A bulletin's number alone does not name it: makers number alike ("Service Bulletin 17").
"""

import re

from indexer.library.records import RevisionMatch
from indexer.library.relation_rules.held import Held, folded
from indexer.tagging.tags import Claim
from indexer.trade.evidence import Answer
from indexer.trade.revisions import same_revision


def fits_revision(claim: Claim, target: Held) -> Answer:
    """Whether `target` is the revision that the claim names by mark, date or both."""
    mark = same_revision(claim.revision, target.revision) if claim.revision else None
    date = None
    if claim.date:
        date = Answer.CANNOT_TELL if target.date is None else _answer(claim.date == target.date)
    answers = {answer for answer in (mark, date) if answer is not None}
    if Answer.NO in answers:
        return Answer.NO
    if mark is Answer.YES and date is Answer.CANNOT_TELL:
        return Answer.YES  # the mark agrees, and the copy prints no date to contradict it
    return Answer.YES if answers == {Answer.YES} else Answer.CANNOT_TELL


def revision_match(claim: Claim, target: Held, exact: list[Held]) -> RevisionMatch:
    """How `target` stands to the revision a claim names; `exact` = those held that are that revision."""
    if not claim.revision and not claim.date:
        return RevisionMatch.NOT_NAMED
    fits = fits_revision(claim, target)
    if fits is Answer.YES:
        return RevisionMatch.EXACT
    if claim.later_allowed and _is_later(claim, target, exact):
        return RevisionMatch.LATER_ALLOWED
    return RevisionMatch.OTHER if fits is Answer.NO else RevisionMatch.CANNOT_TELL


def identifies(source: Held, claim: Claim, target: Held) -> bool:
    """True when the source's words fit the target beyond its number: its date, its maker or a model.

    Not where the target's maker is known and the source names no such maker: makers number and date alike.
    """
    if target.maker and not _names_maker(source, target.maker):
        return False
    if claim.date and claim.date == target.date:
        return True
    if target.maker and folded(target.maker) in source.words:
        return True
    return any(_names_model(source, tag.value) for tag in target.identity.models)


def _names_maker(source: Held, maker: str) -> bool:
    """By the first word of its name: a directive may write the rest of it in another way."""
    names = [word for word in folded(maker).split() if word != "the"]
    return bool(names) and f" {names[0]} " in source.words


def _answer(value: bool) -> Answer:
    return Answer.YES if value else Answer.NO


def _is_later(claim: Claim, target: Held, exact: list[Held]) -> bool:
    """By date only: the date named, else the dates of copies of the revision named."""
    dates = [claim.date] if claim.date else [each.date for each in exact]
    return bool(dates) and target.date is not None and all(date and target.date > date for date in dates)


def _names_model(source: Held, model: str) -> bool:
    telling = re.search(r"\d", model) and len(re.sub(r"\W", "", model)) >= 3
    return bool(telling) and folded(model) in source.words
