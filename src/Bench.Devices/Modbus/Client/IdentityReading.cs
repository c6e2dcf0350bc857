using System.Text;

namespace Bench.Devices.Modbus.Client;

/// <summary>Gathers a device's identification from as many answers as it takes (Application Protocol V1.1b3, 6.21).</summary>
internal sealed class IdentityReading
{
    private readonly string[] _texts = ["", "", ""];

    /// <summary>The object to ask for next; null when there is no more.</summary>
    public byte? Next { get; private set; } = 0;

    /// <summary>What was gathered; an object the device left out is empty.</summary>
    public DeviceIdentity Identity => new(_texts[0], _texts[1], _texts[2]);

    /// <summary>Takes an answer's PDU, whose length was found sound.</summary>
    public void Take(ReadOnlySpan<byte> pdu)
    {
        int at = 7;
        for (int i = 0; i < pdu[6]; i++)
        {
            ReadOnlySpan<byte> text = pdu.Slice(at + 2, pdu[at + 1]);
            if (pdu[at] < _texts.Length)
            {
                _texts[pdu[at]] = Encoding.ASCII.GetString(text);
            }

            at += 2 + text.Length;
        }

        // Only forward: a device that names an earlier object would be asked for ever.
        Next = pdu[4] != 0 && pdu[5] > Next ? pdu[5] : null;
    }
}
