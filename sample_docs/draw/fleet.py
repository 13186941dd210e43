"""The invented fleet: makers, types, people and offices. None of them exists."""

MAKER_TWIN = "Aldermoor Aircraft Corporation"
TWIN = "QZ62"
TWIN_SURVEY = "QZ62S"
TWIN_NAME = "Ouzel"

MAKER_SINGLE = "Pellworth Aeroplane Company"
SINGLE = "H-14"
SINGLE_B = "H-14B"
SINGLE_NAME = "Hedgeling"

MAKER_RETRACTABLE = "Tollerby Aircraft Works"
RETRACTABLE = "WT-5"
RETRACTABLE_NAME = "Whinchat"

OFFICE = "Northlake Aircraft Certification Office"
OFFICE_MANAGER = "Odalys T. Brannigan-Rook"
MAKER_ENGINEER = "P. Quenneville-Stott"
