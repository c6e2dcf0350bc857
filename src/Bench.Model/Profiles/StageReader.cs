using System.Diagnostics;
using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Moves;
using Bench.Model.Serialization;

namespace Bench.Model.Profiles;

/// <summary>Reads the routine: the <c>[[stage]]</c> tables, in order.</summary>
internal static class StageReader
{
    private const int MostMoves = 100_000;
    private const double MostRevolutions = 20;
    private static readonly NumberRange Seconds = NumberRange.Positive(86_400);

    /// <summary>A motor that runs free, or is held at stall, needs a moment to show it; longer only heats it.</summary>
    private static readonly NumberRange UncoupledSeconds = NumberRange.Positive(3);
    private static readonly string[] AllKeys = ["most_moves", "revolutions", "settle_ms", "p0", "p1"];
    private static readonly string[] Provoking = [.. Enum.GetValues<StageKind>().Where(k => k.Provokes()).Select(BenchJson.Word)];
    private static readonly NumberRange Settling = new(0, 60_000);

    public static IReadOnlyList<Stage> ReadAll(IReadOnlyList<Section> sections, Demonstration? demonstration)
    {
        UniqueNames kinds = new("kind of stage");
        List<Stage> stages = [];
        foreach (Section section in sections)
        {
            StageKind? kind = section.Word<StageKind>("kind");
            if (kind is StageKind k)
            {
                Order(section, k, kinds.All);
                kinds.Take(section, "kind", BenchJson.Word(k));
            }

            double? seconds = section.Number("most_s", kind is StageKind.Uncoupled ? UncoupledSeconds : Seconds);
            string[] keys = kind is StageKind its ? Keys(its) : [];
            int? moves = section.Whole("most_moves", 1, MostMoves, required: keys.Contains("most_moves"));
            double? revolutions = section.Number("revolutions", NumberRange.Positive(MostRevolutions), required: keys.Contains("revolutions"));
            double? settle = section.Number("settle_ms", Settling, required: keys.Contains("settle_ms"));
            double? p0 = section.Number("p0", NumberRange.InnerShare, required: keys.Contains("p0"));
            double? p1 = section.Number("p1", NumberRange.InnerShare, required: keys.Contains("p1"));
            if (p1 <= p0)
            {
                section.Refuse("p1", null, string.Create(CultureInfo.InvariantCulture, $"above p0 ({p0}) is allowed"));
            }

            foreach (string key in AllKeys.Where(k => kind is not null && !keys.Contains(k) && section.Has(k)))
            {
                section.Refuse(key, null, $"not for a \"{BenchJson.Word(kind!.Value)}\" stage; remove it");
            }

            Stage stage = new()
            {
                Kind = kind ?? default,
                MostS = seconds ?? 0,
                MostMoves = moves ?? 0,
                Revolutions = revolutions ?? 0,
                SettleMs = settle ?? 0,
                P0 = p0,
                P1 = p1,
            };
            if (demonstration is { Alpha: > 0, Beta: > 0 } && p0 > 0 && p1 > p0 && moves is not null && keys.Contains("p0"))
            {
                DecisionReader.ExpectEnough(section, stage.Plan(demonstration));
            }

            section.Close();
            stages.Add(stage);
        }

        return stages;
    }

    private static void Order(Section section, StageKind kind, IReadOnlyList<string> before)
    {
        if (kind != StageKind.Supply && before.Count == 0)
        {
            section.Refuse("kind", null, "the first stage is \"supply\": a bench that is not sound must not turn a unit");
        }

        if (before.Contains(BenchJson.Word(StageKind.Uncoupled)))
        {
            section.Refuse("kind", null, "no stage comes after \"uncoupled\": the valve is off then");
        }

        if (kind is not (StageKind.Supply or StageKind.Homing) && !before.Contains(BenchJson.Word(StageKind.Homing)))
        {
            section.Refuse("kind", null, "a \"homing\" stage must come before: moves start from a known port");
        }

        if (!kind.Provokes() && kind != StageKind.Uncoupled && Provoking.FirstOrDefault(before.Contains) is { } provoking)
        {
            section.Refuse("kind", null, $"it comes before \"{provoking}\": a unit is tested as it is used before it is provoked");
        }
    }

    // Keys of a kind besides "most_s"; all of them are required, and no others are allowed.
    private static string[] Keys(StageKind kind) => kind switch
    {
        StageKind.Supply => [],
        StageKind.Homing => ["revolutions", "settle_ms"],
        StageKind.PortMoves or StageKind.Endurance => ["most_moves", "settle_ms"],
        StageKind.Starts => ["most_moves", "settle_ms", "p0", "p1"],
        StageKind.Uncoupled => ["settle_ms"],
        _ => throw new UnreachableException($"a stage of kind {kind}"),
    };
}
