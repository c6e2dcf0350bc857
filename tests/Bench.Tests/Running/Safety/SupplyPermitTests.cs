using Bench.Model.Instruments;
using Bench.Running.Safety;
using CsCheck;

namespace Bench.Tests.Running.Safety;

/// <summary>Leave to set the supply: what nobody may raise under a unit.</summary>
public class SupplyPermitTests : GateTrial
{
    // Whatever is asked for: leave is given only for a voltage that unit and bench both allow, armed and confirmed off; and nothing
    // is switched on before the voltage is known.
    [Fact]
    public void PermitSupply_AnyVoltage_IsWithinWhatUnitAndBenchAllow() => Gen.Select(
        Gen.Double[0, 60], Gen.Double[15, 24], Gen.Double[24, 33], Gen.Double[10, 24], Gen.Double[24, 40]).Sample((asked, unitLow, unitHigh, benchLow, benchHigh) =>
        {
            SupplyRange allowed = new SupplyRange(unitLow, unitHigh).And(new SupplyRange(benchLow, benchHigh));
            bool may = asked >= unitLow && asked <= unitHigh && asked >= benchLow && asked <= benchHigh;
            new SupplyPermitTests().Try(
                async gate =>
                {
                    Assert.Throws<GateRefusedException>(() => gate.PermitSupply(asked));
                    await gate.ConfirmSafeStateAsync();
                    gate.Confirm("GH-1");
                    if (!may)
                    {
                        Assert.Throws<GateRefusedException>(() => gate.PermitSupply(asked));
                        await On(gate, DriveDirection.Up);
                        return;
                    }

                    Assert.Equal(asked, gate.PermitSupply(asked).VoltageV);
                    await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
                    gate.SupplyIsKnown();
                    await On(gate, DriveDirection.Up);
                    Assert.Throws<GateRefusedException>(() => gate.PermitSupply(asked));
                },
                supply: allowed);
        }, iter: 200);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-24.0)]
    public void PermitSupply_NoVoltage_IsRefused(double volt) => Try(
        async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            Assert.Throws<GateRefusedException>(() => gate.PermitSupply(volt));
        },
        supply: new SupplyRange(20.4, 28.8));

    [Fact]
    public void PermitSupply_OffIsNotConfirmed_IsRefused() => Try(
        async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            gate.Contradict("a current flows");
            Assert.Throws<GateRefusedException>(() => gate.PermitSupply(24));
        },
        supply: new SupplyRange(20.4, 28.8));

    // What is asked for at an end of the range lies inside by the tolerance that a read-back is allowed.
    [Fact]
    public void SupplyRange_SettingsAtItsEnds_StayInsideWhateverTheToleranceDoes() => Gen.Select(Gen.Double[1, 60], Gen.Double[1.02, 3], Gen.Double[-1, 1]).Sample((low, ratio, off) =>
        {
            SupplyRange range = new(low, low * ratio);
            double share = 1 + (off * SupplyRange.SettingTolerance);
            Assert.True(range.LowestSettingV * share >= low * (1 - 1e-12));
            Assert.True(range.HighestSettingV * share <= range.HighestV * (1 + 1e-12));
        });
}
