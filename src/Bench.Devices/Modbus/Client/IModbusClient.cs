using Bench.Devices.Buses;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Modbus.Client;

/// <summary>
/// The master's side of Modbus. One exchange at a time: the caller waits for each result before the next call.
/// Nothing is ever sent twice here. Time-outs count from the end of the request on the wire and leave the answer
/// its own time on the wire. A link that is gone is a result, not an exception.
/// </summary>
public interface IModbusClient : ILinkClient
{
    /// <summary>Reads coils or inputs (functions 01, 02).</summary>
    /// <param name="unit">Address of the device, 1 to 247.</param>
    /// <param name="table"><see cref="RegisterTable.Coil"/> or <see cref="RegisterTable.DiscreteInput"/>.</param>
    /// <param name="address">First address, 0 to 65535.</param>
    /// <param name="values">Takes the bits, 1 to 2000; untouched when the result is not Ok.</param>
    /// <param name="timeout">Longest turnaround of the device.</param>
    /// <param name="cancel">Gives up; the answer, if it comes, is thrown away.</param>
    ValueTask<ModbusResult> ReadBitsAsync(
        int unit, RegisterTable table, int address, Memory<bool> values, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Reads registers (functions 03, 04); as <see cref="ReadBitsAsync"/>, 1 to 125 of them.</summary>
    ValueTask<ModbusResult> ReadRegistersAsync(
        int unit, RegisterTable table, int address, Memory<ushort> values, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Writes one coil (function 05). Unit 0 is every device of a serial line: no answer comes, and the line rests for the time-out.</summary>
    ValueTask<ModbusResult> WriteCoilAsync(int unit, int address, bool value, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Writes coils (function 0F), 1 to 1968 of them.</summary>
    ValueTask<ModbusResult> WriteCoilsAsync(
        int unit, int address, ReadOnlyMemory<bool> values, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Writes one register (function 06).</summary>
    ValueTask<ModbusResult> WriteRegisterAsync(int unit, int address, ushort value, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Writes registers (function 10), 1 to 123 of them.</summary>
    ValueTask<ModbusResult> WriteRegistersAsync(
        int unit, int address, ReadOnlyMemory<ushort> values, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Changes bits of a register (function 16): (now AND andMask) OR (orMask AND NOT andMask).</summary>
    ValueTask<ModbusResult> MaskWriteRegisterAsync(
        int unit, int address, ushort andMask, ushort orMask, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Writes registers, 1 to 121, then reads registers, 1 to 125 (function 17).</summary>
    ValueTask<ModbusResult> ReadWriteRegistersAsync(
        int unit,
        int writeAddress,
        ReadOnlyMemory<ushort> written,
        int readAddress,
        Memory<ushort> read,
        TimeSpan timeout,
        CancellationToken cancel);

    /// <summary>Has the device send two bytes back (function 08, sub-function 0): proves the line without touching anything.</summary>
    ValueTask<ModbusResult> ReturnQueryDataAsync(int unit, ushort data, TimeSpan timeout, CancellationToken cancel);

    /// <summary>Asks what the device is (function 2B, type 0E, basic category), in as many exchanges as it takes.</summary>
    /// <returns>The last exchange, and the identity when that was Ok.</returns>
    ValueTask<(ModbusResult Result, DeviceIdentity? Identity)> ReadIdentityAsync(int unit, TimeSpan timeout, CancellationToken cancel);

    /// <summary>How long a device has lately taken to answer.</summary>
    TurnaroundStatistics TurnaroundOf(int unit);
}
