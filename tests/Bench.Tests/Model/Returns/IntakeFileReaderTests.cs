using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Tests.Model.Returns;

public class IntakeFileReaderTests
{
    private static readonly IntakeForm Form =
        new(ProfileReader.Read(RepositoryFiles.Text("profiles/nutrient-diverter-4.toml"), "nutrient-diverter-4.toml"));

    [Fact]
    public void Read_File_IsAnswersOfTheForm()
    {
        Dictionary<string, IReadOnlyList<string>> answers = Read(
            """
            schema = 1
            serial = "ND4-10417"
            return_number = "R-118"
            symptom = "constant"
            days_in_service = 411
            measured = ["supply voltage = 23.8 V", "winding = 12.4 Ω"]
            attach = ["drive-side.jpg"]
            [inspection]
            drive-side = "wet"
            """);

        Assert.Equal(["drive-side.jpg"], answers[IntakeFileReader.Attach]);
        Assert.Equal(["411"], answers["days_in_service"]);
        Assert.Equal(2, answers["measured"].Count);
        Assert.Equal(["wet"], answers["inspection.drive-side"]);
    }

    [Fact]
    public void Read_SeveralMistakes_AreAllToldWithTheirLines()
    {
        ConfigurationException refused = Assert.Throws<ConfigurationException>(() => Read(
            """
            schema = 1
            serail = "ND4-10417"
            days_in_service = "long"
            [inspection]
            drive-sied = "wet"
            """));

        foreach (string said in (string[])["in.toml:2: serail", "in.toml:3: days_in_service", "in.toml:5: inspection.drive-sied"])
        {
            Assert.Contains(said, refused.Message, StringComparison.Ordinal);
        }
    }

    private static Dictionary<string, IReadOnlyList<string>> Read(string text) =>
        IntakeFileReader.Read(System.Text.Encoding.UTF8.GetBytes(text), "in.toml", Form);
}
