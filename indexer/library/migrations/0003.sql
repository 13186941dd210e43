-- Format 3: applicability as printed, page marks, lists of effective pages, the fleet, the revision register, source
-- checks.

-- Models, serials and conditions that the print gives for a place.
CREATE TABLE applicability (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    scope TEXT NOT NULL,
    pdf_page INTEGER, -- NULL = the whole publication
    passage_id TEXT, -- NULL = the page, or the whole publication
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;

-- What pages print of their own state.
CREATE TABLE page_mark (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    number TEXT NOT NULL,
    printed_page TEXT NOT NULL,
    date TEXT, -- NULL = not printed
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, pdf_page)
) WITHOUT ROWID;

-- Lines of lists of effective pages, in printed order.
CREATE TABLE listed_page (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;

-- The shop's aircraft. Every change of a row stands in the history.
CREATE TABLE aircraft (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    registration TEXT NOT NULL UNIQUE, -- capitals, as painted
    maker TEXT NOT NULL,
    model TEXT NOT NULL,
    serial TEXT NOT NULL, -- of the airframe, '' = not known
    note TEXT NOT NULL,
    confirmed_on TEXT NOT NULL, -- when the row was last held against the aircraft
    confirmed_by TEXT NOT NULL
);

-- Engines, propellers, appliances and alterations of an aircraft.
CREATE TABLE fitted (
    aircraft_id INTEGER NOT NULL REFERENCES aircraft ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    kind TEXT NOT NULL,
    position TEXT NOT NULL, -- 'left', '1'; '' = the only one
    maker TEXT NOT NULL,
    model TEXT NOT NULL, -- of an alteration: its number or name
    serial TEXT NOT NULL, -- '' = not known
    note TEXT NOT NULL,
    PRIMARY KEY (aircraft_id, ordinal)
) WITHOUT ROWID;

-- The revision register: what a named person found to be the current revision. A row never changes but for its undoing.
CREATE TABLE revision_check (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    work_id TEXT NOT NULL, -- no foreign key: a check outlives the copies it speaks of
    publication TEXT NOT NULL, -- what the work was called then
    revision TEXT NOT NULL, -- the current one, as printed; '' = told by its date alone
    date TEXT, -- of that revision; NULL = not given
    source TEXT NOT NULL, -- against what it was checked
    checked_on TEXT NOT NULL,
    who TEXT NOT NULL,
    recheck_days INTEGER NOT NULL,
    note TEXT NOT NULL,
    made_at TEXT NOT NULL,
    undone_by TEXT NOT NULL, -- '' = not undone
    undone_why TEXT NOT NULL
);
CREATE INDEX revision_check_work ON revision_check (work_id);

-- Source checks: what was asked, and all that was answered. Append only.
CREATE TABLE source_check (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    text TEXT NOT NULL,
    aircraft TEXT NOT NULL, -- registration, '' = none
    work TEXT NOT NULL, -- class of work, '' = not said
    generation INTEGER NOT NULL,
    answer_json TEXT NOT NULL
);
CREATE TRIGGER source_check_keeps_what_it_has BEFORE UPDATE ON source_check
    BEGIN SELECT RAISE(ABORT, 'source checks are append only'); END;
CREATE TRIGGER source_check_forgets_nothing BEFORE DELETE ON source_check
    BEGIN SELECT RAISE(ABORT, 'source checks are append only'); END;
