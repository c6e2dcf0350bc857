namespace Bench.SystemTests.Programs;

/// <summary>Waits for what another program does to files.</summary>
public static class Polling
{
    private static readonly TimeSpan Pace = TimeSpan.FromMilliseconds(20);

    /// <summary>Looks until it is so, for as long as a test has patience.</summary>
    public static async Task UntilAsync(Func<bool> isSo)
    {
        using CancellationTokenSource patience = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        patience.CancelAfter(RunningProgram.Patience);
        using PeriodicTimer timer = new(Pace);
        while (!isSo())
        {
            await timer.WaitForNextTickAsync(patience.Token);
        }
    }

    /// <summary>Text of a file that another program is writing.</summary>
    public static string TextOf(string path)
    {
        using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        using StreamReader reader = new(stream);
        return reader.ReadToEnd();
    }
}
