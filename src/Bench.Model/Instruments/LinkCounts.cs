using System.Text.Json.Serialization;

namespace Bench.Model.Instruments;

/// <summary>Exchanges with one device so far, and how they went. Attempts, so a retry counts again.</summary>
/// <param name="Device">The device's name in the bench file.</param>
/// <param name="Link">The link's name in the bench file.</param>
/// <param name="IsFeedback">Whether the device is the unit's own feedback rather than a part of the bench.</param>
/// <param name="Exchanges">Requests sent.</param>
/// <param name="Silent">Requests without an answer.</param>
/// <param name="Garbled">Requests with a damaged answer.</param>
/// <param name="Refused">Requests answered with an exception.</param>
public sealed record LinkCounts(
    string Device, string Link, bool IsFeedback, long Exchanges, long Silent, long Garbled, long Refused)
{
    /// <summary>What the device says it is; null where it does not say, or was not asked.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? Identity { get; init; }

    /// <summary>Median of what a Modbus device has lately taken to answer, milliseconds; null where that is not followed.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? TurnaroundMs { get; init; }

    /// <summary>For a device that pushes frames: what became of them. Null for one that is asked.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public StreamDelivery? Stream { get; init; }
}
