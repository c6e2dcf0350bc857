using Bench.Reporting.Text;
using CsCheck;

namespace Bench.Tests.Reporting.Text;

public class VerdictTextTests
{
    [Fact]
    public void Write_DeadSensors_SaysVerdictReasonsWorkAndNextStep()
    {
        const string expected =
            """
            verdict ◆ REPAIRABLE (simulated)
            unit    ND4-002417, Nutrient diverter, four ports
            claim   confirmed: the claimed feedback fault was found
            because - Sensors never seen: 6, allowed at most 0; counts 317 to 322 were
                    passed 41 times or more and never seen.
                    - Sensors seen too seldom: 10, allowed at most 0; counts 640 to 649.
                    - 2 of 52 moves failed; the share of failing moves is shown to be too
                    great.
                    - and 1 more reason in the packet
            cause   dead sensors, 87.3 %
            work    2 items, 42 min, 73.50 crowns
            next    Take the unit to the repair bench: clean the ring, then replace it, and
                    run again.
            outputs confirmed off
            run     0198c0de-0000-7000-8000-000000000001

            """;

        Assert.Equal(expected.ReplaceLineEndings("\n"), VerdictText.Write(SampleRun.DeadSensors().Run));
    }

    [Fact]
    public void Write_AbortedWithOutputsNotConfirmed_WarnsInWordsAndShape()
    {
        string text = VerdictText.Write(SampleRun.AbortedWithoutFeatures().Run);

        Assert.Contains("▲ ABORTED", text, StringComparison.Ordinal);
        Assert.Contains("▲ NOT confirmed off", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_AnyWidth_KeepsLinesWithinIt() =>
        Gen.Int[VerdictText.LeastWidth, 140].Sample(
            width => VerdictText.Write(SampleRun.Held().Run, width).Split('\n')
                .All(line => line.Length <= width || line.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length <= 2),
            iter: 40);

    [Fact]
    public void Write_SerialThatWouldDriveATerminal_IsMadeHarmless()
    {
        SampleRun run = SampleRun.Healthy().With(s => s with { Return = s.Return with { Serial = "\u001b[31mX\u0007\u202Ey" } });

        string text = VerdictText.Write(run.Run);

        Assert.DoesNotContain(text, c => char.IsControl(c) && c != '\n');
        Assert.DoesNotContain('\u202E', text);
    }
}
