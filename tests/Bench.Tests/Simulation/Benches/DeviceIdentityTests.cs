using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;
using Bench.Simulation.Benches;
using Bench.Simulation.Time;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Benches;

/// <summary>What devices say they are, as the record of a run keeps it.</summary>
public class DeviceIdentityTests
{
    [Fact]
    public void Identify_InstrumentAndBoardSay_IsKeptAndCostsNoFailure()
    {
        VirtualTime time = new(DateTimeOffset.UnixEpoch);
        BenchFile file = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/programmable-supply.toml"), "bench.toml");
        SimulatedBench simulated = new(file, new Dictionary<string, SimulatedUnit>(), time, seed: 1);
        time.Run(async () =>
        {
            await using OpenBench bench = await BenchDevices.OpenAsync(file, new SimulatedLinkOpener(simulated, time), time, default);
            await bench.IdentifyAsync(default);
            IUnitPosition unit = bench.Position("only", Families.Diverter);
            _ = await unit.Drive.ReadBackAsync(default);
            LinkCounts supply = unit.Counts.Single(c => c.Device == "supply");
            LinkCounts board = unit.Counts.Single(c => c.Device == "io");
            Assert.Equal("Greenhouse Works,SIMULATED,0,1", supply.Identity);
            Assert.Null(supply.TurnaroundMs);
            Assert.Equal("Greenhouse Works, SIMULATED io, 1.0", board.Identity);
            Assert.InRange(board.TurnaroundMs!.Value, 0.3, 2.5);
            Assert.All(unit.Counts, c => Assert.Equal(0, c.Silent + c.Garbled + c.Refused));
            DeviceCheck check = (await bench.CheckAsync(20, default)).Single(c => c.Device == "supply");
            Assert.Equal(supply.Identity, check.Identity);
        });
    }
}
