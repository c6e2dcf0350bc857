using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads a bench file (docs/bench-file.md).</summary>
public static class BenchFileReader
{
    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The file, UTF-8, at most 1 MiB.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <exception cref="ConfigurationException">The file cannot be used; carries everything wrong in it.</exception>
    public static BenchFile Read(ReadOnlySpan<byte> bytes, string fileName) => Read(FileText.Of(bytes, fileName), fileName);

    /// <summary>Reads a file's text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <exception cref="ConfigurationException">The file cannot be used; carries everything wrong in it.</exception>
    public static BenchFile Read(string text, string fileName) => Read(FileText.Of(text, fileName), fileName);

    private static BenchFile Read(FileText file, string fileName)
    {
        Section document = Section.Document(file, fileName);
        FileKinds.Demand(document, fileName, FileKinds.Bench);
        SchemaVersion.Check(document);

        Section? bench = document.Table("bench");
        string? name = bench?.Text("name");
        double? currentLimit = bench?.Number("supply_current_limit_a", NumberRange.Positive(100));
        bench?.Close();

        KnownDevices known = new();
        List<LinkDescription> links = [.. document.Tables("link", 1).Select(s => LinkReader.Read(s, known))];
        DeviceReader deviceReader = new(known);
        IReadOnlyList<Section> deviceSections = document.Tables("device", 1);
        List<DeviceDescription> devices = [.. deviceSections.Select(deviceReader.Read)];
        WatchdogReader.CheckTimeouts(deviceSections, devices);
        PositionReader positionReader = new(known);
        List<UnitPositionDescription> positions = [.. document.Tables("position", 1).Select(positionReader.Read).OfType<UnitPositionDescription>()];
        IReadOnlyList<GaugeDescription> gauges = GaugeReader.ReadAll(document, positionReader.Names);
        document.Close();
        document.ThrowIfRefused();

        return new BenchFile
        {
            Name = name!,
            SupplyCurrentLimitA = currentLimit!.Value,
            Links = links,
            Devices = devices,
            Positions = positions,
            Gauges = gauges,
            Sha256 = file.Sha256,
            Text = file.Text,
        };
    }
}
