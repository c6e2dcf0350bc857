using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;

namespace Bench.Tests.Running;

/// <summary>A run at every position of one simulated bench, all at once in virtual time, over one open bench.</summary>
internal sealed class SeveralRuns : IOperator
{
    private readonly BenchFile _file;
    private readonly Profile[] _profiles;

    /// <summary>Puts units into a bench's positions.</summary>
    /// <param name="file">The bench.</param>
    /// <param name="units">One unit for each of its first positions: profile and condition.</param>
    public SeveralRuns(BenchFile file, params (Profile Profile, string Condition)[] units)
    {
        _file = file;
        _profiles = [.. units.Select(u => u.Profile)];
        Dictionary<string, SimulatedUnit> placed = [];
        for (int i = 0; i < units.Length; i++)
        {
            placed[file.Positions[i].Name] = new SimulatedUnit(units[i].Profile, ConditionCatalog.Find(units[i].Condition), (ulong)i + 1);
        }

        Bench = new SimulatedBench(file, placed, Time, 1);
        Journals = [.. units.Select(_ => new MemoryJournal())];
    }

    public VirtualTime Time { get; } = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));

    public SimulatedBench Bench { get; }

    /// <summary>One for each run, in the order of positions.</summary>
    public IReadOnlyList<MemoryJournal> Journals { get; }

    /// <summary>Stops them all.</summary>
    public CancellationTokenSource Cancel { get; } = new();

    /// <summary>Who confirms; everybody says yes when nobody is given.</summary>
    public IOperator? Operator { get; set; }

    /// <summary>Whether the relays of every position are off, as they truly are.</summary>
    public bool OutputsAreOff => _file.Positions.Take(_profiles.Length).All(p => !Bench.Unit(p.Name).UpCoil && !Bench.Unit(p.Name).DownCoil);

    /// <summary>A bench on one serial port.</summary>
    public static BenchFile OnOneBus(int baud, params Profile[] profiles) => BenchFileReader.Read(
        StandardBench.OnSerialPort("/dev/ttyUSB0", [.. profiles.Select(p => p.Drive)], new DateOnly(2026, 3, 1), baud), "bench.toml");

    /// <summary>Does something after a time.</summary>
    public void After(double ms, Action act) =>
        Time.CreateTimer(_ => act(), null, TimeSpan.FromMilliseconds(ms), Timeout.InfiniteTimeSpan);

    /// <summary>Runs them all.</summary>
    /// <param name="powered">Whether the runs switch the bench's supplies.</param>
    public RunRecord[] Execute(bool powered = false) => Time.Run(async () =>
    {
        await using OpenBench devices = await BenchDevices.OpenAsync(_file, new SimulatedLinkOpener(Bench, Time), Time, default);
        TestRun[] runs = [.. _profiles.Select((profile, i) => new TestRun(new RunRequest
        {
            Start = Start(i),
            Position = devices.Position(_file.Positions[i].Name, profile),
            Journal = Journals[i],
            Time = Time,
            Operator = Operator ?? this,
            Power = powered ? devices.PowerAt(_file.Positions[i].Name) : null,
        }))];
        return await Task.WhenAll(runs.Select(r => r.ExecuteAsync(Cancel.Token)));
    });

    // Beside units that may turn nobody takes one apart.
    public ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel) =>
        new(work == HandWork.ReseatFeedback);

    public ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(true);

    private RunStart Start(int i) => new()
    {
        Id = Guid.CreateVersion7(Time.GetUtcNow()),
        StartedAt = Time.GetUtcNow(),
        Return = new UnitReturn { Serial = $"GH-{_file.Positions[i].Name}", Symptom = Symptom.Intermittent },
        Bench = BenchSnapshot.Of(_file, _file.Positions[i], 0.1),
        Profile = _profiles[i],
        Software = "test",
        Simulated = true,
    };
}
