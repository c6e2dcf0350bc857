using System.Globalization;
using Bench.Records.Canonical;
using CsCheck;

namespace Bench.Tests.Records.Canonical;

public class EcmaScriptNumberTests
{
    // RFC 8785 (June 2020), appendix B, "Number Serialization Samples": IEEE 754 bits and the text they must give.
    [Theory]
    [InlineData("0000000000000000", "0")]
    [InlineData("8000000000000000", "0")]
    [InlineData("0000000000000001", "5e-324")]
    [InlineData("8000000000000001", "-5e-324")]
    [InlineData("7fefffffffffffff", "1.7976931348623157e+308")]
    [InlineData("ffefffffffffffff", "-1.7976931348623157e+308")]
    [InlineData("4340000000000000", "9007199254740992")]
    [InlineData("c340000000000000", "-9007199254740992")]
    [InlineData("4430000000000000", "295147905179352830000")]
    [InlineData("44b52d02c7e14af5", "9.999999999999997e+22")]
    [InlineData("44b52d02c7e14af6", "1e+23")]
    [InlineData("44b52d02c7e14af7", "1.0000000000000001e+23")]
    [InlineData("444b1ae4d6e2ef4e", "999999999999999700000")]
    [InlineData("444b1ae4d6e2ef4f", "999999999999999900000")]
    [InlineData("444b1ae4d6e2ef50", "1e+21")]
    [InlineData("3eb0c6f7a0b5ed8c", "9.999999999999997e-7")]
    [InlineData("3eb0c6f7a0b5ed8d", "0.000001")]
    [InlineData("41b3de4355555553", "333333333.3333332")]
    [InlineData("41b3de4355555554", "333333333.33333325")]
    [InlineData("41b3de4355555555", "333333333.3333333")]
    [InlineData("41b3de4355555556", "333333333.3333334")]
    [InlineData("41b3de4355555557", "333333333.33333343")]
    [InlineData("becbf647612f3696", "-0.0000033333333333333333")]
    [InlineData("43143ff3c1cb0959", "1424953923781206.2")]
    public void Format_SampleOfTheStandard_IsAsPrinted(string bits, string expected) =>
        Assert.Equal(expected, EcmaScriptNumber.Format(BitConverter.UInt64BitsToDouble(ulong.Parse(bits, NumberStyles.HexNumber, CultureInfo.InvariantCulture))));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Format_NumberNotFinite_IsRefused(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => EcmaScriptNumber.Format(value));

    [Fact]
    public void Format_AnyFiniteNumber_ReadsBackAsTheSame() =>
        Gen.ULong.Select(BitConverter.UInt64BitsToDouble).Where(double.IsFinite).Sample(value =>
            Assert.Equal(value, double.Parse(EcmaScriptNumber.Format(value), CultureInfo.InvariantCulture)), iter: 20_000);
}
