using System.Runtime.CompilerServices;
using Bench.Devices.Modbus;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Buses;

/// <summary>One Modbus device on a link that it may share: takes turns, counts exchanges, says faults in words.</summary>
public sealed class BusDevice
{
    private readonly LinkOwner<IModbusClient> _bus;
    private readonly DeviceDescription _device;
    private readonly bool _isFeedback;
    private readonly TimeSpan _timeout;
    private readonly ExchangeCounter _counter = new();

    /// <summary>Makes a device.</summary>
    /// <param name="bus">Its link's owner.</param>
    /// <param name="device">Its description.</param>
    /// <param name="isFeedback">Whether it is a unit's own feedback.</param>
    public BusDevice(LinkOwner<IModbusClient> bus, DeviceDescription device, bool isFeedback)
    {
        _bus = bus;
        _device = device;
        _isFeedback = isFeedback;
        _timeout = TimeSpan.FromMilliseconds(device.TimeoutMs);
    }

    /// <summary>The device's name in the bench file.</summary>
    public string Name => _device.Name;

    /// <summary>Exchanges so far.</summary>
    public LinkCounts Counts => _counter.Of(_device.Name, _bus.Link, _isFeedback);

    /// <summary>How long the device has lately taken to answer.</summary>
    public TurnaroundStatistics Turnaround => _bus.Client.TurnaroundOf(_device.Address);

    /// <summary>Waits for a turn on the device's link.</summary>
    public ValueTask<LinkTurn<IModbusClient>> TakeTurnAsync(BusClass line, CancellationToken cancel) => _bus.TakeTurnAsync(line, cancel);

    /// <summary>Reads registers.</summary>
    /// <param name="line">Who goes first.</param>
    /// <param name="table">Which table.</param>
    /// <param name="address">First address.</param>
    /// <param name="values">Takes the values.</param>
    /// <param name="retry">Whether to ask once more when no good answer comes.</param>
    /// <param name="cancel">Leaves the line; what is on the wire is waited for.</param>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<ModbusResult> ReadRegistersAsync(
        BusClass line, RegisterTable table, int address, Memory<ushort> values, bool retry, CancellationToken cancel)
    {
        while (true)
        {
            using LinkTurn<IModbusClient> turn = await TakeTurnAsync(line, cancel);
            ModbusResult result = Count(await turn.Client.ReadRegistersAsync(
                _device.Address, table, address, values, _timeout, CancellationToken.None));
            if (!retry || !MayPass(result))
            {
                return result;
            }

            retry = false;
        }
    }

    /// <summary>Reads coils or inputs; as <see cref="ReadRegistersAsync"/>.</summary>
    [AsyncMethodBuilder(typeof(PoolingAsyncValueTaskMethodBuilder<>))]
    public async ValueTask<ModbusResult> ReadBitsAsync(
        BusClass line, RegisterTable table, int address, Memory<bool> values, bool retry, CancellationToken cancel)
    {
        while (true)
        {
            using LinkTurn<IModbusClient> turn = await TakeTurnAsync(line, cancel);
            ModbusResult result = Count(await turn.Client.ReadBitsAsync(
                _device.Address, table, address, values, _timeout, CancellationToken.None));
            if (!retry || !MayPass(result))
            {
                return result;
            }

            retry = false;
        }
    }

    /// <summary>Asks what the device is; null when it does not say (most do not) or does not answer. Many are silent where they should refuse, so a failure is not counted.</summary>
    public async ValueTask<DeviceIdentity?> ReadIdentityAsync(CancellationToken cancel)
    {
        using LinkTurn<IModbusClient> turn = await TakeTurnAsync(BusClass.Rest, cancel);
        (ModbusResult result, DeviceIdentity? identity) = await turn.Client.ReadIdentityAsync(_device.Address, _timeout, CancellationToken.None);
        if (result.Ok)
        {
            Count(result);
        }

        return identity;
    }

    /// <summary>Writes coils, once, in a turn already taken: one coil with function 05, more with 0F.</summary>
    public async ValueTask<ModbusResult> WriteCoilsAsync(LinkTurn<IModbusClient> turn, int address, ReadOnlyMemory<bool> values) =>
        Count(values.Length == 1
            ? await turn.Client.WriteCoilAsync(_device.Address, address, values.Span[0], _timeout, CancellationToken.None)
            : await turn.Client.WriteCoilsAsync(_device.Address, address, values, _timeout, CancellationToken.None));

    /// <summary>Writes one register (function 06), once, in a turn already taken.</summary>
    public async ValueTask<ModbusResult> WriteRegisterAsync(LinkTurn<IModbusClient> turn, int address, ushort value) =>
        Count(await turn.Client.WriteRegisterAsync(_device.Address, address, value, _timeout, CancellationToken.None));

    /// <summary>Counts an answer, whole on the wire, as damaged by what it holds, and says so in words.</summary>
    /// <param name="held">What it holds, e.g. "input register 4 holds no finite number".</param>
    public DeviceFault Damaged(string held)
    {
        _counter.CountDamaged();
        return new DeviceFault(
            DeviceFaultKind.Garbled, _device.Name, _bus.Link, $"{held}; check type and words in the bench file against the device's manual, and what the device itself measures");
    }

    /// <summary>Says a failed exchange in words.</summary>
    /// <param name="result">The exchange; not Ok.</param>
    /// <param name="asked">What was asked, e.g. "to read coil 3".</param>
    public DeviceFault Fault(in ModbusResult result, string asked) => new(
        result.Fault ?? DeviceFaultKind.Silent,
        _device.Name,
        _bus.Link,
        result.Fault switch
        {
            DeviceFaultKind.Garbled =>
                $"asked {asked}, got a damaged answer; check speed and parity, the cable's shield and termination",
            DeviceFaultKind.Refused =>
                $"asked {asked}, it refused: {Words(result.Exception)} (exception {(int)result.Exception:00}); check the addresses in the bench file against the device's manual",
            DeviceFaultKind.LinkLost => $"asked {asked}, but the link is gone; check the adapter, its cable and the network",
            _ => $"asked {asked}, no answer within {_device.TimeoutMs:0.#} ms; check its power, its wiring, that its address is {_device.Address}, and the speed",
        });

    private static bool MayPass(in ModbusResult result) => result.Fault is DeviceFaultKind.Silent or DeviceFaultKind.Garbled;

    private static string Words(ExceptionCode code) => code switch
    {
        ExceptionCode.IllegalFunction => "it does not know this function",
        ExceptionCode.IllegalDataAddress => "it has no such address",
        ExceptionCode.IllegalDataValue => "a quantity or value is not allowed",
        ExceptionCode.ServerDeviceFailure => "it failed while doing it",
        ExceptionCode.ServerDeviceBusy or ExceptionCode.Acknowledge => "it is busy",
        ExceptionCode.MemoryParityError => "its memory failed a parity check",
        ExceptionCode.GatewayPathUnavailable or ExceptionCode.GatewayTargetFailedToRespond => "the gateway cannot reach it",
        _ => "for a reason of its own",
    };

    private ModbusResult Count(in ModbusResult result)
    {
        _counter.Count(result.Fault);
        return result;
    }
}
