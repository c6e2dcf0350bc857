using Bench.Devices.Scpi;

namespace Bench.Tests.Devices.Scpi;

/// <summary>What a header stands for (SCPI-1999 volume 1, 6.2.1).</summary>
public class ScpiPatternTests
{
    // Accepted and refused headers of an independent parser's own tests:
    // scpi-parser, libscpi/test/test_scpi_utils.c, test_matchCommand, test_matchPattern.
    [Theory]
    [InlineData("A", "a", true)]
    [InlineData("Ab", "a", true)]
    [InlineData("Ab", "aB", true)]
    [InlineData("AB", "a", false)]
    [InlineData("Ab#", "aB", true)]
    [InlineData("Ab#", "aB10", true)]
    [InlineData("Ab#", "a10", true)]
    [InlineData("ABcc:AACddd", "ab:aac", true)]
    [InlineData("ABcc:AACddd", "abcc:aac", true)]
    [InlineData("ABcc:AACddd", "abcc:aacddd", true)]
    [InlineData("ABcc:AACddd", "abcc:aacdd", false)]
    [InlineData("ABcc:AACddd", "a:aac", false)]
    [InlineData("ABcc:AACddd", ":ab:aac", true)]
    [InlineData("ABcc:AACddd", ":abcc:aacdd", false)]
    [InlineData("A?", "A?", true)]
    [InlineData("A", "A?", false)]
    [InlineData("A?", "A", false)]
    [InlineData("[:ABcc]:AACddd", ":ab:aac", true)]
    [InlineData("[:ABcc]:AACddd", "aac", true)]
    [InlineData("[:ABcc]:AACddd", "aac?", false)]
    [InlineData("[:ABcc]:AACddd?", "aac?", true)]
    [InlineData("ABcc[:BCCdddd]:CDEFGeeeee", "ab:bcc:cdefg", true)]
    [InlineData("ABcc[:BCCdddd]:CDEFGeeeee", "ab:cdefg", true)]
    [InlineData("ABcc:BCCdddd[:CDEFGeeeee]", "ab:bcc", true)]
    [InlineData("ABcc:BCCdddd[:CDEFGeeeee]?", "ab:bcc?", true)]
    [InlineData("ABcc[:BCCdddd][:CDEFGeeeee][:DEFFFFFFFFFfffffffffff]", "ab:bcc:cdefg:deffffffffffffffffffff", true)]
    [InlineData("ABcc[:BCCdddd][:CDEFGeeeee][:DEFFFFFFFFFfffffffffff]", "ab:bcc:cdefg:de", false)]
    [InlineData("ABcc[:BCCdddd][:CDEFGeeeee][:DEFFFFFFFFFfffffffffff]", "ab:defffffffff", true)]
    [InlineData("*IDN?", "*idn?", true)]
    [InlineData("*IDN?", "idn?", false)]
    [InlineData("*IDN?", "*idn", false)]
    [InlineData("*IDN?", ":idn?", false)]
    [InlineData("*IDN?", ":*idn?", false)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", ":MEAS:CURR?", true)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", "MEAS:CURR?", true)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", "MEAS:SCAL:CURR?", true)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", "MEAS:SCAL:CURR:DC?", true)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", "MEAS:CURR:DC?", true)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", ":MEAS?", false)]
    [InlineData("MEASure[:SCALar]:CURRent[:DC]?", "MEAS:DC?", false)]
    [InlineData("OUTPut#:MODulation#:FM#", "outp1:mod10:fm", true)]
    [InlineData("OUTPut#:MODulation#:FM#", "output:mod:fm", true)]
    [InlineData("OUTPut#:MODulation#:FM#", "outp1:mod10a:fm", false)]
    public void Matches_HeadersOfAnIndependentParser_AsThere(string pattern, string header, bool expected) =>
        Assert.Equal(expected, new ScpiPattern(pattern).Matches(header));

    // Only the exact short and the exact long form are taken (SCPI-1999 volume 1, 6.2.1); an instrument maker's guide
    // names these two as errors.
    [Theory]
    [InlineData("VOLT", true)]
    [InlineData("voltage", true)]
    [InlineData("VOL", false)]
    [InlineData("VOLTAG", false)]
    public void Matches_NeitherShortNorLong_IsRefused(string header, bool expected) =>
        Assert.Equal(expected, new ScpiPattern("VOLTage").Matches(header));

    [Theory]
    [InlineData("MEASure[:DC")]
    [InlineData("MEASure::DC")]
    public void New_NoPattern_IsRefused(string pattern) => Assert.Throws<FormatException>(() => new ScpiPattern(pattern));
}
