using Bench.Devices.Scpi;
using Bench.Devices.Scpi.Server;

namespace Bench.Tests.Devices.Scpi.Server;

public class ScpiServerTests
{
    private readonly ScpiServer _server = new("MA,IN,0,VER", () => { });

    // Messages and answers: scpi-parser, libscpi/test/test_parser.c.
    [Theory]
    [InlineData("*IDN?", "MA,IN,0,VER")]
    [InlineData("*IDN?;*IDN?", "MA,IN,0,VER;MA,IN,0,VER")]
    [InlineData("SYST:VERS?", "1999.0")]
    [InlineData("SYST:ERR?", "0,\"No error\"")]
    [InlineData("SYSTem:ERRor:NEXT?", "0,\"No error\"")]
    public void Answer_Query_IsThatOfAnIndependentParser(string message, string expected) => Assert.Equal(expected, _server.Answer(message));

    [Theory]
    [InlineData("IDN?", "-113,\"Undefined header\"")]
    [InlineData("*IDN? 12", "-108,\"Parameter not allowed\"")]
    [InlineData("VOLT", "-109,\"Missing parameter\"")]
    [InlineData(";", "-102,\"Syntax error\"")]
    public void Answer_Mistake_IsInTheQueue(string message, string expected)
    {
        _server.On("VOLTage", 1, _ => null);
        Assert.Null(_server.Answer(message));
        Assert.Equal(expected, _server.Answer("SYST:ERR?"));
    }

    [Fact]
    public void Errors_SeveralWaiting_ComeOldestFirstAndOverflowAtTheEnd()
    {
        for (int i = 1; i <= ScpiServer.MostErrors + 3; i++)
        {
            _server.Refuse(new ScpiError(i, "own"));
        }

        string[] read = [.. Enumerable.Range(0, ScpiServer.MostErrors + 1).Select(_ => _server.Answer("SYST:ERR?")!)];
        Assert.Equal("1,\"own\"", read[0]);
        Assert.Equal("-350,\"Queue overflow\"", read[ScpiServer.MostErrors - 1]);
        Assert.Equal("0,\"No error\"", read[ScpiServer.MostErrors]);
    }

    [Fact]
    public void Answer_SecondUnitWithoutColon_GoesOnFromThePathBefore()
    {
        List<string> done = [];
        _server.On("SOURce:VOLTage", 1, p => { done.Add("volt " + p[0]); return null; });
        _server.On("SOURce:CURRent", 1, p => { done.Add("curr " + p[0]); return null; });
        Assert.Equal("0,\"No error\"", _server.Answer("SOUR:VOLT 24;CURR 3;:SYST:ERR?"));
        Assert.Equal(["volt 24", "curr 3"], done);
    }
}
