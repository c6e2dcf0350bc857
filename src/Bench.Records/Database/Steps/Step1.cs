namespace Bench.Records.Database.Steps;

/// <summary>The first schema: sealed runs, runs being written with their journals, later judgements, and views for readers with SQL.</summary>
internal static class Step1
{
    /// <summary>The statements.</summary>
    public const string Sql =
        """
        -- A sealed run. The record is the truth; the columns beside it are for lists and searches and are checked against it.
        CREATE TABLE run (
            sequence      INTEGER PRIMARY KEY AUTOINCREMENT,
            id            TEXT NOT NULL UNIQUE,
            started_at    TEXT NOT NULL,
            serial        TEXT NOT NULL,
            family        TEXT NOT NULL,
            simulated     INTEGER NOT NULL,
            outcome       TEXT NOT NULL,
            disposition   TEXT,
            claim         TEXT,
            trace_file    TEXT,
            trace_sha256  TEXT,
            previous_hash TEXT NOT NULL,
            hash          TEXT NOT NULL UNIQUE,
            record        TEXT NOT NULL,
            CHECK ((trace_file IS NULL) = (trace_sha256 IS NULL))
        ) STRICT;
        -- Covers the list, so that it need not touch the records.
        CREATE INDEX run_list ON run (started_at, id, serial, family, simulated, outcome, disposition, claim);

        -- A run that is being written, and its journal, which is deleted when the run is sealed.
        CREATE TABLE open_run (
            id            TEXT PRIMARY KEY,
            started_at    TEXT NOT NULL,
            serial        TEXT NOT NULL,
            family        TEXT NOT NULL,
            simulated     INTEGER NOT NULL,
            start         TEXT NOT NULL,
            owner_process INTEGER,
            owner_started TEXT
        ) STRICT;
        CREATE TABLE journal_event (
            run    TEXT NOT NULL REFERENCES open_run (id) ON DELETE CASCADE,
            number INTEGER NOT NULL,
            event  TEXT NOT NULL,
            PRIMARY KEY (run, number)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE journal_move (
            run    TEXT NOT NULL REFERENCES open_run (id) ON DELETE CASCADE,
            number INTEGER NOT NULL,
            move   TEXT NOT NULL,
            PRIMARY KEY (run, number)
        ) STRICT, WITHOUT ROWID;
        CREATE TABLE journal_chunk (
            run   TEXT NOT NULL REFERENCES open_run (id) ON DELETE CASCADE,
            first INTEGER NOT NULL,
            count INTEGER NOT NULL,
            data  BLOB NOT NULL,
            PRIMARY KEY (run, first)
        ) STRICT;

        -- Judgements made of a sealed run later: corrections are new entries, in a chain of their own.
        CREATE TABLE judgement (
            sequence        INTEGER PRIMARY KEY AUTOINCREMENT,
            run             TEXT NOT NULL REFERENCES run (id),
            entry           TEXT NOT NULL,
            previous_hash   TEXT NOT NULL,
            hash            TEXT NOT NULL UNIQUE
        ) STRICT;
        CREATE INDEX judgement_run ON judgement (run);

        -- For readers with SQL: what is inside the records, as tables.
        CREATE VIEW event AS
            SELECT run.id AS run, e.key + 1 AS number, e.value ->> 'time_s' AS time_s, e.value ->> 'kind' AS kind, e.value ->> 'text' AS text
            FROM run, json_each(run.record, '$.events') AS e;
        CREATE VIEW move AS
            SELECT run.id AS run, m.value ->> 'number' AS number, m.value ->> 'stage' AS stage,
                m.value ->> 'from_port' AS from_port, m.value ->> 'to_port' AS to_port, m.value ->> 'direction' AS direction,
                m.value ->> 'target_count' AS target_count, m.value ->> 'travel_counts' AS travel_counts,
                m.value ->> 'drive_on_s' AS drive_on_s, m.value ->> 'drive_off_s' AS drive_off_s,
                m.value ->> 'settled_s' AS settled_s, m.value ->> 'end' AS "end",
                m.value ->> 'first_sample' AS first_sample, m.value ->> 'sample_count' AS sample_count
            FROM run, json_each(run.record, '$.moves') AS m;
        CREATE VIEW feature AS
            SELECT run.id AS run, f.value ->> 'name' AS name, f.value ->> 'subject' AS subject, f.value ->> 'value' AS value,
                f.value ->> 'standard_uncertainty' AS standard_uncertainty, f.value ->> 'unit' AS unit,
                f.value ->> 'observations' AS observations, f.value ->> 'not_assessable_because' AS not_assessable_because
            FROM run, json_each(run.record, '$.features.features') AS f;
        CREATE VIEW finding AS
            SELECT run.id AS run, f.value ->> '$.feature.name' AS name, f.value ->> '$.feature.subject' AS subject,
                f.value ->> 'decision' AS decision, f.value ->> 'conformity_probability' AS conformity_probability,
                f.value ->> '$.limit.severity' AS severity, f.value ->> 'statement' AS statement
            FROM run, json_each(run.record, '$.judgement.findings') AS f;
        """;
}
