namespace Bench.Model.BenchFiles;

/// <summary>A link as the bench file describes it.</summary>
public sealed record LinkDescription
{
    /// <summary>Name, unique in the file.</summary>
    public required string Name { get; init; }

    /// <summary>Kind of channel.</summary>
    public required LinkKind Kind { get; init; }

    /// <summary>What is spoken on it.</summary>
    public required LinkProtocol Protocol { get; init; }

    /// <summary>Serial port: its name or stable path. Empty for TCP.</summary>
    public string Port { get; init; } = "";

    /// <summary>Serial speed, baud.</summary>
    public int Baud { get; init; } = 115200;

    /// <summary>Serial parity.</summary>
    public SerialParity Parity { get; init; } = SerialParity.None;

    /// <summary>Serial stop bits, 1 or 2.</summary>
    public int StopBits { get; init; } = 1;

    /// <summary>TCP host. Empty for serial.</summary>
    public string Host { get; init; } = "";

    /// <summary>TCP port, 1 to 65535.</summary>
    public int TcpPort { get; init; } = 502;
}
