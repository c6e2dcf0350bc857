namespace Bench.Devices.Scpi;

/// <summary>
/// A header as the standard writes it, e.g. <c>MEASure[:SCALar]:CURRent[:DC]?</c>: capitals are the short form, brackets
/// are optional, <c>#</c> stands for a number that may follow the keyword (1 when it does not).
/// </summary>
/// <remarks>
/// A keyword is taken in exactly its short or exactly its long form, in any case (SCPI-1999 volume 1, 6.2.1).
/// A common command (<c>*IDN?</c>, IEEE 488.2) has no colon before it.
/// </remarks>
public sealed class ScpiPattern
{
    private readonly Keyword[] _keywords;
    private readonly bool _isQuery;
    private readonly bool _isCommon;

    /// <summary>Makes a pattern.</summary>
    /// <param name="pattern">As the standard writes it.</param>
    /// <exception cref="FormatException">It is none.</exception>
    public ScpiPattern(string pattern)
    {
        ArgumentException.ThrowIfNullOrEmpty(pattern);
        _isQuery = pattern[^1] == '?';
        _isCommon = pattern[0] == '*';
        string header = _isQuery ? pattern[..^1] : pattern;
        List<Keyword> keywords = [];
        for (int at = 0; at < header.Length;)
        {
            bool optional = header[at] == '[';
            int start = at + (optional ? 1 : 0);
            start += header[start] == ':' ? 1 : 0;
            int end = header.AsSpan(start).IndexOfAny(":[]") is int found and >= 0 ? start + found : header.Length;
            if (end == start || (optional && (end == header.Length || header[end] != ']')))
            {
                throw new FormatException($"\"{pattern}\" is no pattern of a SCPI header");
            }

            bool numbered = header[end - 1] == '#';
            string name = header[start..(numbered ? end - 1 : end)];
            keywords.Add(new Keyword(string.Concat(name.TakeWhile(c => !char.IsAsciiLetterLower(c))), name, optional, numbered));
            at = optional ? end + 1 : end;
        }

        _keywords = [.. keywords];
    }

    /// <summary>Whether a header is one that the pattern stands for.</summary>
    /// <param name="header">As received, without parameters.</param>
    public bool Matches(string header)
    {
        ArgumentNullException.ThrowIfNull(header);
        bool isQuery = header.EndsWith('?');
        if (isQuery != _isQuery)
        {
            return false;
        }

        string name = isQuery ? header[..^1] : header;
        name = !_isCommon && name.StartsWith(':') ? name[1..] : name;
        return Matches(0, name.Split(':'), 0);
    }

    private bool Matches(int keyword, string[] names, int name)
    {
        if (keyword == _keywords.Length)
        {
            return name == names.Length;
        }

        Keyword next = _keywords[keyword];
        return (name < names.Length && next.Matches(names[name]) && Matches(keyword + 1, names, name + 1))
            || (next.Optional && Matches(keyword + 1, names, name));
    }

    private readonly record struct Keyword(string Short, string Long, bool Optional, bool Numbered)
    {
        public bool Matches(string name)
        {
            string bare = Numbered ? name.TrimEnd(['0', '1', '2', '3', '4', '5', '6', '7', '8', '9']) : name;
            return bare.Equals(Short, StringComparison.OrdinalIgnoreCase) || bare.Equals(Long, StringComparison.OrdinalIgnoreCase);
        }
    }
}
