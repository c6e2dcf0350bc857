using Bench.Analysis.Trends;
using Bench.Campaigns.Checks.Recordings;

namespace Bench.Tests.Analysis.Recordings;

// Numbers agree with NumPy's and the labels in Campaigns/ChecksTests; here is what the code makes of them.
public class RecordingsTests
{
    private static RunCourse Course(IReadOnlyList<CoursePoint> points, double resolution)
    {
        (RunCourse? course, string? because) = RunCourse.Of(points, resolution);
        return course ?? throw new InvalidOperationException(because);
    }

    // Labelled baseline and gear damage: their ends stay where they are, to a few counts in a hundred strokes.
    [Theory]
    [InlineData("Act_2")]
    [InlineData("Act_3")]
    public void Course_UnitThatKeepsItsEnds_HasNoStepOfSize(string unit)
    {
        RunCourse course = Course(ActuatorEnds.Of(unit), ActuatorEnds.Resolution);

        Assert.InRange(Math.Abs(100 * course.Slope ?? 0), 0, 6);
        Assert.InRange(Math.Abs(course.Step ?? 0), 0, 6);
    }

    // Labelled seal defect: it creeps by 21 counts a stroke.
    [Fact]
    public void Course_UnitWithSealDefect_Drifts()
    {
        RunCourse course = Course(ActuatorEnds.Of("Act_4"), ActuatorEnds.Resolution);

        Assert.Equal(CourseKind.Drift, course.Kind);
        Assert.InRange(course.Slope!.Value, -22.5, -19.5);
    }

    // Labelled baseline, but it loses counts in steps of hundreds and creeps in between. The two together look like a course
    // that wanders, which the code says it can't tell; what matters is that it is not called a level.
    [Fact]
    public void Course_UnitThatLosesCounts_IsNotCalledALevel() =>
        Assert.True(RunCourse.Of(ActuatorEnds.Of("Act_5"), ActuatorEnds.Resolution) is { Course: null or { Kind: not CourseKind.Level } });

    // The brake is put on once: a step, two blocks from the label at most.
    [Fact]
    public void Course_BrakeOn_IsAStepAtTheLabel()
    {
        ShaftEffort shaft = ShaftEffort.Of("428");
        RunCourse course = Course(shaft.Points, ShaftEffort.Resolution);

        Assert.Equal(CourseKind.Step, course.Kind);
        Assert.InRange(Math.Abs((course.FirstMove!.Value * ShaftEffort.Block) - shaft.Changes[0]), 0, 2 * ShaftEffort.Block);
    }

    // Unloaded at one speed throughout: effort wanders slowly, which the guard against dependence must not take for a change.
    [Fact]
    public void Course_NoBrake_IsNoStepAndNoDrift()
    {
        (RunCourse? course, _) = RunCourse.Of(ShaftEffort.Of("410").Points, ShaftEffort.Resolution);

        Assert.True(course is null or { Kind: CourseKind.Level });
    }

    [Fact]
    public void Features_EveryStroke_TurnsWithoutAJump() =>
        Assert.All(ActuatorStroke.All(), s => Assert.InRange(s.Features().JumpCounts!.Value, 0, 60));
}
