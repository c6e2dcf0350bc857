using Bench.Model.Profiles;

namespace Bench.Cli;

/// <summary>The profiles that ship, inside the program, so that demo and simulator work anywhere.</summary>
internal static class ShippedProfiles
{
    private const string Prefix = "profiles/";

    /// <summary>Ids of the families.</summary>
    public static IReadOnlyList<string> Families { get; } =
        [.. typeof(ShippedProfiles).Assembly.GetManifestResourceNames()
            .Where(n => n.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(n => Path.GetFileNameWithoutExtension(n[Prefix.Length..]))
            .Order(StringComparer.Ordinal)];

    /// <summary>A shipped profile by its family, or a profile file by its path.</summary>
    /// <exception cref="CliException">There is neither.</exception>
    public static Profile Get(string familyOrPath)
    {
        using Stream? stream = typeof(ShippedProfiles).Assembly.GetManifestResourceStream($"{Prefix}{familyOrPath}.toml");
        if (stream is null)
        {
            return File.Exists(familyOrPath)
                ? UserFiles.Profile(familyOrPath)
                : throw new CliException(ExitCode.BadInput, $"{familyOrPath}: neither a profile file nor a family that ships; those are: {string.Join(", ", Families)}");
        }

        using MemoryStream bytes = new();
        stream.CopyTo(bytes);
        return ProfileReader.Read(bytes.GetBuffer().AsSpan(0, (int)bytes.Length), $"profiles/{familyOrPath}.toml");
    }
}
