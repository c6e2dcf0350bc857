using Bench.Model.Instruments;
using Bench.Model.Profiles;
using Bench.Model.Runs;
using Bench.Running.Safety;
using Bench.Simulation.Time;
using CsCheck;

namespace Bench.Tests.Running.Safety;

// Each test tries to break one of the safety rules S1-S9 of docs/design.md, section 7.
public class SafetyGateTests : GateTrial
{
    [Fact]
    public void SwitchOn_NothingConfirmed_IsRefused() => Try(async gate =>
        {
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.Equal("the safe state has not been read back", e.Message);
            Assert.Empty(Drive.Calls);
        });

    [Fact]
    public void SwitchOn_SafeStateReadButCautionsNotConfirmed_IsRefused() => Try(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.Equal("cautions and wiring have not been confirmed for this unit", e.Message);
            Assert.DoesNotContain("on", Drive.Calls);
        });

    [Fact]
    public void SwitchOn_ConfirmedButSafeStateNeverRead_IsRefused() => Try(async gate =>
        {
            gate.Confirm("GH-1");
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.Empty(Drive.Calls);
        });

    [Fact]
    public void SwitchOn_Armed_EnergisesAndIsInTheRecordBeforeAndAfter() => TryArmed(async gate =>
        {
            Events.Clear();
            await On(gate, DriveDirection.Up);
            Assert.Equal(DriveState.Up, Drive.State);
            Assert.Equal(
                [(RunEventKind.OutputCommand, "drive up: on", DriveState.Off), (RunEventKind.OutputResult, "drive up: acknowledged", DriveState.Up)],
                Events);
        });

    [Fact]
    public void SwitchOff_Energised_IsReadBackAndInTheRecord() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            Events.Clear();
            await gate.SwitchOffAsync();
            Assert.True(gate.ConfirmedOff);
            Assert.Equal(GateState.Armed, gate.State);
            Assert.Equal(["drive: off", "drive: off, read back"], Events.Select(e => e.Text));
            Assert.Equal(["off", "read"], Drive.Calls[^2..]);
        });

    [Fact]
    public void SwitchOn_AlreadyOn_IsRefused() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Down));
            Assert.Equal("the drive is on already", e.Message);
            Assert.Equal(DriveState.Up, Drive.State);
        });

    [Fact]
    public void SwitchOn_OtherDirectionAtOnce_WaitsTheDeadTime() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            await gate.SwitchOffAsync();
            TimeSpan off = Time.Elapsed;
            await On(gate, DriveDirection.Down);
            Assert.Equal(DriveState.Down, Drive.State);
            Assert.True(Time.Elapsed - off >= TimeSpan.FromMilliseconds(Limits.DeadTimeMs));
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
            Drive.After = call => { if (call == "on") { throw FakeDrive.Silence; } };
            await On(gate, DriveDirection.Up);
            Assert.Equal(GateState.Energised, gate.State);
            Assert.Single(Drive.Calls, c => c == "on");
        });

    [Fact]
    public void SwitchOn_ReplyLostAndBoardDidNotSwitch_IsOffAndSaysSo() => TryArmed(async gate =>
        {
            Drive.After = call => { if (call == "on") { Drive.Drop(); throw FakeDrive.Silence; } };
            await Assert.ThrowsAsync<DriveNotSwitchedException>(() => On(gate, DriveDirection.Up));
            Assert.True(gate.ConfirmedOff);
            Assert.Single(Drive.Calls, c => c == "on");
        });

    // A silent device of another position holds the line for its timeout. It ended the run without a record.
    [Fact]
    public void SwitchOn_LineBusyUntilThePermitExpired_IsOffAndMayBeTriedAgain() => TryArmed(async gate =>
        {
            Drive.InLine = () => Task.Delay(SafetyGate.PermitLifetime, Time);
            DriveNotSwitchedException e = await Assert.ThrowsAsync<DriveNotSwitchedException>(() => On(gate, DriveDirection.Up));
            Assert.Equal(
                "nothing was switched on: the permit to energise has expired. The line to the board was busy for longer than 100 ms; see which device on it does not answer",
                e.Message);
            Assert.True(gate.ConfirmedOff);
            Assert.DoesNotContain("on", Drive.Calls);

            Drive.InLine = null;
            await On(gate, DriveDirection.Up);
            Assert.Equal(DriveState.Up, Drive.State);
        });

    [Fact]
    public void SwitchOff_BoardSilentForAWhile_IsRepeatedUntilConfirmed() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            int silences = 7;
            Drive.After = _ => { if (silences-- > 0) { throw FakeDrive.Silence; } };
            await gate.SwitchOffAsync();
            Assert.True(gate.ConfirmedOff);
        });

    [Fact]
    public void SwitchOff_RelaySticks_TripsForGoodAndSaysWhatToDo() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            Drive.Sticks = true;
            OutputNotConfirmedException e = await Assert.ThrowsAsync<OutputNotConfirmedException>(async () => await gate.SwitchOffAsync());
            Assert.Equal("the drive can't be confirmed off (the board reads back up): cut the supply with the emergency stop, then check relay and link", e.Message);
            Assert.Equal(GateState.Tripped, gate.State);
            Assert.False(gate.ConfirmedOff);

            // Coming back does not arm it again.
            Drive.Sticks = false;
            await gate.SwitchOffAsync();
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
        });

    [Fact]
    public void Guard_NobodyWatchesTheMove_SwitchesOffAndTrips() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            await Task.Delay(TimeSpan.FromMilliseconds(Limits.MostOnMs) + SafetyGate.GuardGrace + Short, Time);
            Assert.Equal(DriveState.Off, Drive.State);
            Assert.Equal(GateState.Tripped, gate.State);
            Assert.Equal("the drive was on longer than 9000 ms", gate.TrippedBecause);
        });

    [Fact]
    public void SwitchOn_RecordCanNotBeWritten_EnergisesNothing() => TryArmed(async gate =>
        {
            RecordIsFull = true;
            await Assert.ThrowsAsync<JournalException>(() => On(gate, DriveDirection.Up));
            Assert.DoesNotContain("on", Drive.Calls);
        });

    [Fact]
    public void SwitchOff_DiskIsSlow_HasCommandedOffBeforeTheRecordIsWritten() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            Events.Clear();
            await gate.SwitchOffAsync();
            Assert.Equal((RunEventKind.OutputCommand, "drive: off", DriveState.Off), Events[0]);
        });

    [Fact]
    public void SwitchOff_RecordCanNotBeWritten_StillSwitchesOff() => TryArmed(async gate =>
        {
            await On(gate, DriveDirection.Up);
            RecordIsFull = true;
            await gate.SwitchOffAsync();
            Assert.Equal(DriveState.Off, Drive.State);
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
                await Task.Delay(TimeSpan.FromSeconds(6), Time);
                await gate.SwitchOffAsync();
            }

            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            await Task.Delay(gate.RestBefore(Short) + TimeSpan.FromMilliseconds(1), Time);
            await On(gate, DriveDirection.Up);
            Assert.Equal(DriveState.Up, Drive.State);
        });

    [Fact]
    public void ConfirmSafeState_BoardHasAWatchdog_ArmsItReadsItBackAndSaysSo() => TryWithWatchdog(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            Assert.Equal(["arm", "read"], Watchdog.Calls);
            Assert.Contains("watchdog of io: armed with 1000 ms, read back", Events.Select(e => e.Text));
        });

    [Fact]
    public void ConfirmSafeState_FirstFramesOfArmingLost_ArmsInTheEnd() => TryWithWatchdog(async gate =>
        {
            Watchdog.Silences = 2;
            await gate.ConfirmSafeStateAsync();
            Assert.True(Watchdog.Armed);
        });

    [Fact]
    public void ConfirmSafeState_WatchdogDoesNotTakeItsTime_NeverArmsTheGate() => TryWithWatchdog(async gate =>
        {
            Watchdog.Deaf = true;
            GateRefusedException e = await Assert.ThrowsAsync<GateRefusedException>(async () => await gate.ConfirmSafeStateAsync());
            Assert.Equal("the watchdog of io can't be armed (its register does not hold what was written)", e.Message);
            gate.Confirm("GH-1");
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
            Assert.DoesNotContain("on", Drive.Calls);
        });

    [Fact]
    public void SwitchOn_BoardRestartedSince_EnergisesNothingAndTrips() => TryWithWatchdog(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            Watchdog.Armed = false;
            BoardChangedException e = await Assert.ThrowsAsync<BoardChangedException>(() => On(gate, DriveDirection.Up));
            Assert.StartsWith("the watchdog of io is no longer armed: the board has restarted", e.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("on", Drive.Calls);
            Assert.Equal(GateState.Tripped, gate.State);
            Assert.False(gate.ConfirmedOff);
        });

    [Fact]
    public void SwitchOn_WatchdogCanNotBeRead_EnergisesNothing() => TryWithWatchdog(async gate =>
        {
            await gate.ConfirmSafeStateAsync();
            gate.Confirm("GH-1");
            Watchdog.Silences = 1;
            await Assert.ThrowsAsync<DriveNotSwitchedException>(() => On(gate, DriveDirection.Up));
            Assert.DoesNotContain("on", Drive.Calls);
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
            Drive.Drop();
            BoardChangedException e = await Assert.ThrowsAsync<BoardChangedException>(async () => await gate.CheckOutputsAsync(CancellationToken.None));
            Assert.StartsWith("the outputs read back off while up was commanded", e.Message, StringComparison.Ordinal);
            await Assert.ThrowsAsync<GateRefusedException>(() => On(gate, DriveDirection.Up));
        });

    [Fact]
    public void Permit_Expired_IsRefusedByTheDrive()
    {
        DrivePermit permit = new(Time, DriveDirection.Up, TimeSpan.FromMilliseconds(100), Short);
        Time.Run(async () =>
        {
            await Task.Delay(TimeSpan.FromMilliseconds(100), Time);
            return 0;
        });
        Assert.Throws<PermitRefusedException>(permit.Take);
    }

    [Fact]
    public void Permit_UsedTwice_IsRefusedTheSecondTime()
    {
        DrivePermit permit = new(Time, DriveDirection.Up, TimeSpan.FromMilliseconds(100), Short);
        permit.Take();
        Assert.Throws<PermitRefusedException>(permit.Take);
    }

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
}
