namespace Bench.Campaigns.Crash.Faults;

/// <summary>Something that happens to a data folder.</summary>
internal interface IFault
{
    /// <summary>What.</summary>
    string Name { get; }

    /// <summary>Makes it happen and looks.</summary>
    FaultResult Try();
}
