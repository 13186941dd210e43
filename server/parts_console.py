"""Answers about parts lists, printed for a person at a terminal."""

from collections.abc import Mapping, Sequence
from typing import Any

from server.words import count_of


def show_parts(answer: Mapping[str, Any]) -> None:
    """The groups with their rows, what was understood, and what must be said."""
    _show_named_in(answer["named_in"], full=False)
    _lines(answer["asked"]["said"])
    for choice in answer["asked"]["choices"] if len(answer["asked"]["choices"]) > 1 else ():
        print(f"  {choice['name']}, {choice['kind']}: {count_of(choice['rows'], 'row')}")
    for group in answer["groups"]:
        print(f"\n{group['label']}: {count_of(group['count'], 'row')}")
        for row in group["rows"]:
            _show_row(row)
        if group["count"] > len(group["rows"]):
            print(f"  {count_of(group['count'] - len(group['rows']), 'row')} more: raise --limit.")
    for line in answer["index_only"]:
        print(f"\n{line['part_number']}, {line['publication']['name']}: {line['words']}")
    if not answer["groups"] and not answer["index_only"]:
        print("Nothing was found in the parts lists held here. That does not mean there is no such part.")
    _show_foot(answer)


def show_part(answer: Mapping[str, Any]) -> None:
    """One row with all that is said of it."""
    _show_row(answer)
    _show_named_in(answer["named_in"])
    if answer["above"]:
        print("\nAssembly above, the nearest first:")
    for step in answer["above"]:
        _show_row(step, short=True)
        if step["variants"]:
            print("         and, as it is listed under each of these variants:")
        for row in step["variants"]:
            _show_row(row, short=True)
    for title, rows in (
        ("Attaches", [*([answer["attaches"]] if answer["attaches"] else []), *answer["attaches_also"]]),
        ("Attaching parts (for one of it)", answer["attaching_parts"]),
        ("Details below", answer["below"]),
    ):
        _section(title, rows)
    for title, rows in (
        ("Used elsewhere", answer["used_elsewhere"]),
        ("Looks alike elsewhere, or read by OCR", answer["may_be_used_elsewhere"]),
    ):
        _section(title, rows, short=False)
    for title, links in (
        ("Takes its place", answer["supersession"]["replaced_by"]),
        ("It takes the place of", answer["supersession"]["replaces"]),
        ("Optional and alternate, as the words say", answer["supersession"]["either_way"]),
        ("To be ordered", answer["supersession"]["order"]),
    ):
        if links:
            print(f"\n{title}:")
            for link in links:
                print(f'  {link["number"]}: {link["said"]} "{link["words"]}"')
    for named in (*answer["bulletins"], *answer["figures"]):
        places = [each.get("name") or each["place"] for each in _held(named)]
        print(f"\n{named['words']}: {' '.join(filter(None, (named['said'], ', '.join(places))))}")
    if answer["fleet"]:
        print("\nThe fleet:")
        for each in answer["fleet"]:
            print(f"  {each['words']} {each['why']}")
    _show_foot(answer)


def _show_named_in(named: Mapping[str, Any] | None, full: bool = True) -> None:
    """full = False shows only directives and letters about them."""
    if named is None:
        return
    _lines(named["words"])
    shown = [each for each in named["passages"] if full or each["directive"]]
    for each in shown:
        paragraph = f", paragraph {each['paragraph']}" if each["paragraph"] else ""
        read = ", read by OCR: compare with the page" if each["read_by_ocr"] else ""
        print(f"  {each['short']}{paragraph}, PDF page {each['pdf_page']}{read}:")
        print(f'    "{each["quote"]}"')
    hidden = named["count"] - len(shown)
    if hidden or named["more"]:
        more = "At least " if named["more"] else ""
        print(
            f"  {more}{count_of(max(hidden, 1), 'more passage')} with it: hangarleaf search {named['number']}"
        )


def show_figure(answer: Mapping[str, Any]) -> None:
    """A figure with its rows in printed order."""
    print(": ".join(filter(None, (answer["place"], answer["title"]))))
    print(f"{answer['publication']['name']}, {answer['publication']['kind']}")
    _lines(_currency(answer["publication"]))
    flagged = f", {answer['flagged']} of them not read whole" if answer["flagged"] else ""
    drawings = count_of(len(answer["art"]), "page")
    print(f"{count_of(answer['count'], 'row')}{flagged}; {drawings} of drawings\n")
    for row in answer["rows"]:
        _show_row(row, short=True)
    _show_foot(answer)


def _section(title: str, rows: Sequence[Mapping[str, Any]], short: bool = True) -> None:
    if rows:
        print(f"\n{title}:")
        for row in rows:
            _show_row(row, short)


def _held(named: Mapping[str, Any]) -> Sequence[Mapping[str, Any]]:
    return named.get("publications") or named.get("figures") or ()


def _show_row(row: Mapping[str, Any], short: bool = False) -> None:
    dots = ". " * (row["indenture"] or 0)
    item = f"{'' if row['illustrated'] else '-'}{row['item']}"
    if not row["item"]:
        item = "item not read" if row["illustrated"] else "no item"
    number = row["part_number"] or "(number not read)"
    codes = " ".join(each["code"] for each in row["usage"])
    cells = [f"{item:>5}  {number}  {dots}{row['nomenclature']}", codes, row["effectivity"], row["units"]]
    print(f"  {'  '.join(filter(None, cells))}")
    publication = row["publication"]
    if publication["superseded"] and not short:
        _lines(f"         {words}" for words in _currency(publication))
    said = [row["why"], row["confidence_words"], *row["flags"], *(each["words"] for each in row["notes"])]
    if row["applies"]:
        said.append(f"{row['applies']['words']} {row['applies']['why']}")
    for words in filter(None, said):
        print(f"         {words}")
    if not short:
        page = f"page {row['printed_page']}, " if row["printed_page"] else ""
        print(f"         {publication['name']}, {publication['kind']}: {row['place']}")
        print(f"         {page}PDF page {row['pdf_page']}; row {row['id']}")
        if not publication["superseded"]:
            _lines(f"         {words}" for words in _currency(publication))


def _currency(publication: Mapping[str, Any]) -> list[str]:
    """What speaks against the publication of a row, and whether it is known to be current."""
    state, why = publication["current"]["state"], publication["current"]["why"]
    lead = "This list is superseded." if publication["superseded"] else f"currency: {state}."
    return [f"{lead} {why}", *(each for each in publication["currency"] if each not in why)]


def _show_foot(answer: Mapping[str, Any]) -> None:
    print()
    _lines(filter(None, (answer["not_read"]["words"], *answer["cautions"])))
    state = answer["library_state"]
    print(f"Library state {state['generation']}, {state['changed_at']}.")


def _lines(words) -> None:
    for each in words:
        print(each)
