using Bench.Simulation.Time;

namespace Bench.Campaigns.Wire;

/// <summary>What was seen of a run from outside: at the relays, on the wire, at the person, in the journal.</summary>
public sealed class Witness(VirtualTime time)
{
    /// <summary>Changes of relay coils.</summary>
    public List<Switched> Switched { get; } = [];

    /// <summary>Coil writes handed to the link.</summary>
    public List<CoilWrite> Writes { get; } = [];

    /// <summary>Answers that said what coils are.</summary>
    public List<CoilRead> CoilReads { get; } = [];

    /// <summary>Lines handed to the supply's link.</summary>
    public List<SupplyLine> SupplyLines { get; } = [];

    /// <summary>Lines that came back from it.</summary>
    public List<SupplyAnswer> SupplyAnswers { get; } = [];

    /// <summary>What the supply was set to, as it knows itself.</summary>
    public List<SupplyState> Supply { get; } = [];

    /// <summary>What the person was asked to do.</summary>
    public List<HandRequest> Hands { get; } = [];

    /// <summary>Answers that reached the program.</summary>
    public List<Answered> Answers { get; } = [];

    /// <summary>Events as the journal was given them.</summary>
    public List<Stamped> Events { get; } = [];

    /// <summary>When the person confirmed; infinite when never.</summary>
    public double ConfirmedS { get; set; } = double.PositiveInfinity;

    /// <summary>When a person stopped the run; infinite when nobody did.</summary>
    public double CancelledS { get; set; } = double.PositiveInfinity;

    /// <summary>When the record could no longer be written; infinite when it always could.</summary>
    public double UnwritableS { get; set; } = double.PositiveInfinity;

    /// <summary>Whether a run that left no record said that off is not confirmed.</summary>
    public bool SaidNotOff { get; set; }

    /// <summary>When the run had ended.</summary>
    public double EndedS { get; set; }

    /// <summary>Frames that were hit and were not the feedback's own.</summary>
    public int HitsBesideFeedback { get; set; }

    /// <summary>Whether a coil was on when it had ended.</summary>
    public bool CoilOnAtEnd { get; set; }

    /// <summary>Whether the motor was driven although both coils were off when it had ended.</summary>
    public bool DrivenAtEnd { get; set; }

    /// <summary>Whether the supply's output was off after that, too; true where there is none to switch.</summary>
    public bool SupplyOffAfterwards { get; set; } = true;

    /// <summary>Whether the outputs were off after the faults had passed and they were switched off anew.</summary>
    public bool OffAfterwards { get; set; }

    /// <summary>Now, seconds.</summary>
    public double NowS => time.Elapsed.TotalSeconds;
}
