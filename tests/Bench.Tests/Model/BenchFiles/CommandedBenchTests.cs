using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.BenchFiles;

/// <summary>Reading a bench for a unit that turns itself.</summary>
public class CommandedBenchTests
{
    private static readonly string Text = RepositoryFiles.Text("fixtures/benches/commanded.toml");

    [Fact]
    public void Read_Commanded_GivesPowerAndTarget()
    {
        UnitPositionDescription position = Assert.Single(BenchFileReader.Read(Text, "b.toml").Positions);
        Assert.Equal(DriveKind.Commanded, position.Drive);
        Assert.Equal(new Channel("io", RegisterTable.Coil, 0), position.Up);
        Assert.Null(position.Down);
        Assert.Equal(new TargetDescription(new Channel("unit", RegisterTable.HoldingRegister, 0), 0.5), position.Target);
        Assert.Equal(800, position.Target!.Raw(400));
        Assert.Equal(400.0, position.Target.Count(800));
    }

    [Theory]
    [InlineData("power = { device = \"io\", coil = 0 }", "", "position[1].power: found nothing; the table [position.power] is required", true)]
    [InlineData("power = { device = \"io\", coil = 0 }", "power = { device = \"io\", holding_register = 0 }", "position[1].power.holding_register: found holding_register; coil is allowed here", true)]
    [InlineData("power = {", "up = {", "position[1].up: found a table; a commanded unit turns itself; give its power, and its target", true)]
    [InlineData("target = { device = \"unit\", holding_register = 0, scale_counts = 0.5 }", "", "position[1].target: found nothing; the table [position.target] is required", true)]
    [InlineData("holding_register = 0, scale_counts = 0.5", "input_register = 0", "position[1].target.input_register: found input_register; holding_register is allowed here", true)]
    [InlineData("scale_counts = 0.5", "scale_counts = 0", "position[1].target.scale_counts: found 0; a number from 1E-06 to 65536 is allowed", true)]
    [InlineData("drive = \"commanded\"", "drive = \"single\"", "position[1].target: found a table; only for drive = \"commanded\"; remove it", true)]
    public void Read_OneThingWrong_SaysWhatWhereAndWhatIsAllowed(string part, string by, string expected, bool inSchema)
    {
        string text = Refusal.Break(Text, part, by);
        Assert.Contains(Refusal.Messages(() => BenchFileReader.Read(text, "b.toml")), m => m.Contains(expected, StringComparison.Ordinal));
        Assert.Equal(!inSchema, SchemaTests.BenchPasses(text));
    }
}
