using Bench.Running.Safety;

namespace Bench.Running.Sampling;

/// <summary>Lets time pass with the drive off, reading the unit and watching that it stays at rest.</summary>
internal sealed class Resting(Sampler sampler, RunGuard guard, RunClock clock)
{
    /// <summary>Time between readings with the drive off, seconds.</summary>
    public const double PaceS = 0.020;

    /// <summary>Rests.</summary>
    /// <param name="seconds">How long.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <exception cref="RunAbortedException">The run must end.</exception>
    /// <exception cref="OutputNotConfirmedException">The unit is driven although the drive reads back off.</exception>
    public async ValueTask ForAsync(double seconds, CancellationToken cancel)
    {
        double untilS = clock.NowS + seconds;
        while (clock.NowS < untilS)
        {
            double nextS = clock.NowS + PaceS;
            await sampler.SlotAsync(cancel);
            guard.WhileOff();
            await clock.WaitAsync(nextS - clock.NowS, cancel);
        }
    }
}
