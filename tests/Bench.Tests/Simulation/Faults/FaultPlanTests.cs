using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Simulation.Benches;
using Bench.Simulation.Faults;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Faults;

public class FaultPlanTests
{
    private static readonly DateOnly CalibratedOn = new(2026, 3, 1);
    private static readonly BenchFile Serial = BenchFileReader.Read(StandardBench.OnSerialPort("/dev/ttyUSB0", [DriveKind.Reversing], CalibratedOn), "bench.toml");
    private static readonly BenchFile Tcp = BenchFileReader.Read(StandardBench.OnTcpPort("localhost", 502, [DriveKind.Reversing], CalibratedOn), "bench.toml");
    private static readonly BenchFile WithSupply = BenchFileReader.Read(RepositoryFiles.Text("fixtures/benches/programmable-supply.toml"), "bench.toml");

    [Fact]
    public void Draw_SameSeed_IsTheSamePlan() =>
        Assert.Equal(FaultPlan.Draw(5, Serial, 9.0).Faults, FaultPlan.Draw(5, Serial, 9.0).Faults);

    [Fact]
    public void Draw_ManySeeds_HasEveryKindAndEachOnItsOwnKindOfBench()
    {
        Assert.Equal(Enum.GetValues<FaultKind>(), Kinds(WithSupply));
        Assert.DoesNotContain(FaultKind.BitFlipped, Kinds(Tcp));
        Assert.DoesNotContain(FaultKind.Reset, Kinds(Serial));
        Assert.DoesNotContain(FaultKind.SupplyRefuses, Kinds(Serial).Union(Kinds(Tcp)));
    }

    private static FaultKind[] Kinds(BenchFile bench) =>
        [.. Enumerable.Range(1, 500).SelectMany(seed => FaultPlan.Draw((ulong)seed, bench, 9.0).Faults).Select(f => f.Kind).Distinct().Order()];
}
