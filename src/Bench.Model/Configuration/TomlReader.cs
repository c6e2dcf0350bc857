using System.Text.RegularExpressions;
using Tomlyn;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace Bench.Model.Configuration;

/// <summary>
/// Turns TOML 1.1 text into tables that know their lines. The syntax tree is read rather than the library's own
/// model, because only the tree says on which line a value stands.
/// </summary>
internal static partial class TomlReader
{
    /// <summary>Reads a document.</summary>
    /// <exception cref="ConfigurationException">The text is not TOML; carries every place the parser found.</exception>
    public static TomlTable Read(string text, string fileName)
    {
        DocumentSyntax document;
        try
        {
            document = SyntaxParser.Parse(text, fileName, validate: true);
        }
        catch (TomlException e)
        {
            throw new ConfigurationException([NotToml(fileName, 0, e.Message)]);
        }
        catch (ArgumentException)
        {
            // Tomlyn 2.10.2 stumbles over such an escape while it writes its own message about it.
            Match escape = NoCharacter().Match(text);
            int line = escape.Success ? 1 + text.AsSpan(0, escape.Index).Count('\n') : 0;
            throw new ConfigurationException([NotToml(fileName, line, "an escape of a string names no Unicode character")]);
        }

        if (document.HasErrors)
        {
            throw new ConfigurationException(
                [.. document.Diagnostics.Select(d => NotToml(fileName, d.Span.Start.Line + 1, d.Message))]);
        }

        TomlTable root = new(1);
        AddAll(root, document.KeyValues, fileName);
        foreach (TableSyntaxBase header in document.Tables)
        {
            AddAll(Open(root, header, fileName), header.Items, fileName);
        }

        return root;
    }

    // Surrogates, and numbers above 10FFFF (TOML 1.1: escapes name Unicode scalar values).
    [GeneratedRegex(@"\\(u|U0000)[dD][89a-fA-F][0-9a-fA-F]{2}|\\U(?!00(0|10))")]
    private static partial Regex NoCharacter();

    private static ConfigurationError NotToml(string fileName, int line, string message) =>
        new(fileName, line, "file", "text that is not TOML", message);

    private static TomlTable Open(TomlTable root, TableSyntaxBase header, string fileName)
    {
        int line = LineOf(header);
        List<string> path = PathOf(header.Name);
        TomlTable parent = Descend(root, path, line, fileName);
        string name = path[^1];
        if (header is TableArraySyntax)
        {
            TomlTable item = new(line);
            if (!parent.Entries.TryGetValue(name, out TomlNode? node))
            {
                parent.Entries[name] = new TomlList(line, [item]);
            }
            else if (node is TomlList list)
            {
                list.Items.Add(item);
            }
            else
            {
                throw Taken(fileName, line, path);
            }

            return item;
        }

        return Child(parent, name, line) ?? throw Taken(fileName, line, path);
    }

    private static void AddAll(TomlTable table, IEnumerable<KeyValueSyntax> pairs, string fileName)
    {
        foreach (KeyValueSyntax pair in pairs)
        {
            int line = LineOf(pair);
            List<string> path = PathOf(pair.Key);
            if (!Descend(table, path, line, fileName).Entries.TryAdd(path[^1], Convert(pair.Value, line, fileName)))
            {
                throw Taken(fileName, line, path);
            }
        }
    }

    private static TomlTable Descend(TomlTable from, List<string> path, int line, string fileName)
    {
        TomlTable at = from;
        for (int i = 0; i < path.Count - 1; i++)
        {
            at = Child(at, path[i], line) ?? throw Taken(fileName, line, path);
        }

        return at;
    }

    /// <summary>The table of that name, made when missing, or the newest of an array of tables; null when the name is taken by a value.</summary>
    private static TomlTable? Child(TomlTable parent, string name, int line)
    {
        if (!parent.Entries.TryGetValue(name, out TomlNode? node))
        {
            TomlTable made = new(line);
            parent.Entries[name] = made;
            return made;
        }

        return node is TomlList { Items: [.., TomlTable last] } ? last : node as TomlTable;
    }

    private static TomlNode Convert(ValueSyntax? value, int line, string fileName)
    {
        switch (value)
        {
            case InlineTableSyntax inline:
                TomlTable table = new(line);
                AddAll(table, inline.Items.Select(item => item.KeyValue!), fileName);
                return table;
            case ArraySyntax array:
                return new TomlList(line, [.. array.Items.Select(item => Convert(item.Value, LineOf(item), fileName))]);
            case StringValueSyntax text:
                return new TomlScalar(line, text.Value, Source(text.Token));
            case IntegerValueSyntax whole:
                return new TomlScalar(line, whole.Value, Source(whole.Token));
            case FloatValueSyntax number:
                return new TomlScalar(line, number.Value, Source(number.Token));
            case BooleanValueSyntax flag:
                return new TomlScalar(line, flag.Value, Source(flag.Token));
            case DateTimeValueSyntax { Kind: SyntaxKind.LocalDate } date:
                return new TomlScalar(line, DateOnly.FromDateTime(date.Value.DateTime.DateTime), Source(date.Token));
            case DateTimeValueSyntax other:
                return new TomlScalar(line, null, Source(other.Token));
            default:
                throw new ConfigurationException([NotToml(fileName, line, "a value must follow the equals sign")]);
        }
    }

    private static List<string> PathOf(KeySyntax? key) =>
        [NameOf(key?.Key), .. key?.DotKeys.Select(item => NameOf(item.Key)) ?? []];

    private static string NameOf(BareKeyOrStringValueSyntax? part) => part switch
    {
        BareKeySyntax bare => bare.Key?.Text ?? "",
        StringValueSyntax quoted => quoted.Value ?? "",
        _ => "",
    };

    private static string Source(SyntaxToken? token) => token?.Text ?? "";

    private static int LineOf(SyntaxNode node) => node.Span.Start.Line + 1;

    private static ConfigurationException Taken(string fileName, int line, List<string> path) =>
        new([new ConfigurationError(fileName, line, KeyText.Of(string.Join('.', path)), "a name used before", "each name is allowed once")]);
}
