namespace Bench.Reporting.Plots;

/// <summary>One plot of a run with its text alternative, or the reason why there is none.</summary>
public sealed record Figure
{
    /// <summary>Id within a page, e.g. <c>ring</c>.</summary>
    public required string Id { get; init; }

    /// <summary>Title in plain words.</summary>
    public required string Title { get; init; }

    /// <summary>SVG 1.1 for inlining in HTML: text in <see cref="PlotFont.Family"/>, no script, no reference; null when omitted.</summary>
    public string? Svg { get; init; }

    /// <summary>What the plot shows, with its numbers, for those who can't see it; null when omitted.</summary>
    public string? Caption { get; init; }

    /// <summary>Why there is no plot; null when there is one.</summary>
    public string? OmittedBecause { get; init; }

    internal static Figure Of(string id, string title, PlotSheet sheet, string caption) =>
        new() { Id = id, Title = title, Svg = sheet.ToSvg(id), Caption = caption };

    internal static Figure Omitted(string id, string title, string because) =>
        new() { Id = id, Title = title, OmittedBecause = because };
}
