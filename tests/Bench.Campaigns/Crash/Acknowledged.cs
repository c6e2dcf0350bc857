using System.Globalization;

namespace Bench.Campaigns.Crash;

/// <summary>What processes said that the store has acknowledged, run by run.</summary>
internal sealed class Acknowledged
{
    private readonly SortedDictionary<int, Run> _runs = [];

    /// <summary>The runs that began.</summary>
    public IReadOnlyCollection<Run> Runs => _runs.Values;

    /// <summary>What the last process said when the store could not take it; null when it said nothing of the kind.</summary>
    public string? Failure { get; private set; }

    /// <summary>Units whose runs a process recovered.</summary>
    public List<string> Recovered { get; } = [];

    /// <summary>Samples, events, moves, sealed runs and entries acknowledged.</summary>
    public long Count => _runs.Values.Sum(r => 1L + r.Samples + r.Events + r.Moves + (r.Sealed ? 1 : 0) + (r.Judged ? 1 : 0));

    /// <summary>Takes a line. None is ever cut short: a write of so few bytes to a pipe is all or nothing (pipe(7), PIPE_BUF).</summary>
    public void Take(string line)
    {
        switch (line.Split(' '))
        {
            case ["failed", ..]:
                Failure = line["failed ".Length..];
                break;
            case ["recovered", var serial]:
                Recovered.Add(serial);
                break;
            case ["begun", var number, var id]:
                int n = Number(number);
                _runs[n] = new Run(new MadeRun(n), Guid.Parse(id));
                break;
            case ["samples", var number, var count]:
                _runs[Number(number)].Samples = Number(count);
                break;
            case ["event", var number, var count]:
                Run run = _runs[Number(number)];
                run.Events = Number(count);
                run.Samples = Math.Max(run.Samples, run.Events * MadeRun.EventEvery);
                break;
            case ["move", var number, var count]:
                _runs[Number(number)].Moves = Number(count);
                break;
            case ["sealed", var number]:
                _runs[Number(number)].Sealed = true;
                break;
            case ["judged", var number]:
                _runs[Number(number)].Judged = true;
                break;
        }
    }

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>One run.</summary>
    internal sealed class Run(MadeRun made, Guid id)
    {
        /// <summary>What it holds.</summary>
        public MadeRun Made { get; } = made;

        /// <summary>Its id.</summary>
        public Guid Id { get; } = id;

        /// <summary>Samples acknowledged.</summary>
        public int Samples { get; set; }

        /// <summary>Events acknowledged.</summary>
        public int Events { get; set; }

        /// <summary>Moves acknowledged.</summary>
        public int Moves { get; set; }

        /// <summary>Whether the sealing was acknowledged.</summary>
        public bool Sealed { get; set; }

        /// <summary>Whether the later judgement was acknowledged.</summary>
        public bool Judged { get; set; }
    }
}
