using Bench.Model.BenchFiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>Numbers of one and two registers in the bench file.</summary>
public class RegisterTypeTests
{
    private const string Count = "count = { device = \"feedback\", input_register = 0 }";
    private const string Current = "input_register = 3";

    [Fact]
    public void Read_TypesAndWordOrders_GivesThem()
    {
        string text = Refusal.Break(SmallBench.Text, Count, "count = { device = \"feedback\", input_register = 0, type = \"uint32\", words = \"low-first\" }");
        text = Refusal.Break(text, Current, "input_register = 6\ntype = \"float32\"");
        BenchFile bench = BenchFileReader.Read(text, "b.toml");
        Assert.Equal(new Channel("feedback", RegisterTable.InputRegister, 0) { Type = RegisterType.Uint32, Words = WordOrder.LowFirst }, bench.Positions[0].Count);
        Assert.Equal(new Channel("io", RegisterTable.InputRegister, 6) { Type = RegisterType.Float32 }, bench.Positions[0].Current.Channel);
        Assert.Equal(RegisterType.Uint16, bench.Positions[0].Voltage.Channel.Type);
        Assert.True(SchemaTests.BenchPasses(text));
    }

    [Fact]
    public void Read_SignedWithoutType_IsTwosComplement() => Assert.Equal(
        RegisterType.Int16,
        BenchFileReader.Read(Refusal.Break(SmallBench.Text, Current, Current + "\nsigned = true"), "b.toml").Positions[0].Current.Channel.Type);

    [Theory]
    [InlineData(Current, Current + "\ntype = \"int64\"", "position[1].current.type: found \"int64\"; allowed: \"uint16\", \"int16\", \"uint32\", \"int32\", \"float32\"", true)]
    [InlineData(Current, Current + "\nsigned = true\ntype = \"int16\"", "position[1].current.signed: found true; type says it already; remove signed", true)]
    [InlineData(Current, Current + "\nwords = \"low-first\"", "position[1].current.words: found \"low-first\"; only a type of two registers has an order of words; remove it, or write type = \"uint32\", \"int32\" or \"float32\"", true)]
    [InlineData(Current, Current + "\ntype = \"int32\"\nwords = \"little\"", "position[1].current.words: found \"little\"; allowed: \"high-first\", \"low-first\"", true)]
    [InlineData(Current, "input_register = 65535\ntype = \"int32\"", "position[1].current.type: found \"int32\"; two registers begin at 65534 at most", false)]
    [InlineData(Count, "count = { device = \"feedback\", input_register = 0, signed = true }", "position[1].count.signed: found an unknown key; ", true)]
    [InlineData("feedback = \"ring\"\n" + Count, "feedback = \"incremental\"\ncount = { device = \"feedback\", input_register = 0, type = \"int32\" }\ncounter = { counts_per_revolution = 3200 }", "position[1].count.type: found \"int32\"; a counter that wraps is read as \"uint16\" or \"uint32\", whatever its sign means", false)]
    [InlineData("feedback = \"ring\"\n" + Count, "feedback = \"incremental\"\n" + Count + "\ncounter = { bits = 32, counts_per_revolution = 3200 }", "position[1].counter.bits: found 32; a whole number from 8 to 16 is allowed", false)]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected, bool inSchema)
    {
        string text = Refusal.Break(SmallBench.Text, part, by);
        Assert.Contains(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")), m => m.Contains(expected, StringComparison.Ordinal));
        if (inSchema)
        {
            Assert.False(SchemaTests.BenchPasses(text));
        }
    }

    [Fact]
    public void Read_SecondRegisterIsAnothersFirst_IsRefused()
    {
        string second = SmallBench.Text[SmallBench.Text.IndexOf("[[position]]", StringComparison.Ordinal)..]
            .Replace("name = \"left\"", "name = \"right\"", StringComparison.Ordinal)
            .Replace("coil = 0", "coil = 2", StringComparison.Ordinal)
            .Replace("coil = 1", "coil = 3", StringComparison.Ordinal)
            .Replace("bit = 0", "bit = 1", StringComparison.Ordinal)
            .Replace("input_register = 3", "input_register = 8", StringComparison.Ordinal)
            .Replace("device = \"feedback\", input_register = 0", "device = \"feedback\", input_register = 1", StringComparison.Ordinal);
        string text = Refusal.Break(SmallBench.Text, Count, "count = { device = \"feedback\", input_register = 0, type = \"uint32\" }") + "\n" + second;
        string message = Assert.Single(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")));
        Assert.Contains("position[2].count: found input-register 1 of feedback again", message, StringComparison.Ordinal);
    }
}
