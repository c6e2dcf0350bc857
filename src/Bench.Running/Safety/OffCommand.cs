using Bench.Model.Instruments;
using Bench.Model.Serialization;

namespace Bench.Running.Safety;

/// <summary>Commands a drive off and reads it back until it is so, or time is up (S4, S5). Off may be repeated; it harms nothing.</summary>
internal sealed class OffCommand(IDrive drive, TimeProvider time)
{
    /// <summary>Pause between attempts: a board that answers, or a link that fails, at once must not be asked without one.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    /// <summary>Gives the command.</summary>
    /// <param name="within">How long to go on.</param>
    /// <param name="handed">Called once when the first command was handed to the link.</param>
    /// <returns>Null when off was read back; else what was last wrong.</returns>
    public async ValueTask<string?> GiveAsync(TimeSpan within, Action handed)
    {
        long deadline = time.GetTimestamp() + (long)(within.TotalSeconds * time.TimestampFrequency);
        bool first = true;
        while (true)
        {
            string wrong;
            try
            {
                // Handed to the link first and taken down while it is on the wire: no slow disk keeps a motor turning.
                ValueTask off = drive.SwitchOffAsync(CancellationToken.None);
                if (first)
                {
                    handed();
                    first = false;
                }

                await off;
                DriveState state = await drive.ReadBackAsync(CancellationToken.None);
                if (state == DriveState.Off)
                {
                    return null;
                }

                wrong = $"the board reads back {BenchJson.Word(state)}";
            }
            catch (DeviceFaultException e)
            {
                wrong = e.Message;
            }

            await Task.Delay(Pause, time);
            if (time.GetTimestamp() >= deadline)
            {
                return wrong;
            }
        }
    }
}
