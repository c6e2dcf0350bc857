namespace Bench.Tests.Campaigns;

/// <summary>What the wire campaign's listener must see: a program that breaks one promise of docs/hazards.md on purpose, and one that breaks none.</summary>
public class SupplyAndHandRulesTests
{
    [Fact]
    public void Program_ThatKeepsEveryPromise_BreaksNoRule() => Assert.Empty(ScriptedProgram.Broken(ScriptedProgram.Sound));

    [Theory]
    [InlineData("V1", "SOUR:VOLT 20.5;", "SOUR:VOLT 20.3;")] // below the profile's 20.4 V
    [InlineData("V1", "SOUR:VOLT 20.5;", "SOUR:VOLT 28.75;")] // above the bench file's 28.7 V
    [InlineData("V1", "SOUR:VOLT 20.5;", "SOUR:VOLT 2.875E+01;")]
    [InlineData("V2", "off; read; record supply: 20.50 V; SOUR:VOLT 20.5;", "record supply: 20.50 V; SOUR:VOLT 20.5; off; read;")]
    [InlineData("V2", "read; record supply: 20.50 V;", "record supply: 20.50 V;")]
    [InlineData("V3", "record supply: 20.50 V; ", "")]
    [InlineData("V3", "record supply: 20.50 V;", "record supply: 20.50 V; wait 0.11;")]
    [InlineData("V3", "SOUR:VOLT 20.5;", "SOUR:VOLT 20.5; SOUR:VOLT 20.5;")]
    [InlineData("V4", "SOUR:VOLT 20.5; SOUR:VOLT?;", "SOUR:VOLT 20.5;")]
    [InlineData("V4", "SOUR:VOLT 20.5; SOUR:VOLT?; MEAS:VOLT?;", "SOUR:VOLT 20.5; SOUR:VOLT?;")]
    [InlineData("V4", "MEAS:VOLT?; up; wait 0.2; off; read; record supply: 20.50 V;", "up; wait 0.2; off; read; record supply: 20.50 V;")]
    [InlineData("V5", "; record supply: off; OUTP OFF; OUTP?", "")]
    [InlineData("V5", "record supply: voltage of the bench file; SOUR:VOLT 24; SOUR:VOLT?; ", "")]
    [InlineData("V6", "confirmed; record supply: on; *RST; SOUR:VOLT 24; SOUR:VOLT?; OUTP ON;", "record supply: on; *RST; SOUR:VOLT 24; SOUR:VOLT?; OUTP ON; confirmed;")]
    [InlineData("V6", "SOUR:VOLT 24; SOUR:VOLT?; OUTP ON;", "OUTP ON; SOUR:VOLT 24; SOUR:VOLT?;")]
    [InlineData("S9", "record supply: off; ", "")]
    [InlineData("S9", "record supply: voltage of the bench file; ", "")]
    [InlineData("H1", "called back;", "up; off; read; called back;")]
    [InlineData("H1", "ask ApproachConnector; yes;", "ask ApproachConnector; up; off; read; yes;")]
    [InlineData("H1", "called back;", "record supply: 20.50 V; SOUR:VOLT 20.5; SOUR:VOLT?; record supply: voltage of the bench file; SOUR:VOLT 24; SOUR:VOLT?; called back;")]
    [InlineData("H1", "called back;", "OUTP ON; called back;")]
    [InlineData("H1", "ask LeaveConnector; yes; read; up;", "read; up;")]
    [InlineData("H2", "ask ApproachConnector;", "up; off; ask ApproachConnector;")]
    [InlineData("H3", "wait 0.2; read; called back;", "wait 0.8; called back;")]
    [InlineData("H3", "yes; read; up;", "yes; up;")]
    [InlineData("H4", "read; called back;", "read; pressed; wait 0.4; read; called back;")]
    [InlineData("H4", "; yes; read; up; wait 0.2; off; read", "")]
    [InlineData("S3", "confirmed; record supply: on;", "record supply: on;")]
    [InlineData("S2", "up; wait 0.2; off; read; record supply: off;", "up; wait 0.2; off; read; both; off; read; record supply: off;")]
    public void Program_ThatBreaksOnePromise_IsSeen(string rule, string part, string by)
    {
        Assert.Contains(part, ScriptedProgram.Sound, StringComparison.Ordinal);
        Assert.Contains(rule, ScriptedProgram.Broken(ScriptedProgram.Sound.Replace(part, by, StringComparison.Ordinal)));
    }
}
