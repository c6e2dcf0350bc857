using Bench.Running;

namespace Bench.Campaigns.Wire;

/// <summary>Work by hand that the person was asked for.</summary>
/// <param name="Work">Which.</param>
/// <param name="AskedS">When, seconds.</param>
public sealed record HandRequest(HandWork Work, double AskedS)
{
    /// <summary>When it was answered or withdrawn; infinite while it stands.</summary>
    public double EndedS { get; set; } = double.PositiveInfinity;

    /// <summary>Whether the person said that it was done.</summary>
    public bool Done { get; set; }

    /// <summary>Whether the bench withdrew it.</summary>
    public bool Withdrawn { get; set; }
}
