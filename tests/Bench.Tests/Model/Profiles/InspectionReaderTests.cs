using Bench.Model.Profiles;
using Bench.Tests.Model.Configuration;

namespace Bench.Tests.Model.Profiles;

public class InspectionReaderTests
{
    private const string Item = """

        [[inspection]]
        id = "drive-side"
        question = "Is the drive side dry?"
        answers = ["dry", "damp", "wet"]
        conforms = ["dry"]
        means = "fluid had come past the seal"
        severity = "scrap"
        forbids_energising = ["wet"]
        """;

    [Fact]
    public void Read_Item_IsAsWritten()
    {
        InspectionItem item = Assert.Single(ProfileReader.Read(SmallProfile.Text + Item, "p.toml").Inspection);

        Assert.Equal("inspection.drive-side", item.Feature);
        Assert.Equal(["dry", "damp", "wet", "not-looked"], item.AllowedAnswers);
        Assert.Equal(["dry"], item.Conforms);
        Assert.Equal(["wet"], item.ForbidsEnergising);
        Assert.Equal(Severity.Scrap, item.Severity);
        Assert.False(item.Required);
    }

    [Fact]
    public void Read_FaultShowsAnItem_IsAllowedAndAnUnknownItemIsNot()
    {
        string text = SmallProfile.Text + Item;
        string shows = Refusal.Break(text, "feedback.dropouts = 0.95", "feedback.dropouts = 0.95\ninspection.drive-side = 0.4");
        Assert.Contains(ProfileReader.Read(shows, "p.toml").FaultModes, m => m.Shows.GetValueOrDefault("inspection.drive-side") == 0.4);

        string unknown = Refusal.Break(text, "feedback.dropouts = 0.95", "feedback.dropouts = 0.95\ninspection.drive-sides = 0.4");
        Assert.Contains(Refusal.Messages(() => ProfileReader.Read(unknown, "p.toml")), m => m.Contains("did you mean 'inspection.drive-side'?", StringComparison.Ordinal));
    }

    // A limit is a number's; an inspection item brings its own.
    [Fact]
    public void Read_LimitOnAnItem_IsRefused() =>
        Assert.NotEmpty(Refusal.Messages(() => ProfileReader.Read(
            Refusal.Break(SmallProfile.Text + Item, "feature = \"bench.supply_open_v\"", "feature = \"inspection.drive-side\""), "p.toml")));

    [Theory]
    [InlineData("conforms = [\"dry\"]", "conforms = [\"dri\"]", "did you mean 'dry'?")]
    [InlineData("conforms = [\"dry\"]", "conforms = [\"dry\", \"damp\", \"wet\"]", "at least one answer must be that of a faulty unit")]
    [InlineData("answers = [\"dry\", \"damp\", \"wet\"]", "answers = [\"dry\"]", "two or more different words")]
    [InlineData("answers = [\"dry\", \"damp\", \"wet\"]", "answers = [\"dry\", \"wet\", \"not-looked\"]", "two or more different words")]
    [InlineData("severity = \"scrap\"", "severity = \"hold\"", "an inspection is about the unit")]
    [InlineData("severity = \"scrap\"", "severity = \"scrap\"\nremedy = \"x\"", "remedy goes with severity = \"repair\" only")]
    [InlineData("severity = \"scrap\"", "severity = \"repair\"", "inspection[1].remedy")]
    [InlineData("forbids_energising = [\"wet\"]", "forbids_energising = [\"dry\"]", "a sound unit may be energised")]
    [InlineData("forbids_energising = [\"wet\"]", "forbids_energizing = [\"wet\"]", "did you mean 'forbids_energising'?")]
    public void Read_ItemThatCannotBe_IsRefused(string part, string by, string expected) =>
        Assert.Contains(
            Refusal.Messages(() => ProfileReader.Read(Refusal.Break(SmallProfile.Text + Item, part, by), "p.toml")),
            m => m.Contains(expected, StringComparison.Ordinal));
}
