"""Chapters worked out from text, held against labels that others gave. Scores are measured in
tests/bench/inference.py; here stands what must never slip."""

import csv
import json
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from indexer.reading.page import Passage, PassageKind
from indexer.tagging.inference import LIKELY, NO_SYSTEM, POSSIBLE, guess, log_chances, model, telling_words
from indexer.tagging.inference_text import features_of, is_listing, words_of
from indexer.tagging.own_sections import OwnSection
from indexer.tagging.section_votes import FROM_SECTION, FROM_TEXT, inferred_numbers
from indexer.trade.chapters import ChapterNumber, Scheme, is_chapter
from indexer.trade.evidence import Basis
from indexer.trade.publication_types import PublicationType as Type
from tests.training.examples import examples, is_held_out
from tests.training.inputs import inputs_hash

ROOT = Path(__file__).parents[2]
DATA = ROOT / "tests" / "data"


def first(text: str) -> str | None:
    said = guess([text])[0]
    return said[0].chapter if said else None


@pytest.mark.parametrize(
    ("text", "chapter"),
    [  # written here; chapters by ATA Spec 100
        ("Measure the brake lining and replace it when worn to the limit. Bleed the brake line.", "32"),
        ("Drain the fuel tank sump and clean the fuel strainer bowl.", "28"),
        ("Adjust the aileron cable tension with the turnbuckle.", "27"),
        ("Replace the spark plugs and set the magneto timing.", "74"),
        ("Dress nicks in the propeller blade leading edge with a file.", "61"),
        ("Check the alternator belt and the voltage regulator.", "24"),
        ("CYL AND PISTON RINGS WORN, LOW COMPRESSION ON RECIPROCATING ENGINE", "72"),
    ],
)
def test_plain_cases_are_told(text, chapter):
    assert first(text) == chapter


def test_narratives_never_trained_on():
    """FAA Service Difficulty Reports; labels are the chapters of the manuals they cite (masked in the text).
    Lower bounds: what is measured stands in the model card."""
    held = [each for each in examples() if is_held_out(each) and each.source == "narratives"]
    assert len(held) > 1400
    said = guess([each.text for each in held])
    likely = [(g[0], each) for g, each in zip(said, held, strict=True) if g and g[0].confidence >= LIKELY]
    answered = [(g[0], each) for g, each in zip(said, held, strict=True) if g]
    assert len(likely) > 0.6 * len(held)
    assert sum(g.chapter == each.chapter for g, each in likely) >= 0.97 * len(likely)
    assert sum(g.chapter == each.chapter for g, each in answered) >= 0.90 * len(answered)


def test_reports_with_an_official_code_that_were_never_trained_on():
    """FAA Service Difficulty Reports of 2023 with the reporter's own JASC code."""
    held = [each for each in examples() if is_held_out(each) and each.source == "reports"]
    said = guess([each.text for each in held])
    answered = [(g[0].chapter, each.chapter) for g, each in zip(said, held, strict=True) if g]
    assert len(answered) > 50
    assert sum(one == other for one, other in answered) >= 0.75 * len(answered)


STATED = {"2017-11001": "57", "2018-02352": "57", "2018-02354": "92", "2024-02724": "51", "2024-02930": "27"}


def test_directives_that_state_their_chapter():
    """Federal Register texts; each states its ATA code in paragraph (d), which is taken out here.

    Their prose is mostly law, so little can be said of it; but what is likely must be right."""
    within = 0
    for name, chapter in STATED.items():
        text = (DATA / "directives" / f"{name}.txt").read_text(encoding="utf-8")
        text = re.sub(r"Air Transport Association[^\n]*", "", text)
        causes = "\n".join(re.findall(r"[^\n]*(?:prompted by|unsafe condition)[^\n]*", text))
        order = [model().classes[place] for place in np.argsort(-log_chances(causes))]
        within += chapter in [each for each in order if each != NO_SYSTEM][:3]
        assert [each.chapter for each in guess([causes])[0] if each.confidence >= LIKELY] in ([], [chapter])
    assert within >= 2


@pytest.mark.parametrize("name", ["14cfr_part43_2015.txt"])
def test_rules_are_left_alone(name):
    """14 CFR part 43 (training saw parts 39 and 45): nearly no paragraph of it belongs to a system."""
    text = (DATA / "text" / name).read_text(encoding="utf-8")
    paragraphs = [each for each in text.split("\n") if len(each.split()) >= 8]
    assert len(paragraphs) > 60
    said = [each for each in guess(paragraphs) if each]
    assert len(said) <= 0.08 * len(paragraphs)  # some name one: "the main rotor transmission gear box"
    assert not [each for each in said if each[0].confidence >= LIKELY]


@pytest.mark.parametrize(
    "text", ["", "5-12", "See page 4.", "Figure 3", "the of and", "\u6c11\u7528\u822a\u7a7a\u5668"]
)
def test_too_little_says_nothing(text):
    assert guess([text]) == [()]


def test_a_list_of_titles_is_no_content():
    contents = "Brake Systems .... 13-1\nFuel Systems .... 14-1\nPropellers .... 7-1\nOil Systems .... 6-1"
    assert is_listing(contents)
    assert guess([contents]) == [()]


def test_a_cited_number_is_no_feature():
    """Else a model that learns from reports which cite a manual would learn to read the citation."""
    assert features_of("replaced seal iaw AMM 32-41-00") == features_of("replaced seal iaw [REF]")
    assert features_of("per srm 53 - [REF]") == features_of("per [REF]")
    assert "32" not in " ".join(words_of("ATA 32 brakes, chapter 32, 3241"))


def test_guesses_are_ordered_and_explained():
    (said,) = guess(["Service the nose gear shock strut with hydraulic fluid; check the brake discs."])
    assert said[0].chapter == "32"
    assert [each.confidence for each in said] == sorted((each.confidence for each in said), reverse=True)
    assert all(POSSIBLE <= each.confidence < 1 for each in said)
    assert all(is_chapter(each.chapter) for each in said)
    assert set(said[0].words) & {"brake", "gear", "nose gear", "shock strut", "strut", "nose"}


def test_the_same_text_gets_the_same_answer_in_another_process():
    text = "Replace the brake lining. The parking brake cable has slack."
    script = f"from indexer.tagging.inference import guess; print(guess([{text!r}]))"
    runs = {
        subprocess.run(
            [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True,
            env={"PYTHONHASHSEED": str(number)},
        ).stdout
        for number in (1, 2)
    }  # fmt: skip
    assert runs == {f"{guess([text])}\n"}


def test_the_stored_model_was_trained_on_the_data_and_the_code_that_are_here():
    levels = json.loads((ROOT / "indexer/tagging/model/levels.json").read_text(encoding="utf-8"))
    assert levels["inputs_sha256"] == inputs_hash(), "run python -m tests.training.train_chapters"


def test_the_model_is_plain_arrays():
    path = ROOT / "indexer/tagging/model/chapters.npz"
    assert path.stat().st_size < 4_000_000
    with np.load(path, allow_pickle=False) as stored:
        assert stored["weights"].dtype == np.int8
        assert stored["weights"].shape == (len(model().places), len(model().classes))
        assert (np.diff(stored["measured"]) >= 0).all()
    assert NO_SYSTEM in model().classes
    assert "14" not in model().classes  # JASC hardware: no chapter of ATA Spec 100


def test_the_card_says_what_was_measured():
    """The numbers of the model card are those of the benchmark's latest kept run."""
    run = sorted((ROOT / "tests/bench/runs").glob("*-inference.json"))[-1]
    result = json.loads(run.read_text(encoding="utf-8"))
    card = (ROOT / "indexer/tagging/model/MODEL_CARD.md").read_text(encoding="utf-8")
    for source in ("held-out narratives", "held-out reports"):
        for name in ("top1", "top3", "calibration_error", "likely_precision"):
            assert f"{result[source][name]:.3f}" in card, f"{source}: {name}"
    assert result["levels"] == {"likely": LIKELY, "possible": POSSIBLE}


def test_labelled_prose_is_well_formed():
    with (ROOT / "tests/bench/data/prose_labels.csv").open(encoding="utf-8", newline="") as table:
        rows = list(csv.DictReader(table))
    assert len(rows) >= 150
    for row in rows:
        for chapter in row["chapters"].split() + row["also"].split():
            assert chapter in ("none", "00") or is_chapter(chapter)
        assert len(row["opening"]) <= 48


def passage(ordinal: int, text: str, *headings: str, pdf_page: int = 1) -> Passage:
    return Passage(ordinal, pdf_page, (), headings, text, PassageKind.TEXT)


def own(number: str, title: str) -> OwnSection:
    return OwnSection(ChapterNumber(number, scheme=Scheme.OWN), title, ())


GEAR = [
    passage(0, "Pull the wheel and pack the bearings. The wheel carries the brake drum."),
    passage(1, "Reline the brake shoes. Bevel the ends of each lining."),
    passage(2, "Draw the nut up and back it off one sixth of a turn."),
]


def test_a_section_speaks_for_a_passage_that_says_nothing_itself():
    sections = dict.fromkeys((0, 1, 2), own("V", "LANDING GEAR, WHEELS AND BRAKES"))
    numbers = inferred_numbers(Type.SERVICE_MANUAL, GEAR, sections)
    assert [str(numbers[each][0].value) for each in (0, 1, 2)] == ["32", "32", "32"]
    assert numbers[0][0].evidence.rule == FROM_TEXT
    assert numbers[2][0].evidence.rule == FROM_SECTION
    assert 2 not in inferred_numbers(Type.SERVICE_MANUAL, GEAR, {})


def test_a_servicing_paragraph_on_brakes_is_servicing_and_landing_gear():
    """TRADE practice: many-to-many."""
    text = "Fill the brake master cylinder with brake fluid to the filler hole."
    numbers = inferred_numbers(
        Type.SERVICE_MANUAL, [passage(0, text, "BRAKE FLUID")], {0: own("II", "SERVICING")}
    )
    assert {str(tag.value) for tag in numbers[0]} == {"12", "32"}


def test_a_section_of_many_subjects_votes_for_none():
    subjects = [
        "Check the alternator belt and the battery electrolyte.",
        "Clean the fuel strainer bowl and drain the fuel tank.",
        "Adjust the aileron cables and the elevator trim tab.",
        "Put the cotter in and bend it.",
    ]
    passages = [passage(place, text) for place, text in enumerate(subjects)]
    numbers = inferred_numbers(
        Type.SERVICE_MANUAL, passages, dict.fromkeys(range(4), own("XX", "MISCELLANEOUS"))
    )
    assert [str(numbers[each][0].value) for each in range(3)] == ["24", "28", "27"]
    assert 3 not in numbers


def test_what_is_inferred_carries_its_evidence():
    numbers = inferred_numbers(Type.SERVICE_MANUAL, GEAR, {})
    tag = numbers[1][0]
    assert tag.evidence.basis is Basis.INFERRED
    assert tag.evidence.pdf_page == 1
    assert POSSIBLE <= tag.evidence.confidence < 1
    assert set(tag.evidence.quote.split("; ")) <= set(features_of(GEAR[1].text))


def test_papers_about_rules_are_not_asked():
    assert inferred_numbers(Type.REGULATION, GEAR, {}) == {}


def test_order_of_passages_is_nothing():
    sections = dict.fromkeys((0, 1, 2), own("V", "LANDING GEAR"))
    assert inferred_numbers(None, GEAR, sections) == inferred_numbers(None, GEAR[::-1], sections)


def test_telling_words_stand_in_the_text():
    place = model().classes.index("32")
    assert set(telling_words(GEAR[1].text, place)) <= set(features_of(GEAR[1].text))
