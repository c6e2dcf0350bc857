namespace Bench.Cli.Exporting;

/// <summary>What the cells of a column hold; each may also be null, for not known.</summary>
internal enum CellKind
{
    /// <summary><see cref="string"/>.</summary>
    Text,

    /// <summary><see cref="int"/>.</summary>
    Whole,

    /// <summary><see cref="double"/>, finite.</summary>
    Number,

    /// <summary><see cref="bool"/>.</summary>
    Flag,

    /// <summary><see cref="DateTimeOffset"/>.</summary>
    Instant,
}
