using System.Globalization;

namespace Bench.Model.Returns;

/// <summary>What may stand on a unit's label, or be typed or scanned from it.</summary>
public static class LabelText
{
    /// <summary>Most characters.</summary>
    public const int MostCharacters = 64;

    /// <summary>The first character that cannot be printed; null when all can.</summary>
    public static char? FindUnprintable(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        foreach (char c in text)
        {
            if (char.IsControl(c) || char.IsSurrogate(c) || char.GetUnicodeCategory(c) == UnicodeCategory.Format)
            {
                return c;
            }
        }

        return null;
    }
}
