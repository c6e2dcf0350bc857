using System.CommandLine;
using System.CommandLine.Parsing;
using Bench.Cli.Verbs;
using Bench.Model.Returns;

namespace Bench.Cli.Running;

/// <summary>
/// The options that name units: one by <c>--serial</c>, several by a <c>--unit</c> each or by a file. What else they say
/// holds for every unit that the file does not say otherwise of.
/// </summary>
internal sealed class UnitOptions
{
    private readonly Option<string?> _serial = new("--serial") { Description = "Serial number on the unit's label", HelpName = "SN" };
    private readonly Option<string?> _position = new("--position") { Description = "Unit position of the bench, where it has several", HelpName = "NAME" };
    private readonly Option<string[]> _unit = new("--unit") { Description = "A unit and where it is mounted; repeat for more, all are tested at once", HelpName = "POSITION=SN" };
    private readonly Option<string?> _units = new("--units") { Description = "Units file (TOML): units with symptom, profile and return of their own", HelpName = "FILE" };
    private readonly Option<string?> _profile = new("--profile") { Description = "Profile of the units' family (TOML)", HelpName = "FILE" };
    private readonly Option<Symptom?> _symptom = new("--symptom")
    {
        Description = "What the field reported",
        HelpName = "constant|intermittent",
        CustomParser = WordOption.Read<Symptom>,
    };

    private readonly Option<string?> _part = new("--part") { Description = "Part number on the unit's label", HelpName = "PN" };
    private readonly Option<string?> _return = new("--return-number") { Description = "Number of the return", HelpName = "RN" };
    private readonly Option<string?> _taken = new("--return") { Description = "Number of a return that 'bench intake' took in; brings serial, symptom and all else", HelpName = "RN" };
    private readonly Option<string?> _note = new("--note") { Description = "What the field wrote", HelpName = "TEXT" };

    /// <summary>Gives them to a verb.</summary>
    public void AddTo(Command command)
    {
        Option[] all = [_profile, _serial, _taken, _position, _symptom, _unit, _units, _part, _return, _note];
        foreach (Option option in all)
        {
            command.Add(option);
        }

        command.Validators.Add(Validate);
    }

    /// <summary>What was given.</summary>
    public UnitOrder Read(ParseResult options) => new()
    {
        Serial = options.GetValue(_serial),
        Position = options.GetValue(_position),
        Units = options.GetValue(_unit) ?? [],
        UnitsFile = options.GetValue(_units),
        Profile = options.GetValue(_profile),
        Symptom = options.GetValue(_symptom),
        Part = options.GetValue(_part),
        ReturnNumber = options.GetValue(_return),
        Note = options.GetValue(_note),
        Return = options.GetValue(_taken),
    };

    private void Validate(CommandResult command)
    {
        bool listed = command.GetResult(_units) is not null;
        bool taken = command.GetResult(_taken) is not null;
        int ways = (listed ? 1 : 0) + (command.GetResult(_serial) is null ? 0 : 1) + (command.GetResult(_unit) is null ? 0 : 1) + (taken ? 1 : 0);
        if (ways == 0)
        {
            command.AddError("Option '--serial' is required; for several units give '--unit POSITION=SN' for each, or '--units FILE'.");
        }
        else if (ways > 1)
        {
            command.AddError("'--serial', '--return', '--unit' and '--units' name units in four ways; give one of them.");
        }

        if (command.GetResult(_position) is not null && command.GetResult(_serial) is null && !taken && ways > 0)
        {
            command.AddError("'--position' goes with '--serial' or '--return'; '--unit' and '--units' say each unit's own.");
        }

        if (!listed && command.GetResult(_profile) is null)
        {
            command.AddError("Option '--profile' is required.");
        }

        if (taken && new Option[] { _symptom, _part, _return, _note }.Any(o => command.GetResult(o) is not null))
        {
            command.AddError("'--return' brings symptom, part, return number and note; take the return in again to change them.");
        }

        if (!listed && !taken && command.GetResult(_symptom) is null)
        {
            command.AddError("Option '--symptom' is required.");
        }
    }
}
