"""Questions in a mechanic's words, and what else is looked for. Common practice, no source."""

import datetime

import pytest

from indexer.library.records import ShopWord
from server.question import parse_question
from server.wording import MOST_OTHERS, Source, wording_of


def also(text, **more):
    """Typed words -> the set of what else is looked for."""
    found = {}
    for each in wording_of(parse_question(text), **more).also:
        found.setdefault(" ".join(each.words), set()).update(each.others)
    return found


@pytest.mark.parametrize(
    ("typed", "words", "others"),
    [
        ("jug", "jug", {"cylinder assembly", "cylinder barrel"}),
        ("pull the jugs", "jugs", {"cylinder assembly", "cylinder barrel"}),
        ("cylinder assembly torque", "cylinder assembly", {"jug", "pot"}),
        ("tail wheel shimmy", "tail wheel", {"tailwheel", "tail landing gear"}),
        ("tailwheel", "tailwheel", {"tail wheel", "tail landing gear"}),
        ("tail-wheel", "tail-wheel", {"tailwheel", "tail landing gear"}),
        ("Tail Wheels", "Tail Wheels", {"tailwheel", "tail landing gear"}),
        ("tail landing gear", "tail landing gear", {"tail wheel", "tailwheel"}),
        ("squat switch", "squat switch", {"weight-on-wheels switch", "ground safety switch"}),
        ("squat switches rigging", "squat switches", {"weight-on-wheels switch", "ground safety switch"}),
        ("WOW switch", "WOW switch", {"weight-on-wheels switch", "ground safety switch"}),
        (
            "weight on wheels switch",
            "weight on wheels switch",
            {"squat switch", "WOW switch", "air/ground switch"},
        ),
        ("oleo leaking", "oleo", {"shock strut", "shock absorber"}),
        ("oleo strut service", "oleo strut", {"shock strut", "shock absorber"}),
        ("shock strut seal", "shock strut", {"oleo", "oleo strut"}),
        ("wheel pants", "wheel pants", {"wheel fairing"}),
        ("wheel fairing", "wheel fairing", {"wheel pants", "wheel spat"}),
        ("nose wheel shimmy", "nose wheel", {"nose gear", "nose landing gear"}),
        ("nose gear", "nose gear", {"nose wheel", "nose landing gear"}),
        ("scissors worn", "scissors", {"torque link"}),
        ("scissor link bushing", "scissor link", {"torque link"}),
        ("nutcracker", "nutcracker", {"torque link"}),
        ("torque link play", "torque link", {"scissors", "scissor link", "nutcracker"}),
        ("MLG door", "MLG", {"main landing gear"}),
        ("L/G retract", "L/G", {"landing gear"}),
        ("brake pads", "brake pads", {"brake lining"}),
        ("puck thickness", "puck", {"brake lining"}),
        ("brake linings", "brake linings", {"puck", "brake pad"}),
        ("brake caliper", "brake caliper", {"brake assembly", "brake cylinder housing"}),
        ("brake rotor", "brake rotor", {"brake disc"}),
        ("cotter pin", "cotter pin", {"split pin"}),
        ("split pins", "split pins", {"cotter", "cotter pin"}),
        ("lock wire", "lock wire", {"lockwire", "safety wire", "safetying"}),
        ("safety wire", "safety wire", {"lockwire", "safetying", "lock wire"}),
        ("castle nut", "castle nut", {"castellated nut"}),
        ("nyloc nut", "nyloc", {"self-locking nut"}),
        ("Dzus", "Dzus", {"quarter-turn fastener", "cowl fastener"}),
        ("pop rivets", "pop rivets", {"blind rivet"}),
        ("heim joint", "heim joint", {"rod end bearing", "rod end"}),
        ("bell crank", "bell crank", {"bellcrank"}),
        ("jackscrew", "jackscrew", {"screw actuator", "actuator"}),
        ("stabilator", "stabilator", {"horizontal stabilizer", "all-flying tail"}),
        ("horizontal stabilizer", "horizontal stabilizer", {"stabilator", "all-flying tail", "tailplane"}),
        ("tailplane hinge", "tailplane", {"horizontal stabilizer"}),
        ("windscreen crack", "windscreen", {"windshield"}),
        ("windshield", "windshield", {"windscreen"}),
        ("fin", "fin", {"vertical stabilizer"}),
        ("plexi repair", "plexi", {"acrylic", "transparency"}),
        ("bonnet latch", "bonnet", {"engine cowling", "nacelle cowl"}),
        ("mag timing", "mag", {"magneto"}),
        ("mags", "mags", {"magneto"}),
        ("magneto", "magneto", {"mag"}),
        ("P-lead", "P-lead", {"primary lead", "magneto ground lead"}),
        ("carb heat", "carb heat", {"carburetor air heat", "alternate air"}),
        ("carb float", "carb", {"carburetor"}),
        ("shower of sparks", "shower of sparks", {"induction vibrator", "starting vibrator"}),
        ("gascolator", "gascolator", {"fuel strainer", "fuel filter bowl"}),
        ("boost pump", "boost pump", {"auxiliary fuel pump"}),
        ("fuel sender", "fuel sender", {"fuel quantity transmitter", "fuel quantity sensor"}),
        ("bladder leak", "bladder", {"fuel cell"}),
        ("wet wing", "wet wing", {"integral fuel tank"}),
        ("turbo", "turbo", {"turbocharger"}),
        ("exhaust stack crack", "exhaust stack", {"exhaust riser", "collector", "tailpipe"}),
        ("vernatherm", "vernatherm", {"oil temperature control valve", "thermostatic bypass valve"}),
        ("oil radiator", "oil radiator", {"oil cooler"}),
        ("prop governor", "prop", {"propeller"}),
        ("hot prop", "hot prop", {"propeller anti-ice/de-ice"}),
        ("starter generator", "starter generator", set()),
        ("master relay", "master relay", {"battery contactor", "master contactor"}),
        ("static wick", "static wick", {"static discharger"}),
        ("ELT battery", "ELT", {"emergency locator transmitter"}),
        ("whiskey compass", "whiskey compass", {"magnetic compass"}),
        ("vac pump", "vac pump", {"vacuum pump", "air pump"}),
        ("EGT probe", "EGT", {"exhaust gas temperature"}),
        ("nav lights", "nav lights", {"position lights", "navigation lights"}),
        ("stall horn", "stall horn", {"stall warning system", "lift detector"}),
        ("mag particle", "mag particle", {"magnetic particle inspection"}),
        ("op check", "op check", {"operational test", "operational check"}),
        ("R&R tire", "R&R", {"R/R", "removal and installation", "remove and replace"}),
        ("100-hour", "100-hour", {"inspection", "scheduled maintenance checks"}),
        ("TSO time", "TSO time", {"time since overhaul"}),
        ("brkt assy", "brkt", {"bracket"}),
    ],
)
def test_a_mechanics_question_is_looked_for_in_the_manuals_words_too(typed, words, others):
    assert also(typed).get(words, set()) == others


@pytest.mark.parametrize(
    ("typed", "words", "others"),
    [
        ("level the aircraft", "level", {"leveling"}),  # a job
        ("oil level", "level", set()),  # no job
        ("points gap", "points", {"breaker contacts", "contact assembly"}),
        ("replace points", "points", {"breaker contacts", "contact assembly"}),
        ("attach points", "points", set()),
        ("attach point", "point", set()),
        ("drain plugs", "plugs", set()),
        ("check belts", "belts", {"restraint", "shoulder harness"}),
        ("alternator belts", "belts", set()),
        ("jack the wing", "jack", {"jacking", "lifting"}),
    ],
)
def test_an_everyday_word_is_widened_only_where_nothing_before_it_says_which(typed, words, others):
    assert also(typed).get(words, set()) == others


@pytest.mark.parametrize(
    "typed",
    ['"jug"', '"tail wheel"', '"squat switch" "cotter pin"', "tire -jug", 'tire -"tail wheel"', '"TR"'],
)
def test_nothing_in_quotes_or_behind_a_minus_is_widened(typed):
    found = wording_of(parse_question(typed), forms=lambda word: ())
    assert "jug" not in also(typed) and found.also == () and found.could_mean == ()


@pytest.mark.parametrize("typed", ["zeppelin", "landing", "32-41-00", "MS20470-4", "tie bolt"])
def test_other_words_are_left_as_they_are(typed):
    assert wording_of(parse_question(typed)).for_engine == ()


def test_the_longest_term_wins_and_its_parts_are_left():
    assert set(also("torque tube")) == {"torque tube"}  # neither torque nor tube
    assert set(also("mag particle")) == {"mag particle"}  # not mag
    assert set(also("cowl flap")) == set()  # a term of its own: no cowl
    assert set(also("mag -particle timing")) == {"mag"}
    assert set(also('tail "x" wheel')) == set()  # the words stand apart


def test_one_step_only():
    for typed in ("jug", "rod end", "safety wire", "cotter", "fuel servo"):
        step = {other for others in also(typed).values() for other in others}
        for other in step:
            further = {each for others in also(other).values() for each in others} - step - {typed}
            assert not further & step


def test_no_word_floods_the_answer():
    from indexer.trade.thesaurus import thesaurus

    for entry in thesaurus():
        for each in wording_of(parse_question(entry.term)).also:
            assert len(each.others) <= MOST_OTHERS and 0 < each.weight < 1


def shop_word(term, *manual_terms):
    return ShopWord(1, term, manual_terms, "", "R. Quill", datetime.datetime.now(datetime.UTC))


def test_the_shops_list_stands_before_the_thesaurus_and_decides_what_its_words_mean():
    donut = shop_word("donut", "rubber shock disc")
    assert also("donut", shop_words=[donut]) == {"donut": {"rubber shock disc"}}
    assert also("rubber shock discs", shop_words=[donut]) == {"rubber shock discs": {"donut"}}
    told = wording_of(parse_question("TR"), [shop_word("TR", "tow rod")])
    assert told.could_mean == () and told.also[0].others == ("tow rod",)
    both = wording_of(parse_question("jug"), [shop_word("jug", "barrel")]).also
    assert [each.source for each in both] == [Source.SHOP_LIST, Source.THESAURUS]


def test_word_forms_are_looked_for_beside():
    found = wording_of(parse_question("torqued"), forms={"torqued": ("torque", "torquing")}.get).also
    assert found[-1].source is Source.WORD_FORM and found[-1].others == ("torque", "torquing")


@pytest.mark.parametrize(
    ("typed", "chapters", "taken"),
    [
        ("TR 32-07", (), "temporary revision"),
        ("TR", ("78",), "thrust reverser"),
        ("TR bus volts", (), "transformer rectifier"),
        ("MP gauge", (), "manifold pressure"),
        ("AD 2031-07-11", (), "airworthiness directive"),
        ("SB 32-0114", (), "service bulletin"),
        ("MM 32-41", (), "maintenance manual"),
        ("lining wear MM", (), "millimeter"),
        ("TR", (), ""),
        ("SB wing", (), ""),
        ("TSO", (), ""),
    ],
)
def test_colliding_abbreviations_are_told_apart_or_asked(typed, chapters, taken):
    (told,) = wording_of(parse_question(typed), chapters=chapters).could_mean
    assert told.taken == taken
    looked = [
        each for each in wording_of(parse_question(typed), chapters=chapters).also if told.word in each.words
    ]
    if taken:
        assert told.why and looked[0].others[0] == taken
    else:
        assert set(looked[0].others) == {choice.meaning for choice in told.choices}
        assert looked[0].weight < 0.2


def test_a_choice_writes_the_meaning_out():
    (told,) = wording_of(parse_question("TR wiring, left")).could_mean
    assert "thrust reverser wiring, left" in {choice.question for choice in told.choices}
