-- How far the import of a file has come. A row goes when its file is in.
CREATE TABLE import_position (
    file     TEXT    PRIMARY KEY,
    position INTEGER NOT NULL
) WITHOUT ROWID;
