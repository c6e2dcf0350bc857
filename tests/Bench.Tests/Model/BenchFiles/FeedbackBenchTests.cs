using Bench.Model.BenchFiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>Reading a bench with a counter and port switches.</summary>
public class FeedbackBenchTests
{
    private static readonly string Text = RepositoryFiles.Text("fixtures/benches/other-feedbacks.toml");

    [Fact]
    public void Read_OtherFeedbacks_GivesTheirValues()
    {
        BenchFile bench = BenchFileReader.Read(Text, "b.toml");
        Assert.Equal(
            new CounterDescription { Bits = 12, CountsPerRevolution = 3200, Reversed = true, HomeCount = 200 }, bench.Positions[0].Counter);
        Assert.Null(bench.Positions[1].Count);
        Assert.Equal(["A", "B", "C", "D"], bench.Positions[1].Switches.Select(s => s.Port));
        Assert.Equal(new Channel("feedback-right", RegisterTable.DiscreteInput, 3, ActiveLow: true), bench.Positions[1].Switches[3].Input);
    }

    [Theory]
    [InlineData("feedback = \"incremental\"", "feedback = \"incremental-counter\"", "position[1].feedback: found \"incremental-counter\"; allowed: \"ring\", \"incremental\", \"switches\"", true)]
    [InlineData("feedback = \"incremental\"", "feedback = \"ring\"", "position[1].counter: found a table; only for feedback = \"incremental\"; remove it", true)]
    [InlineData("counter = { bits = 12, counts_per_revolution = 3200, reversed = true, home_count = 200 }", "", "position[1].counter: found nothing; the table [position.counter] is required", true)]
    [InlineData("counts_per_revolution = 3200", "count_per_revolution = 3200", "position[1].counter.count_per_revolution: found an unknown key; did you mean 'counts_per_revolution'?", true)]
    [InlineData("bits = 12", "bits = 24", "position[1].counter.bits: found 24; a whole number from 8 to 16 is allowed", false)]
    [InlineData("feedback = \"switches\"", "feedback = \"switches\"\ncount = { device = \"feedback-right\", input_register = 0 }", "position[2].count: found a table; port switches give no count; remove it", true)]
    [InlineData("feedback = \"switches\"", "feedback = \"ring\"", "position[2].switch: found a list; only for feedback = \"switches\"; remove it", true)]
    [InlineData("port = \"B\"", "port = \"A\"", "position[2].switch[2].port: found \"A\"; each port is allowed once", false)]
    [InlineData("port = \"B\"", "", "position[2].switch[2].port: found nothing; this key is required", true)]
    [InlineData("discrete_input = 2", "discrete_input = 1", "found discrete-input 1 of feedback-right again; each register or input of a unit is allowed once", false)]
    [InlineData("discrete_input = 2", "input_register = 1", "position[2].switch[3].bit: found nothing; a whole number from 0 to 15 is required: which bit of the register", true)]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected, bool inSchema)
    {
        string text = Refusal.Break(Text, part, by);
        Assert.Contains(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")), m => m.Contains(expected, StringComparison.Ordinal));
        Assert.Equal(!inSchema, SchemaTests.BenchPasses(text));
    }
}
