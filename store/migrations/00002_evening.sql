-- Notes that were left for whoever comes next. They can be erased, and stand outside the chain.
CREATE TABLE notes (
    darkroom {text} NOT NULL,
    id       {text} NOT NULL,
    words    {text} NOT NULL,
    CONSTRAINT notes_key PRIMARY KEY (darkroom, id),
    CONSTRAINT notes_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};

-- What lets people join an evening: one code for each. It hangs on the wall, so it is kept as it is.
CREATE TABLE invitations (
    darkroom {text} NOT NULL,
    session  {text} NOT NULL,
    code     {text} NOT NULL,
    CONSTRAINT invitations_key PRIMARY KEY (darkroom, session),
    CONSTRAINT invitations_code UNIQUE (darkroom, code),
    CONSTRAINT invitations_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};

-- Who joined, by the SHA-256 of what the device keeps.
CREATE TABLE guests (
    darkroom {text} NOT NULL,
    token    {text} NOT NULL,
    session  {text} NOT NULL,
    person   {text} NOT NULL,
    CONSTRAINT guests_key PRIMARY KEY (darkroom, token),
    CONSTRAINT guests_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};
