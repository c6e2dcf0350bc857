namespace Bench.Model.Configuration;

/// <summary>An array of values, or of tables (<c>[[name]]</c>).</summary>
/// <param name="Line">Line, from 1.</param>
/// <param name="Items">Its members.</param>
internal sealed record TomlList(int Line, List<TomlNode> Items) : TomlNode(Line)
{
    /// <inheritdoc/>
    public override string Shown => "a list";
}
