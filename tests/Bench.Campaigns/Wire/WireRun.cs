using System.Security.Cryptography;
using System.Text;
using Bench.Devices.Positions;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Running.Safety;
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
    /// <summary>Span in which faults begin, seconds: a clean run takes 8 to 12, one that sets the supply and provokes by short starts 23.</summary>
    private const double FaultsWithinS = 9.0;
    private const double FaultsWithinSupplyS = 23.0;

    /// <summary>How long the person takes to confirm, seconds; at the unit up to four times that.</summary>
    private const double ConfirmS = 0.4;
    private const double SlowestHands = 4.0;

    /// <summary>Shares of runs that a person stops, whose record can't be written from some instant on, and of answers that are no.</summary>
    private const double CancelledShare = 0.08;
    private const double UnwritableShare = 0.04;
    private const double RefusedShare = 0.03;

    private readonly VirtualTime _time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));
    private readonly ulong _seed;
    private readonly Witness _witness;
    private readonly SeededRandom _person;

    private WireRun(ulong seed)
    {
        _seed = seed;
        SeededRandom random = new SeededRandom(seed).Fork("wire run");
        Rig = Rig.All[random.Whole(0, Rig.All.Count - 1)];
        double withinS = Rig.Supply is null ? FaultsWithinS : FaultsWithinSupplyS;
        Plan = FaultPlan.Draw(seed, Rig.Bench, withinS);
        _witness = new Witness(_time);
        _person = random.Fork("person");
        if (_person.Happens(CancelledShare))
        {
            _witness.CancelledS = _person.Between(0.0, withinS);
        }
        else if (_person.Happens(UnwritableShare))
        {
            _witness.UnwritableS = _person.Between(0.0, withinS);
        }
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
            RunRecord? record = run._time.Run(() => run.ExecuteAsync(journal));
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
        HandRequest asked = new(work, _witness.NowS);
        _witness.Hands.Add(asked);
        try
        {
            TimeSpan takes = work == HandWork.DisturbConnector ? Timeout.InfiniteTimeSpan : TimeSpan.FromSeconds(ConfirmS * _person.Between(1.0, SlowestHands));
            await Task.Delay(takes, _time, cancel);
            asked.Done = !_person.Happens(RefusedShare);
            return asked.Done;
        }
        catch (OperationCanceledException)
        {
            asked.Withdrawn = true;
            throw;
        }
        finally
        {
            asked.EndedS = _witness.NowS;
        }
    }

    private async Task<RunRecord?> ExecuteAsync(HashingJournal journal)
    {
        string position = Rig.Bench.Positions[0].Name;
        SimulatedUnit unit = new(Rig.Profile, ConditionCatalog.Find("healthy"), _seed);
        SimulatedBench bench = new(Rig.Bench, new Dictionary<string, SimulatedUnit> { [position] = unit }, _time, _seed)
        {
            OutputChanged = change => _witness.Switched.Add(new Switched(_witness.NowS, change)),
            SupplySet = setting => _witness.Supply.Add(new SupplyState(_witness.NowS, setting.VoltageV, setting.On)),
        };
        BenchFaults.Schedule(Plan, bench, position, _time);
        SimulatedLinkOpener links = new(bench, _time, Plan);
        RunRecord? record = null;
        using CancellationTokenSource stop = new(
            double.IsFinite(_witness.CancelledS) ? TimeSpan.FromSeconds(_witness.CancelledS) : Timeout.InfiniteTimeSpan, _time);
        await using (OpenBench devices = await BenchDevices.OpenAsync(Rig.Bench, new WatchedLinks(links, _witness), _time, default))
        {
            TestRun run = new(new RunRequest
            {
                Start = Start(position),
                Position = devices.Position(position, Rig.Profile.Ring),
                Power = devices.PowerAt(position),
                Journal = journal,
                Time = _time,
                Operator = this,
            });
            try
            {
                record = await run.ExecuteAsync(stop.Token);
            }
            catch (Exception e) when (e is JournalException or OutputNotConfirmedException && double.IsFinite(_witness.UnwritableS))
            {
                _witness.SaidNotOff = e is OutputNotConfirmedException;
            }

            _witness.EndedS = _witness.NowS;
        }

        Plant plant = bench.Unit(position);
        _witness.HitsBesideFeedback = links.HitsBesideFeedback;
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
        _witness.SupplyOffAfterwards = _witness.Supply is not [.., { On: true }];
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
