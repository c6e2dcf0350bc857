using Bench.Model.Instruments;
using Bench.Model.Runs;

namespace Bench.Running.Safety;

/// <summary>The bench's own supplies within a run: on once cautions and wiring are confirmed (S3), off at its end (S5), in the record before and after (S9).</summary>
internal sealed class SupplySwitch(IBenchPower? power, RunBook book)
{
    /// <summary>Sets them to the bench file's voltage and switches them on; nothing to do on a bench without.</summary>
    /// <exception cref="RunAbortedException">One did not do it.</exception>
    public async ValueTask OnAsync(CancellationToken cancel)
    {
        if (power is not { IsSwitched: true })
        {
            return;
        }

        book.Write(RunEventKind.OutputCommand, "supply: on");
        try
        {
            await power.SwitchOnAsync(cancel);
        }
        catch (OperationCanceledException)
        {
            book.WriteSafely(RunEventKind.OutputResult, "supply: on, stopped before it was read back");
            throw;
        }
        catch (DeviceFaultException e)
        {
            book.WriteSafely(RunEventKind.OutputResult, "supply: on, not confirmed");
            throw new RunAbortedException(AbortReason.BenchFault, $"the supply could not be set and switched on: {e.Message}. Check it with 'bench check'.");
        }

        book.Write(RunEventKind.OutputResult, "supply: on, read back");
    }

    /// <summary>Switches them off, unless other runs use them. What fails is in the record.</summary>
    /// <param name="outputsConfirmedOff">Whether the run's outputs are; if not, they go off for all runs.</param>
    public async ValueTask OffAsync(bool outputsConfirmedOff)
    {
        if (power is not { IsSwitched: true })
        {
            return;
        }

        book.WriteSafely(RunEventKind.OutputCommand, "supply: off");
        try
        {
            bool off = await power.SwitchOffAsync(outputsConfirmedOff, CancellationToken.None);
            book.WriteSafely(RunEventKind.OutputResult, off ? "supply: off, read back" : "supply: left on for the units still being tested");
        }
        catch (DeviceFaultException e)
        {
            book.WriteSafely(RunEventKind.Fault, $"the supply is not confirmed off: {e.Message}");
        }
    }
}
