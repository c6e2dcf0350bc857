namespace Bench.Devices.Modbus.Client;

/// <summary>
/// Answers that were not there in time and may still come. RTU has no transaction numbers: until such an answer came, or
/// is too late to come at all, the next one of its shape from the same device may be it.
/// </summary>
internal sealed class OwedAnswers
{
    /// <summary>How long after it was due an answer may still come. Common practice, no source: six time-outs of a relay board.</summary>
    public static readonly TimeSpan Late = TimeSpan.FromMilliseconds(250);

    private readonly Owed[] _owed = new Owed[ModbusLimits.GreatestAddress + 1];

    /// <summary>An answer was not there in time.</summary>
    /// <param name="unit">The device asked.</param>
    /// <param name="function">The function.</param>
    /// <param name="length">Length of the answer's PDU.</param>
    /// <param name="until">Timestamp after which it will not come any more.</param>
    public void Add(int unit, byte function, int length, long until) => _owed[unit] = new Owed(function, length, until);

    /// <summary>Whether an answer of this shape, received now, may be one of before.</summary>
    public bool Has(int unit, byte function, int length, long now) =>
        _owed[unit] is { } owed && now < owed.Until && owed.Function == function && owed.Length == length;

    /// <summary>It came.</summary>
    public void Clear(int unit) => _owed[unit] = default;

    private readonly record struct Owed(byte Function, int Length, long Until);
}
