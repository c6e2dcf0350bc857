using Bench.Model.Entries;
using Bench.Records.Entries;
using Dapper;
using Microsoft.Data.Sqlite;

namespace Bench.Records.Keys;

/// <summary>Signs what is sealed, in the transaction that seals it. Without a key nothing is signed.</summary>
internal sealed class Signing(BenchKey? key, TimeProvider time)
{
    /// <summary>Signs the hash of a run or an entry; a key the store has not seen is introduced by an entry first.</summary>
    public void Sign(SqliteConnection connection, string hash)
    {
        if (key is null)
        {
            return;
        }

        if (connection.ExecuteScalar<long?>("SELECT sequence FROM entry WHERE kind = 'key' AND entry ->> 'fingerprint' = @Fingerprint", new { key.Fingerprint }) is null)
        {
            KeyEntry entry = new() { MadeAt = time.GetUtcNow(), Fingerprint = key.Fingerprint, PublicKey = key.PublicPem };
            Store(connection, EntryChain.Append(connection, entry).Hash);
        }

        Store(connection, hash);
    }

    /// <summary>The signature under a hash; null when it has none.</summary>
    public static KeySignature? Find(SqliteConnection connection, string hash) => connection.QueryFirstOrDefault<KeySignature>(
        "SELECT key AS Key, signature AS Value FROM signature WHERE hash = @hash", new { hash });

    private void Store(SqliteConnection connection, string hash)
    {
        KeySignature signature = key!.Sign(hash);
        connection.Execute("INSERT INTO signature (hash, key, signature) VALUES (@hash, @Key, @Value)", new { hash, signature.Key, signature.Value });
    }
}
