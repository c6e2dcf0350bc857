namespace Bench.Running.Safety;

/// <summary>A body of one time constant that losses heat: tau d(theta)/dt = R_th P - theta.</summary>
/// <param name="kPerW">Thermal resistance, kelvins per watt.</param>
/// <param name="timeConstantS">Time constant, seconds.</param>
internal sealed class HeatedBody(double kPerW, double timeConstantS)
{
    /// <summary>Rise above what surrounds it, kelvins.</summary>
    public double RiseK { get; private set; }

    /// <summary>Lets time pass at a constant loss.</summary>
    public void Advance(double seconds, double watt) => RiseK = Towards(kPerW * watt, RiseK, seconds);

    /// <summary>Rise after a rest and then a start and a time at a constant loss, kelvins.</summary>
    /// <param name="restS">The rest, seconds.</param>
    /// <param name="start">Time and loss of the start, seconds and watts.</param>
    /// <param name="then">Time and loss after it.</param>
    public double RiseAfterRest(double restS, (double S, double Watt) start, (double S, double Watt) then) =>
        Towards(kPerW * then.Watt, Towards(kPerW * start.Watt, Towards(0, RiseK, restS), start.S), then.S);

    private double Towards(double end, double from, double seconds) => end + ((from - end) * Math.Exp(-seconds / timeConstantS));
}
