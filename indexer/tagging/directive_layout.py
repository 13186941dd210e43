"""Where the parts of an airworthiness directive stand: preamble, number line, lettered paragraphs.

Layout: the Federal Register's form since about 2005, "(a) Effective Date", "(b) Affected ADs",
"(c) Applicability", "(d) Subject" ...; the heading stands on the line of the letter, runs into the
text after it, or stands alone on the line above.
"""

import re
from dataclasses import dataclass
from itertools import pairwise

from indexer.tagging.flow import Flow

_KNOWN_HEADING = re.compile(
    r"effective date|comments due date|affected ads?\b|affected airworthiness|applicability|subject\b"
    r"|reason\b"
    r"|unsafe condition|compliance\b|required actions?|requirements?\b|credit for|alternative methods? of"
    r"|other faa ad provisions|additional (?:faa )?ad provisions|special flight permit|related information"
    r"|additional information|material incorporated by reference|parts installation|no reporting"
    r"|definitions?\b"
    r"|exceptions?\b|corrective actions?|inspections?\b|retained|new requirement",
    re.IGNORECASE,
)
_LETTERED = re.compile(r"^[ \t]*\(([a-z]{1,2})\)(?:[ \t]+|(?=\(\d))(\S[^\n]*)", re.MULTILINE)
# Headings as questions, small airplanes, about 2000 to 2006 (from memory), and what each is called elsewhere.
_QUESTION = re.compile(
    r"\s*((?:What|When|Who|Where|How|Can|May|Are|Is|Do|Does)\b[^?\n]{5,130}\?)(?:\s+|$)", re.IGNORECASE
)
_ASKED = tuple(
    (name, re.compile(words, re.IGNORECASE))
    for name, words in (
        ("Effective Date", r"\bbecome effective|\beffective date"),
        (
            "Affected ADs",
            r"\bADs? (?:are|is) affected|affect any (?:existing|other)|existing AD actions|other ADs?\b",
        ),
        (
            "Applicability",
            r"(?:airplanes|products|aircraft|gliders|sailplanes|engines|propellers|models)\b.*\b(?:affected|affect|apply)",
        ),
        ("Unsafe Condition", r"unsafe condition|what problem"),
        ("Alternative Methods of Compliance", r"alternative method|different method|in any other way"),
        ("Material Incorporated by Reference", r"incorporat\w+.*\bby reference|by reference\b"),
        ("Special Flight Permit", r"need to fly|special flight|fly the (?:air|sail|glid)"),
        ("Required Actions", r"must I (?:do|accomplish)|actions must|must be (?:done|accomplished)"),
        ("Compliance", r"who must comply|\bcomply with this AD"),
        ("Related Information", r"information|copies|documents"),
    )
)
_SMALL_WORDS = {
    "a",
    "an",
    "and",
    "as",
    "at",
    "by",
    "for",
    "from",
    "in",
    "of",
    "on",
    "or",
    "the",
    "to",
    "with",
}
_TITLE = re.compile(r"^[ \t]*Airworthiness Directives?;\s", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One lettered paragraph. flow.text[start:end] is its body, after the heading.

    letter   "g"
    heading  "Required Actions"; "" when none is printed
    opening  where the letter, or the heading above it, begins
    """

    letter: str
    heading: str
    opening: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class _Candidate:
    letter: str
    heading: str
    opening: int
    start: int
    weight: int


def first_directive(flow: Flow) -> tuple[int, int]:
    """Start and end in the flow of the first directive; a register page may hold the next one's beginning."""
    titles = [found.start() for found in _TITLE.finditer(flow.plain_lines)]
    for start, following in pairwise([*titles, len(flow.text)]):
        if _chain(flow, start, following):
            return start, following
    return 0, titles[1] if len(titles) > 1 else len(flow.text)


def has_register_title(flow: Flow) -> bool:
    """Whether a line begins the register's title of a directive: "Airworthiness Directives; ..."."""
    return _TITLE.search(flow.plain_lines) is not None


def lettered_paragraphs(flow: Flow, start: int, end: int) -> tuple[Paragraph, ...]:
    """The lettered paragraphs in flow.text[start:end], in order; () when the form is not the lettered one."""
    chain = _chain(flow, start, end)
    if not any(_named(link.heading, "applicability") for link in chain):
        return ()
    ends = [*(link.opening for link in chain[1:]), end]
    return tuple(
        Paragraph(link.letter, link.heading, link.opening, link.start, stop)
        for link, stop in zip(chain, ends, strict=True)
    )


def paragraph_named(paragraphs: tuple[Paragraph, ...], *words: str) -> Paragraph | None:
    """The first paragraph whose heading begins with one of these words."""
    return next((each for each in paragraphs if any(_named(each.heading, word) for word in words)), None)


def _named(heading: str, word: str) -> bool:
    return heading.casefold().startswith(word)


def _chain(flow: Flow, start: int, end: int) -> list[_Candidate]:
    """The weightiest run of letters in order: a sub-paragraph (i) must not pass for paragraph (i).

    A letter may be missing where columns were read out of order; each costs a little.
    """
    ending_here: list[tuple[int, list[_Candidate]]] = []
    answer: tuple[int, list[_Candidate]] = (0, [])
    for candidate in _candidates(flow, start, end):
        chains = [(candidate.weight, [candidate])] if candidate.letter == "a" else []
        for weight, links in ending_here:
            missing = _place(candidate.letter) - _place(links[-1].letter) - 1
            if 0 <= missing <= 2:
                chains.append((weight + candidate.weight - missing, [*links, candidate]))
        if not chains:
            continue
        best = max(chains, key=lambda chain: chain[0])
        ending_here.append(best)
        answer = max(answer, best, key=lambda chain: chain[0])
    return answer[1]


def _place(letter: str) -> int:
    """a = 0 ... z = 25, aa = 26 ..."""
    return ord(letter[-1]) - ord("a") + 26 * (len(letter) - 1)


def _candidates(flow: Flow, start: int, end: int) -> list[_Candidate]:
    found = []
    for match in _LETTERED.finditer(flow.plain_lines, start, end):
        letter, rest = match.group(1), match.group(2)
        above = (
            flow.plain_lines[max(start, match.start() - 120) : match.start()].rstrip("\n").rsplit("\n", 1)[-1]
        )
        heading, after = _heading_in(rest)
        asked = _question_above(flow, start, match.start())
        running_in = _QUESTION.match(flow.plain, match.start(2), min(end, match.start(2) + 160))
        if asked:
            found.append(_Candidate(letter, asked[0], asked[1], match.start(2), 4))
        elif running_in and (name := _called(running_in[1])):
            found.append(_Candidate(letter, name, match.start(), running_in.end(), 4))
        elif heading and _KNOWN_HEADING.match(heading):
            found.append(_Candidate(letter, heading, match.start(), match.start(2) + after, 4))
        elif (known := _KNOWN_HEADING.match(above.strip()) and len(above) < 80) or _stands_above(above, rest):
            opening = match.start() - len(above) - 1
            weight = 4 if known else 1
            found.append(_Candidate(letter, above.strip(), max(opening, start), match.start(2), weight))
        elif heading:
            found.append(_Candidate(letter, heading, match.start(), match.start(2) + after, 2))
    return found


def _stands_above(line: str, after_letter: str) -> bool:
    """Whether a line may be a heading above its letter: "Repetitive Inspections", and a sentence follows."""
    words = line.strip()
    heading = 4 < len(words) < 80 and words[0].isupper() and words[-1].isalpha() and _title_case(words)
    return heading and after_letter[:1].isupper()


def _question_above(flow: Flow, start: int, place: int) -> tuple[str, int] | None:
    """(what it is called, where it begins) of a question on the one or two lines above a letter."""
    lines = flow.plain_lines[max(start, place - 200) : place].rstrip("\n").split("\n")[-2:]
    if not lines[-1].rstrip().endswith("?"):
        return None
    for count in (1, 2):
        asked = _QUESTION.fullmatch(" ".join(lines[-count:]))
        if asked and (name := _called(asked[1])):
            return name, max(start, place - len("\n".join(lines[-count:])) - 1)
    return None


def _called(question: str) -> str:
    """What a heading that is a question is called elsewhere; "" = not known."""
    return next((name for name, words in _ASKED if words.search(question)), "")


def _heading_in(line: str) -> tuple[str, int]:
    """The heading at the start of a lettered line and where the text after it begins; ("", 0) for running
    text."""
    run_in = re.match(r"([A-Z][^.:\n]{2,90}?)[.:](?:\s+(?=\S)|$)", line)
    if run_in and _KNOWN_HEADING.match(run_in.group(1)) and _title_case(run_in.group(1)):
        return run_in.group(1), run_in.end()
    if len(line) <= 110 and not line.rstrip().endswith((".", ";", ",")) and _title_case(line):
        return line.strip(), len(line)
    return "", 0


def _title_case(text: str) -> bool:
    words = [
        word
        for word in re.findall(r"[A-Za-z][\w'/-]*", text.replace("(s)", ""))
        if word.lower() not in _SMALL_WORDS
    ]
    return bool(words) and sum(word[0].isupper() for word in words) >= 0.75 * len(words)
