using System.Globalization;
using Bench.Model.Serialization;

namespace Bench.Model.Configuration;

/// <summary>
/// A table of a file being read. Each question either answers or notes an error and answers null, so that reading
/// goes on and the user hears of everything at once; comparisons with null are false, so one error makes no second.
/// </summary>
internal sealed class Section
{
    private const int MostText = 400;
    private const int MostIdLetters = 64;

    private readonly string _file;
    private readonly List<ConfigurationError> _errors;
    private readonly TomlTable _table;
    private readonly string _path;
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);

    private Section(string file, List<ConfigurationError> errors, TomlTable table, string path) =>
        (_file, _errors, _table, _path) = (file, errors, table, path);

    /// <summary>The whole document.</summary>
    public static Section Document(FileText file, string fileName) =>
        new(fileName, [], TomlReader.Read(file.Content, fileName), "");

    /// <summary>Line of the section's heading, from 1.</summary>
    public int Line => _table.Line;

    /// <summary>Whether there is a table of that name, or several; does not make it a known one.</summary>
    public bool Holds(string key, bool repeated) => _table.Entries.GetValueOrDefault(key) is { } node && (repeated ? node is TomlList : node is TomlTable);

    /// <summary>Whether a key is there, right or wrong.</summary>
    public bool Has(string key) => _table.Entries.ContainsKey(Know(key));

    /// <summary>Text, not blank.</summary>
    public string? Text(string key, bool required = true) =>
        Ask(key, required) is not TomlNode node ? null
        : node is TomlScalar { Value: string text } && text.Length <= MostText && !string.IsNullOrWhiteSpace(text) ? text
        : Wrong<string>(key, node, $"text in quotes, 1 to {MostText} characters, is allowed");

    /// <summary>A name that others refer to: lower-case letters, digits and hyphens.</summary>
    public string? Id(string key, bool required = true) =>
        Ask(key, required) is not TomlNode node ? null
        : node is TomlScalar { Value: string text } && IsId(text) ? text
        : Wrong<string>(key, node, $"lower-case letters, digits and hyphens in quotes are allowed, at most {MostIdLetters}");

    /// <summary>A list of texts, at least one.</summary>
    public IReadOnlyList<string>? Texts(string key)
    {
        if (Ask(key, required: true) is not TomlNode node)
        {
            return null;
        }

        List<string> texts = node is TomlList list
            ? [.. list.Items.OfType<TomlScalar>().Select(item => item.Value).OfType<string>().Where(t => !string.IsNullOrWhiteSpace(t))]
            : [];
        return node is TomlList all && texts.Count == all.Items.Count && texts.Count > 0
            ? texts
            : Wrong<IReadOnlyList<string>>(key, node, "a list of texts, at least one, is allowed");
    }

    /// <summary>A finite number in a range; whole numbers count.</summary>
    public double? Number(string key, NumberRange range, bool required = true)
    {
        if (Ask(key, required) is not TomlNode node)
        {
            return null;
        }

        double? value = (node as TomlScalar)?.Value switch
        {
            double number when double.IsFinite(number) => number,
            long whole => whole,
            _ => null,
        };
        return value is double v && range.Contains(v) ? v : WrongValue<double>(key, node, range.ToString());
    }

    /// <summary>A whole number in a range.</summary>
    public int? Whole(string key, int least, int most, bool required = true) =>
        Ask(key, required) is not TomlNode node ? null
        : node is TomlScalar { Value: long whole } && whole >= least && whole <= most ? (int)whole
        : WrongValue<int>(key, node, string.Create(CultureInfo.InvariantCulture, $"a whole number from {least} to {most} is allowed"));

    /// <summary>True or false.</summary>
    public bool? Flag(string key, bool required = true) =>
        Ask(key, required) is not TomlNode node ? null
        : node is TomlScalar { Value: bool flag } ? flag
        : WrongValue<bool>(key, node, "true or false is allowed");

    /// <summary>A day.</summary>
    public DateOnly? Date(string key) =>
        Ask(key, required: true) is not TomlNode node ? null
        : node is TomlScalar { Value: DateOnly date } ? date
        : WrongValue<DateOnly>(key, node, "a date such as 2026-03-02, without quotes, is allowed");

    /// <summary>One of an enumeration's words.</summary>
    public T? Word<T>(string key, bool required = true)
        where T : struct, Enum
    {
        if (Ask(key, required) is not TomlNode node)
        {
            return null;
        }

        foreach (T value in Enum.GetValues<T>())
        {
            if (node is TomlScalar { Value: string text } && text == BenchJson.Word(value))
            {
                return value;
            }
        }

        string[] words = [.. Enum.GetValues<T>().Select(value => $"\"{BenchJson.Word(value)}\"")];
        return WrongValue<T>(key, node, $"allowed: {string.Join(", ", words)}");
    }

    /// <summary>A table within.</summary>
    public Section? Table(string key, bool required = true) =>
        Ask(key, required, $"the table [{Header(key)}] is required") is not TomlNode node ? null
        : node is TomlTable table ? Inner(table, FullKey(key))
        : Wrong<Section>(key, node, $"a table is allowed: [{Header(key)}] or {key} = {{ ... }}");

    /// <summary>Tables of one name, <c>[[key]]</c>, counted from 1 in messages.</summary>
    public IReadOnlyList<Section> Tables(string key, int least = 0)
    {
        if (Ask(key, required: least > 0, $"[[{Header(key)}]] is required, at least {least}") is not TomlNode node)
        {
            return [];
        }

        if (node is not TomlList list || list.Items.Count < least || !list.Items.All(item => item is TomlTable))
        {
            _ = Wrong<object>(key, node, $"tables headed [[{Header(key)}]] are allowed, at least {least}");
            return [];
        }

        return [.. list.Items.Select((item, i) =>
            Inner((TomlTable)item, string.Create(CultureInfo.InvariantCulture, $"{FullKey(key)}[{i + 1}]")))];
    }

    /// <summary>Every entry that is not a table, here and in the tables within, with its name dotted from here.</summary>
    public IEnumerable<(Section Section, string Key, string Name)> Leaves()
    {
        foreach ((string key, TomlNode node) in _table.Entries)
        {
            if (node is not TomlTable table)
            {
                yield return (this, Know(key), key);
                continue;
            }

            foreach ((Section section, string inner, string name) in Inner(table, FullKey(KeyText.Of(Know(key)))).Leaves())
            {
                yield return (section, inner, $"{key}.{name}");
            }
        }
    }

    /// <summary>Notes an error at a key, or at the section when the key is not there.</summary>
    /// <param name="key">Key within the section; empty for the section itself.</param>
    /// <param name="found">What was found; null to show what stands there.</param>
    /// <param name="allowed">What is allowed and what to do.</param>
    public void Refuse(string key, string? found, string allowed)
    {
        TomlNode? node = _table.Entries.GetValueOrDefault(key);
        Note((node ?? _table).Line, FullKey(key.Length == 0 ? key : KeyText.Of(key)), found ?? node?.Shown ?? "nothing", allowed);
    }

    /// <summary>Refuses keys that nobody asked for. Call when all questions of the section were asked.</summary>
    public void Close()
    {
        foreach ((string key, TomlNode node) in _table.Entries.Where(entry => !_known.Contains(entry.Key)))
        {
            string what = node is TomlScalar ? "an unknown key" : "an unknown table";
            Note(node.Line, FullKey(KeyText.Of(key)), what, NearestName.Advice(key, _known));
        }
    }

    /// <summary>Takes every key as known: the section was refused for a reason that makes its keys meaningless.</summary>
    public void Ignore() => _known.UnionWith(_table.Entries.Keys);

    /// <summary>Throws when anything was refused, in the order of the file.</summary>
    /// <exception cref="ConfigurationException">Something was.</exception>
    public void ThrowIfRefused()
    {
        if (_errors.Count > 0)
        {
            throw new ConfigurationException([.. _errors.OrderBy(error => error.Line)]);
        }
    }

    private void Note(int line, string key, string found, string allowed) =>
        _errors.Add(new ConfigurationError(_file, line, key, found, allowed));

    /// <summary>Whether a text is such a name as <see cref="Id"/> reads.</summary>
    public static bool IsId(string text) =>
        text.Length is > 0 and <= MostIdLetters && text[0] != '-'
        && text.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');

    private string FullKey(string key) => _path.Length == 0 ? key : key.Length == 0 ? _path : $"{_path}.{key}";

    /// <summary>The full key as a header in the file has it: without the numbers of tables.</summary>
    private string Header(string key) =>
        string.Concat(FullKey(key).Split('[').Select(part => part[(part.IndexOf(']', StringComparison.Ordinal) + 1)..]));

    private Section Inner(TomlTable table, string path) => new(_file, _errors, table, path);

    private string Know(string key)
    {
        _known.Add(key);
        return key;
    }

    private TomlNode? Ask(string key, bool required, string missing = "this key is required")
    {
        TomlNode? node = _table.Entries.GetValueOrDefault(Know(key));
        if (node is null && required)
        {
            Refuse(key, "nothing", missing);
        }

        return node;
    }

    private T? Wrong<T>(string key, TomlNode node, string allowed)
        where T : class
    {
        Refuse(key, node.Shown, allowed);
        return null;
    }

    private T? WrongValue<T>(string key, TomlNode node, string allowed)
        where T : struct
    {
        Refuse(key, node.Shown, allowed);
        return null;
    }
}
