namespace Bench.Tests.Records;

/// <summary>A clock that stands still.</summary>
internal sealed class FixedTime : TimeProvider
{
    public static readonly DateTimeOffset Now = new(2031, 3, 4, 5, 6, 7, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => Now;
}
