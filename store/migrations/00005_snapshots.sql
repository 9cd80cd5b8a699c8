-- What rests in a book's fold, so that a start need not fold all: derived, dropped and made anew at will. It is of a program's
-- form, which its bytes say, and of the book in which the entry at the position has the hash.
CREATE TABLE snapshots (
    darkroom {text}   NOT NULL,
    position {bigint} NOT NULL,
    hash     {text}   NOT NULL,
    rests    {bytes}  NOT NULL,
    CONSTRAINT snapshots_key PRIMARY KEY (darkroom),
    CONSTRAINT snapshots_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};
