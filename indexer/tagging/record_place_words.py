"""The words and values by which records tell a place in a source, its revision and its date; as patterns.

Common practice, no source. Flat text, small and capital letters alike.
"""

import re

from indexer.tagging.reference_words import spaced

BETWEEN = re.compile(r"[ ]{0,3}[,/(:.)#-]{0,2}[ ]{0,3}(?:see[ ](?=p|fig|para|sect|ch))?", re.IGNORECASE)
_BOUND = r"(?![A-Za-z0-9])"
_NO = r"(?: ?(?:no|number|nbr)\b\.?)?"
REVISION = spaced(
    r"(?:(?:at|thru|through|incl(?:uding)?\.?|up to|to|with|w/) ?)?"
    r"(?:(?:revision|issue|change|amendment|edition|version)(?![a-z])|rev(?!s\b)\.?|chg\.?"
    r"|(?:iss|amdt|ver)\b\.?|ed\b\.)"
    rf"(?: ?(?:level|letter|ltr"
    rf"|date)\b\.?)?{_NO}(?:[ .:#]{{0,3}}|-(?=[A-Z0-9]))"
    rf"(?P<mark>orig(?:inal)?\b\.?(?: (?:issue|release|iss))?|N/?C{_BOUND}|basic|initial"
    rf"(?: (?:issue|release))?"
    rf"|[0-9]{{1,4}}[A-Z]?{_BOUND}|[A-Z]{{1,2}}{_BOUND}|[IVX]{{1,5}}{_BOUND}|-(?= |$|[,;)]))(?![/-]\w)"
)
ORIGINAL = spaced(
    r"(?:orig(?:inal)?|initial|basic)\b\.? (?:issue|iss|release|rev(?:ision)?)\b\.?|original(?![\w])"
    r"|orig\b\.?(?= ?(?:[,;)]|$|and |& |dtd|dated|[0-9]))"
)
SHORT = spaced(r"R[. -]{0,2}(?P<mark>[0-9]{1,2})(?![\w-])(?!\.[0-9])(?!/[A-Za-z])")
CURRENT = spaced(
    r"(?:(?:at )?(?:the )?(?:latest|current|most recent|most current)(?: FAA)?(?: approved)?"
    r" (?:rev(?:ision)?s?|issue|version|edition|change)(?: level)?(?![\w])|rev(?:ision)?\.? (?:level )?"
    r"(?:current|latest)(?![\w]))"
)
NO_MARK = frozenset("is to of at in on by as or if no an it we up do".split())
DATED = spaced(r"(?:(?:rev(?:ision)?\.?,? )?(?:dated?|dtd|of|date of)|issued|revised(?: on)?)[ .:]{0,3}")
_GROUPS = (
    r"(?P<a>[0-9]{2})(?:[ ]?-[ ]?(?P<b>[0-9]{2})(?:[ ]?-[ ]?(?P<c>[0-9]{2}))?"
    r"|\.(?P<b1>[0-9]{2})\.(?P<c1>[0-9]{2})|[ ](?P<b2>[0-9]{2})[ ](?P<c2>[0-9]{2})"
    r"|(?P<b3>[0-9]{2})(?P<c3>[0-9]{2})(?![0-9./]))"
)
_TASK = r"[ ]?-[ ]?(?P<task>[0-9][0-9A-HJ-NP-Z]{2}-[0-9]{2}[0-9A-Z](?:-[0-9A-Z]{1,3})?)(?![\w-])"
_CHAPTER_WORD = (
    r"(?:(?:ATA|chapters?|chaps?\b\.?|ch\.?|subjects?|tasks?|sub-?tasks?|sections?"
    r"|sect?s?\b\.?|part\b|items?)[ .:#-]{0,3}){0,2}"
)
CHAPTER = spaced(
    rf"(?P<word>{_CHAPTER_WORD}|(?:pages?|pgs?|p)[. ]{{1,2}}){_GROUPS}"
    rf"(?:{_TASK}|-(?P<x>[0-9]{{2}}[A-Z]?)(?:-(?P<y>[0-9]{{1,3}}[A-Z]?))?(?![\w-])|-"
    rf"(?P<pg>[0-9]{{3}})(?![\w-])"
    r"|(?:-[0-9][A-Z0-9]{0,3}){1,2}(?![\w-])|(?![0-9])(?!-[0-9]))"
)
_OWN = r"(?:[0-9]{1,2}(?:[-.][0-9]{1,3})?[A-Z]?|[IVXL]{1,6})"
OWN_CHAPTER = spaced(
    rf"(?P<word>ATA|chapters?|chap\b\.?|ch'?s\b|ch\.?|sections?|sect?\b\.?|secs\b\.?)[ .:#]{{0,3}}"
    rf"(?P<value>{_OWN}){_BOUND}(?!-[0-9]{{3}})(?!\.[0-9])"
    rf"(?:[ ,]{{1,3}}(?:sections?|sect?\b\.?)[ .#]{{0,3}}(?P<section>{_OWN}){_BOUND}"
    rf"(?P<until> ?(?:thru|through|to|-|and|&|,) ?{_OWN}{_BOUND})?"
    rf"(?:[ ,]{{1,3}}(?:subjects?|subj\b\.?|sub)[ .#]{{0,3}}(?P<subject>[0-9]{{2}}){_BOUND})?)?"
)
# "Sect. 4 of ch. 2", smaller before larger.
SECTION_FIRST = spaced(
    rf"(?:sections?|sect?\b\.?)[ .#]{{0,3}}(?P<section>{_OWN}){_BOUND},? (?:of |in )?"
    rf"(?:chapter|chap\b\.?|ch\b\.?)[ .#]{{0,3}}(?P<value>{_OWN}){_BOUND}(?!-[0-9])"
)
_PAGE_VALUE = (
    r"(?:[0-9]{2}-[0-9]{2}-[0-9]{1,3}(?!-)"
    r"|(?:(?:[A-Z]{1,4}|[IVX]{1,5})-)?[0-9]{1,5}(?:[-.][0-9]{1,4})?[A-Z]?)"
)
PAGE = spaced(
    rf"(?:page ?blocks?|pages?|pgs?|pp|p/b|pb|p)\.?{_NO}[ .#:]{{0,3}}(?P<list>"
    rf"(?P<value>[0-9]{{1,4}})(?P<range> ?(?:-|/|thru|through|to) ?(?=[0-9]{{3}}))"
    rf"(?P<last>[0-9]{{3,4}}){_BOUND}|(?P<one>{_PAGE_VALUE}){_BOUND}(?:(?: ?- ?| thru "
    rf"| through | to )(?P<until>{_PAGE_VALUE}){_BOUND})?)(?![-.][0-9])"
)
SLASH_PAGE = spaced(r" ?/ ?(?P<value>[0-9]{3,4})(?![\w/-])")
_FIGURE_VALUE = r"(?:[IVX]{1,5}-)?[0-9]{1,4}(?:[-.][0-9]{1,4}){0,3}[A-Z]{0,2}"
FIGURE = spaced(
    rf"(?:figures?|figs?)\.?{_NO}[ .#:]{{0,3}}(?P<one>{_FIGURE_VALUE}){_BOUND}(?:(?: ?- ?"
    rf"| thru | through | to )(?P<until>{_FIGURE_VALUE}){_BOUND})?(?![-.][0-9])"
)
ATTACHED_FIGURE = spaced(r"f(?P<one>[0-9]{1,3})(?P<until>)(?![\w-])")
ITEM = spaced(
    rf"(?:items?|itms?|index(?:es)?|idx|keys?|pos\b\.?){_NO}[ .#:]{{0,3}}"
    rf"(?P<value>[0-9]{{1,4}}[A-Z]?){_BOUND}"
)
ATTACHED_ITEM = spaced(r"i(?P<value>[0-9]{1,3}[A-Z]?)(?![\w-])")
_LETTERS = r"(?: ?\([a-z0-9]{1,4}\)){1,6}"
_PARA_VALUE = (
    rf"(?:(?:[0-9]{{1,4}}|[A-Z])(?:[-.][0-9]{{1,4}}[A-Z]?|\.[A-Z](?![a-z]{{2}})|[A-Z]"
    rf"(?![A-Za-z])){{0,5}}(?:\.?{_LETTERS})?|{_LETTERS})"
)
PARAGRAPH = spaced(
    rf"(?:(?:(?:sub)?paragraphs?|(?:sub)?parag?s?|pars?)(?![A-Za-z])"
    rf"|\u00b6){_NO}\.?[ #:]{{0,3}}(?P<one>{_PARA_VALUE}){_BOUND}"
    rf"(?:\.?(?: ?- ?| thru | through | to )(?P<until>{_PARA_VALUE}){_BOUND})?"
)
BARE_LETTERS = spaced(rf"(?P<one>{_LETTERS})(?![\w])(?P<until>)")
PART = spaced(r"(?P<value>(?:parts?|notes?|appendix|app\.?) ?(?:[0-9]{1,3}|[IVX]{1,4}|[A-H])(?![\w])(?!-\w))")
OWN_PARAGRAPH = spaced(r"(?P<one>[0-9]{1,2}-[0-9]{1,3})(?![\w-])(?!/[0-9])(?P<until>)")
PASSED = spaced(
    rf"(?:sheets?|shts?|sh|steps?|repair|tables?|items?|details?|views?|zones?)\.?{_NO}[ #:]{{0,3}}"
    rf"[0-9]{{1,3}}(?:[-.][0-9]{{1,3}})?(?:\.?[A-Z](?![A-Za-z]))?(?: (?:thru|through|to|&|and) [0-9]{{1,3}})?"
    rf"(?: of [0-9]{{1,2}})?(?![\w-])"
    r"|(?:19|20)[0-9]{2} (?:edition|series|models?|printing)(?![a-z])"
    r"|(?:the )?(?:accomplishment|acc\.?|acc'?t) instr(?:uctions?)?\b\.?(?=,? (?:parts?|para|step))"
    r"|reissued?\b|(?:no|title)\b\.?(?= [0-9])|(?:amdt|amendment)\b\.? ?(?:no\b\.? ?)?39-[0-9]{3,5}(?![\w-])"
)
