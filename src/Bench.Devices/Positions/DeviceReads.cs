using Bench.Devices.Buses;
using Bench.Devices.Lines;
using Bench.Devices.Meters;
using Bench.Devices.Modbus.Client;
using Bench.Devices.Scpi;
using Bench.Devices.Streams;
using Bench.Model.BenchFiles;
using Bench.Model.Instruments;

namespace Bench.Devices.Positions;

/// <summary>Asks devices a number of times for something they must be able to answer and that changes nothing.</summary>
internal sealed class DeviceReads(BenchFile file, OpenDevices devices, TimeProvider time)
{
    /// <summary>Reads after which a device that never answered is given up: each costs a whole time-out.</summary>
    private const int MostUnanswered = 10;

    /// <summary>How long a stream is watched: blocks enough of its clock to tell its rate, and at 1 kHz frames enough to tell a share of one in a thousand.</summary>
    private static readonly TimeSpan Watched = TimeSpan.FromSeconds(3);

    /// <summary>Asks one device, or watches what it pushes.</summary>
    public async Task<DeviceCheck> CheckAsync(DeviceDescription device, int reads, CancellationToken cancel)
    {
        if (devices.Stream(device.Name) is StreamDevice stream)
        {
            return await WatchAsync(device, stream, cancel);
        }

        Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> ask = Question(device, cancel);
        List<TimeSpan> times = [];
        DeviceFault? last = null;
        bool answered = false;
        int made = 0;
        for (; made < reads && (answered || made < MostUnanswered); made++)
        {
            (DeviceFault? fault, TimeSpan roundTrip) = await ask();
            answered |= fault is null or { Kind: DeviceFaultKind.Refused };
            if (fault is null)
            {
                times.Add(roundTrip);
            }
            else
            {
                last = fault;
            }
        }

        times.Sort();
        return new DeviceCheck(
            device.Name, device.Link, device.Address, answered, last, made, made - times.Count, Percentile(times, 50), Percentile(times, 99));
    }

    private async Task<DeviceCheck> WatchAsync(DeviceDescription device, StreamDevice stream, CancellationToken cancel)
    {
        LinkCounts before = stream.Counts;
        await Task.Delay(Watched, time, cancel);
        LinkCounts after = stream.Counts;
        int due = (int)(after.Exchanges - before.Exchanges);
        int failed = (int)(after.Silent + after.Garbled - before.Silent - before.Garbled);
        bool silent = due == failed;
        DeviceFaultKind kind = after.Garbled > before.Garbled ? DeviceFaultKind.Garbled : DeviceFaultKind.Silent;
        return new DeviceCheck(device.Name, device.Link, 0, !silent, silent ? stream.Fault(kind) : null, due, failed, null, null) { Stream = after.Stream };
    }

    private static TimeSpan? Percentile(List<TimeSpan> sorted, int percent) =>
        sorted.Count == 0 ? null : sorted[(((percent * sorted.Count) + 99) / 100) - 1];

    private Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> Question(DeviceDescription device, CancellationToken cancel) =>
        devices.Instrument(device.Name) is ScpiDevice instrument ? Identity(instrument, cancel)
        : devices.Templated(device.Name) is TemplatedDevice templated ? Line(templated, device, cancel)
        : Registers(device, cancel);

    private static Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> Identity(ScpiDevice instrument, CancellationToken cancel) => async () =>
    {
        LineResult result = await instrument.IdentifyAsync(cancel);
        return (result.Ok ? null : instrument.Line.Fault(result, "*IDN?"), result.RoundTrip);
    };

    private Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> Line(TemplatedDevice templated, DeviceDescription device, CancellationToken cancel)
    {
        Channel? used = PositionChannels.FirstOn(file, device.Name);
        bool asksValue = file.Positions.Any(p => used == p.Count || used == p.Current.Channel || used == p.Voltage.Channel);
        string channel = used?.Text ?? "1";
        return async () =>
        {
            LineResult result = asksValue || device.Lines!.AskState is null
                ? (await templated.AskValueAsync(BusClass.Rest, channel, cancel)).Result
                : (await templated.AskStateAsync(BusClass.Rest, channel, retry: false, cancel)).Result;
            return (result.Ok ? null : templated.Line.Fault(result, $"for {channel}"), result.RoundTrip);
        };
    }

    // A device no position uses is asked for its first holding register; a refusal is an answer, too.
    private Func<ValueTask<(DeviceFault? Fault, TimeSpan RoundTrip)>> Registers(DeviceDescription device, CancellationToken cancel)
    {
        Channel asked = PositionChannels.FirstOn(file, device.Name) ?? new Channel(device.Name, RegisterTable.HoldingRegister, 0);
        ChannelBlock block = ChannelBlock.Of([asked], devices.Registers)[0];
        return async () =>
        {
            ModbusResult result = await block.ReadAsync(BusClass.Rest, cancel);
            return (result.Ok ? null : block.Device.Fault(result, block.Asked), result.RoundTrip);
        };
    }
}
