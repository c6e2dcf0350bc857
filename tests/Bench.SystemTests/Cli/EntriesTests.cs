using System.Text.Json;

namespace Bench.SystemTests.Cli;

public class EntriesTests(StoredRuns stored) : IClassFixture<StoredRuns>
{
    [Theory]
    [InlineData("bogus", "X", "'serial', 'part-number', 'return-number', 'symptom', 'field-note'")]
    [InlineData("serial", " ", "can't be emptied")]
    [InlineData("symptom", "sometimes", "constant, intermittent")]
    public async Task Correct_WhatCannotBe_SaysWhatCan(string fact, string to, string said) =>
        (await stored.RunAsync("correct", stored.Id, "--fact", fact, "--to", to, "--because", "Typed wrong.", "--by", "R. Halloway")).OnlySaid(2, said);

    [Fact]
    public async Task CorrectSignAndCorrect_Run_AreShownInOrderAndTheOlderSignatureIsToldToBe()
    {
        (await stored.RunAsync("correct", stored.Id, "--fact", "serial", "--to", "ND4-7777", "--because", "Typed wrong.", "--by", "R. Halloway")).Said(0);
        (await stored.RunAsync("correct", stored.Id, "--fact", "serial", "--to", "ND4-7777", "--because", "Typed wrong.", "--by", "R. Halloway")).OnlySaid(2, "is that already");
        (await stored.RunAsync("sign", stored.Id, "--name", "I. Marsh", "--role", "warranty analyst", "--statement", "Claim rejected.")).Said(0);
        (await stored.RunAsync("correct", stored.Id, "--fact", "field-note", "--to", "Hums.", "--because", "Left out.", "--by", "R. Halloway")).Said(0);

        JsonElement shown = (await stored.RunAsync("show", stored.Id, "--json")).Said(0).Json();
        Assert.Equal(["correction", "sign-off", "correction"], shown.GetProperty("entries").EnumerateArray().Select(e => e.GetProperty("entry").GetProperty("kind").GetString()!));
        string words = (await stored.RunAsync("show", stored.Id)).Said(0).Output;
        Assert.Contains("ND4-7777, ", words, StringComparison.Ordinal);
        Assert.Contains("1 entry was", words, StringComparison.Ordinal);
        (await stored.RunAsync("verify")).Said(0);
    }
}
