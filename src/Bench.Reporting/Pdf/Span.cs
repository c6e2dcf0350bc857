using SkiaSharp;

namespace Bench.Reporting.Pdf;

/// <summary>Text of one look.</summary>
/// <param name="Text">The text; a line feed ends the line, any other white space may.</param>
/// <param name="Look">How it is set.</param>
internal sealed record Span(string Text, Look Look);

/// <summary>How text is set.</summary>
/// <param name="Size">In points.</param>
/// <param name="Color">Its colour.</param>
/// <param name="Bold">Whether bold.</param>
/// <param name="Target">Name of the place in the document that it leads to.</param>
internal sealed record Look(float Size, SKColor Color, bool Bold = false, string? Target = null);
