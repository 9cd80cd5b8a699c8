-- The second step of a keyholder's sign-in: the secret that their app shares (base32), the last step of time whose code was taken, so that
-- none is taken twice, and the SHA-256 of the words that are good once, as JSON. No export has it.
CREATE TABLE seconds (
    darkroom {text}   NOT NULL,
    person   {text}   NOT NULL,
    secret   {text}   NOT NULL,
    step     {bigint} NOT NULL,
    words    {text}   NOT NULL,
    made_at  {bigint} NOT NULL,
    CONSTRAINT seconds_key PRIMARY KEY (darkroom, person),
    CONSTRAINT seconds_head FOREIGN KEY (darkroom) REFERENCES heads (darkroom)
){table};
