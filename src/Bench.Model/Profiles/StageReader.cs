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

    /// <summary>Nobody keeps moving a cable for longer.</summary>
    private static readonly NumberRange ConnectorSeconds = new(1, 300);
    private static readonly string[] AllKeys = ["most_moves", "revolutions", "settle_ms", "p0", "p1", "warm_celsius"];
    private static readonly string[] Provoking = [.. Enum.GetValues<StageKind>().Where(k => k.Provokes()).Select(BenchJson.Word)];
    private static readonly NumberRange WarmCelsius = new(0, 250);
    private static readonly NumberRange Settling = new(0, 60_000);

    public static IReadOnlyList<Stage> ReadAll(IReadOnlyList<Section> sections, Demonstration? demonstration, ElectricalData? electrical, SafetyLimits? safety, FeedbackKind? feedback, DriveKind? drive)
    {
        UniqueNames kinds = new("kind of stage");
        List<Stage> stages = [];
        foreach (Section section in sections)
        {
            StageKind? kind = section.Word<StageKind>("kind");
            if (kind is StageKind k)
            {
                Order(section, k, kinds.All);
                ExpectCurrent(section, k, electrical, safety);
                if (k == StageKind.Connector && feedback == FeedbackKind.Incremental)
                {
                    section.Refuse("kind", null, "not for an \"incremental\" feedback: a counter whose wires open loses its home");
                }
                kinds.Take(section, "kind", BenchJson.Word(k));
            }

            double? seconds = section.Number("most_s", kind switch { StageKind.Uncoupled => UncoupledSeconds, StageKind.Connector => ConnectorSeconds, _ => Seconds });
            string[] keys = kind is StageKind its ? Keys(its) : [];
            int? moves = section.Whole("most_moves", 1, MostMoves, required: keys.Contains("most_moves"));
            double? revolutions = section.Number("revolutions", NumberRange.Positive(MostRevolutions), required: keys.Contains("revolutions"));
            double? settle = section.Number("settle_ms", Settling, required: keys.Contains("settle_ms"));
            double? p0 = section.Number("p0", NumberRange.InnerShare, required: keys.Contains("p0"));
            double? p1 = section.Number("p1", NumberRange.InnerShare, required: keys.Contains("p1"));
            double? warm = section.Number("warm_celsius", WarmCelsius, required: keys.Contains("warm_celsius"));
            if (kind == StageKind.Warm)
            {
                ExpectHeat(section, warm, safety, drive, feedback);
            }

            if (kind == StageKind.Connector)
            {
                // Each second of it is a trial.
                moves = (int?)seconds;
            }

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
                WarmCelsius = kind == StageKind.Warm ? warm : null,
            };
            if (demonstration is { Alpha: > 0, Beta: > 0 } && p0 > 0 && p1 > p0 && moves is not null && keys.Contains("p0"))
            {
                DecisionReader.ExpectEnough(section, stage.Plan(demonstration), kind == StageKind.Connector ? "most_s" : "most_moves");
            }

            section.Close();
            stages.Add(stage);
        }

        return stages;
    }

    // A motor that starts takes its stall current for a moment, and that goes with the supply.
    private static void ExpectCurrent(Section section, StageKind kind, ElectricalData? electrical, SafetyLimits? safety)
    {
        if (kind == StageKind.HighSupply && electrical is { SupplyNominalV: > 0 } e
            && safety?.OverCurrentA <= e.StallCurrentA * e.SupplyMaxV / e.SupplyNominalV)
        {
            section.Refuse("kind", null, string.Create(
                CultureInfo.InvariantCulture,
                $"at supply_max_v a motor that starts takes up to {e.StallCurrentA * e.SupplyMaxV / e.SupplyNominalV:0.##} A, and over_current_a ({safety.OverCurrentA:0.##}) would end each move; raise it, or leave the stage out"));
        }
    }

    private static void ExpectHeat(Section section, double? warm, SafetyLimits? safety, DriveKind? drive, FeedbackKind? feedback)
    {
        if (drive == DriveKind.Commanded || feedback == FeedbackKind.Switches)
        {
            section.Refuse("kind", null, "not for a unit that can't be turned on and on by counts: one that is commanded, or has port switches");
        }

        if (safety is { Winding: null })
        {
            section.Refuse("kind", null, "the profile says nothing of its winding's heat; add winding_thermal_k_per_w and its like to [safety]");
        }

        if (safety?.Winding is { } winding && (warm <= winding.AmbientCelsius || warm >= winding.MostCelsius))
        {
            section.Refuse("warm_celsius", null, string.Create(
                CultureInfo.InvariantCulture, $"above ambient_most_celsius ({winding.AmbientCelsius}) and below winding_most_celsius ({winding.MostCelsius}) is allowed"));
        }
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
        StageKind.Starts or StageKind.LowSupply or StageKind.HighSupply => ["most_moves", "settle_ms", "p0", "p1"],
        StageKind.Connector => ["p0", "p1"],
        StageKind.Warm => ["most_moves", "settle_ms", "p0", "p1", "warm_celsius"],
        StageKind.Uncoupled => ["settle_ms"],
        _ => throw new UnreachableException($"a stage of kind {kind}"),
    };
}
