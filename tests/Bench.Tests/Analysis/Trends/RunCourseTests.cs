using Bench.Analysis.Trends;
using CsCheck;

namespace Bench.Tests.Analysis.Trends;

// What it is made of is held against Pettitt 1979, R and scipy in Campaigns/ChecksTests.
public class RunCourseTests
{
    private const double Resolution = 0.01;

    // Values from four ports by turns, far apart from each other, with normal scatter of 1.
    private static List<CoursePoint> Course(int seed, int n, Func<int, double> course, double memory = 0)
    {
        Random random = new(seed);
        List<CoursePoint> points = [];
        double noise = 0;
        for (int i = 0; i < n; i++)
        {
            double fresh = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            noise = (memory * noise) + (Math.Sqrt(1 - (memory * memory)) * fresh);
            points.Add(new CoursePoint($"port {i % 4}", i + 1, (20 * (i % 4)) + noise + course(i)));
        }

        return points;
    }

    private static RunCourse Of(List<CoursePoint> points)
    {
        (RunCourse? course, string? because) = RunCourse.Of(points, Resolution);
        return course ?? throw new InvalidOperationException(because);
    }

    // Landings of half counts tie by the dozen; in other units each tie is broken by rounding.
    [Fact]
    public void Of_HalfCountsInOtherUnits_IsTheSameCourseInThoseUnits() =>
        Gen.Select(Gen.Int[-6, 6].Array[40], Gen.Double[0.1, 7]).Sample((halves, by) =>
        {
            List<CoursePoint> points = [.. halves.Select((h, i) => new CoursePoint($"port {i % 4}", i + 1, h / 2.0))];
            RunCourse? here = RunCourse.Of(points, Resolution).Course;
            RunCourse? there = RunCourse.Of([.. points.Select(p => p with { Value = (p.Value + 0.1) * by })], Resolution * by).Course;

            Assert.Equal(here?.Kind, there?.Kind);
            Assert.Equal(here?.FirstMove, there?.FirstMove);
            Assert.Equal(here?.StepUncertainty * by ?? 0, there?.StepUncertainty ?? 0, 1e-9);
        });

    [Fact]
    public void Of_StepHalfWay_IsAStepThereOfItsSize()
    {
        RunCourse course = Of(Course(1, 60, i => i < 30 ? 0 : 4));

        Assert.Equal(CourseKind.Step, course.Kind);
        Assert.InRange(course.FirstMove!.Value, 29, 33);
        Assert.InRange(Math.Abs(course.Step!.Value - 4), 0, 3 * course.StepUncertainty);
        Assert.Null(course.Slope);
        Assert.True(course.Probability < 1e-6);
    }

    [Fact]
    public void Of_SteadyCreep_IsADriftOfItsSlope()
    {
        RunCourse course = Of(Course(2, 60, i => 0.1 * i));

        Assert.Equal(CourseKind.Drift, course.Kind);
        Assert.InRange(Math.Abs(course.Slope!.Value - 0.1), 0, 3 * course.SlopeUncertainty);
        Assert.Null(course.Step);
    }

    [Fact]
    public void Of_AwayForSixMoves_IsAnExcursion()
    {
        RunCourse course = Of(Course(3, 60, i => i is >= 40 and < 46 ? 5 : 0));

        Assert.Equal(CourseKind.Excursion, course.Kind);
        Assert.Equal(41, course.FirstMove);
        Assert.InRange(course.LastMove!.Value, 44, 50);
        Assert.InRange(Math.Abs(course.Step!.Value - 5), 0, 3 * course.StepUncertainty);
    }

    [Fact]
    public void Of_Scatter_IsALevelThatSaysWhatItWouldHaveShown()
    {
        RunCourse course = Of(Course(4, 60, _ => 0));

        Assert.Equal(CourseKind.Level, course.Kind);
        Assert.Equal(0, course.Step);
        Assert.InRange(course.StepUncertainty, 0.3, 1);
        Assert.InRange(Math.Abs(course.Slope!.Value), 0, 4 * course.SlopeUncertainty);
    }

    // Each of three tests at 1 %: a course that keeps its level is called one in at least 96 % of runs. Where each value is
    // half made of the one before, the guard against dependence keeps it to 91 %.
    [Theory]
    [InlineData(20, 0, 40)]
    [InlineData(60, 0, 40)]
    [InlineData(60, 0.5, 100)]
    public void Of_ManyLevels_AreSeldomTakenForMore(int n, double memory, int most)
    {
        int wrong = 0;
        for (int seed = 0; seed < 1000; seed++)
        {
            (RunCourse? course, _) = RunCourse.Of(Course(seed, n, _ => 0, memory), Resolution);
            wrong += course is { Kind: not CourseKind.Level } ? 1 : 0;
        }

        Assert.InRange(wrong, 0, most);
    }

    // A step of what a level says it would have shown with an even chance is shown at least as often as not.
    [Fact]
    public void Of_StepsOfTheStatedSize_AreShownMoreOftenThanNot()
    {
        double size = 2 * Of(Course(4, 60, _ => 0)).StepUncertainty;
        int shown = 0;
        for (int seed = 0; seed < 300; seed++)
        {
            (RunCourse? course, _) = RunCourse.Of(Course(seed, 60, i => i < 30 ? 0 : size), Resolution);
            shown += course is { Kind: not CourseKind.Level } ? 1 : 0;
        }

        Assert.InRange(shown, 150, 290);
    }

    [Fact]
    public void Of_FewValues_SaysHowManyAreNeeded()
    {
        (RunCourse? course, string? because) = RunCourse.Of(Course(5, 15, _ => 0), Resolution);

        Assert.Null(course);
        Assert.Equal("15 moves can be compared; at least 16 are needed", because);
    }

    [Fact]
    public void Of_EqualValues_SaysThereIsNoScatter()
    {
        (RunCourse? course, string? because) = RunCourse.Of([.. Enumerable.Range(1, 40).Select(i => new CoursePoint("a", i, 3))], Resolution);

        Assert.Null(course);
        Assert.Contains("all values are equal", because, StringComparison.Ordinal);
    }

    // Ports have levels of their own; what is added to one of them is no course.
    [Fact]
    public void Of_ConstantAddedToOnePort_IsTheSame() =>
        Gen.Select(Gen.Int[0, 1000], Gen.Double[-50, 50], Gen.Double[0, 5]).Sample((seed, offset, step) =>
        {
            List<CoursePoint> points = Course(seed, 40, i => i < 20 ? 0 : step);
            (RunCourse? before, string? because) = RunCourse.Of(points, Resolution);
            (RunCourse? after, string? becauseAfter) = RunCourse.Of(points.ConvertAll(p => p.Group == "port 2" ? p with { Value = p.Value + offset } : p), Resolution);
            Assert.Equal(because, becauseAfter);
            if (before is null || after is null)
            {
                return;
            }

            Assert.Equal(before.Kind, after.Kind);
            Assert.Equal(before.FirstMove, after.FirstMove);
            Assert.Equal(before.Step ?? 0, after.Step ?? 0, 1e-6);
            Assert.Equal(before.Slope ?? 0, after.Slope ?? 0, 1e-6);
        });

    [Fact]
    public void Of_AnyValues_GivesFiniteNumbersOrAReason() =>
        Gen.Select(Gen.Int[-2, 2].Array[0, 60], Gen.Int[1, 5]).Sample((values, groups) =>
        {
            (RunCourse? course, string? because) = RunCourse.Of([.. values.Select((v, i) => new CoursePoint($"{i % groups}", i, v))], Resolution);
            Assert.True(course is null ^ because is null);
            if (course is not null)
            {
                Assert.True(double.IsFinite(course.Step ?? 0) && double.IsFinite(course.Slope ?? 0));
                Assert.True(double.IsFinite(course.StepUncertainty) && double.IsFinite(course.SlopeUncertainty));
                Assert.InRange(course.Probability, 0, 1);
            }
        });

    // Readings so coarse that most tie: the interval of the slope has no width, its uncertainty is that of the resolution.
    [Fact]
    public void Of_MostValuesTied_SlopeIsKnownToTheResolution()
    {
        RunCourse course = Of([.. Enumerable.Range(1, 40).Select(i => new CoursePoint("a", i, i % 10 == 0 ? 1 : 0))]);

        Assert.Equal(0, course.Slope);
        Assert.True(course.SlopeUncertainty > 0);
    }
}
