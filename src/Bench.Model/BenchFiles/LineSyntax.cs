namespace Bench.Model.BenchFiles;

/// <summary>How a device that speaks lines of text is switched and asked: <c>[device.lines]</c>.</summary>
public sealed record LineSyntax
{
    /// <summary>What ends its lines, both ways.</summary>
    public LineTerminator Terminator { get; init; } = LineTerminator.Crlf;

    /// <summary>Switches an output; null for a device without outputs.</summary>
    public LineTemplate? Switch { get; init; }

    /// <summary>What is answered to that; null when nothing is.</summary>
    public LineTemplate? Switched { get; init; }

    /// <summary>Asks whether an output or input is on; null where there is none.</summary>
    public LineTemplate? AskState { get; init; }

    /// <summary>What is answered to that.</summary>
    public LineTemplate? State { get; init; }

    /// <summary>The device's word for on.</summary>
    public string On { get; init; } = "1";

    /// <summary>The device's word for off.</summary>
    public string Off { get; init; } = "0";

    /// <summary>Asks for a number; null where there is none.</summary>
    public LineTemplate? AskValue { get; init; }

    /// <summary>What is answered to that.</summary>
    public LineTemplate? Value { get; init; }

    /// <summary>The characters that end a line.</summary>
    public string End => Terminator switch
    {
        LineTerminator.Cr => "\r",
        LineTerminator.Lf => "\n",
        _ => "\r\n",
    };
}
