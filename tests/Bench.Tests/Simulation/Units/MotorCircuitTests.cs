using System.Globalization;
using Bench.Simulation.Units;
using Bench.Tests.Model;

namespace Bench.Tests.Simulation.Units;

public class MotorCircuitTests
{
    // Control Tutorials for MATLAB and Simulink, "DC Motor Speed": J 0.01, b 0.1, K 0.01, R 1, L 0.5.
    private static readonly MotorDesign Tutorial = new()
    {
        WindingOhm = 1.0,
        InductanceH = 0.5,
        TorqueConstantNmPerA = 0.01,
        InertiaKgM2 = 0.01,
        DryFrictionNm = 0.0,
        ViscousNmS = 0.1,
    };

    // A consistent 24 V motor: 12 ohm, 0.045 N·m/A, 0.05 A without load.
    private static readonly MotorDesign Motor24 = new()
    {
        WindingOhm = 12.0,
        InductanceH = 0.006,
        TorqueConstantNmPerA = 0.045,
        InertiaKgM2 = 6e-6,
        DryFrictionNm = 0.00225,
        ViscousNmS = 0.0,
    };

    // Steady values of the tutorial's motor at 1 V: K/(bR + K²) and b/(bR + K²), exact.
    [Fact]
    public void Step_TutorialMotorAtOneVolt_EndsAtTheTutorialsSpeed()
    {
        MotorCircuit motor = Run(Tutorial, 1.0, 0.0, 0.001, 20.0);
        Assert.Equal(0.09990009990009989, motor.SpeedRadPerS, 1e-9);
        Assert.Equal(0.9990009990009989, motor.CurrentA, 1e-9);
    }

    // Closed form of the step response from the exact poles -2.0025007817386626 and -9.997499218261337.
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    [InlineData(1.0)]
    [InlineData(2.0)]
    public void Step_TutorialMotorAtOneVolt_FollowsTheClosedForm(double timeS) =>
        Assert.Equal(TutorialSpeed(timeS), Run(Tutorial, 1.0, 0.0, 1e-4, timeS).SpeedRadPerS, 1e-8);

    [Fact]
    public void Step_HalfTheStep_QuartersTheError()
    {
        double[] errors = [.. new[] { 0.04, 0.02, 0.01, 0.005 }
            .Select(WorstError)];
        for (int i = 1; i < errors.Length; i++)
        {
            double order = Math.Log2(errors[i - 1] / errors[i]);
            Assert.InRange(order, 1.9, 2.1);
        }
    }

    // fixtures/simulation/dc-motor-24v.csv: the textbook's linear speed-torque line.
    [Fact]
    public void Step_MotorUnderLoad_EndsOnTheSpeedTorqueLine()
    {
        string[] rows = [.. RepositoryFiles.Text("fixtures/simulation/dc-motor-24v.csv")
            .Split('\n', StringSplitOptions.RemoveEmptyEntries).Skip(1)];
        Assert.Equal(5, rows.Length);
        foreach (string row in rows)
        {
            double[] v = [.. row.Split(',').Select(t => double.Parse(t, CultureInfo.InvariantCulture))];
            MotorCircuit motor = Run(Motor24, v[0], Motor24.DryFrictionNm + v[1], 1e-4, 2.0);
            Assert.Equal(v[2], motor.SpeedRadPerS, 1e-6);
            Assert.Equal(v[3], motor.CurrentA, 1e-7);
        }
    }

    // Stall current is V / R.
    [Theory]
    [InlineData(24.0, 2.0)]
    [InlineData(20.4, 1.7)]
    [InlineData(28.8, 2.4)]
    public void Step_MotorHeldStill_DrawsVoltageOverResistanceAndDoesNotTurn(double volt, double ampere)
    {
        MotorCircuit motor = Run(Motor24, volt, 1.0, 1e-4, 0.1);
        Assert.Equal(ampere, motor.CurrentA, 1e-9);
        Assert.Equal(0.0, motor.SpeedRadPerS);
        Assert.True(motor.Steady);
    }

    // From the tutorial's speed w0 with the circuit open and a dry friction T: J dw/dt = -b w - T.
    [Fact]
    public void Step_OpenCircuit_CurrentEndsAtOnceAndTheRotorCoastsByFrictionAlone()
    {
        MotorCircuit motor = Run(Motor24, 24.0, 0.00225, 1e-4, 2.0);
        double angle = 0.0;
        for (int i = 0; i < 30_000; i++)
        {
            angle += motor.Step(24.0, double.PositiveInfinity, 0.00225);
            Assert.Equal(0.0, motor.CurrentA);
        }

        // Constant deceleration: w0² J / (2 T).
        Assert.Equal(520.0 * 520.0 * 6e-6 / (2.0 * 0.00225), angle, 0.01);
        Assert.Equal(0.0, motor.SpeedRadPerS);
    }

    [Fact]
    public void Step_UrgeBelowFriction_NeverCreeps()
    {
        MotorCircuit motor = new(Motor24, 1e-4);
        double turned = 0.0;
        for (int i = 0; i < 200_000; i++)
        {
            turned += Math.Abs(motor.Step(24.0, 12.0, 0.0901));
        }

        Assert.Equal(0.0, turned);
    }

    // First law: supplied = heat in the winding + friction + kinetic + magnetic energy, from rest through start,
    // load and braking.
    [Fact]
    public void Step_AnyDrive_EnergyIsNeitherMadeNorLost()
    {
        const double step = 1e-4;
        MotorCircuit motor = new(Motor24, step);
        double supplied = 0.0;
        double heat = 0.0;
        double friction = 0.0;
        for (int i = 0; i < 8000; i++)
        {
            double volt = i is < 3000 or > 5000 ? 24.0 : 0.0;
            double load = i % 2000 < 700 ? 0.012 : 0.006;
            double before = motor.CurrentA;
            double angle = motor.Step(volt, 12.25, load);
            double mean = (before + motor.CurrentA) / 2.0;
            supplied += volt * mean * step;
            heat += 12.25 * mean * mean * step;
            friction += load * Math.Abs(angle);
        }

        double kinetic = 0.5 * 6e-6 * motor.SpeedRadPerS * motor.SpeedRadPerS;
        double magnetic = 0.5 * 0.006 * motor.CurrentA * motor.CurrentA;

        // Exact but for the few steps in which the rotor stops or sticks.
        Assert.Equal(1.0, (heat + friction + kinetic + magnetic) / supplied, 1e-4);
        Assert.True(supplied > 1.0);
    }

    private static double WorstError(double stepS)
    {
        MotorCircuit motor = new(Tutorial, stepS);
        double worst = 0.0;
        for (int i = 1; i * stepS < 3.0; i++)
        {
            motor.Step(1.0, Tutorial.WindingOhm, 0.0);
            worst = Math.Max(worst, Math.Abs(motor.SpeedRadPerS - TutorialSpeed(i * stepS)));
        }

        return worst;
    }

    private static double TutorialSpeed(double t)
    {
        const double p1 = -2.0025007817386626;
        const double p2 = -9.997499218261337;
        const double gain = 0.01 / (0.01 * 0.5);
        return gain * ((1.0 / (p1 * p2)) + (Math.Exp(p1 * t) / (p1 * (p1 - p2))) + (Math.Exp(p2 * t) / (p2 * (p2 - p1))));
    }

    private static MotorCircuit Run(MotorDesign design, double volt, double dryNm, double stepS, double timeS)
    {
        MotorCircuit motor = new(design, stepS);
        for (int i = (int)Math.Round(timeS / stepS); i > 0; i--)
        {
            motor.Step(volt, design.WindingOhm, dryNm);
        }

        return motor;
    }
}
