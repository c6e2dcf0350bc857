using System.Text;

namespace Bench.Campaigns.Wire;

/// <summary>Reads the lines of the supply's link as they pass; knows nothing of what the program makes of them.</summary>
internal sealed class LineListener(Witness witness) : IListener
{
    /// <summary>The supply's address among those that answer.</summary>
    internal const int Supply = -1;

    private readonly StringBuilder _said = new();
    private readonly StringBuilder _heard = new();
    private SupplyLine? _last;

    public void Sent(ReadOnlySpan<byte> bytes)
    {
        _said.Append(Encoding.ASCII.GetString(bytes));
        _heard.Clear();
        foreach (string line in Whole(_said))
        {
            _last = new SupplyLine(witness.NowS, line);
            witness.SupplyLines.Add(_last);
        }
    }

    public void Received(ReadOnlySpan<byte> bytes)
    {
        _heard.Append(Encoding.ASCII.GetString(bytes));
        foreach (string line in Whole(_heard))
        {
            if (_last is { Asks: true } asked)
            {
                witness.SupplyAnswers.Add(new SupplyAnswer(witness.NowS, asked, line));
                witness.Answers.Add(new Answered(witness.NowS, Supply));
            }
        }
    }

    private static List<string> Whole(StringBuilder text)
    {
        string[] lines = text.ToString().Split('\n');
        text.Clear().Append(lines[^1]);
        return [.. lines[..^1].Select(l => l.Trim())];
    }
}
