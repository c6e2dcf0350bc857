using Bench.Model.Instruments;
using Bench.Model.Traces;

namespace Bench.Analysis.Feedback;

/// <summary>Position readings that failed although the bench's own devices answered at the time.</summary>
/// <param name="Attempts">Attempts to read the position at all, but for those in which the link was gone.</param>
/// <param name="Failed">Of them silent, damaged or refused while the bench's devices answered.</param>
/// <param name="Dropouts">Episodes of two or more in a row, each with a meter reading between it and the next attempt.</param>
/// <param name="Witnessed">Failures in those episodes, each with its meter reading.</param>
/// <param name="LongestS">Longest run of them in time, seconds; pauses in which nothing was asked are left out.</param>
/// <param name="OffRing">Whole answers whose count is not on the ring.</param>
internal readonly record struct LostReadings(int Attempts, int Failed, int Dropouts, int Witnessed, double LongestS, int OffRing)
{
    /// <summary>A meter reading this near in time says that the bench's own devices answered, seconds: several of their periods.</summary>
    private const double AnswerS = 0.15;

    /// <summary>A longer time between two attempts is a pause, seconds.</summary>
    private const double PauseS = 0.5;

    /// <summary>Counts them.</summary>
    /// <param name="samples">The samples.</param>
    /// <param name="fromS">Attempts before this time are left out, seconds; null for none.</param>
    public static LostReadings In(ReadOnlySpan<Sample> samples, double? fromS = null)
    {
        int attempts = 0, failed = 0, dropouts = 0, witnessed = 0, offRing = 0, inARow = 0;
        double silentS = 0, longestS = 0, lastLostS = double.NaN;
        double lastMeter = double.NegativeInfinity;
        int ahead = 0;
        for (int i = 0; i < samples.Length; i++)
        {
            Sample s = samples[i];
            lastMeter = s.HasMeters ? s.TimeS : lastMeter;
            if (s.Feedback is FeedbackStatus.NotSampled or FeedbackStatus.LinkLost || s.TimeS < fromS)
            {
                continue;
            }

            attempts++;
            offRing += s.Feedback == FeedbackStatus.OutOfRange ? 1 : 0;
            bool lost = s.Feedback is FeedbackStatus.Silent or FeedbackStatus.Garbled or FeedbackStatus.Refused;
            if (!lost)
            {
                inARow = 0;
                silentS = 0;
                lastLostS = double.NaN;
                continue;
            }

            ahead = Math.Max(ahead, i);
            while (ahead < samples.Length && !samples[ahead].HasMeters)
            {
                ahead++;
            }

            bool answered = s.TimeS - lastMeter <= AnswerS
                || (ahead < samples.Length && samples[ahead].TimeS - s.TimeS <= AnswerS);
            if (answered)
            {
                failed++;
                double sinceS = s.TimeS - lastLostS;
                silentS += sinceS < PauseS ? sinceS : 0;
                longestS = Math.Max(longestS, silentS);
                lastLostS = s.TimeS;
            }

            // An outage of the whole bus that is shorter than AnswerS must not look like the feedback's.
            if (WitnessedBeforeNext(samples, i))
            {
                inARow++;
                dropouts += inARow == 2 ? 1 : 0;
                witnessed += inARow switch { 1 => 0, 2 => 2, _ => 1 };
            }
        }

        return new LostReadings(attempts, failed, dropouts, witnessed, longestS, offRing);
    }

    private static bool WitnessedBeforeNext(ReadOnlySpan<Sample> samples, int lost)
    {
        for (int i = lost + 1; i < samples.Length && samples[i].TimeS - samples[lost].TimeS <= AnswerS; i++)
        {
            if (samples[i].HasMeters)
            {
                return true;
            }

            if (samples[i].Feedback != FeedbackStatus.NotSampled)
            {
                return false;
            }
        }

        return false;
    }
}
