using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Tests.Model.Returns;

public class IntakeFormTests
{
    private static readonly Profile Profile =
        ProfileReader.Read(RepositoryFiles.Text("profiles/nutrient-diverter-4.toml"), "nutrient-diverter-4.toml");

    private static readonly Dictionary<string, IReadOnlyList<string>> Whole = new()
    {
        ["serial"] = [" ND4-10417 "],
        ["part"] = [Profile.PartNumbers[0]],
        ["revision"] = ["C"],
        ["date_code"] = ["2531"],
        ["return_number"] = ["R-118"],
        ["symptom"] = ["intermittent"],
        ["note"] = ["Stops at C on humid days."],
        ["measured"] = ["supply voltage = 23.8 V", "winding=12.4 Ω"],
        ["days_in_service"] = ["411"],
        ["inspection.drive-side"] = ["damp"],
        ["inspection.housing"] = ["not-looked"],
        ["inspection.shaft"] = [""],
    };

    [Fact]
    public void Read_WholeForm_IsTheReturn()
    {
        UnitReturn unit = new IntakeForm(Profile).Read(Whole, out IReadOnlyList<IntakeError> errors)!;

        Assert.Empty(errors);
        Assert.Equal(("ND4-10417", "C", "2531", "R-118", 411), (unit.Serial, unit.Revision, unit.DateCode, unit.ReturnNumber, unit.DaysInService));
        Assert.Equal([new FieldMeasurement("supply voltage", 23.8, "V"), new FieldMeasurement("winding", 12.4, "Ω")], unit.Measurements);
        Assert.Equal([new InspectionAnswer("housing", "not-looked"), new InspectionAnswer("drive-side", "damp")], unit.Inspection);
    }

    [Fact]
    public void Read_ManyMistakes_AreAllToldAtOnce()
    {
        Dictionary<string, IReadOnlyList<string>> answers = new(Whole)
        {
            ["serial"] = ["  "],
            ["part"] = ["XX-1"],
            ["symptom"] = ["sometimes"],
            ["measured"] = ["about 24 volts"],
            ["days_in_service"] = ["-3"],
            ["inspection.drive-side"] = ["moist"],
            ["colour"] = ["grey"],
        };

        Assert.Null(new IntakeForm(Profile).Read(answers, out IReadOnlyList<IntakeError> errors));
        Assert.Equal(["serial", "part", "symptom", "measured", "days_in_service", "inspection.drive-side", "colour"], errors.Select(e => e.Key));
    }

    [Theory]
    [InlineData("supply voltage = 23.8 V", true)]
    [InlineData("t=-4 °C", true)]
    [InlineData("supply voltage 23.8 V", false)]
    [InlineData("supply voltage = 23.8", false)]
    [InlineData("supply voltage = NaN V", false)]
    [InlineData("= 3 V", false)]
    public void Measurement_AsTyped_IsReadOrRefused(string text, bool isOne) => Assert.Equal(isOne, FieldMeasurement.Parse(text) is not null);

    [Fact]
    public void Inspection_AnswerThatForbids_SaysWhyNotToEnergise()
    {
        UnitReturn damp = new IntakeForm(Profile).Read(Whole, out _)!;

        Assert.Equal(
            "on arrival fluid had come past the seal into the drive side (inspection item drive-side: damp), and such a unit must not be energised",
            ArrivalInspection.WhyNotToEnergise(damp, Profile));
        Assert.Null(ArrivalInspection.WhyNotToEnergise(damp with { Inspection = [new("drive-side", "dry")] }, Profile));
        Assert.Null(ArrivalInspection.WhyNotToEnergise(damp with { Inspection = [] }, Profile));
    }
}
