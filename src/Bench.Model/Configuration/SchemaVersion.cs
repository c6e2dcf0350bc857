namespace Bench.Model.Configuration;

/// <summary>The version of the file formats, <c>schema = 1</c> at the top of each file.</summary>
internal static class SchemaVersion
{
    /// <summary>The only version there is.</summary>
    public const int Current = 1;

    /// <summary>Refuses a file of another version at once: nothing else in it can be trusted to mean what it says.</summary>
    /// <exception cref="ConfigurationException">The version is missing or another.</exception>
    public static void Check(Section document)
    {
        if (document.Whole("schema", 1, int.MaxValue) is int version && version != Current)
        {
            document.Refuse("schema", null, $"this program reads schema {Current} only");
        }

        document.ThrowIfRefused();
    }
}
