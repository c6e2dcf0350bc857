using Bench.Simulation.Chance;
using Bench.Simulation.Time;
using CsCheck;

namespace Bench.Tests.Simulation.Time;

public class VirtualTimeTests
{
    private static readonly DateTimeOffset Start = new(2031, 4, 5, 6, 7, 8, TimeSpan.Zero);

    [Fact]
    public void Run_DelayOfAnHour_ClockJumpsByExactlyAnHour()
    {
        VirtualTime time = new(Start);
        time.Run(() => Task.Delay(TimeSpan.FromHours(1), time, TestContext.Current.CancellationToken));
        Assert.Equal(TimeSpan.FromHours(1), time.Elapsed);
        Assert.Equal(Start.AddHours(1), time.GetUtcNow());
        Assert.Equal(TimeSpan.FromHours(1), time.GetElapsedTime(0));
    }

    [Fact]
    public void Run_AnyDelays_FireInOrderOfDueTimeThenOfSetting() =>
        Gen.Int[0, 20].Array[1, 60].Sample(delays =>
        {
            VirtualTime time = new(Start);
            List<(long At, int Index)> fired = [];
            time.Run(() => Task.WhenAll(delays.Select(async (ms, index) =>
            {
                await Task.Delay(TimeSpan.FromMilliseconds(ms), time);
                fired.Add((time.GetTimestamp(), index));
            })));
            IEnumerable<(long, int)> expected = delays
                .Select((ms, index) => (At: ms * TimeSpan.TicksPerMillisecond, Index: index))
                .OrderBy(f => f.At).ThenBy(f => f.Index);
            Assert.Equal(expected, fired);
        });

    [Fact]
    public void Timers_SetClearedAndDisposedAtRandom_FireAsASortedListWould() =>
        Gen.ULong.Sample(seed =>
        {
            SeededRandom random = new(seed);
            VirtualTime time = new(Start);
            List<int> fired = [];
            Dictionary<int, (long Due, int Order)> model = [];
            List<ITimer> timers = [];
            for (int i = 0; i < 20; i++)
            {
                int id = i;
                timers.Add(time.CreateTimer(_ => fired.Add(id), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan));
            }

            for (int order = 0; order < 100; order++)
            {
                int id = random.Whole(0, timers.Count - 1);
                int due = random.Whole(0, 30);
                if (random.Happens(0.3))
                {
                    timers[id].Change(Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
                    model.Remove(id);
                }
                else
                {
                    timers[id].Change(TimeSpan.FromTicks(100 * due), Timeout.InfiniteTimeSpan);
                    model[id] = (due, order);
                }
            }

            time.Run(() => Task.Delay(TimeSpan.FromMilliseconds(1), time));
            Assert.Equal(model.OrderBy(m => m.Value).Select(m => m.Key), fired);
        });

    [Fact]
    public void CreateTimer_WithPeriod_FiresEachPeriodUntilDisposed()
    {
        VirtualTime time = new(Start);
        List<double> at = [];
        using ITimer timer = time.CreateTimer(
            _ => at.Add(time.Elapsed.TotalMilliseconds), null, TimeSpan.FromMilliseconds(5), TimeSpan.FromMilliseconds(10));
        time.Run(async () =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(30), time, TestContext.Current.CancellationToken);
            await timer.DisposeAsync();
            await Task.Delay(TimeSpan.FromMilliseconds(30), time, TestContext.Current.CancellationToken);
        });
        Assert.Equal([5.0, 15.0, 25.0], at);
    }

    [Fact]
    public void Run_CancellationAfterATime_ComesAtThatTime()
    {
        VirtualTime time = new(Start);
        time.Run(async () =>
        {
            using CancellationTokenSource cancel = new(TimeSpan.FromMilliseconds(40), time);
            await Assert.ThrowsAnyAsync<OperationCanceledException>(
                () => Task.Delay(TimeSpan.FromHours(1), time, cancel.Token));
        });
        Assert.Equal(40.0, time.Elapsed.TotalMilliseconds);
    }

    [Fact]
    public void Run_Continuations_AllRunOnTheCallingThread()
    {
        VirtualTime time = new(Start);
        HashSet<int> threads = [Environment.CurrentManagedThreadId];
        time.Run(() => Task.WhenAll(Enumerable.Range(0, 50).Select(async i =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(i % 7), time);
            threads.Add(Environment.CurrentManagedThreadId);
            await Task.Yield();
            threads.Add(Environment.CurrentManagedThreadId);
        })));
        Assert.Single(threads);
        Assert.Equal(0, time.PostsFromOtherThreads);
    }

    [Fact]
    public void Run_WaitForWhatNeverComes_SaysSoAtOnce()
    {
        VirtualTime time = new(Start);
        TaskCompletionSource<int> never = new();
        VirtualTimeDeadlockException e = Assert.Throws<VirtualTimeDeadlockException>(() => time.Run(async () =>
        {
            await Task.Delay(TimeSpan.FromSeconds(2), time);
            return await never.Task;
        }));
        Assert.Equal(TimeSpan.FromSeconds(2), e.Elapsed);
        Assert.Contains("stands still at 00:00:02", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Run_WorkThatThrows_PassesTheExceptionOnAndCanRunAgain()
    {
        VirtualTime time = new(Start);
        Assert.Throws<TimeoutException>(() => time.Run(async () =>
        {
            await Task.Delay(TimeSpan.FromSeconds(1), time);
            throw new TimeoutException();
        }));
        Assert.Equal(7, time.Run(() => Task.FromResult(7)));
    }

    [Fact]
    public void Run_WithinARun_IsRefused()
    {
        VirtualTime time = new(Start);
        Assert.Throws<InvalidOperationException>(() => time.Run(() => Task.FromResult(time.Run(() => Task.FromResult(1)))));
    }

    [Fact]
    public void Run_TwoClocksOnTwoThreads_GiveWhatEachGivesAlone()
    {
        long[] ends = new long[2];
        Thread[] threads = [.. Enumerable.Range(0, 2).Select(i => new Thread(() => ends[i] = Walk((ulong)i)))];
        Array.ForEach(threads, t => t.Start());
        Array.ForEach(threads, t => t.Join());
        Assert.Equal([Walk(0), Walk(1)], ends);
        Assert.NotEqual(ends[0], ends[1]);
    }

    private static long Walk(ulong seed)
    {
        VirtualTime time = new(Start);
        SeededRandom random = new(seed);
        return time.Run(async () =>
        {
            for (int i = 0; i < 500; i++)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(random.Whole(1, 100)), time);
            }

            return time.GetTimestamp();
        });
    }
}
