using Bench.Model.Configuration;

namespace Bench.Model.BenchFiles;

/// <summary>Reads what the bits of a number's registers mean: <c>type</c>, <c>words</c>, and <c>signed</c>, an older way to write <c>type = "int16"</c>.</summary>
internal static class RegisterTypeReader
{
    /// <summary>Reads it; nothing of it is asked where the number comes as text.</summary>
    /// <param name="section">The place's table.</param>
    /// <param name="place">What was read of it.</param>
    /// <param name="maySign">Whether <c>signed</c> is a key here.</param>
    public static Channel Read(Section section, Channel place, bool maySign)
    {
        if (place.Text is not null)
        {
            return place;
        }

        RegisterType? type = section.Word<RegisterType>("type", required: false);
        WordOrder? words = section.Word<WordOrder>("words", required: false);
        if (maySign && section.Flag("signed", required: false) is bool signed)
        {
            if (section.Has("type"))
            {
                section.Refuse("signed", null, "type says it already; remove signed");
            }

            type ??= signed ? RegisterType.Int16 : RegisterType.Uint16;
        }

        Channel typed = place with { Type = type ?? RegisterType.Uint16, Words = words ?? WordOrder.HighFirst };
        if (typed.Addresses == 1 && section.Has("words"))
        {
            section.Refuse("words", null, "only a type of two registers has an order of words; remove it, or write type = \"uint32\", \"int32\" or \"float32\"");
        }

        if (typed.Address + typed.Addresses > 65536)
        {
            section.Refuse("type", null, "two registers begin at 65534 at most");
        }

        return typed;
    }
}
