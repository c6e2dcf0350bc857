namespace Bench.SystemTests.Programs;

/// <summary>A fresh folder that is gone after the test.</summary>
public sealed class TemporaryFolder : IDisposable
{
    /// <summary>Full path.</summary>
    public string Path { get; } = Directory.CreateTempSubdirectory("bench-system-").FullName;

    /// <summary>Path of something within.</summary>
    public string At(params string[] names) => System.IO.Path.Combine([Path, .. names]);

    /// <summary>Writes a file within.</summary>
    /// <returns>Its path.</returns>
    public string Write(string name, string text)
    {
        File.WriteAllText(At(name), text);
        return At(name);
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
