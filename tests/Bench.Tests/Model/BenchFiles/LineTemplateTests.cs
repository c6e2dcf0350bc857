using Bench.Model.BenchFiles;
using CsCheck;

namespace Bench.Tests.Model.BenchFiles;

public class LineTemplateTests
{
    [Theory]
    [InlineData("relay {channel} {state}", "relay K1 on", "K1", "on")]
    [InlineData("{channel}={state}", "K1=1", "K1", "1")]
    [InlineData("{channel}={state}", "K1= 1", "K1", "1")]
    [InlineData("[{channel}:{state}]", "[a:b:c]", "a", "b:c")]
    [InlineData("{{{channel}}} {state}.", "{3} on.", "3", "on")]
    [InlineData("{channel} {any} {state}", "1 was set to on", "1", "set to on")]
    public void Match_LineThatFits_GivesItsFields(string template, string line, string channel, string state)
    {
        IReadOnlyDictionary<string, string> fields = Of(template).Match(line)!;
        Assert.Equal((channel, state), (fields["channel"], fields["state"]));
    }

    [Theory]
    [InlineData("relay {channel} {state}", "relay K1")]
    [InlineData("relay {channel} {state}", "Relay K1 on")]
    [InlineData("relay {channel} is {state}.", "relay K1 is on")]
    [InlineData("relay {channel} is {state}.", "relay K1 is .")]
    [InlineData("{channel}={state}", "=1")]
    [InlineData("ok", "okay")]
    [InlineData("{value} V", "")]
    [InlineData("{value} V", " V")]
    public void Match_LineThatDoesNotFit_IsNull(string template, string line) => Assert.Null(Of(template).Match(line));

    [Theory]
    [InlineData("{channel}{state}", "text is needed between two fields, else nothing says where the first ends")]
    [InlineData("relay {channel", "a brace opens or closes a field, e.g. {channel}; write {{ or }} for the sign itself")]
    [InlineData("relay channel}", "a brace opens or closes a field, e.g. {channel}; write {{ or }} for the sign itself")]
    [InlineData("a\tb", "letters, digits and signs of ASCII on one line are allowed")]
    [InlineData("größe", "letters, digits and signs of ASCII on one line are allowed")]
    public void TryRead_NoTemplate_SaysWhy(string text, string expected)
    {
        Assert.Equal(expected, LineTemplate.TryRead(text, out LineTemplate? template));
        Assert.Null(template);
    }

    [Fact]
    public void Match_FilledIn_GivesBackWhatWasFilledIn() =>
        Gen.Select(Word, Word, Among("{a} {b}", "x{a}={b}y", "{a}:{b}", "<{a}> <{b}>"), (a, b, text) => (a, b, text)).Sample(t =>
        {
            LineTemplate template = Of(t.text);
            IReadOnlyDictionary<string, string>? fields = template.Match(template.Fill(f => f == "a" ? t.a : t.b));
            return fields is not null && fields["a"] == t.a && fields["b"] == t.b;
        });

    [Fact]
    public void Match_AnyLine_EndsAndThrowsNothing() =>
        Gen.Select(Gen.String[Gen.Char[' ', '~'], 0, 60], Among("{a} {b}", "{a}aa{b}aa{c}", "a{a}a", "{{{a}}}"), (line, text) => (line, text)).Sample(t =>
        {
            IReadOnlyDictionary<string, string>? fields = Of(t.text).Match(t.line);
            Assert.True(fields is null || fields.Values.All(v => t.line.Contains(v, StringComparison.Ordinal)));
        });

    private static Gen<string> Word => Gen.String[Gen.Char['0', '9'], 1, 8];

    private static Gen<string> Among(params string[] texts) => Gen.Int[0, texts.Length - 1].Select(i => texts[i]);

    private static LineTemplate Of(string text)
    {
        Assert.Null(LineTemplate.TryRead(text, out LineTemplate? template));
        return template!;
    }
}
