using Bench.Devices.Links;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Bench.Simulation.Units;
using Bench.Tests.Model;

namespace Bench.Tests.Running;

/// <summary>One run of a simulated unit in virtual time: the same runner and devices as on a real bench.</summary>
internal sealed class VirtualRun : IOperator
{
    private readonly Profile _profile;
    private readonly BenchFile _file;
    private readonly List<CancellationToken> _questions = [];

    /// <summary>A run of one unit.</summary>
    /// <param name="profile">Its profile.</param>
    /// <param name="condition">Its condition.</param>
    /// <param name="seed">Which unit of the family it is.</param>
    /// <param name="file">The bench; null for the common one.</param>
    /// <param name="chance">Seed of the bench's noise; null for that of the unit.</param>
    public VirtualRun(Profile profile, string condition = "healthy", ulong seed = 1, BenchFile? file = null, ulong? chance = null)
        : this(profile, ConditionCatalog.Find(condition), seed, file, chance)
    {
    }

    /// <summary>As above, in a condition that the catalog need not have.</summary>
    public VirtualRun(Profile profile, ICondition condition, ulong seed = 1, BenchFile? file = null, ulong? chance = null)
    {
        _profile = profile;
        _file = file ?? BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", [profile.Drive], new DateOnly(2026, 3, 1)), "bench.toml");
        Bench = new SimulatedBench(
            _file,
            new Dictionary<string, SimulatedUnit> { [Position] = new(profile, condition, seed) },
            Time,
            chance ?? seed);
    }

    /// <summary>The diverter with its whole routine.</summary>
    public static Profile Diverter { get; } =
        ProfileReader.Read(RepositoryFiles.Text("profiles/nutrient-diverter-4.toml"), "nutrient-diverter-4.toml");

    /// <summary>The selector with its whole routine.</summary>
    public static Profile Selector { get; } =
        ProfileReader.Read(RepositoryFiles.Text("profiles/zone-selector-3.toml"), "zone-selector-3.toml");

    /// <summary>A bench with a programmable supply that may be set from 18 to 30 V; its position is "only".</summary>
    public static BenchFile Powered { get; } =
        BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/programmable-supply.toml"), "programmable-supply.toml");

    /// <summary>The diverter with a routine of a few seconds: supply, homing, two port moves.</summary>
    public static Profile Short { get; } = Diverter with
    {
        Routine =
        [
            new Stage { Kind = StageKind.Supply, MostS = 0.2 },
            new Stage { Kind = StageKind.Homing, MostS = 20, Revolutions = 0, SettleMs = 200 },
            new Stage { Kind = StageKind.PortMoves, MostS = 20, MostMoves = 2, SettleMs = 200 },
        ],
    };

    public VirtualTime Time { get; } = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));

    /// <summary>The clock the run is given, when it is not <see cref="Time"/> itself.</summary>
    public TimeProvider? Clock { get; set; }

    public SimulatedBench Bench { get; }

    public MemoryJournal Journal { get; } = new();

    public CancellationTokenSource Cancel { get; } = new();

    public bool Confirms { get; set; } = true;

    /// <summary>Who watches the run.</summary>
    public IRunObserver? Observer { get; init; }

    /// <summary>What was found on arrival.</summary>
    public IReadOnlyList<InspectionAnswer> Inspection { get; init; } = [];

    /// <summary>What the field reported.</summary>
    public Symptom Symptom { get; set; } = Symptom.Intermittent;

    /// <summary>What the person does who is asked to reseat the connector, five seconds later; whether it was done.</summary>
    public Func<VirtualRun, bool> Reseats { get; set; } = _ => true;

    /// <summary>As <see cref="Reseats"/>, asked to take the valve off.</summary>
    public Func<VirtualRun, bool> Uncouples { get; set; } = r =>
    {
        r.Bench.Uncouple(r.Position);
        return true;
    };

    /// <summary>Whether there is anybody to move a connector.</summary>
    public bool Attended { get; set; } = true;

    /// <summary>Whether the person comes near a connector that is to be moved, and steps back after it.</summary>
    public bool Approaches { get; set; } = true;

    public bool Leaves { get; set; } = true;

    /// <summary>How long the person moves it if not told to stop, seconds.</summary>
    public double MovesForS { get; set; } = 300;

    /// <summary>How often a person was asked to do something.</summary>
    public int Asked { get; private set; }

    /// <summary>How many of these questions still stand.</summary>
    public int Standing => _questions.Count(q => !q.IsCancellationRequested);

    /// <summary>Where the run looks for the board's watchdog; the simulated board has it in register 0.</summary>
    public int WatchdogRegister { get; set; }

    /// <summary>Does something after a time.</summary>
    public void After(double ms, Action act) =>
        Time.CreateTimer(_ => act(), null, TimeSpan.FromMilliseconds(ms), Timeout.InfiniteTimeSpan);

    /// <summary>Welds a contact of the unit's relays.</summary>
    public void Weld(bool up)
    {
        if (up)
        {
            Bench.StickUp(Position);
        }
        else
        {
            Bench.StickDown(Position);
        }
    }

    /// <summary>Burns a contact of the unit's relays, so that it does not make.</summary>
    public void Burn(bool up)
    {
        if (up)
        {
            Bench.BurnUp(Position);
        }
        else
        {
            Bench.BurnDown(Position);
        }
    }

    /// <summary>The unit's relays as they truly are.</summary>
    public Plant Unit => Bench.Unit(Position);

    public bool OutputsAreOff => !Unit.UpCoil && !Unit.DownCoil;

    private BenchFile File() => _file with
    {
        Devices = [.. _file.Devices.Select(d => d.Watchdog is null ? d : d with { Watchdog = d.Watchdog with { HoldingRegister = WatchdogRegister } })],
    };

    private string Position => _file.Positions[0].Name;

    public RunRecord Execute(Func<ILinkOpener, ILinkOpener>? links = null) => Time.Run(async () =>
    {
        ILinkOpener opener = new SimulatedLinkOpener(Bench, Time);
        await using OpenBench devices = await BenchDevices.OpenAsync(File(), links?.Invoke(opener) ?? opener, Time, default);
        return await new TestRun(new RunRequest
        {
            Start = Start(),
            Position = devices.Position(Position, _profile.Ring),
            Journal = Journal,
            Time = Clock ?? Time,
            Operator = this,
            Power = devices.PowerAt(Position),
            Observer = Observer,
        }).ExecuteAsync(Cancel.Token);
    });

    public ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(Confirms);

    public bool CanAsk(HandWork work) => Attended;

    public async ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel)
    {
        Asked++;
        _questions.Add(cancel);
        bool done = await DoneAsync(work, cancel);
        _questions.Remove(cancel);
        return done;
    }

    private async Task<bool> DoneAsync(HandWork work, CancellationToken cancel)
    {
        if (work == HandWork.DisturbConnector)
        {
            await new SimulatedHands(Bench, Position, Time).MoveConnectorAsync(cancel, MovesForS);
            return true;
        }

        await Task.Delay(TimeSpan.FromSeconds(5), Time, cancel);
        return work switch
        {
            HandWork.UncoupleValve => Uncouples(this),
            HandWork.ApproachConnector => Approaches,
            HandWork.LeaveConnector => Leaves,
            _ => Reseats(this),
        };
    }

    private RunStart Start() => new()
    {
        Id = new Guid("018f0000-0000-7000-8000-000000000001"),
        StartedAt = Time.GetUtcNow(),
        Return = new UnitReturn { Serial = "GH-1", Symptom = Symptom, Inspection = Inspection },
        Bench = BenchSnapshot.Of(_file, _file.Positions[0], 0.1),
        Profile = _profile,
        Software = "test",
        Simulated = true,
    };
}
