using System.Globalization;
using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads <c>[device.stream]</c>.</summary>
internal static class StreamDescriptionReader
{
    /// <summary>Most sync bytes.</summary>
    private const int MostSync = 4;

    /// <summary>Frames that may be missing before silence is a fault; fewer would take one late delivery for it.</summary>
    private const int LeastFramesOfSilence = 10;

    private static readonly NumberRange Rates = new(StreamDescription.LeastRateHz, StreamDescription.MostRateHz);

    /// <summary>Reads it.</summary>
    /// <param name="section">Its table.</param>
    /// <param name="link">The link it comes over; null when that could not be read.</param>
    /// <param name="timeoutMs">How long it may be silent.</param>
    public static StreamDescription? Read(Section section, LinkDescription? link, double? timeoutMs)
    {
        int? length = section.Whole("frame_bytes", StreamDescription.LeastFrameBytes, StreamDescription.MostFrameBytes);
        byte[]? sync = Sync(section);
        ByteOrder? bytes = section.Word<ByteOrder>("bytes", required: false);
        FrameCheckKind? check = section.Word<FrameCheckKind>("check", required: false);
        double? rate = section.Number("rate_hz", Rates);
        Section? counter = section.Table("sequence");
        int? at = counter?.Whole("offset", 0, StreamDescription.MostFrameBytes);
        int? bits = counter?.Whole("bits", 8, 32);
        if (bits is not (null or 8 or 16 or 32))
        {
            counter!.Refuse("bits", null, "allowed: 8, 16, 32");
        }

        counter?.Close();
        IReadOnlyList<Section> sections = section.Tables("field", 1);
        List<StreamField?> fields = [.. Fields(sections)];
        section.Close();
        if (length is null || sync is null || rate is null || at is null || bits is null || fields.Contains(null))
        {
            return null;
        }

        StreamDescription stream = new()
        {
            FrameBytes = length.Value,
            Sync = sync,
            Bytes = bytes ?? ByteOrder.LowFirst,
            Check = check ?? FrameCheckKind.None,
            RateHz = rate.Value,
            SequenceOffset = at.Value,
            SequenceBits = bits.Value,
            Fields = [.. fields.OfType<StreamField>()],
        };
        CheckPlaces(section, counter!, sections, stream);
        CheckTimes(section, stream, link, timeoutMs);
        return stream;
    }

    private static byte[]? Sync(Section section)
    {
        if (section.Text("sync") is not string text)
        {
            return null;
        }

        string digits = text.Replace(" ", "", StringComparison.Ordinal);
        if (digits.Length is > 0 and <= 2 * MostSync && digits.Length % 2 == 0 && digits.All(char.IsAsciiHexDigit))
        {
            return Convert.FromHexString(digits);
        }

        section.Refuse("sync", null, $"1 to {MostSync} bytes in hexadecimal are allowed, such as \"AA 55\"");
        return null;
    }

    private static IEnumerable<StreamField?> Fields(IReadOnlyList<Section> sections)
    {
        UniqueNames names = new("field");
        foreach (Section section in sections)
        {
            string? name = section.Id("name");
            names.Take(section, "name", name);
            int? offset = section.Whole("offset", 0, StreamDescription.MostFrameBytes);
            FieldType? type = section.Word<FieldType>("type");
            section.Close();
            yield return name is null || offset is null || type is null ? null : new StreamField(name, offset.Value, type.Value);
        }
    }

    // Every byte of a frame has one meaning at most.
    private static void CheckPlaces(Section section, Section counter, IReadOnlyList<Section> fields, StreamDescription stream)
    {
        string?[] taken = new string?[stream.FrameBytes];
        int end = stream.FrameBytes - stream.CheckBytes;
        Take(section, "sync", 0, stream.Sync.Count, "sync");
        Take(counter, "offset", stream.SequenceOffset, stream.SequenceBits / 8, "sequence");
        for (int i = 0; i < fields.Count; i++)
        {
            Take(fields[i], "offset", stream.Fields[i].Offset, stream.Fields[i].Bytes, $"field '{stream.Fields[i].Name}'");
        }

        void Take(Section at, string key, int first, int count, string what)
        {
            if (first + count > end)
            {
                at.Refuse(key, null, Text($"{what} takes {count} bytes and must end before byte {end}, where {(stream.CheckBytes > 0 ? "the check begins" : "the frame ends")}"));
                return;
            }

            for (int i = first; i < first + count; i++)
            {
                if (taken[i] is string other)
                {
                    at.Refuse(key, null, Text($"byte {i} belongs to {other} already"));
                    return;
                }

                taken[i] = what;
            }
        }
    }

    private static void CheckTimes(Section section, StreamDescription stream, LinkDescription? link, double? timeoutMs)
    {
        if (link is { Kind: LinkKind.Serial })
        {
            int bits = 1 + 8 + (link.Parity == SerialParity.None ? 0 : 1) + link.StopBits;
            double most = Math.Floor(link.Baud / (double)(bits * stream.FrameBytes));
            if (stream.RateHz > most)
            {
                section.Refuse("rate_hz", null, Text($"at {link.Baud} baud at most {most} frames of {stream.FrameBytes} bytes come a second; raise the link's baud, or lower the device's rate"));
            }
        }

        if (timeoutMs * stream.RateHz < 1000 * LeastFramesOfSilence)
        {
            section.Refuse("rate_hz", null, Text($"timeout_ms ({timeoutMs}) must be at least {LeastFramesOfSilence} frames long; write timeout_ms = {Math.Ceiling(1000 * LeastFramesOfSilence / stream.RateHz)} or more"));
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
