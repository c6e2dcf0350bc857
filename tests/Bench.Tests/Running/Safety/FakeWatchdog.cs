using Bench.Model.Instruments;

namespace Bench.Tests.Running.Safety;

/// <summary>A watchdog whose board can be made silent, deaf, or restart.</summary>
internal sealed class FakeWatchdog : IWatchdog
{
    public string Device => "io";

    public TimeSpan Time => TimeSpan.FromSeconds(1);

    public bool Armed { get; set; }

    /// <summary>While set, arming is acknowledged and does nothing.</summary>
    public bool Deaf { get; set; }

    /// <summary>Exchanges still to stay without an answer.</summary>
    public int Silences { get; set; }

    public List<string> Calls { get; } = [];

    public ValueTask ArmAsync(CancellationToken cancel)
    {
        Call("arm");
        Armed = !Deaf;
        return ValueTask.CompletedTask;
    }

    public ValueTask<bool> ReadArmedAsync(CancellationToken cancel)
    {
        Call("read");
        return new(Armed);
    }

    private void Call(string call)
    {
        Calls.Add(call);
        if (Silences > 0)
        {
            Silences--;
            throw FakeDrive.Silence;
        }
    }
}
