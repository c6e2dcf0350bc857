using Bench.Records.Canonical;
using Bench.Records.Database;
using Bench.Records.Integrity;
using Bench.Records.Runs;
using Dapper;

namespace Bench.Records.Judgements;

/// <summary>Later judgements of sealed runs, in a chain of their own. There is no way to change or remove one.</summary>
internal sealed class JudgementBook(StoreDatabase database)
{
    /// <summary>Adds one.</summary>
    /// <exception cref="StoreException">There is no such sealed run, or the store could not take it.</exception>
    public void Add(LaterJudgement entry)
    {
        string id = RunColumns.IdText(entry.Run);
        string canonical = CanonicalJson.Write(entry);
        database.Write($"add a judgement of run {id}", connection =>
        {
            if (connection.ExecuteScalar<int>("SELECT count(*) FROM run WHERE id = @id", new { id }) == 0)
            {
                throw new StoreException($"there is no sealed run {id} in '{database.Path}' to judge; 'bench runs' lists them");
            }

            string previous = connection.ExecuteScalar<string?>("SELECT hash FROM judgement ORDER BY sequence DESC LIMIT 1") ?? "";
            string hash = Fingerprint.OfLink(canonical, null, previous);
            connection.Execute(
                "INSERT INTO judgement (run, entry, previous_hash, hash) VALUES (@id, @canonical, @previous, @hash)",
                new { id, canonical, previous, hash });
        });
    }

    /// <summary>Those of a run, oldest first.</summary>
    public IReadOnlyList<LaterJudgement> Of(Guid run) => database.Read("read judgements", connection => connection
        .Query<string>("SELECT entry FROM judgement WHERE run = @id ORDER BY sequence", new { id = RunColumns.IdText(run) })
        .Select(Parse).ToList());

    private LaterJudgement Parse(string entry)
    {
        try
        {
            return StoredJson.Parse<LaterJudgement>(entry);
        }
        catch (FormatException e)
        {
            throw new StoreException($"a judgement in '{database.Path}' can't be read ({e.Message}); 'bench verify' tells whether it was altered", e);
        }
    }
}
