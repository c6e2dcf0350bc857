using Bench.Model.Instruments;

namespace Bench.Devices.Boards;

/// <summary>A drive of this bench, which knows what it was last told.</summary>
internal interface IBenchDrive : IDrive
{
    /// <summary>Whether an output was commanded on and not yet confirmed off.</summary>
    bool CommandedOn { get; }
}
