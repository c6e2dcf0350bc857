using Bench.Devices.Links;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Server;

namespace Bench.Tests.Devices.Modbus.Client;

/// <summary>A link whose device answers while the request is written, so that nothing but the client's own work is left.</summary>
internal sealed class LoopLink(ModbusServer server) : ILink
{
    private readonly byte[] _answer = new byte[ModbusLimits.MostTcpBytes];
    private int _length;

    public string Name => "loop";

    public TimeSpan CharacterTime => TimeSpan.Zero;

    public ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, CancellationToken cancel)
    {
        _length = server.RespondRtu(bytes.Span, _answer);
        return ValueTask.CompletedTask;
    }

    public ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancel)
    {
        _answer.AsMemory(0, _length).CopyTo(buffer);
        return ValueTask.FromResult(_length);
    }

    public void DiscardInput()
    {
    }

    public ValueTask DisposeAsync() => ValueTask.CompletedTask;
}
