namespace Bench.Records.Database.Steps;

/// <summary>The third schema: what archives are searched by and the first one could only find by reading every record.</summary>
internal static class Step3
{
    /// <summary>The statements.</summary>
    public const string Sql =
        """
        ALTER TABLE run ADD COLUMN symptom TEXT;
        ALTER TABLE run ADD COLUMN likeliest_cause TEXT;
        -- A damaged record is for 'bench verify' to tell of; it must not keep the store from opening.
        UPDATE run SET symptom = record ->> '$.start.return.symptom', likeliest_cause = record ->> '$.judgement.causes[0].id'
            WHERE json_valid(record);

        -- Covers the list and every search, in the order of the list: none touches the records, of 100 kB each.
        DROP INDEX run_list;
        CREATE INDEX run_list ON run (started_at, id, serial, family, simulated, outcome, disposition, claim, symptom, likeliest_cause);
        CREATE INDEX run_serial ON run (serial, started_at);

        -- What was said of a run, and the few corrections among all that was said, without the entries themselves.
        DROP INDEX entry_run;
        CREATE INDEX entry_run ON entry (run, kind, sequence);
        CREATE INDEX entry_correction ON entry (run, sequence) WHERE kind = 'correction';
        """;
}
