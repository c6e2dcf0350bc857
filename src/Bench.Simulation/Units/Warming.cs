namespace Bench.Simulation.Units;

/// <summary>A winding's resistance as its own losses warm it. Reckoned ten times a second; nothing here is quicker.</summary>
internal sealed class Warming(WarmingDesign design, double coldOhm)
{
    private const double EveryS = 0.1;

    private double _riseByLossK;
    private double _pendingS;
    private double _pendingJ;

    /// <summary>Resistance, ohms.</summary>
    internal double Ohm { get; private set; } = coldOhm * (1.0 + (WarmingDesign.Copper * design.StartRiseK));

    /// <summary>Rise by its own losses, kelvins.</summary>
    internal double RiseK => _riseByLossK;

    internal void Step(double ampere, double seconds)
    {
        // An open winding has no losses, whatever its ohms.
        _pendingJ += ampere == 0.0 ? 0.0 : ampere * ampere * Ohm * seconds;
        _pendingS += seconds;
        if (_pendingS < EveryS)
        {
            return;
        }

        double end = _pendingJ / _pendingS * design.KPerW;
        _riseByLossK = end + ((_riseByLossK - end) * Math.Exp(-_pendingS / design.TimeConstantS));
        Ohm = coldOhm * (1.0 + (WarmingDesign.Copper * (design.StartRiseK + _riseByLossK)));
        (_pendingS, _pendingJ) = (0.0, 0.0);
    }
}
