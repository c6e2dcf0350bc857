namespace Bench.Model.Profiles;

/// <summary>A physical fault mode, how common it is among returns, and how likely it is to show in each feature.</summary>
public sealed record FaultMode
{
    /// <summary>Id, unique in the profile; also the id of the cause in a run.</summary>
    public required string Id { get; init; }

    /// <summary>Name in plain words.</summary>
    public required string Name { get; init; }

    /// <summary>Share of returns with this fault, 0 to 1; priors of a profile sum to 1.</summary>
    public required double Prior { get; init; }

    /// <summary>
    /// Probability that a feature does not conform under this fault, by feature name. A feature not named has
    /// <see cref="Profile.BackgroundShow"/>.
    /// </summary>
    public required IReadOnlyDictionary<string, double> Shows { get; init; }

    /// <summary>A check by hand that would tell it from its likeliest rivals, in plain words; null for none.</summary>
    public string? NextCheck { get; init; }

    /// <summary>What that check shows if this is the cause; null for none.</summary>
    public string? Expect { get; init; }

    /// <summary>Minutes that check takes, above 0; null where the profile does not say.</summary>
    public double? Minutes { get; init; }

    /// <summary>
    /// Id of the remedy that mends this fault; null for none. Once the fault is clear it takes the place of the remedies of
    /// the findings it explains.
    /// </summary>
    public string? Remedy { get; init; }

    /// <summary>Whether a unit with this fault did what a reported feedback fault claims (claim confirmed), or has another fault.</summary>
    public required bool ExplainsFeedbackFault { get; init; }
}
