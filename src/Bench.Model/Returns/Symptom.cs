namespace Bench.Model.Returns;

/// <summary>What the field reported.</summary>
public enum Symptom
{
    /// <summary>The feedback fault was there all the time.</summary>
    Constant,

    /// <summary>The feedback fault came and went.</summary>
    Intermittent,
}
