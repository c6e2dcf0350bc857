using Bench.Model.Profiles;
using Bench.Simulation.Conditions;

namespace Bench.Cli.Simulating;

/// <summary>A unit that a person asks the simulator to place: <c>CONDITION</c> or <c>FAMILY=CONDITION</c>.</summary>
internal sealed record PlacedUnit(Profile Profile, ICondition Condition)
{
    private const string DefaultFamily = "nutrient-diverter-4";

    /// <summary>Reads one.</summary>
    /// <exception cref="CliException">Family or condition is unknown.</exception>
    public static PlacedUnit Parse(string text)
    {
        int equals = text.IndexOf('=', StringComparison.Ordinal);
        string family = equals < 0 ? DefaultFamily : text[..equals];
        try
        {
            return new PlacedUnit(ShippedProfiles.Get(family), ConditionCatalog.Find(text[(equals + 1)..]));
        }
        catch (ArgumentException e)
        {
            throw new CliException(ExitCode.BadInput, $"--unit {text}: {e.Message}");
        }
    }
}
