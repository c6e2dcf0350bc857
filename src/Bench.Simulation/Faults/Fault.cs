using System.Globalization;

namespace Bench.Simulation.Faults;

/// <summary>One fault of a plan.</summary>
/// <param name="Kind">What.</param>
/// <param name="AtS">When it begins, seconds on the bench's clock.</param>
/// <param name="ForS">How long it lasts, seconds; what lasts for good ignores it.</param>
/// <param name="Share">Share of frames hit while it lasts, 0 to 1; kinds that are no frame's ignore it.</param>
/// <param name="MostHits">Greatest number of frames hit in either direction.</param>
/// <param name="Side">Which frames may be hit.</param>
/// <param name="OnlyOutputs">Only frames that write or read outputs, coils or a supply's settings: the ones on which safety hangs.</param>
public sealed record Fault(
    FaultKind Kind, double AtS, double ForS, double Share = 1.0, int MostHits = int.MaxValue,
    WireSide Side = WireSide.Both, bool OnlyOutputs = false)
{
    /// <summary>When it ends, seconds.</summary>
    public double EndS => AtS + ForS;

    /// <summary>Whether it lies on the feedback's own wires alone, so that a bench may take it for the unit's.</summary>
    public bool IsFeedbacks => Kind is FaultKind.FeedbackSilent or FaultKind.FeedbackGarbled;

    /// <summary>Whether it lasts to the end of the run and beyond.</summary>
    public bool ForGood => Kind is FaultKind.StuckRelay or FaultKind.OpenRelay or FaultKind.EmergencyStop;

    /// <inheritdoc/>
    public override string ToString()
    {
        string hits = MostHits == int.MaxValue ? "" : $", at most {MostHits}";
        string side = Side == WireSide.Both ? "" : $", {Side}";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Kind} at {AtS:0.000} s for {ForS:0.000} s, share {Share:0.00}{hits}{side}{(OnlyOutputs ? ", only outputs" : "")}");
    }
}
