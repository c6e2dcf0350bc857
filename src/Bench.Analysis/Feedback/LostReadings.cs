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
    /// <summary>Counts them.</summary>
    /// <param name="samples">The samples.</param>
    /// <param name="fromS">Attempts before this time are left out, seconds; null for none.</param>
    public static LostReadings In(ReadOnlySpan<Sample> samples, double? fromS = null)
    {
        LostReadingsTally tally = new(fromS);
        tally.Add(samples);
        return tally.Total();
    }
}
