using System.Globalization;
using Bench.Model.Configuration;
using Bench.Model.Rings;

namespace Bench.Model.Profiles;

/// <summary>Reads a profile (docs/profile.md).</summary>
public static class ProfileReader
{
    /// <summary>Reads the bytes of a file.</summary>
    /// <param name="bytes">The file, UTF-8, at most 1 MiB.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <exception cref="ConfigurationException">The file cannot be used; carries everything wrong in it.</exception>
    public static Profile Read(ReadOnlySpan<byte> bytes, string fileName) => Read(FileText.Of(bytes, fileName), fileName);

    /// <summary>Reads a file's text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="fileName">Its name, for messages.</param>
    /// <exception cref="ConfigurationException">The file cannot be used; carries everything wrong in it.</exception>
    public static Profile Read(string text, string fileName) => Read(FileText.Of(text, fileName), fileName);

    private static Profile Read(FileText file, string fileName)
    {
        Section document = Section.Document(file, fileName);
        FileKinds.Demand(document, fileName, FileKinds.Profile);
        SchemaVersion.Check(document);

        Section? family = document.Table("family");
        string? id = family?.Id("id");
        string? title = family?.Text("title");
        string? version = family?.Text("version");
        string? author = family?.Text("author");
        string? approval = family?.Text("approval", required: false);
        IReadOnlyList<string>? partNumbers = family?.Texts("part_numbers");
        family?.Close();

        Section? unit = document.Table("unit");
        int? counts = unit?.Whole("ring_counts", Ring.LeastCounts, Ring.MostCounts);
        DriveKind? drive = unit?.Word<DriveKind>("drive");
        FeedbackKind? feedback = unit?.Word<FeedbackKind>("feedback");
        double? tolerance = unit is null ? null : CommandedReader.Read(unit, drive, feedback, counts);
        double? indexWidth = unit?.Number("index_width_counts", NumberRange.Positive(Ring.MostCounts), required: false);
        if (indexWidth >= counts / 2.0)
        {
            unit?.Refuse("index_width_counts", null, "less than half of ring_counts is allowed");
        }

        double? indexCount = unit?.Number("index_count", new NumberRange(0, Ring.MostCounts), required: false);
        if (indexCount >= counts)
        {
            unit?.Refuse("index_count", null, string.Create(CultureInfo.InvariantCulture, $"less than ring_counts ({counts}) is allowed"));
        }
        else if (indexCount is not null && !unit!.Has("index_width_counts"))
        {
            unit.Refuse("index_count", null, "only with index_width_counts: a family without an index has no place for it");
        }

        IReadOnlyList<Port> ports = PortReader.ReadAll(document, counts);
        double? switchWidth = unit is null ? null : SwitchWidthReader.Read(unit, feedback, ports, counts);
        unit?.Close();
        ElectricalData? electrical = EnergisingReader.ReadElectrical(document.Table("electrical"));
        SafetyLimits? safety = EnergisingReader.ReadSafety(document.Table("safety"), electrical, counts);
        IReadOnlyList<Section> stages = document.Tables("stage", 1);
        Demonstration? demonstration = DecisionReader.ReadDemonstration(document.Table("demonstration"));
        IReadOnlyList<Stage> routine = StageReader.ReadAll(stages, demonstration, electrical, safety, feedback, drive);
        Economics? economics = DecisionReader.ReadEconomics(document.Table("economics"));
        UniqueNames remedyIds = new("remedy");
        IReadOnlyList<Remedy> remedies = [.. document.Tables("remedy").Select(s => DecisionReader.ReadRemedy(s, remedyIds))];
        IReadOnlyList<Limit> limits = LimitReader.ReadAll(document, remedyIds);
        IReadOnlyList<InspectionItem> inspection = InspectionReader.ReadAll(document, remedyIds);
        IReadOnlyList<FaultMode> faults = FaultModeReader.ReadAll(document, remedyIds, inspection);
        IReadOnlyList<ClaimRule> claims = ClaimReader.ReadAll(document, faults);
        document.Close();
        document.ThrowIfRefused();

        return new Profile
        {
            Family = id!,
            Title = title!,
            Version = version!,
            Author = author!,
            Approval = approval,
            PartNumbers = partNumbers!,
            Ring = new Ring(counts!.Value),
            Drive = drive!.Value,
            Feedback = feedback!.Value,
            LandingToleranceCounts = tolerance,
            IndexWidthCounts = indexWidth,
            IndexCount = indexCount,
            SwitchWidthCounts = switchWidth,
            Ports = ports,
            Electrical = electrical!,
            Safety = safety!,
            Routine = routine,
            Limits = limits,
            Demonstration = demonstration!,
            Economics = economics!,
            Remedies = remedies,
            FaultModes = faults,
            Inspection = inspection,
            Claims = claims,
            Sha256 = file.Sha256,
            Text = file.Text,
        };
    }
}
