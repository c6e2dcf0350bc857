using Bench.Devices.Buses;
using Bench.Devices.Modbus.Client;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Boards;

/// <summary>A board's watchdog behind a holding register that takes its time.</summary>
public sealed class BoardWatchdog(BusDevice board, WatchdogDescription description) : IWatchdog
{
    /// <inheritdoc/>
    public string Device => board.Name;

    /// <inheritdoc/>
    public TimeSpan Time => TimeSpan.FromMilliseconds(description.TimeoutMs);

    /// <inheritdoc/>
    public async ValueTask ArmAsync(CancellationToken cancel)
    {
        using LinkTurn<IModbusClient> turn = await board.TakeTurnAsync(BusClass.Safety, cancel);
        ModbusResult result = await board.WriteRegisterAsync(turn, description.HoldingRegister, description.Value);
        if (!result.Ok)
        {
            throw new DeviceFaultException(board.Fault(result, $"to arm its watchdog in holding register {description.HoldingRegister}"));
        }
    }

    /// <inheritdoc/>
    public async ValueTask<bool> ReadArmedAsync(CancellationToken cancel)
    {
        ushort[] word = new ushort[1];
        ModbusResult result = await board.ReadRegistersAsync(
            BusClass.Safety, RegisterTable.HoldingRegister, description.HoldingRegister, word, retry: true, cancel);
        return result.Ok
            ? word[0] == description.Value
            : throw new DeviceFaultException(board.Fault(result, $"to read its watchdog back from holding register {description.HoldingRegister}"));
    }
}
