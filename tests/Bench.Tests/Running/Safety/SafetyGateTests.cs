using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Safety;
using Bench.Simulation.Time;
using CsCheck;

namespace Bench.Tests.Running.Safety;

// Each test tries to break one of the safety rules S1-S9 of docs/design.md, section 7.
public class SafetyGateTests : IGateRecord
{
    private static readonly TimeSpan Short = TimeSpan.FromSeconds(1);
    private static readonly SafetyLimits Limits = new()
    {
        OverCurrentA = 2.6,
        DeadTimeMs = 60,
        NoMotionMs = 400,
        FeedbackLostMs = 120,
        MostOnMs = 9000,
        MostDuty = 0.5,
        DutyWindowS = 60,
    };

    private readonly VirtualTime _time = new(DateTimeOffset.UnixEpoch);
    private readonly FakeDrive _drive = new();
    private readonly FakeWatchdog _watchdog = new();
    private IReadOnlyList<IWatchdog> _watchdogs = [];
    private readonly List<(RunEventKind Kind, string Text, DriveState Then)> _events = [];

    [Fact]
    public void SwitchOn_NothingConfirmed_IsRefused() => Try(async gate =>
        {
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.Equal("the safe state has not been read back", e.Message);
            Assert.Empty(_drive.Calls);
        });

    [Fact]
    public void SwitchOn_SafeStateReadButCautionsNotConfirmed_IsRefused() => Try(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.Equal("cautions and wiring have not been confirmed for this unit", e.Message);
            Assert.DoesNotContain("on", _drive.Calls);
        });

    [Fact]
    public void SwitchOn_ConfirmedButSafeStateNeverRead_IsRefused() => Try(async gate =>
        {
            gate.Confirm("GH-1");
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.Empty(_drive.Calls);
        });

    [Fact]
    public void SwitchOn_Armed_EnergisesAndIsInTheRecordBeforeAndAfter() => TryArmed(async gate =>
        {
            _events.Clear();
            await On(gate, DriveDirection.Up);
            Assert.Equal(DriveState.Up, _drive.State);
            Assert.Equal(
                [(RunEventKind.OutputCommand, "drive up: on", DriveState.Off), (RunEventKind.OutputResult, "drive up: acknowledged", DriveState.Up)],
                _events);
        });

    [Fact]
    public void SwitchOff_Energised_IsReadBackAndInTheRecord() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            _events.Clear();
            await gate.SwitchOffAsync();
            Assert.True(gate.ConfirmedOff);
            Assert.Equal(GateState.Armed, gate.State);
            Assert.Equal(["drive: off", "drive: off, read back"], _events.Select(e => e.Text));
            Assert.Equal(["off", "read"], _drive.Calls[^2..]);
        });

    [Fact]
    public void SwitchOn_AlreadyOn_IsRefused() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Down));
            Assert.Equal("the drive is on already", e.Message);
            Assert.Equal(DriveState.Up, _drive.State);
        });

    [Fact]
    public void SwitchOn_OtherDirectionAtOnce_WaitsTheDeadTime() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            await gate.SwitchOffAsync();
            TimeSpan off = _time.Elapsed;
            await On(gate, DriveDirection.Down);
            Assert.Equal(DriveState.Down, _drive.State);
            Assert.True(_time.Elapsed - off >= TimeSpan.FromMilliseconds(Limits.DeadTimeMs));
        });

    [Fact]
    public void SwitchOn_FallingCountsOnSingleDrive_IsRefused() => TryArmed(
        async gate => Assert.Equal(
            "this family turns towards rising counts only",
            (await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Down))).Message),
        DriveKind.Single);

    [Fact]
    public void SwitchOn_ReplyLostButBoardSwitched_GoesOnWithoutASecondCommand() => TryArmed(async gate =>
        {
            _drive.After = call => { if (call == "on") { throw FakeDrive.Silence; } };
            await On(gate, DriveDirection.Up);
            Assert.Equal(GateState.Energised, gate.State);
            Assert.Single(_drive.Calls, c => c == "on");
        });

    [Fact]
    public void SwitchOn_ReplyLostAndBoardDidNotSwitch_IsOffAndSaysSo() => TryArmed(async gate =>
        {
            _drive.After = call => { if (call == "on") { _drive.Drop(); throw FakeDrive.Silence; } };
            await Assert.ThrowsAsync<DriveNotSwitchedException>(() => On(gate, DriveDirection.Up));
            Assert.True(gate.ConfirmedOff);
            Assert.Single(_drive.Calls, c => c == "on");
        });

    [Fact]
    public void SwitchOff_BoardSilentForAWhile_IsRepeatedUntilConfirmed() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            int silences = 7;
            _drive.After = _ => { if (silences-- > 0) { throw FakeDrive.Silence; } };
            await gate.SwitchOffAsync();
            Assert.True(gate.ConfirmedOff);
        });

    [Fact]
    public void SwitchOff_RelaySticks_TripsForGoodAndSaysWhatToDo() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            _drive.Sticks = true;
            OutputNotConfirmedException e = await Assert.ThrowsAsync<OutputNotConfirmedException>(async () => await gate.SwitchOffAsync());
            Assert.Equal("the drive can't be confirmed off (the board reads back up): cut the supply with the emergency stop, then check relay and link", e.Message);
            Assert.Equal(GateState.Tripped, gate.State);
            Assert.False(gate.ConfirmedOff);

            // Coming back does not arm it again.
            _drive.Sticks = false;
            await gate.SwitchOffAsync();
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
        });

    [Fact]
    public void Guard_NobodyWatchesTheMove_SwitchesOffAndTrips() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            await Task.Delay(TimeSpan.FromMilliseconds(Limits.MostOnMs) + SafetyGate.GuardGrace + Short, _time);
            Assert.Equal(DriveState.Off, _drive.State);
            Assert.Equal(GateState.Tripped, gate.State);
            Assert.Equal("the drive was on longer than 9000 ms", gate.TrippedBecause);
        });

    [Fact]
    public void SwitchOn_RecordCanNotBeWritten_EnergisesNothing() => TryArmed(async gate =>
        {
            _refuse = true;
            await Assert.ThrowsAsync<JournalException>(() => On(gate, DriveDirection.Up));
            Assert.DoesNotContain("on", _drive.Calls);
        });

    [Fact]
    public void SwitchOff_DiskIsSlow_HasCommandedOffBeforeTheRecordIsWritten() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            _events.Clear();
            await gate.SwitchOffAsync();
            Assert.Equal((RunEventKind.OutputCommand, "drive: off", DriveState.Off), _events[0]);
        });

    [Fact]
    public void SwitchOff_RecordCanNotBeWritten_StillSwitchesOff() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            _refuse = true;
            await gate.SwitchOffAsync();
            Assert.Equal(DriveState.Off, _drive.State);
            Assert.Equal(GateState.Tripped, gate.State);
        });

    [Fact]
    public void SwitchOn_LongerThanTheProfileAllows_IsRefused() => TryArmed(async gate =>
        await Assert.ThrowsAsync<GateRefusedException>(async () => await gate.SwitchOnAsync(DriveDirection.Up, TimeSpan.FromSeconds(9.1), TestContext.Current.CancellationToken)));

    [Fact]
    public void SwitchOn_DutyUsedUp_IsRefusedUntilTheMotorHasRested() => TryArmed(async gate =>
        {
            for (int i = 0; i < 5; i++)
            {
                await gate.SwitchOnAsync(DriveDirection.Up, TimeSpan.FromSeconds(6), default);
                await Task.Delay(TimeSpan.FromSeconds(6), _time);
                await gate.SwitchOffAsync();
            }

            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            await Task.Delay(gate.RestBefore(Short) + TimeSpan.FromMilliseconds(1), _time);
            await On(gate, DriveDirection.Up);
            Assert.Equal(DriveState.Up, _drive.State);
        });

    [Fact]
    public void ConfirmSafeState_BoardHasAWatchdog_ArmsItReadsItBackAndSaysSo() => TryWithWatchdog(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            Assert.Equal(["arm", "read"], _watchdog.Calls);
            Assert.Contains("watchdog of io: armed with 1000 ms, read back", _events.Select(e => e.Text));
        });

    [Fact]
    public void ConfirmSafeState_FirstFramesOfArmingLost_ArmsInTheEnd() => TryWithWatchdog(async gate =>
        {
            _watchdog.Silences = 2;
            await gate.ConfirmSafeStateAsync();
            Assert.True(_watchdog.Armed);
        });

    [Fact]
    public void ConfirmSafeState_WatchdogDoesNotTakeItsTime_NeverArmsTheGate() => TryWithWatchdog(async gate =>
        {
            _watchdog.Deaf = true;
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(async () => await gate.ConfirmSafeStateAsync());
            Assert.Equal("the watchdog of io can't be armed (its register does not hold what was written)", e.Message);
            gate.Confirm("GH-1");
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.DoesNotContain("on", _drive.Calls);
        });

    [Fact]
    public void SwitchOn_BoardRestartedSince_EnergisesNothingAndTrips() => TryWithWatchdog(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            _watchdog.Armed = false;
            BoardChangedException e = await Assert.ThrowsAsync<BoardChangedException>(() => On(gate, DriveDirection.Up));
            Assert.StartsWith("the watchdog of io is no longer armed: the board has restarted", e.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("on", _drive.Calls);
            Assert.Equal(GateState.Tripped, gate.State);
            Assert.False(gate.ConfirmedOff);
        });

    [Fact]
    public void SwitchOn_WatchdogCanNotBeRead_EnergisesNothing() => TryWithWatchdog(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            _watchdog.Silences = 1;
            await Assert.ThrowsAsync<DriveNotSwitchedException>(() => On(gate, DriveDirection.Up));
            Assert.DoesNotContain("on", _drive.Calls);
        });

    [Fact]
    public void CheckOutputs_AsCommanded_IsTrue() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Down);
            Assert.True(await gate.CheckOutputsAsync(CancellationToken.None));
        });

    [Fact]
    public void CheckOutputs_BoardDroppedThem_Trips() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            _drive.Drop();
            BoardChangedException e = await Assert.ThrowsAsync<BoardChangedException>(async () => await gate.CheckOutputsAsync(CancellationToken.None));
            Assert.StartsWith("the outputs read back off while up was commanded", e.Message, StringComparison.Ordinal);
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
        });

    [Fact]
    public void Permit_Expired_IsRefusedByTheDrive()
    {
        DrivePermit permit = new(_time, DriveDirection.Up, TimeSpan.FromMilliseconds(100), Short);
        _time.Run(async () =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(100), _time);
            return 0;
        });
        Assert.Throws<PermitRefusedException>(permit.Take);
    }

    [Fact]
    public void Permit_UsedTwice_IsRefusedTheSecondTime()
    {
        DrivePermit permit = new(_time, DriveDirection.Up, TimeSpan.FromMilliseconds(100), Short);
        permit.Take();
        Assert.Throws<PermitRefusedException>(permit.Take);
    }

    // Whatever is asked for: leave is given only for a voltage that unit and bench both allow, armed and confirmed off; and nothing
    // is switched on before the voltage is known.
    [Fact]
    public void PermitSupply_AnyVoltage_IsWithinWhatUnitAndBenchAllow() => Gen.Select(
        Gen.Double[0, 60], Gen.Double[15, 24], Gen.Double[24, 33], Gen.Double[10, 24], Gen.Double[24, 40]).Sample((asked, unitLow, unitHigh, benchLow, benchHigh) =>
        {
            SupplyRange allowed = new SupplyRange(unitLow, unitHigh).And(new SupplyRange(benchLow, benchHigh));
            bool may = asked >= unitLow && asked <= unitHigh && asked >= benchLow && asked <= benchHigh;
            new SafetyGateTests().Try(
                async gate =>
                {
                    Assert.Throws<GateRefusedException>(() => gate.PermitSupply(asked));
                    await gate.ConfirmSafeStateAsync();
                    gate.Confirm("GH-1");
                    if (!may)
                    {
                        Assert.Throws<GateRefusedException>(() => gate.PermitSupply(asked));
                        await On(gate, DriveDirection.Up);
                        return;
                    }

                    Assert.Equal(asked, gate.PermitSupply(asked).VoltageV);
                    await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
                    gate.SupplyIsKnown();
                    await On(gate, DriveDirection.Up);
                    Assert.Throws<GateRefusedException>(() => gate.PermitSupply(asked));
                },
                supply: allowed);
        }, iter: 200);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-24.0)]
    public void PermitSupply_NoVoltage_IsRefused(double volt) => Try(
        async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            Assert.Throws<GateRefusedException>(() => gate.PermitSupply(volt));
        },
        supply: new SupplyRange(20.4, 28.8));

    [Fact]
    public void PermitSupply_OffIsNotConfirmed_IsRefused() => Try(
        async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            gate.Contradict("a current flows");
            Assert.Throws<GateRefusedException>(() => gate.PermitSupply(24));
        },
        supply: new SupplyRange(20.4, 28.8));

    // What is asked for at an end of the range lies inside by the tolerance that a read-back is allowed.
    [Fact]
    public void SupplyRange_SettingsAtItsEnds_StayInsideWhateverTheToleranceDoes() => Gen.Select(Gen.Double[1, 60], Gen.Double[1.02, 3], Gen.Double[-1, 1]).Sample((low, ratio, off) =>
        {
            SupplyRange range = new(low, low * ratio);
            double share = 1 + (off * SupplyRange.SettingTolerance);
            Assert.True(range.LowestSettingV * share >= low * (1 - 1e-12));
            Assert.True(range.HighestSettingV * share <= range.HighestV * (1 + 1e-12));
        });

    private enum Act { SafeState, Confirm, On, Off, Wait, LoseReply, Trip }

    // A model of ten lines: the gate may have energised only if safe state and confirmation came first, it is not
    // tripped and not on already; and off is always off.
    [Fact]
    public void Gate_AnyOrderOfEvents_FollowsItsModel() => Gen.Enum<Act>().Array[1, 40].Sample(acts =>
        {
            VirtualTime time = new(DateTimeOffset.UnixEpoch);
            FakeDrive drive = new();
            time.Run(async () =>
            {
                using SafetyGate gate = new(drive, [], DriveKind.Reversing, Limits, null, time, NSubstitute.Substitute.For<IGateRecord>());
                bool read = false, confirmed = false, on = false, tripped = false;
                foreach (Act act in acts)
                {
                    drive.After = null;
                    switch (act)
                    {
                        case Act.SafeState: await gate.ConfirmSafeStateAsync(); read = true; on = false; break;
                        case Act.Confirm: gate.Confirm("GH-1"); confirmed = true; break;
                        case Act.Off: await gate.SwitchOffAsync(); on = false; break;
                        case Act.Wait: await Task.Delay(Short, time); break;
                        case Act.Trip: gate.Trip("tried"); tripped = true; break;
                        default:
                            drive.After = act == Act.LoseReply ? call => { if (call == "on") { throw FakeDrive.Silence; } } : null;
                            bool may = read && confirmed && !on && !tripped && gate.RestBefore(Short) == TimeSpan.Zero;
                            bool did = true;
                            try { await gate.SwitchOnAsync(DriveDirection.Up, Short, default); }
                            catch (GateRefusedException) { did = false; }
                            Assert.Equal(may, did);
                            on |= did;
                            break;
                    }

                    Assert.Equal(on ? DriveState.Up : DriveState.Off, drive.State);
                }

                return 0;
            });
        }, iter: 300);

    private bool _refuse;

    private static Task On(SafetyGate gate, DriveDirection direction) => gate.SwitchOnAsync(direction, Short, default).AsTask();

    void IGateRecord.WriteSoon(RunEventKind kind, string text) => _events.Add((kind, text, _drive.State));

    void IGateRecord.Write(RunEventKind kind, string text)
    {
        if (_refuse)
        {
            throw new JournalException("disk full", new IOException());
        }

        _events.Add((kind, text, _drive.State));
    }

    private void Try(Func<SafetyGate, Task> test, DriveKind kind = DriveKind.Reversing, SupplyRange? supply = null) => _time.Run(async () =>
        {
            using SafetyGate gate = new(_drive, _watchdogs, kind, Limits, null, _time, this, supply);
            await test(gate);
            return 0;
        });

    private void TryWithWatchdog(Func<SafetyGate, Task> test)
    {
        _watchdogs = [_watchdog];
        Try(test);
    }

    private void TryArmed(Func<SafetyGate, Task> test, DriveKind kind = DriveKind.Reversing) => Try(
        async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            await test(gate);
        },
        kind);
}
