using System.Globalization;
using Bench.Model.BenchFiles;

namespace Bench.Devices.Discovery;

/// <summary>Where a walk looks.</summary>
/// <param name="Addresses">Modbus addresses, each once, in order.</param>
/// <param name="Bauds">Speeds of a serial link, in order of trying.</param>
/// <param name="Parities">Parities of a serial link, in order of trying.</param>
public sealed record DiscoveryRange(IReadOnlyList<int> Addresses, IReadOnlyList<int> Bauds, IReadOnlyList<SerialParity> Parities)
{
    /// <summary>Addresses of devices (Modbus over Serial Line V1.02, 2.2); 0 is broadcast, above 247 is reserved.</summary>
    private const int MostAddress = 247;

    // Usual speeds, the likeliest first (common practice, no source); 9600 and 19200 are those every device must have (V1.02, 3.2).
    private static readonly int[] UsualBauds = [115200, 9600, 19200, 38400, 57600, 4800, 2400, 1200];

    /// <summary>Every address, the usual speeds, no parity and then even, which the standard asks for (V1.02, 2.5.1).</summary>
    public static DiscoveryRange Whole { get; } =
        new([.. Enumerable.Range(1, MostAddress)], UsualBauds, [SerialParity.None, SerialParity.Even]);

    /// <summary>Addresses from a list such as <c>1-20,33</c>.</summary>
    /// <exception cref="FormatException">It is no such list; the message says what is allowed.</exception>
    public static IReadOnlyList<int> ParseAddresses(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        SortedSet<int> addresses = [];
        foreach (string part in text.Split(','))
        {
            string[] ends = part.Split('-');
            int first = 0;
            int last = 0;
            if (ends.Length > 2 || !TryWhole(ends[0], out first) || !TryWhole(ends[^1], out last)
                || first < 1 || last > MostAddress || first > last)
            {
                throw new FormatException($"'{part}' in '{text}' is no address or range; addresses are 1 to {MostAddress}, e.g. 1-20,33");
            }

            addresses.UnionWith(Enumerable.Range(first, last - first + 1));
        }

        return [.. addresses];
    }

    /// <summary>Speeds from a list such as <c>9600,115200</c>.</summary>
    /// <exception cref="FormatException">It is no such list; the message says what is allowed.</exception>
    public static IReadOnlyList<int> ParseBauds(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return
        [
            .. text.Split(',').Select(part => TryWhole(part, out int baud) && UsualBauds.Contains(baud)
                ? baud
                : throw new FormatException($"'{part}' in '{text}' is no usual speed; those are {string.Join(", ", UsualBauds.Order())}")).Distinct(),
        ];
    }

    private static bool TryWhole(string text, out int value) =>
        int.TryParse(text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out value);
}
