namespace Bench.Running.Exercising;

/// <summary>How an exercise ended.</summary>
public enum ExerciseEnd
{
    /// <summary>Every output was pulsed.</summary>
    Done,

    /// <summary>Cautions and wiring were not confirmed; nothing was energised.</summary>
    NotConfirmed,

    /// <summary>A person stopped it.</summary>
    Cancelled,

    /// <summary>Something of the bench is not as it should be.</summary>
    BenchFault,

    /// <summary>Emergency stop, over-current, a contact that does not open, or an output not confirmed off.</summary>
    Unsafe,
}
