using System.Security.Cryptography;
using System.Text;
using Bench.Devices.Positions;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Chance;
using Bench.Simulation.Conditions;
using Bench.Simulation.Faults;
using Bench.Simulation.Time;
using Bench.Simulation.Units;

namespace Bench.Campaigns.Wire;

/// <summary>One run of a healthy unit under a plan of faults; all of it follows from the seed.</summary>
public sealed class WireRun : IOperator
{
    /// <summary>Span in which faults begin, seconds: a clean run takes 8 to 12.</summary>
    private const double FaultsWithinS = 9.0;

    /// <summary>How long the person takes to confirm, seconds.</summary>
    private const double ConfirmS = 0.4;

    private readonly VirtualTime _time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));
    private readonly ulong _seed;
    private readonly Witness _witness;

    private WireRun(ulong seed)
    {
        _seed = seed;
        SeededRandom random = new SeededRandom(seed).Fork("wire run");
        Rig = Rig.All[random.Whole(0, Rig.All.Count - 1)];
        Plan = FaultPlan.Draw(seed, Rig.IsTcp, FaultsWithinS);
        _witness = new Witness(_time);
    }

    /// <summary>Family and bench.</summary>
    public Rig Rig { get; }

    /// <summary>The faults.</summary>
    public FaultPlan Plan { get; }

    /// <summary>Runs one seed and lets the oracle look at it.</summary>
    public static WireResult Of(ulong seed)
    {
        WireRun run = new(seed);
        using HashingJournal journal = new(run._witness);
        try
        {
            RunRecord record = run._time.Run(() => run.ExecuteAsync(journal));
            return new WireResult(seed, run.Rig, run.Plan, run._witness, record, journal.Hash, Oracle.Look(run.Rig, run.Plan, run._witness, record));
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // Whatever a run throws is a finding of the campaign, not its end.
            byte[] hash = SHA256.HashData(Encoding.UTF8.GetBytes($"{e.GetType()}: {e.Message}"));
            return new WireResult(seed, run.Rig, run.Plan, run._witness, null, hash, [new Violation("threw", $"{e.GetType().Name}: {e.Message}")]);
        }
    }

    /// <inheritdoc/>
    public async ValueTask<bool> ConfirmAsync(
        string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel)
    {
        await Task.Delay(TimeSpan.FromSeconds(ConfirmS), _time, cancel);
        _witness.ConfirmedS = _witness.NowS;
        return true;
    }

    /// <inheritdoc/>
    public async ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel)
    {
        if (work == HandWork.DisturbConnector)
        {
            await Task.Delay(Timeout.InfiniteTimeSpan, _time, cancel);
        }

        await Task.Delay(TimeSpan.FromSeconds(ConfirmS), _time, cancel);
        if (work == HandWork.ApproachConnector)
        {
            _witness.HandsFromS = _witness.NowS;
        }
        else if (work == HandWork.LeaveConnector)
        {
            _witness.HandsToS = _witness.NowS;
        }

        return true;
    }

    private async Task<RunRecord> ExecuteAsync(HashingJournal journal)
    {
        string position = Rig.Bench.Positions[0].Name;
        SimulatedUnit unit = new(Rig.Profile, ConditionCatalog.Find("healthy"), _seed);
        SimulatedBench bench = new(Rig.Bench, new Dictionary<string, SimulatedUnit> { [position] = unit }, _time, _seed)
        {
            OutputChanged = change => _witness.Switched.Add(new Switched(_witness.NowS, change)),
        };
        BenchFaults.Schedule(Plan, bench, position, _time);
        SimulatedLinkOpener links = new(bench, _time, Plan);
        RunRecord record;
        await using (OpenBench devices = await BenchDevices.OpenAsync(Rig.Bench, new WatchedLinks(links, _witness), _time, default))
        {
            record = await new TestRun(new RunRequest
            {
                Start = Start(position),
                Position = devices.Position(position, Rig.Profile.Ring),
                Journal = journal,
                Time = _time,
                Operator = this,
            }).ExecuteAsync(default);
        }

        Plant plant = bench.Unit(position);
        _witness.HitsBesideFeedback = links.HitsBesideFeedback;
        _witness.EndedS = _witness.NowS;
        _witness.CoilOnAtEnd = plant.UpCoil || plant.DownCoil;
        _witness.DrivenAtEnd = !_witness.CoilOnAtEnd && plant.MotorRadPerS != 0.0 && plant.SupplyCurrentA > Rig.Profile.Electrical.NoLoadCurrentA;
        await AfterwardsAsync(links, plant);
        return record;
    }

    // What a person does: when the trouble is over, open the bench anew and switch everything off.
    private async Task AfterwardsAsync(SimulatedLinkOpener links, Plant plant)
    {
        double overS = Plan.Faults.Where(f => !f.ForGood).Select(f => f.EndS).DefaultIfEmpty(0.0).Max() + 0.5;
        if (overS > _witness.NowS)
        {
            await Task.Delay(TimeSpan.FromSeconds(overS - _witness.NowS), _time);
        }

        await using OpenBench anew = await BenchDevices.OpenAsync(Rig.Bench, links, _time, default);
        IReadOnlyList<SafeStateResult> states = await anew.SwitchEverythingOffAsync(default);
        _witness.OffAfterwards = states.All(s => s.ConfirmedOff) && !plant.UpCoil && !plant.DownCoil;
    }

    private RunStart Start(string position) => new()
    {
        Id = new Guid("018f0000-0000-7000-8000-000000000001"),
        StartedAt = _time.GetUtcNow(),
        Return = new UnitReturn { Serial = "GH-1", Symptom = Symptom.Intermittent },
        Bench = BenchSnapshot.Of(Rig.Bench, Rig.Bench.Positions[0]),
        Profile = Rig.Profile,
        Software = "campaign",
        Simulated = true,
    };
}
