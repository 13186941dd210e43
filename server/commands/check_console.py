"""A source check for a terminal: the same words as on the page. Nothing is decided here."""

from collections.abc import Iterator, Mapping
from typing import Any

import click

from server.disputed_notes import DisputedNotes, is_asked, parted
from server.sourcecheck import Again
from server.words import shortened

_WIDE = 88


def show_check(answer: Mapping[str, Any]) -> None:
    for line in check_lines(answer):
        click.echo(line)


def show_list(answer: Mapping[str, Any]) -> None:
    for each in answer["checks"]:
        click.echo(
            f"{each['id']:>6}  {each['at'][:16].replace('T', ' ')}  {shortened(_one_line(each['text']), 70)}"
        )
        for one in each["citations"]:
            enough = ", ".join(f"{work}: {said}" for work, said in one["enough"].items())
            click.echo(f"        {one['text']}: {one['standing']}; {enough}")
    click.echo(
        f"{len(answer['checks'])} of {answer['total']:,} kept checks. Show one: hangarleaf checks show ID"
    )


def show_again(answer: Again) -> None:
    kept = answer.kept
    click.echo(
        f"Check {kept['id']} of {kept['at'][:16].replace('T', ' ')} UTC: {shortened(_one_line(kept['text']))}"
    )
    click.echo(
        f"Library state then: generation {kept['library_state']['generation']}; "
        f"now: {answer.now['library_state']['generation']}."
    )
    if not answer.differences:
        click.echo("Asked again today, the answer is the same.")
        return
    click.echo("Asked again today, the answer differs:")
    for each in answer.differences:
        click.echo(f"  {each}")


def check_lines(answer: Mapping[str, Any]) -> Iterator[str]:
    """Every line of one check, cautions last."""
    yield _one_line(answer["text"])
    said = [f"aircraft {answer['aircraft']}"] if answer["aircraft"] else ["no aircraft chosen"]
    said.append(f"{answer['work']} work" if answer["work"] else "class of work not said")
    if answer["on"]:
        said.append(f"work of {answer['on']}")
    number = f"Check {answer['id']}: " if answer["id"] else ""
    state = answer["library_state"]
    yield f"{number}{', '.join(said)}. Library state {state['generation']}."
    if demonstration := state.get("demonstration"):  # checks of earlier days were kept without
        yield demonstration
    yield from answer["facts"]
    yield from answer["notes"]
    for each in answer["citations"]:
        yield ""
        yield from _citation(each, answer["work"] or "")
    yield ""
    yield "For the record:"
    yield from (f"  {each}" for each in answer["reminders"])
    yield ""
    yield from answer["cautions"]


def _citation(each: Mapping[str, Any], asked: str) -> Iterator[str]:
    """One finding: the answers for the class of work asked for; the JSON and the page hold the others too."""
    yield f"«{each['text']}»"
    resolved = each["resolved"]
    if resolved:
        revision = f", revision {resolved['revision']}" if resolved["revision"] else ""
        pages = ", ".join(str(page) for page in resolved["pdf_pages"])
        yield f"  Document    {resolved['name']}{revision}{f', PDF page {pages}' if pages else ''}"
    else:
        yield "  Document    not told"
    for candidate in each["candidates"]:
        revision = f", revision {candidate['revision']}" if candidate["revision"] else ""
        yield f"    may be    {candidate['name']}{revision} ({candidate['why']})"
    yield f"  Current     {each['current']['state']}: {each['current']['why']}"
    yield f"  Applies     {each['applies']['answer']}: {each['applies']['why']}"
    yield from _standing(each["standing"])
    for directive in each["directives"]:
        said = f"{directive.get('says') or directive['level']}; {directive['status']}. {directive['note']}"
        yield f"  Directive   {directive['number']}: {said}"
        if directive["quote"]:
            yield f"              «{shortened(directive['quote'])}»"
    if each["directives_note"]:
        yield f"  Directive   {each['directives_note']}"
    enough = {work: said for work, said in each["enough"].items() if is_asked(work, asked)}
    for work, answer in enough.items():
        yield f"  {f'For {work}':<11} {answer['answer'].upper()}. {answer['why']}"
    if each["missing"]:
        yield f"  Missing     {'; '.join(each['missing'])}"
    notes, disputed = parted(each["notes"])
    for note in notes:
        yield f"  Note        {note}"
    for point in disputed:
        if point.bears_on(asked):
            yield from _disputed(point)
    for whom in each["ask"]:
        yield f"  Ask         {whom}"
    if each["wording"]:
        yield f"  Suggested   {each['wording']}"


def _disputed(point: DisputedNotes) -> Iterator[str]:
    """A disputed point: the question, both positions and whom to ask; the page holds the rest."""
    question, *said = point.sentences
    yield f"  Disputed    {question}"
    for each in said:
        if not each.startswith("Also: "):
            yield f"              {each}"


def _standing(standing: Mapping[str, Any]) -> Iterator[str]:
    usual = f" (usually {standing['usual']}, by type)" if standing["usual"] else ""
    basis = f"; {standing['basis']}" if standing["basis"] else ""
    yield f"  Standing    {standing['value']}{usual}{basis}"
    if standing["quote"]:
        where = f", PDF page {standing['pdf_page']}" if standing["pdf_page"] else ""
        source = f" of {standing['source']}" if standing["source"] else ""
        yield f"              «{shortened(standing['quote'])}»{where}{source}"
    if standing["mandatory"]:
        yield f"              Made mandatory by {standing['mandatory']}."
    for condition in standing["conditions"]:
        yield f"              Condition: {condition}"


def _one_line(text: str) -> str:
    return " ".join(text.split())
