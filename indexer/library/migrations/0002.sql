-- Format 2: references between passages, numbers filed by the shop, the shop's map and words, wider shop entries.

ALTER TABLE copy ADD COLUMN rules INTEGER NOT NULL DEFAULT 0;
CREATE INDEX number_tag_chapter ON number_tag (chapter, section);

CREATE TABLE citation (
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    ordinal INTEGER NOT NULL, -- 0-based in the passage
    kind TEXT NOT NULL,
    scheme TEXT, -- of the chapter number it names; NULL = it names none
    chapter TEXT,
    section TEXT,
    subject TEXT,
    citation_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, ordinal)
) WITHOUT ROWID;
CREATE INDEX citation_chapter ON citation (chapter, section);

-- Passages that the shop's map or an entry files otherwise than their publication alone does.
CREATE TABLE filing (
    passage_id TEXT PRIMARY KEY REFERENCES passage ON DELETE CASCADE
) WITHOUT ROWID;

-- Their numbers, in place of those in number_tag; no row = not numbered.
CREATE TABLE filed_number (
    passage_id TEXT NOT NULL REFERENCES filing ON DELETE CASCADE,
    rank INTEGER NOT NULL,
    scheme TEXT NOT NULL,
    chapter TEXT NOT NULL,
    section TEXT,
    subject TEXT,
    evidence_json TEXT NOT NULL,
    others_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, rank)
) WITHOUT ROWID;
CREATE INDEX filed_number_chapter ON filed_number (chapter, section);

-- The numbers that hold now.
CREATE VIEW number_now AS
    SELECT * FROM number_tag WHERE passage_id NOT IN (SELECT passage_id FROM filing)
    UNION ALL SELECT * FROM filed_number;

-- Where the citations of passages lead among the publications held here.
CREATE TABLE reference (
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    state TEXT NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (passage_id, ordinal)
) WITHOUT ROWID;

CREATE TABLE reference_target (
    passage_id TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    target_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    pdf_page INTEGER, -- NULL = the whole publication
    target_passage_id TEXT, -- NULL = the whole page
    FOREIGN KEY (passage_id, ordinal) REFERENCES reference ON DELETE CASCADE
);
CREATE INDEX reference_target_source ON reference_target (passage_id, ordinal);
CREATE INDEX reference_target_target ON reference_target (target_id, pdf_page);

DROP INDEX shop_entry_copy;
ALTER TABLE shop_entry RENAME TO shop_entry_1;
CREATE TABLE shop_entry (
    id INTEGER PRIMARY KEY,
    copy_id TEXT NOT NULL, -- no foreign key: the entry outlives the copy and meets it again by its content
    pdf_page INTEGER NOT NULL,
    last_page INTEGER NOT NULL,
    section TEXT NOT NULL, -- '' = by page
    quote TEXT NOT NULL, -- '' = every passage of the pages or section
    box_json TEXT NOT NULL, -- 'null' = no one place
    kind TEXT NOT NULL,
    value TEXT NOT NULL,
    who TEXT NOT NULL,
    made_at TEXT NOT NULL,
    why TEXT NOT NULL,
    second TEXT NOT NULL, -- the second person; '' = none
    undone_by TEXT NOT NULL, -- '' = not undone
    undone_why TEXT NOT NULL,
    undone_second TEXT, -- who agreed to undoing, where that raises standing: '' = awaited; NULL = takes none
    work_id TEXT NOT NULL -- of the publication it was made in, for when the copy is gone; '' = not known
);
CREATE INDEX shop_entry_copy ON shop_entry (copy_id, pdf_page);
INSERT INTO shop_entry
    SELECT id, copy_id, pdf_page, pdf_page, '', quote, box_json, 'note', what, who, made_at, why, '', '', '',
        NULL, ''
    FROM shop_entry_1;
DROP TABLE shop_entry_1;

-- A publication's identity where entries of the shop change it; the one it was read with stays with the publication.
CREATE TABLE entered_identity (
    publication_id TEXT PRIMARY KEY REFERENCES publication ON DELETE CASCADE,
    identity_json TEXT NOT NULL
) WITHOUT ROWID;

-- The standing of a passage where entries of the shop change it: over its own and over a directive's.
CREATE TABLE entered_standing (
    passage_id TEXT PRIMARY KEY REFERENCES passage ON DELETE CASCADE,
    value TEXT NOT NULL,
    standing_json TEXT NOT NULL
) WITHOUT ROWID;

-- Where the shop's entries stand now, and what they speak of.
CREATE TABLE entry_state (
    entry_id INTEGER PRIMARY KEY REFERENCES shop_entry ON DELETE CASCADE,
    state TEXT NOT NULL,
    reason TEXT NOT NULL -- in words for a person; '' = none needed
);
CREATE TABLE entry_passage (
    entry_id INTEGER NOT NULL REFERENCES shop_entry ON DELETE CASCADE,
    passage_id TEXT NOT NULL REFERENCES passage ON DELETE CASCADE,
    PRIMARY KEY (entry_id, passage_id)
) WITHOUT ROWID;
CREATE INDEX entry_passage_passage ON entry_passage (passage_id);

CREATE TABLE shop_map (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    publication TEXT NOT NULL, -- its number, else its title, as printed
    first TEXT NOT NULL,
    last TEXT NOT NULL,
    chapters_json TEXT NOT NULL,
    who TEXT NOT NULL,
    made_at TEXT NOT NULL,
    why TEXT NOT NULL
);

CREATE TABLE shop_word (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    term TEXT NOT NULL,
    manual_terms_json TEXT NOT NULL,
    note TEXT NOT NULL,
    who TEXT NOT NULL,
    made_at TEXT NOT NULL
);

-- What relations.py knew the last time, so that only what a change touches is worked out again -----------------

-- Every publication it knew. No foreign key: what leaned on a publication is worked out again when that is gone.
CREATE TABLE related (
    publication_id TEXT PRIMARY KEY,
    unchanged INTEGER NOT NULL, -- 0 = its passages were taken out since, to go or to be read again
    shown TEXT NOT NULL, -- what other publications see of it: identity, whether it is on the shelf and current
    names_json TEXT NOT NULL -- keys that references can mean it by
) WITHOUT ROWID;
CREATE TRIGGER related_unless_taken_out AFTER DELETE ON publication
    BEGIN UPDATE related SET unchanged = 0 WHERE publication_id = OLD.id; END;

-- Keys by which the references of a publication may mean another one.
CREATE TABLE cited_name (
    name TEXT NOT NULL,
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    PRIMARY KEY (name, publication_id)
) WITHOUT ROWID;
CREATE INDEX cited_name_publication ON cited_name (publication_id);

-- Works that entries or lines of the map speak of.
CREATE TABLE spoken_of (
    work_id TEXT PRIMARY KEY, -- no foreign key: an entry outlives the publications it speaks of
    basis TEXT NOT NULL, -- digest of all that the filing and the entered standing of its passages rest on
    publications_json TEXT NOT NULL -- those it had
) WITHOUT ROWID;
