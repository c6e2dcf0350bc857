namespace Bench.Devices.Modbus;

/// <summary>What a serial wire can carry at most; a poll loop's rate is stated as a share of it.</summary>
/// <param name="Baud">Bits per second.</param>
/// <param name="BitsPerCharacter">Start, data, parity and stop bits: 10 for 8N1, 11 for 8E1.</param>
public sealed record WireRate(int Baud, int BitsPerCharacter)
{
    /// <summary>How long a character takes.</summary>
    public TimeSpan CharacterTime => TimeSpan.FromSeconds((double)BitsPerCharacter / Baud);

    /// <summary>
    /// RTU transactions per second with a device that answers at once: request and answer on the wire, and the silence
    /// before each. Both counts are whole frames with address and CRC.
    /// </summary>
    public double TransactionsPerSecond(int requestBytes, int answerBytes)
    {
        double characterS = (double)BitsPerCharacter / Baud;
        return 1.0 / (((requestBytes + answerBytes) * characterS) + (2 * RtuTiming.Gap(CharacterTime).TotalSeconds));
    }
}
