namespace Bench.Running;

/// <summary>Watches a run from outside; must return at once and never throw.</summary>
public interface IRunObserver
{
    /// <summary>Something a person would like to see.</summary>
    void Progress(RunProgress progress);
}
