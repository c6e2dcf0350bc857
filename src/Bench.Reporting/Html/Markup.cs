using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;
using Bench.Reporting.Text;

namespace Bench.Reporting.Html;

/// <summary>
/// HTML from interpolated strings: what is written in the source is markup, what comes through a hole is text and is
/// escaped. Escaping can't be forgotten, because there is no other way to put a value in.
/// </summary>
[InterpolatedStringHandler]
internal readonly ref struct Markup
{
    private readonly StringBuilder _html;

    public Markup(int literalLength, int formattedCount) => _html = new StringBuilder(literalLength + (16 * formattedCount));

    /// <summary>The finished piece.</summary>
    public static SafeHtml Of(Markup markup) => new(markup._html.ToString());

    /// <summary>All pieces, one after the other.</summary>
    public static SafeHtml Join(IEnumerable<SafeHtml> pieces) => new(string.Concat(pieces.Select(p => p.Text)));

    public void AppendLiteral(string markup) => _html.Append(markup);

    public void AppendFormatted(SafeHtml html) => _html.Append(html.Text);

    public void AppendFormatted(int number) => _html.Append(number.ToString(CultureInfo.InvariantCulture));

    public void AppendFormatted(long number) => _html.Append(number.ToString(CultureInfo.InvariantCulture));

    public void AppendFormatted(string? text)
    {
        foreach (char c in PrintableText.Of(text ?? string.Empty))
        {
            _ = c switch
            {
                '<' => _html.Append("&lt;"),
                '>' => _html.Append("&gt;"),
                '&' => _html.Append("&amp;"),
                '"' => _html.Append("&quot;"),
                '\'' => _html.Append("&#39;"),
                _ => _html.Append(c),
            };
        }
    }
}
