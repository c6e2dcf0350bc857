using Bench.Model.Instruments;
using Bench.Model.Moves;
using Bench.Running.Moves;

namespace Bench.Running.Landing;

/// <summary>
/// Leads one move after the other to its target by what the unit's kind of feedback tells: says where to, when to switch
/// off, and when the unit is not getting there. Switches nothing itself.
/// </summary>
internal interface ISteering
{
    /// <summary>Aims the next move, the unit being at rest.</summary>
    /// <param name="command">The move.</param>
    /// <param name="rest">The latest reading.</param>
    /// <param name="lastCount">The last count that was ever read; null for none.</param>
    Aim Aim(MoveCommand command, FeedbackReading rest, int? lastCount);

    /// <summary>The drive went on at a time, in seconds of the run.</summary>
    void DriveOn(double nowS);

    /// <summary>Takes a reading that was heard, until the unit has settled.</summary>
    void Take(double timeS, FeedbackReading reading);

    /// <summary>Whether the unit surely turned some while after the last current was seen, at a time in seconds of the run.</summary>
    bool TurnedAfter(double flowedS);

    /// <summary>Why the move has failed by now; null while it has not.</summary>
    /// <param name="nowS">Now, seconds of the run.</param>
    /// <param name="motor">Names what the motor's current says of a unit that stands still.</param>
    MoveEnd? Failed(double nowS, Func<MoveEnd> motor);

    /// <summary>Seconds until the drive has to go off for the target; null when that lies further ahead than the next reading.</summary>
    /// <param name="nowS">Now, seconds of the run.</param>
    /// <param name="slotS">Time from one reading to the next, seconds.</param>
    double? OffInS(double nowS, double slotS);

    /// <summary>Coast that the instant of switching off was chosen for, counts, signed; null without a basis.</summary>
    double? ExpectedCoast { get; }

    /// <summary>The drive was commanded off at a time, in seconds of the run.</summary>
    void DriveOff(double nowS);

    /// <summary>What an aimed move turned out to be: a unit that turns itself may have gone another way.</summary>
    Aim Made(Aim aim);

    /// <summary>The move has landed as commanded, under readings: what there is to learn from it may be learnt.</summary>
    void Landed();
}
