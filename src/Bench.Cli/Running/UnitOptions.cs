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
    private readonly Option<string?> _serial = TextOption.Of("--serial", "SN", "Serial number on the unit's label");
    private readonly Option<string?> _position = TextOption.Of("--position", "NAME", "Unit position of the bench, where it has several");
    private readonly Option<string[]> _unit = new("--unit") { Description = "A unit and where it is mounted; repeat for more, all are tested at once", HelpName = "POSITION=SN" };
    private readonly Option<string?> _units = TextOption.Of("--units", "FILE", "Units file (TOML): units with symptom, profile and return of their own");
    private readonly Option<string?> _profile = TextOption.Of("--profile", "FILE", "Profile of the units' family (TOML)");
    private readonly Option<Symptom?> _symptom = WordOption.Of<Symptom>("--symptom", "constant|intermittent", "What the field reported");
    private readonly Option<string?> _part = TextOption.Of("--part", "PN", "Part number on the unit's label");
    private readonly Option<string?> _return = TextOption.Of("--return-number", "RN", "Number of the return");
    private readonly Option<string?> _taken = TextOption.Of("--return", "RN", "Number of a return that 'bench intake' took in; brings serial, symptom and all else");
    private readonly Option<string?> _note = TextOption.Of("--note", "TEXT", "What the field wrote");

    /// <summary>Gives them to a verb.</summary>
    public void AddTo(Command command)
    {
        command.AddAll([_profile, _serial, _taken, _position, _symptom, _unit, _units, _part, _return, _note]);
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
