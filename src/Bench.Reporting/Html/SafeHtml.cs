namespace Bench.Reporting.Html;

/// <summary>A piece of HTML that is already safe to write: made by <see cref="Markup"/>, or the plots' SVG.</summary>
internal readonly record struct SafeHtml(string Text)
{
    /// <summary>Nothing.</summary>
    public static SafeHtml None => new(string.Empty);
}
