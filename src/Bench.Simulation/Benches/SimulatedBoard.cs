using Bench.Model.BenchFiles;

namespace Bench.Simulation.Benches;

/// <summary>A device as a thing with power, outputs and, where the bench file says so, a watchdog.</summary>
internal sealed class SimulatedBoard(DeviceDescription description)
{
    private readonly List<(Action<bool> Command, Func<bool> Coil)> _outputs = [];
    private double _spokenToS;
    private bool _ranOut;
    private bool[]? _outputsBefore;

    internal string Name => description.Name;

    /// <summary>Whether it has power; else it is silent and its outputs are off.</summary>
    internal bool HasPower => _outputsBefore is null;

    /// <summary>What the watchdog's register holds; 0 when not armed, as after power-up.</summary>
    internal int WatchdogValue { get; set; }

    /// <summary>Instant at which the watchdog will switch the outputs off unless someone speaks to the board before, seconds.</summary>
    internal double RunsOutS => WatchdogValue == 0 || _ranOut || !HasPower
        ? double.PositiveInfinity
        : _spokenToS + (WatchdogValue * description.Watchdog!.UnitMs / 1000.0);

    internal void AddOutput(Action<bool> command, Func<bool> coil) => _outputs.Add((command, coil));

    /// <summary>Someone spoke to it.</summary>
    internal void SpokenTo(double nowS)
    {
        _spokenToS = nowS;
        _ranOut = false;
    }

    /// <summary>The watchdog's time is up.</summary>
    /// <returns>How many outputs it switched off.</returns>
    internal int RunOut()
    {
        _ranOut = true;
        return SwitchOff();
    }

    internal void LosePower()
    {
        _outputsBefore ??= [.. _outputs.Select(o => o.Coil())];
        WatchdogValue = 0;
        SwitchOff();
    }

    internal void RestorePower(bool outputsAsTheyWere)
    {
        bool[] before = _outputsBefore ?? [];
        _outputsBefore = null;
        for (int i = 0; outputsAsTheyWere && i < before.Length; i++)
        {
            _outputs[i].Command(before[i]);
        }
    }

    private int SwitchOff()
    {
        int on = _outputs.Count(o => o.Coil());
        _outputs.ForEach(o => o.Command(false));
        return on;
    }
}
