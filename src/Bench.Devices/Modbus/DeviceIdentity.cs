namespace Bench.Devices.Modbus;

/// <summary>
/// What a device says it is: the basic objects of Application Protocol V1.1b3, 6.21, which are ASCII texts of at most
/// <see cref="MostCharacters"/> characters each.
/// </summary>
/// <param name="Vendor">Vendor name (object 00).</param>
/// <param name="Product">Product code (object 01).</param>
/// <param name="Revision">Major and minor revision (object 02).</param>
public sealed record DeviceIdentity(string Vendor, string Product, string Revision)
{
    /// <summary>Objects of the basic category.</summary>
    public const int Objects = 3;

    /// <summary>Longest text: one object must fit one answer, of 253 bytes with 7 before the objects and 2 before the text.</summary>
    public const int MostCharacters = ModbusLimits.MostPduBytes - 9;

    /// <summary>The text of an object, 0 to 2.</summary>
    public string this[int objectId] => objectId switch
    {
        0 => Vendor,
        1 => Product,
        2 => Revision,
        _ => throw new ArgumentOutOfRangeException(nameof(objectId), objectId, "the basic objects are 0, 1 and 2"),
    };
}
