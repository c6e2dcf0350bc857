using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Mismatch;
using Bench.Simulation.Time;

namespace Bench.Campaigns.Confusion;

/// <summary>Draws a unit and a bench from a seed, and tests it in virtual time with the profile's whole routine.</summary>
public sealed class ConfusionRun : IOperator
{
    private static readonly DateOnly CalibratedOn = new(2026, 3, 1);
    private static readonly DateTimeOffset Begin = new(2026, 6, 1, 8, 0, 0, TimeSpan.Zero);

    /// <summary>Share of healthy units: most returns are.</summary>
    private const double HealthyShare = 0.3;

    private const string Healthy = "healthy";

    /// <summary>Links and how often each is drawn; slower ones read the position less often.</summary>
    private static readonly (string Name, int Baud, double Share)[] Links = [("rtu-115200", 115200, 0.5), ("rtu-57600", 57600, 0.2), ("tcp", 0, 0.3)];

    /// <summary>Share of benches whose supply can be set, and of runs that a person attends.</summary>
    private const double SetsSupplyShare = 0.5;
    private const double AttendedShare = 0.8;

    /// <summary>Share of units whose fault must be provoked that come to a bench which cannot.</summary>
    private const double OutOfReachShare = 0.1;

    private readonly Reach _reach;
    private SimulatedHands? _hands;

    private ConfusionRun(Reach reach) => _reach = reach;

    /// <summary>Tests the unit of a seed.</summary>
    /// <param name="seed">The seed.</param>
    /// <param name="mismatch">Whether unit and bench depart from the ordinary model, as the seed says.</param>
    public static TestedUnit Of(ulong seed, bool mismatch)
    {
        SeededRandom random = new(seed);
        Profile profile = Of(random, ShippedFamilies.All);
        string condition = random.Happens(HealthyShare) ? Healthy : Of(random, Truth.Faults(profile));
        (string link, int baud, _) = Draw(random.Next());
        Symptom symptom = random.Happens(0.5) ? Symptom.Constant : Symptom.Intermittent;
        Reach reach = new(random.Happens(SetsSupplyShare), random.Happens(AttendedShare));
        if (Reach.StageFor(condition) is not null)
        {
            // What must be provoked comes and goes in the field; and most such units go to the bench that can provoke it.
            symptom = Symptom.Intermittent;
            reach = random.Happens(OutOfReachShare) ? new Reach(SetsSupply: false, IsAttended: false) : new Reach(SetsSupply: true, IsAttended: true);
        }

        return new ConfusionRun(reach).Run(seed, profile, condition, link, baud, symptom, mismatch);
    }

    /// <summary>Tests a healthy unit at the slowest link, where the ring takes longest, and provokes nothing.</summary>
    /// <param name="profile">Its family.</param>
    /// <param name="seed">The seed.</param>
    /// <param name="mismatch">See <see cref="Of(ulong, bool)"/>.</param>
    public static TestedUnit HealthyAtSlowestLink(Profile profile, ulong seed, bool mismatch)
    {
        (string link, int baud, _) = Links.Where(l => l.Baud > 0).MinBy(l => l.Baud);
        return new ConfusionRun(new Reach(SetsSupply: false, IsAttended: true)).Run(seed, profile, Healthy, link, baud, Symptom.Constant, mismatch);
    }

    /// <inheritdoc/>
    public bool CanAsk(HandWork work) => work == HandWork.UncoupleValve || _reach.IsAttended;

    /// <inheritdoc/>
    public ValueTask<bool> ConfirmAsync(string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(true);

    /// <inheritdoc/>
    public async ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel)
    {
        if (work == HandWork.UncoupleValve)
        {
            _hands!.Uncouple();
        }
        else if (work == HandWork.DisturbConnector)
        {
            await _hands!.MoveConnectorAsync(cancel);
        }

        return true;
    }

    private TestedUnit Run(ulong seed, Profile profile, string condition, string link, int baud, Symptom symptom, bool mismatched)
    {
        ModelMismatch? mismatch = mismatched ? ModelMismatch.Draw(seed) : null;
        BenchFile file = BenchFileReader.Read(
            baud == 0
                ? StandardBench.OnTcpPort("localhost", 502, [profile.Drive], CalibratedOn, _reach.SetsSupply)
                : StandardBench.OnSerialPort("/dev/ttyUSB0", [profile.Drive], CalibratedOn, baud, _reach.SetsSupply),
            "bench.toml");
        VirtualTime time = new(Begin);
        RunRecord record = time.Run(() => ExecuteAsync(file, profile, condition, symptom, seed, mismatch, time));
        return new TestedUnit(seed, profile.Family, condition, link, Truth.Of(profile.Family, condition), mismatch?.Variations ?? [], _reach, record);
    }

    private static (string Name, int Baud, double Share) Draw(double at)
    {
        foreach ((string Name, int Baud, double Share) link in Links)
        {
            if (at < link.Share)
            {
                return link;
            }

            at -= link.Share;
        }

        return Links[0];
    }

    private static T Of<T>(SeededRandom random, IReadOnlyList<T> all) => all[random.Whole(0, all.Count - 1)];

    private async Task<RunRecord> ExecuteAsync(BenchFile file, Profile profile, string condition, Symptom symptom, ulong seed, ModelMismatch? mismatch, VirtualTime time)
    {
        UnitPositionDescription position = file.Positions[0];
        SimulatedUnit unit = new(profile, ConditionCatalog.Find(condition), seed, mismatch);
        SimulatedBench bench = new(file, new Dictionary<string, SimulatedUnit> { [position.Name] = unit }, time, seed);
        _hands = new SimulatedHands(bench, position.Name, time);
        SimulatedLinkOpener opener = new(bench, time) { Later = mismatch?.Turnarounds(time) };
        await using OpenBench devices = await BenchDevices.OpenAsync(file, opener, time, default);
        return await new TestRun(new RunRequest
        {
            Start = Start(file, position, profile, condition, symptom),
            Position = devices.Position(position.Name, profile),
            Journal = new NoJournal(),
            Time = time,
            Operator = this,
            Power = devices.PowerAt(position.Name),
        }).ExecuteAsync(default);
    }

    private static RunStart Start(BenchFile file, UnitPositionDescription position, Profile profile, string condition, Symptom symptom) => new()
    {
        Id = new Guid("018f0000-0000-7000-8000-000000000001"),
        StartedAt = Begin,
        Return = new UnitReturn { Serial = "GH-1", Symptom = symptom },
        Bench = new BenchSnapshot
        {
            Name = file.Name,
            Position = position.Name,
            SupplyCurrentLimitA = file.SupplyCurrentLimitA,
            Current = position.Current,
            Voltage = position.Voltage,
            HasIndex = position.Index is not null,
            HasEmergencyStop = position.EmergencyStop is not null,
            LastDroveHours = 0.1,
            Sha256 = file.Sha256,
        },
        Profile = profile,
        Software = "campaign",
        Simulated = true,
        SimulatedCondition = condition,
    };
}
