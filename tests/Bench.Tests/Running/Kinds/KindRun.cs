using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Simulation.Units;
using Bench.Tests.Model;

namespace Bench.Tests.Running.Kinds;

/// <summary>One run of a simulated unit of any kind on the bench of a file, in virtual time and over its byte link.</summary>
internal sealed class KindRun : IOperator
{
    private readonly Profile _profile;
    private readonly BenchFile _file;

    public KindRun(string bench, Profile profile, string condition = "healthy", ulong seed = 1)
        : this(bench, profile, ConditionCatalog.Find(condition), seed)
    {
    }

    public KindRun(string bench, Profile profile, ICondition condition, ulong seed, Func<string, string>? rewire = null)
    {
        _profile = profile;
        string text = RepositoryFiles.Text($"fixtures/benches/{bench}.toml");
        _file = BenchFileReader.Read(rewire?.Invoke(text) ?? text, bench);
        Bench = new SimulatedBench(
            _file, new Dictionary<string, SimulatedUnit> { [Position.Name] = new(profile, condition, seed) }, Time, seed);
    }

    public VirtualTime Time { get; } = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));

    public SimulatedBench Bench { get; }

    public MemoryJournal Journal { get; } = new();

    public Plant Unit => Bench.Unit(Position.Name);

    private UnitPositionDescription Position => _file.Positions[0];

    public static Profile Profile(string family) => ProfileReader.Read(RepositoryFiles.Text($"profiles/{family}.toml"), $"{family}.toml");

    public bool Confirms { get; set; } = true;

    public RunRecord Execute(Func<ILinkOpener, ILinkOpener>? links = null) => Time.Run(async () =>
    {
        ILinkOpener opener = new SimulatedLinkOpener(Bench, Time);
        await using OpenBench devices = await BenchDevices.OpenAsync(_file, links?.Invoke(opener) ?? opener, Time, default);
        return await new TestRun(new RunRequest
        {
            Start = Start(),
            Position = devices.Position(Position.Name, _profile),
            Journal = Journal,
            Time = Time,
            Operator = this,
        }).ExecuteAsync(default);
    });

    public ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(Confirms);

    public ValueTask<bool> HasDoneAsync(HandWork work, string serial, string what, IReadOnlyList<string> cautions, CancellationToken cancel)
    {
        if (work == HandWork.UncoupleValve)
        {
            Bench.Uncouple(Position.Name);
        }

        return new(true);
    }

    private RunStart Start() => new()
    {
        Id = new Guid("018f0000-0000-7000-8000-000000000003"),
        StartedAt = Time.GetUtcNow(),
        Return = new UnitReturn { Serial = "GH-3", Symptom = Symptom.Intermittent },
        Bench = BenchSnapshot.Of(_file, Position, 0.1),
        Profile = _profile,
        Software = "test",
        Simulated = true,
    };
}
