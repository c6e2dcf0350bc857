using Bench.Cli.Intakes;
using Bench.Model.BenchFiles;
using Bench.Model.Configuration;
using Bench.Model.Profiles;
using Bench.Model.Returns;

namespace Bench.Cli.Running;

/// <summary>What a person asked to be tested, as given.</summary>
internal sealed record UnitOrder
{
    public string? Serial { get; init; }

    public string? Position { get; init; }

    public IReadOnlyList<string> Units { get; init; } = [];

    public string? UnitsFile { get; init; }

    public string? Profile { get; init; }

    public Symptom? Symptom { get; init; }

    public string? Part { get; init; }

    public string? ReturnNumber { get; init; }

    public string? Note { get; init; }

    /// <summary>Number of a return that was taken in.</summary>
    public string? Return { get; init; }

    /// <summary>That return, once it was found.</summary>
    public TakenReturn? Taken { get; init; }

    /// <summary>Finds a return that was taken in, by its number.</summary>
    public Func<string, TakenReturn> FindReturn { get; init; } = number => throw new CliException(ExitCode.BadInput, $"return {number}: no store to find it in");

    /// <summary>Whether it asks for one unit in the way of one.</summary>
    public bool IsOfOne => Units.Count == 0 && UnitsFile is null;

    /// <summary>Checks it against a bench.</summary>
    /// <exception cref="CliException">Something given is not usable.</exception>
    /// <exception cref="ConfigurationException">A file is wrong.</exception>
    public IReadOnlyList<PlannedUnit> Plan(BenchFile bench)
    {
        if (UnitsFile is { } file)
        {
            return FromFile(bench, file);
        }

        Profile profile = UserFiles.Profile(Profile!);
        if (Taken is { } taken)
        {
            return [new PlannedUnit(taken.For(profile), PositionChoice.Of(bench, Position, profile), profile)];
        }

        return IsOfOne
            ? [new PlannedUnit(UnitEntry.Check(Serial, Symptom!.Value, Part, ReturnNumber, Note, profile), PositionChoice.Of(bench, Position, profile), profile)]
            : FromOptions(bench, profile);
    }

    private List<PlannedUnit> FromOptions(BenchFile bench, Profile profile)
    {
        List<PlannedUnit> planned = [];
        foreach (string given in Units)
        {
            string[] parts = given.Split('=', 2);
            if (parts.Length != 2 || parts[0].Length == 0 || string.IsNullOrWhiteSpace(parts[1]))
            {
                throw new CliException(ExitCode.BadInput, $"--unit '{given}': give POSITION=SN, e.g. {bench.Positions[0].Name}=ND4-10417");
            }

            UnitReturn unit = UnitEntry.Check(parts[1], Symptom!.Value, Part, ReturnNumber, Note, profile, "--unit");
            UnitPositionDescription position = PositionChoice.Of(bench, parts[0].Trim(), profile, "--unit");
            if (planned.Find(p => p.Position.Name == position.Name) is { } before)
            {
                throw new CliException(ExitCode.BadInput, $"--unit {given}: position '{position.Name}' holds {before.Return.Serial} already; a position holds one unit");
            }

            if (planned.Find(p => p.Return.Serial == unit.Serial) is { } same)
            {
                throw new CliException(ExitCode.BadInput, $"--unit {given}: {unit.Serial} is at '{same.Position.Name}' already; look at the labels again");
            }

            planned.Add(new PlannedUnit(unit, position, profile));
        }

        return planned;
    }

    private List<PlannedUnit> FromFile(BenchFile bench, string file)
    {
        Dictionary<string, Profile> profiles = [];
        List<ConfigurationError> errors = [];
        List<PlannedUnit> planned = [];
        foreach ((ListedUnit listed, int i) in UserFiles.Units(file, [.. bench.Positions.Select(p => p.Name)]).Select((u, i) => (u, i)))
        {
            // A path in a file counts from where the file is.
            string? path = listed.Profile is { } own ? Path.Combine(Path.GetDirectoryName(Path.GetFullPath(file))!, own) : Profile;
            Symptom? symptom = listed.Return is null ? listed.Symptom ?? Symptom : null;
            void Miss(string key, string option) => errors.Add(new ConfigurationError(
                file, listed.Line, $"unit[{i + 1}].{key}", "nothing", $"say it here, or give {option} for all units that do not"));
            if (path is null)
            {
                Miss("profile", "--profile FILE");
            }

            if (symptom is null && listed.Return is null)
            {
                Miss("symptom", "--symptom constant|intermittent");
            }

            if (path is null || (symptom is null && listed.Return is null))
            {
                continue;
            }

            Profile profile = profiles.TryGetValue(path, out Profile? read) ? read : profiles[path] = UserFiles.Profile(path);
            string where = $"{file}:{listed.Line}: unit[{i + 1}]";
            UnitReturn unit = listed.Return is { } number
                ? FindReturn(number).For(profile)
                : UnitEntry.Check(
                    listed.Serial, symptom!.Value, listed.PartNumber ?? Part, listed.ReturnNumber ?? ReturnNumber, listed.FieldNote ?? Note, profile, where);
            if (planned.Find(p => p.Return.Serial == unit.Serial) is { } same)
            {
                throw new CliException(ExitCode.BadInput, $"{where}: {unit.Serial} is at '{same.Position.Name}' already; look at the labels again");
            }

            planned.Add(new PlannedUnit(unit, PositionChoice.Of(bench, listed.Position, profile, where), profile));
        }

        return errors.Count == 0 ? planned : throw new ConfigurationException(errors);
    }
}
