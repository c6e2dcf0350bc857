using Bench.Records.Database;

namespace Bench.Records.Files;

/// <summary>Files that a sealed record names: whole, or gone.</summary>
internal static class KeptFile
{
    /// <summary>The bytes of a file; null when it is gone.</summary>
    /// <param name="path">Where it was kept.</param>
    /// <param name="what">What it is, for the message: "a trace".</param>
    /// <exception cref="StoreException">It is there and can't be read.</exception>
    public static byte[]? Read(string path, string what)
    {
        try
        {
            return File.ReadAllBytes(path);
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            return null;
        }
        catch (Exception e) when (StoreFault.IsExpected(e))
        {
            throw StoreFault.Of(e, $"read {what}", path);
        }
    }
}
