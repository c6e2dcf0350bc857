using Bench.Simulation.Time;

namespace Bench.Campaigns.Wire;

/// <summary>What was seen of a run from outside: at the relays, on the wire, at the person, in the journal.</summary>
public sealed class Witness(VirtualTime time)
{
    /// <summary>Changes of relay coils.</summary>
    public List<Switched> Switched { get; } = [];

    /// <summary>Coil writes handed to the link.</summary>
    public List<CoilWrite> Writes { get; } = [];

    /// <summary>Answers that reached the program.</summary>
    public List<Answered> Answers { get; } = [];

    /// <summary>Events as the journal was given them.</summary>
    public List<Stamped> Events { get; } = [];

    /// <summary>When the person confirmed; infinite when never.</summary>
    public double ConfirmedS { get; set; } = double.PositiveInfinity;

    /// <summary>When the person said to have come near a connector, and when to have stepped back; infinite when never.</summary>
    public double HandsFromS { get; set; } = double.PositiveInfinity;

    /// <inheritdoc cref="HandsFromS"/>
    public double HandsToS { get; set; } = double.PositiveInfinity;

    /// <summary>When the run had ended.</summary>
    public double EndedS { get; set; }

    /// <summary>Frames that were hit and were not the feedback's own.</summary>
    public int HitsBesideFeedback { get; set; }

    /// <summary>Whether a coil was on when it had ended.</summary>
    public bool CoilOnAtEnd { get; set; }

    /// <summary>Whether the motor was driven although both coils were off when it had ended.</summary>
    public bool DrivenAtEnd { get; set; }

    /// <summary>Whether the outputs were off after the faults had passed and they were switched off anew.</summary>
    public bool OffAfterwards { get; set; }

    /// <summary>Now, seconds.</summary>
    public double NowS => time.Elapsed.TotalSeconds;
}
