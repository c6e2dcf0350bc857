using System.Text;
using Bench.Devices.Links;

namespace Bench.Devices.Lines.Server;

/// <summary>Serves a device that speaks lines over one link until it closes.</summary>
public static class LineServer
{
    /// <summary>Answers lines until the other end closes or the token is cancelled.</summary>
    /// <param name="link">The link.</param>
    /// <param name="answer">What is answered to a line, without its terminator; null for silence.</param>
    /// <param name="terminator">What ends a line, both ways.</param>
    /// <param name="cancel">Ends it.</param>
    /// <exception cref="IOException">The link is gone.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static async Task RunAsync(ILink link, Func<string, string?> answer, string terminator, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(link);
        ArgumentNullException.ThrowIfNull(answer);
        byte[] line = new byte[LineClient.MostLineBytes];
        int length = 0;
        while (true)
        {
            int read = await link.ReadAsync(line.AsMemory(length), cancel);
            if (read == 0)
            {
                return;
            }

            length += read;
            for (int end; (end = Array.IndexOf(line, (byte)terminator[^1], 0, length)) >= 0;)
            {
                string request = Encoding.Latin1.GetString(line, 0, end).Trim();
                line.AsSpan(end + 1, length - end - 1).CopyTo(line);
                length -= end + 1;
                if (request.Length > 0 && answer(request) is string response)
                {
                    await link.WriteAsync(Encoding.ASCII.GetBytes(response + terminator), cancel);
                }
            }

            // A line without end is forgotten, as a device's input buffer would.
            length = length == line.Length ? 0 : length;
        }
    }
}
