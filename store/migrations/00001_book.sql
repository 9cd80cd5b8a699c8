-- One darkroom's book ends at its head: the last position and the hash of the entry there. The row is locked for
-- every append.
CREATE TABLE heads (
    darkroom {text}   NOT NULL,
    position {bigint} NOT NULL,
    hash     {text}   NOT NULL,
    CONSTRAINT heads_key PRIMARY KEY (darkroom),
    CONSTRAINT heads_position CHECK (position >= 0)
){table};

-- What happened, for ever. Instants are microseconds since 1970 UTC.
CREATE TABLE entries (
    darkroom    {text}   NOT NULL,
    position    {bigint} NOT NULL,
    id          {text}   NOT NULL,
    kind        {text}   NOT NULL,
    version     {bigint} NOT NULL,
    happened_at {bigint} NOT NULL,
    recorded_at {bigint} NOT NULL,
    person      {text}   NOT NULL,
    device      {text}   NOT NULL,
    takes_back  {text}   NOT NULL,
    body        {text}   NOT NULL,
    prev_hash   {text}   NOT NULL,
    CONSTRAINT entries_key PRIMARY KEY (darkroom, position),
    CONSTRAINT entries_id UNIQUE (darkroom, id),
    CONSTRAINT entries_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom),
    CONSTRAINT entries_position CHECK (position >= 1)
){table};

-- Names and notes, which can be erased. They stand outside the chain.
CREATE TABLE people (
    darkroom {text} NOT NULL,
    id       {text} NOT NULL,
    name     {text} NOT NULL,
    notes    {text} NOT NULL,
    CONSTRAINT people_key PRIMARY KEY (darkroom, id),
    CONSTRAINT people_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};
