using Bench.Model.Entries;
using Bench.Model.Features;
using Bench.Model.Judging;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Model.Traces;
using Bench.Records.Attachments;
using Bench.Records.Canonical;
using Bench.Records.Copies;
using Bench.Records.Database;
using Bench.Records.Entries;
using Bench.Records.Files;
using Bench.Records.Integrity;
using Bench.Records.Journals;
using Bench.Records.Keys;
using Bench.Records.Outboxes;
using Bench.Records.Owners;
using Bench.Records.Retention;
using Bench.Records.Returns;
using Bench.Records.Runs;
using Bench.Records.Traces;
using Dapper;

namespace Bench.Records;

/// <summary>
/// The local store of a bench: a folder with the database <c>bench.db</c> and the trace files of sealed runs
/// (docs/records.md). Any thread may call it; several processes may have the same folder open.
/// </summary>
/// <remarks>Every method throws <see cref="StoreException"/> when the store can't do what is asked.</remarks>
public sealed class RecordStore : IDisposable
{
    /// <summary>Name of the database within the data folder.</summary>
    public const string DatabaseName = "bench.db";

    /// <summary>Largest photo or file of a return, bytes: 32 MiB.</summary>
    public const int MostAttachmentBytes = 32 << 20;

    private readonly StoreDatabase _database;
    private readonly AttachmentFolder _attachments;
    private readonly TraceFolder _traces;
    private readonly TimeProvider _time;
    private readonly IProcessTable _processes;
    private readonly Durability _durability;
    private readonly Signing _signing;
    private readonly RunSealer _sealer;

    private RecordStore(string folder, StoreDatabase database, TraceFolder traces, TimeProvider time, IProcessTable processes, Durability durability, BenchKey? key)
    {
        _durability = durability;
        Folder = folder;
        _database = database;
        _attachments = new AttachmentFolder(folder, durability);
        _traces = traces;
        _time = time;
        _processes = processes;
        _signing = new Signing(key, time);
        _sealer = new RunSealer(database, traces, _signing);
    }

    /// <summary>The data folder, as a full path.</summary>
    public string Folder { get; }

    /// <summary>Opens a data folder; what is missing is made.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="time">The clock; dates recoveries and later judgements.</param>
    /// <param name="durability">What a write that has returned outlives.</param>
    /// <param name="processes">Who writes a run and whether they live; null for this computer's process table.</param>
    /// <param name="key">The key that signs what is sealed, owned by the caller; null to sign nothing.</param>
    public static RecordStore Open(string folder, TimeProvider time, Durability durability = Durability.Full, IProcessTable? processes = null, BenchKey? key = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        ArgumentNullException.ThrowIfNull(time);
        string full = Path.GetFullPath(folder);
        try
        {
            FolderEntries.Make(full, durability);
            TraceFolder traces = new(full, durability);
            StoreDatabase database = StoreDatabase.Open(Path.Combine(full, DatabaseName), durability);
            return new RecordStore(full, database, traces, time, processes ?? new SystemProcesses(), durability, key);
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, "open the data folder", full);
        }
    }

    /// <summary>Opens a data folder to look at what it holds; one that may not be written is read as it is.</summary>
    /// <param name="folder">The folder; it and its database must be there.</param>
    /// <param name="time">The clock.</param>
    public static RecordStore OpenToRead(string folder, TimeProvider time)
    {
        try
        {
            return Open(folder, time);
        }
        catch (StoreException e) when (StoreFault.IsReadOnly(e.InnerException) && File.Exists(Path.Combine(folder, DatabaseName)))
        {
            string full = Path.GetFullPath(folder);
            return new RecordStore(
                full, StoreDatabase.OpenToRead(Path.Combine(full, DatabaseName)), TraceFolder.ToRead(full), time, new SystemProcesses(), Durability.Relaxed, null);
        }
    }

    /// <summary>Begins a run: it is in the store, open, when this returns.</summary>
    public IRunJournal Begin(RunStart start)
    {
        ArgumentNullException.ThrowIfNull(start);
        RunColumns columns = RunColumns.Of(start);
        string text = CanonicalJson.Write(start);
        ProcessMark owner = _processes.Self;
        _database.Write($"begin run {columns.Id}", connection => connection.Execute(
            """
            INSERT INTO open_run (id, started_at, serial, family, simulated, start, owner_process, owner_started)
            VALUES (@Id, @StartedAt, @Serial, @Family, @Simulated, @text, @process, @Started)
            """,
            new { columns.Id, columns.StartedAt, columns.Serial, columns.Family, columns.Simulated, text, process = owner.Id, owner.Started }));
        _database.Tidy();
        return new RunJournal(_database, _sealer, start.Id, storeAside: _durability == Durability.Full);
    }

    /// <summary>
    /// Seals the runs whose program is gone as aborted (<see cref="AbortReason.HostDied"/>), with all that their journals
    /// hold. Runs that another living process writes are left alone. Doing it again does nothing.
    /// </summary>
    /// <returns>The records made, oldest first.</returns>
    public IReadOnlyList<RunRecord> RecoverInterrupted() => new Recovery(_database, _sealer, _traces, _processes, _time).RecoverAll();

    /// <summary>Runs, newest first.</summary>
    /// <param name="filter">Which; null for all.</param>
    public IReadOnlyList<RunSummary> List(RunFilter? filter = null) => new RunQueries(_database).List(filter ?? new RunFilter());

    /// <summary>How many runs there are, open ones among them.</summary>
    /// <param name="filter">Which; null for all. How many it asks for and passes over does not matter.</param>
    public int Count(RunFilter? filter = null) => new RunQueries(_database).Count(filter ?? new RunFilter());

    /// <summary>Hours since a unit last landed a move at a position, in a real run of the last day; null when none did.</summary>
    /// <param name="bench">Name of the bench.</param>
    /// <param name="position">Name of its position.</param>
    public double? HoursSinceDriven(string bench, string position)
    {
        DateTimeOffset now = _time.GetUtcNow();
        return new RunQueries(_database).LastDrove(bench, position, now - TimeSpan.FromDays(1)) is DateTimeOffset at
            ? Math.Max(0, (now - at).TotalHours)
            : null;
    }

    /// <summary>A sealed run by its id or the beginning of it; null when there is none. Does not check hashes.</summary>
    public SealedRun? Find(string idOrPrefix) => new RunQueries(_database).Find(idOrPrefix);

    /// <summary>Current by angle of other units that were judged reusable by a run's profile, simulated or real as it is: the newest test of each, newest first.</summary>
    /// <param name="start">The run.</param>
    /// <param name="most">Units that are enough.</param>
    public IReadOnlyList<HealthyCurrent> HealthyCurrents(RunStart start, int most) => HealthyQuery.Run(_database, start, most);

    /// <summary>The trace of a sealed run, after its file was held against its hash. Empty when the run has no samples.</summary>
    public Trace LoadTrace(SealedRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        if (run.TraceFile is not { } file)
        {
            return new Trace();
        }

        string path = _traces.PathOf(file);
        byte[] bytes = _traces.Read(file)
            ?? throw Dropped(run) ?? new StoreException($"the trace of run {run.Record.Start.Id:D} is gone: '{path}'; restore it from a copy of the data folder");
        if (Fingerprint.Of(bytes) != run.TraceSha256)
        {
            throw new StoreException($"the trace of run {run.Record.Start.Id:D} is not what was sealed: '{path}' has another SHA-256; restore it from a copy of the data folder");
        }

        try
        {
            return TraceFile.Decode(bytes);
        }
        catch (FormatException e)
        {
            throw new StoreException($"cannot read '{path}': {e.Message}", e);
        }
    }

    /// <summary>The entry by which a run's trace was dropped; null when it was not.</summary>
    public static DroppedTrace? DropOf(SealedRun run)
    {
        ArgumentNullException.ThrowIfNull(run);
        return run.Entries.Select(e => e.Entry).OfType<DroppedTrace>().FirstOrDefault();
    }

    /// <summary>The content of a photo or file of a return; null when it is gone, or is not what was kept.</summary>
    public byte[]? ReadAttachment(Attachment attachment)
    {
        ArgumentNullException.ThrowIfNull(attachment);
        return _attachments.Read(attachment.Sha256) is { } bytes && Fingerprint.Of(bytes) == attachment.Sha256 ? bytes : null;
    }

    /// <summary>Adds a later judgement of a sealed run; the run's record stays as it is.</summary>
    /// <param name="run">The run.</param>
    /// <param name="judgement">The judgement.</param>
    /// <param name="profileVersion">Version of the profile that judged.</param>
    /// <param name="profileSha256">SHA-256 of that profile's file.</param>
    public SealedEntry AddJudgement(Guid run, Judgement judgement, string profileVersion, string profileSha256) =>
        new EntryBook(_database, _signing).Add(run, (_, _) => new LaterJudgement
        {
            Run = run,
            MadeAt = _time.GetUtcNow(),
            ProfileVersion = profileVersion,
            ProfileSha256 = profileSha256,
            Judgement = judgement,
        });

    /// <summary>Sets a fact of a run's return right; the run's record stays as it is.</summary>
    /// <param name="run">The run.</param>
    /// <param name="fact">The fact.</param>
    /// <param name="to">What holds now; null where nothing does.</param>
    /// <param name="because">Why, one sentence.</param>
    /// <param name="by">Name of who sets it right.</param>
    /// <param name="item">Id of the item, for an answer of the arrival inspection.</param>
    public SealedEntry Correct(SealedRun run, CorrectedFact fact, string? to, string because, string by, string? item = null)
    {
        ArgumentNullException.ThrowIfNull(run);
        Guid id = run.Record.Start.Id;
        return new EntryBook(_database, _signing).Add(id, (_, entries) => new Correction
        {
            Run = id,
            MadeAt = _time.GetUtcNow(),
            Fact = fact,
            Item = item,
            Was = CorrectedReturn.Get(CorrectedReturn.Of(run.Record.Start.Return, entries), fact, item),
            To = to,
            Because = because,
            By = by,
        });
    }

    /// <summary>Signs a run off: its sealed record and every entry made of it so far.</summary>
    /// <param name="run">The run.</param>
    /// <param name="name">Who signs.</param>
    /// <param name="role">As what.</param>
    /// <param name="statement">What is stated.</param>
    public SealedEntry SignOff(Guid run, string name, string role, string statement) =>
        new EntryBook(_database, _signing).Add(run, (hash, entries) => new SignOff
        {
            Run = run,
            MadeAt = _time.GetUtcNow(),
            Name = name,
            Role = role,
            Statement = statement,
            RunHash = hash,
            LastEntryHash = entries.Count > 0 ? entries[^1].Hash : null,
        });

    /// <summary>Adds a person's remark on a run.</summary>
    /// <param name="run">The run.</param>
    /// <param name="text">The remark.</param>
    /// <param name="by">Name of who makes it.</param>
    public SealedEntry AddNote(Guid run, string text, string by) =>
        new EntryBook(_database, _signing).Add(run, (_, _) => new Note { Run = run, MadeAt = _time.GetUtcNow(), Text = text, By = by });

    /// <summary>All that was said of a run after it was sealed, oldest first; the last judgement counts.</summary>
    public IReadOnlyList<SealedEntry> Entries(Guid run) => new EntryBook(_database, _signing).Of(run);

    /// <summary>Keeps a photo or file under the hash of its content; it belongs to a return once an entry names it.</summary>
    /// <param name="name">The name it came with.</param>
    /// <param name="bytes">The content, 1 to <see cref="MostAttachmentBytes"/> bytes.</param>
    public Attachment Attach(string name, byte[] bytes) => _attachments.Write(name, bytes);

    /// <summary>Takes a return in. One of the same number and unit takes the place of the one before, which stays in the chain.</summary>
    /// <param name="unit">The return, with a number.</param>
    /// <param name="profile">The profile whose form was filled in.</param>
    public SealedEntry TakeIn(UnitReturn unit, Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        return new ReturnBook(_database, _signing).Add(new ReturnEntry
        {
            MadeAt = _time.GetUtcNow(),
            Family = profile.Family,
            ProfileSha256 = profile.Sha256,
            Return = unit,
        });
    }

    /// <summary>A return by its number, as it stands now; null when there is none.</summary>
    public SealedEntry? FindReturn(string number) => new ReturnBook(_database, _signing).Find(number);

    /// <summary>Returns as they stand now, newest first.</summary>
    /// <param name="serial">Those of one unit; null for all.</param>
    public IReadOnlyList<SealedEntry> Returns(string? serial = null) => new ReturnBook(_database, _signing).List(serial);

    /// <summary>Sealed runs of a unit before a time, newest first: a unit that is back.</summary>
    public IReadOnlyList<EarlierVisit> EarlierVisits(string serial, DateTimeOffset before) =>
        [.. List(new RunFilter { Serial = serial, Before = before, Open = false }).Select(r => new EarlierVisit(r, (int)(before - r.StartedAt).TotalDays))];

    /// <summary>What a hub has not got yet.</summary>
    public Outbox Outbox => new(_database);

    /// <summary>Checks the whole store; no problems means that everything is as it was sealed.</summary>
    /// <param name="trusted">Fingerprints of the keys that alone may have signed; null or empty when signatures need only be good.</param>
    public IReadOnlyList<IntegrityProblem> Verify(IReadOnlyCollection<string>? trusted = null) => new Verification(_database, _traces, _attachments).Run(trusted ?? []);

    /// <summary>How much the store holds, and who signed it.</summary>
    public StoreContents Contents() => ContentsQuery.Run(_database);

    /// <summary>Copies the store and all files it names into one new file (docs/records.md), while runs may be written.</summary>
    /// <returns>What the copy holds.</returns>
    public BackupManifest BackUp(string file) => new Backup(_database, Folder, _time).Write(file);

    /// <summary>Trace files of runs that began more than some days ago, oldest first.</summary>
    /// <param name="olderThanDays">1 or more.</param>
    public IReadOnlyList<OldTrace> OldTraces(int olderThanDays) => new TraceRetention(_database, _traces, _signing, _time).Due(olderThanDays);

    /// <summary>Drops the trace files of runs that began more than some days ago, with an entry for each; records and hashes stay.</summary>
    /// <param name="olderThanDays">1 or more.</param>
    /// <param name="because">The policy, one sentence.</param>
    /// <param name="by">Name of who drops them.</param>
    /// <returns>Those that are gone.</returns>
    public IReadOnlyList<OldTrace> DropTraces(int olderThanDays, string because, string by) =>
        new TraceRetention(_database, _traces, _signing, _time).Drop(olderThanDays, because, by);

    /// <inheritdoc/>
    public void Dispose() => _database.Dispose();

    private static StoreException? Dropped(SealedRun run) => DropOf(run) is { } dropped
        ? new StoreException(
            $"the trace of run {run.Record.Start.Id:D} was dropped by policy on {dropped.MadeAt:yyyy-MM-dd} by {dropped.By} ({dropped.Because}); "
            + $"its record is whole, and a copy of the file from before has SHA-256 {dropped.TraceSha256}")
        : null;
}
