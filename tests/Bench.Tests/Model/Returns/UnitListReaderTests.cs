using System.Text;
using Bench.Model.Returns;
using Bench.Tests.Model.BenchFiles;
using Bench.Tests.Model.Configuration;
using Bench.Tests.Model.Profiles;

namespace Bench.Tests.Model.Returns;

public class UnitListReaderTests
{
    private const string Good =
        """
        schema = 1

        [[unit]]
        position = "left"
        serial = "ND4-10417"
        symptom = "intermittent"
        part = "ND4-2400"
        return_number = "R-1"
        note = "Position lost twice."
        profile = "nutrient-diverter-4.toml"

        [[unit]]
        position = "right"
        serial = "ZS3-7"
        """;

    [Fact]
    public void Read_Good_GivesWhatIsWrittenAndNothingElse()
    {
        IReadOnlyList<ListedUnit> units = Read(Good);
        Assert.Equal(
            new ListedUnit
            {
                Line = 3,
                Position = "left",
                Serial = "ND4-10417",
                Symptom = Symptom.Intermittent,
                PartNumber = "ND4-2400",
                ReturnNumber = "R-1",
                FieldNote = "Position lost twice.",
                Profile = "nutrient-diverter-4.toml",
            },
            units[0]);
        Assert.Equal(new ListedUnit { Line = 12, Position = "right", Serial = "ZS3-7" }, units[1]);
    }

    [Theory]
    [InlineData("serial = \"ZS3-7\"", "serial = \"ND4-10417\"", "units.toml:14: unit[2].serial: found \"ND4-10417\"; each serial is allowed once")]
    [InlineData("position = \"right\"", "position = \"left\"", "units.toml:13: unit[2].position: found \"left\"; each position is allowed once")]
    [InlineData("position = \"right\"", "position = \"rigth\"", "units.toml:13: unit[2].position: found \"rigth\"; the bench has no such position; did you mean 'right'?")]
    [InlineData("symptom = \"intermittent\"", "symptom = \"sometimes\"", "units.toml:6: unit[1].symptom: found \"sometimes\"; allowed: \"constant\", \"intermittent\"")]
    [InlineData("serial = \"ZS3-7\"", "serial = \"ZS3\\u0007\"", "units.toml:14: unit[2].serial: found \"ZS3\\u0007\"; 1 to 64 printable characters, as on the unit's label, are allowed")]
    [InlineData("serial = \"ZS3-7\"", "seriall = \"ZS3-7\"", "units.toml:14: unit[2].seriall: found an unknown key; did you mean 'serial'?")]
    public void Read_Broken_SaysLineKeyFoundAndAllowed(string part, string by, string message) =>
        Assert.Contains(message, Refusal.Messages(() => Read(Refusal.Break(Good, part, by))));

    [Fact]
    public void Read_ReturnInPlaceOfASerial_LeavesTheRestToTheReturn()
    {
        ListedUnit unit = Read(Refusal.Break(Good, "serial = \"ZS3-7\"", "return = \"R-118\""))[1];
        Assert.Equal((null, "R-118", null), (unit.Serial, unit.Return, unit.Symptom));
    }

    [Fact]
    public void Read_ReturnBesideASerial_IsRefused() => Assert.Contains(
        "it brings serial, symptom, part, return_number and note; leave those out, or leave it out",
        Assert.Single(Refusal.Messages(() => Read(Refusal.Break(Good, "serial = \"ZS3-7\"", "serial = \"ZS3-7\"\nreturn = \"R-118\"")))), StringComparison.Ordinal);

    [Fact]
    public void Read_NoUnit_IsRefused() =>
        Assert.Contains("[[unit]] is required, at least 1", Assert.Single(Refusal.Messages(() => Read("schema = 1\n"))), StringComparison.Ordinal);

    [Fact]
    public void Read_FileOfAnotherKind_IsOneSentence()
    {
        Assert.Equal(
            ["units.toml: file: found a profile; a units file is needed here; give this profile with --profile"],
            Refusal.Messages(() => Read(SmallProfile.Text)));
        Assert.Equal(
            ["units.toml: file: found a bench file; a units file is needed here; give this bench file with --bench"],
            Refusal.Messages(() => Read(SmallBench.Text)));
        Assert.Equal(
            ["b.toml: file: found a profile; a bench file is needed here; give this profile with --profile"],
            Refusal.Messages(() => Bench.Model.BenchFiles.BenchFileReader.Read(SmallProfile.Text, "b.toml")));
        Assert.Equal(
            ["p.toml: file: found a bench file; a profile is needed here; give this bench file with --bench"],
            Refusal.Messages(() => Bench.Model.Profiles.ProfileReader.Read(SmallBench.Text, "p.toml")));
        Assert.Equal(
            ["p.toml: file: found a units file; a profile is needed here; give this units file with --units"],
            Refusal.Messages(() => Bench.Model.Profiles.ProfileReader.Read(Good, "p.toml")));
    }

    private static IReadOnlyList<ListedUnit> Read(string text) => UnitListReader.Read(Encoding.UTF8.GetBytes(text), "units.toml", ["left", "right"]);
}
