-- Who keeps a darkroom. signs is the name as it is typed at the door, made even; of a passphrase its argon2id hash alone
-- is kept. No export has it.
CREATE TABLE keyholders (
    darkroom   {text}   NOT NULL,
    person     {text}   NOT NULL,
    signs      {text}   NOT NULL,
    passphrase {text}   NOT NULL,
    made_at    {bigint} NOT NULL,
    CONSTRAINT keyholders_key PRIMARY KEY (darkroom, person),
    CONSTRAINT keyholders_signs UNIQUE (darkroom, signs),
    CONSTRAINT keyholders_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};

-- What a device or a script shows, by its SHA-256. sort is signin, device or script; person is empty for a device of the
-- room. Instants are microseconds since 1970 UTC; ends_at 0 is never, idle the microseconds after which it ends unseen.
CREATE TABLE keys (
    darkroom {text}   NOT NULL,
    id       {text}   NOT NULL,
    token    {text}   NOT NULL,
    sort     {text}   NOT NULL,
    role     {text}   NOT NULL,
    person   {text}   NOT NULL,
    name     {text}   NOT NULL,
    made_by  {text}   NOT NULL,
    made_at  {bigint} NOT NULL,
    seen_at  {bigint} NOT NULL,
    ends_at  {bigint} NOT NULL,
    idle     {bigint} NOT NULL,
    CONSTRAINT keys_key PRIMARY KEY (darkroom, id),
    CONSTRAINT keys_token UNIQUE (darkroom, token),
    CONSTRAINT keys_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};
