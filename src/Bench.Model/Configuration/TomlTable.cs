namespace Bench.Model.Configuration;

/// <summary>A table, inline or under a header.</summary>
/// <param name="Line">Line, from 1; 1 for the document.</param>
internal sealed record TomlTable(int Line) : TomlNode(Line)
{
    /// <summary>Its entries by key.</summary>
    public Dictionary<string, TomlNode> Entries { get; } = new(StringComparer.Ordinal);

    /// <inheritdoc/>
    public override string Shown => "a table";
}
