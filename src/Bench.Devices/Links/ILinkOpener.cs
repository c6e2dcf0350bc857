using Bench.Model.BenchFiles;

namespace Bench.Devices.Links;

/// <summary>Opens the links a bench file describes: real ones, or simulated ones.</summary>
public interface ILinkOpener
{
    /// <summary>Opens a link.</summary>
    /// <exception cref="Bench.Model.Instruments.DeviceFaultException">It can't be opened; the fault says what to mend.</exception>
    ValueTask<ILink> OpenAsync(LinkDescription link, CancellationToken cancel);
}
