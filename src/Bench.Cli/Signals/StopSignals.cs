using System.Runtime.InteropServices;

namespace Bench.Cli.Signals;

/// <summary>
/// SIGINT and SIGTERM cancel instead of ending the process, so that outputs are switched off and confirmed first (S5).
/// A second signal changes nothing: switching off is already under way and has its own time limit.
/// </summary>
internal sealed class StopSignals : IDisposable
{
    private readonly CancellationTokenSource _source = new();
    private readonly PosixSignalRegistration _interrupt;
    private readonly PosixSignalRegistration _terminate;
    private readonly PosixSignalRegistration _hangUp;

    public StopSignals()
    {
        _interrupt = PosixSignalRegistration.Create(PosixSignal.SIGINT, Stop);
        _terminate = PosixSignalRegistration.Create(PosixSignal.SIGTERM, Stop);
        _hangUp = PosixSignalRegistration.Create(PosixSignal.SIGHUP, Stop);
    }

    /// <summary>Cancelled when a signal came.</summary>
    public CancellationToken Token => _source.Token;

    public void Dispose()
    {
        _interrupt.Dispose();
        _terminate.Dispose();
        _hangUp.Dispose();
        _source.Dispose();
    }

    private void Stop(PosixSignalContext context)
    {
        context.Cancel = true;
        _source.Cancel();
    }
}
