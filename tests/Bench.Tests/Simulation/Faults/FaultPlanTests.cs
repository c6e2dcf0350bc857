using Bench.Simulation.Faults;

namespace Bench.Tests.Simulation.Faults;

public class FaultPlanTests
{
    [Fact]
    public void Draw_SameSeed_IsTheSamePlan() =>
        Assert.Equal(FaultPlan.Draw(5, tcp: false, 9.0).Faults, FaultPlan.Draw(5, tcp: false, 9.0).Faults);

    [Fact]
    public void Draw_ManySeeds_HasEveryKindAndEachOnItsOwnKindOfLink()
    {
        FaultKind[] serial = Kinds(tcp: false);
        FaultKind[] tcp = Kinds(tcp: true);
        Assert.Equal(Enum.GetValues<FaultKind>(), serial.Union(tcp).Order());
        Assert.DoesNotContain(FaultKind.BitFlipped, tcp);
        Assert.DoesNotContain(FaultKind.Reset, serial);
    }

    private static FaultKind[] Kinds(bool tcp) =>
        [.. Enumerable.Range(1, 500).SelectMany(seed => FaultPlan.Draw((ulong)seed, tcp, 9.0).Faults).Select(f => f.Kind).Distinct()];
}
