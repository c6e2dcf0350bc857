using Bench.Analysis.Statistics;
using Bench.Analysis.Uncertainty;
using Bench.Model.Features;
using Bench.Model.Profiles;

namespace Bench.Analysis.Switches;

/// <summary>Features of port switches.</summary>
internal static class SwitchFeatures
{
    /// <summary>Fewest whole passes of a switch whose width is judged.</summary>
    private const int FewestWidths = 3;

    private static readonly string[] Names =
        ["switch.dead_ports", "switch.weak_ports", "switch.contradictions", "switch.width_ratio", "switch.travel_time_ratio"];

    /// <summary>The features of a family with port switches.</summary>
    public static IEnumerable<Feature> Of(SwitchSightings switches, SwitchAnswers answers, Profile profile)
    {
        List<Feature> features =
        [
            InState("switch.dead_ports", SensorState.Dead, switches, profile),
            InState("switch.weak_ports", SensorState.Weak, switches, profile),
            answers.Count > 0
                ? Feature.Of("switch.contradictions", answers.Contradictions, 0, answers.Count, answers.StuckPort(profile))
                : Feature.Missing("switch.contradictions", "the switches were never read"),
        ];
        for (int port = 0; port < profile.Ports.Count; port++)
        {
            features.Add(Width(profile.Ports[port].Name, [.. switches.Widths.Where(w => w.Port == port)], profile));
        }

        if (switches.TimeRatios.Count == 0)
        {
            features.Add(Feature.Missing("switch.travel_time_ratio", "no travel was seen to leave one port's switch and to reach another's"));
        }
        else
        {
            (double median, Contribution scatter) = Contributions.Median([.. switches.TimeRatios], "scatter from travel to travel", 0, "none");
            features.Add(MeasuredFeature.Of("switch.travel_time_ratio", median, [scatter], switches.TimeRatios.Count));
        }

        return features;
    }

    /// <summary>The answer of a family that has none.</summary>
    public static IEnumerable<Feature> None => Names.Select(n => Feature.Missing(n, "this family has no port switches"));

    private static Feature InState(string name, SensorState state, SwitchSightings switches, Profile profile)
    {
        if (switches.Passes == 0)
        {
            return Feature.Missing(name, "no port was surely passed");
        }

        string[] ports = [.. profile.Ports.Where((_, i) => switches.State(i) == state).Select(p => p.Name)];
        return Feature.Of(name, ports.Length, 0, switches.Passes, ports.Length == 0 ? null : string.Join(", ", ports));
    }

    private static Feature Width(string port, SwitchWidth[] widths, Profile profile)
    {
        double nominal = profile.SwitchWidthCounts ?? 1;
        if (widths.Length < FewestWidths)
        {
            return Feature.Missing("switch.width_ratio", $"{widths.Length} whole passes were seen; at least {FewestWidths} are needed", port);
        }

        double edges = Robust.Median([.. widths.Select(w => w.Uncertainty)]);
        (double median, Contribution scatter) = Contributions.Median(
            [.. widths.Select(w => w.Counts)], "scatter from pass to pass", edges, "edges between readings");
        return MeasuredFeature.Of(
            "switch.width_ratio", median / nominal, [scatter with { Unit = "count", Sensitivity = 1 / nominal }], widths.Length, port);
    }
}
