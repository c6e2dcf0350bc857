using Bench.Model.Instruments;

namespace Bench.Tests.Running.Safety;

/// <summary>A drive whose board can be made to fail, and that keeps what it was told.</summary>
internal sealed class FakeDrive : IDrive
{
    public DriveState State { get; private set; }

    public List<string> Calls { get; } = [];

    /// <summary>Runs after a command has taken effect; may throw what the wire would.</summary>
    public Action<string>? After { get; set; }

    /// <summary>What a command to switch on waits for before its turn on the link comes.</summary>
    public Func<Task>? InLine { get; set; }

    /// <summary>While set, off commands are acknowledged and do nothing: a relay that sticks.</summary>
    public bool Sticks { get; set; }

    public static DeviceFaultException Silence { get; } =
        new(new DeviceFault(DeviceFaultKind.Silent, "io", "bus", "no answer in 40 ms"));

    public async ValueTask EnergiseAsync(DrivePermit permit, CancellationToken cancel)
    {
        if (InLine is not null)
        {
            await InLine();
        }

        permit.Take();
        State = (DriveState)(int)permit.Direction;
        await Called("on");
    }

    public ValueTask SwitchOffAsync(CancellationToken cancel)
    {
        State = Sticks ? State : DriveState.Off;
        return Called("off");
    }

    public async ValueTask<DriveState> ReadBackAsync(CancellationToken cancel)
    {
        await Called("read");
        return State;
    }

    /// <summary>The board loses its outputs by itself.</summary>
    public void Drop() => State = DriveState.Off;

    private ValueTask Called(string call)
    {
        Calls.Add(call);
        After?.Invoke(call);
        return ValueTask.CompletedTask;
    }
}
