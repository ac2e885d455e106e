-- Nothing is ever deleted here: a corrected entry stays and names the entry that took its place.
CREATE TABLE entry (
    number      INTEGER PRIMARY KEY AUTOINCREMENT,
    time_ns     INTEGER NOT NULL,
    tray        TEXT    NOT NULL,
    kind        TEXT    NOT NULL,
    detail      TEXT    NOT NULL,
    note        TEXT    NOT NULL,
    withdrawn   INTEGER NOT NULL DEFAULT 0,
    replaced_by INTEGER REFERENCES entry (number),
    UNIQUE (time_ns, tray, kind, detail, note)
);

CREATE TABLE alert (
    id        TEXT    PRIMARY KEY,
    kind      TEXT    NOT NULL,
    tray      TEXT,
    room      TEXT,
    zone      TEXT,
    urgency   TEXT    NOT NULL,
    opened_ns INTEGER NOT NULL,
    closed_ns INTEGER,
    reason    TEXT,
    value     REAL,
    threshold REAL,
    unit      TEXT    NOT NULL,
    probes    TEXT    NOT NULL,
    sowing    TEXT,
    says      TEXT    NOT NULL,
    does      TEXT    NOT NULL,
    expected_ns INTEGER,
    earliest_ns INTEGER,
    latest_ns   INTEGER,
    withdrawn INTEGER NOT NULL DEFAULT 0,
    seen_ns   INTEGER
) WITHOUT ROWID;

CREATE INDEX alert_by_opening ON alert (opened_ns);
