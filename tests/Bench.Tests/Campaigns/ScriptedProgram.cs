using System.Globalization;
using System.Text;
using Bench.Campaigns.Wire;
using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Model.BenchFiles;
using Bench.Model.Runs;
using Bench.Running;
using Bench.Simulation.Benches;
using Bench.Simulation.Conditions;
using Bench.Simulation.Faults;
using Bench.Simulation.Time;

namespace Bench.Tests.Campaigns;

/// <summary>
/// A program that does on the wire what a script says, right or wrong, for whoever is to see it from outside. Steps are parted
/// by "; ": coils <c>up</c>, <c>both</c>, <c>off</c>, <c>read</c>; <c>confirmed</c>; <c>record</c> and a command's text; <c>ask</c> and a piece of
/// work, <c>yes</c>, <c>called back</c>; <c>pressed</c>; <c>wait</c> and seconds; anything else is a line for the supply.
/// </summary>
internal sealed class ScriptedProgram
{
    /// <summary>One that keeps every promise.</summary>
    public const string Sound =
        "off; read; confirmed; record supply: on; *RST; SOUR:VOLT 24; SOUR:VOLT?; OUTP ON; MEAS:VOLT?; up; wait 0.2; off; read; "
        + "record supply: 20.50 V; SOUR:VOLT 20.5; SOUR:VOLT?; MEAS:VOLT?; MEAS:VOLT?; up; wait 0.2; off; read; "
        + "record supply: voltage of the bench file; SOUR:VOLT 24; SOUR:VOLT?; MEAS:VOLT?; MEAS:VOLT?; "
        + "ask ApproachConnector; yes; ask DisturbConnector; wait 0.2; read; called back; ask LeaveConnector; yes; read; "
        + "up; wait 0.2; off; read; record supply: off; OUTP OFF; OUTP?";

    private static readonly Rig Rig = Rig.All.First(r => r.Supply is not null && r.Profile.CanReverse && !r.IsTcp);

    private readonly VirtualTime _time = new(new DateTimeOffset(2026, 6, 1, 8, 0, 0, TimeSpan.Zero));
    private readonly Witness _witness;
    private readonly List<Fault> _faults = [];

    private ScriptedProgram() => _witness = new Witness(_time) { OffAfterwards = true };

    /// <summary>Runs a script and says which rules it broke.</summary>
    public static IReadOnlyList<string> Broken(string script)
    {
        ScriptedProgram program = new();
        program._time.Run(async () =>
        {
            await program.RunAsync(script.Split("; "));
            return true;
        });
        return [.. Oracle.Look(Rig, new FaultPlan(1, program._faults), program._witness, null).Select(v => v.Rule).Distinct()];
    }

    private async Task RunAsync(IEnumerable<string> steps)
    {
        SimulatedUnit unit = new(Rig.Profile, ConditionCatalog.Find("healthy"), 1);
        SimulatedBench bench = new(Rig.Bench, new Dictionary<string, SimulatedUnit> { [Rig.Bench.Positions[0].Name] = unit }, _time, 1)
        {
            OutputChanged = change => _witness.Switched.Add(new Switched(_witness.NowS, change)),
            SupplySet = setting => _witness.Supply.Add(new SupplyState(_witness.NowS, setting.VoltageV, setting.On)),
        };
        WatchedLinks links = new(new SimulatedLinkOpener(bench, _time), _witness);
        await using ILink bus = await links.OpenAsync(Rig.Bench.Links.First(l => l.Protocol == LinkProtocol.ModbusRtu), default);
        await using ILink supply = await links.OpenAsync(Rig.Bench.Links.First(l => l.Protocol == LinkProtocol.Scpi), default);
        foreach (string step in steps)
        {
            await StepAsync(step, bus, supply);
        }

        _witness.EndedS = _witness.NowS;
        _witness.CoilOnAtEnd = bench.Unit(Rig.Bench.Positions[0].Name) is { UpCoil: true } or { DownCoil: true };
    }

    private async Task StepAsync(string step, ILink bus, ILink supply)
    {
        string[] words = step.Split(' ', 2);
        switch (words[0])
        {
            case "up":
                await ExchangeAsync(bus, Frame(0x0F, 0, 0, 0, 2, 1, 0b01));
                break;
            case "both":
                await ExchangeAsync(bus, Frame(0x0F, 0, 0, 0, 2, 1, 0b11));
                break;
            case "off":
                await ExchangeAsync(bus, Frame(0x0F, 0, 0, 0, 2, 1, 0b00));
                break;
            case "read":
                await ExchangeAsync(bus, Frame(0x01, 0, 0, 0, 2));
                break;
            case "confirmed":
                _witness.ConfirmedS = _witness.NowS;
                break;
            case "record":
                _witness.Events.Add(new Stamped(_witness.NowS, new RunEvent(_witness.NowS, RunEventKind.OutputCommand, words[1])));
                break;
            case "ask":
                _witness.Hands.Add(new HandRequest(Enum.Parse<HandWork>(words[1]), _witness.NowS));
                break;
            case "yes":
                (_witness.Hands[^1].EndedS, _witness.Hands[^1].Done) = (_witness.NowS, true);
                break;
            case "called":
                (_witness.Hands[^1].EndedS, _witness.Hands[^1].Withdrawn) = (_witness.NowS, true);
                break;
            case "pressed":
                _faults.Add(new Fault(FaultKind.EmergencyStop, _witness.NowS, 0));
                break;
            case "wait":
                await Task.Delay(TimeSpan.FromSeconds(double.Parse(words[1], CultureInfo.InvariantCulture)), _time);
                break;
            default:
                await ExchangeAsync(supply, Encoding.ASCII.GetBytes(step + "\n"));
                break;
        }

        await Task.Delay(TimeSpan.FromMilliseconds(1), _time);
    }

    private async Task ExchangeAsync(ILink link, byte[] request)
    {
        await link.WriteAsync(request, default);
        await Task.Delay(TimeSpan.FromMilliseconds(15), _time);
        using CancellationTokenSource soon = new(TimeSpan.FromMilliseconds(1), _time);
        try
        {
            byte[] buffer = new byte[256];
            while (true)
            {
                _ = await link.ReadAsync(buffer, soon.Token);
            }
        }
        catch (OperationCanceledException)
        {
            // All that was to come has come.
        }
    }

    private static byte[] Frame(params byte[] pdu)
    {
        byte[] frame = [0, .. pdu, 0, 0];
        RtuFrame.Close(frame, 1, pdu.Length);
        return frame;
    }
}
