namespace Bench.Model.Configuration;

/// <summary>A value in a TOML file, with the line it stands on.</summary>
/// <param name="Line">Line, from 1.</param>
internal abstract record TomlNode(int Line)
{
    /// <summary>What a message says was found.</summary>
    public abstract string Shown { get; }
}
