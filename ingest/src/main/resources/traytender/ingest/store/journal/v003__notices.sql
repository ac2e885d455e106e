-- What was sent to whom, or waits to be: kept for good.
CREATE TABLE notice (
    number  INTEGER PRIMARY KEY AUTOINCREMENT,
    person  TEXT    NOT NULL,
    way     TEXT    NOT NULL, -- mail, webhook
    subject TEXT    NOT NULL,
    body    TEXT    NOT NULL,
    alerts  TEXT    NOT NULL, -- JSON array of ids
    made    TEXT    NOT NULL,
    state   TEXT    NOT NULL, -- waiting, sent, given-up
    tries   INTEGER NOT NULL DEFAULT 0,
    next    TEXT    NOT NULL, -- tried again from then on
    trouble TEXT    NOT NULL DEFAULT ''
);
CREATE INDEX notice_waiting ON notice (next) WHERE state = 'waiting';
