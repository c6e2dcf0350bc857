using Bench.Model.BenchFiles;
using Bench.Simulation.Units;

namespace Bench.Simulation.Benches;

/// <summary>Wires positions to the places of the bench file's devices.</summary>
/// <param name="devices">The devices' places.</param>
/// <param name="present">The boards, to take outputs.</param>
/// <param name="supply">The emergency stop.</param>
/// <param name="changed">Told of each change of a coil.</param>
internal sealed class BenchWiring(SimulatedDevices devices, BenchPresent present, SupplyBranches supply, Action<OutputChange> changed)
{
    private readonly Dictionary<string, SimulatedPosition> _feedbacks = [];

    /// <summary>Devices that report a position's count.</summary>
    internal static IEnumerable<string> FeedbackDevices(UnitPositionDescription position) =>
        position.Count is { } count ? [count.Device] : position.Switches.Select(s => s.Input.Device).Distinct();

    /// <summary>The position whose own feedback a device is; null when it is a part of the bench.</summary>
    internal SimulatedPosition? FeedbackOf(string device) => _feedbacks.GetValueOrDefault(device);

    /// <summary>Wires one position.</summary>
    internal void Wire(UnitPositionDescription description, SimulatedPosition position)
    {
        Plant? plant = position.Plant;
        foreach (string device in FeedbackDevices(description).Where(d => d != description.Up.Device))
        {
            // A device of the unit's own goes silent with it; a count read by the board does not.
            _feedbacks[device] = position;
        }

        if (description.Count is { } count)
        {
            devices.Reads(count, () => position.RawCount(), () => position.RawCount());
        }

        foreach (PortSwitch port in description.Switches)
        {
            devices.ReadsInput(port.Input, () => position.SwitchClosed(port.Port));
        }

        devices.Reads(description.Current.Channel, position.RegisterCurrent, position.MeasuredCurrent);
        devices.Reads(description.Voltage.Channel, position.MeasuredVoltage, position.MeasuredVoltage);
        if (description.Target is { } target && position.Controller is { } controller)
        {
            devices.Holds(target.Register, raw => controller.Target = target.Count(raw), () => target.Raw((int)controller.Target));
            WireOutput(description.Up, (on, commanded) => Power(controller, description.Name, on, commanded), () => controller.Powered);
        }
        else
        {
            WireOutput(description.Up, (on, commanded) => Switch(plant, description.Name, up: true, on, commanded), () => plant is { UpCoil: true });
            WireOutput(description.Down, (on, commanded) => Switch(plant, description.Name, up: false, on, commanded), () => plant is { DownCoil: true });
        }

        devices.ReadsInput(description.Index, () => plant is { IndexClosed: true });
        devices.ReadsInput(description.EmergencyStop, () => supply.EmergencyStop);
    }

    private void WireOutput(Channel? channel, Action<bool, bool> switches, Func<bool> coil)
    {
        devices.Switches(channel, on => switches(on, true), coil);
        if (channel is not null)
        {
            present.Board(channel.Device).AddOutput(on => switches(on, false), coil);
        }
    }

    private void Power(UnitController controller, string position, bool on, bool commanded)
    {
        if (controller.Powered != on)
        {
            controller.Powered = on;
            changed(new OutputChange(position, Up: true, on, commanded));
        }
    }

    private void Switch(Plant? plant, string position, bool up, bool on, bool commanded)
    {
        if (plant is null || (up ? plant.UpCoil : plant.DownCoil) == on)
        {
            return;
        }

        if (up)
        {
            plant.CommandUp(on);
        }
        else
        {
            plant.CommandDown(on);
        }

        changed(new OutputChange(position, up, on, commanded));
    }
}
