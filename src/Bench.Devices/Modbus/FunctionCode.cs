namespace Bench.Devices.Modbus;

/// <summary>The function codes spoken here (Application Protocol V1.1b3, section 6).</summary>
public enum FunctionCode : byte
{
    /// <summary>None; never sent.</summary>
    None = 0x00,

    /// <summary>Read coils (6.1).</summary>
    ReadCoils = 0x01,

    /// <summary>Read discrete inputs (6.2).</summary>
    ReadDiscreteInputs = 0x02,

    /// <summary>Read holding registers (6.3).</summary>
    ReadHoldingRegisters = 0x03,

    /// <summary>Read input registers (6.4).</summary>
    ReadInputRegisters = 0x04,

    /// <summary>Write single coil (6.5).</summary>
    WriteCoil = 0x05,

    /// <summary>Write single register (6.6).</summary>
    WriteRegister = 0x06,

    /// <summary>Diagnostics (6.8); here its sub-function 0 alone, which returns what was sent.</summary>
    Diagnostics = 0x08,

    /// <summary>Write multiple coils (6.11).</summary>
    WriteCoils = 0x0F,

    /// <summary>Write multiple registers (6.12).</summary>
    WriteRegisters = 0x10,

    /// <summary>Mask write register (6.16).</summary>
    MaskWriteRegister = 0x16,

    /// <summary>Read/write multiple registers (6.17).</summary>
    ReadWriteRegisters = 0x17,

    /// <summary>Encapsulated interface (6.19); here its type 0E alone, read device identification (6.21).</summary>
    EncapsulatedInterface = 0x2B,
}
