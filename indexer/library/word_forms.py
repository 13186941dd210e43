"""Other forms of a word that a library holds: torqued, torque, torquing; removal, remove, removed. Pure.

Folding does not stem (folding.py says why), so a question for "torqued" would miss "torque". These forms are
looked for beside the word, for less score. Only forms that the library holds are given, so a rule may be
generous; but a part is not what is done with it: fitting is not fit, lining not line, and no form is made of
such names. English only; from common knowledge of the language, no source.
"""

from collections.abc import Callable, Iterator

from indexer.library.folding import singular

# What is done, and every further form that the rules below do not make.
_FAMILIES = [
    line.split()
    for line in """
    adjust adjustment
    align alignment
    alter alteration
    apply application
    approve approval
    attach attachment
    bend bent
    bind bound
    bleed bled
    break broke broken breakage
    burn burnt
    calibrate calibration
    certify certification
    comply compliance
    contaminate contamination
    corrode corrosion
    deflect deflection
    deform deformation
    delaminate delamination
    detect detection
    disassemble disassembly
    discharge
    disconnect disconnection
    distort distortion
    erode erosion
    expand expansion
    extend extension
    fail failure
    fluctuate fluctuation
    freeze froze frozen
    identify identification
    illuminate illumination
    indicate indication
    inspect inspection
    install installation
    leak leakage leaky
    lose lost loss
    lubricate lubrication
    measure measurement
    misalign misalignment
    modify modification
    obstruct obstruction
    operate operation
    oscillate oscillation
    penetrate penetration
    pressurize pressurization
    protect protection
    reassemble reassembly
    remove removal
    replace replacement
    restrict restriction
    retract retraction
    rotate rotation
    seize seizure
    separate separation
    shake shook shaken
    shut
    stick stuck
    store storage
    tear tore torn
    terminate termination
    ventilate ventilation
    vibrate vibration
    wear wore worn
    """.strip().splitlines()
]
_FAMILY = {form: family for family in map(tuple, _FAMILIES) for form in family}
# Names of parts and other words that only look like forms of a verb.
_NAMES = frozenset(
    """bearing bushing casing ceiling coating coupling cowling cladding during evening fairing
    fitting flooring heading housing landing lining locking mooring mounting opening padding piping
    plumbing railing rating sling spacing spring steering string tubing warning webbing wing wiring
    hundred shed speed feed need seed reed weed embed""".split()
)
_VOWELS = "aeiouy"
_SHORTEST = 3  # letters of a verb


def word_forms(word: str, known: Callable[[str], bool]) -> tuple[str, ...]:
    """Other forms of `word` for which `known` says that they occur, in alphabetical order; () for a name or a
    number.

    word   as typed
    known  whether the library holds a word, as FullText.knows
    """
    asked = singular(word.casefold())
    if not asked.isalpha() or asked in _NAMES:
        return ()
    bases = list(dict.fromkeys(_bases(asked)))
    held = [base for base in bases if base in _FAMILY or known(base)]
    forms = {form for base in held or bases for form in _forms(base)} - {asked} - _NAMES
    return tuple(sorted(form for form in forms if known(form)))


def is_spelled_as_form(word: str) -> bool:
    """Whether `word` is spelled as a form of some verb would be: lining, rigged; not lineing."""
    asked = singular(word.casefold())
    return any(asked in _forms(base) for base in _bases(asked))


def _bases(word: str) -> Iterator[str]:
    """What the word may be a form of; itself when it looks like none."""
    if word in _FAMILY:
        yield _FAMILY[word][0]
        return
    for ending in ("ing", "ed"):
        stem = word.removesuffix(ending)
        if stem == word or len(stem) < 2 or not any(letter in _VOWELS for letter in stem):
            continue
        if stem.endswith("i") and ending == "ed":
            yield f"{stem[:-1]}y"  # modified
            return
        doubled = len(stem) > _SHORTEST and stem[-1] == stem[-2] and stem[-1] not in _VOWELS
        for base in (stem, f"{stem}e", *([stem[:-1]] if doubled else [])):
            if len(base) >= _SHORTEST:
                yield base
        return
    yield word


def _forms(base: str) -> Iterator[str]:
    """The base, its regular forms and those of its family."""
    if len(base) < _SHORTEST:
        return
    yield from _FAMILY.get(base, ())
    yield base
    if base.endswith("e"):
        yield f"{base}d"
        yield f"{base if base.endswith(('ee', 'oe', 'ye')) else base[:-1]}ing"
    elif base.endswith("y") and base[-2] not in _VOWELS:
        yield f"{base[:-1]}ied"
        yield f"{base}ing"
    else:
        yield f"{base}ed"
        yield f"{base}ing"
        if base[-1] not in f"{_VOWELS}wx" and base[-2] in _VOWELS and base[-3] not in _VOWELS:
            yield f"{base}{base[-1]}ed"  # rigged
            yield f"{base}{base[-1]}ing"
