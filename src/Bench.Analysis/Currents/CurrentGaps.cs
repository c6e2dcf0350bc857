using System.Runtime.Intrinsics;
using Bench.Analysis.Motion;

namespace Bench.Analysis.Currents;

/// <summary>Spells of almost no current while the drive was on, with current before and after (C7).</summary>
/// <param name="Interruptions">Those that may be the unit's.</param>
/// <param name="OfMeter">Those in which the unit kept its speed, so that current did flow: the meter or its wires.</param>
internal readonly record struct CurrentGaps(int Interruptions, int OfMeter)
{
    /// <summary>From drive on, current is not looked at: relay and inrush, seconds.</summary>
    private const double RelayS = 0.05;

    /// <summary>
    /// Length from which a spell tells by speed whose it is, seconds, and the share of its speed that an undriven unit has
    /// lost by the second half of it: a gearmotor's mechanical time constant is some tens of milliseconds (common practice, no source).
    /// </summary>
    private const double TellingS = 0.1;
    private const double KeptSpeedShare = 0.8;

    /// <summary>Counts them in a move.</summary>
    /// <param name="course">The move's course.</param>
    /// <param name="rows">Its meter rows.</param>
    /// <param name="thresholdA">Current below which none flows, amperes.</param>
    /// <param name="untilS">Where to stop looking, seconds.</param>
    public static CurrentGaps In(MoveCourse course, MeterRows rows, double thresholdA, double untilS)
    {
        int interruptions = 0;
        int ofMeter = 0;
        bool flowed = false;
        double? goneS = null;
        MeterRows driven = rows.Between(course.Move.DriveOnS + RelayS, untilS);
        Vector256<double> threshold = Vector256.Create(thresholdA);
        for (int i = 0; i < driven.Length; i++)
        {
            while (flowed && goneS is null && i <= driven.Length - 8
                && Vector256.GreaterThanOrEqualAll(Vector256.Create(driven.Currents.Slice(i, 4)), threshold))
            {
                i += 4;
            }

            bool flows = driven.Currents[i] >= thresholdA;
            if (flows && goneS is double fromS)
            {
                bool kept = KeptSpeed(course, fromS, driven.Times[i]);
                ofMeter += kept ? 1 : 0;
                interruptions += kept ? 0 : 1;
                goneS = null;
            }
            else if (!flows && flowed)
            {
                goneS ??= driven.Times[i];
            }

            flowed |= flows;
        }

        return new CurrentGaps(interruptions, ofMeter);
    }

    private static bool KeptSpeed(MoveCourse course, double fromS, double toS)
    {
        if (toS - fromS < TellingS || course.Speed() is not double steady)
        {
            return false;
        }

        // Positions are known up to the last reading under drive only.
        double lastS = Math.Min(toS, course.SteadyToS);
        double middleS = (fromS + toS) / 2;
        return lastS > middleS && course.Between(middleS) is double from && course.Between(lastS) is double to
            && (to - from) / (lastS - middleS) / steady > KeptSpeedShare;
    }
}
