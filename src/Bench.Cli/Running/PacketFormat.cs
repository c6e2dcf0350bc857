namespace Bench.Cli.Running;

/// <summary>What <c>bench report</c> writes of a run.</summary>
internal enum PacketFormat
{
    /// <summary>The evidence packet as a page.</summary>
    Html,

    /// <summary>The evidence packet for paper.</summary>
    Pdf,

    /// <summary>One page that goes with the unit.</summary>
    Traveller,

    /// <summary>The traveller's short form on A6.</summary>
    TravellerA6,

    /// <summary>A label for the unit.</summary>
    Label,
}
