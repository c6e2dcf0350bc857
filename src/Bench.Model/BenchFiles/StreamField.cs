namespace Bench.Model.BenchFiles;

/// <summary>A number in each frame of a stream.</summary>
/// <param name="Name">Its name, for channels.</param>
/// <param name="Offset">Its first byte, from 0 at the frame's beginning.</param>
/// <param name="Type">What its bytes mean.</param>
public sealed record StreamField(string Name, int Offset, FieldType Type)
{
    /// <summary>Bytes it takes.</summary>
    public int Bytes => BytesOf(Type);

    /// <summary>Bytes that a type takes.</summary>
    public static int BytesOf(FieldType type) => type switch
    {
        FieldType.Uint8 => 1,
        FieldType.Uint16 or FieldType.Int16 => 2,
        _ => 4,
    };
}
