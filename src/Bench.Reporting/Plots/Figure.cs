using SkiaSharp;

namespace Bench.Reporting.Plots;

/// <summary>One plot of a run with its text alternative, or the reason why there is none.</summary>
public sealed record Figure
{
    /// <summary>Id within a page, e.g. <c>ring</c>.</summary>
    public required string Id { get; init; }

    /// <summary>Title in plain words.</summary>
    public required string Title { get; init; }

    /// <summary>SVG 1.1 for inlining in HTML: text in <see cref="PlotFont.Family"/>, no script, no reference; null when omitted.</summary>
    public string? Svg { get; private init; }

    /// <summary>What the plot shows, with its numbers, for those who can't see it; null when omitted.</summary>
    public string? Caption { get; init; }

    /// <summary>Why there is no plot; null when there is one.</summary>
    public string? OmittedBecause { get; init; }

    /// <summary>Whether there is a plot.</summary>
    public bool IsDrawn => Picture is not null;

    /// <summary>The plot as vectors, <see cref="Width"/> by <see cref="Height"/>; null when omitted.</summary>
    internal SKPicture? Picture { get; private init; }

    /// <summary>Width in CSS pixels.</summary>
    internal static int Width => PlotSheet.Width;

    /// <summary>Height in CSS pixels.</summary>
    internal int Height { get; private init; }

    // The picture after the SVG: the library draws a plot twice when it draws it first, and a recording keeps both.
    internal static Figure Of(string id, string title, PlotSheet sheet, string caption) =>
        new() { Id = id, Title = title, Svg = sheet.ToSvg(id), Caption = caption, Picture = sheet.ToPicture(), Height = sheet.Height };

    internal static Figure Omitted(string id, string title, string because) =>
        new() { Id = id, Title = title, OmittedBecause = because };
}
