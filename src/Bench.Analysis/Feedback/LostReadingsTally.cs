using Bench.Analysis.Readings;
using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.Feedback;

/// <summary>Counts <see cref="LostReadings"/> as samples come in. A failed attempt waits until what comes after tells whether the bench's own devices answered.</summary>
/// <param name="fromS">Attempts before this time are left out, seconds; null for none.</param>
internal sealed class LostReadingsTally(double? fromS)
{
    /// <summary>A meter reading this near in time says that the bench's own devices answered, seconds: several of their periods.</summary>
    private const double AnswerS = 0.15;

    /// <summary>A longer time between two attempts is a pause, seconds.</summary>
    private const double PauseS = 0.5;

    private readonly double _fromS = fromS ?? double.NegativeInfinity;
    private readonly Queue<Attempt> _waiting = [];
    private int _attempts;
    private int _failed;
    private int _dropouts;
    private int _witnessed;
    private int _offRing;
    private int _inARow;
    private double _silentS;
    private double _longestS;
    private double _lastLostS = double.NaN;
    private double _lastMeterS = double.NegativeInfinity;

    /// <summary>Counts the next samples.</summary>
    /// <param name="block">Samples in order.</param>
    /// <param name="marks">Theirs.</param>
    public void Add(ReadOnlySpan<Sample> block, in SampleMarks marks)
    {
        if (_waiting.Count == 0 && double.IsNegativeInfinity(_fromS) && !marks.AnyLost)
        {
            AddAnswered(block, marks.Attempts);
        }
        else
        {
            Add(block);
        }
    }

    /// <summary>Counts the next samples one by one.</summary>
    public void Add(ReadOnlySpan<Sample> samples)
    {
        foreach (ref readonly Sample s in samples)
        {
            if (_waiting.Count > 0)
            {
                Tell(in s);
            }

            if (s.HasMeters)
            {
                _lastMeterS = s.TimeS;
            }

            if (s.Feedback != FeedbackStatus.NotSampled)
            {
                AddAttempt(in s);
            }
        }
    }

    /// <summary>The counts after the last sample.</summary>
    public LostReadings Total()
    {
        while (_waiting.TryDequeue(out Attempt? attempt))
        {
            Apply(attempt);
        }

        return new LostReadings(_attempts, _failed, _dropouts, _witnessed, _longestS, _offRing);
    }

    private void AddAnswered(ReadOnlySpan<Sample> samples, int attempts)
    {
        if (attempts > 0)
        {
            _attempts += attempts;
            Answered();
        }

        for (int i = samples.Length - 1; i >= 0; i--)
        {
            if (samples[i].HasMeters)
            {
                _lastMeterS = samples[i].TimeS;
                return;
            }
        }
    }

    private void AddAttempt(in Sample s)
    {
        if (s.Feedback == FeedbackStatus.LinkLost || s.TimeS < _fromS)
        {
            return;
        }

        _attempts++;
        _offRing += s.Feedback == FeedbackStatus.OutOfRange ? 1 : 0;
        bool lost = s.Feedback is FeedbackStatus.Silent or FeedbackStatus.Garbled or FeedbackStatus.Refused;
        if (lost)
        {
            _waiting.Enqueue(new Attempt(s.TimeS, true) { Answered = s.TimeS - _lastMeterS <= AnswerS ? true : null });
        }
        else if (_waiting.Count > 0)
        {
            _waiting.Enqueue(new Attempt(s.TimeS, false));
        }
        else
        {
            Answered();
        }
    }

    // What a sample says of the failed attempts before it.
    private void Tell(in Sample s)
    {
        foreach (Attempt a in _waiting)
        {
            bool near = s.TimeS - a.TimeS <= AnswerS;
            if (s.HasMeters || !near)
            {
                a.Answered ??= near;
                a.Witnessed ??= near;
            }
            else if (s.Feedback != FeedbackStatus.NotSampled)
            {
                a.Witnessed ??= false;
            }
        }

        while (_waiting.TryPeek(out Attempt? first) && (!first.Lost || first is { Answered: not null, Witnessed: not null }))
        {
            Apply(_waiting.Dequeue());
        }
    }

    private void Apply(Attempt attempt)
    {
        if (!attempt.Lost)
        {
            Answered();
            return;
        }

        if (attempt.Answered == true)
        {
            _failed++;
            double sinceS = attempt.TimeS - _lastLostS;
            _silentS += sinceS < PauseS ? sinceS : 0;
            _longestS = Math.Max(_longestS, _silentS);
            _lastLostS = attempt.TimeS;
        }

        // An outage of the whole bus that is shorter than AnswerS must not look like the feedback's.
        if (attempt.Witnessed == true)
        {
            _inARow++;
            _dropouts += _inARow == 2 ? 1 : 0;
            _witnessed += _inARow switch { 1 => 0, 2 => 2, _ => 1 };
        }
    }

    private void Answered()
    {
        _inARow = 0;
        _silentS = 0;
        _lastLostS = double.NaN;
    }

    // An attempt, and what is known of it so far.
    private sealed class Attempt(double timeS, bool lost)
    {
        public double TimeS { get; } = timeS;

        public bool Lost { get; } = lost;

        /// <summary>Whether a meter reading lies near before or after it.</summary>
        public bool? Answered { get; set; }

        /// <summary>Whether a meter reading lies between it and the next attempt.</summary>
        public bool? Witnessed { get; set; }
    }
}
