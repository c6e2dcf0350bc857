using System.IO.Ports;

namespace Bench.Devices.Links;

/// <summary>A serial port through System.IO.Ports: on Windows, where its stream waits for completion and not by polling.</summary>
internal sealed class SerialPortLink(string name, SerialPort port, TimeSpan characterTime) : ILink
{
    public string Name => name;

    public TimeSpan CharacterTime => characterTime;

    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        try
        {
            await port.BaseStream.WriteAsync(bytes, cancel);
        }
        catch (Exception e) when (e is InvalidOperationException or UnauthorizedAccessException)
        {
            throw new IOException($"{name} went away: {e.Message}", e);
        }
    }

    public async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        try
        {
            return await port.BaseStream.ReadAsync(buffer, cancel);
        }
        catch (Exception e) when (e is InvalidOperationException or UnauthorizedAccessException)
        {
            throw new IOException($"{name} went away: {e.Message}", e);
        }
    }

    public void DiscardInput()
    {
        if (port.IsOpen)
        {
            port.DiscardInBuffer();
        }
    }

    public ValueTask DisposeAsync()
    {
        port.Dispose();
        return ValueTask.CompletedTask;
    }
}
