using Bench.Model.Entries;
using Bench.Model.Profiles;
using Bench.Model.Returns;
using Bench.Tests.Running;

namespace Bench.Tests.Model.Entries;

/// <summary>A return as it stands after corrections.</summary>
public sealed class CorrectedReturnTests
{
    private static readonly Profile Diverter = VirtualRun.Diverter;

    private static readonly UnitReturn Sealed = new()
    {
        Serial = "ND4-1",
        Symptom = Symptom.Constant,
        Inspection = [new InspectionAnswer("drive-side", "dry"), new InspectionAnswer("shaft", "firm")],
    };

    [Theory]
    [InlineData(CorrectedFact.Revision, "C")]
    [InlineData(CorrectedFact.DateCode, "2611")]
    [InlineData(CorrectedFact.DaysInService, "411")]
    [InlineData(CorrectedFact.Symptom, "intermittent")]
    [InlineData(CorrectedFact.Inspection, "wet", "drive-side")]
    [InlineData(CorrectedFact.Inspection, "bent", "connector")]
    public void Of_OneCorrection_HoldsItAndNothingElseChanged(CorrectedFact fact, string to, string? item = null)
    {
        UnitReturn corrected = CorrectedReturn.Of(Sealed, [Entry(fact, to, item)]);
        Assert.Equal(to, CorrectedReturn.Get(corrected, fact, item));
        UnitReturn back = CorrectedReturn.Of(corrected, [Entry(fact, CorrectedReturn.Get(Sealed, fact, item), item)]);
        Assert.Equal(Sealed.Inspection, back.Inspection.Where(a => a.Item != "connector"));
        Assert.Equal((Sealed.Serial, Sealed.Revision, Sealed.DateCode, Sealed.DaysInService, Sealed.Symptom), (back.Serial, back.Revision, back.DateCode, back.DaysInService, back.Symptom));
        Assert.Equal("firm", corrected.Answer("shaft"));
    }

    [Theory]
    [InlineData(CorrectedFact.DaysInService, "-1", null, "0 to 36525")]
    [InlineData(CorrectedFact.DaysInService, "many", null, "0 to 36525")]
    [InlineData(CorrectedFact.Inspection, "moist", "drive-side", "dry, damp, wet, not-looked")]
    [InlineData(CorrectedFact.Inspection, "wet", "colour", "no item 'colour'")]
    [InlineData(CorrectedFact.Inspection, null, "drive-side", "no answer")]
    [InlineData(CorrectedFact.Serial, null, null, "can't be emptied")]
    public void Refusal_WhatCannotHold_SaysWhatCan(CorrectedFact fact, string? to, string? item, string said) =>
        Assert.Contains(said, CorrectedReturn.Refusal(fact, to, Diverter, item), StringComparison.Ordinal);

    [Theory]
    [InlineData(CorrectedFact.DaysInService, null, null)]
    [InlineData(CorrectedFact.Inspection, "not-looked", "shaft")]
    public void Refusal_WhatCanHold_IsNone(CorrectedFact fact, string? to, string? item) =>
        Assert.Null(CorrectedReturn.Refusal(fact, to, Diverter, item));

    private static SealedEntry Entry(CorrectedFact fact, string? to, string? item) => new(1, new string('a', 64), new Correction
    {
        MadeAt = DateTimeOffset.UnixEpoch,
        Fact = fact,
        Item = item,
        Was = null,
        To = to,
        Because = "looked again",
        By = "R. Alder",
    });
}
