-- What the grower did about alerts: one act may be about many alerts and may have written journal entries. An act that was undone
-- stays, marked.
CREATE TABLE act (
    number  INTEGER PRIMARY KEY AUTOINCREMENT,
    mark    TEXT    NOT NULL, -- done, later, not-so, seen
    at      TEXT    NOT NULL,
    until   TEXT,             -- asks again from then on; null for never
    undone  INTEGER NOT NULL DEFAULT 0
);

CREATE TABLE act_alert (
    act   INTEGER NOT NULL REFERENCES act (number),
    alert TEXT    NOT NULL,
    PRIMARY KEY (act, alert)
) WITHOUT ROWID;

CREATE TABLE act_entry (
    act   INTEGER NOT NULL REFERENCES act (number),
    entry INTEGER NOT NULL REFERENCES entry (number),
    PRIMARY KEY (act, entry)
) WITHOUT ROWID;

-- Every text that a crop file of the site has had, the newest being the one in force; the first is how it was found.
CREATE TABLE crop_file (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    file   TEXT    NOT NULL, -- its name in the folder crops
    text   TEXT,             -- null where there was no such file
    at     TEXT    NOT NULL,
    who    TEXT    NOT NULL,
    what   TEXT    NOT NULL,
    why    TEXT    NOT NULL
);
