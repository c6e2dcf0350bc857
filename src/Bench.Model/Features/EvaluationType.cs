namespace Bench.Model.Features;

/// <summary>How a standard uncertainty was evaluated (JCGM 100:2008, 4.2 and 4.3).</summary>
public enum EvaluationType
{
    /// <summary>By statistics of repeated observations.</summary>
    A,

    /// <summary>By any other means: a certificate, a resolution, a tolerance, a study made before.</summary>
    B,
}
