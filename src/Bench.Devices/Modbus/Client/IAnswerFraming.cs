using Bench.Devices.Links;

namespace Bench.Devices.Modbus.Client;

/// <summary>How a request is wrapped, and how its own answer is told from everything else that arrives.</summary>
internal interface IAnswerFraming
{
    /// <summary>What <see cref="TryTake"/> says when the answer has not come yet.</summary>
    const int NotYet = 0;

    /// <summary>What <see cref="TryTake"/> says when an answer came that cannot be read.</summary>
    const int Damaged = -1;

    /// <summary>Where in a frame the PDU stands.</summary>
    int PduAt { get; }

    /// <summary>Bytes a frame has besides its PDU.</summary>
    int Overhead { get; }

    /// <summary>Wraps the PDU that stands at <see cref="PduAt"/>.</summary>
    /// <returns>The frame's length.</returns>
    int Close(Span<byte> frame, int unit, int pduLength);

    /// <summary>Forgets what cannot belong to the request about to be sent.</summary>
    void Begin(ILink link);

    /// <summary>Forgets everything: the link was lost, and what is here would be half a frame before the first of another stream.</summary>
    void Forget();

    /// <summary>Where the next bytes go.</summary>
    Memory<byte> Room { get; }

    /// <summary>Says how many bytes were put into <see cref="Room"/>.</summary>
    void Added(int bytes);

    /// <summary>Looks for the answer.</summary>
    /// <param name="unit">The device asked.</param>
    /// <param name="request">The request's PDU.</param>
    /// <param name="answerLength">Length of a normal answer's PDU.</param>
    /// <param name="pdu">Takes the answer's PDU.</param>
    /// <returns>Its length, <see cref="NotYet"/> or <see cref="Damaged"/>.</returns>
    int TryTake(int unit, ReadOnlySpan<byte> request, int answerLength, Span<byte> pdu);
}
