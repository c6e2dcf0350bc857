namespace Bench.Model.Instruments;

/// <summary>Everything wired to one place where a unit can be tested. Made from a bench file; owns nothing of the judge's.</summary>
public interface IUnitPosition : IAsyncDisposable
{
    /// <summary>The position's name in the bench file.</summary>
    string Name { get; }

    /// <summary>The drive.</summary>
    IDrive Drive { get; }

    /// <summary>Watchdogs of the boards that hold this position's outputs; none where no board has one.</summary>
    IReadOnlyList<IWatchdog> Watchdogs { get; }

    /// <summary>The unit's feedback.</summary>
    IFeedback Feedback { get; }

    /// <summary>The meters and inputs.</summary>
    IMeters Meters { get; }

    /// <summary>Exchanges so far with every device this position uses.</summary>
    IReadOnlyList<LinkCounts> Counts { get; }
}
