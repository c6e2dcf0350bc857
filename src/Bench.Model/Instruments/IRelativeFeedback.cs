namespace Bench.Model.Instruments;

/// <summary>A feedback without a zero of its own: until its home is known, its counts are right against each other only.</summary>
public interface IRelativeFeedback : IFeedback
{
    /// <summary>Adds counts to what is read from now on, so that the ring's zero is where it belongs. Only with the unit at rest.</summary>
    void MoveHome(int counts);
}
