namespace Bench.Model.Instruments;

/// <summary>One failed exchange with one device.</summary>
/// <param name="Kind">How it failed.</param>
/// <param name="Device">The device's name in the bench file.</param>
/// <param name="Link">The link's name in the bench file.</param>
/// <param name="Detail">What happened, in plain words, with what to check.</param>
public sealed record DeviceFault(DeviceFaultKind Kind, string Device, string Link, string Detail);
