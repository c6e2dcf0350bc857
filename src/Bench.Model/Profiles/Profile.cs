using Bench.Model.Rings;

namespace Bench.Model.Profiles;

/// <summary>Limits, routine, economics and fault knowledge for one unit family; read from a TOML file (docs/profile.md).</summary>
public sealed record Profile
{
    /// <summary>Probability that a feature does not conform under a fault that does not name it.</summary>
    public const double BackgroundShow = 0.002;

    /// <summary>Id of the family, e.g. <c>nutrient-diverter-4</c>.</summary>
    public required string Family { get; init; }

    /// <summary>Title in plain words.</summary>
    public required string Title { get; init; }

    /// <summary>Version of the profile.</summary>
    public required string Version { get; init; }

    /// <summary>Who wrote it (a role).</summary>
    public required string Author { get; init; }

    /// <summary>Who approved it and when; null when it is a draft.</summary>
    public string? Approval { get; init; }

    /// <summary>Part numbers it applies to.</summary>
    public required IReadOnlyList<string> PartNumbers { get; init; }

    /// <summary>The encoder's ring.</summary>
    public required Ring Ring { get; init; }

    /// <summary>How the unit is driven.</summary>
    public required DriveKind Drive { get; init; }

    /// <summary>How it reports its position.</summary>
    public required FeedbackKind Feedback { get; init; }

    /// <summary>How far from its target a commanded unit may stand and have landed, counts; null for any other.</summary>
    public double? LandingToleranceCounts { get; init; }

    /// <summary>Arc over which the index input is closed, counts; null when the family has no index.</summary>
    public double? IndexWidthCounts { get; init; }

    /// <summary>Middle of that arc as the encoder counts it turning towards rising counts; null where nobody needs it.</summary>
    public double? IndexCount { get; init; }

    /// <summary>Arc over which a port's switch is closed, counts, its middle at the port; null unless <see cref="Feedback"/> is <see cref="FeedbackKind.Switches"/>.</summary>
    public double? SwitchWidthCounts { get; init; }

    /// <summary>The ports, at least two, in order of count.</summary>
    public required IReadOnlyList<Port> Ports { get; init; }

    /// <summary>Nominal data.</summary>
    public required ElectricalData Electrical { get; init; }

    /// <summary>Limits of energising.</summary>
    public required SafetyLimits Safety { get; init; }

    /// <summary>Stages, in order.</summary>
    public required IReadOnlyList<Stage> Routine { get; init; }

    /// <summary>Limits by feature.</summary>
    public required IReadOnlyList<Limit> Limits { get; init; }

    /// <summary>What must be shown before a unit is reusable.</summary>
    public required Demonstration Demonstration { get; init; }

    /// <summary>Costs.</summary>
    public required Economics Economics { get; init; }

    /// <summary>Remedies.</summary>
    public required IReadOnlyList<Remedy> Remedies { get; init; }

    /// <summary>Fault modes; one of them, <c>none</c>, is the healthy unit.</summary>
    public required IReadOnlyList<FaultMode> FaultModes { get; init; }

    /// <summary>What is looked at on arrival; empty for nothing.</summary>
    public IReadOnlyList<InspectionItem> Inspection { get; init; } = [];

    /// <summary>Rows that decide a claim otherwise than the usual table does, the first that fits; empty for none.</summary>
    public IReadOnlyList<ClaimRule> Claims { get; init; } = [];

    /// <summary>SHA-256 of the file's bytes, lower-case hexadecimal.</summary>
    public required string Sha256 { get; init; }

    /// <summary>The file's text, kept so that a record can be judged again years later.</summary>
    public required string Text { get; init; }

    /// <summary>Counts the drive may travel per move, i.e. whether it can turn towards falling counts.</summary>
    public bool CanReverse => Drive != DriveKind.Single;

    /// <summary>Whether a run finds the home of the unit's counter at the index, before any port means anything.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public bool HomesByIndex => Feedback == FeedbackKind.Incremental && IndexCount is not null;
}
