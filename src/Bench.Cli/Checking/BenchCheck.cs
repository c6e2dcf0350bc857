using Bench.Analysis.Sightings;
using Bench.Cli.Output;
using Bench.Devices.Positions;
using Bench.Model.BenchFiles;
using Bench.Model.Profiles;
using Bench.Model.Rings;
using Bench.Running.Sampling;

namespace Bench.Cli.Checking;

/// <summary>Looks at a whole bench. Only reads.</summary>
internal static class BenchCheck
{
    /// <summary>How long a position's polling is rehearsed: long enough for some hundred readings and whatever disturbs once a second.</summary>
    private static readonly TimeSpan Rehearsal = TimeSpan.FromSeconds(3);

    /// <summary>Looks.</summary>
    /// <param name="bench">The bench file.</param>
    /// <param name="devices">The open bench.</param>
    /// <param name="profile">The family it is to be good for; null for none.</param>
    /// <param name="time">The clock.</param>
    /// <param name="cancel">Stops between reads.</param>
    public static async Task<BenchCondition> LookAsync(
        BenchFile bench, OpenBench devices, Profile? profile, TimeProvider time, CancellationToken cancel)
    {
        IReadOnlyList<SafeStateResult> outputs = await devices.ReadEverythingBackAsync(cancel);
        Terminal.Say($"Reading {bench.Devices.Count} devices, {DeviceGrading.Reads} times each; nothing is energised.");
        CheckedDevice[] answers = [.. (await devices.CheckAsync(DeviceGrading.Reads, cancel)).Select(c => Checked(bench, c))];
        return new BenchCondition(
            answers,
            await PollAsync(bench, devices, profile, time, cancel),
            outputs,
            CalibrationCheck.Of(bench, DateOnly.FromDateTime(time.GetLocalNow().DateTime)));
    }

    private static CheckedDevice Checked(BenchFile bench, DeviceCheck check)
    {
        DeviceDescription device = bench.Devices.Single(d => d.Name == check.Device);
        LinkDescription link = bench.Links.Single(l => l.Name == device.Link);
        bool ofUnit = bench.Positions.Any(p => p.Count?.Device == device.Name)
            && bench.Positions.All(p => p.Up.Device != device.Name && p.Current.Channel.Device != device.Name);
        return new CheckedDevice(check, ofUnit, DeviceGrading.Of(check, device, link, ofUnit));
    }

    private static async Task<IReadOnlyList<CheckedPosition>> PollAsync(
        BenchFile bench, OpenBench devices, Profile? profile, TimeProvider time, CancellationToken cancel)
    {
        // Without a profile any count is one; with it, one off its ring is no reading.
        Ring ring = profile?.Ring ?? new Ring(Ring.MostCounts);

        // The runner steers by counts, so positions with port switches have no polling to rehearse.
        UnitPositionDescription[] counting = [.. bench.Positions.Where(p => p.Feedback != FeedbackKind.Switches)];
        Terminal.Say($"Rehearsing the polling of {counting.Length} position(s), drive off.");
        List<RehearsedPolling> alone = [];
        foreach (UnitPositionDescription position in counting)
        {
            alone.Add(await PollRehearsal.RunAsync(devices.Position(position.Name, ring), time, Rehearsal, cancel));
        }

        RehearsedPolling[] together = counting.Length <= 1 ? [] : await Task.WhenAll(
            counting.Select(p => PollRehearsal.RunAsync(devices.Position(p.Name, ring), time, Rehearsal, cancel)));
        return
        [
            .. alone.Select(a => new CheckedPosition(
                a,
                together.FirstOrDefault(t => t.Position == a.Position),
                profile is null || a.PositionRateHz <= 0 ? null : SightingPlan.For(profile, a.PositionRateHz),
                PositionGrading.Of(a, profile))),
        ];
    }
}
