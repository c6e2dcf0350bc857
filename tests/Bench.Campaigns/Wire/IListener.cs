namespace Bench.Campaigns.Wire;

/// <summary>Hears the bytes of one link at the program's end.</summary>
internal interface IListener
{
    /// <summary>The program handed bytes to the link.</summary>
    void Sent(ReadOnlySpan<byte> bytes);

    /// <summary>Bytes reached the program.</summary>
    void Received(ReadOnlySpan<byte> bytes);
}
