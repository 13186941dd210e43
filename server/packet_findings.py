"""A finding of the source check in a job packet: as it was answered, and in what today's answer differs."""

from collections.abc import Mapping
from typing import Any

from indexer.library.day import today
from indexer.library.packet_records import PacketItem
from indexer.library.problems import AircraftUnknown, CheckUnknown
from server.kept import KeptByState
from server.opened import OpenedLibrary
from server.packet_changes import Change, Standing
from server.sourcecheck import again, kept
from server.words import STANDING_LABELS, entered_lead

_LEADS = {value.value: label for value, label in STANDING_LABELS.items()}
_WORKS = {"directive": "work for a directive", "inspection": "this inspection"}
_NOT_FOUND = "Which document is meant was not found here."
_differences = KeptByState(most=1000, states=4)  # by day


def check_id_of(about: str) -> int:
    """The number of a source check. Raises CheckUnknown."""
    if not (about.isascii() and about.isdigit()) or len(about) > 18:
        raise CheckUnknown(0)
    return int(about)


def finding_now(library: OpenedLibrary, item: PacketItem, aircraft: str) -> dict[str, Any]:
    """The check of an item as it was answered; "held" False where the trail has it no more.

    aircraft  registration that the packet is for, "" = none
    """
    try:
        answer = kept(library, check_id_of(item.about))
    except CheckUnknown:
        return {"held": False}
    return {
        "held": True,
        "words": called(answer),
        "check": answer,
        "other_aircraft": _other_aircraft(answer["aircraft"], aircraft),
        "findings": [finding_words(each) for each in answer["citations"]],
        "differences": list(differences(library, answer)),
    }


def _other_aircraft(asked_for: str, aircraft: str) -> str:
    """That a check was not asked for the aircraft of its packet; "" = it was, or the packet is for none."""
    if asked_for == aircraft or not aircraft:
        return ""
    whose = f"was asked for {asked_for}" if asked_for else "was asked for no aircraft"
    return f"This check {whose}: it does not say what holds for {aircraft}."


def differences(library: OpenedLibrary, answer: Mapping[str, Any]) -> tuple[str, ...]:
    """In what the same question is answered otherwise today; () = in nothing. Call it inside `reading`."""

    def ask() -> tuple[str, ...]:
        try:
            return again(library, answer["id"]).differences
        except AircraftUnknown as problem:
            return (f"It cannot be asked again today: {problem.what}",)

    catalogue = library.catalogue
    found = _differences.of(catalogue, catalogue.generation, today(catalogue))
    return found.once(answer["id"], ask)


def finding_changes(now: Mapping[str, Any]) -> tuple[Change, ...]:
    if not now["held"]:
        return (Change(Standing.SUPERSEDED, "The source check is not in the trail any more."),)
    return tuple(Change(Standing.SUPERSEDED, each) for each in now["differences"])


def called(answer: Mapping[str, Any]) -> str:
    """ "Source check 4: IAW SB 32-0012 Rev 2 ..."."""
    text = " ".join(answer["text"].split())
    return f"Source check {answer['id']}: {text if len(text) <= 120 else text[:119] + '…'}"


def finding_words(finding: Mapping[str, Any]) -> dict[str, Any]:
    """One reference of an entry in lines: what was found, and each question with its own answer."""
    resolved, standing = finding["resolved"], finding["standing"]
    revision = f", revision {resolved['revision']}" if resolved and resolved["revision"] else ""
    rows = [
        (
            f"Enough for {_WORKS.get(work, f'{work} work')}?",
            each["answer"],
            each["why"],
        )
        for work, each in sorted(finding["enough"].items())
    ]
    rows += [
        ("Current?", finding["current"]["state"], finding["current"]["why"]),
        ("Applies to the aircraft?", finding["applies"]["answer"], finding["applies"]["why"]),
    ]
    return {
        "cited": finding["text"],
        "found": f"{resolved['name']}{revision}"
        if resolved
        else "Which document is meant was not found here.",
        "publication": resolved["publication"] if resolved else "",
        "lead": _lead(finding),
        "stops": _stops(finding),
        "quote": standing["quote"],
        "conditions": list(standing["conditions"]),
        "rows": [{"question": question, "answer": answer, "why": why} for question, answer, why in rows],
        "directives": [
            f"{each['number']}: {each.get('says') or each['level']}; {each['status']}"
            for each in finding["directives"]
        ],
        "directives_note": finding["directives_note"],
    }


def _stops(finding: Mapping[str, Any]) -> list[str]:
    """What must be read before the standing: it makes no yes of what is not current or for other aircraft."""
    stops = []
    if finding["applies"]["answer"] == "does not apply":
        stops.append("Does not apply to the aircraft")
    if finding["current"]["state"] == "superseded":
        stops.append("Not current: superseded")
    return stops


def _lead(finding: Mapping[str, Any]) -> str:
    value = finding["standing"]["value"]
    if value == "part approval":
        return "Part approval: no data for the work"
    if finding["resolved"] is None and value in ("undetermined", ""):
        return "Which one is meant cannot be told" if finding["candidates"] else "Not determined"
    return entered_lead(finding["standing"], _LEADS[value])
