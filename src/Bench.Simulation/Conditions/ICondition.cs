using Bench.Simulation.Chance;

namespace Bench.Simulation.Conditions;

/// <summary>A physical state of a unit or its bench, made by changing what it is made of; nothing else learns of it.</summary>
public interface ICondition
{
    /// <summary>Id, e.g. <c>dead-sensors</c>.</summary>
    string Id { get; }

    /// <summary>What it is, in plain words.</summary>
    string Title { get; }

    /// <summary>Makes the condition.</summary>
    /// <param name="healthy">What it befalls.</param>
    /// <param name="random">Chooses where and how badly, within a range that is realistic and clearly faulty.</param>
    Installation Apply(Installation healthy, SeededRandom random);
}
