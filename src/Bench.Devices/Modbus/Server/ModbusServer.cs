namespace Bench.Devices.Modbus.Server;

/// <summary>Devices behind one link, by their addresses. Pure: a frame in, a frame or silence out.</summary>
public sealed class ModbusServer
{
    private readonly IReadOnlyDictionary<int, RegisterMap> _devices;

    /// <summary>Makes a server.</summary>
    /// <param name="devices">Register maps by address, 1 to 247.</param>
    /// <exception cref="ArgumentOutOfRangeException">An address is out of range.</exception>
    public ModbusServer(IReadOnlyDictionary<int, RegisterMap> devices)
    {
        foreach (int address in devices.Keys)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(address, 1);
            ArgumentOutOfRangeException.ThrowIfGreaterThan(address, ModbusLimits.GreatestAddress);
        }

        _devices = devices;
    }

    /// <summary>Whether a device has this address.</summary>
    public bool Has(int address) => _devices.ContainsKey(address);

    /// <summary>Answers one RTU frame.</summary>
    /// <param name="request">The whole frame, CRC included.</param>
    /// <param name="response">Room for <see cref="ModbusLimits.MostRtuBytes"/>.</param>
    /// <returns>
    /// Length of the answering frame; 0 for silence: bad CRC, an address of no device here, or a broadcast,
    /// which every device obeys if it writes.
    /// </returns>
    public int RespondRtu(ReadOnlySpan<byte> request, Span<byte> response)
    {
        if (!RtuFrame.IsWhole(request))
        {
            return 0;
        }

        ReadOnlySpan<byte> pdu = RtuFrame.Pdu(request);
        if (request[0] == ModbusLimits.BroadcastAddress)
        {
            foreach (RegisterMap device in _devices.Values)
            {
                // Broadcast requests are writes (Serial Line V1.02, 2.1); the answers go nowhere.
                device.Answer(pdu, response);
            }

            return 0;
        }

        return _devices.TryGetValue(request[0], out RegisterMap? map)
            ? RtuFrame.Close(response, request[0], map.Answer(pdu, response[1..]))
            : 0;
    }

    /// <summary>Answers one TCP frame.</summary>
    /// <param name="request">The whole frame, MBAP header included.</param>
    /// <param name="response">Room for <see cref="ModbusLimits.MostTcpBytes"/>.</param>
    /// <returns>
    /// Length of the answering frame; 0 for silence: broken header or a unit of no device here. A lone device also
    /// answers to units 0 and 255 (Messaging on TCP/IP V1.0b, 4.4.1.2: the unit of a device reached directly).
    /// </returns>
    public int RespondTcp(ReadOnlySpan<byte> request, Span<byte> response)
    {
        if (TcpFrame.Length(request) != request.Length)
        {
            return 0;
        }

        int unit = TcpFrame.Unit(request);
        RegisterMap? map = _devices.Count == 1 && unit is 0 or 255 ? _devices.Values.First() : _devices.GetValueOrDefault(unit);
        return map is null
            ? 0
            : TcpFrame.Close(
                response, TcpFrame.Transaction(request), unit, map.Answer(TcpFrame.Pdu(request), response[TcpFrame.HeaderBytes..]));
    }
}
