namespace Bench.Model.Features;

/// <summary>Wires of a connector that carry one thing.</summary>
public enum ConnectorPair
{
    /// <summary>The feedback's: it fell silent while the bench's own devices answered.</summary>
    Feedback,

    /// <summary>The supply's: the voltage at the bench's terminals fell.</summary>
    Supply,
}
