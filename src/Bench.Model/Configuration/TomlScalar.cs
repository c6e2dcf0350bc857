namespace Bench.Model.Configuration;

/// <summary>A string, number, boolean or date.</summary>
/// <param name="Line">Line, from 1.</param>
/// <param name="Value">A <see cref="string"/>, <see cref="long"/>, <see cref="double"/>, <see cref="bool"/>, <see cref="DateOnly"/>, or null for another date or time.</param>
/// <param name="Source">As written in the file.</param>
internal sealed record TomlScalar(int Line, object? Value, string Source) : TomlNode(Line)
{
    private const int MostShown = 60;

    /// <inheritdoc/>
    public override string Shown
    {
        get
        {
            string line = Source.ReplaceLineEndings(" ");
            return line.Length <= MostShown ? line : string.Concat(line.AsSpan(0, MostShown), "…");
        }
    }
}
