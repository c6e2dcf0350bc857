namespace Bench.Records.Database.Steps;

/// <summary>
/// The second schema: what is said of a sealed run later (judgements, corrections, sign-offs) in one chain, and the outbox.
/// </summary>
internal static class Step2
{
    /// <summary>The statements.</summary>
    public const string Sql =
        """
        -- What is said of a sealed run later. The kind is within the entry, and so under its hash; an entry of the first
        -- schema names none and is a judgement.
        CREATE TABLE entry (
            sequence        INTEGER PRIMARY KEY AUTOINCREMENT,
            run             TEXT REFERENCES run (id),
            kind            TEXT NOT NULL,
            entry           TEXT NOT NULL,
            previous_hash   TEXT NOT NULL,
            hash            TEXT NOT NULL UNIQUE
        ) STRICT;
        INSERT INTO entry (sequence, run, kind, entry, previous_hash, hash)
            SELECT sequence, run, 'judgement', entry, previous_hash, hash FROM judgement ORDER BY sequence;
        -- The greatest number ever given shows a cut tail; it must not start anew where rows are gone.
        DELETE FROM sqlite_sequence WHERE name = 'entry';
        INSERT INTO sqlite_sequence (name, seq) SELECT 'entry', seq FROM sqlite_sequence WHERE name = 'judgement';
        DROP TABLE judgement;
        CREATE INDEX entry_run ON entry (run);
        -- Each key is introduced once.
        CREATE UNIQUE INDEX entry_key ON entry (entry ->> 'fingerprint') WHERE kind = 'key';

        -- Signatures over hashes of runs and entries, by keys that entries introduce.
        CREATE TABLE signature (
            hash      TEXT PRIMARY KEY,
            key       TEXT NOT NULL,
            signature TEXT NOT NULL
        ) STRICT, WITHOUT ROWID;

        -- What a hub is still to get: filled by the transaction that seals, so nothing is sealed and not queued.
        CREATE TABLE outbox (
            sequence   INTEGER PRIMARY KEY AUTOINCREMENT,
            run        TEXT REFERENCES run (id),
            entry      INTEGER REFERENCES entry (sequence),
            queued_at  TEXT NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ', 'now')),
            sent_at    TEXT,
            attempts   INTEGER NOT NULL DEFAULT 0,
            last_error TEXT,
            CHECK ((run IS NULL) <> (entry IS NULL))
        ) STRICT;
        CREATE INDEX outbox_waiting ON outbox (sequence) WHERE sent_at IS NULL;
        INSERT INTO outbox (run) SELECT id FROM run ORDER BY sequence;
        INSERT INTO outbox (entry) SELECT sequence FROM entry ORDER BY sequence;
        CREATE TRIGGER run_queued AFTER INSERT ON run BEGIN INSERT INTO outbox (run) VALUES (NEW.id); END;
        CREATE TRIGGER entry_queued AFTER INSERT ON entry BEGIN INSERT INTO outbox (entry) VALUES (NEW.sequence); END;

        CREATE VIEW later_judgement AS
            SELECT sequence, run, entry ->> 'made_at' AS made_at, entry ->> 'profile_version' AS profile_version,
                entry ->> '$.judgement.outcome' AS outcome, entry ->> '$.judgement.disposition' AS disposition,
                entry ->> '$.judgement.claim' AS claim
            FROM entry WHERE kind = 'judgement';
        CREATE VIEW correction AS
            SELECT sequence, run, entry ->> 'made_at' AS made_at, entry ->> 'fact' AS fact, entry ->> 'was' AS was,
                entry ->> 'to' AS "to", entry ->> 'because' AS because, entry ->> 'by' AS "by"
            FROM entry WHERE kind = 'correction';
        CREATE VIEW bench_key AS
            SELECT sequence, entry ->> 'made_at' AS made_at, entry ->> 'fingerprint' AS fingerprint, entry ->> 'public_key' AS public_key
            FROM entry WHERE kind = 'key';
        CREATE VIEW dropped_trace AS
            SELECT sequence, run, entry ->> 'made_at' AS made_at, entry ->> 'trace_file' AS trace_file, entry ->> 'trace_sha256' AS trace_sha256,
                entry ->> 'older_than_days' AS older_than_days, entry ->> 'because' AS because, entry ->> 'by' AS "by"
            FROM entry WHERE kind = 'dropped-trace';
        CREATE VIEW note AS
            SELECT sequence, run, entry ->> 'made_at' AS made_at, entry ->> 'text' AS text, entry ->> 'by' AS "by"
            FROM entry WHERE kind = 'note';
        CREATE VIEW sign_off AS
            SELECT sequence, run, entry ->> 'made_at' AS made_at, entry ->> 'name' AS name, entry ->> 'role' AS role,
                entry ->> 'statement' AS statement, entry ->> 'run_hash' AS run_hash, entry ->> 'last_entry_hash' AS last_entry_hash
            FROM entry WHERE kind = 'sign-off';
        """;
}
