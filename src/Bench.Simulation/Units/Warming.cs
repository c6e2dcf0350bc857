namespace Bench.Simulation.Units;

/// <summary>A winding's resistance as its own losses warm it. Reckoned ten times a second; nothing here is quicker.</summary>
internal sealed class Warming(WarmingDesign design, double coldOhm)
{
    private const double EveryS = 0.1;

    private double _windingK;
    private double _housingK;
    private double _pendingS;
    private double _pendingJ;

    /// <summary>Resistance, ohms.</summary>
    internal double Ohm { get; private set; } = coldOhm * (1.0 + (WarmingDesign.Copper * design.StartRiseK));

    /// <summary>Rise by its own losses, kelvins.</summary>
    internal double RiseK => _windingK + _housingK;

    internal void Step(double ampere, double seconds)
    {
        // An open winding has no losses, whatever its ohms.
        _pendingJ += ampere == 0.0 ? 0.0 : ampere * ampere * Ohm * seconds;
        _pendingS += seconds;
        if (_pendingS < EveryS)
        {
            return;
        }

        double watt = _pendingJ / _pendingS;
        _windingK = Towards(watt * design.KPerW, _windingK, design.TimeConstantS);
        _housingK = Towards(watt * design.HousingKPerW, _housingK, design.HousingTimeConstantS);
        Ohm = coldOhm * (1.0 + (WarmingDesign.Copper * (design.StartRiseK + RiseK)));
        (_pendingS, _pendingJ) = (0.0, 0.0);
    }

    private double Towards(double end, double riseK, double timeConstantS) => end + ((riseK - end) * Math.Exp(-_pendingS / timeConstantS));
}
