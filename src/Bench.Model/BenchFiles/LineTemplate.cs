using System.Text;

namespace Bench.Model.BenchFiles;

/// <summary>
/// A line with named fields, e.g. <c>relay {channel} {state}</c>: filled in to be sent, or laid over a line that came.
/// A brace itself is written twice.
/// </summary>
/// <remarks>
/// Not a regular expression on purpose: one pass over the line, no going back, so no file and no device can make it slow.
/// A field is one character or more and ends where the text after it first begins; the last text must end the line.
/// </remarks>
public sealed class LineTemplate : IEquatable<LineTemplate>
{
    /// <summary>Name of the relay, input or quantity meant.</summary>
    public const string Channel = "channel";

    /// <summary>The device's word for on or off.</summary>
    public const string State = "state";

    /// <summary>A number.</summary>
    public const string Value = "value";

    /// <summary>Anything; not looked at.</summary>
    public const string Any = "any";

    private readonly List<Part> _parts;

    private LineTemplate(string text, List<Part> parts) => (Text, _parts) = (text, parts);

    /// <summary>As written.</summary>
    public string Text { get; }

    /// <summary>Names of its fields, in order.</summary>
    public IEnumerable<string> Fields => _parts.Where(p => p.IsField).Select(p => p.Text);

    /// <summary>Reads a template.</summary>
    /// <param name="text">As written.</param>
    /// <param name="template">The template; null when it is none.</param>
    /// <returns>What is wrong with it, in words; null when nothing.</returns>
    public static string? TryRead(string text, out LineTemplate? template)
    {
        ArgumentNullException.ThrowIfNull(text);
        template = null;
        List<Part> parts = [];
        StringBuilder literal = new();
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c is < ' ' or > '~')
            {
                return "letters, digits and signs of ASCII on one line are allowed";
            }

            if (c is '{' or '}' && i + 1 < text.Length && text[i + 1] == c)
            {
                literal.Append(c);
                i++;
            }
            else if (c == '{' && text.IndexOf('}', i) is int end and > 0)
            {
                Flush(parts, literal);
                if (parts is [.., { IsField: true }])
                {
                    return "text is needed between two fields, else nothing says where the first ends";
                }

                parts.Add(new Part(text[(i + 1)..end], IsField: true));
                i = end;
            }
            else if (c is '{' or '}')
            {
                return "a brace opens or closes a field, e.g. {channel}; write {{ or }} for the sign itself";
            }
            else
            {
                literal.Append(c);
            }
        }

        Flush(parts, literal);
        template = new LineTemplate(text, parts);
        return null;
    }

    /// <summary>Fills the fields in.</summary>
    /// <param name="value">Gives a field's text.</param>
    public string Fill(Func<string, string> value)
    {
        ArgumentNullException.ThrowIfNull(value);
        return string.Concat(_parts.Select(p => p.IsField ? value(p.Text) : p.Text));
    }

    /// <summary>Lays the template over a line.</summary>
    /// <returns>Text of each field without outer blanks, the first where one is named twice; null when the line does not fit.</returns>
    public IReadOnlyDictionary<string, string>? Match(string line)
    {
        ArgumentNullException.ThrowIfNull(line);
        Dictionary<string, string> fields = new(StringComparer.Ordinal);
        int at = 0;
        for (int i = 0; i < _parts.Count; i++)
        {
            Part part = _parts[i];
            if (!part.IsField)
            {
                if (!line.AsSpan(at).StartsWith(part.Text, StringComparison.Ordinal))
                {
                    return null;
                }

                at += part.Text.Length;
                continue;
            }

            int end = End(line, at, i);
            if (end <= at)
            {
                return null;
            }

            fields.TryAdd(part.Text, line[at..end].Trim());
            at = end;
        }

        return at == line.Length ? fields : null;
    }

    /// <inheritdoc/>
    public bool Equals(LineTemplate? other) => other is not null && other.Text == Text;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as LineTemplate);

    /// <inheritdoc/>
    public override int GetHashCode() => Text.GetHashCode(StringComparison.Ordinal);

    /// <inheritdoc/>
    public override string ToString() => Text;

    private static void Flush(List<Part> parts, StringBuilder literal)
    {
        if (literal.Length > 0)
        {
            parts.Add(new Part(literal.ToString(), IsField: false));
            literal.Clear();
        }
    }

    // Where a field that begins at a place ends; -1 when the text after it does not come.
    private int End(string line, int at, int field)
    {
        if (field == _parts.Count - 1)
        {
            return line.Length;
        }

        string next = _parts[field + 1].Text;
        return field + 1 == _parts.Count - 1
            ? (line.EndsWith(next, StringComparison.Ordinal) ? line.Length - next.Length : -1)
            : at + 1 < line.Length ? line.IndexOf(next, at + 1, StringComparison.Ordinal) : -1;
    }

    private readonly record struct Part(string Text, bool IsField);
}
