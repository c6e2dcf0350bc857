using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Running.Safety;
using CsCheck;

namespace Bench.Tests.Running.Safety;

public class MotorLimitsTests
{
    // A motor that has rested as long as it was told to may move: what is left by rounding is no heat.
    [Fact]
    public void Refusal_AfterTheRestAskedFor_IsNone() =>
        Gen.Select(Gen.Double[0.3, 2.0].Array[20, 80], Gen.Double[0.15, 1.5]).Sample((spans, amperes) =>
        {
            Profile family = VirtualRun.Diverter with { Safety = VirtualRun.Diverter.Safety with { MostDuty = 0.6, DutyWindowS = 10 } };
            MotorLimits motor = new(DriveKind.Reversing, family.Safety, WindingHeat.For(family));
            double nowS = 0;
            foreach (double span in spans)
            {
                TimeSpan on = TimeSpan.FromSeconds(span);
                nowS += motor.RestBefore(nowS, on);
                Assert.Null(motor.Refusal(nowS, DriveDirection.Up, on));
                motor.On(nowS);
                motor.Take(nowS, amperes);
                nowS += span;
                motor.Off(nowS);
            }
        });
}
