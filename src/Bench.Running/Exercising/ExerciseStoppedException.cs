namespace Bench.Running.Exercising;

/// <summary>Carries why an exercise ends before its time from where it is found to where it ends.</summary>
internal sealed class ExerciseStoppedException(ExerciseEnd end, string because) : Exception(because)
{
    /// <summary>How it ends.</summary>
    public ExerciseEnd End { get; } = end;
}
