using Bench.Cli.Intakes;
using Bench.Cli.Logging;
using Bench.Cli.Running;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Model.Runs;
using Bench.Records;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Time;
using Serilog;

namespace Bench.Cli.Demonstrating;

/// <summary>Tests one made-up return on a simulated bench in virtual time, through the same runner, devices and records as a real one.</summary>
internal static class DemoRun
{
    /// <summary>Runs it on the calling thread; one that must not be energised is judged by its inspection alone.</summary>
    /// <param name="unit">The unit.</param>
    /// <param name="taken">Its return as it was taken in.</param>
    /// <param name="seed">Seed of unit and bench.</param>
    /// <param name="now">When it begins.</param>
    /// <param name="store">Where it is recorded.</param>
    /// <param name="log">Where it is logged.</param>
    /// <param name="cancel">Ends it.</param>
    public static RunRecord Run(DemoUnit unit, TakenReturn taken, ulong seed, DateTimeOffset now, RecordStore store, ILogger log, CancellationToken cancel)
    {
        Profile profile = ShippedProfiles.Get(unit.Family);
        DateOnly calibrated = DateOnly.FromDateTime(now.UtcDateTime).AddMonths(-4);
        BenchFile file = BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", [profile.Drive], calibrated), "demo-bench.toml");
        RunStart start = new()
        {
            Id = Guid.CreateVersion7(now),
            StartedAt = now,
            Return = taken.For(profile),
            Bench = BenchSnapshot.Of(file, file.Positions[0], 0.1),
            Profile = profile,
            Software = RunSession.Software,
            Simulated = true,
            SimulatedCondition = unit.Condition,
        };
        if (ArrivalInspection.WhyNotToEnergise(start.Return, profile) is not null)
        {
            using IRunJournal journal = new LoggedJournal(store.Begin(start), start, log);
            return UntestedUnit.Judge(start, journal);
        }

        VirtualTime time = new(now);
        return time.Run(async () =>
        {
            string name = file.Positions[0].Name;
            SimulatedUnit simulated = new(profile, ConditionCatalog.Find(unit.Condition), seed);
            SimulatedBench bench = new(file, new Dictionary<string, SimulatedUnit> { [name] = simulated }, time, seed);
            await using OpenBench devices = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(bench, time), time, cancel);
            return await RunSession.RunAsync(
                start, devices.Position(name, profile), store, log, time, new SimulatedOperator(bench, name, time), null, devices.PowerAt(name), cancel);
        });
    }

    /// <summary>There is nobody at a simulated bench, and nothing that could hurt; what is asked for is done to the simulated unit.</summary>
    private sealed class SimulatedOperator(SimulatedBench bench, string position, TimeProvider time) : IOperator
    {
        public ValueTask<bool> ConfirmAsync(
            string serial, IReadOnlyList<string> cautions, IReadOnlyList<string> wiring, CancellationToken cancel) => new(true);

        private readonly SimulatedHands _hands = new(bench, position, time);

        public async ValueTask<bool> HasDoneAsync(HandWork work, string serial, string why, IReadOnlyList<string> steps, CancellationToken cancel)
        {
            if (work == HandWork.UncoupleValve)
            {
                _hands.Uncouple();
            }
            else if (work == HandWork.DisturbConnector)
            {
                await _hands.MoveConnectorAsync(cancel);
            }

            return true;
        }
    }
}
