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
    private static readonly NumberRange Settling = new(0, 60_000);

    public static IReadOnlyList<Stage> ReadAll(Section document)
    {
        UniqueNames kinds = new("kind of stage");
        List<Stage> stages = [];
        foreach (Section section in document.Tables("stage", 1))
        {
            StageKind? kind = section.Word<StageKind>("kind");
            if (kind is StageKind k)
            {
                Order(section, k, kinds.All);
                kinds.Take(section, "kind", BenchJson.Word(k));
            }

            double? seconds = section.Number("most_s", kind is StageKind.Uncoupled ? UncoupledSeconds : Seconds);
            int? moves = section.Whole("most_moves", 1, MostMoves, required: kind is StageKind.PortMoves or StageKind.Endurance);
            double? revolutions = section.Number("revolutions", NumberRange.Positive(MostRevolutions), required: kind is StageKind.Homing);
            double? settle = section.Number("settle_ms", Settling, required: kind is not (null or StageKind.Supply));
            foreach (string key in Foreign(kind).Where(section.Has))
            {
                section.Refuse(key, null, $"not for a \"{BenchJson.Word(kind!.Value)}\" stage; remove it");
            }

            section.Close();
            stages.Add(new Stage
            {
                Kind = kind ?? default,
                MostS = seconds ?? 0,
                MostMoves = moves ?? 0,
                Revolutions = revolutions ?? 0,
                SettleMs = settle ?? 0,
            });
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

        if (kind is StageKind.PortMoves or StageKind.Endurance or StageKind.Uncoupled && !before.Contains(BenchJson.Word(StageKind.Homing)))
        {
            section.Refuse("kind", null, "a \"homing\" stage must come before: moves start from a known port");
        }
    }

    private static string[] Foreign(StageKind? kind) => kind switch
    {
        StageKind.Supply => ["most_moves", "revolutions", "settle_ms"],
        StageKind.Homing => ["most_moves"],
        StageKind.PortMoves or StageKind.Endurance => ["revolutions"],
        StageKind.Uncoupled => ["most_moves", "revolutions"],
        _ => [],
    };
}
