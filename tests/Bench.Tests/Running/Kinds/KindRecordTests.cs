using System.Text.Json;
using Bench.Analysis.Extraction;
using Bench.Model.Features;
using Bench.Model.Moves;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Model.Serialization;
using Bench.Model.Traces;
using Bench.Reporting;

namespace Bench.Tests.Running.Kinds;

/// <summary>A run of any kind of unit goes into its record, comes out of it the same, and becomes a packet.</summary>
public class KindRecordTests
{
    public static TheoryData<string, string> Kinds => new()
    {
        { "port-switches", "mist-selector-4" },
        { "commanded", "feed-router-4" },
        { "other-feedbacks", "nutrient-diverter-4" },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Features_MadeAgainFromTheStoredTrace_AreTheSame(string bench, string family)
    {
        (RunRecord record, Trace trace) = Run(bench, family);
        RunExtraction again = new(record.Start.Profile, record.Start.Bench);
        foreach (Move move in record.Moves)
        {
            again.AddMove(trace, move);
        }

        RunFeatures features = again.Complete(trace, record.Features!.Links, new DateOnly(2026, 6, 1));
        Assert.Equal(
            JsonSerializer.Serialize(record.Features.Features, BenchJson.Compact), JsonSerializer.Serialize(features.Features, BenchJson.Compact));
        Assert.Equal(record.Features.Ring.Coverage, features.Ring.Coverage);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Record_WrittenAndReadAsJson_IsTheSame(string bench, string family)
    {
        (RunRecord record, _) = Run(bench, family);
        string json = JsonSerializer.Serialize(record, BenchJson.Compact);
        Assert.Equal(json, JsonSerializer.Serialize(JsonSerializer.Deserialize<RunRecord>(json, BenchJson.Compact), BenchJson.Compact));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Packet_OfAnyKind_IsWrittenWithItsFindings(string bench, string family)
    {
        (RunRecord record, Trace trace) = Run(bench, family);
        using StringWriter output = new();
        EvidencePacket.Write(new SealedRun { Record = record, Hash = new string('0', 64), PreviousHash = "" }, trace, output);
        string html = output.ToString();
        Assert.Contains(record.Start.Profile.Title, html, StringComparison.Ordinal);
        Assert.DoesNotContain("NaN", html, StringComparison.Ordinal);
    }

    private static (RunRecord Record, Trace Trace) Run(string bench, string family)
    {
        Profile profile = KindRun.Profile(family);
        if (bench == "other-feedbacks")
        {
            profile = profile with { Feedback = FeedbackKind.Incremental, IndexCount = 100 };
        }

        KindRun run = new(bench, profile with
        {
            Routine = [.. profile.Routine.Where(s => s.Kind != StageKind.Endurance)],
        });
        RunRecord record = run.Execute();
        Trace trace = new();
        foreach (Sample sample in run.Journal.Samples)
        {
            trace.Add(sample);
        }

        return (record, trace);
    }
}
