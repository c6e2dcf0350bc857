using System.Text.Json.Serialization;
using Bench.Model.Features;
using Bench.Model.Returns;

namespace Bench.Model.Profiles;

/// <summary>One item of the arrival inspection: what a person looks at before the unit is connected to anything.</summary>
public sealed record InspectionItem
{
    /// <summary>Id, unique in the profile.</summary>
    public required string Id { get; init; }

    /// <summary>The question, in plain words.</summary>
    public required string Question { get; init; }

    /// <summary>Answers that may be given, at least two.</summary>
    public required IReadOnlyList<string> Answers { get; init; }

    /// <summary>Those that a sound unit has.</summary>
    public required IReadOnlyList<string> Conforms { get; init; }

    /// <summary>What any other answer says of the unit, a clause in plain words.</summary>
    public required string Means { get; init; }

    /// <summary>What follows from any other answer.</summary>
    public required Severity Severity { get; init; }

    /// <summary>Id of the remedy; null unless <see cref="Severity"/> is repair.</summary>
    public string? Remedy { get; init; }

    /// <summary>Whether a unit can't be reusable without an answer.</summary>
    public bool Required { get; init; }

    /// <summary>Answers after which the unit must not be energised.</summary>
    public IReadOnlyList<string> ForbidsEnergising { get; init; } = [];

    /// <summary>Name of the feature that findings and fault modes know it by.</summary>
    [JsonIgnore]
    public string Feature => InspectionFeatures.Of(Id);

    /// <summary>The limit its feature is held against: the feature is 0 where the answer conforms, else 1.</summary>
    [JsonIgnore]
    public Limit Limit => new() { Feature = Feature, Upper = 0, Rule = DecisionRule.Simple, Severity = Severity, Remedy = Remedy };

    /// <summary>All that a person may answer.</summary>
    [JsonIgnore]
    public IReadOnlyList<string> AllowedAnswers => [.. Answers, InspectionAnswer.NotLooked];
}
