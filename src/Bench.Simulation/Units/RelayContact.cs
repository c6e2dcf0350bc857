namespace Bench.Simulation.Units;

/// <summary>One output relay: coil, contact, and the time between.</summary>
internal sealed class RelayContact(RelayDesign design, double stepS)
{
    private readonly int _operateSteps = (int)Math.Round(design.OperateS / stepS);
    private readonly int _releaseSteps = (int)Math.Round(design.ReleaseS / stepS);
    private int _stepsLeft;
    private bool _stuck;
    private bool _burnt;

    /// <summary>Whether the coil is on.</summary>
    internal bool Coil { get; private set; }

    /// <summary>Whether the contact is made.</summary>
    internal bool Made { get; private set; }

    /// <summary>Whether the contact is on its way.</summary>
    internal bool Moving => _stepsLeft > 0;

    internal void Command(bool on)
    {
        if (Coil != on)
        {
            Coil = on;
            _stepsLeft = on ? _operateSteps : _releaseSteps;
        }
    }

    /// <summary>Welds the contact in its made place, or frees it.</summary>
    internal void Stick(bool stuck)
    {
        _stuck = stuck;
        _stepsLeft = 1;
    }

    /// <summary>Burns the contact, so that it does not make, or mends it.</summary>
    internal void Burn(bool burnt)
    {
        _burnt = burnt;
        _stepsLeft = 1;
    }

    internal void Step()
    {
        if (_stepsLeft > 0 && --_stepsLeft == 0)
        {
            Made = (Coil && !_burnt) || _stuck;
        }
    }
}
